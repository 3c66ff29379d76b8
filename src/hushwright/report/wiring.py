"""Wiring in the check report, as a schedule of circuits, and for JSON."""

from __future__ import annotations

from typing import Any

from hushwright.evaluation.results import Evaluation
from hushwright.evaluation.results.wiring import CircuitResult, WiringResults
from hushwright.report.csv_out import Cell, csv_text
from hushwright.report.labels import heading as words
from hushwright.report.labels import label
from hushwright.report.layout import heading, shortened, table, wrapped
from hushwright.report.units_out import bare_number, restated, shown, unit_of
from hushwright.units import System

_NAME_WIDTH = 20
_NOTHING = "–"
_FOOT = 0.3048
_GAUGE = " AWG"


def spoken(name: str) -> str:
    """Name of the file as words."""
    return name.replace("_", " ")


def wiring(evaluation: Evaluation, system: System) -> list[str]:
    """Circuits, what the bank drives into a short, and routes that tie the floating room."""
    found = evaluation.wiring
    lines = _circuits(found, system)
    if found.bank_fault is not None:
        lines += wrapped(f"{label('bank_short')} {shown(round(found.bank_fault), 'current', system)}", indent=2)
    for tie in (*found.ties, *found.without_gland):
        lines += wrapped(f"{label('route')} {spoken(tie.route)}, {tie.face}: {tie.why}", indent=2, hanging=4)
    return [*heading(words("wiring")), *lines] if lines else []


def schedule(evaluation: Evaluation, system: System) -> str:
    """Schedule of all circuits, with the rules that they follow and where each number comes from."""
    found = evaluation.wiring
    if not found.circuits:
        return "The file names no circuits in `power`."
    lines = [*wrapped(f"{label('rules')} {found.rules}", indent=2), "", *_circuits(found, system)]
    lines += ["", *wrapped(_DROPS, indent=2)]
    lines += ["", *_fuses(found, system), ""]
    for each in found.circuits:
        text = f"{spoken(each.name)}: {restated(_told(each), system)}{_in_gauges(each, system)}"
        lines += wrapped(f"{text}{_isolator(each, system)}", indent=2, hanging=4)
    return "\n".join([*lines, "", *wrapped(_CAUTION, indent=2)])


_DROPS = ("Own drop: of the voltage, what a circuit loses from its own beginning to its end. In all: with the circuits "
          "before it, from bank or shore on, which the verdict holds against what is allowed.")  # fmt: skip
_CAUTION = "A licensed electrician decides after the rules of the place; this list adds up what the file says."


def _isolator(one: CircuitResult, system: System) -> str:
    """How far the isolator is from where it is worked."""
    if one.isolator_distance is None:
        return ""
    return f"; {label('isolator')} {shown(one.isolator_distance, 'length', system)} from {one.isolator}"


def lost(drop: float) -> str:
    """Share of the voltage to a tenth of a percent, as on the sheet of circuits."""
    return f"{100.0 * drop:.1f} %"


def _in_gauges(one: CircuitResult, system: System) -> str:
    """Gauge to buy for a metric conductor where gauges are sold."""
    bought = system == "us" and one.gauge and not one.conductor.endswith(_GAUGE)
    return f"; {label('in_gauges')} {one.gauge}" if bought else ""


def _told(one: CircuitResult) -> str:
    """Where ampacity and choice of a circuit come from."""
    parts = [one.ampacity_basis]
    if one.chosen:
        parts.append("the thinnest conductor that serves")
    if one.fuse_chosen:
        parts.append("the smallest fuse that carries it")
    return "; ".join([*parts, *one.notes])


def _circuits(found: WiringResults, system: System) -> list[str]:
    if not found.circuits:
        return []
    keys = ("circuit", "from", "way", "voltage", "current", "conductor", "carries", "drop", "drop_in_all", "fuse")
    rows = [tuple(label(key) for key in keys)]
    rows += [
        (shortened(spoken(each.name), _NAME_WIDTH), shortened(spoken(each.takes_from), _NAME_WIDTH),
         way(each.length, system), f"{each.voltage:g} V", amperes(each.current), _conductor(each, system),
         _NOTHING if each.ampacity is None else amperes(each.ampacity), lost(each.drop), lost(each.drop_from_source),
         _NOTHING if each.fuse is None else amperes(each.fuse))
        for each in found.circuits
    ]  # fmt: skip
    return table(rows, right=(2, 3, 4, 6, 7, 8, 9))


def _fuses(found: WiringResults, system: System) -> list[str]:
    """Fuses with what they have to interrupt; devices of mains voltage; isolators."""
    keys = ("circuit", "fuse", "type", "short", "interrupts", "residual", "isolator")
    rows = [tuple(label(key) for key in keys)]
    rows += [
        (shortened(spoken(each.name), _NAME_WIDTH), _NOTHING if each.fuse is None else amperes(each.fuse),
         each.fuse_type or _NOTHING, _NOTHING if each.fault is None else f"{each.fault:.0f} A",
         _NOTHING if each.interrupt is None else f"{each.interrupt:.0f} A",
         _NOTHING if each.residual is None else f"{1000.0 * each.residual[0]:g} mA, {each.residual[1]}",
         each.isolator or _NOTHING)
        for each in found.circuits
    ]  # fmt: skip
    return table(rows, right=(1, 3, 4))


def amperes(current: float) -> str:
    """Current to three digits."""
    return f"{current:.0f} A" if current >= 100.0 else f"{float(f'{current:.3g}'):g} A"


def way(length: float, system: System) -> str:
    """Length of a circuit one way."""
    return f"{length / _FOOT:.1f} ft" if system == "us" else f"{length:.2f} m"


def _conductor(one: CircuitResult, system: System) -> str:
    return cores_and_size(one.cores, one.conductor, one.area, system)


def cores_and_size(cores: int, conductor: str, area: float, system: System) -> str:
    """Cores and size; a gauge keeps its name where gauges are bought."""
    gauged = system == "us" and conductor.endswith(_GAUGE)
    return f"{cores} × {conductor if gauged else shown(area, 'cross_section', system)}"


def circuit_csv(evaluation: Evaluation, system: System) -> str:
    """Schedule for spreadsheets."""
    way = "ft" if system == "us" else "m"
    head: tuple[Cell, ...] = (
        label("circuit"), label("from"), label("to"), label("route"), f"{label('way')} [{way}]",
        f"{label('voltage')} [V]", f"{label('current')} [A]", label("cores"), label("conductor"),
        f"{label('conductor')} [{unit_of('cross_section', system)}]", label("in_gauges"), f"{label('carries')} [A]",
        f"{label('drop')} [%]", f"{label('drop_in_all')} [%]", f"{label('fuse')} [A]", label("type"),
        f"{label('short')} [A]", f"{label('interrupts')} [A]", f"{label('residual')} [mA]",
        f"{label('mass')} [{unit_of('mass', system)}]", label("rules"),
    )  # fmt: skip
    rows: list[tuple[Cell, ...]] = [head]
    for each in evaluation.wiring.circuits:
        rows.append((
            each.name, each.takes_from, "; ".join(each.gives_to), each.route,
            round(each.length / _FOOT if system == "us" else each.length, 3), each.voltage, round(each.current, 2),
            each.cores, restated(each.conductor, system), bare_number(each.area, "cross_section", system), each.gauge,
            each.ampacity, round(100.0 * each.drop, 2), round(100.0 * each.drop_from_source, 2), each.fuse,
            each.fuse_type, None if each.fault is None else round(each.fault), each.interrupt,
            None if each.residual is None else 1000.0 * each.residual[0], bare_number(each.mass, "mass", system),
            restated(each.ampacity_basis, system),
        ))  # fmt: skip
    return csv_text(rows)


def wiring_nodes(evaluation: Evaluation, system: System) -> dict[str, Any]:
    """Wiring for JSON, under its own name."""
    found = evaluation.wiring
    if not (found.circuits or found.ties or found.without_gland):
        return {}
    return {
        "wiring": {
            "rules": found.rules,
            "bank_short_a": None if found.bank_fault is None else round(found.bank_fault, 1),
            "unit_of_length": unit_of("length", system),
            "unit_of_mass": unit_of("mass", system),
            "circuits": [_node(each, system) for each in found.circuits],
            "fuses_in_series": [
                {"nearer": each.nearer, "farther": each.farther, "ratio": round(each.ratio, 3)} for each in found.pairs
            ],
            "bridges": [{"route": each.route, "face": each.face, "why": each.why} for each in found.ties],
            "walls_without_gland": [{"route": each.route, "face": each.face} for each in found.without_gland],
        }
    }


def _node(one: CircuitResult, system: System) -> dict[str, Any]:
    return {
        "name": one.name, "from": one.takes_from, "to": list(one.gives_to), "route": one.route,
        "fixed_to": list(one.fixed_to),
        "side": "ac" if one.alternating else "dc", "voltage_v": one.voltage, "current_a": round(one.current, 3),
        "length": bare_number(one.length, "length", system), "cores": one.cores,
        "conductor": restated(one.conductor, system),
        "area_mm2": round(1e6 * one.area, 3), "gauge_not_thinner": one.gauge,
        "conductor_chosen": one.chosen, "ampacity_a": one.ampacity,
        "ampacity_basis": restated(one.ampacity_basis, system), "drop_percent": round(100.0 * one.drop, 3),
        "drop_from_source_percent": round(100.0 * one.drop_from_source, 3),
        "allowed_drop_percent": round(100.0 * one.allowed_drop, 3), "fuse_a": one.fuse, "fuse_type": one.fuse_type,
        "fuse_chosen": one.fuse_chosen, "protected_by": one.guarded_by, "largest_fuse_a": one.fuse_limit,
        "short_a": _rounded(one.fault), "least_short_a": _rounded(one.least_fault), "interrupts_a": one.interrupt,
        "residual_ma": None if one.residual is None else 1000.0 * one.residual[0],
        "isolator_distance": bare_number(one.isolator_distance, "length", system),
        "mass": bare_number(one.mass, "mass", system), "notes": [restated(note, system) for note in one.notes],
        "place": one.place,
    }  # fmt: skip


def _rounded(current: float | None) -> float | None:
    return None if current is None else round(current, 1)
