"""Noise of a day from what sounds in the van: headphones, monitors with what comes through the wall, players."""

import math

import pytest
from tests.coupled import core_of, edited, library, value_of, verdicts_of
from tests.unit.signal_cases import WIRED

from hushwright.app.suggestions import suggestions
from hushwright.document.outline import outline
from hushwright.document.read import read_document_text
from hushwright.evaluation.results.safety import Dose, DosePart
from hushwright.evaluation.safety.doses import what_would_do
from hushwright.model.resolve import resolve
from hushwright.physics.acoustics.weighting import a_weighted_level

MONITOR = "brief:\n  monitor: {level: 80 dB(A)}\n  sources: {quiet_room: singing voice, quiet_room_level: 95 dB(A)}\n"
HOUR = 3600.0


def exposed(parts: str, rule: str = "EU") -> str:
    """The wired build with one kind of person who hears these parts."""
    safety = f"safety:\n  noise_rule: {rule}\n  exposures:\n    listener: {{parts: [{parts}]}}\nstates:\n"
    return edited(WIRED, ("brief:\n", MONITOR), ("states:\n", safety))


def day(level: float, hours: float) -> float:
    """Exposure of one level for some hours, by hand."""
    return level + 10.0 * math.log10(hours / 8.0)


def test_headphones_are_heard_at_the_listening_level() -> None:
    text = exposed("{of: headphones, point: singers, duration: 2 h}")
    assert value_of(text, "dose/listener") == pytest.approx(day(85.0, 2.0), abs=0.01)  # library: 85 dB(A)
    typed = exposed("{of: headphones, point: singers, level: 79 dB(A), duration: 2 h}")
    assert value_of(typed, "dose/listener") == pytest.approx(day(79.0, 2.0), abs=0.01)


def test_a_limiter_holds_what_people_hear() -> None:
    text = edited(exposed("{of: headphones, point: singers, duration: 8 h}"),
                  ("sensitivity: 96 dB, limiter: 95", "sensitivity: 96 dB, limiter: 72"))  # fmt: skip
    assert value_of(text, "dose/listener") == pytest.approx(72.0, abs=0.01)


def test_turned_up_is_full_voltage_less_the_crest_or_the_limiter() -> None:
    turned = exposed("{of: headphones turned up, point: singers, duration: 8 h}")
    free = edited(turned, ("sensitivity: 96 dB, limiter: 95 dB(A)", "sensitivity: 96 dB"))
    # 96 dB at 1 mW in 250 Ω are 102.0 dB at 1 V; 2 V behind 10 Ω and 5 m of cable of twice 0.0345 Ω/m; crest 12 dB.
    voltage = 2.0 * 250.0 / (250.0 + 10.0 + 2.0 * 17.241e-9 * 5.0 / 0.5e-6)
    level = 96.0 + 10.0 * math.log10(1000.0 / 250.0) + 20.0 * math.log10(voltage) - 12.0
    assert value_of(free, "dose/listener") == pytest.approx(level, abs=0.01)
    held = edited(turned, ("sensitivity: 96 dB, limiter: 95", "sensitivity: 96 dB, limiter: 90"))
    assert value_of(held, "dose/listener") == pytest.approx(90.0, abs=0.01)


def test_monitors_are_as_loud_as_the_brief_says_with_what_comes_through_the_wall() -> None:
    text = exposed("{of: monitors, duration: 8 h}")
    assert value_of(text, "dose/listener") == pytest.approx(80.0, abs=0.05)  # a wall of 600 kg/m²
    wall = "    front:\n      layers:\n        - {limp: heavy sheet, thickness: 30}\n    rear:"
    thin = edited(text, (wall, wall.replace("heavy sheet, thickness: 30", "light sheet, thickness: 1")))
    through = a_weighted_level(core_of(thin).between_rooms[0].received)
    together = 10.0 * math.log10(10.0**8.0 + 10.0 ** (through / 10.0))
    assert value_of(thin, "dose/listener") == pytest.approx(together, abs=1e-6)
    assert together > 80.5


def test_players_are_heard_as_the_field_of_the_room_has_them() -> None:
    text = exposed("{of: players, duration: 8 h}")
    softer = edited(text, ("quiet_room_level: 95", "quiet_room_level: 85"))
    assert value_of(text, "dose/listener") - value_of(softer, "dose/listener") == pytest.approx(10.0, abs=1e-6)
    assert value_of(text, "dose/listener") > 95.0  # a hard room of 8 m³ is louder than the power level of its source


def test_time_left_out_is_that_of_the_takes() -> None:
    phases = "{state: record, duration: 40 min}, {state: rest, duration: 2 h}, {state: record, duration: 20 min}"
    text = edited(exposed("{of: monitors}"), (MONITOR, f"{MONITOR}  session: [{phases}]\n"),
                  ("states:\n", "states:\n  rest: {people: {control_room: 1}}\n"))  # fmt: skip
    assert value_of(text, "dose/listener") == pytest.approx(day(80.0, 1.0), abs=0.05)


def test_parts_share_the_uncertainty_by_their_weight() -> None:
    # ISO 9612, annex C (memory): each part counts by its share of the day's energy; 1 dB for the place at the ear.
    text = exposed("{of: monitors, duration: 4 h}, {level: 80 dB(A), duration: 4 h}")
    found = core_of(text).quantities["dose/listener"]
    assert found.standard_uncertainty == pytest.approx(math.hypot(1.0, 0.5 * 2.0), abs=0.01)


def test_the_hint_turns_down_what_weighs_most_and_says_how_long_it_may_last() -> None:
    text = exposed("{of: headphones, point: singers, level: 94 dB(A), duration: 8 h}")
    verdict = verdicts_of(text)["noise-exposure-listener"]
    enough = 87.0 - 2.0 * (verdict.uncertainty or 0.0)
    assert verdict.verdict == "fails"
    down = math.ceil(10.0 * (94.0 - enough)) / 10.0
    assert f"turn down by {down:g} dB: headphones singers, 94 dB(A); or" in verdict.hint
    hours = 8.0 * 10.0 ** ((enough - 94.0) / 10.0)
    assert f"let it last {math.floor(60.0 * hours):.0f} min a day" in verdict.hint
    assert "harms hearing" in verdict.caution


def test_headphones_that_go_too_far_up_want_a_limiter_that_would_do() -> None:
    text = exposed("{of: headphones turned up, point: singers, duration: 8 h}")
    verdict = verdicts_of(text)["noise-exposure-listener"]
    limiter = math.floor(87.0 - 2.0 * (verdict.uncertainty or 0.0) + 1e-9)
    assert f"set a `limiter` of {limiter} dB(A): headphones singers turned up, 95 dB(A); or" in verdict.hint
    held = edited(text, ("sensitivity: 96 dB, limiter: 95", f"sensitivity: 96 dB, limiter: {limiter}"))
    assert verdicts_of(held)["noise-exposure-listener"].verdict == "meets"


@pytest.mark.parametrize("exchange", [3.0103, 5.0])
def test_turning_down_or_stopping_early_brings_the_day_to_what_is_enough(exchange: float) -> None:
    def exposure(parts: tuple[tuple[float, float], ...]) -> float:
        return exchange * math.log2(sum(time * 2.0 ** (level / exchange) for level, time in parts) / (8.0 * HOUR))

    heard = ((95.0, 3.0 * HOUR), (82.0, 4.0 * HOUR))
    weights = [time * 2.0 ** (level / exchange) for level, time in heard]
    parts = tuple(DosePart("typed", "", level, 0.0, time, weight / sum(weights))
                  for (level, time), weight in zip(heard, weights, strict=True))  # fmt: skip
    found = what_would_do(Dose("x", exposure(heard), exchange, parts, ""), 84.0)
    assert found is not None
    part, down, time = found
    assert part.level == 95.0
    assert exposure(((95.0 - down, 3.0 * HOUR), heard[1])) == pytest.approx(84.0)
    assert exposure(((95.0, time), heard[1])) == pytest.approx(84.0)
    assert what_would_do(Dose("x", exposure(heard), exchange, parts, ""), 70.0) is None


@pytest.mark.parametrize(("parts", "reference", "place"), [
    ("{duration: 2 h}", "level-not-said", "level"),
    ("{of: headphones, point: nobody, duration: 2 h}", "unknown-name", "point"),
    ("{of: headphones, duration: 2 h}", "value-needed", "point"),
    ("{of: monitors, level: 80 dB(A), duration: 2 h}", "key-without-effect", "level"),
    ("{level: 80 dB(A), point: singers, duration: 2 h}", "key-without-effect", "point"),
])  # fmt: skip
def test_what_has_no_level_is_told_with_its_place(parts: str, reference: str, place: str) -> None:
    document, found = read_document_text(exposed(parts), "van.yaml")
    assert document is not None, found
    told = [(each.reference, each.place.dotted) for each in resolve(document, library())[1]]
    assert (reference, f"safety.exposures.listener.parts.0.{place}") in told


def test_monitors_without_a_level_in_the_brief_are_refused() -> None:
    text = edited(exposed("{of: monitors, duration: 2 h}"), ("  monitor: {level: 80 dB(A)}\n", ""))
    document, _ = read_document_text(text, "van.yaml")
    assert document is not None
    assert "level-not-said" in [each.reference for each in resolve(document, library())[1]]


def test_the_form_offers_the_headphone_points_there_are() -> None:
    root = outline(exposed("{of: headphones, point: singers, duration: 2 h}"))
    point = root.find(("safety", "exposures", "listener", "parts", 0, "point"))
    assert point is not None
    assert suggestions(point, root, library()) == ("singers", "at_desk")


def test_players_of_whom_no_take_is_recorded_leave_the_day_unproven() -> None:
    text = edited(exposed("{of: players, duration: 2 h}"), ("    takes: yes\n", ""))
    found = verdicts_of(text)["noise-exposure-listener"]
    assert (found.verdict, found.value) == ("unproven", None)
    assert "nothing is played" in found.reason
