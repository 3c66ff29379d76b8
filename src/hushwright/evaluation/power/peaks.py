"""All that runs at once against converter, bank, fuse and charger."""

from __future__ import annotations

from collections.abc import Sequence

from hushwright.evaluation.power.case import Powered
from hushwright.evaluation.power.flow import charger_power, losses_of
from hushwright.evaluation.power.loads import Taken, taken_in
from hushwright.evaluation.power.weather import Season
from hushwright.evaluation.results.heat import BEFORE
from hushwright.evaluation.results.power import PowerPeak
from hushwright.model.power_in_place import ALWAYS, STANDING
from hushwright.physics.electrical.bank import NOMINAL_CELL, bank_current, open_circuit_voltage
from hushwright.physics.electrical.bank_run import BankLaw


def peaks_of(case: Powered, law: BankLaw, seasons: tuple[Season, ...]) -> tuple[PowerPeak, ...]:
    """What every state asks of converter and bank when all that may run runs, in the hardest case.

    Parameters
    ----------
    case : Powered
        Loads.
    law : BankLaw
        The bank.
    seasons : tuple of Season
        Cases.

    Returns
    -------
    tuple of PowerPeak
        One a state of the plan, and the rest of the day.
    """
    found = []
    for when in (*dict.fromkeys(phase.state for phase in case.power.day), STANDING):
        times = (when, BEFORE) if when == STANDING else (when,)
        all_of = [_peak(case, law, when, taken_in(case, each, season)) for season in seasons for each in times]
        found.append(max(all_of, key=lambda each: (each.current_start, each.mains_start)))
    return tuple(found)


def _peak(case: Powered, law: BankLaw, when: str, taken: Sequence[Taken]) -> PowerPeak:
    bank = case.power.bank
    assert bank is not None
    running = [each for each in taken if each.running > 0.0]
    mains = [each for each in running if each.load.side == "ac"]
    apparent = sum(each.running / each.load.power_factor for each in mains)
    first_mains = max(mains, key=lambda each: each.start / each.load.power_factor, default=None)
    mains_start = 0.0 if first_mains is None else first_mains.start / first_mains.load.power_factor
    direct = sum(each.running for each in running if each.load.side == "dc") + bank.own_draw
    power = sum(each.running for each in mains)
    lasting = direct + _through(case, power)
    starts = [(lasting, None), *((_started(case, direct, power, each), each) for each in running if each.start > 0.0)]
    most, first = max(starts, key=lambda pair: pair[0])
    current, voltage, given = _current(law, lasting)
    current_start, voltage_start, given_start = _current(law, most)
    return PowerPeak(when, apparent, apparent + mains_start, "" if first is None else first.load.name, current,
                     current_start, voltage, voltage_start, given and given_start)  # fmt: skip


def _through(case: Powered, power: float) -> float:
    """Power at the bank's voltage for a mains power [W]; nothing makes it without a converter."""
    converter = case.power.converter
    if converter is None or power <= 0.0:
        return 0.0
    return power + float(losses_of(converter).at(power / converter.rating)) * converter.rating


def _started(case: Powered, direct: float, power: float, first: Taken) -> float:
    """Power at the bank's voltage while one load starts [W]."""
    if first.load.side == "dc":
        return direct + first.start + _through(case, power)
    return direct + _through(case, power + first.start)


def _current(law: BankLaw, power: float) -> tuple[float, float, bool]:
    """Current [A] and voltage [V] at the lowest charge, and whether any current gives that power."""
    rest = float(open_circuit_voltage(law.lowest_charge)) * law.cells
    most = rest * rest / (4.0 * law.resistance)
    current = -float(bank_current(-min(power, most), rest, law.resistance))
    return current, rest - law.resistance * current, power <= most


def rating_current(case: Powered, law: BankLaw) -> float | None:
    """Current that the converter takes at its rating with the bank at its lowest charge [A]."""
    converter = case.power.converter
    return None if converter is None else _current(law, _through(case, converter.rating))[0]


def charging_of(case: Powered) -> tuple[float, str]:
    """Current of all sources that are there in the same state at most [A], and that state.

    Parameters
    ----------
    case : Powered
        Sources.

    Returns
    -------
    tuple of float and str
        Current and state.
    """
    assert case.power.bank is not None
    nominal = case.power.bank.cells * NOMINAL_CELL
    found = []
    for when in (*dict.fromkeys(phase.state for phase in case.power.day), STANDING):

        def here(states: tuple[str, ...], when: str = when) -> bool:
            return when in states or ALWAYS in states

        chargers = [(each.current, each.in_states) for each in case.power.feeders]
        chargers += [(each.current, each.in_states) for each in case.power.alternators]
        current = sum((each for each, states in chargers if here(states)), 0.0)
        current += sum(each.power * (1.0 - each.losses) * each.efficiency / nominal for each in case.power.solar
                       if here(each.in_states or (ALWAYS,)))  # fmt: skip
        found.append((current, when))
    return max(found)


def feeders_of(case: Powered, seasons: tuple[Season, ...]) -> tuple[tuple[str, float], ...]:
    """Apparent power that all running loads and its charger ask of each feeder at most [VA]."""
    found = []
    for feeder in case.power.feeders:
        everything = [*dict.fromkeys(phase.state for phase in case.power.day), STANDING]
        states = everything if ALWAYS in feeder.in_states else feeder.in_states
        loads = max((_apparent(taken_in(case, when, season)) for when in states for season in seasons), default=0.0)
        found.append((feeder.name, loads + charger_power(case, feeder.current) / feeder.efficiency))
    return tuple(found)


def _apparent(taken: Sequence[Taken]) -> float:
    return sum(each.running / each.load.power_factor for each in taken if each.load.side == "ac")
