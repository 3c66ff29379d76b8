"""Drop of a circuit leg by leg from the bank or source to its end, so that it can be worked out again."""

from __future__ import annotations

from hushwright.evaluation.results import Evaluation
from hushwright.evaluation.wiring.drops import DropLeg, drop_legs
from hushwright.report.labels import label
from hushwright.report.layout import table, wrapped
from hushwright.report.units_out import restated, shown
from hushwright.report.wiring import amperes, cores_and_size, lost, spoken, way
from hushwright.units import System
from hushwright.verdicts.check import slug
from hushwright.verdicts.verdict import Verdict

_THOUSAND_FEET = 304.8  # m


def drop_leg_by_leg(verdict: Verdict, evaluation: Evaluation, system: System) -> list[str]:
    """Lines from which the drop of a circuit can be worked out; none for other verdicts.

    Parameters
    ----------
    verdict : Verdict
        Any verdict.
    evaluation : Evaluation
        What it is of.
    system : {"metric", "us"}
        Units shown.

    Returns
    -------
    list of str
        Table of the legs, its sum, and where the resistances are from.
    """
    one = next((each for each in evaluation.wiring.circuits if verdict.id == f"voltage-drop-{slug(each.name)}"), None)
    wiring = evaluation.build.wiring
    if one is None or wiring is None:
        return []
    legs = drop_legs(wiring, one.name)
    keys = ("circuit", "from", "way", "conductor", "copper_at", "resistance", "current", "lost", "drop")
    rows: list[tuple[str, ...]] = [tuple(label(key) for key in keys)]
    rows += [_row(leg, system) for leg in legs]
    rows.append((label("drop_in_all"), "", "", "", "", "", "",
                 _volts(sum(leg.lost for leg in legs)), lost(sum(leg.share for leg in legs))))  # fmt: skip
    ends = ", ".join(spoken(each) for each in one.gives_to)
    told = f"Drop of {spoken(one.name)} leg by leg, of {one.voltage:g} V, from {spoken(legs[0].begins_at)} to {ends}"
    lines = ["", *wrapped(told, indent=2), *table(rows, indent=4, right=(2, 4, 5, 6, 7, 8))]
    lines += wrapped("lost = 2 × way × resistance × current, out and back", indent=4, hanging=6)
    for basis in dict.fromkeys(leg.basis for leg in legs):
        lines += wrapped(f"{label('resistance')}: {restated(basis, system)}", indent=4, hanging=6)
    return lines


def _row(leg: DropLeg, system: System) -> tuple[str, ...]:
    conductor = cores_and_size(leg.cores, leg.conductor, leg.area, system)
    return (spoken(leg.circuit), spoken(leg.begins_at), way(leg.length, system), conductor,
            shown(leg.temperature, "temperature", system), _resistance(leg.resistance, system), amperes(leg.current),
            _volts(leg.lost), lost(leg.share))  # fmt: skip


def _resistance(per_length: float, system: System) -> str:
    """Of one conductor, one way: Ω/km, or for a thousand feet."""
    if system == "us":
        return f"{per_length * _THOUSAND_FEET:.3f} Ω/1000 ft"
    return f"{1000.0 * per_length:.3f} Ω/km"


def _volts(voltage: float) -> str:
    return f"{voltage:.3f} V"
