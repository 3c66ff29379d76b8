"""Shore, alternator, panels and generator of the build file in place."""

from __future__ import annotations

from hushwright.document.schema.power_sources import (
    AlternatorSource,
    GeneratorSource,
    PowerSource,
    ShoreSource,
    SolarSource,
)
from hushwright.library.records import Limit, Spread
from hushwright.model.climate_in_place import ClimateInPlace
from hushwright.model.power_in_place import (
    ALWAYS,
    STANDING,
    AlternatorInPlace,
    ShoreInPlace,
    SolarInPlace,
    SourceInPlace,
)
from hushwright.model.taking import Path, Taker, dotted
from hushwright.model.wishes import StateOfUse
from hushwright.units import Kind

_MONTHS = 12
_SPREADS = {
    "efficiency": Spread(0.9, 0.85, 0.96),
    "losses": Spread(0.08, 0.04, 0.15),
    "shading": Spread(0.1, 0.0, 0.3),
    "coefficient": Spread(0.0038, 0.003, 0.0045),
    "supply": Spread(3600.0, 2000.0, 3700.0),
    "roof_taken": Spread(0.3, 0.0, 1.0),
}
"""What a value is where the file says unknown; common practice, no source."""


def source_in_place(
    taker: Taker, name: str, typed: PowerSource, states: tuple[StateOfUse, ...], climate: ClimateInPlace | None
) -> SourceInPlace:
    """One source with its states.

    Parameters
    ----------
    taker : Taker
        Takes values, notes what is assumed or wrong.
    name : str
        Its name.
    typed : PowerSource
        What the file says.
    states : tuple of StateOfUse
        States of use.
    climate : ClimateInPlace or None
        Where the van stands; the sun needs it.

    Returns
    -------
    SourceInPlace
        The source.
    """
    at: Path = ("power", "sources", name)
    known = (*(state.name for state in states), STANDING, ALWAYS)
    for index, state in enumerate(typed.in_states):
        taker.name_of(state, known, (*at, "in_states", index), "state")

    def take(field: str, kind: Kind) -> float:
        return taker.quantity((*at, field), getattr(typed, field), kind, fallback=_SPREADS.get(field),
                              label=f"{field.replace('_', ' ')} of {name}")  # fmt: skip

    if isinstance(typed, ShoreSource):
        return ShoreInPlace(name, "shore", take("shore", "current"), take("efficiency", "share"),
                            take("supply", "apparent_power"), typed.in_states or (STANDING,), dotted(at))  # fmt: skip
    if isinstance(typed, GeneratorSource):
        return ShoreInPlace(name, "generator", take("charger", "current"), take("efficiency", "share"),
                            take("generator", "apparent_power"), typed.in_states or (STANDING,),
                            dotted(at))  # fmt: skip
    if isinstance(typed, AlternatorSource):
        on_the_road = tuple(state.name for state in states if state.road)
        return AlternatorInPlace(name, take("alternator", "current"), take("efficiency", "share"),
                                 typed.in_states or on_the_road, dotted(at))  # fmt: skip
    return _solar(taker, name, typed, climate)


def _solar(taker: Taker, name: str, typed: SolarSource, climate: ClimateInPlace | None) -> SolarInPlace:
    at: Path = ("power", "sources", name)

    def take(field: str, kind: Kind) -> float:
        return taker.quantity((*at, field), getattr(typed, field), kind, fallback=_SPREADS.get(field),
                              label=f"{field.replace('_', ' ')} of {name}")  # fmt: skip

    if climate is None:
        taker.say("place-needed", at, name, "the sun depends on where the van stands",
                  "add `climate:` with latitude and longitude")  # fmt: skip
    if len(typed.sun) not in (0, _MONTHS):
        taker.say("months-missing", (*at, "sun"), str(len(typed.sun)), "a year has twelve months",
                  "give January to December, or leave it out")  # fmt: skip
    power = take("solar", "power")
    per_area = taker.library.find(Limit, "power of panels")
    clearness = taker.library.find(Limit, "sun of a mean day")
    if not typed.sun:
        taker.assume((*at, "sun"), f"a mean day brings {clearness.value.value:.0%} of the sun above the air",
                     str(clearness.source))  # fmt: skip
    area = taker.quantity((*at, "area"), typed.area, "area", fallback=Spread.point(power / per_area.value.value),
                          source=str(per_area.source), label=f"area of {name}")  # fmt: skip
    return SolarInPlace(
        name, power, take("efficiency", "share"), take("losses", "share"), take("shading", "share"),
        take("tilt", "angle"), take("towards", "angle"), take("coefficient", "share"), typed.mounted, area,
        take("roof_taken", "area"),
        tuple(taker.quantity((*at, "sun", index), each, "irradiation", label="sun of a mean day",
                             fallback=Spread(1e7, 1e6, 2e7))
              for index, each in enumerate(typed.sun)),
        clearness.value.value, typed.in_states, dotted(at),
    )  # fmt: skip
