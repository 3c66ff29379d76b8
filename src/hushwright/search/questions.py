"""The questions of the first look, and the answers in SI."""

from __future__ import annotations

import re
from collections.abc import Mapping
from dataclasses import dataclass, fields

from hushwright.errors import Diagnostic, InvalidInput, Place
from hushwright.library.library import Library, UnknownRecord, plain
from hushwright.units import format_quantity, parse_quantity
from hushwright.units.as_typed import Unclear, plainly
from hushwright.units.kinds import Kind

USES = ("recording", "voice", "interviews", "hearing tests", "broadcast", "other")
WEIGHTS = ("light", "usual", "heavy")
USUAL, CHOOSE, UNKNOWN = "usual", "choose", "unknown"


@dataclass(frozen=True, slots=True)
class Question:
    """One question: what it asks, how the answer is written, and why it is asked."""

    key: str
    asks: str
    why: str
    default: str
    kind: Kind | None = None
    choices: tuple[str, ...] = ()
    low: float | None = None
    high: float | None = None
    instead: str = ""
    is_more: bool = False
    """Whether its usual answer mostly does, so that it need not be asked first."""


@dataclass(frozen=True, slots=True)
class Answers:
    """Answers in SI; a level of ``None`` takes the library's, a limit of ``""`` the usual one for the use."""

    body: str
    use: str
    quiet_people: int
    control_people: int
    crew: int
    tallest: float
    place: str
    outdoor_level: float | None
    quiet: str
    latitude: float
    hottest: float
    hours: float
    gear: float
    weight: str
    budget: tuple[float, str] | None
    level_within: float | None = None
    """dB, what the level outdoors is sure to, plus or minus; ``None`` takes a meter's."""


def questions(library: Library) -> tuple[Question, ...]:
    """Questions in the order in which a builder asks them, with the library's names to choose from."""
    bodies = tuple(library.records("body"))
    places = tuple(library.records("outdoors"))
    return (
        Question("body", "Which body?", "Sets length, height, axles and plated masses; typical figures with ranges.",
                 "long high roof, rear drive", choices=bodies),
        Question("use", "What is it for?", "Chooses the usual targets; `other` is a van without a quiet room.",
                 "recording", choices=USES),
        Question("quiet_people", "How many people are in the quiet room?", "They need length, air and cooling.", "2",
                 low=0, high=8),
        Question("control_people", "How many people are in the control room?", "They breathe first.", "1", low=0,
                 high=4),
        Question("crew", "How many people ride along?", "They count on the axles.", "2", low=1, high=6),
        Question("tallest", "How tall is the tallest who stands inside?", "Headroom is held against it.", "1.80 m",
                 kind="length", low=1.2, high=2.3),
        Question("place", "Where does it stand while it works?", "Chooses the spectrum outdoors.", "village square",
                 choices=places),
        Question("outdoor_level", "How loud is it there?",
                 "A level from a meter beats the library's: `70 dB(A)`, or `70 ±1 dB(A)` for how sure it is.", UNKNOWN,
                 kind="level_a", low=20, high=110, instead=UNKNOWN),
        Question("quiet", "How quiet must it be inside?", "For example `30 dB(A)`, `NC 20`, `hearing test 250 Hz`.",
                 USUAL, instead=USUAL),
        Question("latitude", "At which latitude?", "Sun on roof and panels; south is negative.", "50°", kind="latitude",
                 low=-1.15, high=1.15, is_more=True),
        Question("hottest", "How warm is the hottest day there?", "Sets the cooler.", "28 °C", kind="temperature",
                 low=15, high=48, is_more=True),
        Question("hours", "How many hours of work without a plug?", "Sets the bank.", "4 h", kind="time", low=600,
                 high=86400),
        Question("gear", "How much power does the equipment take?", "It warms the rooms and empties the bank.", "250 W",
                 kind="power", low=0, high=5000, is_more=True),
        Question("weight", "How heavy may the quiet room be built?", "Left to the look, all three are tried.", CHOOSE,
                 choices=(*WEIGHTS, CHOOSE), is_more=True),
        Question("budget", "What may it cost?", "An amount with its currency, for example `45000 EUR`; without tax.",
                 UNKNOWN, instead=UNKNOWN),
    )  # fmt: skip


def read_answers(typed: Mapping[str, str], library: Library) -> tuple[Answers | None, tuple[Diagnostic, ...]]:
    """Answers from what was typed; what is left out takes its default.

    Parameters
    ----------
    typed : mapping of str to str
        Answer by the key of its question.
    library : Library
        Names that can be chosen.

    Returns
    -------
    answers, diagnostics
        ``None`` where an answer cannot be read; every problem at once.
    """
    asked = questions(library)
    known = {each.key: each for each in asked}
    problems = [_unknown_key(key, typed[key], tuple(known)) for key in typed if key not in known]
    found: dict[str, object] = {}
    for question in asked:
        text = typed.get(question.key, "").strip() or question.default
        try:
            found[question.key] = _read(question, plain_answer(question, text), library)
        except InvalidInput as problem:
            hint = getattr(problem, "hint", "")
            note = getattr(problem, "note", "") or str(problem)
            problems.append(
                Diagnostic("unreadable-answer", Place("the answers", path=(question.key,)), text, note, hint)
            )
    if problems:
        return None, tuple(problems)
    found["outdoor_level"], found["level_within"] = found["outdoor_level"] or (None, None)  # type: ignore[misc]
    return Answers(**{each.name: found[each.name] for each in fields(Answers)}), ()  # type: ignore[arg-type]


def plain_answer(question: Question, text: str) -> str:
    """An answer in the plain form: no grouping, a decimal point, the unit of the usual answer where none is typed.

    Raises
    ------
    Unclear
        If it can mean several things.

    Examples
    --------
    >>> plain_answer(Question("tallest", "How tall?", "", "1.80 m", kind="length", low=1.2, high=2.3), "1,88")
    '1.88 m'
    """
    if question.choices or (question.instead and text.casefold() == question.instead):
        return text
    if question.key == "budget":
        return " ".join(_sum_and_currency(text))
    if question.kind is None and question.low is None:
        return text
    if question.key == "outdoor_level" and (sure := _SURE_TO.fullmatch(text)) is not None:
        return f"{plain_answer(question, _level_of(sure)).removesuffix(' dB(A)')} ±{_within_of(sure)} dB(A)"
    return plainly(text, question.kind, low=question.low, high=question.high, standing=question.default)


def _read(question: Question, text: str, library: Library) -> object:
    if question.instead and text.casefold() == question.instead:
        return {UNKNOWN: None, USUAL: ""}[question.instead]
    if question.key == "budget":
        return read_budget(text)
    if question.choices:
        return _chosen(question, text, library)
    if question.key == "outdoor_level":
        sure = _SURE_TO.fullmatch(text)
        level = parse_quantity(text if sure is None else _level_of(sure), "level_a").value
        return _within(question, level, text), None if sure is None else float(_within_of(sure))
    if question.kind is not None:
        value = parse_quantity(text, question.kind).value
        return _within(question, value, text)
    if question.low is not None:
        if not text.isdecimal():
            raise InvalidInput(f"{text} is no whole number, like {question.default}")
        return int(_within(question, int(text), text))
    return text


_SURE_TO = re.compile(
    r"(?P<level>[0-9]+(?:[.,][0-9]+)?) ?(?P<unit>dB ?\(?A\)?)? ?(?:±|\+/-|\+-) ?(?P<within>[0-9]+(?:[.,][0-9]+)?)"
    r" ?(?:dB)?(?: ?\(?A\)?)?", re.IGNORECASE,
)  # fmt: skip
"""A level with how sure it is: ``70 ±1 dB(A)``, ``70 dB(A) +/- 1 dB``."""


def _level_of(sure: re.Match[str]) -> str:
    return f"{sure['level']} {sure['unit'] or 'dB(A)'}"


def _within_of(sure: re.Match[str]) -> str:
    return sure["within"].replace(",", ".")


def read_budget(text: str) -> tuple[float, str]:
    """Amount and currency of a budget.

    Raises
    ------
    InvalidInput
        If it is no amount with the three letters of a currency.

    Examples
    --------
    >>> read_budget("45 000 EUR")
    (45000.0, 'EUR')
    """
    number, currency = _sum_and_currency(text)
    return float(number), currency


def _sum_and_currency(text: str) -> tuple[str, str]:
    """Plain number and three letters, whichever stands first."""
    found = _BUDGET.fullmatch(" ".join(text.replace("€", " EUR ").split()))
    if found is None:
        raise InvalidInput(f"{text!r} is no amount with the three letters of its currency, like 45000 EUR")
    try:
        number = plainly(found["sum"].strip(), "money", low=0.0)
    except Unclear as problem:
        letters = (found["first"] or found["last"] or "EUR").upper()
        raise Unclear(problem.asks, tuple(f"{each} {letters}" for each in problem.offers)) from None
    letters = (found["first"] or found["last"] or "").upper()
    if not letters:
        raise Unclear(f"{text} of which currency", (f"{number} EUR", "another three letters"))
    return number, letters


_BUDGET = re.compile(
    r"(?P<first>[A-Za-z]{3})? ?(?P<sum>[0-9][0-9.,'’ \u00a0\u202f\u2009\u2007]*?) ?(?P<last>[A-Za-z]{3})?"
)


def _chosen(question: Question, text: str, library: Library) -> str:
    by_name = {plain(name): name for name in question.choices}
    if plain(text) in by_name:
        return by_name[plain(text)]
    kind = {"body": "body", "place": "outdoors"}.get(question.key, "")
    if kind:
        try:
            return library.find(kind, text).name
        except UnknownRecord:
            pass
    import difflib

    near = difflib.get_close_matches(plain(text), by_name, n=2, cutoff=0.5)
    hint = " or ".join(by_name[each] for each in near) if near else "; ".join(question.choices)
    problem = InvalidInput(f"{text!r} is none of the choices")
    problem.hint = f"perhaps {hint}?" if near else f"there are {hint}"  # type: ignore[attr-defined]
    raise problem


def _within(question: Question, value: float, text: str) -> float:
    low, high = question.low, question.high
    if (low is not None and value < low) or (high is not None and value > high):
        raise InvalidInput(f"{text} is outside what this look can answer for, {_limits(question)}")
    return value


def _limits(question: Question) -> str:
    ends = [f"{each:g}" if question.kind is None else format_quantity(each, question.kind, "metric", 3)
            for each in (question.low, question.high) if each is not None]  # fmt: skip
    return " to ".join(ends)


def _unknown_key(key: str, value: str, known: tuple[str, ...]) -> Diagnostic:
    import difflib

    near = difflib.get_close_matches(key, known, n=1)
    hint = f"perhaps {near[0]}?" if near else f"there are {', '.join(known)}"
    return Diagnostic("unknown-question", Place("the answers", path=(key,)), value, "no question is called that", hint)
