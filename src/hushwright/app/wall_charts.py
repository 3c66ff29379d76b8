"""Charts of one wall: what it keeps out, what it has to, and the margin band by band."""

from __future__ import annotations

from hushwright.app.chart_parts import RULE, Chart, band, frame, line, over_bands
from hushwright.evaluation.results import FacePrediction
from hushwright.evaluation.sound.needs import FaceNeed
from hushwright.physics.acoustics.bands import THIRD_OCTAVE_BANDS

_MOST = 30.0  # dB, bars end here


def need_chart(face: FacePrediction | None, need: FaceNeed | None) -> Chart:
    """Sound reduction as it is with its uncertainty as a band, and the one that would be just enough."""
    reduction = need.reduction if need is not None and need.reduction else face.reduction if face is not None else ()
    if face is None or not reduction:
        return over_bands([], "dB")
    series = band("as it is, 95 cases of 100", reduction, tuple(2.0 * each for each in face.uncertainty))
    series.append(line("as it is", reduction, "#1f7a80", symbol="circle", wide=True))
    if need is not None:
        needed = line("needed", (0.0,) * len(reduction), "#b4552d", symbol="diamond", dashed=True)
        needed["data"] = [None if each is None else round(max(each, 0.0), 1) for each in need.shared_need]
        needed["symbolSize"] = 8
        series.append({**needed, "connectNulls": False})
    return over_bands(series, "dB")


def margin_chart(need: FaceNeed) -> Chart:
    """Margin of each band as bars: up enough, down short of it, with 2u as whiskers.

    Hatched: other ways alone are over, so it is the even share of all ways.
    """
    bars: list[Chart] = []
    spread: list[list[Chart]] = []
    for index, margin in enumerate(need.shared_margin):
        other = index in need.beyond_it
        if margin is None:
            bars.append({"value": None})
            continue
        shown = round(max(min(margin, _MOST), -_MOST), 1)
        if other:
            bars.append({"value": shown,
                         "itemStyle": {"color": "rgba(180,85,45,.45)", "decal": {"symbol": "rect"}}})  # fmt: skip
            continue
        bars.append({"value": shown, "itemStyle": {"color": "#2b7a4b" if margin >= 0.0 else "#b4552d"}})
        u = 2.0 * need.margin_uncertainty[index]
        if abs(margin) < _MOST:
            at = f"{THIRD_OCTAVE_BANDS[index]:g}"
            ends = (round(max(margin - u, -_MOST), 1), round(min(margin + u, _MOST), 1))
            spread.append([{"coord": [at, ends[0]]}, {"coord": [at, ends[1]]}])
    thin = {"type": "solid", "color": "#5a656a", "width": 1}
    whiskers = {"silent": True, "symbol": ["none", "none"], "lineStyle": thin, "label": {"show": False}, "data": spread}
    series = [{"name": "margin, 95 cases of 100", "type": "bar", "data": bars, "markLine": whiskers}]
    whole = frame()
    whole["legend"] = {"show": False}
    whole["grid"] = {"left": 8, "right": 34, "top": 30, "bottom": 8, "containLabel": True}
    return {
        **whole, "xAxis": {"type": "category", "data": [f"{each:g}" for each in THIRD_OCTAVE_BANDS], "name": "Hz",
                           "axisLine": {"onZero": True}, "axisLabel": {"show": False}},
        "yAxis": {"type": "value", "min": -_MOST, "max": _MOST, "interval": 15, "name": "▲ enough   ▼ short of it, dB",
                  "nameTextStyle": {"align": "left"}, "splitLine": RULE},
        "series": series,
    }  # fmt: skip
