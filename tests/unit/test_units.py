"""What a workshop writes is read as meant, and what is not understood is refused with an example."""

import math

import pytest

from hushwright.errors import InvalidInput
from hushwright.units import KINDS, UnreadableQuantity, format_quantity, parse_difference, parse_quantity

READ = [
    ("1 1/2 in", "length", 0.0381),
    ("1-1/2 in", "length", 0.0381),
    ("1½ in", "length", 0.0381),
    ("3/4 in", "length", 0.01905),
    ("6 ft 3 in", "length", 1.905),
    ("6ft3in", "length", 1.905),
    ("6'3\"", "length", 1.905),
    ("6′ 3½″", "length", 1.9177),
    ("6’3”", "length", 1.905),
    ("6 ft", "length", 1.8288),
    ("-6 ft 3 in", "length", -1.905),
    ("−12 mm", "length", -0.012),
    ("1,83 m", "length", 1.83),
    ("0,125 m", "length", 0.125),
    ("1.830 m", "length", 1.83),
    ("1e3 mm", "length", 1.0),
    (".5 in", "length", 0.0127),
    ("93\u00a0mm", "length", 0.093),
    ("93\u202fmm", "length", 0.093),
    ("93mm", "length", 0.093),
    ("  93   mm ", "length", 0.093),
    ("5 sq ft", "area", 0.4645152),
    ("5 sq. ft.", "area", 0.4645152),
    ("5 ft²", "area", 0.4645152),
    ("5 m^2", "area", 5.0),
    ("40 l", "volume", 0.04),
    ("12 lb 4 oz", "mass", 12.25 * 0.45359237),
    ("43 KG", "mass", 43.0),
    ("12 lb/ft2", "surface_density", 12 * 0.45359237 / 0.3048**2),
    ("12 lb / ft²", "surface_density", 12 * 0.45359237 / 0.3048**2),
    ("1 psf", "surface_density", 0.45359237 / 0.3048**2),
    ("5 kg/m²", "surface_density", 5.0),
    ("65 dB(A)", "level_a", 65.0),
    ("65 dB (A)", "level_a", 65.0),
    ("65 dBA", "level_a", 65.0),
    ("-3.5 dB", "level", -3.5),
    ("20 °C", "temperature", 20.0),
    ("20 ℃", "temperature", 20.0),
    ("68 °F", "temperature", 20.0),
    ("-40 °F", "temperature", -40.0),
    ("4 h 30 min", "time", 16200.0),
    ("4h30min", "time", 16200.0),
    ("2 days 3 h", "time", 183600.0),
    ("90 s", "time", 90.0),
    ("365 day", "time", 365 * 86400.0),
    ("230 Ah", "charge", 230.0),
    ("4.9 kWh", "energy", 4.9 * 3.6e6),
    ("2 kVA", "apparent_power", 2000.0),
    ("75 %", "share", 0.75),
    ("75%", "share", 0.75),
    ("0.75", "share", 0.75),
    ("12", "count", 12.0),
    ("60 l/s", "volume_flow", 0.06),
    ("180 m³/h", "volume_flow", 0.05),
    ("130 N/mm", "stiffness", 130e3),
    ("10 kPa·s/m²", "flow_resistivity", 1e4),
    ("10 kPa s/m2", "flow_resistivity", 1e4),
    ("10 kN·s/m⁴", "flow_resistivity", 1e4),
    ("10 MN/m³", "dynamic_stiffness", 1e7),
    ("210 GPa", "modulus", 210e9),
    ("6.5 N/mm²", "modulus", 6.5e6),
    ("36 mm/h", "rain_rate", 1e-5),
    ("30°", "angle", math.pi / 6),
    ("54° N", "latitude", math.radians(54)),
    ("33.9 °S", "latitude", math.radians(-33.9)),
]


@pytest.mark.parametrize(("text", "kind", "value"), READ)
def test_a_quantity_is_read_as_meant(text, kind, value):
    got = parse_quantity(text, kind)
    assert got.value == pytest.approx(value, rel=1e-12)
    assert got.low == got.high == got.value


@pytest.mark.parametrize(
    ("text", "kind", "low", "high"),
    [
        ("85..100 mm", "length", 0.085, 0.1),
        ("85 mm .. 100 mm", "length", 0.085, 0.1),
        ("1/2..3/4 in", "length", 0.0127, 0.01905),
        ("6'2\"..6'3\"", "length", 1.8796, 1.905),
        ("10..20 °C", "temperature", 10, 20),
        ("-5..5 mm", "length", -0.005, 0.005),
        ("50..75 %", "share", 0.5, 0.75),
        ("4..5", "count", 4, 5),
    ],
)
def test_an_interval_is_read_with_both_ends(text, kind, low, high):
    got = parse_quantity(text, kind)
    assert (got.low, got.high) == pytest.approx((low, high), rel=1e-12)
    assert got.value == pytest.approx((low + high) / 2)


REFUSED = [
    ("1,830 mm", "length", "ambiguous-number", "1830 or 1.830"),
    ("12,345,678 mm", "length", "unreadable-quantity", "grouped"),
    ("1,830.5 mm", "length", "unreadable-quantity", "grouped"),
    ("1 830 mm", "length", "unreadable-quantity", "without a space"),
    ("93", "length", "bare-number", "no unit"),
    ("60", "level", "bare-number", "60 dB"),
    ("93 MM", "length", "wrong-unit", "capitals"),
    ("5 w", "power", "wrong-unit", "capitals"),
    ("93 kg", "length", "wrong-unit", "unit of mass"),
    ("93 furlongs", "length", "wrong-unit", "furlongs"),
    ("82 dB", "level_a", "wrong-unit", "dB(A)"),
    ("85-100 mm", "length", "unreadable-quantity", "two dots"),
    ("93 ± 2 mm", "length", "unreadable-quantity", "plus_minus"),
    ("100..85 mm", "length", "unreadable-quantity", "greater"),
    ("85..", "length", "unreadable-quantity", "two ends"),
    ("85...100 mm", "length", "unreadable-quantity", "two ends"),
    ("1..2..3 mm", "length", "unreadable-quantity", "two ends"),
    ("6 ft 13 in", "length", "unreadable-quantity", "not less than one ft"),
    ("6 in 3 ft", "length", "unreadable-quantity", "follow"),
    ("1.5 ft 3 in", "length", "unreadable-quantity", "follow"),
    ("6 ft 3", "length", "unreadable-quantity", "no unit"),
    ("2 h 75 min", "time", "unreadable-quantity", "not less"),
    ("1/0 in", "length", "unreadable-quantity", "zero"),
    ("1e999 mm", "length", "unreadable-quantity", "too great"),
    ("nan mm", "length", "unreadable-quantity", "number"),
    ("inf mm", "length", "unreadable-quantity", "number"),
    ("", "length", "unreadable-quantity", "no value"),
    ("mm", "length", "unreadable-quantity", "number"),
    ("about 93 mm", "length", "unreadable-quantity", "number"),
    ("120 %", "share", "out-of-range", "share"),
    ("75", "share", "out-of-range", "75 %"),
    ("12 kg", "count", "wrong-unit", "unit of mass"),
    ("٩٣ mm", "length", "unreadable-quantity", "number"),
]


@pytest.mark.parametrize(("text", "kind", "reference", "says"), REFUSED)
def test_what_is_not_understood_is_refused_with_an_example(text, kind, reference, says):
    with pytest.raises(UnreadableQuantity) as refused:
        parse_quantity(text, kind)
    assert refused.value.reference == reference
    assert says in str(refused.value)
    assert refused.value.hint


def test_declared_bare_lengths_are_read_in_their_unit_and_nothing_else_is():
    assert parse_quantity("93", "length", bare_length="mm").value == pytest.approx(0.093)
    assert parse_quantity("72", "length", bare_length="in").value == pytest.approx(1.8288)
    assert parse_quantity("85..100", "length", bare_length="mm").low == pytest.approx(0.085)
    with pytest.raises(UnreadableQuantity):
        parse_quantity("93", "mass", bare_length="mm")


def test_millimetres_keep_their_exact_value():
    assert [parse_quantity(f"{number} mm", "length").value for number in (93, 350, 1905)] == [0.093, 0.35, 1.905]


@pytest.mark.parametrize("kind", KINDS)
def test_each_kind_reads_its_own_examples(kind):
    for text in KINDS[kind].example.replace(" or ", ", ").split(", "):
        assert math.isfinite(parse_quantity(text, kind).value)


def test_a_difference_of_temperatures_has_no_zero_point():
    assert parse_difference("9 °F", "temperature") == pytest.approx(5.0)
    assert parse_difference("2 K", "temperature") == pytest.approx(2.0)
    assert parse_difference("2 mm", "length") == pytest.approx(0.002)


@pytest.mark.parametrize(
    ("value", "kind", "metric", "us"),
    [
        (1.905, "length", "1905 mm", "6 ft 3 in"),
        (0.0381, "length", "38.1 mm", "1 1/2 in"),
        (0.0009, "length", "0.9 mm", "0.035 in"),
        (12.0, "length", "12 m", "39 ft 4 7/16 in"),
        (-1.45, "length", "-1450 mm", "-4 ft 9 1/16 in"),
        (0.0, "length", "0 mm", "0 in"),
        (444.0, "mass", "444 kg", "978.9 lb"),
        (5.0, "surface_density", "5 kg/m²", "1.024 lb/ft²"),
        (20.0, "temperature", "20 °C", "68 °F"),
        (6.5, "volume", "6.5 m³", "229.55 ft³"),
        (0.06, "volume_flow", "60 l/s", "127.1 cfm"),
        (35.0, "level_a", "35 dB(A)", "35 dB(A)"),
        (0.75, "share", "75 %", "75 %"),
        (math.radians(-33.9), "latitude", "33.9 °S", "33.9 °S"),
        (12.0, "count", "12", "12"),
        (math.nan, "mass", "unknown", "unknown"),
    ],
)
def test_a_value_is_shown_in_either_system(value, kind, metric, us):
    assert format_quantity(value, kind, "metric") == metric
    assert format_quantity(value, kind, "us") == us


def test_infinity_is_not_shown_as_a_quantity():
    with pytest.raises(InvalidInput, match="inf"):
        format_quantity(math.inf, "length")
