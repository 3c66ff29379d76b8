"""Modes of a prismatic room: one high-order finite element over the cross-section, cosines along the length."""

from __future__ import annotations

import math
from dataclasses import dataclass

from hushwright.errors import InvalidInput
from hushwright.physics.acoustics.polygons import Polygon
from hushwright.physics.acoustics.section_shapes import SectionShapes, section_shapes
from hushwright.physics.air import AIR_20C, Air

__all__ = [
    "RoomMode", "SectionModes", "SectionShapes", "cross_section_modes", "modal_density", "room_modes", "section_shapes",
]  # fmt: skip


@dataclass(frozen=True, slots=True)
class SectionModes:
    """Modes of a rigid-walled cross-section.

    Parameters
    ----------
    polygon : tuple of (y, z)
        Corners of the cross-section [m].
    wavenumbers : tuple of float, shape (n_mode,)
        Wavenumber of each section mode [rad/m], rising; the first is 0.
    highest_frequency : float
        Frequency up to which the list is complete [Hz].

    References
    ----------
    .. [1] H. Kuttruff, *Room Acoustics*, 5th ed., Spon, 2009, ch. 3.

    Examples
    --------
    >>> SectionModes(((0.0, 0.0), (1.0, 0.0), (1.0, 1.0)), (0.0,), 100.0).wavenumbers
    (0.0,)
    """

    polygon: Polygon
    wavenumbers: tuple[float, ...]
    highest_frequency: float


@dataclass(frozen=True, slots=True)
class RoomMode:
    """One mode of a prismatic room.

    Parameters
    ----------
    frequency : float
        Natural frequency [Hz].
    section_index : int
        Number of the section mode [-]; 0 is constant over the section.
    length_index : int
        Half waves along the length [-].

    References
    ----------
    .. [1] H. Kuttruff, *Room Acoustics*, 5th ed., Spon, 2009, ch. 3.

    Examples
    --------
    >>> RoomMode(76.3, 0, 1).length_index
    1
    """

    frequency: float
    section_index: int
    length_index: int


def cross_section_modes(
    polygon: Polygon, highest_frequency: float, air: Air = AIR_20C, *, degree: int | None = None
) -> SectionModes:
    """Modes of a rigid-walled cross-section.

    Parameters
    ----------
    polygon : tuple of (y, z)
        Corners of the cross-section in order [m].
    highest_frequency : float
        Frequency up to which modes are wanted [Hz], > 0.
    air : Air, optional
        Air in the room, gives the speed of sound [m/s].
    degree : int, optional
        Degree of the polynomials over the section [-]; chosen from the wavelength when left out.

    Returns
    -------
    SectionModes
        Wavenumbers of the section modes [rad/m].

    Raises
    ------
    InvalidInput
        If the polygon is degenerate or crosses itself, or the frequency is ≤ 0.

    Notes
    -----
    See :func:`section_shapes`. Rigid walls; damping enters later as modal decay.

    References
    ----------
    .. [1] H. Kuttruff, *Room Acoustics*, 5th ed., Spon, 2009, ch. 3.

    Examples
    --------
    >>> modes = cross_section_modes(((0.0, 0.0), (2.0, 0.0), (2.0, 1.0), (0.0, 1.0)), 300.0)
    >>> round(modes.wavenumbers[1], 3)
    1.571
    """
    if not highest_frequency > 0.0:
        raise InvalidInput(f"highest frequency is {highest_frequency} Hz; it must be above 0")
    wavenumber = 2.0 * math.pi * highest_frequency / air.speed_of_sound
    shapes = section_shapes(polygon, wavenumber, degree)
    return SectionModes(polygon, tuple(float(value) for value in shapes.wavenumbers), highest_frequency)


def room_modes(
    section: SectionModes, length: float, highest_frequency: float, air: Air = AIR_20C
) -> tuple[RoomMode, ...]:
    """Modes of a prism: section modes combined with half waves along the length.

    Parameters
    ----------
    section : SectionModes
        Modes of the cross-section [rad/m].
    length : float
        Length of the prism [m], > 0.
    highest_frequency : float
        Frequency up to which modes are listed [Hz]; not above that of ``section``.
    air : Air, optional
        Air in the room, gives the speed of sound [m/s].

    Returns
    -------
    tuple of RoomMode
        Modes by rising frequency [Hz]; the constant-pressure mode at 0 Hz is left out.

    Raises
    ------
    InvalidInput
        If ``length`` ≤ 0 or ``highest_frequency`` is above that of the section.

    Notes
    -----
    ``f = c/(2π) · sqrt(κ² + (nπ/L)²)``.

    References
    ----------
    .. [1] H. Kuttruff, *Room Acoustics*, 5th ed., Spon, 2009, ch. 3.

    Examples
    --------
    >>> section = cross_section_modes(((0.0, 0.0), (1.6, 0.0), (1.6, 1.9), (0.0, 1.9)), 120.0)
    >>> [round(mode.frequency) for mode in room_modes(section, 2.25, 120.0)]
    [76, 90, 107, 118]
    """
    if not length > 0.0:
        raise InvalidInput(f"room length is {length} m; it must be above 0")
    if highest_frequency > section.highest_frequency * (1.0 + 1e-9):
        raise InvalidInput(
            f"modes up to {highest_frequency} Hz asked, the section's reach {section.highest_frequency} Hz"
        )
    limit = 2.0 * math.pi * highest_frequency / air.speed_of_sound
    found = []
    for index, wavenumber in enumerate(section.wavenumbers):
        for half_waves in range(math.floor(limit * length / math.pi) + 1):
            total = math.hypot(wavenumber, half_waves * math.pi / length)
            if 0.0 < total <= limit:
                found.append(RoomMode(total * air.speed_of_sound / (2.0 * math.pi), index, half_waves))
    return tuple(sorted(found, key=lambda mode: mode.frequency))


def modal_density(
    frequency: float, volume: float, surface_area: float, edge_length: float, air: Air = AIR_20C
) -> float:
    """Average number of room modes per hertz.

    Parameters
    ----------
    frequency : float
        Frequency [Hz], ≥ 0.
    volume : float
        Volume of the room [m³].
    surface_area : float
        Area of all its faces [m²].
    edge_length : float
        Length of all its edges [m].
    air : Air, optional
        Air in the room, gives the speed of sound [m/s].

    Returns
    -------
    float
        Modes per hertz [1/Hz].

    Raises
    ------
    InvalidInput
        If the frequency is negative.

    Notes
    -----
    ``4πVf²/c³ + πSf/(2c²) + L/(8c)``, exact on average for a box.

    References
    ----------
    .. [1] H. Kuttruff, *Room Acoustics*, 5th ed., Spon, 2009, section 3.2.

    Examples
    --------
    >>> round(modal_density(1000.0, 105.0, 142.0, 60.0))
    35
    """
    if frequency < 0.0:
        raise InvalidInput(f"frequency is {frequency} Hz; it cannot be negative")
    speed = air.speed_of_sound
    return (
        4.0 * math.pi * volume * frequency**2 / speed**3
        + math.pi * surface_area * frequency / (2.0 * speed**2)
        + edge_length / (8.0 * speed)
    )
