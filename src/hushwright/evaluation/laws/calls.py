"""One law computed by hand: what was typed to arguments, and what comes back to names, numbers and units."""

from __future__ import annotations

import dataclasses
import inspect
import re
import warnings
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from typing import Any

import numpy as np

from hushwright.errors import Diagnostic, InvalidInput
from hushwright.evaluation.laws.kinds import TYPED, Node, cannot_be_typed
from hushwright.evaluation.laws.laws import Law, fields_of, units_in
from hushwright.evaluation.laws.values import Reader, Unread

Plain = float | int | complex | bool | str | None | tuple["Plain", ...]

_REMARKS = ("note", "notes", "remark", "remarks", "caution", "cautions", "validity")
"""Fields of results that say where a law was asked beyond its range."""


@dataclass(frozen=True)
class Amount:
    """Something named with its unit: a value, or parts that have their own names."""

    name: str
    unit: str
    value: Plain
    parts: tuple[Amount, ...] = ()
    derived: bool = False


@dataclass(frozen=True)
class Answer:
    """A law with what it was given, what came out, and what is to be kept in mind."""

    law: Law
    given: tuple[Amount, ...]
    found: Amount
    remarks: tuple[str, ...]


def computed(law: Law, typed: Sequence[str]) -> tuple[Answer | None, tuple[Diagnostic, ...]]:
    """Answer of a law to `parameter=value` texts, or every problem of them."""
    reader = Reader(f"hushwright law {law.name}")
    node = _parted(typed, reader)
    barred = cannot_be_typed(law.parameters, law.function)
    if barred:
        reader.problems.clear()
        reader.refuse(law.name, "", f"takes what cannot be typed: {', '.join(barred)}", beyond_hand(law))
        return None, tuple(reader.problems)
    try:
        arguments = reader.parameters(law.parameters, law.function, node)
    except Unread:
        return None, tuple(reader.problems)
    if reader.problems:
        return None, tuple(reader.problems)
    units = {one.name: one.units[0] if one.units else "" for one in law.parameters}
    given = tuple(_as_given(_amount(name, units[name], value)) for name, value in arguments.items())
    found, remarks = _called(law, arguments, {name: part.get(TYPED, "") for name, part in node.items()}, reader)
    if reader.problems:
        return None, tuple(reader.problems)
    if inspect.isclass(law.function):
        follows = tuple(part for part in _members(found) if part.derived)
        return Answer(law, given, Amount("", "", None, follows), remarks), ()
    answer = _amount("", law.result_units[0] if law.result_units else "", found, law.result_units)
    remarks += tuple(dict.fromkeys((*_said(answer), *_not_finite(answer))))
    return Answer(law, given, answer, remarks), ()


def beyond_hand(law: Law) -> str:
    """How a law is used whose arguments cannot be typed."""
    by_domain = {
        "acoustics": "`hushwright partition FILE` and `hushwright check FILE` compute with it from a file",
        "airflow": "`hushwright timeline FILE` and `hushwright check FILE` compute the air of a build file",
        "thermal": "`hushwright check FILE --only Heat` computes the heat of a build file",
    }
    return by_domain.get(law.domain, "`hushwright check FILE` computes a whole build file")


def _parted(typed: Sequence[str], reader: Reader) -> Node:
    """Texts by the parts of their names."""
    tree: Node = {}
    for text in typed:
        name, equals, value = text.partition("=")
        keys = [key.strip().replace("-", "_").replace(" ", "_") for key in name.split(".")]
        if not equals or not all(keys):
            reader.refuse(text, "", "is no argument", "write parameter=value, in quotes where it holds a space")
            continue
        at = tree
        for key in keys:
            at = at.setdefault(key, {})
        if TYPED in at:
            reader.refuse(".".join(keys), value, "is given twice", "give it once")
        at[TYPED] = value.strip()
    return tree


def _called(law: Law, arguments: dict[str, Any], typed: dict[str, str], reader: Reader) -> tuple[Any, tuple[str, ...]]:
    """What a law gives, with the warnings it gave; a refusal is a problem at the argument that it names."""
    listed = [each for one in law.parameters if one.several for each in arguments.get(one.name, ())]
    named = {name: arguments[name] for name in arguments if not _is_open(name, law)}
    for one in law.parameters:
        named |= arguments.get(one.name, {}) if one.keyed else {}
    with warnings.catch_warnings(record=True) as caught, np.errstate(all="ignore"):
        warnings.simplefilter("always")
        try:
            found = law.function(*listed, **named)
        except InvalidInput as refused:
            name = _named_in(str(refused), law)
            reader.refuse(name, typed.get(name, ""), " ".join(str(refused).split()), _rule(law), "out-of-range")
            return None, ()
        except (ArithmeticError, ValueError, TypeError, LookupError, AttributeError, OSError) as problem:
            said = " ".join(str(getattr(problem, "strerror", problem)).split())
            reader.refuse(law.name, "", f"cannot be computed with these values: {said}", _shapes(law))
            return None, ()
    return found, tuple(dict.fromkeys(str(one.message) for one in caught))


def _is_open(name: str, law: Law) -> bool:
    return any(one.name == name and (one.several or one.keyed) for one in law.parameters)


def _named_in(text: str, law: Law) -> str:
    """Parameter that a refusal speaks of, the longest name first; the law itself if it names none."""
    spoken = text.casefold().replace("_", " ")
    names = sorted((one.name for one in law.parameters), key=len, reverse=True)
    return next((name for name in names if name.replace("_", " ") in spoken), law.name)


def _rule(law: Law) -> str:
    return f"`hushwright law {law.name}` says what it takes"


def _shapes(law: Law) -> str:
    return f"lists belong together by their lengths; {_rule(law)}"


def _amount(name: str, unit: str, value: Any, units: tuple[str, ...] = ()) -> Amount:
    if dataclasses.is_dataclass(value) and not isinstance(value, type):
        return Amount(name, "", None, tuple(_members(value)))
    if isinstance(value, Mapping):
        return Amount(name, "", None, tuple(_amount(str(key), unit, each) for key, each in value.items()))
    plain = _plain(value)
    if plain is not _NO_PLAIN:
        return Amount(name, "" if isinstance(plain, str | bool) else unit, plain)
    each_unit = units if len(units) == len(value) else (unit,) * len(value)
    return Amount(name, "", None, tuple(_amount(str(at), each_unit[at], one) for at, one in enumerate(value)))


def _as_given(amount: Amount) -> Amount:
    """What was typed, without what follows from it."""
    parts = tuple(_as_given(part) for part in amount.parts if not part.derived)
    return dataclasses.replace(amount, parts=parts)


def _members(value: Any) -> Iterator[Amount]:
    """Fields of a small value, and what its properties give where that is plain."""
    for one in fields_of(type(value)):
        yield _amount(one.name, one.units[0] if one.units else "", getattr(value, one.name))
    for name, member in vars(type(value)).items():
        if isinstance(member, property) and not name.startswith("_"):
            units = units_in(member.fget.__doc__ or "")
            try:
                found = getattr(value, name)
            except (ArithmeticError, ValueError, TypeError, LookupError):
                continue  # it has none here
            if not callable(found):
                amount = _amount(name, units[0] if units else "", found)
                yield dataclasses.replace(amount, derived=True)


_NO_PLAIN: Any = object()


def _plain(value: Any) -> Any:
    """Value of numbers, words and rows of them; a mark where small values are among them."""
    if isinstance(value, np.ndarray | np.generic):
        value = value.tolist()
    if value is None or isinstance(value, bool | int | float | complex | str):
        return value
    if dataclasses.is_dataclass(value):
        return _NO_PLAIN
    if not isinstance(value, Sequence):
        return str(value)
    parts = tuple(_plain(each) for each in value)
    kinds = {type(each) for each in parts}
    return _NO_PLAIN if any(each is _NO_PLAIN for each in parts) or _mixed(kinds) else parts


def _mixed(kinds: set[type]) -> bool:
    """Whether a row holds different things, each of which wants its own line."""
    return len(kinds) > 1 and (tuple in kinds or str in kinds)


def _said(amount: Amount) -> Iterator[str]:
    """Remarks among the parts of a result."""
    if amount.name in _REMARKS and amount.value:
        yield from (amount.value,) if isinstance(amount.value, str) else map(str, _row_of(amount.value))
    for part in amount.parts:
        yield from _said(part)


def _row_of(value: Plain) -> tuple[Plain, ...]:
    return value if isinstance(value, tuple) else (value,)


def _not_finite(amount: Amount) -> Iterator[str]:
    if re.search(r"\b(?:nan|inf)\b", repr(amount.value)) and not isinstance(amount.value, str):
        yield f"{amount.name or 'the result'} is not a finite number throughout: the law has no answer there"
    for part in amount.parts:
        yield from _not_finite(part)
