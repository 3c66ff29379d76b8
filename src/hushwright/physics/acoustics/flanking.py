"""Sound that runs along the vehicle skin past the dividing wall: resonant bending waves over ribs and edges."""

from __future__ import annotations

import math
from dataclasses import dataclass

import numpy as np
from numpy.typing import ArrayLike, NDArray

from hushwright.errors import InvalidInput
from hushwright.physics.acoustics.bands import FREQUENCIES, N_BANDS
from hushwright.physics.air import AIR_20C, Air

FloatArray = NDArray[np.float64]
ComplexArray = NDArray[np.complex128]

_LEAST_UNCERTAINTY = 4.0  # dB; flanking over thin ribbed sheet that nobody has measured; assumed, no source


@dataclass(frozen=True, slots=True)
class Sheet:
    """A thin sheet that carries bending waves.

    Parameters
    ----------
    surface_density : float
        Mass per area, damping layers included [kg/m²], > 0.
    bending_stiffness : float
        Bending stiffness per width [N·m], > 0.
    loss_factor : tuple of float, shape (27,)
        Total loss factor in place per band [-], > 0.

    Raises
    ------
    InvalidInput
        If a value is not above 0 or there are not 27 loss factors.

    References
    ----------
    .. [1] L. Cremer, M. Heckl and B. A. T. Petersson, *Structure-Borne Sound*, 3rd ed., Springer, 2005.

    Examples
    --------
    >>> round(float(Sheet(7.0, 13.5, (0.02,) * 27).wavenumber[16]))
    67
    """

    surface_density: float
    bending_stiffness: float
    loss_factor: tuple[float, ...]

    def __post_init__(self) -> None:
        if not (self.surface_density > 0.0 and self.bending_stiffness > 0.0):
            raise InvalidInput(
                f"sheet of {self.surface_density} kg/m² and {self.bending_stiffness} N·m; both must be above 0"
            )
        if len(self.loss_factor) != N_BANDS or not min(self.loss_factor) > 0.0:
            raise InvalidInput(f"{len(self.loss_factor)} loss factors {self.loss_factor[:3]}…; 27 above 0 are needed")

    @property
    def wavenumber(self) -> FloatArray:
        """Free bending wavenumber per band [rad/m]."""
        squared = 2.0 * np.pi * FREQUENCIES * math.sqrt(self.surface_density / self.bending_stiffness)
        return np.asarray(np.sqrt(squared))


@dataclass(frozen=True, slots=True)
class Rib:
    """A bar along a line of the sheet: a roof bow, a side rib, the edge of the dividing wall.

    Parameters
    ----------
    mass_per_length : float
        Mass per length [kg/m], ≥ 0.
    bending_stiffness : float, optional
        Bending stiffness normal to the sheet [N·m²], ≥ 0.
    rotary_inertia : float, optional
        Moment of inertia per length about the line on the sheet [kg·m], ≥ 0.
    torsional_stiffness : float, optional
        Torsional stiffness G·J [N·m²], ≥ 0.

    Raises
    ------
    InvalidInput
        If a value is negative.

    References
    ----------
    .. [1] L. Cremer, M. Heckl and B. A. T. Petersson, *Structure-Borne Sound*, 3rd ed., Springer, 2005, ch. 6.

    Examples
    --------
    >>> Rib(1.2).torsional_stiffness
    0.0
    """

    mass_per_length: float
    bending_stiffness: float = 0.0
    rotary_inertia: float = 0.0
    torsional_stiffness: float = 0.0

    def __post_init__(self) -> None:
        values = (self.mass_per_length, self.bending_stiffness, self.rotary_inertia, self.torsional_stiffness)
        if min(values) < 0.0:
            raise InvalidInput(f"rib values are {values}; none may be negative")


@dataclass(frozen=True, slots=True)
class FlankingPath:
    """A flanking path per band.

    Parameters
    ----------
    reduction : tuple of float, shape (27,)
        Flanking sound reduction index, referred to the separating area [dB].
    standard_uncertainty : tuple of float, shape (27,)
        Standard uncertainty while nothing was measured [dB].

    References
    ----------
    .. [1] EN ISO 12354-1:2017.

    Examples
    --------
    >>> FlankingPath((60.0,) * 27, (5.0,) * 27).reduction[0]
    60.0
    """

    reduction: tuple[float, ...]
    standard_uncertainty: tuple[float, ...]


def rib_transmission_at(sheet: Sheet, rib: Rib, frequency: ArrayLike, angle: ArrayLike) -> FloatArray:
    r"""Power transmission of a bending wave across a rib, for one angle.

    Parameters
    ----------
    sheet : Sheet
        The same sheet on both sides [-].
    rib : Rib
        Bar along the line [-].
    frequency : array_like, shape (n_band,)
        Frequency [Hz], > 0.
    angle : array_like, shape (n_angle,)
        Angle of the wave from the normal of the line [rad], 0 ≤ angle < π/2.

    Returns
    -------
    ndarray, shape (n_band, n_angle)
        Transmission factor [-], 0–1.

    Raises
    ------
    InvalidInput
        If a frequency or an angle is out of range.

    Notes
    -----
    Waves along the line have ``k_y = k sin θ``; across it ``k_x = sqrt(k² − k_y²)``, the near field decays with
    ``κ = sqrt(k² + k_y²)``. The even part of the motion feels the rib's line impedance
    ``F = D k_y⁴ − m′ω²``, the odd part its twist ``M = G J k_y² − Θ′ω²``. Both reflect all power, with factors E and
    O; the transmission factor is ``|E − O|²/4``. A heavy rib that is free to twist passes half of the power at
    normal incidence, one that is held passes nothing.

    References
    ----------
    .. [1] L. Cremer, M. Heckl and B. A. T. Petersson, *Structure-Borne Sound*, 3rd ed., Springer, 2005, ch. 6
       (blocking masses; oblique incidence worked out here from the same plate equation).

    Examples
    --------
    >>> pinned = rib_transmission_at(Sheet(7.0, 13.5, (0.02,) * 27), Rib(1e6), [500.0], [0.0])
    >>> round(float(pinned[0, 0]), 3)
    0.5
    """
    angular = 2.0 * np.pi * np.atleast_1d(np.asarray(frequency, dtype=np.float64))[:, None]
    direction = np.atleast_1d(np.asarray(angle, dtype=np.float64))[None, :]
    if not np.all(angular > 0.0) or not np.all((direction >= 0.0) & (direction < 0.5 * np.pi)):
        raise InvalidInput(
            f"frequency from {float(angular.min()) / (2 * np.pi)} Hz, angle up to {float(direction.max())} rad: "
            "frequencies above 0, angles from 0 to below π/2"
        )
    k = np.sqrt(angular * math.sqrt(sheet.surface_density / sheet.bending_stiffness))
    along = k * np.sin(direction)
    across = k * np.cos(direction)
    near = np.sqrt(k**2 + along**2)
    force = (rib.bending_stiffness * along**4 - rib.mass_per_length * angular**2) / (2.0 * sheet.bending_stiffness)
    twist = (rib.torsional_stiffness * along**2 - rib.rotary_inertia * angular**2) / (2.0 * sheet.bending_stiffness)
    return np.asarray(0.25 * np.abs(_even(across, near, force) - _odd(across, near, twist)) ** 2)


def _even(across: FloatArray, near: FloatArray, force: FloatArray) -> ComplexArray:
    """Reflection of the even motion: no slope at the line, shear balanced by the rib (w''' = −F w / 2B)."""
    # w = e^{jax} + E e^{−jax} + N e^{−bx}; slope: ja − jaE − bN = 0; shear: −ja³ + ja³E − b³N = −force·(1 + E + N).
    near_share = 1j * across / near
    constant = -1j * across**3 - near**3 * near_share + force * (1.0 + near_share)
    factor = 1j * across**3 + near**3 * near_share + force * (1.0 - near_share)
    return np.asarray(-constant / factor)


def _odd(across: FloatArray, near: FloatArray, twist: FloatArray) -> ComplexArray:
    """Reflection of the odd motion: no deflection at the line, moment balanced by the rib (w'' = M w' / 2B)."""
    # N = −1 − O; curvature: −a²(1 + O) + b²N = twist·(ja − jaO − bN).
    squares = -(across**2) - near**2
    constant = squares - twist * (1j * across + near)
    factor = squares - twist * (-1j * across + near)
    return np.asarray(-constant / factor)


def rib_transmission(sheet: Sheet, rib: Rib, frequency: ArrayLike = FREQUENCIES) -> FloatArray:
    """Power transmission across a rib for bending waves from all directions.

    Parameters
    ----------
    sheet : Sheet
        The same sheet on both sides [-].
    rib : Rib
        Bar along the line [-].
    frequency : array_like, shape (n_band,), optional
        Frequency [Hz], > 0.

    Returns
    -------
    ndarray, shape (n_band,)
        Transmission factor [-], 0–1: the mean of :func:`rib_transmission_at` weighted with cos θ.

    References
    ----------
    .. [1] L. Cremer, M. Heckl and B. A. T. Petersson, *Structure-Borne Sound*, 3rd ed., Springer, 2005, ch. 6.

    Examples
    --------
    >>> round(float(rib_transmission(Sheet(7.0, 13.5, (0.02,) * 27), Rib(0.0), [500.0])[0]), 6)
    1.0
    """
    nodes, weight = np.polynomial.legendre.leggauss(32)
    # sin θ as variable turns the weight cos θ dθ into a constant.
    return np.asarray(rib_transmission_at(sheet, rib, frequency, np.arcsin(0.5 * (nodes + 1.0))) @ (0.5 * weight))


def structural_reverberation_time(loss_factor: ArrayLike, frequency: ArrayLike = FREQUENCIES) -> FloatArray:
    """Structural reverberation time of a sheet.

    Parameters
    ----------
    loss_factor : array_like, shape (n_band,)
        Total loss factor [-], > 0.
    frequency : array_like, shape (n_band,), optional
        Frequency [Hz], > 0.

    Returns
    -------
    ndarray, shape (n_band,)
        Reverberation time [s], ``2.2/(f η)``.

    Raises
    ------
    InvalidInput
        If a loss factor is not above 0.

    References
    ----------
    .. [1] EN ISO 12354-1:2017, annex C.

    Examples
    --------
    >>> round(float(structural_reverberation_time([0.02], [500.0])[0]), 2)
    0.22
    """
    losses = np.asarray(loss_factor, dtype=np.float64)
    if not np.all(losses > 0.0):
        raise InvalidInput(f"smallest loss factor is {float(losses.min())}; it must be above 0")
    return np.asarray(2.2 / (np.asarray(frequency, dtype=np.float64) * losses))


def equivalent_absorption_length(
    area: float, reverberation_time: ArrayLike, frequency: ArrayLike = FREQUENCIES, air: Air = AIR_20C
) -> FloatArray:
    """Equivalent absorption length of a structural element.

    Parameters
    ----------
    area : float
        Area of the element [m²], > 0.
    reverberation_time : array_like, shape (n_band,)
        Structural reverberation time [s], > 0.
    frequency : array_like, shape (n_band,), optional
        Frequency [Hz].
    air : Air, optional
        Air, for the speed of sound [m/s].

    Returns
    -------
    ndarray, shape (n_band,)
        Length [m]: ``2.2 π² S/(c T_s) · sqrt(1000 Hz/f)``.

    Raises
    ------
    InvalidInput
        If the area is not above 0.

    References
    ----------
    .. [1] EN ISO 12354-1:2017, section 4.

    Examples
    --------
    >>> round(float(equivalent_absorption_length(4.0, [0.2], [1000.0])[0]), 2)
    1.27
    """
    if not area > 0.0:
        raise InvalidInput(f"element area is {area} m²; it must be above 0")
    root = np.sqrt(1000.0 / np.asarray(frequency, dtype=np.float64))
    return np.asarray(2.2 * np.pi**2 * area / (air.speed_of_sound * np.asarray(reverberation_time)) * root)


def velocity_level_difference_from_index(
    vibration_reduction_index: ArrayLike, edge_length: float, first_length: ArrayLike, second_length: ArrayLike
) -> FloatArray:
    """Direction-averaged velocity level difference from a vibration reduction index.

    Parameters
    ----------
    vibration_reduction_index : array_like, shape (n_band,)
        K_ij [dB].
    edge_length : float
        Length of the junction [m], > 0.
    first_length : array_like, shape (n_band,)
        Equivalent absorption length of one element [m].
    second_length : array_like, shape (n_band,)
        Equivalent absorption length of the other [m].

    Returns
    -------
    ndarray, shape (n_band,)
        Velocity level difference [dB]: ``K − 10 lg(l/sqrt(a_i a_j))``.

    Raises
    ------
    InvalidInput
        If the length is not above 0.

    References
    ----------
    .. [1] EN ISO 12354-1:2017, section 4; ISO 10848-1:2017.

    Examples
    --------
    >>> velocity_level_difference_from_index([5.0], 2.0, [2.0], [2.0]).tolist()
    [5.0]
    """
    if not edge_length > 0.0:
        raise InvalidInput(f"junction length is {edge_length} m; it must be above 0")
    mean = np.sqrt(np.asarray(first_length, dtype=np.float64) * np.asarray(second_length, dtype=np.float64))
    return np.asarray(np.asarray(vibration_reduction_index, dtype=np.float64) - 10.0 * np.log10(edge_length / mean))


def skin_velocity_difference(
    sheet: Sheet, bays: tuple[float, ...], ribs: tuple[Rib, ...], first_receiving: int
) -> tuple[float, ...]:
    r"""Velocity level difference along a ribbed skin, from the bays of one room to those of the next.

    Parameters
    ----------
    sheet : Sheet
        Skin with its damping [-].
    bays : tuple of float
        Length of each bay along the vehicle, between ribs, in order [m], each > 0.
    ribs : tuple of Rib
        The rib between each bay and the next [-]; one fewer than bays.
    first_receiving : int
        Number of the first bay of the receiving room [-]; 1 to the number of bays − 1.

    Returns
    -------
    tuple of float, shape (27,)
        Mean velocity level of the driven bays minus that of the receiving bays [dB].

    Raises
    ------
    InvalidInput
        If a length is not above 0 or the counts do not fit.

    Notes
    -----
    The bays before ``first_receiving`` are driven alike per area. Balance of power between neighbours with coupling
    ``η_ij = 2 c_B τ/(π ω b_i)``, b the length of the bay and 2c_B the group speed [1]_; every bay loses ``ω η E``. The
    first bay past the dividing wall therefore matters most and damping acts in every bay on the way.

    References
    ----------
    .. [1] L. Cremer, M. Heckl and B. A. T. Petersson, *Structure-Borne Sound*, 3rd ed., Springer, 2005, ch. 6.
    .. [2] C. Hopkins, *Sound Insulation*, Butterworth-Heinemann, 2007, ch. 2 and 5.

    Examples
    --------
    >>> skin = Sheet(7.0, 13.5, (0.05,) * 27)
    >>> skin_velocity_difference(skin, (0.5, 0.5), (Rib(1.0),), 1)[16] > 3.0
    True
    """
    count = len(bays)
    if count < 2 or len(ribs) != count - 1 or not 1 <= first_receiving < count or not min(bays) > 0.0:
        raise InvalidInput(
            f"{count} bays {bays}, {len(ribs)} ribs, receiving from bay {first_receiving}: lengths above 0, one rib "
            "fewer than bays, at least one bay on either side"
        )
    lengths = np.asarray(bays)
    group = 2.0 * 2.0 * np.pi * FREQUENCIES / sheet.wavenumber
    matrix = np.zeros((N_BANDS, count, count))
    diagonal = np.arange(count)
    matrix[:, diagonal, diagonal] = (2.0 * np.pi * FREQUENCIES * np.asarray(sheet.loss_factor))[:, None]
    # Unknown: energy per area. Flow over a line per its length is group speed · τ/π times energy per area.
    for first, rib in enumerate(ribs):
        flow = group * rib_transmission(sheet, rib) / np.pi
        for one, other in ((first, first + 1), (first + 1, first)):
            matrix[:, one, one] += flow / lengths[one]
            matrix[:, one, other] -= flow / lengths[one]
    driven = (diagonal < first_receiving).astype(np.float64)
    density = np.linalg.solve(matrix, np.broadcast_to(driven[:, None], (N_BANDS, count, 1)))[:, :, 0]
    sending = density[:, :first_receiving] @ lengths[:first_receiving] / lengths[:first_receiving].sum()
    receiving = density[:, first_receiving:] @ lengths[first_receiving:] / lengths[first_receiving:].sum()
    return tuple((10.0 * np.log10(sending / receiving)).tolist())


def flanking_reduction(
    first_reduction: ArrayLike,
    second_reduction: ArrayLike,
    velocity_level_difference: ArrayLike,
    separating_area: float,
    first_area: float,
    second_area: float,
) -> FloatArray:
    """Flanking sound reduction index of one path.

    Parameters
    ----------
    first_reduction : array_like, shape (n_band,)
        Sound reduction index of the driven element, resonant part only [dB].
    second_reduction : array_like, shape (n_band,)
        Sound reduction index of the radiating element, resonant part only [dB].
    velocity_level_difference : array_like, shape (n_band,)
        Direction-averaged velocity level difference between them [dB].
    separating_area : float
        Area the result refers to [m²], > 0.
    first_area : float
        Area of the driven element [m²], > 0.
    second_area : float
        Area of the radiating element [m²], > 0.

    Returns
    -------
    ndarray, shape (n_band,)
        R_ij [dB]: ``(R_i + R_j)/2 + D_v + 10 lg(S_s/sqrt(S_i S_j))``.

    Raises
    ------
    InvalidInput
        If an area is not above 0.

    Notes
    -----
    Holds for free bending waves: the forced part of R stays where it is driven and must be left out.

    References
    ----------
    .. [1] EN ISO 12354-1:2017, section 4.

    Examples
    --------
    >>> flanking_reduction([40.0], [44.0], [6.0], 3.0, 3.0, 3.0).tolist()
    [48.0]
    """
    if not min(separating_area, first_area, second_area) > 0.0:
        raise InvalidInput(f"areas are {separating_area}, {first_area} and {second_area} m²; all must be above 0")
    mean = 0.5 * (np.asarray(first_reduction, dtype=np.float64) + np.asarray(second_reduction, dtype=np.float64))
    geometry = 10.0 * math.log10(separating_area / math.sqrt(first_area * second_area))
    return np.asarray(mean + np.asarray(velocity_level_difference, dtype=np.float64) + geometry)


def flanking_rating(
    first_rating: float,
    second_rating: float,
    vibration_reduction_index: float,
    separating_area: float,
    junction_length: float,
    improvement: float = 0.0,
) -> float:
    """Weighted flanking sound reduction index by the simplified model.

    Parameters
    ----------
    first_rating : float
        Weighted sound reduction index of the driven element [dB].
    second_rating : float
        Weighted sound reduction index of the radiating element [dB].
    vibration_reduction_index : float
        K_ij [dB].
    separating_area : float
        Area of the separating element [m²], > 0.
    junction_length : float
        Length of the junction [m], > 0; the reference length is 1 m.
    improvement : float, optional
        Improvement by linings [dB].

    Returns
    -------
    float
        R_ij,w [dB].

    Raises
    ------
    InvalidInput
        If the area or the length is not above 0.

    References
    ----------
    .. [1] EN ISO 12354-1:2017, simplified model and annex H (example H.3).

    Examples
    --------
    >>> round(flanking_rating(49.0, 49.0, 12.4, 11.5, 4.5), 1)
    65.5
    """
    if not (separating_area > 0.0 and junction_length > 0.0):
        raise InvalidInput(f"area {separating_area} m², junction {junction_length} m; both must be above 0")
    geometry = 10.0 * math.log10(separating_area / junction_length)
    return 0.5 * (first_rating + second_rating) + improvement + vibration_reduction_index + geometry


def skin_flanking(
    first_reduction: tuple[float, ...],
    second_reduction: tuple[float, ...],
    sheet: Sheet,
    bays: tuple[float, ...],
    ribs: tuple[Rib, ...],
    first_receiving: int,
    height: float,
    separating_area: float,
) -> FlankingPath:
    """Flanking along one face of the vehicle skin, with the uncertainty of what nobody has measured.

    Parameters
    ----------
    first_reduction : tuple of float, shape (27,)
        Resonant part of the sound reduction index from the source room into the skin [dB].
    second_reduction : tuple of float, shape (27,)
        Resonant part of the sound reduction index from the skin into the receiving room [dB].
    sheet : Sheet
        Skin with its damping [-].
    bays : tuple of float
        Length of each bay along the vehicle in order [m].
    ribs : tuple of Rib
        Ribs between them [-].
    first_receiving : int
        Number of the first bay of the receiving room [-].
    height : float
        Length of the junction: height of the side or width of the roof [m], > 0.
    separating_area : float
        Area of the dividing wall, to which the result refers [m²].

    Returns
    -------
    FlankingPath
        Flanking sound reduction index and its standard uncertainty [dB].

    Raises
    ------
    InvalidInput
        If a dimension is out of range.

    Notes
    -----
    The uncertainty is 4 dB (assumed, no source) together with a rectangular spread between the skin as ribbed and the
    same skin without ribs, which is how far wrong a rib's fastening can make the difference.

    References
    ----------
    .. [1] EN ISO 12354-1:2017, section 4.
    .. [2] L. Cremer, M. Heckl and B. A. T. Petersson, *Structure-Borne Sound*, 3rd ed., Springer, 2005, ch. 6.

    Examples
    --------
    >>> path = skin_flanking((30.0,) * 27, (60.0,) * 27, Sheet(7.0, 13.5, (0.05,) * 27), (0.5,) * 4, (Rib(1.0),) * 3, 2,
    ...                      1.8, 3.0)
    >>> min(path.standard_uncertainty) >= 4.0
    True
    """
    if not height > 0.0:
        raise InvalidInput(f"junction length is {height} m; it must be above 0")
    difference = np.asarray(skin_velocity_difference(sheet, bays, ribs, first_receiving))
    smooth = np.asarray(skin_velocity_difference(sheet, bays, (Rib(0.0),) * len(ribs), first_receiving))
    reduction = flanking_reduction(
        first_reduction,
        second_reduction,
        difference,
        separating_area,
        height * sum(bays[:first_receiving]),
        height * sum(bays[first_receiving:]),
    )
    spread = np.hypot(_LEAST_UNCERTAINTY, (difference - smooth) / math.sqrt(12.0))
    return FlankingPath(tuple(reduction.tolist()), tuple(spread.tolist()))
