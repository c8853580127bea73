"""What food is made of and the heat it holds, by Choi and Okos."""

from __future__ import annotations

from dataclasses import dataclass
from math import fsum
from typing import Final

from cookbook_build.kitchen.boiling import water_heat_kj_per_kg_k

DRY_MIX_KJ_PER_KG_K: Final = 1.75
"""Specific heat of a dry mix of unknown composition; [kJ/(kg K)]: what the equations below give
at 20 °C for 3 % water, 65 % carbohydrate, 20 % protein, 8 % fat and 4 % ash (our choice)."""


@dataclass(frozen=True, slots=True)
class Composition:
    """Mass fractions of a food, wet basis.

    Parameters
    ----------
    water, protein, fat, carbohydrate, fibre, ash : float
        Mass fractions; carbohydrate without the fibre. [-]

    Raises
    ------
    ValueError
        If a fraction is negative, or all together pass 1.1.

    Examples
    --------
    >>> Composition(water=0.03, carbohydrate=0.97).fat
    0.0
    """

    water: float = 0.0
    protein: float = 0.0
    fat: float = 0.0
    carbohydrate: float = 0.0
    fibre: float = 0.0
    ash: float = 0.0

    def __post_init__(self) -> None:
        fractions = (
            self.water, self.protein, self.fat, self.carbohydrate, self.fibre, self.ash,
        )  # fmt: skip
        if not (min(fractions) >= 0 and fsum(fractions) <= 1.1):
            raise ValueError(f"mass fractions must be positive and sum to one, not {fractions}")


def specific_heat_kj_per_kg_k(composition: Composition, temp_c: float = 20.0) -> float:
    r"""Return the specific heat of a food from its composition.

    Assumes that the parts keep their own heat when mixed and that no water is frozen.

    Parameters
    ----------
    composition : Composition
        Mass fractions; a remainder that the parts leave is not counted. [-]
    temp_c : float
        Temperature, 0 to 150 °C; 20 °C if not given. [°C]

    Returns
    -------
    float
        Specific heat. [kJ/(kg K)]

    Notes
    -----
    .. math:: c = \sum_i x_i c_i

    with c_i in kJ/(kg K) and t in °C:

    | water 4.1762 - 9.0864e-5 t + 5.4731e-6 t²
    | protein 2.0082 + 1.2089e-3 t - 1.3129e-6 t²
    | fat 1.9842 + 1.4733e-3 t - 4.8008e-6 t²
    | carbohydrate 1.5488 + 1.9625e-3 t - 5.9399e-6 t²
    | fibre 1.8459 + 1.8306e-3 t - 4.6509e-6 t² (from memory)
    | ash 1.0926 + 1.8896e-3 t - 3.6817e-6 t² (from memory)

    The linear term of fat is printed 1.4373e-3 in the copy that was read; 1.4733e-3, the
    original's, is from memory.

    References
    ----------
    .. [1] Y. Choi and M. R. Okos (1986), as in R. P. Singh and D. R. Heldman, Introduction
       to Food Engineering, 5th ed., Table A.2.9, and ASHRAE Refrigeration (2006) chapter 9.

    Examples
    --------
    >>> carrot = Composition(water=0.8779, protein=0.0103, fat=0.0019, carbohydrate=0.1014)
    >>> round(specific_heat_kj_per_kg_k(carrot), 2)
    3.85
    """
    t = temp_c
    return (
        composition.water * water_heat_kj_per_kg_k(t)
        + composition.protein * (2.0082 + t * (1.2089e-3 - 1.3129e-6 * t))
        + composition.fat * (1.9842 + t * (1.4733e-3 - 4.8008e-6 * t))
        + composition.carbohydrate * (1.5488 + t * (1.9625e-3 - 5.9399e-6 * t))
        + composition.fibre * (1.8459 + t * (1.8306e-3 - 4.6509e-6 * t))
        + composition.ash * (1.0926 + t * (1.8896e-3 - 3.6817e-6 * t))
    )
