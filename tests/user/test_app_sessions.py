"""Editing a file: nothing is lost, nothing outside the folder is touched, nobody is overwritten."""

import os
import signal
import subprocess
import sys
from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from tests.plain_builds import plain_build

from hushwright.app.changes import differences
from hushwright.app.history import History
from hushwright.app.session import Overtaken, Session, Sessions
from hushwright.app.workspace import LARGEST_FILE, Workspace, safe_name
from hushwright.document.parts import add_item, lift_item, remove_part, set_deep
from hushwright.errors import InvalidInput, UnreadableDocument

SMALL = """\
brief:
  tallest: 1.8 m  # measured at the door
  # a remark that stays
  shoes: {is: 30 mm, from: measured, plus_minus: 5 mm}
fittings:
  - {name: desk, mass: 20 kg, station: 1 m}
  - name: bank
    mass: 46 kg
    station: 350 mm
states:
  record: {people: {quiet_room: 2}, open: [side_door]}
"""


@pytest.fixture
def session(tmp_path: Path) -> Session:
    (tmp_path / "van.yaml").write_text(SMALL, encoding="utf-8")
    return Sessions(Workspace(tmp_path)).of("van.yaml")


def on_disk(session: Session) -> str:
    return session.path.read_text(encoding="utf-8")


def test_a_change_is_saved_at_once_and_keeps_every_other_byte(session: Session) -> None:
    session.set_values({("brief", "tallest"): "1.85 m"})
    assert on_disk(session) == SMALL.replace("1.8 m", "1.85 m")


def test_undo_and_redo_go_all_the_way(session: Session) -> None:
    texts = [session.text]
    for step in range(60):
        session.set_values({("brief", "tallest"): f"1.{500 + step} m"})
        texts.append(session.text)
    for text in reversed(texts[:-1]):
        assert session.undo()
        assert session.text == text == on_disk(session)
    assert session.undo() == ""
    for text in texts[1:]:
        assert session.redo()
        assert session.text == text == on_disk(session)
    assert session.redo() == ""


@given(st.lists(st.text(max_size=30), max_size=8))
@settings(max_examples=40, deadline=None)
def test_a_history_leads_back_through_any_texts(texts: list[str]) -> None:
    history = History("begin")
    seen = ["begin"]
    for text in texts:
        if history.change(text, "step"):
            seen.append(text)
    for text in reversed(seen[:-1]):
        history.undo()
        assert history.text == text
    for text in seen[1:]:
        history.redo()
        assert history.text == text


def test_an_origin_is_added_changed_and_taken_away(session: Session) -> None:
    session.set_parts(("brief", "tallest"), {"is": "1.8 m", "from": "measured", "by": "tape, twice"})
    assert '{is: 1.8 m, from: measured, by: "tape, twice"}  # measured at the door' in session.text
    session.set_parts(("brief", "tallest"), {"is": "1.82 m"})
    assert "tallest: {is: 1.82 m}  # measured at the door" in session.text


def test_what_another_program_wrote_is_taken_over_when_nothing_is_unsaved(session: Session) -> None:
    session.path.write_text(SMALL.replace("20 kg", "25 kg"), encoding="utf-8")
    assert session.look_at_disk() is None
    assert "25 kg" in session.text
    session.undo()
    assert session.text == SMALL


@pytest.mark.parametrize("choice", ["mine", "theirs", "both"])
def test_a_save_never_overwrites_what_another_program_wrote(session: Session, choice: str) -> None:
    theirs = SMALL.replace("20 kg", "25 kg")
    session.path.write_text(theirs, encoding="utf-8")
    session.set_values({("brief", "tallest"): "1.9 m"})
    mine = session.text
    assert on_disk(session) == theirs
    assert session.question is not None
    assert {one.path for one in session.question.differing} == {"brief.tallest", "fittings.0.mass"}
    copy = session.answer(choice)  # type: ignore[arg-type]
    assert session.question is None
    assert on_disk(session) == session.text == (mine if choice == "mine" else theirs)
    if choice == "both":
        assert (session.path.parent / copy).read_text(encoding="utf-8") == mine
    session.undo()
    assert session.text == (SMALL if choice == "mine" else mine)


def test_a_file_changed_once_more_while_the_question_stands_is_asked_again(session: Session) -> None:
    session.path.write_text(SMALL.replace("20 kg", "25 kg"), encoding="utf-8")
    session.set_values({("brief", "tallest"): "1.9 m"})
    session.path.write_text(SMALL.replace("20 kg", "26 kg"), encoding="utf-8")
    session.answer("mine")
    assert session.question is not None
    assert "26 kg" in on_disk(session)


def test_a_file_that_is_gone_is_written_anew_only_when_asked(session: Session) -> None:
    session.path.unlink()
    session.set_values({("brief", "tallest"): "1.9 m"})
    assert session.question is not None
    assert session.question.theirs is None
    assert not session.path.exists()
    session.answer("mine")
    assert on_disk(session) == session.text


def test_a_value_that_another_window_changed_is_not_overwritten_silently(session: Session) -> None:
    path = ("brief", "tallest")
    session.set_values({path: "1.9 m"}, seen={path: "1.8 m"})
    with pytest.raises(Overtaken, match=r"1\.9 m"):
        session.set_values({path: "1.7 m"}, seen={path: "1.8 m"})
    assert "1.9 m" in session.text


def test_a_refused_value_leaves_text_file_and_history_alone(session: Session) -> None:
    with pytest.raises(InvalidInput):
        session.set_values({("brief", "tallest"): "1 m\nowner: me"})
    assert session.text == on_disk(session) == SMALL
    assert not session.undo()


@pytest.mark.parametrize(
    "name",
    ["../out", "..", "a/b", "a\\b", "/etc/passwd", ".hidden", "c:\\x", "", "   ", "a\0b", "con", "x" * 200, "a\nb",
     "-rf", "<b>.yaml", "..%2f..\\x"],
)  # fmt: skip
def test_no_name_leads_out_of_the_folder(name: str, tmp_path: Path) -> None:
    workspace = Workspace(tmp_path)
    with pytest.raises(UnreadableDocument):
        workspace.create(name, SMALL)
    with pytest.raises(UnreadableDocument):
        workspace.upload(name, SMALL.encode())
    assert list(tmp_path.iterdir()) == []


@given(st.text(max_size=40))
@settings(max_examples=60, deadline=None)
def test_whatever_is_typed_stays_in_the_folder(typed: str) -> None:
    try:
        name = safe_name(typed)
    except UnreadableDocument:
        return
    assert Path(name).name == name
    assert name.endswith((".yaml", ".yml", ".YAML", ".YML")) or name.lower().endswith((".yaml", ".yml"))


def test_what_killed_saves_have_left_is_taken_away_after_an_hour_and_nothing_else(tmp_path: Path) -> None:
    for name in (".van.yaml.0123abcd.part", ".mine.part", "van.yaml", ".new.yaml.0123abcd.part"):
        (tmp_path / name).write_text("x", encoding="utf-8")
        if not name.startswith(".new"):
            os.utime(tmp_path / name, (1.0, 1.0))
    assert Workspace(tmp_path).tidy() == 1
    assert sorted(path.name for path in tmp_path.iterdir()) == [".mine.part", ".new.yaml.0123abcd.part", "van.yaml"]


def test_a_link_that_leads_out_is_neither_listed_nor_opened(tmp_path: Path) -> None:
    outside, inside = tmp_path / "outside.yaml", tmp_path / "shop"
    outside.write_text(SMALL, encoding="utf-8")
    inside.mkdir()
    (inside / "van.yaml").symlink_to(outside)
    workspace = Workspace(inside)
    assert workspace.listed() == ()
    with pytest.raises(UnreadableDocument):
        Sessions(workspace).of("van.yaml")


@pytest.mark.parametrize(
    "content", [b"a" * (LARGEST_FILE + 1), b"", b"\x00\x01\x02", b"\xff\xfea\x00", b"tallest: \xff"]
)
def test_what_is_no_build_file_is_not_taken_in(content: bytes, tmp_path: Path) -> None:
    with pytest.raises(UnreadableDocument):
        Workspace(tmp_path).upload("van.yaml", content)
    assert list(tmp_path.iterdir()) == []


def test_an_upload_and_a_copy_never_replace_a_file(tmp_path: Path) -> None:
    workspace = Workspace(tmp_path)
    assert workspace.upload("van.yaml", b"title: one") == "van.yaml"
    assert workspace.upload("van.yaml", b"title: two") == "van 2.yaml"
    assert workspace.duplicate("van 2.yaml") == "van 3.yaml"
    assert [(one.name, one.title) for one in workspace.listed()] == [
        ("van 2.yaml", "two"), ("van 3.yaml", "two"), ("van.yaml", "one"),
    ]  # fmt: skip


@pytest.mark.parametrize(
    ("path", "gone"),
    [
        (("brief", "shoes"), "  shoes: {is: 30 mm, from: measured, plus_minus: 5 mm}\n"),
        (("brief", "shoes", "plus_minus"), ", plus_minus: 5 mm"),
        (("fittings", 0), "  - {name: desk, mass: 20 kg, station: 1 m}\n"),
        (("fittings", 0, "name"), "name: desk, "),
        (("fittings", 1, "name"), "name: bank\n    "),
        (("fittings", 1), "  - name: bank\n    mass: 46 kg\n    station: 350 mm\n"),
        (("states", "record", "open"), ", open: [side_door]"),
        (("states", "record", "open", 0), "side_door"),
        (("states",), "states:\n  record: {people: {quiet_room: 2}, open: [side_door]}\n"),
    ],
)
def test_a_part_taken_out_takes_nothing_with_it(path: tuple[str | int, ...], gone: str) -> None:
    after = remove_part(SMALL, path)
    assert after == SMALL.replace(gone, "", 1) or after == SMALL.replace(gone, "", 1).rstrip("\n")


@pytest.mark.parametrize(
    ("path", "new", "there"),
    [
        (("fittings",), "{name: lamp, station: 2 m}", "    station: 350 mm\n  - {name: lamp, station: 2 m}\n"),
        (("states", "record", "open"), "quiet_door", "open: [side_door, quiet_door]"),
        (("states", "record", "out"), "awning", "open: [side_door], out: [awning]"),
        (("treatments",), "{on: left}", "\ntreatments: [{on: left}]"),
    ],
)
def test_an_item_is_added_where_its_list_is_or_would_be(path: tuple[str, ...], new: str, there: str) -> None:
    after = add_item(SMALL, path, new)
    assert there in after
    assert differences(SMALL, after)


@pytest.mark.parametrize(
    ("path", "before", "new", "there"),
    [
        (
            ("fittings",),
            1,
            "{name: lamp, station: 2 m}",
            "station: 1 m}\n  - {name: lamp, station: 2 m}\n  - name: bank",
        ),
        (("fittings",), 0, "{name: lamp}", "fittings:\n  - {name: lamp}\n  - {name: desk"),
        (("states", "record", "open"), 0, "quiet_door", "open: [quiet_door, side_door]"),
    ],
)
def test_an_item_goes_before_another_one(path: tuple[str, ...], before: int, new: str, there: str) -> None:
    assert there in add_item(SMALL, path, new, before)


def test_an_item_is_moved_up_and_one_over_several_lines_is_left() -> None:
    two = add_item(SMALL, ("fittings",), "{name: lamp}", 0)
    assert "fittings:\n  - {name: desk, mass: 20 kg, station: 1 m}\n  - {name: lamp}\n" in lift_item(
        two, ("fittings", 1)
    )
    for path in (("fittings", 0), ("fittings", 1), ("fittings", 7), ("fittings",), ()):
        with pytest.raises(InvalidInput):
            lift_item(SMALL, path)


def test_a_value_deep_in_sections_that_are_not_there_begins_them() -> None:
    after = set_deep(SMALL, ("vehicle", "ribs", "depth"), "55 mm")
    assert "vehicle: {ribs: {depth: 55 mm}}" in after
    assert set_deep(after, ("vehicle", "widths", 0, "height"), "0 mm").count("widths: [{height: 0 mm}]") == 1


def test_kill_in_mid_save_two_hundred_times_loses_nothing(tmp_path: Path) -> None:
    """One writer after the other is killed while it saves; a fork each, so that two hundred take seconds."""
    file = tmp_path / "van.yaml"
    text = plain_build() * 20
    file.write_text(text, encoding="utf-8")
    driver = f"""
import os, random, signal, sys, time
from hushwright.document.save import save_atomically
file, text = sys.argv[1], open(sys.argv[1], encoding="utf-8").read()
chance = random.Random(5)
for round in range(200):
    child = os.fork()
    if child == 0:
        number = 0
        while True:
            number += 1
            save_atomically(file, f"{{text}}# {{round}} {{number}}\\n")
    time.sleep(chance.uniform(0.001, 0.012))
    os.kill(child, {int(signal.SIGKILL)})
    os.waitpid(child, 0)
    now = open(file, encoding="utf-8").read()
    assert now == text or (now.startswith(text + "# ") and now.endswith("\\n")), now[-80:]
"""
    done = subprocess.run(
        [sys.executable, "-c", driver, str(file)], capture_output=True, text=True, check=False, env=dict(os.environ)
    )  # fmt: skip
    assert done.returncode == 0, done.stderr
    assert file.read_text(encoding="utf-8").startswith(text)
    assert [one.name for one in Workspace(tmp_path).listed()] == ["van.yaml"]
