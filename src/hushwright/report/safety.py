"""Safety, venues and papers in the check report and as JSON."""

from __future__ import annotations

from typing import Any

from hushwright.evaluation.results import SILENCE, Evaluation
from hushwright.evaluation.results.safety import AlarmInRoom, WayWalked
from hushwright.evaluation.safety.safety import equipment_missing
from hushwright.model.build import Build
from hushwright.report.labels import heading as words
from hushwright.report.labels import label
from hushwright.report.layout import heading, labelled, shortened, table, wrapped
from hushwright.report.units_out import bare_number, restated, shown
from hushwright.units import System
from hushwright.verdicts.alarms import hours, named_part

_NAME_WIDTH = 30
_NOTHING = "–"
_QUIET = 0.0


def _spoken(name: str) -> str:
    return name.replace("_", " ")


def safety(evaluation: Evaluation, system: System) -> list[str]:
    """Ways out, doors, alarms, equipment, noise of a day."""
    found = evaluation.safety
    parts = [
        _ways(found.ways, system),
        _doors(evaluation, system),
        _alarms(found.alarms),
        _equipment(evaluation, system),
        _doses(evaluation),
    ]
    lines = [line for part in parts if part for line in ("", *part)]
    return [*heading(words("safety")), *lines] if lines else []


def _ways(ways: tuple[WayWalked, ...], system: System) -> list[str]:
    """Every way once, with the states in which it fares alike."""
    alike: dict[tuple[str, tuple[str, ...], tuple[str, ...]], list[str]] = {}
    for way in ways:
        told = (*way.hindrances, *(f"nobody says how {name} opens" for name in way.not_said))
        alike.setdefault((way.room, way.through, told), []).append(way.state)
    lines: list[str] = []
    for (room, through, told), states in alike.items():
        named = f"{_spoken(room)}: {' → '.join(_spoken(name) for name in through)} ({', '.join(states)})"
        lines += wrapped(restated(f"{named}: {'; '.join(told) or 'serves'}", system), indent=4, hanging=6)
    return [f"  {label('ways_out')}", *lines] if lines else []


def _doors(evaluation: Evaluation, system: System) -> list[str]:
    given = evaluation.build.safety
    if given is None or not evaluation.safety.doors:
        return []
    rows = [(label("door"), label("lock"), label("inside_release"), label("swing"), label("lock_load"), label("holds"),
             label("keep_load"), label("holds"))]  # fmt: skip
    for each in evaluation.safety.doors:
        door = given.door(each.name)
        if door is not None:
            forces = (each.load, door.holding, each.road_load, door.keep_strength)
            told = [_NOTHING if force is None else shown(force, "force", system) for force in forces]
            rows.append((shortened(_spoken(each.name), _NAME_WIDTH), door.lock or "?", door.inside or "?",
                         door.swing or "?", told[0], told[1], told[2], told[3]))  # fmt: skip
    return table(rows, right=(4, 5, 6, 7))


def _alarms(alarms: tuple[AlarmInRoom, ...]) -> list[str]:
    if not alarms:
        return []
    rows = [(label("alarm"), label("state"), label("from"), label("level"), label("noise"), label("margin"),
             label("played"), label("margin"), label("lights"))]  # fmt: skip
    rows += [
        (_spoken(each.room), each.state, _spoken(each.sounder) or _NOTHING, _level(each.level), _level(each.noise),
         _margin(each.margin if each.sounder else None), _level(each.played), _margin(each.margin_played),
         f"{each.seen}/{each.signals}")
        for each in alarms
    ]  # fmt: skip
    return [*table(rows, right=(3, 4, 5, 6, 7, 8)), *_under_headphones(alarms)]


def equipment_told(evaluation: Evaluation) -> tuple[str, str]:
    """Equipment for fire, way out and first aid with the room where each piece is, and what is asked for and missing.

    Both empty where the file neither names any nor says what is asked for.
    """
    given = evaluation.build.safety
    if given is None or not (given.equipment or given.asked_said):
        return "", ""
    told = []
    for each in given.equipment:
        size, room = (f", {each.size}" if each.size else ""), room_of(evaluation.build, each.at[0])
        told.append(f"{each.kind}{size}{f' ({_spoken(room)})' if room else ''}")
    return "; ".join(told), ", ".join(equipment_missing(given))


def room_of(build: Build, station: float) -> str:
    """Room in which a station lies, or nothing."""
    return next((room.name for room in build.rooms if room.front <= station <= room.rear), "")


def _equipment(evaluation: Evaluation, system: System) -> list[str]:
    told, missing = equipment_told(evaluation)
    parts = [told, f"missing: {missing}" if missing else ""]
    text = restated("; ".join(each for each in parts if each), system)
    return labelled(label("equipment"), text, indent=2, column=14) if text else []


def _under_headphones(alarms: tuple[AlarmInRoom, ...]) -> list[str]:
    """Alarms at the ears of people who listen on headphones, alike states together."""
    alike: dict[str, list[str]] = {}
    for each in alarms:
        if each.worn is not None and each.margin_worn is not None:
            told = f"{_spoken(each.room)}, headphones on at {each.worn:.0f} dB(A): {_margin(each.margin_worn)}"
            alike.setdefault(told, []).append(each.state)
    return [line for told, states in alike.items()
            for line in wrapped(f"{told} ({', '.join(states)})", indent=4, hanging=6)]  # fmt: skip


def _level(value: float | None) -> str:
    return _NOTHING if value is None or value < _QUIET else f"{value:.0f} dB(A)"


def _margin(value: float | None) -> str:
    return _NOTHING if value is None or value <= SILENCE else f"{round(value):+d} dB"


def _doses(evaluation: Evaluation) -> list[str]:
    """Noise of a day with its parts, and the share of each."""
    rows: list[tuple[str, ...]] = []
    for each in evaluation.safety.doses:
        rows.append((_spoken(each.who), f"{each.exposure:.1f} dB(A)" if each.parts else _NOTHING, "", "", ""))
        rows += [
            (f"  {named_part(part)}", "", f"{part.level:.0f} dB(A)", hours(part.duration), f"{100 * part.share:.0f} %")
            for part in each.parts
        ]
    head = (label("exposure"), "LEX,8h", label("level"), label("a_day"), label("share"))
    return table([head, *rows], right=(1, 2, 3, 4)) if rows else []


def venues(evaluation: Evaluation, system: System) -> list[str]:
    """Venue sheet: what each place offers."""
    lines: list[str] = []
    for each in evaluation.build.venues:
        parts = [("supply", each.supply)]
        for name, value, kind in (("cable", each.cable, "length"), ("cut_off", each.residual_current, "current"),
                                  ("generator", each.generator_distance, "length"), ("slope", each.slope, "angle"),
                                  ("gusts", each.wind, "speed")):  # fmt: skip
            parts += [(name, shown(value, kind, system))] if value is not None else []
        parts += [("awning", "out" if each.awning_out else "in"), ("cables", each.cable_way), ("light", each.light)]
        told = ", ".join(f"{label(name)} {value}" for name, value in parts)
        lines += wrapped(f"{_spoken(each.name)}: {told}", indent=2, hanging=4)
    return [*heading(words("venues")), *lines] if lines else []


def papers(evaluation: Evaluation, system: System) -> list[str]:
    """Lists of papers; what is not listed says whom to ask."""
    listed = evaluation.build.papers
    if not listed:
        return []
    rows = [(label("jurisdiction"), label("paper"), label("status"), label("owner"), label("date"), label("said_by"))]
    rows += [
        (each.jurisdiction, shortened(each.item, _NAME_WIDTH), each.status if each.listed else "ask the authority",
         each.owner or _NOTHING, each.date or _NOTHING, shortened(each.says_who, _NAME_WIDTH) or _NOTHING)
        for each in listed
    ]  # fmt: skip
    return [*heading(words("papers")), *table(rows)]


def safety_nodes(evaluation: Evaluation, system: System) -> dict[str, Any]:
    """Safety, venues and papers for JSON, each under its own name."""
    nodes: dict[str, Any] = {}
    if evaluation.build.safety is not None:
        nodes["safety"] = _safety_node(evaluation, system)
    if evaluation.build.venues:
        nodes["venues"] = [
            {"name": each.name, "supply": each.supply, "cable": bare_number(each.cable, "length", system),
             "residual_current_a": each.residual_current, "slope_degrees": bare_number(each.slope, "angle", system),
             "generator_distance": bare_number(each.generator_distance, "length", system),
             "wind": bare_number(each.wind, "speed", system), "awning_out": each.awning_out,
             "cable_way": each.cable_way, "light": each.light}
            for each in evaluation.build.venues
        ]  # fmt: skip
    if evaluation.build.papers:
        nodes["papers"] = [
            {"jurisdiction": each.jurisdiction, "item": each.item, "listed": each.listed,
             "status": each.status if each.listed else "ask the authority", "owner": each.owner, "date": each.date,
             "says_who": each.says_who, "known": each.known}
            for each in evaluation.build.papers
        ]  # fmt: skip
    return nodes


def _safety_node(evaluation: Evaluation, system: System) -> dict[str, Any]:
    found = evaluation.safety
    return {
        "doors": [
            {"name": each.name, "locked_without_power": each.locked_without_power, "obstacles": list(each.obstacles),
             "load_on_lock": bare_number(each.load, "force", system),
             "load_on_keep": bare_number(each.road_load, "force", system), "passes_share": round(each.passes, 3)}
            for each in found.doors
        ],
        "ways_out": [
            {"room": each.room, "state": each.state, "through": list(each.through), "serves": each.serves,
             "hindrances": [restated(text, system) for text in each.hindrances], "not_said": list(each.not_said)}
            for each in found.ways
        ],
        "alarms": [
            {"room": each.room, "state": each.state, "from": each.sounder, "level_db_a": _tenth(each.level),
             "noise_db_a": _tenth(each.noise), "margin_db": _tenth(each.margin), "played_db_a": _tenth(each.played),
             "margin_while_played_db": _tenth(each.margin_played), "headphones_db_a": _tenth(each.worn),
             "margin_with_headphones_db": _tenth(each.margin_worn), "lights": each.signals,
             "lights_that_serve": each.seen}
            for each in found.alarms
        ],
        "exposures": [
            {"who": each.who, "lex_8h_db_a": _tenth(each.exposure),
             "parts": [
                 {"of": part.of, "point": part.point, "level_db_a": _tenth(part.level),
                  "duration_h": round(part.duration / 3600.0, 3), "share": round(part.share, 4)}
                 for part in each.parts
             ]}
            for each in found.doses
        ],
        "exhausts": [
            {"name": each.name, "nearest_intake": each.intake, "distance": bare_number(each.distance, "length", system)}
            for each in found.exhausts
        ],
        **_equipment_nodes(evaluation),
    }  # fmt: skip


def _equipment_nodes(evaluation: Evaluation) -> dict[str, Any]:
    given = evaluation.build.safety
    if given is None or not (given.equipment or given.asked_said):
        return {}
    return {
        "equipment": [
            {"kind": each.kind, "fitting": each.fitting, "size": each.size,
             "room": room_of(evaluation.build, each.at[0])}
            for each in given.equipment
        ],
        "equipment_missing": list(equipment_missing(given)),
    }  # fmt: skip


def _tenth(value: float | None) -> float | None:
    """Level to a tenth; silence and nothing are null."""
    return None if value is None or not value > SILENCE / 2.0 else round(value, 1)
