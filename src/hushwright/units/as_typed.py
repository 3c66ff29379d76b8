"""Numbers as people type them into a field: grouped, with a decimal comma, without the unit that stands there already.

A build file is stricter: what stands in it has one meaning wherever it is read. Here the field is known, so what can
mean one thing only is taken, and written into the file in the plain form; what can mean two is asked.
"""

from __future__ import annotations

import re
from dataclasses import dataclass

from hushwright.errors import InvalidInput
from hushwright.units.kinds import KINDS, BareLength, Kind
from hushwright.units.reading import UnreadableQuantity, parse_quantity

_SPACES = " \u00a0\u202f\u2009\u2007"
_NUMBER = re.compile(
    r"(?<![0-9,/A-Za-z])(?<!(?<!\.)\.)"  # no part of another number; two dots part an interval
    rf"[0-9]+(?:[.,][0-9]+|[{_SPACES}'’][0-9]{{3}}(?![0-9/]))*(?![0-9/])"
)
_GROUPED = re.compile(rf"[1-9][0-9]{{0,2}}(?:([{_SPACES}'’.,])[0-9]{{3}})(?:\1[0-9]{{3}})*")
_TAIL = re.compile(r"[-+]?[0-9][0-9.,/ ]*? ?([^0-9.,/ +-][^0-9]*)")
_LIKELY = 4
"""Most readings of a number without a unit that are worth offering."""


class Unclear(InvalidInput):
    """What was typed can mean several things, or nothing; ``offers`` are texts that would do."""

    hint = ""

    def __init__(self, asks: str, offers: tuple[str, ...] = ()) -> None:
        super().__init__(asks if not offers else f"{asks}: write {' or '.join(offers)}")
        self.asks = asks
        self.note = str(self)
        self.offers = offers


def plainly(
    typed: str, kind: Kind | None, *, low: float | None = None, high: float | None = None, standing: str = "",
    bare_length: BareLength = None,
) -> str:  # fmt: skip
    """Text of a quantity as a build file takes it.

    Parameters
    ----------
    typed : str
        What was typed into a field.
    kind : str or None
        Kind of quantity; ``None`` for a whole number.
    low, high : float or None
        Bounds of the field in SI, which tell the likely meaning from the unlikely one.
    standing : str
        What stands in the field already, or would by default: a number without a unit takes the unit of it.
    bare_length : str or None
        Unit of a length without one, where the file has declared it.

    Returns
    -------
    str
        The plain form: no grouping, a decimal point, a unit.

    Raises
    ------
    Unclear
        If it can mean several things, or cannot be read.

    Examples
    --------
    >>> plainly("1,88", "length", low=1.2, high=2.3, standing="1.80 m")
    '1.88 m'
    >>> plainly("60 000", "money"), plainly("1.234,5 mm", "length"), plainly("93 mm", "length")
    ('60000', '1234.5 mm', '93 mm')
    >>> plainly("1,880", "money")
    Traceback (most recent call last):
    ...
    hushwright.units.as_typed.Unclear: 1,880 can mean 1.88 or 1880: write 1.88 or 1880
    """
    typed = typed.strip()
    if typed in ("", "unknown") or typed[0] in '{["':
        return typed
    field = _Field(kind, low, high, standing, bare_length)
    readings = tuple(dict.fromkeys(field.completed(each) for each in _readings(typed, kind)))
    likely = [each for each in readings if field.fits(each)]
    if len(readings) > 1 and len(likely) != 1:
        numbers = (_NUMBER.search(each) for each in readings)
        raise Unclear(f"{typed} can mean {' or '.join(each[0] for each in numbers if each is not None)}", readings)
    return field.checked((likely or readings)[0])


@dataclass(frozen=True, slots=True)
class _Field:
    """What is known of a field before anything is typed into it."""

    kind: Kind | None
    low: float | None
    high: float | None
    standing: str
    bare_length: BareLength

    def fits(self, text: str) -> bool:
        """Whether a text is a quantity within the bounds."""
        try:
            found = parse_quantity(text, self.kind or "count", bare_length=self.bare_length)
        except InvalidInput:
            return False
        slack = 1e-9 * max(abs(found.low), abs(found.high))
        above = self.low is None or found.low >= self.low - slack
        return above and (self.high is None or found.high <= self.high + slack)

    def completed(self, text: str) -> str:
        """A number without a unit with the unit that stands there, where that fits."""
        if self.kind is None or self._lack(text) is None:
            return text
        whole = self._with_standing_unit(text)
        return whole if self.fits(whole) else text

    def _with_standing_unit(self, text: str) -> str:
        there = _TAIL.fullmatch(self.standing.rsplit("..", 1)[-1].strip())
        return text if there is None else f"{text} {there[1].strip()}"

    def checked(self, text: str) -> str:
        """The text, if it can be read; where a unit is missing the fitting ones are offered."""
        problem = self._lack(text)
        if problem is None or self.kind is None:
            return text
        if problem.reference != "bare-number":
            raise Unclear(f"{problem.note}; {problem.hint}")
        units = dict.fromkeys(each.text for each in KINDS[self.kind].units.values())
        if len(units) == 1 and self.fits(f"{text} {next(iter(units))}"):
            return f"{text} {next(iter(units))}"
        offers = tuple(each for each in (f"{text} {unit}" for unit in units) if self.fits(each))[:_LIKELY]
        if not offers and self._with_standing_unit(text) != text:
            return self._with_standing_unit(text)  # refused with the bounds, which say more
        raise Unclear(f"{text} of which unit", offers or tuple(f"{text} {unit}" for unit in units)[:_LIKELY])

    def _lack(self, text: str) -> UnreadableQuantity | None:
        """Why a text cannot be read, if so."""
        if self.kind is None:
            return None
        try:
            parse_quantity(text, self.kind, bare_length=self.bare_length)
        except UnreadableQuantity as problem:
            return problem
        return None


def _readings(typed: str, kind: Kind | None) -> list[str]:
    """Every plain text that it can mean."""
    texts = [""]
    end = 0
    for match in _NUMBER.finditer(typed):
        meant = _meant(match[0], kind)
        texts = [f"{before}{typed[end : match.start()]}{each}" for before in texts for each in meant][:8]
        end = match.end()
    return [f"{before}{typed[end:]}" for before in texts]


def _meant(number: str, kind: Kind | None) -> tuple[str, ...]:
    """What one number can mean; a single dot is asked only where nobody has thousandths."""
    if kind == "length" and re.search("['’]", number):
        return (number,)  # feet
    grouped = _GROUPED.fullmatch(number)
    if grouped is not None and grouped[1] in ".," and number.count(grouped[1]) == 1:
        closed, dotted = number.replace(grouped[1], ""), number.replace(",", ".")
        if grouped[1] == "." and kind not in ("money", None):
            return (number,)
        return (closed,) if kind is None else (f"{float(dotted):.10g}", closed)
    if grouped is not None:
        return (number.replace(grouped[1], ""),)
    head, mark, rest = _split(number)
    if not mark:
        return (number,)
    inside = _GROUPED.fullmatch(head)
    if inside is not None and inside[1] != mark:
        return (f"{head.replace(inside[1], '')}.{rest}",)
    return (f"{head}.{rest}",) if head.isdecimal() else (number,)


def _split(number: str) -> tuple[str, str, str]:
    """Whole part, the last decimal mark, and what follows it."""
    at = max(number.rfind("."), number.rfind(","))
    return (number, "", "") if at < 0 else (number[:at], number[at], number[at + 1 :])
