"""Since when changes are told: the last edit, the first numbers of this file here, or another file of the folder."""

from __future__ import annotations

import asyncio
from collections.abc import Callable
from typing import Final

from hushwright.app.computing import Computed
from hushwright.app.desk import Desk, OpenBuild
from hushwright.verdicts.verdict import Verdict

EDIT: Final = "edit"
OPENED: Final = "opened"
_FILE: Final = "file "


class Since:
    """What one window compares the present verdicts with."""

    def __init__(self, desk: Desk, build: OpenBuild, changed: Callable[[], None]) -> None:
        self.desk = desk
        self.build = build
        self.changed = changed
        self.chosen = EDIT
        self.files = tuple(each.name for each in desk.workspace.listed())
        self.other: Computed | None = None
        self._task: asyncio.Task[None] | None = None

    def choices(self) -> list[list[str]]:
        """Every choice with its words."""
        own = self.build.session.name
        files = [each for each in self.files if each != own]
        return [
            [EDIT, "the last edit"],
            [OPENED, "I opened it"],
            *([f"{_FILE}{each}", f"the saved file {each}"] for each in files),
        ]

    def choose(self, chosen: str) -> None:
        """Compare with something else; what is not computed yet follows."""
        if chosen not in (each for each, _words in self.choices()):
            return
        self.chosen, self.other = chosen, None
        if chosen.startswith(_FILE):
            self._task = asyncio.get_running_loop().create_task(self._compute(chosen))
        self.changed()

    def verdicts(self) -> tuple[Verdict, ...]:
        """Verdicts to compare with, none where there is nothing yet."""
        if self.chosen == EDIT:
            found = self.build.compared
        else:
            found = self.build.first if self.chosen == OPENED else self.other
        return found.verdicts if found is not None else ()

    async def _compute(self, chosen: str) -> None:
        found = await self.desk.glance(chosen.removeprefix(_FILE))
        if self.chosen == chosen:
            self.other = found
            self.changed()
