"""Materials of the measured rows, from materials_solids.csv; names as the rows write them."""

from __future__ import annotations

import re
from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Solid:
    """Density [kg/m³], modulus [Pa], Poisson's ratio [-], family for the loss factor, and the source."""

    density: float
    youngs_modulus: float
    poisson: float
    family: str
    source: str
    youngs_modulus_across: float | None = None
    limp: bool = False


def _from_speed(density: float, speed: float, poisson: float) -> float:
    """Modulus [Pa] from the speed of stretching waves in a plate."""
    return density * speed**2 * (1.0 - poisson**2)


STEEL = Solid(7800.0, 199.64e9, 0.28, "metal", "SOL-14")
ALUMINIUM = Solid(2700.0, 70e9, 0.35, "metal", "SOL-18")
LEAD = Solid(11340.0, 13.8e9, 0.44, "lead", "SOL-21")
GLASS = Solid(2500.0, 63.71e9, 0.24, "glass", "SOL-05")
GYPSUM = Solid(760.0, 2.1e9, 0.24, "gypsum", "SOL-22")
PLASTER = Solid(1710.0, _from_speed(1710.0, 1610.0, 0.2), 0.2, "masonry", "plateau table (mass), SOL-09 (wave speed)")
PLYWOOD = Solid(600.0, 8.3e9, 0.3, "wood", "SOL-24, Poisson's ratio from SOL-13")
CHIPBOARD = Solid(625.0, 2.1e9, 0.3, "wood", "SOL-27, Poisson's ratio from SOL-03")
FIBREBOARD = Solid(300.0, 0.25e9, 0.2, "wood", "memory: soft fibreboard, 0.1 to 0.5 GPa")
HARDBOARD = Solid(1000.0, 4.0e9, 0.3, "wood", "SOL-28, Poisson's ratio from memory")
MDF = Solid(770.0, 3.7e9, 0.3, "wood", "SOL-25, Poisson's ratio from SOL-06")
OSB = Solid(590.0, 3.55e9, 0.3, "wood", "SOL-07")
HARDWOOD = Solid(630.0, 12e9, 0.35, "wood", "SOL-31; across the grain a twelfth, from memory", 1.0e9)
SOFTWOOD = Solid(440.0, 10.01e9, 0.3, "wood", "SOL-15; across the grain a twelfth, from memory", 0.83e9)
ACRYLIC = Solid(1190.0, 3.5e9, 0.35, "wood", "SOL-34")
POLYCARBONATE = Solid(1200.0, 2.3e9, 0.35, "wood", "SOL-35")
BRICK = Solid(1750.0, _from_speed(1750.0, 2700.0, 0.2), 0.2, "masonry", "SOL-02")
CONCRETE = Solid(2200.0, 30.5e9, 0.2, "masonry", "SOL-04")
AIRCRETE = Solid(600.0, _from_speed(600.0, 1900.0, 0.2), 0.2, "masonry", "SOL-16")
BLOCK = Solid(1400.0, _from_speed(1400.0, 2500.0, 0.2), 0.2, "masonry", "SOL-17 (wave speed), mass from memory")
VINYL = Solid(2400.0, 0.0, 0.0, "lead", "mass as printed", limp=True)

NAMES: tuple[tuple[str, Solid], ...] = (
    (r"((lead|mass)[- ])?loaded (vinyl|pvc|rubber|barrier)|limp barrier", VINYL),
    (r"(galvani[sz]ed |mild |stainless )?steel( sheet| plate| skin)?", STEEL),
    (r"alumini?um( sheet| plate)?", ALUMINIUM),
    (r"lead( sheet)?", LEAD),
    (r"(float |plate |toughened )?glass", GLASS),
    (r"gypsum( ?board| wall ?board)?|plaster ?board|drywall|gwb", GYPSUM),
    (r"plaster|stucco|render", PLASTER),
    (r"plywood", PLYWOOD),
    (r"chipboard|particle ?board", CHIPBOARD),
    (r"(soft |wood )?fib(re|er) ?board|insulating board", FIBREBOARD),
    (r"hardboard", HARDBOARD),
    (r"mdf", MDF),
    (r"osb", OSB),
    (r"hardwood|oak|mahogany|birch", HARDWOOD),
    (r"softwood|timber( t&g)?|pine|spruce|solid wood( door)?", SOFTWOOD),
    (r"acrylic|perspex", ACRYLIC),
    (r"polycarbonate", POLYCARBONATE),
    (r"brick( plastered)?", BRICK),
    (r"(dense |reinforced )?concrete", CONCRETE),
    (r"aerated (block|concrete)( plastered)?|aircrete( block)?", AIRCRETE),
    (
        r"(hollow )?(cinder|breeze|concrete|clinker) block (painted|plastered)|concrete masonry unit|concrete block",
        BLOCK,
    ),
)

PVB_THICKNESS = 0.00076
PVB_DENSITY = 1070.0
PVB_SHEAR_MODULUS = 1.0e8
PVB_LOSS = 0.4
"""Interlayer of laminated glass near 20 °C between 100 Hz and 5 kHz; memory, the modulus falls tenfold by 40 °C."""

GLUE_THICKNESS = 0.0005
GLUE_DENSITY = 1200.0
GLUE_SHEAR_MODULUS = 1.0e6
GLUE_LOSS = 0.8
"""Viscoelastic board glue; memory (table 14.1 of Vér and Beranek prints peaks of 0.5 to 1.9 for such polymers)."""


def solid(name: str) -> Solid | None:
    """Material of a name in a row, or None when no source gives its stiffness."""
    for pattern, record in NAMES:
        if re.fullmatch(pattern, name.strip().lower()):
            return record
    return None
