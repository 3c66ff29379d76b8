"""How numbers came about, as charts: only what the Evaluation holds, nothing is computed here."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

from hushwright.evaluation.results import Background, BetweenRooms, Evaluation, FacePrediction, PathLevel
from hushwright.physics.acoustics.bands import THIRD_OCTAVE_BANDS
from hushwright.report.units_out import bare_number, restated, unit_of
from hushwright.units import System
from hushwright.verdicts.verdict import Verdict

Chart = dict[str, Any]
_COLOURS = ("#1f7a80", "#b4552d", "#6a5aa8", "#8a7a1e", "#3f7fbf", "#a2487b", "#4d8a4d")
_SYMBOLS = ("circle", "rect", "triangle", "diamond", "roundRect", "pin", "arrow")
_LOWEST = -10.0  # dB, what is below is not drawn
_PATHS = 6


def chart_of(verdict: Verdict, evaluation: Evaluation, system: System) -> tuple[str, Chart] | None:
    """The picture that belongs to a verdict, with its title; `None` where numbers say it all."""
    behind = background_of(verdict, evaluation)
    if behind is not None:
        return f"Ways into the room over the bands: {behind.situation}", paths_chart(behind)
    if verdict.id.startswith("rooms"):
        between = next((one for one in evaluation.between_rooms if one.state == verdict.state), None)
        if between is not None:
            return "Ways from the quiet room to the control room", between_chart(between)
    if verdict.group == "Mass" and evaluation.masses:
        return "Axle loads in each state, and what is plated", axle_chart(evaluation, system)
    if verdict.group == "Space" and evaluation.space and "headroom" in verdict.id:
        return "From the steel floor up: what uses the height", headroom_chart(evaluation, system)
    if verdict.group == "Air" and evaluation.air.session is not None:
        return "Carbon dioxide over the session", session_chart(evaluation)
    if verdict.group == "Heat" and evaluation.heat.days:
        name = "coldest" if "cold" in verdict.id else "hottest"
        return f"Temperatures on the {name} day", heat_chart(evaluation, name, system)
    return None


def background_of(verdict: Verdict, evaluation: Evaluation) -> Background | None:
    """Background that a verdict on quiet judges."""
    for one in evaluation.backgrounds:
        if one.state == verdict.state and one.situation.replace(" ", "-") in verdict.id.replace("_", "-").replace(
            "/", "-"
        ).replace(" ", "-"):
            return one
    return None


def paths_chart(one: Background) -> Chart:
    """Level outside and inside with its spread, and each of the loudest ways alone."""
    series = _band("inside, ±2u", one.levels, tuple(2.0 * each for each in one.uncertainty))
    series += [_line("outside", one.outside, "#8b9498", dashed=True), _line("inside", one.levels, "#1b6fd1", wide=True)]
    return _over_bands([*series, *_ways(one.paths)], "dB")


def between_chart(one: BetweenRooms) -> Chart:
    """Level received, what the monitors play, and each of the loudest ways alone."""
    series = _band("received, ±2u", one.received, tuple(2.0 * each for each in one.uncertainty))
    series += [
        _line("monitors", one.monitor, "#8b9498", dashed=True),
        _line("received", one.received, "#1b6fd1", wide=True),
    ]
    return _over_bands([*series, *_ways(one.paths)], "dB")


def reduction_chart(faces: Sequence[FacePrediction]) -> Chart:
    """Sound reduction of faces over the bands; the first one with its uncertainty as a band."""
    series: list[Chart] = []
    for index, face in enumerate(faces[: len(_COLOURS)]):
        name = face.name.replace("_", " ")
        if index == 0:
            series += _band(f"{name}, ±2u", face.reduction, tuple(2.0 * each for each in face.uncertainty))
        series.append(_line(name, face.reduction, _COLOURS[index], symbol=_SYMBOLS[index], wide=index == 0))
    return _over_bands(series, "dB")


def axle_chart(evaluation: Evaluation, system: System) -> Chart:
    """Front, rear and whole of each state as bars, with the plated masses as lines."""
    plated = evaluation.build.vehicle.plated
    unit = unit_of("mass", system)
    states = [one.state.replace("_", " ") for one in evaluation.masses]

    def bare(mass: float) -> float:
        return round(bare_number(mass, "mass", system) or 0.0, 1)

    series = []
    rows = (("front axle", [one.front for one in evaluation.masses], plated.front),
            ("rear axle", [one.rear for one in evaluation.masses], plated.rear),
            ("whole", [one.total for one in evaluation.masses], plated.total))  # fmt: skip
    for index, (name, masses, limit) in enumerate(rows):
        line = {"silent": True, "symbol": "none", "lineStyle": {"color": _COLOURS[index], "type": "dashed", "width": 2},
                "label": {"formatter": f"{name} plated {bare(limit):g} {unit}", "position": "insideEndTop"},
                "data": [{"xAxis": bare(limit)}]}  # fmt: skip
        series.append({"name": name, "type": "bar", "data": [bare(each) for each in masses], "markLine": line,
                       "itemStyle": {"color": _COLOURS[index]}, "label": {"show": True, "position": "insideLeft",
                                                                         "color": "#fff"}})  # fmt: skip
    return {
        **_frame(), "xAxis": {"type": "value", "name": unit, "min": 0, "splitLine": _RULE},
        "yAxis": {"type": "category", "data": states,
                                                                              "inverse": True},
        "series": series,
    }  # fmt: skip


def headroom_chart(evaluation: Evaluation, system: System) -> Chart:
    """What the height is used up by, item after item, as a stack of bars."""
    space = evaluation.space[-1]
    names, hidden, shown = [], [], []
    left = 0.0
    for item in space.stack:
        size = bare_number(item.thickness, "length", system) or 0.0
        begin, left = left, left + size
        names.append(restated(item.name, system))
        hidden.append(round(min(begin, left), 3))
        shown.append(round(abs(size), 3))
    names.append("headroom, centre")
    hidden.append(0.0)
    shown.append(round(bare_number(space.headroom_centre, "length", system) or 0.0, 2))
    blank = {"type": "bar", "stack": "height", "data": hidden, "itemStyle": {"color": "transparent"}, "silent": True,
             "tooltip": {"show": False}}  # fmt: skip
    bars = {"type": "bar", "stack": "height", "name": space.room.replace("_", " "), "data": shown,
            "itemStyle": {"color": _COLOURS[0]}, "label": {"show": True, "position": "right"}}  # fmt: skip
    frame = _frame()
    frame["grid"] = {"left": 8, "right": 60, "top": 24, "bottom": 30, "containLabel": True}
    return {
        **frame, "xAxis": {"type": "value", "name": unit_of("length", system), "splitLine": _RULE},
        "yAxis": {"type": "category", "data": names, "inverse": True}, "series": [blank, bars],
    }  # fmt: skip


def session_chart(evaluation: Evaluation) -> Chart:
    """Carbon dioxide of each room over the session, its phases behind."""
    session = evaluation.air.session
    assert session is not None
    series = []
    for index, room in enumerate(session.rooms):
        points = [
            [round(time / 60.0, 2), round(1e6 * each)]
            for time, each in zip(session.times, session.of(room), strict=True)
        ]
        series.append({**_curve(room.replace("_", " "), index), "data": points})
    if series:
        series[0]["markArea"] = _phases([(state, begin / 60.0, end / 60.0) for state, begin, end in session.phases])
    return {**_frame(), "xAxis": {"type": "value", "name": "min", "splitLine": _RULE},
            "yAxis": {"type": "value", "name": "ppm", "splitLine": _RULE},
            "series": series}  # fmt: skip


def heat_chart(evaluation: Evaluation, name: str, system: System) -> Chart:
    """Air temperature of each room and outdoors over the day."""
    day = evaluation.heat.day(name) or evaluation.heat.days[0]

    def bare(temperature: float) -> float:
        return round(bare_number(temperature, "temperature", system) or 0.0, 2)

    hours = [round(each / 3600.0, 3) for each in day.times]
    series = []
    for index, room in enumerate(day.rooms):
        points = [[hour, bare(row[index])] for hour, row in zip(hours, day.temperature, strict=True)]
        series.append({**_curve(room.replace("_", " "), index), "data": points})
    outdoors = [[hour, bare(each)] for hour, each in zip(hours, day.outdoors, strict=False)]
    series.append({**_curve("outdoors", 4), "data": outdoors, "lineStyle": {"type": "dashed", "color": "#8b9498"}})
    series[0]["markArea"] = _phases([(state, begin / 3600.0, end / 3600.0) for state, begin, end in day.phases])
    return {
        **_frame(), "xAxis": {"type": "value", "name": "h", "min": 0, "max": 24, "splitLine": _RULE},
        "yAxis": {"type": "value", "name": unit_of("temperature", system), "scale": True, "splitLine": _RULE},
        "series": series,
    }  # fmt: skip


def _phases(phases: Sequence[tuple[str, float, float]]) -> Chart:
    areas = [
        [{"name": state.replace("_", " "), "xAxis": begin,
          "itemStyle": {"color": "rgba(120,130,135,.14)" if index % 2 else "rgba(120,130,135,.05)"}}, {"xAxis": end}]
        for index, (state, begin, end) in enumerate(phases)
    ]  # fmt: skip
    return {"silent": True, "data": areas, "label": {"position": "insideTop", "fontSize": 11}}


def _curve(name: str, index: int) -> Chart:
    colour = _COLOURS[index % len(_COLOURS)]
    return {"name": name, "type": "line", "symbol": "none", "lineStyle": {"color": colour, "width": 2},
            "itemStyle": {"color": colour}}  # fmt: skip


def _ways(paths: Sequence[PathLevel]) -> list[Chart]:
    loudest = sorted(paths, key=lambda path: -path.share)[:_PATHS]
    return [
        _line(f"{path.name} {100 * path.share:.0f} %", path.levels, _COLOURS[index], symbol=_SYMBOLS[index])
        for index, path in enumerate(loudest)
    ]


def _line(
    name: str, levels: Sequence[float], colour: str, *, dashed: bool = False, wide: bool = False, symbol: str = "none"
) -> Chart:
    return {
        "name": name, "type": "line", "data": [_level(each) for each in levels], "symbol": symbol, "symbolSize": 5,
        "itemStyle": {"color": colour},
        "lineStyle": {"color": colour, "width": 3 if wide else 1.5, "type": "dashed" if dashed else "solid"},
    }  # fmt: skip


def _band(name: str, levels: Sequence[float], half: Sequence[float]) -> list[Chart]:
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


def _level(level: float) -> float | None:
    return round(level, 1) if level >= _LOWEST else None


_RULE = {"lineStyle": {"color": "rgba(128,138,142,.35)"}}


def _over_bands(series: list[Chart], unit: str) -> Chart:
    bands = [f"{each:g}" for each in THIRD_OCTAVE_BANDS]
    return {
        **_frame(), "xAxis": {"type": "category", "data": bands, "name": "Hz", "boundaryGap": False},
        "yAxis": {"type": "value", "name": unit, "scale": True, "splitLine": _RULE},
        "series": series,
    }  # fmt: skip


def _frame() -> Chart:
    return {
        "animation": False, "textStyle": {"fontFamily": "inherit", "fontSize": 12},
        "tooltip": {"trigger": "axis", "confine": True},
        "legend": {"type": "scroll", "top": 0, "left": 0, "itemGap": 14},
        "grid": {"left": 8, "right": 34, "top": 56, "bottom": 8, "containLabel": True},
    }  # fmt: skip
