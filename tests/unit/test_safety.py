"""Safety, venues and papers of a build file: what is refused, what is doubted, what nobody says."""

import json

import pytest
from tests.coupled import edited, library, verdicts_of
from tests.plain_builds import ONE_LEAF, plain_build, two_rooms
from tests.unit.safety_cases import DOORS, ONE_INSIDE, SAFE, SAID_NOTHING, but
from tests.unit.test_verdicts import evaluation

from hushwright.document.read import read_document_text
from hushwright.errors import Diagnostic
from hushwright.evaluation.cost.take_off import things_of
from hushwright.evaluation.results import Evaluation
from hushwright.library.safety import SafetyLimit
from hushwright.model.resolve import resolve
from hushwright.report.as_json import check_json
from hushwright.report.safety import papers, safety, venues
from hushwright.report.verdict_text import numbers_of
from hushwright.verdicts.judge import judge
from hushwright.verdicts.verdict import Verdict


def problems(text: str) -> list[Diagnostic]:
    document, found = read_document_text(text, "van.yaml")
    assert document is not None, found
    assert not found, found
    return list(resolve(document, library())[1])


def judged(text: str) -> dict[str, Verdict]:
    return {each.id: each for each in judge(evaluation(text))}


IMPOSSIBLE = [
    (("{room: quiet_room, through: [hatch]}", "{room: attic, through: [hatch]}"), "unknown-name",
     "safety.ways_out.1.room"),
    (("through: [hatch]", "through: [hutch]"), "unknown-name", "safety.ways_out.1.through.0"),
    (("through: [hatch]", "through: []"), "way-out-broken", "safety.ways_out.1.through"),
    (("through: [hatch]", "through: [hatch, room_door]"), "way-out-broken", "safety.ways_out.1.through"),
    (("    hatch: {lock", "    hatches: {lock"), "unknown-name", "safety.doors.hatches"),
    (("inside: lever, swing: out}", "inside: lever, swing: out, clear_width: 900}"), "larger-than-opening",
     "safety.doors.hatch.clear_width"),
    (("inside: lever, swing: out}", "inside: lever, swing: out, holding: 1 kN}"), "key-without-effect",
     "safety.doors.hatch.holding"),
    (("travel_keep: opens from inside, keep_strength: 5 kN, inside", "keep_strength: 1 kN, inside"),
     "key-without-effect",
     "safety.doors.hatch.keep_strength"),
    (("{kind: smoke, room: quiet_room", "{kind: smoke, room: quite_room"), "unknown-name", "safety.detectors.0.room"),
    (("sounders: [{room: quiet_room", "sounders: [{room: cab"), "unknown-name", "safety.sounders.0.room"),
    (("duration: 3 h}", "duration: 20 h}, {level: 60 dB(A), duration: 10 h}"), "longer-than-a-day",
     "safety.exposures.singer.parts"),
    (("    light sheet: {burning_rate", "    oak: {burning_rate"), "key-without-effect", "safety.linings.oak"),
    (("bank: {fitting: bank,", "bank: {fitting: battery,"), "unknown-name", "safety.bank.fitting"),
    (("supply: generator,", "supply: none,"), "key-without-effect", "venue.quay.cable"),
]  # fmt: skip


@pytest.mark.parametrize(("change", "reference", "place"), IMPOSSIBLE, ids=[each[2] for each in IMPOSSIBLE])
def test_what_cannot_be_is_told_with_its_place(change: tuple[str, str], reference: str, place: str) -> None:
    found = [(each.reference, each.place.dotted) for each in problems(but(change))]
    assert (reference, place) in found


def test_the_safe_build_has_nothing_to_tell() -> None:
    assert problems(SAFE) == []


@pytest.mark.parametrize(("order", "told"), [
    ("[room_door]", "it ends before outer_door"),
    ("[outer_door, room_door]", "one is outdoors before room_door"),
    ("[room_door, hatch]", "after the opening before it one meets outer_door, not hatch"),
])  # fmt: skip
def test_a_way_out_is_walked_in_its_order(order: str, told: str) -> None:
    outer = "  outer_door: {kind: vehicle door, face: vehicle.rear, width: 1400, height: 1800}\n"
    text = edited(
        SAFE,
        ("  hatch: {kind: window", f"{outer}  hatch: {{kind: window"),
        ("residual_gap: 0.1 mm, force: 80 N/m}}", "residual_gap: 0.1 mm, force: 80 N/m}, behind: outer_door}"),
        ("through: [room_door]", f"through: {order}"),
    )
    assert told in [each.note for each in problems(text) if each.reference == "way-out-broken"]


def test_a_window_of_the_room_behind_leads_into_the_room_ahead_and_out_of_its_door() -> None:
    layers = "layers: [{limp: light sheet, thickness: 4}], hardware: {hinges: 2}"
    window = f"  window: {{kind: window, face: quiet_room.front, width: 700, height: 500, sill: 900, {layers}}}\n"
    side = "  side_door: {kind: vehicle door, face: vehicle.right, width: 1000, height: 1600, offset: 1200}\n"
    ways = (
        "safety:\n  doors:\n    window: {lock: none, inside: lever, swing: in}\n"
        "    side_door: {lock: none, inside: lever, swing: slides}\n  ways_out:\n"
        "    - {room: quiet_room, through: [window, side_door]}\n"
    )
    text = two_rooms(rest=f"openings:\n{window}{side}{ways}", front=ONE_LEAF)
    text = edited(text, ("people: {quiet_room: 0, control_room: 0}", "people: {quiet_room: 1}"))
    found = evaluation(text).safety.ways
    assert [(each.serves, each.hindrances) for each in found] == [(True, ())]


def test_a_lobby_too_shallow_for_the_door_hinders_until_what_follows_stands_open() -> None:
    cavity = "        - skin: body\n        - {cavity: 284}\n        - {limp: light sheet, thickness: 4}\n"
    doors = DOORS.replace("sill: 10,", "sill: 10, behind: outer_door,")
    doors += "  outer_door: {kind: vehicle door, face: vehicle.rear, width: 1400, height: 1800}\n"
    ways = (
        "safety:\n  doors:\n    room_door: {lock: none, inside: lever, swing: out}\n"
        "    outer_door: {lock: none, inside: lever, swing: out}\n"
        "  ways_out: [{room: quiet_room, through: [room_door, outer_door]}]\n"
    )
    shut = edited(
        plain_build("", f"{doors}{ways}", rear=cavity), ("front: 30, rear: 2430", "front: 30, rear: 2130"), ONE_INSIDE
    )
    assert [each.serves for each in evaluation(shut).safety.ways] == [False]
    assert judged(shut)["way-swing-room-door-record"].value == pytest.approx(0.284)
    open_ = edited(shut, ("    takes: yes\n", "    takes: yes\n    open: [outer_door]\n"))
    assert [each.serves for each in evaluation(open_).safety.ways] == [True]


def test_what_stands_in_the_swing_of_a_door_hinders_until_it_is_carried_out_of_doors() -> None:
    crate = (
        "  - {name: crate, mass: 10 kg, station: 2200, offset: 0, height: 500, out: {station: 2200, offset: -1800,"
        " height: 500}, envelope: {length: 300, width: 300, height: 900}}\n"
    )
    swing = ("force: 80 N/m}}", "force: 80 N/m}, swing: {hinge: left, opens: in}}")
    text = but(swing, ("fittings:\n", f"fittings:\n{crate}"))
    found = judged(text)["ways-out-quiet-room"]
    assert (found.verdict, found.value) == ("fails", 1.0)
    assert "room door: crate stands" in found.hint
    assert "into the swing of room_door" in found.hint
    carried = edited(text, ("    takes: yes\n", "    takes: yes\n    out: [crate]\n"))
    assert judged(carried)["ways-out-quiet-room"].verdict == "meets"


def test_fail_secure_fails_even_where_a_lever_opens_it() -> None:
    found = judged(but(("lock: fail-safe", "lock: fail-secure")))
    assert found["lock-without-power-room-door"].verdict == "fails"
    assert found["opens-from-inside-room-door"].verdict == "meets"
    assert found["ways-out-quiet-room"].verdict == "fails"


def test_two_ways_through_one_opening_are_one() -> None:
    twice = but(("through: [hatch]", "through: [room_door]"))
    assert judged(twice)["ways-out-quiet-room"].value == 1.0


def test_a_room_with_people_and_no_safety_is_unproven_without_a_number() -> None:
    found = judged(SAID_NOTHING)["safety-said-quiet-room"]
    assert (found.verdict, found.value, found.margin, found.chance) == ("unproven", None, None, None)
    assert "nobody says" in found.reason


def test_a_door_of_which_nobody_says_anything_leaves_its_way_open() -> None:
    text = SAFE.replace(
        "    hatch: {lock: none, travel_keep: opens from inside, keep_strength: 5 kN, inside: lever, swing: out}\n", ""
    )
    found = judged(text)
    assert found["opens-from-inside-hatch"].verdict == "unproven"
    assert (found["ways-out-quiet-room"].verdict, found["ways-out-quiet-room"].reason) == (
        "unproven", "nobody says how hatch opens",
    )  # fmt: skip


DOUBTED = {
    "  found_within: 30 min\n": "time-until-found-quiet-room-record",
    "  push: 400 N\n": "lock-holds-room-door",
    "  bank_to_skin: 100\n": "bank-edge-bank",
    ", maker_distance: 500": "exhaust-apart-heater",
    " longest_cable: 25 m,": "venue-cable-quay",
    " steepest: 2°,": "venue-level-quay",
}


@pytest.mark.parametrize("typed", DOUBTED)
def test_a_limit_of_the_library_that_is_not_sure_makes_its_verdict_unproven(typed: str) -> None:
    found = judged(but((typed, "")))[DOUBTED[typed]]
    assert found.verdict == "unproven"
    assert "without a source" in found.reason or "medium confidence" in found.reason
    assert judged(SAFE)[DOUBTED[typed]].verdict == "meets"


def test_no_verdict_of_the_safe_build_rests_on_a_doubtful_limit() -> None:
    for each in judged(SAFE).values():
        if each.group in ("Safety", "Papers") and each.verdict != "not_applicable":
            assert each.verdict == "meets", each
            assert each.caution, each.id
    assert any(isinstance(each, SafetyLimit) and each.doubt for each in library().rows("safety_limit"))


PAPERS = {
    "category: {status: granted": ("category: {status: applied", "its status is: applied"),
    "says_who: weighbridge": ("says_who: ''", "nobody says which authority"),
    "date: 2026-03-01, says_who: insurer": ("says_who: insurer", "without a date"),
    "      glazing: {status: not needed, date: 2026-03-01, says_who: approval authority}\n": (
        "", "not listed: ask the authority"),
}  # fmt: skip


@pytest.mark.parametrize("old", PAPERS)
def test_a_paper_that_is_not_there_says_why(old: str) -> None:
    new, told = PAPERS[old]
    open_ = [each for each in judged(but((old, new))).values() if each.group == "Papers" and each.verdict == "unproven"]
    assert len(open_) == 1
    assert told in open_[0].reason


def test_report_and_json_tell_the_same() -> None:
    found: Evaluation = evaluation(SAFE)
    text = "\n".join([*safety(found, "metric"), *venues(found, "metric"), *papers(found, "metric")])
    for part in (
        "quiet room: room door (record): serves",
        "fail-safe",
        "79.7 dB(A)",
        "quay: supply generator",
        "weighbridge",
    ):
        assert part in text
    assert max(map(len, text.splitlines())) <= 100
    node = json.loads(check_json(found, judge(found), [], [], "us"))
    assert node["safety"]["ways_out"][0]["serves"] is True
    assert node["safety"]["doors"][0]["load_on_lock"] == pytest.approx(718.4 / 4.4482216, rel=1e-3)
    assert node["venues"][0]["cable"] == pytest.approx(20.0 / 0.0254)
    assert {each["status"] for each in node["papers"]} == {"granted", "not needed"}


def test_what_uncertain_input_does_reaches_the_verdict() -> None:
    measured = "level: {is: 84 dB(A), from: measured, plus_minus: 6 dB(A)}, duration: 3 h"
    found = verdicts_of(edited(SAFE, ("level: 84 dB(A), duration: 3 h", measured)))["noise-exposure-singer"]
    assert found.uncertainty == pytest.approx((3.0**2 + 1.0**2) ** 0.5, rel=0.01)


def test_a_bare_number_says_what_it_counts() -> None:
    found = judged(but(("    - {room: quiet_room, through: [hatch]}\n", "")))["ways-out-quiet-room"]
    assert numbers_of(found, "metric")[0] == "ways that serve: 1"  # exact, so without a spread
    assert all(each.counts for each in judged(SAFE).values() if each.kind == "count" and each.group == "Safety")


def test_a_window_without_hinges_is_no_way_out() -> None:
    fixed = edited(SAFE, (", hardware: {hinges: 2}}", "}"))
    ways = {each.through: each for each in evaluation(fixed).safety.ways}
    assert not ways[("hatch",)].serves
    assert ways[("hatch",)].hindrances == ("hatch: it is fixed: the file gives it no hinges (hardware)",)
    assert {each.through: each.serves for each in evaluation(SAFE).safety.ways}[("hatch",)]


def test_each_frame_of_a_hinged_window_has_its_own_hinges_latches_and_weight() -> None:
    panes = "layers: [{limp: light sheet, thickness: 8}, {cavity: 50}, {limp: light sheet, thickness: 4}]"
    text = edited(SAFE, ("layers: [{limp: light sheet, thickness: 4}], hardware: {hinges: 2}}",
                         f"{panes}, frames: separate, hardware: {{hinges: 3, latches: 2}}}}"))  # fmt: skip
    build = evaluation(text).build
    (hatch,) = [each for each in build.doors if each.name == "hatch"]
    (opening,) = [each for each in build.openings if each.name == "hatch"]
    assert hatch.mass == pytest.approx(opening.mass * 8 / 12)  # the heavier pane
    bought = {each.kind: each.amount("piece") for each in things_of(build) if each.place == "openings.hatch.hardware"}
    assert bought == {"latch": 4.0, "hinge": 6.0}
