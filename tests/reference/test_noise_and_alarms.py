"""Permissible times of noise row by row, exposure over a day, danger signals by hand."""

import csv
import math
from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from hushwright.errors import InvalidInput
from hushwright.physics.acoustics.danger_signals import masked_threshold, signal_over_noise
from hushwright.physics.acoustics.noise_dose import exposure_level, permissible_time

with (Path(__file__).parent / "tables" / "08_life_safety_facts.csv").open(encoding="utf-8", newline="") as lines:
    ROWS = [row for row in csv.DictReader(lines) if row["id"].startswith(("no_osha", "no_niosh", "no_ca"))]
RULES = {"no_osha": (90.0, 5.0), "no_niosh": (85.0, 3.0), "no_ca": (87.0, 3.0)}
# 29 CFR 1910.95 (found and memory), NIOSH 98-126 (memory), Canada's federal directive (found).

LEVELS = st.lists(st.floats(40.0, 120.0), min_size=1, max_size=5)


@pytest.mark.parametrize("row", ROWS, ids=lambda row: row["id"])
def test_permissible_time_is_the_printed_one(row: dict[str, str]) -> None:
    rule, level = row["id"].rsplit("_", 1)
    printed = row["value"]
    hours = permissible_time(float(level), *RULES[rule]) / 3600.0
    # Canada prints 20 h and 13 h for 20.2 and 12.7: whole hours there.
    digit = 1.0 if rule == "no_ca" and float(printed) > 10.0 else 10.0 ** -len(printed.partition(".")[2])
    assert hours == pytest.approx(float(printed), abs=0.501 * digit)


def test_the_level_of_the_criterion_all_day_is_the_criterion() -> None:
    assert exposure_level([85.0], [8 * 3600.0]) == pytest.approx(85.0)
    assert exposure_level([90.0], [8 * 3600.0], 5.0) == pytest.approx(90.0)


def test_the_trades_of_the_directive_fill_its_limit() -> None:
    # Directive 2003/10/EC, 3 dB trade as printed: 90 dB(A) 4 h, 93 2 h, 96 1 h, 99 30 min, 102 15 min (found).
    for level, hours in ((90.0, 4.0), (93.0, 2.0), (96.0, 1.0), (99.0, 0.5), (102.0, 0.25)):
        assert exposure_level([level], [hours * 3600.0]) == pytest.approx(87.0, abs=0.06)


def test_the_welders_of_the_standard_are_exposed_as_it_prints() -> None:
    # ISO 9612:2009, annex D (memory): planning and breaks, welding, cutting and grinding; LEX,8h = 84.3 dB.
    hours = [1.5 * 3600.0, 5.0 * 3600.0, 1.5 * 3600.0]
    assert exposure_level([70.0, 80.8, 90.1], hours) == pytest.approx(84.3, abs=0.05)


def test_silence_exposes_nobody_and_more_than_a_day_is_refused() -> None:
    assert exposure_level([90.0], [0.0]) == -math.inf
    for bad in (lambda: exposure_level([90.0], [90_000.0]), lambda: exposure_level([90.0], [-1.0]),
                lambda: exposure_level([90.0], [1.0, 2.0]), lambda: exposure_level([90.0], [1.0], 0.0),
                lambda: permissible_time(90.0, 85.0, 0.0), lambda: masked_threshold([1.0], 0.0),
                lambda: signal_over_noise([1.0], [2.0])):  # fmt: skip
        with pytest.raises(InvalidInput):
            bad()


@given(LEVELS, st.floats(0.1, 10.0))
@settings(max_examples=40)
def test_a_louder_part_never_exposes_less(levels: list[float], more: float) -> None:
    hours = [3600.0] * len(levels)
    louder = [levels[0] + more, *levels[1:]]
    assert exposure_level(louder, hours) >= exposure_level(levels, hours)
    assert exposure_level(levels, hours) <= max(levels) + 10.0 * math.log10(len(levels) / 8.0) + 1e-9


@given(st.lists(st.floats(0.0, 100.0), min_size=2, max_size=27))
@settings(max_examples=40)
def test_noise_masks_upward_and_never_less_than_itself(noise: list[float]) -> None:
    masked = masked_threshold(noise)
    assert all(masked >= noise)
    assert all(after >= before - 2.5 - 1e-9 for before, after in zip(masked, masked[1:], strict=False))


def test_a_quiet_room_asks_for_65_and_a_loud_one_for_more() -> None:
    """Row al12: at 25 dB(A) inside the 65 dB(A) rule, at 95 dB(A) of playback 110 dB(A) by the A-weighted rule."""
    tone = [-200.0] * 27
    tone[16] = 70.0  # 1 kHz, where the A-weighting is 0 dB
    assert signal_over_noise(tone, [10.0] * 27).margin == pytest.approx(5.0, abs=0.01)
    loud = [-200.0] * 27
    loud[16] = 95.0
    heard = [-200.0] * 27
    heard[16] = 110.0
    assert signal_over_noise(heard, loud).over_noise == pytest.approx(15.0, abs=1e-6)
