"""Tiles compare a question with itself alone, and tell what decided before where another one does now."""

from dataclasses import replace

from hushwright.app import glance
from hushwright.report.quieten import touched_text
from hushwright.search.quiet_steps import Touched
from hushwright.verdicts.verdict import Verdict

TOTAL = Verdict(
    "road-mass-drive", "Mass", "Is the van within its plated mass on the road?", "drive", "mass", 3236.0, 3500.0,
    "at_most", 264.0, 30.0, 1.0, "meets", "plate", "vehicle.plated.total",
)  # fmt: skip
WHEEL = Verdict(
    "wheel-load-drive", "Mass", "Does no wheel carry more than half its axle's plate?", "drive", "share", 0.82, 1.0,
    "at_most", 0.18, 0.02, 1.0, "meets", "practice", "vehicle.plated",
)  # fmt: skip
LEAST = Verdict(
    "mount-least-load-drive", "Mounts", "Does every mount carry enough to isolate?", "drive", "mass", 16.7, 20.0,
    "at_least", -3.3, 1.0, 0.0, "fails", "mount", "mounts.a",
)  # fmt: skip
GAP = Verdict(
    "snubber-clear-drive", "Mounts", "Do the snubbers stay clear in use?", "drive", "length", 0.0026, 0.002,
    "at_least", 0.0006, 0.0001, 1.0, "meets", "gap", "mounts.a.snubber_gap",
)  # fmt: skip
LASTS = Verdict(
    "last-air-record", "Safety", "Does the air last until somebody opens?", "record", "time", 9324.0, 900.0,
    "at_least", 8424.0, 60.0, 1.0, "meets", "", "safety",
)  # fmt: skip


def at(one: Verdict, margin: float, chance: float = 1.0) -> Verdict:
    return replace(one, margin=margin, chance=chance)


def tile(now: tuple[Verdict, ...], before: tuple[Verdict, ...]) -> dict[str, str]:
    return glance.tiles(now, before, "metric")[0]


def test_more_mass_is_worse_whichever_question_decides() -> None:
    was = (at(WHEEL, 0.181), at(TOTAL, 284.0))
    switched = tile((at(TOTAL, 264.0), at(WHEEL, 0.182)), was)
    assert (switched["arrow"], switched["change"], switched["before"]) == ("↓", "worse,", "284 kg to spare")
    assert switched["more"] == (
        "decided before: ↑ 18.2 % to spare, was 18.1 % to spare: Does no wheel carry more than half its axle's plate?"
        " drive"
    )
    for share in (0.181, 0.182):
        same = tile((at(WHEEL, share), at(TOTAL, 264.0)), was)
        assert same["change"] in ("", "better,")  # the line is of the question of the tile, whatever another one did
        assert same["beside"] == "another is worse"
        assert same["more"].startswith("worse: ↓ 264 kg to spare, was 284 kg to spare: Is the van within")


def test_tiles_stay_where_they_were_when_the_file_was_opened() -> None:
    placed = glance.groups_worst_first((LEAST, TOTAL))
    assert list(placed) == ["Mounts", "Mass"]
    now = (
        replace(LEAST, margin=1.2, verdict="meets", chance=1.0),
        replace(TOTAL, margin=-30.0, verdict="fails", chance=0.0),
    )
    assert [one["group"] for one in glance.tiles(now, (), "metric", placed=placed)] == ["Mounts", "Mass"]
    assert [one["group"] for one in glance.tiles(now, (), "metric")] == ["Mass", "Mounts"]


def test_a_wish_is_told_by_words_and_not_by_its_key() -> None:
    row = glance.rows((replace(GAP, place="brief.outdoors.0.limit"),), (), "Mounts", "metric")[0]
    assert (row["place"], row["place_said"]) == ("brief.outdoors.0.limit", "brief, outdoors 1, limit")


def test_a_question_that_no_longer_decides_is_told_apart() -> None:
    mended = replace(LEAST, margin=1.2, verdict="meets", chance=1.0)
    found = tile((GAP, mended), (LEAST, GAP))
    assert (found["arrow"], found["before"]) == ("", "as before")
    assert found["more"].startswith("decided before: ↑ 1.2 kg to spare, was fails 3.3 kg too little: Does every mount")


def test_another_state_is_no_change_for_better_or_worse() -> None:
    found = tile((replace(GAP, state="record", margin=0.001),), (GAP,))
    assert (found["arrow"], found["before"]) == ("", "0.6 mm to spare (drive)")


def test_a_number_that_comes_to_be_known_is_neither_better_nor_worse() -> None:
    unknown = replace(GAP, margin=None, chance=None, value=None, verdict="unproven")
    found = tile((replace(GAP, verdict="unproven", margin=0.0001, chance=0.8),), (unknown,))
    assert (found["arrow"], found["before"]) == ("", "unproven")


def test_before_and_after_are_told_in_one_unit() -> None:
    found = tile((at(LASTS, 6444.0),), (LASTS,))
    units = {found[key].split()[1] for key in ("margin", "before")}
    assert len(units) == 1
    row = glance.rows((at(LASTS, 6444.0),), (LASTS,), "Safety", "metric")[0]
    assert row["margin"].split()[1] == row["before"].split()[1]


def test_nothing_is_told_where_nothing_changed() -> None:
    assert tile((WHEEL, TOTAL), (WHEEL, TOTAL))["before"] == ""


def test_the_same_question_of_two_runs_names_the_run() -> None:
    draughts = tuple(
        replace(LEAST, id=f"draught-{run}-{state.replace('_', '-')}", group="Air", question="A draught?", state=state)
        for run in ("supply", "fresh-air") for state in ("record", "door_open")
    )  # fmt: skip
    told = {row["id"]: row["state"] for row in glance.rows((*draughts, replace(GAP, group="Air")), (), "Air", "metric")}
    assert told["draught-fresh-air-door-open"] == "fresh air, door open"
    assert told["draught-supply-record"] == "supply, record"
    assert told["snubber-clear-drive"] == "drive"


def test_what_a_step_touches_is_told_apart_by_the_run() -> None:
    question = "Do people sit without a draught?"
    touched = [
        Touched(f"draught-{run}-record", question, "meets", "unproven", 0.1, "speed") for run in ("supply", "extract")
    ]
    told = touched_text(touched, by_name=False)
    assert f"“{question}” supply record (unproven), “{question}” extract record (unproven)" in told
    many = touched_text([replace(touched[0], question=f"{number}?") for number in range(15)], by_name=False)
    assert many.endswith(" and 11 more of the 15 verdicts that it changes")
