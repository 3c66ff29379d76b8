"""Pieces of a duct run, told apart by their key."""

from __future__ import annotations

from typing import ClassVar

from hushwright.document.fields import Quantity, Section, choice, count, quantity, section, words
from hushwright.document.schema.brief import Octaves

WALLS = ("galvanised steel", "smooth plastic", "drawn aluminium", "fibrous lining")
FAN_KINDS = (
    "forward curved", "airfoil small", "radial low pressure", "vaneaxial medium hub", "tubeaxial small", "propeller",
)  # fmt: skip


class GrilleElement(Section):
    """Grille at an end of a run; an end without one is an open pipe."""

    key: ClassVar[str] = "grille"
    grille: str = choice("Which end it is at.", ("intake", "outlet"))
    diameter: Quantity | None = quantity("length", "Diameter of a round one.", low=0.02, high=0.6, default=None)
    width: Quantity | None = quantity("length", "Width of its face.", low=0.02, high=1.5, default=None)
    height: Quantity | None = quantity("length", "Height of its face.", low=0.02, high=1.5, default=None)
    free_share: Quantity = quantity("share", "Free share of its face.", low=0.05, high=1, default="60 %")
    throws: str = choice(
        "How an outlet gives its air: in a jet, or spread over its whole face by felt or fine holes.",
        ("jet", "spread"), default="jet",
    )  # fmt: skip
    from_people: Quantity | None = quantity(
        "length", "From an outlet to the nearest neck.", low=0.1, high=5, default=None, fallback="library: limit"
    )


class StraightElement(Section):
    """Straight duct."""

    key: ClassVar[str] = "straight"
    straight: Quantity = quantity("length", "Its length.", low=0, high=20)
    diameter: Quantity | None = quantity("length", "Clear diameter of a round one.", low=0.02, high=0.6, default=None)
    width: Quantity | None = quantity("length", "Clear width.", low=0.02, high=1.5, default=None)
    height: Quantity | None = quantity("length", "Clear height.", low=0.02, high=1.5, default=None)
    lining: Quantity = quantity("length", "Thickness of a sound-absorbing lining; the clear size is inside it.", low=0,
                                high=0.1, default="0 mm")  # fmt: skip
    wall: str = choice("What the air rubs on.", WALLS, default="galvanised steel")


class BendElement(Section):
    """Bend or mitred corner, of the duct before it."""

    key: ClassVar[str] = "bend"
    bend: Quantity = quantity("angle", "Angle by which the air turns.", low=0.05, high=2.6)
    radius: Quantity | None = quantity("length", "Radius of the centre line; a sharp corner has none.", low=0.02,
                                       high=2, default=None)  # fmt: skip


class FlexibleElement(Section):
    """Flexible duct."""

    key: ClassVar[str] = "flexible"
    flexible: Quantity = quantity("length", "Its length as it lies.", low=0, high=20)
    diameter: Quantity = quantity("length", "Inner diameter.", low=0.05, high=0.6)
    stretched: Quantity = quantity("share", "Its length over its length when pulled straight.", low=0.4, high=1,
                                   default="85 %")  # fmt: skip
    free_share: Quantity = quantity("share", "Share of its round area that is left where it is crushed.", low=0.05,
                                    high=1, default="100 %")  # fmt: skip
    lined: str = choice("Whether it has a sound-absorbing lining.", ("yes", "no"), default="no")


class ReducerElement(Section):
    """Change of section: reducer or widening."""

    key: ClassVar[str] = "reducer"
    reducer: Quantity = quantity("length", "Its length; 0 is a step.", low=0, high=2)
    diameter: Quantity | None = quantity("length", "Diameter behind it.", low=0.02, high=0.6, default=None)
    width: Quantity | None = quantity("length", "Width behind it.", low=0.02, high=1.5, default=None)
    height: Quantity | None = quantity("length", "Height behind it.", low=0.02, high=1.5, default=None)


class FilterElement(Section):
    """Filter, or anything else whose loss is known at one flow."""

    key: ClassVar[str] = "filter"
    filter: str = words("What it is.", descriptive="names the piece in lists")
    pressure_loss: Quantity = quantity("pressure", "Pressure it takes when clean.", low=0.1, high=500)
    at: Quantity = quantity("volume_flow", "Flow at which it takes that.", low=0.001, high=1)
    soiling: Quantity = quantity("share", "By how much its loss has grown over the clean one.", low=0, high=1,
                                 default="0 %")  # fmt: skip


class BaffleBoxElement(Section):
    """Lined box in which staggered baffles lead the air from side to side."""

    key: ClassVar[str] = "baffle_box"
    baffle_box: Quantity = quantity("length", "Outer length, from inlet to outlet.", low=0.15, high=3)
    width: Quantity = quantity("length", "Outer width, the way the baffles reach.", low=0.1, high=1.5)
    height: Quantity = quantity("length", "Outer height, along the edges of the baffles.", low=0.1, high=1.5)
    wall: Quantity = quantity("length", "Thickness of its boards.", low=0.001, high=0.05, default="12 mm")
    lining: Quantity = quantity("length", "Thickness of its lining; a baffle is as thick, half on each face.",
                                low=0.005, high=0.15)  # fmt: skip
    absorber: str = words("Blanket of the library that lines it.", default="melamine foam")
    baffles: int = count("Number of baffles.", low=0, high=12, default=0)
    passage: Quantity | None = quantity(
        "length", "Free width between the tip of a baffle and the lining opposite.", low=0.01, high=1, default=None
    )


class CurvePoint(Section):
    """A point of a fan's curve."""

    flow: Quantity = quantity("volume_flow", "Flow.", low=0, high=2)
    pressure: Quantity = quantity("pressure", "Total pressure there.", low=0, high=3000)


class FanElement(Section):
    """A fan, by two numbers or by its curve."""

    key: ClassVar[str] = "fan"
    fan: str = words("What it is called.", descriptive="names the piece in lists")
    kind: str = choice("Kind of wheel; it shapes the spectrum where the file gives none.", FAN_KINDS,
                       default="forward curved")  # fmt: skip
    shut_off: Quantity | None = quantity("pressure", "Pressure without flow.", low=1, high=3000, default=None)
    free_flow: Quantity | None = quantity("volume_flow", "Flow without resistance.", low=0.001, high=2, default=None)
    curve: tuple[CurvePoint, ...] = section("Its curve, rising flow.", default=())
    speed: Quantity = quantity("share", "Speed over the rated one.", low=0.1, high=1, default="100 %")
    power: Quantity | None = quantity("power", "Electrical power at rated speed.", low=0.1, high=2000, default=None)
    sound_power: Quantity | None = quantity(
        "level_a", "A-weighted sound power level into its duct, at rated speed.", low=10, high=110, default=None
    )
    octaves: Octaves | None = section("Sound power level into its duct per octave, at rated speed.", default=None)


RunElement = (
    GrilleElement
    | StraightElement
    | BendElement
    | FlexibleElement
    | ReducerElement
    | FilterElement
    | BaffleBoxElement
    | FanElement
)
