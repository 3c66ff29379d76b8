"""What has to be so on the spot, venue by venue."""

from __future__ import annotations

from dataclasses import replace

from hushwright.evaluation.results import Evaluation, Quantity
from hushwright.model.safety_in_place import VenueInPlace
from hushwright.verdicts.check import Case, Check
from hushwright.verdicts.safety_cases import VENUE, doubted, limit_of, spoken

_RIGHT = {"no cable": 0.0, "covered": 0.0, "marked": 0.0, "open": 1.0}
_LIT = {"by day only": 0.0, "lit": 0.0, "dark": 1.0}


def _quantity(evaluation: Evaluation, venue: VenueInPlace, field: str, kind: str, what: str) -> Quantity:
    """Value at a venue with the spread it was typed with; what nobody says is told."""
    known = evaluation.quantities.get(f"venue-{field}/{venue.name}")
    return known if known is not None else Quantity(0.0, kind, validity=(f"nobody says {what}",), known=False)


def _case(venue: VenueInPlace, quantity: Quantity, limit: float, basis: str, field: str, hint: str, ask: str) -> Case:
    return Case(venue.name, "", quantity, limit, basis, f"{venue.place}.{field}", hint=hint, caution=VENUE,
                question=ask.format(spoken(venue.name)))  # fmt: skip


def _supply(evaluation: Evaluation) -> tuple[Case, ...]:
    limit, basis, doubt = limit_of(evaluation, "residual current")
    return tuple(
        _case(venue, doubted(_quantity(evaluation, venue, "residual_current", "current",
                                       "at which residual current the supply is cut off"), doubt),
              limit, basis, "residual_current", "carry a protection of your own on the inlet",
              "Does the supply at {} cut off on a small residual current?")
        for venue in evaluation.build.venues
        if venue.supply != "none"
    )  # fmt: skip


def _cable(evaluation: Evaluation) -> tuple[Case, ...]:
    return tuple(
        _case(venue, doubted(_quantity(evaluation, venue, "cable", "length", "how long the cable is"),
                             venue.longest_cable.doubt), venue.longest_cable.value, venue.longest_cable.basis, "cable",
              "take a cable {short} shorter, or a thicker one, wholly unrolled, from a nearer socket", "Is the cable"
                                                                                                       " at {} short"
                                                                                                       " enough?")
        for venue in evaluation.build.venues
        if venue.supply != "none"
    )  # fmt: skip


def _generator(evaluation: Evaluation) -> tuple[Case, ...]:
    limit, basis, doubt = limit_of(evaluation, "generator to the van")
    return tuple(
        _case(venue, doubted(_quantity(evaluation, venue, "generator_distance", "length", "how far the generator is"),
                             doubt), limit, basis, "generator_distance", "set it {short} farther off, downwind,"
                                                                         " exhaust turned away",
              "Does the generator at {} stand far enough away?")
        for venue in evaluation.build.venues
        if venue.supply == "generator"
    )  # fmt: skip


def _level(evaluation: Evaluation) -> tuple[Case, ...]:
    return tuple(
        _case(venue, doubted(_quantity(evaluation, venue, "slope", "angle", "how level the ground is"),
                             venue.steepest.doubt), venue.steepest.value, venue.steepest.basis, "slope",
              "put blocks under two wheels for {short} less, and chocks; doors swing and trolleys roll", "Is the"
                                                                                                         " ground at"
                                                                                                         " {} level"
                                                                                                         " enough?")
        for venue in evaluation.build.venues
    )  # fmt: skip


def _wind(evaluation: Evaluation) -> tuple[Case, ...]:
    cases = []
    for venue in evaluation.build.venues:
        if not venue.awning_out:
            continue
        quantity = _quantity(evaluation, venue, "wind", "speed", "which gusts are forecast")
        if venue.awning_limit is None:
            quantity = replace(doubted(quantity, "nobody says which gusts the awning's maker allows"), known=False)
        cases.append(_case(venue, quantity, venue.awning_limit or 0.0, "gusts that the awning's maker allows, as typed",
                           "awning_limit", "take it in at such gusts, or tie it down; somebody stays by it",
                           "Does the awning at {} bear the gusts?"))  # fmt: skip
    return tuple(cases)


def _walk(evaluation: Evaluation) -> tuple[Case, ...]:
    """Cables under foot and light on the way: each of both that is wrong counts."""
    cases = []
    for venue in evaluation.build.venues:
        unsaid = [what for what, word in (("how cables lie where people walk", venue.cable_way),
                                          ("what light the way has", venue.light)) if word == "not said"]  # fmt: skip
        wrong = _RIGHT.get(venue.cable_way, 0.0) + _LIT.get(venue.light, 0.0)
        notes = tuple(f"nobody says {what}" for what in unsaid) if not wrong else ()
        hint = f"cover cables, light steps and edges; cables: {venue.cable_way}; light: {venue.light}"
        cases.append(_case(venue, Quantity(wrong, "count", validity=notes, known=not notes), 0.0,
                           "no cable to trip over and no dark step: common practice, no source", "cable_way", hint,
                           "Can people walk to the van at {} without falling?"))  # fmt: skip
    return tuple(cases)


_NO_VENUE, _NO_SUPPLY = "no venue is named", "no venue with a supply is named"
CHECKS = (
    Check("venue-supply", "Safety", "Does the supply cut off on a small residual current?", "at_most", _supply,
          _NO_SUPPLY),
    Check("venue-cable", "Safety", "Is the cable short enough?", "at_most", _cable, _NO_SUPPLY),
    Check("venue-generator", "Safety", "Does the generator stand far enough away?", "at_least", _generator,
          "no venue with a generator is named"),
    Check("venue-level", "Safety", "Is the ground level enough?", "at_most", _level, _NO_VENUE),
    Check("venue-wind", "Safety", "Does the awning bear the gusts?", "at_most", _wind,
          "no venue with the awning out is named"),
    Check("venue-walk", "Safety", "Can people walk to the van without falling?", "at_most", _walk, _NO_VENUE,
          counts="what one may fall over"),
)  # fmt: skip
