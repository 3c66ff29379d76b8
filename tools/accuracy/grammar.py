"""The words of the ``layers`` column: sheets, leaves and cavities as printed."""

from __future__ import annotations

import re
from dataclasses import dataclass


def number(text: str | None) -> float | None:
    """First number of a text, or None."""
    match = re.search(r"-?\d+(\.\d+)?", text or "")
    return float(match.group()) if match else None


@dataclass(frozen=True, slots=True)
class Sheet:
    """One sheet of a leaf as printed; None is not printed."""

    name: str
    thickness: float | None
    mass: float | None


@dataclass(frozen=True, slots=True)
class Cavity:
    """One cavity as printed."""

    depth: float | None
    fill: str
    fill_thickness: float | None
    joint: str


def parse_sheet(text: str) -> Sheet:
    """``material thickness mm mass kg/m2`` with ? for what is not printed."""
    value = r"(?P<{0}>~?\d+(?:\.\d+)?|\?)"
    text = re.sub(r"\s+(bonded|limp)$", "", text.strip())
    match = re.fullmatch(
        r"(?P<name>.+?)\s+" + value.format("thick") + r"(?:\s*mm)?(?:\s+" + value.format("mass") + r"(?:\s*kg/m2)?)?",
        text,
    )
    if match is None:
        return Sheet(text, None, None)
    thick, mass = number(match["thick"]), number(match["mass"])
    return Sheet(match["name"], None if thick is None else thick / 1000.0, mass)


def parse_cavity(text: str) -> Cavity:
    """``cavity D mm, fill MATERIAL T mm, joint``."""
    head, *rest = (part.strip() for part in text.split(","))
    depth_range = re.search(r"(\d+(?:\.\d+)?)-(\d+(?:\.\d+)?) mm", head)
    if depth_range:
        depth: float | None = (float(depth_range[1]) + float(depth_range[2])) / 2000.0
    else:
        plain = number(head)
        depth = None if plain is None else plain / 1000.0
    fill, thickness, joints = "none", None, []
    for part in rest:
        if part.startswith("fill"):
            words = part[4:].strip()
            match = re.fullmatch(r"(.*?)(?:\s+(\d+(?:\.\d+)?|\?)\s*mm)?", words)
            fill = (match[1].strip() if match else words) or "?"
            thickness = float(match[2]) / 1000.0 if match and match[2] not in (None, "?") else None
        else:
            joints.append(part)
    if "channel" in head:
        joints.append("resilient channel")
    return Cavity(depth, fill, thickness, ", ".join(joints).lower())
