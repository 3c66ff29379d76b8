"""The whole build file, and the small file of one build-up."""

from __future__ import annotations

from hushwright.document.fields import Quantity, Section, count, quantity, section, words
from hushwright.document.schema.air import AirSupply
from hushwright.document.schema.anchoring import Restraint
from hushwright.document.schema.brief import Brief
from hushwright.document.schema.climate import Climate
from hushwright.document.schema.costs import Labour, Option, Prices
from hushwright.document.schema.cuts import Cut
from hushwright.document.schema.drawn import Drawn
from hushwright.document.schema.handing_over import Handover, Quoting
from hushwright.document.schema.mass import Measured
from hushwright.document.schema.mounts import MountGroup
from hushwright.document.schema.openings import Opening, SealLine
from hushwright.document.schema.own_records import OwnRecords
from hushwright.document.schema.power import Power
from hushwright.document.schema.rooms import Fitting, Room, State, Tolerances, Treatment
from hushwright.document.schema.routes import Route
from hushwright.document.schema.safety import Safety
from hushwright.document.schema.signals import Signals
from hushwright.document.schema.surfaces import Bridge, Faces, Layer
from hushwright.document.schema.use import Workplace
from hushwright.document.schema.vehicle import Vehicle
from hushwright.document.schema.venue import PaperList, Venue

FORMAT_VERSION = 1


class BuildFile(Section):
    """A special-purpose van, from the brief to the build-ups."""

    hushwright: int = count("Version of this file format.", low=1, high=FORMAT_VERSION, default=FORMAT_VERSION,
                            descriptive="says how the file is to be read")  # fmt: skip
    title: str = words("Title.", default="", longest=120, descriptive="names the build in every output")
    note: str = words("Remarks.", default="", descriptive="free text, printed and never read as a value")
    date: str = words("Date of this revision, as it is to be printed.", default="",
                      descriptive="printed on every output")  # fmt: skip
    brief: Brief = section("What the client asks for.")
    vehicle: Vehicle = section("The van before the conversion.")
    rooms: dict[str, Room] = section("Rooms by name; `quiet_room` and `control_room` are the usual ones.", default={})
    surfaces: dict[str, Faces] = section("Build-ups of each room's faces.", default={})
    openings: dict[str, Opening] = section("Doors, windows, glands, ducts, holes by name.", default={})
    cuts: dict[str, Cut] = section("Holes in the vehicle by name.", default={})
    mounts: dict[str, MountGroup] = section("Groups of mounts by name.", default={})
    treatments: tuple[Treatment, ...] = section("Absorbers on finished faces.", default=())
    air: AirSupply | None = section("Ventilation.", default=None)
    climate: Climate | None = section("Place and weather, heater, cooler, lamps and gear.", default=None)
    routes: dict[str, Route] = section("Ways of cables and ducts by name.", default={})
    power: Power | None = section("Bank, converter, sources, loads, and the plan of a day.", default=None)
    signals: Signals | None = section("Lines, headphones, earths, and gear near microphones.", default=None)
    fittings: tuple[Fitting, ...] = section("Things built in.", default=())
    workplace: Workplace | None = section("The seat at the desk: what it reaches, sees, hears.", default=None)
    restraint: Restraint | None = section("How the floating room and heavy fittings are held.", default=None)
    states: dict[str, State] = section("States of use by name.", default={})
    safety: Safety | None = section("What keeps people safe.", default=None)
    venue: dict[str, Venue] = section("Venues by name.", default={})
    papers: dict[str, PaperList] = section("Papers by jurisdiction: EU, UK, US, AU or another name.", default={})
    prices: Prices | None = section("What things cost.", default=None)
    labour: Labour | None = section("What work costs, job by job.", default=None)
    options: tuple[Option, ...] = section("Alternatives that the client may choose.", default=())
    quote: Quoting | None = section("Head and terms of the quote.", default=None)
    handover: Handover | None = section("What the handover book holds beside what is computed.", default=None)
    drawings: Drawn | None = section("Title block of the drawings, and where sections are cut.", default=None)
    tolerances: Tolerances | None = section("How closely the workshop builds.", default=None)
    measured: Measured | None = section("What was measured on this van.", default=None)
    library: OwnRecords | None = section("Records of the workshop's own.", default=None)


class PartitionFile(Section):
    """One build-up on its own."""

    hushwright: int = count("Version of this file format.", low=1, high=FORMAT_VERSION, default=FORMAT_VERSION,
                            descriptive="says how the file is to be read")  # fmt: skip
    title: str = words("Title.", default="", descriptive="names the build-up in the output")
    layers: tuple[Layer, ...] = section("Layers, outside first.")
    area: Quantity | None = quantity("area", "Area, taken as a square, when width and height are not given.",
                                     low=0.01, high=1000, default=None)  # fmt: skip
    width: Quantity | None = quantity("length", "Width.", low=0.05, high=50, default=None)
    height: Quantity | None = quantity("length", "Height.", low=0.05, high=50, default=None)
    bridges: tuple[Bridge, ...] = section("Fixings across the cavity.", default=())
    seal: SealLine | None = section("Seals round the edge, for a door.", default=None)
    air_temperature: Quantity = quantity("temperature", "Air temperature.", low=-20, high=45, default="20 °C")
    vehicle: Vehicle | None = section(
        "The van whose skin `skin: body` means; the library's body when left out.", default=None
    )
    library: OwnRecords | None = section("Records of the workshop's own.", default=None)
