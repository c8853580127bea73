"""What every edition of a book is made by: what it has of each meal, and then its files."""

from __future__ import annotations

from typing import TYPE_CHECKING, Protocol

if TYPE_CHECKING:
    from collections.abc import Callable, Mapping

    from cookbook_build.publishing.carrying import Carried


class Edition(Protocol):
    """An edition while it is made; any of it may be made in another process.

    What a meal becomes, and what a part of it writes, hang on no other part of the edition.
    """

    def meal(self, address: str) -> None:
        """Make what the edition has of one meal."""

    def parts(self) -> Mapping[str, Callable[[], Carried | None]]:
        """Return what writes its files once all meals are made; some are taken along."""
