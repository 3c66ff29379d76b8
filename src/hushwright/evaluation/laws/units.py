"""Units named in the texts of laws: which kinds of quantity they are, and typed numbers in them."""

from __future__ import annotations

import math
import re
from functools import cache
from typing import Final, get_args

from hushwright.units import KINDS, Kind, UnreadableQuantity, parse_difference, parse_quantity

_PLAIN = str.maketrans({"²": "2", "³": "3", "⁴": "4", " ": None, "\u00a0": None})
_NUMBER = re.compile(r"([-+−]?\s?(?:[0-9]+(?:[.,][0-9]*)?|[.,][0-9]+)(?:[eE][-+]?[0-9]+)?)\s*(.*)")
_COUNT = re.compile(r"^[0-9]+\s*[x×*]\s*")
_ENDLESS = re.compile(r"([-−]?)inf(?:inite)?\b.*")
_NOT_OURS: Final = ("-", "g", "K", "F", "H", "a", "d", "C", "%")
"""Units whose sign is that of another one in a build file: standard gravity, a difference in kelvins, farad, year."""

_DIFFERENCE: Final = "K"


@cache
def kinds_of(unit: str, name: str = "") -> tuple[Kind, ...]:
    """Kinds of quantity that a unit of a law's text can stand for, the likeliest first.

    Examples
    --------
    >>> kinds_of("Pa", "youngs_modulus"), kinds_of("m³/s"), kinds_of("kg·m²")
    (('modulus', 'pressure'), ('volume_flow',), ())
    """
    if unit in _NOT_OURS:
        return ()
    plain = unit.translate(_PLAIN)
    found: list[Kind] = [kind for kind in get_args(Kind) if plain in KINDS[kind].units]
    if plain == "dB":
        found.append("level_a")
    return tuple(sorted(found, key=lambda kind: kind not in name))


def number_in(typed: str, unit: str, name: str = "") -> float:
    """Number that a law takes, in the unit of its text, from what was typed.

    Raises
    ------
    UnreadableQuantity
        If it is no quantity of that unit.

    Examples
    --------
    >>> number_in("900 mm", "m"), number_in("9 °F", "K"), number_in("0.12 m²·K/W", "m²·K/W"), number_in("40 %", "-")
    (0.9, 5.0, 0.12, 0.4)
    """
    endless = _ENDLESS.fullmatch(typed.strip())
    if endless is not None:
        return -math.inf if endless[1] else math.inf
    if unit == _DIFFERENCE:
        return parse_difference(typed, "temperature")
    problem: UnreadableQuantity | None = None
    for kind in kinds_of(unit, name):
        try:
            found = parse_quantity(typed, kind)
        except UnreadableQuantity as refused:
            problem = problem or refused
            continue
        if found.low < found.high:
            raise UnreadableQuantity(typed, "unreadable-quantity", "one amount stands here, not an interval", "")
        return KINDS[kind].units[unit.translate(_PLAIN)].from_si(found.value)
    if problem is not None:
        raise problem
    return _plain_number(typed, unit)


def with_last_unit(texts: list[str]) -> list[str]:
    """Several numbers of which the last alone has its unit, each with it: ``100, 200, 400 Hz``."""
    last = _NUMBER.fullmatch(_COUNT.sub("", texts[-1]))
    if last is None or not last[2]:
        return texts
    bare = [found is not None and not found[2] for found in (_NUMBER.fullmatch(_COUNT.sub("", text)) for text in texts)]
    return [f"{text} {last[2]}" if alone else text for text, alone in zip(texts, bare, strict=True)]


def _plain_number(typed: str, unit: str) -> float:
    found = _NUMBER.fullmatch(typed.strip())
    wanted = "a plain number" if unit in ("-", "") else f"a number in {unit}"
    if found is None:
        raise UnreadableQuantity(typed, "unreadable-quantity", "it is no number", f"expected is {wanted}")
    rest = found[2].strip()
    share = parse_quantity(f"1 {rest}", "concentration").value if unit == "-" and rest in ("%", "ppm") else None
    if share is None and rest and rest.translate(_PLAIN) != unit.translate(_PLAIN):
        raise UnreadableQuantity(typed, "wrong-unit", f"{rest!r} is not the unit here", f"expected is {wanted}")
    number = float(found[1].replace(",", ".").replace("−", "-").replace(" ", ""))
    return number if share is None else number * (0.01 if rest == "%" else 1e-6)
