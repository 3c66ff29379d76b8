"""Does the power last: hours off grid, want, converter, bank, fuse, charger, cold cells, panels."""

from __future__ import annotations

from hushwright.evaluation.results import Evaluation
from hushwright.evaluation.results.power import EnergyShare, PowerPeak
from hushwright.model.power_in_place import BankInPlace, PowerInPlace
from hushwright.units import format_quantity
from hushwright.verdicts.check import Case, Check
from hushwright.verdicts.hints import ENOUGH, SHORT

POWER = (
    "A bank gives thousands of amperes into a short circuit, and mains voltage kills; what is planned here is built and"
    " tested by people with the licence for it, by local codes and the makers' papers."
)
_WATT_HOURS = 3600.0
_TOLD = 3
_SECONDS_OF_START = "ten seconds"


def _spoken(name: str) -> str:
    return name.replace("_", " ")


def _basis(evaluation: Evaluation, path: str, given: str) -> str:
    """Limit as the file gives it, or where the usual one comes from."""
    left_out = next((each for each in evaluation.assumptions if each.path == path), None)
    return given if left_out is None else f"usual figure: {left_out.source}"


def _parts(evaluation: Evaluation) -> tuple[PowerInPlace, BankInPlace] | None:
    power = evaluation.build.power
    return None if power is None or power.bank is None else (power, power.bank)


def _largest(shares: tuple[EnergyShare, ...]) -> str:
    first = sorted((each for each in shares if each.energy > 0.0), key=lambda each: -each.energy)[:_TOLD]
    return ", ".join(f"{_spoken(each.name)} {each.energy / _WATT_HOURS:.0f} Wh" for each in first)


def _case(
    evaluation: Evaluation, key: str, limit: float, basis: str, place: str, hint: str, *, state: str = "",
    question: str = "",
) -> tuple[Case, ...]:  # fmt: skip
    quantity = evaluation.quantities.get(key)
    if quantity is None:
        return ()
    return (Case(key.partition("/")[2], state, quantity, limit, basis, place, hint=hint, caution=POWER,
                 question=question),)  # fmt: skip


def _off_grid(evaluation: Evaluation) -> tuple[Case, ...]:
    parts, found = _parts(evaluation), evaluation.power
    if parts is None or found.balance is None:
        return ()
    worst = found.case(found.worst)
    ends = ""
    if worst is not None and worst.clock is not None:
        ends = f"shortest in {found.worst}, {worst.clock / 3600.0:.1f} h by the clock with idle hours; "
    hint = f"{_longer(evaluation, parts)}; {ends}most a day goes to {_largest(found.balance.loads)}"
    return _case(evaluation, "off-grid/bank", parts[0].limits.off_grid,
                 _basis(evaluation, "brief.power.off_grid", "wish in the brief"), "power.bank", hint)  # fmt: skip


def _longer(evaluation: Evaluation, parts: tuple[PowerInPlace, BankInPlace]) -> str:
    """Bank that lasts surely as long as is wished: hours go with its capacity."""
    quantity = evaluation.quantities.get("off-grid/bank")
    sure = 0.0 if quantity is None else quantity.value - 2.0 * quantity.standard_uncertainty
    if sure <= 0.0 or sure >= parts[0].limits.off_grid:
        return f"take a larger bank or use less: {SHORT} more are wanted"
    wanted = parts[1].capacity * parts[0].limits.off_grid / sure
    return f"take a bank of {wanted:.0f} Ah instead of {parts[1].capacity:.0f} Ah, or use less"


def _fuller(evaluation: Evaluation, parts: tuple[PowerInPlace, BankInPlace]) -> str:
    """Bank in which surely enough is left: what is taken out stays, its share goes down with the capacity."""
    quantity = evaluation.quantities.get("charge-left/bank")
    room = 1.0 - parts[1].lowest - parts[0].limits.reserve
    if quantity is None or room <= 0.0:
        return "take a larger bank, or more from sun, engine or shore"
    taken = 1.0 - parts[1].lowest - quantity.value + 2.0 * quantity.standard_uncertainty
    wanted = parts[1].capacity * max(taken / room, 1.0)
    return (f"take a bank of {wanted:.0f} Ah instead of {parts[1].capacity:.0f} Ah, or more from sun, engine or"
            " shore")  # fmt: skip


def _unmet(evaluation: Evaluation) -> tuple[Case, ...]:
    parts, found = _parts(evaluation), evaluation.power
    if parts is None or found.balance is None:
        return ()
    sources = _largest(found.balance.sources) or "nothing"
    hint = "take a larger bank, or more from sun, engine or shore"
    hint += f"; worst in {found.tightest}; most a day comes from {sources}"
    return _case(evaluation, "unmet/loads", parts[0].limits.unmet,
                 _basis(evaluation, "brief.power.unmet", "wish in the brief"), "power.loads", hint)  # fmt: skip


def _charge_left(evaluation: Evaluation) -> tuple[Case, ...]:
    parts, found = _parts(evaluation), evaluation.power
    tightest = found.case(found.tightest)
    if parts is None or tightest is None:
        return ()
    lowest = f"lowest in {found.tightest}, {100.0 * tightest.lowest_charge:.0f} % of the capacity"
    never = f"of which {100.0 * parts[1].lowest:.0f} % are never used"
    hint = f"{_fuller(evaluation, parts)}; {lowest}, {never}"
    return _case(evaluation, "charge-left/bank", parts[0].limits.reserve,
                 _basis(evaluation, "brief.power.reserve", "wish in the brief"), "power.bank", hint)  # fmt: skip


def _at_once(evaluation: Evaluation, by: str) -> PowerPeak | None:
    return max(evaluation.power.peaks, key=lambda each: float(getattr(each, by)), default=None)


def _converter_load(evaluation: Evaluation) -> tuple[Case, ...]:
    parts, peak = _parts(evaluation), _at_once(evaluation, "mains")
    if parts is None or parts[0].converter is None or peak is None:
        return ()
    return _case(evaluation, "converter-load/loads", parts[0].converter.rating, "rating of the converter",
                 "power.converter.rating", f"take a converter of {ENOUGH}, or keep loads from running at once; all"
                                           f" mains loads of the state are counted",
                 state=_state(peak))  # fmt: skip


def _state(peak: PowerPeak) -> str:
    return "" if peak.state == "standing" else peak.state


def _converter_start(evaluation: Evaluation) -> tuple[Case, ...]:
    parts, peak = _parts(evaluation), _at_once(evaluation, "mains_start")
    if parts is None or parts[0].converter is None or peak is None:
        return ()
    basis = _basis(evaluation, "power.converter.surge", "surge of the converter")
    return _case(evaluation, "converter-start/loads", parts[0].converter.surge, basis, "power.converter.surge",
                 _first_start(peak), state=_state(peak))  # fmt: skip


def _first_start(peak: PowerPeak) -> str:
    if not peak.starts:
        return "give `surge` of whatever has a motor or a large supply: no load names what its start takes"
    return f"take one that gives {ENOUGH}, or start {_spoken(peak.starts)} softly; it starts while all else runs"


def _bank_current(evaluation: Evaluation) -> tuple[Case, ...]:
    parts, peak = _parts(evaluation), _at_once(evaluation, "current")
    if parts is None or peak is None:
        return ()
    bank = parts[1]
    return _case(evaluation, "bank-current/loads", bank.discharge,
                 _basis(evaluation, "power.bank.discharge", "lasting current of the bank"), "power.bank.discharge",
                 f"take a bank that gives {ENOUGH}; {_rate(peak.current, bank)}", state=_state(peak))  # fmt: skip


def _rate(current: float, bank: BankInPlace) -> str:
    return f"a rate of {current / bank.capacity:.2f} C, the capacity in an hour being 1 C"


def _bank_start(evaluation: Evaluation) -> tuple[Case, ...]:
    parts, peak = _parts(evaluation), _at_once(evaluation, "current_start")
    if parts is None or peak is None:
        return ()
    basis = _basis(evaluation, "power.bank.surge", f"current of the bank for {_SECONDS_OF_START}")
    return _case(evaluation, "bank-start/loads", parts[1].surge, basis, "power.bank.surge",
                 f"{_first_start(peak)}; {_rate(peak.current_start, parts[1])}", state=_state(peak))  # fmt: skip


def _at_rating(evaluation: Evaluation) -> tuple[Case, ...]:
    parts, current = _parts(evaluation), evaluation.power.rating_current
    if parts is None or current is None:
        return ()
    basis = _basis(evaluation, "power.bank.discharge", "lasting current of the bank")
    most = parts[0].converter.rating * parts[1].discharge / current if parts[0].converter else 0.0
    hint = (
        f"take a bank that gives {ENOUGH} or one of higher voltage, or a converter of at most {0.9 * most:.0f} VA"
        f"; {_rate(current, parts[1])}"
    )
    return _case(evaluation, "bank-at-rating/converter", parts[1].discharge, basis, "power.converter.rating",
                 hint)  # fmt: skip


def _fuse(evaluation: Evaluation) -> tuple[Case, ...]:
    parts, peak = _parts(evaluation), _at_once(evaluation, "current")
    if parts is None or peak is None or parts[1].fuse is None:
        return ()
    return _case(evaluation, "fuse-load/bank", parts[0].limits.fuse_use, "usual figure: common practice, no source",
                 "power.bank.fuse", f"take a fuse of {peak.current / parts[0].limits.fuse_use:.0f} A or more on a"
                                    f" conductor that bears it;"
                 f" {peak.current:.0f} A last through {parts[1].fuse:.0f} A, warm fuses open early",
                 state=_state(peak))  # fmt: skip


def _voltage(evaluation: Evaluation) -> tuple[Case, ...]:
    parts, peak = _parts(evaluation), _at_once(evaluation, "current_start")
    if parts is None or parts[0].converter is None or peak is None:
        return ()
    basis = _basis(evaluation, "power.converter.lowest_voltage", "lowest voltage of the converter")
    hint = (f"take a bank of less resistance or start less at once: {SHORT} more are wanted; at the lowest charge,"
            f" {parts[1].resistance * peak.current_start:.2f} V stay in the bank"
            "; cable and fuse take more on the way")  # fmt: skip
    return _case(evaluation, "bank-voltage/loads", parts[0].converter.lowest_voltage, basis,
                 "power.converter.lowest_voltage", hint, state=_state(peak))  # fmt: skip


def _charging(evaluation: Evaluation) -> tuple[Case, ...]:
    parts, found = _parts(evaluation), evaluation.power
    if parts is None or found.charging <= 0.0:
        return ()
    basis = _basis(evaluation, "power.bank.charge", "lasting charge of the bank")
    hint = f"set the chargers {SHORT} lower together, or take a larger bank; counted with all sources of"
    hint += f" {_spoken(found.charging_state)} together"
    return _case(evaluation, "charging/bank", parts[1].charge, basis, "power.bank.charge", hint)


def _cold(evaluation: Evaluation) -> tuple[Case, ...]:
    parts, found = _parts(evaluation), evaluation.power
    if parts is None or found.charging <= 0.0:
        return ()
    locked = [each for each in found.cases if each.used and each.locked > 0.0]
    told = ", ".join(f"{each.name} {100.0 * each.locked:.0f} %" for each in locked[:_TOLD])
    hint = f"put the bank indoors or heat it, by {SHORT}"
    hint += f"; share of the time in which nothing charges: {told}" if told else ""
    return _case(evaluation, "cold-charge/bank", parts[1].coldest_charge,
                 _basis(evaluation, "power.bank.coldest_charge", "cold limit of the cells"),
                 "power.bank.coldest_charge", hint)  # fmt: skip


def _supply(evaluation: Evaluation) -> tuple[Case, ...]:
    power = evaluation.build.power
    cases: tuple[Case, ...] = ()
    for feeder in power.feeders if power is not None else ():
        path = f"{feeder.place}.supply" if feeder.kind == "shore" else f"{feeder.place}.generator"
        cases += _case(evaluation, f"supply/{feeder.name}", feeder.supply,
                       _basis(evaluation, path, f"what {_spoken(feeder.name)} gives"), path,
                       "take a supply of {enough}, or run less at once; mains loads of its states and its charger"
                       " are counted",
                       question=f"Does {_spoken(feeder.name)} carry the loads and its charger?")  # fmt: skip
    return cases


def _roof(evaluation: Evaluation) -> tuple[Case, ...]:
    power, found = evaluation.build.power, evaluation.power
    if power is None or not power.solar or found.panels <= 0.0:
        return ()
    taken = sum(each.roof_taken for each in power.solar)
    beside = format_quantity(taken, "area")
    hint = (
        f"take {SHORT} of panels or cuts off the roof; level roof less its cuts and {beside} for what else is up there"
    )
    return _case(evaluation, "roof-panels/roof", max(found.roof, 0.0), "roof of the vehicle", power.solar[0].place,
                 hint)  # fmt: skip


_NO_BANK = "the file names no bank"
_NO_CONVERTER = "the file names no bank with a converter"
CHECKS = (
    Check("off-grid", "Power", "How many hours of use does the bank last on its own?", "at_least", _off_grid, _NO_BANK),
    Check("unmet", "Power", "Does anything go without power?", "at_most", _unmet, _NO_BANK),
    Check("charge-left", "Power", "Is charge left when it is lowest?", "at_least", _charge_left, _NO_BANK),
    Check("converter-load", "Power", "Does the converter carry all that runs at once?", "at_most", _converter_load,
          _NO_CONVERTER),
    Check("converter-start", "Power", "Does the converter carry the largest start?", "at_most", _converter_start,
          _NO_CONVERTER),
    Check("bank-current", "Power", "Does the bank give all that runs at once?", "at_most", _bank_current, _NO_BANK),
    Check("bank-start", "Power", "Does the bank give the largest start?", "at_most", _bank_start, _NO_BANK),
    Check("bank-at-rating", "Power", "Can the bank feed its converter at the rating?", "at_most", _at_rating,
          _NO_CONVERTER),
    Check("fuse-load", "Power", "Does the main fuse last?", "at_most", _fuse, "the bank names no main fuse"),
    Check("bank-voltage", "Power", "Does the voltage hold while the largest load starts?", "at_least", _voltage,
          _NO_CONVERTER),
    Check("charging", "Power", "Does the bank take what all sources give?", "at_most", _charging,
          "no source charges a bank"),
    Check("cold-charge", "Power", "Are the cells warm enough to be charged?", "at_least", _cold,
          "no source charges a bank"),
    Check("supply", "Power", "Does the socket carry the loads and the charger?", "at_most", _supply,
          "no shore power or generator is named"),
    Check("roof-panels", "Power", "Do the panels find room on the roof?", "at_most", _roof, "no panels on the roof"),
)  # fmt: skip
