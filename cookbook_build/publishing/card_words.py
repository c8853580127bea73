"""Card words: what stands on the two sides of a recipe's pocket card, at some sizes and ways."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from cookbook_build.planning.nourish import allergens
from cookbook_build.publishing.card_pieces import (
    CardCell,
    CardChoice,
    CardLine,
    CardRow,
    CardRows,
    CardTable,
)
from cookbook_build.publishing.cautioning import GUIDANCE, CautionView, caution_views
from cookbook_build.publishing.epub_meals import method_cautions
from cookbook_build.publishing.mixes import mix_view
from cookbook_build.publishing.nourish_views import LAWS
from cookbook_build.publishing.pours import pours
from cookbook_build.publishing.views import dish_answer
from cookbook_build.publishing.wording import (
    allergen_name,
    altitude_words,
    method_line,
    part_title,
)
from cookbook_build.words import _, listed, ngettext

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator, Sequence

    from cookbook_build.kitchen.conditions import Method
    from cookbook_build.manuscript.collection import Manuscript
    from cookbook_build.planning.dishes import Dish
    from cookbook_build.publishing.card_pieces import Piece
    from cookbook_build.publishing.mixes import MixCell, MixRow, MixView
    from cookbook_build.publishing.views import AnswerView


@dataclass(frozen=True, slots=True)
class CardText:
    """All that a recipe's card may say."""

    dish: Dish
    book: Manuscript
    answers: tuple[AnswerView, ...]
    mix: tuple[MixView, ...]
    cautions: tuple[CautionView, ...]  # of what was dried raw

    @property
    def title(self) -> str:
        """The recipe's title."""
        return self.dish.recipe.keys.title

    @property
    def sizes(self) -> tuple[int, ...]:
        """The serving sizes that it knows."""
        return tuple(sorted({answer.servings for answer in self.answers}))

    @property
    def methods(self) -> tuple[Method, ...]:
        """The ways that it knows."""
        return tuple(dict.fromkeys(answer.method for answer in self.answers))

    def least(self, *, narrow: bool) -> CardChoice:
        """Return what a card holds at the least."""
        dish = self.dish
        sizes, methods = (dish.default_servings,), (dish.default_method,)
        return CardChoice(sizes, methods, grams=False, extras=False, narrow=narrow)

    def front(self, choice: CardChoice) -> tuple[Piece, ...]:
        """Return the front: what it is, what to mind, what goes in."""
        return tuple(self._front(choice))

    def back(self, choice: CardChoice) -> tuple[Piece, ...]:
        """Return the back: the water by every way, and until when it may be eaten."""
        return tuple(self._back(choice))

    def choices(self, *, narrow: bool = False) -> Iterator[CardChoice]:
        """Give what a card may hold, from all to the least: sizes go first, then ways."""
        least = self.least(narrow=narrow)
        for sizes, methods in self._fewer(least):
            for extras in (True, False):
                yield CardChoice(sizes, methods, extras=extras, narrow=narrow)
        yield least

    def _fewer(self, least: CardChoice) -> Iterator[tuple[tuple[int, ...], tuple[Method, ...]]]:
        sizes, methods = list(self.sizes), list(self.methods)
        yield tuple(sizes), tuple(methods)
        while len(sizes) > 1:
            sizes.remove(next(_going(sizes, least.sizes[0])))
            yield tuple(sizes), tuple(methods)
        while len(methods) > 1:
            methods.remove(next(way for way in reversed(methods) if way not in least.methods))
            yield tuple(sizes), tuple(methods)

    def _front(self, choice: CardChoice) -> Iterator[Piece]:
        keys = self.dish.recipe.keys
        if keys.series:
            part = _(", part {number}").format(number=keys.part) if keys.part else ""
            yield CardLine("kicker", f"{keys.series}{part}")
        yield CardLine("name", self.title)
        for caution in self.cautions:
            yield CardLine("raw", _bare(caution.text), caution.head)
        for mix in self.mix:
            yield self._mix_table(mix, choice)
        yield CardLine(
            "allergens", _("As entered by the author; read the packs yourself."), self._allergens()
        )
        if choice.extras and (makes := self._makes(choice)):
            yield CardLine("note", makes)
        yield CardLine("foot", _("The water stands on the back."))

    def _allergens(self) -> str:
        law = self.book.book.allergens
        if found := allergens(self.dish, law):
            return _("Contains {allergens}.").format(allergens=", ".join(map(allergen_name, found)))
        return _("None found of {law}.").format(law=_(LAWS[law]))

    def _mix_table(self, mix: MixView, choice: CardChoice) -> CardTable:
        at = [self.sizes.index(size) for size in choice.sizes]
        one = len(at) == 1
        rows = [
            CardRow(_row_name(row), tuple(_cells([row.cells[n] for n in at], choice, one=one)))
            for row in mix.rows
        ]
        totals = tuple(_cells([mix.totals[n] for n in at], choice, one=one))
        heads = [str(size) for size in choice.sizes] + [""] * (one and choice.grams)
        return CardTable(
            "mix",
            mix.name if len(self.mix) > 1 else "",
            _("Dry mix, by servings"),
            tuple(heads),
            (CardRows((*rows, CardRow(_("Dry, together"), totals, "sum"))),),
            choice.sizes.index(self.dish.default_servings),
        )

    def _makes(self, choice: CardChoice) -> str:
        made = [a for a in self.answers if a.makes and a.servings in choice.sizes]
        one = next((a for a in made if a.servings == self.dish.default_servings), None)
        if one is None:
            return ""
        text = ngettext("{n} serving makes {what}.", "{n} servings make {what}.", one.servings)
        return text.format(n=one.servings, what=one.makes)

    def _back(self, choice: CardChoice) -> Iterator[Piece]:
        book = self.book.book
        where = altitude_words(self.dish.place.conditions.altitude_m, book.altitudes)
        yield CardLine("again", self.title)
        yield CardLine(
            "note",
            _("Water at {altitude}. Pour first, stir, and add what you kept back if it is stiff.")
            .format(altitude=where),
        )  # fmt: skip
        if self.cautions:
            yield CardLine(
                "raw",
                _("The time alone is not enough: cook it by its heat, as the front says."),
                " ".join(caution.head for caution in self.cautions),
            )
        for at in range(len(self.mix)):
            yield self._water_table(at, choice)
        for method in choice.methods:
            answers = self._answers(method, choice)
            for answer in answers:
                if answer.jars:
                    yield CardLine("note", answer.jars, f"{_servings(answer.servings)}:")
            for found in method_cautions(answers):
                whose = ": ".join(filter(None, (answers[0].method_name, found.sizes)))
                yield CardLine("heed", _bare(found.caution.text), f"{whose}: {found.caution.head}")
        untested = [part.name for part in self.answers[0].parts if not part.tested]
        if untested:
            whose = "" if len(untested) == len(self.mix) else f"{listed(untested)}: "
            yield CardLine(
                "heed",
                _("Pour the first part, look, and add the rest by the spoon."),
                whose + _("Not yet tested."),
            )
        if choice.extras:
            yield from self._without_optional(choice)
        yield CardLine("foot", _(GUIDANCE))

    def _answers(self, method: Method, choice: CardChoice) -> list[AnswerView]:
        return [a for a in self.answers if a.method == method and a.servings in choice.sizes]

    def _water_table(self, at: int, choice: CardChoice) -> CardTable:
        """Return the water of a component, once for all ways that need the same."""
        ways: dict[tuple[CardRow, ...], list[AnswerView]] = {}
        for method in choice.methods:
            answers = self._answers(method, choice)
            as_row = _water_line if choice.narrow else _water_row
            rows = tuple(as_row(answer, at) for answer in answers)
            ways.setdefault(rows, []).append(answers[0])
        heads: tuple[str, ...] = (_("Pour first"), _("Keep back"), _("Together"), _("Time"))
        if choice.narrow:
            heads = heads[:1]
        elif not at:
            heads = (*heads, _("Eat within"))
        return CardTable(
            "lines" if choice.narrow else "water",
            self.mix[at].name if len(self.mix) > 1 else "",
            _("For"),
            heads,
            tuple(
                CardRows(
                    rows,
                    _("Each way") if at and len(ways) == 1 else listed([a.method_name for a in of]),
                    _way_line(of[0], at),
                )
                for rows, of in ways.items()
            ),
        )

    def _without_optional(self, choice: CardChoice) -> Iterator[CardLine]:
        """Give the water of the default size and way where what is optional stays out."""
        dish = self.dish
        size, method = dish.default_servings, dish.default_method
        bare = pours(dish, self.book, size, method, without_optional=True)
        for part, pour in zip(dish.parts, bare, strict=True):
            if part.bare and part.optional and method in choice.methods:
                name = f"{part_title(part.name)}: " if len(dish.parts) > 1 else ""
                yield CardLine(
                    "note",
                    _("{servings}: pour {start}, keep back {hold_back}.").format(
                        servings=_servings(size), start=pour.start, hold_back=pour.hold_back
                    ),
                    name
                    + _("Without the optional {names},").format(
                        names=listed([line.store.name for line in part.optional])
                    ),
                )


def card_text(
    dish: Dish,
    book: Manuscript,
    cautions: Iterable[CautionView],
    answers: tuple[AnswerView, ...],
    mix: tuple[MixView, ...],
) -> CardText:
    """Return what a recipe's card may say."""
    return CardText(dish, book, answers, mix, tuple(cautions))


def least_text(dish: Dish, book: Manuscript) -> CardText:
    """Return what a recipe's card must say, and no more: soon made, to see whether it fits."""
    size, method = dish.default_servings, dish.default_method
    raw = caution_views(dish, size, method)[: len(dish.raw_stores)]
    mix = tuple(mix_view(part, dish, book, (size,)) for part in dish.parts)
    return card_text(dish, book, raw, (dish_answer(dish, book, size, method),), mix)


def _bare(text: str) -> str:
    """Return a caution without the guidance, which each card ends with."""
    return text.replace(_(GUIDANCE), "").strip()


def _going(sizes: Sequence[int], default: int) -> Iterator[int]:
    """Give the sizes in the order in which they give way: the largest pots first."""
    yield from sorted((size for size in sizes if size > default), reverse=True)
    yield from (size for size in sizes if size < default)


def _row_name(row: MixRow) -> str:
    said = [word for word in (row.note, *row.marks) if word]
    prepared = f", {row.preparation}" if row.preparation else ""
    return f"{row.name}{prepared}" + (f" ({'; '.join(said)})" if said else "")


def _cells(cells: Iterable[MixCell], choice: CardChoice, *, one: bool) -> Iterator[CardCell]:
    """Give the amounts of an ingredient; of a single size the grams have a column of their own."""
    for cell in cells:
        grams = cell.grams if choice.grams else ""
        amount = cell.amount
        if one and choice.grams:
            yield CardCell(amount)
            yield CardCell(grams)
        else:
            yield CardCell(amount, grams)


def _way_line(answer: AnswerView, at: int) -> str:
    """Return what one does by a way, told once; beside it, that water is cold."""
    if not at:
        return method_line(answer.method)
    beside = answer.method != "cold" and answer.parts[at].cold
    return _("Cold drinking water.") if beside else ""


def _water_row(answer: AnswerView, at: int) -> CardRow:
    pour = answer.parts[at]
    figures = (pour.start, pour.hold_back, pour.together_ml, pour.rest)
    eat_within = () if at else (answer.eat_within,)  # which is the whole dish's
    return CardRow(str(answer.servings), tuple(map(CardCell, (*figures, *eat_within))))


def _water_line(answer: AnswerView, at: int) -> CardRow:
    pour = answer.parts[at]
    text = (
        _("keep back {hold_back}, together {together}; {rest}")
        if at
        else _("keep back {hold_back}, together {together}; {rest}; eat within {eat_within}")
    )
    told = text.format(
        hold_back=pour.hold_back, together=pour.together_ml, rest=pour.rest,
        eat_within=answer.eat_within,
    )  # fmt: skip
    return CardRow(str(answer.servings), (CardCell(pour.start, told),))


def _servings(size: int) -> str:
    return ngettext("{n} serving", "{n} servings", size).format(n=size)
