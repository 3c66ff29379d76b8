"""Routes and circuits of the build file: refused where they cannot be, told in every output, felt by walls."""

import json

import pytest
from tests.coupled import build_of, core_of, edited, evaluation_of, library, verdicts_of
from tests.plain_builds import plain_build, two_rooms
from tests.unit.wiring_cases import BY_NEC, GLAND, POWER, ROUTES, WIRED

from hushwright.document.read import read_document_text
from hushwright.drawings.electrical import circuit_schedule
from hushwright.errors import Diagnostic, InvalidInput
from hushwright.evaluation.wiring.drops import drop_legs
from hushwright.model.resolve import resolve
from hushwright.physics.electrical.conductors import ampacity, conductor_of_area, conductor_of_gauge, conductors
from hushwright.physics.electrical.fault import short_circuit_current
from hushwright.physics.electrical.fuses import interrupt_rating
from hushwright.physics.electrical.voltage_drop import loop_resistance, thinnest_for_drop
from hushwright.report.as_json import check_json
from hushwright.report.explain import explanation
from hushwright.report.wiring import circuit_csv, schedule, wiring


def problems(text: str) -> list[Diagnostic]:
    document, found = read_document_text(text, "van.yaml")
    assert document is not None, found
    assert not found, found
    return list(resolve(document, library())[1])


def refused(text: str) -> list[tuple[str, str]]:
    return [(each.reference, ".".join(map(str, each.place.path))) for each in problems(text)]


AT = "power.circuits"
IMPOSSIBLE = [
    ("a circuit from nowhere", ("takes_from: board, gives_to: [lamps]", "takes_from: bord, gives_to: [lamps]"),
     ("unknown-name", f"{AT}.lamp_feed.takes_from")),
    ("a circuit along no route", ("route: lead,", "route: leed,"), ("unknown-name", f"{AT}.main.route")),
    ("a circuit without a length", ("length: 500,", ""), ("value-needed", f"{AT}.converter_lead")),
    ("a load nobody knows", ("gives_to: [desk]", "gives_to: [dask]"), ("value-needed", f"{AT}.mains")),
    ("an unknown gauge", ("area: 25 mm2", "awg: 7/0"), ("unknown-name", f"{AT}.converter_lead.awg")),
    ("an isolator at no door", ("height: 950}", "height: 950, reached_from: hatch}"),
     ("unknown-name", f"{AT}.main.isolator.reached_from")),
    ("circuits in a ring", ("takes_from: bank, gives_to: [board]", "takes_from: knot, gives_to: [board, knot]"),
     ("circuits-in-a-ring", f"{AT}.main.takes_from")),
    ("a converter that is not there",
     ("  converter: {rating: 1 kVA, lowest_voltage: 20 V, full: 80 %, best: 85 %}\n", ""),
     ("unknown-name", f"{AT}.mains.takes_from")),
    ("a route through an unknown hole", ("passes: [glands]", "passes: [glends]"),
     ("unknown-name", "routes.feed.passes.0")),
    ("a name that is no name", ("    inlet:", '    "an inlet":'), ("name-unusable", f"{AT}.an inlet")),
    ("a bundle with nobody", ("    slack: 0 %\n", "    slack: 0 %\n    bundled_with: [fead]\n"),
     ("unknown-name", "routes.lead.bundled_with.0")),
]  # fmt: skip


@pytest.mark.parametrize(("change", "told"), [each[1:] for each in IMPOSSIBLE], ids=[each[0] for each in IMPOSSIBLE])
def test_what_cannot_be_wired_is_told_with_its_place(change: tuple[str, str], told: tuple[str, str]) -> None:
    assert told in refused(edited(WIRED, change))


def test_rules_have_to_be_chosen() -> None:
    no_rules = POWER[: POWER.index("  wiring:")] + POWER[POWER.index("  circuits:") :]
    assert ("value-needed", "power.circuits") in refused(two_rooms("", GLAND + ROUTES + no_rules))


def test_rules_without_circuits_are_remarked() -> None:
    alone = POWER[: POWER.index("  circuits:")]
    assert ("key-without-effect", "power.wiring") in refused(two_rooms("", GLAND + ROUTES + alone))


def test_two_ratings_of_the_main_fuse_are_remarked() -> None:
    assert ("fuses-disagree", "power.bank.fuse") in refused(edited(WIRED, ("resistance: 8 mΩ", "fuse: 125 A")))
    assert refused(edited(WIRED, ("resistance: 8 mΩ", "fuse: 150 A"))) == refused(WIRED)


def test_a_route_between_one_place_is_none() -> None:
    same = "routes:\n  knot: {points: [{station: 500}, {station: 500}]}\n"
    assert ("no-way", "routes.knot.points") in refused(plain_build("", same))


def test_a_gland_far_from_its_cable_is_told() -> None:
    assert ("gland-elsewhere", "routes.feed.passes") in refused(edited(WIRED, ("sill: 985", "sill: 400")))


def test_a_gland_that_no_cable_meets_is_told() -> None:
    text = edited(WIRED, ("{station: 3100, offset: 0, height: 1000}]", "{station: 2300, offset: 0, height: 1000}]"))
    assert ("gland-not-met", "routes.feed.passes") in refused(text)


def test_a_cable_in_the_seal_of_a_door_is_told() -> None:
    door = GLAND.replace("glands: {kind: gland, face: quiet_room.front, diameter: 30, sill: 985, filled: packed with "
                         "putty}", "glands: {kind: door, face: quiet_room.front, width: 600, height: 1600, sill: 100, "
                         "layers: [{limp: heavy sheet, thickness: 2}]}")  # fmt: skip
    assert ("cable-in-a-door", "routes.feed.passes") in refused(two_rooms("", door + ROUTES))


def test_a_duct_shorter_than_its_way_is_told() -> None:
    air = (
        "air:\n  runs:\n    in: {takes_from: outdoors, gives_to: quiet_room, outdoor_end: floor, elements: "
        "[{grille: intake, width: 200, height: 100}, {straight: 300, diameter: 100}, {grille: outlet, width: 200, "
        "height: 100}]}\n"
        "routes:\n  way: {points: [{station: 500}, {station: 2000}], run: in}\n"
    )
    assert ("duct-shorter-than-way", "routes.way.run") in refused(plain_build("", air))


def test_a_cable_without_a_loop_is_a_bridge_in_the_wall_that_it_passes() -> None:
    """The wall here is one leaf, which nothing bridges; with a space in it the bridge stands at the front."""
    spaced = "        - {limp: light sheet, thickness: 2}\n        - {cavity: 30}\n" \
             "        - {limp: light sheet, thickness: 2}\n"  # fmt: skip
    tied = two_rooms("", GLAND + ROUTES.replace("    loop: yes\n", ""), front=spaced).replace(
        "rear: 2430", "rear: 2426"
    )
    for text, expected in ((tied, 1), (tied.replace("    passes: [glands]\n", "    loop: yes\n"), 0)):
        room = next(each for each in build_of(text).rooms if each.purpose == "quiet")
        bridges = [each for surface in room.surfaces for each in surface.bridges if "route feed" in each.cause]
        assert len(bridges) == expected


def test_a_cable_that_is_clipped_to_both_ties_the_floor() -> None:
    text = edited(WIRED, ("    slack: 0 %\n", "    slack: 0 %\n    fixed_to: [body, quiet]\n"))
    tie = core_of(text).wiring.ties[0]
    assert (tie.route, tie.face, tie.why) == ("lead", "floor", "fixed to both")


def test_bundles_count_the_circuits_of_all_their_routes() -> None:
    text = edited(WIRED, ("    slack: 0 %\n", "    slack: 0 %\n    bundled_with: [feed]\n"))
    found = {each.name: each.bundled for each in build_of(text).wiring.circuits}
    assert (found["main"], found["lamp_feed"], found["mains"]) == (4, 4, 2)


def test_a_board_carries_all_that_hangs_on_it() -> None:
    main, lead, lamps = (next(each for each in build_of(WIRED).wiring.circuits if each.name == name)
                         for name in ("main", "converter_lead", "lamp_feed"))  # fmt: skip
    assert main.current == pytest.approx(lead.current + lamps.current)


def test_a_fuse_before_protects_what_has_none() -> None:
    text = edited(WIRED, (", fuse: {rating: 5 A, type: blade, interrupt_rating: 6 kA}", ""))
    lamps = next(each for each in core_of(text).wiring.circuits if each.name == "lamp_feed")
    assert (lamps.fuse, lamps.guarded_by, lamps.guard) == (None, "main", 150.0)
    judged = {each.id: each.verdict for each in verdicts_of(text).values()}
    assert judged["fused-all"] == "meets"
    assert judged["fuses-protect-lamp-feed"] == "fails"  # 1.5 mm² behind 150 A


def test_a_table_from_memory_leaves_every_conductor_unproven() -> None:
    found = verdicts_of(edited(WIRED, ("rules: ABYC E-11", "rules: ISO 13297")))
    judged = [each for each in found.values() if each.id.startswith(("conductors-", "fuses-protect-"))]
    assert {each.verdict for each in judged} == {"unproven"}
    assert all("memory" in each.reason for each in judged)


def test_a_figure_is_not_borrowed_from_other_rules() -> None:
    found = verdicts_of(BY_NEC)
    asked = found["conductors-all"]
    assert asked.verdict == "unproven"
    assert asked.value == 3.0  # of five circuits those on the bank's voltage
    assert "NFPA 1192" in asked.reason
    assert found["chassis-bond-all"].verdict == "meets"


def test_what_a_type_of_fuse_interrupts_is_from_memory_until_its_maker_is_typed() -> None:
    found = verdicts_of(edited(WIRED, (" type: blade, interrupt_rating: 6 kA", " type: blade")))
    assert found["fuses-interrupt-lamp-feed"].verdict == "unproven"
    assert "memory" in found["fuses-interrupt-lamp-feed"].reason


def test_a_device_of_type_ac_is_asked_about() -> None:
    found = verdicts_of(edited(WIRED, ("{trip: 30 mA}}\n    inlet", "{trip: 30 mA, type: AC}}\n    inlet")))
    assert found["residual-trip-all"].verdict == "unproven"
    assert found["residual-trip-mains"].verdict == "meets"


def test_a_monitor_serves_a_side_that_floats() -> None:
    text = edited(WIRED, ("at_converter: linked", "at_converter: open, insulation_monitor: yes"))
    assert verdicts_of(text)["neutral-aboard-converter"].verdict == "meets"


def test_what_nobody_says_about_the_neutral_is_asked() -> None:
    text = edited(WIRED, ("    neutral_earth: {at_shore: open, at_converter: linked, change_over: relay}\n", ""))
    found = verdicts_of(text)
    for name in ("neutral-on-shore-shore", "neutral-aboard-converter", "change-over-all"):
        assert found[name].verdict == "unproven"
        assert found[name].reason.startswith("nobody says")


def test_cables_weigh_where_they_lie_and_are_weighed_at_the_finish_alone() -> None:
    with_, without = core_of(WIRED), core_of(two_rooms("", GLAND + ROUTES))
    mass = sum(each.mass for each in with_.wiring.circuits)
    assert dict(with_.masses[0].groups)["cables"] == pytest.approx(mass)
    assert dict(without.masses[0].groups).get("cables") is None
    place = "measured:\n  scales: [{{stage: {}, front_left: 600 kg, front_right: 600 kg, rear_left: 400 kg, " \
            "rear_right: 400 kg}}]\n"  # fmt: skip
    for stage, covered in (("shell", False), ("finish", True)):
        basis = build_of(two_rooms("", GLAND + ROUTES + POWER + place.format(stage))).mass_basis
        assert basis.latest is not None
        assert basis.latest.covers("cables", "") is covered


def test_an_uncertain_length_reaches_the_drop() -> None:
    text = edited(WIRED, ("length: 500,", "length: {is: 500, plus_minus: 100 mm},"))
    drop = evaluation_of(text).quantities["wiring-drop/converter_lead"]
    shares = {each.path: each.change for each in drop.contributions}
    assert shares["power.circuits.converter_lead.length"] > 0.0


def test_the_schedule_tells_every_circuit_and_its_rules() -> None:
    told = schedule(evaluation_of(WIRED), "metric")
    assert "ABYC E-11" in told
    assert all(name.replace("_", " ") in told for name in ("main", "converter_lead", "lamp_feed", "mains", "inlet"))
    assert max(map(len, told.splitlines())) <= 100


def test_the_schedule_in_us_units_has_gauges_and_feet_and_nothing_metric() -> None:
    told = schedule(evaluation_of(edited(WIRED, ("area: 25 mm2", "awg: 2"))), "us")
    assert "2 × 2 AWG" in told
    assert " ft " in told
    assert "mm" not in told


def test_the_table_for_spreadsheets_holds_no_formula() -> None:
    text = WIRED.replace("[board]", '["=board"]').replace("takes_from: board", 'takes_from: "=board"')
    lines = circuit_csv(evaluation_of(text), "metric").splitlines()
    assert len(lines) == 6
    assert all("=" not in cell[:1] for line in lines for cell in line.split(","))
    assert sum(",'=board," in line for line in lines) == 3
    assert "way [ft]" in circuit_csv(evaluation_of(WIRED), "us").splitlines()[0]


def test_the_report_and_json_tell_the_same_circuits() -> None:
    evaluation = evaluation_of(WIRED)
    assert any("converter lead" in line for line in wiring(evaluation, "metric"))
    node = json.loads(check_json(evaluation, (), (), (), "metric"))["wiring"]
    assert [each["name"] for each in node["circuits"]] == [each.name for each in evaluation.wiring.circuits]
    assert node["bank_short_a"] == pytest.approx(3400.0)
    bare = evaluation_of(plain_build())
    assert wiring(bare, "metric") == []
    assert "no circuits" in schedule(bare, "metric")
    assert "wiring" not in json.loads(check_json(bare, (), (), (), "metric"))


@pytest.mark.parametrize(
    "law",
    [
        lambda: conductor_of_area(0.1e-6),
        lambda: conductor_of_area(float("nan")),
        lambda: conductor_of_gauge("7/0"),
        lambda: conductors("cm2"),
        lambda: ampacity(conductors("AWG")[0], 90.0, "BS 7671"),
        lambda: ampacity(conductors("AWG")[0], -1.0, "NEC 551"),
        lambda: loop_resistance(conductors("AWG")[0], -1.0, "NEC 551"),
        lambda: loop_resistance(conductors("AWG")[0], 1.0, "BS 7671"),
        lambda: thinnest_for_drop(10.0, 1.0, 0.0, "NEC 551", "AWG"),
        lambda: interrupt_rating("chewing gum", 12.0),
        lambda: interrupt_rating("blade", 0.0),
        lambda: short_circuit_current(12.0, 0.0, 0.0),
    ],
)
def test_impossible_numbers_are_refused(law) -> None:
    with pytest.raises(InvalidInput):
        law()


def test_an_unknown_voltage_is_told_and_nothing_divides_by_it() -> None:
    from tests.coupled import DEMO, edited, library

    from hushwright.document.read import read_document_text
    from hushwright.model.resolve import resolve

    text = edited(DEMO, ("    rules: ABYC E-11 ", "    mains: unknown\n    rules: ABYC E-11 "))
    document, _ = read_document_text(text, "van.yaml")
    assert document is not None
    build, problems = resolve(document, library())
    assert build is None
    assert any(each.place.path == ("power", "wiring", "mains") for each in problems)


def test_list_sheet_and_spreadsheet_tell_the_own_drop_and_that_from_the_source_alike() -> None:
    found = evaluation_of(WIRED)
    circuits = [each for each in found.wiring.circuits if each.drop_from_source > each.drop]
    assert circuits
    sheet = circuit_schedule(found.wiring, "metric").rows
    rows = [line.split(",") for line in circuit_csv(found, "metric").splitlines()]
    own, whole = (rows[0].index(each) for each in ("own drop [%]", "in all [%]"))
    for each in circuits:
        told = f"{100 * each.drop:.1f} %", f"{100 * each.drop_from_source:.1f} %"
        drawn = next(row for row in sheet if row[0] == each.name.replace("_", " "))
        assert (drawn[7], drawn[8]) == told
        assert all(one in schedule(found, "metric") for one in told)
        row = next(row for row in rows if row[0] == each.name)
        assert (float(row[own]), float(row[whole])) == pytest.approx(
            (100 * each.drop, 100 * each.drop_from_source), abs=0.006
        )


@pytest.mark.parametrize("rules", ["ABYC E-11", "ISO 13297", "NEC 551"])
def test_an_explained_drop_is_told_leg_by_leg_and_adds_up_to_that_of_the_list(rules: str) -> None:
    text = edited(WIRED, ("rules: ABYC E-11", f"rules: {rules}"), ("area: 35 mm2", "awg: 2"))
    found = evaluation_of(text)
    verdict = next(each for each in verdicts_of(text).values() if each.id.startswith("voltage-drop-"))
    circuit = next(each for each in found.wiring.circuits if each.name.replace("_", "-") in verdict.id)
    wiring = build_of(text).wiring
    assert wiring is not None
    legs = drop_legs(wiring, circuit.name)
    assert sum(each.share for each in legs) == pytest.approx(circuit.drop_from_source)
    told = explanation(verdict, found, "metric").splitlines()
    at = next(number for number, line in enumerate(told) if line.endswith("own drop"))
    for leg, line in zip(legs, told[at + 1 :], strict=False):
        assert f"{leg.length:.2f} m" in line
        assert f"{leg.temperature:g} °C" in line
        assert f"{1000.0 * leg.resistance:.3f} Ω/km" in line
        assert line.endswith(f"{leg.lost:.3f} V  {100.0 * leg.share:>6.1f} %")
    assert told[at + 1 + len(legs)].split()[:2] == ["in", "all"]
    assert told[at + 1 + len(legs)].endswith(f"{100.0 * circuit.drop_from_source:.1f} %")
    assert f"own drop {100.0 * circuit.drop:.1f} %" in verdict.hint
    assert f"in all {100.0 * circuit.drop_from_source:.1f} %" in verdict.hint


def test_a_load_that_power_alone_knows_hangs_on_no_circuit_until_one_gives_to_it() -> None:
    loads = "climate:\n  latitude: 50°\n  longitude: 8°\n  loads: [{room: control_room, equipment: 60 W}]\n"
    known = edited(WIRED, ("power:\n", f"{loads}power:\n"))
    found = verdicts_of(known)["loads-wired-all"]
    assert (found.verdict, found.value) == ("fails", 1.0)
    assert found.hint == "add a circuit: none gives to equipment control room"
    fed = edited(known, ("loads: {lamps:", "loads: {gear: {side: ac, of: equipment control_room}, lamps:"),
                 ("gives_to: [desk]", "gives_to: [desk, gear]"))  # fmt: skip
    assert verdicts_of(fed)["loads-wired-all"].verdict == "meets"


def test_what_a_part_with_a_duty_leaves_of_the_gear_runs_beside_it_as_power_counts_it() -> None:
    loads = "climate:\n  latitude: 50°\n  longitude: 8°\n  loads: [{room: control_room, equipment: 60 W}]\n"
    part = (
        "loads: {gear: {side: ac, of: equipment control_room},"
        " pump: {side: ac, power: 60 W, duty: 50 %, of: equipment control_room},"
    )
    text = edited(WIRED, ("power:\n", f"{loads}power:\n"), ("loads: {lamps:", f"{part} lamps:"),
                  ("gives_to: [desk]", "gives_to: [desk, gear, pump]"))  # fmt: skip
    mains = next(each for each in core_of(text).wiring.circuits if each.name == "mains")
    assert mains.current == pytest.approx((230.0 + 60.0 + 30.0) / 230.0)
