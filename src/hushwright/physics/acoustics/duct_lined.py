"""Straight ducts: bare, lined and flexible."""

from __future__ import annotations

from functools import cache
from typing import Final, Literal

import numpy as np

from hushwright.errors import InvalidInput
from hushwright.physics.acoustics.bands import FloatArray
from hushwright.physics.acoustics.duct_bands import DUCT_OCTAVES, DuctLoss, loss_from_octaves
from hushwright.physics.acoustics.duct_sections import RectangularSection, Section
from hushwright.physics.acoustics.published import published_row, published_values
from hushwright.physics.acoustics.spaces import require_range

_LINED: Final = "lined duct, regression (Long 2014, ch. 14)"
_FLEXIBLE: Final = "flexible duct table (Long 2014, table 14.4)"
_FOOT: Final = 0.3048
_INCH: Final = 0.0254
_LARGEST_INSERTION_LOSS: Final = 40.0  # dB: beyond it sound goes round through the duct wall (ASHRAE)

# Lined rectangular duct, IL = B·(P/S)^C·t^D·L per octave from 63 Hz (Reynolds; Long 2014; ASHRAE algorithms 1991).
_RECTANGULAR: Final = (
    (0.0133, 1.959, 0.917), (0.0574, 1.410, 0.941), (0.271, 0.824, 1.079), (1.0147, 0.500, 1.087),
    (1.770, 0.695, 0.0), (1.392, 0.802, 0.0), (1.518, 0.451, 0.0), (1.581, 0.219, 0.0),
)  # fmt: skip
# Lined round duct, IL = (A + B·t + C·t² + D·d + E·d² + F·d³)·L per octave from 63 Hz (same sources).
_ROUND: Final = (
    (0.2825, 0.3447, -0.05251, -0.03837, 0.0009132, -8.294e-06),
    (0.5237, 0.2234, -0.004936, -0.02724, 0.0003377, -2.490e-06),
    (0.3652, 0.7900, -0.1157, -0.01834, -0.0001211, 2.681e-06),
    (0.1333, 1.8450, -0.3735, -0.01293, 8.624e-05, -4.986e-06),
    (1.9330, 0.0, 0.0, 0.06135, -0.003891, 3.934e-05),
    (2.7300, 0.0, 0.0, -0.07341, 0.0004428, 1.006e-06),
    (2.8000, 0.0, 0.0, -0.1467, 0.003404, -2.851e-05),
    (1.5450, 0.0, 0.0, -0.05452, 0.00129, -1.318e-05),
)
_BARE_ROUND: Final = (0.03, 0.03, 0.03, 0.05, 0.07, 0.07, 0.07, 0.07)  # dB/ft (Reynolds; ASHRAE)
# Bare sheet metal ducts, dB/m per octave from 63 Hz, by the largest side or diameter [m] (VDI 2081-1, table 5).
_SHEET_RECTANGULAR: Final = (
    (0.2, (0.6, 0.6, 0.45, 0.3, 0.3, 0.3, 0.3, 0.3)),
    (0.4, (0.6, 0.6, 0.45, 0.3, 0.2, 0.2, 0.2, 0.2)),
    (0.8, (0.6, 0.6, 0.3, 0.15, 0.15, 0.15, 0.15, 0.15)),
    (1.0, (0.45, 0.3, 0.15, 0.1, 0.05, 0.05, 0.05, 0.05)),
)
_SHEET_ROUND: Final = (
    (0.2, (0.1, 0.1, 0.15, 0.15, 0.3, 0.3, 0.3, 0.3)),
    (0.4, (0.05, 0.1, 0.1, 0.15, 0.2, 0.2, 0.2, 0.2)),
    (0.8, (0.0, 0.05, 0.05, 0.1, 0.15, 0.15, 0.15, 0.15)),
    (1.0, (0.0, 0.0, 0.0, 0.05, 0.05, 0.05, 0.05, 0.05)),
)


def _length(length: float) -> float:
    require_range("duct length", length, 0.0, 100.0, "m")
    return length


def _bare_rectangular(section: RectangularSection, length: float) -> FloatArray:
    ratio = section.perimeter / section.area * _FOOT
    feet = length / _FOOT
    low = np.array(DUCT_OCTAVES[:3])
    if ratio >= 3.0:
        below = 17.0 * ratio**-0.25 * low**-0.85 * feet
    else:
        below = 1.64 * ratio**0.73 * low**-0.58 * feet
    above = np.full(len(DUCT_OCTAVES) - 3, 0.02 * ratio**0.8 * feet)
    return np.concatenate([below, above])


def bare_duct(section: Section, length: float, method: Literal["regression", "sheet table"] = "regression") -> DuctLoss:
    """Straight sheet metal duct without a lining.

    Parameters
    ----------
    section : RectangularSection or RoundSection
        Clear section (sides [m]).
    length : float
        Length [m].
    method : {"regression", "sheet table"}, optional
        Which of two published rules is asked [-].

    Returns
    -------
    DuctLoss
        Attenuation [dB].

    Raises
    ------
    InvalidInput
        If the length or the method is impossible, or a side is beyond the sheet table.

    Notes
    -----
    Regression [1]_, P/S in 1/ft, L in ft: up to 250 Hz ``17 (P/S)^−0.25 f^−0.85 L`` for P/S ≥ 3 and
    ``1.64 (P/S)^0.73 f^−0.58 L`` below (one transcription has +0.25, which fits neither the handbook table nor the
    printed sheet); above 250 Hz ``0.02 (P/S)^0.8 L``; round ducts 0.03 to 0.07 dB/ft. Sheet table:
    [2]_, by the longer side, up to 1 m.

    References
    ----------
    .. [1] M. Long, *Architectural Acoustics*, 2nd ed., Academic Press, 2014, ch. 14 (regression after Reynolds).
    .. [2] VDI 2081-1:2001, table 5.

    Examples
    --------
    >>> from hushwright.physics.acoustics.duct_sections import RoundSection
    >>> [round(level, 2) for level in bare_duct(RoundSection(0.125), 2.0).octaves[:2]]
    [0.2, 0.2]
    >>> round(bare_duct(RectangularSection(0.2, 0.2), 2.0, "sheet table").octaves[0], 6)
    1.2
    """
    _length(length)
    if method == "regression":
        if isinstance(section, RectangularSection):
            values = _bare_rectangular(section, length)
        else:
            values = np.array(_BARE_ROUND) * length / _FOOT
        return loss_from_octaves(values, basis="bare duct, regression (Long 2014, ch. 14)")
    if method != "sheet table":
        raise InvalidInput(f"{method!r} is no rule for a bare duct; it is 'regression' or 'sheet table'")
    table = _SHEET_RECTANGULAR if isinstance(section, RectangularSection) else _SHEET_ROUND
    for edge, row in table:
        if section.longest_side <= edge:
            return loss_from_octaves(np.array(row) * length, basis="bare sheet metal duct (VDI 2081-1, table 5)")
    raise InvalidInput(f"duct side is {section.longest_side} m; the sheet table ends at {table[-1][0]} m")


def lining_insertion_loss(section: Section, length: float, lining_thickness: float) -> DuctLoss:
    """What a lining alone takes in a straight duct.

    Parameters
    ----------
    section : RectangularSection or RoundSection
        Clear section inside the lining (sides [m]).
    length : float
        Length [m].
    lining_thickness : float
        Thickness of the lining [m].

    Returns
    -------
    DuctLoss
        Insertion loss [dB], at most 40 dB, without what the bare duct takes.

    Raises
    ------
    InvalidInput
        If a dimension is impossible.

    Notes
    -----
    Rectangular ``B (P/S)^C t^D L``, round ``(A + B t + C t² + D d + E d² + F d³) L`` in inches and feet [1]_ [2]_, for
    fibrous linings of about 25 to 75 kg/m³ of 25 to 50 mm (round to 75 mm), sections of 150 mm to 1.5 m and runs up to
    about 3 m; outside the value stands with a note. The cubic of the round duct can fall below zero: then 0, noted.

    References
    ----------
    .. [1] M. Long, *Architectural Acoustics*, 2nd ed., Academic Press, 2014, ch. 14.
    .. [2] D. D. Reynolds and J. M. Bledsoe, *Algorithms for HVAC Acoustics*, ASHRAE, 1991.

    Examples
    --------
    >>> duct = RectangularSection(18 * 0.0254, 12 * 0.0254)
    >>> round(lining_insertion_loss(duct, 6 * 0.3048, 0.0254).octaves[4], 1)
    24.5
    """
    _length(length)
    require_range("lining thickness", lining_thickness, 0.0, 0.3, "m", open_low=True)
    inches, feet = lining_thickness / _INCH, length / _FOOT
    notes = _lining_notes(section, length, lining_thickness)
    if isinstance(section, RectangularSection):
        ratio = section.perimeter / section.area * _FOOT
        values = np.array([b * ratio**c * inches**d * feet for b, c, d in _RECTANGULAR])
    else:
        side = section.diameter / _INCH
        values = np.array(_ROUND) @ np.array([1.0, inches, inches**2, side, side**2, side**3]) * feet
        if np.any(values < 0.0):
            low = [f"{band:g}" for band, value in zip(DUCT_OCTAVES, values, strict=True) if value < 0.0]
            notes.append(f"lined round duct: regression below zero at {', '.join(low)} Hz, taken as 0")
            values = np.maximum(values, 0.0)
    if np.any(values > _LARGEST_INSERTION_LOSS):
        notes.append(f"lining: more than {_LARGEST_INSERTION_LOSS:g} dB computed, taken as {_LARGEST_INSERTION_LOSS:g}")
        values = np.minimum(values, _LARGEST_INSERTION_LOSS)
    return loss_from_octaves(values, standard_uncertainty=2.0, basis=_LINED, notes=notes)


def _lining_notes(section: Section, length: float, lining_thickness: float) -> list[str]:
    notes = []
    thickest = 0.0515 if isinstance(section, RectangularSection) else 0.0765
    if not 0.025 <= lining_thickness <= thickest:
        notes.append(f"lining of {1e3 * lining_thickness:.0f} mm: regression drawn from 25 to {1e3 * thickest:.0f} mm")
    smallest = min(section.width, section.height) if isinstance(section, RectangularSection) else section.diameter
    if smallest < 0.15 or section.longest_side > 1.53:
        notes.append(f"lined duct of {1e3 * smallest:.0f} mm: regression drawn from sections of 150 mm to 1.5 m")
    if length > 3.1:
        notes.append(f"lined duct of {length:.1f} m: runs of up to about 3 m were measured")
    return notes


def lined_duct(section: Section, length: float, lining_thickness: float) -> DuctLoss:
    """Straight lined duct, lining and bare duct together.

    Parameters
    ----------
    section : RectangularSection or RoundSection
        Clear section inside the lining (sides [m]).
    length : float
        Length [m].
    lining_thickness : float
        Thickness of the lining [m].

    Returns
    -------
    DuctLoss
        Attenuation [dB].

    Raises
    ------
    InvalidInput
        If a dimension is impossible.

    References
    ----------
    .. [1] M. Long, *Architectural Acoustics*, 2nd ed., Academic Press, 2014, ch. 14 and table 14.9.

    Examples
    --------
    >>> duct = RectangularSection(18 * 0.0254, 12 * 0.0254)
    >>> [round(level) for level in lined_duct(duct, 6 * 0.3048, 0.0254).octaves[3:]]
    [11, 25, 22, 16, 13]
    """
    lining = lining_insertion_loss(section, length, lining_thickness)
    values = np.array(lining.octaves) + np.array(bare_duct(section, length).octaves)
    return loss_from_octaves(values, standard_uncertainty=2.0, basis=lining.basis, notes=lining.notes)


@cache
def _flexible_table() -> tuple[tuple[float, ...], tuple[float, ...], FloatArray]:
    """Diameters [m], lengths [m] and insertion loss, shape (n_diameter, n_length, 7) [dB]."""
    inches, feet = (4, 5, 6, 7, 8, 9, 10, 12, 14, 16), (3, 6, 9, 12)
    names = [[f"FLEX-{inch}in-{foot}ft" for foot in feet] for inch in inches]
    values = [[[v for _, v in published_values("duct_flexible.csv", "b_", id=name)] for name in row] for row in names]
    rows = [published_row("duct_flexible.csv", id=row[0]) for row in names]
    diameters = tuple(float(row["diameter_mm"]) / 1000.0 for row in rows)
    return diameters, tuple(_FOOT * foot for foot in feet), np.array(values)


def flexible_duct(diameter: float, length: float) -> DuctLoss:
    """Lined flexible duct with a fabric or film wall, stretched.

    Parameters
    ----------
    diameter : float
        Clear diameter [m].
    length : float
        Length [m].

    Returns
    -------
    DuctLoss
        Insertion loss [dB].

    Raises
    ------
    InvalidInput
        If a dimension is impossible.

    Notes
    -----
    Linear between the printed diameters (102 to 406 mm) and lengths (0.91 to 3.66 m) [1]_. Shorter pieces in proportion
    to their length; longer ones keep the value of 3.66 m, other diameters that of the nearest one printed, all noted.
    Its wall is light: breakout is that of a film, so it must not pass through the quiet room unboxed.

    References
    ----------
    .. [1] M. Long, *Architectural Acoustics*, 2nd ed., Academic Press, 2014, table 14.4 (ASHRAE).

    Examples
    --------
    >>> [round(level) for level in flexible_duct(0.305, 6 * 0.3048).octaves[:7]]
    [3, 5, 10, 15, 17, 16, 9]
    """
    _length(length)
    require_range("duct diameter", diameter, 0.0, 5.0, "m", open_low=True)
    diameters, lengths, table = _flexible_table()
    notes = []
    if not diameters[0] - 1e-3 <= diameter <= diameters[-1] + 1e-3:
        notes.append(f"flexible duct of {1e3 * diameter:.0f} mm: the table has 102 to 406 mm, nearest taken")
    if length > lengths[-1] + 1e-3:
        notes.append(f"flexible duct of {length:.2f} m: the table ends at 3.66 m, its value is kept")
    row = np.array([[np.interp(diameter, diameters, column) for column in sheet.T] for sheet in table.swapaxes(0, 1)])
    reach = np.array([0.0, *lengths])
    values = [np.interp(length, reach, [0.0, *column]) for column in row.T]
    return loss_from_octaves(values, DUCT_OCTAVES[:7], standard_uncertainty=2.0, basis=_FLEXIBLE, notes=notes)
