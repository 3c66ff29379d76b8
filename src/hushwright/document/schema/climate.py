"""Heat: place and weather, the colour of the skin, heater, cooler, lamps and gear, and what is asked of the rooms."""

from __future__ import annotations

from hushwright.document.fields import Quantity, Section, choice, quantity, section, words

MONTHS = ("January", "February", "March", "April", "May", "June", "July", "August", "September", "October", "November",
          "December")  # fmt: skip
SKIES = ("clear", "overcast", "no sun")


class HeatWishes(Section):
    """How warm and dry the rooms are to be."""

    warmest: Quantity | None = quantity(
        "temperature", "Highest air temperature while people are in a room.", low=15, high=45, default=None,
        fallback="library: limit",
    )  # fmt: skip
    coldest: Quantity | None = quantity(
        "temperature", "Lowest air temperature while people are in a room.", low=0, high=30, default=None,
        fallback="library: limit",
    )  # fmt: skip
    without_cooler: Quantity | None = quantity(
        "time", "How long takes are to go on with the cooler silent.", low=60, high=28_800, default=None,
        fallback="library: limit",
    )  # fmt: skip
    surface_humidity: Quantity | None = quantity(
        "share", "Most relative humidity at a surface, as a mean of a month.", low=0.3, high=1, default=None,
        fallback="library: limit",
    )  # fmt: skip
    water_in_walls: Quantity | None = quantity(
        "surface_density", "Most water that may gather in a build-up.", low=0, high=5, default=None,
        fallback="library: limit",
    )  # fmt: skip


class DesignDay(Section):
    """Weather of one day; the air follows the sun between its lowest and its highest temperature."""

    date: str = words("Day of the year, `21 July`.")
    highest: Quantity = quantity("temperature", "Highest temperature outdoors.", low=-50, high=55)
    lowest: Quantity = quantity("temperature", "Lowest temperature outdoors.", low=-55, high=45)
    humidity: Quantity = quantity(
        "share", "Relative humidity outdoors when it is warmest; the water in the air stays the same all day.", low=0,
        high=1, default="45 %",
    )  # fmt: skip
    sky: str = choice("What the sun does.", SKIES, default="clear")


class YearOfMonths(Section):
    """The year in which build-ups gather water and dry, between its coldest and its warmest month."""

    coldest: Quantity = quantity("temperature", "Mean temperature of the coldest month.", low=-40, high=30)
    warmest: Quantity = quantity("temperature", "Mean temperature of the warmest month.", low=-20, high=40)
    humidity_in_cold: Quantity = quantity("share", "Mean relative humidity of the coldest month.", low=0.1, high=1,
                                          default="85 %")  # fmt: skip
    humidity_in_warmth: Quantity = quantity("share", "Mean relative humidity of the warmest month.", low=0.1, high=1,
                                            default="70 %")  # fmt: skip
    in_use: Quantity = quantity("share", "Share of the time in which people are in and it is heated.", low=0, high=1,
                                default="20 %")  # fmt: skip


class HeaterUnit(Section):
    """A heater with its thermostat."""

    room: str = words("Room it heats.")
    power: Quantity = quantity("power", "Greatest heat into the room.", low=10, high=20_000)
    setpoint: Quantity = quantity("temperature", "Temperature that it holds.", low=5, high=30, default="21 °C")
    efficiency: Quantity = quantity("share", "Heat into the room over energy taken.", low=0.1, high=1, default="100 %")
    runs_in: tuple[str, ...] = words("States in which it may run, and the time before the session; left out, all.",
                                     default=())  # fmt: skip


class CoolerUnit(Section):
    """A cooler with its thermostat; its coil also dries the air."""

    room: str = words("Room it cools.")
    capacity: Quantity = quantity("power", "Cooling, of heat and of moisture, at 35 °C outdoors.", low=50, high=20_000)
    power_draw: Quantity = quantity("power", "Electrical power at that.", low=10, high=10_000)
    setpoint: Quantity = quantity("temperature", "Temperature that it holds.", low=14, high=32, default="24 °C")
    coil: Quantity = quantity("temperature", "Temperature of the coil's surface.", low=0, high=20, default="10 °C")
    fades: Quantity = quantity(
        "share", "Share of the capacity that is lost for each kelvin outdoors above 35 °C, and gained below.", low=0,
        high=0.05, default="1 %",
    )  # fmt: skip
    silent_in_takes: str = choice("Whether it stands still while takes are recorded.", ("yes", "no"), default="yes")
    runs_in: tuple[str, ...] = words("States in which it may run, and the time before the session; left out, all.",
                                     default=())  # fmt: skip


class RoomLoad(Section):
    """Electrical power that ends up as heat in a room."""

    room: str = words("Room it is in.")
    lights: Quantity = quantity("power", "Lamps.", low=0, high=5000, default="0 W")
    equipment: Quantity = quantity("power", "Gear.", low=0, high=10_000, default="0 W")
    states: tuple[str, ...] = words("States in which it is on; left out, all states of the session.", default=())


class Climate(Section):
    """Where the van stands, the weather there, and what heats and cools it."""

    latitude: Quantity = quantity("latitude", "Latitude, north positive.", low=-1.5708, high=1.5708)
    longitude: Quantity = quantity("angle", "Longitude, east positive.", low=-3.14160, high=3.14160)
    altitude: Quantity = quantity("length", "Height over the sea.", low=-450, high=5000, default="0 m")
    heading: Quantity = quantity("angle", "Where the van's nose points, clockwise from north.", low=-6.29, high=6.29,
                                 default="0°")  # fmt: skip
    ground: Quantity = quantity("share", "Share of the sun that the ground throws back.", low=0, high=1,
                                default="20 %")  # fmt: skip
    wind: Quantity = quantity("speed", "Wind along the skin on the hottest day.", low=0, high=20, default="2 m/s")
    colour: Quantity | None = quantity(
        "share", "Share of the sun that the paint takes up: white 25 %, grey 60 %, black 90 %.", low=0.05, high=1,
        default=None, fallback="library: limit",
    )  # fmt: skip
    hottest: DesignDay | None = section("Hottest day on which the van is used.", default=None)
    coldest: DesignDay | None = section("Coldest day on which the van is used.", default=None)
    year: YearOfMonths | None = section("The year for the water in build-ups.", default=None)
    session_begins: Quantity = quantity("time", "Begin of the session after midnight, by the sun.", low=0, high=79_200,
                                        default="10 h")  # fmt: skip
    warm_up: Quantity = quantity("time", "How long before the session heater and cooler are switched on.", low=0,
                                 high=43_200, default="60 min")  # fmt: skip
    heaters: tuple[HeaterUnit, ...] = section("Heaters.", default=())
    coolers: tuple[CoolerUnit, ...] = section("Coolers.", default=())
    loads: tuple[RoomLoad, ...] = section("Lamps and gear.", default=())
