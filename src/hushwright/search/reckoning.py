"""What a change takes, what it is worth, and what it does to the verdicts."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import replace
from decimal import Decimal
from typing import Final

from hushwright.document.edits import Edit, edited
from hushwright.document.nodes import compose, is_scalar
from hushwright.document.save import walk
from hushwright.evaluation.cost.cost import cost_of, cost_quantities
from hushwright.evaluation.cost.pricing import names_meant, same_size
from hushwright.evaluation.cost.take_off import things_of
from hushwright.evaluation.mass.mass import masses_in
from hushwright.evaluation.mass.space import first_take, space_of
from hushwright.evaluation.results import Quantity
from hushwright.evaluation.results.cost import CostResult
from hushwright.evaluation.sound.floor import floating_room
from hushwright.evaluation.wiring.cables import with_cables
from hushwright.library.library import plain
from hushwright.model.air_in_place import FanInPlace
from hushwright.model.build import Build
from hushwright.model.costs_in_place import Costs
from hushwright.physics.air import Air
from hushwright.search.quiet_steps import Price, Touched
from hushwright.verdicts.verdict import Verdict
from hushwright.verdicts.worsening import HARDLY, trifles_worse

MASS_OF_A_POINT: Final = 10.0
"""kg of the whole van that count as one point; common practice, no source. So do the other two."""
DEPTH_OF_A_POINT: Final = 0.02
"""m of headroom, width and length lost, together."""
MONEY_OF_A_POINT: Final = 0.005
"""Share [-] of the price of the whole build."""
_SOUNDS = ("NC", "NR", "level_a", "margin")
_LEAST_WORSE = 0.01  # of its limit, by which what misses it gets worse so that it is told
_LEAST_AMOUNT = 1e-3  # m, m2, m3 or pieces; less is no change of what is bought
_LONGEST = 90  # characters of a text that is told


def score_of(gain: float, price: Price, worth: float) -> float:
    r"""How much a change gains for what it takes.

    Parameters
    ----------
    gain : float
        What it gains [dB].
    price : Price
        What it takes.
    worth : float
        Price of the whole build, 0 where none is known [currency].

    Returns
    -------
    float
        Decibels per point [dB].

    Notes
    -----
    :math:`gain / (1 + m / 10\,\mathrm{kg} + d / 20\,\mathrm{mm} + c / (0.005\,C))` with mass m, room lost d (headroom,
    width and length together) and price c of a build that costs C; what gets less counts as nothing. The one stands for
    the work of doing it at all. Common practice, no source.

    Examples
    --------
    Three decibels for 10 kg and 20 mm:

    >>> score_of(3.0, Price(mass=10.0, headroom=0.02), 0.0)
    1.0
    """
    points = 1.0 + max(price.mass, 0.0) / MASS_OF_A_POINT + max(price.depth, 0.0) / DEPTH_OF_A_POINT
    if worth > 0.0 and price.money is not None:
        points += max(price.money, 0.0) / (MONEY_OF_A_POINT * worth)
    return gain / points


def price_between(before: Build, after: Build) -> Price:
    """What a change takes: mass in the state where it is most, room in the room where it is most, money."""
    mass = max(masses_in(with_cables(after), each).total for each in after.states) - max(
        masses_in(with_cables(before), each).total for each in before.states)  # fmt: skip
    lost = [tuple(one - other for one, other in zip(sizes, _sizes(after)[name], strict=True))
            for name, sizes in _sizes(before).items() if name in _sizes(after)]  # fmt: skip
    worst = max(lost, key=lambda each: abs(sum(each)), default=(0.0, 0.0, 0.0))
    boxes = _over_wheels(after) - _over_wheels(before)
    costs = [_cost(each) for each in (before, after)]
    money = [_money(build, cost) for build, cost in zip((before, after), costs, strict=True)]
    spent = None if money[0] is None or money[1] is None else money[1] - money[0]
    unpriced = _unpriced_between(before, after, costs)
    return Price(mass, worst[0], worst[1], worst[2], boxes, spent, unpriced, _ducts(before) != _ducts(after))


def _ducts(build: Build) -> tuple[object, ...]:
    """Pieces of all runs but the fans, whose speed alone weighs nothing."""
    return tuple(piece.what for run in build.air.runs for piece in run.pieces if not isinstance(piece.what, FanInPlace))


def _unpriced_between(before: Build, after: Build, costs: Iterable[CostResult]) -> tuple[str, ...]:
    """Names of what there is more or less of, in any unit, and has no price."""
    lacking = {(each.name, each.size) for cost in costs for each in cost.unpriced}
    amounts: dict[tuple[str, float | None, str], float] = {}
    for sign, build in ((-1.0, before), (1.0, after)):
        for thing in things_of(build) if lacking else ():
            for unit, amount in thing.amounts if (thing.name, thing.size) in lacking else ():
                key = (thing.name, thing.size, unit)
                amounts[key] = amounts.get(key, 0.0) + sign * amount
    return tuple(dict.fromkeys(name for (name, *_), amount in amounts.items() if abs(amount) > _LEAST_AMOUNT))


def to_recount(before: Build, after: Build) -> tuple[str, ...]:
    """Materials whose plates are typed in the file as a number and of which the change takes more or less."""
    amounts: dict[tuple[str, float | None], float] = {}
    for sign, build in ((-1.0, before), (1.0, after)):
        for thing in things_of(build):
            key = (plain(thing.name), thing.size)
            amounts[key] = amounts.get(key, 0.0) + sign * (thing.amounts[0][1] if thing.amounts else 0.0)
    other = [(name, size) for (name, size), amount in amounts.items() if abs(amount) > _LEAST_AMOUNT]
    typed = (each for each in after.costs.prices if each.plates and any(
        name in names_meant(each.of) and (each.size is None or size is None or same_size(each.size, size))
        for name, size in other))  # fmt: skip
    return tuple(each.of if each.size is None else f"{each.of} {1000.0 * each.size:g} mm" for each in typed)


def _sizes(build: Build) -> dict[str, tuple[float, float, float]]:
    """Headroom, width and length of each room [m]."""
    floating = floating_room(build, first_take(build), Air(build.brief.air_temperature))
    found = {}
    for room in build.rooms:
        space = space_of(build, room, floating)
        head = min(space.headroom_centre, space.headroom_shoulder)
        found[room.name] = (head, space.clear_width_shoulder, room.length)
    return found


def _over_wheels(build: Build) -> float:
    """Depth of what stands over the wheel boxes, where it is most [m]."""
    return max((each.thickness for room in build.rooms for each in room.surfaces
                if each.face.startswith("wheel_box")), default=0.0)  # fmt: skip


def bought_as_used(costs: Costs) -> Costs:
    """Prices by the amount that is built in, with its waste, not by whole packs or a number of plates.

    What one change takes would else hang on what is left in a pack that another part has opened: a thicker board may
    then seem to save money.
    """
    prices = tuple(replace(each, pack=Decimal(0), plates=0, width=0.0) for each in costs.prices)
    return replace(costs, prices=prices)


def _cost(build: Build) -> CostResult:
    """What a build costs by the amounts that are built in."""
    return cost_of(replace(build, costs=bought_as_used(build.costs)))


def _money(build: Build, cost: CostResult) -> float | None:
    """Price as the verdict on the budget counts it, by amounts; what has no price counts as nothing."""
    quantities: dict[str, Quantity] = {}
    cost_quantities(build, cost, quantities)
    found = quantities.get("budget")
    return None if found is None else found.value


def broken_by(before: Mapping[str, Verdict], after: Mapping[str, Verdict], chased: str) -> tuple[Touched, ...]:
    """Verdicts that were met and no longer are, limits that the number kept, what missed its own and is worse."""
    found = []
    for name, now in after.items():
        old = before.get(name)
        if name == chased or now.verdict == "meets":
            continue
        if old is None:
            is_broken = now.verdict == "fails"
        else:
            kept = old.margin is not None and old.margin >= 0.0
            slip = -HARDLY * (now.uncertainty or 0.0) if now.kind in _SOUNDS else 0.0
            is_broken = old.verdict == "meets" or (kept and now.margin is not None and now.margin < slip)
            is_broken = is_broken or (not kept and _is_worse(old, now))
        if is_broken:
            found.append(_touched(old, now))
    return tuple(found)


def _is_worse(old: Verdict, now: Verdict) -> bool:
    """Whether what misses its limit already fails now, or misses it by more than a trifle more."""
    if old.verdict != "fails" and now.verdict == "fails":
        return True
    return trifles_worse(old, now) > 1.0


def touched_by(before: Mapping[str, Verdict], after: Mapping[str, Verdict], chased: str) -> tuple[Touched, ...]:
    """Verdicts that a step moves to another state, or that miss their limits and get worse."""
    found = []
    for name, now in after.items():
        old = before.get(name)
        if old is None or name == chased:
            continue
        worse = 0.0
        if old.margin is not None and now.margin is not None and now.margin < 0.0:
            worse = old.margin - now.margin
        is_lost = (old.margin or 0.0) >= 0.0 > (now.margin or 0.0)
        if old.verdict != now.verdict or is_lost or worse > _LEAST_WORSE * max(abs(now.limit or 0.0), 1e-9):
            found.append(_touched(old, now))
    return tuple(found)


def _touched(old: Verdict | None, now: Verdict) -> Touched:
    missed = old is not None and old.margin is not None and old.margin < 0.0
    return Touched(now.id, now.question, "" if old is None else old.verdict, now.verdict, now.margin, now.kind, missed)


def told_edits(text: str, edits: Iterable[Edit]) -> tuple[str, ...]:
    """What edits do to a file, a line each: path, what stands there before and after."""
    told = []
    for each in edits:
        path = ".".join(map(str, each.path))
        if each.what == "add":
            place = "" if each.before is None else f" before number {each.before}"
            told.append(f"{path}{place}: + {_short(each.text)}")
        else:
            before = _stands(text, each)
            told.append(f"{path}: {before} → {_short(each.text)}" if each.what == "set" else f"{path}: − {before}")
        text = edited(text, (each,))
    return tuple(told)


def _stands(text: str, edit: Edit) -> str:
    nodes = walk(compose(text, ""), edit.path)
    if len(nodes) != len(edit.path) + 1:
        return "nothing"
    node = nodes[-1]
    if is_scalar(node):
        return str(node.value)
    return _short(" ".join(text[node.start_mark.index : node.end_mark.index].split()))


def _short(text: str) -> str:
    return text if len(text) <= _LONGEST else f"{text[: _LONGEST - 1]}…"
