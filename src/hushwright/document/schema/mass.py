"""What was weighed, and where a fitting is when it is out."""

from __future__ import annotations

from hushwright.document.fields import Quantity, Section, choice, count, quantity, section, words

STAGES = ("arrival", "shell", "finish")
LIQUIDS = ("water", "diesel", "petrol")


class OutPlace(Section):
    """Where the centre of a fitting is when a state has it out: a drawer pulled, an awning unrolled, a seat turned."""

    station: Quantity = quantity("length", "Station of its centre.", low=-4, high=10)
    offset: Quantity = quantity("length", "Left of the centre line (right is negative).", low=-5, high=5,
                                default="0 mm")  # fmt: skip
    height: Quantity = quantity("length", "Height of its centre over the steel floor.", low=-1, high=4,
                                default="600 mm")  # fmt: skip


class Scales(Section):
    """One weighing, wheel by wheel, tank as for the kerb mass."""

    stage: str = choice(
        "When: `arrival` is the donor van alone, `shell` with all build-ups and openings, `finish` with everything.",
        STAGES,
    )
    front_left: Quantity = quantity("mass", "Under the left front wheel.", low=50, high=4000)
    front_right: Quantity = quantity("mass", "Under the right front wheel.", low=50, high=4000)
    rear_left: Quantity = quantity("mass", "Under the left rear wheel or pair.", low=50, high=5000)
    rear_right: Quantity = quantity("mass", "Under the right rear wheel or pair.", low=50, high=5000)
    people: int = count("People in the cab while it was weighed.", low=0, high=9, default=0)
    aboard: tuple[str, ...] = words(
        "Fittings aboard at `arrival` and `shell`; at `finish` all are, whatever is listed here.", default=()
    )
    missing: tuple[str, ...] = words("Fittings not yet aboard at `finish`.", default=())
    date: str = words("Date of the ticket.", default="", descriptive="printed beside the readings")


class Measured(Section):
    """What was measured on this van."""

    scales: tuple[Scales, ...] = section("Weighings, in the order in which they were made.", default=())
