"""Doors, windows, glands, ducts and holes, with their seals."""

from __future__ import annotations

from hushwright.document.fields import Quantity, Section, choice, count, quantity, section, words
from hushwright.document.schema.brief import Octaves
from hushwright.document.schema.cuts import DoorHardware
from hushwright.document.schema.surfaces import Layer
from hushwright.document.schema.use import Swing

OPENING_KINDS = ("door", "window", "vehicle door", "vehicle window", "gland", "duct", "hole")


class SealLine(Section):
    """Seals round the edge of a door or pane."""

    seal: str = words("Seal of the library.")
    rows: int = count("Rows one behind the other.", low=1, high=4, default=1)
    residual_gap: Quantity | None = quantity(
        "length", "Width of the slit that workmanship leaves; best given as a range.", low=0, high=0.01, default=None,
        fallback="library: seal",
    )  # fmt: skip
    force: Quantity | None = quantity(
        "force_per_length", "Force of one row at its closed gap; the force to close a door follows.", low=0, high=2000,
        default=None, fallback="library: seal",
    )  # fmt: skip


class Opening(Section):
    """An opening in a face of a room or of the vehicle."""

    kind: str = choice("What it is.", OPENING_KINDS)
    face: str = words("Face it is in: `quiet_room.front`, `vehicle.rear`, …")
    width: Quantity | None = quantity("length", "Clear width.", low=0.005, high=3, default=None)
    height: Quantity | None = quantity("length", "Clear height.", low=0.005, high=2.6, default=None)
    diameter: Quantity | None = quantity("length", "Diameter of a round one.", low=0.001, high=0.6, default=None)
    number: int = count("How many alike.", low=1, high=200, default=1)
    sill: Quantity = quantity("length", "Lower edge over the steel floor.", low=-0.6, high=2.4, default="0 mm")
    offset: Quantity = quantity(
        "length", "Centre: left of the centre line on an end, station on a side.", low=-3, high=8, default="0 mm"
    )
    layers: tuple[Layer, ...] = section("Build-up of the leaf or panes, outside first.", default=())  # fmt: skip
    frames: str = choice(
        "Two panes: each frame on its own leaf, or one common frame.", ("separate", "common"), default="separate"
    )
    reveal: Quantity = quantity("length", "Depth of the niche in front of the pane.", low=0, high=0.6, default="0 mm")
    seals: SealLine | None = section("Seals round the edge.", default=None)
    overlap: Quantity | None = quantity(
        "length", "How far leaf or pane lies over its frame beyond the clear size; a door not at its foot.",
        low=0, high=0.15, default=None, fallback="rows of its seals",
    )  # fmt: skip
    hardware: DoorHardware | None = section("Hinges, latch and handle of a door.", default=None)
    swing: Swing | None = section("How a hinged door moves.", default=None)
    behind: str = words("Name of the opening one has to pass first; the two in series are one way in.", default="")
    filled: str = choice("What closes a gland or hole.", ("open", "sealed", "packed with putty"), default="sealed")
    depth: Quantity | None = quantity(
        "length", "Length of a hole or gland through the wall.", low=0, high=1, default=None,
        fallback="build-up of its face",
    )  # fmt: skip
    run: str = words("Run of `air` that passes a duct; its pieces then say what is lost.", default="")
    insertion_loss: Octaves | None = section("Insertion loss of a duct's lining and boxes per octave.", default=None)
