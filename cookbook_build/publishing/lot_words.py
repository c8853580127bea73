"""Lot words: what to know of a lot on the shelf, and why a menu left one there."""

from __future__ import annotations

from typing import TYPE_CHECKING, Final

from cookbook_build.publishing.wording import NBSP
from cookbook_build.words import N_, _, numeral

if TYPE_CHECKING:
    from cookbook_build.planning.lots import Left, Lot, Reckoned, Taken, WhyUntil

RECKONED: Final[dict[WhyUntil, str]] = {
    "eaten": N_("this menu is eaten until {last}"),
    "packed": N_("this menu has no date; reckoned to {last}, when it is packed"),
    "newest": N_("this menu has no date; reckoned to {last}, the newest that the book names"),
}


def refusal_words(lot: Lot) -> str:
    """Return why a lot's weights forbid to count on it and to seal it; empty where they don't."""
    if lot.is_damp:
        held = f"{100 * (lot.sure_moisture or 0.0):.0f}"
        if lot.moisture is None:
            return _("holds at least {percent} % water: dry it again").format(percent=held)
        return _("holds {percent} % water: dry it again").format(percent=held)
    if lot.lost_share:
        lost = numeral(f"{100 * lot.lost_share:.1f}")
        return _("lost {percent} % in its last hour: dry it again").format(percent=lost)
    return ""


def on_page(words: str) -> str:
    """Return words whose per cent signs do not break from their numbers."""
    return words.replace(" %", f"{NBSP}%")


def caution_words(lot: Lot) -> str:
    """Return what to check of a lot before it is sealed."""
    return _(lot.caution) if lot.caution else ""


def assumed_words(lot: Lot) -> str:
    """Return what was assumed of a lot's container, where its name doesn't tell."""
    return _(lot.assumed) if lot.assumed else ""


def reckoned_words(reckoned: Reckoned) -> str:
    """Return until when a menu is reckoned with the shelf, and why until then."""
    return _(RECKONED[reckoned.why]).format(last=reckoned.last)


def taken_note(taken: Taken) -> str:
    """Return what to know of a lot before it is packed: what to check, and what was assumed."""
    until = reckoned_words(taken.reckoned) if taken.reckoned else ""
    return "; ".join(filter(None, [caution_words(taken.lot), assumed_words(taken.lot), until]))


def why_left(left: Left) -> str:
    """Return why a menu left a lot on the shelf."""
    lot = left.lot
    if left.packed:
        return _("packed on {lot_packed}; this menu is packed on {menu_packed}").format(
            lot_packed=lot.packed, menu_packed=left.packed
        )
    if left.reckoned:
        best = _("at its best until {best_by}").format(best_by=lot.best_by)
        return f"{best}; {reckoned_words(left.reckoned)}"
    if left.why != "reserved":
        return refusal_words(lot)
    if left.menus:
        return _("reserved by {menus}").format(menus=", ".join(left.menus))
    return _("reserved by another menu")
