"""Shares of the ways are those of the band that decides; a fuse aboard is not larger than what its socket gives."""

import math

import pytest
from tests.coupled import DEMO, build_of, edited

from hushwright.evaluation.couple import evaluate_nominal
from hushwright.evaluation.deciding import deciding_paths, target_of
from hushwright.report.sections import weakest_paths
from hushwright.verdicts.judge import judge
from hushwright.verdicts.verdict import Verdict


def test_the_table_of_ways_names_its_band_and_ranks_by_what_is_in_it() -> None:
    evaluation, _ = evaluate_nominal(build_of(DEMO))
    found = next(each for each in evaluation.backgrounds if each.key == "fair/record")
    band, paths = deciding_paths(found, target_of(found, evaluation.build))
    assert band.startswith("the octave at ")
    assert math.isclose(sum(each.share for each in paths), 1.0)
    assert [each.share for each in paths] != [each.share for each in found.paths]
    text = "\n".join(weakest_paths(evaluation, "metric"))
    assert f"share of {band}, which decides" in text
    assert "share of the A-weighted sum" in text  # the quay is limited in dB(A)


def socket(rating: int, supply: str) -> Verdict:
    text = edited(DEMO, ("current: 12 A, fuse: {rating: 16 A", f"current: 12 A, fuse: {{rating: {rating} A"),
                  ("supply: 3.6 kVA", f"supply: {supply}"))  # fmt: skip
    found = judge(evaluate_nominal(build_of(text))[0], provisional=True)
    return next(each for each in found if each.id == "fuses-socket-shore-in")


@pytest.mark.parametrize(("rating", "supply", "outcome"), [
    (16, "3.6 kVA", "meets"),  # 230 V times 16 A is 3.68 kVA: the same socket
    (20, "3.6 kVA", "fails"),
    (16, "2.3 kVA", "fails"),
    (10, "2.3 kVA", "meets"),
])  # fmt: skip
def test_a_fuse_larger_than_its_socket_fails(rating: int, supply: str, outcome: str) -> None:
    found = socket(rating, supply)
    assert found.verdict == outcome
    if outcome == "fails":
        assert found.hint.startswith("take a fuse of ")
        assert found.caution
