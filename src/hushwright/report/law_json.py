"""Laws for other programs."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

from hushwright.evaluation.laws.calls import Amount, Answer
from hushwright.evaluation.laws.kinds import cannot_be_typed, small_values, words_of
from hushwright.evaluation.laws.laws import Law, Parameter, fields_of
from hushwright.report.as_json import SCHEMA, written
from hushwright.report.law_numbers import number_node, unit_node
from hushwright.units import System


def laws_json(laws: Sequence[Law]) -> str:
    """Laws with name, domain and sentence."""
    nodes = [{"name": law.name, "domain": law.domain, "module": law.module, "summary": law.summary} for law in laws]
    return written({"schema": SCHEMA, "laws": nodes})


def law_json(law: Law, system: System, answer: Answer | None = None) -> str:
    """One law in full, texts as they stand in it; one that needs nothing with its answer."""
    return written({
        "schema": SCHEMA, "name": law.name, "domain": law.domain, "module": law.module, "summary": law.summary,
        "extended": law.extended, "parameters": [_parameter(one, law.function) for one in law.parameters],
        "returns": law.returns, "units": list(law.result_units), "notes": law.notes, "references": law.references,
        "example": law.example, "not_by_hand": list(cannot_be_typed(law.parameters, law.function)),
        **({} if answer is None else {"result": _amount(answer.found, system)}),
    })  # fmt: skip


def answer_json(answer: Answer, system: System) -> str:
    """What a law was given and what it gives."""
    return written({
        "schema": SCHEMA, "law": answer.law.name, "domain": answer.law.domain,
        "given": [_amount(one, system) for one in answer.given],
        "result": _amount(answer.found, system), "remarks": list(answer.remarks),
    })  # fmt: skip


def _parameter(one: Parameter, owner: Any) -> dict[str, Any]:
    node: dict[str, Any] = {
        "name": one.name, "meaning": one.meaning, "units": list(one.units), "needed": one.needed,
        "left_out": one.default,
    }  # fmt: skip
    words = words_of(one, owner)
    if words:
        node["words"] = list(words)
    kinds = small_values(one, owner)
    if kinds:
        node["parts"] = {kind.__name__: [_parameter(part, kind) for part in fields_of(kind)] for kind in kinds}
    return node


def _amount(one: Amount, system: System) -> dict[str, Any]:
    if one.parts:
        return {"name": one.name, "parts": [_amount(part, system) for part in one.parts]}
    return {
        "name": one.name,
        "value": number_node(one.value, one.unit, one.name, system),
        "unit": unit_node(one.unit, one.name, system),
    }
