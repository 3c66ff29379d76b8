"""One value of the file to its typed form, checked against the declaration of its field."""

from __future__ import annotations

import math
import re
import unicodedata
from typing import Any

from hushwright.document.fields import FieldSpec
from hushwright.document.nodes import Node, is_mapping, is_null, is_scalar
from hushwright.document.quantities import VALUE_KEYS, value_from_text, value_with_origin
from hushwright.document.values import WRITABLE_ORIGINS, Value
from hushwright.errors import InvalidInput
from hushwright.units import (
    KINDS,
    BareLength,
    Kind,
    System,
    UnreadableQuantity,
    format_quantity,
    parse_quantity,
    spoken,
)

_FLAGS = {"true": True, "yes": True, "false": False, "no": False}
_US_TEXT = re.compile(r"(?<![a-z])in\b|ft|lb|psf|psi|cfm|°F|mph|['\"′″]")
_LONGEST_TEXT = 4000  # letters of a remark: two pages
_OFFERED = 2  # readings of a number in another unit that are worth offering


class LeafProblem(InvalidInput):
    """Why a node is not the value asked for: reference, note and hint, and the node at fault."""

    def __init__(self, reference: str, node: Node, note: str, hint: str = "", inside: tuple[str, ...] = ()) -> None:
        super().__init__(note)
        self.reference = reference
        self.node = node
        self.note = note
        self.hint = hint
        self.inside = inside


def read_leaf(spec: FieldSpec, node: Node, text: str, bare_length: BareLength) -> Any:
    """Read a node as the single value its field declares.

    Raises
    ------
    LeafProblem
        If it is not one, or out of bounds.
    """
    if spec.form == "quantity":
        return _read_quantity(spec, node, text, bare_length)
    if not is_scalar(node):
        raise LeafProblem(
            "not-a-value", node, "one value stands here, not a list or a group", f"like {example_of(spec)}"
        )
    typed = node.value.strip()
    if spec.form == "count":
        return _read_count(spec, node, typed)
    if spec.form == "flag":
        if typed.lower() not in _FLAGS:
            raise LeafProblem("not-a-flag", node, "this is a yes or no", "write true or false")
        return _FLAGS[typed.lower()]
    if spec.form == "choice":
        if typed not in spec.choices:
            raise _unknown_choice(node, typed, spec.choices, f"it is one of {', '.join(spec.choices)}")
        return typed
    return _checked_words(spec, node)


def _checked_words(spec: FieldSpec, node: Node) -> str:
    """A text as typed, where a page has room for it and letters for its characters."""
    longest = spec.longest or _LONGEST_TEXT
    if len(node.value) > longest:
        note = f"the text has {len(node.value)} letters; at most {longest} fit"
        raise LeafProblem("text-too-long", node, note, "shorten it")
    odd = next((one for one in node.value if unicodedata.category(one) == "Cc" and one not in "\n\t"), None)
    if odd is not None:
        note = f"the text holds a character that no page can show: U+{ord(odd):04X}"
        raise LeafProblem("character-unprintable", node, note, "type the text again without it")
    return str(node.value)


def example_of(spec: FieldSpec) -> str:
    """A value as the file would hold it."""
    if spec.form == "quantity":
        return spec.default_text or _fitting_example(spec)
    if spec.form == "choice":
        return spec.choices[0]
    return {"count": spec.default_text or str(int(spec.low or 1)), "flag": "true", "words": "…"}.get(spec.form, "…")


def stand_in(spec: FieldSpec, default: Any = None) -> Any:
    """A value that the field would take and that is not its default: what a refused value is tried with in its place.

    Examples
    --------
    >>> stand_in(FieldSpec("choice", "Kind of day.", choices=("day", "night")), "day")
    'night'
    """
    if spec.form == "quantity" and spec.kind is not None:
        value = value_from_text(_fitting_example(spec), spec.kind)
        same = isinstance(default, Value) and math.isclose(value.value, default.value)
        return value.shifted(-0.1 * value.value) if same else value
    if spec.form == "choice":
        return next((one for one in spec.choices if one != default), spec.choices[0])
    if spec.form == "flag":
        return default is not True
    return int(spec.low or 1) + (default == int(spec.low or 1)) if spec.form == "count" else "…"


def _fitting_example(spec: FieldSpec) -> str:
    """An example of the kind that lies within the bounds, else a round number between them."""
    assert spec.kind is not None
    low = -math.inf if spec.low is None else spec.low
    high = math.inf if spec.high is None else spec.high
    for text in re.split(", | or ", KINDS[spec.kind].example):
        if low <= parse_quantity(text, spec.kind).value <= high:
            return text
    if not math.isfinite(low + high):
        return KINDS[spec.kind].example.split(",")[0]
    middle = math.sqrt(low * high) if low > 0.0 else (low + high) / 2.0
    return format_quantity(middle, spec.kind, "metric", 2)


def _unknown_choice(node: Node, typed: str, choices: tuple[str, ...], note: str) -> LeafProblem:
    from difflib import get_close_matches

    folded = {choice.casefold(): choice for choice in choices}
    close = get_close_matches(typed.casefold(), list(folded), n=1, cutoff=0.5)
    return LeafProblem("unknown-choice", node, note, f"did you mean {folded[close[0]]}?" if close else "")


def _read_count(spec: FieldSpec, node: Node, typed: str) -> int:
    if not re.fullmatch(r"[-+]?[0-9]{1,15}", typed):
        raise LeafProblem("not-a-count", node, "this is a whole number without a unit", f"like {example_of(spec)}")
    number = int(typed)
    if spec.low is not None and number < spec.low:
        raise LeafProblem("out-of-range", node, f"it is at least {int(spec.low)}")
    if spec.high is not None and number > spec.high:
        raise LeafProblem("out-of-range", node, f"it is at most {int(spec.high)}")
    return number


def _read_quantity(spec: FieldSpec, node: Node, text: str, bare_length: BareLength) -> Value:
    assert spec.kind is not None
    at = node
    try:
        if is_scalar(node):
            value = value_from_text(node.value, spec.kind, bare_length=bare_length)
        elif is_mapping(node):
            parts = _parts(node, text, spec.kind)
            at = parts.get("is", node)
            value = value_with_origin(
                {key: part.value for key, part in parts.items()}, spec.kind, bare_length=bare_length
            )
        else:
            note = "one value stands here, not a list"
            raise LeafProblem("not-a-value", node, note, f"like {example_of(spec)}; an interval is 85..100 mm")
    except UnreadableQuantity as problem:
        # Whether `is` or `plus_minus` is at fault shows in the text that the message quotes.
        raise LeafProblem(problem.reference, _at_fault(node, problem.text), problem.note, problem.hint) from None
    except InvalidInput as problem:
        if isinstance(problem, LeafProblem):
            raise
        raise LeafProblem("unreadable-quantity", node, str(problem), f"like {_with_origin(spec.kind)}") from None
    _check_bounds(spec, value, at)
    return value


def _at_fault(node: Node, typed: str) -> Node:
    if is_scalar(node):
        return node
    return next((part for _, part in node.value if is_scalar(part) and part.value == typed), node)


def _with_origin(kind: Kind) -> str:
    example = KINDS[kind].example.split(",")[0].split(" or ")[0]
    return f"{{is: {example}, from: measured, plus_minus: …, by: …}}"


def _parts(node: Node, text: str, kind: Kind) -> dict[str, Node]:
    parts: dict[str, Node] = {}
    for key, part in node.value:
        name = key.value if is_scalar(key) else ""
        if name[:1].isdigit() and is_null(part) and parts:
            raise _split_number(node, parts, name)
        if name not in VALUE_KEYS:
            note = f"{name or 'this'} says nothing about a value; there are {', '.join(VALUE_KEYS)}"
            raise LeafProblem("unknown-key", key, note, _with_origin(kind), inside=(name,) if name else ())
        if name in parts:
            raise LeafProblem("duplicate-key", key, "the key is given twice", "take one of them out", inside=(name,))
        if not is_scalar(part) or is_null(part):
            raise LeafProblem("not-a-value", part, f"one value stands after {name}", _with_origin(kind), inside=(name,))
        parts[name] = part
    if "is" not in parts:
        raise LeafProblem("missing-key", node, "the value itself, `is`, is missing", _with_origin(kind))
    origin = parts.get("from")
    if origin is not None and origin.value not in WRITABLE_ORIGINS:
        note = f"it is one of {', '.join(WRITABLE_ORIGINS)}"
        problem = _unknown_choice(origin, origin.value, WRITABLE_ORIGINS, note)
        problem.inside = ("from",)
        raise problem
    return parts


def _split_number(node: Node, parts: dict[str, Node], rest: str) -> LeafProblem:
    name = next(reversed(parts))
    typed = f"{parts[name].value},{rest}"
    note = f"a comma inside {{ }} ends the value, so the decimal comma of {typed} cannot stand here"
    return LeafProblem(
        "decimal-comma", parts[name], note, f'write {typed.replace(",", ".")} or "{typed}"', inside=(name,)
    )


def _check_bounds(spec: FieldSpec, value: Value, node: Node) -> None:
    if value.unknown or spec.kind is None:
        return
    low, high = value.value, value.value
    if value.distribution == "rectangular":
        half = value.standard_uncertainty * 3.0**0.5
        low, high = value.value - half, value.value + half
    # A bound typed in another unit may miss by the last bit.
    slack = 1e-9 * max(abs(low), abs(high))
    system: System = "us" if _US_TEXT.search(value.text) else "metric"
    if spec.low is not None and low < spec.low - slack:
        side, bound = "below", spec.low
    elif spec.high is not None and high > spec.high + slack:
        side, bound = "above", spec.high
    else:
        return
    note = f"this lies {side} {format_quantity(bound, spec.kind, system, 4)}; {_expected(spec, system)}"
    raise LeafProblem("out-of-range", node, note, _perhaps(spec, value.text))


def _expected(spec: FieldSpec, system: System) -> str:
    assert spec.kind is not None
    if spec.low is None or spec.high is None:
        return f"this {spoken(spec.kind)} cannot be so"
    ends = [format_quantity(end, spec.kind, system, 4) for end in (spec.low, spec.high)]
    return f"expected is {ends[0]} to {ends[1]}"


def _perhaps(spec: FieldSpec, text: str) -> str:
    """Propose the same number in other units of its kind and system, where that would fit."""
    match = re.fullmatch(r"\s*([-+]?[0-9]+(?:[.,][0-9]+)?)\s*([^0-9 ]*)\s*", text)
    if match is None or spec.kind is None:
        return ""
    number, us, found = match[1].replace(",", "."), _US_TEXT.search(text) is not None, []
    for unit in dict.fromkeys(one.text for one in KINDS[spec.kind].units.values()):
        typed = f"{number} {unit}"
        try:
            value = parse_quantity(typed, spec.kind).value
        except InvalidInput:
            continue
        fits = (spec.low is None or value >= spec.low) and (spec.high is None or value <= spec.high)
        if fits and unit != match[2] and value != 0.0:
            found.append((bool(_US_TEXT.search(typed)) != us, typed))
    same = [typed for other, typed in found if not other] or [typed for _, typed in found]
    return f"perhaps {' or '.join(same[:_OFFERED])}?" if same else ""
