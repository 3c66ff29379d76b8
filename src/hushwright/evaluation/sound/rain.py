"""Rain on the roof: what it radiates from the skin, brought to the level outside that would do the same."""

from __future__ import annotations

from dataclasses import replace
from functools import lru_cache

import numpy as np

from hushwright.evaluation.guard import at
from hushwright.evaluation.results import REPORTED, Background, Bands, Quantity
from hushwright.evaluation.sound.background import background_from, criterion_value
from hushwright.evaluation.sound.faces import Setting, outer_partition, predict, surface_layers
from hushwright.evaluation.sound.fans import fan_arrivals, joined
from hushwright.evaluation.sound.gear import gear_arrivals
from hushwright.evaluation.sound.links import bands
from hushwright.evaluation.sound.passages import OUTDOORS
from hushwright.evaluation.sound.sound import Network, Standing, received
from hushwright.evaluation.sound.ways import Arrivals, Side
from hushwright.model.build import Build, Room, Surface, Target
from hushwright.physics.acoustics.bands import FREQUENCIES, THIRD_OCTAVE_BANDS
from hushwright.physics.acoustics.layers import DampedPlate, Plate
from hushwright.physics.acoustics.plates import free_wave
from hushwright.physics.acoustics.rain import RAINS, RainClass, rain_sound_power
from hushwright.physics.acoustics.weighting import A_WEIGHTING

_UNCERTAINTY = 5.0
"""dB, power injection scaled from a pane to beaded, curved sheet; common practice, no source."""

_LEAST_LOSS = 0.002
"""Loss factor [-] of bare sheet fixed to ribs, at least; common practice, no source."""

_LEAST_SPACING = 0.1
"""m, bows closer than this are counted as this far apart; common practice, no source."""

_COUNTS = 0.1
"""Share of the A-weighted energy from which on bands without a published value make the level unproven: it could move
by half a decibel and more. Common practice, no source."""

_ASSUMED_MAY_BE = 10.0
"""dB by which a band without a published value may be louder or softer than assumed; common practice, no source."""

_DIFFUSE_TO_INCIDENT = 6.0
"""dB between level and 10 lg of the incident power per area, as in `ways`."""

_PER_HOUR = 3.6e6
"""mm/h in a m/s."""

_CLASSES: tuple[RainClass, ...] = ("moderate", "intense", "heavy", "cloudburst")


def rain_background(standing: Standing, network: Network, room: Room) -> tuple[Background, Quantity] | None:
    """Level in a room while it rains: power from the roof's skin, through the ceilings.

    Parameters
    ----------
    standing : Standing
        Build in one state.
    network : Network
        Its ways for diffuse sound.
    room : Room
        Where it is heard.

    Returns
    -------
    tuple of Background and Quantity, or None
        `None` where the brief names no rain or no roof's skin lies over a room.
    """
    build, state, setting = standing.build, standing.state, standing.setting
    if build.brief.rain is None:
        return None
    rate, target, _ = build.brief.rain
    levels: dict[Side, Bands] = {}
    notes: list[str] = []
    assumed: tuple[float, ...] = ()
    for each in build.rooms:
        surface = each.surface("ceiling")
        if surface is not None and surface.layers and surface.layers[0].kind == "skin":
            level, assumed, validity = _rain_level(surface, build.vehicle.bows.spacing, rate, setting)
            levels[(OUTDOORS, f"{each.name} roof")] = level
            notes += validity
    found = _arrivals(network, build, room, levels)
    if found is None or not found.links:
        return None
    found = joined(found, fan_arrivals(standing, network, room)[0])
    gear = gear_arrivals(standing, network, room)
    found = joined(found, gear) if gear is not None else found
    validity = tuple(dict.fromkeys((_RAIN_ALONE, *notes)))
    roof = next(iter(levels.values()))
    result, quantity = background_from(build, f"rain/{state.name}", "rain", state, room, roof, assumed, found, target,
                                       validity, _UNCERTAINTY, values_alone=standing.values_alone)  # fmt: skip
    if standing.values_alone:
        return result, quantity
    told = _assumed_notes(result.levels, assumed, target, quantity.standard_uncertainty)
    return replace(result, validity=(*result.validity, *told)), replace(quantity, validity=(*quantity.validity, *told))


_RAIN_ALONE = f"{REPORTED}rain, fans and gear alone; the sound of no situation outdoors is added"


@lru_cache(maxsize=256)
def _rain_level(
    surface: Surface, spacing: float, rate: float, setting: Setting
) -> tuple[Bands, tuple[float, ...], tuple[str, ...]]:
    """Outdoor level that would drive the roof's skin to radiate what rain makes it radiate."""
    with at(surface.place):
        panel = surface_layers(surface, setting)[0]
        if not isinstance(panel, Plate | DampedPlate):
            return bands(-np.inf), (), (f"rain on {surface.name}: the skin is joined to what lies behind it",)
        wave = free_wave(panel, FREQUENCIES)
        rain, scale, beyond = _class_of(rate)
        bows = surface.width / max(spacing, _LEAST_SPACING)
        perimeter = 2.0 * (surface.width + surface.height) + 2.0 * bows * surface.height
        sound = rain_sound_power(
            wave.surface_density, float(np.mean(wave.bending_stiffness)), np.maximum(wave.loss_factor, _LEAST_LOSS),
            surface.area, perimeter=perimeter, rain=rain, air=setting.air,
        )  # fmt: skip
        skin = predict(outer_partition(surface, setting), setting)
    power_to_level = _DIFFUSE_TO_INCIDENT - 10.0 * np.log10(surface.area)
    level = np.asarray(sound.levels) + scale + power_to_level + np.asarray(skin.reduction)
    # General caveats of the method lie inside its 5 dB; they inform and decide nothing.
    return bands(level), sound.assumed, (*(REPORTED + note for note in sound.validity), *beyond)


def _class_of(rate: float) -> tuple[RainClass, float, tuple[str, ...]]:
    """Class of rain, by how much its power differs at the rate asked for [dB], and what leaves the classes."""
    in_hour = rate * _PER_HOUR
    name = next((each for each in _CLASSES if RAINS[each].rate_millimetre_per_hour >= in_hour - 1e-9), _CLASSES[-1])
    heaviest = RAINS[_CLASSES[-1]].rate_millimetre_per_hour
    beyond = (f"rain of {in_hour:.0f} mm/h is beyond the heaviest class of {heaviest:.0f} mm/h",)
    ratio = max(in_hour, 0.01) / RAINS[name].rate_millimetre_per_hour
    return name, 10.0 * float(np.log10(ratio)), beyond if in_hour > heaviest * (1.0 + 1e-9) else ()


def _assumed_notes(
    levels: Bands, assumed: tuple[float, ...], target: Target | None, uncertainty: float
) -> tuple[str, ...]:
    """Bands without a published value that make up much of the level or could decide; else they only inform."""
    energy = 10.0 ** ((np.asarray(levels) + A_WEIGHTING) / 10.0)
    at_ = [THIRD_OCTAVE_BANDS.index(band) for band in THIRD_OCTAVE_BANDS if band in assumed]
    share = float(energy[at_].sum() / energy.sum())
    decides = target is not None and _decides(levels, at_, target, uncertainty)
    if not at_ or (share < _COUNTS and not decides):
        return ()
    loudest = THIRD_OCTAVE_BANDS[max(at_, key=lambda index: float(energy[index]))]
    told = f"{100 * share:.0f} % of the A-weighted energy"
    note = f"{told} lies in bands without a published value, most at {loudest:g} Hz"
    return (note if decides else REPORTED + note,)


def _decides(levels: Bands, at_: list[int], target: Target, uncertainty: float) -> bool:
    """Whether some bands, so much louder or softer than assumed, would turn what is proven."""
    limit = 0.0 if target.kind == "hearing test" else target.value

    def side(shift: float) -> int:
        moved = np.asarray(levels, dtype=np.float64).copy()
        moved[at_] += shift
        margin = limit - criterion_value(bands(moved), target)
        return int(margin >= 2.0 * uncertainty) - int(margin < -2.0 * uncertainty)

    return side(0.0) != 0 and any(side(shift) != side(0.0) for shift in (-_ASSUMED_MAY_BE, _ASSUMED_MAY_BE))


def _arrivals(network: Network, build: Build, room: Room, roofs: dict[Side, Bands]) -> Arrivals | None:
    """Only the ceilings sound; the other rooms pass on what falls on their own roof."""
    own = {
        other.name: {(OUTDOORS, "ceiling"): level}
        for other in build.rooms
        if (level := roofs.get((OUTDOORS, f"{other.name} roof"))) is not None
    }
    return received(network, build, room, {}, own=own) if own else None
