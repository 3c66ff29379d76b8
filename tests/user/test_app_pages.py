"""Pages without a browser: what they hold, and that what a person does there ends in the file."""

import asyncio
import time
from collections.abc import AsyncIterator, Callable
from contextlib import asynccontextmanager
from pathlib import Path
from typing import Any

import pytest
from tests.inline_computer import Inline, InStages
from tests.plain_builds import ONE_LEAF, plain_build

pytest.importorskip("nicegui", reason="nicegui is not installed here")

from nicegui import ElementFilter
from nicegui.testing import User
from nicegui.testing.user_simulation import user_simulation

from hushwright.app.desk import Desk
from hushwright.app.elements import Choice, Drawing, Form, Listing, Question, Strip, Stuck, Verdicts
from hushwright.app.frame import Button
from hushwright.app.server import root_of
from hushwright.app.worker import Worker
from hushwright.app.workspace import Workspace

pytestmark = pytest.mark.filterwarnings("ignore::DeprecationWarning")


@asynccontextmanager
async def opened(folder: Path, path: str, computer: Inline | None = None) -> AsyncIterator[User]:
    (folder / "van.yaml").write_text(plain_build(), encoding="utf-8")
    root = root_of(Desk(Workspace(folder), computer or Inline()), {"plain": plain_build()})
    async with user_simulation(root=root) as user:
        await user.open(path)
        yield user


def of_kind(user: User, kind: type) -> Any:
    with user:
        return next(iter(ElementFilter(kind=kind)))


def tell(element: Any, event: str, told: dict[str, Any]) -> None:
    """Let an element hear what its script in the browser would tell."""
    from nicegui.events import GenericEventArguments, handle_event

    for listener in tuple(element._event_listeners.values()):  # one may take its element away
        if listener.type == event:
            handle_event(listener.handler, GenericEventArguments(sender=element, client=element.client, args=told))


def run(act: Any) -> None:
    asyncio.run(act)


def test_the_list_holds_every_build_with_its_verdict_at_a_glance(tmp_path: Path) -> None:
    async def act() -> None:
        async with opened(tmp_path, "/") as user:
            listing = of_kind(user, Listing)
            for _ in range(200):
                if listing.props["builds"][0]["groups"]:
                    break
                await asyncio.sleep(0.01)
            (build,) = listing.props["builds"]
            assert build["name"] == "van.yaml"
            assert "meet" in build["glance"]
            tell(listing, "duplicate", {"name": "van.yaml"})
            assert (tmp_path / "van 2.yaml").is_file()
            tell(listing, "duplicate", {"name": "../../etc/passwd"})
            assert len(list(tmp_path.iterdir())) == 2

    run(act())


def test_a_build_has_verdicts_drawing_and_form_and_takes_edits(tmp_path: Path) -> None:
    async def act() -> None:
        async with opened(tmp_path, "/build/van.yaml") as user:
            form, strip, drawing = (of_kind(user, kind) for kind in (Form, Strip, Drawing))
            for _ in range(300):
                if strip.props.get("groups"):
                    break
                await asyncio.sleep(0.01)
            assert "Space" in [one["group"] for one in strip.props["groups"]]
            assert drawing.props["svg"].startswith("<svg")
            tell(form, "set", {"path": ["brief", "tallest"], "typed": "1.75 m", "seen": "1700"})
            assert "tallest: 1.75 m" in (tmp_path / "van.yaml").read_text(encoding="utf-8")
            tell(form, "set", {"path": ["brief", "tallest"], "typed": "two ells", "seen": "1.75 m"})
            assert form.props["refused"]["id"] == "brief.tallest"
            tell(form, "choose", {"part": "fittings"})
            tell(form, "add", {"path": ["fittings"], "kind": "", "called": ""})
            assert "fittings: [{name: new, station:" in (tmp_path / "van.yaml").read_text(encoding="utf-8")
            tell(form, "parts", {"path": ["brief", "tallest"], "parts": {"is": "1.75 m", "from": "measured"}})
            tell(form, "remove", {"path": ["fittings"]})
            text = (tmp_path / "van.yaml").read_text(encoding="utf-8")
            assert text.rstrip("\n") == plain_build().replace("1700", "{is: 1.75 m, from: measured}").rstrip("\n")
            tell(drawing, "move", {"id": "end quiet_room rear", "dx": -0.1, "dy": 0.0})
            assert "rear: 2330" in (tmp_path / "van.yaml").read_text(encoding="utf-8")
            tell(drawing, "move", {"id": "nothing of that name", "dx": 1.0, "dy": 1.0})
            for view in ("Section", "Walls", "Verdicts", "Problems", "Text"):
                with user:
                    tab = next(one for one in ElementFilter(kind=Button) if one._text == view)
                tell(tab, "click", {})
                assert tab.props["aria-selected"] == "true"

    run(act())


def test_numbers_after_an_edit_are_called_provisional_until_their_spread_is_there(tmp_path: Path) -> None:
    async def act() -> None:
        computer = InStages()
        async with opened(tmp_path, "/build/van.yaml", computer) as user:
            strip, form = of_kind(user, Strip), of_kind(user, Form)
            await until(lambda: strip.props["groups"] and not strip.props["busy"])
            first = strip.props["groups"]
            assert not any("provisional" in tile["word"] for tile in first)
            tell(form, "set", {"path": ["brief", "tallest"], "typed": "1760", "seen": "1700"})
            await until(lambda: strip.props["provisional"])
            assert strip.props["busy"]
            assert not strip.props["stale"]
            shown = {tile["group"]: tile for tile in strip.props["groups"]}
            assert "provisional" in shown["Space"]["word"]
            for tile in first:
                if tile["group"] != "Space":
                    assert shown[tile["group"]]["word"] == tile["word"]
            computer.go.set()
            await until(lambda: not strip.props["busy"])
            assert not strip.props["provisional"]
            assert not any("provisional" in tile["word"] for tile in strip.props["groups"])

    run(act())


async def until(there: Callable[[], Any]) -> None:
    """Wait until something is so."""
    for _ in range(2000):
        if there():
            return
        await asyncio.sleep(0.005)
    raise AssertionError("it did not come")


def test_a_question_is_asked_when_another_program_has_written(tmp_path: Path) -> None:
    async def act() -> None:
        async with opened(tmp_path, "/build/van.yaml") as user:
            form, question = of_kind(user, Form), of_kind(user, Question)
            (tmp_path / "van.yaml").write_text(plain_build().replace("75 kg", "76 kg"), encoding="utf-8")
            tell(form, "set", {"path": ["brief", "tallest"], "typed": "1750", "seen": "1700"})
            assert question.visible
            assert [one["path"] for one in question.props["differing"]] == ["brief.tallest", "brief.person_mass"]
            tell(question, "answer", {"choice": "something else"})
            assert question.visible
            tell(question, "answer", {"choice": "theirs"})
            assert not question.visible
            assert "76 kg" in (tmp_path / "van.yaml").read_text(encoding="utf-8")

    run(act())


def test_a_file_that_cannot_be_opened_is_told(tmp_path: Path) -> None:
    async def act() -> None:
        async with opened(tmp_path, "/build/nothing.yaml") as user:
            await user.should_see("there is no such file")

    run(act())


def test_what_is_computed_can_be_given_up_and_begun_again() -> None:
    async def act() -> None:
        worker = Worker()
        try:
            first = asyncio.create_task(worker.compute(plain_build(), "van.yaml"))
            await asyncio.sleep(0.2)
            worker.cancel()
            assert await first is None
            begin = time.perf_counter()
            second = await worker.compute(plain_build(), "van.yaml")
            assert second is not None
            assert second.verdicts
            assert time.perf_counter() - begin < 60.0
        finally:
            worker.stop()

    run(act())


def test_a_number_is_taken_as_typed_and_one_with_two_meanings_is_asked_at_its_field(tmp_path: Path) -> None:
    async def act() -> None:
        async with opened(tmp_path, "/build/van.yaml") as user:
            form = of_kind(user, Form)
            tell(form, "set", {"path": ["brief", "tallest"], "typed": "1,75 m", "seen": "1700"})
            assert "tallest: 1.75 m\n" in (tmp_path / "van.yaml").read_text(encoding="utf-8")
            spread = {"is": "75 kg", "plus_minus": "2,5"}
            tell(form, "parts", {"path": ["brief", "person_mass"], "parts": spread})
            assert "plus_minus: 2.5 kg}" in (tmp_path / "van.yaml").read_text(encoding="utf-8")
            tell(form, "set", {"path": ["brief", "person_mass"], "typed": "1,880 kg", "seen": "75 kg"})
            assert form.props["refused"]["id"] == "brief.person_mass"
            assert "file" not in form.props["refused"]["note"]

    run(act())


def test_an_edit_that_makes_the_van_impossible_stays_in_sight_with_ways_on(tmp_path: Path) -> None:
    door = "openings:\n  door: {kind: door, face: quiet_room.left, width: 500, height: 1500, sill: 100, offset: 1000,"
    text = f"{plain_build()}{door} layers: [{{sheet: birch plywood, thickness: 12}}]}}\n"

    async def act() -> None:
        async with opened(tmp_path, "/") as user:
            (tmp_path / "van 3.yaml").write_text(text, encoding="utf-8")
            await user.open("/build/van%203.yaml")
            notice, form, strip = (of_kind(user, kind) for kind in (Stuck, Form, Strip))
            await until(lambda: strip.props["groups"] and not strip.props["busy"])
            assert notice.props["problems"] == []
            tell(form, "set", {"path": ["openings", "door", "offset"], "typed": "60", "seen": "1000"})
            (one,) = notice.props["problems"]
            assert one["place"] == "openings.door"
            assert strip.props["groups"]  # those of the version before
            (move,) = one["mends"]
            assert move["label"].startswith("Move the offset of door to ")
            tell(notice, "set", move)
            assert notice.props["problems"] == []
            assert f"offset: {move['typed']}" in (tmp_path / "van 3.yaml").read_text(encoding="utf-8")
            tell(form, "set", {"path": ["openings", "door", "sill"], "typed": "1900", "seen": "100"})
            assert notice.props["problems"]
            tell(notice, "back", {})
            assert "sill: 100," in (tmp_path / "van 3.yaml").read_text(encoding="utf-8")

    run(act())


def test_undo_says_what_it_will_take_back_and_has_taken_back(tmp_path: Path) -> None:
    async def act() -> None:
        async with opened(tmp_path, "/build/van.yaml") as user:
            form = of_kind(user, Form)
            with user:
                undo = next(each for each in ElementFilter(kind=Button) if each._text == "Undo")
            assert "nothing to undo" in undo.props["title"]
            tell(form, "set", {"path": ["brief", "tallest"], "typed": "1990", "seen": "1700"})
            assert undo.props["title"] == undo.props["aria-label"] == "Undo: brief: tallest (Ctrl+Z)"
            tell(undo, "click", {})
            await user.should_see("Undone: brief: tallest")

    run(act())


def test_changes_are_told_since_the_last_edit_the_opening_or_another_file(tmp_path: Path) -> None:
    other = plain_build().replace("tallest: 1700", "tallest: 2300")
    (tmp_path / "other.yaml").write_text(other, encoding="utf-8")

    async def act() -> None:
        async with opened(tmp_path, "/build/van.yaml") as user:
            form, strip = of_kind(user, Form), of_kind(user, Strip)

            def space() -> dict[str, str]:
                return next(each for each in strip.props["groups"] if each["group"] == "Space")

            await until(lambda: bool(strip.props.get("groups")))
            for seen, typed in (("1700", "1990"), ("1990", "1991")):
                tell(form, "set", {"path": ["brief", "tallest"], "typed": typed, "seen": seen})
                await until(lambda: not strip.props["busy"])
            by_edit = space()["before"]
            tell(strip, "since", {"since": "opened"})
            assert space()["before"].startswith("meets")
            assert space()["before"] != by_edit
            tell(strip, "since", {"since": "file other.yaml"})
            await until(lambda: space().get("arrow") == "↑")
            tell(strip, "since", {"since": "file no-such.yaml"})
            assert strip.props["since"] == "file other.yaml"

    run(act())


def test_the_start_page_of_an_empty_folder_shows_what_can_be_done(tmp_path: Path) -> None:
    async def act() -> None:
        root = root_of(Desk(Workspace(tmp_path), Inline()), {"archive-van": plain_build()})
        async with user_simulation(root=root) as user:
            await user.open("/")
            with user:
                buttons = {one._text: one for one in ElementFilter(kind=Button)}
            assert {"First look: 11 questions", "Begin"} < set(buttons)
            tell(buttons["Open a copy of the demo van"], "click", {})
            assert (tmp_path / "demo van.yaml").read_text(encoding="utf-8") == plain_build()

    run(act())


def test_a_part_that_a_verdict_names_is_marked_and_its_values_come_into_sight(tmp_path: Path) -> None:
    quay = "  outdoors:\n    - {situation: quay, octaves: {hz_250: 60 dB, hz_500: 60 dB}, limit: 20 dB(A)}\n"
    (tmp_path / "loud.yaml").write_text(plain_build(brief=quay, left=ONE_LEAF), encoding="utf-8")

    async def act() -> None:
        async with opened(tmp_path, "/build/loud.yaml") as user:
            strip, form = of_kind(user, Strip), of_kind(user, Form)
            await until(lambda: bool(strip.props.get("groups")))
            tell(strip, "choose", {"group": "Quiet"})
            verdicts = of_kind(user, Verdicts)
            row = next(each for each in verdicts.props["rows"] if each["parts"])
            part = row["parts"][0]
            tell(verdicts, "choose", {"id": row["id"]})
            tell(verdicts, "reach", {"place": part["place"], "drawn": part["drawn"]})
            assert form.props["part"] == part["place"].split(".")[0]
            with user:
                drawings = [each for each in ElementFilter(kind=Drawing) if each.props.get("marked")]
            assert any(mark["on"] for each in drawings for mark in each.props["marked"])
            if part["face"]:
                tell(verdicts, "walls", {"face": part["face"]})
                with user:
                    boxes = [each.props for each in ElementFilter(kind=Choice)]
                chosen = {each.get("label"): each.get("chosen") for each in boxes}
                assert chosen["Face, door or window"] == part["face"]

    run(act())
