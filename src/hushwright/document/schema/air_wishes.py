"""Air and session as the client asks for them, and who breathes."""

from __future__ import annotations

from hushwright.document.fields import Quantity, Section, choice, count, quantity, words

ACTIVITIES = (
    "resting", "seated", "standing", "at the desk", "talking", "singing", "playing seated", "playing",
    "playing standing", "drumming", "moving kit", "light cleaning", "dancing",
)  # fmt: skip


class AirWishes(Section):
    """How good the air is to be."""

    carbon_dioxide: Quantity | None = quantity(
        "concentration", "Most carbon dioxide in a room.", low=500e-6, high=5000e-6, default=None,
        fallback="library: limit",
    )  # fmt: skip
    fresh_air: Quantity | None = quantity(
        "volume_flow", "Air that each person in the quiet room is to get.", low=0.0005, high=0.05, default=None,
        fallback="library: limit",
    )  # fmt: skip
    humidity: Quantity | None = quantity(
        "share", "Most relative humidity in a room.", low=0.2, high=1, default=None, fallback="library: limit"
    )
    draught: Quantity | None = quantity(
        "share", "Share of people who may feel a draught.", low=0.01, high=1, default=None, fallback="library: limit"
    )
    terminal_speed: Quantity | None = quantity(
        "speed", "Highest speed of the air in the free area of a grille in a room.", low=0.1, high=10, default=None,
        fallback="library: limit",
    )  # fmt: skip
    without_fan: Quantity | None = quantity(
        "time", "Time that has to pass with stopped fans until the air is bad.", low=60, high=7200, default=None,
        fallback="library: limit",
    )  # fmt: skip
    fans_alone: str = words("What fans and air may sound like on their own in the quiet room: `NC 20`, `25 dB(A)`.",
                            default="")  # fmt: skip


class Phase(Section):
    """A part of the session: one state for a time."""

    state: str = words("State of use.")
    duration: Quantity = quantity("time", "How long it lasts.", low=60, high=86_400)


class PeopleGroup(Section):
    """People in a room who do the same."""

    room: str = words("Room they are in.")
    number: int = count("How many.", low=1, high=20, default=1)
    activity: str = choice("What they do.", ACTIVITIES)
    sex: str = choice("Sex, where it is known.", ("unspecified", "female", "male"), default="unspecified")
    age: int = count("Age in years.", low=1, high=100, default=35)
