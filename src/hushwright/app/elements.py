"""The app's own elements: a few large ones, so that a page stays light; each is one file of `screen/`."""

from __future__ import annotations

from typing import Any

from nicegui.element import Element


class Own(Element):
    """An element whose whole state is its properties."""

    def show(self, **state: Any) -> None:
        """Replace properties, and tell the browser when anything has changed."""
        changed = {name: value for name, value in state.items() if self._props.get(name) != value}
        if changed:
            self._props.update(changed)
            self.update()


class Form(Own, component="screen/form.js"):
    """The form of one part of the build file."""


class Strip(Own, component="screen/strip.js"):
    """The verdicts in sight."""


class Stuck(Own, component="screen/stuck.js"):
    """What keeps the build from being computed, and ways on."""


class Listing(Own, component="screen/listing.js"):
    """The build files of a workspace."""


class Verdicts(Own, component="screen/verdicts.js"):
    """Verdicts of one group, each to be opened."""


class Question(Own, component="screen/question.js"):
    """The question which of two texts shall count."""


class Drawing(Own, component="screen/drawing.js"):
    """A drawing of the van with handles."""


class Layers(Own, component="screen/layers.js"):
    """The layers of one face, each to be changed."""


class Choice(Own, component="screen/choice.js"):
    """One of several."""


class Table(Own, component="screen/table.js"):
    """A table whose rows can be chosen."""
