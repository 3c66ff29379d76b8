"""Curves through points without overshoot, and roots between two ends."""

from __future__ import annotations

from bisect import bisect_right
from collections.abc import Callable
from functools import lru_cache


@lru_cache(maxsize=256)
def _slopes(places: tuple[float, ...], values: tuple[float, ...]) -> tuple[float, ...]:
    """Slopes at the points of a cubic that keeps every rise and fall of the points (Fritsch and Butland 1984)."""
    steps = [after - before for before, after in zip(places, places[1:], strict=False)]
    rises = [(values[number + 1] - values[number]) / step for number, step in enumerate(steps)]
    inner = []
    for number in range(1, len(places) - 1):
        left, right = rises[number - 1], rises[number]
        if left * right <= 0.0:
            inner.append(0.0)
            continue
        first, second = 2.0 * steps[number] + steps[number - 1], steps[number] + 2.0 * steps[number - 1]
        inner.append((first + second) / (first / left + second / right))
    return (rises[0], *inner, rises[-1])


def monotone_curve(places: tuple[float, ...], values: tuple[float, ...], at: float) -> float:
    """Value of the curve at a place; beyond the last point a straight line, before the first its value."""
    slopes = _slopes(places, values)
    if at <= places[0]:
        return values[0]
    if at >= places[-1]:
        return values[-1] + slopes[-1] * (at - places[-1])
    left = bisect_right(places, at) - 1
    step = places[left + 1] - places[left]
    share = (at - places[left]) / step
    rest = 1.0 - share
    return (
        values[left] * (1.0 + 2.0 * share) * rest**2
        + step * slopes[left] * share * rest**2
        + values[left + 1] * share**2 * (3.0 - 2.0 * share)
        - step * slopes[left + 1] * share**2 * rest
    )


def root_between(function: Callable[[float], float], low: float, high: float) -> float:
    """Root of a function that has other signs at both ends, by false position with halved old ends."""
    at_low, at_high = function(low), function(high)
    if at_low == 0.0:
        return low
    kept = 0
    for _ in range(200):
        middle = (low * at_high - high * at_low) / (at_high - at_low)
        if not low < middle < high:
            middle = 0.5 * (low + high)
        value = function(middle)
        if value == 0.0 or high - low <= 1e-13 * max(abs(low), abs(high)):
            return middle
        if (value > 0.0) == (at_low > 0.0):
            low, at_low = middle, value
            at_high = 0.5 * at_high if kept == 1 else at_high
            kept = 1
        else:
            high, at_high = middle, value
            at_low = 0.5 * at_low if kept == 2 else at_low
            kept = 2
    return 0.5 * (low + high)
