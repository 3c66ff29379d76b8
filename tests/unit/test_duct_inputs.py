"""Impossible ducts are refused with the value shown; what leaves its range says so."""

import math

import pytest

from hushwright.errors import InvalidInput
from hushwright.physics.acoustics.duct_baffle_box import BaffleBox, baffle_box_loss
from hushwright.physics.acoustics.duct_baffle_sizing import BoxLimits, size_baffle_box
from hushwright.physics.acoustics.duct_bands import (
    DuctLoss,
    DuctPower,
    loss_from_octaves,
    power_from_octaves,
    summed_power,
)
from hushwright.physics.acoustics.duct_breakout import (
    OvalDuctWall,
    RoundDuctWall,
    break_in_power,
    wall_transmission_loss,
)
from hushwright.physics.acoustics.duct_fan import (
    FanDuty,
    blade_passing_frequency,
    estimated_fan_power,
    fan_law_level,
    fan_law_power,
)
from hushwright.physics.acoustics.duct_fan_figures import fan_power_from_level_a, power_at_speed, tone_band
from hushwright.physics.acoustics.duct_fittings import bend, elbow, end_reflection, plenum, split
from hushwright.physics.acoustics.duct_flow_noise import damper_noise
from hushwright.physics.acoustics.duct_lined import bare_duct, flexible_duct, lined_duct, lining_insertion_loss
from hushwright.physics.acoustics.duct_passage import passage_wavenumber
from hushwright.physics.acoustics.duct_path import DuctElement, crosstalk_power, run_loss
from hushwright.physics.acoustics.duct_sections import RectangularSection, RoundSection
from hushwright.physics.acoustics.duct_terminals import terminal_noise, terminal_speed_limit, throttling_increment
from hushwright.physics.acoustics.layers import Porous

WOOL = Porous(12_000.0, 0.97, 1.0, 40.0)
NOTHING = (0.0,) * 27

IMPOSSIBLE = {
    "26 values": (lambda: DuctLoss((1.0,) * 26), "26"),
    "negative attenuation": (lambda: DuctLoss((-1.0,) * 27), "-1.0"),
    "level that is no number": (lambda: DuctPower((math.nan,) * 27, NOTHING), "nan"),
    "octaves with a hole": (lambda: loss_from_octaves([1, 2], (63, 250)), "250"),
    "octave that is none": (lambda: loss_from_octaves([1], (100,)), "100"),
    "levels without bands": (lambda: power_from_octaves([60, 60], (63,)), "2"),
    "sum of nothing": (lambda: summed_power([]), "0 sound powers"),
    "duct without width": (lambda: RectangularSection(0.0, 0.1), "0.0"),
    "negative length": (lambda: bare_duct(RoundSection(0.1), -1.0), "-1.0"),
    "unknown rule": (lambda: bare_duct(RoundSection(0.1), 1.0, "guess"), "guess"),
    "duct beyond the sheet table": (lambda: bare_duct(RoundSection(1.2), 1.0, "sheet table"), "1.2"),
    "lining without thickness": (lambda: lining_insertion_loss(RoundSection(0.2), 1.0, 0.0), "0.0"),
    "unknown elbow": (lambda: elbow(0.1, "twisted"), "twisted"),
    "unknown bend": (lambda: bend(0.1, "twisted"), "twisted"),
    "unknown end": (lambda: end_reflection(0.01, "hidden"), "hidden"),
    "end without area": (lambda: end_reflection(0.0), "0.0"),
    "share above one": (lambda: split(1.2), "1.2"),
    "chamber without absorption": (lambda: plenum(0.01, 1.0, 0.0, 0.5), "0.0"),
    "flat oval on its side": (lambda: OvalDuctWall(0.1, 0.2, 5.0, 1.0), "0.1"),
    "unknown seam": (lambda: RoundDuctWall(0.1, 1.0, "glued"), "glued"),
    "unknown direction": (lambda: wall_transmission_loss(RoundDuctWall(0.2, 1.0), "sideways"), "sideways"),
    "levels of octaves in place of thirds": (lambda: break_in_power([70.0] * 8, RoundDuctWall(0.2, 1.0)), "8"),
    "fan without flow": (lambda: FanDuty(0.0, 100.0), "0.0"),
    "efficiency in percent": (lambda: FanDuty(0.1, 100.0, relative_efficiency=80.0), "80.0"),
    "unknown fan": (lambda: estimated_fan_power(FanDuty(0.1, 100.0), "windmill"), "windmill"),
    "unknown wheel": (lambda: fan_law_level(FanDuty(0.1, 100.0), "paddle"), "paddle"),
    "spectrum without speed": (lambda: fan_law_power(FanDuty(0.1, 100.0)), "None"),
    "wheel without blades": (lambda: blade_passing_frequency(20.0, 0), "0 blades"),
    "fan of nothing": (lambda: fan_power_from_level_a(-500.0), "-500.0"),
    "fan ten times as fast": (lambda: power_at_speed(power_from_octaves([60.0] * 8), 10.0), "10.0"),
    "tone above hearing": (lambda: tone_band(30_000.0), "30000.0"),
    "damper without loss": (lambda: damper_noise(3.0, 0.01, 0.1, 0.0), "0.0"),
    "backward flow": (lambda: damper_noise(-3.0, 0.01, 0.1, 1.0), "-3.0"),
    "unknown terminal": (lambda: terminal_noise(2.0, 0.01, 3.0, "star"), "star"),
    "criterion beyond the table": (lambda: terminal_speed_limit(15.0), "15.0"),
    "unknown side": (lambda: terminal_speed_limit(30.0, "left"), "left"),
    "damper open beyond open": (lambda: throttling_increment(0.5), "0.5"),
    "unknown place": (lambda: throttling_increment(2.0, "roof"), "roof"),
    "frequency of zero": (lambda: passage_wavenumber(0.1, WOOL, 0.05, [0.0]), "0.0"),
    "box full of lining": (lambda: BaffleBox(0.9, 0.1, 0.25, 0.012, WOOL, 0.04, 3, 0.04, 0.05, 0.01), "0.04"),
    "passage wider than the box": (lambda: BaffleBox(0.9, 0.35, 0.25, 0.012, WOOL, 0.04, 3, 0.04, 0.5, 0.01), "0.5"),
    "no lining to be had": (lambda: BoxLimits(0.9, 0.35, 0.25, 0.01, 0.01, lining_thicknesses=()), "0 lining"),
    "octave that cannot be asked": (
        lambda: size_baffle_box([5.0], BoxLimits(0.9, 0.35, 0.25, 0.01, 0.01), WOOL, bands=(100,)),
        "100",
    ),
    "box too small for the air": (
        lambda: size_baffle_box([5.0] * 8, BoxLimits(0.2, 0.2, 0.2, 0.05, 0.05), WOOL),
        "0.05",
    ),
    "run without parts": (lambda: run_loss([]), "0 parts"),
    "share of a part": (lambda: DuctElement("split", loss_from_octaves([1.0] * 8), flow_share=0.0), "0.0"),
    "crosstalk of octaves": (lambda: crosstalk_power([DuctElement("a", DuctLoss(NOTHING))], [70.0], 0.01), "1"),
}


@pytest.mark.parametrize("case", IMPOSSIBLE)
def test_impossible_is_refused_with_the_value(case):
    call, shown = IMPOSSIBLE[case]
    with pytest.raises(InvalidInput) as caught:
        call()
    assert shown in str(caught.value)


@pytest.mark.parametrize(
    ("loss", "word"),
    [
        (flexible_duct(0.08, 1.0), "nearest"),
        (flexible_duct(0.15, 5.0), "3.66"),
        (lined_duct(RectangularSection(0.1, 0.1), 1.0, 0.025), "150 mm"),
        (lined_duct(RectangularSection(0.2, 0.2), 1.0, 0.1), "25 to"),
        (lined_duct(RectangularSection(0.2, 0.2), 6.0, 0.05), "3 m"),
        (lined_duct(RectangularSection(0.2, 0.2), 6.0, 0.05), "40"),
        (wall_transmission_loss(RoundDuctWall(0.1, 1.0)), "nearest"),
        (plenum(0.01, 1.0, 0.5, 0.5), "diffuse"),
        (baffle_box_loss(BaffleBox(0.9, 0.35, 0.25, 0.012, WOOL, 0.04, 4, 0.04, 0.1, 0.0123)), "50"),
        (baffle_box_loss(BaffleBox(0.9, 0.35, 0.18, 0.012, WOOL, 0.04, 3, 0.04, 0.1, 0.0123)), "narrower"),
        (baffle_box_loss(BaffleBox(1.8, 0.25, 0.25, 0.012, WOOL, 0.04, 2, 0.04, 0.1, 0.0123)), "wider apart"),
    ],
)
def test_what_leaves_its_range_says_so(loss, word):
    assert any(word in note for note in loss.notes)


def test_inside_its_range_nothing_is_noted():
    assert not lined_duct(RectangularSection(0.3, 0.2), 1.5, 0.05).notes
    assert not flexible_duct(0.15, 2.0).notes


def test_one_figure_of_a_fan_is_marked_as_a_guess_of_its_spectrum():
    power = fan_power_from_level_a(45.0)
    assert power.notes
    assert len(power.assumed) == 27
