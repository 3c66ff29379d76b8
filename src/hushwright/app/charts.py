"""How numbers came about, as charts: only what the Evaluation holds, nothing is computed here."""

from __future__ import annotations

from collections.abc import Sequence

from hushwright.app.chart_parts import COLOURS, RULE, Chart, band, curve, frame, line, over_bands
from hushwright.app.services_charts import services_chart_of
from hushwright.evaluation.results import AtNeighbours, Background, BetweenRooms, Evaluation
from hushwright.evaluation.sound.deciding import deciding_of
from hushwright.report.units_out import bare_number, restated, unit_of
from hushwright.units import System
from hushwright.verdicts.verdict import Verdict

_SYMBOLS = ("circle", "rect", "triangle", "diamond", "roundRect", "pin", "arrow")
_PATHS = 6


def chart_of(verdict: Verdict, evaluation: Evaluation, system: System) -> tuple[str, Chart] | None:
    """The picture that belongs to a verdict, with its title; `None` where numbers say it all."""
    behind = background_of(verdict, evaluation)
    if behind is not None:
        return f"Ways into the room over the bands: {behind.situation}", paths_chart(behind, evaluation)
    if verdict.id.startswith("rooms"):
        between = next((one for one in evaluation.between_rooms if one.state == verdict.state), None)
        if between is not None:
            return "Ways from the quiet room to the control room", between_chart(between, evaluation)
    if verdict.id.startswith("neighbours"):
        outside = next((one for one in evaluation.neighbours if one.state == verdict.state), None)
        if outside is not None:
            return "Ways from the quiet room to the neighbours", neighbours_chart(outside, evaluation)
    if verdict.group == "Mass" and evaluation.masses:
        return "Axle loads in each state, and what is plated", axle_chart(evaluation, system)
    if verdict.group == "Space" and evaluation.space and "headroom" in verdict.id:
        return "From the steel floor up: what uses the height", headroom_chart(evaluation, system)
    if verdict.group == "Air" and evaluation.air.session is not None:
        return "Carbon dioxide over the session", session_chart(evaluation)
    if verdict.group == "Heat" and evaluation.heat.days:
        name = "coldest" if "cold" in verdict.id else "hottest"
        return f"Temperatures on the {name} day", heat_chart(evaluation, name, system)
    return services_chart_of(verdict, evaluation, system)


def background_of(verdict: Verdict, evaluation: Evaluation) -> Background | None:
    """Background that a verdict on quiet judges."""
    for one in evaluation.backgrounds:
        if one.state == verdict.state and one.situation.replace(" ", "-") in verdict.id.replace("_", "-").replace(
            "/", "-"
        ).replace(" ", "-"):
            return one
    return None


def paths_chart(one: Background, evaluation: Evaluation) -> Chart:
    """Level outside and inside with its spread, and each of the loudest ways alone."""
    series = band("inside, 95 cases of 100", one.levels, tuple(2.0 * each for each in one.uncertainty))
    series += [line("outside", one.outside, "#8b9498", dashed=True), line("inside", one.levels, "#1b6fd1", wide=True)]
    return over_bands([*series, *_ways(one, evaluation)], "dB")


def between_chart(one: BetweenRooms, evaluation: Evaluation) -> Chart:
    """Level received, what the monitors play, and each of the loudest ways alone."""
    series = band("received, 95 cases of 100", one.received, tuple(2.0 * each for each in one.uncertainty))
    series += [
        line("monitors", one.monitor, "#8b9498", dashed=True),
        line("received", one.received, "#1b6fd1", wide=True),
    ]
    return over_bands([*series, *_ways(one, evaluation)], "dB")


def neighbours_chart(one: AtNeighbours, evaluation: Evaluation) -> Chart:
    """Level at the neighbours with its spread, and each of the loudest ways alone."""
    series = band("there, 95 cases of 100", one.levels, tuple(2.0 * each for each in one.uncertainty))
    series.append(line("at the neighbours", one.levels, "#1b6fd1", wide=True))
    return over_bands([*series, *_ways(one, evaluation)], "dB")


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
        plate = {"silent": True, "symbol": "none", "lineStyle": {"color": COLOURS[index], "type": "dashed", "width": 2},
                "label": {"formatter": f"{name} plated {bare(limit):g} {unit}", "position": "insideEndTop"},
                "data": [{"xAxis": bare(limit)}]}  # fmt: skip
        series.append({"name": name, "type": "bar", "data": [bare(each) for each in masses], "markLine": plate,
                       "itemStyle": {"color": COLOURS[index]}, "label": {"show": True, "position": "insideLeft",
                                                                         "color": "#fff"}})  # fmt: skip
    return {
        **frame(), "xAxis": {"type": "value", "name": unit, "min": 0, "splitLine": RULE},
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
            "itemStyle": {"color": COLOURS[0]}, "label": {"show": True, "position": "right"}}  # fmt: skip
    whole = frame()
    whole["grid"] = {"left": 8, "right": 60, "top": 24, "bottom": 30, "containLabel": True}
    return {
        **whole, "xAxis": {"type": "value", "name": unit_of("length", system), "splitLine": RULE},
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
        series.append({**curve(room.replace("_", " "), index), "data": points})
    if series:
        series[0]["markArea"] = _phases([(state, begin / 60.0, end / 60.0) for state, begin, end in session.phases])
    return {**frame(), "xAxis": {"type": "value", "name": "min", "splitLine": RULE},
            "yAxis": {"type": "value", "name": "ppm", "splitLine": RULE},
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
        series.append({**curve(room.replace("_", " "), index), "data": points})
    outdoors = [[hour, bare(each)] for hour, each in zip(hours, day.outdoors, strict=False)]
    series.append({**curve("outdoors", 4), "data": outdoors, "lineStyle": {"type": "dashed", "color": "#8b9498"}})
    series[0]["markArea"] = _phases([(state, begin / 3600.0, end / 3600.0) for state, begin, end in day.phases])
    return {
        **frame(), "xAxis": {"type": "value", "name": "h", "min": 0, "max": 24, "splitLine": RULE},
        "yAxis": {"type": "value", "name": unit_of("temperature", system), "scale": True, "splitLine": RULE},
        "series": series,
    }  # fmt: skip


def _phases(phases: Sequence[tuple[str, float, float]]) -> Chart:
    areas = [
        [{"name": state.replace("_", " "), "xAxis": begin,
          "itemStyle": {"color": "rgba(120,130,135,.14)" if index % 2 else "rgba(120,130,135,.05)"}}, {"xAxis": end}]
        for index, (state, begin, end) in enumerate(phases)
    ]  # fmt: skip
    return {"silent": True, "data": areas, "label": {"position": "insideTop", "fontSize": 11}}


def _ways(one: Background | BetweenRooms | AtNeighbours, evaluation: Evaluation) -> list[Chart]:
    """The ways that make most of what decides, each with its share of it."""
    band, paths = deciding_of(one, evaluation.build)
    of = band.rpartition(" at ")[2] or "dB(A)"
    return [
        line(f"{path.name} {100 * path.share:.0f} % of {of}", path.levels, COLOURS[index], symbol=_SYMBOLS[index])
        for index, path in enumerate(paths[:_PATHS])
    ]
