"""The list of words can be read by a program, and holds what the design calls the trade's and ours."""

from pathlib import Path

WORDS = Path(__file__).parents[2] / "docs" / "decisions" / "words.md"


def rows() -> list[tuple[str, str, str]]:
    lines = [line for line in WORDS.read_text(encoding="utf-8").splitlines() if line.startswith("| ")]
    cells = [tuple(cell.strip() for cell in line.strip("|").split("|")) for line in lines[2:]]
    return [(label, kind, note) for label, kind, note in cells]


def test_every_label_is_of_the_trade_or_ours_and_says_why() -> None:
    assert {kind for _label, kind, _note in rows()} == {"trade", "ours"}
    assert all(label and note for label, _kind, note in rows())


def test_a_label_is_listed_once_and_in_order() -> None:
    labels = [label for label, _kind, _note in rows()]
    assert labels == sorted(set(labels), key=str.lower)


def test_the_words_of_the_design_are_listed() -> None:
    kinds = {label: kind for label, kind, _note in rows()}
    trade = "quiet room, control room, floating floor, mount, leaf, build-up, baffle box, seal, sight line, headroom, "
    trade += "kerb mass, axle load, bank, converter, shore power, take, background, isolation"
    ours = "verdict, margin, weakest path, what to change first, first look, promise sheet, hold point, handover book"
    assert {word for word in trade.split(", ") if kinds.get(word) != "trade"} == set()
    assert {word for word in ours.split(", ") if word not in kinds} == set()
