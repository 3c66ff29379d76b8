"""From what the file says about one quantity to a Value: plain, interval, ``unknown`` or with an origin."""

from __future__ import annotations

import math
from collections.abc import Mapping
from typing import Any, Literal, cast

from hushwright.document.values import WRITABLE_ORIGINS, Origin, Value, from_half_width, from_interval, unknown_value
from hushwright.errors import InvalidInput
from hushwright.units import Kind, parse_difference, parse_quantity

VALUE_KEYS = ("is", "from", "plus_minus", "by")
BareLength = Literal["mm", "in"] | None


def value_from_text(
    text: str, kind: Kind, *, bare_length: BareLength = None, origin: Origin = "stated", by: str = ""
) -> Value:
    """Read ``93 mm``, ``85..100 mm`` or ``unknown``."""
    if text.strip() == "unknown":
        return unknown_value(by=by)
    parsed = parse_quantity(text, kind, bare_length=bare_length)
    if parsed.low < parsed.high:
        return from_interval(parsed.low, parsed.high, origin=origin, by=by, text=text)
    return Value(parsed.value, 0.0, origin, "normal", False, by, text)


def value_with_origin(parts: Mapping[str, str], kind: Kind, *, bare_length: BareLength = None) -> Value:
    """Read ``{is: 93 mm, from: measured, plus_minus: 2 mm, by: tape}`` given as texts."""
    strange = [key for key in parts if key not in VALUE_KEYS]
    if strange:
        raise InvalidInput(f"{strange[0]!r} says nothing about a value; there are {', '.join(VALUE_KEYS)}")
    if "is" not in parts:
        raise InvalidInput("the value itself is left out; write it as is: …")
    origin = parts.get("from", "stated")
    if "from" in parts and origin not in WRITABLE_ORIGINS:
        raise InvalidInput(f"a value is from {origin!r}; it can be from {', '.join(WRITABLE_ORIGINS)}")
    value = value_from_text(
        parts["is"], kind, bare_length=bare_length, origin=cast(Origin, origin), by=parts.get("by", "")
    )
    if "plus_minus" not in parts:
        return value
    if value.unknown or value.distribution == "rectangular":
        raise InvalidInput(f"plus_minus goes with one number, not with {value.text!r}")
    half_width = half_width_from_text(parts["plus_minus"], kind, value.value, bare_length=bare_length)
    return from_half_width(value.value, half_width, origin=value.origin, by=value.by, text=value.text)


def half_width_from_text(text: str, kind: Kind, of: float, *, bare_length: BareLength = None) -> float:
    """Read a ``plus_minus``: an amount in the unit of the value, or a percentage of it."""
    if text.rstrip().endswith("%") and kind != "share":
        half_width = parse_quantity(text, "share").value * abs(of)
    else:
        half_width = parse_difference(text, kind, bare_length=bare_length)
    if half_width < 0.0:
        raise InvalidInput(f"plus_minus is {text!r}; it is an amount, so not below zero")
    return half_width


def value_from_plain(raw: Any, kind: Kind) -> Value:
    """Read a value written in Python: text as in the file, a mapping with ``is``, or a number in SI."""
    if isinstance(raw, Value):
        return raw
    if isinstance(raw, Mapping):
        return value_with_origin({str(key): str(item) for key, item in raw.items()}, kind)
    if isinstance(raw, (int, float)) and not isinstance(raw, bool) and math.isfinite(raw):
        return Value(float(raw))
    return value_from_text(str(raw), kind)
