"""A whole run from the fan to the room, step by step, against a printed sheet."""

import csv
from pathlib import Path

import numpy as np
import pytest

from hushwright.physics.acoustics.bands import energy_sum_level
from hushwright.physics.acoustics.duct_bands import DUCT_OCTAVES, loss_from_octaves, power_from_octaves
from hushwright.physics.acoustics.duct_fittings import elbow, split
from hushwright.physics.acoustics.duct_path import DuctElement, KnownNoise, arrival

# Long, Architectural Acoustics, 2nd ed., table 14.9 (found), sums recomputed by the one who transcribed it within 1 dB.
with (Path(__file__).parent / "tables" / "duct_path_examples.csv").open(encoding="utf-8", newline="") as file:
    SHEET = list(csv.DictReader(file))
FLOW = 5000 * 0.3048**3 / 60.0


def line(branch, step, quantity):
    """Octaves of one printed line."""
    (row,) = (
        row for row in SHEET if (row["branch"], row["step"], row["quantity"]) == (branch, str(step), quantity)
    )  # fmt: skip
    return np.array([float(row[f"b_{band:g}"]) for band in DUCT_OCTAVES])


def names(branch):
    return {
        int(row["step"]): row["element"] for row in SHEET if row["branch"] == branch and 0 < int(row["step"]) < 90
    }  # fmt: skip


def run(branch):
    """Elements with the attenuation and the noise that are printed; 0 is the floor of the sheet and adds as 0 dB."""
    return [
        DuctElement(
            name,
            loss_from_octaves(line(branch, step, "attenuation")),
            KnownNoise(power_from_octaves(line(branch, step, "self_noise_LW")), FLOW),
        )
        for step, name in names(branch).items()
    ]


STEPS = [(branch, step) for branch in ("supply", "return") for step in names(branch)]


@pytest.mark.parametrize(("branch", "step"), STEPS)
def test_every_step_follows_from_the_one_before(branch, step):
    """Each printed line from the printed line before it: within 1 dB, the rounding of three whole numbers."""
    before = line(branch, step - 1, "LW" if step == 1 else "LW_after_element")
    element = run(branch)[step - 1]
    (found,) = arrival([element], power_from_octaves(before), FLOW).steps
    after_attenuation, after_element = (line(branch, step, f"LW_after_{key}") for key in ("attenuation", "element"))
    assert found.after_attenuation.octaves == pytest.approx(after_attenuation, abs=1.01)
    assert found.after_element.octaves == pytest.approx(after_element, abs=1.25)


@pytest.mark.parametrize("branch", ["supply", "return"])
def test_whole_run_arrives_at_the_printed_level(branch):
    """From the fan to the terminal and, with the printed room effect, to the listener: roundings add up to 2 dB."""
    arrived = arrival(run(branch), power_from_octaves(line(branch, 0, "LW")), FLOW)
    for step, found in enumerate(arrived.steps, start=1):
        assert found.after_element.octaves == pytest.approx(line(branch, step, "LW_after_element"), abs=2.0)
    received = np.array(arrived.total.octaves) - line(branch, 90, "attenuation")
    assert received == pytest.approx(line(branch, 91, "Lp"), abs=2.0)


def test_supply_and_return_add_to_the_printed_sum():
    runs = [arrival(run(branch), power_from_octaves(line(branch, 0, "LW")), FLOW) for branch in ("supply", "return")]
    room = [line(branch, 90, "attenuation") for branch in ("supply", "return")]
    levels = [np.array(one.total.octaves) - effect for one, effect in zip(runs, room, strict=True)]
    assert energy_sum_level(np.array(levels), axis=0) == pytest.approx(line("sum", 99, "Lp"), abs=2.0)


def test_elbow_and_split_of_the_sheet_come_out_of_the_tables():
    """36 × 24 in elbow bent over its 24 in side, radiused; a quarter of the flow."""
    assert elbow(24 * 0.0254, "radiused").octaves == pytest.approx(line("supply", 1, "attenuation"))
    assert split(0.25).octaves == pytest.approx(line("supply", 4, "attenuation"), abs=0.03)


def test_fan_and_flow_parts_make_the_total():
    """Energy of what the fan sent and of what the air made on the way, from their own sums."""
    arrived = arrival(run("supply"), power_from_octaves(line("supply", 0, "LW")), FLOW)
    parts = np.array([arrived.source_part.sound_power_level, arrived.flow_part.sound_power_level])
    assert energy_sum_level(parts, axis=0) == pytest.approx(arrived.total.sound_power_level)
