"""Synthetic books of any size: the same seed and size give the same files, to the byte.

The meals are invented, and so are their trials: water and rest are what such amounts roughly want,
give or take what a cook does. Pictures are drawn: one for every five recipes, where they are asked
for. Nothing in such a book is an error; `proof` may warn.

    python tests/benchmarks/synthetic_book.py a-folder --recipes 300
"""

from __future__ import annotations

import argparse
import random
import sys
from dataclasses import dataclass
from fractions import Fraction
from pathlib import Path
from typing import TYPE_CHECKING, Final

sys.path.insert(0, str(Path(__file__).parents[2]))  # run as a script, it stands alone

from tests.benchmarks.invented_larder import FRUIT, GARDEN, GROUNDS, HEARTY, SEASONING, larder
from tests.benchmarks.synthetic_words import BOOK, OWN_STYLE, STEPS, STORIES, TIMES

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence

PER_MENU: Final = 50
PER_PICTURE: Final = 5
PER_COMPONENT: Final = 6
LARGEST: Final = len(GROUNDS) * len(GARDEN) * len(HEARTY) * len(TIMES)
"""How many titles there are."""
MEALS: Final = ("breakfast", "lunch", "supper")


@dataclass(frozen=True, slots=True)
class Named:
    """A meal to be: what it is made of first, its title, and where it stands."""

    number: int
    ground: str
    green: str
    hearty: str
    when: str
    series: str
    part: int

    @property
    def title(self) -> str:
        """Its title; no two are alike."""
        return f"{self.ground.capitalize()}, {self.green} and {self.hearty} {self.when}"

    @property
    def slug(self) -> str:
        """Its address within the book."""
        return self.title.lower().replace(",", "").replace(" ", "-")


def written_book(folder: Path, recipes: int, seed: int = 1, *, pictures: bool = False) -> None:
    """Write a synthetic book into a folder."""
    for name, data in files_of(recipes, seed, pictures=pictures):
        path = folder / name
        path.parent.mkdir(parents=True, exist_ok=True)
        path.write_bytes(data if isinstance(data, bytes) else data.encode())


def files_of(
    recipes: int, seed: int = 1, *, pictures: bool = False
) -> Iterator[tuple[str, str | bytes]]:
    """Give each file of a synthetic book by its name."""
    chance = random.Random(seed)  # noqa: S311 - invented meals, no secret
    meals = list(_named(chance, recipes))
    series = dict.fromkeys(meal.series for meal in meals)
    about = "".join(f'  {name}: {{about: "Meals {chance.choice(TIMES)}."}}\n' for name in series)
    yield "book.yaml", f"{BOOK}series:\n{about}"
    yield "larder.yaml", larder()
    yield "theme/own.css", OWN_STYLE
    for meal in meals:
        shown = pictures and meal.number % PER_PICTURE == 1
        address = meal.series.lower().replace(" ", "-")
        yield f"recipes/{address}/{meal.slug}.md", _recipe(chance, meal, shown=shown)
        if shown:
            yield f"images/{meal.slug}.jpg", _picture(chance)
    for at in range(0, recipes, PER_MENU):
        yield f"menus/tour-{at // PER_MENU + 1}.yaml", _menu(chance, at, meals)


def _named(chance: random.Random, recipes: int) -> Iterator[Named]:
    """Give the meals to be, in series of 20 to 30."""
    if recipes > LARGEST:
        raise ValueError(f"there are {LARGEST} titles")
    reach, part, length = 1, 0, chance.randint(20, 30)
    for number, at in enumerate(chance.sample(range(LARGEST), recipes), 1):
        part += 1
        if part > length:
            reach, part, length = reach + 1, 1, chance.randint(20, 30)
        picks = []
        for choices in (list(GROUNDS), list(GARDEN), list(HEARTY), TIMES):
            at, pick = divmod(at, len(choices))  # noqa: PLW2901 - the digits of a number
            picks.append(choices[pick])
        ground, green, hearty, when = picks
        yield Named(number, ground, green, hearty, when, f"Reach {reach}", part)


def _recipe(chance: random.Random, meal: Named, *, shown: bool) -> str:
    """Return one recipe: four to nine ingredients, up to three trials, three to eight steps."""
    lines, dry_cups = _ingredients(chance, meal)
    consistency, wet = chance.choice((("scoopable", 0.68), ("stew", 0.92), ("soup", 1.38)))
    water = _eighths(float(dry_cups) * wet)
    rest = chance.randint(9, 16)
    aside = meal.number % PER_COMPONENT == 0
    head = [
        f"title: {meal.title}",
        f"series: {meal.series}",
        f"part: {meal.part}",
        f"date: 2025-{1 + meal.number % 12:02}-{1 + meal.number % 28:02}",
        f"blurb: {meal.ground.capitalize()} with {meal.green}, eaten {meal.when}.",
        *([f"picture: {meal.slug}.jpg", "picture text: A bowl on a flat stone."] * shown),
        f"consistency: {consistency}",
        *(["methods: [kettle, microwave, stove]"] * chance.choice((False, True))),
        "ingredients:",
        *(f"  - {line}" for line in lines),
        f"tested: {{method: kettle, water: {water}, rest: {rest} min}}",
        *_trials(chance, float(dry_cups) * wet),
        *(_component(chance) * aside),
    ]
    return "\n".join(["---", *head, "---", _body(chance, meal, aside=aside)])


def _ingredients(chance: random.Random, meal: Named) -> tuple[list[str], Fraction]:
    """Return the lines of a mix, and how much they fill [cups]."""
    half, spoons = chance.choice(("1/2", "2/3", "3/4", "1")), chance.randint(2, 4)
    lines = [f"{half} cup {meal.ground}", f"{spoons} tbsp {meal.green}", f"2 tbsp {meal.hearty}"]
    filled = Fraction(half) + Fraction(spoons + 2, 16)
    others = [name for name in GARDEN if name != meal.green]
    for name in chance.sample(others, chance.randint(0, 2)):
        lines.append(f"2 tbsp {name}")
        filled += Fraction(2, 16)
    amounts = ("1/8 tsp", "1/4 tsp", "1 pinch")
    spices = chance.sample(list(SEASONING), chance.randint(1, 3))
    lines += [f"{chance.choice(amounts)} {name}" for name in spices]
    if chance.random() < 0.2:
        lines.append("1 oatcake (fresh)")
    return lines, filled


def _trials(chance: random.Random, cups: float) -> list[str]:
    """Return up to three trials round what the mix wants."""
    tried = []
    for at in range(chance.randint(0, 3)):
        servings = chance.choice((1, 2, 3))
        verdict, of_it = chance.choice((("right", 1.0), ("thick", 0.85), ("thin", 1.2)))
        method = chance.choice(("kettle", "kettle", "microwave"))
        tried.append(
            f"  - {{date: 2025-{2 + 3 * at:02}-{chance.randint(1, 28):02}, method: {method}, "
            f"servings: {servings}, water: {_eighths(cups * servings * of_it)}, "
            f"verdict: {verdict}}}"
        )
    return ["trials:", *tried] if tried else []


def _component(chance: random.Random) -> list[str]:
    """Return the lines of a relish with a water and a rest of its own."""
    return [
        "components:",
        "  - name: Relish",
        "    consistency: spread",
        f"    ingredients: [3 tbsp {chance.choice(list(FRUIT))}, 1 pinch ginger]",
        "    tested: {method: kettle, water: 5 tsp, rest: 7 min}",
    ]


def _body(chance: random.Random, meal: Named, *, aside: bool) -> str:
    """Return three to eight steps with `{water}` and `{rest}`, and a note."""
    first, *between, pour, wait = STEPS
    steps = [first, *chance.sample(between, chance.randint(0, len(between) - 1)), pour, wait]
    if aside:
        steps.append("Give the relish {water: Relish} of the water, and {rest: Relish}.")
    numbered = "\n".join(f"{at}. {step}" for at, step in enumerate(steps, 1))
    story = chance.choice(STORIES)
    note = f"Of all in it, {meal.green} will come back last. {story}"
    return f"## Make ready\n\n{numbered}\n\n## Notes\n\n{note}\n"


def _menu(chance: random.Random, at: int, meals: Sequence[Named]) -> str:
    """Return a menu of three days of some fifty meals."""
    picked = chance.choices(meals[at : at + PER_MENU], k=3 * len(MEALS))
    lines = "".join(
        f"  - {{day: {1 + n // len(MEALS)}, meal: {MEALS[n % len(MEALS)]}, recipe: {meal.slug}, "
        f"servings: 3, method: kettle, altitude: 450 m}}\n"
        for n, meal in enumerate(picked)
    )
    return f"title: Tour {at // PER_MENU + 1}\npeople: 3\nmeals:\n{lines}"


def _eighths(cups: float) -> str:
    """Return a volume as cups are read, to the next eighth."""
    whole, eighths = divmod(max(1, round(cups * 8)), 8)
    part = str(Fraction(eighths, 8)) if eighths else ""
    many = "s" if whole and (part or whole > 1) else ""
    return f"{' '.join(filter(None, (str(whole) if whole else '', part)))} cup{many}"


def _picture(chance: random.Random) -> bytes:
    """Return a photograph's like: a gradient with noise, 1600 by 1200."""
    from io import BytesIO  # noqa: PLC0415 - with the next line, only where pictures are asked for

    from PIL import Image  # noqa: PLC0415

    size = (1600, 1200)
    fade = Image.linear_gradient("L").resize(size)
    near, far = (Image.new("RGB", size, tuple(chance.randbytes(3))) for _ in range(2))
    grain = Image.frombytes("RGB", (400, 300), chance.randbytes(400 * 300 * 3)).resize(size)
    made = Image.blend(Image.composite(near, far, fade), grain, 0.15)
    held = BytesIO()
    made.save(held, "JPEG", quality=85)
    return held.getvalue()


def main() -> None:
    """Write a synthetic book."""
    parser = argparse.ArgumentParser(description="Write a synthetic book.")
    parser.add_argument("folder", type=Path)
    parser.add_argument("--recipes", type=int, default=100)
    parser.add_argument("--seed", type=int, default=1)
    parser.add_argument("--pictures", action="store_true")
    given = parser.parse_args()
    written_book(given.folder, given.recipes, given.seed, pictures=given.pictures)


if __name__ == "__main__":
    main()
