"""What gets a number in the drawings: openings and fittings, with their places and sizes as far as the file says."""

from __future__ import annotations

from dataclasses import dataclass

from hushwright.drawings.geometry import spoken
from hushwright.model.build import Build, MassItem, OpeningInPlace
from hushwright.model.use_in_place import EnvelopeInPlace
from hushwright.units import System, format_quantity

_Footprint = tuple[float, float, float | None]  # along, across, and how high [m]
_LEAST = 0.02  # m, under which a foot print is none
_HIGH = 1.5  # m over the steel floor, from which a thing lies above the cut of the plan


@dataclass(frozen=True, slots=True)
class Thing:
    """A numbered thing: its centre (station, y left, height), its size along, across and up; 0 where unknown."""

    number: str
    text: str
    part: str
    layer: str
    station: float
    y: float
    z: float
    size: tuple[float, float, float]
    base: float | None = None  # m over the steel floor, where only the base on which it is held is known

    @property
    def above(self) -> bool:
        """Whether it lies above the cut of the plan."""
        return self.z > _HIGH


def things_of(build: Build, system: System = "metric") -> tuple[Thing, ...]:
    """Openings first, then fittings, numbered through."""
    found: list[Thing] = []
    for opening in build.openings:
        station, y, z = opening.centre
        text = _named(opening) + (f", {opening.number} alike" if opening.number > 1 else "")
        if opening.in_vehicle and opening.face in ("left", "right") and y == 0.0:
            y = build.vehicle.section.half_width_at("left", z) * (1.0 if opening.face == "left" else -1.0)
        found.append(Thing(str(len(found) + 1), text, opening.name, "openings", station, y, z, (0.0, 0.0, 0.0)))
    footprints, envelopes = _footprints(build), {each.name: each for each in build.use.envelopes}
    for item in build.masses:
        if item.group == "fittings":
            found.append(_fitting(str(len(found) + 1), item, envelopes.get(item.name), footprints, system))
    return tuple(found)


def _named(opening: OpeningInPlace) -> str:
    """Name of an opening, with its kind where the name does not say it."""
    name, what = spoken(opening.name), opening.kind.split()[-1]
    return name if what in (name.split()[-1], name.split()[-1].removesuffix("s")) else f"{name}, {opening.kind}"


def _fitting(
    number: str, item: MassItem, envelope: EnvelopeInPlace | None, footprints: dict[str, _Footprint], system: System
) -> Thing:
    """A fitting by the room it takes where the file says it, else by the base on which it is held."""
    text = f"{item.name}, {format_quantity(item.mass, 'mass', system)}"
    if envelope is not None:
        return Thing(number, text, item.name, "fittings", *envelope.centre, envelope.size)
    size, base = item.size, None
    if size[0] <= 0.0 or size[1] <= 0.0:
        along, across, base = footprints.get(item.name, (0.0, 0.0, None))
        size = (along, across, 0.0)
    return Thing(number, text, item.name, "fittings", item.station, item.y, item.z, size, base)


def _footprints(build: Build) -> dict[str, _Footprint]:
    """Length and width of the base on which a fitting is held, where the file gives both, and how high it is."""
    found: dict[str, _Footprint] = {}
    sized = {
        each.name for each in build.document.root.fittings
        if each.restraint is not None and {"base_length", "base_width"} <= each.restraint.model_fields_set
    }  # fmt: skip
    for fitting in build.anchoring.fittings:
        if not fitting.anchors or fitting.name not in sized:
            continue
        stations = [anchor.at[0] for anchor in fitting.anchors]
        offsets = [anchor.at[1] for anchor in fitting.anchors]
        along, across = max(stations) - min(stations), max(offsets) - min(offsets)
        if along > _LEAST and across > _LEAST:
            found[fitting.name] = (along, across, min(anchor.at[2] for anchor in fitting.anchors))
    return found
