"""Packs: what each mix goes into, what keeps it, and what stands on its label."""

from __future__ import annotations

from dataclasses import dataclass
from math import fsum
from typing import TYPE_CHECKING

from cookbook_build.kitchen.boiling import pressure_pa
from cookbook_build.planning.nourish import mix_allergens
from cookbook_build.planning.quality import lines_quality, package
from cookbook_build.planning.rawness import cook_to_c, raw_kind
from cookbook_build.preserving.absorbers import sealing_verdict
from cookbook_build.preserving.keeping import best_by
from cookbook_build.preserving.packing import Pouch, Vessel, packing, true_density_g_per_ml

if TYPE_CHECKING:
    import datetime as dt
    from collections.abc import Sequence

    from cookbook_build.kitchen.conditions import Method
    from cookbook_build.kitchen.scaling import ComponentWater
    from cookbook_build.manuscript.collection import Manuscript
    from cookbook_build.planning.dishes import Dish, MixLine, Part
    from cookbook_build.planning.plates import Plate
    from cookbook_build.preserving.absorbers import SealingVerdict
    from cookbook_build.preserving.keeping import MixQuality
    from cookbook_build.preserving.packing import Container, Packing
    from cookbook_build.preserving.quality_bases import Package


@dataclass(frozen=True, slots=True)
class Pack:
    """One component's dry mix for one meal, packed."""

    plate: Plate
    part: Part
    water: ComponentWater
    dry_g: float
    dry_ml: float
    packing: Packing | None  # None where the kit names no containers
    quality: MixQuality
    best_by: dt.date | None  # None where nobody wrote when it was packed
    allergens: tuple[str, ...]
    lot: str
    packed: dt.date | None
    sealing: SealingVerdict  # whether the mix is dry enough for an absorber

    @property
    def count(self) -> int:
        """How many containers the mix is parted into, filled alike."""
        return self.packing.choice.count if self.packing else 1

    @property
    def share_servings(self) -> float:
        """The servings in one container."""
        return self.plate.servings / self.count

    @property
    def share_g(self) -> float:
        """The dry mix in one container [g]."""
        return self.dry_g / self.count

    @property
    def at(self) -> int:
        """Which component of its dish it is, from zero."""
        return self.plate.dish.parts.index(self.part)

    @property
    def share_water(self) -> ComponentWater:
        """The water of one container made ready by itself: what boils off, it loses alone."""
        if self.count == 1:
            return self.water
        plate = self.plate
        waters = plate.dish.waters(self.share_servings, plate.method, plate.altitude_m)
        return waters[self.at]

    @property
    def method(self) -> Method:
        """How this component is made ready: beside a jar, or by its author's word, soaked cold."""
        return self.plate.dish.part_method(self.part, self.plate.method)

    @property
    def altitude_m(self) -> float:
        """The altitude that its water is reckoned for [m]."""
        given = self.plate.altitude_m
        return self.plate.dish.place.conditions.altitude_m if given is None else given

    @property
    def cook_to_c(self) -> float:
        """What its raw stores are cooked to; zero without any [°C]."""
        raw = [line.store for line in self.part.lines if line.store.name in self.raw_stores]
        return max((cook_to_c(store) for store in raw), default=0.0)

    @property
    def cook_and_rest(self) -> bool:
        """Whether its raw stores are whole cuts or fish alone: cuts then rest a while."""
        raw = [line.store for line in self.part.lines if line.store.name in self.raw_stores]
        kinds = {raw_kind(store.food) for store in raw}
        return "whole meat" in kinds and kinds <= {"whole meat", "fish"}

    @property
    def raw_stores(self) -> tuple[str, ...]:
        """The stores of this component that were dried raw."""
        return tuple(
            sorted(
                {
                    line.store.name
                    for line in self.part.lines
                    if line.is_dry and line.store.store.keys.raw
                }
            )
        )


def containers(book: Manuscript) -> tuple[Container, ...]:
    """Return the pouches and jars that this household packs in."""
    kit = book.book.kit
    return (
        *(Pouch(keys.name, keys.width.si, keys.height.si) for keys in kit.pouches),
        *(Vessel(keys.name, keys.holds.si) for keys in kit.jars),
    )


def packs(
    plates: Sequence[Plate],
    book: Manuscript,
    name: str,
    packed: dt.date | None,
) -> tuple[Pack, ...]:
    """Return every mix of some plates packed; lots are numbered under a name.

    What is taken from the shelf has aged there already; `menu_lots` dates the packs by it.
    """
    found: list[Pack] = []
    for plate in plates:
        waters = plate.dish.waters(plate.servings, plate.method, plate.altitude_m)
        for part, water in zip(plate.dish.parts, waters, strict=True):
            lot = f"{name}/{len(found) + 1}"
            found.append(_pack(plate, part, water, book, lot, packed))
    return tuple(found)


def _pack(
    plate: Plate,
    part: Part,
    water: ComponentWater,
    book: Manuscript,
    lot: str,
    packed: dt.date | None,
) -> Pack:
    lines = part_lines(plate.dish, part, plate.servings)
    dry_g = fsum(grams for _, grams in lines)
    dry_ml = plate.dish.part_dry(part, plate.servings)[1]
    quality = kept_quality(lines, book)
    return Pack(
        plate,
        part,
        water,
        dry_g,
        dry_ml,
        part_packing(lines, dry_ml, plate.dish, book),
        quality,
        best_by(packed, quality.keeps.months) if packed else None,
        mix_allergens(part, book.book.allergens),
        lot,
        packed,
        mix_sealing(lines),
    )


def mix_sealing(lines: Sequence[tuple[MixLine, float]]) -> SealingVerdict:
    """Return whether a mix may have an absorber: closed in, its stores share their moisture."""
    dry_g = fsum(grams for _, grams in lines)
    held_g = fsum(grams * line.store.moisture for line, grams in lines)
    return sealing_verdict(held_g / dry_g if dry_g else 0.0)


def kept_quality(lines: Sequence[tuple[MixLine, float]], book: Manuscript) -> MixQuality:
    """Return how long a mix stays at its best; where it is too damp for an absorber, without."""
    return lines_quality(lines, book, mix_package(lines, book))


def mix_package(lines: Sequence[tuple[MixLine, float]], book: Manuscript) -> Package:
    """Return how a mix is kept: with absorbers where the household has them and it is dry."""
    return "plain" if mix_sealing(lines).sealing == "refused" else package(book)


def part_lines(dish: Dish, part: Part, servings: float) -> list[tuple[MixLine, float]]:
    """Return the dry lines of a component with their grams for some servings."""
    return [(line, line.grams * dish.times(line, servings)) for line in part.lines if line.is_dry]


def part_packing(
    lines: list[tuple[MixLine, float]], dry_ml: float, dish: Dish, book: Manuscript
) -> Packing | None:
    """Return what a component's mix is packed in, with its absorbers; None without containers."""
    sizes = containers(book)
    if not sizes:
        return None
    sealed = mix_package(lines, book) == "absorber"
    return packing(
        dry_ml,
        fsum(grams for _, grams in lines),
        _true_density(lines),
        containers=sizes,
        absorbers_ml=[size.si for size in book.book.kit.absorbers] if sealed else (),
        pressure_pa=pressure_pa(dish.place.conditions.altitude_m),
    )


def _true_density(lines: list[tuple[MixLine, float]]) -> float:
    """Return the true density of a mix, from what its stores are made of [g/mL]."""
    volume = mass = 0.0
    for line, grams in lines:
        made_of = line.store.composition()
        if made_of is None or grams <= 0:
            continue
        density = true_density_g_per_ml(
            water=made_of.water,
            protein=made_of.protein,
            fat=made_of.fat,
            carbohydrate=made_of.carbohydrate,
            fibre=made_of.fibre,
            ash=made_of.ash,
        )
        mass, volume = mass + grams, volume + grams / density
    return mass / volume if volume else true_density_g_per_ml(carbohydrate=1.0)
