"""Lines and headphones of one Build: lengths, treble, hum, loads, levels, glands, with what their verdicts ask."""

from __future__ import annotations

import math
from dataclasses import replace

from hushwright.evaluation.guard import at
from hushwright.evaluation.results import Quantity
from hushwright.evaluation.results.signals import (
    NO_SIGNALS,
    AmplifierResult,
    LineResult,
    PointResult,
    SignalResults,
)
from hushwright.evaluation.wiring.glands import glands_of
from hushwright.model.build import Build
from hushwright.model.signals_in_place import (
    AmplifierInPlace,
    LineInPlace,
    PointInPlace,
    SignalsInPlace,
)
from hushwright.physics.electrical.headphones import (
    HeadphoneBranch,
    amplifier_load,
    headphone_level,
    sensitivity_per_volt,
)
from hushwright.physics.electrical.signal_lines import (
    coupled_voltage,
    mutual_inductance,
    rejected_voltage,
    roll_off_frequency,
    voltage_ratio_level,
)

_COPPER = 17.241e-9
"""Ω·m at 20 °C, annealed copper, IEC 60028 (memory)."""

_OWN_SPACING = 1.0 / 3.0
"""Between the conductors of a signal cable over its diameter; common practice, no source."""

_TREBLE = 0.3
"""Relative uncertainty of a roll-off: the source is no plain resistance; common practice, no source."""

_HUM = 5.0
"""dB, uncertainty of hum: how cables lie, how balanced they are; common practice, no source."""

_HEADPHONE = 2.0
"""dB, how far a headphone on a head differs from its data; common practice, no source."""

_LOAD = 0.05
"""Relative uncertainty of an impedance in a data sheet; common practice, no source."""

_SILENT = 1e-12
"""V, below which nothing is induced."""


def signals_of(build: Build, quantities: dict[str, Quantity]) -> SignalResults:
    """Add the quantities of signals to those that are there, and give the results behind them.

    Parameters
    ----------
    build : Build
        What is there.
    quantities : dict
        Takes up what verdicts judge.

    Returns
    -------
    SignalResults
        Lines, amplifiers, headphone points, glands; gear comes with the sound.
    """
    signals = build.signals
    if signals is None:
        return NO_SIGNALS
    lines = tuple(_line(each, dict(signals.earths)) for each in signals.lines)
    amplifiers = tuple(each for one in signals.amplifiers if (each := _amplifier(one, signals)) is not None)
    points = tuple(_point(each, signals) for each in signals.points)
    found = SignalResults(lines, amplifiers, points, glands_of(build))
    _line_quantities(found, quantities)
    _headphone_quantities(build, signals, found, quantities)
    return found


def _line(line: LineInPlace, earths: dict[str, float]) -> LineResult:
    with at(line.place):
        resistance = loop_resistance(line)
        roll_off, hums = None, _hums(line, earths)
        if line.carries_sound:
            roll_off = roll_off_frequency(line.source_impedance + resistance, line.capacitance * line.length)
    total = sum(10.0 ** (level / 10.0) for _, level in hums)
    return LineResult(
        line.name, line.kind, line.comes_from, line.goes_to, line.number, line.connectors, line.length, line.passes,
        line.fixed_to, resistance, roll_off, -10.0 * math.log10(total) if total > 0.0 else None,
        tuple(sorted(((what, -level) for what, level in hums), key=lambda each: each[1])), line.joins_earths,
        line.bridges, line.unpassed, line.place,
    )  # fmt: skip


def loop_resistance(line: LineInPlace) -> float:
    """Resistance of both conductors of one cable [Ω]."""
    return 2.0 * _COPPER * line.length / line.conductor


def _hums(line: LineInPlace, earths: dict[str, float]) -> list[tuple[str, float]]:
    """Level of each hum over the signal [dB]: neighbours by their field, two earths by their voltage."""
    if not line.carries_sound:
        return []
    found = []
    for index, near in enumerate(line.near):
        with at(f"{line.place}.near.{index}"):
            inductance = mutual_inductance(near.along, near.distance, near.spacing, line.diameter * _OWN_SPACING)
            voltage = coupled_voltage(near.current, near.frequency, inductance)
        found.append((near.what, voltage))
    if line.earths[0] != line.earths[1]:
        between = sum(earths.get(name, 0.0) for name in line.earths)
        found.append((f"earths {line.earths[0]} and {line.earths[1]}", between))
    left = [(what, rejected_voltage(voltage, line.rejection)) for what, voltage in found]
    return [(what, voltage_ratio_level(voltage, line.level)) for what, voltage in left if voltage > _SILENT]


def _branch(point: PointInPlace, signals: SignalsInPlace, number: int | None = None) -> HeadphoneBranch:
    """All headphones of a point, or fewer, each with its share of the cable."""
    line = next((each for each in signals.lines if each.name == point.line), None)
    plugged = point.number if number is None else number
    cables = min(line.number, plugged) if line is not None else 1
    resistance = loop_resistance(line) / cables if line is not None else 0.0
    return HeadphoneBranch(point.impedance, plugged, resistance)


def _amplifier(amplifier: AmplifierInPlace, signals: SignalsInPlace) -> AmplifierResult | None:
    points = [each for each in signals.points if each.amplifier == amplifier.name]
    if not points:
        return None
    with at(amplifier.place):
        load = amplifier_load(amplifier.voltage, [_branch(each, signals) for each in points],
                              output_impedance=amplifier.output_impedance)  # fmt: skip
    return AmplifierResult(amplifier.name, sum(each.number for each in points), load.impedance, load.power,
                           amplifier.place)  # fmt: skip


def _point(point: PointInPlace, signals: SignalsInPlace) -> PointResult:
    amplifier = next(each for each in signals.amplifiers if each.name == point.amplifier)
    beside = [each for each in signals.points if each.amplifier == amplifier.name]
    with at(point.place):
        all_plugged = amplifier_load(amplifier.voltage, [_branch(each, signals) for each in beside],
                                     output_impedance=amplifier.output_impedance)  # fmt: skip
        one = amplifier_load(amplifier.voltage, [_branch(point, signals, 1)],
                             output_impedance=amplifier.output_impedance)  # fmt: skip
        sensitivity = sensitivity_per_volt(point.sensitivity, point.impedance)
        in_use = headphone_level(sensitivity, all_plugged.headphone_voltages[beside.index(point)])
        alone = headphone_level(sensitivity, one.headphone_voltages[0])
    most = alone if point.limiter is None else min(alone, point.limiter)
    return PointResult(point.name, point.room, point.number, in_use, alone, most, point.place)


def _line_quantities(found: SignalResults, quantities: dict[str, Quantity]) -> None:
    lines = found.lines
    for each in lines:
        if each.roll_off is not None and math.isfinite(each.roll_off):
            quantities[f"line-treble/{each.name}"] = Quantity(each.roll_off, "frequency", _TREBLE * each.roll_off)
        if each.hum is not None:
            quantities[f"line-hum/{each.name}"] = Quantity(each.hum, "level", _HUM)
    if lines:
        for key, counted in (
            ("lines-joining-earths", [each for each in lines if each.joins_earths]),
            ("lines-bridging", [each for each in lines if each.bridges]),
            ("lines-unpassed", [each for each in lines if each.unpassed]),
        ):
            quantities[key] = Quantity(float(sum(each.number for each in counted)), "count")
    for gland in found.glands:
        # Cables that are thicker than the hole do not go through, however few they are.
        used = max(gland.fill / gland.permitted, gland.thickest / gland.width)
        quantities[f"gland/{gland.name}"] = Quantity(used, "share", 2.0 * _LOAD * used)


def _headphone_quantities(
    build: Build, signals: SignalsInPlace, found: SignalResults, quantities: dict[str, Quantity]
) -> None:
    for place, _, _ in signals.wanted:
        number = sum(each.number for each in found.points if each.room == place)
        quantities[f"headphone-points/{place}"] = Quantity(float(number), "count")
    for amplifier in found.amplifiers:
        quantities[f"headphone-load/{amplifier.name}"] = Quantity(amplifier.load, "resistance", _LOAD * amplifier.load)
    for point in found.points:
        loud = Quantity(point.in_use, "level_a", _HEADPHONE)
        quantities[f"headphone-loud/{point.name}"] = loud
        quantities[f"headphone-most/{point.name}"] = replace(loud, value=point.most)
    if found.points:
        quantities["headphone-listening"] = Quantity(signals.limits.listening, "level_a")
    if build.room_for("quiet") is not None and build.room_for("control") is not None:
        quantities["talkback"] = Quantity(float(_talkback(build, signals)), "count")


def _talkback(build: Build, signals: SignalsInPlace) -> int:
    """Lines on which the control room talks to the quiet room."""
    purposes = {room.name: room.purpose for room in build.rooms}
    return sum(
        line.number
        for line in signals.lines
        if line.kind == "talkback"
        and (purposes.get(line.comes_from), purposes.get(line.goes_to)) == ("control", "quiet")
    )
