"""Air under a floating floor: a stiff spring when it cannot get out, a mass when its edges are open."""

from __future__ import annotations

import math
from collections.abc import Callable
from dataclasses import dataclass
from typing import Final, NamedTuple

import numpy as np
from numpy.typing import ArrayLike

from hushwright.errors import InvalidInput
from hushwright.physics.air import AIR_20C, Air
from hushwright.physics.mechanics._guard import ComplexArray, FloatArray, angular, not_negative, positive, share
from hushwright.physics.mechanics.air_limits import piston_limit, trapped_air_stiffness

_SEARCH_BOTTOM: Final = 0.5  # Hz
_SEARCH_TOP: Final = 300.0  # Hz; no floor on mounts that are springs resonates above
_SEARCH_POINTS: Final = 800
_SLOPE_STEP: Final = 1e-4  # relative
_PARTS: Final = 64  # into which a step of the search for a zero divides what is left
_STEPS: Final = 3  # of the search, after which the straight line is off by less than rounding


@dataclass(frozen=True, slots=True)
class UnderFloorAir:
    """The air between a floating floor and what it floats over.

    Parameters
    ----------
    area : float
        Area of the floor over the air [m²].
    depth : float
        Depth of the air with the mounts loaded [m].
    flow_path : float
        Way of the air from the line where it rests to the open edge [m]: half the width with two open long edges, the
        full width with one; see `flow_path_of_rectangle`.
    open_share : float, optional
        Share of the edge that is open [-]; 0 is a closed edge.
    opening_spacing : float, optional
        Distance from opening to opening along a partly open edge [m]; zero stands for one opening in the whole edge.
    edge_slit : float, optional
        Height of the opening along the edge [m]; zero stands for the full depth.
    edge_path : float, optional
        Length of the narrow way through the edge with its end corrections [m]; zero for a free edge.
    volume_beyond : float, optional
        Volume the edges open into [m³]; infinite when it gives way, as the gap round a box that moves as a whole does.
    flow_resistivity : float, optional
        Of porous fill in the air space [Pa·s/m²]; zero for air alone.

    Raises
    ------
    InvalidInput
        If a value is impossible.

    References
    ----------
    .. [1] L. Cremer, M. Heckl and B. A. T. Petersson, *Structure-Borne Sound*, 3rd ed., Springer, 2005.

    Examples
    --------
    >>> space = UnderFloorAir(area=3.4, depth=0.030, flow_path=0.79)
    >>> space.open_share
    1.0
    """

    area: float
    depth: float
    flow_path: float
    open_share: float = 1.0
    opening_spacing: float = 0.0
    edge_slit: float = 0.0
    edge_path: float = 0.0
    volume_beyond: float = math.inf
    flow_resistivity: float = 0.0

    def __post_init__(self) -> None:
        positive("floor area", self.area, "m²")
        positive("air depth", self.depth, "m")
        positive("flow path", self.flow_path, "m")
        share("open share of the edge", self.open_share)
        not_negative("opening spacing", self.opening_spacing, "m")
        not_negative("edge slit", self.edge_slit, "m")
        not_negative("edge path", self.edge_path, "m")
        not_negative("flow resistivity", self.flow_resistivity, "Pa·s/m²")
        if self.edge_slit > self.depth:
            raise InvalidInput(f"edge slit {self.edge_slit} m is higher than the air is deep ({self.depth} m)")
        if not self.volume_beyond > 0.0:
            raise InvalidInput(f"volume beyond the edge is {self.volume_beyond} m³; it must be above zero")


def flow_path_of_rectangle(length: float, width: float, *, all_edges_open: bool) -> float:
    """Flow path of a rectangular floor whose two long edges, or all four, are open.

    Parameters
    ----------
    length : float
        Longer side [m].
    width : float
        Shorter side [m].
    all_edges_open : bool
        Air leaves over all four edges [-]; else over the two long ones alone.

    Returns
    -------
    float
        Path [m] that puts the right mass into ``ρL²/(3d)``.

    Raises
    ------
    InvalidInput
        If a side is not above zero or the sides are in the wrong order.

    Notes
    -----
    Slow flow under the floor obeys the same equation as the torsion of a bar of that section, so the series of
    Saint-Venant gives the exact mean pressure.

    References
    ----------
    .. [1] S. P. Timoshenko and J. N. Goodier, *Theory of Elasticity*, 3rd ed., McGraw-Hill, 1970, art. 109.

    Examples
    --------
    >>> round(flow_path_of_rectangle(2.25, 1.58, all_edges_open=True), 3)
    0.595
    """
    long_side, short_side = positive("length", length, "m"), positive("width", width, "m")
    if short_side > long_side:
        raise InvalidInput(f"length {length} m is below the width {width} m; give the longer side first")
    if not all_edges_open:
        return short_side / 2.0
    odd = np.arange(1, 40, 2)
    series = float(np.sum(np.tanh(odd * np.pi * long_side / (2.0 * short_side)) / odd**5.0))
    return short_side / 2.0 * math.sqrt(1.0 - 192.0 * short_side / (np.pi**5 * long_side) * series)


def air_stiffness(space: UnderFloorAir, frequency: ArrayLike, air: Air = AIR_20C) -> ComplexArray:
    """Dynamic stiffness of the air under a floor that moves as a rigid piston.

    Parameters
    ----------
    space : UnderFloorAir
        The air space [-].
    frequency : array_like, shape (n_frequency,)
        Frequency [Hz], above zero.
    air : Air, optional
        State of the air [-].

    Returns
    -------
    ndarray, shape (n_frequency,)
        Force over displacement [N/m]; positive real part is a spring, negative a mass, imaginary part losses.

    Raises
    ------
    InvalidInput
        If a frequency is not above zero.

    Notes
    -----
    One-dimensional sound field along the flow path, closed at the line of rest, with the edge opening as impedance Z:

    ``K = (ρc²A/d) · (1 + (sin kL/kL)/((Z k/(jωρ)) sin kL − cos kL))``

    It is ``ρc²A/d`` for a closed edge and ``−ω²A·ρL²/(3d)`` for a free one at low frequency; in between the edge
    decides at each frequency, and the path resonates when it is a quarter of a wavelength. Z is the inertance of the
    way through the edge, of the flow that narrows towards the openings, ``(2b/π) ln(1/sin(πs/2))`` for openings of
    share s every b, and the spring of the volume beyond. Density in gap and slit follows viscous flow between parallel
    plates; porous fill adds ``σ/(jω)``, so ordinary fill acts like a closed edge at low frequency. The floor is taken
    as stiff; at audio frequencies the figure is a mean.

    References
    ----------
    .. [1] P. M. Morse and K. U. Ingard, *Theoretical Acoustics*, McGraw-Hill, 1968.
    .. [2] J.-F. Allard and N. Atalla, *Propagation of Sound in Porous Media*, 2nd ed., Wiley, 2009, ch. 4 (slits).

    Examples
    --------
    >>> open_edges = UnderFloorAir(3.4, 0.030, 0.79)
    >>> closed = UnderFloorAir(3.4, 0.030, 0.79, open_share=0.0)
    >>> [round(float(air_stiffness(one, 10.0).real) / 1e6, 2) for one in (open_edges, closed)]
    [-0.11, 16.07]
    """
    omega = angular(frequency)
    closed = trapped_air_stiffness(space.area, space.depth, air)
    if space.open_share == 0.0:
        return np.full(omega.shape, closed, dtype=np.complex128)
    density = _slit_density(space.depth, omega, air) + space.flow_resistivity / (1j * omega)
    path = omega * np.sqrt(density / (air.density * air.speed_of_sound**2)) * space.flow_path
    # sin and cos of a complex path grow as exp|Im|; beyond 300 the air is locked in and nothing is left to add
    locked = np.abs(path.imag) > 300.0
    path = np.where(locked, 1.0, path)
    edge = _edge_impedance(space, omega, air)
    slope = edge * (path / space.flow_path) / (1j * omega * density)
    leak = (np.sin(path) / path) / (slope * np.sin(path) - np.cos(path))
    return np.asarray(closed * (1.0 + np.where(locked, 0.0, leak)))


def _slit_density(height: float, omega: FloatArray, air: Air) -> ComplexArray:
    """Effective density [kg/m³] of air between plates: heavier and lossy when the viscous layer fills the slit."""
    ratio = height / 2.0 * np.sqrt(1j * omega * air.density / air.viscosity)
    return np.asarray(air.density / (1.0 - np.tanh(ratio) / ratio))


def _edge_impedance(space: UnderFloorAir, omega: FloatArray, air: Air) -> ComplexArray:
    """Pressure over velocity in the gap at its edge [Pa·s/m]: narrowing, way through the edge, volume beyond."""
    slit = space.edge_slit or space.depth
    edge_length = space.area / space.flow_path
    narrowing = _narrowing(space.opening_spacing or edge_length, space.open_share)
    narrowing += _narrowing(space.depth, slit / space.depth)
    through = _slit_density(slit, omega, air) * space.edge_path * space.depth / (slit * space.open_share)
    impedance = 1j * omega * (through + air.density * narrowing)
    if math.isfinite(space.volume_beyond):
        modulus = air.density * air.speed_of_sound**2
        impedance = impedance + modulus * edge_length * space.depth / (1j * omega * space.volume_beyond)
    return np.asarray(impedance)


def _narrowing(period: float, open_share: float) -> float:
    """Extra length [m] of a channel that narrows to a share of its breadth and widens again; conformal mapping."""
    return 2.0 * period / math.pi * math.log(1.0 / math.sin(math.pi * open_share / 2.0))


def piston_air_stiffness(space: UnderFloorAir, frequency: ArrayLike, air: Air = AIR_20C) -> ComplexArray:
    """Stiffness of the air that counts beside the mounts: all of it up to the piston limit, none above.

    Parameters
    ----------
    space : UnderFloorAir
        The air space [-].
    frequency : array_like, shape (n_frequency,)
        Frequency [Hz], above zero.
    air : Air, optional
        State of the air [-].

    Returns
    -------
    ndarray, shape (n_frequency,)
        Force over displacement [N/m].

    Raises
    ------
    InvalidInput
        If a frequency is not above zero.

    Notes
    -----
    Keeps the air from being counted twice, here and in the cavity of the floor's partition.

    References
    ----------
    .. [1] P. M. Morse and K. U. Ingard, *Theoretical Acoustics*, McGraw-Hill, 1968.

    Examples
    --------
    >>> closed = UnderFloorAir(3.4, 0.030, 0.79, open_share=0.0)
    >>> (piston_air_stiffness(closed, [20.0, 200.0]).real / 1e6).round(1).tolist()
    [16.1, 0.0]
    """
    below = np.asarray(frequency, dtype=np.float64) <= piston_limit(space.flow_path, air)
    return np.asarray(np.where(below, air_stiffness(space, frequency, air), 0.0))


class FloorResonance(NamedTuple):
    """One vertical resonance: frequency [Hz] and the share of the floor's mass that swings in it [-]."""

    frequency: float
    mass_share: float


def floor_resonances(
    mass: float, mount_stiffness: float, space: UnderFloorAir | None = None, air: Air = AIR_20C
) -> tuple[FloorResonance, ...]:
    """Vertical resonances of a floor on mounts with the air beneath it, over a heavy base, the strongest first.

    Parameters
    ----------
    mass : float
        Mass on the mounts [kg].
    mount_stiffness : float
        Dynamic stiffness of all mounts together [N/m].
    space : UnderFloorAir, optional
        The air under the floor [-]; none leaves it out.
    air : Air, optional
        State of the air [-].

    Returns
    -------
    tuple of FloorResonance
        Frequency [Hz] and share of the floor's mass [-].

    Raises
    ------
    InvalidInput
        If mass or stiffness is not above zero, or no resonance lies above 0.5 Hz.

    Notes
    -----
    Zeros of ``k + Re K(ω) − ω²m``; the share of a zero is ``m`` over the slope against ω². Partly open edges give two:
    air that sways through the edge low down, and the floor on its trapped air higher up. The less is open, the more
    of the floor moves to the upper one. Shares add up to one only without losses; fill and narrow slits shift them.

    References
    ----------
    .. [1] L. Cremer, M. Heckl and B. A. T. Petersson, *Structure-Borne Sound*, 3rd ed., Springer, 2005.

    Examples
    --------
    Air that cannot get out turns a 10 Hz floor into a 30 Hz one.

    >>> closed = UnderFloorAir(3.4, 0.030, 0.79, open_share=0.0)
    >>> mounts = 500.0 * (2 * np.pi * 10.0) ** 2
    >>> round(floor_resonances(500.0, mounts)[0].frequency, 1)
    10.0
    >>> round(floor_resonances(500.0, mounts, closed)[0].frequency, 1)
    30.2
    """
    positive("mass on the mounts", mass, "kg")
    positive("stiffness of the mounts", mount_stiffness, "N/m")

    def excess(frequency: FloatArray) -> FloatArray:
        """Stiffness left over after the inertia [N/m]."""
        beneath = 0.0 if space is None else air_stiffness(space, frequency, air).real
        return np.asarray(mount_stiffness + beneath - mass * (2.0 * np.pi * frequency) ** 2, dtype=np.float64)

    top = max(_SEARCH_TOP, math.sqrt(mount_stiffness / mass) / 2.0)
    trial = np.geomspace(_SEARCH_BOTTOM, top, _SEARCH_POINTS)
    values = excess(trial)
    # the excess falls through zero at a resonance and jumps upwards where the air itself resonates
    falling = np.flatnonzero((values[:-1] > 0.0) & (values[1:] <= 0.0))
    if falling.size == 0:
        raise InvalidInput(
            f"{mass} kg on {mount_stiffness} N/m show no resonance from {_SEARCH_BOTTOM:g} to {top:g} Hz"
        )
    found = _through_zero(excess, trial[falling], trial[falling + 1])
    upper, lower = found * (1.0 + _SLOPE_STEP), found * (1.0 - _SLOPE_STEP)
    slope = (excess(lower) - excess(upper)) / ((2.0 * math.pi) ** 2 * (upper**2 - lower**2))
    pairs = [FloorResonance(float(one), float(mass / fall)) for one, fall in zip(found, slope, strict=True)]
    return tuple(sorted(pairs, key=lambda pair: -pair.mass_share))


def _through_zero(excess: Callable[[FloatArray], FloatArray], low: FloatArray, high: FloatArray) -> FloatArray:
    """Where a function falls through zero between each pair of places; all parts of a step are looked at in one call.

    The last part is so short that the function is a straight line in it.
    """
    share, row = np.linspace(0.0, 1.0, _PARTS + 1), np.arange(low.size)
    for _ in range(_STEPS):
        places = low[:, None] + (high - low)[:, None] * share
        over = excess(places)
        last = np.count_nonzero(over[:, 1:-1] > 0.0, axis=1)
        low, high = places[row, last], places[row, last + 1]
        above, below = over[row, last], over[row, last + 1]
    return np.asarray(low + (high - low) * above / (above - below))


def floor_resonance(
    mass: float, mount_stiffness: float, space: UnderFloorAir | None = None, air: Air = AIR_20C
) -> float:
    """Vertical resonance in which most of a floor on mounts and air swings.

    Parameters
    ----------
    mass : float
        Mass on the mounts [kg].
    mount_stiffness : float
        Dynamic stiffness of all mounts together [N/m].
    space : UnderFloorAir, optional
        The air under the floor [-]; none leaves it out.
    air : Air, optional
        State of the air [-].

    Returns
    -------
    float
        Resonance [Hz], the first of `floor_resonances`.

    Raises
    ------
    InvalidInput
        If mass or stiffness is not above zero, or no resonance lies above 0.5 Hz.

    References
    ----------
    .. [1] L. Cremer, M. Heckl and B. A. T. Petersson, *Structure-Borne Sound*, 3rd ed., Springer, 2005.

    Examples
    --------
    >>> round(floor_resonance(444.0, 12 * 182e3, UnderFloorAir(3.4, 0.025, 0.79)), 1)
    10.7
    """
    return floor_resonances(mass, mount_stiffness, space, air)[0].frequency
