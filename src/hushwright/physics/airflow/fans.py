"""Fans: what they deliver against a duct run, at what power, at what speed."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, field, replace

from hushwright.errors import InvalidInput
from hushwright.physics.air import AIR_20C, Air
from hushwright.physics.airflow._curve import monotone_curve, root_between
from hushwright.physics.airflow._guard import not_negative, positive
from hushwright.physics.airflow.element import DuctElement, system_pressure_loss, system_validity
from hushwright.physics.airflow.friction import DuctSection

RATING_DENSITY = 1.2  # kg/m³, of fan curves (ISO 5801)
_ASSUMED_EFFICIENCY = 0.2  # of a small fan with its motor; common practice, no source
_POINTS_OF_A_SHAPE = 17
_POINTS_OF_A_SEARCH = 129
_SPEED_RANGE = (0.3, 1.2)


@dataclass(frozen=True, slots=True)
class Fan:
    """Fan with its curve of pressure against flow.

    Parameters
    ----------
    volume_flow_rates : tuple of float, length n_point
        Volume flow rates of the curve at rated speed [m³/s], rising, the first 0 or more.
    pressures : tuple of float, length n_point
        Pressure of the fan at those flows [Pa], in air of 1.2 kg/m³; total, or static if ``outlet`` is given.
    powers : tuple of float, length n_point or 1, optional
        Electrical power at those flows, or one for all [W].
    efficiency : float, optional
        Air power over electrical power [-], where no powers are known.
    outlet : DuctSection, optional
        Outlet of a fan whose curve is one of static pressure; its velocity pressure is added.
    speed : float, optional
        Speed over the rated one [-].
    guesses : tuple of str, optional
        What is not known of the curve, for the validity of results.

    Raises
    ------
    InvalidInput
        If the curve has fewer than two points, does not rise in flow, or a number is impossible.

    Notes
    -----
    Between the points a curve without overshoot; beyond the last the last slope goes on, so that the fan becomes a
    resistance. With speed and density: ``q ~ n, p ~ ρ n², P ~ ρ n³`` (fan laws, ISO 5801).
    """

    volume_flow_rates: tuple[float, ...]
    pressures: tuple[float, ...]
    powers: tuple[float, ...] = field(default=())
    efficiency: float | None = None
    outlet: DuctSection | None = None
    speed: float = 1.0
    guesses: tuple[str, ...] = field(default=())

    def __post_init__(self) -> None:
        flows = self.volume_flow_rates
        if len(flows) < 2 or len(flows) != len(self.pressures):
            raise InvalidInput(
                f"fan curve has {len(flows)} flows and {len(self.pressures)} pressures; at least two pairs"
            )
        rising = all(before < after for before, after in zip(flows, flows[1:], strict=False))
        if not rising or not_negative("first flow of the fan curve", flows[0], "m³/s") < 0.0:
            raise InvalidInput(
                f"flows of the fan curve are {list(flows)} m³/s; each must be larger than the one before"
            )
        for pressure in self.pressures:
            not_negative("pressure of the fan curve", pressure, "Pa")
        positive("highest pressure of the fan curve", max(self.pressures), "Pa")
        if self.pressures[-1] >= self.pressures[-2]:
            raise InvalidInput(f"fan curve ends with {self.pressures[-2:]} Pa; its pressure must fall at the end")
        if self.powers and len(self.powers) not in (1, len(flows)):
            raise InvalidInput(f"fan has {len(self.powers)} powers for {len(flows)} flows; give one, or one for each")
        for power in self.powers:
            not_negative("power of the fan", power, "W")
        if self.efficiency is not None and not 0.0 < self.efficiency <= 1.0:
            raise InvalidInput(f"efficiency of the fan is {self.efficiency}; it lies above 0 and up to 1")
        positive("speed of the fan", self.speed, "")

    @property
    def free_flow(self) -> float:
        """Flow at which the pressure of the curve is gone, at its speed [m³/s]."""
        last, before = self.pressures[-1], self.pressures[-2]
        span = self.volume_flow_rates[-1] - self.volume_flow_rates[-2]
        return self.speed * (self.volume_flow_rates[-1] + span * last / (before - last))

    @property
    def falls_steadily(self) -> bool:
        """Whether more flow always means less pressure; else more than one operating point can exist."""
        return all(before >= after for before, after in zip(self.pressures, self.pressures[1:], strict=False))

    def at_speed(self, speed: float) -> Fan:
        """Same fan at another speed.

        Parameters
        ----------
        speed : float
            Speed over the rated one [-].
        """
        return replace(self, speed=speed)

    def pressure(self, volume_flow_rate: float, air: Air = AIR_20C) -> float:
        """Total pressure that the fan adds [Pa]; below zero where a stronger fan drives air through it.

        Parameters
        ----------
        volume_flow_rate : float
            Volume flow rate [m³/s]; below zero backwards.
        air : Air, optional
            State of the air.
        """
        flow = volume_flow_rate / self.speed
        rise = monotone_curve(self.volume_flow_rates, self.pressures, flow)
        if flow < 0.0:
            # Nobody measures this; a line that goes on rising keeps the flow through a network unique.
            rise += max(self.pressures) * -flow / self.volume_flow_rates[-1]
        if self.outlet is not None and flow > 0.0:
            rise += 0.5 * RATING_DENSITY * (flow / self.outlet.area) ** 2
        return rise * self.speed**2 * air.density / RATING_DENSITY

    def power(self, volume_flow_rate: float, air: Air = AIR_20C) -> float:
        """Electrical power [W].

        Parameters
        ----------
        volume_flow_rate : float
            Volume flow rate [m³/s].
        air : Air, optional
            State of the air.
        """
        if len(self.powers) == 1:
            rated = self.powers[0]
        elif self.powers:
            low, high = self.volume_flow_rates[0], self.volume_flow_rates[-1]
            rated = monotone_curve(
                self.volume_flow_rates, self.powers, min(max(volume_flow_rate / self.speed, low), high)
            )
        else:
            efficiency = _ASSUMED_EFFICIENCY if self.efficiency is None else self.efficiency
            return max(self.pressure(volume_flow_rate, air), 0.0) * max(volume_flow_rate, 0.0) / efficiency
        return rated * self.speed**3 * air.density / RATING_DENSITY

    def validity(self, volume_flow_rate: float) -> tuple[str, ...]:
        """Notes on what is guessed at this flow, or lies beyond the curve; empty when nothing does.

        Parameters
        ----------
        volume_flow_rate : float
            Volume flow rate [m³/s].
        """
        notes = list(self.guesses)
        flow = volume_flow_rate / self.speed
        first, last = self.volume_flow_rates[0], self.volume_flow_rates[-1]
        if flow < 0.0:
            notes.append("air flows backwards through a fan, which no fan curve covers")
        elif not first <= flow <= last:
            end = f"{1000 * first:.3g} to {1000 * last:.3g} l/s"
            notes.append(f"the fan works at {1000 * flow:.3g} l/s (at rated speed), beyond its curve of {end}")
        if not _SPEED_RANGE[0] <= self.speed <= _SPEED_RANGE[1]:
            notes.append(f"the fan turns at {self.speed:.2g} of its rated speed; fan laws are good from 0.3 to 1.2")
        if not self.powers and self.efficiency is None:
            notes.append(f"power of the fan from an assumed efficiency of {_ASSUMED_EFFICIENCY:.0%}")
        return tuple(notes)


def fan_from_two_numbers(
    free_flow: float, shut_off_pressure: float, shape_exponent: float = 1.0, powers: tuple[float, ...] = ()
) -> Fan:
    r"""Fan of which only free flow and shut-off pressure are known.

    Parameters
    ----------
    free_flow : float
        Volume flow rate without any resistance [m³/s].
    shut_off_pressure : float
        Pressure without any flow [Pa].
    shape_exponent : float, optional
        Exponent of the assumed shape [-]: 1 is a straight line, 2 a parabola.
    powers : tuple of float, length 1, optional
        Electrical power [W].

    Returns
    -------
    Fan
        Fan with the assumed curve, and a note that says so.

    Raises
    ------
    InvalidInput
        If a number is impossible.

    Notes
    -----
    .. math:: p = p_0 \left[1 - (q/q_0)^n\right]

    Small axial fans sag below the straight line in the middle, radial ones bulge above it up to the parabola (common
    practice, no source). The straight line is the cautious default; a parabola tells how much more it may be.

    References
    ----------
    .. [1] ISO 5801:2017, *Fans, performance testing using standardized airways* (what is measured).

    Examples
    --------
    >>> round(fan_from_two_numbers(0.070, 160.0).pressure(0.035, Air(temperature=21.0)), 0)
    80.0
    """
    positive("free flow of the fan", free_flow, "m³/s")
    positive("shut-off pressure of the fan", shut_off_pressure, "Pa")
    if not 1.0 <= shape_exponent <= 4.0:
        raise InvalidInput(f"shape exponent of the fan curve is {shape_exponent}; it lies between 1 and 4")
    count = 2 if shape_exponent == 1.0 else _POINTS_OF_A_SHAPE
    shares = [number / (count - 1) for number in range(count)]
    shape = "a straight line" if shape_exponent == 1.0 else f"1 − (share of the free flow)^{shape_exponent:g}"
    return Fan(
        tuple(free_flow * share for share in shares),
        tuple(shut_off_pressure * (1.0 - share**shape_exponent) for share in shares),
        powers,
        guesses=(f"fan curve between free flow and shut-off pressure is assumed: {shape}",),
    )


@dataclass(frozen=True, slots=True)
class OperatingPoint:
    """Where fans and duct run agree.

    Parameters
    ----------
    volume_flow_rate : float
        Volume flow rate [m³/s].
    pressure_loss : float
        Loss of total pressure of the run, which is the pressure of all fans together [Pa].
    fan_pressures : tuple of float, one per fan
        Total pressure of each fan [Pa].
    powers : tuple of float, one per fan
        Electrical power of each fan [W].
    validity : tuple of str
        What is guessed or beyond a curve.
    """

    volume_flow_rate: float
    pressure_loss: float
    fan_pressures: tuple[float, ...]
    powers: tuple[float, ...]
    validity: tuple[str, ...] = field(default=())

    @property
    def specific_fan_power(self) -> float:
        """Electrical power per flow [W/(m³/s)]; infinite where nothing flows."""
        return sum(self.powers) / self.volume_flow_rate if self.volume_flow_rate > 0.0 else float("inf")


def _first_crossing(fans: Sequence[Fan], elements: Sequence[DuctElement], air: Air) -> tuple[float, int]:
    """Lowest flow at which fans and run agree, and how many such flows there are."""

    def surplus(flow: float) -> float:
        return sum(fan.pressure(flow, air) for fan in fans) - system_pressure_loss(elements, flow, air)

    highest = max(fan.free_flow for fan in fans)
    if all(fan.outlet is not None for fan in fans):
        highest *= 4.0  # static curves: the outlet's velocity pressure still pushes at free flow
    steady = all(fan.falls_steadily and fan.outlet is None for fan in fans)
    count = 1 if steady else _POINTS_OF_A_SEARCH
    flows = [highest * number / count for number in range(count + 1)]
    values = [surplus(flow) for flow in flows]
    crossings = [number for number in range(count) if values[number] > 0.0 >= values[number + 1]]
    if not crossings:
        return (highest if values[-1] > 0.0 else 0.0), 0
    first = crossings[0]
    return root_between(surplus, flows[first], flows[first + 1]), len(crossings)


def operating_point(fans: Sequence[Fan], elements: Sequence[DuctElement], air: Air = AIR_20C) -> OperatingPoint:
    """Flow that one or several fans in a row drive through a run, whatever their labels promise.

    Parameters
    ----------
    fans : sequence of Fan
        Fans in series, for instance supply and extract.
    elements : sequence of DuctElement
        All that the air passes, from outdoors to outdoors.
    air : Air, optional
        State of the air.

    Returns
    -------
    OperatingPoint
        Flow [m³/s], pressures [Pa], powers [W] and validity.

    Raises
    ------
    InvalidInput
        If there is no fan or the run loses nothing at all.

    Notes
    -----
    Sum of the fan pressures = sum of the losses. A fan carried beyond its free flow by a stronger one becomes a
    resistance. Where a curve has a dip and the run crosses it more than once, the lowest flow is taken and said.

    References
    ----------
    .. [1] *ASHRAE Handbook, HVAC Systems and Equipment*, 2016, ch. 21 (fans).

    Examples
    --------
    Two fans against a run that loses 100 Pa at 50 l/s:

    >>> from hushwright.physics.airflow.element import RatedElement
    >>> fan = fan_from_two_numbers(0.070, 160.0)
    >>> round(operating_point([fan, fan], [RatedElement(0.050, 100.0)]).volume_flow_rate * 1000, 1)
    49.0
    """
    if not fans:
        raise InvalidInput(f"fans are {list(fans)}; an operating point needs at least one")
    if system_pressure_loss(elements, max(fan.free_flow for fan in fans), air) <= 0.0:
        raise InvalidInput(f"the run of {len(elements)} elements loses no pressure; give what the air passes")
    flow, crossings = _first_crossing(fans, elements, air)
    notes = [note for fan in fans for note in fan.validity(flow)]
    if crossings > 1:
        notes.append(
            f"fan curve with a dip: {crossings} steady operating points are possible, the lowest flow is taken"
        )
    notes.extend(system_validity(elements, flow, air))
    return OperatingPoint(
        flow,
        system_pressure_loss(elements, flow, air),
        tuple(fan.pressure(flow, air) for fan in fans),
        tuple(fan.power(flow, air) for fan in fans),
        tuple(dict.fromkeys(notes)),
    )
