"""Rooms in which people sleep are looked after as those in which they are shut in; a bound is told as a bound."""

from pathlib import Path

import pytest
from tests.coupled import DEMO, build_of, edited

from hushwright.evaluation.evaluate import evaluate_nominal
from hushwright.evaluation.results import Evaluation
from hushwright.evaluation.safety.safety import _lasting, kept_in
from hushwright.verdicts.judge import judge

SLEEPS = (Path(__file__).parents[2] / "examples" / "repair-workshop-van.yaml").read_text(encoding="utf-8")
DETECTOR = "    - {kind: carbon dioxide, room: sleeping_room, fixed_on: wall, from_edge: 300}\n"


def evaluated(text: str) -> Evaluation:
    return evaluate_nominal(build_of(text))[0]


def test_sleepers_need_a_detector_of_carbon_dioxide_and_a_way_out_and_time() -> None:
    found = {each.id: each for each in judge(evaluated(edited(SLEEPS, (DETECTOR, ""))), provisional=True)}
    assert found["detectors-sleeping-room"].verdict == "fails"
    assert found["detectors-sleeping-room"].hint == "add detectors: carbon dioxide"
    assert found["detectors-workshop"].verdict == "meets"  # nobody sleeps there
    assert found["safety-said-sleeping-room"].verdict == "meets"
    assert found["time-until-found-sleeping-room-night"].value is not None
    assert "safety-said-workshop" not in found


def test_rooms_in_which_people_stay_are_quiet_ones_and_those_with_beds() -> None:
    assert kept_in(build_of(SLEEPS)) == ("sleeping_room",)
    assert kept_in(build_of(DEMO)) == ("quiet_room",)


def test_time_is_a_number_up_to_the_end_of_counting_and_a_bound_beyond() -> None:
    hours = 3600.0
    assert _lasting(2.0 * hours, 0.1).value == pytest.approx(2.0 * hours)
    near = _lasting(9.0 * hours, 0.1)  # 9 h less its spread is not surely beyond 8 h
    assert near.value == pytest.approx(9.0 * hours)
    assert near.standard_uncertainty == pytest.approx(0.9 * hours)
    for time in (11.0 * hours, float("inf")):
        bound = _lasting(time, 0.1)
        assert (bound.value, bound.standard_uncertainty) == (8.0 * hours, 0.0)
        assert "at least" in bound.validity[0]
        assert bound.validity[0].startswith("reported: ")  # it informs, and spoils no verdict
