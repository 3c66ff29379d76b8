"""Rubber as a spring: hardness, shape, cold, time. Natural-rubber figures after Gent and Lindley."""

from __future__ import annotations

import itertools
import math
from typing import Final, NamedTuple

import numpy as np

from hushwright.errors import InvalidInput
from hushwright.physics.mechanics._guard import not_negative, positive


class RubberModuli(NamedTuple):
    """Static moduli of one rubber: Young's modulus [Pa], shear modulus [Pa], shape coefficient k [-]."""

    youngs_modulus: float
    shear_modulus: float
    shape_coefficient: float


_HARDNESS: Final = (30.0, 35.0, 40.0, 45.0, 50.0, 55.0, 60.0, 65.0, 70.0, 75.0)  # IRHD
# Lindley, Engineering Design with Natural Rubber (the table is from memory; k at 65 and 75 IRHD agrees with a
# published note, Young's modulus there within 2.5 %).
_YOUNG_MODULUS_MPA: Final = (0.92, 1.18, 1.50, 1.80, 2.20, 3.25, 4.45, 5.85, 7.35, 9.40)
_SHEAR_MODULUS_MPA: Final = (0.30, 0.37, 0.45, 0.54, 0.64, 0.81, 1.06, 1.37, 1.73, 2.22)
_SHAPE_COEFFICIENT: Final = (0.93, 0.89, 0.85, 0.80, 0.73, 0.64, 0.57, 0.54, 0.53, 0.52)

# Common practice, no source: soft gum rubbers are nearly the same moving and resting, filled hard ones twice as stiff.
_DYNAMIC_RATIO_HARDNESS: Final = (40.0, 50.0, 60.0, 70.0)
_DYNAMIC_RATIO: Final = (1.2, 1.4, 1.6, 2.0)

BULK_MODULUS: Final = 1.15e9
"""Bulk modulus of solid rubber [Pa]; published values lie between 1.0 and 1.3 GPa."""

TemperatureTable = tuple[tuple[float, float], ...]

NATURAL_RUBBER_STIFFENING: Final[TemperatureTable] = (
    (-30.0, 1.9), (-20.0, 1.5), (-10.0, 1.27), (0.0, 1.14), (20.0, 1.0), (40.0, 0.95),
)  # fmt: skip
"""Stiffness relative to 20 °C against temperature [°C]; common practice, no source. Crystallisation over weeks of
cold comes on top."""

CREEP_REFERENCE_TIME: Final = 60.0
"""Time after loading [s] from which decades of creep are counted: the deflection is read after one minute."""


def rubber_moduli(hardness: float) -> RubberModuli:
    """Static moduli of natural rubber from its hardness.

    Parameters
    ----------
    hardness : float
        International rubber hardness degrees [-], 30 to 75.

    Returns
    -------
    RubberModuli
        Young's modulus [Pa], shear modulus [Pa] and shape coefficient [-].

    Raises
    ------
    InvalidInput
        If the hardness is outside the table.

    Notes
    -----
    Straight lines between the rows of the table. Two degrees of hardness, the usual tolerance of a moulding, are
    about 8 % in stiffness.

    References
    ----------
    .. [1] P. B. Lindley, *Engineering Design with Natural Rubber*, MRPRA, 4th ed., 1978 (table from memory).

    Examples
    --------
    >>> round(rubber_moduli(60.0).youngs_modulus / 1e6, 2)
    4.45
    """
    if not _HARDNESS[0] <= hardness <= _HARDNESS[-1]:
        raise InvalidInput(f"rubber hardness is {hardness} IRHD; the table goes from 30 to 75 IRHD")
    young, shear, shape = (
        float(np.interp(hardness, _HARDNESS, column))
        for column in (_YOUNG_MODULUS_MPA, _SHEAR_MODULUS_MPA, _SHAPE_COEFFICIENT)
    )
    return RubberModuli(young * 1e6, shear * 1e6, shape)


def dynamic_ratio_estimate(hardness: float) -> float:
    """Typical ratio of dynamic to static stiffness of a rubber, for mounts without a supplier's value.

    Parameters
    ----------
    hardness : float
        International rubber hardness degrees [-], 40 to 70.

    Returns
    -------
    float
        Dynamic divided by static stiffness [-].

    Raises
    ------
    InvalidInput
        If the hardness is outside the range of the estimate.

    Notes
    -----
    Common practice, no source; 1.2 for soft gum rubber to 2 and more for hard, filled rubber. A supplier's value or a
    measured natural frequency is always better: the standard uncertainty of the estimate is about 15 %.

    References
    ----------
    .. [1] Common practice, no source.

    Examples
    --------
    >>> round(dynamic_ratio_estimate(55.0), 2)
    1.5
    """
    if not _DYNAMIC_RATIO_HARDNESS[0] <= hardness <= _DYNAMIC_RATIO_HARDNESS[-1]:
        raise InvalidInput(f"rubber hardness is {hardness} IRHD; the dynamic ratio is estimated from 40 to 70 IRHD")
    return float(np.interp(hardness, _DYNAMIC_RATIO_HARDNESS, _DYNAMIC_RATIO))


def block_shape_factor(length: float, width: float, thickness: float) -> float:
    """Shape factor of a rectangular rubber block: one loaded face over the force-free surface.

    Parameters
    ----------
    length : float
        Length of the loaded face [m].
    width : float
        Width of the loaded face [m].
    thickness : float
        Thickness of the rubber under load [m].

    Returns
    -------
    float
        Shape factor [-].

    Raises
    ------
    InvalidInput
        If a dimension is not above zero.

    References
    ----------
    .. [1] A. N. Gent and P. B. Lindley, "The compression of bonded rubber blocks", *Proc. Inst. Mech. Eng.* 173, 1959.

    Examples
    --------
    >>> round(block_shape_factor(0.050, 0.050, 0.010), 2)
    1.25
    """
    for name, value in (("block length", length), ("block width", width), ("block thickness", thickness)):
        positive(name, value, "m")
    return length * width / (2.0 * thickness * (length + width))


def compression_modulus(
    youngs_modulus: float, shape_coefficient: float, shape_factor: float, bulk_modulus: float = BULK_MODULUS
) -> float:
    """Apparent modulus of a rubber block bonded between two stiff plates.

    Parameters
    ----------
    youngs_modulus : float
        Young's modulus of the rubber [Pa].
    shape_coefficient : float
        Coefficient k of the rubber [-]; 1 for gum rubber, less with filler.
    shape_factor : float
        Loaded face over force-free surface [-].
    bulk_modulus : float, optional
        Bulk modulus [Pa]; infinity leaves the bulk compression out.

    Returns
    -------
    float
        Apparent compression modulus [Pa].

    Raises
    ------
    InvalidInput
        If a modulus is not above zero or the shape factor is negative.

    Notes
    -----
    ``Ec = E0 (1 + 2 k S²)`` and ``1/Ec' = 1/Ec + 1/B`` [1]_; small strains, up to about 15 % compression.

    References
    ----------
    .. [1] A. N. Gent and P. B. Lindley, "The compression of bonded rubber blocks", *Proc. Inst. Mech. Eng.* 173, 1959.

    Examples
    --------
    >>> round(compression_modulus(4.45e6, 0.57, 1.25, math.inf) / 1e6, 2)
    12.38
    """
    positive("Young's modulus", youngs_modulus, "Pa")
    positive("shape coefficient", shape_coefficient, "")
    not_negative("shape factor", shape_factor, "")
    if not bulk_modulus > 0.0:
        raise InvalidInput(f"bulk modulus is {bulk_modulus} Pa; it must be above zero")
    bonded = youngs_modulus * (1.0 + 2.0 * shape_coefficient * shape_factor**2)
    return 1.0 / (1.0 / bonded + 1.0 / bulk_modulus)


def pad_stiffness(
    hardness: float, length: float, width: float, thickness: float, bulk_modulus: float = BULK_MODULUS
) -> tuple[float, float]:
    """Static stiffness of a rectangular bonded rubber pad in compression and in shear.

    Parameters
    ----------
    hardness : float
        International rubber hardness degrees [-], 30 to 75.
    length : float
        Length of the loaded face [m].
    width : float
        Width of the loaded face [m].
    thickness : float
        Thickness [m].
    bulk_modulus : float, optional
        Bulk modulus [Pa].

    Returns
    -------
    tuple of two floats
        Compression stiffness and shear stiffness [N/m].

    Raises
    ------
    InvalidInput
        If the hardness is outside the table or a dimension is not above zero.

    Notes
    -----
    ``k = Ec A/t`` and ``k_shear = G A/t``; bending of tall pads is left out (thickness above a quarter of the width).

    References
    ----------
    .. [1] P. B. Lindley, *Engineering Design with Natural Rubber*, MRPRA, 4th ed., 1978.

    Examples
    --------
    >>> compression, shear = pad_stiffness(60.0, 0.050, 0.050, 0.010)
    >>> round(compression / 1e6, 2), round(shear / 1e6, 3)
    (3.06, 0.265)
    """
    moduli = rubber_moduli(hardness)
    factor = block_shape_factor(length, width, thickness)
    modulus = compression_modulus(moduli.youngs_modulus, moduli.shape_coefficient, factor, bulk_modulus)
    slenderness = length * width / thickness
    return modulus * slenderness, moduli.shear_modulus * slenderness


def ring_stiffness(hardness: float, outer_diameter: float, inner_diameter: float, thickness: float) -> float:
    """Static compression stiffness of a bonded rubber ring.

    Parameters
    ----------
    hardness : float
        International rubber hardness degrees [-], 30 to 75.
    outer_diameter : float
        Outer diameter [m].
    inner_diameter : float
        Inner diameter [m], above zero and below the outer one.
    thickness : float
        Thickness [m].

    Returns
    -------
    float
        Compression stiffness [N/m].

    Raises
    ------
    InvalidInput
        If the hardness is outside the table or the diameters make no ring.

    Notes
    -----
    A ring is a long strip bent round: ``K = (4/3) E0 π Dm (b/t) (1 + k ((D − d)/(4 t))²)`` with the mean diameter Dm
    and the breadth ``b = (D − d)/2``; the strip cannot stretch along its length, hence 4/3.

    References
    ----------
    .. [1] P. B. Lindley, *Engineering Design with Natural Rubber*, MRPRA, 4th ed., 1978.

    Examples
    --------
    >>> round(ring_stiffness(45.0, 0.060, 0.020, 0.020) / 1e3, 1)
    361.9
    """
    positive("inner diameter", inner_diameter, "m")
    positive("ring thickness", thickness, "m")
    if not outer_diameter > inner_diameter:
        raise InvalidInput(f"outer diameter {outer_diameter} m is not above the inner diameter {inner_diameter} m")
    moduli = rubber_moduli(hardness)
    mean_diameter = (outer_diameter + inner_diameter) / 2.0
    breadth = (outer_diameter - inner_diameter) / 2.0
    strip = 1.0 + moduli.shape_coefficient * (breadth / (2.0 * thickness)) ** 2
    return 4.0 / 3.0 * moduli.youngs_modulus * math.pi * mean_diameter * breadth / thickness * strip


def temperature_factor(temperature: float, table: TemperatureTable = NATURAL_RUBBER_STIFFENING) -> tuple[float, str]:
    """Stiffness at a temperature relative to 20 °C.

    Parameters
    ----------
    temperature : float
        Temperature of the rubber [°C].
    table : tuple of pairs, optional
        Temperature [°C] and stiffness relative to 20 °C [-], temperatures rising.

    Returns
    -------
    tuple of float and str
        Factor [-] and a note that is empty inside the table.

    Raises
    ------
    InvalidInput
        If the table is empty or does not rise in temperature, or the temperature is below −60 °C, where natural rubber
        turns to glass.

    Notes
    -----
    Straight lines in the logarithm of the factor; beyond the ends the last slope goes on and a note says so.

    References
    ----------
    .. [1] P. B. Lindley, *Engineering Design with Natural Rubber*, MRPRA, 4th ed., 1978 (glass hardening); the values
       of the default table are common practice, no source.

    Examples
    --------
    >>> factor, note = temperature_factor(-10.0)
    >>> round(factor, 2), note
    (1.27, '')
    """
    if len(table) < 2 or any(low[0] >= high[0] for low, high in itertools.pairwise(table)):
        raise InvalidInput(f"stiffening table {table} needs two rows or more with rising temperatures")
    if any(row[1] <= 0.0 for row in table):
        raise InvalidInput(f"stiffening table {table} holds a factor that is not above zero")
    if not temperature >= -60.0:
        raise InvalidInput(f"rubber temperature is {temperature} °C; below −60 °C rubber is glass, no spring")
    last = len(table) - 2
    row = next((index for index in range(last) if temperature <= table[index + 1][0]), last)
    (cold, cold_factor), (warm, warm_factor) = table[row], table[row + 1]
    position = (temperature - cold) / (warm - cold)
    factor = math.exp((1.0 - position) * math.log(cold_factor) + position * math.log(warm_factor))
    inside = table[0][0] <= temperature <= table[-1][0]
    reach = f"{table[0][0]:g} to {table[-1][0]:g} °C"
    return factor, "" if inside else f"stiffness at {temperature:g} °C is continued beyond the table ({reach})"


def creep_deflection(deflection: float, creep_per_decade: float, duration: float) -> float:
    """Deflection that creep adds to the one read a minute after loading.

    Parameters
    ----------
    deflection : float
        Deflection one minute after loading [m].
    creep_per_decade : float
        Share of the deflection added per tenfold time [-]; about 0.02 for soft gum rubber to 0.1 for filled rubber.
    duration : float
        Time under load [s], at least one minute.

    Returns
    -------
    float
        Added deflection [m].

    Raises
    ------
    InvalidInput
        If the duration is below one minute or a value is negative.

    Notes
    -----
    ``δ(t) = δ(1 min) (1 + c lg(t/1 min))``: physical creep is a straight line over the logarithm of time. Chemical
    ageing over years comes on top in the heat.

    References
    ----------
    .. [1] P. B. Lindley, *Engineering Design with Natural Rubber*, MRPRA, 4th ed., 1978, section on creep.

    Examples
    --------
    A year is 5.7 decades of minutes.

    >>> round(creep_deflection(0.004, 0.05, 365.25 * 86400.0) * 1e3, 2)
    1.14
    """
    not_negative("deflection", deflection, "m")
    not_negative("creep per decade", creep_per_decade, "")
    if not duration >= CREEP_REFERENCE_TIME:
        raise InvalidInput(f"time under load is {duration} s; creep is counted from one minute (60 s) on")
    return deflection * creep_per_decade * math.log10(duration / CREEP_REFERENCE_TIME)
