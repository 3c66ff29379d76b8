"""Colours of drawings on a dark screen: the same hues, turned over in lightness; what goes on paper stays as it is."""

from __future__ import annotations

import colorsys
from functools import cache
from typing import Final

from hushwright.drawings.layers import LAYERS, TONES

SHEET: Final = "#1b2225"
"""Ground of a drawing on a dark screen, as in `screen/look.css`."""

LEAST_CONTRAST: Final = 4.5
"""WCAG 2.2, success criterion 1.4.3."""

_DARKEST, _LIGHTEST = 0.16, 0.25  # lightness of tones
_TONED_DOWN = 0.45  # of the saturation of tones


def contrast(one: str, other: str) -> float:
    """Contrast ratio of two colours after WCAG 2.2.

    Examples
    --------
    >>> round(contrast("#000000", "#ffffff"), 1)
    21.0
    """
    low, high = sorted((_luminance(one), _luminance(other)))
    return (high + 0.05) / (low + 0.05)


def _luminance(colour: str) -> float:
    parts = (each / 12.92 if each <= 0.04045 else ((each + 0.055) / 1.055) ** 2.4 for each in _rgb(colour))
    return sum(weight * part for weight, part in zip((0.2126, 0.7152, 0.0722), parts, strict=True))


def _rgb(colour: str) -> tuple[float, float, float]:
    red, green, blue = (int(colour[at : at + 2], 16) / 255.0 for at in (1, 3, 5))
    return red, green, blue


def _hex(hue: float, lightness: float, saturation: float) -> str:
    return "#" + "".join(f"{round(255.0 * each):02x}" for each in colorsys.hls_to_rgb(hue, lightness, saturation))


@cache
def dark_tones() -> dict[str, str]:
    """Fill of every material on a dark screen, by its fill on paper."""
    found = {}
    for name, colour in TONES.items():
        hue, lightness, saturation = colorsys.rgb_to_hls(*_rgb(colour))
        darker = _DARKEST + (_LIGHTEST - _DARKEST) * (1.0 - lightness) / 0.5
        colourful = max(_rgb(colour)) - min(_rgb(colour))  # of a near white the saturation says too much
        toned = min(_TONED_DOWN * saturation, colourful)
        found[colour] = SHEET if name == "paper" else _hex(hue, min(darker, _LIGHTEST), toned)
    return found


@cache
def dark_lines() -> dict[str, str]:
    """Colour of every layer on a dark screen, by its colour on paper: readable on the sheet and on every tone."""
    grounds = tuple(dark_tones().values())
    found = {}
    for colour in {style.colour for style in LAYERS.values()}:
        hue, lightness, saturation = colorsys.rgb_to_hls(*_rgb(colour))
        lighter = max(1.0 - lightness, 0.5)
        while (
            lighter < 0.97 and min(contrast(_hex(hue, lighter, saturation), each) for each in grounds) < LEAST_CONTRAST
        ):
            lighter += 0.01
        found[colour] = _hex(hue, lighter, saturation)
    return found


@cache
def dark_rules() -> str:
    """Style rules that give drawings on the screen the colours of the dark look."""
    chosen = _rules(':root[data-look="dark"]')
    by_system = _rules(':root:not([data-look="light"])')
    return f"{chosen}\n@media (prefers-color-scheme: dark) {{\n{by_system}\n}}\n"


def _rules(root: str) -> str:
    return "\n".join(
        f'{root} .hw-under [{what}="{old}"] {{ {what}: {new}; }}'
        for old, new in (*dark_lines().items(), *dark_tones().items())
        for what in ("stroke", "fill")
    )
