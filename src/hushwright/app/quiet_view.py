"""View of steps to quiet: what to change so that a sound meets its limit, each step taken from here or not."""

from __future__ import annotations

from collections.abc import Sequence
from functools import partial
from typing import Any

from nicegui import ui

from hushwright.app.elements import Choice, Table
from hushwright.app.frame import button, say
from hushwright.app.quietening import FIND, QuietSearch, search_of, to_be_quietened
from hushwright.app.roles import View
from hushwright.report.quieten import (
    ON_AIR,
    RANKED,
    STEPS_HEAD,
    end_lines,
    left_text,
    moves_air,
    recount_text,
    refused_lines,
    step_cells,
)
from hushwright.report.units_out import restated

OLD = "▲ Old: of the file before it was changed in another way. Find the steps again before you take any."


class QuietSteps:
    """The view of one page; it is made anew each time it is chosen, the search goes on meanwhile."""

    def __init__(self, view: View) -> None:
        self.page = view.page
        self.search: QuietSearch = search_of(self.page.open)
        self.verdict = self.search.verdict
        self._shown: Any = None
        self._nothing = ""
        self.box = Choice()
        self.box.on("choose", self._choose)
        with ui.element("div").classes("hw-row"):
            self.find = button(FIND, lambda: self.begin())
            self.cancel = button("Cancel", self.search.cancel)
            self.progress = ui.label("").classes("hw-note").props('role="status"')
        self.old = ui.label(OLD).classes("hw-caution")
        self.end = ui.element("div")
        self.table = Table().classes("hw-steps")
        self.table.on("choose", lambda event: self._take_to(int(event.args["id"])))
        self.table.on("alone", lambda event: self._take([int(event.args["id"])]))
        self.caption = ui.label("").classes("hw-note")
        self.all = button("Take all steps", lambda: self._take_to(len(self.search.steps()) - 1))
        self.rest = ui.element("div")
        self.search.listeners.append(self.refresh)

    def refresh(self) -> None:
        """Show what now holds; one that is no longer on the screen is forgotten."""
        if self.end.is_deleted:
            if self.refresh in self.search.listeners:
                self.search.listeners.remove(self.refresh)
            return
        self._show_choice()
        running = self.search.is_running
        self.find.set_visibility(not running)
        self.cancel.set_visibility(running)
        self.progress.set_text(self.search.told or self._nothing)
        found, taken = self.search.found, self.search.taken()
        rows = self._rows(taken)
        self.old.set_visibility(self._is_old(taken))
        self.table.show(head=list(STEPS_HEAD[:-1]), rows=rows, act="Take up to here", alone="Take this")
        self.caption.set_text(self._caption(taken))
        self.all.set_visibility(taken is not None and len(taken) < len(rows))
        wanted = (id(found), self.page.system)
        if wanted != self._shown:
            self._shown = wanted
            self._show_words()

    def _rows(self, taken: frozenset[int] | None) -> list[dict[str, Any]]:
        """Steps as rows, with what can be taken of them."""
        rows = []
        for at, ((step, kind, currency), needs) in enumerate(
            zip(self.search.steps(), self.search.needs(), strict=True)
        ):
            cells = step_cells(step, kind, currency, self.page.system, by_name=False)
            done = taken is not None and at in taken
            cells[0] = f"{'✓ ' if done else ''}{at + 1}. {cells[0]}"
            touches = f"touches {cells[-1]}" if cells[-1] else ""
            lacking = sorted(needs - (taken or frozenset()))
            wants = f"only with {_numbered(lacking)}" if lacking and taken is not None and not done else ""
            open_before = [one for one in range(at) if taken is not None and one not in taken]
            rows.append({"id": at, "cells": cells[:-1], "note": "; ".join(each for each in (wants, touches) if each),
                         "alone": taken is not None and not done and not lacking,
                         "can": taken is not None and not done and bool(open_before)})  # fmt: skip
        return rows

    def _is_old(self, taken: frozenset[int] | None) -> bool:
        """Whether what is shown was found for a file that has changed since in another way."""
        is_there = self.search.found is not None or bool(self.search.steps())
        return is_there and taken is None and not self.search.is_running

    def _caption(self, taken: frozenset[int] | None) -> str:
        if self.search.is_running or not self.search.steps():
            return ""
        if taken is None:
            return ""
        return (f"Nominal numbers after each step in this order; one taken alone gains about as much. Each is one step"
                f" of undo. {restated(RANKED, self.page.system)}")  # fmt: skip

    def _show_choice(self) -> None:
        shown = self.page.open.shown
        found = to_be_quietened(shown.verdicts if shown is not None else ())
        options = [(each.id, f"{each.question.rstrip('?')} ({each.state.replace('_', ' ')})") for each in found]
        known = [name for name, _ in options]
        if self.verdict not in known and not self.search.is_running:
            self.verdict = known[0] if known else ""
        self.box.set_visibility(bool(options))
        self.box.show(label="To be met", options=options, chosen=self.verdict)
        self.find.set_enabled(bool(options))
        is_met = shown is not None and not options and not self.search.found
        self._nothing = "Every sound with a limit meets it." if is_met else ""

    def _show_words(self) -> None:
        self.end.clear()
        self.rest.clear()
        found, system = self.search.found, self.page.system
        if found is None:
            return
        with self.end:
            for text in end_lines(found, system):
                ui.label(text)
        told = [("what is left", restated(left_text(found), system)), ("measure", restated(found.measure, system))]
        told += [("it would take", each) for each in found.would_take]
        told += [("way out", restated(each, system)) for each in found.ways_out]
        told += [("not taken", each) for each in refused_lines(found, system, by_name=False)]
        if moves_air(found):
            told.append(("caution", ON_AIR))
        if found.recount:
            told.append(("caution", restated(recount_text(found), system)))
        with self.rest:
            Table().show(head=["", ""], rows=[{"id": at, "cells": [word, text]} for at, (word, text) in enumerate(told)
                                              if text])  # fmt: skip
            if found.steps:
                rows = [{"id": f"{at} {line}", "cells": [f"{at}", line]}
                        for at, each in enumerate(found.steps, start=1) for line in each.changed]  # fmt: skip
                Table().show(head=["step", "what is written in the file"], rows=rows)

    def _choose(self, event: Any) -> None:
        self.verdict = str(event.args["key"])
        self.refresh()

    def begin(self, verdict: str = "") -> None:
        """Look for steps to a verdict, the chosen one when left out."""
        shown = self.page.open.shown
        if verdict in [each.id for each in to_be_quietened(shown.verdicts if shown is not None else ())]:
            self.verdict = verdict
        if self.page.open.is_stale:
            say("Wait until the verdicts are those of the present file.")
            return
        self.search.begin(self.verdict)

    def _take_to(self, last: int) -> None:
        """Take all steps up to one that the file has not yet."""
        taken = self.search.taken() or frozenset()
        self._take([at for at in range(last + 1) if at not in taken])

    def _take(self, wanted: Sequence[int]) -> None:
        """Take some steps, each as a step of its own."""
        if self.search.taken() is None:
            say("The file has changed since; find the steps again.")
            return
        for at in wanted:
            name = f"quieter: {self.search.steps()[at][0].name}"
            if not self.page.change(partial(self._take_one, at, name)):
                return

    def _take_one(self, at: int, name: str) -> None:
        self.page.session.change(self.search.with_step(at), name)


def _numbered(steps: Sequence[int]) -> str:
    """Steps by their numbers."""
    return f"step{'s' if len(steps) > 1 else ''} {', '.join(str(at + 1) for at in steps)}"
