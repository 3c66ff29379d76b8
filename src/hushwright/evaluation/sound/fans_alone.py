"""What fans and moving air alone make in the quiet room, and their share of each background."""

from __future__ import annotations

from dataclasses import replace

from hushwright.evaluation.results import REPORTED, Background, Bands, PathLevel, Quantity
from hushwright.evaluation.results.air import FanSound
from hushwright.evaluation.sound.background import criterion_quantity, value_alone
from hushwright.evaluation.sound.fans import FAN, FLOW, fan_arrivals
from hushwright.evaluation.sound.sound import Network, Standing
from hushwright.evaluation.sound.uncertainty import combined_uncertainty, path_levels
from hushwright.evaluation.sound.ways import spread_of, sum_levels
from hushwright.model.build import Build, Situation, Target
from hushwright.physics.acoustics.weighting import a_weighted_level


def fan_sound_in(
    standing: Standing, network: Network, backgrounds: list[Background], quantities: dict[str, Quantity]
) -> FanSound | None:
    """What fans and moving air alone make in the quiet room in one state; `None` where nothing moves.

    Where values alone are asked for, they are taken up in the quantities and nothing else is told.

    Parameters
    ----------
    standing : Standing
        Build in one state.
    network : Network
        Its ways for diffuse sound.
    backgrounds : list of Background
        Those of this state, for the shares.
    quantities : dict
        Takes up what verdicts judge.

    Returns
    -------
    FanSound or None
        Levels, ends, shares.
    """
    room = standing.build.room_for("quiet")
    if room is None:
        return None
    found, ends = fan_arrivals(standing, network, room)
    if not found.links:
        return None
    build, state = standing.build, standing.state.name
    own, strictest = build.air.fans_alone, strictest_situation(build)
    if standing.values_alone:
        quantities[f"fans-alone/{state}"] = value_alone(sum_levels(found), own)
        if strictest is not None:
            quantities[f"fans-in-takes/{state}"] = value_alone(sum_levels(found), strictest.target)
        return None
    levels, spread, paths = sum_levels(found), spread_of(found), path_levels(found)
    # Each way has its own error; the vehicle's allowance is about walls and does not touch a duct's end.
    uncertainty = combined_uncertainty(paths, spread, 0.0)
    quantities[f"fans-alone/{state}"] = _judged(levels, uncertainty, paths, spread, own)
    if strictest is not None:
        quantities[f"fans-in-takes/{state}"] = _judged(levels, uncertainty, paths, spread, strictest.target)
    shares = tuple(_shares(each) for each in backgrounds)
    notes = tuple(dict.fromkeys(note for end in ends for note in end.notes))
    return FanSound(state, room.name, levels, uncertainty, a_weighted_level(levels), ends, shares, notes, paths)


def _judged(
    levels: Bands, uncertainty: Bands, paths: tuple[PathLevel, ...], spread: Bands, target: Target | None
) -> Quantity:
    """Number that the target is about; below the lowest printed curve it is told, not doubted."""
    found = criterion_quantity(levels, uncertainty, paths, spread, 0.0, target, ())
    if target is None or found.value > target.value:
        return found
    return replace(found, validity=tuple(REPORTED + note.removeprefix(REPORTED) for note in found.validity))


def strictest_situation(build: Build) -> Situation | None:
    """Situation whose limit is lowest."""
    asked = [each for each in build.brief.situations if each.target is not None]
    return min(asked, key=_rough, default=None)


def _rough(situation: Situation) -> float:
    """Limit as roughly an A-weighted level: a noise curve lies about 7 dB under it (common practice, no source)."""
    target = situation.target
    assert target is not None
    if target.kind == "dB(A)":
        return target.value
    return target.value + 7.0 if target.kind in ("NC", "NR") else 20.0


def _shares(found: Background) -> tuple[str, float, float, float]:
    """Shares of fans, moving air and everything else in the A-weighted energy of a background."""
    fan = sum(path.share for path in found.paths if path.kind == FAN)
    flow = sum(path.share for path in found.paths if path.kind == FLOW)
    return found.situation, fan, flow, max(1.0 - fan - flow, 0.0)
