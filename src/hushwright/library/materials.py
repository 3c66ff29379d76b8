"""Records of materials: sheets, barriers, damping, cores, blankets, foams, glass, coverings, facings."""

# ruff: noqa: RUF009 -- quantity(...) and its like declare dataclass fields
from __future__ import annotations

import math
from dataclasses import dataclass

from hushwright.errors import InvalidInput
from hushwright.library.base import Record
from hushwright.library.values import Spread, names, number, numbers, points, quantity, words

__all__ = [
    "AbsorptionRow",
    "Blanket",
    "ClosedFoam",
    "Covering",
    "DampingLayer",
    "Facing",
    "Glass",
    "LimpBarrier",
    "Sheet",
    "ViscoelasticCore",
]

_HALF = math.acosh(2.0)  # 1/cosh(x) is one half here


@dataclass(frozen=True, slots=True, kw_only=True)
class Sheet(Record):
    """A stiff board or sheet of one material."""

    density: Spread = quantity("kg/m3", "Mass per volume.")
    youngs_modulus: Spread = quantity("GPa", "Young's modulus; along the height where the sheet is orthotropic.")
    youngs_modulus_across: Spread | None = quantity("GPa", "Young's modulus across; empty: isotropic.", optional=True)
    poisson: Spread = quantity("-", "Poisson's ratio.")
    loss_factor: Spread = quantity("-", "The material's own loss factor, from internal to in situ.")
    stock_thickness: tuple[float, ...] = numbers("mm", "Thicknesses usually in stock.")


@dataclass(frozen=True, slots=True, kw_only=True)
class LimpBarrier(Record):
    """A heavy sheet without bending stiffness worth counting."""

    density: Spread = quantity("kg/m3", "Mass per volume.")
    stock_thickness: tuple[float, ...] = numbers("mm", "Thicknesses usually in stock.")

    def surface_density(self, thickness: float) -> Spread:
        """Mass per area [kg/m²] of a layer ``thickness`` [m] thick."""
        return self.density.times(thickness)


@dataclass(frozen=True, slots=True, kw_only=True)
class DampingLayer(Record):
    """A layer stuck on sheet metal to damp its bending, working as a free layer.

    A pad with its own foil is described by the modulus of the free layer that damps as much.
    """

    density: Spread = quantity("kg/m3", "Mass per volume.")
    modulus: Spread = quantity("MPa", "Young's modulus of the equivalent free layer at the loss peak.")
    loss_factor: Spread = quantity("-", "Loss factor of the layer itself at its peak.")
    peak_temperature: tuple[tuple[float, float], ...] = points("Hz:degC", "Temperature of the loss peak by frequency.")
    half_width: Spread = quantity("K", "Distance from the peak temperature at which the loss has halved.")
    stock_thickness: tuple[float, ...] = numbers("mm", "Thicknesses usually in stock.")

    def peak_temperature_at(self, frequency: float) -> float:
        """Temperature [°C] of the loss peak at ``frequency`` [Hz], linear in lg f, end slopes go on."""
        if not frequency > 0.0:
            raise InvalidInput(f"frequency is {frequency} Hz; it is above zero")
        peaks = self.peak_temperature
        if len(peaks) == 1:
            return peaks[0][1]
        last = len(peaks) - 2
        left = next((at for at in range(last) if frequency < peaks[at + 1][0]), last)
        (first, cold), (second, warm) = peaks[left], peaks[left + 1]
        return cold + (warm - cold) * math.log(frequency / first) / math.log(second / first)

    def loss_factor_at(self, temperature: float, frequency: float = 100.0) -> float:
        """Loss factor [-] at ``temperature`` [°C] and ``frequency`` [Hz].

        η = η_peak / cosh(1.317 (T − T_peak(f)) / half width): the bell that a material with fractional
        relaxation shows over the logarithm of frequency, laid over temperature.
        """
        away = (temperature - self.peak_temperature_at(frequency)) / self.half_width.value
        return self.loss_factor.value / math.cosh(min(abs(_HALF * away), 700.0))


@dataclass(frozen=True, slots=True, kw_only=True)
class ViscoelasticCore(Record):
    """A soft layer bonded between two plates, sheared when they bend; values at 20 °C."""

    density: Spread = quantity("kg/m3", "Mass per volume.")
    shear_modulus: Spread = quantity("MPa", "Shear modulus at 20 degC in the audio range.")
    loss_factor: Spread = quantity("-", "Loss factor in shear at 20 degC in the audio range.")
    stock_thickness: tuple[float, ...] = numbers("mm", "Thicknesses usually in stock.")


@dataclass(frozen=True, slots=True, kw_only=True)
class Blanket(Record):
    """A porous blanket, wool or open foam."""

    flow_resistivity: Spread = quantity("Pa s/m2", "Static flow resistivity through the thickness.")
    flow_resistivity_along: Spread | None = quantity("Pa s/m2", "The same along the blanket.", optional=True)
    porosity: Spread = quantity("-", "Share of open volume.")
    tortuosity: Spread = quantity("-", "High-frequency tortuosity.")
    viscous_length: Spread | None = quantity("um", "Viscous characteristic length.", optional=True)
    thermal_length: Spread | None = quantity("um", "Thermal characteristic length.", optional=True)
    density: Spread = quantity("kg/m3", "Bulk density.")
    frame_modulus: Spread | None = quantity("MPa", "Dynamic modulus when glued or loaded.", optional=True)
    stock_thickness: tuple[float, ...] = numbers("mm", "Thicknesses usually in stock.")


@dataclass(frozen=True, slots=True, kw_only=True)
class ClosedFoam(Record):
    """A foam without open pores, acting as a spring between what it is glued to."""

    density: Spread = quantity("kg/m3", "Mass per volume.")
    dynamic_modulus: Spread = quantity("MPa", "Dynamic modulus in compression.")
    loss_factor: Spread = quantity("-", "Loss factor.")
    stock_thickness: tuple[float, ...] = numbers("mm", "Thicknesses usually in stock.")

    def dynamic_stiffness(self, thickness: float) -> Spread:
        """Dynamic stiffness per area [N/m³] of a layer ``thickness`` [m] thick."""
        if not thickness > 0.0:
            raise InvalidInput(f"thickness is {thickness} m; it is above zero")
        return self.dynamic_modulus.times(1.0 / thickness)


@dataclass(frozen=True, slots=True, kw_only=True)
class Glass(Record):
    """A pane, single or two equal panes with an interlayer."""

    density: Spread = quantity("kg/m3", "Mass per volume of the pane.")
    youngs_modulus: Spread = quantity("GPa", "Young's modulus of the pane.")
    poisson: Spread = quantity("-", "Poisson's ratio of the pane.")
    loss_factor: Spread = quantity("-", "The pane material's own loss factor, from internal to in situ.")
    interlayer: str = words("Record of kind core between the panes; empty: a single pane.", default="")
    interlayer_thickness: Spread | None = quantity("mm", "Thickness of the interlayer.", optional=True)
    stock_thickness: tuple[float, ...] = numbers("mm", "Total thicknesses usually in stock.")

    def pane_thicknesses(self, thickness: float) -> tuple[float, ...]:
        """Thickness of each pane [m]: one, or two equal ones beside the interlayer, for a total [m]."""
        if self.interlayer_thickness is None:
            return (thickness,)
        pane = (thickness - self.interlayer_thickness.value) / 2.0
        if not pane > 0.0:
            raise InvalidInput(f"glass of {thickness} m is thinner than its interlayer")
        return (pane, pane)


@dataclass(frozen=True, slots=True, kw_only=True)
class Covering(Record):
    """A floor or wall covering."""

    density: Spread = quantity("kg/m3", "Mass per volume.")
    stock_thickness: tuple[float, ...] = numbers("mm", "Thicknesses usually in stock.")
    absorption: str = words("Record of kind absorption that describes its face.", default="")

    def surface_density(self, thickness: float) -> Spread:
        """Mass per area [kg/m²] of a layer ``thickness`` [m] thick."""
        return self.density.times(thickness)


@dataclass(frozen=True, slots=True, kw_only=True)
class AbsorptionRow(Record):
    """Absorption of a surface, or of a person, in octaves 125–4000 Hz."""

    group: str = words("What kind of surface.")
    per: str = words("What the values are: a share of the area, or m2 per person.", default="area")
    density: float = number("kg/m3", "Bulk density, 0 where it is not printed.", default=0.0)
    thickness: float = number("mm", "Thickness, 0 where it is not printed.", default=0.0)
    absorption: tuple[float, ...] = numbers("-", "Absorption in the octaves 125 to 4000 Hz.", optional=False)


@dataclass(frozen=True, slots=True, kw_only=True)
class Facing(Record):
    """What covers an absorber and lets sound through: perforated sheet or cloth."""

    thickness: Spread = quantity("mm", "Thickness.")
    density: Spread = quantity("kg/m3", "Mass per volume of the solid part; of cloth: as a whole.")
    open_area_ratio: Spread | None = quantity("-", "Share of holes; empty for cloth.", optional=True)
    hole_radius: Spread | None = quantity("mm", "Radius of the holes; empty for cloth.", optional=True)
    flow_resistance: Spread | None = quantity("Pa s/m", "Flow resistance of cloth; empty for sheet.", optional=True)
    uses: tuple[str, ...] = names("Where it is usual.")
