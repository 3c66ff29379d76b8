"""What the screen is given: tiles, rows, charts, forms, handles; every field can be edited in its form."""

import asyncio
import json
from collections.abc import Iterator

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from tests.coupled import DEMO, build_of, evaluation_of, verdicts_of
from tests.full_build import full_parts, values_in
from tests.inline_computer import Inline
from tests.plain_builds import plain_build, two_rooms

from hushwright.app import charts, glance
from hushwright.app.blanks import item_of
from hushwright.app.changes import differences
from hushwright.app.computing import Computed, compute, read
from hushwright.app.desk import Desk, OpenBuild
from hushwright.app.form import GENERAL, form_of, parts_of
from hushwright.app.gate import COOKIE, Gate
from hushwright.app.handles import dragged, handles_of
from hushwright.app.pictures import picture, place_of_part
from hushwright.app.session import Session
from hushwright.app.taking import NotTaken, take_value
from hushwright.app.workspace import Workspace
from hushwright.document.edits import written_length
from hushwright.document.outline import outline
from hushwright.document.parts import set_deep
from hushwright.document.read import read_document_text
from hushwright.document.schema import BuildFile
from hushwright.document.shapes import fields_of
from hushwright.library.read import read_library
from hushwright.verdicts.verdict import Verdict, chance_of_meeting, outcome

SMALL = two_rooms(
    rest="fittings:\n  - {name: desk, mass: 40 kg, station: 1000, height: 28 in}\n"
    "openings:\n  window: {kind: window, face: quiet_room.front, width: 600, height: 500, sill: 1000, offset: 8 in,"
    " layers: [{glass: laminated glass, thickness: 10.8}]}\n"
    "  side: {kind: vehicle door, face: vehicle.right, width: 1000, height: 1500, offset: 900}\n"
    "cuts:\n  inlet: {face: left, station: 2 m, at: 300, diameter: 100}\n"
    "  hole: {face: roof, station: 900, at: 100, diameter: 60}\n"
    "routes:\n  main: {points: [{station: 400, height: 300}, {station: 4 m, offset: 200, height: 300}]}\n"
)


def entries(nodes: list[dict[str, object]]) -> Iterator[dict[str, object]]:
    for node in nodes:
        yield node
        yield from entries(node.get("children", []))  # type: ignore[arg-type]


def test_every_section_of_the_schema_can_be_begun_from_its_form() -> None:
    known = ("contradiction", "missing-key")  # a part on its own lacks the others, and examples may exclude each other
    for name, text in full_parts().items():
        _, problems = read_document_text(text, "full.yaml")
        assert [one for one in problems if one.reference not in known or (one.place.path[:1] == (name,)
                and one.reference != "contradiction")] == []  # fmt: skip


def test_every_field_of_the_schema_stands_in_a_form() -> None:
    library = read_library()
    for name, text in full_parts().items():
        root = outline(text)
        nodes, lists = form_of(root, name, library, (), {}, "us")
        json.dumps((nodes, lists))
        shown = {str(node["id"]) for node in entries(nodes)}
        top = root.find((name,))
        assert top is not None
        assert [one.path for one in values_in(top) if ".".join(map(str, one.path)) not in shown] == []
    at_top = form_of(outline("hushwright: 1"), GENERAL, library, (), {}, "us")[0]
    assert {*full_parts(), *(str(node["id"]) for node in at_top)} == set(fields_of(BuildFile))


@pytest.mark.parametrize("unit", ["mm", "in"])
def test_a_length_without_a_unit_is_shown_with_that_of_the_file(unit: str) -> None:
    text = f"lengths: {unit}\nbrief: {{tallest: 68.5, shoes: 3 cm, person_mass: 80}}\n"
    nodes, _ = form_of(outline(text), "brief", read_library(), (), {}, "metric")
    units = {node["id"]: node.get("unit") for node in entries(nodes)}
    assert (units["brief.tallest"], units["brief.shoes"], units["brief.person_mass"]) == (unit, "", "")


def test_a_problem_is_shown_at_its_field_and_counted_at_its_part() -> None:
    text = SMALL.replace("mass: 40 kg", "mass: 40 parsec").replace("tallest: 1700", "tallest: 9000")
    problems = read(text, "x").problems
    root = outline(text)
    counted = {one["name"]: one["errors"] for one in parts_of(root, problems)}
    assert counted["fittings"] == counted["brief"] == 1
    nodes, _ = form_of(root, "fittings", read_library(), problems, {}, "metric")
    told = {node["id"]: node["problems"] for node in entries(nodes) if node["problems"]}
    assert list(told) == ["fittings.0.mass"]
    assert form_of(root, GENERAL, read_library(), problems, {}, "metric")[0]


def test_an_item_is_added_with_what_it_needs() -> None:
    root = outline(DEMO)
    library = read_library()
    for path in (("fittings",), ("openings",), ("treatments",), ("states",)):
        entry = root.find(path)
        assert entry is not None
        assert item_of(entry, root, library).startswith("{")
    layers = root.find(("surfaces", "quiet_room", "left", "layers"))
    assert layers is not None
    assert item_of(layers, root, library, "limp").startswith("{limp: ")


@pytest.mark.parametrize("view", ["plan", "left", "right", "section"])
def test_a_handle_dragged_moves_its_values_and_nothing_else(view: str) -> None:
    build = build_of(SMALL)
    document, root = build.document, outline(SMALL)
    for handle in handles_of(build, view, 3.4):
        wanted = dragged(handle, 0.01, 0.015, document, root, "mm")
        text = SMALL
        for path, new in wanted.items():
            text = set_deep(text, path, new)
        changed = {one.path for one in differences(SMALL, text)}
        assert changed == {".".join(map(str, path)) for path in wanted}
        moved = read_document_text(text, "x")[0]
        assert moved is not None
        for move in handle.moves:
            if move.path in wanted:
                by = 0.01 * move.by_x + 0.015 * move.by_y
                step = moved.value_at(move.path).value - document.value_at(move.path).value
                assert step == pytest.approx(by, abs=6e-4)


def test_the_dividing_wall_takes_both_rooms_with_it() -> None:
    build = build_of(SMALL)
    wall = next(one for one in handles_of(build, "plan") if one.kind == "wall")
    wanted = dragged(wall, -0.05, 0.3, build.document, outline(SMALL), "mm")
    assert wanted == {("rooms", "control_room", "rear"): "2380", ("rooms", "quiet_room", "front"): "2410"}


@given(st.floats(-3.0, 6.0), st.sampled_from(["1800", "72 in", "1.8 m", "1800 mm", "6 ft 3 in", ""]),
       st.sampled_from(["mm", "in"]))  # fmt: skip
@settings(max_examples=60, deadline=None)
def test_a_length_is_written_in_the_unit_of_the_file(value: float, before: str, bare: str) -> None:
    from hushwright.units import parse_quantity

    written = written_length(value, before, bare)
    assert parse_quantity(written, "length", bare_length=bare).value == pytest.approx(value, abs=6e-5)  # type: ignore[arg-type]


@pytest.mark.parametrize("system", ["metric", "us"])
def test_every_verdict_of_the_demo_has_a_row_and_charts_that_can_be_sent(system: str) -> None:
    evaluation, verdicts = evaluation_of(DEMO), tuple(verdicts_of(DEMO).values())
    tiles = glance.tiles(verdicts, verdicts, system)  # type: ignore[arg-type]
    assert {one["before"] for one in tiles} == {""}
    listed = [row["id"] for group in glance.groups_of(verdicts) for row in glance.rows(verdicts, (), group, system)]  # type: ignore[arg-type]
    assert sorted(listed) == sorted(one.id for one in verdicts)
    found = [charts.chart_of(one, evaluation, system) for one in verdicts]  # type: ignore[arg-type]
    json.dumps([one for one in found if one is not None], allow_nan=False)
    assert sum(one is not None for one in found) > 20
    assert all(tile["word"] or tile["group"] == "Not asked" for tile in tiles)


def test_a_tile_says_what_the_last_edit_changed() -> None:
    before = compute(plain_build(), "x")
    after = compute(plain_build().replace("tallest: 1700", "tallest: 1990"), "x")
    space = next(one for one in glance.tiles(after.verdicts, before.verdicts, "metric") if one["group"] == "Space")
    assert (space["arrow"], space["change"]) == ("↓", "worse,")
    assert space["before"].startswith("meets")


def open_verdict(group: str, margin: float) -> Verdict:
    chance = chance_of_meeting(margin, 1.0)
    return Verdict(group, group, "Is it so?", "", "level", 30.0 - margin, 30.0, "at_most", margin, 1.0, chance,
                   outcome(margin, 1.0, valid=True), "", "")  # fmt: skip


def test_tiles_stand_worst_first_and_their_signs_fill_with_the_likelihood() -> None:
    found = [open_verdict(*each) for each in (("Quiet", 1.8), ("Air", 3.0), ("Heat", -1.6), ("Mass", 0.0),
                                              ("Space", -4.0), ("Mounts", -0.7), ("Doors", 0.8))]  # fmt: skip
    tiles = glance.tiles(found, (), "metric")
    assert [(one["group"], one["sign"]) for one in tiles] == [
        ("Space", "▲"), ("Heat", "○"), ("Mounts", "◔"), ("Mass", "◐"), ("Doors", "◕"), ("Quiet", "◕"), ("Air", "●"),
    ]  # fmt: skip
    assert [one["word"] for one in tiles][:3] == ["fails", "unproven, very unlikely (5 %)", "unproven, unlikely (24 %)"]
    kept = [one["group"] for one in glance.tiles(found[1:], found, "metric", provisional=True)]
    assert kept == [one["group"] for one in tiles if one["group"] != "Quiet"]  # nothing moves under the hand


def test_a_value_beyond_its_limit_is_told_as_nominally_not_met() -> None:
    found = [one for one in verdicts_of(DEMO).values() if one.verdict == "unproven" and one.margin is not None]
    told = [one.reason for one in found if one.margin is not None and one.margin < 0.0]
    assert told
    assert all(each.startswith("nominally not met") for each in told)
    assert not [one.id for one in found if one.margin and one.margin > 0.0 and "nominally" in one.reason]


def test_drawings_carry_names_of_the_file_as_text_alone() -> None:
    hostile = SMALL.replace("name: desk", "name: '<script>alert(1)</script>'")
    shown = picture(build_of(hostile), "plan", 0.0, "metric")
    assert "<script" not in shown["svg"]
    assert place_of_part(build_of(hostile), "<script>alert(1)</script>") == "fittings.0"
    assert place_of_part(build_of(DEMO), "quiet_door") == "openings.quiet_door"


def test_a_value_that_cannot_be_read_is_refused_with_its_reason(tmp_path) -> None:  # type: ignore[no-untyped-def]
    (tmp_path / "van.yaml").write_text(SMALL, encoding="utf-8")
    session = Session(Workspace(tmp_path), "van.yaml")
    for typed in ("50 parsec", "50 m", "{is: 1 m", "", "&a 1 m"):
        with pytest.raises(NotTaken):
            take_value(session, ("brief", "tallest"), typed, "1700")
    assert session.path.read_text(encoding="utf-8") == SMALL


def test_the_newest_text_is_what_is_computed_in_the_end(tmp_path) -> None:  # type: ignore[no-untyped-def]
    (tmp_path / "van.yaml").write_text(plain_build(), encoding="utf-8")
    computer = Inline()

    async def edit() -> OpenBuild:
        opened = Desk(Workspace(tmp_path), computer).open("van.yaml")
        opened.begin()
        while opened.is_stale:
            await asyncio.sleep(0.001)
        for tallest in ("1710", "1720", "1730"):
            opened.session.set_values({("brief", "tallest"): tallest})
            await asyncio.sleep(0)
        while opened.busy or opened.is_stale:
            await asyncio.sleep(0.001)
        return opened

    opened = asyncio.run(edit())
    assert opened.computed is not None
    assert "tallest: 1730" in opened.computed.text
    assert opened.before is not None
    assert "tallest: 1700" in opened.before.text  # what was overtaken was never shown
    assert len(computer.texts) <= 4


def test_what_was_computed_before_an_edit_leaves_no_trace_in_what_comes_after() -> None:
    """Values remembered between edits are found by value: an edited build computes as if it were the first."""
    import random

    chance = random.Random(3)
    edits = [
        ("tallest: 1700", f"tallest: {chance.randrange(1500, 1900)}"),
        ("thickness: 1}", f"thickness: {chance.randrange(2, 9)}}}"),
        ("person_mass: 75", "person_mass: 90"),
    ]
    text = plain_build(left="        - {limp: light sheet, thickness: 1}\n")
    for old, new in edits:
        text = text.replace(old, new)
        compute(text, "x")
    warm = compute(text, "x")
    cold = _cold(text)
    assert warm.evaluation is not None
    assert cold.evaluation is not None
    assert warm.verdicts == cold.verdicts
    assert warm.evaluation.quantities == cold.evaluation.quantities


def _cold(text: str) -> Computed:
    import gc
    from functools import _lru_cache_wrapper

    for one in gc.get_objects():
        if isinstance(one, _lru_cache_wrapper) and str(getattr(one, "__module__", "")).startswith("hushwright.eval"):
            one.cache_clear()
    return compute(text, "x")


def asked(token: str, path: str = "/", headers: dict[str, str] | None = None, kind: str = "http") -> list[dict]:  # type: ignore[type-arg]
    """Ask the gate, with an app behind it that says yes."""
    sent: list[dict] = []  # type: ignore[type-arg]

    async def yes(scope, receive, send) -> None:  # type: ignore[no-untyped-def]
        await send({"type": "http.response.start", "status": 200, "headers": []})

    async def receive() -> dict[str, str]:
        return {"type": "websocket.connect"}

    async def send(message) -> None:  # type: ignore[no-untyped-def]
        sent.append(message)

    given = {"host": "127.0.0.1:8127", **(headers or {})}
    scope = {"type": kind, "path": path.split("?")[0], "query_string": path.partition("?")[2].encode(),
             "headers": [(name.encode(), value.encode()) for name, value in given.items()]}  # fmt: skip
    asyncio.run(Gate(yes, token=token)(scope, receive, send))
    return sent


@pytest.mark.parametrize(
    ("headers", "status"),
    [
        ({}, 200),
        ({"host": "localhost:8127", "origin": "http://localhost:8127"}, 200),
        ({"origin": "http://evil.test"}, 403),
        ({"origin": "null"}, 403),
        ({"origin": "http://127.0.0.1:9999"}, 403),
        ({"host": "evil.test"}, 403),
        ({"host": "127.0.0.1.evil.test:8127"}, 403),
    ],
)
def test_only_pages_of_this_app_are_answered(headers: dict[str, str], status: int) -> None:
    assert asked("", headers=headers)[0]["status"] == status
    answer = asked("", headers=headers, kind="websocket")[0]
    assert (answer["type"] == "websocket.close") == (status == 403)


def test_from_another_machine_the_token_is_needed_once() -> None:
    there = {"host": "workshop.test:8127"}
    assert asked("secret", headers=there)[0]["status"] == 403
    assert asked("secret", "/?token=wrong", there)[0]["status"] == 403
    answer = asked("secret", "/?token=secret", there)[0]
    assert answer["status"] == 200
    cookie = dict(answer["headers"])[b"set-cookie"].decode()
    assert cookie.startswith(f"{COOKIE}=secret; HttpOnly; SameSite=Strict")
    assert asked("secret", headers={**there, "cookie": f"{COOKIE}=secret"})[0]["status"] == 200
    assert (
        asked("secret", headers={**there, "cookie": f"{COOKIE}=no"}, kind="websocket")[0]["type"] == "websocket.close"
    )
