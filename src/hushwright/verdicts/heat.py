"""Can people bear it: hottest and coldest day, silent coolers, dew, mould, water in build-ups."""

from __future__ import annotations

from collections.abc import Sequence

from hushwright.evaluation.results import Evaluation
from hushwright.evaluation.results.heat import FaceWater, HeatDay, SilentCooler
from hushwright.library.records import Limit
from hushwright.model.climate_in_place import ClimateInPlace
from hushwright.verdicts.check import Case, Check
from hushwright.verdicts.hints import SHORT

HEAT = (
    "A parked van in the sun becomes deadly hot within minutes for people and animals who cannot leave it; nobody stays"
    " in without a way out and someone who watches. Burners need air of their own and an exhaust far from any intake;"
    " local codes and licensed practice decide."
)
_WATT_HOURS = 3600.0
_CAUSES_TOLD = 4
_SHOWN_WATER = 0.001
"""kg/m², below which a face is not named."""


def _spoken(name: str) -> str:
    return name.replace("_", " ").replace(".", ", ")


def _basis(evaluation: Evaluation, name: str) -> str:
    """Limit as asked for in the brief, or where the usual one comes from."""
    path = f"brief.heat.{name}"
    left_out = next((each for each in evaluation.assumptions if each.path == path), None)
    return "limit in the brief" if left_out is None else f"usual limit: {left_out.source}"


def _climate(evaluation: Evaluation) -> ClimateInPlace | None:
    return evaluation.build.climate


def _warmest(evaluation: Evaluation) -> tuple[Case, ...]:
    return _on(evaluation, "hottest", "warmest", "Does the {room} stay cool enough on the hottest day?")


def _coldest(evaluation: Evaluation) -> tuple[Case, ...]:
    return _on(evaluation, "coldest", "coldest", "Does the {room} stay warm enough on the coldest day?")


def _on(evaluation: Evaluation, name: str, key: str, question: str) -> tuple[Case, ...]:
    day, climate = evaluation.heat.day(name), _climate(evaluation)
    if day is None or climate is None:
        return ()
    limit: float = getattr(climate.limits, key)
    return tuple(
        Case(f"{each.room}/{each.state}", each.state, evaluation.quantities[f"{key}/{each.room}/{each.state}"], limit,
             _basis(evaluation, key), f"climate.{name}", hint=_where_from(day), caution=HEAT,
             question=question.format(room=_spoken(each.room)))
        for each in day.states
    )  # fmt: skip


def _where_from(day: HeatDay) -> str:
    """What brings most heat in, or takes most of it, over the session; and whether the units had more to give."""
    wanted = 1.0 if day.name == "hottest" else -1.0
    causes = sorted(((cause, heat) for cause, heat in day.flows if wanted * heat > 0.0), key=lambda each: -abs(each[1]))
    told = ", ".join(f"{_spoken(cause)} {abs(heat) / _WATT_HOURS:.0f} Wh" for cause, heat in causes[:_CAUSES_TOLD])
    kind = "cooler" if day.name == "hottest" else "heater"
    first = ("cool" if day.name == "hottest" else "heat") + f" it by {SHORT} more, or take that off at"
    parts = [f"{first} what most heat {'comes from' if wanted > 0.0 else 'goes to'}: {told}"] if told else []
    for unit in day.units:
        if unit.kind == kind and unit.full > 0.0:
            parts.append(f"the {kind} of the {_spoken(unit.room)} gives all it has for {100.0 * unit.full:.0f} % of the"
                         " session")  # fmt: skip
    return "; ".join(parts)


def _without_cooler(evaluation: Evaluation) -> tuple[Case, ...]:
    climate = _climate(evaluation)
    if climate is None:
        return ()
    left_out = any(each.path == "brief.heat.without_cooler" for each in evaluation.assumptions)
    asked = not left_out or any(each.silent_in_takes for each in climate.coolers)
    basis = _basis(evaluation, "without_cooler") if asked else "the cooler runs during takes"
    place = climate.coolers[0].place if climate.coolers else "climate"
    return tuple(
        Case(f"{each.room}/{each.state}", each.state,
             evaluation.quantities[f"without-cooler/{each.room}/{each.state}"],
             climate.limits.without_cooler if asked else None, basis, place,
             hint=_silent(each, climate), caution=HEAT,
             question=f"How long can takes go on in the {_spoken(each.room)} with the cooler silent?")
        for each in evaluation.heat.silent
    )  # fmt: skip


def _silent(each: SilentCooler, climate: ClimateInPlace) -> str:
    begins = f"{int(each.begins // 3600.0)}:{int(each.begins % 3600.0 // 60.0):02d}"
    return (
        f"start colder, cool longer before the take or take heavier linings: {SHORT} more are wanted; the take"
        f" begins at"
        f" {begins} by the sun with {each.start:.1f} °C; {climate.limits.warmest:.1f} °C is too warm"
    )


def _dew(evaluation: Evaluation) -> tuple[Case, ...]:
    day = evaluation.heat.day("coldest")
    if day is None:
        return ()
    return tuple(
        Case(each.room, "", evaluation.quantities[f"dew/{each.room}"], 1.0, "water settles where air is saturated",
             "climate.coldest", caution=HEAT,
             hint="let in more air, or cover bare ribs with wool"
                  f"; dampest at {_spoken(each.face)}, {each.temperature:.1f} °C",
             question=f"Does the {_spoken(each.room)} stay free of dew on the coldest day?")
        for each in day.dew
    )  # fmt: skip


def _water_rooms(evaluation: Evaluation) -> dict[str, list[FaceWater]]:
    found: dict[str, list[FaceWater]] = {}
    for each in evaluation.heat.water:
        found.setdefault(each.room, []).append(each)
    return found


def _mould(evaluation: Evaluation) -> tuple[Case, ...]:
    climate = _climate(evaluation)
    if climate is None:
        return ()
    cases = []
    for room, faces in _water_rooms(evaluation).items():
        worst = max(faces, key=lambda each: each.surface_humidity)
        cases.append(Case(room, "", evaluation.quantities[f"mould/{room}"], climate.limits.surface_humidity,
                          _basis(evaluation, "surface_humidity"), worst.place, caution=HEAT,
                          hint="let in more air in use, or cover its ribs with wool"
                          f"; dampest at {_spoken(worst.name)} in {worst.month}",
                          question=f"Do the faces of the {_spoken(room)} stay free of mould?"))  # fmt: skip
    return tuple(cases)


def _wall_water(evaluation: Evaluation) -> tuple[Case, ...]:
    climate = _climate(evaluation)
    if climate is None:
        return ()
    return tuple(
        _water_case(evaluation, room, "wall-water", max(faces, key=lambda each: each.peak),
                    climate.limits.water_in_walls, _basis(evaluation, "water_in_walls"),
                    _wettest([(each.peak, each) for each in faces]),
                    f"Do the build-ups of the {_spoken(room)} stay dry enough inside?")
        for room, faces in _water_rooms(evaluation).items()
    )  # fmt: skip


def _wall_drying(evaluation: Evaluation) -> tuple[Case, ...]:
    climate = _climate(evaluation)
    if climate is None:
        return ()
    source = evaluation.build.library.find(Limit, "water left after a year").source
    return tuple(
        _water_case(evaluation, room, "wall-drying", max(faces, key=lambda each: each.left), climate.limits.water_left,
                    f"usual limit: {source}", _wettest([(each.left, each) for each in faces]),
                    f"Do the build-ups of the {_spoken(room)} dry within the year?")
        for room, faces in _water_rooms(evaluation).items()
    )  # fmt: skip


def _water_case(
    evaluation: Evaluation, room: str, key: str, worst: FaceWater, limit: float, basis: str, hint: str, question: str
) -> Case:
    return Case(room, "", evaluation.quantities[f"{key}/{room}"], limit, basis, worst.place, hint=hint, caution=HEAT,
                question=question)  # fmt: skip


def _wettest(faces: Sequence[tuple[float, FaceWater]]) -> str:
    """Faces with most water and where in them it is."""
    wet = sorted(((water, face) for water, face in faces if water > _SHOWN_WATER), key=lambda pair: -pair[0])
    told = "; ".join(f"{_spoken(face.name)} {face.plane}" for _, face in wet[:2])
    return f"put what holds vapour back on the warm side; most water at {told}" if told else "let in more air"


_NO_DAY = "the file names no such day in `climate`"
_NO_YEAR = "the file names no year in `climate`"
CHECKS = (
    Check("warmest", "Heat", "Do the rooms stay cool enough on the hottest day?", "at_most", _warmest, _NO_DAY),
    Check("coldest", "Heat", "Do the rooms stay warm enough on the coldest day?", "at_least", _coldest, _NO_DAY),
    Check("without-cooler", "Heat", "How long can takes go on with the cooler silent?", "at_least", _without_cooler,
          "no cooler is named, or no takes are recorded on the hottest day"),
    Check("dew", "Heat", "Do the rooms stay free of dew on the coldest day?", "at_most", _dew, _NO_DAY),
    Check("mould", "Heat", "Do the faces stay free of mould?", "at_most", _mould, _NO_YEAR),
    Check("wall-water", "Heat", "Do the build-ups stay dry enough inside?", "at_most", _wall_water, _NO_YEAR),
    Check("wall-drying", "Heat", "Do the build-ups dry within the year?", "at_most", _wall_drying, _NO_YEAR),
)  # fmt: skip
