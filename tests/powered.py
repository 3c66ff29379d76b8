"""Power of a build alone, without its sound."""

from functools import lru_cache

from tests.coupled import build_of

from hushwright.evaluation.air.air import air_states
from hushwright.evaluation.heat.heat import heat_of_build
from hushwright.evaluation.power.case import Powered, powered
from hushwright.evaluation.power.days import Days, days_of
from hushwright.evaluation.power.power import law_of, power_of_build
from hushwright.evaluation.results import Evaluation, Quantity
from hushwright.verdicts.check import verdicts_of
from hushwright.verdicts.power import CHECKS
from hushwright.verdicts.verdict import Verdict


@lru_cache(maxsize=64)
def power_of(text: str) -> Evaluation:
    """An Evaluation that knows air, heat and power."""
    build = build_of(text)
    quantities: dict[str, Quantity] = {}
    air = air_states(build, {})
    heat = heat_of_build(build, air, {})
    power = power_of_build(build, air, heat, quantities)
    return Evaluation(build, quantities, (), (), (), (), (), (), (), (), (), air=air, heat=heat, power=power)


@lru_cache(maxsize=64)
def case_of(text: str) -> Powered:
    """All that power depends on."""
    known = power_of(text)
    found = powered(known.build, known.air, known.heat)
    assert found is not None
    return found


def followed(case: Powered) -> Days:
    """The bank over the days of a case."""
    assert case.power.bank is not None
    return days_of(case, law_of(case.power.bank))


def judged(text: str) -> dict[str, Verdict]:
    """Verdicts on power by identifier."""
    return {each.id: each for check in CHECKS for each in verdicts_of(check, power_of(text))}
