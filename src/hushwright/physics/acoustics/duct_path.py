"""A duct run as parts in order: what arrives at its end, step by step, and what it lets through as an opening."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass, replace
from typing import Protocol

import numpy as np
from numpy.typing import ArrayLike

from hushwright.errors import InvalidInput
from hushwright.physics.acoustics.bands import N_BANDS
from hushwright.physics.acoustics.duct_bands import DuctLoss, DuctPower, attenuated, summed_power, total_loss
from hushwright.physics.acoustics.duct_flow_noise import silence
from hushwright.physics.acoustics.leaks import Element
from hushwright.physics.acoustics.spaces import require_range


class FlowNoise(Protocol):
    """What makes sound when air passes it; hashable, so that a part can be a value."""

    def sound_power(self, volume_flow_rate: float) -> DuctPower:
        """Sound power for a flow.

        Parameters
        ----------
        volume_flow_rate : float
            Air through it [m³/s].

        Returns
        -------
        DuctPower
            Sound power levels [dB re 1 pW].
        """
        ...


@dataclass(frozen=True, slots=True)
class KnownNoise:
    """Flow noise known at one flow, from a data sheet or a worked sheet.

    Parameters
    ----------
    power : DuctPower
        Sound power at that flow (levels [dB]).
    volume_flow_rate : float
        The flow to which it belongs [m³/s].

    Raises
    ------
    InvalidInput
        If the flow is not above 0.

    References
    ----------
    .. [1] VDI 2081-1:2001 for flow noise as a sixth power of speed at fittings and terminals.

    Examples
    --------
    >>> from hushwright.physics.acoustics.duct_bands import power_from_octaves
    >>> known = KnownNoise(power_from_octaves([30.0] * 8), 0.05)
    >>> round(known.sound_power(0.025).octaves[0], 1)
    11.9
    """

    power: DuctPower
    volume_flow_rate: float

    def __post_init__(self) -> None:
        require_range("volume flow of known noise", self.volume_flow_rate, 0.0, 100.0, "m³/s", open_low=True)

    def sound_power(self, volume_flow_rate: float) -> DuctPower:
        """Sound power for another flow, by its sixth power.

        Parameters
        ----------
        volume_flow_rate : float
            Air through it [m³/s].

        Returns
        -------
        DuctPower
            Sound power levels [dB re 1 pW].
        """
        if volume_flow_rate == 0.0:
            return silence()
        if volume_flow_rate == self.volume_flow_rate:
            return self.power
        shift = 60.0 * math.log10(volume_flow_rate / self.volume_flow_rate)
        levels = tuple((self.power.array() + shift).tolist())
        note = f"flow noise known at {self.volume_flow_rate:.3g} m³/s, taken to {volume_flow_rate:.3g} m³/s by 60 lg"
        return replace(self.power, sound_power_level=levels).noted(note)


@dataclass(frozen=True, slots=True)
class DuctElement:
    """A part of a duct run.

    Parameters
    ----------
    name : str
        What it is called [-].
    loss : DuctLoss
        What it takes (attenuation [dB]).
    noise : FlowNoise or None, optional
        What the air makes in it [dB]; None for nothing worth counting.
    flow_share : float, optional
        Share of the flow that goes on behind it in the branch that is followed [-].

    Raises
    ------
    InvalidInput
        If the share is outside 0 to 1.

    References
    ----------
    .. [1] VDI 2081-1:2001, the calculation from part to part.

    Examples
    --------
    >>> from hushwright.physics.acoustics.duct_fittings import split
    >>> DuctElement("split", split(0.25), flow_share=0.25).flow_share
    0.25
    """

    name: str
    loss: DuctLoss
    noise: FlowNoise | None = None
    flow_share: float = 1.0

    def __post_init__(self) -> None:
        require_range(f"flow share behind {self.name}", self.flow_share, 0.0, 1.0, "", open_low=True)


@dataclass(frozen=True, slots=True)
class DuctStep:
    """One line of the sheet from the fan to the room.

    Parameters
    ----------
    name : str
        Name of the part [-].
    volume_flow_rate : float
        Air in it [m³/s].
    loss : DuctLoss
        What it takes [dB].
    noise : DuctPower
        What the air makes in it [dB].
    after_attenuation : DuctPower
        What is left of the sound before it [dB].
    after_element : DuctPower
        That and the noise of the part together [dB].

    References
    ----------
    .. [1] M. Long, *Architectural Acoustics*, 2nd ed., Academic Press, 2014, table 14.9 (layout of the sheet).

    Examples
    --------
    >>> from hushwright.physics.acoustics.duct_bands import loss_from_thirds, power_from_octaves
    >>> step = arrival([DuctElement("bend", loss_from_thirds(3.0))], power_from_octaves([50.0] * 8), 0.05).steps[0]
    >>> step.name, step.after_element.octaves[0]
    ('bend', 47.0)
    """

    name: str
    volume_flow_rate: float
    loss: DuctLoss
    noise: DuctPower
    after_attenuation: DuctPower
    after_element: DuctPower


@dataclass(frozen=True, slots=True)
class Arrival:
    """Sound power that leaves the end of a run.

    Parameters
    ----------
    steps : tuple of DuctStep
        Every part in order (levels [dB]).
    total : DuctPower
        Sound power at the end [dB].
    source_part : DuctPower
        What of it comes from the source at the beginning [dB].
    flow_part : DuctPower
        What of it the air made on the way [dB].

    References
    ----------
    .. [1] VDI 2081-1:2001, the calculation from part to part.

    Examples
    --------
    >>> from hushwright.physics.acoustics.duct_bands import loss_from_thirds, power_from_octaves
    >>> arrived = arrival([DuctElement("bend", loss_from_thirds(3.0))], power_from_octaves([50.0] * 8), 0.05)
    >>> arrived.flow_part.sound_power_level[0]
    -inf
    """

    steps: tuple[DuctStep, ...]
    total: DuctPower
    source_part: DuctPower
    flow_part: DuctPower

    @property
    def notes(self) -> tuple[str, ...]:
        """Where the run leaves the range of its sources."""
        return self.total.notes


def arrival(elements: Sequence[DuctElement], source: DuctPower, volume_flow_rate: float) -> Arrival:
    """Sound power at the end of a duct run.

    Parameters
    ----------
    elements : sequence of DuctElement
        Parts in the order in which the sound passes them (attenuations [dB]).
    source : DuctPower
        Sound power that enters the first part (levels [dB]).
    volume_flow_rate : float
        Air in the first part [m³/s], ≥ 0.

    Returns
    -------
    Arrival
        Sound power at the end [dB], in all and by origin, and every step.

    Raises
    ------
    InvalidInput
        If the flow is negative.

    Notes
    -----
    Each part takes its attenuation from what reaches it and adds its own noise in energy behind it. For an extract the
    sound runs against the air; the order is that of the sound. A split passes on ``flow_share`` of the flow.

    References
    ----------
    .. [1] VDI 2081-1:2001; M. Long, *Architectural Acoustics*, 2nd ed., Academic Press, 2014, table 14.9.

    Examples
    --------
    >>> from hushwright.physics.acoustics.duct_bands import power_from_octaves
    >>> from hushwright.physics.acoustics.duct_fittings import end_reflection, split
    >>> run = [DuctElement("split", split(0.5), flow_share=0.5), DuctElement("end", end_reflection(0.0123))]
    >>> round(arrival(run, power_from_octaves([60.0] * 8), 0.06).total.octaves[2], 1)
    48.2
    """
    require_range("volume flow", volume_flow_rate, 0.0, 100.0, "m³/s")
    flow, part, made = volume_flow_rate, source, silence("flow noise")
    present, steps = source, []
    for element in elements:
        noise = element.noise.sound_power(flow) if element.noise is not None else silence()
        left = attenuated(present, element.loss)
        present = summed_power([left, noise])
        steps.append(DuctStep(element.name, flow, element.loss, noise, left, present))
        part = attenuated(part, element.loss)
        made = summed_power([attenuated(made, element.loss), noise])
        flow *= element.flow_share
    return Arrival(tuple(steps), present, part, made)


def run_loss(elements: Sequence[DuctElement]) -> DuctLoss:
    """Insertion loss of a whole run, parts added without regard to each other.

    Parameters
    ----------
    elements : sequence of DuctElement
        Parts in any order (attenuations [dB]).

    Returns
    -------
    DuctLoss
        Sum of the attenuations [dB] of 27 bands.

    Raises
    ------
    InvalidInput
        If there is no part.

    References
    ----------
    .. [1] VDI 2081-1:2001.

    Examples
    --------
    >>> from hushwright.physics.acoustics.duct_fittings import split
    >>> round(run_loss([DuctElement("split", split(0.5))]).attenuation[0], 1)
    3.0
    """
    if not elements:
        raise InvalidInput(f"a run of {len(elements)} parts has no loss; it needs one or more")
    return total_loss([element.loss for element in elements])


def opening_of_run(elements: Sequence[DuctElement], area: float) -> Element:
    """A duct run as an opening in the isolation.

    Parameters
    ----------
    elements : sequence of DuctElement
        Parts from the noisy end to the quiet one, both open ends among them (attenuations [dB]).
    area : float
        Clear area of the end that faces the noise [m²].

    Returns
    -------
    Element
        Its area [m²] and sound reduction index [dB] of 27 bands, for `leaks.composite_reduction`.

    Raises
    ------
    InvalidInput
        If there is no part or the area is not above 0.

    Notes
    -----
    A diffuse field brings ``L − 6 + 10 lg S`` to the open end, the rule of every path here; what the open end throws
    back is, by reciprocity, its end reflection, so it is counted at both ends.

    References
    ----------
    .. [1] EN ISO 12354-3:2017, section 4 (elements side by side).

    Examples
    --------
    >>> from hushwright.physics.acoustics.duct_fittings import end_reflection
    >>> end = DuctElement("end", end_reflection(0.0123))
    >>> round(opening_of_run([end, end], 0.0123).reduction[13], 1)
    9.1
    """
    return Element(area, run_loss(elements).attenuation)


def crosstalk_power(elements: Sequence[DuctElement], sound_pressure_level: ArrayLike, area: float) -> DuctPower:
    """Sound power that a duct carries from one room, or from outdoors, into another.

    Parameters
    ----------
    elements : sequence of DuctElement
        Parts between the two, both open ends among them (attenuations [dB]).
    sound_pressure_level : array_like, shape (27,)
        Level that goes with R before the first end [dB]: that of a diffuse field.
    area : float
        Clear area of the first end [m²].

    Returns
    -------
    DuctPower
        Sound power levels [dB] at the far end.

    Raises
    ------
    InvalidInput
        If there is no part, the area is not above 0, or there are not 27 levels.

    References
    ----------
    .. [1] EN ISO 12354-1:2017, annex on indirect airborne paths; ISO 80000-8:2020.

    Examples
    --------
    >>> from hushwright.physics.acoustics.duct_fittings import end_reflection
    >>> end = DuctElement("end", end_reflection(0.0123))
    >>> round(crosstalk_power([end, end], [70.0] * 27, 0.0123).sound_power_level[13], 1)
    35.8
    """
    levels = np.asarray(sound_pressure_level, dtype=np.float64)
    if levels.shape != (N_BANDS,):
        raise InvalidInput(f"{levels.shape} levels given; there are {N_BANDS} third octaves")
    require_range("area of the open end", area, 0.0, 10.0, "m²", open_low=True)
    loss = run_loss(elements)
    entering = levels - 6.0 + 10.0 * math.log10(area)
    return attenuated(DuctPower(tuple(entering.tolist()), (0.0,) * N_BANDS, basis="sound through the duct"), loss)


def normalized_level_difference(elements: Sequence[DuctElement], area: float) -> tuple[float, ...]:
    """Element normalized level difference of a run between two rooms.

    Parameters
    ----------
    elements : sequence of DuctElement
        Parts between the rooms, both open ends among them (attenuations [dB]).
    area : float
        Clear area of the end in the source room [m²].

    Returns
    -------
    tuple of float, shape (27,)
        D_n,e [dB], for 10 m² of absorption.

    Raises
    ------
    InvalidInput
        If there is no part or the area is not above 0.

    References
    ----------
    .. [1] ISO 10140-1:2021, small technical elements; EN ISO 12354-3:2017.

    Examples
    --------
    >>> from hushwright.physics.acoustics.duct_fittings import end_reflection
    >>> end = DuctElement("end", end_reflection(0.0123))
    >>> round(normalized_level_difference([end, end], 0.0123)[13], 1)
    38.2
    """
    require_range("area of the open end", area, 0.0, 10.0, "m²", open_low=True)
    return tuple((run_loss(elements).array() - 10.0 * math.log10(area / 10.0)).tolist())
