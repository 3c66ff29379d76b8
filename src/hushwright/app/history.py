"""Steps of an edited text, forward and back without limit: only what changes is kept of each."""

from __future__ import annotations

from dataclasses import dataclass, field


@dataclass(frozen=True, slots=True)
class Step:
    """One change of a text: from where on which part gave way to which, and what a person calls it."""

    at: int
    old: str
    new: str
    name: str

    def forward(self, text: str) -> str:
        """Text after the step."""
        return text[: self.at] + self.new + text[self.at + len(self.old) :]

    def back(self, text: str) -> str:
        """Text before the step."""
        return text[: self.at] + self.old + text[self.at + len(self.new) :]


def step_between(before: str, after: str, name: str) -> Step:
    """The one change that leads from a text to another.

    Examples
    --------
    >>> step_between("depth: 90 mm", "depth: 95 mm", "depth")
    Step(at=8, old='0', new='5', name='depth')
    """
    shortest = min(len(before), len(after))
    start = _alike(before, after, shortest)
    end = _alike(before[start:][::-1], after[start:][::-1], shortest - start)
    return Step(start, before[start : len(before) - end], after[start : len(after) - end], name)


def _alike(one: str, other: str, most: int) -> int:
    """How many letters two texts share from their beginning."""
    low, high = 0, most
    while low < high:
        middle = (low + high + 1) // 2
        if one[:middle] == other[:middle]:
            low = middle
        else:
            high = middle - 1
    return low


@dataclass
class History:
    """A text with its steps."""

    text: str
    done: list[Step] = field(default_factory=list)
    undone: list[Step] = field(default_factory=list)

    def change(self, after: str, name: str) -> bool:
        """Take a new text; what was undone before is given up. Says whether anything changed."""
        if after == self.text:
            return False
        self.done.append(step_between(self.text, after, name))
        self.undone.clear()
        self.text = after
        return True

    @property
    def next_undo(self) -> str:
        """Name of the step that `undo` would take back; empty where there is none."""
        return self.done[-1].name if self.done else ""

    @property
    def next_redo(self) -> str:
        """Name of the step that `redo` would take again; empty where there is none."""
        return self.undone[-1].name if self.undone else ""

    def undo(self) -> str:
        """Go one step back and return its name, empty where there is none."""
        if not self.done:
            return ""
        step = self.done.pop()
        self.undone.append(step)
        self.text = step.back(self.text)
        return step.name

    def redo(self) -> str:
        """Go one step forward again and return its name, empty where there is none."""
        if not self.undone:
            return ""
        step = self.undone.pop()
        self.done.append(step)
        self.text = step.forward(self.text)
        return step.name
