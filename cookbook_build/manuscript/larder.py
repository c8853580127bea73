"""The larder: stores as they stand on this household's shelf."""

from __future__ import annotations

from dataclasses import dataclass
from types import MappingProxyType
from typing import TYPE_CHECKING, Final

from cookbook_build.findings import one_of
from cookbook_build.foods import Food
from cookbook_build.foods.lookup import normalised
from cookbook_build.manuscript.checking import Places, read_keys
from cookbook_build.manuscript.group_mends import filled, in_braces
from cookbook_build.manuscript.key_types import fields_of
from cookbook_build.manuscript.nodes import Keys, Node, Scalar
from cookbook_build.manuscript.outdented import take_in
from cookbook_build.manuscript.schema import LabelKeys, StoreKeys
from cookbook_build.manuscript.slips import looks_like_key
from cookbook_build.words import N_

if TYPE_CHECKING:
    from cookbook_build.findings import Findings
    from cookbook_build.foods import FoodTable
    from cookbook_build.manuscript.outdented import Pair

LABEL_MOISTURE: Final = 0.05  # of a bought dry good whose pack doesn't say (from memory)
SPANISH_FORMS: Final = MappingProxyType({
    "polvo": "powder", "migas": "crumbs", "copos": "flakes",
    "triturado": "crushed", "triturada": "crushed", "triturados": "crushed",
    "trituradas": "crushed",
})  # fmt: skip
"""Forms that change a reckoning, as a Spanish larder says them."""
NEEDS_WEIGHING: Final = frozenset({"powder", "crumbs", "crushed", "flakes"})


@dataclass(frozen=True, slots=True)
class Store:
    """One store: its name, what the author wrote of it, and the food or base it comes from."""

    name: str
    keys: StoreKeys
    places: Places
    food: Food | None = None
    base: str | None = None  # the address of the base it comes from, as the author wrote it

    @property
    def is_powder(self) -> bool:
        """Whether it takes up water as a powder does."""
        return "powder" in self.form_words

    @property
    def is_crushed(self) -> bool:
        """Whether it is so fine that it rests as crushed pieces do."""
        return bool(self.form_words & NEEDS_WEIGHING)

    @property
    def form_words(self) -> frozenset[str]:
        """The words of its form; those that change a reckoning in English."""
        words = (self.keys.form or "").casefold().replace(",", " ").split()
        return frozenset(SPANISH_FORMS.get(word, word) for word in words)


@dataclass(frozen=True, slots=True)
class Larder:
    """All stores, and every name that finds one."""

    stores: dict[str, Store]
    names: dict[str, str]
    unsound: set[str]  # stores with findings of their own: what uses them isn't blamed again


def read_larder(root: Node, table: FoodTable, findings: Findings) -> Larder | None:
    """Return the stores of larder.yaml; those that don't hold together leave findings.

    None comes back when it is no group of stores at all.
    """
    larder = Larder({}, {}, set())
    if not isinstance(root, Keys):
        findings.error(
            root.place,
            "the larder is a list of stores by name, and this is not",
            "write lines such as leeks: {food: leeks raw, dried: freeze}.",
        )
        return None
    take_in(root, _is_of_store, findings)
    for key, node in root.pairs:
        if node.refused:  # what stands there could not be read, and has its finding
            larder.names.setdefault(normalised(key.text), key.text)
            larder.stores.setdefault(key.text, _unread(key.text, Places(node)))
            larder.unsound.add(key.text)
            continue
        if isinstance(node, Scalar) and not looks_like_key(node.text):
            findings.error(node.place, *_one_word(key.text, node.text, table))
            larder.names.setdefault(normalised(key.text), key.text)
            larder.stores.setdefault(key.text, _unread(key.text, Places(node)))
            larder.unsound.add(key.text)
            continue
        keys, places = read_keys(StoreKeys, node, findings, f'the store "{key.text}"')
        names = [(key.text, key.place)]
        for at, other in enumerate(keys.also_called if keys else ()):
            names.append((other, places.of("also called", at)))
        for name, place in names:
            taken = larder.names.setdefault(normalised(name), key.text)
            if taken != key.text:
                findings.error(
                    place,
                    f'"{name}" already finds the store "{taken}"',
                    "give each store names that no other has.",
                )
        if keys is None or not places.sound:
            larder.stores.setdefault(key.text, _unread(key.text, places))
            larder.unsound.add(key.text)
            continue
        places.keys[()] = key
        before = len(findings.errors)
        store = _store(key.text, keys, places, table, findings)
        larder.stores[key.text] = store
        _check(store, table, findings)
        if len(findings.errors) > before:
            larder.unsound.add(key.text)
    return larder


def _is_of_store(_store: Pair, pair: Pair) -> bool:
    """Whether a line under a store's name is one of its keys, and no store of that name."""
    key, value = pair
    own = {name for name, _ in fields_of(StoreKeys)}
    is_store = isinstance(value, Keys) and any(inner.text == "dried" for inner, _ in value.pairs)
    return key.text in own and not is_store


def _one_word(name: str, said: str, table: FoodTable) -> tuple[str, str]:
    """Return the cause and the mend of a store of which one word is written, or none."""
    keys = filled(StoreKeys, said)
    asked = keys.get("food", name)
    near = (
        table.find(asked) or table.find(f"{asked} raw") or next(iter(table.nearest(asked, 1)), None)
    )
    cooked = (
        cooked_counterpart(near, table) if near and keys["dried"] in {"freeze", "air"} else None
    )
    kept = {"food": cooked or near} if cooked or near else {}
    written = {key: food.name for key, food in kept.items() if food} | {"dried": keys["dried"]}
    written |= {"cooked first": "true"} if cooked else {}
    line = f"{in_braces(name)}: {in_braces(written)}"
    if not said:
        return "a store says what it is and how it was dried, and nothing stands here", (
            f'write it like "{line}".'
        )
    return (
        f'a store says what it is and how it was dried, and "{said}" alone stands here',
        f'write "{line}".',
    )


def _unread(name: str, places: Places) -> Store:
    """Return a stand-in for a store with findings, so that recipes that name it aren't blamed."""
    return Store(name, StoreKeys(dried="bought"), places)


def _store(
    name: str, keys: StoreKeys, places: Places, table: FoodTable, findings: Findings
) -> Store:
    given = [key for key in ("food", "from", "label") if (key,) in places.values]
    if len(given) != 1:
        said = "more than one of food, from and" if given else "neither food, from nor"
        slip = keys.from_ and not keys.form  # a form is easily mistyped as from
        form = f'write "form: {keys.from_}" if that is its form; else ' if slip else ""
        findings.error(
            places.keys[()].place,
            f'the store "{name}" says {said} label',
            f'{form}say what it is in one way: "food: leeks raw", "from: bases/orchard-sauce", '
            "or the label of a pack.",
        )
        return Store(name, keys, places)
    if keys.label:
        return Store(name, keys, places, food=_own_food(name, keys.label, places, findings))
    if keys.from_:
        return Store(name, keys, places, base=keys.from_.removesuffix(".md").split("/")[-1])
    food = table.find(keys.food or "")
    if food is None:
        near = table.nearest(keys.food or "", limit=3)
        if keys.dried in {"freeze", "air"}:  # what is dried here was most likely cooked first
            near.sort(key=lambda food: bool(food.needs_cooking or food.raw_animal) != keys.raw)
        names = one_of([f'"{food.name}"' for food in near]) if near else ""
        findings.error(
            places.of("food"),
            f'there is no food called "{keys.food}" in the reference table',
            f"write {names}." if near else "write a food of the table, or give a label.",
        )
    return Store(name, keys, places, food=food)


def _own_food(name: str, label: LabelKeys, places: Places, findings: Findings) -> Food:
    """Return the food that a pack's label describes, per 100 g."""
    scale = 100 / label.per.si if label.per.si else 0
    protein, fat, carbohydrate = (
        label.protein.si * scale, label.fat.si * scale, label.carbohydrate.si * scale,
    )  # fmt: skip
    known = protein + fat + carbohydrate
    if known > 102:
        findings.error(
            places.of("label"),
            f"protein, fat and carbohydrate of this label add up to {known:.0f} g in 100 g",
            "check the figures, and that they are for the weight given by per.",
        )
    sodium = label.sodium.si * 1000 if label.sodium else None
    if sodium is None and label.salt:
        sodium = label.salt.si * 1000 / 2.54  # salt is sodium × 2.5 on EU labels; NaCl is × 2.54
    moisture = LABEL_MOISTURE if label.moisture is None else label.moisture
    return Food(
        id=f"own-{name}",
        name=name,
        group="own",
        moisture=moisture,
        energy_kcal=label.energy.si * scale,
        protein_g=protein,
        fat_g=fat,
        carbohydrate_g=carbohydrate,
        fibre_g=label.fibre.si * scale if label.fibre else None,
        sodium_mg=None if sodium is None else sodium * scale,
        allergens_us=label.allergens,
        allergens_eu=label.allergens,
        source=N_("pack's label, as entered by the author"),
    )


def _check(store: Store, table: FoodTable, findings: Findings) -> None:
    keys, food, place = store.keys, store.food, store.places.keys[()].place
    dried = keys.dried in {"freeze", "air"}
    unweighed = keys.weighs is None and not keys.weighings
    if dried and unweighed and (store.is_crushed or store.base):
        findings.error(
            place,
            f"what a cup of {store.name} weighs can't be worked out from its food",
            'weigh a level cup, and write it within the braces, such as "weighs: 74 g per cup".',
        )
    if food is None:
        return
    if keys.raw and "cooked" in food.name.split():
        findings.error(
            store.places.of("raw"),
            f'"{food.name}" is cooked, and this line says that the store was dried raw',
            f'take "raw: true" out, or name the raw food, such as "{_raw_name(food, table)}".',
        )
    if food.raw_animal and keys.dried != "fresh" and not keys.raw and not keys.cooked_first:
        findings.error(
            place,
            f'"{food.name}" is raw, and drying does not kill germs',
            'add "raw: true", or dry it cooked and say "cooked first: true".',
        )
    cooked = cooked_counterpart(food, table) if dried and keys.cooked_first else None
    if cooked:
        findings.error(
            store.places.of("food"),
            f'"{food.name}" is not what went into the dryer, if it was cooked first: the water '
            "and the weight of a cup would be those of the raw food",
            f'write "{cooked.name}".',
        )
    if dried and keys.cooked_first and is_known_dry_only(food, table):
        findings.error(
            store.places.of("food"),
            f'"{food.name}" is dry, and the table does not say what it becomes when it is '
            "cooked: its water and the weight of a cup would be those of the dry food",
            "name a cooked food that is like it, or give what you cooked as a label with its "
            "moisture.",
        )
    if food.needs_cooking and keys.dried in {"freeze", "air"} and not keys.cooked_first:
        findings.error(place, *undercooked(food))
    if food.unsuited and keys.dried == "freeze":
        findings.warning(
            store.places.of("dried"),
            f"{food.name} does not suit a freeze dryer ({food.unsuited})",
            "leave it fresh or bought, or dry a leaner dish in its place.",
        )


_LIKE: Final = {"red-lentils-dry": "lentils-cooked", "pot-barley-dry": "pearl-barley-cooked"}
"""Dry goods that the table lists cooked only as their kin (our choice: the nearest row)."""
DRY_MOISTURE: Final = 0.15
"""Below this a food is sold dry (common practice, no source)."""


def is_known_dry_only(food: Food, table: FoodTable) -> bool:
    """Return whether a good is cooked before it is eaten, and the table has it dry alone."""
    dry = bool(food.needs_cooking) and food.moisture < DRY_MOISTURE
    return dry and cooked_counterpart(food, table) is None


def cooked_counterpart(food: Food, table: FoodTable) -> Food | None:
    """Return the cooked food that a raw one becomes, if the table has it."""
    if not (food.raw_animal or food.needs_cooking):
        return None
    made = next((other for other in table if other.dry_from == food.id), None)
    made = made or next((other for other in table if other.id == _LIKE.get(food.id)), None)
    if made:
        return made
    bare = " ".join(word for word in food.name.split() if word not in {"raw", "dry"})
    ways = ("cooked", "boiled", "baked", "roasted", "scrambled")
    return next((found for way in ways if (found := table.find(f"{bare} {way}"))), None)


def _raw_name(food: Food, table: FoodTable) -> str:
    """Return the name of the raw food that a cooked one was, or its kind."""
    bare = " ".join(word for word in food.name.split() if word != "cooked")
    found = table.find(f"{bare} raw")
    return found.name if found else f"{bare} raw"


def undercooked(food: Food) -> tuple[str, str]:
    """Return the cause and the mend for a good that hot water alone does not cook."""
    cause = f'hot water alone does not cook "{food.name}"'
    if food.needs_cooking == "poison":
        cause += ", and undercooked it is poisonous"
    return cause, 'cook it until you would eat it, dry it then, and say "cooked first: true".'
