"""Build-ups: layers from the outside in."""

from __future__ import annotations

from typing import ClassVar

from hushwright.document.fields import (
    Quantity,
    Section,
    choice,
    count,
    quantity,
    section,
    words,
)

JOINTS = ("glued", "loose")


class SkinLayer(Section):
    """The vehicle's own sheet, `skin: body`."""

    key: ClassVar[str] = "skin"
    skin: str = choice("The sheet of the vehicle.", ("body",))


class DampingLayer(Section):
    """A damping pad stuck on the sheet before it."""

    key: ClassVar[str] = "damping"
    damping: str = words("Damping layer of the library.")
    thickness: Quantity = quantity("length", "Thickness of the pad.", low=0.0002, high=0.02)
    coverage: Quantity = quantity("share", "Share of the sheet that is covered.", low=0, high=1, default="100 %")


class SheetLayer(Section):
    """A sheet: plywood, board, metal."""

    key: ClassVar[str] = "sheet"
    sheet: str = words("Sheet of the library.")
    thickness: Quantity = quantity("length", "Thickness.", low=0.0002, high=0.1)
    joint: str = choice(
        "How it lies on a sheet directly before it: `glued` acts as one plate, `loose` as two.", JOINTS, default="glued"
    )


class CoreLayer(Section):
    """A thin viscoelastic layer between two sheets or panes."""

    key: ClassVar[str] = "core"
    core: str = words("Viscoelastic core of the library.")
    thickness: Quantity = quantity("length", "Thickness.", low=0.0001, high=0.01)


class LimpLayer(Section):
    """A heavy limp barrier."""

    key: ClassVar[str] = "limp"
    limp: str = words("Limp barrier of the library.")
    thickness: Quantity = quantity("length", "Thickness.", low=0.0003, high=0.03)


class Frame(Section):
    """Battens that carry the inner leaf, standing into the cavity from it."""

    depth: Quantity = quantity("length", "Depth of the battens.", low=0.005, high=0.15)
    width: Quantity = quantity("length", "Width of a batten.", low=0.01, high=0.15)
    spacing: Quantity = quantity("length", "About between battens.", low=0.1, high=2.0)
    sheet: str = words("Material, a sheet of the library.", default="spruce")


class CavityLayer(Section):
    """An air space, with or without a blanket; the ribs of the body stand in it where it touches the skin."""

    key: ClassVar[str] = "cavity"
    cavity: Quantity = quantity(
        "length", "Depth: from the skin on the sides, from the underside of the bows under the roof.", low=0, high=1.0
    )
    fill: str = words("Blanket of the library; left out, the space is empty.", default="")
    fill_thickness: Quantity | None = quantity(
        "length", "Thickness of the blanket; left out it fills the space.", low=0, high=1.0, default=None
    )
    frame: Frame | None = section("Battens of the inner leaf in this space.", default=None)


class FloorMountsLayer(Section):
    """The mounts under a floating floor; the space is their loaded height."""

    key: ClassVar[str] = "floor_mounts"
    floor_mounts: str = words("Name of the group in `mounts`.")
    bearer_depth: Quantity = quantity("length", "Depth of the bearers on the mounts.", low=0, high=0.2, default="0 mm")
    bearer_width: Quantity = quantity("length", "Width of a bearer.", low=0.01, high=0.2, default="45 mm")
    bearer_spacing: Quantity = quantity(
        "length", "About between bearers; each row has one.", low=0.1, high=2, default="500 mm"
    )
    bearer_sheet: str = words("Material of the bearers, a sheet of the library.", default="spruce")
    fill: str = words("Blanket between the bearers; left out, empty.", default="")
    fill_thickness: Quantity | None = quantity(
        "length", "Thickness of that blanket; left out it fills the space.", low=0, high=0.3, default=None
    )


class BlanketLayer(Section):
    """An open porous blanket that sound enters."""

    key: ClassVar[str] = "blanket"
    blanket: str = words("Blanket of the library.")
    thickness: Quantity = quantity("length", "Thickness.", low=0.002, high=0.5)


class FoamLayer(Section):
    """A closed or glued foam, which acts as a spring between two sheets."""

    key: ClassVar[str] = "foam"
    foam: str = words("Closed foam of the library.")
    thickness: Quantity = quantity("length", "Thickness.", low=0.001, high=0.2)


class GlassLayer(Section):
    """A pane."""

    key: ClassVar[str] = "glass"
    glass: str = words("Glass of the library.")
    thickness: Quantity = quantity("length", "Thickness.", low=0.001, high=0.05)


class FacingLayer(Section):
    """A perforated facing."""

    key: ClassVar[str] = "facing"
    facing: str = words("Facing of the library.")
    thickness: Quantity = quantity("length", "Thickness.", low=0.0002, high=0.05)


class CoveringLayer(Section):
    """A floor covering."""

    key: ClassVar[str] = "covering"
    covering: str = words("Covering of the library.")
    thickness: Quantity = quantity("length", "Thickness.", low=0.0003, high=0.03)


Layer = (
    SkinLayer | DampingLayer | SheetLayer | CoreLayer | LimpLayer | CavityLayer | FloorMountsLayer | BlanketLayer
    | FoamLayer | GlassLayer | FacingLayer | CoveringLayer
)  # fmt: skip


class Bridge(Section):
    """A fixing across a cavity that ties the two leaves together."""

    kind: str = choice("Along lines (battens, studs) or at points (screws, mounts).", ("line", "point"))
    spacing: Quantity | None = quantity("length", "Between lines.", low=0.05, high=5, default=None)
    number: int | None = count("Points on the whole face.", low=1, high=5000, default=None)
    stiffness: Quantity | None = quantity(
        "stiffness", "Of one point; left out it is rigid.", low=100, high=1e10, default=None
    )
    line_stiffness: Quantity | None = quantity(
        "modulus", "Of one metre of line; left out it is rigid.", low=100, high=1e11, default=None
    )


class SurfaceBuildUp(Section):
    """The build-up of one face of a room, from the outside in."""

    layers: tuple[Layer, ...] = section("Layers, outside first.", default=())
    same_as: str = words("Name of another face of this room whose build-up this one has.", default="")
    bridges: tuple[Bridge, ...] = section("Fixings across the cavity.", default=())
    edge_gap: Quantity = quantity(
        "length", "Slit left round the outer leaf where it meets the vehicle; best given as a range.",
        low=0, high=0.02, default="0 mm",
    )  # fmt: skip


class Faces(Section):
    """Build-ups of the faces of a room."""

    left: SurfaceBuildUp | None = section("Left side.", default=None)
    right: SurfaceBuildUp | None = section("Right side.", default=None)
    ceiling: SurfaceBuildUp | None = section("Ceiling.", default=None)
    floor: SurfaceBuildUp | None = section("Floor.", default=None)
    front: SurfaceBuildUp | None = section("Front end.", default=None)
    rear: SurfaceBuildUp | None = section("Rear end.", default=None)
    wheel_boxes: SurfaceBuildUp | None = section("Over the wheel boxes.", default=None)
