"""What the slit at the seals of a door or window counts, in words: whether more rows change anything."""

from __future__ import annotations

from collections.abc import Sequence

from hushwright.evaluation.results import Evaluation, PathLevel
from hushwright.evaluation.sound.seals import HARDLY, SlitShare, slit_share_of

_LEAST_TOLD = 1e-5  # share that is told in figures
_PART = 0.05  # share of all from which on a door is worth a word
_NAMED = 3  # ways that a hint begins with


def said_of_slit(one: SlitShare) -> str:
    """Say what share takes the slit, and whether more rows of seals change anything one can hear."""
    by_it = f"of what gets in by this {one.opening.kind}"
    if one.of_opening < HARDLY:
        return (
            f"The slit at its seals lets through under 1 % ({_fine(one.of_opening)}) {by_it}: more rows of seals change"
            " nothing one can hear."
        )
    state = f", {one.sound.state.replace('_', ' ')}" if one.sound.state else ""
    told = f"The slit at its seals lets through {100.0 * one.of_opening:.0f} % {by_it}"
    heard = f"of all that is heard ({one.sound.name}{state})"
    if one.of_all < HARDLY:
        return f"{told}, but under 1 % {heard}: more rows of seals change nothing one can hear there."
    return f"{told} and {100.0 * one.of_all:.0f} % {heard}: closer seals or more rows gain {one.gain:.1f} dB at most."


def leaf_not_seals(paths: Sequence[PathLevel], evaluation: Evaluation) -> str:
    """Doors and windows among the ways that let most through, whose slit is a small way of theirs; else nothing."""
    doors = [path for path in paths[:_NAMED] if path.kind == "opening" and path.share >= _PART]
    shares = [slit_share_of(evaluation, path.place.removeprefix("openings.")) for path in doors]
    small = [each.opening.name.replace("_", " ") for each in shares if each is not None and each.of_opening < HARDLY]
    if not small:
        return ""
    if len(small) == 1:
        return f"mend {small[0]} itself, not its seals: the slit lets through under 1 % of what gets in there"
    named = " and ".join(small)
    return f"mend {named} themselves, not their seals: the slits let through under 1 % of what gets in there"


def _fine(share: float) -> str:
    return f"{100.0 * share:.1g} %" if share >= _LEAST_TOLD else f"less than {100.0 * _LEAST_TOLD:g} %"
