"""Lengths as a drawing shows them: millimetres without a unit, or feet and inches."""

from __future__ import annotations

from hushwright.units import System, format_quantity

METRIC_SCALES = (1, 2, 5, 10, 15, 20, 25, 30, 40, 50, 75, 100, 150, 200)
US_SCALES = (1, 2, 4, 8, 12, 16, 24, 32, 48, 64, 96, 128, 192)


def length_text(length: float, system: System = "metric") -> str:
    """Length on a dimension line.

    Examples
    --------
    >>> length_text(1.5824), length_text(0.0065), length_text(1.8288, "us")
    ('1582', '6.5', '6 ft')
    """
    if system == "us":
        return format_quantity(length, "length", "us")
    millimetres = round(1000.0 * length, 4)  # a half that is reached in two ways is rounded alike
    return f"{millimetres:.0f}" if abs(millimetres) >= 20.0 else f"{round(millimetres, 1):g}"


def scale_text(scale: float, system: System = "metric") -> str:
    """Scale in the title block.

    Examples
    --------
    >>> scale_text(20), scale_text(24, "us"), scale_text(1)
    ('1:20', '1:24 (1/2 in = 1 ft)', '1:1')
    """
    plain = f"1:{scale:g}"
    if system != "us" or scale <= 1.0:
        return plain
    for inches in ("3", "1 1/2", "1", "3/4", "1/2", "3/8", "1/4", "3/16", "1/8"):
        whole, _, part = inches.partition(" ") if " " in inches else ("0", "", inches)
        top, _, low = part.partition("/")
        if abs(12.0 / (float(whole) + float(top) / float(low or 1)) - scale) < 1e-9:
            return f"{plain} ({inches} in = 1 ft)"
    return plain


def scales_of(system: System) -> tuple[int, ...]:
    """Scales in use, largest drawing first."""
    return US_SCALES if system == "us" else METRIC_SCALES
