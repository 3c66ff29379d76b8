"""Signals of a build file: bridges, glands, gear in the background, remarks, lists."""

import csv
import io

import pytest
from tests.coupled import DEMO, build_of, core_of, edited, library, paths_to_quiet, value_of
from tests.plain_builds import plain_build
from tests.unit.signal_cases import NO_LOOP, WIRED

from hushwright.document.read import read_document_text
from hushwright.errors import Diagnostic
from hushwright.evaluation.evaluate import evaluate
from hushwright.evaluation.guard import CannotEvaluate
from hushwright.evaluation.results.signals import NO_SIGNALS
from hushwright.model.resolve import resolve
from hushwright.report.signals import cable_csv, cable_list, signal_nodes, signals

QUAY = (
    "  outdoors:\n    - {situation: quay, octaves: {hz_250: 40 dB, hz_500: 40 dB, hz_1000: 40 dB}, limit: 35 dB(A)}\n"
)
TALL = "  tallest: 1700"


def problems(text: str) -> list[Diagnostic]:
    document, found = read_document_text(text, "van.yaml")
    assert document is not None
    assert not found, found
    return list(resolve(document, library())[1])


def references(text: str) -> list[tuple[str, str]]:
    return [(each.reference, each.place.dotted) for each in problems(text)]


def test_without_signals_nothing_is_computed() -> None:
    core = core_of(plain_build())
    assert core.signals == NO_SIGNALS
    assert not any(key.startswith(("line", "headphone", "talkback", "gear")) for key in core.quantities)


def test_wishes_without_signals_are_remarked() -> None:
    assert references(plain_build("  signals: {hum: 60 dB}\n")) == [("key-without-effect", "brief.signals")]


def test_a_cable_clipped_on_both_sides_is_a_bridge_in_the_wall_of_its_gland() -> None:
    singers = "number: 4, length: 6 m, passes: [tie_lines], fixed_to: [quiet, control]"
    clipped = build_of(edited(DEMO, (f"{singers}, loop: yes", singers)))
    quiet = clipped.room_for("quiet")
    assert quiet is not None
    front = quiet.surface("front")
    assert front is not None
    causes = {bridge.cause: bridge.density * front.area for bridge in front.bridges}
    assert causes["cable singers, without a loop"] == pytest.approx(4.0)


def test_a_loop_leaves_the_room_free() -> None:
    assert value_of(WIRED, "lines-bridging") == 0.0
    assert value_of(edited(WIRED, NO_LOOP), "lines-bridging") == 1.0


def test_gear_in_the_quiet_room_joins_the_background_by_name() -> None:
    sung = edited(DEMO, ("frequency: 8 kHz, sound_power: 4 dB(A)", "frequency: 8 kHz, sound_power: 30 dB(A)"))
    before, after = (paths_to_quiet(text, "quay/record")["lamp drivers"].level_a for text in (DEMO, sung))
    assert after == pytest.approx(before + 26.0, abs=1e-6)


def test_gear_without_a_sound_power_is_named_as_a_risk() -> None:
    core = core_of(edited(DEMO, ("frequency: 8 kHz, sound_power: 4 dB(A)", "frequency: 8 kHz")))
    assert core.quantities["gear/record"].validity == ("the sound power of lamp drivers is not known",)


def test_what_clicks_is_judged_and_stays_out_of_the_background() -> None:
    core = core_of(edited(WIRED, (TALL, QUAY + TALL), ("frequency: 25 kHz", "sound_power: 40 dB(A), steady: no")))
    assert core.signals.gear[0].click > 40.0
    assert core.quantities["gear/record"].value == core.signals.gear[0].click
    assert "lamps" not in {path.name for path in core.backgrounds[0].paths}


@pytest.mark.parametrize("frequency", ["0 Hz", "25 kHz"])
def test_a_dimmer_that_is_steady_or_above_hearing_is_not_heard(frequency: str) -> None:
    core = core_of(edited(WIRED, ("frequency: 25 kHz", f"frequency: {frequency}, sound_power: 60 dB(A)")))
    assert core.quantities["gear/record"].value == 0.0


def test_gear_that_is_off_is_silent() -> None:
    core = core_of(edited(DEMO, ("frequency: 8 kHz, sound_power: 4 dB(A)",
                                 "frequency: 8 kHz, sound_power: 60 dB(A), runs_in: [pause]")))  # fmt: skip
    assert core.quantities["gear/record"].value < 20.0


def test_points_are_wanted_for_everybody_in_a_room_during_takes() -> None:
    build = build_of(WIRED)
    assert build.signals is not None
    assert {(place, number) for place, number, _ in build.signals.wanted} == {("quiet_room", 4), ("control_room", 2)}


def test_keys_that_the_route_says_already_are_remarked() -> None:
    text = edited(DEMO, ("route: tie_lines, connectors", "route: tie_lines, length: 6 m, loop: yes, connectors"))
    told = [path for reference, path in references(text) if reference == "key-without-effect"]
    assert told == ["signals.lines.tie_lines.length", "signals.lines.tie_lines.loop"]


def test_a_neighbour_longer_than_the_line_is_remarked() -> None:
    text = edited(WIRED, ("distance: 300, along: 1 m", "distance: 300, along: 9 m"))
    assert ("longer-than-line", "signals.lines.tie_lines.near.0.along") in references(text)


def test_headphones_whose_line_ends_elsewhere_are_remarked() -> None:
    text = edited(WIRED, ("{room: quiet_room, number: 4", "{room: cab, number: 4"))
    assert ("line-ends-elsewhere", "signals.headphones.singers.line") in references(text)


def test_hum_of_what_carries_no_sound_is_remarked() -> None:
    text = edited(WIRED, ("kind: microphone,", "kind: control,"))
    assert ("key-without-effect", "signals.lines.tie_lines.near") in references(text)


def test_a_line_is_fixed_to_rooms_that_are_there() -> None:
    mic = "{kind: microphone, comes_from: quiet_room, goes_to: quiet_room, length: 2 m, fixed_to: [quiet, control]}"
    text = plain_build("", f"signals:\n  lines:\n    mic: {mic}\n")
    assert ("unknown-name", "signals.lines.mic.fixed_to.1") in references(text)


def test_a_cable_in_a_door_is_remarked() -> None:
    text = edited(DEMO, ("length: 7 m, passes: [tie_lines]", "length: 7 m, passes: [quiet_door]"))
    assert ("cable-in-a-door", "signals.lines.camera.passes") in references(text)


def test_cables_that_lie_on_each_other_are_told_with_their_place() -> None:
    text = edited(WIRED, ("distance: 300, along: 1 m", "distance: 3, along: 1 m"))
    with pytest.raises(CannotEvaluate, match="lie on each other") as told:
        evaluate(build_of(text))
    assert told.value.place == "signals.lines.tie_lines.near.0"


def test_a_cable_thicker_than_its_gland_does_not_go_through() -> None:
    text = edited(WIRED, ("quiet_room, length: 4 m, passes: [glands],", "quiet_room, length: 4 m, passes: [glands],"
                          " diameter: 34,"))  # fmt: skip
    assert value_of(text, "gland/glands") > 1.0


def test_a_usual_value_is_told_once_however_many_lines_take_it() -> None:
    told = [each.text for each in build_of(DEMO).assumptions if each.text.startswith("capacitance of a signal cable")]
    assert len(told) == 1


@pytest.mark.parametrize("system", ["metric", "us"])
def test_the_list_holds_every_line_and_csv_no_formula(system) -> None:
    text = edited(WIRED, ("connectors: [socket, plug]", 'connectors: ["=1+1", plug]'))
    evaluation = evaluate(build_of(text))
    told = cable_list(evaluation, system)
    assert all(name in told for name in ("tie lines", "phones", "talk"))
    rows = list(csv.reader(io.StringIO(cable_csv(evaluation, system))))
    assert [row[0] for row in rows[1:]] == ["tie_lines", "phones", "talk"]
    assert rows[1][7] == "'=1+1"
    assert len({len(row) for row in rows}) == 1


def test_the_report_and_json_tell_signals() -> None:
    evaluation = evaluate(build_of(WIRED))
    assert signals(evaluation, "metric")[1] == "Signals"
    node = signal_nodes(evaluation, "metric")["signals"]
    assert [line["name"] for line in node["lines"]] == ["tie_lines", "phones", "talk"]
    assert [each["name"] for each in node["gear"][0]["sources"]] == ["lamps", "charger"]
    assert signal_nodes(evaluate(build_of(plain_build())), "metric") == {}


def test_a_file_without_lines_says_so() -> None:
    assert cable_list(evaluate(build_of(plain_build())), "metric").startswith("The file names no lines")
