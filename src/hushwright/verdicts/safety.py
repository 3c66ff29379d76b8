"""Linings that burn, the bank's place, exhausts beside intakes; nothing here certifies anything."""

from __future__ import annotations

from collections.abc import Callable

from hushwright.evaluation.results import Evaluation
from hushwright.verdicts import alarms, ways_out
from hushwright.verdicts.check import Case, Check
from hushwright.verdicts.hints import SHORT
from hushwright.verdicts.safety_cases import BANK, EXHAUST, FIRE, library_case, spoken, typed_case


def _burning(evaluation: Evaluation) -> tuple[Case, ...]:
    safety = evaluation.build.safety
    if safety is None:
        return ()
    return tuple(
        library_case(evaluation, each.material, "", f"burning/{each.material}", f"burning rate, {safety.burning_rule}",
                     each.place, hint=f"take a lining that burns {SHORT} slower; told by:"
                                      f" {each.by}" if each.by else _REPORT,
                     caution=FIRE, question=f"Does {each.material} burn slowly enough?")
        for each in safety.linings
    )  # fmt: skip


def _bank_place(evaluation: Evaluation) -> tuple[Case, ...]:
    safety = evaluation.build.safety
    if safety is None or safety.bank is None:
        return ()
    bank = safety.bank
    where = f"move it out of the {spoken(bank.room)}, or box it off with air of its own" if bank.in_quiet else ""
    return (Case(bank.name, "", evaluation.quantities["bank-place"], 0.0,
                 "a bank does not share the air of a sealed room: common practice, no source", f"{bank.place}.fitting",
                 hint=where, caution=BANK),)  # fmt: skip


def _bank_edge(evaluation: Evaluation) -> tuple[Case, ...]:
    safety = evaluation.build.safety
    if safety is None or safety.bank is None:
        return ()
    return (typed_case(safety.bank.name, "", evaluation.quantities["bank-edge"], safety.bank_to_skin,
                       f"{safety.bank.place}.from_skin", hint="move it {short} farther in, between the members, and"
                                                              " low",
                       caution=BANK),)  # fmt: skip


def _bank_air(key: str, limit: str, field: str, hint: str) -> Callable[[Evaluation], tuple[Case, ...]]:
    def cases(evaluation: Evaluation) -> tuple[Case, ...]:
        safety = evaluation.build.safety
        if safety is None or safety.bank is None:
            return ()
        return (library_case(evaluation, safety.bank.name, "", key, limit, f"{safety.bank.place}.{field}", hint=hint,
                             caution=BANK),)  # fmt: skip

    return cases


def _bank_ready(evaluation: Evaluation) -> tuple[Case, ...]:
    safety = evaluation.build.safety
    if safety is None or safety.bank is None:
        return ()
    bank = safety.bank
    missing = f"add what is missing: {', '.join(bank.missing)}" if bank.missing else ""
    return (Case(bank.name, "", evaluation.quantities["bank-ready"], 0.0,
                 "vented as its maker asks, a way to take it out, a label for responders: common practice, no source",
                 bank.place, hint=missing, caution=BANK),)  # fmt: skip


def _exhausts(evaluation: Evaluation) -> tuple[Case, ...]:
    safety = evaluation.build.safety
    if safety is None:
        return ()
    near = {each.name: each for each in evaluation.safety.exhausts}
    cases = []
    for each in safety.exhausts:
        quantity = evaluation.quantities.get(f"exhaust/{each.name}")
        if quantity is None:
            continue
        found = near.get(each.name)
        hint = (
            ""
            if found is None
            else f"lead one of them {SHORT} farther off; nearest is the intake {spoken(found.intake)}"
        )
        cases.append(typed_case(each.name, "", quantity, each.apart, each.place, hint=hint, caution=EXHAUST,
                                question=f"Does the exhaust {spoken(each.name)} of the {each.kind} stay away from"
                                         " intakes of air?"))  # fmt: skip
    return tuple(cases)


_REPORT = "ask the supplier for a test report, or take a lining that has one"
_NO_BANK = "the file says nothing of the bank's place"
CHECKS = (
    *ways_out.CHECKS,
    *alarms.CHECKS,
    Check("burning-rate", "Safety", "Do the linings burn slowly enough?", "at_most", _burning,
          "the file has no `safety`, or no lining"),
    Check("bank-place", "Safety", "Does the bank stand outside the quiet room?", "at_most", _bank_place, _NO_BANK,
          counts="banks in the quiet room"),
    Check("bank-edge", "Safety", "Does the bank stand clear of the skin that a crash pushes in?", "at_least",
          _bank_edge, _NO_BANK),
    Check("bank-warm", "Safety", "Does the bank stay cool enough to be charged?", "at_most",
          _bank_air("bank-warm", "warmest bank", "warmest", "let air round it and keep it from what warms: it is to"
                                                            " stay {short} cooler"), _NO_BANK),
    Check("bank-cold", "Safety", "Does the bank stay warm enough to be charged?", "at_least",
          _bank_air("bank-cold", "coldest bank", "coldest", "take a charger that waits until it is warm, or heat the"
                                                            " bank: it is to be {short} warmer"), _NO_BANK),
    Check("bank-ready", "Safety", "Is the bank vented, can it be taken out, do responders find it?", "at_most",
          _bank_ready, _NO_BANK, counts="what is missing"),
    Check("exhaust-apart", "Safety", "Do exhausts stay away from intakes?", "at_least", _exhausts,
          "no exhaust is named, or no intake"),
)  # fmt: skip
