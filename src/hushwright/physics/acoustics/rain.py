"""Noise of rain on a thin skin, scaled from the reference pane of the laboratory rain test.

Drops hit with a force spectrum that does not know what they hit. It is read back from the intensity which the standard
prints for its glass pane and put on another skin: mass, stiffness and damping of the skin then count fully.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import Final, Literal

import numpy as np
from numpy.typing import ArrayLike

from hushwright.errors import InvalidInput
from hushwright.physics.acoustics.bands import FREQUENCIES, THIRD_OCTAVE_BANDS, FloatArray
from hushwright.physics.acoustics.plates import coincidence_frequency
from hushwright.physics.acoustics.published import published_values
from hushwright.physics.acoustics.radiation import radiation_efficiency
from hushwright.physics.air import AIR_20C, Air

RainClass = Literal["moderate", "intense", "heavy", "cloudburst"]


@dataclass(frozen=True, slots=True)
class Rain:
    """A class of rain.

    Parameters
    ----------
    rate_millimetre_per_hour : float
        Rainfall rate as printed [mm/h].
    drop_diameter : float
        Diameter of the drops [m].
    fall_velocity : float
        Speed of the drops [m/s].
    basis : str
        Where that is from [-].

    References
    ----------
    .. [1] ISO 10140-1:2021 table K.1; ISO 10140-5:2021 table H.1.
    """

    rate_millimetre_per_hour: float
    drop_diameter: float
    fall_velocity: float
    basis: str


_CLASSES: Final = "ISO 10140-1:2021 table K.1 (after IEC 60721-2-2)"
RAINS: Final[dict[RainClass, Rain]] = {
    "moderate": Rain(4.0, 0.001, 2.0, f"{_CLASSES}, upper end"),
    "intense": Rain(15.0, 0.002, 4.0, "ISO 10140-5:2021 table H.1"),
    "heavy": Rain(40.0, 0.005, 7.0, "ISO 10140-5:2021 table H.1"),
    "cloudburst": Rain(100.0, 0.005, 7.0, f"{_CLASSES}; its drops are 'above 3 mm', those of heavy rain are taken"),
}
"""Classes of rain; "heavy" is the artificial rain of the reference."""

# Reference pane: 6 mm glass in an opening of 1.25 m x 1.5 m (memory of ISO 10140-1 annex K); density, modulus and
# Poisson's ratio after Hopkins, *Sound Insulation*, 2007, table A2.
_PANE_SURFACE_DENSITY: Final = 15.0  # kg/m²
_PANE_STIFFNESS: Final = 63.71e9 * 0.006**3 / 12.0 / (1.0 - 0.24**2)  # N·m
_PANE_AREA: Final = 1.25 * 1.5  # m²
_PANE_PERIMETER: Final = 2.0 * (1.25 + 1.5)  # m


@dataclass(frozen=True, slots=True)
class RainSound:
    """Sound that a skin under rain radiates into the space under it.

    Parameters
    ----------
    levels : tuple of float, shape (27,)
        Sound power levels [dB re 1 pW].
    assumed : tuple of float, shape (n_assumed,)
        Bands without a published value [Hz].
    validity : tuple of str
        What is to be said with it [-].

    References
    ----------
    .. [1] ISO 10140-1:2021 annex K.
    """

    levels: tuple[float, ...]
    assumed: tuple[float, ...]
    validity: tuple[str, ...]

    def array(self) -> FloatArray:
        """Levels as an array, shape (27,) [dB re 1 pW]."""
        return np.array(self.levels)


def radiated_per_force(
    frequency: ArrayLike,
    surface_density: float,
    bending_stiffness: float,
    loss_factor: ArrayLike,
    perimeter: float,
    area: float,
    *,
    air: Air = AIR_20C,
) -> FloatArray:
    """Sound power that a plate radiates to one side per mean square of point forces on it.

    Parameters
    ----------
    frequency : array_like, shape (n_band,)
        Frequency [Hz], > 0.
    surface_density : float
        Mass per area [kg/m²], > 0.
    bending_stiffness : float
        Bending stiffness per width [N·m], > 0.
    loss_factor : array_like, shape (n_band,)
        Total loss factor of the mounted plate [-], > 0.
    perimeter : float
        Length of edges and ribs [m].
    area : float
        Area [m²].
    air : Air, optional
        Air (density [kg/m³], speed of sound [m/s]).

    Returns
    -------
    ndarray, shape (n_band,)
        Power per mean square force [W/N²].

    Raises
    ------
    InvalidInput
        If a value is not above zero.

    Notes
    -----
    Free waves: the injected ``F² Y`` with ``Y = 1/(8 sqrt(B m))`` is lost as ``ω m η S v²``; of it ``ρ c σ S v²`` is
    heard, so ``ρ c σ Y/(ω m η)``. Below coincidence the near field of each blow adds ``ρ/(2π c m²)``, which no damping
    lowers [1]_.

    References
    ----------
    .. [1] L. Cremer, M. Heckl and B. A. T. Petersson, *Structure-Borne Sound*, 3rd ed., Springer, 2005, ch. 5 and 6.

    Examples
    --------
    >>> bare, damped = radiated_per_force([500.0, 500.0], 7.0, 12.5, [0.01, 0.2], 5.0, 1.0)
    >>> round(float(10 * np.log10(bare / damped)), 1)
    7.0
    """
    f = np.asarray(frequency, dtype=np.float64)
    loss = np.asarray(loss_factor, dtype=np.float64)
    if not (surface_density > 0.0 and bending_stiffness > 0.0 and perimeter > 0.0 and area > 0.0):
        raise InvalidInput(
            f"mass {surface_density} kg/m², stiffness {bending_stiffness} N m, edges {perimeter} m and area {area} m²"
            " must be above zero"
        )
    if np.any(~(f > 0.0)) or np.any(~(loss > 0.0)):
        raise InvalidInput(f"frequency {f.tolist()} Hz and loss factor {loss.tolist()} must be above zero")
    coincidence = coincidence_frequency(surface_density, bending_stiffness, air=air)
    mobility = 1.0 / (8.0 * math.sqrt(bending_stiffness * surface_density))
    efficiency = radiation_efficiency(f, coincidence, perimeter, area, air=air)
    resonant = air.characteristic_impedance * efficiency * mobility / (2.0 * math.pi * f * surface_density * loss)
    near = air.density / (2.0 * math.pi * air.speed_of_sound * surface_density**2)
    return np.asarray(resonant + np.where(f < coincidence, near, 0.0))


def drop_force(rain: RainClass = "heavy", *, air: Air = AIR_20C) -> tuple[FloatArray, tuple[float, ...]]:
    """Mean square force of the drops on a square metre, band by band, as the reference pane tells it.

    Parameters
    ----------
    rain : {"moderate", "intense", "heavy", "cloudburst"}, optional
        Class of rain [-].
    air : Air, optional
        Air around the pane [-].

    Returns
    -------
    tuple of ndarray and tuple
        Mean square force per area [N²/m²] of the 27 bands, and the bands [Hz] in which the table ends.

    Raises
    ------
    InvalidInput
        If the class is unknown.

    Notes
    -----
    Printed intensity over `radiated_per_force` of the pane with its printed loss factor [1]_. The density of a blow's
    force never rises with frequency, so bands in which the pane's own coincidence makes it seem to are pooled. Below
    100 Hz it is flat, as the blow is shorter than the period: the mean of the lowest octave goes on. Above 5 kHz the
    last octave's slope goes on. Other rain: scaled by rate, drop volume and velocity squared, the square of the momenta
    that arrive.

    References
    ----------
    .. [1] ISO 10140-5:2021, table I.1 (found); ISO 10140-1:2021, annex K.

    Examples
    --------
    >>> force, beyond = drop_force("heavy")
    >>> bool(force[13] > 0), beyond[0]
    (True, 25)
    """
    if rain not in RAINS:
        raise InvalidInput(f"rain is {rain!r}; it is one of {', '.join(RAINS)}")
    intensity = published_values("source_spectra.csv", "f_", id="RAIN-glass")
    losses = published_values("source_spectra.csv", "f_", id="RAIN-glass-eta")
    first = THIRD_OCTAVE_BANDS.index(intensity[0][0])
    last = first + len(intensity)
    frequency = FREQUENCIES[first:last]
    loss = 10.0 ** (np.array([value for _, value in losses]) / 10.0)
    radiated = 1e-12 * 10.0 ** (np.array([value for _, value in intensity]) / 10.0)
    pane = radiated_per_force(
        frequency, _PANE_SURFACE_DENSITY, _PANE_STIFFNESS, loss, _PANE_PERIMETER, _PANE_AREA, air=air
    )
    density = radiated / pane / frequency  # per relative bandwidth, which is the same in all thirds
    level = _never_rising(np.log10(density))
    slope = (level[-1] - level[-4]) / 3.0
    low = np.full(first, np.mean(level[:3]))
    high = level[-1] + slope * np.arange(1, len(THIRD_OCTAVE_BANDS) - last + 1)
    force = 10.0 ** np.concatenate([low, level, high]) * FREQUENCIES
    beyond = THIRD_OCTAVE_BANDS[:first] + THIRD_OCTAVE_BANDS[last:]
    return force * _momentum(RAINS[rain]) / _momentum(RAINS["heavy"]), beyond


def _never_rising(values: FloatArray) -> FloatArray:
    """Closest sequence that never rises, by least squares: runs that rise take their mean."""
    count = values.size
    means = [[float(np.mean(values[i : j + 1])) if i <= j else 0.0 for j in range(count)] for i in range(count)]
    return np.array([min(max(means[k][j] for j in range(i, count)) for k in range(i + 1)) for i in range(count)])


def _momentum(rain: Rain) -> float:
    """Number of drops times momentum squared, to a constant factor."""
    return rain.rate_millimetre_per_hour * rain.drop_diameter**3 * rain.fall_velocity**2


def _drop_feels_skin(rain: Rain, surface_density: float, bending_stiffness: float) -> float:
    """Frequency [Hz] at which the impedance of the drop's mass is a third of the skin's."""
    drop_mass = 1000.0 * math.pi / 6.0 * rain.drop_diameter**3
    return 8.0 * math.sqrt(bending_stiffness * surface_density) / (3.0 * 2.0 * math.pi * drop_mass)


def rain_sound_power(
    surface_density: float,
    bending_stiffness: float,
    loss_factor: ArrayLike,
    area: float,
    *,
    perimeter: float,
    rain: RainClass = "heavy",
    air: Air = AIR_20C,
) -> RainSound:
    """Sound power that a roof skin under rain radiates into the space under it.

    Parameters
    ----------
    surface_density : float
        Mass per area of the skin with its damping pads [kg/m²], > 0.
    bending_stiffness : float
        Bending stiffness per width [N·m]; beaded sheet: the geometric mean of both directions.
    loss_factor : array_like, shape (27,) or scalar
        Total loss factor of the mounted skin, pads included [-], > 0.
    area : float
        Area of the roof [m²], > 0.
    perimeter : float
        Length of edges and of bows and ribs that divide the skin [m], > 0.
    rain : {"moderate", "intense", "heavy", "cloudburst"}, optional
        Class of rain [-].
    air : Air, optional
        Air (density [kg/m³], speed of sound [m/s]).

    Returns
    -------
    RainSound
        Sound power levels [dB re 1 pW], the bands that are assumed, and notes on validity.

    Raises
    ------
    InvalidInput
        If a value is not above zero or the rain is unknown.

    Notes
    -----
    ``Lw = 10 lg (F''² S · W/F² / 1 pW)`` from `drop_force` and `radiated_per_force`.

    References
    ----------
    .. [1] ISO 10140-1:2021 annex K; ISO 10140-5:2021 annexes H and I.

    Examples
    --------
    >>> pane = rain_sound_power(15.0, 1217.0, 0.04, 1.0, perimeter=5.5)
    >>> len(pane.levels)
    27
    """
    force, beyond = drop_force(rain, air=air)
    loss = np.broadcast_to(np.asarray(loss_factor, dtype=np.float64), force.shape)
    power = (
        force
        * area
        * radiated_per_force(FREQUENCIES, surface_density, bending_stiffness, loss, perimeter, area, air=air)
    )
    notes = [
        "rain falls straight down on a flat roof; wind, slope and standing water are left out",
        "radiation of flat bays; beads and curvature radiate more, so a bare roof may be louder",
    ]
    if rain != "heavy":
        notes.append(
            f"{rain} rain is scaled from heavy rain by rate, drop volume and velocity; smaller drops hit more sharply"
        )
    heavy_from = _drop_feels_skin(RAINS[rain], surface_density, bending_stiffness)
    if heavy_from < FREQUENCIES[-1]:
        notes.append(f"above {heavy_from:.0f} Hz the skin yields under the drop; the level is an upper bound there")
    return RainSound(tuple((10.0 * np.log10(power / 1e-12)).tolist()), beyond, tuple(notes))
