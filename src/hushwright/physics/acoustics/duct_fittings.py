"""Elbows, open ends, splits, changes of section and lined chambers in a duct run."""

from __future__ import annotations

import math
from typing import Final, Literal

import numpy as np
from numpy.typing import ArrayLike

from hushwright.errors import InvalidInput
from hushwright.physics.acoustics.bands import FREQUENCIES, N_BANDS, OCTAVE_BANDS, FloatArray, exact_midband
from hushwright.physics.acoustics.duct_bands import DuctLoss, loss_from_octaves, loss_from_thirds
from hushwright.physics.acoustics.spaces import require_range
from hushwright.physics.air import AIR_20C, Air

ElbowKind = Literal["square", "square lined", "square vanes", "square vanes lined", "radiused"]
EndKind = Literal["flush", "free"]
BendKind = Literal["sharp", "sharp vanes", "lined", "lined vanes", "lined one side", "radiused"]

# Bies, Hansen & Howard, 5th ed., table 8.11; Long 2014, tables 14.5 to 14.7: loss by width over wavelength.
_ELBOW_EDGES: Final = (0.14, 0.28, 0.55, 1.11, 2.22)
_ELBOWS: Final[dict[str, tuple[float, ...]]] = {
    "square": (0, 1, 5, 8, 4, 3),
    "square lined": (0, 1, 6, 11, 10, 10),
    "square vanes": (0, 1, 4, 6, 4, 4),
    "square vanes lined": (0, 1, 4, 7, 7, 7),
    "radiused": (0, 1, 2, 3, 3, 3),
}
# VDI 2081-1, table 7: octaves from 31.5 Hz of a side of 1250 mm, whose limit frequency c/(2·side) is in the 125 Hz one.
_BENDS: Final[dict[str, tuple[float, ...]]] = {
    "sharp": (0, 3, 7, 6, 3, 3, 3, 3, 3),
    "sharp vanes": (0, 1, 6, 6, 1, 1, 1, 1, 2),
    "lined": (0, 3, 10, 10, 14, 18, 18, 18, 18),
    "lined vanes": (0, 1, 9, 10, 14, 14, 14, 14, 14),
    "lined one side": (0, 2, 8, 6, 8, 10, 10, 10, 10),
    "radiused": (0, 1, 2, 3, 3, 3, 3, 3, 3),
}


def elbow(width: float, kind: ElbowKind = "square", air: Air = AIR_20C) -> DuctLoss:
    """Attenuation of a 90° elbow.

    Parameters
    ----------
    width : float
        Width of the duct in the plane of the bend [m].
    kind : {"square", "square lined", "square vanes", "square vanes lined", "radiused"}, optional
        Build of the elbow [-]; lined means for at least two widths before and behind it.
    air : Air, optional
        Air in the duct [-].

    Returns
    -------
    DuctLoss
        Attenuation [dB], looked up at the octaves and held over their thirds.

    Raises
    ------
    InvalidInput
        If the width or the kind is impossible.

    References
    ----------
    .. [1] D. A. Bies, C. H. Hansen and C. Q. Howard, *Engineering Noise Control*, 5th ed., CRC, 2017, table 8.11.
    .. [2] M. Long, *Architectural Acoustics*, 2nd ed., Academic Press, 2014, tables 14.5 to 14.7.

    Examples
    --------
    >>> [round(level) for level in elbow(24 * 0.0254, "radiused").octaves]
    [0, 1, 2, 3, 3, 3, 3, 3]
    """
    require_range("elbow width", width, 0.0, 5.0, "m", open_low=True)
    if kind not in _ELBOWS:
        raise InvalidInput(f"{kind!r} is no kind of elbow; known are {', '.join(_ELBOWS)}")
    ratio = width * np.array(OCTAVE_BANDS) / air.speed_of_sound
    values = np.array(_ELBOWS[kind], dtype=np.float64)[np.searchsorted(_ELBOW_EDGES, ratio, side="right")]
    return loss_from_octaves(
        values, OCTAVE_BANDS, standard_uncertainty=2.0, basis=f"elbow, {kind} (Bies 2017, table 8.11)"
    )


def bend(side: float, kind: BendKind = "sharp", air: Air = AIR_20C) -> DuctLoss:
    """Attenuation of a 90° bend after the second published table.

    Parameters
    ----------
    side : float
        Side of the duct in the plane of the bend [m].
    kind : {"sharp", "sharp vanes", "lined", "lined vanes", "lined one side", "radiused"}, optional
        Build of the bend [-].
    air : Air, optional
        Air in the duct [-].

    Returns
    -------
    DuctLoss
        Attenuation [dB]; the octave pattern of a 1250 mm side moved to the limit frequency of this side.

    Raises
    ------
    InvalidInput
        If the side or the kind is impossible.

    References
    ----------
    .. [1] VDI 2081-1:2001, table 7.

    Examples
    --------
    >>> bend(1.25, "lined").octaves[1]
    10.0
    >>> bend(0.125, "lined").octaves[2:5]
    (0.0, 3.0, 10.0)
    """
    require_range("bend side", side, 0.0, 5.0, "m", open_low=True)
    if kind not in _BENDS:
        raise InvalidInput(f"{kind!r} is no kind of bend; known are {', '.join(_BENDS)}")
    limit = air.speed_of_sound / (2.0 * side)
    shift = round(math.log2(limit / float(exact_midband(125.0))))
    pattern = _BENDS[kind]
    values = [0.0 if place < 0 else float(pattern[min(place, 8)]) for place in range(-shift, 9 - shift)]
    return loss_from_octaves(
        values, OCTAVE_BANDS, standard_uncertainty=2.0, basis=f"bend, {kind} (VDI 2081-1, table 7)"
    )


def end_reflection(area: float, kind: EndKind = "flush", air: Air = AIR_20C, *, limit: float | None = 15.0) -> DuctLoss:
    r"""What the open end of a duct throws back.

    Parameters
    ----------
    area : float
        Open area of the end [m²].
    kind : {"flush", "free"}, optional
        End flush with a wall or free in the room [-].
    air : Air, optional
        Air at the end [-].
    limit : float or None, optional
        Largest value that is trusted [dB]; None for none.

    Returns
    -------
    DuctLoss
        Attenuation [dB] at the 27 mid-band frequencies.

    Raises
    ------
    InvalidInput
        If the area, the kind or the limit is impossible.

    Notes
    -----
    .. math:: 10\lg\left(1+\left(\frac{n c}{\pi f D}\right)^{1.88}\right)

    n = 1 free, 0.8 flush, D the diameter of equal area [1]_; within 1.1 dB of the printed table [2]_. It asks for a
    straight run of some diameters before the end; 15 dB is the limit of [3]_.

    References
    ----------
    .. [1] M. Long, *Architectural Acoustics*, 2nd ed., Academic Press, 2014, ch. 14.
    .. [2] D. A. Bies, C. H. Hansen and C. Q. Howard, *Engineering Noise Control*, 5th ed., CRC, 2017, table 8.14.
    .. [3] VDI 2081-1:2001.

    Examples
    --------
    >>> [round(level) for level in end_reflection(math.pi / 4 * 0.25**2, "free", limit=None).attenuation[4:14:3]]
    [16, 11, 6, 2]
    """
    require_range("open area of the end", area, 0.0, 10.0, "m²", open_low=True)
    if kind not in ("flush", "free"):
        raise InvalidInput(f"{kind!r} is no kind of open end; it is 'flush' or 'free'")
    diameter = math.sqrt(4.0 * area / math.pi)
    factor = 0.8 if kind == "flush" else 1.0
    values = 10.0 * np.log10(1.0 + (factor * air.speed_of_sound / (math.pi * FREQUENCIES * diameter)) ** 1.88)
    notes = []
    if limit is not None:
        require_range("limit of the end reflection", limit, 0.0, 60.0, "dB")
        if np.any(values > limit):
            notes.append(f"end reflection of more than {limit:g} dB computed, {limit:g} dB taken")
            values = np.minimum(values, limit)
    return loss_from_thirds(values, standard_uncertainty=1.0, basis=f"end reflection, {kind} (Long 2014)", notes=notes)


def split(share: float) -> DuctLoss:
    """What goes into the other branches where a duct divides.

    Parameters
    ----------
    share : float
        Share of area, or of flow, of the branch that is followed [-], above 0 up to 1.

    Returns
    -------
    DuctLoss
        Attenuation ``−10 lg(share)`` [dB].

    Raises
    ------
    InvalidInput
        If the share is outside 0 to 1.

    References
    ----------
    .. [1] VDI 2081-2:2005 and M. Long, *Architectural Acoustics*, 2nd ed., 2014, table 14.9 (worked examples).

    Examples
    --------
    >>> round(split(0.25).attenuation[0], 1)
    6.0
    """
    require_range("share of the branch", share, 0.0, 1.0, "", open_low=True)
    return loss_from_thirds(-10.0 * math.log10(share), basis="split by area (VDI 2081-2)")


def section_change(area_before: float, area_behind: float) -> DuctLoss:
    """Sudden change of section, for plane waves and long ducts on both sides.

    Parameters
    ----------
    area_before : float
        Area on the side of the source [m²].
    area_behind : float
        Area behind it [m²].

    Returns
    -------
    DuctLoss
        Attenuation [dB].

    Raises
    ------
    InvalidInput
        If an area is not above 0.

    Notes
    -----
    ``10 lg[(1 + m)²/(4 m)]``, m the ratio of areas. Holds below the first cross mode; above it less is thrown back, so
    it is left out of a run of many short parts where nothing else is known.

    References
    ----------
    .. [1] D. A. Bies, C. H. Hansen and C. Q. Howard, *Engineering Noise Control*, 5th ed., CRC, 2017, ch. 8.

    Examples
    --------
    >>> round(section_change(0.01, 0.04).attenuation[0], 2)
    1.94
    """
    require_range("area before", area_before, 0.0, 100.0, "m²", open_low=True)
    require_range("area behind", area_behind, 0.0, 100.0, "m²", open_low=True)
    ratio = area_behind / area_before
    thrown_back = 10.0 * math.log10((1.0 + ratio) ** 2 / (4.0 * ratio))
    return loss_from_thirds(thrown_back, basis="change of section, plane waves")


def plenum(
    outlet_area: float,
    wall_area: float,
    absorption_coefficient: ArrayLike,
    distance: float,
    *,
    angle: float = 0.0,
    spread: Literal["half space", "quarter space"] = "half space",
) -> DuctLoss:
    r"""Lined chamber larger than the wavelength.

    Parameters
    ----------
    outlet_area : float
        Area of the outlet [m²].
    wall_area : float
        Area of all inner faces [m²].
    absorption_coefficient : array_like, shape (27,) or a scalar
        Mean absorption of the inner faces [-], above 0 and below 1.
    distance : float
        From the middle of the inlet to the middle of the outlet [m].
    angle : float, optional
        Of that line to the axis of the outlet [rad].
    spread : {"half space", "quarter space"}, optional
        Direct sound over 2πr² or over πr² [-]; books differ.

    Returns
    -------
    DuctLoss
        Attenuation [dB].

    Raises
    ------
    InvalidInput
        If a value is impossible.

    Notes
    -----
    .. math:: -10\lg\left[S_{out}\left(\frac{\cos\theta}{2\pi r^2}+\frac{1-\alpha}{S_w\alpha}\right)\right]

    Wells' chamber [1]_. Holds where the chamber is larger than the wavelength; below it the result is noted and the
    area change alone should be trusted (see `duct_baffle_box`). A negative result, an outlet larger than the field
    allows, is 0.

    References
    ----------
    .. [1] R. J. Wells, *Noise Control* 4(4) (1958) 9–15; as M. Long, *Architectural Acoustics*, 2nd ed., 2014, ch. 14.

    Examples
    --------
    >>> round(plenum(0.0123, 1.2, 0.7, 0.8).attenuation[17], 1)
    21.3
    """
    require_range("outlet area", outlet_area, 0.0, 100.0, "m²", open_low=True)
    require_range("wall area", wall_area, 0.0, 1000.0, "m²", open_low=True)
    require_range("distance", distance, 0.0, 100.0, "m", open_low=True)
    require_range("angle", angle, 0.0, math.pi / 2.0, "rad")
    absorbed = np.broadcast_to(np.asarray(absorption_coefficient, dtype=np.float64), (N_BANDS,))
    for value in absorbed:
        require_range("absorption coefficient", float(value), 0.0, 1.0, "", open_low=True)
    cone = 2.0 if spread == "half space" else 1.0
    direct = math.cos(angle) / (cone * math.pi * distance**2)
    passed = outlet_area * (direct + (1.0 - absorbed) / (wall_area * absorbed))
    values = np.maximum(0.0, -10.0 * np.log10(passed))
    return loss_from_thirds(
        values, standard_uncertainty=3.0, basis="lined chamber (Wells 1958)", notes=_plenum_notes(wall_area)
    )


def _plenum_notes(wall_area: float) -> list[str]:
    """From which frequency a cube of that inner area is one wavelength across."""
    lowest = AIR_20C.speed_of_sound / math.sqrt(wall_area / 6.0)
    return [f"lined chamber: a diffuse field is assumed; below about {lowest:.0f} Hz it has none"]


def wall_absorption(areas: FloatArray, coefficients: FloatArray) -> FloatArray:
    """Mean absorption coefficient of the inner faces of a chamber.

    Parameters
    ----------
    areas : ndarray, shape (n_face,)
        Area of each face [m²].
    coefficients : ndarray, shape (n_face, n_band)
        Absorption coefficient of each face [-].

    Returns
    -------
    ndarray, shape (n_band,)
        Mean by area [-].

    Raises
    ------
    InvalidInput
        If no area is above 0.

    References
    ----------
    .. [1] EN 12354-6:2003, equivalent absorption area.

    Examples
    --------
    >>> wall_absorption(np.array([1.0, 1.0]), np.array([[0.2], [0.6]])).round(2).tolist()
    [0.4]
    """
    total = float(np.sum(areas))
    if not total > 0.0:
        raise InvalidInput(f"faces have {total} m² together; the mean needs an area")
    return np.asarray(np.asarray(areas) @ np.asarray(coefficients) / total, dtype=np.float64)
