"""Rooms between stations, and what runs and who is where in each state."""

from __future__ import annotations

from hushwright.document.fields import Quantity, Section, choice, count, quantity, section, words
from hushwright.document.schema.air_wishes import PeopleGroup
from hushwright.document.schema.anchoring import FittingRestraint
from hushwright.document.schema.mass import LIQUIDS, OutPlace
from hushwright.document.schema.use import Envelope

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
    who: tuple[PeopleGroup, ...] = section(
        "What people in the rooms do; those not named sing where music is recorded, talk in other quiet rooms and "
        "sit at the desk elsewhere.",
        default=(),
    )
    open: tuple[str, ...] = words("Names of openings that stand open.", default=())
    out: tuple[str, ...] = words(
        "Fittings that are at their `out` place: drawers pulled, awning unrolled, seats turned.", default=()
    )
    unloaded: tuple[str, ...] = words("Fittings that are not aboard in this state.", default=())
    full: dict[str, Quantity] = quantity("share", "How full each tank is, by the fitting's name; left out it is full.",
                                         low=0, high=1, default={})  # fmt: skip
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


class Fitting(Section):
    """Something built in: mass, place, what it is fixed to."""

    name: str = words("Name.", descriptive="names the part in lists")
    mass: Quantity | None = quantity(
        "mass", "Mass, of a tank the empty one; `from: measured` takes it out of what is not yet listed.", low=0,
        high=1000, default=None,
    )  # fmt: skip
    litres: Quantity | None = quantity("volume", "What it holds when full.", low=0, high=1, default=None)
    liquid: str = choice("What it holds.", LIQUIDS, default="water")
    length: Quantity | None = quantity("length", "Length of cable, hose or rail.", low=0, high=2000, default=None)
    mass_per_length: Quantity | None = quantity("mass_per_length", "Its mass per length.", low=0, high=50,
                                                default=None)  # fmt: skip
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
    out: OutPlace | None = section("Where its centre is in states that have it out.", default=None)
    restraint: FittingRestraint | None = section("How it is held.", default=None)
    envelope: Envelope | None = section("Room that it takes, at rest and on its way.", default=None)


class Tolerances(Section):
    """How closely the workshop builds."""

    headroom: Quantity | None = quantity("length", "Spread of the built height, plus or minus.", low=0, high=0.05,
                                         default=None, fallback="library: limit")  # fmt: skip
    width: Quantity | None = quantity("length", "Spread of the built width, plus or minus.", low=0, high=0.05,
                                      default=None, fallback="library: limit")  # fmt: skip
    mass: Quantity = quantity("share", "Spread of computed masses, plus or minus.", low=0, high=0.3, default="5 %")
    not_yet_listed: Quantity | None = quantity(
        "share", "Added for what is not yet listed, as a share of all that was not weighed.", low=0, high=0.5,
        default=None, fallback="library: limit",
    )  # fmt: skip
    measured_vans: int = count(
        "Vans of this workshop that were measured and compared; three or more narrow the sound uncertainty.",
        low=0, high=100, default=0,
    )  # fmt: skip
