"""Pictures of a whole group of verdicts: anchors with their loads, ways out with clear widths, alarms."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from nicegui import ui

from hushwright.app.elements import Drawing, Table
from hushwright.app.pictures import placed

if TYPE_CHECKING:
    from hushwright.drawings.primitives import Drawing as Drawn
    from hushwright.evaluation.results import Evaluation
    from hushwright.units import System

_SCALE = 42.0
KEY_HEAD = ["at", "what"]


def drawn_of(group: str, evaluation: Evaluation, system: System) -> Drawn | None:
    """Drawing of a group; nothing for a group whose verdicts have pictures of their own."""
    from hushwright.drawings import held, ways_out

    if group == "Anchoring":
        return held.held(evaluation, system)
    if group == "Doors":
        return ways_out.doors(evaluation.build, system, _SCALE)
    return ways_out.safety(evaluation.build, system, _SCALE) if group == "Safety" else None


class GroupPicture:
    """Drawing of the chosen group with its key; it is made once and shows what now holds."""

    def __init__(self) -> None:
        self.title = ui.label("").classes("hw-note")
        self.drawing = Drawing()
        self.key = Table()
        self._shown: Any = None

    def show(self, group: str, evaluation: Evaluation | None, system: System) -> None:
        """Show the picture of a group, or none."""
        wanted = (group, id(evaluation), system)
        if wanted == self._shown:
            return
        self._shown = wanted
        drawn = drawn_of(group, evaluation, system) if evaluation is not None else None
        for each in (self.title, self.drawing, self.key):
            each.set_visibility(drawn is not None)
        if drawn is not None:
            self.title.set_text(f"{drawn.title}: {drawn.seen}")
            self.drawing.show(**placed(drawn, _SCALE, system))
            self.key.show(head=KEY_HEAD, rows=[{"id": mark, "cells": [mark, text]} for mark, text in drawn.key])
