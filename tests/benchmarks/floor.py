"""The floor: the least that making pages of a book takes, in a process of its own.

For each recipe its file is read, the YAML in it loaded by PyYAML's C loader, its prose rendered by
markdown-it-py, and a page as large as the program's own rendered by a compiled Jinja template and
written; for the larder likewise. It checks nothing, computes nothing and shows no picture.

A page's outputs were counted once, with a `finalize` that counts, on the demo's 19 recipes: 2,317
`{{ }}` in 88,505 bytes on average, one in 38 bytes (its larder: 436 in 14,667). So the floor's page
has an output for every 38 bytes too, escaped, in rows as of a table.

    python tests/benchmarks/floor.py plan.json

The plan lists for each page the file it is made of, where it is written, and its bytes.
"""

from __future__ import annotations

import json
import sys
from pathlib import Path
from typing import Any, Final

import yaml
from jinja2 import Environment, Template
from markdown_it import MarkdownIt
from markupsafe import Markup

BYTES_PER_OUTPUT: Final = 38
COLUMNS: Final = 6
TEMPLATE: Final = """\
<!doctype html>
<html lang="en">
<head><meta charset="utf-8"><title>{{ title }}</title></head>
<body>
<h1>{{ title }}</h1>
<main>{{ prose }}</main>
<table>
{% for row in rows %}
<tr><td>{{ row.start }}</td><td>{{ row.back }}</td><td>{{ row.total }}</td>\
<td>{{ row.rest }}</td><td>{{ row.name }}</td><td>{{ row.about }}</td></tr>
{% endfor %}
</table>
</body>
</html>"""
END: Final = "\n</body>\n</html>"
ROW_BYTES: Final = COLUMNS * BYTES_PER_OUTPUT
MARKUP_BYTES: Final = len("<tr></tr>\n") + COLUMNS * len("<td></td>")
AROUND_BYTES: Final = 350
"""The head, the title twice and the foot, at most."""


def parted(text: str) -> tuple[str, str]:
    """Return the front matter of a recipe and its body; a larder is all of it YAML."""
    if not text.startswith("---\n"):
        return text, ""
    head, _, body = text[4:].partition("\n---\n")
    return head, body


def page(template: Template, reading: MarkdownIt, source: bytes, bytes_: int) -> str:
    """Return a page of about so many bytes of one file."""
    head, body = parted(source.decode("utf-8"))
    keys: dict[str, Any] = yaml.load(head, Loader=yaml.CSafeLoader)
    prose = Markup(reading.render(body))  # noqa: S704 - the renderer escapes
    rows = []
    for at in range(max(0, bytes_ - len(prose.encode()) - AROUND_BYTES) // ROW_BYTES):
        row = {"start": at, "back": 15, "total": at + 15, "rest": "12 min", "name": "leeks"}
        said = sum(len(str(cell)) for cell in row.values())
        rows.append({**row, "about": "x" * (ROW_BYTES - MARKUP_BYTES - said)})
    title = str(keys.get("title", "The larder"))
    text = template.render(title=title, prose=prose, rows=rows)
    filling = "x" * (bytes_ - len(text.encode()))  # less than a row or two
    return text.removesuffix(END) + filling + END


def main() -> None:
    """Make every page of a plan."""
    template = Environment(autoescape=True, trim_blocks=True).from_string(TEMPLATE)
    reading = MarkdownIt("commonmark")
    plan = json.loads(Path(sys.argv[1]).read_text(encoding="utf-8"))
    for source, out, bytes_ in plan:
        text = page(template, reading, Path(source).read_bytes(), bytes_)
        path = Path(out)
        path.parent.mkdir(parents=True, exist_ok=True)
        path.write_text(text, encoding="utf-8", newline="\n")


if __name__ == "__main__":
    main()
