"""The bank over the day, money by what it buys, and loads on the mounts, as charts."""

from __future__ import annotations

from hushwright.app.chart_parts import COLOURS, RULE, Chart, curve, frame
from hushwright.evaluation.results import Evaluation
from hushwright.report.units_out import bare_number, unit_of
from hushwright.units import System
from hushwright.verdicts.verdict import Verdict


def services_chart_of(verdict: Verdict, evaluation: Evaluation, system: System) -> tuple[str, Chart] | None:
    """Picture of a verdict on power, money or mounts, with its title; `None` where numbers say it all."""
    if verdict.group == "Power":
        chart, title = power_chart(evaluation), "The bank over the day that leaves least in it"
    elif verdict.group == "Budget":
        chart, title = money_chart(evaluation), "What the money goes into"
    elif verdict.group == "Mounts":
        chart, title = mounts_chart(evaluation, verdict.state, system), "Load on each mount, by where it stands"
    else:
        return None
    return None if chart is None else (title, chart)


def power_chart(evaluation: Evaluation) -> Chart | None:
    """Charge of the bank over the first day of the tightest case, with what gives and what is asked."""
    course = evaluation.power.course
    if course is None:
        return None
    hours = [round(each / 3600.0, 3) for each in course.times]
    charge = {**curve("charge of the bank", 0), "data": [list(pair) for pair in zip(
        hours, (round(100.0 * each, 1) for each in course.charge), strict=False)]}  # fmt: skip
    series = [charge]
    asked = [("all loads", course.demand), *course.sources, ("without power", course.unmet)]
    for index, (name, powers) in enumerate(asked, 1):
        if any(powers):
            points = [[hour, round(power)] for hour, power in zip(hours, powers, strict=False)]
            drawn = {**curve(name.replace("_", " "), index), "data": points, "yAxisIndex": 1, "step": "end"}
            drawn["lineStyle"] = {**drawn["lineStyle"], "type": "dashed", "width": 1.5}
            series.append(drawn)
    return {
        **frame(), "xAxis": {"type": "value", "name": "h", "min": hours[0], "max": hours[-1], "splitLine": RULE},
        "yAxis": [{"type": "value", "name": "% full", "min": 0, "max": 100, "splitLine": RULE},
                  {"type": "value", "name": "W", "splitLine": {"show": False}}],
        "series": series,
    }  # fmt: skip


def money_chart(evaluation: Evaluation) -> Chart | None:
    """Sale by what it buys, as the verdict and the papers name it; material and labour, largest first."""
    groups = sorted(evaluation.cost.by_purpose, key=lambda each: -each.total)
    if not groups:
        return None
    parts = (("material", [each.material for each in groups]), ("labour", [each.labour for each in groups]))
    series = [{"name": name, "type": "bar", "stack": "money", "data": [round(float(each)) for each in amounts],
               "itemStyle": {"color": COLOURS[index]}} for index, (name, amounts) in enumerate(parts)]  # fmt: skip
    names = [each.name.replace("_", " ") for each in groups]
    return _bars(names, series, evaluation.cost.currency)


def mounts_chart(evaluation: Evaluation, state: str, system: System) -> Chart | None:
    """Load on each mount in one state."""
    found = next((each for each in evaluation.mounts if each.state == state), next(iter(evaluation.mounts), None))
    if found is None:
        return None
    names, loads = [], []
    for load in found.loads:
        station, y = (bare_number(each, "length", system) or 0.0 for each in load.place)
        names.append(f"station {station:.4g}, {abs(y):.4g} {'left' if y > 0.0 else 'right' if y < 0.0 else 'middle'}")
        loads.append(round(bare_number(load.load, "mass", system) or 0.0, 1))
    series = [{"name": found.state.replace("_", " "), "type": "bar", "data": loads, "itemStyle": {"color": COLOURS[0]},
               "label": {"show": True, "position": "right"}}]  # fmt: skip
    return _bars(names, series, unit_of("mass", system))


def _bars(names: list[str], series: list[Chart], unit: str) -> Chart:
    whole = frame()
    whole["grid"] = {**whole["grid"], "right": 48}
    return {
        **whole, "xAxis": {"type": "value", "name": unit, "min": 0, "splitLine": RULE},
        "yAxis": {"type": "category", "data": names, "inverse": True, "axisLabel": {"interval": 0}}, "series": series,
    }  # fmt: skip
