"""Records of how materials pass heat and vapour, by the names of the layers that they are."""

# ruff: noqa: RUF009 -- quantity(...) and its like declare dataclass fields
from __future__ import annotations

from dataclasses import dataclass

from hushwright.library.base import Record
from hushwright.library.values import Spread, quantity

__all__ = ["ThermalMaterial"]


@dataclass(frozen=True, slots=True, kw_only=True)
class ThermalMaterial(Record):
    """What a material does to heat and vapour; found by the name of any layer made of it."""

    conductivity: Spread = quantity("W/(m K)", "Thermal conductivity.")
    vapour_resistance_factor: Spread = quantity("-", "Vapour resistance over that of air; 1e8 stands for tight.")
    heat_capacity: Spread = quantity("J/(kg K)", "Specific heat capacity.")
