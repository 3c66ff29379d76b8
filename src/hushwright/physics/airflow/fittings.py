"""Pieces that turn air, change its section or let it in and out of a duct."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import Literal

from hushwright.errors import InvalidInput
from hushwright.physics.air import Air
from hushwright.physics.airflow._guard import not_negative, open_share, positive
from hushwright.physics.airflow.ducts import ROUGHNESS
from hushwright.physics.airflow.element import DuctElement
from hushwright.physics.airflow.friction import DuctSection, darcy_friction_factor

Entry = Literal["flush", "projecting", "bellmouth"]

# Loss coefficients of an entry; ASHRAE, CIBSE and Idelchik (memory).
_ENTRY = {"flush": 0.5, "projecting": 1.0, "bellmouth": 0.03}


def _friction_factor(section: DuctSection, volume_flow_rate: float, air: Air, roughness: float) -> float:
    reynolds = section.reynolds_number(volume_flow_rate, air)
    return darcy_friction_factor(reynolds, roughness / section.hydraulic_diameter)


@dataclass(frozen=True, slots=True)
class Bend(DuctElement):
    """Smooth bend.

    Parameters
    ----------
    section : DuctSection
        Cross-section.
    bend_radius : float
        Radius of the centre line [m], at least half the hydraulic diameter.
    angle : float, optional
        Angle by which the air turns [rad], above 0 to π.
    roughness : float, optional
        Absolute roughness of the wall [m].

    Raises
    ------
    InvalidInput
        If a number is impossible.

    Notes
    -----
    Law of Rennels and Hudson (2012) for round bends, wall friction included, by the library fluids. Narrow ducts lose
    more than the handbooks' 0.22 (radius of one diameter) and 0.15 (one and a half), which belong to wide ones.
    """

    section: DuctSection
    bend_radius: float
    angle: float = math.pi / 2.0
    roughness: float = ROUGHNESS["galvanised steel"]

    def __post_init__(self) -> None:
        if not 0.5 * self.section.hydraulic_diameter <= self.bend_radius:
            raise InvalidInput(
                f"bend radius is {self.bend_radius} m; its centre line has at least half the diameter, "
                f"{0.5 * self.section.hydraulic_diameter:.4g} m"
            )
        if not 0.0 < self.angle <= math.pi:
            raise InvalidInput(f"angle of the bend is {self.angle} rad; it lies above 0 and up to π")
        not_negative("roughness of the bend", self.roughness, "m")

    def _loss(self, volume_flow_rate: float, air: Air) -> float:
        from fluids.fittings import bend_rounded

        coefficient = bend_rounded(
            Di=self.section.hydraulic_diameter,
            angle=math.degrees(self.angle),
            fd=_friction_factor(self.section, volume_flow_rate, air, self.roughness),
            rc=self.bend_radius,
            method="Rennels",
        )
        return float(coefficient) * self.section.velocity_pressure(volume_flow_rate, air)

    def _notes(self, volume_flow_rate: float, air: Air) -> tuple[str, ...]:
        if self.section.equivalent_diameter > 1.02 * self.section.hydraulic_diameter:
            return ("a bend that is not round is computed as a round one of its hydraulic diameter",)
        return ()


@dataclass(frozen=True, slots=True)
class MitredBend(DuctElement):
    """Sharp corner without vanes.

    Parameters
    ----------
    section : DuctSection
        Cross-section.
    angle : float, optional
        Angle by which the air turns [rad], above 0 to 150 degrees.

    Raises
    ------
    InvalidInput
        If the angle is out of range.

    Notes
    -----
    Law of Rennels and Hudson (2012), by the library fluids; 1.2 velocity pressures at a right angle.
    """

    section: DuctSection
    angle: float = math.pi / 2.0

    def __post_init__(self) -> None:
        if not 0.0 < self.angle <= math.radians(150.0) + 1e-9:
            raise InvalidInput(f"angle of the mitred bend is {self.angle} rad; the law holds up to 150 degrees")

    def _loss(self, volume_flow_rate: float, air: Air) -> float:
        from fluids.fittings import bend_miter

        coefficient = bend_miter(angle=math.degrees(self.angle), method="Rennels")
        return float(coefficient) * self.section.velocity_pressure(volume_flow_rate, air)


@dataclass(frozen=True, slots=True)
class AreaChange(DuctElement):
    """Reducer or widening, sudden or gradual.

    Parameters
    ----------
    before : DuctSection
        Section that the air comes from.
    after : DuctSection
        Section that it goes to.
    length : float, optional
        Length of the transition [m]; 0 is a step.

    Raises
    ------
    InvalidInput
        If the length is below zero.

    Notes
    -----
    Steps after Borda and Carnot, sharp-edged reducers and cones after Rennels and Hudson (2012), by the library
    fluids, as between circles of the same areas.
    """

    before: DuctSection
    after: DuctSection
    length: float = 0.0

    def __post_init__(self) -> None:
        not_negative("length of the transition", self.length, "m")

    def _loss(self, volume_flow_rate: float, air: Air) -> float:
        narrow = min(self.before, self.after, key=lambda section: section.area)
        first, second = self.before.equivalent_diameter, self.after.equivalent_diameter
        if first == second:
            return 0.0
        factor = _friction_factor(narrow, volume_flow_rate, air, ROUGHNESS["galvanised steel"])
        return self._coefficient(first, second, factor) * narrow.velocity_pressure(volume_flow_rate, air)

    def _coefficient(self, first: float, second: float, factor: float) -> float:
        """Loss coefficient on the velocity in the narrow section."""
        from fluids.fittings import contraction_conical, contraction_sharp, diffuser_conical, diffuser_sharp

        if second > first:
            if self.length > 0.0:
                return float(diffuser_conical(Di1=first, Di2=second, l=self.length, fd=factor))
            return float(diffuser_sharp(Di1=first, Di2=second))
        if self.length > 0.0:
            return float(contraction_conical(Di1=first, Di2=second, l=self.length, fd=factor))
        return float(contraction_sharp(Di1=first, Di2=second))


@dataclass(frozen=True, slots=True)
class Inlet(DuctElement):
    """Open end through which air enters a duct from a room or from outdoors.

    Parameters
    ----------
    section : DuctSection
        Cross-section behind it.
    shape : {"flush", "projecting", "bellmouth"}, optional
        Edge in the wall, end that stands out, or rounded.

    Raises
    ------
    InvalidInput
        If the shape is unknown.
    """

    section: DuctSection
    shape: Entry = "flush"

    def __post_init__(self) -> None:
        if self.shape not in _ENTRY:
            raise InvalidInput(f"shape of the inlet is {self.shape!r}; known are {', '.join(_ENTRY)}")

    def _loss(self, volume_flow_rate: float, air: Air) -> float:
        return _ENTRY[self.shape] * self.section.velocity_pressure(volume_flow_rate, air)


@dataclass(frozen=True, slots=True)
class Outlet(DuctElement):
    """End at which air leaves a duct and loses its whole velocity pressure.

    Parameters
    ----------
    section : DuctSection
        Cross-section before it.
    """

    section: DuctSection

    def _loss(self, volume_flow_rate: float, air: Air) -> float:
        return self.section.velocity_pressure(volume_flow_rate, air)


@dataclass(frozen=True, slots=True)
class Grille(DuctElement):
    """Grille, louvre or perforated plate across the duct.

    Parameters
    ----------
    section : DuctSection
        Face of the grille.
    free_share : float, optional
        Free share of the face [-].
    loss_coefficient : float, optional
        Loss coefficient on the face velocity [-], if known; else from the free share.

    Raises
    ------
    InvalidInput
        If a number is impossible.

    Notes
    -----
    ``K = (0.707 sqrt(1 − s) + 1 − s)²/s²`` on the face velocity, a thin sharp-edged grille within a duct (Idelchik,
    *Handbook of Hydraulic Resistance*, from memory). At half free area it gives 4, the cautious end of the 2.5 to 4 of
    the handbooks. The velocity pressure lost behind it is the outlet's.
    """

    section: DuctSection
    free_share: float = 0.5
    loss_coefficient: float | None = None

    def __post_init__(self) -> None:
        open_share("free share of the grille", self.free_share)
        if self.loss_coefficient is not None:
            not_negative("loss coefficient of the grille", self.loss_coefficient, "")

    def _loss(self, volume_flow_rate: float, air: Air) -> float:
        coefficient = self.loss_coefficient
        if coefficient is None:
            closed = 1.0 - self.free_share
            coefficient = ((0.707 * math.sqrt(closed) + closed) / self.free_share) ** 2
        return coefficient * self.section.velocity_pressure(volume_flow_rate, air)

    def _notes(self, volume_flow_rate: float, air: Air) -> tuple[str, ...]:
        if self.loss_coefficient is None and self.free_share < 1.0:
            return (
                "the loss of a grille without data is that of a sharp-edged one, which bars with round edges undercut",
            )
        return ()


@dataclass(frozen=True, slots=True)
class Fitting(DuctElement):
    """Piece with a known loss coefficient.

    Parameters
    ----------
    section : DuctSection
        Section whose velocity the coefficient belongs to.
    loss_coefficient : float
        Loss of total pressure over velocity pressure [-].

    Raises
    ------
    InvalidInput
        If the coefficient is not above zero.
    """

    section: DuctSection
    loss_coefficient: float

    def __post_init__(self) -> None:
        positive("loss coefficient", self.loss_coefficient, "")

    def _loss(self, volume_flow_rate: float, air: Air) -> float:
        return self.loss_coefficient * self.section.velocity_pressure(volume_flow_rate, air)
