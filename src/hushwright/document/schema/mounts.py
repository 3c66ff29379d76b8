"""Mounts under the floating floor."""

from __future__ import annotations

from hushwright.document.fields import Quantity, Section, choice, count, quantity, section, words


class MountPlace(Section):
    """Where one mount stands."""

    station: Quantity = quantity("length", "Station.", low=-2.5, high=7)
    offset: Quantity = quantity("length", "Left of the centre line (right is negative).", low=-1.3, high=1.3)


class MountGroup(Section):
    """Mounts of one kind."""

    mount: str = words("Mount of the library; what is given below overrides it.", default="")
    along: int = count("Rows along the van, spread evenly over the floor.", low=1, high=30, default=4)
    across: int = count("Rows across the van.", low=1, high=12, default=3)
    inset: Quantity = quantity("length", "From the floor's edge to the outer rows.", low=0, high=0.6, default="80 mm")
    places: tuple[MountPlace, ...] = section("Places one by one, instead of rows.", default=())
    static_stiffness: Quantity | None = quantity(
        "stiffness", "Static stiffness of one mount, vertical.", low=1e3, high=1e8, default=None,
        fallback="library: mount",
    )  # fmt: skip
    lateral_stiffness: Quantity | None = quantity(
        "stiffness", "Static stiffness of one mount, sideways.", low=1e3, high=1e8, default=None,
        fallback="library: mount",
    )  # fmt: skip
    dynamic_ratio: Quantity | None = quantity(
        "count", "Dynamic over static stiffness.", low=1, high=4, default=None, fallback="library: mount"
    )
    lowest_load: Quantity | None = quantity(
        "mass", "Least mass one mount should carry.", low=0, high=2000, default=None, fallback="library: mount"
    )
    highest_load: Quantity | None = quantity(
        "mass", "Most mass one mount may carry.", low=1, high=5000, default=None, fallback="library: mount"
    )
    free_height: Quantity | None = quantity(
        "length", "Height without load.", low=0.003, high=0.2, default=None, fallback="library: mount"
    )
    edges: str = choice(
        "Edges of the space under the floor: open to the gap, closed, or filled with wool.",
        ("open", "closed", "filled"), default="open",
    )  # fmt: skip
    stands_on: str = choice(
        "What of the vehicle's floor the mounts stand over; bare sheet between the members gives way far more.",
        ("cross-member", "rib", "sheet"), default="cross-member",
    )  # fmt: skip
    snubber_gap: Quantity | None = quantity(
        "length", "Free travel before the snubbers touch.", low=0, high=0.05, default=None
    )
    load_years: Quantity = quantity(
        "time", "How long the floor has stood when it is judged; rubber creeps.", low=0, high=1e9, default="365 day"
    )
