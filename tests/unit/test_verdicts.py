"""The rule of a verdict, and for every check a build that trips it, one that clears it, one it does not apply to."""

from dataclasses import replace
from functools import lru_cache

import pytest
from tests.coupled import DEMO, build_of, core_of, edited
from tests.plain_builds import FACES, ONE_LEAF, plain_build, two_rooms
from tests.unit.air_cases import AIRED, LOUD
from tests.unit.air_cases import CASES as AIR_CASES
from tests.unit.heat_cases import CASES as HEAT_CASES
from tests.unit.power_cases import CASES as POWER_CASES
from tests.unit.safety_cases import CASES as SAFETY_CASES
from tests.unit.signal_cases import CASES as SIGNAL_CASES
from tests.unit.structure_cases import CASES as STRUCTURE_CASES
from tests.unit.wiring_cases import CASES as WIRING_CASES

from hushwright.evaluation.evaluate import evaluate
from hushwright.evaluation.results import Contribution, Evaluation, Quantity
from hushwright.verdicts.check import Case, Check, slug, verdicts_of
from hushwright.verdicts.judge import CHECKS, GROUPS, judge
from hushwright.verdicts.measure_next import measure_next
from hushwright.verdicts.verdict import Sense, Verdict, chance_of_meeting, likelihood, outcome

CLOSED = "        - {limp: heavy sheet, thickness: 30}\n"
QUAY = (
    "  outdoors:\n    - {situation: quay, octaves: {hz_250: 60 dB, hz_500: 60 dB, hz_1000: 60 dB}, limit: 35 dB(A)}\n"
)
MONITOR = "  monitor: {level: 80 dB(A)}\n  sources: {quiet_room: singing voice, quiet_room_level: 90 dB(A)}\n"
NEAR = "  neighbours: {distance: 10 m, limit: 40 dB(A)}\n  sources: {quiet_room_level: 100 dB(A)}\n"
RAIN = "  rain: {rate: 15 mm/h, limit: 45 dB(A)}\n"
FLOATING = (
    "        - {limp: heavy sheet, thickness: 30}\n        - {floor_mounts: under, bearer_depth: 0}\n"
    "        - {limp: light sheet, thickness: 4}\n"
)
MOUNTS = (
    "mounts:\n  under: {along: 2, across: 2, static_stiffness: 300 N/mm, lateral_stiffness: 150 N/mm, "
    "dynamic_ratio: 1.5, "
    "lowest_load: 20 kg, highest_load: 250 kg, free_height: 40, edges: open, snubber_gap: 8, "
    "load_years: 0 h}\n"
    "fittings:\n  - {name: load, mass: 300 kg, station: 1230, fixed_to: [quiet]}\n"
)
LIGHT = plain_build(**dict.fromkeys(FACES, ONE_LEAF))
AFLOAT = plain_build("", MOUNTS, floor=FLOATING)


SESSION = DEMO[DEMO.index("  session:") : DEMO.index("\nvehicle:")]


@lru_cache(maxsize=64)
def evaluation(text: str) -> Evaluation:
    """Evaluation without the shares of the inputs, which a verdict needs only for its uncertainty."""
    build, core = build_of(text), core_of(text)
    return Evaluation(build, core.quantities, core.backgrounds, core.between_rooms, core.neighbours, (), (), (),
                      core.space, core.mounts, core.masses, (), core.structure, core.air, core.heat,
                      signals=core.signals, safety=core.safety, wiring=core.wiring, power=core.power)  # fmt: skip


def outcomes(text: str, check: str) -> set[str]:
    named = next(each for each in CHECKS if each.reference == check)
    return {each.verdict for each in verdicts_of(named, evaluation(text))}


def under_skin(leaf: str) -> str:
    """A ceiling of the roof's sheet, 100 mm of air and one limp leaf."""
    return f"        - skin: body\n        - {{cavity: 100}}\n        - {{limp: {leaf}}}\n"


# What trips a check and what clears it; one change apart wherever that can be.
CASES = {
    "background": (plain_build(QUAY, left=ONE_LEAF), plain_build(QUAY.replace("60 dB", "30 dB"))),
    "rooms": (two_rooms(MONITOR, front=ONE_LEAF), two_rooms(MONITOR.replace("90 dB", "60 dB"))),
    "neighbours": (plain_build(NEAR, left=ONE_LEAF), plain_build(NEAR.replace("100 dB(A)", "50 dB(A)"))),
    "rain": (plain_build(RAIN.replace("45 dB", "20 dB"), ceiling=under_skin("light sheet, thickness: 0.3")),
             plain_build(RAIN, ceiling=under_skin("heavy sheet, thickness: 30"))),
    "headroom": (plain_build().replace("tallest: 1700", "tallest: 2000"), plain_build()),
    "clear-width": (plain_build().replace("shoulder_width: 600", "shoulder_width: 1900"), plain_build()),
    "mount-least-load": (edited(AFLOAT, ("lowest_load: 20 kg", "lowest_load: 200 kg")), AFLOAT),
    "mount-most-load": (edited(AFLOAT, ("highest_load: 250 kg", "highest_load: 60 kg")), AFLOAT),
    "mount-spread": (edited(AFLOAT, ("station: 1230", "station: 2300")), AFLOAT),
    "floor-frequency": (edited(AFLOAT, ("static_stiffness: 300 N/mm", "static_stiffness: 3000 N/mm")), AFLOAT),
    "snubber-clear": (edited(AFLOAT, ("snubber_gap: 8", "snubber_gap: 1")), AFLOAT),
    "road-mass": (edited(LIGHT, ("total: 3500", "total: 2100")), LIGHT),
    "front-axle": (edited(LIGHT, ("front: 1800", "front: 1250")), LIGHT),
    "rear-axle": (edited(LIGHT, ("rear: 2200", "rear: 830")), LIGHT),
    **STRUCTURE_CASES,
    **AIR_CASES,
    **HEAT_CASES,
    **POWER_CASES,
    **SAFETY_CASES,
    **SIGNAL_CASES,
    **WIRING_CASES,
}  # fmt: skip


ELSEWHERE = {"budget", "clearance", "knee-room", "reach", "sight-line", "speaker-angle", "camera-field"}
"""Tripped and cleared in test_verdicts_cost.py and test_verdicts_use.py."""


@pytest.mark.parametrize("check", CASES)
def test_a_check_trips_on_what_is_wrong_and_clears_what_is_right(check: str) -> None:
    wrong, right = CASES[check]
    assert "fails" in outcomes(wrong, check)
    assert outcomes(right, check) == {"meets"}


def test_every_check_has_a_case_that_trips_it_and_one_that_clears_it() -> None:
    assert {each.reference for each in CHECKS} == {*CASES, *ELSEWHERE}


STEEL = "        - skin: body\n"


def rain_on_sheet(limit: str) -> Verdict:
    rain = RAIN.replace("45 dB(A)", limit)
    return next(each for each in judge(evaluation(plain_build(rain, ceiling=STEEL))) if each.id.startswith("rain-"))


def test_rain_on_sheet_without_published_bands_is_unproven_where_those_bands_could_turn_it() -> None:
    """Sheet at 53 dB(A) with 2u = 17 dB would hold 71 dB(A), but a fifth of its energy has no published value."""
    turned = rain_on_sheet("71 dB(A)")
    assert turned.verdict == "unproven"
    assert turned.margin is not None
    assert turned.margin > 2.0 * (turned.uncertainty or 0.0)
    assert "bands without a published value" in turned.reason
    assert turned.reason in turned.validity


@pytest.mark.parametrize(("limit", "outcome"), [("20 dB(A)", "fails"), ("45 dB(A)", "unproven"), ("80 dB(A)", "meets")])
def test_bands_without_a_published_value_only_inform_where_they_turn_nothing(limit: str, outcome: str) -> None:
    judged = rain_on_sheet(limit)
    assert judged.verdict == outcome
    assert any(note.startswith("reported: ") and "without a published value" in note for note in judged.validity)


def test_rain_nobody_asks_about_is_not_judged() -> None:
    assert outcomes(plain_build(ceiling=STEEL), "rain") == {"not_applicable"}


@pytest.mark.parametrize("check", [each.reference for each in CHECKS])
def test_a_van_without_a_quiet_room_is_judged_on_space_and_mass(check: str) -> None:
    text = edited(DEMO[: DEMO.index("rooms:\n")], (SESSION, "")) + (
        "rooms:\n  workshop: {purpose: other, front: 0, rear: 3000}\nstates:\n  drive: {road: yes, people: {cab: 2}}\n"
        "fittings:\n  - {name: bench, mass: 120 kg, station: 1500, offset: 0}\n"
    )
    group = next(each.group for each in CHECKS if each.reference == check)
    served = group in ("Mass", "Space") and check != "scales" and check not in ELSEWHERE
    # Nothing says how the bench is held, nor what anything costs.
    held = {"heavy-fittings": {"fails"}, "budget": {"unproven"}}
    assert outcomes(text, check) == held.get(check, {"meets"} if served else {"not_applicable"})


def test_a_verdict_that_does_not_apply_says_why() -> None:
    for each in judge(evaluation(plain_build())):
        if each.verdict == "not_applicable":
            assert each.reason
            assert each.value is None or each.limit is None


def test_a_background_without_a_limit_is_shown_and_not_judged() -> None:
    text = plain_build(QUAY.replace(", limit: 35 dB(A)", "")).replace("  tallest", "  use: other\n  tallest")
    found = next(each for each in judge(evaluation(text)) if each.id.startswith("background"))
    assert found.verdict == "not_applicable"
    assert found.value is not None
    assert found.reason == "the brief names no limit"


def test_a_fan_that_runs_is_part_of_the_background() -> None:
    quiet, loud = (evaluation(text).backgrounds[0] for text in (AIRED, LOUD))
    assert loud.levels[15] > quiet.levels[15] + 20.0
    assert any(path.name == "fan of supply" for path in loud.paths)


def test_a_bought_plate_is_not_a_figure_of_the_class() -> None:
    named = next(each for each in judge(evaluation(plain_build())) if each.id == "road-mass-drive")
    assert named.basis == "plated mass in the build file"
    classed = edited(plain_build(), ("  plated: {total: 3500 kg, front: 1800 kg, rear: 2200 kg}\n", ""))
    told = next(each for each in judge(evaluation(classed)) if each.id == "road-mass-drive")
    assert "not of this van" in told.basis
    assert "common practice, no source" in told.basis


def test_every_verdict_of_the_demo_has_a_question_a_basis_and_a_place_in_the_file() -> None:
    document = build_of(DEMO).document
    for each in judge(evaluation(DEMO)):
        assert each.question.endswith("?")
        assert each.group in GROUPS
        if each.verdict != "not_applicable":
            assert each.basis
            assert document.place(each.place).line > 1, each.place
        if each.verdict in ("fails", "unproven"):
            assert each.hint
            assert each.verdict == "fails" or each.reason


def test_verdicts_come_worst_first() -> None:
    ranks = ["fails", "unproven", "meets", "not_applicable"]
    found = [ranks.index(each.verdict) for each in judge(evaluation(DEMO))]
    assert found == sorted(found)


def test_identifiers_are_unique() -> None:
    found = [each.id for each in judge(evaluation(DEMO))]
    assert len(set(found)) == len(found)


@pytest.mark.parametrize(
    ("margin", "uncertainty", "expected"),
    [
        (2.0, 1.0, "meets"),
        (1.99, 1.0, "unproven"),
        (-1.99, 1.0, "unproven"),
        (-2.0, 1.0, "unproven"),
        (-2.01, 1.0, "fails"),
        (0.0, 0.0, "meets"),
        (-0.1, 0.0, "fails"),
    ],
)
def test_a_margin_must_survive_twice_its_uncertainty_either_way(
    margin: float, uncertainty: float, expected: str
) -> None:
    assert outcome(margin, uncertainty, valid=True) == expected
    assert outcome(margin, uncertainty, valid=False) == "unproven"


@pytest.mark.parametrize("sense", ["at_most", "at_least"])
@pytest.mark.parametrize("distance", [3.0, 1.0, -1.0, -3.0])
def test_at_least_is_the_mirror_of_at_most(sense: Sense, distance: float) -> None:
    value = 10.0 - distance if sense == "at_most" else 10.0 + distance
    quantity = Quantity(value, "level", method_uncertainty=1.0)
    check = Check("x", "Quiet", "x?", sense, lambda _: (Case("a", "s", quantity, 10.0, "b", "p"),), "none")
    (found,) = verdicts_of(check, evaluation(DEMO))
    assert found.margin == pytest.approx(distance)
    assert found.verdict == {3.0: "meets", 1.0: "unproven", -1.0: "unproven", -3.0: "fails"}[distance]


def test_the_chance_is_that_of_the_normal_spread() -> None:
    # Φ(1) = 0.8413, Φ(2) = 0.9772: tables of the normal distribution.
    assert chance_of_meeting(1.0, 1.0) == pytest.approx(0.8413, abs=5e-5)
    assert chance_of_meeting(-2.0, 1.0) == pytest.approx(1 - 0.9772, abs=5e-5)
    assert chance_of_meeting(0.0, 0.0) == 1.0
    assert chance_of_meeting(-1e-9, 0.0) == 0.0


def test_a_note_that_only_reports_leaves_a_verdict_decided() -> None:
    reported = Quantity(5.0, "level", 1.0, validity=("octaves below 250 Hz are reported, not judged",))
    beyond = Quantity(5.0, "level", 1.0, validity=("valid up to 2 kHz",))
    for quantity, expected in ((reported, "meets"), (beyond, "unproven")):
        check = Check("x", "Quiet", "x?", "at_most", lambda _, q=quantity: (Case("a", "s", q, 10.0, "b", "p"),), "none")
        (found,) = verdicts_of(check, evaluation(DEMO))
        assert found.verdict == expected
        assert found.reason == ("valid up to 2 kHz" if expected == "unproven" else "")


def test_a_slug_holds_letters_digits_and_dashes() -> None:
    assert slug("Fair, by night / record") == "fair-by-night-record"


def with_shares(**changes: float) -> Verdict:
    """One open verdict with given changes by two inputs of the demo."""
    base = next(each for each in judge(evaluation(DEMO)) if each.verdict == "unproven")
    made = tuple(Contribution(path.replace("__", "."), path, change) for path, change in changes.items())
    return replace(base, contributions=made, uncertainty=2.0)


def test_changing_one_spread_reorders_what_to_measure_next() -> None:
    held = evaluation(DEMO)
    skin, bow = "vehicle__skin__beading", "vehicle__floor_to_bow"
    first = measure_next(held, (with_shares(**{skin: 1.0, bow: 0.5}),))
    other = measure_next(held, (with_shares(**{skin: 0.2, bow: 0.5}),))
    assert [each.path for each in first] == ["vehicle.skin.beading", "vehicle.floor_to_bow"]
    assert [each.path for each in other] == ["vehicle.floor_to_bow", "vehicle.skin.beading"]
    assert first[0].share == pytest.approx(1.0 / 4.0)


def test_a_decided_verdict_asks_for_no_measuring() -> None:
    held = evaluation(DEMO)
    decided = replace(with_shares(vehicle__skin__beading=1.0), verdict="meets")
    assert measure_next(held, (decided,)) == ()
    assert [each.path for each in measure_next(held, (decided,), all_verdicts=True)] == ["vehicle.skin.beading"]


def test_the_wider_of_two_spreads_is_measured_first() -> None:
    """Two equal leaves let in equal sound; the one less well known comes first, through the whole computation."""
    leaf = "        - {{limp: light sheet, thickness: {{is: 1 mm, plus_minus: {} mm}}}}\n"
    order = []
    for left, right in ((0.3, 0.1), (0.1, 0.3)):
        found = evaluate(build_of(plain_build(QUAY, left=leaf.format(left), right=leaf.format(right))))
        ranked = measure_next(found, judge(found), all_verdicts=True)
        order.append([each.path.split(".")[2] for each in ranked if each.path.startswith("surfaces")])
    assert order == [["left", "right"], ["right", "left"]]


@pytest.mark.parametrize(
    ("chance", "word"),
    [(0.05, "very unlikely"), (0.2, "unlikely"), (0.5, "as likely as not"), (0.8, "likely"), (0.95, "very likely")],
)
def test_words_of_likelihood_are_those_of_the_guidance_notes(chance: float, word: str) -> None:
    # IPCC, Guidance Notes for Lead Authors on Addressing Uncertainties, 2005, likelihood scale
    assert likelihood(chance) == word
