"""Baffle box: a lined chamber in a duct run, through which staggered baffles lead the air from side to side."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import Final

import numpy as np
from numpy.typing import ArrayLike

from hushwright.errors import InvalidInput
from hushwright.physics.acoustics.bands import FREQUENCIES, FloatArray
from hushwright.physics.acoustics.duct_bands import DuctLoss, DuctPower, loss_from_thirds, summed_power
from hushwright.physics.acoustics.duct_fittings import elbow
from hushwright.physics.acoustics.duct_flow_noise import bend_noise, silencer_noise
from hushwright.physics.acoustics.duct_passage import ComplexArray, passage_loss
from hushwright.physics.acoustics.layers import Porous
from hushwright.physics.acoustics.spaces import require_range
from hushwright.physics.air import AIR_20C, Air

LARGEST_LOSS: Final = 50.0
"""Loss [dB] beyond which a box is not credited: sound goes round through its walls (common practice, no source)."""

_PER_BAND: Final = 5  # frequencies per third octave in which the standing wave of the chamber is averaged
_FINE: Final = 10


@dataclass(frozen=True, slots=True)
class BaffleBox:
    """A box of boards, lined on all inner faces, with baffles from alternate sides.

    Parameters
    ----------
    length : float
        Outer length, from inlet to outlet [m].
    width : float
        Outer width, the way the baffles reach [m].
    height : float
        Outer height, along the edges of the baffles [m].
    wall_thickness : float
        Thickness of the boards [m].
    lining : Porous
        Lining of walls and baffles (flow resistivity [Pa·s/m²] and so on).
    lining_thickness : float
        Thickness of the lining on the walls [m].
    baffle_count : int
        Number of baffles [-]; 0 is a plain lined box.
    baffle_thickness : float
        Thickness of a baffle, a board with lining on both faces; its lining counts with half of it [m].
    passage : float
        Free width between the tip of a baffle and the lining opposite [m].
    duct_area : float
        Clear area of the duct at inlet and outlet [m²].

    Raises
    ------
    InvalidInput
        If a value is impossible or nothing is left inside.

    References
    ----------
    .. [1] M. L. Munjal, *Acoustics of Ducts and Mufflers*, 2nd ed., Wiley, 2014, ch. 6 (lined passages).

    Examples
    --------
    >>> wool = Porous(12_000.0, 0.97, 1.0, 40.0)
    >>> box = BaffleBox(0.9, 0.35, 0.25, 0.012, wool, 0.04, 3, 0.04, 0.1, 0.0123)
    >>> round(box.free_area, 4), box.turns, round(box.overlap, 3)
    (0.0146, 6, 0.046)
    """

    length: float
    width: float
    height: float
    wall_thickness: float
    lining: Porous
    lining_thickness: float
    baffle_count: int
    baffle_thickness: float
    passage: float
    duct_area: float

    def __post_init__(self) -> None:
        for what in ("length", "width", "height"):
            require_range(f"{what} of the box", getattr(self, what), 0.0, 10.0, "m", open_low=True)
        require_range("wall thickness", self.wall_thickness, 0.0, 0.2, "m")
        require_range("lining thickness", self.lining_thickness, 0.0, 0.3, "m")
        require_range("baffle count", self.baffle_count, 0, 50, "")
        require_range("baffle thickness", self.baffle_thickness, 0.0, 0.5, "m", open_low=self.baffle_count > 0)
        require_range("duct area", self.duct_area, 0.0, 1.0, "m²", open_low=True)
        if min(self.inner_length, self.inner_width, self.inner_height, self.cell) <= 0.0:
            raise InvalidInput(
                f"box {self.length} m × {self.width} m × {self.height} m with {self.lining_thickness} m of lining and "
                f"{self.baffle_count} baffles of {self.baffle_thickness} m leaves no air inside"
            )
        if self.baffle_count:
            require_range("passage", self.passage, 0.0, self.inner_width, "m", open_low=True)

    def _inner(self, outer: float) -> float:
        return outer - 2.0 * (self.wall_thickness + self.lining_thickness)

    @property
    def inner_length(self) -> float:
        """Free length between the linings of the ends [m]."""
        return self._inner(self.length)

    @property
    def inner_width(self) -> float:
        """Free width between the linings of the sides [m]."""
        return self._inner(self.width)

    @property
    def inner_height(self) -> float:
        """Free height between the linings of floor and lid [m]."""
        return self._inner(self.height)

    @property
    def cell(self) -> float:
        """Free width of the way between two baffles [m]."""
        return (self.inner_length - self.baffle_count * self.baffle_thickness) / (self.baffle_count + 1)

    @property
    def overlap(self) -> float:
        """By how much neighbouring baffles overlap as seen along the box [m]; negative leaves a straight view."""
        return self.inner_width - 2.0 * self.passage if self.baffle_count else -self.inner_width

    @property
    def sight_area(self) -> float:
        """Area through which one looks straight from end to end [m²]; one baffle covers what lies behind it."""
        if self.baffle_count == 0:
            return min(self.duct_area, self.inner_width * self.inner_height)
        free = self.passage if self.baffle_count == 1 else max(0.0, -self.overlap)
        return min(self.duct_area, free * self.inner_height)

    @property
    def free_area(self) -> float:
        """Smallest clear area on the way of the air [m²]."""
        if self.baffle_count == 0:
            return min(self.duct_area, self.inner_width * self.inner_height)
        return min(self.passage, self.cell) * self.inner_height

    @property
    def turns(self) -> int:
        """Right-angled turns of the air [-], two for each baffle."""
        return 2 * self.baffle_count

    @property
    def path_length(self) -> float:
        """Way of the sound between linings [m]: across for each baffle, along for a plain box."""
        if self.baffle_count == 0:
            return self.inner_length
        return self.baffle_count * (self.inner_width - self.passage)

    @property
    def outer_volume(self) -> float:
        """Space the box takes [m³]."""
        return self.length * self.width * self.height


def _sections(box: BaffleBox) -> tuple[float, float]:
    """Free width of the lined way and thickness of the lining that bounds it."""
    if box.baffle_count == 0:
        return box.inner_width, box.lining_thickness
    return box.cell, box.baffle_thickness / 2.0


def _lined_way(box: BaffleBox, frequency: FloatArray, air: Air, order: int) -> ComplexArray:
    width, lining = _sections(box)
    return passage_loss(
        width, box.inner_height, box.lining, lining_on_width=lining, lining_on_height=box.lining_thickness,
        frequency=frequency, air=air, order=order,
    )  # fmt: skip


def _chamber(box: BaffleBox, along: ComplexArray, frequency: FloatArray, air: Air) -> FloatArray:
    """Loss of a chamber with a lossy wave in it between two ducts, mean over the third octave."""
    steps = 10.0 ** (0.1 * ((np.arange(_PER_BAND) + 0.5) / _PER_BAND - 0.5))
    free = 2.0 * math.pi * frequency / air.speed_of_sound
    wave = (along / free)[:, None]
    width, _ = _sections(box)
    ratio = width * box.inner_height / box.duct_area
    phase = along[:, None] * steps * box.path_length
    # Impedance of the wave over that of air is free/along; the area ratio scales it once more.
    step = wave * ratio
    passed = np.abs(np.cos(phase) + 0.5j * np.sin(phase) * (step + 1.0 / step)) ** 2
    return np.asarray(-10.0 * np.log10(np.mean(1.0 / passed, axis=1)))


def baffle_box_loss(box: BaffleBox, air: Air = AIR_20C) -> DuctLoss:
    r"""Attenuation of a baffle box.

    Parameters
    ----------
    box : BaffleBox
        The box (sides [m] and so on).
    air : Air, optional
        Air in it [-].

    Returns
    -------
    DuctLoss
        Attenuation [dB], at most 50 dB, with a standard uncertainty of 2 dB and 15 % (common practice, no source).

    Notes
    -----
    1. The wave that is lost slowest between the linings of neighbouring baffles, floor and lid, over the way across the
       box behind each baffle (`duct_passage`).
    2. Below the first cross mode of that way the step of area from the duct into the box and back, as a chamber with
       that lossy wave in it; above it the steps are not counted. The two are joined over an octave.
    3. One lined elbow for each baffle, by its width in wavelengths: the two turns at a tip lie closer than a width and
       are not counted twice.
    4. Where one sees through, or past a single baffle, sound of short waves goes straight: ``S/(2π L²)`` of it.

    Narrow tips are not counted as steps of area, nor the resonance between two boxes: both to the safe side.

    References
    ----------
    .. [1] M. L. Munjal, *Acoustics of Ducts and Mufflers*, 2nd ed., Wiley, 2014, ch. 2 (chamber) and 6 (lining).
    .. [2] D. A. Bies, C. H. Hansen and C. Q. Howard, *Engineering Noise Control*, 5th ed., 2017, table 8.11 (elbows).
    .. [3] R. J. Wells, *Noise Control* 4(4) (1958) 9–15 (straight sound through a chamber).

    Examples
    --------
    >>> wool = Porous(12_000.0, 0.97, 1.0, 40.0)
    >>> box = BaffleBox(0.9, 0.35, 0.25, 0.012, wool, 0.04, 3, 0.04, 0.1, 0.0123)
    >>> [round(level) for level in baffle_box_loss(box).octaves]
    [2, 4, 4, 12, 35, 50, 39, 33]
    """
    values, notes = box_attenuation(box, FREQUENCIES, air)
    spread = np.hypot(2.0, 0.15 * values)
    return loss_from_thirds(values, standard_uncertainty=spread, basis="baffle box from its lining", notes=notes)


def box_attenuation(
    box: BaffleBox, frequency: ArrayLike = FREQUENCIES, air: Air = AIR_20C, *, order: int = _FINE
) -> tuple[FloatArray, tuple[str, ...]]:
    """Attenuation of a baffle box at any mid-band frequencies, see `baffle_box_loss`.

    Parameters
    ----------
    box : BaffleBox
        The box (sides [m] and so on).
    frequency : array_like, shape (n_band,), optional
        Middle of each third octave [Hz], > 0.
    air : Air, optional
        Air in it [-].
    order : int, optional
        Order of the polynomials across passage and lining [-].

    Returns
    -------
    tuple of ndarray, shape (n_band,), and tuple of str
        Attenuation [dB] and notes.

    References
    ----------
    .. [1] M. L. Munjal, *Acoustics of Ducts and Mufflers*, 2nd ed., Wiley, 2014, ch. 2 and 6.

    Examples
    --------
    >>> box = BaffleBox(0.5, 0.3, 0.3, 0.0, Porous(12_000.0, 0.97, 1.0, 40.0), 0.0, 0, 0.0, 0.3, 0.09)
    >>> box_attenuation(box, [100.0])[0].round(2).tolist()
    [0.0]
    """
    values = np.atleast_1d(np.asarray(frequency, dtype=np.float64))
    along = _lined_way(box, values, air, order)
    lined = -20.0 * math.log10(math.e) * along.imag * box.path_length
    width, _ = _sections(box)
    cut_on = air.speed_of_sound / (2.0 * max(width, box.inner_height))
    waves_cross = np.clip(0.5 + np.log2(values / cut_on), 0.0, 1.0)
    total = (1.0 - waves_cross) * _chamber(box, along, values, air) + waves_cross * lined
    if box.baffle_count:
        turn = np.interp(
            np.log(values), np.log(FREQUENCIES), elbow(min(width, box.passage), "square lined", air).array()
        )
        total = total + box.baffle_count * turn
    notes = []
    if box.sight_area > 0.0:
        straight = box.sight_area / (2.0 * math.pi * box.length**2)
        beam = np.clip(np.log2(values * math.sqrt(box.sight_area) / air.speed_of_sound) + 0.5, 0.0, 1.0)
        total = -10.0 * np.log10(10.0 ** (-total / 10.0) + beam * straight * (1.0 - 10.0 ** (-total / 10.0)))
        notes.append(f"baffle box: straight view of {1e4 * box.sight_area:.0f} cm² from end to end")
    if np.any(total > LARGEST_LOSS):
        notes.append(f"baffle box: more than {LARGEST_LOSS:g} dB computed, {LARGEST_LOSS:g} dB taken")
        total = np.minimum(total, LARGEST_LOSS)
    duct = math.sqrt(4.0 * box.duct_area / math.pi)
    if min(box.inner_width, box.inner_height) < 0.999 * duct:
        notes.append(f"baffle box: narrower inside than a round duct of {1e3 * duct:.0f} mm")
    if box.baffle_count and box.cell > 1.5 * (box.inner_width - box.passage):
        notes.append("baffle box: baffles stand wider apart than they reach, the lined way is short for its width")
    return np.maximum(0.0, total), tuple(notes)


def baffle_box_noise(box: BaffleBox, volume_flow_rate: float, air: Air = AIR_20C) -> DuctPower:
    """Sound that the air makes in a baffle box.

    Parameters
    ----------
    box : BaffleBox
        The box (sides [m] and so on).
    volume_flow_rate : float
        Air through it [m³/s], ≥ 0.
    air : Air, optional
        Air in it [-].

    Returns
    -------
    DuctPower
        Sound power levels [dB] at its outlet.

    Raises
    ------
    InvalidInput
        If the flow is negative.

    Notes
    -----
    Noise of one passage between baffles and of a sharp turn for each baffle, at the speed in the smallest area, added
    in energy; the lining that follows a turn is not counted (safe side).

    References
    ----------
    .. [1] D. D. Reynolds and J. M. Bledsoe, *Algorithms for HVAC Acoustics*, ASHRAE, 1991 (turns).
    .. [2] A. Fry (ed.), *Noise Control in Building Services*, Pergamon, 1988 (passages; from memory).

    Examples
    --------
    >>> wool = Porous(12_000.0, 0.97, 1.0, 40.0)
    >>> box = BaffleBox(0.9, 0.35, 0.25, 0.012, wool, 0.04, 3, 0.04, 0.1, 0.0123)
    >>> round(baffle_box_noise(box, 0.033).octaves[1], 1)
    17.3
    """
    require_range("volume flow", volume_flow_rate, 0.0, 100.0, "m³/s")
    velocity = volume_flow_rate / box.free_area
    turns = [bend_noise(velocity, box.free_area)] * box.baffle_count
    return summed_power([silencer_noise(velocity, 1, box.inner_height, air), *turns])
