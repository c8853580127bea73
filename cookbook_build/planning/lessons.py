"""Lessons: the trials of the whole book, what they teach, and the dishes that know it."""

from __future__ import annotations

from collections import defaultdict
from dataclasses import dataclass, replace
from functools import cached_property, partial
from itertools import chain
from typing import TYPE_CHECKING, Any

from cookbook_build.kitchen.beliefs import Belief, Bound, Equation, Learned
from cookbook_build.kitchen.learning import expected_ml, learn
from cookbook_build.kitchen.rehydration import UPTAKE_PRIORS
from cookbook_build.kitchen.teaching import taught
from cookbook_build.kitchen.trials import Trial, equation
from cookbook_build.planning.stores import measures
from cookbook_build.planning.tested_waters import far_waters, in_their_units

if TYPE_CHECKING:
    from collections.abc import Container, Iterable, Iterator, Mapping, Sequence

    from cookbook_build.findings import Findings, Place
    from cookbook_build.kitchen.component import Component
    from cookbook_build.kitchen.conditions import Kit
    from cookbook_build.kitchen.consistency import Consistency
    from cookbook_build.manuscript.collection import Manuscript
    from cookbook_build.manuscript.replies import Reply
    from cookbook_build.manuscript.schema import TrialKeys
    from cookbook_build.measures.amounts import Amount
    from cookbook_build.measures.units import Measures, System
    from cookbook_build.planning.dishes import Dish, Part
    from cookbook_build.planning.known import Known
    from cookbook_build.planning.stores import ShelfStore


@dataclass(frozen=True, slots=True)
class Record:
    """One trial of the book, or the test of a component, which counts as a trial that was right."""

    name: str  # of the component in the whole book
    trial: Trial
    equation: Equation
    place: Place
    keys: TrialKeys | None  # None for a test
    told: bool = False  # by a reader
    score: float = 0.0  # deviations from what all others say
    left_out: bool = False  # it contradicts them
    poured: Amount | None = None  # as it was written

    @property
    def day(self) -> str:
        """The day of a trial; a test has none, and comes first."""
        return self.keys.date.isoformat() if self.keys else ""

    @property
    def says_of(self) -> set[str]:
        """The component, the consistency and the stores of which it says something."""
        stores = {store for store, _ in self.equation.full_ml}
        return stores | {self.name, self.equation.consistency.name}

    @property
    def per_serving_ml(self) -> float:
        """Water that was right and stayed, for one serving [mL]."""
        return self.equation.stays_ml / self.trial.servings

    @property
    def per_serving_sd_ml(self) -> float:
        """Its standard deviation [mL]."""
        return self.equation.sd_ml / self.trial.servings


@dataclass(frozen=True, slots=True)
class Tally:
    """How many trials and tests stand behind something, and how many were left out as slips."""

    trials: int
    tests: int
    left_out: int


def tally(records: Iterable[Record]) -> Tally:
    """Return how many of some records are trials, tests and slips."""
    listed = list(records)
    counted = [record for record in listed if not record.left_out]
    trials = sum(record.keys is not None for record in counted)
    return Tally(trials, len(counted) - trials, len(listed) - len(counted))


@dataclass(frozen=True)
class Lessons:
    """What the book learned, and from what."""

    records: tuple[Record, ...]
    learned: Learned
    whole: Tally = Tally(0, 0, 0)  # of the book, where only some of its records are here

    def places_of(self, name: str) -> tuple[int, ...]:
        """Return where the trials of a component and its test stand among all."""
        return tuple(self._of_component.get(name, ()))

    def all_of(self, name: str) -> tuple[Record, ...]:
        """Return the trials of a component and its test, the eldest first, the test before all."""
        found = [self.records[at] for at in self.places_of(name)]
        return tuple(sorted(found, key=lambda record: record.day))

    def of_store(self, store: str) -> tuple[Record, ...]:
        """Return the trials and tests that say something of a store, slips among them."""
        return tuple(self.records[at] for at in self._of_store.get(store, ()))

    @cached_property
    def spoken_of(self) -> frozenset[str]:
        """The components, stores and consistencies of which a trial says something, slips aside."""
        counted = [record for record in self.records if not record.left_out]
        return frozenset(chain.from_iterable(record.says_of for record in counted))

    @cached_property
    def _of_component(self) -> Mapping[str, list[int]]:
        found: dict[str, list[int]] = defaultdict(list)
        for at, record in enumerate(self.records):
            found[record.name].append(at)
        return found

    @cached_property
    def _of_store(self) -> Mapping[str, list[int]]:
        found: dict[str, list[int]] = defaultdict(list)
        for at, record in enumerate(self.records):
            for store in {store for store, _ in record.equation.full_ml}:
                found[store].append(at)
        return found


def store_priors(stores: Mapping[str, ShelfStore]) -> dict[str, Belief]:
    """Return what is believed of each store's uptake before any trial."""
    return {
        name: Belief(UPTAKE_PRIORS[store.dryness].mean, UPTAKE_PRIORS[store.dryness].sd)
        for name, store in stores.items()
        if store.dryness
    }


def part_name(dish: Dish, part: Part) -> str:
    """Return a component's name in the whole book."""
    return f"{dish.recipe.address}/{part.name}"


def taught_dishes(
    dishes: Mapping[str, Dish], stores: Mapping[str, ShelfStore], book: Manuscript, known: Known
) -> tuple[dict[str, Dish], Lessons]:
    """Return all dishes with what the book's trials teach, and those lessons."""
    steady, said = known.steady, _said(dishes, book, known)
    made_of = *said, *stores.values()
    lessons = steady.made("lessons", made_of, partial(_lessons, said, stores))
    wiser: dict[str, Dish] = {}
    for address, dish in dishes.items():
        name, made_of = ("taught", address), (dish, lessons)
        wiser[address] = steady.same(name, steady.made(name, made_of, partial(_taught, *made_of)))
    return wiser, lessons


def _lessons(said: Iterable[Iterable[Record]], stores: Mapping[str, ShelfStore]) -> Lessons:
    """Return what the records of all dishes teach together."""
    records = list(chain.from_iterable(said))
    learned = learn([record.equation for record in records], store_priors(stores))
    scored = tuple(
        replace(record, score=learned.scores[at], left_out=at in learned.left_out)
        for at, record in enumerate(records)
    )
    return Lessons(scored, learned, tally(scored))


def _taught(dish: Dish, lessons: Lessons) -> Dish:
    parts = []
    for part in dish.parts:
        name = part_name(dish, part)
        own = [lessons.records[at] for at in lessons.places_of(name)]
        parts.append(_taught_part(name, part, lessons.learned, own))
    return replace(dish, parts=tuple(parts))


def right_records(dish: Dish, part: Part, lessons: Lessons, known: Known) -> list[Record]:
    """Return a component's trials that were right, and its test, even one that is far off."""
    found = [r for r in lessons.all_of(part_name(dish, part)) if r.trial.verdict == "right"]
    test = _test(part)
    told = any(record.keys is None for record in found)
    if test and not told and any(id(part) == id(other) for other, _ in far_waters(dish, known)):
        found += _recorded(dish, part, [_made_of_test(dish, part, test)], known)
    return found


def _taught_part(name: str, part: Part, learned: Learned, records: list[Record]) -> Part:
    own = tally(records)
    mix = taught(
        name,
        part.mix,
        learned,
        speaks=own.trials > 0,
        thick_ml_per_serving=max(map(_thick_ml, records), default=0.0),
    )
    bare = part.bare
    if bare is not None:
        bare = taught(name, bare, learned, speaks=own.trials > 0)
        bare = replace(bare, like=mix if bare.like else None)
    return replace(
        part, mix=mix, bare=bare, trials=own.trials, tests=own.tests, left_out=own.left_out
    )


def _said(
    dishes: Mapping[str, Dish], book: Manuscript, known: Known
) -> tuple[tuple[Record, ...], ...]:
    """Return what the trials and the tests of each dish say."""
    sent: dict[str, list[Reply]] = defaultdict(list)
    for reply in book.replies:
        sent[reply.recipe].append(reply)
    of, steady, found = measures(book), known.steady, []
    for address, dish in dishes.items():
        replies = steady.same(("replies", address), tuple(sent[dish.recipe.address]))
        name, made_of = ("records", address), (dish, replies, of)
        records = steady.made(name, made_of, partial(_records, *made_of, known))
        found.append(steady.same(name, records))
    return tuple(found)


def _records(
    dish: Dish, replies: Sequence[Reply], of: Measures, known: Known
) -> tuple[Record, ...]:
    found: list[Record] = []
    far = {id(part) for part, _ in far_waters(dish, known)}
    for part in dish.parts:
        made = list(_trials(dish, part, replies, of))
        test = _test(part)
        own = [one.trial for one in made if not one.told]
        # a test far from the usual teaches others nothing, but its own trials stand beside it
        counts = bool(own) or id(part) not in far
        if test and counts and not any(_same(test, trial) for trial in own):
            made.append(_made_of_test(dish, part, test))
        found += _recorded(dish, part, made, known)
    return tuple(found)


def _made_of_test(dish: Dish, part: Part, test: Trial) -> _Made:
    place = dish.recipe.places.of(*part.text.path, "tested", "water")
    return _Made(None, test, place)


def _thick_ml(record: Record) -> float:
    """Return the water that stayed in a serving and was too little; zero of other trials [mL]."""
    bound = record.equation.bound
    if bound is None or bound.side < 0 or record.left_out:
        return 0.0
    return bound.stays_ml / record.trial.servings


@dataclass(frozen=True, slots=True)
class _Made:
    """A trial or a test, before it is an equation."""

    keys: TrialKeys | None
    trial: Trial
    place: Place
    told: bool = False

    @property
    def doubt(self) -> int:
        """How readily it gives way to others: the author's test last."""
        return (1 + self.told) if self.keys else 0


def _recorded(dish: Dish, part: Part, made: Sequence[_Made], known: Known) -> Iterator[Record]:
    """Give the records of some trials of a component."""
    if not made:
        return
    name, trials = part_name(dish, part), [one.trial for one in made]
    said = equations(name, part.mix, trials, dish.place.kit, known)
    for one, of in zip(made, said, strict=True):
        keys = one.keys or part.text.tested
        poured = keys.water if keys else None
        doubted = replace(of, doubt=one.doubt)
        yield Record(name, one.trial, doubted, one.place, one.keys, one.told, poured=poured)


def equations(
    name: str, mix: Component, trials: Sequence[Trial], kit: Kit, known: Known
) -> list[Equation]:
    """Return what some trials of a component say."""

    def computed() -> list[list[Any]]:
        return [_plain(equation(name, mix, trial, kit)) for trial in trials]

    found = known.of("equations", (mix, trials, kit), computed)
    return [_equation(name, mix.consistency, *data) for data in found]


def _plain(of: Equation) -> list[Any]:
    """Return what an equation says as plain data."""
    bound = of.bound and [of.bound.stays_ml, of.bound.sd_ml, of.bound.side]
    return [of.full_ml, of.dry_g, of.stays_ml, of.sd_ml, bound]


def _equation(
    name: str,
    consistency: Consistency,
    full: Sequence[tuple[str, float]],
    dry_g: float,
    stays_ml: float,
    sd_ml: float,
    bound: tuple[float, float, int] | None,
) -> Equation:
    """Return the equation that some plain data is of."""
    full_ml = tuple((store, ml) for store, ml in full)
    of_bound = Bound(*bound) if bound else None
    return Equation(name, consistency, full_ml, dry_g, stays_ml, sd_ml, bound=of_bound)


def _trials(dish: Dish, part: Part, replies: Iterable[Reply], of: Measures) -> Iterator[_Made]:
    """Give the trials of a component: the author's own, then those that readers sent."""
    for at, keys in enumerate(part.text.trials):
        place = dish.recipe.places.of(*part.text.path, "trials", at, "water")
        yield _Made(keys, _trial(keys, part, dish, of), place)
    for reply in replies:
        of_part = reply.part.casefold() if reply.part else dish.parts[0].name.casefold()
        if of_part == part.name.casefold():
            yield _Made(reply.trial, _trial(reply.trial, part, dish, of), reply.place, told=True)


def _trial(keys: TrialKeys, part: Part, dish: Dish, of: Measures) -> Trial:
    conditions = dish.place.conditions
    if keys.altitude:
        conditions = replace(conditions, altitude_m=keys.altitude.si)
    return Trial(
        method=dish.part_method(part, keys.method),
        servings=keys.servings or dish.recipe.keys.serves,
        water_ml=float(keys.water.volume_ml(of)),
        conditions=conditions,
        verdict=keys.verdict,
        added_ml=float(keys.added.volume_ml(of)) if keys.added else None,
        rest_s=keys.rest.si if keys.rest else None,
    )


def _test(part: Part) -> Trial | None:
    tested = part.mix.tested
    if tested is None:
        return None
    return Trial(
        tested.method, tested.servings, tested.water_ml, tested.conditions, rest_s=tested.rest_s
    )


def _same(test: Trial, trial: Trial) -> bool:
    """Whether a trial is the test itself, written twice; it counts once."""
    return trial.verdict == "right" and (
        test.method, test.servings, test.water_ml, test.conditions.altitude_m,
    ) == (
        trial.method, trial.servings, trial.water_ml, trial.conditions.altitude_m,
    )  # fmt: skip


def report_slips(
    lessons: Lessons,
    priors: Mapping[str, Belief],
    explained: Container[Place],
    system: System,
    findings: Findings,
) -> None:
    """Report each trial that contradicts all that the others say, with what they let expect.

    Those whose water a slip of a unit has explained are known.
    """
    for record in lessons.records:
        if not record.left_out or record.place in explained:
            continue
        right_ml = expected_right_ml(record, lessons.learned, priors)
        findings.warning(
            record.place,
            contradiction(record, right_ml, lessons, system),
            "check its water, servings, method, rest, altitude and verdict; until then it "
            "teaches nothing.",
        )


def expected_right_ml(record: Record, learned: Learned, priors: Mapping[str, Belief]) -> float:
    """Return the water [mL] that others let expect to be right in a trial."""
    told = expected_ml(record.equation, learned, priors)
    return max(record.trial.right_ml + told.mean - record.equation.stays_ml, 0.0)


def contradiction(record: Record, right_ml: float, lessons: Lessons, system: System) -> str:
    """Return what a trial says and all others do not."""
    says_ml = record.trial.right_ml
    more = "more" if says_ml > right_ml else "less"
    right = in_their_units(right_ml, record.poured, system)
    return (
        f"{'this trial' if record.keys else 'this test'} says {as_it_says(record, system)}, far "
        f"{more} than the {right} that {_witnesses(record, lessons)} let expect"
    )


def as_it_says(record: Record, system: System) -> str:
    """Return the water that was right in a trial, as it was written where that was all of it."""
    says_ml = record.trial.right_ml
    told = in_their_units(says_ml, record.poured, system)
    is_all = record.poured is not None and not record.trial.added_ml
    return f"{record.poured} ({says_ml:.0f} mL)" if is_all and "(" in told else told


def _witnesses(record: Record, lessons: Lessons) -> str:
    """Return what else tells of a slip's water: its ingredients, and trials that share some."""
    if record.says_of & lessons.spoken_of:
        return "the other trials and its ingredients"
    return "its ingredients"
