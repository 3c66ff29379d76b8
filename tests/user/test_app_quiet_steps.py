"""The view of steps to quiet: they are found, taken up to one of them, taken back, and what is left of them stays."""

import asyncio
from collections.abc import AsyncIterator
from pathlib import Path
from typing import Any

import pytest
from tests.plain_builds import plain_build

pytest.importorskip("nicegui", reason="nicegui is not installed here")

from nicegui.testing.user_simulation import user_simulation
from tests.inline_computer import Inline
from tests.user.test_app_pages import run, tell
from tests.user.test_app_walls import press

from hushwright.app import quietening
from hushwright.app.desk import Desk
from hushwright.app.elements import Table
from hushwright.app.quiet_view import OLD
from hushwright.app.server import root_of
from hushwright.app.workspace import Workspace
from hushwright.search.quiet_steps import Looking
from hushwright.search.quietening import Quietening

pytestmark = pytest.mark.filterwarnings("ignore::DeprecationWarning")
BUILD = plain_build(
    brief="  outdoors:\n    - {situation: quay, octaves: {hz_125: 60 dB, hz_500: 55 dB, hz_2000: 45 dB}, "
    "comes_from: all round, limit: 36 dB(A)}\n",
    left="        - {sheet: birch plywood, thickness: 9}   # of the yard\n"
    "        - {cavity: 60}\n        - {sheet: birch plywood, thickness: 12}\n",
)


class AtOnce:
    """Searches in this process."""

    async def run(self, text: str, file: str, verdict: str, start: Any) -> AsyncIterator[Any]:
        for each in Quietening(text, file, verdict, start, rounds=2):
            yield each

    def stop(self) -> None:
        """Nothing to end."""


def test_steps_are_found_from_the_verdict_and_each_is_one_step_of_undo(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(quietening, "quietener", AtOnce)
    path = tmp_path / "van.yaml"
    path.write_text(BUILD, encoding="utf-8")

    async def act() -> None:
        desk = Desk(Workspace(tmp_path), Inline())
        async with user_simulation(root=root_of(desk, {})) as user:
            await user.open("/build/van.yaml")
            session = desk.open("van.yaml").session
            press(user, "Verdicts")
            press(user, "Find steps to quiet")
            for _ in range(600):
                await asyncio.sleep(0.01)
                if quietening.search_of(desk.open("van.yaml")).found is not None:
                    break
            rows = steps(user).props["rows"]
            assert len(rows) >= 2
            assert rows[0]["cells"][0].startswith("1. quiet room left: ")
            assert rows[0]["cells"][1].endswith("dB")
            await user.should_see("The number meets, it is not sure")
            tell(steps(user), "choose", {"id": 1})
            second = session.text
            assert second != BUILD
            assert session.history.done[-1].name.startswith("quieter: quiet room left: ")
            assert steps(user).props["rows"][1]["cells"][0].startswith("✓ 2. ")
            press(user, "Undo")
            assert session.text not in (BUILD, second)
            assert [row["alone"] for row in steps(user).props["rows"][:2]] == [False, True]
            press(user, "Undo")
            assert session.text == BUILD
            assert [row["alone"] for row in steps(user).props["rows"][:2]] == [True, False]
            assert steps(user).props["rows"][1]["note"].startswith("only with step 1")
            session.change(BUILD.replace("cavity: 60", "cavity: 61"), "by hand")
            assert not any(row["can"] or row["alone"] for row in steps(user).props["rows"])
            await user.should_see(OLD)
            press(user, "Undo")
            await user.should_not_see(OLD)

    run(act())


class GivenUp(AtOnce):
    """A search that is given up after two steps."""

    async def run(self, text: str, file: str, verdict: str, start: Any) -> AsyncIterator[Any]:
        found = 0
        for each in Quietening(text, file, verdict, start, rounds=2):
            yield each
            found += isinstance(each, Looking) and each.step is not None
            if found == 2:
                return


def test_what_was_found_before_a_search_was_given_up_can_be_taken(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(quietening, "quietener", GivenUp)
    path = tmp_path / "van.yaml"
    path.write_text(BUILD, encoding="utf-8")

    async def act() -> None:
        desk = Desk(Workspace(tmp_path), Inline())
        async with user_simulation(root=root_of(desk, {})) as user:
            await user.open("/build/van.yaml")
            session = desk.open("van.yaml").session
            press(user, "Steps to quiet")
            press(user, "Find steps to quiet")
            search = quietening.search_of(desk.open("van.yaml"))
            for _ in range(600):
                await asyncio.sleep(0.01)
                if search.problem and not search.is_running:
                    break
            assert search.problem == "given up; what was found so far can be taken"
            rows = steps(user).props["rows"]
            assert [row["alone"] for row in rows] == [True, False]
            assert rows[1]["can"]
            tell(steps(user), "alone", {"id": 0})
            assert session.text == search.steps()[0][0].text

    run(act())


def steps(user: Any) -> Any:
    """The table of steps."""
    from nicegui import ElementFilter

    with user:
        return next(one for one in ElementFilter(kind=Table) if one.props.get("act") == "Take up to here")
