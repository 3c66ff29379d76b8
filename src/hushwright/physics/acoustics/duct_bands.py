"""Losses and sound powers of ducts on the 27 third octaves, with what was assumed and where they stop being valid."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass, replace

import numpy as np
from numpy.typing import ArrayLike

from hushwright.errors import InvalidInput
from hushwright.physics.acoustics.bands import (
    N_BANDS,
    OCTAVE_BANDS,
    THIRD_OCTAVE_BANDS,
    FloatArray,
    energy_sum_level,
)
from hushwright.physics.acoustics.spectra import octaves_to_thirds

DUCT_OCTAVES = OCTAVE_BANDS[1:]
"""Octaves [Hz] in which duct tables are published, 63 Hz to 8 kHz."""

SILENT = -math.inf


def _checked(values: Sequence[float], what: str, unit: str, *, lowest: float) -> None:
    if len(values) != N_BANDS:
        raise InvalidInput(f"{len(values)} values of {what} given; there are {N_BANDS} third octaves")
    bad = [value for value in values if not (lowest <= value < math.inf)]
    if bad:
        raise InvalidInput(f"{what} holds {bad[0]} {unit}; it must be a number of at least {lowest:g} {unit}")


@dataclass(frozen=True, slots=True)
class DuctLoss:
    """What a part of a duct takes from the sound that passes it.

    Parameters
    ----------
    attenuation : tuple of float, shape (27,)
        Level before less level after, per third octave [dB], ≥ 0.
    standard_uncertainty : tuple of float, shape (27,)
        Standard uncertainty per third octave [dB].
    assumed : tuple of float, length of any number of bands
        Bands [Hz] that the source does not give.
    notes : tuple of str
        Where the part leaves the range of its source [-].
    basis : str
        Source of the values [-].

    Raises
    ------
    InvalidInput
        If there are not 27 values or one is negative.

    References
    ----------
    .. [1] ISO 7235:2003 for the quantity; IEC 61260-1:2014 for the bands.

    Examples
    --------
    >>> DuctLoss((3.0,) * 27).octaves[:2]
    (3.0, 3.0)
    """

    attenuation: tuple[float, ...]
    standard_uncertainty: tuple[float, ...] = (0.0,) * N_BANDS
    assumed: tuple[float, ...] = ()
    notes: tuple[str, ...] = ()
    basis: str = ""

    def __post_init__(self) -> None:
        _checked(self.attenuation, "attenuation", "dB", lowest=0.0)
        _checked(self.standard_uncertainty, "standard uncertainty", "dB", lowest=0.0)

    def array(self) -> FloatArray:
        """Attenuation as an array, shape (27,) [dB]."""
        return np.array(self.attenuation)

    @property
    def octaves(self) -> tuple[float, ...]:
        """Attenuation of the octaves 63 Hz to 8 kHz for equal energy in their thirds [dB]."""
        passed = 10.0 ** (-self.array() / 10.0)
        return tuple((0.0 - 10.0 * np.log10(passed.reshape(-1, 3).mean(axis=1)))[1:].tolist())

    def noted(self, *notes: str) -> DuctLoss:
        """The same loss with more notes.

        Parameters
        ----------
        *notes : str
            What is to be said [-].
        """
        return replace(self, notes=merged_notes(self.notes, notes))


@dataclass(frozen=True, slots=True)
class DuctPower:
    """Sound power that travels in a duct, or that a part of it makes.

    Parameters
    ----------
    sound_power_level : tuple of float, shape (27,)
        Level per third octave [dB re 1 pW]; −inf stands for silence.
    standard_uncertainty : tuple of float, shape (27,)
        Standard uncertainty per third octave [dB].
    assumed : tuple of float, length of any number of bands
        Bands [Hz] that the source does not give.
    notes : tuple of str
        Where the estimate leaves the range of its source [-].
    basis : str
        Source of the values [-].

    Raises
    ------
    InvalidInput
        If there are not 27 values, or a level or an uncertainty is no number.

    References
    ----------
    .. [1] ISO 80000-8:2020 for the quantity; IEC 61260-1:2014 for the bands.

    Examples
    --------
    >>> round(DuctPower((50.0,) * 27, (3.0,) * 27).octaves[0], 2)
    54.77
    """

    sound_power_level: tuple[float, ...]
    standard_uncertainty: tuple[float, ...]
    assumed: tuple[float, ...] = ()
    notes: tuple[str, ...] = ()
    basis: str = ""

    def __post_init__(self) -> None:
        _checked(self.sound_power_level, "sound power level", "dB", lowest=-math.inf)
        _checked(self.standard_uncertainty, "standard uncertainty", "dB", lowest=0.0)

    def array(self) -> FloatArray:
        """Levels as an array, shape (27,) [dB]."""
        return np.array(self.sound_power_level)

    @property
    def octaves(self) -> tuple[float, ...]:
        """Levels of the octaves 63 Hz to 8 kHz [dB]."""
        return tuple(energy_sum_level(self.array().reshape(-1, 3))[1:].tolist())

    def noted(self, *notes: str) -> DuctPower:
        """The same power with more notes.

        Parameters
        ----------
        *notes : str
            What is to be said [-].
        """
        return replace(self, notes=merged_notes(self.notes, notes))


def merged_notes(*groups: Sequence[str]) -> tuple[str, ...]:
    """Notes of several parts, each said once, in order.

    Parameters
    ----------
    *groups : sequence of str
        Notes of each part [-].

    Returns
    -------
    tuple of str
        All notes without repeats [-].

    References
    ----------
    .. [1] The rule of this package: what leaves its range says so.

    Examples
    --------
    >>> merged_notes(("a", "b"), ("b", "c"))
    ('a', 'b', 'c')
    """
    return tuple(dict.fromkeys(note for group in groups for note in group))


def _outward(edge: float, neighbour: float, steps: int) -> list[float]:
    """Values beyond an edge, nearest first: going on down where the last two fall outward, else held; never under 0."""
    slope = min(0.0, edge - neighbour)
    return [max(0.0, edge + slope * (step + 1)) for step in range(steps)]


def loss_from_octaves(
    attenuation: ArrayLike,
    bands: Sequence[float] = DUCT_OCTAVES,
    *,
    standard_uncertainty: float = 0.0,
    basis: str = "",
    notes: Sequence[str] = (),
) -> DuctLoss:
    """Loss per third octave from a loss per octave.

    Parameters
    ----------
    attenuation : array_like, shape (n_octave,)
        Attenuation [dB], ≥ 0.
    bands : sequence of float, length n_octave, optional
        Nominal octaves [Hz], an unbroken run.
    standard_uncertainty : float, optional
        Standard uncertainty of the octave values [dB]; no more than the attenuation itself is used.
    basis : str, optional
        Source of the values [-].
    notes : sequence of str, optional
        Where the source is left [-].

    Returns
    -------
    DuctLoss
        Attenuation [dB] of 27 bands and the bands that were assumed.

    Raises
    ------
    InvalidInput
        If the octaves are no unbroken run or a value is negative.

    Notes
    -----
    The three thirds of an octave take its value, so a sheet kept in octaves is reproduced exactly. Octaves beyond those
    given go on downward where the last two fall towards the edge and are held otherwise: never more attenuation than
    the last value printed (ours, to the safe side).

    References
    ----------
    .. [1] IEC 61260-1:2014, clause 5: an octave is three adjacent thirds.

    Examples
    --------
    >>> loss = loss_from_octaves([2, 6, 9, 9], (125, 250, 500, 1000))
    >>> loss.attenuation[7], loss.attenuation[4], loss.attenuation[-1], len(loss.assumed)
    (2.0, 0.0, 9.0, 15)
    """
    values = np.asarray(attenuation, dtype=np.float64).ravel().tolist()
    if len(values) != len(bands) or not values or bands[0] not in OCTAVE_BANDS:
        raise InvalidInput(f"{len(values)} attenuations for the octaves {list(bands)} Hz")
    first = OCTAVE_BANDS.index(bands[0])
    if tuple(bands) != OCTAVE_BANDS[first : first + len(bands)]:
        raise InvalidInput(f"octaves {list(bands)} Hz are no unbroken rising run")
    after = len(OCTAVE_BANDS) - first - len(values)
    low = _outward(values[0], values[min(1, len(values) - 1)], first)[::-1]
    high = _outward(values[-1], values[max(-2, -len(values))], after)
    thirds = np.repeat([*low, *values, *high], 3)
    spread = tuple(np.minimum(standard_uncertainty, thirds).tolist())
    return DuctLoss(tuple(thirds.tolist()), spread, _not_given(first, len(values)), tuple(notes), basis)


def _not_given(first: int, count: int) -> tuple[float, ...]:
    """Thirds outside a run of octaves."""
    return THIRD_OCTAVE_BANDS[: 3 * first] + THIRD_OCTAVE_BANDS[3 * (first + count) :]


def loss_from_thirds(
    attenuation: ArrayLike,
    *,
    standard_uncertainty: ArrayLike = 0.0,
    basis: str = "",
    notes: Sequence[str] = (),
    assumed: Sequence[float] = (),
) -> DuctLoss:
    """Loss of the 27 third octaves as they are.

    Parameters
    ----------
    attenuation : array_like, shape (27,) or a scalar
        Attenuation [dB], ≥ 0; a single value holds for all bands.
    standard_uncertainty : array_like, shape (27,) or a scalar, optional
        Standard uncertainty [dB]; no more than the attenuation itself is used.
    basis : str, optional
        Source of the values [-].
    notes : sequence of str, optional
        Where the source is left [-].
    assumed : sequence of float, length of any number of bands, optional
        Bands [Hz] that the source does not give.

    Returns
    -------
    DuctLoss
        Attenuation [dB].

    Raises
    ------
    InvalidInput
        If there are neither 27 values nor one, or one is negative.

    References
    ----------
    .. [1] IEC 61260-1:2014.

    Examples
    --------
    >>> loss_from_thirds(6.0).octaves[0]
    6.0
    """
    array = np.asarray(attenuation, dtype=np.float64)
    if array.ndim == 0:
        array = np.full(N_BANDS, float(array))
    spread = np.minimum(np.broadcast_to(np.asarray(standard_uncertainty, dtype=np.float64), array.shape), array)
    return DuctLoss(tuple(array.ravel().tolist()), tuple(spread.ravel().tolist()), tuple(assumed), tuple(notes), basis)


def total_loss(losses: Sequence[DuctLoss]) -> DuctLoss:
    """Loss of parts one behind the other.

    Parameters
    ----------
    losses : sequence of DuctLoss
        Loss of each part (attenuation [dB]).

    Returns
    -------
    DuctLoss
        Sum of the attenuations [dB], with all notes.

    Notes
    -----
    Parts add without regard to each other: no standing wave between two of them is counted.

    References
    ----------
    .. [1] VDI 2081-1:2001, the calculation from part to part.

    Examples
    --------
    >>> total_loss([loss_from_thirds(3.0), loss_from_thirds(4.0)]).attenuation[0]
    7.0
    """
    attenuation = sum((loss.array() for loss in losses), np.zeros(N_BANDS))
    assumed = [band for band in THIRD_OCTAVE_BANDS if any(band in loss.assumed for loss in losses)]
    notes = merged_notes(*(loss.notes for loss in losses))
    spread = np.sqrt(sum((np.square(loss.standard_uncertainty) for loss in losses), np.zeros(N_BANDS)))
    return DuctLoss(tuple(attenuation.tolist()), tuple(spread.tolist()), tuple(assumed), notes, "sum of parts")


def power_from_octaves(
    levels: ArrayLike,
    bands: Sequence[float] = DUCT_OCTAVES,
    *,
    standard_uncertainty: ArrayLike = 0.0,
    basis: str = "",
    notes: Sequence[str] = (),
) -> DuctPower:
    """Sound power per third octave from octave levels.

    Parameters
    ----------
    levels : array_like, shape (n_octave,)
        Sound power levels [dB re 1 pW].
    bands : sequence of float, length n_octave, optional
        Nominal octaves [Hz], an unbroken run.
    standard_uncertainty : array_like, shape (n_octave,) or a scalar, optional
        Standard uncertainty of the octave levels [dB].
    basis : str, optional
        Source of the values [-].
    notes : sequence of str, optional
        Where the source is left [-].

    Returns
    -------
    DuctPower
        Levels [dB] of 27 bands; thirds outside the octaves given are listed as assumed.

    Raises
    ------
    InvalidInput
        If the octaves are no unbroken run or a value is no number.

    Notes
    -----
    The energy of an octave is split equally between its thirds; beyond the octaves given the last slope goes on, and
    the uncertainty of an assumed band is 3 dB more for each octave it lies outside (ours, no source).

    References
    ----------
    .. [1] IEC 61260-1:2014, clause 5.

    Examples
    --------
    >>> power_from_octaves([60.0] * 8).octaves[0]
    60.0
    """
    spectrum = octaves_to_thirds(levels, bands, basis=basis)
    first = OCTAVE_BANDS.index(bands[0])
    given = np.broadcast_to(np.asarray(standard_uncertainty, dtype=np.float64), (len(bands),))
    low = given[0] + 3.0 * np.arange(first, 0, -1)
    high = given[-1] + 3.0 * np.arange(1, len(OCTAVE_BANDS) - first - len(bands) + 1)
    spread = np.repeat(np.concatenate([low, given, high]), 3)
    return DuctPower(spectrum.levels, tuple(spread.tolist()), spectrum.assumed, tuple(notes), basis)


def summed_power(powers: Sequence[DuctPower]) -> DuctPower:
    """Sound powers that add in energy.

    Parameters
    ----------
    powers : sequence of DuctPower
        Sources that do not know of each other (levels [dB]).

    Returns
    -------
    DuctPower
        Level of the sum [dB] and its standard uncertainty.

    Raises
    ------
    InvalidInput
        If there is none.

    Notes
    -----
    ``L = 10 lg Σ 10^(L_i/10)``; ``u² = Σ (s_i u_i)²`` with s_i the share of source i in the energy, for sources whose
    errors are independent.

    References
    ----------
    .. [1] ISO 80000-8:2020; ISO/IEC Guide 98-3:2008 (propagation of uncertainty).

    Examples
    --------
    >>> both = summed_power([power_from_octaves([60.0] * 8, standard_uncertainty=4.0)] * 2)
    >>> round(both.octaves[0], 2), round(both.standard_uncertainty[4], 2)
    (63.01, 2.83)
    """
    if not powers:
        raise InvalidInput(f"{len(powers)} sound powers given; a sum needs one or more")
    stack = np.array([power.sound_power_level for power in powers])
    level = energy_sum_level(stack, axis=0)
    silent = np.isneginf(level)
    share = np.where(silent, 0.0, 10.0 ** ((stack - np.where(silent, 0.0, level)) / 10.0))
    spread = np.sqrt(np.sum((share * np.array([power.standard_uncertainty for power in powers])) ** 2, axis=0))
    assumed = tuple(band for band in THIRD_OCTAVE_BANDS if any(band in power.assumed for power in powers))
    notes = merged_notes(*(power.notes for power in powers))
    basis = "; ".join(merged_notes([power.basis for power in powers if power.basis]))
    return DuctPower(tuple(level.tolist()), tuple(spread.tolist()), assumed, notes, basis)


def attenuated(power: DuctPower, loss: DuctLoss) -> DuctPower:
    """Sound power behind a part.

    Parameters
    ----------
    power : DuctPower
        Sound power before it (levels [dB]).
    loss : DuctLoss
        What it takes [dB].

    Returns
    -------
    DuctPower
        Levels [dB], less the attenuation; uncertainties add in squares.

    References
    ----------
    .. [1] VDI 2081-1:2001, the calculation from part to part.

    Examples
    --------
    >>> attenuated(power_from_octaves([60.0] * 8), loss_from_thirds(12.0)).octaves[2]
    48.0
    """
    levels = power.array() - loss.array()
    assumed = tuple(band for band in THIRD_OCTAVE_BANDS if band in power.assumed or band in loss.assumed)
    notes = merged_notes(power.notes, loss.notes)
    spread = np.hypot(power.standard_uncertainty, loss.standard_uncertainty)
    return DuctPower(tuple(levels.tolist()), tuple(spread.tolist()), assumed, notes, power.basis)
