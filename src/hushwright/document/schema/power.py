"""Power: bank, converter, where power comes from, what takes it, and how a day goes."""

from __future__ import annotations

from hushwright.document.fields import Quantity, Section, choice, count, quantity, section, words
from hushwright.document.schema.climate import MONTHS
from hushwright.document.schema.power_sources import PowerSource
from hushwright.document.schema.wiring import Circuit, Wiring

SIDES = ("dc", "ac")


class PowerWishes(Section):
    """How long the van is to run on its own."""

    off_grid: Quantity | None = quantity(
        "time", "Hours of use by the day plan that the bank lasts without shore or generator; idle hours do not count.",
        low=600, high=2_592_000, default=None, fallback="library: limit",
    )  # fmt: skip
    unmet: Quantity | None = quantity(
        "energy", "Most that may go without power over all days, with every source of the day plan.", low=0, high=1e9,
        default=None, fallback="library: limit",
    )  # fmt: skip
    reserve: Quantity | None = quantity(
        "share", "Least charge that is to be left above the bank's lowest, with every source of the day plan.", low=0,
        high=0.8, default=None, fallback="library: limit",
    )  # fmt: skip
    months: tuple[str, ...] = choice("Months in which the van is used; left out, all.", MONTHS, default=())


class Bank(Section):
    """The bank: lithium iron phosphate cells in series with the electronics that watch them."""

    voltage: Quantity = quantity("voltage", "Nominal voltage, 3.2 V for each cell in series.", low=3, high=500)
    capacity: Quantity = quantity("charge", "Rated capacity.", low=1, high=20_000)
    lowest: Quantity = quantity("share", "Lowest charge that is used.", low=0.02, high=0.6, default="10 %")
    highest: Quantity = quantity("share", "Highest charge that is used.", low=0.5, high=1, default="100 %")
    begins: Quantity | None = quantity(
        "share", "Charge at the begin of the first day; left out, the highest that is used.", low=0.02, high=1,
        default=None, fallback="highest",
    )  # fmt: skip
    discharge: Quantity | None = quantity("current", "Most that it gives lastingly, by its maker.", low=1, high=20_000,
                                          default=None, fallback="library: limit")  # fmt: skip
    surge: Quantity | None = quantity("current", "Most that it gives for ten seconds, by its maker.", low=1,
                                      high=50_000, default=None, fallback="library: limit")  # fmt: skip
    charge: Quantity | None = quantity("current", "Most that it takes lastingly, by its maker.", low=0.5, high=20_000,
                                       default=None, fallback="library: limit")  # fmt: skip
    resistance: Quantity | None = quantity(
        "resistance", "Resistance of the whole bank with its links and switch.", low=1e-5, high=1, default=None,
        fallback="library: limit",
    )  # fmt: skip
    charge_returned: Quantity = quantity("share", "Charge that comes back out of what was put in.", low=0.9, high=1,
                                         default="99.5 %")  # fmt: skip
    own_draw: Quantity = quantity("power", "What its electronics take all the time.", low=0, high=100, default="2 W")
    coldest_charge: Quantity = quantity("temperature", "Lowest cell temperature at which it may be charged.", low=-30,
                                        high=20, default="0 °C")  # fmt: skip
    temperature: Quantity | None = quantity(
        "temperature", "Temperature of the cells; left out, that of the air outdoors.", low=-30, high=50, default=None,
        fallback="climate",
    )  # fmt: skip
    fuse: Quantity | None = quantity("current", "Rating of the main fuse.", low=1, high=20_000, default=None)


class CurvePoint(Section):
    """Efficiency at one load."""

    load: Quantity = quantity("share", "Load as a share of the rating.", low=0.005, high=1.5)
    efficiency: Quantity = quantity("share", "Power out over power in, its own draw included.", low=0.05, high=1)


class Converter(Section):
    """The converter that makes mains voltage from the bank."""

    rating: Quantity = quantity("apparent_power", "What it gives lastingly.", low=50, high=100_000)
    surge: Quantity | None = quantity("apparent_power", "What it gives for a start; left out, twice the rating.",
                                      low=50, high=300_000, default=None, fallback="library: limit")  # fmt: skip
    idle: Quantity | None = quantity("power", "What it takes while nothing is plugged in.", low=0, high=500,
                                     default=None, fallback="library: limit")  # fmt: skip
    best: Quantity = quantity("share", "Highest efficiency.", low=0.5, high=0.995, default="93 %")
    full: Quantity = quantity("share", "Efficiency at the rating.", low=0.5, high=0.99, default="88 %")
    curve: tuple[CurvePoint, ...] = section("Efficiency over the load; counts before `best` and `full`.", default=())
    lowest_voltage: Quantity | None = quantity("voltage", "Voltage of the bank below which it gives up.", low=2,
                                               high=500, default=None, fallback="library: limit")  # fmt: skip
    on: str = choice(
        "When it is switched on: in the states of the day plan, always, or only with a load behind it.",
        ("in use", "always", "with loads"), default="in use",
    )  # fmt: skip


class PowerLoad(Section):
    """Something that takes power."""

    side: str = choice("Which side feeds it: the bank's voltage or the converter's.", SIDES, default="dc")
    power: Quantity | None = quantity("power", "Power while it runs.", low=0, high=50_000, default=None)
    of: str = words(
        "Where the rest of the file gives its power: `cooler`, `heater`, `lights` or `equipment` and the room, or "
        "`fans`. With `power` it is a part of those lights or that equipment; without, all that no other load takes.",
        default="",
    )  # fmt: skip
    duty: Quantity = quantity("share", "Share of the time for which it runs.", low=0, high=1, default="100 %")
    states: tuple[str, ...] = words(
        "States in which it runs; `standing` is the rest of the day, `always` all of it. Left out, all states of the "
        "day plan without people on the road.",
        default=(),
    )  # fmt: skip
    surge: Quantity | None = quantity("power", "What it takes while it starts.", low=0, high=200_000, default=None)
    power_factor: Quantity = quantity("share", "Power over apparent power, on the ac side.", low=0.3, high=1,
                                      default="100 %")  # fmt: skip


class PlanPhase(Section):
    """A part of the day: a state from a time on."""

    state: str = words("State of use.")
    begins: Quantity = quantity("time", "Begin after midnight, by the sun.", low=0, high=86_400)
    duration: Quantity = quantity("time", "How long it lasts.", low=60, high=86_400)


class Power(Section):
    """Bank, converter, sources, loads, and the plan of a day."""

    bank: Bank | None = section("The bank.", default=None)
    converter: Converter | None = section("The converter.", default=None)
    sources: dict[str, PowerSource] = section("Where power comes from, by name.", default={})
    loads: dict[str, PowerLoad] = section("What takes power, by name.", default={})
    day: tuple[PlanPhase, ...] = section(
        "What follows on what on a day; left out, the session of the brief. The rest of the day the van stands.",
        default=(),
    )  # fmt: skip
    wiring: Wiring | None = section("Rules of the wiring, and where neutral and earth are joined.", default=None)
    circuits: dict[str, Circuit] = section("Circuits by name: conductor, fuse, way.", default={})
    days: int = count("How many days like that follow each other.", low=1, high=60, default=2)
