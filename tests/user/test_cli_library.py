"""The library on the terminal."""

import re

import pytest

from hushwright.cli.main import run
from hushwright.library.read import read_library
from hushwright.library.records import KINDS
from hushwright.report.units_out import shown_name
from hushwright.units import System

METRIC = re.compile(r"\d\s?(?:mm|cm|m|kg|kg/m[²³]|m[²³]|N/mm|N/m|kPa|Pa|MPa|GPa|µm|°C|mm/h)(?![\w/²³])")


def text_of(capsys: pytest.CaptureFixture[str], *arguments: str) -> str:
    assert run(list(arguments)) == 0
    return capsys.readouterr().out


def test_kinds_are_listed_with_their_numbers(capsys: pytest.CaptureFixture[str]) -> None:
    text = text_of(capsys, "materials")
    for word, kind in KINDS.items():
        assert re.search(rf"^ +{word} +{re.escape(kind.plural)} +{len(read_library().rows(word))} record", text, re.M)


@pytest.mark.parametrize("kind", KINDS)
def test_every_record_is_in_the_list_of_its_kind_and_can_be_shown(
    kind: str, capsys: pytest.CaptureFixture[str]
) -> None:
    systems: tuple[System, ...] = ("metric", "us")
    for units in systems:
        listed = text_of(capsys, "materials", kind, "--units", units)
        records = read_library().rows(kind)
        assert all(shown_name(record.name, units) in listed for record in records if len(record.name) <= 44)
        assert max(len(line) for line in listed.splitlines()) <= 100
        shown = text_of(capsys, "materials", kind, records[0].name, "--units", units)
        assert records[0].source.text.split(",")[0].split(";")[0] in shown.replace("\n", " ")
        assert max(len(line) for line in shown.splitlines()) <= 100


def test_a_record_tells_found_from_memory_and_its_range(capsys: pytest.CaptureFixture[str]) -> None:
    text = text_of(capsys, "materials", "sheet", "ply")
    assert "(found)" in text
    assert "640 kg/m³ to 760 kg/m³" in text
    assert "(memory)" in text_of(capsys, "materials", "sheet", "bamboo", "scrimber")


def test_us_units_leave_no_metric_number(capsys: pytest.CaptureFixture[str]) -> None:
    for kind, name in (("sheet", "MDF"), ("body", "long high roof, rear drive"), ("blanket", "rock wool 40")):
        text = text_of(capsys, "materials", kind, name, "--units", "us")
        values = text.split("also called")[0].split("\n", 1)[1]
        assert not METRIC.findall(values)


def test_a_name_without_metric_units_finds_the_same_record() -> None:
    library = read_library()
    for kind in KINDS:
        for record in library.rows(kind):
            assert library.find(kind, shown_name(record.name, "us")) == record


def test_an_unknown_word_gets_near_ones(capsys: pytest.CaptureFixture[str]) -> None:
    assert run(["materials", "shet"]) == 2
    assert "sheet" in capsys.readouterr().err
    assert run(["materials", "sheet", "birch plywod"]) == 2
    assert "birch plywood" in capsys.readouterr().err
    assert run(["materials", "blanket", "birch plywood"]) == 2
    assert "among: sheet" in capsys.readouterr().err
    assert run(["materials", "limp-barriers"]) in (0, 2)
