"""Quantities of power, signals and safety: devices by number, conductors by length and size, fuses, connectors."""

from __future__ import annotations

from collections.abc import Iterator

from hushwright.evaluation.results.cost import Thing
from hushwright.evaluation.wiring.wiring import wiring_of
from hushwright.model.build import Build
from hushwright.model.power_in_place import ShoreInPlace, SolarInPlace


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


_CHARGERS = {"shore": "shore charger", "generator": "generator"}


def devices_of(build: Build) -> Iterator[Thing]:
    """Bank, converter and what charges; amplifiers and headphone points; detectors and alarms."""
    one = (("piece", 1.0),)
    power = build.power
    if power is not None and power.bank is not None:
        name = f"bank {power.bank.voltage:g} V {power.bank.capacity:g} Ah"
        yield Thing("bank", name, None, "power", "power", one, "power.bank")
    if power is not None and power.converter is not None:
        yield Thing("converter", f"converter {power.converter.rating:g} VA", None, "power", "power", one,
                    "power.converter")  # fmt: skip
    for source in power.sources if power is not None else ():
        kind = "engine charger"
        if isinstance(source, SolarInPlace):
            kind = "panels"
        elif isinstance(source, ShoreInPlace):
            kind = _CHARGERS[source.kind]
        yield Thing(kind, kind, None, "power", "power", one, source.place)
    yield from _heard_and_warned(build)


def _heard_and_warned(build: Build) -> Iterator[Thing]:
    one = (("piece", 1.0),)
    for amplifier in build.signals.amplifiers if build.signals is not None else ():
        yield Thing("headphone amplifier", "headphone amplifier", None, "signals", "signals", one, amplifier.place)
    for point in build.signals.points if build.signals is not None else ():
        yield Thing("headphone point", "headphone point", None, "signals", "signals", (("piece", float(point.number)),),
                    point.place)  # fmt: skip
    if build.safety is None:
        return
    for detector in build.safety.detectors:
        yield Thing("detector", f"detector {detector.kind}", None, "safety", "safety", one, detector.place)
    for kind, warnings in (("alarm", build.safety.sounders), ("warning light", build.safety.visual_signals)):
        for warning in warnings:
            yield Thing(kind, kind, None, "safety", "safety", one, warning.place)
