"""Records of bought parts: seals and mounts."""

# ruff: noqa: RUF009 -- quantity(...) and its like declare dataclass fields
from __future__ import annotations

from dataclasses import dataclass

from hushwright.library.base import Record
from hushwright.library.values import Spread, quantity, words

__all__ = ["MountRecord", "Seal"]


@dataclass(frozen=True, slots=True, kw_only=True)
class Seal(Record):
    """One row of seal along the edge of a door, hatch or frame."""

    force_per_length: Spread = quantity("N/m", "Closing force per metre of seal.")
    residual_gap: Spread = quantity("mm", "Slit that stays open in good to careless work.")
    lowest_compression: Spread = quantity("mm", "Least compression at which it seals.")
    highest_compression: Spread = quantity("mm", "Most compression before it is crushed.")
    joint_reduction: Spread | None = quantity("dB", "Joint sound reduction per metre, measured.", optional=True)


@dataclass(frozen=True, slots=True, kw_only=True)
class MountRecord(Record):
    """A resilient mount under the floor; stiffness along its axis."""

    kind: str = words("Pad, bobbin, strip or spring.")
    static_stiffness: Spread = quantity("N/mm", "Static stiffness along the axis.")
    shear_stiffness: Spread = quantity("N/mm", "Static stiffness across the axis.")
    dynamic_ratio: Spread = quantity("-", "Dynamic over static stiffness.")
    loss_factor: Spread = quantity("-", "Loss factor.")
    lowest_load: Spread = quantity("N", "Load below which it hardly isolates.")
    highest_load: Spread = quantity("N", "Largest lasting load.")
    free_height: Spread = quantity("mm", "Height without load.")
    free_travel: Spread = quantity("mm", "Deflection at which it bottoms.")
    creep_per_decade: Spread = quantity("-", "Growth of deflection per decade of time.")
    cold_factor: Spread = quantity("-", "Stiffness at -10 degC over stiffness at 20 degC.")
