"""Room statistics against worked examples; each names its source in room_examples.toml."""

import math
import tomllib
from pathlib import Path

import numpy as np
import pytest

from hushwright.physics.acoustics.reverberation import (
    arau_reverberation_time,
    eyring_reverberation_time,
    fitzroy_reverberation_time,
    millington_reverberation_time,
    room_constant,
    sabine_reverberation_time,
    schroeder_frequency,
)
from hushwright.physics.air import Air

EXAMPLES = tomllib.loads((Path(__file__).parent / "tables" / "room_examples.toml").read_text(encoding="utf-8"))


def air_with(speed_of_sound):
    """Air in which sound has just this speed [m/s], as the examples round it."""
    return Air(temperature=speed_of_sound**2 / (1.4 * 287.055) - 273.15)


C343 = air_with(343.0)


def test_sabine_and_eyring_closed_form():
    item = EXAMPLES["rt_closed_form"]
    length, width, height = item["room_m"]
    volume, area = length * width * height, 2 * (length * width + length * height + width * height)
    sabine = sabine_reverberation_time(volume, area * item["alpha"], air=C343)
    eyring = eyring_reverberation_time(volume, [area], [item["alpha"]], air=C343)
    assert float(sabine) == pytest.approx(item["sabine_s"], abs=5e-11)
    assert float(eyring) == pytest.approx(item["eyring_s"], abs=5e-11)


def test_millington_closed_form():
    item = EXAMPLES["rt_millington"]
    areas, coefficients = zip(*item["surfaces"], strict=True)
    got = millington_reverberation_time(item["volume_m3"], areas, coefficients, air=C343)
    assert float(got) == pytest.approx(item["rt_s"], abs=5e-11)


def test_arau_and_fitzroy_for_uneven_absorption():
    item = EXAMPLES["rt_uneven"]
    room, alpha = tuple(item["room_m"]), item["alpha_by_axis_pair"]
    assert float(arau_reverberation_time(room, alpha, air=C343)) == pytest.approx(item["arau_s"], abs=5e-11)
    assert float(fitzroy_reverberation_time(room, alpha, air=C343)) == pytest.approx(item["fitzroy_s"], abs=5e-11)


def test_handbook_room_by_octaves():
    # Everest & Pohlmann, Fig. 7-22; its constant is 0.049 s/ft
    item = EXAMPLES["rt_everest"]
    absorption_area = sum(
        surface["area_ft2"] * np.array(surface["alpha"]) for surface in (item["floor"], item["gypsum"])
    )
    speed_of_sound = 24 * math.log(10) * 0.3048 / 0.049
    got = sabine_reverberation_time(
        item["volume_ft3"] * 0.3048**3, absorption_area * 0.3048**2, air=air_with(speed_of_sound)
    )
    assert np.max(np.abs(got - item["rt_s"])) <= 0.005


def test_schroeder_frequency_of_the_textbook_room():
    # Kuttruff, printed rounded to 140 Hz
    item = EXAMPLES["schroeder"]
    assert schroeder_frequency(item["volume_m3"], item["rt_s"]) == pytest.approx(item["f_hz_printed"], abs=5)


def test_room_constant_of_the_textbook_room():
    item = EXAMPLES["room_constant"]
    assert float(room_constant(item["area_m2"], item["alpha"])) == pytest.approx(item["R_m2"])
