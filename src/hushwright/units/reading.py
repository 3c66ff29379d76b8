"""Quantities as a workshop writes them to SI: a closed parser that refuses what it does not understand."""

from __future__ import annotations

import math
import re
from fractions import Fraction
from typing import NamedTuple

from hushwright.errors import InvalidInput
from hushwright.units.kinds import KINDS, BareLength, Kind, KindOfQuantity, Unit, spoken


class UnreadableQuantity(InvalidInput):
    """A text is not a quantity of the expected kind; ``note`` says why, ``hint`` what to write instead."""

    def __init__(self, text: str, reference: str, note: str, hint: str) -> None:
        shown = text if len(text) <= 60 else f"{text[:57]}…"
        super().__init__(f"{shown!r}: {note}; {hint}")
        self.text = text
        self.reference = reference
        self.note = note
        self.hint = hint


class ParsedQuantity(NamedTuple):
    """A quantity in SI; ``low`` and ``high`` differ from ``value`` (the middle) only for an interval."""

    value: float
    low: float
    high: float


# One look at the text turns every typographic form into the plain one.
_PLAIN = str.maketrans({
    "\u00a0": " ", "\u202f": " ", "\u2009": " ", "\u2007": " ", "\t": " ", "−": "-", "²": "2", "³": "3", "⁴": "4",
    "′": "'", "’": "'", "‘": "'", "″": '"', "“": '"', "”": '"', "⋅": "·", "∙": "·", "º": "°", "⁄": "/", "ℓ": "l",
    "½": " 1/2", "¼": " 1/4", "¾": " 3/4", "⅛": " 1/8", "⅜": " 3/8", "⅝": " 5/8", "⅞": " 7/8", "℃": "°C", "℉": "°F",
})  # fmt: skip
_COMMON = re.compile(r"([-+]?[0-9]+(?:\.[0-9]+)?) ?([A-Za-z°%][^ ]*)?")
_NUMBER = r"(?:[0-9]+[ -][0-9]+/[0-9]+|[0-9]+/[0-9]+|[0-9]+(?:[.,][0-9]+)?(?:[eE][-+]?[0-9]+)?|[.,][0-9]+)"
_SIGNED = re.compile(rf"([-+]?) ?({_NUMBER})(?![0-9.,/]) ?(.*)")
_PART = re.compile(rf"({_NUMBER}) ?([A-Za-z]+\.?)(?: |(?=[0-9])|$)")
_BARE = re.compile(rf"[-+]?{_NUMBER}")
_JOINED = re.compile(r" ?([/·(°]) ?|\b(sq|cu|deg|Pa|kPa|N|kN|in|dB) (?=[A-Za-z(])")
_GROUPED = re.compile(r"0*[1-9][0-9]{0,2}(?:,[0-9]{3})+")
_COMPOUNDS: dict[str, tuple[tuple[str, ...], tuple[int, ...]]] = {
    # Units from the greatest down, and how many of each make one of the unit before.
    "length": (("ft", "in"), (0, 12)),
    "time": (("day", "h", "min", "s"), (0, 24, 60, 60)),
    "mass": (("lb", "oz"), (0, 16)),
}


def parse_quantity(text: str, kind: Kind, *, bare_length: BareLength = None) -> ParsedQuantity:
    """Read a quantity as a workshop writes it.

    Parameters
    ----------
    text
        ``93 mm``, ``1 1/2 in``, ``6'3"``, ``1,83 m``, ``4 h 30 min``, ``85..100 mm`` and the like.
    kind
        Which kind is expected; a unit of another kind is refused.
    bare_length
        Unit of a length without one, where the file has declared it.

    Returns
    -------
    ParsedQuantity
        Value and ends in SI (see the module for the exceptions).

    Raises
    ------
    InvalidInput
        If the text is not a quantity of this kind; the message shows the text and an example.

    Examples
    --------
    >>> parse_quantity("6 ft 3 in", "length").value
    1.905
    >>> low_to_high = parse_quantity("85..100 mm", "length")
    >>> (low_to_high.low, low_to_high.high)
    (0.085, 0.1)
    """
    common = _COMMON.fullmatch(text)
    if common is not None:
        unit = KINDS[kind].units.get(common[2])
        if unit is not None:
            value = float(common[1]) * unit.multiplier / unit.divisor + unit.offset
            if kind != "share" and math.isfinite(value):
                return ParsedQuantity(value, value, value)
    return _parse_slowly(text, kind, bare_length)


def parse_difference(text: str, kind: Kind, *, bare_length: BareLength = None) -> float:
    """Read a difference of two quantities of a kind: as the quantity, but no zero point (``2 °F`` is 1.11 K).

    Examples
    --------
    >>> round(parse_difference("9 °F", "temperature"), 6)
    5.0
    """
    parsed = parse_quantity(text, kind, bare_length=bare_length)
    if parsed.low < parsed.high:
        raise _refused(text, "unreadable-quantity", "one amount stands here, not an interval", KINDS[kind])
    if kind == "temperature":
        return parsed.value - _last_unit(text, KINDS[kind]).offset
    return parsed.value


def _parse_slowly(text: str, kind: Kind, bare_length: BareLength) -> ParsedQuantity:
    plain = " ".join(text.translate(_PLAIN).split())
    expected = KINDS[kind]
    ends = [end.strip() for end in plain.split("..")]
    if len(ends) == 1:
        value = _parse_one(plain, text, expected, bare_length)
        return ParsedQuantity(value, value, value)
    if len(ends) != 2 or not all(ends) or ends[0].endswith(".") or ends[1].startswith("."):
        raise _refused(text, "unreadable-quantity", "an interval has two ends, like 85..100 mm", expected)
    low_text, high_text = ends
    if _BARE.fullmatch(low_text):
        low_text = f"{low_text} {_unit_text(high_text)}".strip()
    low = _parse_one(low_text, text, expected, bare_length)
    high = _parse_one(high_text, text, expected, bare_length)
    if low > high:
        raise _refused(text, "unreadable-quantity", "the first end of the interval is the greater one", expected)
    return ParsedQuantity((low + high) / 2.0, low, high)


def _parse_one(plain: str, typed: str, expected: KindOfQuantity, bare_length: BareLength) -> float:
    if expected.name == "length":
        plain = plain.replace("''", '"').replace("'", " ft ").replace('"', " in ").strip()
        plain = " ".join(plain.split())
    match = _SIGNED.fullmatch(plain)
    if match is None:
        raise _refused(typed, "unreadable-quantity", _why_no_number(plain), expected)
    sign = -1.0 if match[1] == "-" else 1.0
    number = _number(match[2], typed, expected)
    rest = match[3]
    if not rest:
        value = _bare(number, typed, expected, bare_length)
    elif expected.name in _COMPOUNDS and any(character.isdigit() for character in rest):
        value = _compound(plain[match.start(2) :], typed, expected)
    else:
        unit = _unit(rest, typed, expected)
        value = unit.to_si(sign * number)
        sign = 1.0
    if not math.isfinite(value):
        raise _refused(typed, "unreadable-quantity", "the number is too great to be meant", expected)
    value = sign * value
    if expected.name == "share" and not 0.0 <= value <= 1.0:
        raise _refused(typed, "out-of-range", "a share lies between 0 and 1 (0 % and 100 %)", expected)
    return value


def _number(text: str, typed: str, expected: KindOfQuantity) -> float:
    if "/" in text:
        *whole, fraction = re.split("[ -]", text)
        top, bottom = fraction.split("/")
        if int(bottom) == 0:
            raise _refused(typed, "unreadable-quantity", f"{fraction} divides by zero", expected)
        return float(Fraction(int(top), int(bottom)) + sum(int(part) for part in whole))
    if _GROUPED.fullmatch(text):
        closed, dotted = text.replace(",", ""), text.replace(",", ".", 1)
        note = f"{text} can mean {closed} or {dotted}"
        raise UnreadableQuantity(typed, "ambiguous-number", note, f"write {closed} or {dotted}")
    return float(text.replace(",", "."))


def _bare(number: float, typed: str, expected: KindOfQuantity, bare_length: BareLength) -> float:
    if expected.bare:
        return number
    if expected.name == "length" and bare_length is not None:
        return expected.units[bare_length].to_si(number)
    hint = _example(expected)
    if expected.name == "length":
        hint += ", or declare lengths: mm at the top of the file"
    raise UnreadableQuantity(typed, "bare-number", "the number has no unit", hint)


def _compound(plain: str, typed: str, expected: KindOfQuantity) -> float:
    """Read ``6 ft 3 in``: whole numbers of falling units, added up in the last unit so that nothing is rounded."""
    order, ratios = _COMPOUNDS[expected.name]
    parts = _PART.findall(plain)
    if "".join(f"{number}{unit}" for number, unit in parts).replace(" ", "") != plain.replace(" ", ""):
        raise _refused(typed, "unreadable-quantity", _why_no_unit(_unit_text(plain)), expected)
    total, before = 0.0, -1
    unit = None
    for number_text, unit_text in parts:
        unit = _unit(unit_text, typed, expected)
        number = _number(number_text, typed, expected)
        at = order.index(unit.text) if unit.text in order else -1
        if at <= before or not float(total).is_integer():
            raise _refused(typed, "unreadable-quantity", "the parts do not follow each other in size", expected)
        if before >= 0:
            ratio = math.prod(ratios[before + 1 : at + 1])
            if number >= ratio:
                note = f"{number_text} {unit_text} is not less than one {order[before]}"
                raise _refused(typed, "unreadable-quantity", note, expected)
            total *= ratio
        total, before = total + number, at
    assert unit is not None
    return unit.to_si(total)


def _unit(text: str, typed: str, expected: KindOfQuantity) -> Unit:
    found = expected.units.get(text)
    if found is not None:
        return found
    tidy = _tidy(text)
    found = expected.units.get(tidy) or expected.either_case.get(tidy.casefold())
    if found is not None:
        return found
    near = next((name for name in expected.units if name.casefold() == tidy.casefold()), "")
    if near:
        raise _refused(typed, "wrong-unit", f"{text} is not {near}, capitals matter here", expected)
    kinds = [kind.name for kind in KINDS.values() if tidy in kind.units]
    if kinds:
        note = f"{text} is a unit of {spoken(kinds[0])}, not of {spoken(expected.name)}"
        raise _refused(typed, "wrong-unit", note, expected)
    reference = "unreadable-quantity" if any(character.isdigit() for character in text) else "wrong-unit"
    raise _refused(typed, reference, _why_no_unit(text), expected)


def _tidy(unit: str) -> str:
    unit = unit.replace("**", "").replace("^", "").replace("*", "·").replace(".", "")
    return _JOINED.sub(lambda match: match[1] or match[2], unit)


def _last_unit(text: str, expected: KindOfQuantity) -> Unit:
    plain = " ".join(text.translate(_PLAIN).split())
    return _unit(_unit_text(plain), text, expected)


def _unit_text(plain: str) -> str:
    match = _SIGNED.fullmatch(plain)
    return match[3] if match is not None else ""


def _why_no_number(plain: str) -> str:
    if not plain:
        return "there is no value"
    if re.match(r"[-+]?[0-9]+(?:[.,'][0-9]{3})*[.,'][0-9]{3}(?![0-9])", plain):
        return "the number is grouped; write it without grouping"
    return "it does not begin with a number"


def _why_no_unit(text: str) -> str:
    if "±" in text or "+-" in text or "+/-" in text:
        return "a tolerance is written {is: 93 mm, plus_minus: 2 mm}"
    if re.match("[-–—] ?[0-9]", text):
        return "an interval is written with two dots, 85..100 mm"
    if re.match("[0-9]{3}", text):
        return "a number is written without a space in it"
    if re.search("[0-9]$", text):
        return "the last number has no unit"
    shown = text if len(text) <= 40 else f"{text[:37]}…"
    return f"{shown!r} is no unit known here"


def _example(expected: KindOfQuantity) -> str:
    return f"expected is {spoken(expected.name)} like {expected.example}"


def _refused(typed: str, reference: str, note: str, expected: KindOfQuantity) -> UnreadableQuantity:
    return UnreadableQuantity(typed, reference, note, _example(expected))
