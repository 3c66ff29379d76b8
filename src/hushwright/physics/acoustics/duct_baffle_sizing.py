"""Baffle box sized for an attenuation: the smallest one within the space there is."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from itertools import product
from typing import Final

import numpy as np
from numpy.typing import ArrayLike

from hushwright.errors import InvalidInput
from hushwright.physics.acoustics.bands import FREQUENCIES, FloatArray
from hushwright.physics.acoustics.duct_baffle_box import BaffleBox, baffle_box_loss, box_attenuation
from hushwright.physics.acoustics.duct_bands import DUCT_OCTAVES, DuctLoss
from hushwright.physics.acoustics.layers import Porous
from hushwright.physics.acoustics.spaces import require_range
from hushwright.physics.air import AIR_20C, Air

_LENGTHS: Final = (0.5, 0.55, 0.6, 0.65, 0.7, 0.75, 0.8, 0.85, 0.9, 0.95, 1.0)  # share of the longest that fits
_SIDES: Final = (0.7, 0.8, 0.9, 1.0)
_BAFFLES: Final = (1.0, 2.0)  # thickness of a baffle over that of the lining; half of it works on each face
_COUNTS: Final = (0, 1, 2, 3, 4, 5, 6)
_COARSE: Final = 6  # order of the quick look; the design that is handed back is computed in full


@dataclass(frozen=True, slots=True)
class BoxLimits:
    """Space there is for a baffle box, and what the air asks of it.

    Parameters
    ----------
    length : float
        Longest outer length [m].
    width : float
        Greatest outer width [m].
    height : float
        Greatest outer height [m].
    free_area : float
        Least clear area on the way of the air [m²].
    duct_area : float
        Clear area of the duct [m²].
    wall_thickness : float, optional
        Thickness of the boards [m].
    lining_thicknesses : tuple of float, length of any number of linings, optional
        Thicknesses at which the lining can be had [m].

    Raises
    ------
    InvalidInput
        If a value is impossible or there is no lining.

    References
    ----------
    .. [1] The rule of this package: a design answers to limits that are stated.

    Examples
    --------
    >>> BoxLimits(0.9, 0.35, 0.25, 0.0123, 0.0123).wall_thickness
    0.012
    """

    length: float
    width: float
    height: float
    free_area: float
    duct_area: float
    wall_thickness: float = 0.012
    lining_thicknesses: tuple[float, ...] = (0.025, 0.04, 0.05, 0.075)

    def __post_init__(self) -> None:
        for what in ("length", "width", "height"):
            require_range(f"greatest {what} of the box", getattr(self, what), 0.0, 10.0, "m", open_low=True)
        require_range("free area", self.free_area, 0.0, 1.0, "m²", open_low=True)
        require_range("duct area", self.duct_area, 0.0, 1.0, "m²", open_low=True)
        require_range("wall thickness", self.wall_thickness, 0.0, 0.2, "m")
        if not self.lining_thicknesses:
            raise InvalidInput(f"{len(self.lining_thicknesses)} lining thicknesses given; one is needed")
        for thickness in self.lining_thicknesses:
            require_range("lining thickness", thickness, 0.0, 0.3, "m", open_low=True)


@dataclass(frozen=True, slots=True)
class BaffleBoxDesign:
    """A baffle box that was chosen, and how near it comes to what was asked.

    Parameters
    ----------
    box : BaffleBox
        The box (sides [m] and so on).
    loss : DuctLoss
        Its attenuation [dB].
    shortfall : tuple of float, length n_octave
        By how much each octave asked for is missed [dB]; 0 where it is met.
    tried : int
        Number of boxes looked at [-].

    References
    ----------
    .. [1] See `duct_baffle_box`.

    Examples
    --------
    >>> limits = BoxLimits(0.9, 0.35, 0.25, 0.0123, 0.0123)
    >>> design = size_baffle_box([5.0], limits, Porous(12_000.0, 0.97, 1.0, 40.0), bands=(500,))
    >>> design.meets, design.shortfall
    (True, (0.0,))
    """

    box: BaffleBox
    loss: DuctLoss
    shortfall: tuple[float, ...]
    tried: int

    @property
    def meets(self) -> bool:
        """Whether every octave is met."""
        return max(self.shortfall) <= 0.0


def _candidates(limits: BoxLimits, lining: Porous) -> Iterator[BaffleBox]:
    """Every box of the grid that can be built and leaves the free area."""
    for thickness in limits.lining_thicknesses:
        inner = 2.0 * (limits.wall_thickness + thickness)
        for high in _SIDES:
            height = high * limits.height
            if height <= inner:
                continue
            passage = limits.free_area / (height - inner)
            for wide in _SIDES:
                width = wide * limits.width
                for long in _LENGTHS:
                    sides = (long * limits.length, width, height)
                    for count, share in product(_COUNTS, _BAFFLES):
                        box = _box(limits, lining, sides, thickness, count, share * thickness, passage)
                        if box is not None:
                            yield box


def _box(
    limits: BoxLimits,
    lining: Porous,
    sides: tuple[float, float, float],
    thickness: float,
    count: int,
    baffle: float,
    passage: float,
) -> BaffleBox | None:
    """Box of that grid point, if it can be built: the duct fits into it, and two baffles or more leave no view."""
    inner = [side - 2.0 * (limits.wall_thickness + thickness) for side in sides]
    cell = (inner[0] - count * baffle) / (count + 1)
    if min(*inner, cell) <= 0.0 or min(inner[1:]) < math.sqrt(4.0 * limits.duct_area / math.pi):
        return None
    if count == 0:
        fits = inner[1] * inner[2] >= limits.free_area and limits.duct_area >= limits.free_area
    else:
        fits = cell >= passage and inner[1] >= (2.0 * passage if count > 1 else passage + 1e-3)
    if not fits:
        return None
    # A passage a little wider than asked, so that rounding never leaves less than the free area.
    free = passage * (1.0 + 1e-9) if count else inner[1]
    return BaffleBox(*sides, limits.wall_thickness, lining, thickness, count, baffle, free, limits.duct_area)


def _octave_shortfall(attenuation: FloatArray, required: FloatArray, margin: float) -> FloatArray:
    return np.maximum(0.0, required + margin - attenuation)


def size_baffle_box(
    required: ArrayLike,
    limits: BoxLimits,
    lining: Porous,
    *,
    bands: Sequence[float] = DUCT_OCTAVES,
    margin: float = 0.0,
    air: Air = AIR_20C,
) -> BaffleBoxDesign:
    """The smallest baffle box that takes what is asked, or the nearest to it.

    Parameters
    ----------
    required : array_like, shape (n_octave,)
        Attenuation asked for [dB].
    limits : BoxLimits
        Space there is [m] and free area the air needs [m²].
    lining : Porous
        Material of the lining (flow resistivity [Pa·s/m²] and so on).
    bands : sequence of float, length n_octave, optional
        Nominal octaves [Hz] of what is asked, of 63 Hz to 8 kHz.
    margin : float, optional
        What is asked on top of it [dB].
    air : Air, optional
        Air in the box [-].

    Returns
    -------
    BaffleBoxDesign
        The box, its attenuation [dB] and what is missing.

    Raises
    ------
    InvalidInput
        If no box of the grid leaves the free area, or the octaves are not known.

    Notes
    -----
    A full grid of outer sides (length from 50 %, width and height from 70 % of the limits), linings, and 0 to 6 baffles
    once and twice as thick as the lining, with the passage that just leaves the free area, tried from the smallest
    outer volume upwards; the first that meets the octaves wins. If none does, the one whose worst octave is missed
    least. Exhaustive on its grid, so the same question always has the same answer.

    References
    ----------
    .. [1] See `duct_baffle_box` for the attenuation.

    Examples
    --------
    >>> limits = BoxLimits(0.9, 0.35, 0.25, 0.0123, 0.0123)
    >>> design = size_baffle_box([8.0, 25.0], limits, Porous(12_000.0, 0.97, 1.0, 40.0), bands=(500, 1000))
    >>> design.meets, design.box.free_area >= 0.0123
    (True, True)
    """
    unknown = [band for band in bands if band not in DUCT_OCTAVES]
    asked = np.asarray(required, dtype=np.float64).ravel()
    if unknown or asked.size != len(bands) or asked.size == 0:
        raise InvalidInput(
            f"{asked.size} attenuations for the octaves {list(bands)} Hz, of which {unknown} are not known"
        )
    boxes = sorted(_candidates(limits, lining), key=lambda each: each.outer_volume)
    if not boxes:
        raise InvalidInput(
            f"no box within {limits.length} m × {limits.width} m × {limits.height} m leaves {limits.free_area} m² free"
        )
    places = [DUCT_OCTAVES.index(band) for band in bands]
    middle = FREQUENCIES[[3 * place + 4 for place in places]]
    nearest: tuple[float, BaffleBox] | None = None
    for tried, box in enumerate(boxes, start=1):
        quick = _octave_shortfall(box_attenuation(box, middle, air, order=_COARSE)[0], asked, margin)
        worst = float(np.max(quick))
        if worst <= 0.5:  # the middle of an octave stands for it only roughly: look at all of it
            design = _design(box, asked, places, margin, air, tried)
            if design.meets:
                return design
            worst = max(design.shortfall)
        if nearest is None or worst < nearest[0]:
            nearest = (worst, box)
    return _design((nearest or (0.0, boxes[-1]))[1], asked, places, margin, air, len(boxes))


def _design(
    box: BaffleBox, asked: FloatArray, places: Sequence[int], margin: float, air: Air, tried: int
) -> BaffleBoxDesign:
    loss = baffle_box_loss(box, air)
    shortfall = _octave_shortfall(np.array(loss.octaves)[list(places)], asked, margin)
    return BaffleBoxDesign(box, loss, tuple(shortfall.tolist()), tried)
