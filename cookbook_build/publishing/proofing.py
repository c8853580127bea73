"""Proofing: what can only be judged where pages, labels, cards and pictures are made."""

from __future__ import annotations

from typing import TYPE_CHECKING

from cookbook_build.planning.known import Known
from cookbook_build.publishing.card_pages import check_cards
from cookbook_build.publishing.label_sheets import check_labels
from cookbook_build.publishing.pictures import check_pictures, made_pictures
from cookbook_build.publishing.theme_checks import check_pages, check_theme

if TYPE_CHECKING:
    from cookbook_build.findings import Findings
    from cookbook_build.planning.reckoning import Reckoning


def check_fit(reckoning: Reckoning, findings: Findings, known: Known | None = None) -> None:
    """Find what hinders a book from being made: labels and cards without room, a theme's faults.

    Labels and cards are fitted only where nothing else stands in the way.
    """
    if not findings.errors:
        check_labels(reckoning, findings, known)
        check_cards(reckoning, findings, known or Known())
    if reckoning.book.theme is not None:
        check_theme(reckoning.book, findings)


def check_all(reckoning: Reckoning, findings: Findings, known: Known | None = None) -> None:
    """Find all that binding would find, and write nothing.

    A book with templates of its own is made and thrown away, since only then it shows what
    they ask for.
    """
    check_fit(reckoning, findings, known)
    if reckoning.book.theme is None or findings.errors:
        check_pictures(reckoning.book, findings)
        return
    pictures = made_pictures(reckoning.book, findings)
    if not findings.errors:
        check_pages(reckoning, pictures, findings)
