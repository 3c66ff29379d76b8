"""Holes in the vehicle, and what hangs on doors."""

from __future__ import annotations

from hushwright.document.fields import Quantity, Section, choice, count, quantity

CUT_FACES = ("left", "right", "roof", "floor", "front", "rear")
HAZARDS = ("harness", "airbag", "fuel line", "brake line", "belt anchor")
LOOKED_FOR = ("harness", "airbag", "fuel line", "belt anchor", "guidance")


class Cut(Section):
    """A hole in the sheet of the vehicle."""

    face: str = choice("Face of the vehicle.", CUT_FACES)
    station: Quantity = quantity(
        "length", "Station of its centre; on an end, left of the centre line.", low=-3, high=8
    )
    at: Quantity = quantity(
        "length", "Height of its centre over the steel floor; in roof and floor, left of the centre line.",
        low=-1.5, high=3.5,
    )  # fmt: skip
    diameter: Quantity | None = quantity("length", "Diameter of a round one.", low=0.002, high=1, default=None)
    width: Quantity | None = quantity("length", "Size along the van, or across on an end.", low=0.005, high=2,
                                      default=None)  # fmt: skip
    height: Quantity | None = quantity("length", "Size upward, or across in roof and floor.", low=0.005, high=2.5,
                                       default=None)  # fmt: skip
    behind: tuple[str, ...] = choice("What lies behind it or beside its edge.", HAZARDS, default=())
    looked_for: tuple[str, ...] = choice(
        "What was looked for before cutting; `guidance` is the body-builder's guidance of the vehicle's maker.",
        LOOKED_FOR, default=(),
    )  # fmt: skip
    reinforcement: str = choice("What takes over the load of the sheet that is gone.",
                                ("none", "ring", "frame", "doubler"), default="none")  # fmt: skip
    seal: str = choice("What keeps water out.", ("none", "sealant", "gasket", "welded"), default="none")


class DoorHardware(Section):
    """Hinges, latch and handle of a door."""

    handle_distance: Quantity | None = quantity(
        "length", "From the hinge axis to the handle; left out, nine tenths of the width.", low=0.1, high=2,
        default=None,
    )  # fmt: skip
    hand_force: Quantity | None = quantity(
        "force", "Most that a hand is to pull when closing.", low=5, high=500, default=None, fallback="library: limit"
    )
    latch_ratio: Quantity = quantity(
        "count", "Pull of the latch over the force of the hand: 1 for a plain handle, 4 to 10 for a cam.", low=1,
        high=50, default="1",
    )  # fmt: skip
    latches: int = count("Latches over which the pull is shared.", low=1, high=6, default=1)
    latch_strength: Quantity | None = quantity(
        "force", "What one latch may hold.", low=50, high=50000, default=None, fallback="library: limit"
    )
    hinges: int = count("Number of hinges.", low=2, high=8, default=2)
    hinge_spacing: Quantity | None = quantity(
        "length", "Between the outer hinges; left out, seven tenths of the height.", low=0.1, high=2.4, default=None
    )
    hinge_strength: Quantity | None = quantity(
        "force", "What one hinge with its screws may carry.", low=50, high=50000, default=None,
        fallback="library: limit",
    )  # fmt: skip
    hinge_stiffness: Quantity | None = quantity(
        "stiffness", "Stiffness of one hinge with its seat, pulled away from the frame.", low=1e4, high=1e9,
        default=None, fallback="library: limit",
    )  # fmt: skip
    threshold: Quantity = quantity("length", "Height of the threshold over the floor in front of it.", low=0,
                                   high=0.8, default="0 mm")  # fmt: skip
