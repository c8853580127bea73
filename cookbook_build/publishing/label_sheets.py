"""Label sheets: what stands on the label of each mix, and where on the paper."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING, Any, Final

import segno
from markupsafe import Markup

from cookbook_build.preserving.label_text import QR_LEVEL, qr_text
from cookbook_build.publishing.pours import shown_measures
from cookbook_build.publishing.provisioning import months_words, serving_words
from cookbook_build.publishing.wording import METHOD_NAMES, REST_WORDS, celsius, grams, minutes

if TYPE_CHECKING:
    from collections.abc import Iterator

    from cookbook_build.manuscript.schema import LabelSheetKeys
    from cookbook_build.planning.packs import Pack
    from cookbook_build.planning.provisions import Provision
    from cookbook_build.publishing.desk import Desk

PAPERS_MM: Final = {"A4": (210.0, 297.0), "Letter": (215.9, 279.4)}
"""ISO 216, and ANSI/ASME Y14.1 (8 1/2 by 11 inches)."""
EDGE_MM: Final = 6.0
SMALLEST_TYPE_MM: Final = 1.94  # 5.5 points
LARGEST_TYPE_MM: Final = 4.23  # 12 points
LONG_TITLE: Final = 34
"""Letters from which a title is set smaller."""


@dataclass(frozen=True, slots=True)
class Sheet:
    """A sheet of labels, in millimetres."""

    paper: str
    paper_width: float
    paper_height: float
    columns: int
    rows: int
    width: float
    height: float
    top: float
    left: float
    across: float
    down: float

    @property
    def labels(self) -> int:
        """How many labels it holds."""
        return self.columns * self.rows


@dataclass(frozen=True, slots=True)
class Label:
    """One label, in words."""

    title: str
    long: bool
    part: str
    raw: str
    pour: str
    rest: str
    how: str
    net: str
    packed: str
    best_by: str
    allergens: str
    lot: str
    code: Markup
    code_text: str


def sheet(keys: LabelSheetKeys) -> Sheet:
    """Return the household's sheet; what it doesn't say divides the paper evenly."""
    paper_width, paper_height = PAPERS_MM[keys.paper]
    left = keys.left.si * 1000 if keys.left else EDGE_MM
    top = keys.top.si * 1000 if keys.top else EDGE_MM
    across = keys.across.si * 1000 if keys.across else (paper_width - 2 * left) / keys.columns
    down = keys.down.si * 1000 if keys.down else (paper_height - 2 * top) / keys.rows
    width = keys.width.si * 1000 if keys.width else across
    height = keys.height.si * 1000 if keys.height else down
    if keys.width and not keys.across:
        across = max(across, width) if keys.columns == 1 else across
    return Sheet(
        keys.paper, paper_width, paper_height, keys.columns, keys.rows, width, height, top, left,
        across, down,
    )  # fmt: skip


def labels_page(desk: Desk, provision: Provision) -> dict[str, Any]:
    """Return what the page of labels shows: sheet after sheet."""
    of = sheet(desk.book.book.labels)
    labels = [_label(desk, pack) for pack in provision.packs]
    return {
        "title": f"Labels: {provision.menu.keys.title}",
        "back": f"{provision.menu.address}.html",
        "sheet": of,
        "sheets": [labels[at : at + of.labels] for at in range(0, len(labels), of.labels)],
    }


def _label(desk: Desk, pack: Pack) -> Label:
    keys = pack.plate.dish.recipe.keys
    several = len(pack.plate.dish.parts) > 1
    shown = shown_measures(pack.water, desk.book)
    method = pack.plate.method
    best = f"best by {pack.best_by}" if pack.best_by else f"best {months_words(pack.quality)}"
    packed = f"packed {pack.packed}" if pack.packed else ""
    rest = f"{REST_WORDS[method]} {minutes(pack.water.rest_s)}"
    raw = ", ".join(pack.raw_stores)
    pour = f"Pour {shown['start']}, keep back {shown['hold_back']}"
    how = f"{METHOD_NAMES[method]}, {serving_words(pack.plate.servings)}"
    warning = f"Raw {raw}: cook to {celsius(pack.cook_to_c)}" if raw else ""
    text = qr_text(
        keys.title + (f", {pack.part.name.lower()}" if several else ""),
        [warning, pour, rest, how, best, packed, f"lot {pack.lot}"],
    )
    return Label(
        title=keys.title,
        long=len(keys.title) > LONG_TITLE,
        part=pack.part.name if several else "",
        raw=warning,
        pour=pour,
        rest=rest,
        how=how,
        net=f"{grams(pack.dry_g)} dry",
        packed=packed or "packed ____________",
        best_by=best,
        allergens=", ".join(pack.allergens),
        lot=pack.lot,
        code=_code(text),
        code_text=text,
    )


def _code(text: str) -> Markup:
    """Return a QR code as a drawing, black on white whatever the look."""
    code = segno.make(text, error=QR_LEVEL, boost_error=False, micro=False)
    drawn = code.svg_inline(border=4, dark="#000", light="#fff", omitsize=True, svgclass="code")
    return Markup(drawn)  # noqa: S704 - drawn by the library from modules, no text in it


def sheets_css(of: Sheet) -> Iterator[tuple[str, float]]:
    """Give the measures that the style sheet of labels needs, in millimetres.

    Type follows the label's own size, down to what can be read.
    """
    small = min(0.063 * of.height, 0.035 * of.width)
    yield from (
        ("--label-type", min(max(small, SMALLEST_TYPE_MM), LARGEST_TYPE_MM)),
        ("--label-code", min(0.46 * of.height, 0.34 * of.width)),
        ("--label-above", 0.05 * of.height),
        ("--label-beside", 0.035 * of.width),
        ("--label-width", of.width),
        ("--label-height", of.height),
        ("--label-across", of.across - of.width),
        ("--label-down", of.down - of.height),
        ("--label-top", of.top),
        ("--label-left", of.left),
    )
