"""Safety: how doors open, ways out, alarms, noise, linings, the bank's place, exhausts."""

from __future__ import annotations

from hushwright.document.fields import Quantity, Section, choice, count, quantity, section, words

LOCKS = ("none", "mechanical", "fail-safe", "fail-secure")
INSIDE = ("lever", "push bar", "pull handle", "key", "tool", "none")
KEEPS = ("none", "opens from inside", "opens from outside only")
DETECTORS = ("smoke", "carbon monoxide", "carbon dioxide")
EQUIPMENT = ("fire extinguisher", "fire blanket", "first aid kit", "emergency light", "emergency hammer",
             "warning triangle", "warning vest")  # fmt: skip
HEARD = ("typed", "headphones", "headphones turned up", "monitors", "players")
NOISE_RULES = ("EU", "NIOSH", "OSHA", "Canada")
BURNING_RULES = ("FMVSS 302", "UN R118")
EXHAUSTS = ("heater", "generator", "engine")
YES_NO = ("yes", "no")
SAID = ("yes", "no", "not said")


class WayDoor(Section):
    """How a door, window or hatch on a way out is locked and opens."""

    lock: str = choice(
        "What locks it: nothing, a mechanical lock, an electric lock that opens without power (fail-safe) or one that "
        "stays shut without power (fail-secure).", LOCKS,
    )  # fmt: skip
    inside: str = choice("What opens it from inside, by hand and without power.", INSIDE)
    operations: int = count("Moves of the hand that open it.", low=1, high=9, default=1)
    holding: Quantity | None = quantity("force", "Force that the lock holds.", low=1, high=1e5, default=None)
    travel_keep: str = choice("A keep of its own that holds it shut on the road.", KEEPS, default="none")
    keep_strength: Quantity | None = quantity("force", "Force that this keep holds.", low=1, high=2e5, default=None)
    occupied_alarm: str = choice("Whether an alarm tells outside that it is locked while people are in.", YES_NO,
                                 default="no")  # fmt: skip
    swing: str = choice("Into the room that people leave, out of it, or along the wall.", ("in", "out", "slides"))
    leaves: int = count("Leaves side by side.", low=1, high=2, default=1)
    free_depth: Quantity | None = quantity(
        "length", "Free depth where it swings; left out, the room or space there.", low=0, high=20, default=None,
        fallback="the room or space there",
    )  # fmt: skip
    clear_width: Quantity | None = quantity("length", "Clear width when open.", low=0.05, high=3, default=None,
                                            fallback="size of the opening")  # fmt: skip
    clear_height: Quantity | None = quantity("length", "Clear height when open.", low=0.05, high=2.6, default=None,
                                             fallback="size of the opening")  # fmt: skip


class WayOut(Section):
    """A way out of a room: the openings that one passes, in this order, to stand outdoors."""

    room: str = words("Room it begins in.")
    through: tuple[str, ...] = words("Openings in the order in which one passes them.")


class Detector(Section):
    """A detector that warns."""

    kind: str = choice("What it finds.", DETECTORS)
    room: str = words("Room it is in.")
    fixed_on: str = choice("Where it is fixed.", ("ceiling", "wall"))
    from_edge: Quantity | None = quantity(
        "length", "On a ceiling: from the nearest wall; on a wall: below the ceiling.", low=0, high=3, default=None,
        fallback="on a ceiling: its station and offset",
    )  # fmt: skip
    station: Quantity | None = quantity("length", "Station of it, where it is drawn.", low=-3, high=12, default=None)
    offset: Quantity | None = quantity("length", "Left of the centre line, where it is drawn.", low=-2, high=2,
                                       default=None)  # fmt: skip
    from_appliance: Quantity | None = quantity("length", "From the nearest appliance that burns, level.", low=0,
                                               high=10, default=None)  # fmt: skip


class Equipment(Section):
    """Something to fight a fire, get out or give first aid with; place, mass and price are those of its fitting."""

    kind: str = choice("What it is.", EQUIPMENT)
    fitting: str = words("Name of the fitting that it is.")
    size: str = words("Size or class as on its label.", default="", descriptive="printed beside it")


class Sounder(Section):
    """An alarm that is heard."""

    room: str = words("Room it is in.")
    level: Quantity = quantity("level_a", "Its level in front.", low=40, high=130)
    distance: Quantity = quantity("length", "Distance at which that level holds.", low=0.1, high=10, default="1 m")
    tone: Quantity = quantity("frequency", "Frequency of most of its energy.", low=100, high=8000)


class VisualSignal(Section):
    """A flashing light that warns."""

    room: str = words("Room it is in.")
    intensity: Quantity = quantity("luminous_intensity", "Luminous intensity.", low=0.1, high=10_000)
    rate: Quantity = quantity("frequency", "Flashes a second.", low=0.05, high=30)


class NoisePart(Section):
    """A part of a day at one level, typed or taken from what sounds in the van."""

    level: Quantity | None = quantity(
        "level_a", "Level at the ear, typed or while people listen on headphones.", low=30, high=140, default=None,
        fallback="headphones: listening level of the brief",
    )  # fmt: skip
    of: str = choice(
        "Where the level comes from: as typed; headphones as people listen; headphones turned right up; monitors with "
        "what comes through the wall, at the desk; players or singers, for others in the quiet room.",
        HEARD, default="typed",
    )  # fmt: skip
    point: str = words("Headphone point of `signals.headphones`.", default="")
    duration: Quantity | None = quantity(
        "time", "How long, a day.", low=1, high=86_400, default=None, fallback="all takes of the session"
    )


class Exposure(Section):
    """What one kind of person hears on a working day."""

    parts: tuple[NoisePart, ...] = section("Parts of the day; what is left is quiet.", shortest=1)
    peak: Quantity | None = quantity("level", "Highest peak level at the ear, C-weighted.", low=60, high=170,
                                     default=None)  # fmt: skip


class Lining(Section):
    """How a material in reach of the room's air burns."""

    burning_rate: Quantity = quantity(
        "burning_rate", "Burning rate in the level test; `0 mm/min` where the flame dies before the first mark.", low=0,
        high=0.05,
    )  # fmt: skip
    by: str = words("Report or sheet that says so.", default="")


class BankPlace(Section):
    """Where the bank stands and what is round it."""

    fitting: str = words("Name of the fitting that it is.")
    from_skin: Quantity | None = quantity(
        "length", "From its case to the outer skin that a crash pushes in, the least of all sides.", low=0, high=3,
        default=None,
    )  # fmt: skip
    warmest: Quantity | None = quantity("temperature", "Warmest air round it in use.", low=-40, high=90, default=None)
    coldest: Quantity | None = quantity("temperature", "Coldest cells when charged.", low=-50, high=60, default=None)
    ventilation: str = choice("Whether it is vented as its maker asks.", SAID, default="not said")
    removal: str = choice("Whether it comes out without taking the van apart.", SAID, default="not said")
    label: str = choice("Whether a label for responders shows bank and switch from outside.", SAID, default="not said")


class Exhaust(Section):
    """Where something that burns sends its exhaust."""

    kind: str = choice("What burns.", EXHAUSTS)
    station: Quantity = quantity("length", "Station of its end.", low=-3, high=12)
    offset: Quantity = quantity("length", "Left of the centre line.", low=-10, high=10)
    height: Quantity = quantity("length", "Over the steel floor.", low=-1.5, high=4)
    maker_distance: Quantity | None = quantity(
        "length", "Distance from intakes of air that its maker asks for.", low=0.05, high=20, default=None,
        fallback="library: limit of safety",
    )  # fmt: skip


class Intake(Section):
    """Where air is taken in."""

    station: Quantity = quantity("length", "Station of its middle.", low=-3, high=12)
    offset: Quantity = quantity("length", "Left of the centre line.", low=-10, high=10)
    height: Quantity = quantity("length", "Over the steel floor.", low=-1.5, high=4)


class Safety(Section):
    """What keeps people safe; nothing here certifies anything."""

    doors: dict[str, WayDoor] = section("Doors, windows and hatches on ways out, by the opening's name.", default={})
    ways_out: tuple[WayOut, ...] = section("Ways out.", default=())
    detectors: tuple[Detector, ...] = section("Detectors.", default=())
    equipment: tuple[Equipment, ...] = section("Equipment for fire, way out and first aid.", default=())
    equipment_asked: tuple[str, ...] = choice(
        "Equipment that the client, a venue or local rules ask for, once for each piece; left out, one fire "
        "extinguisher and one first aid kit.", EQUIPMENT, default=(),
    )  # fmt: skip
    sounders: tuple[Sounder, ...] = section("Alarms that are heard.", default=())
    visual_signals: tuple[VisualSignal, ...] = section("Alarms that are seen.", default=())
    noise_rule: str = choice("Rule that noise at work is held against.", NOISE_RULES, default="EU")
    exposures: dict[str, Exposure] = section("Noise of a day, by who hears it.", default={})
    burning_rule: str = choice("Rule that linings are held against.", BURNING_RULES, default="FMVSS 302")
    linings: dict[str, Lining] = section("How linings burn, by their name in the library.", default={})
    bank: BankPlace | None = section("Where the bank stands.", default=None)
    exhausts: dict[str, Exhaust] = section("Exhausts by name.", default={})
    intakes: dict[str, Intake] = section(
        "Intakes of air by name; left out, the cuts that have the name of a run that takes air from outdoors.",
        default={},
    )
    found_within: Quantity | None = quantity(
        "time", "Time in which somebody outside notices that people are shut in, and opens.", low=30, high=28_800,
        default=None, fallback="library: limit of safety",
    )  # fmt: skip
    push: Quantity | None = quantity("force", "Push of people at the handle of a shut door.", low=10, high=5000,
                                     default=None, fallback="library: limit of safety")  # fmt: skip
    bank_to_skin: Quantity | None = quantity("length", "Least distance of the bank's case from the outer skin.", low=0,
                                             high=2, default=None, fallback="library: limit of safety")  # fmt: skip
