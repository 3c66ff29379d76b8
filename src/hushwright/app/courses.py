"""The way of the circuit or signal line that a verdict is about, through this van."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

if TYPE_CHECKING:
    from hushwright.evaluation.results import Evaluation
    from hushwright.evaluation.wiring.courses import Course
    from hushwright.units import System
    from hushwright.verdicts.verdict import Verdict

_SCALE = 42.0
COURSE_HEAD = ["at", "what"]


def course_of(one: Verdict, evaluation: Evaluation) -> Course | None:
    """Course of what a verdict on wiring or signals judges; where it judges all circuits, the one that loses most."""
    from hushwright.evaluation.wiring.courses import course_of_circuit, course_of_line

    keys = one.place.split(".")
    if keys[:2] == ["power", "circuits"]:
        circuits = sorted(evaluation.wiring.circuits, key=lambda each: -each.drop)
        names = keys[2:3] or [each.name for each in circuits[:1]]
        return course_of_circuit(evaluation, names[0]) if names else None
    if keys[:2] == ["signals", "lines"] and len(keys) > 2:
        return course_of_line(evaluation, keys[2])
    return None


def course_picture(evaluation: Evaluation, course: Course, system: System) -> tuple[dict[str, Any], list[Any]]:
    """Picture of a course as the screen shows drawings, and the rows of its key."""
    from hushwright.app.pictures import placed
    from hushwright.drawings.courses import course as drawn

    drawing = drawn(evaluation.build, course, system)
    rows = [{"id": mark, "cells": [mark, text]} for mark, text in drawing.key]
    rows += [{"id": f"beside {at}", "cells": ["beside it", text]} for at, text in enumerate(drawing.remarks)]
    return placed(drawing, _SCALE, system), rows
