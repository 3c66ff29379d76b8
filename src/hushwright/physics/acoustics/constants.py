"""Constants of the partition method that no paper gives as one number.

Each line says symbol, unit and where it is from. The ones marked "set on the fit half" are global, physically bounded
and written by ``python -m tools.accuracy fit``; docs/accuracy.md shows what they do on the half that was not used.
"""

from __future__ import annotations

from typing import Final

EDGE_FACTOR: Final = 1.7
"""Gain [-] of the radiation of edges below coincidence; set on the fit half, see docs/accuracy.md, between 1 (simply
supported in a flat wall) and 2 (clamped, or at the foot of a niche), Leppington et al. 1982."""

EDGE_ABSORPTION: Final = 0.2
"""Share of power [-] the rim of an empty cavity takes from a wave along it; set on the fit half, see docs/accuracy.md.
Bounded by 0 (hard frame) and 1 (open into a lining)."""

REVEAL_ABSORPTION: Final = 0.42
"""The same for the reveal between two window panes in frames of their own; set on the fit half, see docs/accuracy.md.
Bounded by 0 and 1; a reveal lined with absorber takes 0.8 or more."""

FACE_ABSORPTION: Final = 0.01
"""Absorption [-] of the two faces of a cavity together, boards and sheet; set on the fit half, see docs/accuracy.md.
Bounded by 0.002 (friction and heat at a smooth face) and 0.08 (two boards with paper faces)."""

GLASS_FACE_ABSORPTION: Final = 0.005
"""The same between two panes; set on the fit half, see docs/accuracy.md. Bounded by 0.001 and 0.02."""

STEEL_STUD_STIFFNESS: Final = 3000000.0
"""Stiffness per length [N/m²] of a light steel stud between its flanges at 500 Hz; set on the fit half, see
docs/accuracy.md. Davy 2012 quotes compliances about 1e-6 m²/N for such studs."""

STEEL_STUD_GROWTH: Final = 1.5
"""Exponent [-] with which that stiffness grows with frequency, its value being that of 500 Hz; set on the fit half, see
docs/accuracy.md. Poblet-Puig et al. 2009 show that it grows."""

GLAZING_RIM_STIFFNESS: Final = 170000000.0
"""Stiffness per length [N/m²] of frame or spacer that joins two panes along their rim; set on the fit half, see
docs/accuracy.md."""

RESILIENT_CHANNEL_STIFFNESS: Final = 220000.0
"""Stiffness per length [N/m²] of a resilient steel channel; set on the fit half, see docs/accuracy.md."""

IN_SITU_LOSS: Final[dict[str, float]] = {
    "metal": 0.016,
    "glass": 0.035,
    "laminated glass": 0.05,
    "gypsum": 0.07,
    "wood": 0.045,
    "lead": 0.05,
    "masonry": 0.039,
}
"""Loss factor [-] of a mounted panel by family; set on the fit half between the internal loss of the source table and
that plus the edge loss of a mounted panel (at most 0.1), see docs/accuracy.md; "laminated glass" and "lead" are from
memory and only used where no fit row speaks."""

PAD_BELL_WIDTH: Final = 22.0
"""Half-width [K] of the damping of a viscoelastic pad around its best temperature; common practice, no source (typical
pads keep half of their peak over about 40 to 50 K)."""
