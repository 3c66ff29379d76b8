"""What goes through ribs, studs, screws and mounts between two leaves."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TypeAlias

import numpy as np
from numpy.typing import NDArray

from hushwright.errors import InvalidInput
from hushwright.physics.acoustics.constants import GLAZING_RIM_STIFFNESS
from hushwright.physics.acoustics.plates import Leaf, line_mobility, point_mobility
from hushwright.physics.air import Air

FloatArray = NDArray[np.float64]
ComplexArray = NDArray[np.complex128]

_REFERENCE_FREQUENCY = 500.0  # Hz, where a stiffness that grows has its stated value


def _positive(what: str, value: float, unit: str) -> None:
    if not 0.0 < value < float("inf"):
        raise InvalidInput(f"{what} is {value} {unit}; it must be positive and finite")


@dataclass(frozen=True, slots=True)
class HeldPlate:
    """Head or sole plate that two leaves share and that the structure behind it holds.

    Parameters
    ----------
    mass_per_length : float
        Mass of the plate per length [kg/m].
    stiffness_per_length : float
        Stiffness per length with which its fixings hold it against sliding across the leaves [N/m²].

    Raises
    ------
    InvalidInput
        If a value is not positive.

    References
    ----------
    .. [1] EN 1995-1-1:2004, table 7.1: slip modulus of nails (from memory).

    Examples
    --------
    >>> round(HeldPlate(2.3, 4.4e6).impedance(np.array([1000.0])).imag.item())
    -2100
    """

    mass_per_length: float
    stiffness_per_length: float

    def __post_init__(self) -> None:
        _positive("mass of the plate per length", self.mass_per_length, "kg/m")
        _positive("stiffness per length", self.stiffness_per_length, "N/m²")

    def impedance(self, omega: FloatArray) -> ComplexArray:
        """Force per velocity and length of the plate.

        Parameters
        ----------
        omega : ndarray, shape (n_frequency,)
            Angular frequency [rad/s].

        Returns
        -------
        ndarray, shape (n_frequency,)
            ``j(ωm' − s'/ω)`` [N·s/m²].

        References
        ----------
        .. [1] L. Cremer, M. Heckl and B. A. T. Petersson, *Structure-Borne Sound*, 3rd ed., Springer, 2005, ch. 5.

        Examples
        --------
        >>> HeldPlate(1.0, 1.0).impedance(np.array([1.0])).imag.item()
        0.0
        """
        return np.asarray(1j * (omega * self.mass_per_length - self.stiffness_per_length / omega))


@dataclass(frozen=True, slots=True)
class LineBridge:
    """Ribs or studs that join two leaves along lines.

    Parameters
    ----------
    length_per_area : float
        Length of line per area of partition [1/m], one over the spacing.
    stiffness_per_length : float or None, optional
        Stiffness of the rib between its two flanges per length [N/m²]; None is rigid.
    leaves : tuple of int, optional
        Which leaves are joined, counted from outside [-]; (0, −1) is the first and the last.
    fastener_spacing : float or None, optional
        Distance of screws along the line [m]; then the rib passes the smaller of what the line and the screws would.
    loss_factor : float, optional
        Loss factor of the spring [-].
    stiffness_growth : float, optional
        Exponent with which the stiffness grows with frequency from 500 Hz on [-]; webs of thin studs stiffen as they
        bend in more waves.
    held : HeldPlate or None, optional
        The line is a plate that the structure holds (mass [kg/m], stiffness [N/m²]); only for rigid lines.

    Raises
    ------
    InvalidInput
        If a value is not positive, or a held line has a stiffness of its own.

    References
    ----------
    .. [1] B. H. Sharp, "Prediction methods for the sound transmission of building elements", *Noise Control Eng.* 11
       (1978) 53–63.
    .. [2] J. L. Davy, "Sound transmission of cavity walls due to structure borne transmission via point and line
       connections", *J. Acoust. Soc. Am.* 132 (2012) 814–821.
    .. [3] J. Poblet-Puig, A. Rodríguez-Ferran, C. Guigou-Carter and M. Villot, "The role of studs in the sound
       transmission of double walls", *Acta Acust. united Acust.* 95 (2009) 555–567: the stiffness of studs depends on
       frequency.

    Examples
    --------
    >>> LineBridge(1.0 / 0.6).stiffness_per_length is None
    True
    """

    length_per_area: float
    stiffness_per_length: float | None = None
    leaves: tuple[int, int] = (0, -1)
    fastener_spacing: float | None = None
    loss_factor: float = 0.0
    stiffness_growth: float = 0.0
    held: HeldPlate | None = None

    def __post_init__(self) -> None:
        if self.held is not None and self.stiffness_per_length is not None:
            raise InvalidInput(f"a held line takes no stiffness of its own; {self.stiffness_per_length} N/m² given")
        _positive("length of bridge per area", self.length_per_area, "1/m")
        if self.stiffness_per_length is not None:
            _positive("stiffness per length", self.stiffness_per_length, "N/m²")
        if self.fastener_spacing is not None:
            _positive("fastener spacing", self.fastener_spacing, "m")
        if not 0.0 <= self.stiffness_growth <= 2.0:
            raise InvalidInput(f"growth of stiffness is {self.stiffness_growth}; it must be 0 to 2")


@dataclass(frozen=True, slots=True)
class PointBridge:
    """Screws, clips or mounts that join two leaves at points.

    Parameters
    ----------
    number_per_area : float
        Number of points per area of partition [1/m²].
    stiffness : float or None, optional
        Stiffness of one point [N/m]; None is rigid.
    loss_factor : float, optional
        Loss factor of the spring [-].
    leaves : tuple of int, optional
        Which leaves are joined, counted from outside [-]; (0, −1) is the first and the last.

    Raises
    ------
    InvalidInput
        If a value is not positive.

    References
    ----------
    .. [1] B. H. Sharp, *Noise Control Eng.* 11 (1978) 53–63.

    Examples
    --------
    >>> PointBridge(4.0).stiffness is None
    True
    """

    number_per_area: float
    stiffness: float | None = None
    loss_factor: float = 0.0
    leaves: tuple[int, int] = (0, -1)

    def __post_init__(self) -> None:
        _positive("number of bridges per area", self.number_per_area, "1/m²")
        if self.stiffness is not None:
            _positive("bridge stiffness", self.stiffness, "N/m")


Bridge: TypeAlias = LineBridge | PointBridge


def spacer_bridge(width: float, height: float, leaves: tuple[int, int] = (0, -1)) -> LineBridge:
    """Rim of two panes on one spacer or frame, as a line bridge round the pane.

    Parameters
    ----------
    width : float
        Width of the pane [m].
    height : float
        Height of the pane [m].
    leaves : tuple of int, optional
        Which leaves are joined, counted from outside [-].

    Returns
    -------
    LineBridge
        Line of the length of the rim over the area [1/m] with `constants.GLAZING_RIM_STIFFNESS` [N/m²].

    Raises
    ------
    InvalidInput
        If a side is not positive.

    References
    ----------
    .. [1] docs/accuracy.md: the stiffness is set on the fit half.

    Examples
    --------
    >>> round(spacer_bridge(1.25, 1.5).length_per_area, 2)
    2.93
    """
    _positive("width", width, "m")
    _positive("height", height, "m")
    return LineBridge(2.0 * (width + height) / (width * height), GLAZING_RIM_STIFFNESS, leaves)


@dataclass(frozen=True, slots=True, eq=False)
class BridgeEnd:
    """One leaf as a bridge meets it, excited by sound from its own side.

    Parameters
    ----------
    leaf : Leaf
        The leaf (surface density [kg/m²], stiffness [N·m]).
    forced_velocity : ndarray, shape (n_frequency,)
        Mean-square difference of the leaf velocities without the bridge per mean-square room pressure [m²/(s²·Pa²)].
    efficiency : ndarray, shape (n_frequency,)
        Radiation efficiency of free waves [-].
    total_loss : ndarray, shape (n_frequency,)
        Loss factor with radiation [-].
    decoupling : ndarray, shape (n_frequency,)
        Forced difference of the leaves over the forced velocity of this leaf alone, squared [-]; small below resonance.
    """

    leaf: Leaf
    forced_velocity: FloatArray
    efficiency: FloatArray
    total_loss: FloatArray
    decoupling: FloatArray


def bridge_transmission(
    bridge: Bridge, outer: BridgeEnd, inner: BridgeEnd, frequency: FloatArray, air: Air
) -> FloatArray:
    r"""Transmission factor through bridges alone.

    Parameters
    ----------
    bridge : LineBridge or PointBridge
        The bridges (per area [1/m] or [1/m²]).
    outer : BridgeEnd
        Leaf on the source side (velocities [m/s]).
    inner : BridgeEnd
        Leaf on the receiving side (velocities [m/s]).
    frequency : ndarray, shape (n_frequency,)
        Frequency [Hz].
    air : Air
        Air on both sides (density [kg/m³]).

    Returns
    -------
    ndarray, shape (n_frequency,)
        Transmitted over incident power in a diffuse field [-].

    Notes
    -----
    The force of a bridge is the velocity difference that the leaves would have without it over the sum of the
    mobilities of both leaves and of the bridge. What a leaf radiates per force is, by reciprocity, what a diffuse
    field moves it by, G = ⟨Δv²⟩/⟨p²⟩, forced near field and resonant waves together. Points: ``τ = n·(ρω)²/π·G1G2/|Y1
    + Y2 + Yb|²``; lines: ``τ = (L/S)·ρ²cω·G1G2/|Y1' + Y2' + Yb'|²``. For mass-controlled leaves G = 2/(ωm)² and both
    become the near-field formulas of [1]_; the product form is exactly reciprocal. With the resonant part,
    ``G += δ·4πc²σ_r·Re Y/(ω³mη)`` or ``δ·4cσ_r·Re Y'/(ω²mη)`` [2]_; δ, the decoupling, fades it out below the
    resonance where both leaves move as one. A plate that is held takes force away from the second leaf: its mobility in
    the sum is ``Y1·Y2·Z``, as the circuit of two leaves with its impedance Z between them gives.

    References
    ----------
    .. [1] B. H. Sharp, *Noise Control Eng.* 11 (1978) 53–63.
    .. [2] L. Cremer, M. Heckl and B. A. T. Petersson, *Structure-Borne Sound*, 3rd ed., Springer, 2005, ch. 6.

    Examples
    --------
    >>> from hushwright.physics.air import AIR_20C
    >>> f = np.array([1000.0])
    >>> leaf = Leaf(8.5, np.array([380.0]), np.array([0.03]))
    >>> end = BridgeEnd(leaf, 2.0 / (2 * np.pi * f * 8.5) ** 2, np.array([0.0]), np.array([0.03]), np.array([1.0]))
    >>> round(float(-10 * np.log10(bridge_transmission(PointBridge(4.0), end, end, f, AIR_20C))[0]), 1)
    57.3
    """
    omega = 2.0 * np.pi * frequency
    if isinstance(bridge, PointBridge):
        spring = _spring(bridge.stiffness, bridge.loss_factor, omega)
        return _points(bridge.number_per_area, spring, None, outer, inner, omega, air)
    line = _lines(bridge, outer, inner, omega, air)
    if bridge.fastener_spacing is None:
        return line
    stiffness = _line_stiffness(bridge, omega)
    each = None if stiffness is None else stiffness * bridge.fastener_spacing
    spring = _spring(each, bridge.loss_factor, omega)
    held = None if bridge.held is None else bridge.held.impedance(omega) * bridge.fastener_spacing
    number = bridge.length_per_area / bridge.fastener_spacing
    return np.minimum(line, _points(number, spring, held, outer, inner, omega, air))


def _spring(stiffness: float | FloatArray | None, loss: float, omega: FloatArray) -> ComplexArray:
    """Mobility of a lossy spring; none of a rigid one."""
    value = 0.0 if stiffness is None else 1j * omega / (stiffness * (1.0 + 1j * loss))
    return np.asarray(value, dtype=np.complex128)


def _line_stiffness(bridge: LineBridge, omega: FloatArray) -> FloatArray | None:
    """Stiffness per length at each frequency."""
    if bridge.stiffness_per_length is None:
        return None
    growth = np.power(omega / (2.0 * np.pi * _REFERENCE_FREQUENCY), bridge.stiffness_growth)
    return np.asarray(bridge.stiffness_per_length * growth)


def _points(
    number: float,
    spring: ComplexArray,
    held: ComplexArray | None,
    outer: BridgeEnd,
    inner: BridgeEnd,
    omega: FloatArray,
    air: Air,
) -> FloatArray:
    """Points per area, each with the mobilities of both leaves in series."""
    total = spring if held is None else held * point_mobility(outer.leaf) * point_mobility(inner.leaf)
    velocity: FloatArray = np.ones_like(omega)
    for end in (outer, inner):
        mobility = point_mobility(end.leaf)
        resonant = 4.0 * np.pi * air.speed_of_sound**2 * end.efficiency * mobility * end.decoupling
        velocity = velocity * (end.forced_velocity + resonant / (omega**3 * end.leaf.surface_density * end.total_loss))
        total = np.asarray(total + mobility, dtype=np.complex128)
    return np.asarray(number * np.square(air.density * omega) / np.pi * velocity / np.square(np.abs(total)))


def _lines(bridge: LineBridge, outer: BridgeEnd, inner: BridgeEnd, omega: FloatArray, air: Air) -> FloatArray:
    """Length per area of line, with the line mobilities of both leaves in series."""
    mobilities = [line_mobility(end.leaf, omega / (2.0 * np.pi)) for end in (outer, inner)]
    total = _spring(_line_stiffness(bridge, omega), bridge.loss_factor, omega)
    if bridge.held is not None:
        total = bridge.held.impedance(omega) * mobilities[0] * mobilities[1]
    velocity: FloatArray = np.ones_like(omega)
    for end, mobility in zip((outer, inner), mobilities, strict=True):
        resonant = 4.0 * air.speed_of_sound * end.efficiency * mobility.real * end.decoupling
        velocity = velocity * (end.forced_velocity + resonant / (omega**2 * end.leaf.surface_density * end.total_loss))
        total = np.asarray(total + mobility, dtype=np.complex128)
    factor = bridge.length_per_area * air.density**2 * air.speed_of_sound * omega
    return np.asarray(factor * velocity / np.square(np.abs(total)))
