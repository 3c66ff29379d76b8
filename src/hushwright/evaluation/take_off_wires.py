"""Quantities of circuits and signal lines: conductors by length and size, fuses, connectors."""

from __future__ import annotations

from collections.abc import Iterator

from hushwright.evaluation.results_cost import Thing
from hushwright.evaluation.wiring import wiring_of
from hushwright.model.build import Build


def wires_of(build: Build) -> Iterator[Thing]:
    """Conductor and fuse of every circuit."""
    for one in wiring_of(build, {}).circuits:
        cores = one.length * one.cores
        yield Thing("wire", f"wire {one.conductor}", None, "power", "power", (("m", cores),), one.place)
        if one.fuse is not None:
            name = f"fuse {one.fuse:g} A {one.fuse_type}".strip()
            yield Thing("fuse", name, None, "power", "power", (("piece", 1.0),), one.place)


def lines_of(build: Build) -> Iterator[Thing]:
    """Cable and connectors of every signal line; a network cable as much as a microphone's."""
    if build.signals is None:
        return
    for line in build.signals.lines:
        number = float(line.number)
        amounts = (("m", line.length * number), ("piece", number))
        yield Thing("signal line", f"{line.kind} cable", None, "signals", "signals", amounts, line.place)
        for connector in line.connectors:
            yield Thing("connector", connector, None, "signals", "signals", (("piece", number),), line.place)
