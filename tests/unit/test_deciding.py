"""Shares of the ways are those of the band that decides; a fuse aboard is not larger than what its socket gives."""

import math

import pytest
from tests.coupled import DEMO, build_of, edited

from hushwright.app.charts import between_chart, neighbours_chart
from hushwright.evaluation.evaluate import evaluate_nominal
from hushwright.evaluation.sound.deciding import deciding_of, deciding_paths, target_of
from hushwright.physics.acoustics.bands import FREQUENCIES
from hushwright.report.as_json import path_nodes
from hushwright.report.sections import between_rooms, neighbours, weakest_paths
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


def test_from_room_to_room_the_octave_nearest_the_monitors_decides_and_everything_shows_its_shares() -> None:
    evaluation, _ = evaluate_nominal(build_of(DEMO))
    found = evaluation.between_rooms[0]
    octave = min(found.octave_margins, key=lambda pair: pair[1])[0]
    band, paths = deciding_of(found, evaluation.build)
    assert band == f"the octave at {octave:g} Hz"
    thirds = [index for index, each in enumerate(FREQUENCIES) if octave / 1.35 < each < octave * 1.35]
    energies = {each.name: sum(10.0 ** (each.levels[index] / 10.0) for index in thirds) for each in found.paths}
    for each in paths:
        assert math.isclose(each.share, energies[each.name] / sum(energies.values()))
    assert f"share of {band}, which decides" in "\n".join(between_rooms(evaluation, "metric"))
    node = path_nodes(evaluation, "metric")["between_rooms"][0]
    assert (node["shares_of"], node["ways"][0]["name"]) == (band, paths[0].name)
    legend = [each["name"] for each in between_chart(found, evaluation)["series"] if "%" in each.get("name", "")]
    assert legend[0] == f"{paths[0].name} {100 * paths[0].share:.0f} % of {octave:g} Hz"


def test_advice_from_room_to_room_names_the_octave_that_decides() -> None:
    evaluation, _ = evaluate_nominal(build_of(DEMO))
    band, paths = deciding_of(evaluation.between_rooms[0], evaluation.build)
    found = next(each for each in judge(evaluation, provisional=True) if each.id.startswith("rooms-"))
    assert f"lets most through in {band}, which decides: {paths[0].name}" in found.hint


def test_neighbours_are_limited_in_all_bands_together() -> None:
    evaluation, _ = evaluate_nominal(build_of(DEMO))
    found = evaluation.neighbours[0]
    assert deciding_of(found, evaluation.build) == ("", found.paths)
    assert "share of the A-weighted sum" in "\n".join(neighbours(evaluation, "metric"))
    assert path_nodes(evaluation, "metric")["neighbours"][0]["shares_of"] == "the A-weighted sum"
    assert any("% of dB(A)" in each.get("name", "") for each in neighbours_chart(found, evaluation)["series"])


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
