"""Label sheets: the labels of every mix on their paper, at a size at which all of it fits."""

from __future__ import annotations

from dataclasses import dataclass, field
from functools import partial
from math import ceil
from typing import TYPE_CHECKING, Any, Final

import segno
from markupsafe import Markup

from cookbook_build.planning.known import Known
from cookbook_build.planning.label_paper import Sheet, even_sheet, sheet
from cookbook_build.preserving.label_text import QR_LEVEL
from cookbook_build.preserving.packing import Pouch
from cookbook_build.publishing.label_fitting import (
    POINT_MM,
    TITLES_PT,
    TYPES_PT,
    Block,
    Fit,
    code_side,
    fitted,
    has_room,
    margins,
    room,
)
from cookbook_build.publishing.label_words import LabelWords, label_words
from cookbook_build.publishing.provisioning import around_dates, stands_whole
from cookbook_build.publishing.wording import percent
from cookbook_build.words import _, spoken

if TYPE_CHECKING:
    from collections.abc import Iterator, Mapping, Sequence

    from cookbook_build.findings import Findings
    from cookbook_build.planning.provisions import Provision
    from cookbook_build.planning.reckoning import Reckoning

POUR: Final = 1.2
"""Size of the water beside a label's type; `labels.css` has the same."""
COLUMNS, ROWS = range(1, 6), range(1, 14)
"""The sheets that are tried where the household's own is too small."""


@dataclass(frozen=True, slots=True)
class Label:
    """One label: its words, their size, and its square."""

    words: LabelWords
    type_step: str
    title_step: str
    extras: tuple[str, ...]
    known: Known = field(compare=False, repr=False)

    @property
    def code(self) -> Markup:
        """Its square as a drawing, black on white."""
        text = self.words.code_text
        return Markup(self.known.of("square", (text,), partial(_drawn, text)))  # noqa: S704 - see there


def _drawn(text: str) -> str:
    """Return a square as the library draws it of modules, with no text in it."""
    code = segno.make_qr(text, error=QR_LEVEL, boost_error=False)
    return code.svg_inline(border=4, dark="#000", light="#fff", omitsize=True, svgclass="code")


@dataclass(frozen=True, slots=True)
class LabelBook:
    """Every label of a book, and the sheet they stand on."""

    asked: Sheet
    sheet: Sheet
    code_mm: float
    too_small: tuple[str, ...]  # titles for which the sheet asked has no room
    least_height: float  # that would do, at the width of the sheet
    known: Known = field(compare=False, repr=False)
    _drafts: Mapping[str, Sequence[_Draft]] = field(repr=False)  # by the menu's address

    @property
    def is_cut_out(self) -> bool:
        """Whether the labels are printed larger than asked, to be cut out."""
        return self.sheet != self.asked

    def labels(self, menu: str) -> list[Label]:
        """Return the labels of a menu, by its address."""
        return [_label(draft, self.sheet, self.code_mm, self.known) for draft in self._drafts[menu]]


@dataclass(frozen=True, slots=True)
class _Draft:
    """One label before anyone knows its size."""

    words: LabelWords
    modules: int  # on a side of its square

    @property
    def blocks(self) -> list[Block]:
        """Its lines as they are set."""
        says = self.words
        raw = Block(says.raw, bold=True, below_em=0.3, inset_em=0.5)
        listed = [
            raw,
            Block(f"{says.share}. {says.absorber}".strip()),
            Block(says.pour, POUR, bold=True, leading=1.12, below_em=0.4),
            Block(says.how),
            Block(f"{_whole(says.packed)}; {_whole(says.best_by)}."),
            Block(says.allergens, bold=True),
            Block(says.lot),
        ]
        return [block for block in listed if block.words]

    def has_room(self, of: Sheet, code_mm: float) -> bool:
        """Return whether all that must stand on it finds room on a sheet."""
        within = room(of.width, of.height, code_mm)
        return has_room(self.words.title, self.words.part, self.blocks, within)

    def fit(self, of: Sheet, code_mm: float) -> Fit | None:
        """Return the sizes of its type on a sheet, or None where it has no room."""
        says = self.words
        extras = [Block(words) for words in says.extras]
        within = room(of.width, of.height, code_mm)
        return fitted(says.title, says.part, self.blocks, extras, within)


def _whole(words: str) -> str:
    """Return words that stand on one line, where they are short enough."""
    return words.replace(" ", "\N{NO-BREAK SPACE}") if stands_whole(words) else words


def label_book(reckoning: Reckoning, known: Known | None = None) -> LabelBook:
    """Return every label of a book on the household's sheet, or on the next that has room."""
    known, asked = known or Known(), sheet(reckoning.book.book.labels)
    drafts = {
        provision.menu.address: [
            _draft(words, known)
            for pack in provision.packs
            for words in label_words(pack, reckoning.book)
        ]
        for provision in reckoning.provisions
    }
    every = [draft for listed in drafts.values() for draft in listed]
    asked_mm = _code_mm(asked, every)
    cramped = [draft for draft in every if not draft.has_room(asked, asked_mm)]
    of = _roomy(asked.paper, every) if cramped else asked
    code_mm = _code_mm(of, every)
    return LabelBook(
        asked,
        of,
        code_mm,
        tuple(dict.fromkeys(draft.words.title for draft in cramped)),
        _least_height(of, every) if cramped else of.height,
        known,
        drafts,
    )


def check_labels(reckoning: Reckoning, findings: Findings, known: Known | None = None) -> None:
    """Warn of labels that are too small for what must stand on them, with measures that do."""
    with spoken(reckoning.book.book.language):  # other languages run longer
        found = label_book(reckoning, known)
    if not found.too_small:
        return
    asked, of = found.asked, found.sheet
    others = len(found.too_small) - 1
    more = f" and {others} more" if others else ""
    findings.warning(
        reckoning.book.places.key("labels"),
        f"labels of {asked.width:.3g} × {asked.height:.3g} mm have no room for all that must "
        f'stand on them, and a square that can be read: "{found.too_small[0]}"{more}',
        f"labels of {of.width:.3g} × {found.least_height:.0f} mm would do, such as labels: "
        f"{{paper: {of.paper}, columns: {of.columns}, rows: {of.rows}}}; until then they are "
        "printed like that, to cut out.",
    )


def labels_page(found: LabelBook, provision: Provision) -> dict[str, Any]:
    """Return what the page of labels shows: sheet after sheet."""
    labels, of = found.labels(provision.menu.address), found.sheet
    return {
        "title": _("Labels: {menu}").format(menu=provision.menu.keys.title),
        "back": f"{provision.menu.address}.html",
        "sheet": of,
        "asked": found.asked if found.is_cut_out else None,
        "refused": list(_refused(provision)),
        "stands_whole": stands_whole,
        "around_dates": around_dates,
        "jars": any(
            pack.packing and not isinstance(pack.packing.choice.container, Pouch)
            for pack in provision.packs
        ),
        "absorbers": any(pack.packing and pack.packing.absorbers for pack in provision.packs),
        "sheets": [labels[at : at + of.labels] for at in range(0, len(labels), of.labels)],
    }


def _refused(provision: Provision) -> Iterator[str]:
    """Give the mixes that are too damp for an absorber, with their moisture."""
    for pack in provision.packs:
        if pack.sealing.sealing == "refused":
            title = pack.plate.dish.recipe.keys.title
            moisture = percent(pack.sealing.moisture)
            yield _("{meal} ({moisture} water)").format(meal=title, moisture=moisture)


def _draft(words: LabelWords, known: Known) -> _Draft:
    text = words.code_text
    return _Draft(words, known.of("modules", (text,), partial(_modules, text)))


def _label(draft: _Draft, of: Sheet, code_mm: float, known: Known) -> Label:
    fit = draft.fit(of, code_mm) or Fit(TYPES_PT[-1], TITLES_PT[-1], 0)
    return Label(
        draft.words,
        step_name("type", fit.type_pt),
        step_name("title", fit.title_pt),
        draft.words.extras[: fit.extras],
        known,
    )


def _code_mm(of: Sheet, drafts: Sequence[_Draft]) -> float:
    modules = max((draft.modules for draft in drafts), default=0)
    return code_side(of.width, of.height, modules)


def _roomy(paper: str, drafts: Sequence[_Draft]) -> Sheet:
    """Return the sheet of a paper with the most labels that all have room."""
    sheets = [even_sheet(paper, columns, rows) for columns in COLUMNS for rows in ROWS]
    for of in sorted(sheets, key=lambda one: (-one.labels, one.columns)):
        code_mm = _code_mm(of, drafts)
        if all(draft.has_room(of, code_mm) for draft in drafts):
            return of
    return even_sheet(paper, 1, 1)


def _least_height(of: Sheet, drafts: Sequence[_Draft]) -> float:
    """Return the least height of a label, at the width of a sheet, at which all have room [mm]."""
    for height in range(20, ceil(of.height)):
        tried = Sheet(
            of.paper, of.paper_width, of.paper_height, of.columns, of.rows, of.width, float(height),
            of.top, of.left, of.across, of.down,
        )  # fmt: skip
        code_mm = _code_mm(tried, drafts)
        if all(draft.has_room(tried, code_mm) for draft in drafts):
            return float(height)
    return of.height


def _modules(text: str) -> int:
    # which mask makes no difference to its size, and to choose one takes long
    code = segno.make_qr(text, error=QR_LEVEL, boost_error=False, mask=0)
    return int(code.symbol_size(border=0)[0])


def step_name(what: str, size_pt: float) -> str:
    """Return the style's name of a size of type: `type-7h` for seven and a half points."""
    return f"{what}-{size_pt:g}".replace(".5", "h")


def sheets_css(found: LabelBook) -> dict[str, Any]:
    """Return the measures that the style sheet of labels needs, in millimetres."""
    of = found.sheet
    above, beside = margins(of.width, of.height)
    return {
        "sheet": of,
        "measures": [
            ("--label-code", found.code_mm),
            ("--label-above", above),
            ("--label-beside", beside),
            ("--label-width", of.width),
            ("--label-height", of.height),
            ("--label-across", max(of.across - of.width, 0.0)),
            ("--label-down", max(of.down - of.height, 0.0)),
            ("--label-top", of.top),
            ("--label-left", of.left),
        ],
        "types": [(step_name("type", size), size * POINT_MM) for size in TYPES_PT],
        "titles": [(step_name("title", size), size * POINT_MM) for size in TITLES_PT],
    }
