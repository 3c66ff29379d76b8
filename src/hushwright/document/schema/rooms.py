"""Rooms between stations, and what runs and who is where in each state."""

from __future__ import annotations

from hushwright.document.fields import Quantity, Section, choice, count, quantity, section, words

ROOM_PURPOSES = ("quiet", "control", "lobby", "cab", "other")


class Room(Section):
    """A room along the vehicle: its two stations are its finished faces."""

    purpose: str = choice("What the room is for.", ROOM_PURPOSES)
    front: Quantity = quantity("length", "Station of its front finished face.", low=-2.5, high=7)
    rear: Quantity = quantity("length", "Station of its rear finished face.", low=-2.5, high=7)


class State(Section):
    """A state of use: who is where, which doors are open."""

    people: dict[str, int] = count(
        "People in each room, by the room's name; `cab` for the seats in front.", low=0, high=20, default={}
    )
    open: tuple[str, ...] = words("Names of openings that stand open.", default=())
    road: str = choice("Whether the van drives in this state, so that road masses apply.", ("yes", "no"), default="no")
    takes: str = choice("Whether takes are recorded in this state, so that quiet is judged.", ("yes", "no"),
                        default="no")  # fmt: skip


class Treatment(Section):
    """An absorber fixed on a finished face inside a room."""

    room: str = words("Room it is in; left out, the quiet room.", default="")
    on: str = words("Face it is on: left, right, ceiling, front, rear, floor.")
    absorber: str = words("Blanket of the library.")
    thickness: Quantity = quantity("length", "Thickness.", low=0.002, high=0.4)
    coverage: Quantity = quantity("share", "Share of the face that it covers.", low=0, high=1, default="100 %")
    air_behind: Quantity = quantity("length", "Air between the absorber and the face.", low=0, high=0.3,
                                    default="0 mm")  # fmt: skip


class Fan(Section):
    """A fan; until duct noise is computed its presence leaves the background unproven."""

    name: str = words("Name.")
    runs_in: tuple[str, ...] = words("States in which it runs.", default=())


class AirSupply(Section):
    """Ventilation."""

    fans: tuple[Fan, ...] = section("Fans.", default=())


class Fitting(Section):
    """Something built in: mass, place, what it is fixed to."""

    name: str = words("Name.", descriptive="names the part in lists")
    mass: Quantity = quantity("mass", "Mass.", low=0, high=1000)
    station: Quantity = quantity("length", "Station of its centre.", low=-3, high=8)
    offset: Quantity = quantity("length", "Left of the centre line (right is negative).", low=-1.5, high=1.5,
                                default="0 mm")  # fmt: skip
    height: Quantity = quantity("length", "Height of its centre over the steel floor.", low=-1, high=3.5,
                                default="600 mm")  # fmt: skip
    fixed_to: tuple[str, ...] = choice(
        "What it is fixed to; two bodies make it a bridge. Left out, the body.",
        ("body", "quiet", "control", "loose"), default=(),
    )  # fmt: skip
    fixings: int = count("Screws or bolts to each body when it is fixed to two.", low=1, high=200, default=4)
    fixing_stiffness: Quantity | None = quantity(
        "stiffness", "Stiffness of one fixing, in series over both bodies; left out it is rigid.", low=1e3, high=1e10,
        default=None,
    )  # fmt: skip


class Tolerances(Section):
    """How closely the workshop builds."""

    headroom: Quantity | None = quantity("length", "Spread of the built height, plus or minus.", low=0, high=0.05,
                                         default=None, fallback="library: limit")  # fmt: skip
    width: Quantity | None = quantity("length", "Spread of the built width, plus or minus.", low=0, high=0.05,
                                      default=None, fallback="library: limit")  # fmt: skip
    mass: Quantity = quantity("share", "Spread of computed masses, plus or minus.", low=0, high=0.3, default="5 %")
    measured_vans: int = count(
        "Vans of this workshop that were measured and compared; three or more narrow the sound uncertainty.",
        low=0, high=100, default=0,
    )  # fmt: skip
