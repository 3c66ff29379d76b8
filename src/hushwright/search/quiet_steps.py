"""What a search for quiet has found: steps with what each gains and takes, where they end, what stood in the way."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Literal

from hushwright.document.edits import Edit
from hushwright.document.nodes import Path
from hushwright.verdicts.verdict import Verdict

Ending = Literal["meets", "number", "short"]
"""``meets`` with its margin; ``number``: the number meets, its doubt is too large; ``short`` of it."""


@dataclass(frozen=True, slots=True)
class Touched:
    """A verdict that a step moves from one state to another, or that misses its limit and gets worse."""

    verdict: str
    question: str
    before: str
    after: str
    margin: float | None
    kind: str
    missed: bool = False  # its limit, before too


@dataclass(frozen=True, slots=True)
class Price:
    """What a change takes: mass of the whole van [kg], room in each direction [m], money without its range."""

    mass: float = 0.0
    headroom: float = 0.0
    width: float = 0.0
    length: float = 0.0
    boxes: float = 0.0  # by which what stands over the wheel boxes grows
    money: float | None = None
    unpriced: tuple[str, ...] = ()  # what changes and has no price in the file
    unweighed: bool = False  # ducts change, whose mass is nowhere

    @property
    def depth(self) -> float:
        """Headroom, width and length lost, and what wheel boxes grow by, together [m]."""
        return self.headroom + self.width + self.length + self.boxes

    def plus(self, other: Price) -> Price:
        """Both together."""
        money = None if self.money is None or other.money is None else self.money + other.money
        return Price(self.mass + other.mass, self.headroom + other.headroom, self.width + other.width,
                     self.length + other.length, self.boxes + other.boxes, money,
                     tuple(dict.fromkeys((*self.unpriced, *other.unpriced))),
                     self.unweighed or other.unweighed)  # fmt: skip


@dataclass(frozen=True, slots=True)
class QuietStep:
    """One change that was taken: nominal numbers before and after it, and the file's text with it."""

    what: str
    where: str
    changed: tuple[str, ...]  # path with what stands there before and after
    edits: tuple[Edit, ...]
    text: str
    value: float  # of the verdict after it
    gain: float  # dB
    score: float
    price: Price
    touched: tuple[Touched, ...]

    @property
    def name(self) -> str:
        """What and where, as a label."""
        return named(self.what, self.where)


@dataclass(frozen=True, slots=True)
class Refused:
    """A change that would gain, and what it would break or make worse."""

    what: str
    where: str
    gain: float
    breaks: tuple[Touched, ...]

    @property
    def name(self) -> str:
        """What and where, as a label."""
        return named(self.what, self.where)


@dataclass(frozen=True, slots=True)
class Left:
    """A part of the build with its share of what is left."""

    name: str
    share: float


@dataclass(frozen=True, slots=True)
class Quietened:
    """The whole answer: where it began, the steps, where it ends."""

    verdict: str
    question: str
    kind: str
    sense: str
    limit: float
    start: float
    end: float
    doubt: float  # twice the standard uncertainty at the end
    ending: Ending
    met_after: int | None  # steps after which the number itself meets
    steps: tuple[QuietStep, ...]
    price: Price
    currency: str
    refused: tuple[Refused, ...]
    left: tuple[Left, ...]
    band: str
    ways_out: tuple[str, ...]
    measure: str
    tried: int
    text: str
    final: Verdict
    is_cut_short: bool  # by the number of rounds: more may be gained
    would_take: tuple[str, ...] = ()  # what is needed instead where the steps end short of the limit
    recount: tuple[str, ...] = ()  # materials whose typed number of plates is of the file as it was


@dataclass(frozen=True, slots=True)
class Looking:
    """How far a search is: the round, changes looked at of those in it, and the step just taken, if one was.

    Where an earlier step was given up for a better one, ``anew`` has all steps as they now stand.
    """

    round: int
    done: int
    number: int
    value: float
    step: QuietStep | None = None
    kind: str = ""  # of the value
    currency: str = ""
    anew: tuple[QuietStep, ...] = ()
    trying: str = ""  # what is looked at just now


def named(what: str, where: str) -> str:
    """What and where as a label; several changes that are one step each with its own place.

    Examples
    --------
    >>> named("MDF 12 mm", "left"), named("MDF 12 mm; cavity deeper", "left; floor"), named("run slower", "")
    ('left: MDF 12 mm', 'left: MDF 12 mm; floor: cavity deeper', 'run slower')
    """
    if not where:
        return what
    changes, places = what.split("; "), where.split("; ")
    if len(changes) != len(places):
        return f"{where}: {what}"
    return "; ".join(f"{place}: {change}" for place, change in zip(places, changes, strict=True))


def needs_of(steps: Sequence[QuietStep]) -> tuple[frozenset[int], ...]:
    """For each step the earlier ones without which it cannot be taken: they change the same part of the file."""
    parts = [{_part(edit) for edit in each.edits} for each in steps]
    found: list[frozenset[int]] = []
    for at, own in enumerate(parts):
        direct = {one for one in range(at) if any(_overlap(a, b) for a in own for b in parts[one])}
        found.append(frozenset(direct.union(*(found[one] for one in direct))))
    return tuple(found)


def _part(edit: Edit) -> Path:
    """Path of an edit, or of the list that it goes into: a step may shift the places in it."""
    at = next((index for index, key in enumerate(edit.path) if isinstance(key, int)), len(edit.path))
    return edit.path[:at]


def _overlap(one: Path, other: Path) -> bool:
    short = min(len(one), len(other))
    return one[:short] == other[:short]
