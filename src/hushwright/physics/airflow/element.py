"""What every piece of a duct run answers: the total pressure that a flow loses in it, and how far to trust that."""

from __future__ import annotations

from abc import ABC, abstractmethod
from collections.abc import Sequence
from dataclasses import dataclass

from hushwright.errors import InvalidInput
from hushwright.physics.air import AIR_20C, Air
from hushwright.physics.airflow._guard import not_negative, positive


class DuctElement(ABC):
    """One piece of a duct run."""

    __slots__ = ()

    @abstractmethod
    def _loss(self, volume_flow_rate: float, air: Air) -> float:
        """Loss of total pressure [Pa] at a flow above zero."""

    def _notes(self, volume_flow_rate: float, air: Air) -> tuple[str, ...]:
        return ()

    def pressure_loss(self, volume_flow_rate: float, air: Air = AIR_20C) -> float:
        """Loss of total pressure [Pa].

        Parameters
        ----------
        volume_flow_rate : float
            Volume flow rate [m³/s], 0 or more.
        air : Air, optional
            State of the air.
        """
        if not_negative("volume flow rate", volume_flow_rate, "m³/s") == 0.0:
            return 0.0
        return self._loss(volume_flow_rate, air)

    def validity(self, volume_flow_rate: float, air: Air = AIR_20C) -> tuple[str, ...]:
        """Notes on what is guessed or beyond the measured range; empty when nothing is.

        Parameters
        ----------
        volume_flow_rate : float
            Volume flow rate [m³/s].
        air : Air, optional
            State of the air.
        """
        return self._notes(not_negative("volume flow rate", volume_flow_rate, "m³/s"), air)


@dataclass(frozen=True, slots=True)
class RatedElement(DuctElement):
    """Anything whose loss is known at one flow: a filter, a damper, a box that was measured.

    Parameters
    ----------
    rated_flow : float
        Volume flow rate of the known point [m³/s].
    rated_loss : float
        Loss of total pressure there, when clean [Pa].
    exponent : float, optional
        Exponent of the flow [-]: 2 for turbulent pieces, 1 to 1.5 for filters.
    soiling : float, optional
        Loss over that when clean [-], 1 or more; a filter is changed at about 2 (common practice, no source).

    Raises
    ------
    InvalidInput
        If a number is impossible.
    """

    rated_flow: float
    rated_loss: float
    exponent: float = 2.0
    soiling: float = 1.0

    def __post_init__(self) -> None:
        positive("rated flow", self.rated_flow, "m³/s")
        not_negative("rated loss", self.rated_loss, "Pa")
        if not 1.0 <= self.exponent <= 2.0:
            raise InvalidInput(
                f"exponent of the flow is {self.exponent}; it lies between 1 (laminar) and 2 (turbulent)"
            )
        if not self.soiling >= 1.0:
            raise InvalidInput(f"soiling is {self.soiling}; a clean filter has 1, a dirty one more")

    def _loss(self, volume_flow_rate: float, air: Air) -> float:
        # Known points are given for 1.2 kg/m³; the turbulent share follows the density, the laminar one does not.
        density = (air.density / 1.2) ** (self.exponent - 1.0)
        return float(self.soiling * self.rated_loss * density * (volume_flow_rate / self.rated_flow) ** self.exponent)

    def _notes(self, volume_flow_rate: float, air: Air) -> tuple[str, ...]:
        ratio = volume_flow_rate / self.rated_flow
        if ratio > 2.0 or 0.0 < ratio < 0.3:
            return (f"flow is {ratio:.2g} times that of the known point; the loss between is a power law",)
        return ()


def filter_element(rated_flow: float, clean_loss: float, soiling: float = 1.0, exponent: float = 1.3) -> RatedElement:
    """Air filter from the loss at one flow.

    Parameters
    ----------
    rated_flow : float
        Volume flow rate of the known point [m³/s].
    clean_loss : float
        Loss there, when clean [Pa].
    soiling : float, optional
        Loss over that when clean [-]; 2 is the usual time to change it (common practice, no source).
    exponent : float, optional
        Exponent of the flow [-]; 1.3 for pleated filters is common practice, no source.

    Returns
    -------
    RatedElement
        Element of a duct run.

    Raises
    ------
    InvalidInput
        If a number is impossible.

    References
    ----------
    .. [1] ISO 16890-2:2022, *Air filters for general ventilation* (loss against flow is measured at several points).

    Examples
    --------
    >>> round(filter_element(0.060, 30.0, soiling=2.0).pressure_loss(0.030), 1)
    24.4
    """
    return RatedElement(rated_flow, clean_loss, exponent, soiling)


def system_pressure_loss(elements: Sequence[DuctElement], volume_flow_rate: float, air: Air = AIR_20C) -> float:
    """Total pressure that a flow loses in a whole run: the system curve at this flow.

    Parameters
    ----------
    elements : sequence of DuctElement
        The run, in any order.
    volume_flow_rate : float
        Volume flow rate [m³/s].
    air : Air, optional
        State of the air.

    Returns
    -------
    float
        Loss of total pressure [Pa].

    Raises
    ------
    InvalidInput
        If the flow is below zero.

    Notes
    -----
    Losses add. Fittings closer than about five diameters disturb each other, which can raise their loss by half.

    References
    ----------
    .. [1] *ASHRAE Handbook, Fundamentals*, 2017, ch. 21 (duct design).

    Examples
    --------
    >>> round(system_pressure_loss([RatedElement(0.06, 20.0), RatedElement(0.06, 10.0)], 0.03), 1)
    7.5
    """
    return sum(element.pressure_loss(volume_flow_rate, air) for element in elements)


def system_validity(elements: Sequence[DuctElement], volume_flow_rate: float, air: Air = AIR_20C) -> tuple[str, ...]:
    """Notes of all elements of a run, each once.

    Parameters
    ----------
    elements : sequence of DuctElement
        The run.
    volume_flow_rate : float
        Volume flow rate [m³/s].
    air : Air, optional
        State of the air.

    Returns
    -------
    tuple of str
        What is guessed or beyond the measured range.

    Raises
    ------
    InvalidInput
        If the flow is below zero.

    References
    ----------
    .. [1] *ASHRAE Handbook, Fundamentals*, 2017, ch. 21 (duct design).

    Examples
    --------
    >>> system_validity([RatedElement(0.06, 20.0)], 0.05)
    ()
    """
    notes = (note for element in elements for note in element.validity(volume_flow_rate, air))
    return tuple(dict.fromkeys(notes))
