"""Bank, converter, sources and day plan of the build file in place."""

from __future__ import annotations

from hushwright.document.schema import BuildFile
from hushwright.document.schema.climate import MONTHS
from hushwright.document.schema.power import Bank, Converter, Power, PowerWishes
from hushwright.document.values import Value
from hushwright.library.records import Limit, Spread
from hushwright.model.air_in_place import AirInPlace
from hushwright.model.climate_in_place import ClimateInPlace
from hushwright.model.cuts_in_place import CutInPlace
from hushwright.model.parts import VehicleInPlace
from hushwright.model.power_in_place import (
    BankInPlace,
    ConverterInPlace,
    PlannedPhase,
    PowerInPlace,
    PowerLimits,
)
from hushwright.model.power_loads import LoadsOf, check_names, loads_in_place
from hushwright.model.power_sources import source_in_place
from hushwright.model.taking import COMMON, Path, Taker
from hushwright.model.wishes import StateOfUse
from hushwright.units import Kind

_NOMINAL_CELL = 3.2
"""V of a lithium iron phosphate cell; common practice."""

_SPOKEN = {12.0: 4, 24.0: 8, 36.0: 12}
"""Cells of banks that are called by the voltage of lead cells."""

_MISFIT = 0.04
"""Share by which a nominal voltage may differ from whole cells; common practice, no source."""

_BEGINS, _LENGTH, _DAY = 36_000.0, 28_800.0, 86_400.0
"""s, a day of work where the file has neither plan nor session; common practice, no source."""


def resolve_power(
    taker: Taker, root: BuildFile, states: tuple[StateOfUse, ...], air: AirInPlace, climate: ClimateInPlace | None,
    vehicle: VehicleInPlace, cuts: tuple[CutInPlace, ...],
) -> PowerInPlace | None:  # fmt: skip
    """Resolve `power` and `brief.power`; `None` where the file has no power.

    Parameters
    ----------
    taker : Taker
        Takes values, notes what is assumed or wrong.
    root : BuildFile
        The build file.
    states : tuple of StateOfUse
        Its states.
    air, climate : AirInPlace and ClimateInPlace or None
        Fans, cooler, lamps and gear that take power too.
    vehicle : VehicleInPlace
        For the roof.
    cuts : tuple of CutInPlace
        Holes in the roof.

    Returns
    -------
    PowerInPlace or None
        Bank, converter, sources, loads, day plan, limits.
    """
    typed = root.power
    if typed is None:
        if root.brief.power is not None:
            taker.say("key-without-effect", ("brief", "power"), "power", "is asked for, but the file has no power",
                      "add `power:` with bank and loads", severity="warning")  # fmt: skip
        return None
    check_names(taker, typed)
    day = _day(taker, root, typed, states)
    loads = loads_in_place(taker, typed, LoadsOf(states, day, air, climate))
    if typed.converter is None and any(load.side == "ac" for load in loads) and typed.bank is not None:
        taker.say("converter-needed", ("power", "loads"), ", ".join(each.name for each in loads if each.side == "ac"),
                  "take mains voltage, and nothing makes it from the bank", "add `converter:`, or say `side: dc`",
                  severity="warning")  # fmt: skip
    bank = None if typed.bank is None else _bank(taker, typed.bank)
    return PowerInPlace(
        bank=bank,
        converter=None if typed.converter is None else _converter(taker, typed.converter, bank),
        sources=tuple(source_in_place(taker, name, each, states, climate) for name, each in typed.sources.items()),
        loads=loads,
        day=day,
        days=typed.days,
        limits=_limits(taker, root.brief.power or PowerWishes()),
        roof=_roof(vehicle, cuts),
    )


def _scaled(taker: Taker, path: Path, given: Value | None, kind: Kind, limit: str, by: float, label: str) -> float:
    """Value from the file, else the library's ratio of that name times what it goes with."""
    record = taker.library.find(Limit, limit)
    return taker.quantity(path, given, kind, fallback=Spread.point(record.value.value * by), source=str(record.source),
                          label=label)  # fmt: skip


def _bank(taker: Taker, typed: Bank) -> BankInPlace:
    at: Path = ("power", "bank")

    def take(name: str, kind: Kind, fallback: Spread | None = None) -> float:
        return taker.quantity((*at, name), getattr(typed, name), kind, fallback=fallback,
                              label=f"{name.replace('_', ' ')} of the bank")  # fmt: skip

    voltage, capacity = take("voltage", "voltage"), take("capacity", "charge")
    cells = _cells(taker, (*at, "voltage"), voltage)
    lowest = take("lowest", "share", Spread(0.1, 0.05, 0.2))
    highest = take("highest", "share", Spread(1.0, 0.9, 1.0))
    if lowest >= highest:
        taker.say_fit("window-reversed", (*at, "lowest"), f"{lowest:.0%}", f"the highest charge is {highest:.0%}",
                      "swap the two")  # fmt: skip
    begins = highest if typed.begins is None else min(take("begins", "share"), highest)

    def rated(name: str, kind: Kind, limit: str, by: float, label: str) -> float:
        return _scaled(taker, (*at, name), getattr(typed, name), kind, limit, by, label)

    return BankInPlace(
        voltage, cells, capacity, min(lowest, highest), highest, begins,
        rated("discharge", "current", "lasting discharge of a bank", capacity, "lasting discharge of the bank"),
        rated("surge", "current", "short discharge of a bank", capacity, "discharge of the bank for ten seconds"),
        rated("charge", "current", "lasting charge of a bank", capacity, "lasting charge of the bank"),
        rated("resistance", "resistance", "resistance of a bank", cells / capacity, "resistance of the bank"),
        take("charge_returned", "share", Spread(0.995, 0.99, 1.0)),
        take("own_draw", "power", Spread(2.0, 0.5, 5.0)),
        take("coldest_charge", "temperature", Spread(0.0, 0.0, 5.0)),
        None if typed.temperature is None else take("temperature", "temperature", Spread(10.0, 0.0, 20.0)),
        None if typed.fuse is None else take("fuse", "current"),
    )  # fmt: skip


def _cells(taker: Taker, path: Path, voltage: float) -> int:
    spoken = _SPOKEN.get(round(voltage, 6))
    if spoken is not None:
        return spoken
    cells = max(round(voltage / _NOMINAL_CELL), 1)
    if abs(cells * _NOMINAL_CELL / voltage - 1.0) > _MISFIT:
        near = ", ".join(f"{count * _NOMINAL_CELL:.1f} V" for count in (cells, cells + 1))
        taker.say_fit("voltage-of-no-cells", path, f"{voltage:g} V", "is no whole number of cells of 3.2 V",
                      f"nearest are {near}")  # fmt: skip
    return cells


def _converter(taker: Taker, typed: Converter, bank: BankInPlace | None) -> ConverterInPlace:
    at: Path = ("power", "converter")
    rating = taker.quantity((*at, "rating"), typed.rating, "apparent_power", label="rating of the converter")
    nominal = 0.0 if bank is None else bank.cells * _NOMINAL_CELL
    best = taker.quantity((*at, "best"), typed.best, "share", fallback=Spread(0.93, 0.9, 0.95),
                          label="best efficiency of the converter")  # fmt: skip
    full = taker.quantity((*at, "full"), typed.full, "share", fallback=Spread(0.88, 0.84, 0.91),
                          label="efficiency of the converter at its rating")  # fmt: skip
    idle = _scaled(taker, (*at, "idle"), typed.idle, "power", "own draw of a converter", rating,
                   "own draw of the converter")  # fmt: skip
    _check_losses(taker, at, typed, idle / rating, best, full)
    return ConverterInPlace(
        rating,
        _scaled(taker, (*at, "surge"), typed.surge, "apparent_power", "surge of a converter", rating,
                "surge of the converter"),
        idle, max(best, full), min(best, full), _curve(taker, at, typed),
        _scaled(taker, (*at, "lowest_voltage"), typed.lowest_voltage, "voltage", "least voltage of a converter",
                nominal, "least voltage of the converter"),
        typed.on,
    )  # fmt: skip


def _curve(taker: Taker, at: Path, typed: Converter) -> tuple[tuple[float, float], ...]:
    points = tuple(
        (taker.quantity((*at, "curve", index, "load"), each.load, "share", label="load of the converter"),
         taker.quantity((*at, "curve", index, "efficiency"), each.efficiency, "share", label="efficiency there"))
        for index, each in enumerate(typed.curve)
    )  # fmt: skip
    loads = [load for load, _ in points]
    for index, load in enumerate(loads):
        if load in loads[:index]:
            taker.say("load-given-twice", (*at, "curve", index, "load"), f"{load:.0%}", "stands twice in the curve",
                      "take one out")  # fmt: skip
    return points


def _check_losses(taker: Taker, at: Path, typed: Converter, own: float, best: float, full: float) -> None:
    """Whether a converter of that own draw reaches that efficiency."""
    if typed.curve:
        return
    if full > best:
        taker.say_fit("efficiency-reversed", (*at, "full"), f"{full:.1%}", f"at best it has {best:.1%}", "swap the two")
        return
    root = float(own**0.5 + (1.0 / full - 1.0 / best) ** 0.5)
    if 1.0 / best - 1.0 < 2.0 * own**0.5 * root:
        taker.say_fit("efficiency-out-of-reach", (*at, "best"), f"{best:.1%}",
                      f"with an own draw of {own:.1%} of the rating and {full:.1%} at the rating it is less",
                      "read the data again, or give the `curve`")  # fmt: skip


def _day(
    taker: Taker, root: BuildFile, typed: Power, states: tuple[StateOfUse, ...]
) -> tuple[PlannedPhase, ...]:  # fmt: skip
    names = tuple(state.name for state in states)
    if not typed.day:
        return _usual_day(taker, root, states)
    found: list[PlannedPhase] = []
    for index, each in enumerate(typed.day):
        at: Path = ("power", "day", index)
        taker.name_of(each.state, names, (*at, "state"), "state")
        begins = taker.quantity((*at, "begins"), each.begins, "time", label="begin of a phase")
        length = taker.quantity((*at, "duration"), each.duration, "time", label="length of a phase")
        phase = PlannedPhase(each.state, begins, length)
        if phase.begins + phase.duration > _DAY + 1.0:
            taker.say_fit("past-midnight", (*at, "duration"), f"{phase.duration / 3600.0:.1f} h",
                          f"from {phase.begins / 3600.0:.1f} h on goes past midnight", "split it in two")  # fmt: skip
        if found and phase.begins < found[-1].begins + found[-1].duration - 1.0:
            taker.say_fit("phases-overlap", (*at, "begins"), f"{phase.begins / 3600.0:.2f} h",
                          f"the phase before ends at {(found[-1].begins + found[-1].duration) / 3600.0:.2f} h",
                          "put the phases in order, one after the other")  # fmt: skip
        found.append(phase)
    return tuple(found)


def _usual_day(taker: Taker, root: BuildFile, states: tuple[StateOfUse, ...]) -> tuple[PlannedPhase, ...]:
    """The session of the brief, else eight hours in the first state that stands."""
    begins = _BEGINS if root.climate is None else root.climate.session_begins.value
    known = {state.name for state in states}
    found = []
    for phase in root.brief.session:
        length = min(phase.duration.value, _DAY - begins)
        if length > 0.0 and phase.state in known:
            found.append(PlannedPhase(phase.state, begins, length))
        begins += phase.duration.value
    if found:
        taker.assume(("power", "day"), "a day is the session, and stands for the rest", "brief: session")
        return tuple(found)
    state = next((each.name for each in states if not each.road), states[0].name)
    taker.assume(("power", "day"), f"a day is eight hours of {state} from 10:00 on", COMMON)
    return (PlannedPhase(state, _BEGINS, _LENGTH),)


def _limits(taker: Taker, typed: PowerWishes) -> PowerLimits:
    def take(name: str, kind: Kind, limit: str, label: str) -> float:
        return taker.convention(("brief", "power", name), getattr(typed, name), kind, limit, label)

    months = tuple(MONTHS.index(month) for month in dict.fromkeys(typed.months))
    return PowerLimits(
        take("off_grid", "time", "time off grid", "time off grid"),
        take("unmet", "energy", "energy not met", "energy not met"),
        take("reserve", "share", "charge in reserve", "charge in reserve"),
        months or tuple(range(len(MONTHS))),
        taker.library.find(Limit, "lasting use of a fuse").value.value,
    )  # fmt: skip


def _roof(vehicle: VehicleInPlace, cuts: tuple[CutInPlace, ...]) -> float:
    """Roof over the load space that its section leaves level, less the holes in it."""
    holes = sum(cut.width * cut.height for cut in cuts if cut.face == "roof")
    return max(vehicle.section.ceiling_width * vehicle.load_length - holes, 0.0)
