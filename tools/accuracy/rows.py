"""Measured rows and what they are made of: tables → rows → partitions, or a reason why not."""

from __future__ import annotations

import csv
import re
from dataclasses import dataclass, field, replace
from math import log10
from pathlib import Path

from hushwright.errors import InvalidInput
from hushwright.physics.acoustics import constants
from hushwright.physics.acoustics.bridges import Bridge, HeldPlate, LineBridge
from hushwright.physics.acoustics.layers import BondedPlates, Gap, Layer, LimpMass, Plate, Porous, PorousLayer
from hushwright.physics.acoustics.partition import Partition
from tools.accuracy import materials
from tools.accuracy.grammar import Cavity, Sheet, number, parse_cavity, parse_sheet
from tools.accuracy.materials import Solid, solid
from tools.accuracy.reasons import CannotModel, Reason

TABLES = Path(__file__).parents[2] / "tests" / "reference" / "tables"
OCTAVES = (63, 125, 250, 500, 1000, 2000, 4000, 8000)


@dataclass(frozen=True, slots=True)
class Row:
    """One measured row: octave values [dB] by band, ratings by kind, and the words of the table."""

    identity: str
    table: str
    description: str
    layers: str
    group: str
    octaves: dict[int, float]
    ratings: dict[str, float]
    total_mass: float | None
    area: float | None
    source: str
    note: str


@dataclass(frozen=True, slots=True)
class Settings:
    """The constants that the fit half sets."""

    edge_factor: float = constants.EDGE_FACTOR
    edge_absorption: float = constants.EDGE_ABSORPTION
    reveal_absorption: float = constants.REVEAL_ABSORPTION
    face_absorption: float = constants.FACE_ABSORPTION
    glass_face_absorption: float = constants.GLASS_FACE_ABSORPTION
    steel_stud_stiffness: float = constants.STEEL_STUD_STIFFNESS
    steel_stud_growth: float = constants.STEEL_STUD_GROWTH
    glazing_rim_stiffness: float = constants.GLAZING_RIM_STIFFNESS
    resilient_channel_stiffness: float = constants.RESILIENT_CHANNEL_STIFFNESS
    losses: dict[str, float] = field(default_factory=lambda: dict(constants.IN_SITU_LOSS))


@dataclass(frozen=True, slots=True)
class Modelled:
    """A row as a partition, and its class."""

    partition: Partition
    group: str


def read_rows() -> list[Row]:
    """All measured rows of the tables, in the order of the files."""
    rows: list[Row] = []
    for name in (
        "tl_handbook",
        "tl_thirdoctave",
        "glazing",
        "rw_din4109",
        "stc_stud_walls",
        "doors_stc",
        "ratings_misc",
    ):
        with (TABLES / f"{name}.csv").open(encoding="utf-8") as handle:
            rows += [_row(name, cells) for cells in csv.DictReader(handle)]
    return rows


def _row(table: str, cells: dict[str, str]) -> Row:
    printed = {band: number(cells.get(f"tl_{band}")) for band in OCTAVES}
    octaves = {band: value for band, value in printed.items() if value is not None}
    if table == "tl_thirdoctave" and "lower limits" not in (cells.get("note") or ""):
        octaves = _octaves_of_thirds(cells)
    return Row(
        cells["id"],
        table,
        cells.get("description") or "",
        cells.get("layers") or "?",
        cells.get("group") or "",
        octaves,
        _ratings(table, cells),
        number(cells.get("mass_kg_m2")),
        number(cells.get("area_m2")),
        (cells.get("source") or "").split(";")[0],
        cells.get("note") or "",
    )


def _octaves_of_thirds(cells: dict[str, str]) -> dict[int, float]:
    """Octave values where all three thirds are printed."""
    thirds = {63: (50, 63, 80), 125: (100, 125, 160), 250: (200, 250, 315), 500: (400, 500, 630)}
    thirds |= {1000: (800, 1000, 1250), 2000: (1600, 2000, 2500), 4000: (3150, 4000, 5000)}
    found = {}
    for octave, bands in thirds.items():
        values = [value for value in (number(cells.get(f"r_{band}")) for band in bands) if value is not None]
        if len(values) == len(bands):
            found[octave] = -10.0 * log10(sum(10.0 ** (-value / 10.0) for value in values) / 3.0)
    return found


def _ratings(table: str, cells: dict[str, str]) -> dict[str, float]:
    """Single numbers by kind."""
    printed = {kind: number(cells.get(kind)) for kind in ("Rw", "STC")}
    if table in ("stc_stud_walls", "ratings_misc"):
        printed[cells.get("rating") or "?"] = number(cells.get("value"))
    if table == "doors_stc":
        sealed = number(cells.get("stc_sealed"))
        printed["STC"] = sealed if sealed is not None else number(cells.get("stc_as_tested"))
    if table in ("tl_handbook", "tl_thirdoctave"):
        printed |= {kind: float(value) for kind, value in re.findall(r"(STC|Rw) (\d+)", cells.get("rating") or "")}
    return {kind: value for kind, value in printed.items() if value is not None}


WOOL = {
    "glass": Porous(7_000.0, 0.99, 1.0, 16.0),
    "mineral": Porous(8_000.0, 0.98, 1.0, 30.0),
}
"""Light building wools: 780·ρ^1.59/d² of porous_models.toml gives 7700 Pa·s/m² for rock wool of 30 kg/m³; glass wool of
16 kg/m³ from memory."""

_PREFERRED_DEPTH = (
    (r"staggered", 0.140),
    (r"two rows|double|separate timber", 0.203),
    (r"wood|timber", 0.089),
    (r"steel|metal|stud", 0.092),
)
_CHANNEL_DEPTH = 0.013
_FASTENERS = 0.3
_PLATE_THICKNESS = 0.038
_PLATE_NAILS = 2.0 * 440.0**1.5 * 3.75**0.8 / 30.0 * 1e3 / 0.4
"""Slip stiffness per length [N/m²] of a softwood sole plate on the structure: EN 1995-1-1:2004, table 7.1, nails
without predrilling (N/mm), twice that on concrete or steel (7.1(3)), both from memory; nails of 3.75 mm at 400 mm,
common practice, no source."""
_JOINT_ABSORPTION = 1.0
"""Rim of a space between leaves on frames of their own: the isolation joint, open or stuffed (common practice, no
source)."""
_DEEPEST_SPACER = 0.025
_GLAZING_OPENING = (1.25, 1.5)


def translate(row: Row, settings: Settings | None = None) -> Modelled | Reason:
    """Partition of a row, or the reason why there is none."""
    try:
        return _translate(row, settings or Settings())
    except CannotModel as stop:
        return stop.reason
    except InvalidInput:
        return Reason.NO_GEOMETRY  # what is printed does not make a wall, say a fill deeper than its cavity


def _translate(row: Row, settings: Settings) -> Modelled:
    text = row.layers.strip()
    _refuse(row, text)
    segments = [segment.strip() for segment in text.split("|")]
    if len(segments) % 2 == 0:
        raise CannotModel(Reason.NO_CONSTRUCTION)
    leaves = [[parse_sheet(sheet) for sheet in segment.split(" + ")] for segment in segments[::2]]
    cavities = [parse_cavity(segment) for segment in segments[1::2]]
    fill_mass = sum(_fill_mass(c) + _stud_mass(c) for c in cavities)
    leaves = _close_mass(leaves, row.total_mass, fill_mass)
    group = _group(row, leaves, cavities)
    width, height = _size(row, group)
    layers: list[Layer] = []
    bridges: list[Bridge] = []
    for index, leaf in enumerate(leaves):
        if index:
            gap, joined = _space(cavities[index - 1], width, height, settings)
            layers.append(gap)
            bridges += [replace(bridge, leaves=(index - 1, index)) for bridge in joined]
        layers += _leaf(leaf, settings)
    return Modelled(Partition(tuple(layers), width, height, tuple(bridges), edge_factor=settings.edge_factor), group)


def _refuse(row: Row, text: str) -> None:
    """Reasons that the words give away."""
    words = f"{text} {row.description}".lower()
    checks: tuple[tuple[bool, Reason], ...] = (
        (
            bool(re.search(r"calculated|example|reference heavy|reference floor|level difference|annex", words)),
            Reason.NOT_MEASURED,
        ),
        (row.table == "doors_stc", Reason.DOOR),
        (bool(re.search(r"low trust|reads low|do not use", row.note)), Reason.LOW_TRUST),
        (text in ("", "?") or text.endswith("| ?") or text.startswith("? |"), Reason.NO_CONSTRUCTION),
        (bool(re.search(r"\bglass\b.*\bof\b|% of", words)) and "door" in words, Reason.COMPOSITE),
        (bool(re.search(r"fluted|corrugated|profiled", words)), Reason.PROFILED),
        (bool(re.search(r"leaks|screen|unpainted|unplastered", words)), Reason.LEAKS),
        (
            bool(re.search(r"hollow-core|hollow core|hollow metal|filled metal|flush|door 4\d mm", text.lower())),
            Reason.DOOR,
        ),
        (row.group == "door" and bool(re.search(r"skin \?|skin \? mm", text)), Reason.DOOR),
        (bool(re.search(r"bonded|straw|asbestos|polyurethane core", words)), Reason.SANDWICH),
        (bool(re.search(r"glass brick", words)), Reason.MATERIAL),
        (bool(re.search(r"joist|shingle|screed|carpet|hangers|floating", words)), Reason.FLOOR),
        (bool(re.search(r"ties|furring|isolator", words)), Reason.MASONRY_DOUBLE),
    )
    for hit, reason in checks:
        if hit:
            raise CannotModel(reason)


def _fill_mass(cavity: Cavity) -> float:
    if cavity.fill in ("none", "?") or "reveal" in cavity.fill:
        return 0.0
    thickness = cavity.fill_thickness or 0.8 * (cavity.depth or 0.09)
    return thickness * _wool(cavity.fill).density


def _stud_mass(cavity: Cavity) -> float:
    """Mass of studs per wall area [kg/m²], which a printed total holds too."""
    if "stud" not in cavity.joint or "no studs" in cavity.joint:
        return 0.0
    if not re.search(r"wood|timber", cavity.joint):
        return 1.5  # 0.5 mm sheet, common practice, no source
    section = re.search(r"(\d+)x(\d+)", cavity.joint)
    area = float(section[1]) * float(section[2]) / 1e6 if section else 0.038 * 0.089
    return area * materials.SOFTWOOD.density * (1.0 / 0.4 + 2.0 / 2.75)


def _wool(name: str) -> Porous:
    return WOOL["glass"] if re.search(r"glass|insulation|quilt|absorb", name) else WOOL["mineral"]


def _close_mass(leaves: list[list[Sheet]], total: float | None, fill_mass: float) -> list[list[Sheet]]:
    """Masses not printed share what the total leaves, in proportion to the typical ones; damping takes the rest."""
    typical = [[_typical_mass(sheet) for sheet in leaf] for leaf in leaves]
    pairs = [pair for leaf, masses in zip(leaves, typical, strict=True) for pair in zip(leaf, masses, strict=True)]
    known = sum(sheet.mass or 0.0 for sheet, _ in pairs) + fill_mass
    open_mass = sum(mass for sheet, mass in pairs if sheet.mass is None)
    damping = sum(sheet.name.lower().startswith("damping") for sheet, _ in pairs)
    scale, pad = 1.0, 0.0
    if total is not None and damping:
        pad = max(0.0, total - known - open_mass) / damping
    elif total is not None and open_mass > 0.0 and 0.4 <= (total - known) / open_mass <= 2.5:
        scale = (total - known) / open_mass

    def closed(sheet: Sheet, mass: float) -> Sheet:
        if sheet.mass is not None:
            return sheet
        return replace(sheet, mass=pad if sheet.name.lower().startswith("damping") else mass * scale)

    return [[closed(s, t) for s, t in zip(leaf, ts, strict=True)] for leaf, ts in zip(leaves, typical, strict=True)]


def _typical_mass(sheet: Sheet) -> float:
    name = sheet.name.lower()
    if re.search(r"glue|adhesive|pvb|viscoelastic", name):
        return 0.0
    if re.search(r"glass fibre|absorbent|wool|mat|insulation", name):
        return (sheet.thickness or 0.05) * _wool(name).density
    if name.startswith("laminated glass"):
        return (sheet.thickness or 0.006) * 2450.0
    if name.startswith("damping"):
        return 0.0
    record = solid(re.sub(r"^perforated ", "", name))
    if record is None:
        raise CannotModel(Reason.MATERIAL)
    if sheet.thickness is None:
        if sheet.mass is None:
            raise CannotModel(Reason.NO_GEOMETRY)
        return sheet.mass
    return sheet.thickness * record.density


def _group(row: Row, leaves: list[list[Sheet]], cavities: list[Cavity]) -> str:
    """Class of the row."""
    records = [solid(sheet.name) for leaf in leaves for sheet in leaf]
    names = [sheet.name.lower() for leaf in leaves for sheet in leaf]
    masonry = any(r is not None and r.family == "masonry" for r in records) and not any(
        r is not None and r.family == "gypsum" for r in records
    )
    glazed = all(("glass" in name and "fibre" not in name) or "pvb" in name for name in names)
    if row.group == "door":
        return "doors"
    if not cavities:
        if names[0].startswith("lead") and len(names) == 1 and "vinyl" not in names[0]:
            return "lead"
        return "single glazing" if glazed else "masonry" if masonry else "single leaves"
    if glazed:
        return "double glazing"
    if masonry:
        raise CannotModel(Reason.MASONRY_DOUBLE)
    joint = cavities[0].joint
    if not _is_joined(joint):
        return "uncoupled double"
    if re.search(r"wood|timber", joint):
        return "wood studs"
    return "steel studs"


def _is_joined(joint: str) -> bool:
    """Whether studs reach from leaf to leaf."""
    return bool(re.search(r"stud|channel|frame|spacer", joint)) and not re.search(
        r"no studs|staggered|two rows|double|separate|sealed", joint
    )


def _size(row: Row, group: str) -> tuple[float, float]:
    """Test opening: as printed, else the usual one of the kind (ISO 10140-5: 10 m² walls, 1.25 m × 1.5 m glazing)."""
    if row.area:
        return (row.area / 0.75) ** 0.5, (row.area * 0.75) ** 0.5
    if "glazing" in group:
        return _GLAZING_OPENING
    if group == "doors":
        return 0.9, 2.0
    return 3.6, 2.75


def _leaf(sheets: list[Sheet], settings: Settings) -> list[Layer]:
    """Sheets of one leaf; glued ones bonded, others side by side in bending."""
    names = [sheet.name.lower() for sheet in sheets]
    glues = [i for i, name in enumerate(names) if re.search(r"glue|pvb|viscoelastic", name)]
    if glues:
        plates = tuple(_plate(s, settings) for i, s in enumerate(sheets) if i not in glues)
        if any(isinstance(p, LimpMass) for p in plates):
            raise CannotModel(Reason.MATERIAL)
        solids = tuple(p for p in plates if isinstance(p, Plate))
        if "pvb" in names[glues[0]]:
            return [_laminate(solids)]
        return [
            BondedPlates(
                solids,
                materials.GLUE_THICKNESS,
                materials.GLUE_DENSITY,
                materials.GLUE_SHEAR_MODULUS,
                materials.GLUE_LOSS,
            )
        ]
    if len(sheets) > 1 and any(re.search(r"plaster$|stucco|render", name) for name in names):
        solids = tuple(p for p in (_plate(s, settings) for s in sheets) if isinstance(p, Plate))
        if len(solids) == len(sheets):  # plaster grows onto what it is put on: one stiff plate
            return [BondedPlates(solids, 1e-5, 1700.0, 1e11, 0.0)]
    layers: list[Layer] = []
    damped = any(name.startswith(("damping", "damped")) for name in names)
    for sheet, name in zip(sheets, names, strict=True):
        if name.startswith("damping"):
            layers.append(LimpMass(sheet.mass or 0.0, 0.002))
            continue
        if re.search(r"glass fibre|absorbent|wool|\bmat\b|insulation|cellulose", name):
            if sheet.thickness is None:
                raise CannotModel(Reason.NO_GEOMETRY)
            layers.append(PorousLayer(_wool(name), sheet.thickness))
        elif name.startswith("laminated glass"):
            layers.append(_laminated(sheet, settings))
        elif name.startswith("perforated"):
            continue  # a light open sheet over a blanket; its open area is not printed and hardly matters
        else:
            plate = _plate(sheet, settings)
            if damped and isinstance(plate, Plate):
                plate = replace(plate, loss_factor=0.1)
            layers.append(plate)
    return layers


def _laminate(plates: tuple[Plate, ...]) -> BondedPlates:
    return BondedPlates(
        plates, materials.PVB_THICKNESS, materials.PVB_DENSITY, materials.PVB_SHEAR_MODULUS, materials.PVB_LOSS
    )


def _laminated(sheet: Sheet, settings: Settings) -> BondedPlates:
    """Two equal panes that make up the nominal thickness."""
    if sheet.thickness is None:
        raise CannotModel(Reason.NO_GEOMETRY)
    pane = (sheet.thickness - materials.PVB_THICKNESS) / 2.0
    return _laminate((_plate(Sheet("glass", pane, None), settings),) * 2)  # type: ignore[arg-type]


def _plate(sheet: Sheet, settings: Settings) -> Plate | LimpMass:
    record: Solid | None = solid(sheet.name)
    if record is None:
        raise CannotModel(Reason.MATERIAL)
    mass = sheet.mass
    if record.limp:
        if mass is None:
            raise CannotModel(Reason.NO_GEOMETRY)
        return LimpMass(mass, sheet.thickness or 0.003)
    if sheet.thickness is None or sheet.thickness <= 0.0:
        raise CannotModel(Reason.NO_GEOMETRY)
    density = record.density if mass is None else mass / sheet.thickness
    if not 0.4 <= density / record.density <= 2.5:
        raise CannotModel(Reason.PROFILED)
    return Plate(
        sheet.thickness,
        density,
        record.youngs_modulus,
        record.poisson,
        settings.losses[record.family],
        record.youngs_modulus_across,
    )


def _space(cavity: Cavity, width: float, height: float, settings: Settings) -> tuple[Gap, list[LineBridge]]:
    """Gap of a printed cavity and the bridges across it."""
    joint = cavity.joint
    depth = cavity.depth
    if depth is None:
        depth = next((value for pattern, value in _PREFERRED_DEPTH if re.search(pattern, joint)), None)
    if depth is None:
        raise CannotModel(Reason.NO_GEOMETRY)
    if "resilient channel" in joint:
        depth += _CHANNEL_DEPTH
    spacing_text = re.search(r"c/c (\d+)", joint)
    spacing = float(spacing_text[1]) / 1000.0 if spacing_text else (0.4 if re.search(r"wood|timber", joint) else 0.6)
    joined = _is_joined(joint)
    studded = bool(re.search(r"stud|frames|channel", joint)) and not re.search(r"no studs|separate frames", joint)
    bay = (2.0 * (spacing + height), spacing * height) if studded else (None, None)
    edge = settings.edge_absorption
    glazed = (width, height) == _GLAZING_OPENING
    spacer = glazed and "separate" not in joint and depth <= _DEEPEST_SPACER
    if not (glazed or studded):
        edge = _JOINT_ABSORPTION
    if glazed and not spacer:
        edge = settings.reveal_absorption
    face = settings.glass_face_absorption if glazed else settings.face_absorption
    fill, fill_thickness = None, 0.0
    if "reveal" in cavity.fill:
        edge = max(edge, 0.8)
    elif cavity.fill not in ("none", "?"):
        fill = _wool(cavity.fill)
        fill_thickness = min(cavity.fill_thickness or 0.8 * depth, depth)
    gap = Gap(depth, fill, fill_thickness, bay[0], bay[1], edge, face)
    if not joined:
        return gap, _shared_rim(joint, spacer, depth, (width, height), settings)
    stiffness: float | None = None
    growth = 0.0
    if "resilient" in joint:
        stiffness, spacing = settings.resilient_channel_stiffness, 0.6
    elif not re.search(r"wood|timber", joint):
        stiffness, growth = settings.steel_stud_stiffness, settings.steel_stud_growth
    # Head and sole plate (or track) join the leaves along two more lines as long as the wall is wide.
    lines = 1.0 / spacing + 2.0 / height
    return gap, [LineBridge(lines, stiffness, fastener_spacing=_FASTENERS, stiffness_growth=growth)]


def _shared_rim(
    joint: str, spacer: bool, depth: float, size: tuple[float, float], settings: Settings
) -> list[LineBridge]:
    """What joins uncoupled leaves at their rim: the spacer of a sealed unit, head and sole plate of staggered studs."""
    width, height = size
    if "staggered" in joint:
        plate = HeldPlate(_PLATE_THICKNESS * depth * materials.SOFTWOOD.density, _PLATE_NAILS)
        return [LineBridge(2.0 / height, fastener_spacing=_FASTENERS, held=plate)]
    if spacer:
        return [LineBridge(2.0 * (width + height) / (width * height), settings.glazing_rim_stiffness)]
    return []
