"""The line of credit: whose the book is, and on what terms others may use it."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from cookbook_build.manuscript.web_addresses import web_address

if TYPE_CHECKING:
    from cookbook_build.manuscript.schema import BookKeys


@dataclass(frozen=True, slots=True)
class Credit:
    """Whose the book is, the licence as written, and where the licence stands on the web."""

    whose: str
    licence: str
    href: str  # nothing where the licence is words

    @property
    def words(self) -> str:
        """The whole line."""
        return f"{self.whose} {self.licence}"


def credit(book: BookKeys) -> Credit | None:
    """Return the line of credit, or None where the book names no licence."""
    if not book.licence:
        return None
    href = web_address(book.licence) or ""
    ends = "" if href or book.licence.endswith((".", "!", "?")) else "."
    whose = f"© {(book.author or book.title).removesuffix('.')}."
    return Credit(whose, book.licence + ends, href)
