"""Every record class of the library and the kinds they are filed under."""

from __future__ import annotations

from dataclasses import dataclass

from hushwright.library.base import Record
from hushwright.library.fittings import MountRecord, Seal
from hushwright.library.materials import (
    AbsorptionRow,
    Blanket,
    ClosedFoam,
    Covering,
    DampingLayer,
    Facing,
    Glass,
    LimpBarrier,
    Sheet,
    ViscoelasticCore,
)
from hushwright.library.safety import PaperRecord, SafetyLimit
from hushwright.library.surroundings import (
    Criterion,
    Limit,
    OutdoorSituation,
    RainClass,
    RoomSource,
    Spectrum,
)
from hushwright.library.thermal import ThermalMaterial
from hushwright.library.values import Source, Spread
from hushwright.library.vehicles import VanBody

__all__ = [
    "KINDS",
    "AbsorptionRow",
    "Blanket",
    "ClosedFoam",
    "Covering",
    "Criterion",
    "DampingLayer",
    "Facing",
    "Glass",
    "Kind",
    "Limit",
    "LimpBarrier",
    "MountRecord",
    "OutdoorSituation",
    "PaperRecord",
    "RainClass",
    "Record",
    "RoomSource",
    "SafetyLimit",
    "Seal",
    "Sheet",
    "Source",
    "Spectrum",
    "Spread",
    "ThermalMaterial",
    "VanBody",
    "ViscoelasticCore",
    "kind_of",
]


@dataclass(frozen=True, slots=True)
class Kind:
    """A kind of record: the word for it in build files, its class, its table, its name spoken and in headings."""

    word: str
    record: type[Record]
    table: str
    spoken: str
    plural: str


_ALL = (
    Kind("sheet", Sheet, "sheets.csv", "sheet", "Sheets"),
    Kind("limp", LimpBarrier, "barriers.csv", "limp barrier", "Limp barriers"),
    Kind("damping", DampingLayer, "damping.csv", "damping layer", "Damping layers"),
    Kind("core", ViscoelasticCore, "cores.csv", "viscoelastic core", "Viscoelastic cores"),
    Kind("blanket", Blanket, "blankets.csv", "blanket", "Porous blankets and open foams"),
    Kind("foam", ClosedFoam, "closed_foams.csv", "closed foam", "Closed foams"),
    Kind("glass", Glass, "glass.csv", "glass", "Glass"),
    Kind("seal", Seal, "seals.csv", "seal", "Seals"),
    Kind("mount", MountRecord, "mounts.csv", "mount", "Mounts"),
    Kind("covering", Covering, "coverings.csv", "covering", "Coverings"),
    Kind("absorption", AbsorptionRow, "absorption.csv", "absorption", "Absorption"),
    Kind("facing", Facing, "facings.csv", "facing", "Facings"),
    Kind("thermal", ThermalMaterial, "thermal.csv", "thermal material", "Heat and vapour in materials"),
    Kind("body", VanBody, "bodies.toml", "van body", "Van bodies"),
    Kind("outdoors", OutdoorSituation, "outdoors.csv", "outdoor situation", "Outdoor situations"),
    Kind("room_source", RoomSource, "room_sources.csv", "source in the room", "Sources in the room"),
    Kind("rain", RainClass, "rain.csv", "rain", "Rain"),
    Kind("criterion", Criterion, "criteria.csv", "criterion", "Criteria"),
    Kind("limit", Limit, "limits.csv", "limit", "Limits and allowances"),
    Kind("safety_limit", SafetyLimit, "safety_limits.csv", "limit of safety", "Limits of safety"),
    Kind("paper", PaperRecord, "papers.csv", "paper", "Papers by jurisdiction"),
)
KINDS: dict[str, Kind] = {kind.word: kind for kind in _ALL}
"""Kinds by the word they have in build files."""

_BY_RECORD = {kind.record: kind for kind in _ALL}


def kind_of(record: type[Record]) -> Kind:
    """Kind that a record class is filed under."""
    return _BY_RECORD[record]
