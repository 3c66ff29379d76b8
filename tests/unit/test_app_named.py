"""Parts that a verdict names lead to their values and are marked in drawings; drawings are readable when dark."""

import re
from dataclasses import replace

import pytest
from tests.coupled import DEMO, build_of, edited, evaluation_of, verdicts_of
from tests.unit.test_hints import DRAFT, SPOILT

from hushwright.app import glance, pictures
from hushwright.app.cures import holds_limit
from hushwright.app.dark import LEAST_CONTRAST, SHEET, contrast, dark_lines, dark_rules, dark_tones
from hushwright.app.frame import style_sheet
from hushwright.app.handles import handles_of
from hushwright.app.named import marks_of, parts_of, parts_to_change, parts_with_ways, pieces_of
from hushwright.document.nodes import parse_path
from hushwright.document.outline import outline
from hushwright.drawings.layers import LAYERS, TONES
from hushwright.errors import InvalidInput
from hushwright.evaluation.evaluate import evaluate_nominal
from hushwright.report.units_out import quantity_kind
from hushwright.units import parse_quantity
from hushwright.verdicts.judge import judge
from hushwright.verdicts.verdict import Verdict


def test_every_way_that_a_hint_on_sound_names_leads_to_its_values() -> None:
    build, evaluation = build_of(DEMO), evaluation_of(DEMO)
    parts, root = parts_with_ways(build, evaluation), outline(DEMO)
    ways = {way.name for found in evaluation.backgrounds for way in found.paths}
    assert ways <= set(parts)
    for name in ways:
        path = tuple(int(key) if key.isdigit() else key for key in parts[name].place.split("."))
        assert root.find(path) is not None, name


def test_a_verdict_on_sound_leads_to_parts_and_tells_the_wish_apart() -> None:
    build, evaluation = build_of(DEMO), evaluation_of(DEMO)
    parts = parts_with_ways(build, evaluation)
    one = verdicts_of(DEMO)["background-fair-record-side-door-open"]
    row = next(each for each in glance.rows((one,), (), "Quiet", "metric", parts=parts) if each["id"] == one.id)
    assert row["is_wish"]
    assert {"text": "supply duct", "place": "openings.supply", "drawn": "supply"} in row["hint"]
    assert "".join(each["text"] for each in row["hint"]) == one.hint
    named = {each["name"]: each for each in row["parts"]}
    assert not [each for each in row["parts"] if each["place"].startswith("brief")]
    # a face that borrows the layers of another leads to those, and is marked where it is itself
    assert named["quiet room right"]["place"] == "surfaces.quiet_room.left"
    assert named["quiet room right"]["drawn"] == "quiet_room.right"
    assert {named[name]["face"] for name in ("window", "supply duct")} == {"window", ""}
    drawn = "".join(pictures.picture(build, view, 3.0, "metric")["svg"] for view in ("plan", "section"))
    marks = marks_of(parts_to_change(one, parts))
    assert len(marks) > 3
    assert all(f'data-part="{each["part"]}"' in drawn for each in marks)
    assert [each["label"].split()[0] for each in marks] == [str(at + 1) for at in range(len(marks))]


def test_every_open_verdict_leads_to_what_can_be_changed() -> None:
    parts = parts_with_ways(build_of(DEMO), evaluation_of(DEMO))
    found = [each for each in verdicts_of(DEMO).values() if each.verdict in ("fails", "unproven")]
    led = {each.id: parts_to_change(each, parts) for each in found if each.group != "Papers"}
    assert [id for id, parts in led.items() if not parts] == []
    assert [id for id, parts in led.items() if any(each.place.startswith("brief") for each in parts)] == []
    gap = next(each for each in found if each.id.startswith("snubber-clear"))
    assert [(each.place, each.drawn) for each in parts_to_change(gap, parts)] == [
        ("mounts.under_floor.snubber_gap", "under_floor")
    ]
    assert [each.place for each in led["humidity-quiet-room-record"]] == ["air"]


def test_a_name_inside_another_word_is_no_part() -> None:
    parts = parts_of(build_of(DEMO))
    cut = [each["text"] for each in pieces_of("windows and a window; shadow", parts) if each["place"]]
    assert cut == ["window"]


def test_dark_drawings_are_readable() -> None:
    assert f"--sheet: {SHEET}" in style_sheet()
    for line in dark_lines().values():
        assert all(contrast(line, ground) >= LEAST_CONTRAST for ground in dark_tones().values())
    assert set(dark_tones()) == set(TONES.values())
    assert set(dark_lines()) == {each.colour for each in LAYERS.values()}


def test_a_dark_screen_leaves_no_colour_of_a_drawing_as_on_paper() -> None:
    turned = set(re.findall(r'\[(?:fill|stroke)="(#\w+)"\]', dark_rules()))
    for view in ("plan", "left", "section"):
        svg = pictures.picture(build_of(DEMO), view, 3.0, "metric")["svg"]
        assert set(re.findall(r'(?:fill|stroke)="(#\w+)"', svg)) <= turned


@pytest.mark.parametrize("kind", ["wall", "boundary"])
def test_handles_of_walls_stand_beside_the_plan(kind: str) -> None:
    build = build_of(DEMO)
    half = build.vehicle.section.half_width_at("right", 0.5 * build.vehicle.floor_to_bow)
    found = [one for one in handles_of(build, "plan") if one.kind == kind]
    assert found
    assert all(abs(one.y) > half for one in found)


FAILING = {name: edited(DEMO, *SPOILT[name]) for name in SPOILT}


@pytest.mark.parametrize("text", [DEMO, *FAILING.values(), DRAFT], ids=["demo", *FAILING, "draft"])
def test_no_hint_leads_first_to_the_field_that_holds_the_limit(text: str) -> None:
    evaluation = evaluate_nominal(build_of(text))[0]
    parts, root = parts_with_ways(evaluation.build, evaluation), outline(text)
    open_ones = [each for each in judge(evaluation, provisional=True) if each.verdict in ("fails", "unproven")]
    led = {each.id: [part.place for part in parts_to_change(each, parts)] for each in open_ones if each.limit}
    # how soon somebody looks in, and which fuse is put in, are limits and means in one
    wrong = {}
    for one in open_ones:
        first = next(iter(led.get(one.id, ())), "")
        node = root.find(parse_path(first)) if first else None
        if node is None or node.form != "value" or first.endswith(("found_within", "fuse.rating", "bank.fuse")):
            continue
        if one.value is not None and first == one.place and holds_limit(first):
            wrong[one.id] = first
        wrong |= {one.id: first} if _is_near(node.text, one) else {}
    assert wrong == {}


def _is_near(text: str, one: Verdict) -> bool:
    """Whether a field holds the limit of a verdict and not its value."""
    try:
        typed = parse_quantity(text, quantity_kind(one.kind))
    except InvalidInput:
        return False
    return one.limit is not None and one.value is not None and typed == pytest.approx(one.limit) != one.value


def test_mounts_that_carry_too_little_lead_to_their_number_first() -> None:
    evaluation = evaluate_nominal(build_of(edited(DEMO, ("lowest_load: 20 kg", "lowest_load: 90 kg"))))[0]
    parts = parts_with_ways(evaluation.build, evaluation)
    one = next(each for each in judge(evaluation, provisional=True) if each.id.startswith("mount-least-load"))
    assert one.verdict == "fails"
    led = parts_to_change(one, parts)
    fields = ("along", "across", "mount", "lowest_load")
    assert [each.place for each in led] == [f"mounts.under_floor.{field}" for field in fields]
    assert [each.name for each in led] == [*(f"under floor, {field}" for field in fields[:-1]), "limit"]


def test_mounts_that_are_placed_one_by_one_lead_to_their_places() -> None:
    corners = ", ".join(f"{{station: {x}, offset: {y}}}" for x in (2000, 3000, 3900) for y in (-500, 500))
    text = edited(DEMO, ("    along: 4\n    across: 3\n    inset: 105\n", f"    places: [{corners}]\n"))
    parts = parts_of(build_of(text))
    one = replace(verdicts_of(DEMO)["mount-least-load-drive"], verdict="fails")
    led = [each.place for each in parts_to_change(one, parts)]
    assert led == [f"mounts.under_floor.{field}" for field in ("places", "mount", "lowest_load")]


def test_a_face_with_borrowed_layers_says_from_which() -> None:
    parts = parts_of(build_of(DEMO))
    assert parts["quiet room right"].said == "same layers as left"
    assert parts["quiet room left"].said == parts["quiet room wheel box left"].said == ""
