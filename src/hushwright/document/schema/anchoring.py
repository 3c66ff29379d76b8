"""How the floating room and heavy fittings are held in a crash."""

from __future__ import annotations

from hushwright.document.fields import Quantity, Section, choice, count, quantity, section

SEATS = ("structure", "skin")


class RoomAnchor(Section):
    """One point at which the floating room is held once its snubbers touch."""

    station: Quantity = quantity("length", "Station.", low=-2.5, high=8)
    offset: Quantity = quantity("length", "Left of the centre line (right is negative).", low=-1.3, high=1.3)
    height: Quantity = quantity("length", "Height over the steel floor.", low=-0.3, high=2.5, default="0 mm")
    strength: Quantity | None = quantity(
        "force", "What the anchor with its seat may carry, in any direction.", low=100, high=1e6, default=None,
        fallback="library: limit",
    )  # fmt: skip
    seat: str = choice("What it is anchored in: a member of the structure, or sheet alone.", SEATS, default="structure")


class FittingRestraint(Section):
    """How a fitting is held: alike anchors in two rows on its base."""

    anchors: int = count("Number of anchors, in two rows along the van.", low=3, high=100, default=4)
    strength: Quantity | None = quantity(
        "force", "What one anchor with its seat may carry, in any direction.", low=50, high=1e6, default=None,
        fallback="library: limit",
    )  # fmt: skip
    seat: str = choice("What they are anchored in: a member of the structure, or sheet alone.", SEATS,
                       default="structure")  # fmt: skip
    base_length: Quantity = quantity("length", "Between anchors along the van.", low=0.02, high=4, default="400 mm")
    base_width: Quantity = quantity("length", "Between anchors across the van.", low=0.02, high=2, default="400 mm")
    base_height: Quantity | None = quantity(
        "length", "Height of the anchors over the steel floor; left out, they are at the centre's height.",
        low=-0.5, high=2.5, default=None,
    )  # fmt: skip


class Restraint(Section):
    """How the floating room is held, and what everything is designed for."""

    rule: str = choice(
        "Cargo rule shown beside the design level: delivery vans, road transport in Europe, 49 CFR 393, Australia.",
        ("van", "road", "united states", "australia"), default="van",
    )  # fmt: skip
    design_level: Quantity | None = quantity(
        "count", "Design level in multiples of the weight, in every direction.", low=0.2, high=30, default=None,
        fallback="library: limit",
    )  # fmt: skip
    anchors: tuple[RoomAnchor, ...] = section("Anchors of the floating room.", default=())
    bolt_strength: Quantity | None = quantity(
        "force", "What one bolt may carry; the number of bolts at an anchor follows.", low=100, high=1e6, default=None,
        fallback="library: limit",
    )  # fmt: skip
    sheet_shear: Quantity | None = quantity(
        "modulus", "Shear stress that sheet may bear round a spreader plate; the size of the plate follows.", low=1e6,
        high=1e9, default=None, fallback="library: limit",
    )  # fmt: skip
    snubber_stiffness: Quantity | None = quantity(
        "stiffness", "Stiffness of all snubbers that take the room in one direction, once they touch.", low=1e4,
        high=1e10, default=None, fallback="library: limit",
    )  # fmt: skip
