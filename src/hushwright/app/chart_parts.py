"""What charts are made of: curves, bands of uncertainty, bars, the frame round them."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

from hushwright.physics.acoustics.bands import THIRD_OCTAVE_BANDS

Chart = dict[str, Any]
COLOURS = ("#1f7a80", "#b4552d", "#6a5aa8", "#8a7a1e", "#3f7fbf", "#a2487b", "#4d8a4d")
_LOWEST = -10.0  # dB, what is below is not drawn
RULE = {"lineStyle": {"color": "rgba(128,138,142,.35)"}}


def band(name: str, levels: Sequence[float], half: Sequence[float]) -> list[Chart]:
    """A band about a curve, as two stacked areas of which the lower is not seen."""
    ends = [(max(level - each, _LOWEST), level + each) for level, each in zip(levels, half, strict=True)]
    low = [round(end[0], 1) if end[1] > _LOWEST else None for end in ends]
    wide = [round(max(end[1] - end[0], 0.0), 2) for end in ends]
    hidden = {"type": "line", "symbol": "none", "stack": name, "lineStyle": {"opacity": 0}, "silent": True,
              "stackStrategy": "all"}  # fmt: skip
    return [
        {**hidden, "data": low, "tooltip": {"show": False}},
        {**hidden, "name": name, "data": wide, "areaStyle": {"color": "#1b6fd1", "opacity": 0.14},
         "itemStyle": {"color": "#1b6fd1"}},
    ]  # fmt: skip


def line(
    name: str, levels: Sequence[float], colour: str, *, dashed: bool = False, wide: bool = False, symbol: str = "none"
) -> Chart:
    """Levels over the bands."""
    return {
        "name": name, "type": "line", "data": [_level(each) for each in levels], "symbol": symbol, "symbolSize": 5,
        "itemStyle": {"color": colour},
        "lineStyle": {"color": colour, "width": 3 if wide else 1.5, "type": "dashed" if dashed else "solid"},
    }  # fmt: skip


def curve(name: str, index: int) -> Chart:
    """A plain curve in one of our colours."""
    colour = COLOURS[index % len(COLOURS)]
    return {"name": name, "type": "line", "symbol": "none", "lineStyle": {"color": colour, "width": 2},
            "itemStyle": {"color": colour}}  # fmt: skip


def over_bands(series: list[Chart], unit: str) -> Chart:
    """A chart of curves over the third octaves."""
    bands = [f"{each:g}" for each in THIRD_OCTAVE_BANDS]
    return {
        **frame(), "xAxis": {"type": "category", "data": bands, "name": "Hz", "boundaryGap": False},
        "yAxis": {"type": "value", "name": unit, "scale": True, "splitLine": RULE},
        "series": series,
    }  # fmt: skip


def frame() -> Chart:
    """What all charts share: letters, tooltip, legend, margins."""
    return {
        "animation": False, "textStyle": {"fontFamily": "inherit", "fontSize": 12},
        "tooltip": {"trigger": "axis", "confine": True},
        "legend": {"type": "scroll", "top": 0, "left": 0, "itemGap": 14},
        "grid": {"left": 8, "right": 34, "top": 56, "bottom": 8, "containLabel": True},
    }  # fmt: skip


def _level(level: float) -> float | None:
    return round(level, 1) if level >= _LOWEST else None
