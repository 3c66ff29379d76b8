"""Plane waves through a stack of layers: pressure and velocity marched from the receiving side to the source side."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import ArrayLike, NDArray

from hushwright.errors import InvalidInput
from hushwright.physics.acoustics.bands import FREQUENCIES, N_BANDS, band_edges
from hushwright.physics.acoustics.layers import (
    Gap,
    GluedFoam,
    Layer,
    LimpMass,
    PerforatedFacing,
    Porous,
    PorousLayer,
)
from hushwright.physics.acoustics.plates import complex_stiffness
from hushwright.physics.acoustics.porous import effective_bulk_modulus, effective_density
from hushwright.physics.acoustics.spaces import settled_absorption
from hushwright.physics.air import AIR_20C, Air

FloatArray = NDArray[np.float64]
ComplexArray = NDArray[np.complex128]

_DEEPEST_DECAY = 300.0
"""Decay [Np] over one layer beyond which exp() would overflow; it stands for a loss above 2000 dB."""


@dataclass(frozen=True, slots=True, eq=False)
class Wave:
    """Plane waves on a grid of frequencies (rows) and directions (columns).

    Parameters
    ----------
    frequency : ndarray, shape (n_frequency, 1)
        Frequency [Hz].
    sine_squared : ndarray, shape (n_frequency or 1, n_direction)
        Square of the sine of the angle to the normal [-].
    across : ndarray of that shape or None
        Squared cosine of the angle between the wave and the width [-]; None where no layer is orthotropic.
    air : Air
        Air (speed of sound [m/s]).
    perimeter_per_area : float
        Rim of the spaces over their area [1/m].
    """

    frequency: FloatArray
    sine_squared: FloatArray
    across: FloatArray | None
    air: Air
    perimeter_per_area: float

    @property
    def omega(self) -> FloatArray:
        """Angular frequency [rad/s], one column."""
        return 2.0 * np.pi * self.frequency

    @property
    def trace_squared(self) -> FloatArray:
        """Square of the wavenumber along the layers [1/m²]."""
        return np.asarray(np.square(self.omega / self.air.speed_of_sound) * self.sine_squared)


State = tuple[ComplexArray, ComplexArray]
"""Pressure [Pa] and normal velocity [m/s] on a plane between two layers."""


def fluid_groups(layers: Sequence[Layer]) -> list[float]:
    """Depth [m] of the whole space that each layer is part of; 0 for what is no space.

    Parameters
    ----------
    layers : sequence of Layer
        Layers, outside in (thickness [m]).

    Returns
    -------
    list of float
        One depth [m] per layer; adjoining gaps and blankets share theirs.

    References
    ----------
    .. [1] J. L. Davy, *J. Acoust. Soc. Am.* 127 (2010) 841–849.

    Examples
    --------
    >>> fluid_groups([LimpMass(5.0), Gap(0.02), Gap(0.03), LimpMass(5.0)])
    [0.0, 0.05, 0.05, 0.0]
    """
    depths = [0.0] * len(layers)
    start = 0
    while start < len(layers):
        stop = start
        while stop < len(layers) and isinstance(layers[stop], Gap | PorousLayer):
            stop += 1
        depth = sum(layer.thickness for layer in layers[start:stop])
        depths[start:stop] = [depth] * (stop - start)
        start = max(stop, start + 1)
    return depths


def march(layers: Sequence[Layer], wave: Wave, state: State) -> list[State]:
    """States on every plane, from the receiving side to the source side.

    Parameters
    ----------
    layers : sequence of Layer
        Layers, outside in (thickness [m]).
    wave : Wave
        Frequencies [Hz] and directions.
    state : tuple of ndarray
        Pressure [Pa] and velocity [m/s] on the receiving side.

    Returns
    -------
    list of tuple of ndarray
        Pressure [Pa] and velocity [m/s] on each plane; the first is the receiving side, the last the source side.

    References
    ----------
    .. [1] J.-F. Allard and N. Atalla, *Propagation of Sound in Porous Media*, 2nd ed., Wiley, 2009, ch. 11.

    Examples
    --------
    >>> wave = Wave(np.array([[100.0]]), np.array([[0.0]]), None, AIR_20C, 1.0)
    >>> states = march([LimpMass(1.0)], wave, (np.ones((1, 1), complex), np.ones((1, 1), complex)))
    >>> round(float(states[1][0][0, 0].imag), 1)
    628.3
    """
    depths = fluid_groups(layers)
    states = [state]
    for layer, depth in zip(reversed(layers), reversed(depths), strict=True):
        if layer.thickness > 0.0 or isinstance(layer, LimpMass):
            state = _through(layer, depth, wave, state)
        states.append(state)
    return states


def _through(layer: Layer, depth: float, wave: Wave, state: State) -> State:
    """One layer, from its inner to its outer face."""
    pressure, velocity = state
    if isinstance(layer, Gap):
        return _through_gap(layer, depth, wave, state)
    if isinstance(layer, PorousLayer):
        return _through_blanket(layer.porous, layer.thickness, wave, state)
    if isinstance(layer, GluedFoam):
        half = 0.5j * wave.omega * layer.surface_density
        pressure = pressure + half * velocity
        velocity = velocity + 1j * wave.omega / (layer.dynamic_stiffness * (1.0 + 1j * layer.loss_factor)) * pressure
        return pressure + half * velocity, velocity
    return pressure + panel_impedance(layer, wave) * velocity, velocity


def panel_impedance(layer: Layer, wave: Wave) -> ComplexArray:
    """Impedance of a layer whose two faces move together.

    Parameters
    ----------
    layer : Layer
        Plate, boards, barrier or facing (thickness [m] and so on).
    wave : Wave
        Frequencies [Hz] and directions.

    Returns
    -------
    ndarray
        Pressure difference over velocity [Pa·s/m].

    Raises
    ------
    InvalidInput
        If the layer is a space or a spring.

    Notes
    -----
    ``Z = jωm − jB(1 + jη)k_t⁴/ω`` with the wavenumber along the plate [1]_; a perforated facing is its mass beside
    the air in its holes, ``Z_hole = (jωρ(t + 1.7 r(1 − 1.13 sqrt ε − ...)) + R)/ε`` with viscous resistance R [2]_.

    References
    ----------
    .. [1] L. Cremer, M. Heckl and B. A. T. Petersson, *Structure-Borne Sound*, 3rd ed., Springer, 2005, ch. 6.
    .. [2] J.-F. Allard and N. Atalla, *Propagation of Sound in Porous Media*, 2nd ed., Wiley, 2009, ch. 9.

    Examples
    --------
    >>> wave = Wave(np.array([[100.0]]), np.array([[0.0]]), None, AIR_20C, 1.0)
    >>> round(float(panel_impedance(LimpMass(2.0), wave).imag[0, 0]), 1)
    1256.6
    """
    if isinstance(layer, Gap | PorousLayer | GluedFoam):
        raise InvalidInput(f"{type(layer).__name__} has no common motion of its two faces")
    inertia = np.asarray(1j * wave.omega * layer.surface_density, dtype=np.complex128)
    if isinstance(layer, LimpMass):
        return inertia
    if isinstance(layer, PerforatedFacing):
        return _perforated_impedance(layer, wave, inertia)
    trace = wave.trace_squared
    stiffness = complex_stiffness(layer, wave.frequency, trace, wave.across)
    return np.asarray(inertia - 1j * stiffness * np.square(trace) / wave.omega)


def _perforated_impedance(layer: PerforatedFacing, wave: Wave, inertia: ComplexArray) -> ComplexArray:
    """Air in the holes in parallel with the sheet."""
    ratio = layer.open_area_ratio
    ends = 1.7 * layer.hole_radius * max(0.0, 1.0 - 1.13 * math.sqrt(ratio) - 0.09 * ratio + 0.27 * ratio**1.5)
    friction = np.sqrt(2.0 * wave.omega * wave.air.viscosity * wave.air.density)
    resistance = friction * (1.0 + layer.thickness / layer.hole_radius)
    hole = (1j * wave.omega * wave.air.density * (layer.thickness + ends) + resistance) / ratio
    return np.asarray(hole * inertia / (hole + inertia))


def _through_gap(gap: Gap, depth: float, wave: Wave, state: State) -> State:
    """Air with losses at rim and faces; a blanket hangs in the middle so that both directions are alike."""
    air = wave.air
    if gap.bay_perimeter is not None and gap.bay_area is not None:
        rim = gap.bay_perimeter / gap.bay_area
    else:
        rim = wave.perimeter_per_area
    edge, face = settled_absorption(gap, depth, between_glass=False)
    loss = air.speed_of_sound / wave.omega * (edge * rim / np.pi + face / depth)
    wavenumber_squared = np.square(wave.omega / air.speed_of_sound) * (1.0 - 1j * loss)
    blanket = gap.fill_thickness if gap.fill is not None else 0.0
    clear = gap.thickness - blanket
    if gap.fill is None or blanket == 0.0:
        return _through_fluid(air.density, wavenumber_squared, clear, wave, state)
    if clear > 1e-9:
        state = _through_fluid(air.density, wavenumber_squared, clear / 2.0, wave, state)
    state = _through_blanket(gap.fill, blanket, wave, state)
    return _through_fluid(air.density, wavenumber_squared, clear / 2.0, wave, state) if clear > 1e-9 else state


def _through_blanket(porous: Porous, thickness: float, wave: Wave, state: State) -> State:
    """Limp blanket."""
    density = effective_density(porous, wave.frequency, air=wave.air)
    modulus = effective_bulk_modulus(porous, wave.frequency, air=wave.air)
    return _through_fluid(density, np.square(wave.omega) * density / modulus, thickness, wave, state)


def _through_fluid(
    density: float | ComplexArray, wavenumber_squared: ComplexArray, thickness: float, wave: Wave, state: State
) -> State:
    """Any fluid layer; the wavenumber is a column over frequency."""
    pressure, velocity = state
    normal = np.sqrt(wavenumber_squared - wave.trace_squared)
    phase = normal * thickness
    np.clip(phase.imag, -_DEEPEST_DECAY, _DEEPEST_DECAY, out=phase.imag)
    forward = np.exp(1j * phase)
    backward = 1.0 / forward
    cosine, sine = 0.5 * (forward + backward), 0.5 * (forward - backward)
    impedance = wave.omega * density / normal
    return cosine * pressure + impedance * sine * velocity, sine / impedance * pressure + cosine * velocity


def _single_direction(frequency: ArrayLike, angle: float, air: Air, perimeter_per_area: float) -> Wave:
    """Grid of one direction."""
    column = np.atleast_1d(np.asarray(frequency, dtype=np.float64))[:, None]
    if np.any(~(column > 0.0)):
        raise InvalidInput(f"lowest frequency is {float(column.min())} Hz; it must be positive")
    if not 0.0 <= angle < np.pi / 2.0:
        raise InvalidInput(f"angle of incidence is {angle} rad; it must be at least 0 and less than π/2")
    return Wave(column, np.full((1, 1), math.sin(angle) ** 2), None, air, perimeter_per_area)


def _infinite_panel(
    layers: Sequence[Layer], frequency: ArrayLike, angle: float, air: Air, perimeter_per_area: float
) -> tuple[float, list[State]]:
    """Impedance of the air at the angle and the states of an infinite panel."""
    if not layers:
        raise InvalidInput("0 layers given; a partition needs one or more")
    wave = _single_direction(frequency, angle, air, perimeter_per_area)
    impedance = air.characteristic_impedance / math.cos(angle)
    ones = np.ones(wave.frequency.shape, dtype=np.complex128)
    return impedance, march(layers, wave, (impedance * ones, ones))


def transmission_coefficient(
    layers: Sequence[Layer],
    frequency: ArrayLike,
    angle: float = 0.0,
    *,
    air: Air = AIR_20C,
    perimeter_per_area: float = 0.0,
) -> FloatArray:
    r"""Transmission coefficient of an infinite panel for one direction.

    Parameters
    ----------
    layers : sequence of Layer
        Layers, outside in (thickness [m]).
    frequency : array_like, shape (n_frequency,)
        Frequency [Hz], > 0.
    angle : float, optional
        Angle from the normal [rad], 0 ≤ θ < π/2.
    air : Air, optional
        Air on both sides (density [kg/m³]).
    perimeter_per_area : float, optional
        Rim of the spaces over their area [1/m]; 0 leaves out the losses at the rim.

    Returns
    -------
    ndarray, shape (n_frequency,)
        Transmitted over incident power [-].

    Raises
    ------
    InvalidInput
        If there is no layer, a frequency is not positive or the angle is out of range.

    Notes
    -----
    ``τ = |2/(A + B/Z + CZ + D)|²``, ``Z = ρc/cosθ``.

    References
    ----------
    .. [1] J.-F. Allard and N. Atalla, *Propagation of Sound in Porous Media*, 2nd ed., Wiley, 2009, ch. 11.

    Examples
    --------
    >>> import math
    >>> tau = transmission_coefficient([LimpMass(10.0)], [500.0])
    >>> round(-10 * math.log10(float(tau[0])), 1)
    31.6
    """
    impedance, states = _infinite_panel(layers, frequency, angle, air, perimeter_per_area)
    pressure, velocity = states[-1]
    return np.asarray(np.square(np.abs(2.0 * impedance / (pressure + impedance * velocity)))[:, 0])


def power_shares(
    layers: Sequence[Layer],
    frequency: ArrayLike,
    angle: float = 0.0,
    *,
    air: Air = AIR_20C,
    perimeter_per_area: float = 0.0,
) -> tuple[FloatArray, FloatArray, FloatArray]:
    """Shares of the incident power that an infinite panel reflects, absorbs and transmits.

    Parameters
    ----------
    layers : sequence of Layer
        Layers, outside in (thickness [m]).
    frequency : array_like, shape (n_frequency,)
        Frequency [Hz], > 0.
    angle : float, optional
        Angle from the normal [rad], 0 ≤ θ < π/2.
    air : Air, optional
        Air on both sides (density [kg/m³]).
    perimeter_per_area : float, optional
        Rim of the spaces over their area [1/m]; 0 leaves out the losses at the rim.

    Returns
    -------
    tuple of ndarray
        Reflected share [-]; absorbed share by layer [-], shape (n_layer, n_frequency), outside in; transmitted share
        [-].

    Raises
    ------
    InvalidInput
        If there is no layer, a frequency is not positive or the angle is out of range.

    Notes
    -----
    What a layer absorbs is the difference of ``Re(p v*)`` on its two faces, so that the sum of all shares is a check.

    References
    ----------
    .. [1] J.-F. Allard and N. Atalla, *Propagation of Sound in Porous Media*, 2nd ed., Wiley, 2009, ch. 11.

    Examples
    --------
    >>> reflected, absorbed, transmitted = power_shares([LimpMass(10.0)], [500.0])
    >>> round(float(reflected[0] + absorbed.sum() + transmitted[0]), 12)
    1.0
    """
    impedance, states = _infinite_panel(layers, frequency, angle, air, perimeter_per_area)
    pressure, velocity = states[-1]
    incident = np.square(np.abs(pressure + impedance * velocity)) / (4.0 * impedance)
    reflected = np.square(np.abs(pressure - impedance * velocity)) / (4.0 * impedance) / incident
    flow = [(p * v.conj()).real / incident for p, v in states]
    absorbed = np.array([(outer - inner)[:, 0] for inner, outer in zip(flow[:-1], flow[1:], strict=True)])
    return np.asarray(reflected[:, 0]), absorbed[::-1], np.asarray(flow[0][:, 0])


def surface_absorption(
    layers: Sequence[Layer],
    *,
    rigid_backing: bool = True,
    air: Air = AIR_20C,
    angles: int = 24,
    perimeter_per_area: float = 0.0,
) -> tuple[float, ...]:
    """Absorption of a lining in a diffuse field, by third octaves.

    Parameters
    ----------
    layers : sequence of Layer
        Layers from the room to the backing (thickness [m]).
    rigid_backing : bool, optional
        Whether a rigid wall [-] stands behind; otherwise the air beyond, and what goes through counts as absorbed.
    air : Air, optional
        Air (density [kg/m³]).
    angles : int, optional
        Number of directions [-].
    perimeter_per_area : float, optional
        Rim of the spaces over their area [1/m].

    Returns
    -------
    tuple of float
        Absorption coefficient [-] of each of the 27 third octaves; an infinite surface, so at most 1.

    Raises
    ------
    InvalidInput
        If there is no layer.

    Notes
    -----
    ``α = ∫(1 − |r(θ)|²) sin2θ dθ`` (Paris), r from the transfer matrices; three frequencies a band.

    References
    ----------
    .. [1] J.-F. Allard and N. Atalla, *Propagation of Sound in Porous Media*, 2nd ed., Wiley, 2009, ch. 2 and 11.

    Examples
    --------
    >>> alpha = surface_absorption([PorousLayer(Porous(10_000.0, 0.98, 1.0, 40.0), 0.05)])
    >>> round(alpha[16], 1)
    0.9
    """
    if not layers:
        raise InvalidInput("0 layers given; a lining needs one or more")
    low, high = band_edges(FREQUENCIES)
    part = (np.arange(3) + 0.5) / 3.0
    frequency = (low[:, None] * (high / low)[:, None] ** part).reshape(-1, 1)
    theta = (np.arange(angles) + 0.5)[None, :] / angles * np.pi / 2.0
    wave = Wave(frequency, np.square(np.sin(theta)), None, air, perimeter_per_area)
    ones = np.ones((frequency.size, angles), dtype=np.complex128)
    impedance = air.characteristic_impedance / np.cos(theta)
    back: State = (ones, 0.0 * ones) if rigid_backing else (impedance * ones, ones)
    pressure, velocity = march(layers, wave, back)[-1]
    reflection = (pressure - impedance * velocity) / (pressure + impedance * velocity)
    weight = np.sin(2.0 * theta) / np.sum(np.sin(2.0 * theta))
    mean = np.sum((1.0 - np.square(np.abs(reflection))) * weight, axis=1).reshape(N_BANDS, 3).mean(axis=1)
    return tuple(float(value) for value in mean)
