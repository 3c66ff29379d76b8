"""Every table loads, every row says where it is from, and nothing unsourced looks sure."""

import csv
import dataclasses
import math
import re
import subprocess
import sys
from importlib.resources import files
from pathlib import Path

import pytest

from hushwright.errors import InvalidInput
from hushwright.library.catalogue import cells, columns
from hushwright.library.library import plain
from hushwright.library.read import read_library
from hushwright.library.records import (
    KINDS,
    Blanket,
    DampingLayer,
    Glass,
    OutdoorSituation,
    RoomSource,
    Sheet,
    Source,
    Spectrum,
    Spread,
    kind_of,
)
from hushwright.library.reference import reference_page
from hushwright.library.rows import declared_columns, read_spread, record_from_row

LIBRARY = read_library()
ROOT = Path(__file__).parents[2]
EVERY = [pytest.param(record, id=f"{kind}-{record.name}") for kind in KINDS for record in LIBRARY.rows(kind)]
SPECTRA = [each for each in EVERY if isinstance(each.values[0], Spectrum)]


@pytest.mark.parametrize("record", EVERY)
def test_a_record_has_a_source_and_cites_fields_it_has(record):
    assert record.source.text
    assert record.source.found_or_memory in ("found", "memory", "computed", "typical")
    declared = {field.name for field in dataclasses.fields(record)}
    assert {field for field, _ in record.cited} <= declared
    assert hash(record) == hash(dataclasses.replace(record))


@pytest.mark.parametrize("record", EVERY)
def test_what_is_typical_names_no_published_work_and_the_other_way_round(record):
    unsourced = ("common practice, no source", "unsourced: invented in the spirit of common practice")
    assert (record.source.text in unsourced) == (record.source.found_or_memory == "typical")
    assert not (record.cited and record.source.found_or_memory == "typical")


@pytest.mark.parametrize("record", SPECTRA)
def test_an_unsourced_spectrum_carries_at_least_five_decibels(record):
    assert record.standard_uncertainty >= 5 or record.source.found_or_memory != "typical"


def test_an_unsourced_spectrum_that_looks_sure_is_refused():
    with pytest.raises(InvalidInput, match=r"4\.9 dB"):
        OutdoorSituation(
            name="x", source=Source("ear"), width="octave", frequency=(63.0,), level=(60.0,),
            standard_uncertainty=4.9, from_where="all round",
        )  # fmt: skip


def test_a_spectrum_with_a_level_too_few_is_refused():
    with pytest.raises(InvalidInput, match="2 frequencies and 1 levels"):
        OutdoorSituation(
            name="x", source=Source("ear"), width="octave", frequency=(63.0, 125.0), level=(60.0,),
            standard_uncertainty=5, from_where="all round",
        )  # fmt: skip


@pytest.mark.parametrize("kind", KINDS)
def test_no_name_or_alias_means_two_records(kind):
    typed = [plain(word) for record in LIBRARY.rows(kind) for word in (record.name, *record.aliases)]
    assert [word for word in typed if typed.count(word) > 1] == []


@pytest.mark.parametrize("kind", KINDS)
def test_a_kind_has_a_table_and_a_list(kind):
    assert LIBRARY.rows(kind)
    assert kind_of(KINDS[kind].record).word == kind
    for record in LIBRARY.rows(kind):
        assert len(cells(kind, record)) == len(columns(kind))


@pytest.mark.parametrize("word", [word for word, kind in KINDS.items() if kind.table.endswith(".csv")])
def test_columns_of_a_table_are_the_declared_ones_with_their_units(word):
    text = (files("hushwright.library") / "tables" / KINDS[word].table).read_text(encoding="utf-8")
    common = ["source", "edition", "page", "found_or_memory", "cited", "note"]
    head = next(csv.reader(text.splitlines()))
    assert head == ["name", "aliases", *declared_columns(KINDS[word].record), *common]


@pytest.mark.parametrize("kind", KINDS)
def test_a_list_is_in_one_system_of_units(kind):
    metric = re.compile(r"\b(mm|m|kg|kg/m2|kg/m3|N|N/mm|MPa|GPa|mm/h|m/s|°C|K)\b")
    for column in columns(kind, "us"):
        assert not metric.fullmatch(column.shown_unit)
        assert "°C" not in column.title
    for record in LIBRARY.rows(kind):
        assert len(cells(kind, record, "us")) == len(columns(kind, "us"))


def test_a_pound_is_a_pound_and_a_limit_says_its_unit():
    steel = LIBRARY.find("sheet", "steel")
    assert cells("sheet", steel, "us")[0].startswith("490 ")  # 7850 kg/m3
    clearance = LIBRARY.find("limit", "headroom clearance")
    assert "20 (10–50) mm" in cells("limit", clearance)
    assert "0.787 (0.394–1.97) in" in cells("limit", clearance, "us")
    pad = LIBRARY.find("damping", "bitumen pad")
    assert "10:50, 100:71.6, 1000:95" in cells("damping", pad, "us")


def test_a_row_without_a_source_cannot_load():
    row = {"name": "board", "density [kg/m3]": "700", "youngs_modulus [GPa]": "9", "poisson [-]": "0.3"}
    row |= {"loss_factor [-]": "0.02", "found_or_memory": "typical"}
    with pytest.raises(InvalidInput, match=r"sheets\.csv: board: a record without a source"):
        record_from_row(KINDS["sheet"], row)
    assert record_from_row(KINDS["sheet"], row | {"source": "scales"}).name == "board"
    with pytest.raises(InvalidInput, match="rumour"):
        record_from_row(KINDS["sheet"], row | {"source": "scales", "found_or_memory": "rumour"})


@pytest.mark.parametrize(
    ("column", "cell", "said"),
    [
        ("density [kg/m3]", "heavy", "heavy"),
        ("density [kg/m3]", "", "is empty"),
        ("density [kg/m3]", "700 [710..760]", "outside its own range"),
        ("density [kg/m3]", "700 [650-760]", r"\[low..high\]"),
        ("density [kg/m3]", "0.7", "density is 0.7"),
        ("poisson [-]", "0.6", "poisson is 0.6"),
        ("colour", "blue", "unknown column 'colour'"),
    ],
)
def test_a_cell_that_cannot_be_is_refused_with_table_row_and_value(column, cell, said):
    row = {"name": "board", "source": "scales", "found_or_memory": "typical"}
    row |= {"density [kg/m3]": "700", "youngs_modulus [GPa]": "9", "poisson [-]": "0.3", "loss_factor [-]": "0.02"}
    with pytest.raises(InvalidInput, match=said) as caught:
        record_from_row(KINDS["sheet"], row | {column: cell})
    assert "sheets.csv: board" in str(caught.value)


def test_a_table_value_keeps_its_digits_in_si():
    assert read_spread("0.9 [0.7..1]", 1e-3) == Spread(0.0009, 0.0007, 0.001)
    assert LIBRARY.find("sheet", "birch plywood").stock_thickness[1] == 0.0065


def test_a_range_is_rectangular():
    assert Spread(1.0, 0.0, 12**0.5).standard_uncertainty == pytest.approx(1.0)
    assert Spread.point(3.0).standard_uncertainty == 0.0


def test_a_record_says_which_of_its_values_is_from_where():
    birch = LIBRARY.find(Sheet, "birch plywood")
    assert "SOL-13" in birch.origin("density")
    assert birch.origin("stock_thickness") == "common practice, no source"
    assert birch.spread("density") == birch.density
    with pytest.raises(InvalidInput, match="colour"):
        birch.spread("colour")


def test_damping_is_best_at_its_temperature_and_half_as_good_a_half_width_away():
    pad = LIBRARY.find(DampingLayer, "damping pad")
    peak = pad.peak_temperature_at(100.0)
    assert pad.loss_factor_at(peak) == pytest.approx(pad.loss_factor.value)
    assert pad.loss_factor_at(peak - pad.half_width.value) == pytest.approx(pad.loss_factor.value / 2)
    assert 0.0 < pad.loss_factor_at(-273.0) < pad.loss_factor_at(-10.0) < pad.loss_factor_at(peak)


def test_the_peak_lies_warmer_at_higher_frequency_also_beyond_the_table():
    for pad in LIBRARY.rows("damping"):
        peaks = [pad.peak_temperature_at(f) for f in (1.0, 10.0, 31.6, 100.0, 316.0, 1000.0, 5000.0)]
        assert peaks == sorted(peaks)
        assert pad.peak_temperature_at(100.0) == pytest.approx(dict(pad.peak_temperature)[100.0])
    with pytest.raises(InvalidInput, match=r"0\.0 Hz"):
        pad.peak_temperature_at(0.0)


def test_laminated_glass_is_two_equal_panes_beside_its_interlayer():
    glass = LIBRARY.find(Glass, "laminated glass")
    first, second = glass.pane_thicknesses(0.01076)
    assert first == second == pytest.approx(0.005)
    assert LIBRARY.find(Glass, "float glass").pane_thicknesses(0.006) == (0.006,)
    with pytest.raises(InvalidInput, match=r"0\.0005"):
        glass.pane_thicknesses(0.0005)


@pytest.mark.parametrize("record", LIBRARY.rows("glass"), ids=lambda record: record.name)
def test_an_interlayer_is_a_core_of_the_library(record):
    assert (record.interlayer == "") == (record.interlayer_thickness is None)
    if record.interlayer:
        assert LIBRARY.find("core", record.interlayer)


@pytest.mark.parametrize("record", LIBRARY.rows("covering"), ids=lambda record: record.name)
def test_the_face_of_a_covering_is_an_absorption_of_the_library(record):
    assert LIBRARY.find("absorption", record.absorption).per == "area"


def test_a_foam_twice_as_thick_is_half_as_stiff():
    foam = LIBRARY.find("foam", "PE foam")
    assert foam.dynamic_stiffness(0.010).value == pytest.approx(foam.dynamic_stiffness(0.005).value / 2)
    # Hopkins Table A3: 115 MN/m3 at 5 mm.
    assert foam.dynamic_stiffness(0.005).value == pytest.approx(115e6)
    with pytest.raises(InvalidInput, match=r"0\.0 m"):
        foam.dynamic_stiffness(0.0)


def test_sound_power_follows_from_the_level_in_front_and_the_directivity():
    voice = LIBRARY.find(RoomSource, "voice")
    difference = voice.sound_power_level[0] - voice.level[0]
    assert difference == pytest.approx(10.99 - voice.directivity_index.value, abs=0.01)


@pytest.mark.parametrize("record", LIBRARY.rows("blanket"), ids=lambda record: record.name)
def test_a_blanket_is_a_porous_medium(record):
    assert isinstance(record, Blanket)
    if record.viscous_length is not None:
        assert record.thermal_length.value >= record.viscous_length.value
    if record.flow_resistivity_along is not None:
        assert record.flow_resistivity_along.value <= record.flow_resistivity.value


@pytest.mark.parametrize("record", LIBRARY.rows("mount"), ids=lambda record: record.name)
def test_a_mount_bottoms_beyond_its_largest_load(record):
    assert record.lowest_load.value < record.highest_load.value
    assert (
        record.highest_load.value / record.static_stiffness.value < record.free_travel.value < record.free_height.value
    )
    assert record.shear_stiffness.value < record.static_stiffness.value


def test_the_words_that_build_files_default_to_are_there():
    for kind, name in (
        ("sheet", "steel"), ("sheet", "spruce"), ("room_source", "pink noise"), ("room_source", "singing voice"),
        ("body", "long high roof, rear drive"), ("criterion", "recording"), ("criterion", "voice"),
        ("criterion", "interviews"), ("criterion", "hearing tests"), ("criterion", "broadcast"),
    ):  # fmt: skip
        assert LIBRARY.find(kind, name)


def test_the_reference_page_is_up_to_date():
    page = ROOT / "docs" / "reference" / "library.md"
    stale = "stale: run `python -m hushwright.library.reference --write`"
    assert page.read_text(encoding="utf-8") == reference_page(), stale


def test_every_record_is_on_the_reference_page():
    page = reference_page()
    assert [record.values[0].name for record in EVERY if record.values[0].name not in page] == []


def test_no_mark_of_a_maker_stands_in_the_tables():
    # Signs by which makers mark names: ®, ™, and words in capitals beyond the trade's abbreviations.
    trade = {
        "MDF", "OSB", "HDF", "GRP", "PMMA", "PC", "PVC", "HDPE", "PVB", "PE", "XPE", "XLPE", "EPS", "XPS", "PIR",
        "PUR", "PU", "PET", "EPDM", "IRHD", "ISO", "EN", "ANSI", "NC", "NR", "WHO", "EU", "EBU", "ITU", "CIBSE",
        "NIOSH", "OSHA", "FMVSS", "UN", "UK", "US", "AU",
    }  # fmt: skip
    for kind in KINDS.values():
        text = (files("hushwright.library") / "tables" / kind.table).read_text(encoding="utf-8")
        assert not re.search("[®™©]", text)
        for record in LIBRARY.rows(kind.word):
            capitals = set(re.findall(r"\b[A-Z]{2,}\b", f"{record.name} {' '.join(record.aliases)}"))
            assert capitals <= trade, record.name


def test_reading_the_whole_library_is_quick_and_asks_for_nothing_heavy():
    code = (
        "import sys, time; from hushwright.library.read import read_library;"
        "from hushwright.library.records import KINDS;"
        "start = time.perf_counter(); [read_library().rows(kind) for kind in KINDS];"
        "took = time.perf_counter() - start;"
        "heavy = [name for name in ('numpy', 'scipy', 'pydantic', 'ruamel.yaml') if name in sys.modules];"
        "print(took, heavy)"
    )
    done = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True)
    took, heavy = done.stdout.split(" ", 1)
    assert heavy.strip() == "[]"
    assert float(took) < 0.3  # aim 0.03 s; ten times that only fails when something is wrong


STATED_TOTALS = [each for each in SPECTRA if re.match(r"about \d+ dB\(A\)", each.values[0].note)]


@pytest.mark.parametrize("record", STATED_TOTALS)
def test_the_total_in_a_note_is_that_of_the_bands(record):
    weighting = {63: -26.2, 125: -16.1, 250: -8.6, 500: -3.2, 1000: 0.0, 2000: 1.2, 4000: 1.0, 8000: -1.1}
    bands = zip(record.frequency, record.level, strict=True)
    total = 10 * math.log10(sum(10 ** ((level + weighting[int(band)]) / 10) for band, level in bands))
    assert total == pytest.approx(int(re.findall(r"\d+", record.note)[0]), abs=1.0)
