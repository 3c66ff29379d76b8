"""Bending waves along a thin skin and over its ribs."""

from __future__ import annotations

import math
from dataclasses import dataclass

import numpy as np
from numpy.typing import ArrayLike, NDArray

from hushwright.errors import InvalidInput
from hushwright.physics.acoustics.bands import FREQUENCIES, N_BANDS
from hushwright.physics.acoustics.gauss import gauss_nodes

FloatArray = NDArray[np.float64]
ComplexArray = NDArray[np.complex128]


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
    beam_bending_stiffness : float, optional
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
    beam_bending_stiffness: float = 0.0
    rotary_inertia: float = 0.0
    torsional_stiffness: float = 0.0

    def __post_init__(self) -> None:
        values = (self.mass_per_length, self.beam_bending_stiffness, self.rotary_inertia, self.torsional_stiffness)
        if min(values) < 0.0:
            raise InvalidInput(f"rib values are {values}; none may be negative")


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
    force = (rib.beam_bending_stiffness * along**4 - rib.mass_per_length * angular**2) / (2.0 * sheet.bending_stiffness)
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
    nodes, weight = gauss_nodes(32)
    # sin θ as variable turns the weight cos θ dθ into a constant.
    return np.asarray(rib_transmission_at(sheet, rib, frequency, np.arcsin(0.5 * (nodes + 1.0))) @ (0.5 * weight))


def skin_velocity_difference(
    sheet: Sheet, bays: tuple[float, ...], ribs: tuple[Rib, ...], first_receiving: int
) -> tuple[float, ...]:
    r"""Velocity level difference along a ribbed skin, from the bays of one room to those of the next.

    Parameters
    ----------
    sheet : Sheet
        Skin with its damping [-].
    bays : tuple of float, shape (n_bay,)
        Length of each bay along the vehicle, between ribs, in order [m], each > 0.
    ribs : tuple of Rib, shape (n_bay − 1,)
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
