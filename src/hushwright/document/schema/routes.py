"""Ways of cables and ducts through the vehicle."""

from __future__ import annotations

from hushwright.document.fields import Quantity, Section, choice, quantity, section, words


class RoutePoint(Section):
    """A point of a route."""

    station: Quantity = quantity("length", "Station.", low=-4, high=10)
    offset: Quantity = quantity("length", "Left of the centre line (right is negative).", low=-5, high=5,
                                default="0 mm")  # fmt: skip
    height: Quantity = quantity("length", "Height over the steel floor.", low=-1, high=4, default="0 mm")


class Route(Section):
    """A way of cables or of a duct, from point to point in straight lines."""

    points: tuple[RoutePoint, ...] = section("Points of the way, at least two.", shortest=2, longest=60)
    fixed_to: tuple[str, ...] = choice(
        "What it is fixed to along its way. Left out, the body.", ("body", "quiet", "control", "loose"), default=(),
    )  # fmt: skip
    slack: Quantity = quantity("share", "Length added for bends, connections and a spare end.", low=0, high=1,
                               default="10 %")  # fmt: skip
    bundled_with: tuple[str, ...] = words("Routes whose cables lie in one bundle with these.", default=())
    passes: tuple[str, ...] = words(
        "Openings and cuts that it passes, by name: glands of the floating room, holes in the vehicle.", default=()
    )
    loop: str = choice(
        "Whether it hangs in a loose loop where it passes from a fixed part to the floating room; without one it is "
        "a bridge.",
        ("yes", "no"), default="no",
    )  # fmt: skip
    run: str = words("Run of `air` whose duct lies along this way.", default="")
