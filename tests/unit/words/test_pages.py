"""No template has English of its own, and no page of the demo book shows any."""

from __future__ import annotations

import json
import re
from functools import cache
from pathlib import Path
from typing import TYPE_CHECKING, Any

import pytest
from bs4 import BeautifulSoup, Comment, Doctype
from jinja2 import nodes

from cookbook_build.findings import Findings
from cookbook_build.manuscript.collection import read_book
from cookbook_build.planning.reckoning import reckoned
from cookbook_build.publishing.pages import Pages
from cookbook_build.publishing.theme import environment, theme_folder
from cookbook_build.publishing.web_head import web_head
from cookbook_build.words import spoken

if TYPE_CHECKING:
    from collections.abc import Callable, Iterator

    from cookbook_build.planning.reckoning import Reckoning

DEMO = Path(__file__).parents[3] / "content_demo"
THEME = theme_folder()
TEMPLATES = sorted(
    path.relative_to(THEME).as_posix() for path in THEME.glob("*.html") if path.stem != "labels"
)
HEARD = ("aria-label", "alt", "title", "placeholder", "data-word")
LOOK_UP = {"_", "gettext", "ngettext", "pgettext", "npgettext"}


def shown(node: nodes.Node) -> str:
    """Return what a part of a template writes by itself, without what it looks up or is given."""
    if isinstance(node, nodes.TemplateData | nodes.Const):
        return str(node.value if isinstance(node, nodes.Const) else node.data)
    if isinstance(node, nodes.CondExpr):
        return " | ".join(shown(side) for side in (node.expr1, node.expr2) if side)
    if isinstance(node, nodes.Concat | nodes.Or | nodes.And | nodes.Filter):
        return " | ".join(shown(inner) for inner in node.iter_child_nodes())
    if isinstance(node, nodes.Call):
        return " | ".join(word for word in given(node) if re.match("[A-Z][a-z]", word))
    return ""


def given(node: nodes.Node) -> Iterator[str]:
    """Give the texts that a macro is called with, and not those that are looked up."""
    if isinstance(node, nodes.Call) and getattr(node.node, "name", "") in LOOK_UP:
        return
    if isinstance(node, nodes.Const):
        yield str(node.value)
    for inner in node.iter_child_nodes():
        yield from given(inner)


def words_of(html: str) -> list[str]:
    """Return what a reader sees or hears of a page, without its style, script and prose."""
    soup = BeautifulSoup(html, "html.parser")
    for unseen in soup.select("style, script, .prose"):
        unseen.decompose()
    heard = [tag[name] for tag in soup.select("*") for name in HEARD if name in tag.attrs]
    seen = [text for text in soup.find_all(string=True) if not isinstance(text, Doctype | Comment)]
    return [*map(str, seen), *map(str, heard)]


@pytest.mark.parametrize("name", TEMPLATES)
def test_a_template_looks_up_every_word(name: str, english_in: Callable[..., list[str]]) -> None:
    tree = environment(THEME).parse((THEME / name).read_text(encoding="utf-8"))
    html = "".join(shown(child) for out in tree.find_all(nodes.Output) for child in out.nodes)
    assert english_in(words_of(html)) == []


@pytest.mark.parametrize(
    "line",
    [
        "<p>Pour</p>", '<p aria-label="Pour"></p>', '{{ "Pour" if first else "Keep" }}',
        '{{ heads(["Store", _("Dried")]) }}', '{{ count ~ " servings" }}', "{{ part or 'none' }}",
    ],
)  # fmt: skip
def test_what_a_template_forgets_is_seen(line: str, english_in: Callable[..., list[str]]) -> None:
    tree = environment(THEME).parse(line)
    html = "".join(shown(child) for out in tree.find_all(nodes.Output) for child in out.nodes)
    assert english_in(words_of(html)) != []


@cache
def demo() -> Reckoning:
    book = read_book(DEMO, Findings())
    assert book
    return reckoned(book, Findings())


def own_words() -> list[str]:
    """Return the author's own words that each page shows, and the titles of the free pages."""
    book, pages = demo().book.book, demo().book.pages
    words = [book.title, book.author, book.contact, book.licence]
    words += [word for page in pages for word in (page.keys.title, page.keys.picture_text)]
    return [word for word in words if word]


def rendered(*names: str) -> list[str]:
    """Return the text of some pages."""
    found: dict[str, str] = {}
    for name, text in Pages(demo(), environment(THEME)).render():
        found[name] = text
        if set(names) <= set(found):
            break
    return [found[name] for name in names]


def json_ld(name: str) -> dict[str, Any]:
    """Return the JSON-LD of a recipe's page."""
    soup = BeautifulSoup(rendered(name)[0], "html.parser")
    script = soup.find("script", type="application/ld+json")
    assert script
    found: dict[str, Any] = json.loads(script.text)
    return found


@pytest.mark.usefixtures("bracketed")
def test_the_cautions_and_the_authors_pages_show_no_english(
    english_in: Callable[..., list[str]],
) -> None:
    names = ["cautions.html", *(f"pages/{page.address}.html" for page in demo().book.pages)]
    assert len(names) > 1
    assert english_in([words_of(page) for page in rendered(*names)], own=own_words()) == []


@pytest.mark.usefixtures("bracketed")
def test_json_ld_is_looked_up(
    english_in: Callable[..., list[str]],
) -> None:
    found = json_ld("recipes/beetroot-soup.html")
    assert "⟦add water⟧" in found["keywords"].split(", ")
    assert english_in(found["keywords"].split(", "), found["recipeYield"]) == []
    assert re.search(r"⟦ water: pour ⟧.*⟦, keep ⟧.*⟦ back⟧", found["recipeIngredient"][-1])
    assert found["nutrition"]["servingSize"].startswith("⟦1 serving, ⟧")


def test_the_numbers_of_json_ld_have_a_point_in_every_language() -> None:
    """A number there has a full stop as its decimal mark: https://schema.org/Number."""
    with spoken("es"):
        found = json_ld("recipes/beetroot-soup.html")["nutrition"]
    amounts = [value for name, value in found.items() if name.endswith("Content")]
    assert any(re.match(r"\d+\.\d+ m?g$", amount) for amount in amounts)
    assert not [amount for amount in amounts if "," in amount]


@pytest.mark.usefixtures("bracketed")
def test_what_a_shared_page_says_of_its_book_is_looked_up() -> None:
    book = demo().book.book.model_copy(update={"author": "Lin", "title": "Soup"})
    head = web_head(book, "larder.html", {"title": "x"}, None)
    assert head
    assert dict(head.properties)["og:description"] == "⟦From ⟧Soup⟦, by ⟧Lin⟦.⟧"
