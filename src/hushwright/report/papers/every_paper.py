"""Every paper by its name, in the order in which they are needed."""

from __future__ import annotations

from collections.abc import Callable
from typing import Final

from hushwright.report.papers.blocks import Paper
from hushwright.report.papers.client import client
from hushwright.report.papers.common import Case
from hushwright.report.papers.dossier import dossier
from hushwright.report.papers.hold_points import hold_points
from hushwright.report.papers.job_cards import jobs
from hushwright.report.papers.money import purchase, quote
from hushwright.report.papers.on_site import handover, venue
from hushwright.report.papers.promise import promise

PAPERS: Final[dict[str, Callable[[Case], Paper]]] = {
    "dossier": dossier, "promise": promise, "client": client, "quote": quote, "purchase": purchase, "jobs": jobs,
    "hold-points": hold_points, "venue": venue, "handover": handover,
}  # fmt: skip
"""Maker of each paper."""
