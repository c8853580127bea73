"""What a store that was dried raw is cooked to."""

from __future__ import annotations

from typing import TYPE_CHECKING, Final

from cookbook_build.kitchen.cautions import COOK_TO_C

if TYPE_CHECKING:
    from collections.abc import Mapping

    from cookbook_build.findings import Findings
    from cookbook_build.foods import Food
    from cookbook_build.kitchen.cautions import RawKind
    from cookbook_build.planning.stores import ShelfStore

_BY_GROUP: Final[dict[str, RawKind]] = {
    "poultry": "poultry",
    "fish": "fish",
    "eggs": "egg",
    "dairy": "milk",
    "grains": "flour",
    "baking": "flour",
}
_MINCED: Final = ("ground", "minced", "mince", "sausage")
_OFFAL_AND_GAME: Final = (
    "liver", "kidney", "heart", "tongue", "rabbit", "hare", "venison", "deer", "elk", "moose",
    "boar",
)  # fmt: skip


def raw_kind(food: Food | None) -> RawKind:
    """Return what a raw food is by the temperature chart; the strictest where nobody knows."""
    if food is None:
        return "poultry"
    if food.group == "meat":
        words = f"{food.name} {' '.join(food.other_names)}"
        if any(word in words for word in _MINCED):
            return "minced meat"
        return "offal and game" if any(word in words for word in _OFFAL_AND_GAME) else "whole meat"
    return _BY_GROUP.get(food.group, "poultry")


def check_air_dried(stores: Mapping[str, ShelfStore], findings: Findings) -> None:
    """Warn of raw animal foods that dry in the air, where they stay in the warmth for hours."""
    for store in stores.values():
        keys = store.store.keys
        if not keys.raw or keys.dried != "air" or raw_kind(store.food) == "flour":
            continue
        findings.warning(
            store.store.places.of("dried"),
            f'"{store.name}" is raw, and dries in the air, where it stays for hours at the warmth '
            "that germs like",
            f"heat it to {cook_to_c(store):.0f} °C inside first, or as your local guidance says, "
            'and write "cooked first: true" in the place of "raw: true".',
        )


def cook_to_c(store: ShelfStore) -> float:
    """Return the temperature [°C] that a store dried raw is cooked to."""
    return COOK_TO_C[raw_kind(store.food)]
