"""Sets the constants that no source gives, once, globally, on the fit half; writes nothing else.

Coordinate search over short lists of physically bounded values. The aim is the mean over classes of the band error
plus the rating error, so that a class with many rows does not rule.
"""

from __future__ import annotations

import csv
import re
import sys
from dataclasses import replace
from pathlib import Path

import numpy as np

from hushwright.physics.acoustics.partition import DEFAULT
from tools.accuracy.rows import OCTAVES, Settings
from tools.accuracy.score import Compared, compare, score

CONSTANTS = Path(__file__).parents[2] / "src" / "hushwright" / "physics" / "acoustics" / "constants.py"
SPREAD = CONSTANTS.with_name("prediction_spread.csv")

CHOICES: dict[str, tuple[float, ...]] = {
    "edge_factor": (1.0, 1.2, 1.4, 1.7, 2.0),
    "edge_absorption": (0.05, 0.1, 0.15, 0.2, 0.3, 0.4, 0.6, 0.8, 1.0),
    "reveal_absorption": (0.1, 0.2, 0.3, 0.4, 0.6, 0.8, 1.0),
    "face_absorption": (0.002, 0.005, 0.01, 0.02, 0.03, 0.05, 0.08),
    "glass_face_absorption": (0.001, 0.002, 0.003, 0.005, 0.01, 0.02),
    "steel_stud_stiffness": (5e5, 1e6, 1.5e6, 2e6, 3e6, 5e6, 1e7),
    "steel_stud_growth": (0.0, 0.5, 1.0, 1.5),
    "glazing_rim_stiffness": (1e6, 1e7, 3e7, 1e8, 3e8, 1e9),
    "resilient_channel_stiffness": (1e5, 2e5, 3e5, 5e5, 1e6),
}
LOSSES: dict[str, tuple[float, ...]] = {
    "metal": (0.005, 0.01, 0.02, 0.03, 0.05),
    "glass": (0.02, 0.03, 0.04, 0.05, 0.07),
    "gypsum": (0.015, 0.02, 0.03, 0.05, 0.07, 0.1),
    "wood": (0.02, 0.03, 0.05, 0.07, 0.1),
    "masonry": (0.01, 0.02, 0.03, 0.05),
}
"""Between the internal loss of the source table and that plus the edge loss of a mounted panel."""

AIMED = ("single leaves", "single glazing", "double glazing", "uncoupled double", "steel studs", "wood studs")


FLAT = 0.02
"""Difference of the aim [dB] below which two values count as equally good."""


def objective(settings: Settings) -> float:
    """Mean over the classes of band error and rating error on the fit half [dB]."""
    compared, _ = compare(settings, DEFAULT, "fit")
    total = 0.0
    for group in (*AIMED, "masonry"):
        part = score([item for item in compared if item.group == group])
        weight = 1.0 if group in AIMED else 0.25
        total += weight * float(np.nansum([part.error, 0.5 * part.rating_error]))
    return total / len(AIMED)


def _with(settings: Settings, name: str, value: float) -> Settings:
    """Settings with one constant changed; a family's name stands for its loss factor."""
    if name in LOSSES:
        return replace(settings, losses={**settings.losses, name: value})
    return replace(settings, **{name: value})


def fit(rounds: int = 3) -> Settings:
    """Coordinate search until a round changes nothing, then the middle of what the rows cannot tell apart."""
    settings = Settings()
    best = objective(settings)
    for _ in range(rounds):
        before = best
        for name, values in {**CHOICES, **LOSSES}.items():
            for value in values:
                got = objective(_with(settings, name, value))
                if got < best - 1e-3:
                    best, settings = got, _with(settings, name, value)
        sys.stdout.write(f"objective {best:.3f} dB\n")
        if before - best < 1e-3:
            break
    for name, values in {**CHOICES, **LOSSES}.items():
        settings = _with(settings, name, _middle(settings, name, values))
    sys.stdout.write(f"with the middle of flat ranges {objective(settings):.3f} dB\n")
    return settings


def _middle(settings: Settings, name: str, values: tuple[float, ...]) -> float:
    """Geometric middle, to two digits, of the tried values that are as good as the best one within `FLAT`."""
    errors = [objective(_with(settings, name, value)) for value in values]
    flat = [value for value, error in zip(values, errors, strict=True) if error <= min(errors) + FLAT]
    if min(flat) <= 0.0:
        return (min(flat) + max(flat)) / 2.0
    return float(f"{(min(flat) * max(flat)) ** 0.5:.2g}")


def write_constants(settings: Settings) -> None:
    """Put the values into constants.py, each on its own line."""
    text = CONSTANTS.read_text(encoding="utf-8")
    for name in CHOICES:
        text = re.sub(
            rf"^({name.upper()}: Final = ).*$", rf"\g<1>{getattr(settings, name)!r}", text, flags=re.MULTILINE
        )
    for family in LOSSES:
        text = re.sub(rf'^(    "{family}": ).*$', rf"\g<1>{settings.losses[family]!r},", text, flags=re.MULTILINE)
    CONSTANTS.write_text(text, encoding="utf-8")


CLASSES = {
    "single leaf": ("single leaves",),
    "single glazing": ("single glazing",),
    "double glazing": ("double glazing",),
    "uncoupled double leaf": ("uncoupled double",),
    "double leaf on compliant bridges": ("steel studs",),
    "double leaf on stiff bridges": ("wood studs",),
    "masonry": ("masonry",),
}


_CLASSED = {group for groups in CLASSES.values() for group in groups}
HIGH = 2000
"""Highest octave [Hz] of the lower range; above it frames, leaks and the limit of the laboratory widen the errors."""
ENOUGH_BANDS = 20
ENOUGH_HIGH_BANDS = 10
ENOUGH_RATINGS = 5
"""Values of its own that a class needs; with fewer it takes the wider of its own and that of all single (or double)
leaves, uncoupled ones that of walls and windows whose leaves nothing joins; for high bands and ratings that of all
light rows."""


def half_width(values: np.ndarray, share: float = 0.9) -> float:
    """Half-width of the interval about zero that holds a share of further values on average.

    Rank `share`·(n + 1) of the ordered sizes, between two of them in proportion (type 6 of Hyndman and Fan, *Am. Stat.*
    50 (1996) 361–365); with few values the largest.
    """
    if values.size == 0:
        return float("nan")
    return float(np.quantile(np.abs(values), share, method="weibull"))


def spreads(compared: list[Compared]) -> dict[str, tuple[float, float, float, int, int]]:
    """Standard uncertainty of band, high band, rating by class from the fit half; few values borrow from their like."""
    fit_half = [item for item in compared if item.half == "fit" and item.group in _CLASSED]
    light = [item for item in fit_half if item.group != "masonry"]
    single = [item for item in light if item.group.startswith("single")]
    double = [item for item in light if not item.group.startswith("single")]
    # Where nothing joins the leaves the space between them decides, in windows as in walls.
    apart = [item for item in light if item.group in ("uncoupled double", "double glazing")]
    found = {}
    for name, groups in CLASSES.items():
        members = [item for item in fit_half if item.group in groups]
        alike = apart if name == "uncoupled double leaf" else double if "double" in name else single
        widths = [
            _width([_band_errors(members, high=False), _band_errors(alike, high=False)], ENOUGH_BANDS),
            _width([_band_errors(members, high=True), _band_errors(light, high=True)], ENOUGH_HIGH_BANDS),
        ]
        widths.append(_width([_rating_errors(part) for part in (members, light)], ENOUGH_RATINGS))
        band, high_band, rating = (round(width / 1.645, 2) for width in widths)
        bands = sum(len(item.errors) for item in members)
        found[name] = (band, high_band, rating, bands, _rating_errors(members).size)
    return found


def _band_errors(members: list[Compared], *, high: bool) -> np.ndarray:
    return np.array([e for item in members for band, e in item.errors.items() if (band > HIGH) == high])


def _rating_errors(members: list[Compared]) -> np.ndarray:
    return np.array([float(np.mean(list(item.rating_errors.values()))) for item in members if item.rating_errors])


def _width(own_and_alike: list[np.ndarray], enough: int) -> float:
    """Half-width of a class, or the wider of its own and that of its like where it has too few values."""
    own, alike = own_and_alike
    if own.size >= enough:
        return half_width(own)
    return max(half_width(own), half_width(alike)) if own.size else half_width(alike)


def shared_between_rows(compared: list[Compared], group: str) -> float:
    """Mean product of the errors of two rows of a class in one octave over the mean square error, on the fit half."""
    rows = [item.errors for item in compared if item.half == "fit" and item.group == group]
    octaves = [np.array([errors[band] for errors in rows if band in errors]) for band in OCTAVES]
    pairs = [values for values in octaves if values.size > 1]
    products = sum(values.sum() ** 2 - np.square(values).sum() for values in pairs)
    number = sum(values.size * (values.size - 1) for values in pairs)
    square = sum(np.square(values).sum() for values in pairs) / sum(values.size for values in pairs)
    return float(products / number / square)


def write_spread(compared: list[Compared]) -> None:
    """Write the table that `spread.py` reads."""
    lines = [
        "# Written by `python -m tools.accuracy fit`: half-width of the 90 % interval of the fit half over 1.645.",
        "construction,band_db,high_band_db,rating_db,bands,ratings",
    ]
    lines += [",".join(str(v) for v in (name, *values)) for name, values in spreads(compared).items()]
    SPREAD.write_text("\n".join(lines) + "\n", encoding="utf-8")


def read_spread() -> dict[str, tuple[float, float, float]]:
    """The table as written: band, high band, rating."""
    text = [line for line in SPREAD.read_text(encoding="utf-8").splitlines() if not line.startswith("#")]
    return {
        row["construction"]: (float(row["band_db"]), float(row["high_band_db"]), float(row["rating_db"]))
        for row in csv.DictReader(text)
    }
