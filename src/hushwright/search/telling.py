"""The end of a search for quiet in words: what is left, what stood in the way, which ways out there are."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from dataclasses import replace

from hushwright.evaluation.results import Evaluation, PathLevel, Quantity
from hushwright.search.chased import Chased, chased_as, chased_sounds
from hushwright.search.quiet_steps import Ending, Left, Price, Quietened, QuietStep, Refused
from hushwright.verdicts.hints import difference, measured
from hushwright.verdicts.quiet import enough
from hushwright.verdicts.verdict import Verdict

_NAMED = 6  # parts of what is left, and changes that were not taken
_LEAST_SHARE = 0.03
_WORTH = 0.5  # dB, from which on stopping something is told


def quietened(
    first: Verdict,
    whole: Evaluation,
    verdicts: Sequence[Verdict],
    steps: tuple[QuietStep, ...],
    refused: tuple[Refused, ...],
    text: str,
    tried: int,
    *,
    is_cut_short: bool,
    recount: tuple[str, ...] = (),
) -> Quietened:
    """Answer of a search from where it began and the whole Evaluation of where it ended."""
    now = next(each for each in verdicts if each.id == first.id)
    chased = chased_as(whole, first.id)
    assert chased is not None
    assert first.value is not None
    assert first.limit is not None
    assert now.value is not None
    quantity = whole.quantities[chased.key]
    price = Price(money=0.0)
    for each in steps:
        price = price.plus(each.price)
    ranked = tuple(sorted(refused, key=lambda each: -each.gain))[:_NAMED]
    left = tuple(Left(way.name, share) for way, share in zip(chased.ways, chased.shares, strict=True)
                 if share >= _LEAST_SHARE)  # fmt: skip
    return Quietened(
        first.id, first.question, now.kind, now.sense, first.limit, first.value, now.value,
        2.0 * quantity.standard_uncertainty, _ending(now), _met_after(first, steps), steps, price,
        whole.build.costs.currency, ranked, left[:_NAMED], chased.band,
        tuple(_ways_out(whole, verdicts, chased, now, quantity)),
        measured(quantity) if now.verdict != "meets" else "", tried, text, now,
        is_cut_short, tuple(_would_take(chased, now)), recount,
    )  # fmt: skip


def _ending(now: Verdict) -> Ending:
    if now.verdict == "meets":
        return "meets"
    return "number" if now.margin is not None and now.margin >= 0.0 else "short"


def _met_after(first: Verdict, steps: Sequence[QuietStep]) -> int | None:
    """Steps after which the bare number meets."""
    values = [first.value, *(each.value for each in steps)]
    sign = 1.0 if first.sense == "at_most" else -1.0
    return next((at for at, value in enumerate(values)
                 if value is not None and sign * ((first.limit or 0.0) - value) >= 0.0), None)  # fmt: skip


def _ways_out(
    whole: Evaluation, verdicts: Sequence[Verdict], chased: Chased, now: Verdict, quantity: Quantity
) -> Iterator[str]:
    """What would do without any change of the build; the program does none of it."""
    if now.verdict == "meets" or now.margin is None or now.limit is None:
        return
    doubt = 2.0 * quantity.standard_uncertainty
    short = max(-now.margin, 0.0)
    yield from _stopped(whole, chased, now)
    if chased.key.startswith("background/") and not chased.key.startswith("background/rain/"):
        yield from _elsewhere(whole, verdicts, chased)
        if short:
            yield (f"a place or an hour that is {difference(short, now.kind)} quieter outside;"
                   f" {difference(short + doubt, now.kind)} so that it is sure")  # fmt: skip
    if short and now.kind in ("NC", "NR", "level_a"):
        assert now.value is not None
        yield (f"a target of {level_text(math.ceil(now.value), now.kind)} or more;"
               f" {level_text(math.ceil(now.value + doubt), now.kind)} so that it is sure")  # fmt: skip


_INSTEAD = {
    "fan": "another fan, quieter or larger and slower", "flow": "wider ducts, so that the air is slower",
    "gear": "a quieter device, or one outside the room", "bridges": "leaves that nothing ties together",
    "slit": "tighter seals", "duct": "a longer silencer", "hole": "a sealed gland",
    "opening": "a heavier leaf, or two in series",
}  # fmt: skip
"""What a way of each kind needs where no step that was tried is enough."""


def _would_take(chased: Chased, now: Verdict) -> Iterator[str]:
    """The largest ways that are left, with the decibels that each has to lose, and what that asks of the van."""
    if now.margin is None or now.margin >= 0.0:
        return
    ranked = [replace(way, share=share) for way, share in zip(chased.ways, chased.shares, strict=True)]
    count, by = enough(ranked, -now.margin)
    for way in ranked[:count][:_NAMED]:
        yield f"{way.name}: {by} dB less ({100.0 * way.share:.0f} % of what is left): {_instead(way)}"
    if count > _NAMED:
        yield f"{count - _NAMED} more ways, each {by} dB less"


def _instead(way: PathLevel) -> str:
    """What a way needs beyond the steps that were tried."""
    if "mounts" in way.name:
        return "softer mounts under a heavier floor"
    if way.kind in _INSTEAD:
        return _INSTEAD[way.kind]
    if "floor" in way.name:
        return "a heavier floor, or a deeper space under it"
    if "gap" in way.name or "skin" in way.name:
        return "more absorption in the gap, damping on the skin, or a wider gap"
    return "heavier leaves, or a deeper space between them, than the limits of mass and room allow now"


def _stopped(whole: Evaluation, chased: Chased, now: Verdict) -> Iterator[str]:
    """Fans stopped for a take, as long as the air lasts; devices moved out or switched off."""
    room, state = chased.sound.room, chased.sound.state
    for kinds, told in ((("fan", "flow"), "fans stopped for a take"), (("gear",), "devices moved out or switched off")):
        found = chased.without(kinds)
        if found is None or now.value is None or now.value - found.value < _WORTH:
            continue
        lasts = whole.quantities.get(f"without-fan/{room}/{state}") if kinds[0] == "fan" else None
        minutes = "" if lasts is None or not lasts.known else f"; the air lasts {lasts.value / 60.0:.0f} min then"
        yield f"{told}: {level_text(found.value, now.kind)}{minutes}"


def _elsewhere(whole: Evaluation, verdicts: Sequence[Verdict], chased: Chased) -> Iterator[str]:
    """Other places of the brief, in the same state, where it meets or the bare number does."""
    known = {each.id: each for each in verdicts}
    for other in chased_sounds(whole):
        verdict = known.get(other.verdict)
        is_place = other.key.startswith("background/") and not other.key.startswith("background/rain/")
        if other.key == chased.key or not is_place or other.sound.state != chased.sound.state or verdict is None:
            continue
        if verdict.margin is not None and verdict.margin >= 0.0:
            word = "meets" if verdict.verdict == "meets" else "the number meets, it is not sure"
            yield f"another place of the brief, {other.sound.name}: {word}"


def level_text(value: float, kind: str) -> str:
    """Level of a verdict on a sound as one writes it.

    Examples
    --------
    >>> level_text(21.26, "NC"), level_text(33.0, "level_a"), level_text(9.5, "margin")
    ('NC 21.3', '33 dB(A)', '9.5 dB')
    """
    number = f"{round(value, 1):g}"
    if kind in ("NC", "NR"):
        return f"{kind} {number}"
    return f"{number} dB(A)" if kind == "level_a" else f"{number} dB"
