"""Which unknowns stand in which rows, and sums over them.

A row holds few of a book's unknowns, so only those are kept, an entry each, one row's after the
other's. Every sum runs over entries, or over all pairs of a row's entries, in the order in which
they stand: its cost goes with the number of rows, and no digit hangs on a machine's threads.
"""

from __future__ import annotations

from typing import TYPE_CHECKING, TypeAlias

import numpy as np

from cookbook_build.kitchen.fixed_order import sums

if TYPE_CHECKING:
    from numpy.typing import NDArray

    from cookbook_build.kitchen.beliefs import Array

    Places: TypeAlias = NDArray[np.intp]
    Flags: TypeAlias = NDArray[np.bool_]


class Incidence:
    """Entries of a table of rows by unknowns, without their values.

    Parameters
    ----------
    rows : numpy.ndarray
        Row of each entry, in ascending order. [-]
    unknowns : numpy.ndarray
        Its unknown; one may stand in a row twice. [-]
    row_count, unknown_count : int
        Size of the table. [-]
    """

    def __init__(self, rows: Places, unknowns: Places, row_count: int, unknown_count: int) -> None:
        self.rows, self.unknowns = rows, unknowns
        self.row_count, self.unknown_count = row_count, unknown_count
        self._one, self._other = _pairs(rows, row_count)

    def by_row(self, of_entries: Array) -> Array:
        """Return the sum of some values over each row."""
        return sums(self.rows, of_entries, self.row_count)

    def by_unknown(self, of_entries: Array) -> Array:
        """Return the sum of some values over each unknown."""
        return sums(self.unknowns, of_entries, self.unknown_count)

    def times(self, values: Array, vector: Array) -> Array:
        """Return the product of the table and a vector of unknowns."""
        return self.by_row(values * vector[self.unknowns])

    def information(self, values: Array, weights: Array) -> Array:
        """Return the sum of all rows' outer products with themselves, each with its weight."""
        products = values[self._one] * values[self._other] * weights[self.rows[self._one]]
        at = self.unknowns[self._one] * self.unknown_count + self.unknowns[self._other]
        found = sums(at, products, self.unknown_count**2)
        return found.reshape(self.unknown_count, self.unknown_count)

    def through(self, values: Array, covariance: Array) -> Array:
        """Return the product of the table and a matrix of unknowns, at its entries alone."""
        found = (
            values[self._other] * covariance[self.unknowns[self._one], self.unknowns[self._other]]
        )
        return sums(self._one, found, len(self.rows))

    def filled(self, values: Array) -> Array:
        """Return the whole table, with its zeros."""
        at = self.rows * self.unknown_count + self.unknowns
        found = sums(at, values, self.row_count * self.unknown_count)
        return found.reshape(self.row_count, self.unknown_count)


def _pairs(rows: Places, row_count: int) -> tuple[Places, Places]:
    """Return the places of both entries of all pairs within a row, each with itself too."""
    sizes = np.bincount(rows, minlength=row_count)
    partners = sizes[rows]
    one = np.repeat(np.arange(len(rows)), partners)
    nth = np.arange(len(one)) - np.repeat(np.cumsum(partners) - partners, partners)
    return one, (np.cumsum(sizes) - sizes)[rows[one]] + nth
