"""Limits of safety are those of the tables that they cite, and papers cite rows that exist."""

import csv
import re
from functools import cache
from pathlib import Path

import pytest

from hushwright.library.read import read_library
from hushwright.library.safety import PaperRecord, SafetyLimit

TABLES = Path(__file__).parent / "tables"
LIBRARY = read_library()
LIMITS = [each for each in LIBRARY.rows("safety_limit") if isinstance(each, SafetyLimit)]
PAPERS = [each for each in LIBRARY.rows("paper") if isinstance(each, PaperRecord)]
CONFIDENCE = {"H": "high", "M": "medium", "L": "low"}

PRINTED: dict[str, tuple[str, float]] = {
    # name → text of the printed row that holds the number, factor from it to SI
    "ways out": ("two", 1.0),
    "passing width of a way out": ("610", 1e-3),
    "passing height of a way out": ("432", 1e-3),
    "moves that open a door": ("one", 1.0),
    "carbon dioxide for a short time": ("30000", 1e-6),
    "detector from the wall": ("300", 1e-3),
    "detector below the ceiling": ("150", 1e-3),
    "detector from an appliance": ("1", 1.0),
    "detector near an appliance": ("3", 1.0),
    "alarm level": ("65", 1.0),
    "alarm level for sleepers": ("75", 1.0),
    "alarm over noise": ("15", 1.0),
    "alarm over noise in an octave": ("10", 1.0),
    "alarm over noise in a third octave": ("13", 1.0),
    "highest alarm tone": ("2500", 1.0),
    "intensity of a visual signal": ("15", 1.0),
    "flash rate at least": ("1", 1.0),
    "flash rate at most": ("2", 1.0),
    "noise exposure, EU": ("87", 1.0),
    "noise exposure, NIOSH": ("85", 1.0),
    "noise exposure, OSHA": ("90", 1.0),
    "noise exposure, Canada": ("87", 1.0),
    "noise peak, EU": ("140", 1.0),
    "burning rate, FMVSS 302": ("102", 1e-3 / 60.0),
    "burning rate, UN R118": ("100", 1e-3 / 60.0),
    "depth of linings that count": ("13", 1e-3),
    "warmest bank": ("45", 1.0),
    "coldest bank": ("0", 1.0),
    "residual current": ("30", 1e-3),
}
# One a room, after the sentence of the row, which prints no number.
ONE_A_ROOM = ("smoke alarms in a room", "carbon monoxide alarms in a room", "carbon dioxide alarms in a sealed room")
WORDS = {"two": 2.0, "one": 1.0}


@cache
def table(name: str) -> dict[str, dict[str, str]]:
    with (TABLES / f"{name}.csv").open(encoding="utf-8", newline="") as lines:
        return {row["id"]: row for row in csv.DictReader(lines)}


def row_of(cited: str) -> dict[str, str]:
    name, row = cited.split(":")
    return table(name)[row]


@pytest.mark.parametrize("name", PRINTED)
def test_a_limit_is_the_number_that_its_row_prints(name: str) -> None:
    limit = LIBRARY.find(SafetyLimit, name)
    text, factor = PRINTED[name]
    printed = " ".join(row_of(dict(limit.cited)["value"]).values())
    assert re.search(rf"(?<![\d.]){text}(?![\d.])", printed)
    assert limit.value.value == pytest.approx(WORDS.get(text) or float(text) * factor)


def test_every_cited_limit_is_held_against_its_row() -> None:
    assert {each.name for each in LIMITS if each.cited} == {*PRINTED, *ONE_A_ROOM}


@pytest.mark.parametrize("limit", [each for each in LIMITS if each.cited], ids=lambda each: each.name)
def test_a_limit_is_no_surer_than_its_row(limit: SafetyLimit) -> None:
    row = row_of(dict(limit.cited)["value"])
    assert limit.source.found_or_memory == row["prov"]
    assert limit.confidence == CONFIDENCE[row["conf"][0]]


@pytest.mark.parametrize("paper", PAPERS, ids=lambda each: each.name)
def test_a_paper_is_no_surer_than_its_row(paper: PaperRecord) -> None:
    row = row_of(dict(paper.cited)["sentence"])
    assert paper.source.found_or_memory == row["prov"]
    assert paper.confidence == CONFIDENCE[row["conf"][0]]
    assert paper.name == f"{paper.jurisdiction}, {paper.item}"


def test_what_is_not_sure_says_so_and_what_is_sure_does_not() -> None:
    doubtful = {each.name for each in LIMITS if each.doubt}
    assert doubtful == {"push on a door", "time until found", "bank to the outer skin", "exhaust to intake",
                        "supply cable", "slope of the ground"}  # fmt: skip
    assert "medium confidence" in LIBRARY.find(SafetyLimit, "supply cable").doubt
