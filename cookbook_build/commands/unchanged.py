"""What was bound already: recognised before anything slow is loaded, and told once more.

A record in the user's cache folder holds a digest of all that a book was bound from, one of all
that came out, and what was said. It counts only while every byte of both is the same; a record that
is torn, changed or strange is passed over, and the book is bound.
"""

from __future__ import annotations

import contextlib
import datetime as dt
import hashlib
import json
import os
from dataclasses import dataclass
from typing import TYPE_CHECKING, Any

from cookbook_build.findings import Finding
from cookbook_build.program import StrangeError, program, tree_digest
from cookbook_build.user_folder import kept_folder
from cookbook_build.walking import real

if TYPE_CHECKING:
    from collections.abc import Iterable
    from pathlib import Path


@dataclass(frozen=True, slots=True)
class Record:
    """A book and the folder that it is bound into, as both are now."""

    path: Path
    out: Path
    key: str

    def read(self) -> tuple[list[Finding], list[str]] | None:
        """Return the findings and the lines of the last binding, if nothing changed since."""
        try:
            kept = json.loads(self.path.read_bytes())
            body = kept["body"]
            if kept["digest"] != _digest_of(self.key, body):
                return None
            if body["out"] != tree_digest(self.out):
                return None
            found = list(map(Finding.of_json, body["findings"]))
            return found, list(map(str, body["said"]))
        except (OSError, ValueError, TypeError, KeyError, AttributeError, StrangeError):
            return None

    def keep(self, findings: Iterable[Finding], said: list[str]) -> None:
        """Keep what a binding said; a full or forbidden disk only means to bind again."""
        from cookbook_build.whole_files import put  # noqa: PLC0415 - not for help

        with contextlib.suppress(OSError, StrangeError):
            listed = [found.as_json() for found in findings]
            body = {"out": tree_digest(self.out), "findings": listed, "said": said}
            text = json.dumps({"digest": _digest_of(self.key, body), "body": body})
            self.path.parent.mkdir(mode=0o700, parents=True, exist_ok=True)
            put(self.path, text.encode())


def record_of(book: Path, out: Path) -> Record | None:
    """Return the record of a book and where it goes, None where nothing certain can be kept."""
    root = kept_folder("bound", book)
    try:
        if root is None or out.is_symlink() or root.is_relative_to(real(out)):
            return None
        both = json.dumps([str(real(book)), str(real(out))])
        name = hashlib.sha256(both.encode("utf-8", "surrogatepass")).hexdigest()
        told = [str(book), str(out), dt.datetime.now().astimezone().date().isoformat()]
        dated = os.environ.get("SOURCE_DATE_EPOCH")
        text = [program(), told, dated, tree_digest(book, besides=real(out))]
        return Record(root / f"{name}.json", out, _digest_of("", text))
    except (OSError, RuntimeError, ValueError, StrangeError):
        return None


def _digest_of(key: str, body: Any) -> str:  # noqa: ANN401 - plain data
    return hashlib.sha256((key + json.dumps(body, sort_keys=True)).encode()).hexdigest()
