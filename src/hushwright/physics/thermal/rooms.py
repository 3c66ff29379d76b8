"""What a heat network is made of: rooms, their envelopes, heaters and coolers, and what acts on them step by step."""

from __future__ import annotations

import math
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field
from typing import Final, Literal

import numpy as np

from hushwright.errors import InvalidInput
from hushwright.physics.thermal._guard import FloatArray, between, finite_array, not_negative, positive

GainKind = Literal["people", "lights", "equipment", "sun"]

OUTSIDE: Final = "outside"
"""Name of the outdoor air among surroundings and flows."""

LONGEST_STEP: Final = 300.0
"""Longest step of a heat calculation [s]."""

RADIANT_SHARE: Final[dict[str, float]] = {"people": 0.5, "lights": 0.5, "equipment": 0.2, "sun": 1.0}
"""Share of a gain that goes to the leaves of the room instead of its air [-]; common practice, no source."""


@dataclass(frozen=True, slots=True)
class RoomNode:
    """The air of a room with what warms up along with it.

    Parameters
    ----------
    name : str
        Name of the room.
    volume : float
        Volume of air [m³].
    contents_heat_capacity : float, optional
        Heat capacity of furniture and gear that follows the air [J/K].

    Raises
    ------
    InvalidInput
        If the volume is not above zero.

    References
    ----------
    .. [1] ISO 52016-1:2017, zone air node.

    Examples
    --------
    >>> RoomNode("quiet room", 6.5, contents_heat_capacity=40e3).volume
    6.5
    """

    name: str
    volume: float
    contents_heat_capacity: float = 0.0

    def __post_init__(self) -> None:
        positive("room volume", self.volume, "m³")
        not_negative("heat capacity of contents", self.contents_heat_capacity, "J/K")
        if self.name == OUTSIDE:
            raise InvalidInput(f"a room is named {self.name!r}; that is the name of the outdoor air")


@dataclass(frozen=True, slots=True)
class Envelope:
    """A face of a room: surroundings, skin with its mass, wool, leaf with its mass, room.

    Parameters
    ----------
    name : str
        Name of the face.
    room : str
        Room on the inside.
    surroundings : str
        What acts on the skin: a temperature of the drive, such as ``"outside"`` or a sunlit face, or another room.
    area : float
        Area [m²].
    outside_resistance : float
        From the surroundings to the skin [m²·K/W].
    skin_heat_capacity : float
        Heat capacity that follows the skin [J/(m²·K)].
    core_resistance : float
        From the skin to the leaf, bridges included [m²·K/W].
    leaf_heat_capacity : float
        Heat capacity that follows the leaf [J/(m²·K)].
    inside_resistance : float
        From the leaf to the air of the room [m²·K/W].

    Raises
    ------
    InvalidInput
        If a value is not above zero.

    References
    ----------
    .. [1] ISO 52016-1:2017, annex on reduced nodes; the two nodes are ours.

    Examples
    --------
    >>> side = Envelope("left", "quiet room", "left", 4.0, 0.04, 4e3, 1.5, 15e3, 0.13)
    >>> round(side.thermal_transmittance, 2)
    0.6
    """

    name: str
    room: str
    surroundings: str
    area: float
    outside_resistance: float
    skin_heat_capacity: float
    core_resistance: float
    leaf_heat_capacity: float
    inside_resistance: float

    def __post_init__(self) -> None:
        positive(f"area of {self.name}", self.area, "m²")
        for resistance in (self.outside_resistance, self.core_resistance, self.inside_resistance):
            positive(f"resistance of {self.name}", resistance, "m²·K/W")
        for capacity in (self.skin_heat_capacity, self.leaf_heat_capacity):
            positive(f"heat capacity of {self.name}", capacity, "J/(m²·K)")

    @property
    def thermal_transmittance(self) -> float:
        """Thermal transmittance from the surroundings to the room [W/(m²·K)]."""
        return 1.0 / (self.outside_resistance + self.core_resistance + self.inside_resistance)


@dataclass(frozen=True, slots=True)
class Heater:
    """A heater with its thermostat.

    Parameters
    ----------
    room : str
        Room it heats.
    capacity : float
        Greatest heat [W].
    setpoint : float
        Temperature that it holds once it runs [°C].
    hysteresis : float, optional
        Fall below the setpoint that starts it [K].
    efficiency : float, optional
        Heat to the room over energy taken [-].

    Raises
    ------
    InvalidInput
        If capacity or efficiency are not above zero.

    References
    ----------
    .. [1] Common practice, no source.

    Examples
    --------
    >>> Heater("control room", 2000.0, 20.0).hysteresis
    1.0
    """

    room: str
    capacity: float
    setpoint: float
    hysteresis: float = 1.0
    efficiency: float = 1.0

    def __post_init__(self) -> None:
        positive("heater capacity", self.capacity, "W")
        positive("heater efficiency", self.efficiency, "")
        not_negative("hysteresis", self.hysteresis, "K")


@dataclass(frozen=True, slots=True)
class Cooler:
    """A cooler with its thermostat and its coil, which also dries the air.

    Parameters
    ----------
    room : str
        Room it cools.
    capacity : float
        Total cooling, sensible and latent, at 35 °C outside [W].
    coefficient_of_performance : float
        Cooling over electrical power [-].
    setpoint : float
        Temperature that it holds once it runs [°C].
    hysteresis : float, optional
        Rise above the setpoint that starts it [K].
    coil_temperature : float, optional
        Temperature of the coil's surface [°C].
    capacity_slope : float, optional
        Share of the capacity that is lost for each kelvin outside above 35 °C, and gained below down to 20 °C [1/K].

    Raises
    ------
    InvalidInput
        If a value is impossible.

    Notes
    -----
    Air that touches the coil comes to its temperature and, when the coil is colder than the dew point, to saturation
    there. Sensible and latent cooling are in the ratio of that way, ``c ΔT : r Δw``, so that damp air leaves less
    cooling for the temperature.

    References
    ----------
    .. [1] ISO 5151:2017, rating at 35 °C outside; bypass model of the coil, ASHRAE Handbook, HVAC Systems (memory).

    Examples
    --------
    >>> Cooler("quiet room", 1600.0, 3.1, 24.0).coil_temperature
    10.0
    """

    room: str
    capacity: float
    coefficient_of_performance: float
    setpoint: float
    hysteresis: float = 1.0
    coil_temperature: float = 10.0
    capacity_slope: float = 0.0

    def __post_init__(self) -> None:
        positive("cooler capacity", self.capacity, "W")
        positive("coefficient of performance", self.coefficient_of_performance, "")
        not_negative("hysteresis", self.hysteresis, "K")
        between("coil temperature", self.coil_temperature, 0.0, self.setpoint - 2.0, "°C")
        between("capacity slope", self.capacity_slope, 0.0, 0.05, "1/K")


@dataclass(frozen=True, slots=True)
class HeatNetwork:
    """Rooms, envelopes, heaters and coolers of a van.

    Parameters
    ----------
    rooms : tuple of RoomNode
        The rooms.
    envelopes : tuple of Envelope
        Their faces; a wall between two rooms is listed once.
    heaters : tuple of Heater, optional
        The heaters.
    coolers : tuple of Cooler, optional
        The coolers, at most one for each room.

    Raises
    ------
    InvalidInput
        If a room is named twice or unknown, or has no envelope.

    References
    ----------
    .. [1] ISO 52016-1:2017.

    Examples
    --------
    >>> side = Envelope("all", "quiet room", "outside", 20.0, 0.04, 4e3, 1.5, 15e3, 0.13)
    >>> len(HeatNetwork((RoomNode("quiet room", 6.5),), (side,)).rooms)
    1
    """

    rooms: tuple[RoomNode, ...]
    envelopes: tuple[Envelope, ...]
    heaters: tuple[Heater, ...] = ()
    coolers: tuple[Cooler, ...] = ()

    def __post_init__(self) -> None:
        names = [room.name for room in self.rooms]
        if not names or len(set(names)) != len(names):
            raise InvalidInput(f"rooms are {names}; each needs a name of its own and there must be one or more")
        used = [wall.room for wall in self.envelopes]
        used += [heater.room for heater in self.heaters] + [cooler.room for cooler in self.coolers]
        if unknown := [name for name in used if name not in names]:
            raise InvalidInput(f"room {unknown[0]!r} is not among {names}")
        if bare := [name for name in names if all(name not in (e.room, e.surroundings) for e in self.envelopes)]:
            raise InvalidInput(f"room {bare[0]!r} has no envelope")
        heated, cooled = [heater.room for heater in self.heaters], [cooler.room for cooler in self.coolers]
        if len(set(heated)) != len(heated) or len(set(cooled)) != len(cooled):
            raise InvalidInput(f"heaters are in {heated}, coolers in {cooled}; give one of each kind for each room")


@dataclass(frozen=True, slots=True, eq=False)
class Drive:
    """What acts on a network, step by step; every value holds through its step.

    Parameters
    ----------
    step : float
        Length of a step [s], up to 300 s.
    surroundings : mapping of str to ndarray, shape (n_step,)
        Temperatures by name [°C]; ``"outside"`` must be there, sunlit faces bring their sol-air temperature.
    outside_relative_humidity : ndarray, shape (n_step,)
        Relative humidity of the outdoor air [-].
    flows : mapping of (str, str) to ndarray, shape (n_step,), optional
        Air that enters the second space from the first [m³/s]. What a room gives away and does not get back from here
        comes from outdoors.
    gains : mapping of (str, str) to ndarray, shape (n_step,), optional
        Sensible heat by room and kind: people, lights, equipment, sun [W].
    vapour : mapping of str to ndarray, shape (n_step,), optional
        Water given off in each room [kg/s].
    cooler_allowed : mapping of str to ndarray, shape (n_step,), optional
        Whether the cooler of a room may run; always when left out.
    heater_allowed : mapping of str to ndarray, shape (n_step,), optional
        Whether the heater of a room may run; always when left out.

    Raises
    ------
    InvalidInput
        If the step is too long, the outdoor air is missing or lengths differ.

    References
    ----------
    .. [1] ISO 52016-1:2017.

    Examples
    --------
    >>> Drive(300.0, {"outside": np.full(12, 30.0)}, np.full(12, 0.5)).count
    12
    """

    step: float
    surroundings: Mapping[str, FloatArray]
    outside_relative_humidity: FloatArray
    flows: Mapping[tuple[str, str], FloatArray] = field(default_factory=dict)
    gains: Mapping[tuple[str, str], FloatArray] = field(default_factory=dict)
    vapour: Mapping[str, FloatArray] = field(default_factory=dict)
    cooler_allowed: Mapping[str, FloatArray] = field(default_factory=dict)
    heater_allowed: Mapping[str, FloatArray] = field(default_factory=dict)

    def __post_init__(self) -> None:
        positive("step", self.step, "s")
        between("step", self.step, 0.0, LONGEST_STEP, "s")
        if OUTSIDE not in self.surroundings:
            raise InvalidInput(f"surroundings are {sorted(self.surroundings)}; {OUTSIDE!r} is missing")
        groups = (self.surroundings, self.flows, self.gains, self.vapour, self.cooler_allowed, self.heater_allowed)
        for group in groups:
            for name, values in group.items():
                if finite_array(str(name), values, "").shape != (self.count,):
                    raise InvalidInput(f"{name} has {np.shape(values)} values; the outdoor air has {self.count} steps")
        if np.shape(self.outside_relative_humidity) != (self.count,):
            raise InvalidInput(f"humidity has {np.shape(self.outside_relative_humidity)} values for {self.count} steps")
        for values in (*self.flows.values(), *self.vapour.values()):
            if float(np.min(values)) < 0.0:
                raise InvalidInput(f"a flow falls to {float(np.min(values))}; air and water flow forward, 0 or more")
        if (
            not 0.0
            <= float(np.min(self.outside_relative_humidity))
            <= float(np.max(self.outside_relative_humidity))
            <= 1
        ):
            raise InvalidInput(
                f"relative humidity reaches {float(np.max(self.outside_relative_humidity))}; it is a share"
            )

    @property
    def count(self) -> int:
        """Number of steps [-]."""
        return int(np.size(self.surroundings[OUTSIDE]))


def two_node_capacities(layers: Sequence[tuple[float, float]]) -> tuple[float, float, float]:
    """Layers of a build-up reduced to a skin node, a leaf node and the resistance between them.

    Parameters
    ----------
    layers : sequence of pairs, length n_layer
        Thermal resistance [m²·K/W] and heat capacity [J/(m²·K)] of each layer from outside to inside.

    Returns
    -------
    tuple of three floats
        Heat capacity of the skin [J/(m²·K)], core resistance [m²·K/W], heat capacity of the leaf [J/(m²·K)].

    Raises
    ------
    InvalidInput
        If there is no resistance or no heat capacity.

    Notes
    -----
    The nodes sit on both surfaces. Each layer's heat capacity is shared between them by the lever rule at the middle of
    the layer's resistance, so that the steady heat content is kept exactly.

    References
    ----------
    .. [1] ISO 52016-1:2017, reduced nodes; the lever rule is ours.

    Examples
    --------
    Steel, wool, plywood: the steel stays outside, the plywood inside.

    >>> [round(value) for value in two_node_capacities([(0.0, 3200.0), (2.0, 1500.0), (0.1, 15000.0)])]
    [4343, 2, 15357]
    """
    total = positive("resistance of the layers", math.fsum(resistance for resistance, _ in layers), "m²·K/W")
    passed, skin, leaf = 0.0, 0.0, 0.0
    for resistance, capacity in layers:
        not_negative("layer", min(resistance, capacity), "m²·K/W or J/(m²·K)")
        middle = (passed + 0.5 * resistance) / total
        skin += (1.0 - middle) * capacity
        leaf += middle * capacity
        passed += resistance
    positive("heat capacity of the layers", min(skin, leaf), "J/(m²·K)")
    return skin, total, leaf
