"""Signals: lines with their connectors, headphone points, earths, and what gear sounds near microphones."""

from __future__ import annotations

from hushwright.document.fields import Quantity, Section, choice, count, quantity, section, words

LINE_KINDS = (
    "microphone", "line", "instrument", "headphone", "talkback", "camera", "network", "video", "door release",
    "light control", "control",
)  # fmt: skip
NEIGHBOURS = ("converter", "dimmer", "mains", "charger", "bank")
GEAR = ("dimmer", "driver", "charger", "converter", "relay", "lock", "transformer", "screen", "gear")


class SignalWishes(Section):
    """What is asked of lines and headphones."""

    points: dict[str, int] = count(
        "Headphone points wanted, by room or `outdoors`; left out, one for everybody in a room during takes.", low=0,
        high=200, default={},
    )  # fmt: skip
    listening: Quantity | None = quantity(
        "level_a", "Level at the ear at which people listen.", low=40, high=110, default=None, fallback="library: limit"
    )
    ceiling: Quantity | None = quantity(
        "level_a", "Level at the ear that no headphone may pass.", low=60, high=130, default=None,
        fallback="library: limit",
    )  # fmt: skip
    hum: Quantity | None = quantity(
        "level", "How far hum is to stay under the signal.", low=0, high=140, default=None, fallback="library: limit"
    )
    treble: Quantity | None = quantity(
        "frequency", "Frequency up to which lines for sound are to carry.", low=1000, high=200_000, default=None,
        fallback="library: limit",
    )  # fmt: skip
    gear: Quantity | None = quantity(
        "level_a", "Most that gear may sound in the quiet room during takes.", low=-20, high=80, default=None,
        fallback="library: limit",
    )  # fmt: skip


class NearLine(Section):
    """Power that runs beside a signal line."""

    what: str = choice("What it belongs to.", NEIGHBOURS)
    distance: Quantity = quantity("length", "Between the cables.", low=0.001, high=5)
    along: Quantity = quantity("length", "How far they run side by side; none where they cross.", low=0, high=50)
    current: Quantity | None = quantity(
        "current", "Alternating part of its current.", low=0, high=1000, default=None, fallback="library: limit"
    )
    frequency: Quantity | None = quantity(
        "frequency", "Frequency of that.", low=10, high=1_000_000, default=None, fallback="library: limit"
    )
    spacing: Quantity = quantity("length", "Between its two conductors.", low=0.0005, high=1, default="8 mm")


class SignalLine(Section):
    """Alike cables from one place to another."""

    kind: str = choice("What it carries.", LINE_KINDS)
    comes_from: str = words("Room it comes from, `cab` or `outdoors`.")
    goes_to: str = words("Room it goes to, `cab` or `outdoors`.")
    number: int = count("How many alike.", low=1, high=200, default=1)
    connectors: tuple[str, ...] = words("Connectors at its ends, in the order of `comes_from` and `goes_to`.",
                                        default=())  # fmt: skip
    route: str = words("Route of `routes` that it lies along; gives its length, glands and fixings.", default="")
    length: Quantity | None = quantity("length", "Length of one, where it has no route.", low=0.05, high=500,
                                       default=None)  # fmt: skip
    passes: tuple[str, ...] = words("Openings and cuts that it passes, where it has no route.", default=())
    fixed_to: tuple[str, ...] = choice(
        "What it is fixed to, where it has no route; two bodies make it a bridge.",
        ("body", "quiet", "control", "loose"), default=(),
    )  # fmt: skip
    loop: str = choice(
        "Whether it hangs in a loose loop between what it is fixed to, where it has no route; without one it is a "
        "bridge.",
        ("yes", "no"), default="no",
    )  # fmt: skip
    diameter: Quantity = quantity("length", "Outer diameter of one.", low=0.001, high=0.06, default="6 mm")
    balanced: str = choice("Whether it is balanced.", ("yes", "no"), default="yes")
    isolated: str = choice("Whether a transformer or light parts its ends.", ("yes", "no"), default="no")
    level: Quantity | None = quantity("voltage", "Voltage of the signal.", low=1e-6, high=100, default=None,
                                      fallback="library: limit")  # fmt: skip
    source_impedance: Quantity | None = quantity(
        "resistance", "Impedance of what drives it.", low=0.01, high=10_000_000, default=None,
        fallback="library: limit",
    )  # fmt: skip
    capacitance: Quantity | None = quantity(
        "capacitance_per_length", "Capacitance per length.", low=0, high=1e-8, default=None, fallback="library: limit"
    )
    conductor: Quantity = quantity("area", "Cross-section of one conductor.", low=1e-8, high=1e-4, default="0.22 mm2")
    rejection: Quantity | None = quantity(
        "level", "Common-mode rejection in use.", low=0, high=160, default=None, fallback="library: limit"
    )
    earths: tuple[str, ...] = words(
        "Earth of the gear at both ends, `star` or a name of `earths`; left out, both hang on the star.", default=()
    )
    near: tuple[NearLine, ...] = section("Power that runs beside it.", default=())


class HeadphoneAmplifier(Section):
    """An amplifier for headphones."""

    voltage: Quantity = quantity("voltage", "Highest effective voltage without a load.", low=0.01, high=100)
    output_impedance: Quantity = quantity("resistance", "Output impedance.", low=0, high=1000, default="10 Ω")
    lowest_load: Quantity = quantity("resistance", "Lowest load that it takes.", low=0.1, high=1000, default="16 Ω")


class HeadphonePoint(Section):
    """Alike sockets for headphones in one place."""

    room: str = words("Room it is in, or `outdoors`.")
    number: int = count("Headphones that can be plugged in.", low=1, high=100, default=1)
    amplifier: str = words("Amplifier of `amplifiers` that drives it.")
    line: str = words("Line of `lines` that leads there; left out, it is at the amplifier.", default="")
    impedance: Quantity = quantity("resistance", "Impedance of one headphone.", low=1, high=5000)
    sensitivity: Quantity = quantity("level", "Level of one headphone at 1 mW.", low=60, high=130)
    limiter: Quantity | None = quantity("level_a", "Level at the ear that its limiter holds.", low=50, high=140,
                                        default=None)  # fmt: skip
    attenuation: Quantity | None = quantity(
        "level", "What one headphone takes off sound from outside, such as an alarm.", low=0, high=50, default=None,
        fallback="library: limit",
    )  # fmt: skip


class GearSound(Section):
    """Gear that may be heard at the microphones."""

    what: str = choice("What it is.", GEAR)
    room: str = words("Room it is in.")
    frequency: Quantity | None = quantity(
        "frequency", "Frequency of its tone, of a dimmer that of its pulses; none for a steady dimmer.", low=0,
        high=1_000_000, default=None,
    )  # fmt: skip
    sound_power: Quantity | None = quantity("level_a", "Its A-weighted sound power level.", low=-20, high=110,
                                            default=None)  # fmt: skip
    steady: str = choice("Whether it sounds all the time, or clicks now and then.", ("yes", "no"), default="yes")
    runs_in: tuple[str, ...] = words("States in which it is on; left out, all.", default=())


class Signals(Section):
    """Lines, headphones, earths, and gear near microphones."""

    lines: dict[str, SignalLine] = section("Lines by name.", default={})
    amplifiers: dict[str, HeadphoneAmplifier] = section("Amplifiers for headphones by name.", default={})
    headphones: dict[str, HeadphonePoint] = section("Headphone points by name.", default={})
    earths: dict[str, Quantity] = quantity(
        "voltage", "Earths beside the one star, each with its alternating voltage against it.", low=0, high=50,
        default={},
    )  # fmt: skip
    gear: dict[str, GearSound] = section("Gear that may be heard at the microphones, by name.", default={})
