"""Pages with schema.org's Recipe as JSON-LD, read as an extractor that is not ours reads them.

Property names are those of SCHEMA-RECIPE; the recipes are invented.
"""

from __future__ import annotations

import csv
import json
import re
from pathlib import Path
from typing import TYPE_CHECKING, Any

import pytest
from extruct.jsonld import JsonLdExtractor

from cookbook_build.findings import Findings
from cookbook_build.manuscript.brought.files import read_brought
from cookbook_build.manuscript.brought.lines import Shelf
from cookbook_build.manuscript.collection import read_book
from cookbook_build.manuscript.drafting import drafted
from cookbook_build.planning.bringing import drafts_of

if TYPE_CHECKING:
    from cookbook_build.manuscript.brought.recipe import Brought
    from cookbook_build.manuscript.recipes import Recipe

DEMO = Path(__file__).parents[2] / "content_demo"

LINES = ("1 cup lentils", "2 tbsp leeks")
STEPS = ("Pour the water over.", "Cover, and wait.")
PLAIN: dict[str, Any] = {
    "@context": "https://schema.org",
    "@type": "Recipe",
    "name": "Lentil bowl",
    "recipeYield": "2 servings",
    "recipeIngredient": list(LINES),
    "recipeInstructions": [{"@type": "HowToStep", "text": text} for text in STEPS],
}


def page(*pieces: object, script: str = '<script type="application/ld+json">') -> str:
    """Return a page that holds pieces of JSON-LD."""
    held = "".join(f"{script}{json.dumps(p, ensure_ascii=False)}</script>" for p in pieces)
    return f"<!doctype html><html><head><title>A bowl</title>{held}</head><body>x</body></html>"


def changed(**keys: object) -> dict[str, Any]:
    """Return the plain recipe with some of its keys changed; None leaves one out."""
    return {key: value for key, value in (PLAIN | keys).items() if value is not None}


SITE = {"@type": "WebSite", "name": "By the river"}
SECTIONS = [
    {"@type": "HowToSection", "name": "Pour", "itemListElement": [PLAIN["recipeInstructions"][0]]},
    {
        "@type": "HowToSection",
        "name": "Wait",
        "itemListElement": {"@type": "HowToStep", "text": STEPS[1], "image": "b.jpg"},
    },
]
PAGES = {
    "plain": page(PLAIN),
    "in a graph": page({"@context": "https://schema.org", "@graph": [SITE, changed()]}),
    "in a list": page([SITE, PLAIN]),
    "in a script of its own among others": page(SITE, PLAIN, {"@type": "BreadcrumbList"}),
    "within a page's node": page({"@type": "WebPage", "mainEntity": PLAIN}),
    "of two types": page(changed(**{"@type": ["Recipe", "NewsArticle"]})),
    "type by its address": page(changed(**{"@type": "http://schema.org/Recipe"})),
    "yield as a number": page(changed(recipeYield=2)),
    "yield as a list": page(changed(recipeYield=["2", "2 servings"])),
    "yield in words": page(changed(recipeYield="Serves 2")),
    "steps as one text": page(changed(recipeInstructions="\n".join(STEPS))),
    "steps as texts": page(changed(recipeInstructions=list(STEPS))),
    "steps as markup": page(
        changed(recipeInstructions="<ol>" + "".join(f"<li>{text}</li>" for text in STEPS) + "</ol>")
    ),
    "steps numbered": page(changed(recipeInstructions=f"1. {STEPS[0]}\n2. {STEPS[1]}")),
    "steps in sections": page(changed(recipeInstructions=SECTIONS)),
    "steps as a list of things": page(
        changed(
            recipeInstructions={
                "@type": "ItemList",
                "itemListElement": [{"@type": "ListItem", "item": s} for s in STEPS],
            }
        )
    ),
    "steps by name": page(
        changed(recipeInstructions=[{"@type": "HowToStep", "name": text} for text in STEPS])
    ),
    "steps of directions": page(
        changed(
            recipeInstructions=[
                {
                    "@type": "HowToStep",
                    "itemListElement": [{"@type": "HowToDirection", "text": t} for t in STEPS],
                }
            ]
        )
    ),
    "ingredients under their older name": page(
        changed(recipeIngredient=None, ingredients=list(LINES))
    ),
    "ingredients as one text": page(changed(recipeIngredient="\n".join(LINES))),
    "escaped": page(
        changed(name="Lentil&nbsp;bowl", recipeIngredient=["1 cup&#32;lentils", LINES[1]])
    ),
    "escaped twice": page(changed(name="Lentil &amp;nbsp;bowl")),
    "with bullets": page(changed(recipeIngredient=[f"• {line}" for line in LINES])),
    "a parameter in the script's type": page(
        PLAIN, script='<script id="a" type="application/ld+json; charset=utf-8">'
    ),
    "line breaks in a text": page(PLAIN).replace("over.", "over.\n", 1),
    "wrapped in a comment": page(PLAIN).replace('+json">', '+json"><!--').replace(
        "}</script>", "}--></script>"
    ),
    "in a comment of the page, and outside": "<!-- " + page(SITE) + " -->" + page(PLAIN),
    "deep in a page": "<div>" * 600 + page(PLAIN) + "</div>" * 600,
    "the same twice": page(PLAIN, PLAIN),
}  # fmt: skip
OTHER_THAN_THEIRS = {  # what the other extractor does not take
    "a parameter in the script's type",
    "deep in a page",
    "wrapped in a comment",
}


def brought(text: str, tmp_path: Path, name: str = "bowl.html") -> tuple[list[Brought], Findings]:
    """Return the recipes of a file, and what was found."""
    path = tmp_path / name
    path.write_text(text, encoding="utf-8")
    findings = Findings()
    return read_brought(path, findings), findings


@pytest.mark.parametrize("form", PAGES)
def test_a_recipe_is_the_same_in_every_form(form: str, tmp_path: Path) -> None:
    (recipe,), findings = brought(PAGES[form], tmp_path)
    assert not list(findings)
    assert recipe.title == "Lentil bowl"
    assert recipe.serves == 2
    assert recipe.lines == LINES
    assert recipe.steps == STEPS


def recipes_within(value: object) -> list[dict[str, Any]]:
    """Return the Recipe nodes of what the other extractor gives."""
    if isinstance(value, list):
        return [node for each in value for node in recipes_within(each)]
    if not isinstance(value, dict):
        return []
    types = value.get("@type", "")
    if any(
        str(kind).endswith("Recipe") for kind in (types if isinstance(types, list) else [types])
    ):
        return [value]
    return [node for each in value.values() for node in recipes_within(each)]


@pytest.mark.parametrize("form", sorted(set(PAGES) - OTHER_THAN_THEIRS))
def test_another_extractor_finds_the_same_recipe(form: str, tmp_path: Path) -> None:
    theirs = recipes_within(JsonLdExtractor().extract(PAGES[form]))
    (recipe,), _ = brought(PAGES[form], tmp_path)
    assert theirs
    for node in theirs:
        said = json.dumps(node, ensure_ascii=False)
        for line in recipe.lines:
            assert line in re.sub("&#32;", " ", said)
        listed = node.get("recipeIngredient") or node.get("ingredients") or []
        assert len(recipe.lines) == len(listed.split("\n") if isinstance(listed, str) else listed)


def test_json_in_a_file_of_its_own_is_read(tmp_path: Path) -> None:
    (recipe,), findings = brought(json.dumps(PLAIN), tmp_path, "bowl.json")
    assert not list(findings)
    assert (recipe.title, recipe.lines, recipe.steps) == ("Lentil bowl", LINES, STEPS)


def test_sections_keep_their_names(tmp_path: Path) -> None:
    (recipe,), _ = brought(PAGES["steps in sections"], tmp_path)
    assert [p.text for p in recipe.method if p.kind == "heading"] == ["Pour", "Wait"]


def test_an_author_is_found_by_the_name_in_the_graph(tmp_path: Path) -> None:
    graph = [
        changed(author={"@id": "#me"}, url="https://example.org/bowl"),
        {"@type": "Person", "@id": "#me", "name": "N. Householder"},
    ]
    (recipe,), _ = brought(page({"@graph": graph}), tmp_path)
    assert (recipe.credit, recipe.address) == ("N. Householder", "https://example.org/bowl")


def test_a_page_says_where_it_stood(tmp_path: Path) -> None:
    text = page(PLAIN).replace(
        "<title>", '<link rel="canonical" href="https://example.org/b"><title>'
    )
    (recipe,), _ = brought(text, tmp_path)
    assert recipe.address == "https://example.org/b"


@pytest.mark.parametrize(
    "address", ["javascript:alert(1)", "data:text/html,x", "/bowl", "file:///x"]
)
def test_an_address_that_is_none_on_the_web_is_no_link(address: str, tmp_path: Path) -> None:
    (recipe,), _ = brought(page(changed(url=address)), tmp_path)
    assert recipe.address == ""


@pytest.mark.parametrize(
    ("written", "said"),
    [("PT1H20M", "1 h 20 min"), ("PT0S", "none"), ("P1DT2H", "1 d 2 h"), ("a while", "a while")],
)
def test_times_are_said_as_a_cook_says_them(written: str, said: str, tmp_path: Path) -> None:
    # durations as ISO 8601 writes them, which schema.org's Duration is
    (recipe,), _ = brought(page(changed(cookTime=written)), tmp_path)
    assert f"time for cooking: {said}" in recipe.notes


def properties() -> list[dict[str, str]]:
    """Return the rows of the list of schema.org's names that a recipe may have."""
    path = Path(__file__).with_name("schema_recipe.csv")
    lines = path.read_text(encoding="utf-8").splitlines()
    return list(csv.DictReader(line for line in lines if not line.startswith("#")))


WORD = "zanthumberry"
VALUES: dict[str, Any] = {
    "URL": f"https://example.org/{WORD}",
    "Person": {"@type": "Person", "name": WORD},
    "HowToStep": [{"@type": "HowToStep", "text": WORD}],
    "NutritionInformation": {"@type": "NutritionInformation", "calories": f"{WORD} kcal"},
    "Duration": WORD,
}


@pytest.mark.parametrize(
    "row", [r for r in properties() if r["type"] == "Recipe"], ids=lambda row: row["property"]
)
def test_nothing_that_schema_org_has_for_a_recipe_is_lost(
    row: dict[str, str], tmp_path: Path
) -> None:
    value = VALUES.get(row["expects"], f"1 cup {WORD}")
    (recipe,), _ = brought(page(changed(**{row["property"]: value})), tmp_path)
    assert WORD in drafted(recipe, Shelf(), came_from="bowl.html")


def test_each_recipe_of_a_page_is_brought_and_that_is_said(tmp_path: Path) -> None:
    recipes, findings = brought(page(PLAIN, changed(name="Leek bowl")), tmp_path)
    assert [recipe.title for recipe in recipes] == ["Lentil bowl", "Leek bowl"]
    (finding,) = findings
    assert "2 recipes" in finding.cause


def test_a_recipe_that_is_only_named_is_left_out(tmp_path: Path) -> None:
    named = {"@type": "Recipe", "name": "Leek bowl", "url": "https://example.org/leek"}
    recipes, findings = brought(
        page({"@type": "ItemList", "itemListElement": [named]}, PLAIN), tmp_path
    )
    assert [recipe.title for recipe in recipes] == ["Lentil bowl"]
    (finding,) = findings.warnings
    assert 'no ingredients were found for "Leek bowl"' in finding.cause


def test_the_meals_of_the_demo_come_back_from_their_own_pages(
    demo_pages: dict[str, str], tmp_path: Path
) -> None:
    brought = []
    for name, text in demo_pages.items():
        if "ld+json" in text:
            page = tmp_path / Path(name).name
            page.write_text(text, encoding="utf-8", newline="\n")
            brought += read_brought(page, Findings())
    findings = Findings()
    drafts = drafts_of(brought, DEMO, findings, came_from="pages")
    assert not findings.errors
    assert not [f for f in findings.warnings if "before drying" in f.cause]
    meals = read_book(DEMO, Findings(), drafts=[draft.source for draft in drafts])
    assert meals
    own = {r.keys.title: r for r in meals.meals if r.path not in {d.path for d in drafts}}
    assert len(drafts) == len(own) > 10
    for draft in drafts:
        again, twin = meals.recipes[draft.address], own[draft.recipe.title]
        assert stores(again) == stores(twin)
        assert (again.keys.series, again.keys.serves) == (twin.keys.series, twin.keys.serves)


def stores(recipe: Recipe) -> list[tuple[str | None, bool]]:
    """Return the store of each line of a recipe, and whether it may be left out."""
    return [(line.store, line.optional) for part in recipe.components for line in part.ingredients]
