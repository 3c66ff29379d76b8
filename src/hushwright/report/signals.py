"""Signals in the check report and as a list of cables: lines, headphones, glands, gear."""

from __future__ import annotations

import math
from typing import Any

from hushwright.evaluation.results import SILENCE, Evaluation
from hushwright.evaluation.results.signals import GearInState, LineResult, SignalResults
from hushwright.report.csv_out import Cell, csv_text
from hushwright.report.labels import heading as words
from hushwright.report.labels import label
from hushwright.report.layout import counted, heading, shortened, table, wrapped
from hushwright.report.units_out import bare_number, shown, unit_of
from hushwright.units import System

_NAME_WIDTH = 22
_NOTHING = "–"
_FAR_ABOVE_HEARING = 200_000.0  # Hz, from which on nobody asks how far
_AT_FULL_VOLTAGE = (
    "Levels at the ear at the highest voltage of the amplifier; alone is one headphone with no other plugged in, most"
    " is what its limiter leaves of that."
)
_SHOWN_LEVEL = -20.0  # dB(A), below which gear is not told


def _spoken(name: str) -> str:
    return name.replace("_", " ")


def signals(evaluation: Evaluation, system: System) -> list[str]:
    """Cables, headphones, gear."""
    found = evaluation.signals
    parts = [_lines(found, system), _headphones(found, system), _glands(found), *(_gear(each) for each in found.gear)]
    lines = [line for part in parts if part for line in ("", *part)]
    return [*heading(words("signals")), *lines] if lines else []


def cable_list(evaluation: Evaluation, system: System) -> str:
    """List of all cables, with what they need at a glance."""
    found = evaluation.signals
    if not found.lines:
        return "The file names no lines in `signals`."
    rows = [(label("line"), label("kind"), label("from"), label("to"), label("number"), label("length"),
             label("total"), label("connectors"))]  # fmt: skip
    longest = max(each.total_length for each in found.lines)
    rows += [
        (shortened(_spoken(each.name), _NAME_WIDTH), each.kind, _spoken(each.comes_from), _spoken(each.goes_to),
         str(each.number), shown(each.length, "length", system, like=longest),
         shown(each.total_length, "length", system, like=longest),
         ", ".join(each.connectors) or _NOTHING)
        for each in found.lines
    ]  # fmt: skip
    total = shown(sum(each.total_length for each in found.lines), "length", system)
    cables = sum(each.number for each in found.lines)
    lines = [*table(rows, right=(4, 5, 6)), "", f"  {label('total')}: {counted(cables, 'cable')}, {total}"]
    for each in found.lines:
        passed = ", ".join(_spoken(one) for one in each.passes)
        lines += wrapped(f"{_spoken(each.name)}: {label('passes')} {passed}", indent=2, hanging=4) if passed else []
    return "\n".join([*lines, *(line for point in [_headphones(found, system)] if point for line in ("", *point))])


def cable_csv(evaluation: Evaluation, system: System) -> str:
    """Cable list for spreadsheets."""
    unit = unit_of("length", system)
    head: tuple[Cell, ...] = (
        label("line"), label("kind"), label("from"), label("to"), label("number"), f"{label('length')} [{unit}]",
        f"{label('total')} [{unit}]", f"{label('connector')} {label('from')}", f"{label('connector')} {label('to')}",
        label("passes"), f"{label('resistance')} [Ω]", f"{label('treble')} [Hz]", f"{label('hum')} [dB]",
    )  # fmt: skip
    rows: list[tuple[Cell, ...]] = [head]
    for each in evaluation.signals.lines:
        first, second = each.connectors if each.connectors else ("", "")
        rows.append((
            each.name, each.kind, each.comes_from, each.goes_to, each.number,
            bare_number(each.length, "length", system), bare_number(each.total_length, "length", system), first, second,
            "; ".join(each.passes), round(each.resistance, 3), _whole(each.roll_off),
            None if each.hum is None else round(each.hum, 1),
        ))  # fmt: skip
    return csv_text(rows)


def _whole(frequency: float | None) -> float | None:
    return None if frequency is None or not math.isfinite(frequency) else float(round(frequency))


def _lines(found: SignalResults, system: System) -> list[str]:
    """Lines with what they do to the signal."""
    if not found.lines:
        return []
    rows = [(label("line"), label("kind"), label("from"), label("to"), label("number"), label("length"),
             label("treble"), label("hum"))]  # fmt: skip
    longest = max(each.length for each in found.lines)
    rows += [
        (shortened(_spoken(each.name), _NAME_WIDTH), each.kind, _spoken(each.comes_from), _spoken(each.goes_to),
         str(each.number), shown(each.length, "length", system, like=longest), _kilohertz(each.roll_off),
         _NOTHING if each.hum is None else f"{-each.hum:.0f} dB")
        for each in found.lines
    ]  # fmt: skip
    return table(rows, right=(4, 5, 6, 7))


def _kilohertz(frequency: float | None) -> str:
    if frequency is None or not math.isfinite(frequency):
        return _NOTHING
    if frequency > _FAR_ABOVE_HEARING:
        return f"> {_FAR_ABOVE_HEARING / 1000.0:.0f} kHz"
    return f"{float(f'{frequency / 1000.0:.2g}'):g} kHz"


def _headphones(found: SignalResults, system: System) -> list[str]:
    if not found.points:
        return []
    rows = [(label("headphones"), label("room"), label("number"), label("all_plugged"), label("alone"), label("most"))]
    rows += [
        (shortened(_spoken(each.name), _NAME_WIDTH), _spoken(each.room), str(each.number),
         shown(round(each.in_use), "level_a", system), shown(round(each.alone), "level_a", system),
         shown(round(each.most), "level_a", system))
        for each in found.points
    ]  # fmt: skip
    lines = [*table(rows, right=(2, 3, 4, 5)), *wrapped(_AT_FULL_VOLTAGE, indent=2, hanging=2)]
    for amplifier in found.amplifiers:
        load = shown(round(amplifier.load, 1), "resistance", system)
        lines += wrapped(f"{_spoken(amplifier.name)}: {label('load')} {load}, {1000.0 * amplifier.power:.0f} mW",
                         indent=2, hanging=4)  # fmt: skip
    return lines


def _glands(found: SignalResults) -> list[str]:
    if not found.glands:
        return []
    rows = [(label("gland"), label("cables"), label("filled"), label("permitted"))]
    rows += [
        (_spoken(each.name), str(each.cables), f"{100 * each.fill:.0f} %", f"{100 * each.permitted:.0f} %")
        for each in found.glands
    ]
    return table(rows, right=(1, 2, 3))


def _gear(found: GearInState) -> list[str]:
    told = [f"{_spoken(each.name)} {_level(each.level)}" for each in found.sources]
    return wrapped(f"{label('gear_in_quiet_room')} ({found.state}): {', '.join(told)}", indent=2, hanging=4)


def _level(level: float | None) -> str:
    if level is None:
        return label("not_known")
    return label("not_heard") if level < _SHOWN_LEVEL else f"{level:.0f} dB(A)"


def signal_nodes(evaluation: Evaluation, system: System) -> dict[str, Any]:
    """Signals for JSON, under their own name."""
    found = evaluation.signals
    if not (found.lines or found.points or found.gear):
        return {}
    return {
        "signals": {
            "unit_of_length": unit_of("length", system),
            "lines": [_line_node(each, system) for each in found.lines],
            "amplifiers": [
                {"name": each.name, "headphones": each.number, "load_ohm": round(each.load, 3),
                 "power_mw": round(1000.0 * each.power, 2)}
                for each in found.amplifiers
            ],
            "headphones": [
                {"name": each.name, "room": each.room, "number": each.number, "all_plugged_dba": round(each.in_use, 2),
                 "alone_dba": round(each.alone, 2), "most_dba": round(each.most, 2)}
                for each in found.points
            ],
            "glands": [
                {"name": each.name, "cables": each.cables, "filled_percent": round(100.0 * each.fill, 2),
                 "permitted_percent": round(100.0 * each.permitted, 1), "lines": list(each.lines)}
                for each in found.glands
            ],
            "gear": [
                {"state": each.state, "steady_dba": _number(each.steady), "click_dba": _number(each.click),
                 "sources": [
                     {"name": one.name, "what": one.what, "room": one.room, "steady": one.steady,
                      "level_dba": _number(one.level)}
                     for one in each.sources
                 ]}
                for each in found.gear
            ],
        }
    }  # fmt: skip


def _number(level: float | None) -> float | None:
    """Level, nothing where it is not known or nothing sounds."""
    return None if level is None or level <= SILENCE / 2.0 else round(level, 2)


def _line_node(line: LineResult, system: System) -> dict[str, Any]:
    return {
        "name": line.name, "kind": line.kind, "from": line.comes_from, "to": line.goes_to, "number": line.number,
        "connectors": list(line.connectors), "length": bare_number(line.length, "length", system),
        "passes": list(line.passes), "fixed_to": list(line.fixed_to), "resistance_ohm": round(line.resistance, 4),
        "treble_hz": _whole(line.roll_off),
        "hum_under_signal_db": None if line.hum is None else round(line.hum, 2), "joins_earths": line.joins_earths,
        "bridges": line.bridges, "walls_without_gland": list(line.unpassed), "place": line.place,
    }  # fmt: skip
