"""Sums and inverses in a fixed order, so that no digit hangs on a machine's threads.

The libraries below numpy's products and inverses divide large ones among a machine's cores, and
add in another order with another number of them.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

import numpy as np

if TYPE_CHECKING:
    from cookbook_build.kitchen.beliefs import Array
    from cookbook_build.kitchen.incidence import Places


def sums(places: Places, values: Array, count: int) -> Array:
    r"""Return the sum of the values at each of some places, added in the order in which they stand.

    Assumes that no place is beyond the count.

    Parameters
    ----------
    places : numpy.ndarray
        Where each value goes. [-]
    values : numpy.ndarray
        The values. [-]
    count : int
        How many places there are. [-]

    Returns
    -------
    numpy.ndarray
        Their sums. [-]

    Notes
    -----
    .. math:: S_p = \sum_{p_i = p} v_i

    References
    ----------
    .. [1] Arithmetic.

    Examples
    --------
    >>> [float(total) for total in sums(np.array([0, 2, 2]), np.array([1.0, 2.0, 3.0]), 3)]
    [1.0, 0.0, 5.0]
    """
    return np.asarray(np.bincount(places, values, count), dtype=np.float64)


def inverse(matrix: Array) -> Array:
    r"""Return the inverse of a symmetric positive definite matrix.

    Assumes that the matrix is symmetric to the last digit; so is what is returned.

    Parameters
    ----------
    matrix : numpy.ndarray
        Information about some unknowns. [-]

    Returns
    -------
    numpy.ndarray
        Their covariance. [-]

    Notes
    -----
    Each row k is swept in turn, and :math:`-A^{-1}` is left in the end:

    .. math:: a_{ij} ← a_{ij} - \frac{a_{ik} a_{kj}}{a_{kk}}, \quad
              a_{ik} ← \frac{a_{ik}}{a_{kk}}, \quad a_{kk} ← -\frac{1}{a_{kk}}

    References
    ----------
    .. [1] J. H. Goodnight, A Tutorial on the SWEEP Operator, The American Statistician 33, 1979
       (from memory).

    Examples
    --------
    >>> inverse(np.array([[2.0, 1.0], [1.0, 1.0]])).tolist()
    [[1.0, -1.0], [-1.0, 2.0]]
    """
    found = np.array(matrix, dtype=np.float64)
    for k, column in enumerate(found.T):
        swept, pivot = column.copy(), column[k]
        found -= np.outer(swept, swept) / pivot
        found[k] = found[:, k] = swept / pivot
        found[k, k] = -1 / pivot
    return -found
