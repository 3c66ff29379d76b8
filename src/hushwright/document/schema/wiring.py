"""Wiring: circuits with conductor and fuse, the rules they follow, and where neutral and earth are joined."""

from __future__ import annotations

from hushwright.document.fields import Quantity, Section, choice, count, quantity, section, words

RULES = ("ABYC E-11", "ISO 13297", "NEC 551")
FUSE_TYPES = ("class T", "bolt-down strip", "terminal post", "blade", "bolted strip", "miniature breaker")
LINKS = ("linked", "open", "not known")


class CircuitFuse(Section):
    """The fuse or breaker at the begin of a circuit."""

    rating: Quantity | None = quantity(
        "current", "Rating; left out, the smallest made that carries the current.", low=0.5, high=2000, default=None,
        fallback="the smallest that serves",
    )  # fmt: skip
    type: str = choice("Type, which says what it interrupts where its maker's figure is left out.", FUSE_TYPES,
                       default="blade")  # fmt: skip
    interrupt_rating: Quantity | None = quantity(
        "current", "Greatest current that it interrupts at this voltage, by its maker.", low=100, high=500_000,
        default=None, fallback="its type",
    )  # fmt: skip
    distance: Quantity | None = quantity(
        "length", "Cable between the source and the fuse.", low=0, high=20, default=None
    )  # fmt: skip
    sheathed: str = choice("Whether that cable is sheathed or in conduit.", ("yes", "no"), default="no")


class Isolator(Section):
    """A switch that takes a circuit off its source."""

    station: Quantity = quantity("length", "Station.", low=-4, high=10)
    offset: Quantity = quantity("length", "Left of the centre line (right is negative).", low=-2, high=2,
                                default="0 mm")  # fmt: skip
    height: Quantity = quantity("length", "Height over the steel floor.", low=-1, high=3, default="500 mm")
    reached_from: str = words("Where a hand reaches it from: `driver`, or a door by its name.", default="driver")


class ResidualDevice(Section):
    """A residual-current device."""

    trip: Quantity = quantity("current", "Residual current at which it trips.", low=0.003, high=3, default="30 mA")
    type: str = choice("Which currents it sees.", ("AC", "A", "F", "B"), default="A")


class Circuit(Section):
    """A circuit: one pair of conductors, or of mains voltage with an earth, from a source to what it feeds."""

    takes_from: str = words(
        "Where it begins: `bank`, `converter`, a source by its name, or what another circuit gives to."
    )
    gives_to: tuple[str, ...] = words(
        "What it feeds: loads and sources by name, `bank`, `converter`, or a name of your own, as of a fuse board."
    )
    route: str = words("Route of the file that it follows.", default="")
    length: Quantity | None = quantity("length", "Length of the cable one way; left out, that of its route.",
                                       low=0.02, high=500, default=None, fallback="route")  # fmt: skip
    side: str | None = choice("Bank's voltage or mains voltage; left out, that of its source.", ("dc", "ac"),
                              default=None)  # fmt: skip
    voltage: Quantity | None = quantity(
        "voltage", "Voltage; left out, that of the bank, or the mains.", low=3, high=1000, default=None,
        fallback="bank, or mains",
    )  # fmt: skip
    current: Quantity | None = quantity(
        "current", "Most that it carries lastingly; left out, that of all it feeds at once.", low=0, high=2000,
        default=None, fallback="what it feeds",
    )  # fmt: skip
    area: Quantity | None = quantity(
        "cross_section", "Cross-section of one conductor; left out like `awg`, the thinnest that serves.", low=0.5e-6,
        high=300e-6, default=None, fallback="the thinnest that serves",
    )  # fmt: skip
    awg: str = words("Gauge of one conductor instead of `area`: `10`, `2/0`.", default="")
    insulation: Quantity | None = quantity("temperature", "Temperature that its insulation stands.", low=60, high=250,
                                           default=None, fallback="library: limit")  # fmt: skip
    runs_through: str = choice("Warmest place on its way.", ("inside", "engine space"), default="inside")
    bundled: int | None = count(
        "Conductors in its bundle that carry current; left out, two for each circuit of its route and of routes "
        "bundled with it.", low=1, high=200, default=None,
    )  # fmt: skip
    allowed_drop: Quantity = quantity(
        "share",
        "Most that may be lost from the source to the end: 3 % where it matters, 10 % where it does not.",
        low=0.001,
        high=0.5,
        default="3 %",
    )
    fuse: CircuitFuse | None = section("Fuse or breaker at its begin.", default=None)
    isolator: Isolator | None = section("Switch that takes it off its source.", default=None)
    residual_current_device: ResidualDevice | None = section("Residual-current device.", default=None)


class NeutralEarth(Section):
    """Whether neutral and earth are joined aboard while each source feeds the van."""

    at_shore: str = choice("On shore power.", LINKS, default="not known")
    at_converter: str = choice("On the converter.", LINKS, default="not known")
    at_generator: str = choice("On the generator; `linked` if the generator itself is.", LINKS, default="not known")
    change_over: str = choice(
        "What joins and parts them when the source changes: a relay, the plug of the source itself, a hand.",
        ("relay", "plug", "by hand", "nothing", "not known"), default="not known",
    )  # fmt: skip
    insulation_monitor: str = choice("Whether a monitor watches a side that is not joined.", ("yes", "no"),
                                     default="no")  # fmt: skip


class ChassisBond(Section):
    """The conductor between the earth of the conversion and the chassis."""

    area: Quantity | None = quantity("cross_section", "Cross-section.", low=0.5e-6, high=300e-6, default=None)
    awg: str = words("Gauge instead of `area`.", default="")


class Wiring(Section):
    """What holds for all circuits."""

    rules: str = choice("Rules that conductors and fuses follow.", RULES)
    sizes: str = choice("System of the sizes that are bought, for conductors that are left out.", ("mm2", "AWG"),
                        default="mm2")  # fmt: skip
    mains: Quantity = quantity("voltage", "Mains voltage.", low=90, high=260, default="230 V")
    reach: Quantity | None = quantity("length", "How far a hand reaches to an isolator.", low=0.2, high=1.2,
                                      default=None, fallback="library: limit")  # fmt: skip
    neutral_earth: NeutralEarth | None = section("Where neutral and earth are joined.", default=None)
    chassis_bond: ChassisBond | None = section("Bond to the chassis.", default=None)
