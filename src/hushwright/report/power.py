"""Power in the check report and for JSON: months, a day's energy, all that runs at once."""

from __future__ import annotations

from typing import Any

from hushwright.evaluation.results import Evaluation
from hushwright.evaluation.results.power import EnergyShare, PowerBalance, PowerCase, PowerPeak, PowerResults
from hushwright.report.labels import heading as words
from hushwright.report.labels import label
from hushwright.report.layout import heading, table, wrapped
from hushwright.report.units_out import bare_number, shown, unit_of
from hushwright.report.verdict_text import percent
from hushwright.units import System

_WATT_HOURS = 3600.0
_LEAST = 0.5
"""Wh a day, below which a line of the balance is left out."""

_ONE_A_QUARTER = 3


def _spoken(name: str) -> str:
    return name.replace("_", " ")


def power(evaluation: Evaluation, system: System) -> list[str]:
    """Months with the bank, energy of a day, peaks."""
    found = evaluation.power
    if found.balance is None:
        return []
    lines = [*_cases(found), "", *_balance(found.balance), "", *_peaks(found, system)]
    return [*heading(words("power")), *lines]


def _cases(found: PowerResults) -> list[str]:
    keys = ("month", "off_grid", "by_the_clock", "lowest_charge", "unmet", "sun", "too_cold")
    rows = [tuple(map(label, keys))]
    rows += [
        (each.name if each.used else f"({each.name})", _lasts(each.off_grid), _lasts(each.clock),
         percent(each.lowest_charge),
         _watt_hours(each.unmet), _watt_hours(each.solar), percent(each.locked))
        for each in found.cases
    ]  # fmt: skip
    return table(rows, right=(1, 2, 3, 4, 5, 6))


def _lasts(time: float | None) -> str:
    return label("holds") if time is None else f"{time / 3600.0:.1f} h"


def _watt_hours(energy: float) -> str:
    return f"{energy / _WATT_HOURS:.0f} Wh"


def _balance(balance: PowerBalance) -> list[str]:
    lines = wrapped(f"{label('energy_a_day')}, {balance.case}", indent=2)
    for key, shares in (("from", balance.sources), ("to", balance.loads), ("lost", balance.losses)):
        lines += wrapped(f"{label(key)}: {_shares(shares)}", indent=4, hanging=6)
    return lines


def _shares(shares: tuple[EnergyShare, ...]) -> str:
    whole = sum(each.energy for each in shares)
    told = sorted((each for each in shares if each.energy / _WATT_HOURS >= _LEAST), key=lambda each: -each.energy)
    listed = (f"{_spoken(each.name)} {_watt_hours(each.energy)} ({percent(each.energy / whole)})" for each in told)
    return ", ".join(listed) or "0 Wh"


def _peaks(found: PowerResults, system: System) -> list[str]:
    rows = [tuple(label(key) for key in ("state", "at_once", "with_start", "current", "with_start", "voltage"))]
    rows += [
        (each.state, shown(round(each.mains), "apparent_power", system),
         shown(round(each.mains_start), "apparent_power", system), _amperes(each.current), _amperes(each.current_start),
         f"{each.voltage_start:.2f} V")
        for each in found.peaks
    ]  # fmt: skip
    return table(rows, right=(1, 2, 3, 4, 5))


def _amperes(current: float) -> str:
    return f"{current:.0f} A"


def power_nodes(evaluation: Evaluation, system: System) -> dict[str, Any]:
    """Power for JSON, under its own name."""
    found = evaluation.power
    if found.balance is None or found.course is None:
        return {}
    course = found.course
    return {
        "power": {
            "unit_of_temperature": unit_of("temperature", system),
            "coldest_cells": bare_number(found.coldest_cells, "temperature", system),
            "worst": found.worst,
            "tightest": found.tightest,
            "cases": [_case_node(each) for each in found.cases],
            "energy_a_day_wh": {
                "case": found.balance.case,
                "sources": _share_nodes(found.balance.sources),
                "loads": _share_nodes(found.balance.loads),
                "losses": _share_nodes(found.balance.losses),
                "change": round(found.balance.change / _WATT_HOURS, 2),
            },
            "peaks": [_peak_node(each) for each in found.peaks],
            "converter_at_rating_a": None if found.rating_current is None else round(found.rating_current, 1),
            "charging_a": round(found.charging, 1),
            "day": {
                "case": course.case,
                "times_s": list(course.times[::_ONE_A_QUARTER]),
                "charge_percent": [round(100.0 * each, 2) for each in course.charge[::_ONE_A_QUARTER]],
                "demand_w": [round(each, 1) for each in course.demand[::_ONE_A_QUARTER]],
                "unmet_w": [round(each, 1) for each in course.unmet[::_ONE_A_QUARTER]],
                "sources_w": {name: [round(each, 1) for each in values[::_ONE_A_QUARTER]]
                              for name, values in course.sources},
            },
        }
    }  # fmt: skip


def _case_node(case: PowerCase) -> dict[str, Any]:
    return {
        "case": case.name,
        "used": case.used,
        "off_grid_h": None if case.off_grid is None else round(case.off_grid / 3600.0, 2),
        "off_grid_clock_h": None if case.clock is None else round(case.clock / 3600.0, 2),
        "lowest_charge_percent": round(100.0 * case.lowest_charge, 1),
        "unmet_wh": round(case.unmet / _WATT_HOURS, 1),
        "sun_wh_a_day": round(case.solar / _WATT_HOURS, 1),
        "too_cold_percent": round(100.0 * case.locked, 1),
    }


def _share_nodes(shares: tuple[EnergyShare, ...]) -> list[dict[str, Any]]:
    return [{"name": each.name, "kind": each.kind, "wh": round(each.energy / _WATT_HOURS, 2)} for each in shares]


def _peak_node(peak: PowerPeak) -> dict[str, Any]:
    return {
        "state": peak.state,
        "mains_va": round(peak.mains, 1),
        "mains_with_start_va": round(peak.mains_start, 1),
        "starts": peak.starts,
        "current_a": round(peak.current, 2),
        "current_with_start_a": round(peak.current_start, 2),
        "voltage_with_start_v": round(peak.voltage_start, 3),
        "given": peak.given,
    }
