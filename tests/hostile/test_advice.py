"""Every caution of design.md, section 7: told where its condition holds, and silent where not.

A small book in which nothing is amiss is changed by one condition at a time. Each row says what
the recipe's page, the label, the e-book and the data for programs say of it then; the sound book
says none of that. What is refused says why, and binds nothing.

The cautions are the trade's; where their figures come from stands in
`tests/published/test_kitchen_safety.py`, which holds them against the published charts.
"""

from __future__ import annotations

import ast
import functools
import json
import re
from dataclasses import dataclass
from pathlib import Path
from typing import TYPE_CHECKING, Final

import pytest
from babel.messages.pofile import read_po
from bs4 import BeautifulSoup
from click.testing import CliRunner

import cookbook_build
from cookbook_build.cli import main
from tests.figures import figure
from tests.folders import held, within

if TYPE_CHECKING:
    from collections.abc import Callable, Iterator, Mapping

PACKAGE: Final = Path(cookbook_build.__file__).parent
THEMES: Final = PACKAGE.parent / "themes"
BOOK: Final = {
    "book.yaml": """\
title: A small book
measures: us-cups
altitude: 310 m
servings: [1, 2]
series:
  Bowls: {about: Warm ones.}
kit:
  jar: {holds: 350 mL, label: 65 C after 6 h, lunch: 4 h}
  pouches: [{name: small pouch, width: 15 cm, height: 20 cm}]
  absorbers: [100 mL, 300 mL]
""",
    "larder.yaml": """\
lentils: {food: lentils cooked, dried: freeze, cooked first: true}
leeks: {food: leeks raw, dried: freeze, form: sliced}
turkey: {food: ground turkey cooked, dried: freeze, form: crumbs, weighs: 58 g per cup}
sweet: {food: honey, dried: bought}
milk: {food: milk whole, dried: freeze, form: powder, weighs: 96 g per cup}
barley: {food: pearl barley cooked, dried: freeze, cooked first: true}
""",
    "recipes/bowls/bowl.md": """\
---
title: Lentil bowl
series: Bowls
part: 1
consistency: stew
methods: [kettle, stove, jar]
ingredients:
  - 1 cup lentils
  - 3 tbsp leeks
---
Pour {water} and wait {rest}.
""",
    "recipes/bowls/turkey.md": """\
---
title: Turkey bowl
series: Bowls
part: 2
consistency: stew
methods: [stove]
ingredients:
  - 1/2 cup lentils
  - 1 cup turkey (optional)
---
Pour {water} and wait {rest}.
""",
    "menus/m.yaml": """\
title: A day
date: 2026-06-20
packed: 2026-06-01
meals:
  - {day: 1, meal: lunch, recipe: bowl}
  - {day: 1, meal: supper, recipe: bowl}
""",
    "stock.csv": """\
store,lot,packed on,container,grams
lentils,L1,2026-05-01,small pouch,300
leeks,K1,2026-05-01,small pouch,90
""",
    "drying-log.csv": """\
date,store,lot,fresh g,dry g,hours,trays,last check
2026-04-28,lentils,L1,1000,305,26,2,305
2026-04-28,leeks,K1,900,160,26,2,160
""",
}
RAW: Final = (
    "larder.yaml",
    "turkey: {food: ground turkey cooked,",
    "turkey: {food: ground turkey raw, raw: true,",
)
TURKEY: Final = ("menus/m.yaml", "supper, recipe: bowl", "supper, recipe: turkey")
JAR_AT_LUNCH: Final = ("menus/m.yaml", "lunch, recipe: bowl", "lunch, recipe: bowl, method: jar")
BEANS: Final = "lentils: {food: lentils cooked, dried: freeze, cooked first: true}"
Edit = tuple[str, str, str]


@dataclass(frozen=True)
class Told:
    """One condition: how it comes about, and what each kind of output says of it."""

    edits: tuple[Edit, ...]
    page: tuple[str, ...] = ()
    label: tuple[str, ...] = ()
    book: tuple[str, ...] = ()  # the e-book
    data: tuple[str, ...] = ()  # `provision --json` and `water --json`
    proof: tuple[str, ...] = ()


TOLD: Final = {
    "a jar too large for the meal": Told(
        (JAR_AT_LUNCH, ("book.yaml", "350 mL", "1000 mL")),
        page=("This jar is too large for the meal to be safe at lunch.",
              ("It falls below 60 °C (140 °F) after 1 h 25 min and is to be eaten within "
               "3 h 25 min of the pour; lunch is at 4 h.")),
        label=("Eat within 3 h 25 min of pouring.",),
        book=("This jar is too large for the meal to be safe at lunch.",
              "It falls below 60 °C (140 °F) after 1 h 25 min"),
        data=("This jar is too large for the meal to be safe at lunch.",
              "is to be eaten within 3 h 25 min of the pour"),
        proof=("the jar of the kit is too large for this meal", "60 °C after 1.4 h"),
    ),
    "a meal that soaks in the cold": Told(
        (("recipes/bowls/bowl.md", "stove, jar", "cold"),
         ("menus/m.yaml", "recipe: bowl", "recipe: bowl, method: cold")),
        page=("The clock runs from the pour.", "Eat it within 2 h, or keep it cold all the time",
              "where the air is above 32 °C that time is one hour"),
        label=("Eat within 2 h of pouring, or keep it chilled.",),
        book=("The clock runs from the pour.", "Eat it within 2 h, or keep it cold all the time"),
        data=("The clock runs from the pour.", "Eat it within 2 h, or keep it cold all the time"),
    ),
    "a store that was dried raw": Told(
        (RAW, TURKEY),
        page=("Raw turkey.", ("Cook it until the middle of the biggest piece reaches 74 °C (165 °F)"
              ": drying kills no germs.")),
        label=("Raw turkey: cook to 74 °C (165 °F) inside.",),
        book=("Raw turkey.", "the biggest piece reaches 74 °C (165 °F): drying kills no germs."),
        data=('"raw_stores": [ "turkey" ]', "the biggest piece reaches 74 °C (165 °F)"),
    ),
    "a store that was dried raw, where water boils too cool": Told(
        (RAW, TURKEY, ("book.yaml", "310 m", "8500 m"), ("recipes/bowls/bowl.md", ", jar", "")),
        page=("Raw turkey.", "below the 74 °C (165 °F) it must reach: it can't be cooked through"),
        label=("only under pressure",),
        book=("Raw turkey.", "below the 74 °C (165 °F) it must reach: it can't be cooked through"),
        data=('"raw_stores": [ "turkey" ]', "it can't be cooked through in a pot without pres"),
    ),
    "a lot that came out damp": Told(
        (("drying-log.csv", "900,160,26,2,160", "900,200,26,2,200"),),
        page=(("Lot K1 of leeks holds 23 % water by its weights, more than 10 %: dry it again "
              "before it goes into a sealed pack, and never seal it with an absorber."),),
        book=("Lot K1 of leeks holds 23 % water by its weights", "never seal it with an absorber."),
        data=('"why": "damp"', "holds 23 % water: dry it again"),
        proof=("holds 23 % water, more than the 10 % that sealed keeping allows",
               "dry it again and weigh it again; until then no menu counts on it"),
    ),
    "a mix that is damp by its stores": Told(
        (("larder.yaml", "sweet: {food: honey, dried: bought}",
          "sweet: {food: honey, dried: bought, weighs: 21 g per tbsp}"),
         ("recipes/bowls/bowl.md", "  - 3 tbsp leeks\n", "  - 3 tbsp leeks\n  - 1/2 cup sweet\n")),
        page=("No absorber goes with", "Damp food without air can grow botulism"),
        label=("No absorber:",),
        book=("No absorber goes with", "Damp food without air can grow botulism"),
        data=('"absorbers_ml": [],',),
    ),
    "fat in the mix": Told(
        (("recipes/bowls/bowl.md", "  - 3 tbsp leeks\n", "  - 3 tbsp leeks\n  - 1/4 cup milk\n"),),
        page=("milk sets that",),
        label=("best by 2026-12-01", "Contains milk."),
        book=("milk sets that",),
        data=('"shortest": "milk"', '"best_by": "2026-12-01"',
              '"allergens_as_entered": [ "milk" ]'),
    ),
    "honey for the dryer": Told(
        (("larder.yaml", "honey, dried: bought", "honey, dried: freeze"),),
        proof=("honey does not suit a freeze dryer (sugar)", "leave it fresh or bought"),
    ),
    **{
        f"{food} for the dryer": Told(
            (("larder.yaml", "honey, dried: bought", f"{food}, dried: freeze"),),
            proof=(f"does not suit a freeze dryer ({why})", "leave it fresh or bought"),
        )
        for food, why in {
            "butter salted": "fat", "olive oil": "fat", "lard": "fat", "jam": "sugar",
            "dark chocolate": "chocolate",
        }.items()
    },
}  # fmt: skip
REFUSED: Final = {
    **{
        f"{way} for a store that was dried raw": (
            (RAW, ("recipes/bowls/turkey.md", "[stove]", f"[stove, {way}]")),
            f'"{way}" does not cook "turkey", which was dried raw',
        )
        for way in ("kettle", "jar", "cold")
    },
    "raw meat that nobody says is raw": (
        ((RAW[0], RAW[1], RAW[2].replace(" raw: true,", "")),),
        '"ground turkey raw" is raw, and drying does not kill germs',
    ),
    **{
        f"{food} that nobody cooked": (
            (("larder.yaml", BEANS, f"lentils: {{food: {food}, dried: bought}}"),),
            f'hot water alone does not cook "{food}"{more}',
        )
        for food, more in {
            "kidney beans dry": ", and undercooked it is poisonous", "white rice dry": "",
            "pearl barley dry": "", "lentils dry": "",
        }.items()
    },
    "a fizzy drink, which the table lacks": (
        (("larder.yaml", "honey, dried: bought", "cola, dried: freeze"),),
        'there is no food called "cola" in the reference table',
    ),
    "a raw root that nobody cooked": (
        (("larder.yaml", "leeks: {food: leeks raw,", "leeks: {food: potatoes raw,"),),
        'hot water alone does not cook "potatoes raw"',
    ),
}  # fmt: skip
COOKED: Final = {
    "kidney beans that were cooked first": (
        ("larder.yaml", BEANS, BEANS.replace("lentils cooked", "kidney beans cooked")),
    ),
    "a raw root that was cooked first": (
        ("larder.yaml", "leeks: {food: leeks raw,",
         "leeks: {food: potatoes boiled, cooked first: true,"),
    ),
}  # fmt: skip


def written(folder: Path, edits: tuple[Edit, ...] = ()) -> Path:
    """Write the book with some edits."""
    files = dict(BOOK)
    for name, old, new in edits:
        assert old in files[name], (name, old)
        files[name] = files[name].replace(old, new)
    for name, text in files.items():
        (folder / name).parent.mkdir(parents=True, exist_ok=True)
        (folder / name).write_text(text, encoding="utf-8")
    return folder


def plain(text: str) -> str:
    """Return a text with every space a plain one, and no soft hyphens."""
    return re.sub(r"\s+", " ", text.replace("\xad", ""))


def words_of(page: str | bytes) -> str:
    """Return what a page says."""
    return plain(BeautifulSoup(page, "html.parser").get_text(" ").replace(" .", "."))


def run(*arguments: str) -> str:
    """Return what a command printed."""
    result = CliRunner().invoke(main, arguments)
    assert isinstance(result.exception, SystemExit | None), result.exception
    return plain(result.stdout)


def said(folder: Path, edits: tuple[Edit, ...] = ()) -> Mapping[str, str]:
    """Return what each kind of output says of the book with some edits."""
    book, out = written(folder / "book", edits), folder / "out"
    found = {"proof": plain(CliRunner().invoke(main, ["proof", str(book)]).output)}
    ran = CliRunner().invoke(main, ["bind", str(book), "--out", str(out)])
    assert ran.exit_code == 0, ran.output
    pages = sorted((out / "recipes").glob("*.html"))
    found["page"] = " ".join(words_of(page.read_bytes()) for page in pages)
    found["label"] = words_of((out / "lists/m-labels.html").read_bytes())
    whole = within({"a-small-book.epub": (out / "a-small-book.epub").read_bytes()})
    found["book"] = " ".join(words_of(data) for name, data in whole if "recipe-" in name)
    bowl = (book / "recipes/bowls/bowl.md").read_text(encoding="utf-8")
    ways = re.findall(r"(?m)^methods: \[(.*)\]", bowl)[0].split(", ")
    asked = [("bowl", way) for way in ways] + [("turkey", "stove")]
    data = [run("provision", "m", "--book", str(book), "--json")]
    data += [run("water", at, "--book", str(book), "--method", way, "--json") for at, way in asked]
    for each in data:
        assert "Follow your local food-safety guidance" in json.loads(each)["guidance"]
    found["data"] = " ".join(data)
    return found


@pytest.fixture(scope="module")
def sound(tmp_path_factory: pytest.TempPathFactory) -> Mapping[str, str]:
    return said(tmp_path_factory.mktemp("sound"))


@pytest.mark.parametrize("name", TOLD)
def test_a_caution_is_told_where_its_condition_holds_and_only_there(
    name: str,
    sound: Mapping[str, str],
    tmp_path: Path,
    record_property: Callable[[str, object], None],
) -> None:
    told = TOLD[name]
    found, count = said(tmp_path, told.edits), 0
    for kind in ("page", "label", "book", "data", "proof"):
        for words in getattr(told, kind):
            assert words in found[kind], (kind, words)
            assert words not in sound[kind], (kind, words)
            count += 1
    assert count
    figure(record_property, "cautions told where their condition holds, and only there", count)


@pytest.mark.parametrize("name", REFUSED)
def test_what_hot_water_can_t_make_good_is_refused(name: str, tmp_path: Path) -> None:
    edits, cause = REFUSED[name]
    book, out = written(tmp_path / "book", edits), tmp_path / "out"
    result = CliRunner().invoke(main, ["bind", str(book), "--out", str(out)])
    assert result.exit_code == 1
    assert cause in plain(result.output), result.output
    assert not out.exists()


@pytest.mark.parametrize("name", COOKED)
def test_what_was_cooked_first_is_taken(name: str, tmp_path: Path) -> None:
    text = run("proof", str(written(tmp_path, COOKED[name])))
    assert "does not cook" not in text
    assert "poisonous" not in text


@pytest.fixture(scope="module")
def pages(tmp_path_factory: pytest.TempPathFactory) -> Mapping[str, str]:
    out = tmp_path_factory.mktemp("demo") / "out"
    demo = PACKAGE.parent / "content_demo"
    ran = CliRunner().invoke(main, ["bind", str(demo), "--out", str(out)])
    assert ran.exit_code == 0, ran.output
    kinds = (".html", ".xhtml")
    files = within(held(out))
    return {name: words_of(data) for name, data in files if name.endswith(kinds)}


def test_no_page_is_without_its_line_of_caution(
    pages: Mapping[str, str], record_property: Callable[[str, object], None]
) -> None:
    bare = [name for name, text in pages.items() if "local food-safety guidance" not in text]
    assert [name for name in bare if not name.endswith("/cover.xhtml")] == []  # a picture alone
    figure(record_property, "pages with their line of caution", len(pages) - len(bare))


GENERAL: Final = {
    "Babies, people who are pregnant, old or ill, and anyone on a medical diet: ask those who care",
    "What this book says about ingredients is as the author entered it; read the packs yourself",
    "Any date in this book is a date of quality, not of safety.",
    "Drying kills no germs",
    "Undercooked kidney beans and their kin are poisonous.",
    "two hours in all, one hour where the air is above 32 °C",
    "Damp food sealed without air can grow the germ of botulism",
    "Your local food-safety guidance outranks this page.",
}


@pytest.mark.parametrize("words", sorted(GENERAL))
def test_the_cautions_of_every_book_stand_in_every_edition(
    words: str, pages: Mapping[str, str]
) -> None:
    editions = {name.split("/")[0] for name in pages if ".epub" in name or "in-one-file" in name}
    assert len(editions) == 8
    holding = {name for name, text in pages.items() if words in text}
    assert "cautions.html" in holding
    assert {name.split("/")[0] for name in holding} >= editions


def test_allergens_are_the_author_s_on_every_meal_s_page(pages: Mapping[str, str]) -> None:
    meals = [text for name, text in pages.items() if "Nourishment" in text and "recipe" in name]
    assert len(meals) > 20
    for text in meals:
        assert re.search("Allergens ?, as entered by the author:", text)
        assert "Read the packs yourself." in text


DATE: Final = re.compile(r"\b20\d\d-\d\d-\d\d\b|\bbest by\b|\bBest within\b", re.IGNORECASE)
SAFE: Final = re.compile(r"\bsafe(ly|ty)?\b", re.IGNORECASE)


def test_no_date_is_called_safe(pages: Mapping[str, str]) -> None:
    dated = 0
    for name, text in pages.items():
        for sentence in re.split(r"(?<=[.;:!?]) ", text):
            if DATE.search(sentence):
                dated += 1
                kept = re.sub("not (of )?safety", "", sentence)
                assert not SAFE.search(kept), (name, sentence)
    assert dated > 100


PROMISES: Final = re.compile(
    r"\bsafe(ly)? (for|to|until|when|if|as long)\b|\b(is|are|stays?|keeps?|remains?) safe\b"
    r"|\bsafe(ly)? (eat|keep|store|hold|reuse)|\bperfectly safe|\bsafety is\b|\bsteril|guarantee"
    r"|\bno risk|risk-free|\bkills (all|the|every|most) germs|\bcures?\b|\bhealthy\b|\bfoolproof"
    r"|\bnever spoils?|\bkeeps? (for ever|forever)|\bcan't spoil|\bwon't spoil",
    re.IGNORECASE,
)
"""Claims that no source of ours carries: of safety, of health, of keeping without end."""
DENIED: Final = re.compile(
    r"too large for the meal to be safe|is not safe at lunch|does not keep this meal safe"
    r"|whether food is safe|is a date of safety"
)


@functools.cache
def own_texts() -> tuple[str, ...]:
    """Return every text of ours that a reader or an author may be shown."""
    with (PACKAGE / "words/es.po").open("rb") as file:
        told = [str(part) for message in read_po(file) for part in _parts(message.id)]
    for path in sorted(PACKAGE.rglob("*.py")):
        tree = ast.parse(path.read_text(encoding="utf-8"))
        notes = {id(part) for part in _docstrings(tree)}
        told += [
            node.value
            for node in ast.walk(tree)
            if isinstance(node, ast.Constant)
            and isinstance(node.value, str)
            and id(node) not in notes
        ]
    kept = [*THEMES.rglob("*.html"), *THEMES.rglob("*.xhtml"), *THEMES.rglob("*.js")]
    kept += [path for path in (PACKAGE / "starter").rglob("*.*") if path.suffix in {".md", ".yaml"}]
    return *told, *(path.read_text(encoding="utf-8") for path in kept)


def _parts(message: object) -> tuple[object, ...]:
    return message if isinstance(message, tuple) else (message,)


def _docstrings(tree: ast.Module) -> Iterator[ast.expr]:
    for node in ast.walk(tree):
        if isinstance(node, ast.Expr):
            yield node.value


def test_no_text_of_ours_promises_what_no_source_carries() -> None:
    assert len(own_texts()) > 5000
    for text in own_texts():
        promised = PROMISES.search(DENIED.sub("", text))
        assert not promised, (promised and promised[0], text[:300])


ADVICE: Final = re.compile(
    r"\bsafe|germ(?! toasted)|poison|botul|\babsorber|thermomet|pregnan|canning|Not canned"
    r"|food-safety|the clock|throw it out|cook it|cook to|must reach",
    re.IGNORECASE,
)
CARRIED: Final = {
    "USDA safe minimum internal temperatures": r"cooked?\}|cook to|cook it to|must reach|"
    r"\{inside\}|right through|minimum internal temp|by its heat",
    "USDA FSIS: two hours, one in the heat, 4 to 60 °C": r"hot_line|eat_by|fridge|on the clock|"
    r"clock runs|Two hours|two hours|at lunch",
    "Kansas State, Penn State and Minnesota Extension: drying kills no germs": r"kills no germs|"
    r"put germs to sleep|where germs grow|still raw",
    "Utah State University Extension; home-storage guides: absorbers with dry food alone":
    r"absorber|botulism|not canning|Not canned",
    "FDA: undercooked kidney beans (Bad Bug Book), from memory": r"poisonous",
    "no claim: a date of quality": r"quality, not (of )?safety",
    "no claim: numbers of pleasure": r"pleasant, not safe",
    "no claim: what to do with what looks spoilt": r"throw it out",
    "no claim: defers": r"food-safety guidance|ask those who care",
}  # fmt: skip
"""Each source or standing word of ours, and how the advice reads that it carries."""


def test_each_advice_is_carried_by_a_source_or_claims_nothing(
    record_property: Callable[[str, object], None],
) -> None:
    with (PACKAGE / "words/es.po").open("rb") as file:
        texts = [str(part) for message in read_po(file) for part in _parts(message.id)]
    advice = [text for text in texts if ADVICE.search(text)]
    assert len(advice) > 45
    for text in advice:
        assert any(re.search(claim, text, re.IGNORECASE) for claim in CARRIED.values()), text
    used = {
        source
        for source, claim in CARRIED.items()
        if any(re.search(claim, t, re.IGNORECASE) for t in advice)
    }
    assert used == CARRIED.keys()
    figure(record_property, "advice texts carried by a source, or claiming nothing", len(advice))
