"""Rooms that ducts, fans and leaks join: how much each branch carries, and the pressure in each room."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, field

import numpy as np

from hushwright.errors import InvalidInput
from hushwright.physics.air import AIR_20C, Air
from hushwright.physics.airflow._guard import FloatArray
from hushwright.physics.airflow.element import DuctElement, system_pressure_loss, system_validity
from hushwright.physics.airflow.fans import Fan
from hushwright.physics.airflow.room_air import OUTDOORS, AirFlow

_START = 0.01  # m³/s
_FLATTEST = 1.0  # Pa per m³/s: keeps a branch without slope solvable
_ITERATIONS = 200
_SETTLED = 1e-9  # of pressures [Pa] and flows [m³/s]
_HALVINGS = 30


@dataclass(frozen=True, slots=True)
class Branch:
    """One way of the air between two rooms, or a room and outdoors.

    Parameters
    ----------
    name : str
        Name of the way.
    source : str
        Room that the air is meant to leave, or ``"outdoors"``.
    target : str
        Room that it is meant to enter, or ``"outdoors"``.
    elements : tuple of DuctElement
        All that it passes.
    fans : tuple of Fan, optional
        Fans in series, blowing from source to target.

    Raises
    ------
    InvalidInput
        If both ends are the same or there is nothing between them.
    """

    name: str
    source: str
    target: str
    elements: tuple[DuctElement, ...]
    fans: tuple[Fan, ...] = field(default=())

    def __post_init__(self) -> None:
        if self.source == self.target:
            raise InvalidInput(f"{self.name} leaves {self.source!r} and enters {self.target!r}")
        if not self.elements:
            raise InvalidInput(f"{self.name} has no elements; give what the air passes")


@dataclass(frozen=True, slots=True)
class FlowSolution:
    """Flows and pressures that agree with every branch and room.

    Parameters
    ----------
    branches : tuple of Branch
        The ways of the air.
    volume_flow_rates : tuple of float, one per branch
        Volume flow rates [m³/s]; below zero where the air goes from target to source.
    rooms : tuple of str
        Rooms without outdoors.
    room_pressures : tuple of float, one per room
        Static pressure over that outdoors [Pa].
    powers : tuple of float, one per branch
        Electrical power of the fans of each branch [W].
    validity : tuple of str
        What is guessed or beyond a curve.
    """

    branches: tuple[Branch, ...]
    volume_flow_rates: tuple[float, ...]
    rooms: tuple[str, ...]
    room_pressures: tuple[float, ...]
    powers: tuple[float, ...]
    validity: tuple[str, ...] = field(default=())

    def flow_of(self, branch: str) -> float:
        """Volume flow rate of a branch [m³/s].

        Parameters
        ----------
        branch : str
            Name of the branch.
        """
        for each, flow in zip(self.branches, self.volume_flow_rates, strict=True):
            if each.name == branch:
                return flow
        raise InvalidInput(f"branch is {branch!r}; known are {', '.join(each.name for each in self.branches)}")

    @property
    def air_flows(self) -> tuple[AirFlow, ...]:
        """Flows in the direction in which the air goes, for the balance of gases."""
        return tuple(
            AirFlow(each.source, each.target, flow) if flow >= 0.0 else AirFlow(each.target, each.source, -flow)
            for each, flow in zip(self.branches, self.volume_flow_rates, strict=True)
        )


def _fall(branch: Branch, flow: float, air: Air) -> float:
    """Pressure at the source less that at the target that a flow takes [Pa]; rises with the flow."""
    loss = system_pressure_loss(branch.elements, abs(flow), air)
    return float(np.copysign(loss, flow)) - sum(fan.pressure(flow, air) for fan in branch.fans)


def _slope(branch: Branch, flow: float, air: Air) -> float:
    width = 1e-6 + 1e-5 * abs(flow)
    rise = _fall(branch, flow + width, air) - _fall(branch, flow - width, air)
    return max(rise / (2.0 * width), _FLATTEST)


def _incidence(branches: Sequence[Branch], rooms: Sequence[str]) -> FloatArray:
    """+1 where a branch leaves a room, −1 where it enters it; one row per branch."""
    matrix = np.zeros((len(branches), len(rooms)))
    for row, branch in enumerate(branches):
        for name, sign in ((branch.source, 1.0), (branch.target, -1.0)):
            if name != OUTDOORS:
                matrix[row, rooms.index(name)] = sign
    return matrix


def _rooms_of(branches: Sequence[Branch]) -> tuple[str, ...]:
    if not branches:
        raise InvalidInput(f"branches are {list(branches)}; a network needs at least one")
    names = [branch.name for branch in branches]
    if len(set(names)) < len(names):
        raise InvalidInput(f"branches are {names}; each name once")
    ends = [end for branch in branches for end in (branch.source, branch.target)]
    reached, grown = {OUTDOORS}, True
    while grown:
        joined = [b for b in branches if (b.source in reached) != (b.target in reached)]
        reached |= {end for branch in joined for end in (branch.source, branch.target)}
        grown = bool(joined)
    if lost := [end for end in dict.fromkeys(ends) if end not in reached]:
        raise InvalidInput(f"no way joins {', '.join(lost)} to {OUTDOORS}; its pressure is not known")
    return tuple(end for end in dict.fromkeys(ends) if end != OUTDOORS)


def solve_flows(branches: Sequence[Branch], air: Air = AIR_20C) -> FlowSolution:
    r"""Flows through rooms that several ducts, fans and leaks join.

    Parameters
    ----------
    branches : sequence of Branch
        All ways of the air, also leaks worth counting (see ``Crack``); every room is joined to outdoors somehow.
    air : Air, optional
        State of the air, the same everywhere.

    Returns
    -------
    FlowSolution
        Flows [m³/s], room pressures [Pa], fan powers [W] and validity.

    Raises
    ------
    InvalidInput
        If a room hangs loose, a name is twice there, or no solution is found (curves with a deep dip).

    Notes
    -----
    .. math:: \Delta p_\text{elements}(q) - \Delta p_\text{fans}(q) = p_\text{source} - p_\text{target},\qquad
        \sum q_\text{in} = \sum q_\text{out}

    solved together by Newton's method with a line search (the gradient method for pipe networks [1]_). Where every
    branch loses more at more flow the solution is the only one. Where no fan reaches, nothing moves: wind and the lift
    of warm air are left out.

    References
    ----------
    .. [1] E. Todini and S. Pilati, "A gradient algorithm for the analysis of pipe networks", in *Computer Applications
       in Water Supply*, Research Studies Press, 1988, 1-20.

    Examples
    --------
    A fan blows 50 l/s into a room that two equal ways leave:

    >>> from hushwright.physics.airflow.element import RatedElement
    >>> from hushwright.physics.airflow.fans import fan_from_two_numbers
    >>> out = RatedElement(0.025, 20.0)
    >>> solution = solve_flows([
    ...     Branch("in", "outdoors", "quiet", (RatedElement(0.05, 25.0),), (fan_from_two_numbers(0.07, 160.0),)),
    ...     Branch("left", "quiet", "outdoors", (out,)),
    ...     Branch("right", "quiet", "outdoors", (out,)),
    ... ])
    >>> [round(flow * 1000, 1) for flow in solution.volume_flow_rates]
    [50.2, 25.1, 25.1]
    """
    rooms = _rooms_of(branches)
    driven = _driven(branches)
    moving = [branch for branch in branches if branch.name in driven]
    pressed = tuple(room for room in rooms if any(room in (each.source, each.target) for each in moving))
    incidence = _incidence(moving, pressed)
    state = np.concatenate([np.full(len(moving), _START), np.zeros(len(pressed))])
    state = _newton(moving, incidence, state, air) if moving else state
    found = dict(zip([each.name for each in moving], _balanced(state[: len(moving)], incidence), strict=True))
    over = dict(zip(pressed, state[len(moving) :], strict=True))
    flows = [float(found.get(branch.name, 0.0)) for branch in branches]
    notes = [
        note
        for branch, flow in zip(branches, flows, strict=True)
        for note in (
            *(note for fan in branch.fans for note in fan.validity(flow)),
            *system_validity(branch.elements, abs(flow), air),
        )
    ]
    if any(not fan.falls_steadily for branch in branches for fan in branch.fans):
        notes.append("fan curve with a dip: more than one operating point may be possible")
    powers = (sum(f.power(q, air) for f in b.fans) for b, q in zip(branches, flows, strict=True))
    pressures = tuple(float(over.get(room, 0.0)) for room in rooms)
    return FlowSolution(tuple(branches), tuple(flows), rooms, pressures, tuple(powers), tuple(dict.fromkeys(notes)))


def _driven(branches: Sequence[Branch]) -> set[str]:
    """Names of the branches that some fan can move: those that rooms, not outdoors alone, join to one."""
    names = {branch.name for branch in branches if branch.fans}
    grown = True
    while grown:
        moved = {end for each in branches if each.name in names for end in (each.source, each.target)} - {OUTDOORS}
        joined = {each.name for each in branches if each.source in moved or each.target in moved} - names
        names, grown = names | joined, bool(joined)
    return names


def _balanced(flows: FloatArray, incidence: FloatArray) -> FloatArray:
    """Flows moved by what the solution was off, so that every room is in balance to the last bits."""
    if incidence.size == 0:
        return flows
    correction = np.linalg.lstsq(incidence.T, incidence.T @ flows, rcond=None)[0]
    return np.asarray(flows - correction, dtype=np.float64)


def _residual(branches: Sequence[Branch], incidence: FloatArray, state: FloatArray, air: Air) -> FloatArray:
    flows, pressures = state[: len(branches)], state[len(branches) :]
    falls = np.array([_fall(branch, float(flow), air) for branch, flow in zip(branches, flows, strict=True)])
    return np.concatenate([falls - incidence @ pressures, incidence.T @ flows])


def _newton(branches: Sequence[Branch], incidence: FloatArray, state: FloatArray, air: Air) -> FloatArray:
    count = len(branches)
    error = _residual(branches, incidence, state, air)
    for _ in range(_ITERATIONS):
        if np.max(np.abs(error)) < _SETTLED:
            return state
        slopes = np.array([_slope(each, float(flow), air) for each, flow in zip(branches, state[:count], strict=True)])
        matrix = np.block([[np.diag(slopes), -incidence], [incidence.T, np.zeros((incidence.shape[1],) * 2)]])
        move = np.linalg.solve(matrix, -error)
        length = 1.0
        for _ in range(_HALVINGS):
            tried = state + length * move
            found = _residual(branches, incidence, tried, air)
            if np.linalg.norm(found) < np.linalg.norm(error):
                break
            length *= 0.5
        state, error = tried, found
    if np.max(np.abs(error)) < 1e-3:
        return state
    raise InvalidInput(f"no flows agree with all branches (off by {np.max(np.abs(error)):.3g} Pa or m³/s)")
