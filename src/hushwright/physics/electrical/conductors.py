"""Conductors: sizes, resistance, mass, and the current that each carries after a chosen set of rules."""

from __future__ import annotations

import math
from collections.abc import Iterable
from dataclasses import dataclass
from functools import lru_cache
from typing import Literal, get_args

from hushwright.errors import InvalidInput
from hushwright.physics._guard import not_negative, positive
from hushwright.physics.electrical import _wiring_tables as tables

RuleSet = Literal["ABYC E-11", "ISO 13297", "NEC 551"]
Gauge = Literal["AWG", "mm2"]
RULE_SETS: tuple[RuleSet, ...] = get_args(RuleSet)

CIRCULAR_MIL = math.pi / 4.0 * 25.4e-6**2
"""Area of a circle of a thousandth of an inch [m²]."""
_COPPER_RESISTIVITY = 1.7241e-8  # Ω·m at 20 °C, IEC 60028; memory, high confidence
_PER_KELVIN = 0.00393  # 1/K, IEC 60028; memory, high confidence
_COPPER_DENSITY = 8890.0  # kg/m³
_INSULATION_DENSITY, _INSULATION_WALL, _FILLED = 1400.0, 0.0008, 0.75  # kg/m³, m, share; common practice, no source
_ISO_MEMORY = "ampacities of ISO 13297 are from memory; hold them against a bought copy"
_NO_LOW_VOLTAGE = "NEC 551 leaves low voltage to NFPA 1192, of which no table is at hand"


@dataclass(frozen=True, slots=True)
class Conductor:
    """A size of stranded copper.

    Parameters
    ----------
    name : str
        As it is sold: ``10 AWG``, ``6 mm²``.
    size : str
        Key in the tables.
    conductor_area : float
        Nominal cross-section [m²].
    least_area : float
        Cross-section that it is sure to have [m²].
    resistance_per_length : float
        At 20 °C [Ω/m].

    Examples
    --------
    >>> conductors("mm2")[6].name
    '6 mm²'
    """

    name: str
    size: str
    conductor_area: float
    least_area: float
    resistance_per_length: float


@dataclass(frozen=True, slots=True)
class Ampacity:
    """What a conductor carries for ever, after whom, and why that is not proven.

    Parameters
    ----------
    current : float or None
        Ampacity [A]; `None` where the rules have no table.
    basis : str
        Table and factors.
    notes : tuple of str
        Reasons for which a verdict cannot rest on it.

    Examples
    --------
    >>> Ampacity(60.0, "33 CFR 183.425 Table 5", ()).current
    60.0
    """

    current: float | None
    basis: str
    notes: tuple[str, ...]


@lru_cache(maxsize=2)
def conductors(gauge: Gauge) -> tuple[Conductor, ...]:
    """Sizes of one system, thin to thick.

    Parameters
    ----------
    gauge : str
        ``AWG`` or ``mm2``.

    Returns
    -------
    tuple of Conductor
        All sizes.

    Raises
    ------
    InvalidInput
        If there is no such system.

    References
    ----------
    .. [1] IEC 60228, flexible plain copper; SAE J1127/J1128 for the least area of wire gauges.

    Examples
    --------
    >>> [each.name for each in conductors("AWG")[:3]]
    ['18 AWG', '16 AWG', '14 AWG']
    """
    if gauge == "mm2":
        return tuple(
            Conductor(f"{area:g} mm²", f"{area:g}", area * 1e-6, area * 1e-6, per_kilometre / 1000.0)
            for area, per_kilometre in tables.CLASS_5
        )
    if gauge != "AWG":
        raise InvalidInput(f"gauge is {gauge!r}; it is AWG or mm2")
    found = []
    for name, area, least in tables.AWG:
        nominal = area * 1e-6
        sure = nominal if least is None else least * CIRCULAR_MIL
        found.append(Conductor(f"{name} AWG", name, nominal, sure, _COPPER_RESISTIVITY / nominal))
    return tuple(found)


def conductor_of_area(conductor_area: float) -> Conductor:
    """Metric conductor of a cross-section; one that is not in the table has the next thinner one's rating.

    Parameters
    ----------
    conductor_area : float
        Nominal cross-section [m²].

    Returns
    -------
    Conductor
        The size of the table that is not thicker.

    Raises
    ------
    InvalidInput
        If it is thinner than the thinnest of the table.

    References
    ----------
    .. [1] IEC 60228.

    Examples
    --------
    >>> conductor_of_area(6.5e-6).name
    '6 mm²'
    """
    positive("conductor area", conductor_area, "m²")
    sizes = [each for each in conductors("mm2") if each.conductor_area <= conductor_area * 1.000001]
    if not sizes:
        raise InvalidInput(f"conductor area is {conductor_area * 1e6:g} mm²; the thinnest of IEC 60228 here is 0.5 mm²")
    return sizes[-1]


def conductor_of_gauge(size: str) -> Conductor:
    """Conductor of an American wire gauge.

    Parameters
    ----------
    size : str
        ``10``, ``2/0``.

    Returns
    -------
    Conductor
        The size.

    Raises
    ------
    InvalidInput
        If the table has no such gauge.

    References
    ----------
    .. [1] ASTM B258, diameters of American wire gauge.

    Examples
    --------
    >>> round(1e6 * conductor_of_gauge("10").conductor_area, 2)
    5.26
    """
    found = next((each for each in conductors("AWG") if each.size == size), None)
    if found is None:
        raise InvalidInput(f"gauge is {size!r}; there are {', '.join(each.size for each in conductors('AWG'))}")
    return found


def resistance_at(resistance: float, temperature: float) -> float:
    """Resistance of copper at a temperature.

    Parameters
    ----------
    resistance : float
        At 20 °C [Ω].
    temperature : float
        Of the conductor [°C].

    Returns
    -------
    float
        Resistance [Ω].

    References
    ----------
    .. [1] IEC 60028: 0.00393 per kelvin.

    Examples
    --------
    >>> round(resistance_at(1.0, 70.0), 4)
    1.1965
    """
    return not_negative("resistance", resistance, "Ω") * (1.0 + _PER_KELVIN * (temperature - 20.0))


def cable_mass_per_length(conductor: Conductor) -> float:
    """Mass of one insulated conductor.

    Parameters
    ----------
    conductor : Conductor
        Its size.

    Returns
    -------
    float
        Mass per length [kg/m].

    Notes
    -----
    Copper of the nominal area, and a wall of 0.8 mm round strands that fill three quarters of their circle.

    References
    ----------
    .. [1] Common practice, no source.

    Examples
    --------
    >>> round(cable_mass_per_length(conductor_of_area(50e-6)), 3)
    0.48
    """
    strands = insulated_diameter(conductor) - 2.0 * _INSULATION_WALL
    wall = math.pi * (strands + _INSULATION_WALL) * _INSULATION_WALL
    return _COPPER_DENSITY * conductor.conductor_area + _INSULATION_DENSITY * wall


def insulated_diameter(conductor: Conductor) -> float:
    """Outer diameter of one insulated conductor.

    Parameters
    ----------
    conductor : Conductor
        Its size.

    Returns
    -------
    float
        Diameter [m].

    Notes
    -----
    Strands that fill three quarters of their circle, and a wall of 0.8 mm round them.

    References
    ----------
    .. [1] Common practice, no source.

    Examples
    --------
    >>> round(1000.0 * insulated_diameter(conductor_of_area(2.5e-6)), 2)
    3.66
    """
    return math.sqrt(4.0 / math.pi * conductor.conductor_area / _FILLED) + 2.0 * _INSULATION_WALL


def ampacity(
    conductor: Conductor,
    insulation_temperature: float,
    rules: RuleSet,
    *,
    bundled: int = 2,
    engine_space: bool = False,
    alternating: bool = False,
) -> Ampacity:
    """Current that a conductor carries for ever, after one set of rules and no other.

    Parameters
    ----------
    conductor : Conductor
        Its size. A size that the rules do not list has the rating of the next thinner one that they do.
    insulation_temperature : float
        What its insulation stands [°C]; the column at or below it is read.
    rules : str
        ``ABYC E-11``, ``ISO 13297`` or ``NEC 551``.
    bundled : int
        Conductors in the bundle that carry current [-].
    engine_space : bool
        Whether it runs through an engine space.
    alternating : bool
        Whether it carries mains voltage.

    Returns
    -------
    Ampacity
        Current [A] with basis and notes.

    Raises
    ------
    InvalidInput
        If the rules are unknown or a number is impossible.

    Notes
    -----
    ABYC E-11 prints the grid of 33 CFR 183.425 Table 5, for single conductors at 30 °C; notes 1 and 2 of the law give
    the factors for engine spaces at 50 °C and for bundles. ISO 13297 took over the grid of ISO 10133, which is known
    here from memory alone. NEC 551 reads Table 310.16 for mains voltage.

    References
    ----------
    .. [1] 33 CFR 183.425; ABYC E-11.
    .. [2] ISO 13297 (ISO 10133 Annex A).
    .. [3] NFPA 70, articles 310 and 551.

    Examples
    --------
    >>> ampacity(conductor_of_gauge("10"), 105.0, "ABYC E-11", bundled=4).current
    36.0
    """
    positive("insulation temperature", insulation_temperature, "°C")
    positive("bundled conductors", bundled, "")
    if rules == "ABYC E-11":
        return _after_cfr(conductor, insulation_temperature, bundled, engine_space=engine_space)
    if rules == "ISO 13297":
        return _after_iso(conductor, insulation_temperature, bundled, engine_space=engine_space)
    if rules != "NEC 551":
        raise InvalidInput(f"rules are {rules!r}; there are {', '.join(RULE_SETS)}")
    if not alternating:
        return Ampacity(None, "NEC 551", (_NO_LOW_VOLTAGE,))
    return _after_nec(conductor, insulation_temperature, bundled, engine_space=engine_space)


def _after_cfr(conductor: Conductor, insulation: float, bundled: int, *, engine_space: bool) -> Ampacity:
    table = "ABYC E-11, grid of 33 CFR 183.425 Table 5"
    column = _column(tables.CFR_COLUMNS, insulation)
    size = _listed(conductor, [(each, conductor_of_gauge(each).conductor_area) for each in tables.CFR_183_425])
    if column is None or size is None:
        return _out_of_table(table, conductor, insulation)
    space = tables.CFR_ENGINE_SPACE[column] if engine_space else 1.0
    factor = _bundle_factor(tables.CFR_BUNDLES, bundled)
    basis = _basis(table, f"{size} AWG", conductor.name, tables.CFR_COLUMNS[column], factor, bundled, space)
    return Ampacity(tables.CFR_183_425[size][column] * factor * space, basis, ())


def _after_iso(conductor: Conductor, insulation: float, bundled: int, *, engine_space: bool) -> Ampacity:
    table = "ISO 13297 (ISO 10133 Table A.1)"
    column = _column(tables.ISO_COLUMNS, insulation)
    size = _listed(conductor, [(f"{each:g}", each * 1e-6) for each in tables.ISO_AMPACITY])
    if column is None or size is None:
        return _out_of_table(table, conductor, insulation)
    space = tables.ISO_ENGINE_SPACE[column] if engine_space else 1.0
    if space is None:
        return Ampacity(None, table, ("no factor for this insulation in engine spaces", _ISO_MEMORY))
    factor = _bundle_factor(tables.ISO_BUNDLES, bundled)
    basis = _basis(table, f"{size} mm²", conductor.name, tables.ISO_COLUMNS[column], factor, bundled, space)
    return Ampacity(tables.ISO_AMPACITY[float(size)][column] * factor * space, basis, (_ISO_MEMORY,))


def _after_nec(conductor: Conductor, insulation: float, bundled: int, *, engine_space: bool) -> Ampacity:
    table = "NEC 551, NFPA 70 Table 310.16"
    column = _column(tables.NEC_COLUMNS, insulation)
    size = _listed(conductor, [(each, conductor_of_gauge(each).conductor_area) for each in tables.NEC_310_16])
    if column is None or size is None:
        return _out_of_table(table, conductor, insulation)
    space = _nec_ambient(column, 50.0 if engine_space else 30.0)
    factor = _bundle_factor(tables.NEC_BUNDLES, bundled)
    basis = _basis(table, f"{size} AWG", conductor.name, tables.NEC_COLUMNS[column], factor, bundled, space)
    current = tables.NEC_310_16[size][column] * factor * space
    return Ampacity(min(current, tables.NEC_SMALL.get(size, math.inf)), basis, ())


def _nec_ambient(column: int, ambient: float) -> float:
    for highest, factors in tables.NEC_AMBIENT:
        if ambient <= highest:
            return factors[column] or 0.0
    return 0.0


def _column(columns: Iterable[float], insulation: float) -> int | None:
    below = [index for index, each in enumerate(columns) if each <= insulation]
    return below[-1] if below else None


def _listed(conductor: Conductor, sizes: list[tuple[str, float]]) -> str | None:
    """Thickest size of a table that is not thicker than the conductor."""
    below = [size for size, area in sizes if area <= conductor.conductor_area * 1.000001]
    return below[-1] if below else None


def _bundle_factor(steps: Iterable[tuple[int, float]], bundled: int) -> float:
    return ([1.0] + [factor for least, factor in steps if bundled >= least])[-1]


def _out_of_table(table: str, conductor: Conductor, insulation: float) -> Ampacity:
    return Ampacity(None, table, (f"{conductor.name} with insulation for {insulation:g} °C is not in its table",))


def _basis(table: str, size: str, name: str, column: float, factor: float, bundled: int, space: float) -> str:
    parts = [f"{table}, {size}, {column:g} °C"]
    if size != name:
        parts.append(f"the thickest of the table within {name}")
    if factor != 1.0:
        parts.append(f"times {factor:g} for {bundled} in a bundle")
    if space != 1.0:
        parts.append(f"times {space:g} for an engine space")
    return ", ".join(parts)
