"""Heat in the check report: what faces let through, the hottest and coldest day, water in build-ups."""

from __future__ import annotations

from typing import Any

from hushwright.evaluation.results import Evaluation
from hushwright.evaluation.results.heat import FaceHeat, FaceWater, HeatDay, SilentCooler, UnitDuty
from hushwright.report.labels import heading as words
from hushwright.report.labels import label
from hushwright.report.layout import heading, shortened, table, wrapped
from hushwright.report.units_out import bare_number, restated, shown, unit_of
from hushwright.report.verdict_text import once
from hushwright.units import System

_NAME_WIDTH = 26
_MINUTE, _HOUR = 60.0, 3600.0
_ONE_A_QUARTER = 3
_LEAST_WATER = 1e-4


def heat(evaluation: Evaluation, system: System) -> list[str]:
    """Days with their rooms and units, faces, and water in build-ups."""
    found = evaluation.heat
    if not found.faces:
        return []
    lines: list[str] = []
    for day in found.days:
        lines += ["", *_day(day, system)]
    lines += _silent(found.silent, system)
    lines += ["", *_faces(found.faces, system), *_water(found.water, system)]
    return [*heading(words("heat")), *lines]


def _day(day: HeatDay, system: System) -> list[str]:
    low, high = (shown(_tenth(each), "temperature", system) for each in (min(day.outdoors), max(day.outdoors)))
    lines = wrapped(f"{label(f'{day.name}_day')}: {label('outside')} {low} to {high}", indent=2, hanging=4)
    rows = [(label("room"), label("state"), label("lowest"), label("highest"))]
    rows += [
        (shortened(each.room, _NAME_WIDTH), each.state, shown(_tenth(each.lowest), "temperature", system),
         shown(_tenth(each.highest), "temperature", system))
        for each in day.states
    ]  # fmt: skip
    lines += table(rows, indent=4, right=(2, 3)) if day.states else []
    for unit in day.units:
        if unit.heat > 0.0:
            lines += wrapped(_unit(unit, system), indent=4, hanging=6)
    for note in once(day.notes):
        lines += wrapped(restated(note, system), indent=4, hanging=6)
    return lines


def _tenth(temperature: float) -> float:
    return round(temperature, 1)


def _unit(unit: UnitDuty, system: System) -> str:
    given, taken = (shown(round(each, -4), "energy", system) for each in (unit.heat, unit.energy))
    most = shown(round(unit.busiest), "power", system)
    text = f"{unit.kind} {unit.room}: {given} a day, at most {most}, takes {taken}"
    if unit.kind == "cooler" and unit.energy > 0.0:
        text += f", {label('performance')} {(unit.heat + unit.moisture) / unit.energy:.2f}"
    if unit.condensate > 0.0:
        text += f"; {label('condensate')} {shown(round(unit.condensate, 2), 'mass', system)}"
    return text


def _silent(silent: tuple[SilentCooler, ...], system: System) -> list[str]:
    """How long takes go on with silent coolers."""
    told = [
        f"{each.room} ({each.state}) {'never too warm' if each.time is None else f'{each.time / _MINUTE:.0f} min'}"
        for each in silent
    ]
    return wrapped(f"{label('without_cooler')}: {', '.join(told)}", indent=2, hanging=4) if told else []


def _faces(faces: tuple[FaceHeat, ...], system: System) -> list[str]:
    rows = [(label("face"), label("toward"), label("area"), label("transmittance"), label("range"))]
    for each in faces:
        rows.append((shortened(each.name, _NAME_WIDTH), each.beyond, shown(each.area, "area", system),
                     _transmittance(each.transmittance, system),
                     f"{_transmittance(each.least, system)}–{_transmittance(each.most, system)}"))  # fmt: skip
    lines = table(rows, indent=4, right=(2, 3, 4))
    for note in once(tuple(note for each in faces for note in each.notes)):
        lines += wrapped(restated(note, system), indent=4, hanging=6)
    return [f"  {label('transmittance')} [{_TRANSMITTANCE[system][1]}]", *lines]


_TRANSMITTANCE: dict[System, tuple[float, str]] = {"metric": (1.0, "W/(m²·K)"), "us": (5.678263, "BTU/(h·ft²·°F)")}
"""Size and name of the unit; the international BTU."""


def _transmittance(value: float, system: System) -> str:
    return f"{value / _TRANSMITTANCE[system][0]:.2f}"


def _water(water: tuple[FaceWater, ...], system: System) -> list[str]:
    """Build-ups in which water gathers over the year."""
    wet = [each for each in water if each.peak > _LEAST_WATER]
    if not wet:
        return []
    rows = [(label("water_in_walls"), label("most"), label("left_after_year"), label("place"))]
    rows += [
        (shortened(each.name, _NAME_WIDTH), shown(round(each.peak, 3), "surface_density", system),
         shown(round(each.left, 3), "surface_density", system), shortened(each.plane, _NAME_WIDTH + 20))
        for each in wet
    ]  # fmt: skip
    return ["", *table(rows, indent=4, right=(1, 2))]


def heat_nodes(evaluation: Evaluation, system: System) -> dict[str, Any]:
    """Heat for JSON, under its own name."""
    found = evaluation.heat
    if not found.faces:
        return {}
    return {
        "heat": {
            "unit_of_temperature": unit_of("temperature", system),
            "faces": [
                {"name": each.name, "beyond": each.beyond, "transmittance_w_m2k": round(each.transmittance, 4),
                 "range_w_m2k": [round(each.least, 4), round(each.most, 4)],
                 "surface_factor": round(each.surface_factor, 4)}
                for each in found.faces
            ],
            "days": [_day_node(day, system) for day in found.days],
            "with_silent_cooler": [
                {"room": each.room, "state": each.state,
                 "minutes": None if each.time is None else round(each.time / _MINUTE, 1)}
                for each in found.silent
            ],
            "water": [
                {"name": each.name, "peak_kg_m2": round(each.peak, 5), "left_kg_m2": round(each.left, 5),
                 "plane": each.plane, "saturation_percent": [round(100.0 * month, 1) for month in each.saturation],
                 "surface_humidity_percent": round(100.0 * each.surface_humidity, 1),
                 "month": each.month}
                for each in found.water
            ],
        }
    }  # fmt: skip


def _day_node(day: HeatDay, system: System) -> dict[str, Any]:
    def quarter(rows: tuple[tuple[float, ...], ...]) -> list[tuple[float, ...]]:
        return list(rows[::_ONE_A_QUARTER])

    return {
        "day": day.name,
        "rooms": list(day.rooms),
        "phases": [{"state": name, "begin_s": begin, "end_s": end} for name, begin, end in day.phases],
        "times_s": list(day.times[::_ONE_A_QUARTER]),
        "temperature": [
            [bare_number(round(value, 2), "temperature", system) for value in row] for row in quarter(day.temperature)
        ],
        "humidity_percent": [[round(100.0 * value, 1) for value in row] for row in quarter(day.humidity)],
        "energy_wh": round(day.energy / _HOUR, 1),
        "units": [
            {"kind": unit.kind, "room": unit.room, "heat_wh": round(unit.heat / _HOUR, 1),
             "moisture_wh": round(unit.moisture / _HOUR, 1), "energy_wh": round(unit.energy / _HOUR, 1),
             "busiest_w": round(unit.busiest, 1), "full_share": round(unit.full, 3),
             "condensate_kg": round(unit.condensate, 3)}
            for unit in day.units
        ],
        "heat_wh": {cause: round(value / _HOUR, 1) for cause, value in day.flows},
    }  # fmt: skip
