"""The table of foods: what a row holds, how the file is read, how a food is found."""

from __future__ import annotations

import csv
from dataclasses import dataclass, replace
from functools import cache, cached_property
from importlib import resources
from typing import TYPE_CHECKING, Literal

from cookbook_build.foods.lookup import fresh_or_raw, nearest_names, normalised

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator, Mapping

Weights = tuple[tuple[str, float], ...]
Odour = Literal["mild", "strong"]
NeedsCooking = Literal["", "yes", "poison"]

SR28 = "USDA SR28"
# Words for a cut that fill a cup alike enough to stand for each other (common practice, no source),
# in English and, behind it, in Spanish.
KINDRED_CUTS: tuple[frozenset[str], ...] = (
    frozenset({"slice", "slices", "sliced", "coins", "rounds"})
    | {"rodajas", "láminas", "laminas", "laminado", "laminada", "laminados", "laminadas"},
    frozenset({"dice", "diced", "cube", "cubes", "cubed", "chopped", "pieces", "chunks", "minced"})
    | {"dados", "cubos", "trozos", "picado", "picada", "picados", "picadas"}
    | {"troceado", "troceada", "troceados", "troceadas"},
    frozenset({"shredded", "grated", "shreds"})
    | {"rallado", "rallada", "rallados", "ralladas", "hebras"},
    frozenset({"mashed", "pureed", "puree", "sauce"}) | {"puré", "salsa"},
    frozenset({"crumbled", "crumbs", "crushed"}) | {"migas", "desmenuzado", "desmenuzada"},
    frozenset({"ground", "powder", "powdered"}) | {"polvo", "molido", "molida"},
    frozenset({"strips", "strip"}) | {"tiras"},
    frozenset({"halves", "halved"}) | {"mitades"},
)


@dataclass(frozen=True, slots=True, kw_only=True)
class Food:
    """One food: figures per 100 g of its edible part, fractions of weight, weights in grams.

    `None` stands for a figure that nobody printed.
    """

    id: str
    name: str
    group: str
    moisture: float
    energy_kcal: float
    protein_g: float
    fat_g: float
    carbohydrate_g: float
    other_names: tuple[str, ...] = ()
    ndb: str = ""
    refuse: float = 0.0
    fibre_g: float | None = None
    ash_g: float | None = None
    sodium_mg: float | None = None
    grams_per_cup: Weights = ()
    pieces: Weights = ()
    allergens_us: tuple[str, ...] = ()
    allergens_eu: tuple[str, ...] = ()
    raw_animal: bool = False
    flour: bool = False
    odour: Odour = "mild"
    dry_from: str = ""
    restores_to: str = ""
    needs_cooking: NeedsCooking = ""
    unsuited: str = ""
    stand_in: bool = False
    source: str = SR28

    @property
    def names(self) -> tuple[str, ...]:
        """Every name that finds this food."""
        return (self.id, self.name, *self.other_names)

    def cup(self, form: str = "") -> tuple[str, float] | None:
        """Return the cut nearest to a form ("diced 5 mm") and the grams of a US cup of it."""
        asked = {word for word in form.casefold().replace(",", " ").split() if len(word) > 2}
        kindred = {word for kin in KINDRED_CUTS if kin & asked for word in kin}
        for words in (asked, kindred):
            for cut, grams in self.grams_per_cup:
                if words & set(cut.split()):
                    return cut, grams
        weights = dict(self.grams_per_cup)
        if "plain" in weights:
            return "plain", weights["plain"]
        return self.grams_per_cup[0] if self.grams_per_cup else None

    def piece(self, size: str = "") -> tuple[str, float] | None:
        """Return the piece that a size means ("large", "stalks"), and its edible grams.

        With no size it is the usual one: medium, a large egg, one called like the food, the first.
        """
        asked = set(normalised(size).split())
        pieces = [(set(normalised(piece[0]).split()), piece) for piece in self.pieces]
        fits = [(words, piece) for words, piece in pieces if asked <= words]
        usual = "large" if self.group == "eggs" else "medium"
        own = {*normalised(self.name).split(), "fruit"} | asked
        for meant in (
            [piece for words, piece in fits if words == (asked or {usual})],
            [piece for words, piece in fits if usual in words],
            [piece for words, piece in fits if words <= own],
        ):
            if meant:
                return max(meant, key=lambda piece: piece[1])
        return fits[0][1] if fits else None


@dataclass(frozen=True)
class FoodTable:
    """Foods in their order; of two with one name, the later is found."""

    foods: tuple[Food, ...]

    def __iter__(self) -> Iterator[Food]:
        return iter(self.foods)

    def __len__(self) -> int:
        return len(self.foods)

    def __getitem__(self, food_id: str) -> Food:
        return self._by_id[food_id]

    @cached_property
    def _by_id(self) -> dict[str, Food]:
        return {food.id: food for food in self.foods}

    @cached_property
    def _by_name(self) -> dict[str, Food]:
        return {normalised(name): food for food in self.foods for name in food.names}

    def find(self, words: str) -> Food | None:
        """Return the food of this name, whatever the case, plural, marks and word order."""
        name = normalised(words)
        return self._by_name.get(name) or self._by_name.get(fresh_or_raw(name))

    def nearest(self, words: str, limit: int = 5) -> list[Food]:
        """Return foods with a name near to these words, the nearest first."""
        owners = {name: food for food in self.foods for name in (food.name, *food.other_names)}
        near = (owners[name] for _, name in nearest_names(words, owners))
        return list({food.id: food for food in near}.values())[: max(limit, 0)]

    def with_own(self, foods: Iterable[Food]) -> FoodTable:
        """Return the table with a household's own foods; one with the id of a row replaces it."""
        return FoodTable(tuple({food.id: food for food in (*self.foods, *foods)}.values()))

    def also_called(self, names: Mapping[str, Iterable[str]]) -> FoodTable:
        """Return the table with further names of foods, by their ids, for another language."""
        return FoodTable(
            tuple(
                replace(food, other_names=(*food.other_names, *names.get(food.id, ())))
                for food in self.foods
            )
        )


# Not a food that anyone dries, but what bases are cooked in; its figures are its definition.
WATER = Food(
    id="water",
    name="water",
    group="water",
    moisture=1.0,
    energy_kcal=0.0,
    protein_g=0.0,
    fat_g=0.0,
    carbohydrate_g=0.0,
    fibre_g=0.0,
    ash_g=0.0,
    sodium_mg=0.0,
    source="definition",
)


def _listed(cell: str) -> tuple[str, ...]:
    return tuple(part.strip() for part in cell.split(";")) if cell else ()


def _weights(cell: str) -> Weights:
    pairs = (part.split("=") for part in _listed(cell))
    return tuple((name, float(grams)) for name, grams in pairs)


def _figure(cell: str) -> float | None:
    return float(cell) if cell else None


def _food(row: dict[str, str]) -> Food:
    return Food(
        id=row["id"],
        name=row["name"],
        other_names=_listed(row["other_names"]),
        ndb=row["ndb"],
        group=row["group"],
        refuse=float(row["refuse_pct"] or 0) / 100,
        moisture=float(row["water"]) / 100,
        energy_kcal=float(row["energy_kcal"]),
        protein_g=float(row["protein"]),
        fat_g=float(row["fat"]),
        carbohydrate_g=float(row["carbohydrate"]),
        fibre_g=_figure(row["fibre"]),
        ash_g=_figure(row["ash"]),
        sodium_mg=_figure(row["sodium_mg"]),
        grams_per_cup=_weights(row["grams_per_cup"]),
        pieces=_weights(row["pieces"]),
        allergens_us=_listed(row["allergens_us"]),
        allergens_eu=_listed(row["allergens_eu"]),
        raw_animal=row["raw_animal"] == "yes",
        flour=row["raw_animal"] == "flour",
        odour="strong" if row["odour"] == "strong" else "mild",
        dry_from=row["dry_from"],
        restores_to=row["restores_to"],
        needs_cooking=_needs_cooking(row["needs_cooking"]),
        unsuited=row["unsuited"],
        stand_in=row["stand_in"] == "yes",
    )


def _needs_cooking(cell: str) -> NeedsCooking:
    if cell == "poison":
        return "poison"
    return "yes" if cell == "yes" else ""


@cache
def load_foods() -> FoodTable:
    """Return the table that comes with the package."""
    text = resources.files(__package__).joinpath("foods.csv").read_text(encoding="utf-8")
    lines = (line for line in text.splitlines() if not line.startswith("#"))
    return FoodTable(tuple(_food(row) for row in csv.DictReader(lines)))
