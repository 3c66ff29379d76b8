"""The octaves of a background beside its verdict, and where it comes from in one sentence."""

from __future__ import annotations

from typing import TYPE_CHECKING

from nicegui import ui

from hushwright.app.elements import Table

if TYPE_CHECKING:
    from hushwright.evaluation.results import Evaluation
    from hushwright.verdicts.verdict import Verdict


def draw_octaves(verdict: Verdict, evaluation: Evaluation) -> None:
    """A sentence and a table for a verdict on a background or on direct sound; nothing for any other."""
    from hushwright.app.charts import background_of
    from hushwright.evaluation.sound.octaves import where_told, where_told_between
    from hushwright.report.quiet_where import octave_table, octave_table_between

    behind = background_of(verdict, evaluation)
    between = next((each for each in evaluation.between_rooms if each.state == verdict.state), None)
    if behind is not None and verdict.group == "Quiet":
        told, table = where_told(behind, evaluation), octave_table(behind, evaluation)
    elif between is not None and verdict.id.startswith("rooms-"):
        told, table = where_told_between(between, evaluation), octave_table_between(between)
    else:
        return
    if told:
        ui.label(told)
    Table().classes("hw-octaves").show(
        head=list(table.head), caption="Levels of octaves, dB",
        rows=[{"id": at, "cells": list(cells)} for at, cells in enumerate(table.rows)],
    )  # fmt: skip
