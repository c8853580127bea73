"""Water at the boil: air pressure by altitude, boiling point, latent heat, density, heat.

Formulations: ISO 2533 for pressure, IAPWS-IF97 region 4 for saturation, polynomials
fitted to IAPWS values for latent heat, Kell for density, Choi and Okos for heat.
"""

from __future__ import annotations

from math import sqrt
from typing import Final

# Kelvin and Celsius: exact, by definition. The range of the fits below: our choice.
ZERO_C_IN_K: Final = 273.15
COLDEST_C, HOTTEST_C = 0.0, 150.0

# ISO 2533:1975, standard atmosphere.
_EARTH_RADIUS_M: Final = 6_356_766.0
_SEA_LEVEL_PA: Final = 101_325.0
_SEA_LEVEL_K: Final = 288.15
_LAPSE_K_PER_M: Final = 0.0065
_GRAVITY: Final = 9.80665
_GAS_CONSTANT_AIR: Final = 287.05287

# IAPWS-IF97, Table 34; read in the source text of the iapws package.
_N1, _N2, _N3 = 0.11670521452767e4, -0.72421316703206e6, -0.17073846940092e2
_N4, _N5, _N6 = 0.12020824702470e5, -0.32325550322333e7, 0.14915108613530e2
_N7, _N8 = -0.48232657361591e4, 0.40511340542057e6
_N9, _N10 = -0.23855557567849, 0.65017534844798e3


def pressure_pa(altitude_m: float) -> float:
    r"""Return the air pressure at an altitude.

    Assumes the standard atmosphere: weather moves the real pressure by about 2 %, which
    moves the boiling point by about half a degree.

    Parameters
    ----------
    altitude_m : float
        Geometric height above sea level, -5000 to 11,000 m. [m]

    Returns
    -------
    float
        Air pressure. [Pa]

    Raises
    ------
    ValueError
        If the altitude lies outside the troposphere.

    Notes
    -----
    .. math:: p = p_b [1 + (β/T_b)(H - H_b)]^{-g_n/(β R)}, \quad H = r h/(r + h)

    with β = -6.5 K/km, T_b = 288.15 K, R = 287.05287 J/(kg K), r = 6 356 766 m.

    References
    ----------
    .. [1] ISO 2533:1975, Standard Atmosphere, equations 8 and 12 (equation numbers from
       memory; values checked against the ambiance package).

    Examples
    --------
    >>> round(pressure_pa(0.0))
    101325
    >>> round(pressure_pa(1500.0), -2)
    84600.0
    """
    if not -5000.0 <= altitude_m <= 11_000.0:
        raise ValueError(f"altitude_m must lie between -5000 and 11000, not {altitude_m!r}")
    geopotential_m = _EARTH_RADIUS_M * altitude_m / (_EARTH_RADIUS_M + altitude_m)
    exponent = _GRAVITY / (_LAPSE_K_PER_M * _GAS_CONSTANT_AIR)
    return float(_SEA_LEVEL_PA * (1 - _LAPSE_K_PER_M * geopotential_m / _SEA_LEVEL_K) ** exponent)


def saturation_pressure_pa(temp_c: float) -> float:
    """Return the pressure of water vapour over water.

    Assumes pure water; salt and sugar of a dish lower it by a percent or two.

    Parameters
    ----------
    temp_c : float
        Temperature of the water, 0 to 370 °C. [°C]

    Returns
    -------
    float
        Saturation pressure. [Pa]

    Raises
    ------
    ValueError
        If there is no liquid water at that temperature.

    Notes
    -----
    .. math:: p_s/p^* = [2C / (-B + (B^2 - 4AC)^{1/2})]^4

    with ϑ = T + n_9/(T - n_10), A = ϑ² + n_1 ϑ + n_2, B = n_3 ϑ² + n_4 ϑ + n_5,
    C = n_6 ϑ² + n_7 ϑ + n_8, p* = 1 MPa.

    References
    ----------
    .. [1] IAPWS, Revised Release on the Industrial Formulation 1997 (R7-97, 2012),
       equation 30 and Table 34.

    Examples
    --------
    >>> round(saturation_pressure_pa(300.0 - 273.15), 2)
    3536.59
    """
    if not 0.0 <= temp_c <= 370.0:
        raise ValueError(f"temp_c must lie between 0 and 370, not {temp_c!r}")
    kelvin = temp_c + ZERO_C_IN_K
    theta = kelvin + _N9 / (kelvin - _N10)
    a = (theta + _N1) * theta + _N2
    b = (_N3 * theta + _N4) * theta + _N5
    c = (_N6 * theta + _N7) * theta + _N8
    ratio = 2 * c / (-b + sqrt(b * b - 4 * a * c))
    return 1e6 * ratio * ratio * ratio * ratio


def saturation_temperature_c(vapour_pa: float) -> float:
    """Return the temperature at which water boils under a pressure.

    Assumes pure water.

    Parameters
    ----------
    vapour_pa : float
        Pressure, 620 Pa to 20 MPa. [Pa]

    Returns
    -------
    float
        Saturation temperature. [°C]

    Raises
    ------
    ValueError
        If the pressure lies outside that range.

    Notes
    -----
    .. math:: T_s/T^* = [n_{10} + D - ((n_{10} + D)^2 - 4(n_9 + n_{10} D))^{1/2}]/2

    with β = (p/p*)^(1/4), D = 2G/(-F - (F² - 4EG)^(1/2)), E = β² + n_3 β + n_6,
    F = n_1 β² + n_4 β + n_7, G = n_2 β² + n_5 β + n_8.

    References
    ----------
    .. [1] IAPWS R7-97 (2012), equation 31 and Table 34.

    Examples
    --------
    >>> round(saturation_temperature_c(100_000.0) + 273.15, 6)
    372.755919
    """
    # from just above freezing to 366 °C, within the range of IF97's region 4; our choice
    if not 620.0 <= vapour_pa <= 20e6:
        raise ValueError(f"vapour_pa must lie between 620 and 20e6, not {vapour_pa!r}")
    beta = sqrt(sqrt(vapour_pa / 1e6))
    e = (beta + _N3) * beta + _N6
    f = (_N1 * beta + _N4) * beta + _N7
    g = (_N2 * beta + _N5) * beta + _N8
    d = 2 * g / (-f - sqrt(f * f - 4 * e * g))
    return (_N10 + d - sqrt((_N10 + d) ** 2 - 4 * (_N9 + _N10 * d))) / 2 - ZERO_C_IN_K


def boiling_point_c(altitude_m: float) -> float:
    """Return the temperature at which water boils at an altitude.

    Assumes the standard atmosphere and pure water.

    Parameters
    ----------
    altitude_m : float
        Geometric height above sea level. [m]

    Returns
    -------
    float
        Boiling point. [°C]

    Notes
    -----
    `saturation_temperature_c` of `pressure_pa`.

    References
    ----------
    .. [1] ISO 2533:1975; IAPWS R7-97 (2012), equation 31.

    Examples
    --------
    >>> round(boiling_point_c(0.0), 2), round(boiling_point_c(3048.0), 1)
    (99.97, 89.8)
    """
    return saturation_temperature_c(pressure_pa(altitude_m))


def latent_heat_kj_per_kg(temp_c: float) -> float:
    """Return the heat that turns a kilogram of water into vapour.

    Assumes saturation.

    Parameters
    ----------
    temp_c : float
        Temperature of the water, 0 to 120 °C. [°C]

    Returns
    -------
    float
        Latent heat of vaporisation. [kJ/kg]

    Notes
    -----
    .. math:: h_{fg} = 2500.95 - 2.37844 t + 6.3405·10^{-4} t^2 - 1.3003·10^{-5} t^3

    Our own least-squares cubic through IAPWS-IF97 values from 0 to 120 °C, worst error
    0.06 kJ/kg.

    References
    ----------
    .. [1] IAPWS R7-97 (2012), regions 1 and 2, as the iapws package computes them.

    Examples
    --------
    >>> round(latent_heat_kj_per_kg(100.0))
    2256
    """
    return 2500.95 + temp_c * (-2.37844 + temp_c * (6.3405e-4 - 1.3003e-5 * temp_c))


def water_density(temp_c: float) -> float:
    """Return the density of water.

    Assumes atmospheric pressure; above the boiling point the value is for superheated water.

    Parameters
    ----------
    temp_c : float
        Temperature of the water, 0 to 150 °C. [°C]

    Returns
    -------
    float
        Density. [g/mL]

    Raises
    ------
    ValueError
        If the temperature lies outside 0 to 150 °C.

    Notes
    -----
    .. math:: ρ = (999.83952 + 16.945176 t - 7.9870401·10^{-3} t^2 - 46.170461·10^{-6} t^3
              + 105.56302·10^{-9} t^4 - 280.54253·10^{-12} t^5)/(1 + 16.879850·10^{-3} t)

    in kg/m³. The constants are from memory; they agree with IAPWS within 0.01 %.

    References
    ----------
    .. [1] G. S. Kell, J. Chem. Eng. Data 20 (1975) 97-105, equation 16 (from memory).

    Examples
    --------
    >>> round(water_density(20.0), 4), round(water_density(95.0), 4)
    (0.9982, 0.9619)
    """
    if not COLDEST_C <= temp_c <= HOTTEST_C:
        raise ValueError(f"temp_c must lie between 0 and 150, not {temp_c!r}")
    series = (105.56302e-9 - 280.54253e-12 * temp_c) * temp_c - 46.170461e-6
    series = (series * temp_c - 7.9870401e-3) * temp_c + 16.945176
    return (999.83952 + series * temp_c) / (1 + 16.879850e-3 * temp_c) / 1000


def water_heat_kj_per_kg_k(temp_c: float) -> float:
    """Return the specific heat of water.

    Assumes liquid water; the same equation serves the water in food.

    Parameters
    ----------
    temp_c : float
        Temperature of the water, 0 to 150 °C. [°C]

    Returns
    -------
    float
        Specific heat. [kJ/(kg K)]

    Notes
    -----
    .. math:: c_p = 4.1762 - 9.0864·10^{-5} t + 5.4731·10^{-6} t^2

    One percent low at 0 °C, within 0.3 % from 15 to 100 °C.

    References
    ----------
    .. [1] Y. Choi and M. R. Okos (1986), as in ASHRAE Handbook, Refrigeration (2006),
       chapter 9, Table 1 (table number from memory).

    Examples
    --------
    >>> round(water_heat_kj_per_kg_k(20.0), 4)
    4.1766
    """
    return 4.1762 + temp_c * (-9.0864e-5 + 5.4731e-6 * temp_c)
