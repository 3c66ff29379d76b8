"""Records of what is around and in the room: outdoor sound, sound sources, rain, criteria, limits."""

# ruff: noqa: RUF009 -- quantity(...) and its like declare dataclass fields
from __future__ import annotations

import math
from dataclasses import dataclass

from hushwright.errors import InvalidInput
from hushwright.library.base import Record
from hushwright.library.values import Spread, number, numbers, quantity, words

__all__ = ["Criterion", "Limit", "OutdoorSituation", "RainClass", "RoomSource", "Spectrum"]

UNSOURCED_UNCERTAINTY = 5.0
"""Least standard uncertainty [dB] of a spectrum without a published source."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Spectrum(Record):
    """Band levels at the nominal frequencies they stand for."""

    width: str = words("Octave or third: the width of the bands.")
    frequency: tuple[float, ...] = numbers("Hz", "Nominal mid-band frequencies.", optional=False)
    level: tuple[float, ...] = numbers("dB", "Band levels, unweighted.", optional=False)
    standard_uncertainty: float = number("dB", "Standard uncertainty of a band level.")

    def __post_init__(self) -> None:
        Record.__post_init__(self)  # by name: super() without arguments fails in a slots dataclass
        if self.width not in ("octave", "third"):
            raise InvalidInput(f"{self.name}: width is {self.width!r}; it is octave or third")
        if len(self.frequency) != len(self.level):
            raise InvalidInput(f"{self.name}: {len(self.frequency)} frequencies and {len(self.level)} levels")
        if self.unsourced and self.standard_uncertainty < UNSOURCED_UNCERTAINTY:
            raise InvalidInput(
                f"{self.name}: no published source, so its standard uncertainty of {self.standard_uncertainty} dB"
                f" is at least {UNSOURCED_UNCERTAINTY} dB"
            )

    @property
    def unsourced(self) -> bool:
        """Whether no published source stands behind the spectrum."""
        return not self.source.published


@dataclass(frozen=True, slots=True, kw_only=True)
class OutdoorSituation(Spectrum):
    """What stands around the van: free-field sound pressure levels outdoors, without the van's own reflection."""

    from_where: str = words("one side: a source on one side; all round: sound from every direction along the ground.")


@dataclass(frozen=True, slots=True, kw_only=True)
class RoomSource(Spectrum):
    """A source in the room: levels at 1 m in front in a free field, and how much it favours the front."""

    directivity_index: Spread = quantity("dB", "Level in front above the mean over all directions.")

    @property
    def sound_power_level(self) -> tuple[float, ...]:
        """Sound power level [dB re 1 pW] per band: level at 1 m + 10 lg 4π − directivity index."""
        sphere = 10.0 * math.log10(4.0 * math.pi)
        return tuple(level + sphere - self.directivity_index.value for level in self.level)


@dataclass(frozen=True, slots=True, kw_only=True)
class RainClass(Record):
    """A class of rain on the roof."""

    rate: Spread = quantity("mm/h", "Rainfall rate.")
    drop_diameter: Spread = quantity("mm", "Diameter of the drops.")
    fall_speed: Spread = quantity("m/s", "Speed of the drops.")


@dataclass(frozen=True, slots=True, kw_only=True)
class Criterion(Record):
    """A background-noise target for a use."""

    metric: str = words("nc, nr, dba or hearing-test.")
    value: float = number("-", "Usual target: curve number, level [dB(A)], or lowest test tone [Hz].")
    low: float = number("-", "Strictest usual target.")
    high: float = number("-", "Most lenient usual target.")
    row: str = words("Row of the hearing-test limits; empty for curves and dB(A).", default="")


@dataclass(frozen=True, slots=True, kw_only=True)
class Limit(Record):
    """A default limit, allowance or condition; ``value`` keeps the SI of ``unit``."""

    unit: str = words("SI unit of the value.")
    sense: str = words("at most, at least, or allowance.")
    value: Spread = quantity("-", "Default and usual range, in the unit beside it.")
    sentence: str = words("What it limits.")
