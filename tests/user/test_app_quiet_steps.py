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
from hushwright.app.server import root_of
from hushwright.app.workspace import Workspace
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
            rows = steps(user)._props["rows"]
            assert len(rows) >= 2
            assert rows[0]["cells"][0].startswith("1. quiet room left: ")
            assert rows[0]["cells"][1].endswith("dB")
            await user.should_see("The number meets, it is not sure")
            tell(steps(user), "choose", {"id": 1})
            second = session.text
            assert second != BUILD
            assert session.history.done[-1].name.startswith("quieter: quiet room left: ")
            assert steps(user)._props["rows"][1]["cells"][0].startswith("✓ 2. ")
            press(user, "Undo")
            assert session.text not in (BUILD, second)
            assert [row["can"] for row in steps(user)._props["rows"][:2]] == [False, True]
            press(user, "Undo")
            assert session.text == BUILD
            session.change(BUILD.replace("cavity: 60", "cavity: 61"), "by hand")
            assert not any(row["can"] for row in steps(user)._props["rows"])

    run(act())


def steps(user: Any) -> Any:
    """The table of steps."""
    from nicegui import ElementFilter

    with user:
        return next(one for one in ElementFilter(kind=Table) if one._props.get("act") == "Take up to here")
