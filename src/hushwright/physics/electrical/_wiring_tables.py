"""Published tables of conductors, row by row, with where each was seen.

"found" was seen in a public copy, "memory" is known from the named standard without a copy at hand.
"""

from __future__ import annotations

AWG = (
    # name, nominal area [mm²], least area after SAE J1127/J1128 [circular mils] or None
    ("18", 0.823, 1537.0), ("16", 1.31, 2336.0), ("14", 2.08, 3702.0), ("12", 3.31, 5833.0), ("10", 5.26, 9343.0),
    ("8", 8.37, 14810.0), ("6", 13.3, 24538.0), ("4", 21.2, 37360.0), ("3", 26.7, None), ("2", 33.6, 62450.0),
    ("1", 42.4, 77790.0), ("1/0", 53.5, 98980.0), ("2/0", 67.4, 125100.0), ("3/0", 85.0, 158600.0),
    ("4/0", 107.0, 205500.0),
)  # fmt: skip
"""Thin to thick. Found: tables of wire gauge, and the SAE areas in two printed tables of wire for boats."""

CLASS_5 = (
    # nominal area [mm²], greatest resistance at 20 °C [Ω/km]
    (0.5, 39.0), (0.75, 26.0), (1.0, 19.5), (1.5, 13.3), (2.5, 7.98), (4.0, 4.95), (6.0, 3.30), (10.0, 1.91),
    (16.0, 1.21), (25.0, 0.780), (35.0, 0.554), (50.0, 0.386), (70.0, 0.272), (95.0, 0.206), (120.0, 0.161),
    (150.0, 0.129),
)  # fmt: skip
"""IEC 60228, flexible plain copper. Found, two copies agree."""

CFR_COLUMNS = (60.0, 75.0, 80.0, 90.0, 105.0, 125.0, 200.0)
CFR_183_425 = {
    "18": (10, 10, 15, 20, 20, 25, 25), "16": (15, 15, 20, 25, 25, 30, 35), "14": (20, 20, 25, 30, 35, 40, 45),
    "12": (25, 25, 35, 40, 45, 50, 55), "10": (40, 40, 50, 55, 60, 70, 70), "8": (55, 65, 70, 70, 80, 90, 100),
    "6": (80, 95, 100, 100, 120, 125, 135), "4": (105, 125, 130, 135, 160, 170, 180),
    "3": (120, 145, 150, 155, 180, 195, 210), "2": (140, 170, 175, 180, 210, 225, 240),
    "1": (165, 195, 210, 210, 245, 265, 280), "1/0": (195, 230, 245, 245, 285, 305, 325),
    "2/0": (225, 265, 285, 285, 330, 355, 370), "3/0": (260, 310, 330, 330, 385, 410, 430),
    "4/0": (300, 360, 385, 385, 445, 475, 510),
}  # fmt: skip
"""33 CFR 183.425 Table 5 [A], single conductors at 30 °C; ABYC E-11 prints the same grid. Found."""

CFR_ENGINE_SPACE = (0.58, 0.75, 0.78, 0.82, 0.85, 0.89, 1.0)
"""Note 1 of that table, engine spaces at 50 °C, by column. 105 °C found, the others memory, high confidence."""

CFR_BUNDLES = ((3, 0.7), (4, 0.6), (7, 0.5), (25, 0.4))
"""Note 2: from how many conductors that carry current, and the factor. Memory, high confidence."""

ISO_COLUMNS = (60.0, 70.0, 85.0, 105.0, 125.0, 200.0)
ISO_AMPACITY = {
    0.75: (8, 10, 12, 16, 20, 25), 1.0: (12, 14, 18, 20, 25, 35), 1.5: (16, 18, 21, 25, 30, 40),
    2.5: (20, 25, 30, 35, 40, 45), 4.0: (30, 35, 40, 45, 50, 55), 6.0: (40, 45, 50, 60, 70, 75),
    10.0: (60, 65, 70, 90, 100, 120), 16.0: (80, 90, 100, 130, 150, 170), 25.0: (110, 120, 140, 170, 185, 200),
    35.0: (140, 160, 185, 210, 225, 240), 50.0: (180, 210, 230, 270, 300, 325), 70.0: (220, 265, 285, 330, 360, 375),
    95.0: (260, 310, 330, 390, 410, 430), 120.0: (300, 360, 400, 450, 480, 520),
    150.0: (350, 380, 430, 475, 520, 560),
}  # fmt: skip
"""ISO 10133 Table A.1, now in ISO 13297 [A], single conductors at 30 °C. Memory, middling confidence."""

ISO_ENGINE_SPACE = (None, 0.75, 0.82, 0.86, 0.89, 1.0)
"""Engine spaces at 60 °C, by column; no factor for 60 °C. Memory, middling confidence."""

ISO_BUNDLES = ((4, 0.7), (7, 0.6), (25, 0.5))
"""Memory, middling confidence."""

NEC_COLUMNS = (60.0, 75.0, 90.0)
NEC_310_16 = {
    "14": (15, 20, 25), "12": (20, 25, 30), "10": (30, 35, 40), "8": (40, 50, 55), "6": (55, 65, 75),
    "4": (70, 85, 95), "3": (85, 100, 115), "2": (95, 115, 130), "1": (110, 130, 145), "1/0": (125, 150, 170),
    "2/0": (145, 175, 195), "3/0": (165, 200, 225), "4/0": (195, 230, 260),
}  # fmt: skip
"""NFPA 70 Table 310.16 [A], copper, up to three conductors that carry current, 30 °C. Found, two copies."""

NEC_AMBIENT = (
    # up to which temperature [°C], factors by column; None where the insulation does not stand it
    (10.0, (1.29, 1.20, 1.15)), (15.0, (1.22, 1.15, 1.12)), (20.0, (1.15, 1.11, 1.08)), (25.0, (1.08, 1.05, 1.04)),
    (30.0, (1.0, 1.0, 1.0)), (35.0, (0.91, 0.94, 0.96)), (40.0, (0.82, 0.88, 0.91)), (45.0, (0.71, 0.82, 0.87)),
    (50.0, (0.58, 0.75, 0.82)), (55.0, (0.41, 0.67, 0.76)), (60.0, (None, 0.58, 0.71)), (70.0, (None, 0.33, 0.58)),
    (80.0, (None, None, 0.41)),
)  # fmt: skip
"""NFPA 70 Table 310.15(B)(1). Found."""

NEC_BUNDLES = ((4, 0.8), (7, 0.7), (10, 0.5), (21, 0.45), (31, 0.4), (41, 0.35))
"""NFPA 70 Table 310.15(C)(1). Found."""

NEC_SMALL = {"14": 15.0, "12": 20.0, "10": 30.0}
"""NFPA 70, 240.4(D): most for the overcurrent device [A]. Found."""

NEC_LOW_VOLTAGE = {"18": 6.0, "16": 8.0, "14": 15.0, "12": 20.0, "10": 30.0}
"""NFPA 70 Table 552.10(E)(1): most for the overcurrent device of low voltage [A]. Memory, high confidence."""

FUSE_RATINGS = (
    1, 2, 3, 4, 5, 7.5, 10, 15, 20, 25, 30, 35, 40, 50, 60, 70, 80, 90, 100, 110, 125, 150, 175, 200, 225, 250, 300,
    350, 400, 450, 500, 600,
)  # fmt: skip
"""Ratings that are made [A]: common practice, no source; from 15 A up those of NFPA 70, 240.6(A), memory."""

INTERRUPT = {
    # type: pairs of highest voltage [V] and interrupt rating [A] on direct current
    "class T": ((125.0, 20_000.0),),
    "bolt-down strip": ((32.0, 6_000.0),),
    "terminal post": ((14.5, 10_000.0), (32.0, 5_000.0), (58.0, 2_000.0)),
    "blade": ((32.0, 1_000.0),),
    "bolted strip": ((32.0, 1_000.0),),
    "miniature breaker": (),
}  # fmt: skip
"""What types interrupt: memory, middling confidence, but for the terminal post at 14 V, which was found."""
