"""What leaves the program as JSON, schema 1."""

from __future__ import annotations

import json
import math
from collections.abc import Iterable, Sequence
from typing import Any, Final

from hushwright.errors import Diagnostic
from hushwright.evaluation.results import (
    AtNeighbours,
    Background,
    BetweenRooms,
    Evaluation,
    FacePrediction,
    PathLevel,
    Resonance,
)
from hushwright.evaluation.sound.deciding import deciding_of
from hushwright.physics.acoustics.bands import THIRD_OCTAVE_BANDS
from hushwright.report.air import air_nodes
from hushwright.report.cost import cost_nodes
from hushwright.report.heat import heat_nodes
from hushwright.report.needs import need_nodes
from hushwright.report.power import power_nodes
from hushwright.report.safety import safety_nodes
from hushwright.report.signals import signal_nodes
from hushwright.report.structure import structure_nodes
from hushwright.report.units_out import bare_number, restated, unit_of
from hushwright.report.verdict_text import worst_first
from hushwright.report.wiring import wiring_nodes
from hushwright.units import System
from hushwright.verdicts.verdict import Verdict

SCHEMA: Final = 1


def check_json(
    evaluation: Evaluation,
    verdicts: Sequence[Verdict],
    measure_next: Sequence[dict[str, Any]],
    remarks: Sequence[Diagnostic],
    system: System,
) -> str:
    """Verdicts and what they rest on; ``value`` and ``limit`` are null where nothing applies."""
    build = evaluation.build
    return written(
        {
            "schema": SCHEMA,
            "build": {"title": build.title, "file": build.file, "date": build.document.root.date, "units": system},
            "verdicts": [verdict_node(one, system) for one in worst_first(verdicts)],
            "assumptions": [
                {"path": one.path, "text": restated(one.text, system), "source": one.source}
                for one in evaluation.assumptions
            ],
            "paths": path_nodes(evaluation, system),
            "needs": need_nodes(evaluation),
            "sound_reduction": [_face(one) for one in evaluation.faces],
            "resonances": [_resonance(one, system) for one in evaluation.resonances],
            **structure_nodes(evaluation, system),
            **air_nodes(evaluation, system),
            **heat_nodes(evaluation, system),
            **safety_nodes(evaluation, system),
            **power_nodes(evaluation, system),
            **wiring_nodes(evaluation, system),
            **signal_nodes(evaluation, system),
            **cost_nodes(evaluation, system),
            "measure_next": list(measure_next),
            "notes": [restated(note, system) for note in evaluation.notes],
            "remarks": [diagnostic_node(one) for one in remarks],
        }
    )


def verdict_node(one: Verdict, system: System) -> dict[str, Any]:
    """One verdict; numbers in ``unit``."""

    def difference(value: float | None) -> float | None:
        return bare_number(value, one.kind, system, is_difference=True)

    return {
        "id": one.id,
        "group": one.group,
        "question": restated(one.question, system),
        "state": one.state,
        "value": bare_number(one.value, one.kind, system),
        "unit": unit_of(one.kind, system),
        "limit": bare_number(one.limit, one.kind, system),
        "margin": difference(one.margin),
        "uncertainty": difference(one.uncertainty),
        "chance": _finite(one.chance),
        "verdict": one.verdict,
        "basis": restated(one.basis, system),
        "place": one.place,
        "sense": one.sense,
        "reason": restated(one.reason, system),
        "hint": restated(one.hint, system),
        "caution": restated(one.caution, system),
        "lines": [
            {"name": line.name, "value": _finite(line.value), "unit": line.unit, "text": restated(line.text, system)}
            for line in one.lines
        ],
        "validity": [restated(note, system) for note in one.validity],
        "method_uncertainty": difference(one.method_uncertainty),
        "counts": one.counts,
        "contributions": [
            {"path": each.path, "label": each.label, "change": difference(each.change)} for each in one.contributions
        ],
    }


def path_nodes(evaluation: Evaluation, system: System) -> dict[str, Any]:
    """Paths of every situation: share of what decides its limit, and level in third octaves."""
    nodes: dict[str, Any] = {"bands_hz": list(THIRD_OCTAVE_BANDS)}
    nodes["background"] = [
        {
            "situation": one.situation,
            "state": one.state,
            "room": one.room,
            "outside_db": _levels(one.outside),
            "inside_db": _levels(one.levels),
            "from_outside_db": _levels(one.from_outside),
            "from_outside_uncertainty_db": _levels(one.from_outside_uncertainty),
            "uncertainty_db": _levels(one.uncertainty),
            "assumed_bands_hz": list(one.outside_assumed),
            **_ways(one, evaluation),
        }
        for one in evaluation.backgrounds
    ]
    nodes["between_rooms"] = [
        {
            "state": one.state,
            "level_difference_db": _levels(one.level_difference),
            "standardized_level_difference_db": _levels(one.standardized_difference),
            "dntw": one.standardized_rating,
            **_ways(one, evaluation),
        }
        for one in evaluation.between_rooms
    ]
    nodes["neighbours"] = [
        {
            "state": one.state,
            "distance": bare_number(one.distance, "length", system),
            "unit": unit_of("length", system),
            "levels_db": _levels(one.levels),
            **_ways(one, evaluation),
        }
        for one in evaluation.neighbours
    ]
    return nodes


def problems_json(diagnostics: Iterable[Diagnostic]) -> str:
    """What stands in the way of reading a file."""
    return written({"schema": SCHEMA, "problems": [diagnostic_node(one) for one in diagnostics]})


def diagnostic_node(one: Diagnostic) -> dict[str, Any]:
    """One problem or remark."""
    return {
        "reference": one.reference,
        "severity": one.severity,
        "file": one.place.file,
        "line": one.place.line or None,
        "path": one.place.dotted,
        "value": one.value,
        "note": one.note,
        "hint": one.hint,
    }


def written(node: Any) -> str:
    """JSON text; plain ASCII so that no terminal or pipe can spoil it."""
    return json.dumps(node, indent=1, allow_nan=False)


def _ways(one: Background | BetweenRooms | AtNeighbours, evaluation: Evaluation) -> dict[str, Any]:
    """Ways with their shares, largest first, and what they are shares of."""
    band, paths = deciding_of(one, evaluation.build)
    return {"shares_of": band or "the A-weighted sum", "ways": [_way(path) for path in paths]}


def _way(path: PathLevel) -> dict[str, Any]:
    return {
        "name": path.name,
        "share": _finite(round(path.share, 6)),
        "level_dba": _finite(round(path.level_a, 2)),
        "levels_db": _levels(path.levels),
        "place": path.place,
        "note": path.note,
    }


def _face(one: FacePrediction) -> dict[str, Any]:
    """One face or leaf as built."""
    return {
        "name": one.name,
        "beyond": one.beyond,
        "rw": one.rw,
        "c": one.c,
        "ctr": one.ctr,
        "stc": one.stc,
        "oitc": one.oitc,
        "place": one.place,
    }


def _resonance(one: Resonance, system: System) -> dict[str, Any]:
    return {
        "surface": one.surface,
        "kind": one.kind,
        "frequency_hz": _finite(round(one.frequency, 2)),
        "text": restated(one.text, system),
        "lets_through": one.lets_through,
    }


def _levels(levels: Iterable[float]) -> list[float | None]:
    return [_finite(round(level, 2)) for level in levels]


def _finite(value: float | None) -> float | None:
    return None if value is None or not math.isfinite(value) else value
