"""The octaves of a background beside its verdict, and where it comes from in one sentence."""

from __future__ import annotations

from typing import TYPE_CHECKING

from nicegui import ui

from hushwright.app.elements import Table

if TYPE_CHECKING:
    from hushwright.evaluation.results import Evaluation
    from hushwright.verdicts.verdict import Verdict


def draw_octaves(verdict: Verdict, evaluation: Evaluation) -> None:
    """A sentence and a table for a verdict on a background; nothing for any other."""
    from hushwright.app.charts import background_of
    from hushwright.evaluation.octaves import where_told
    from hushwright.report.quiet_where import octave_table

    behind = background_of(verdict, evaluation)
    if behind is None or verdict.group != "Quiet":
        return
    told = where_told(behind, evaluation)
    if told:
        ui.label(told)
    table = octave_table(behind, evaluation)
    Table().classes("hw-octaves").show(
        head=list(table.head), caption="Levels of octaves, dB",
        rows=[{"id": at, "cells": list(cells)} for at, cells in enumerate(table.rows)],
    )  # fmt: skip
