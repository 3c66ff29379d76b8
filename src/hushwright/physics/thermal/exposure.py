"""What the sun sends onto roof, sides and glass of a van, and how warm that makes a skin."""

from __future__ import annotations

import math
from typing import Literal

import numpy as np
from numpy.typing import ArrayLike

from hushwright.errors import InvalidInput
from hushwright.physics.thermal._guard import FloatArray, between, finite_array, not_negative, positive, share
from hushwright.physics.thermal.sun import SkyIrradiance, SunPosition

VehicleFace = Literal["roof", "front", "rear", "left", "right"]

_TURN = {"front": 0.0, "right": 0.5 * math.pi, "rear": math.pi, "left": 1.5 * math.pi}


def face_orientation(face: VehicleFace, heading: float) -> tuple[float, float]:
    """Tilt and compass direction of a face of a vehicle.

    Parameters
    ----------
    face : {"roof", "front", "rear", "left", "right"}
        The face.
    heading : float
        Compass direction in which the van points, clockwise from north [rad].

    Returns
    -------
    tuple of two floats
        Tilt from level and azimuth of the face [rad].

    Raises
    ------
    InvalidInput
        If the face is unknown or the heading not a finite number.

    References
    ----------
    .. [1] ISO 8855:2011, axis system.

    Examples
    --------
    A van that points north has its right side to the east.

    >>> [round(math.degrees(angle)) for angle in face_orientation("right", 0.0)]
    [90, 90]
    """
    if not math.isfinite(heading):
        raise InvalidInput(f"heading is {heading} rad; it must be a finite number")
    if face == "roof":
        return 0.0, heading % (2.0 * math.pi)
    if face not in _TURN:
        raise InvalidInput(f"face is {face!r}; known are roof, {', '.join(_TURN)}")
    return 0.5 * math.pi, (heading + _TURN[face]) % (2.0 * math.pi)


def surface_irradiance(
    sun: SunPosition,
    sky: SkyIrradiance,
    tilt: float,
    azimuth: float,
    albedo: float = 0.2,
    extraterrestrial: ArrayLike | None = None,
) -> FloatArray:
    """Irradiance on a tilted face from beam, sky and ground.

    Parameters
    ----------
    sun : SunPosition
        Positions of the sun.
    sky : SkyIrradiance
        What sun and sky send [W/m²].
    tilt : float
        Tilt of the face from level [rad].
    azimuth : float
        Compass direction of the face, clockwise from north [rad].
    albedo : float, optional
        Reflectance of the ground [-]; 0.2 grass and old asphalt, common practice.
    extraterrestrial : array_like, shape (n_time,) or one value, optional
        Irradiance above the air [W/m²]; given, the bright sky round the sun counts with the beam, else the sky is
        even.

    Returns
    -------
    ndarray, shape (n_time,)
        Irradiance [W/m²].

    Raises
    ------
    InvalidInput
        If the tilt is outside 0 to π or the albedo no share.

    Notes
    -----
    ``G = DNI cosθ + DHI·F + GHI ρ (1 − cosβ)/2``; ``F = (1 + cosβ)/2`` for an even sky (Liu and Jordan) and
    ``A R + (1 − A)(1 + cosβ)/2`` with ``A = DNI/E₀``, ``R = cosθ/cosθ_z`` after Hay and Davies.

    References
    ----------
    .. [1] J. E. Hay and J. A. Davies, "Calculations of the solar radiation incident on an inclined surface", 1980.
    .. [2] J. A. Duffie and W. A. Beckman, *Solar Engineering of Thermal Processes*, 4th ed., Wiley, 2013.

    Examples
    --------
    >>> sun = SunPosition(np.radians([60.0]), np.radians([180.0]))
    >>> sky = SkyIrradiance(np.array([480.0]), np.array([800.0]), np.array([80.0]))
    >>> round(float(surface_irradiance(sun, sky, math.pi / 2, math.pi)[0]), 1)
    780.8
    """
    between("tilt", tilt, 0.0, math.pi, "rad")
    share("albedo", albedo)
    cosine = incidence_cosine(sun, tilt, azimuth)
    up = sun.zenith_angle < 0.5 * math.pi
    beam = np.where(up, np.maximum(cosine, 0.0), 0.0)
    view = 0.5 * (1.0 + math.cos(tilt))
    ground = sky.global_horizontal * albedo * 0.5 * (1.0 - math.cos(tilt))
    seen: FloatArray | float = view
    if extraterrestrial is not None:
        bright = sky.direct_normal / np.asarray(extraterrestrial, dtype=np.float64)
        # The library value of the cosine at the horizon: below it the ratio would blow up.
        ratio = np.maximum(cosine, 0.0) / np.maximum(np.cos(sun.zenith_angle), 0.01745)
        seen = bright * ratio + (1.0 - bright) * view
    return np.asarray(sky.direct_normal * beam + sky.diffuse_horizontal * seen + ground, dtype=np.float64)


def incidence_cosine(sun: SunPosition, tilt: float, azimuth: float) -> FloatArray:
    """Cosine of the angle between the sun and the normal of a face.

    Parameters
    ----------
    sun : SunPosition
        Positions of the sun.
    tilt : float
        Tilt of the face from level [rad].
    azimuth : float
        Compass direction of the face, clockwise from north [rad].

    Returns
    -------
    ndarray, shape (n_time,)
        Cosine [-]; below zero when the sun is behind the face.

    References
    ----------
    .. [1] J. A. Duffie and W. A. Beckman, *Solar Engineering of Thermal Processes*, 4th ed., Wiley, 2013.

    Examples
    --------
    >>> round(float(incidence_cosine(SunPosition(np.array([0.5]), np.array([1.0])), 0.5, 1.0)[0]), 6)
    1.0
    """
    level = np.cos(tilt) * np.cos(sun.zenith_angle)
    upright = np.sin(tilt) * np.sin(sun.zenith_angle) * np.cos(sun.azimuth - azimuth)
    return np.asarray(level + upright, dtype=np.float64)


def sol_air_temperature(
    temperature: ArrayLike,
    irradiance: ArrayLike,
    absorptance: float,
    surface_coefficient: float = 17.0,
    tilt: float = math.pi / 2,
) -> FloatArray:
    """Air temperature that would warm a face as air, sun and cold sky do together.

    Parameters
    ----------
    temperature : array_like, shape (n_time,)
        Air temperature [°C].
    irradiance : array_like, shape (n_time,)
        Irradiance on the face [W/m²].
    absorptance : float
        Share of the sun's radiation that the colour takes up [-].
    surface_coefficient : float, optional
        Heat transfer coefficient outside [W/(m²·K)].
    tilt : float, optional
        Tilt of the face from level [rad].

    Returns
    -------
    ndarray, shape (n_time,)
        Sol-air temperature [°C].

    Raises
    ------
    InvalidInput
        If absorptance is no share or the coefficient not above zero.

    Notes
    -----
    ``ϑ + a G/h − ε ΔR/h`` with 63 W/m² of cold sky over a level face, none over an upright one. At 17 W/(m²·K) that
    is 3.7 K; the handbook rounds to 3.9.

    References
    ----------
    .. [1] ASHRAE Handbook, Fundamentals, ch. 18 (memory).

    Examples
    --------
    >>> round(float(sol_air_temperature(30.0, 800.0, 0.9, tilt=0.0)), 1)
    68.6
    """
    share("absorptance", absorptance)
    coefficient = positive("surface coefficient", surface_coefficient, "W/(m²·K)")
    air, sun = finite_array("temperature", temperature, "°C"), finite_array("irradiance", irradiance, "W/m²")
    cold_sky = 63.0 * max(math.cos(between("tilt", tilt, 0.0, math.pi, "rad")), 0.0) / coefficient
    return np.asarray(air + absorptance * sun / coefficient - cold_sky, dtype=np.float64)


def glass_solar_gain(
    irradiance: ArrayLike, area: float, solar_factor: float, shading: float = 1.0, angle_factor: float = 0.9
) -> FloatArray:
    """Heat that comes in through glass with the sun.

    Parameters
    ----------
    irradiance : array_like, shape (n_time,)
        Irradiance on the pane [W/m²].
    area : float
        Clear area of the glass [m²].
    solar_factor : float
        Total solar energy transmittance, square to the glass [-].
    shading : float, optional
        What blinds and surroundings let through [-].
    angle_factor : float, optional
        Loss because the sun does not come square [-]; 0.9 as usual.

    Returns
    -------
    ndarray, shape (n_time,)
        Heat [W].

    Raises
    ------
    InvalidInput
        If the area is below zero or a share is none.

    Notes
    -----
    ``A g F_w F_sh G``.

    References
    ----------
    .. [1] ISO 13790:2008, solar gains of glazed elements; solar factor after EN 410.

    Examples
    --------
    >>> float(glass_solar_gain(500.0, 0.5, 0.6))
    135.0
    """
    not_negative("area", area, "m²")
    portions = share("solar factor", solar_factor) * share("shading", shading) * share("angle factor", angle_factor)
    return np.asarray(finite_array("irradiance", irradiance, "W/m²") * area * portions, dtype=np.float64)
