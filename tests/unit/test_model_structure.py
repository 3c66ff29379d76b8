"""What a state has aboard, weighings, anchors, cuts and door hardware: resolved, and refused where they cannot be."""

import pytest
from tests.coupled import DEMO, build_of, core_of, edited, library
from tests.plain_builds import plain_build
from tests.unit.structure_cases import ANCHORS, CUTS, DOOR, FLOOR, HELD_ROOM, HUNG, LOAD, MOUNTS, SCALES

from hushwright.document.read import read_document_text
from hushwright.errors import Diagnostic
from hushwright.model.resolve import resolve

TANK = (
    "fittings:\n  - {name: tank, mass: 4 kg, litres: 40 l, liquid: diesel, station: 500, "
    "out: {station: 900, height: 100}}\n"
)
STATE = "states:\n  record:\n"


def problems(text: str) -> list[Diagnostic]:
    document, found = read_document_text(text, "van.yaml")
    assert document is not None, found
    assert not found, found
    return list(resolve(document, library())[1])


IMPOSSIBLE = [
    ("a fitting without a mass", plain_build("", "fittings:\n  - {name: box, station: 500}\n"), "value-needed",
     "fittings.0"),
    ("a cable without its mass", plain_build("", "fittings:\n  - {name: wire, station: 500, length: 9 m}\n"),
     "value-needed", "fittings.0"),
    ("a mass per length without length", plain_build(
        "", "fittings:\n  - {name: wire, mass: 1 kg, station: 500, mass_per_length: 1 kg/m}\n"), "value-needed",
     "fittings.0"),
    ("an unknown fitting out", plain_build("", TANK).replace(STATE, f"{STATE}    out: [tink]\n"), "unknown-name",
     "states.record.out.0"),
    ("a fitting with nowhere to go",
     plain_build("", TANK.replace(", out: {station: 900, height: 100}", "")).replace(
         STATE, f"{STATE}    out: [tank]\n"),
     "nowhere-to-go", "states.record.out.0"),
    ("an unknown fitting unloaded", plain_build("", TANK).replace(STATE, f"{STATE}    unloaded: [tonk]\n"),
     "unknown-name", "states.record.unloaded.0"),
    ("a share of what is no tank", plain_build("", TANK).replace(STATE, f"{STATE}    full: {{tonk: 50 %}}\n"),
     "unknown-name", "states.record.full.tonk"),
    ("an unknown fitting on the scales", plain_build("", SCALES.replace("arrival,", "arrival, aboard: [bonk],")),
     "unknown-name", "measured.scales.0.aboard.0"),
    ("anchors on one line",
     plain_build("", f"{MOUNTS}{LOAD}restraint: {{anchors: [{{station: 100, offset: 0}}, {{station: 900, offset: 0}}, "
                     "{station: 2000, offset: 0}]}\n", floor=FLOOR), "anchors-on-one-line", "restraint.anchors"),
    ("two anchors",
     plain_build("", f"{MOUNTS}{LOAD}restraint: {{anchors: [{{station: 100, offset: 0}}, "
                     "{station: 900, offset: 500}]}\n", floor=FLOOR), "anchors-on-one-line", "restraint.anchors"),
    ("a cut without a size", plain_build("", "cuts:\n  hole: {face: left, station: 800, at: 500}\n"), "value-needed",
     "cuts.hole"),
    ("a handle beyond the leaf", edited(HUNG, ("handle_distance: 560", "handle_distance: 760")), "beyond-the-leaf",
     "openings.way_in.hardware.handle_distance"),
    ("hinges beyond the leaf", edited(HUNG, ("hinge_spacing: 1300", "hinge_spacing: 1800")), "beyond-the-leaf",
     "openings.way_in.hardware.hinge_spacing"),
]  # fmt: skip
REMARKS = [
    ("fittings missing at arrival", plain_build("", SCALES.replace("arrival,", "arrival, missing: [x],")),
     "key-without-effect", "measured.scales.0.missing"),
    ("more people than seats", plain_build("", SCALES.replace("arrival,", "arrival, people: 8,")),
     "more-people-than-seats", "measured.scales.0.people"),
    ("a cut behind the van", plain_build("", CUTS.replace("station: 1000", "station: 4000")), "cut-outside",
     "cuts.outlet.station"),
    ("hardware on a door of the van", plain_build(
        "", DOOR.replace("kind: door", "kind: vehicle door").replace("face: quiet_room", "face: vehicle")),
     "key-without-effect", "openings.way_in.hardware"),
]  # fmt: skip


@pytest.mark.parametrize(("text", "reference", "path"), [row[1:] for row in IMPOSSIBLE], ids=[r[0] for r in IMPOSSIBLE])
def test_what_cannot_be_is_told_at_its_place(text: str, reference: str, path: str) -> None:
    found = [each for each in problems(text) if each.severity == "error"]
    assert [(each.reference, each.place.dotted) for each in found] == [(reference, path)]
    assert found[0].value
    assert found[0].hint


@pytest.mark.parametrize(("text", "reference", "path"), [row[1:] for row in REMARKS], ids=[row[0] for row in REMARKS])
def test_what_is_odd_is_remarked(text: str, reference: str, path: str) -> None:
    found = [each for each in problems(text) if each.reference == reference]
    assert [(each.place.dotted, each.severity) for each in found] == [(path, "warning")]


def test_a_tank_weighs_what_it_holds_and_goes_where_it_is_out() -> None:
    text = plain_build("", TANK).replace(STATE, f"{STATE}    out: [tank]\n    full: {{tank: 25 %}}\n")
    build = build_of(text)
    record, drive = build.states
    full = {item.name: item for item in build.aboard(drive) if item.fitting == "tank"}
    used = {item.name: item for item in build.aboard(record) if item.fitting == "tank"}
    assert full["diesel in tank"].mass == pytest.approx(40.0 * 0.835)  # kg/l, common practice, no source
    assert used["diesel in tank"].mass == pytest.approx(10.0 * 0.835)
    assert (full["tank"].station, used["tank"].station) == (0.5, 0.9)


def test_what_is_unloaded_is_not_on_the_wheels() -> None:
    text = plain_build("", TANK)
    less = text.replace("  drive:\n", "  drive:\n    unloaded: [tank]\n")
    gone = core_of(text).masses[1].total - core_of(less).masses[1].total
    # The empty tank is not weighed and takes its 7 % with it; litres are known.
    assert gone == pytest.approx(4.0 * 1.07 + 40.0 * 0.835)


def test_parked_people_never_count_against_the_road_mass() -> None:
    crowd = edited(DEMO, ("  record:\n    people: {quiet_room: 4,", "  record:\n    people: {quiet_room: 9,"))
    assert core_of(crowd).quantities["payload/drive"] == core_of(DEMO).quantities["payload/drive"]
    assert not [key for key in core_of(DEMO).quantities if key.startswith("payload/record")]


def test_a_weighed_part_takes_its_share_out_of_the_allowance() -> None:
    guessed = "fittings:\n  - {name: bank, mass: 100 kg, station: 500}\n"
    weighed = guessed.replace("100 kg", "{is: 100 kg, from: measured, plus_minus: 1 kg}")
    before, after = (core_of(plain_build("", text)).masses[0].not_yet_listed for text in (guessed, weighed))
    assert before - after == pytest.approx(7.0)


def test_a_finished_van_is_what_the_scales_say() -> None:
    text = plain_build("", SCALES.replace("arrival", "finish") + "tolerances: {not_yet_listed: 7 %}\n")
    core = core_of(text)
    drive = core.masses[1]
    assert drive.not_yet_listed == 0.0
    assert drive.total == pytest.approx(2000.0 + drive.people)
    assert core.quantities["payload/drive"].method_uncertainty == pytest.approx(0.005 * 500.0 * 2.0)


def test_a_moved_anchor_changes_what_it_carries() -> None:
    one = core_of(HELD_ROOM).quantities["held-room/drive"].value
    other = core_of(edited(HELD_ROOM, (ANCHORS, ANCHORS.replace("station: 100", "station: 900")))).quantities
    assert other["held-room/drive"].value != pytest.approx(one, rel=1e-3)
