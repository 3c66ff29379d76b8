"""What the client asks for: people, places, how loud outside, how quiet inside."""

from __future__ import annotations

from hushwright.document.fields import Quantity, Section, choice, count, quantity, section, words
from hushwright.document.schema.air_wishes import AirWishes, Phase
from hushwright.document.schema.climate import HeatWishes
from hushwright.document.schema.costs import Budget
from hushwright.document.schema.power import PowerWishes
from hushwright.document.schema.signals import SignalWishes

FACES_OF_SOURCE = ("all round", "left", "right", "front", "rear", "above")


class Octaves(Section):
    """Octave-band levels typed one by one; bands left out go on with the last slope and are listed as assumed."""

    hz_31: Quantity | None = quantity("level", "Level in the 31.5 Hz octave.", low=-20, high=140, default=None)
    hz_63: Quantity | None = quantity("level", "Level in the 63 Hz octave.", low=-20, high=140, default=None)
    hz_125: Quantity | None = quantity("level", "Level in the 125 Hz octave.", low=-20, high=140, default=None)
    hz_250: Quantity | None = quantity("level", "Level in the 250 Hz octave.", low=-20, high=140, default=None)
    hz_500: Quantity | None = quantity("level", "Level in the 500 Hz octave.", low=-20, high=140, default=None)
    hz_1000: Quantity | None = quantity("level", "Level in the 1000 Hz octave.", low=-20, high=140, default=None)
    hz_2000: Quantity | None = quantity("level", "Level in the 2000 Hz octave.", low=-20, high=140, default=None)
    hz_4000: Quantity | None = quantity("level", "Level in the 4000 Hz octave.", low=-20, high=140, default=None)
    hz_8000: Quantity | None = quantity("level", "Level in the 8000 Hz octave.", low=-20, high=140, default=None)


class Outdoors(Section):
    """One situation outside the van, and how quiet the room is to be in it."""

    situation: str = words("Name of an outdoor situation in the library; with `octaves` only a name.", default="")
    octaves: Octaves | None = section(
        "Own octave levels in front of the van, as a sound level meter shows them.", default=None
    )
    level: Quantity | None = quantity(
        "level_a", "Shifts the spectrum to this A-weighted level.", low=20, high=120, default=None
    )
    comes_from: str = choice("Side of the van the sound comes from.", FACES_OF_SOURCE, default="all round")
    limit: str = words(
        "What the background in the quiet room may be: `35 dB(A)`, `NC 25`, `NC 25 (2019)`, `NR 20` or "
        "`hearing test 250 Hz`; after a comma how such a test is heard (`insert earphones`, `circumaural earphones`, "
        "`bone conduction` or `sound field`), and after another `5 dB` for the error that the background may cause "
        "instead of 2 dB; left out, the usual one for the use.",
        default="",
    )
    limit_from: Quantity | None = quantity(
        "frequency", "Lowest octave that counts for an NC or NR limit; lower ones are reported.", low=16, high=8000,
        default=None,
    )  # fmt: skip


class Monitor(Section):
    """Listening level in the control room, against which the sound coming through the wall is judged."""

    level: Quantity = quantity("level_a", "Level at the engineer's ears while mixing.", low=40, high=110)
    spectrum: str = words("Spectrum of the programme, a source of the library.", default="pink noise")
    below: Quantity | None = quantity(
        "level", "How far the direct sound of the quiet room is to stay under the monitor level in each octave.",
        low=0, high=60, default=None, fallback="library: limit",
    )  # fmt: skip


class Sources(Section):
    """Who or what sounds in the quiet room."""

    quiet_room: str = words("Source in the quiet room, from the library.", default="singing voice")
    quiet_room_level: Quantity | None = quantity(
        "level_a", "A-weighted sound power level of that source, all singers together.", low=40, high=130, default=None
    )


class Neighbours(Section):
    """The nearest ears outside, and what they may get."""

    distance: Quantity = quantity("length", "From the van's side to the neighbours.", low=1, high=500)
    side: str = choice("Side of the van they are on.", ("left", "right", "front", "rear"), default="left")
    limit: Quantity = quantity("level_a", "Level they may get from the quiet room.", low=10, high=90)


class Rain(Section):
    """Rain on the roof during takes."""

    rate: Quantity = quantity("rain_rate", "Rain rate.", low=0, high=1e-4)
    limit: str = words(
        "What the background may be while it rains, written as for `outdoors`; left out, the usual one for the use.",
        default="",
    )


class Brief(Section):
    """What the client asks for."""

    use: str = choice(
        "What the quiet room is for; chooses default targets.",
        ("recording", "voice", "interviews", "hearing tests", "broadcast", "other"),
        default="recording",
    )
    tallest: Quantity = quantity("length", "Tallest person who is to stand upright.", low=1.2, high=2.3)
    shoes: Quantity | None = quantity(
        "length", "Height of shoes.", low=0, high=0.1, default=None, fallback="library: limit"
    )
    clearance: Quantity | None = quantity(
        "length", "Air over the head.", low=0, high=0.3, default=None, fallback="library: limit"
    )
    shoulder_width: Quantity | None = quantity(
        "length", "Clear width wanted at shoulder height.", low=0.4, high=2.0, default=None, fallback="library: limit"
    )
    person_mass: Quantity | None = quantity(
        "mass", "Mass of one person.", low=30, high=200, default=None, fallback="library: limit"
    )
    crew_on_the_road: int = count(
        "People in the cab while driving, where a state does not say how many.", low=1, high=9, default=2
    )
    air_temperature: Quantity = quantity(
        "temperature", "Air temperature in the rooms; damping pads and the speed of sound follow it.",
        low=-20, high=45, default="20 °C",
    )  # fmt: skip
    outdoors: tuple[Outdoors, ...] = section("Situations outside the van.", default=())
    sources: Sources | None = section("What sounds in the quiet room.", default=None)
    monitor: Monitor | None = section("Listening level in the control room.", default=None)
    neighbours: Neighbours | None = section("The nearest ears outside.", default=None)
    rain: Rain | None = section("Rain on the roof.", default=None)
    air: AirWishes | None = section("How good the air is to be.", default=None)
    heat: HeatWishes | None = section("How warm and dry the rooms are to be.", default=None)
    power: PowerWishes | None = section("How long the van is to run on its own.", default=None)
    budget: Budget | None = section("What the client wants to spend.", default=None)
    signals: SignalWishes | None = section("What is asked of lines and headphones.", default=None)
    session: tuple[Phase, ...] = section("What follows on what, from aired rooms on.", default=())
