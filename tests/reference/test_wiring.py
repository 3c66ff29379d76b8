"""Conductors, voltage drop and fuses against printed tables, and one wiring by hand."""

import csv
import math
import tomllib
from collections.abc import Iterator
from pathlib import Path

import pytest
from tests.coupled import DEMO, build_of, core_of
from tests.unit.wiring_cases import WIRED

from hushwright.evaluation.wiring.drops import drop_legs
from hushwright.physics.electrical.conductors import (
    CIRCULAR_MIL,
    ampacity,
    conductor_of_area,
    conductor_of_gauge,
    conductors,
    resistance_at,
)
from hushwright.physics.electrical.fault import bank_short_circuit
from hushwright.physics.electrical.fuses import first_fuse_distance, fuse_limit, interrupt_rating
from hushwright.physics.electrical.voltage_drop import needed_area, thinnest_for_drop

TABLES = Path(__file__).parent / "tables"
FOOT = 0.3048


def rows(name: str) -> list[dict[str, str]]:
    with (TABLES / name).open(encoding="utf-8", newline="") as file:
        return list(csv.DictReader(file))


def example(name: str) -> dict[str, dict[str, float | str]]:
    with (TABLES / "worked_examples.toml").open("rb") as file:
        return next(each for each in tomllib.load(file)["example"] if each["id"] == name)


def columns(row: dict[str, str]) -> Iterator[tuple[float, float]]:
    """Temperature of the insulation and printed current of every column of a row."""
    for key, value in row.items():
        if key.startswith("A_") and value:
            yield float(key.removeprefix("A_").removesuffix("C").split("_")[0]), float(value)


@pytest.mark.parametrize("row", rows("01_ampacity_33cfr183_425_outside_engine_space.csv"), ids=lambda row: row["awg"])
def test_single_conductors_carry_what_33_cfr_183_425_prints(row: dict[str, str]) -> None:
    """33 CFR 183.425 Table 5, found; ABYC E-11 prints the same grid."""
    for insulation, current in columns(row):
        assert ampacity(conductor_of_gauge(row["awg"]), insulation, "ABYC E-11").current == current


@pytest.mark.parametrize("row", rows("01_ampacity_105C_in_engine_space.csv"), ids=lambda row: row["awg"])
def test_engine_spaces_take_off_what_a_second_copy_prints(row: dict[str, str]) -> None:
    """A printed copy of the same law with 0.85 worked out: it rounds, mostly down, to whole amperes; found."""
    found = ampacity(conductor_of_gauge(row["awg"]), 105.0, "ABYC E-11", engine_space=True).current
    assert found == pytest.approx(float(row["A_inside_engine_space_105C"]), abs=0.751)


@pytest.mark.parametrize("row", rows("01_ampacity_nec_310_16_copper.csv"), ids=lambda row: row["awg"])
def test_mains_conductors_carry_what_nfpa_70_prints(row: dict[str, str]) -> None:
    """NFPA 70 Table 310.16, found in two copies; 14 to 10 AWG are capped by 240.4(D), found."""
    if row["awg"].endswith("kcmil"):
        return
    cap = {"14": 15.0, "12": 20.0, "10": 30.0}.get(row["awg"], math.inf)
    for insulation, current in columns(row):
        found = ampacity(conductor_of_gauge(row["awg"]), insulation, "NEC 551", alternating=True)
        assert found.current == min(current, cap)


@pytest.mark.parametrize("row", rows("01_ampacity_iso10133_mm2.csv"), ids=lambda row: row["mm2"])
def test_metric_conductors_carry_what_iso_10133_is_remembered_to_print_and_say_so(row: dict[str, str]) -> None:
    """ISO 10133 Table A.1, memory, middling confidence: never enough for a verdict."""
    for insulation, current in columns(row):
        found = ampacity(conductor_of_area(float(row["mm2"]) * 1e-6), insulation, "ISO 13297")
        assert found.current == current
        assert any("memory" in note for note in found.notes)


FACTORS = (
    ("bundling_dc_marine_US", "3 current-carrying conductors", "ABYC E-11", 3),
    ("bundling_dc_marine_US", "4-6 current-carrying conductors", "ABYC E-11", 6),
    ("bundling_dc_marine_US", "7-24 current-carrying conductors", "ABYC E-11", 24),
    ("bundling_dc_marine_US", "25 and more current-carrying conductors", "ABYC E-11", 25),
    ("bundling_ISO_small_craft", "4-6 conductors bundled", "ISO 13297", 4),
    ("bundling_ISO_small_craft", "7-24 conductors bundled", "ISO 13297", 7),
    ("nec_conductor_count", "4-6 current-carrying conductors", "NEC 551", 5),
    ("nec_conductor_count", "10-20 current-carrying conductors", "NEC 551", 20),
)


@pytest.mark.parametrize(("group", "condition", "rules", "bundled"), FACTORS)
def test_bundles_take_off_the_printed_factor(group: str, condition: str, rules, bundled: int) -> None:
    """33 CFR 183.425 note 2 (memory, high), ISO 13297 (memory, middling), NFPA 70 Table 310.15(C)(1) (found)."""
    printed = next(
        float(row["factor"]) for row in rows("01_correction_factors.csv")
        if (row["group"], row["condition"]) == (group, condition)
    )  # fmt: skip
    wire = conductor_of_area(35e-6) if rules == "ISO 13297" else conductor_of_gauge("2")
    alone, among = (
        ampacity(wire, 75.0, rules, bundled=number, alternating=True).current or 0.0 for number in (2, bundled)
    )
    assert among / alone == pytest.approx(printed)


def test_areas_and_resistances_are_those_printed() -> None:
    """Tables of American wire gauge with the SAE J1127/J1128 areas, and IEC 60228 class 5; all found."""
    printed = {row["awg"]: row for row in rows("01_awg_geometry_resistance.csv")}
    for wire in conductors("AWG"):
        row = printed[wire.size]
        assert wire.conductor_area * 1e6 == pytest.approx(float(row["area_mm2"]))
        assert wire.resistance_per_length * 1000.0 == pytest.approx(float(row["ohm_per_km_20C_table"]), rel=0.005)
        if row["sae_min_CM"]:
            assert wire.least_area / CIRCULAR_MIL == pytest.approx(float(row["sae_min_CM"]))
    flexible = {float(row["mm2"]): float(row["class5_6_plain"]) for row in rows("01_iec60228_max_resistance.csv")}
    for wire in conductors("mm2"):
        assert wire.resistance_per_length * 1000.0 == pytest.approx(flexible[float(wire.size)])


@pytest.mark.parametrize("row", rows("01_copper_resistance_temp_correction.csv"), ids=lambda row: row["t_C"])
def test_copper_grows_with_temperature_as_iec_60228_corrects_it(row: dict[str, str]) -> None:
    """The printed factors use 0.004 per kelvin, the law here 0.00393: they part by 0.3 % at 100 °C; found."""
    assert 1.0 / resistance_at(1.0, float(row["t_C"])) == pytest.approx(float(row["K_to_20C"]), abs=0.0045)


DROPS = rows("01_voltage_drop_12V_3pct_published_vs_formula.csv")


def gauge_for(row: dict[str, str], *, sae: bool) -> str:
    area = needed_area(float(row["amps"]), float(row["loop_length_ft"]) * FOOT, 0.01 * float(row["drop_pct"])
                       * float(row["volts"]))  # fmt: skip
    return next(wire.size for wire in conductors("AWG")
                if (wire.least_area if sae else wire.conductor_area) >= area * 0.9999)  # fmt: skip


@pytest.mark.parametrize("row", DROPS, ids=lambda row: f"{row['copy']}-{row['loop_length_ft']}ft-{row['amps']}A")
def test_drop_tables_follow_the_constant_with_sae_or_with_nominal_areas(row: dict[str, str]) -> None:
    """Two printed 12 V, 3 % tables: each row follows 10.75 Ω·CM/ft with one of the two areas, and says which."""
    assert float(row["CM_needed_K10.75"]) == pytest.approx(
        needed_area(float(row["amps"]), float(row["loop_length_ft"]) * FOOT, 0.36) / CIRCULAR_MIL, abs=0.6
    )
    sae, nominal = (gauge_for(row, sae=each) for each in (True, False))
    if "3" not in (sae, nominal):  # the tables know no 3 AWG
        assert (sae, nominal) == (row["awg_by_formula_SAE_area"], row["awg_by_formula_nominal_area"])
    printed = [wire.size for wire in conductors("AWG")].index(row["awg_printed"])
    sizes = [wire.size for wire in conductors("AWG")]
    assert sizes.index(nominal) <= printed <= max(sizes.index(sae), sizes.index(nominal)) + 1


AREAS = {"copy_A": ("SAE", 50, 47, 52), "copy_B": ("nominal", 80, 87, 91)}
"""Area that a copy used; its rows that follow SAE areas, those that follow nominal areas, all rows."""


@pytest.mark.parametrize("copy", AREAS)
def test_one_copy_used_sae_areas_and_the_other_nominal_ones(copy: str) -> None:
    """Rows that both areas give count for both; one row is neither. The tool takes SAE areas, the safe side."""
    printed = [row for row in DROPS if row["copy"] == copy]
    by_sae = sum(row["awg_printed"] == row["awg_by_formula_SAE_area"] for row in printed)
    by_nominal = sum(row["awg_printed"] == row["awg_by_formula_nominal_area"] for row in printed)
    used, *counts = AREAS[copy]
    assert counts == [by_sae, by_nominal, len(printed)]
    assert (by_sae > by_nominal) == (used == "SAE")


def test_a_pump_eleven_feet_away_takes_ten_gauge_at_three_percent_and_sixteen_at_ten() -> None:
    """Worked example el01, found: nominal areas would pass 12 AWG at 3 %, SAE areas do not."""
    case = example("el01")
    given, printed = case["inputs"], case["outputs"]
    length = float(given["loop_ft"]) / 2.0 * FOOT
    for share, key in ((0.03, "awg_at_3pct"), (0.10, "awg_at_10pct")):
        drop = share * float(given["volts"])
        wire = thinnest_for_drop(float(given["amps"]), length, drop, "ABYC E-11", "AWG")
        assert wire is not None
        assert wire.size == printed[key]


def test_strings_side_by_side_add_their_short_circuits() -> None:
    """Worked example el04, found: six batteries, two in a row, three strings."""
    case = example("el04")
    given = case["inputs"]
    assert (
        bank_short_circuit(float(given["single_A"]), int(given["parallel"])) == case["outputs"]["bank_short_circuit_A"]
    )


def test_rules_of_fuses_are_those_printed() -> None:
    """01_voltage_drop_and_fuse_rules: fu04, fu05, fu06 (memory high, memory high, found), fu07, fu12 to fu15, fu17."""
    printed = {row["id"]: row["value"] for row in rows("01_voltage_drop_and_fuse_rules.csv")}
    near = first_fuse_distance("ABYC E-11", sheathed=False, from_bank=True)
    assert near == pytest.approx(float(printed["fu04"]), abs=0.005)
    assert first_fuse_distance("ISO 13297", sheathed=False, from_bank=True) == float(printed["fu05"])
    assert first_fuse_distance("NEC 551", sheathed=False, from_bank=True) == pytest.approx(float(printed["fu06"]),
                                                                                        abs=5e-4)  # fmt: skip
    for gauge in ("18", "16", "14", "12", "10"):
        limit = fuse_limit(conductor_of_gauge(gauge), None, "NEC 551", alternating=False)
        assert limit == float(printed[f"fu07_{gauge}"])
    for kind, voltage, row in (
        ("bolt-down strip", 32.0, "fu13"),
        ("terminal post", 14.0, "fu14"),
        ("blade", 32.0, "fu15"),
    ):
        found = interrupt_rating(kind, voltage)
        assert found.current == 1000.0 * float(printed[row])
        assert found.notes  # memory: never enough for a verdict
    assert interrupt_rating("blade", 51.2).current is None


def test_the_wiring_of_two_rooms_by_hand() -> None:
    """Main lead of 35 mm² over 1 m behind a bank of 25.6 V and 8 mΩ, in plain numbers; nothing of ours on this side."""
    main = next(each for each in core_of(WIRED).wiring.circuits if each.name == "main")
    # The converter draws 1000 VA / 0.8 at 20 V, the lamps 25.6 W at 25.6 V.
    assert main.current == pytest.approx(1000.0 / 0.8 / 20.0 + 1.0)
    # 35 mm² is rated as 2 AWG (33.6 mm²) at 105 °C: 210 A. Metric sizes: 0.554 Ω/km at 20 °C, at 40 °C 7.86 % more.
    assert main.ampacity == 210.0
    ohms = 0.554e-3 * (1.0 + 0.00393 * 20.0) * 2.0 * 1.0
    assert main.drop == pytest.approx(63.5 * ohms / 25.6, rel=1e-6)
    # Short at its fuse: 8 full cells of 3.4 V. At its far end: nominal voltage, copper at 70 °C.
    assert main.fault == pytest.approx(8 * 3.4 / 0.008)
    far = 25.6 / (0.008 + 2.0 * 0.554e-3 * (1.0 + 0.00393 * 50.0))
    assert main.least_fault == pytest.approx(far, rel=1e-6)
    # Lamps: 0.8 m + 0.5 m down and across to the gland, then 2 m: hypot(0.5, 0.7) + 2.0, and 10 % slack.
    lamps = next(each for each in core_of(WIRED).wiring.circuits if each.name == "lamp_feed")
    assert lamps.length == pytest.approx(1.1 * (math.hypot(0.5, 0.7) + 2.0))
    assert lamps.ampacity == 25.0  # 1.5 mm² as 16 AWG at 105 °C
    total = lamps.drop + main.drop
    assert lamps.drop_from_source == pytest.approx(total)


def test_the_drop_to_the_lamps_of_the_demo_leg_by_leg_by_hand() -> None:
    """01_iec60228_max_resistance, class 5, taken to 40 °C by 0.00393 per kelvin (IEC 60028, memory)."""
    wiring = build_of(DEMO).wiring
    assert wiring is not None
    printed = {row["mm2"]: float(row["class5_6_plain"]) for row in rows("01_iec60228_max_resistance.csv")}
    lead, feed = drop_legs(wiring, "quiet_feed")
    # Up behind the driver and back to the board; up the side, across, along to the lamps: 10 % slack.
    first = 1.1 * (math.hypot(0.5, 0.1, 0.35) + math.hypot(0.5, 0.2))
    second = 1.1 * (math.hypot(0.55, 0.915) + math.hypot(0.8, 0.2) + 2.2)
    warm = 1.0 + 0.00393 * 20.0
    # Lamps 30 W, headphones 30 W, lock and detectors 12 W at 25.6 V; of the bank those, the converter's 2 kVA at 88 %
    # and 21 V, the other lamps' 25 W, and what the fans draw.
    fans = next(each.current for each in wiring.circuits if each.name == "fan_feed")
    current = 72.0 / 25.6
    bank = current + 2000.0 / 0.88 / 21.0 + 25.0 / 25.6 + fans
    by_hand = [(first, printed["70"] * warm, bank), (second, printed["2.5"] * warm, current)]
    for leg, (length, ohms, amperes) in zip((lead, feed), by_hand, strict=True):
        assert leg.length == pytest.approx(length)
        assert (1000.0 * leg.resistance, leg.temperature) == pytest.approx((ohms, 40.0))
        assert leg.current == pytest.approx(amperes)
        assert leg.lost == pytest.approx(2.0 * length * ohms / 1000.0 * amperes)
        assert leg.share == pytest.approx(leg.lost / 25.6)
