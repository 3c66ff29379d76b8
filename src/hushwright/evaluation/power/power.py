"""Power of a Build: days of the bank, peaks, and what is judged of them."""

from __future__ import annotations

from functools import lru_cache

from hushwright.evaluation.power.case import Powered, powered
from hushwright.evaluation.power.days import days_of, horizon_of, use_a_day
from hushwright.evaluation.power.peaks import charging_of, feeders_of, peaks_of, rating_current
from hushwright.evaluation.power.weather import seasons_of
from hushwright.evaluation.results import REPORTED, Quantity
from hushwright.evaluation.results.air import AirResults
from hushwright.evaluation.results.heat import HeatResults
from hushwright.evaluation.results.power import NO_POWER, PowerCase, PowerPeak, PowerResults
from hushwright.model.build import Build
from hushwright.model.power_in_place import BankInPlace
from hushwright.physics.electrical.bank_run import BankLaw

_MEAN = 0.10
"""Share [-], standard uncertainty of the energy that loads take over a day: duty, dimmers, people; common practice, no
source."""

_AT_ONCE = 0.05
"""Share [-], standard uncertainty of the power of all that runs at once; common practice, no source."""

_SAG = 0.2
"""Share [-], standard uncertainty of the sag of a bank, from its resistance by age and cold; common practice, no
source."""

_COLD = 1.5
"""K, standard uncertainty of the temperature of cells that follow the air; common practice, no source."""

_AREA = 0.03
"""Share [-], standard uncertainty of the roof that panels find; common practice, no source."""


def power_of_build(build: Build, air: AirResults, heat: HeatResults, quantities: dict[str, Quantity]) -> PowerResults:
    """Add the quantities of power to those that are there, and give the results behind them.

    Parameters
    ----------
    build : Build
        What is there.
    air : AirResults
        What the fans take.
    heat : HeatResults
        What heaters and coolers take.
    quantities : dict
        Takes up what verdicts judge.

    Returns
    -------
    PowerResults
        Nothing where the file has no power, or no bank.
    """
    case = powered(build, air, heat)
    if case is None:
        return NO_POWER
    found = _results(case)
    _roof_quantities(found, quantities)
    if case.power.bank is not None:
        _day_quantities(case, case.power.bank, found, quantities)
        _peak_quantities(case, case.power.bank, found, quantities)
    return found


@lru_cache(maxsize=64)
def _results(case: Powered) -> PowerResults:
    seasons = seasons_of(case.weather, case.outdoors)
    panels = sum(each.area for each in case.power.solar)
    roof = case.power.roof - sum(each.roof_taken for each in case.power.solar)
    if case.power.bank is None:
        return PowerResults(panels=panels, roof=roof)
    law = law_of(case.power.bank)
    days = days_of(case, law)
    charging, state = charging_of(case)
    return PowerResults(
        days.cases, days.worst, days.tightest, days.balance, days.course, peaks_of(case, law, seasons),
        rating_current(case, law), charging, state, feeders_of(case, seasons), days.coldest_cells, panels, roof,
    )  # fmt: skip


def law_of(bank: BankInPlace) -> BankLaw:
    """The bank as its law takes it."""
    return BankLaw(bank.cells, bank.capacity, bank.resistance, bank.charge_returned, bank.lowest, bank.highest,
                   bank.discharge, bank.charge)  # fmt: skip


def _day_quantities(
    case: Powered, bank: BankInPlace, found: PowerResults, quantities: dict[str, Quantity]
) -> None:  # fmt: skip
    worst, tightest = found.case(found.worst), found.case(found.tightest)
    assert worst is not None
    assert tightest is not None
    quantities["off-grid/bank"] = _off_grid(case, worst)
    quantities["unmet/loads"] = _unmet(case, tightest, found)
    left = tightest.lowest_charge - bank.lowest
    used = bank.begins - tightest.lowest_charge
    quantities["charge-left/bank"] = Quantity(left, "share", _MEAN * max(used, 0.0))
    if found.coldest_cells is not None:
        spread = 0.0 if bank.temperature is not None else _COLD
        quantities["cold-charge/bank"] = Quantity(found.coldest_cells, "temperature", spread)


def _unmet(case: Powered, tightest: PowerCase, found: PowerResults) -> Quantity:
    """Energy that lacks; as sure as all that is asked is known, and sure where nothing lacks at all."""
    assert found.balance is not None
    asked = sum(each.energy for each in found.balance.loads) * case.power.days + tightest.unmet
    return Quantity(tightest.unmet, "energy", _MEAN * asked if tightest.unmet > 0.0 else 0.0)


def _off_grid(case: Powered, worst: PowerCase) -> Quantity:
    """Hours of use: as sure as the energy that an hour of use takes."""
    if worst.off_grid is None:
        longest = horizon_of(case) * use_a_day(case)
        note = f"{REPORTED}nothing goes without power; the use of {horizon_of(case)} days is told"
        return Quantity(longest, "time", _MEAN * longest, validity=(note,))
    return Quantity(worst.off_grid, "time", _MEAN * worst.off_grid)


def _peak_quantities(
    case: Powered, bank: BankInPlace, found: PowerResults, quantities: dict[str, Quantity]
) -> None:  # fmt: skip
    lasting = max(found.peaks, key=lambda each: each.current)
    start = max(found.peaks, key=lambda each: each.current_start)
    if case.power.converter is not None:
        _of(quantities, "converter-load/loads", max(each.mains for each in found.peaks), "apparent_power")
        _of(quantities, "converter-start/loads", max(each.mains_start for each in found.peaks), "apparent_power")
        assert found.rating_current is not None
        _of(quantities, "bank-at-rating/converter", found.rating_current, "current")
        quantities["bank-voltage/loads"] = _voltage(bank, start)
    _of(quantities, "bank-current/loads", lasting.current, "current", _beyond(lasting))
    _of(quantities, "bank-start/loads", start.current_start, "current", _beyond(start))
    if bank.fuse is not None:
        _of(quantities, "fuse-load/bank", lasting.current / bank.fuse, "share", _beyond(lasting))
    quantities["charging/bank"] = Quantity(found.charging, "current", 0.0)
    for name, asked in found.shore:
        _of(quantities, f"supply/{name}", asked, "apparent_power")


def _beyond(peak: PowerPeak) -> tuple[str, ...]:
    if peak.given:
        return ()
    return (f"{REPORTED}in {peak.state} no current of the bank gives what is asked; its greatest is told",)


def _of(
    quantities: dict[str, Quantity], key: str, value: float, kind: str, validity: tuple[str, ...] = ()
) -> None:  # fmt: skip
    quantities[key] = Quantity(value, kind, _AT_ONCE * value, validity=validity)


def _voltage(bank: BankInPlace, start: PowerPeak) -> Quantity:
    sag = bank.resistance * start.current_start
    return Quantity(start.voltage_start, "voltage", _SAG * sag, validity=_beyond(start))


def _roof_quantities(found: PowerResults, quantities: dict[str, Quantity]) -> None:
    if found.panels > 0.0:
        quantities["roof-panels/roof"] = Quantity(found.panels, "area", _AREA * found.panels)
