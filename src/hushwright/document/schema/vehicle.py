"""The van as it comes: section, axles, plated masses."""

from __future__ import annotations

from hushwright.document.fields import Quantity, Section, choice, count, quantity, section, words


class WidthAt(Section):
    """Width of the body from skin to skin at one height over the steel floor."""

    height: Quantity = quantity("length", "Height over the steel floor.", low=0, high=3)
    width: Quantity = quantity("length", "Skin to skin at that height.", low=0.8, high=2.6)


class Ribs(Section):
    """The ribs of the body, standing into the room from the skin."""

    depth: Quantity = quantity("length", "From the skin to the inner edge of a rib.", low=0.0, high=0.15)
    spacing: Quantity = quantity("length", "Between rib centre lines.", low=0.15, high=2.0)
    width: Quantity = quantity("length", "Width of a rib's inner flange.", low=0.01, high=0.2)
    first: Quantity | None = quantity(
        "length", "Station of the first rib's centre line; cuts cannot be judged against ribs without.", low=-3,
        high=5, default=None,
    )  # fmt: skip


class Bows(Section):
    """The roof bows."""

    depth: Quantity = quantity("length", "From the roof skin to the underside of a bow.", low=0.0, high=0.15)
    spacing: Quantity = quantity("length", "Between bows.", low=0.15, high=2.0)
    first: Quantity | None = quantity(
        "length", "Station of the first bow; cuts cannot be judged against bows without.", low=-3, high=5, default=None
    )


class Skin(Section):
    """The sheet of the body."""

    material: str = words("Sheet of the library.", default="steel")
    thickness: Quantity | None = quantity(
        "length", "Thickness of the sheet.", low=0.0003, high=0.01, default=None, fallback="library: body"
    )
    beading: Quantity | None = quantity(
        "count", "How many times stiffer the beads make the sheet along them; 1 is a plain sheet.", low=1, high=200,
        default=None, fallback="library: body",
    )  # fmt: skip
    roof_radius: Quantity | None = quantity(
        "length", "Radius of the roof's curve across the van; the ring frequency is flagged.", low=0.5, high=50,
        default=None, fallback="library: body",
    )  # fmt: skip


class WheelBoxes(Section):
    """The boxes over the rear wheels."""

    between: Quantity = quantity("length", "Clear width between them.", low=0.7, high=2.2)
    height: Quantity = quantity("length", "Height over the steel floor.", low=0.05, high=0.6)
    front: Quantity = quantity("length", "Station of their front edge.", low=-3, high=8)
    rear: Quantity = quantity("length", "Station of their rear edge.", low=-3, high=8)


class AxleMasses(Section):
    """A mass and how the axles share it."""

    total: Quantity = quantity("mass", "Total.", low=500, high=12000)
    front: Quantity = quantity("mass", "On the front axle.", low=200, high=6000)
    rear: Quantity = quantity("mass", "On the rear axle.", low=200, high=8000)


class Vehicle(Section):
    """The van before the conversion; what is left out comes from the body in the library."""

    body: str = words("Body of the library that fills what is left out.", default="long high roof, rear drive")
    load_length: Quantity | None = quantity(
        "length", "From the B-pillar line to the rear doors.", low=1.0, high=6.0, default=None, fallback="library: body"
    )
    floor_to_bow: Quantity | None = quantity(
        "length", "Steel floor to the underside of the roof bows, on the centre line.", low=0.9, high=2.6, default=None,
        fallback="library: body",
    )  # fmt: skip
    floor_over_ground: Quantity | None = quantity(
        "length", "Steel floor over the ground.", low=0.2, high=1.3, default=None, fallback="library: body"
    )
    widths: tuple[WidthAt, ...] = section(
        "The body's section: widths by height, lowest first.", default=(), fallback="library: body"
    )
    skin: Skin | None = section("The sheet of the body.", fallback="library: body", default=None)
    ribs: Ribs | None = section("The ribs.", fallback="library: body", default=None)
    bows: Bows | None = section("The roof bows.", fallback="library: body", default=None)
    wheel_boxes: WheelBoxes | None = section("The wheel boxes.", fallback="library: body", default=None)
    wheel_boxes_present: str = choice("Whether wheel boxes stand into the load space.", ("yes", "no"), default="yes")
    front_axle: Quantity | None = quantity(
        "length", "Station of the front axle (negative: before the B-pillar line).", low=-3, high=1, default=None,
        fallback="library: body",
    )  # fmt: skip
    rear_axle: Quantity | None = quantity(
        "length", "Station of the rear axle.", low=0.5, high=7, default=None, fallback="library: body"
    )
    kerb: AxleMasses | None = section(
        "Kerb mass without driver, as weighed or listed.", fallback="library: body", default=None
    )
    plated: AxleMasses | None = section("Plated masses: the most the van and each axle may carry.",
                                        fallback="library: body", default=None)  # fmt: skip
    track_width: Quantity | None = quantity(
        "length", "Distance between the wheels' centres, mean of both axles.", low=1.0, high=2.4, default=None,
        fallback="library: body",
    )  # fmt: skip
    kerb_height: Quantity | None = quantity(
        "length", "Height of the empty van's centre of gravity over the ground.", low=0.3, high=1.5, default=None,
        fallback="library: body",
    )  # fmt: skip
    driver_side: str = choice("Side on which the driver sits.", ("left", "right"), default="left")
    seats: int = count("Seats in the cab.", low=1, high=9, default=3)
