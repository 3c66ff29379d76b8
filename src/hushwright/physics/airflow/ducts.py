"""Ducts that lead air on: straight, flexible, through a baffle box."""

from __future__ import annotations

import math
from dataclasses import dataclass

from hushwright.errors import InvalidInput
from hushwright.physics.air import Air
from hushwright.physics.airflow._guard import not_negative, open_share, positive
from hushwright.physics.airflow.element import DuctElement
from hushwright.physics.airflow.friction import (
    LAMINAR_END,
    TURBULENT_BEGIN,
    DuctSection,
    friction_loss,
    round_section,
)

# Absolute roughness [m]; ASHRAE Fundamentals, ch. 21 (memory; galvanised steel also found in a worked sheet).
ROUGHNESS = {
    "galvanised steel": 0.09e-3,
    "smooth plastic": 0.01e-3,
    "drawn aluminium": 0.03e-3,
    "fibrous lining": 0.9e-3,
    "flexible duct": 2.0e-3,  # 0.9 to 3.0 mm when fully stretched
}
QUARTER_TURN = 1.2  # loss coefficient of a sharp turn by 90 degrees without vanes
_MEASURED_DIAMETERS = (0.145, 0.255)  # of flexible duct, m
_MEASURED_COMPRESSION = 0.30


@dataclass(frozen=True, slots=True)
class StraightDuct(DuctElement):
    """Straight duct of any section.

    Parameters
    ----------
    section : DuctSection
        Cross-section.
    length : float
        Length [m].
    roughness : float, optional
        Absolute roughness of the wall [m]; galvanised steel when left out.

    Raises
    ------
    InvalidInput
        If a number is impossible.
    """

    section: DuctSection
    length: float
    roughness: float = ROUGHNESS["galvanised steel"]

    def __post_init__(self) -> None:
        not_negative("length of the duct", self.length, "m")
        not_negative("roughness of the duct", self.roughness, "m")

    def _loss(self, volume_flow_rate: float, air: Air) -> float:
        return friction_loss(self.section, self.length, self.roughness, volume_flow_rate, air)

    def _notes(self, volume_flow_rate: float, air: Air) -> tuple[str, ...]:
        reynolds = self.section.reynolds_number(volume_flow_rate, air)
        if LAMINAR_END < reynolds < TURBULENT_BEGIN:
            return (f"Reynolds number is {reynolds:.0f}, between laminar and turbulent; friction is interpolated",)
        return ()


def compression_factor(diameter: float, compression: float) -> float:
    r"""How much more a flexible duct loses per length when it is not pulled straight.

    Parameters
    ----------
    diameter : float
        Inner diameter [m].
    compression : float
        Share by which it is shorter than fully stretched [-], 0 to below 1.

    Returns
    -------
    float
        Loss over that of the stretched duct of the same installed length [-].

    Raises
    ------
    InvalidInput
        If a number is impossible.

    Notes
    -----
    .. math:: 1 + 0.58\, r\, e^{-0.00496 D}

    with r in percent and D in millimetres [1]_ (from memory; it gives the factor of about 4 for moderate and 10 for
    strong compression that [2]_ and later work measured). Measured on 150 to 250 mm, up to 30 %.

    References
    ----------
    .. [1] *ASHRAE Handbook, Fundamentals*, 2017, ch. 21 (duct design).
    .. [2] B. Abushakra, I. Walker and M. Sherman, "Compression effects on pressure loss in flexible HVAC ducts",
       *HVAC&R Research* 10 (2004) 275-289.

    Examples
    --------
    >>> round(compression_factor(0.150, 0.15), 2)
    5.13
    """
    positive("diameter of the duct", diameter, "m")
    if not 0.0 <= compression < 1.0:
        raise InvalidInput(f"compression of the flexible duct is {compression}; it lies from 0 to below 1")
    return 1.0 + 58.0 * compression * math.exp(-4.96 * diameter)


@dataclass(frozen=True, slots=True)
class FlexibleDuct(DuctElement):
    """Corrugated flexible duct, stretched, pushed together or crushed.

    Parameters
    ----------
    diameter : float
        Inner diameter [m].
    length : float
        Length as installed [m].
    compression : float, optional
        Share by which it is shorter than fully stretched [-]; 0.04 is well installed, 0.15 usual (measured in
        buildings), 0.30 careless.
    free_share : float, optional
        Share of the round area that is left where it is pinched [-]; 1 when round.
    roughness : float, optional
        Absolute roughness when stretched [m], 0.9 to 3 mm.

    Raises
    ------
    InvalidInput
        If a number is impossible.
    """

    diameter: float
    length: float
    compression: float = 0.15
    free_share: float = 1.0
    roughness: float = ROUGHNESS["flexible duct"]

    def __post_init__(self) -> None:
        compression_factor(self.diameter, self.compression)
        not_negative("length of the duct", self.length, "m")
        not_negative("roughness of the duct", self.roughness, "m")
        open_share("free share of the flexible duct", self.free_share)

    @property
    def section(self) -> DuctSection:
        """Cross-section that is left: the wall keeps its length when the duct is flattened."""
        whole = round_section(self.diameter)
        return DuctSection(self.free_share * whole.area, self.free_share * whole.hydraulic_diameter)

    def _loss(self, volume_flow_rate: float, air: Air) -> float:
        stretched = friction_loss(self.section, self.length, self.roughness, volume_flow_rate, air)
        return compression_factor(self.diameter, self.compression) * stretched

    def _notes(self, volume_flow_rate: float, air: Air) -> tuple[str, ...]:
        notes = []
        low, high = _MEASURED_DIAMETERS
        if self.compression > 0.0 and not low <= self.diameter <= high:
            notes.append(f"flexible duct of {1000 * self.diameter:.0f} mm; compression was measured on 150 to 250 mm")
        if self.compression > _MEASURED_COMPRESSION:
            notes.append(f"flexible duct is pushed together by {self.compression:.0%}; the law holds up to 30 %")
        if self.free_share < 1.0:
            notes.append(f"flexible duct is pinched to {self.free_share:.0%} of its area, taken along its whole length")
        return tuple(notes)


def _step_coefficient(before: DuctSection, after: DuctSection) -> float:
    """Loss coefficient of a sudden change of area, on the velocity before it: Borda and Carnot, sharp edge."""
    if after.area >= before.area:
        return (1.0 - before.area / after.area) ** 2
    return 0.5 * (1.0 - after.area / before.area) * (before.area / after.area) ** 2


@dataclass(frozen=True, slots=True)
class BaffleBox(DuctElement):
    """Lined box in which staggered baffles send the air to and fro.

    Parameters
    ----------
    inlet : DuctSection
        Duct that comes in.
    passage : DuctSection
        Narrowest free passage between baffle and lining.
    outlet : DuctSection
        Duct that goes out.
    quarter_turns : float
        Sharp turns of 90 degrees on the way [-]; two for each baffle, one for each end that meets a wall.
    path_length : float
        Way of the air through the passage [m].
    roughness : float, optional
        Absolute roughness of the lining [m].
    turn_loss_coefficient : float, optional
        Loss coefficient of one turn on the velocity in the passage [-].

    Raises
    ------
    InvalidInput
        If a number is impossible.

    Notes
    -----
    Sudden change of area into the passage and out of it, turns of 1.2 velocity pressures each (a mitred bend without
    vanes), friction on the lining. Turns that follow each other closely lose less than their sum when they go on in
    the same sense and more when they do not; expect ± 30 %.
    """

    inlet: DuctSection
    passage: DuctSection
    outlet: DuctSection
    quarter_turns: float
    path_length: float
    roughness: float = ROUGHNESS["fibrous lining"]
    turn_loss_coefficient: float = QUARTER_TURN

    def __post_init__(self) -> None:
        not_negative("turns of the baffle box", self.quarter_turns, "")
        not_negative("path length of the baffle box", self.path_length, "m")
        not_negative("roughness of the lining", self.roughness, "m")
        not_negative("loss coefficient of a turn", self.turn_loss_coefficient, "")

    def _loss(self, volume_flow_rate: float, air: Air) -> float:
        inside = self.passage.velocity_pressure(volume_flow_rate, air)
        ends = _step_coefficient(self.inlet, self.passage) * self.inlet.velocity_pressure(volume_flow_rate, air)
        ends += _step_coefficient(self.passage, self.outlet) * inside
        turns = self.quarter_turns * self.turn_loss_coefficient * inside
        return ends + turns + friction_loss(self.passage, self.path_length, self.roughness, volume_flow_rate, air)

    def _notes(self, volume_flow_rate: float, air: Air) -> tuple[str, ...]:
        return ("the loss of a baffle box is put together from its parts, ± 30 %",)
