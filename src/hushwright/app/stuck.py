"""What keeps a build from being computed, said at the top of the page with ways on, so that nobody has to search."""

from __future__ import annotations

from collections.abc import Callable, Iterable
from typing import Any

from hushwright.app.elements import Stuck
from hushwright.app.named import said_path
from hushwright.app.roles import Page
from hushwright.app.taking import take_value
from hushwright.document.edits import bare_unit, written_length
from hushwright.document.outline import Entry
from hushwright.errors import Diagnostic, Mend, UnreadableDocument
from hushwright.report.units_out import restated
from hushwright.units import System, format_quantity

_SHOWN = 3


class WaysOn:
    """The notice of one page."""

    def __init__(self, page: Page, show_all: Callable[[], None]) -> None:
        self.page = page
        self.notice = Stuck()
        self.notice.on("set", self._set)
        self.notice.on("reach", lambda event: page.reach(str(event.args["place"])))
        self.notice.on("back", lambda: page.change(page.session.undo))
        self.notice.on("problems", show_all)

    def refresh(self, problems: tuple[Diagnostic, ...]) -> None:
        """Show what stands in the way now, if anything."""
        session = self.page.session
        try:
            found = stuck_of(problems, session.outline(), session.text, self.page.system)
        except UnreadableDocument:
            found = []  # the text is no YAML: the view of the text says so
        number = sum(one.severity == "error" for one in problems)
        self.notice.show(
            problems=found,
            more=number - len(found) if found else 0,
            back=self._back() if found else "",
        )

    def _back(self) -> str:
        """Name of the last edit where taking it back cures the file: what was computed before it stands again."""
        history = self.page.session.history
        if not history.done or not self.page.open.was_computed(history.done[-1].back(history.text)):
            return ""
        return history.done[-1].name

    def _set(self, event: Any) -> None:
        path = tuple(key if isinstance(key, int) else str(key) for key in event.args.get("path", []))
        typed, seen = str(event.args.get("typed", "")), str(event.args.get("seen", ""))
        self.page.change(lambda: take_value(self.page.session, path, typed, seen))


def stuck_of(problems: Iterable[Diagnostic], root: Entry, text: str, system: System) -> list[dict[str, Any]]:
    """The first problems that stand in the way, each with its place and what would settle it.

    Parameters
    ----------
    problems
        Everything that is wrong or odd.
    root
        The file laid out.
    text
        The file, whose way of writing lengths is kept.
    system
        Units of what is told.
    """
    errors = [one for one in problems if one.severity == "error"]
    return [
        {"note": restated(one.note, system), "hint": "" if one.mends else restated(one.hint, system),
         "place": one.place.dotted, "label": said_path(one.place.path),
         "mends": [_button(each, root, text, system) for each in one.mends]}
        for one in errors[:_SHOWN]
    ]  # fmt: skip


def _button(mend: Mend, root: Entry, text: str, system: System) -> dict[str, Any]:
    entry = root.find(mend.path)
    before = entry.text if entry is not None else ""
    words = f"{mend.says} {format_quantity(mend.length, 'length', system, 5)}"
    return {"label": words[:1].upper() + words[1:], "path": list(mend.path), "seen": before,
            "typed": written_length(mend.length, before, bare_unit(text))}  # fmt: skip
