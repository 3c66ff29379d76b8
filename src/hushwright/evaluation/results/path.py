"""One way of the sound, with the level that it makes alone."""

from __future__ import annotations

from dataclasses import dataclass

Bands = tuple[float, ...]


@dataclass(frozen=True, slots=True)
class PathLevel:
    """Level that one way of the sound makes in the receiving room, alone."""

    name: str
    levels: Bands
    uncertainty: Bands
    level_a: float
    share: float  # of the A-weighted energy
    place: str
    note: str = ""
    kind: str = ""  # of its first piece, as of a link
    family: str = ""  # ways of one family are wrong together in part
    build_up: str = ""  # of one family, ways of one build-up are wrong together wholly
