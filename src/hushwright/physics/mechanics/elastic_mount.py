"""One elastic mount under its load: deflection, height, stiffness moving, and whether it still is a spring."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import Literal

from hushwright.errors import InvalidInput
from hushwright.physics.mechanics._guard import not_negative, positive, share
from hushwright.physics.mechanics.rubber import (
    NATURAL_RUBBER_STIFFENING,
    TemperatureTable,
    creep_deflection,
    dynamic_ratio_estimate,
    pad_stiffness,
    temperature_factor,
)

LoadStatus = Literal["in range", "underloaded", "overloaded", "bottomed", "lifted"]

_COMPRESSION_LIMIT = 0.15  # share of the rubber height; design limit of a published note on rubber design
_PAD_LOWEST_SHARE = 0.25  # of the highest load; common practice, no source


@dataclass(frozen=True, slots=True)
class ElasticMount:
    """An elastic mount as its supplier describes it.

    Parameters
    ----------
    static_stiffness : float
        Compression stiffness for slow loads at 20 °C [N/m].
    shear_stiffness : float
        Sideways stiffness for slow loads at 20 °C [N/m].
    lowest_load : float
        Load below which the mount is too stiff for what it carries [N].
    highest_load : float
        Load above which it is no longer a spring [N].
    free_height : float
        Height without load [m].
    free_travel : float
        Deflection at which metal or the stop is reached [m]; at most the free height.
    dynamic_ratio : float, optional
        Stiffness at audio frequencies over the slow one [-], 1 or more.
    loss_factor : float, optional
        Loss factor of the spring [-].
    creep_per_decade : float, optional
        Deflection added per tenfold time, as a share of the deflection after one minute [-].
    rubber_mass : float, optional
        Mass of the rubber between the plates [kg]; it makes the waves in the mount. Zero leaves them out.
    temperature_stiffening : tuple of pairs, optional
        Temperature [°C] and stiffness relative to 20 °C [-].

    Raises
    ------
    InvalidInput
        If a value is impossible.

    Notes
    -----
    The spring is taken as straight inside its load range. Rubber in compression stiffens with strain, so the result is
    softer than the truth near the highest load.

    References
    ----------
    .. [1] P. B. Lindley, *Engineering Design with Natural Rubber*, MRPRA, 4th ed., 1978.

    Examples
    --------
    >>> mount = ElasticMount(130e3, 65e3, 196.0, 1030.0, free_height=0.030, free_travel=0.012, dynamic_ratio=1.4)
    >>> state = mount.under(600.0)
    >>> round(state.deflection * 1e3, 2), round(state.spring_stiffness / 1e3), state.status
    (4.62, 182, 'in range')
    """

    static_stiffness: float
    shear_stiffness: float
    lowest_load: float
    highest_load: float
    free_height: float
    free_travel: float
    dynamic_ratio: float = 1.4
    loss_factor: float = 0.1
    creep_per_decade: float = 0.05
    rubber_mass: float = 0.0
    temperature_stiffening: TemperatureTable = NATURAL_RUBBER_STIFFENING

    def __post_init__(self) -> None:
        positive("static stiffness", self.static_stiffness, "N/m")
        positive("shear stiffness", self.shear_stiffness, "N/m")
        not_negative("lowest load", self.lowest_load, "N")
        positive("free height", self.free_height, "m")
        positive("free travel", self.free_travel, "m")
        not_negative("loss factor", self.loss_factor, "")
        not_negative("moving mass", self.rubber_mass, "kg")
        share("creep per decade", self.creep_per_decade)
        temperature_factor(20.0, self.temperature_stiffening)
        if not self.highest_load > self.lowest_load:
            raise InvalidInput(f"highest load {self.highest_load} N is not above the lowest load {self.lowest_load} N")
        if self.free_travel > self.free_height:
            raise InvalidInput(f"free travel {self.free_travel} m is more than the free height {self.free_height} m")
        if not self.dynamic_ratio >= 1.0:
            raise InvalidInput(f"dynamic ratio is {self.dynamic_ratio}; rubber is never softer moving than at rest")

    def under(self, load: float, temperature: float = 20.0, duration: float = 60.0) -> MountState:
        """State of the mount under a steady load.

        Parameters
        ----------
        load : float
            Load pressing on the mount [N]; below zero it is pulled.
        temperature : float, optional
            Temperature of the rubber [°C].
        duration : float, optional
            Time under load [s], one minute or more.

        Returns
        -------
        MountState
            Deflection [m], height [m], stiffness [N/m], status and notes.

        Raises
        ------
        InvalidInput
            If the load is not a finite number, the rubber is glass or the duration is below a minute.

        Notes
        -----
        Creep happens at the stiffness the temperature gives; it adds height loss, no stiffness. A mount that carries
        more than its highest load, or is pressed through its free travel, is rigid: its stiffness is infinite.

        References
        ----------
        .. [1] P. B. Lindley, *Engineering Design with Natural Rubber*, MRPRA, 4th ed., 1978.
        """
        if not math.isfinite(load):
            raise InvalidInput(f"load on a mount is {load} N; it must be a finite number")
        factor, note = temperature_factor(temperature, self.temperature_stiffening)
        stiffness = self.static_stiffness * factor
        instant = load / stiffness
        creep = math.copysign(creep_deflection(abs(instant), self.creep_per_decade, duration), load)
        deflection = instant + creep
        status = self._status(load, deflection)
        notes = tuple(text for text in (note, self._note(status, load, deflection)) if text)
        rigid = status in ("bottomed", "overloaded")
        return MountState(
            load=load,
            deflection=min(deflection, self.free_travel),
            creep=creep,
            height=self.free_height - min(deflection, self.free_travel),
            static_stiffness=math.inf if rigid else stiffness,
            spring_stiffness=math.inf if rigid else stiffness * self.dynamic_ratio,
            shear_spring_stiffness=math.inf if rigid else self.shear_stiffness * factor * self.dynamic_ratio,
            load_share=load / self.highest_load,
            status=status,
            notes=notes,
        )

    def _status(self, load: float, deflection: float) -> LoadStatus:
        if deflection >= self.free_travel:
            return "bottomed"
        if load > self.highest_load:
            return "overloaded"
        if load <= 0.0:
            return "lifted"
        return "underloaded" if load < self.lowest_load else "in range"

    def _note(self, status: LoadStatus, load: float, deflection: float) -> str:
        if status == "bottomed":
            return f"pressed through its travel of {self.free_travel * 1e3:.1f} mm by {load:.0f} N: rigid"
        if status == "overloaded":
            return f"carries {load:.0f} N, more than the {self.highest_load:.0f} N it is made for: taken as rigid"
        if status == "underloaded":
            return f"carries {load:.0f} N, less than the {self.lowest_load:.0f} N it is made for: too stiff"
        if status == "lifted":
            return f"carries {load:.0f} N: it is pulled or lifts off"
        if deflection > _COMPRESSION_LIMIT * self.free_height:
            return f"compressed by {100.0 * deflection / self.free_height:.0f} %; the spring is straight up to 15 %"
        return ""


@dataclass(frozen=True, slots=True)
class MountState:
    """What a mount does under its load.

    Parameters
    ----------
    load : float
        Load on the mount [N].
    deflection : float
        Deflection with creep [m], at most the free travel.
    creep : float
        Part of the deflection that came with time [m].
    height : float
        Height under load [m].
    static_stiffness : float
        Slow stiffness at the temperature [N/m]; infinite when rigid.
    spring_stiffness : float
        Stiffness at audio frequencies [N/m]; infinite when rigid.
    shear_spring_stiffness : float
        Sideways stiffness at audio frequencies [N/m]; infinite when rigid.
    load_share : float
        Load over the highest load [-].
    status : str
        In range, underloaded, overloaded, bottomed or lifted [-].
    notes : tuple of str
        What a person should know [-]; empty when all is well.

    References
    ----------
    .. [1] P. B. Lindley, *Engineering Design with Natural Rubber*, MRPRA, 4th ed., 1978.
    """

    load: float
    deflection: float
    creep: float
    height: float
    static_stiffness: float
    spring_stiffness: float
    shear_spring_stiffness: float
    load_share: float
    status: LoadStatus
    notes: tuple[str, ...] = ()

    @property
    def is_rigid(self) -> bool:
        """Whether the mount passes vibration like a bolt."""
        return math.isinf(self.spring_stiffness)


def pad_mount(
    hardness: float,
    length: float,
    width: float,
    thickness: float,
    *,
    loss_factor: float = 0.1,
    creep_per_decade: float = 0.05,
    density: float = 1100.0,
) -> ElasticMount:
    """Mount made of one bonded rubber pad, from its hardness and size.

    Parameters
    ----------
    hardness : float
        International rubber hardness degrees [-], 40 to 70.
    length : float
        Length of the loaded face [m].
    width : float
        Width of the loaded face [m].
    thickness : float
        Thickness [m].
    loss_factor : float, optional
        Loss factor [-].
    creep_per_decade : float, optional
        Deflection added per tenfold time [-].
    density : float, optional
        Density of the rubber [kg/m³].

    Returns
    -------
    ElasticMount
        With its load range [N] ending at 15 % compression and free travel [m] of 40 % of the thickness.

    Raises
    ------
    InvalidInput
        If the hardness is outside the estimates or a dimension is not above zero.

    Notes
    -----
    The 15 % is the design limit of a published note; lowest load (a quarter of the highest) and free travel are common
    practice, no source.

    References
    ----------
    .. [1] A. N. Gent and P. B. Lindley, "The compression of bonded rubber blocks", *Proc. Inst. Mech. Eng.* 173, 1959.

    Examples
    --------
    >>> mount = pad_mount(45.0, 0.050, 0.050, 0.025)
    >>> round(mount.static_stiffness / 1e3), round(mount.highest_load)
    (251, 943)
    """
    compression, shear = pad_stiffness(hardness, length, width, thickness)
    highest = compression * _COMPRESSION_LIMIT * thickness
    return ElasticMount(
        static_stiffness=compression,
        shear_stiffness=shear,
        lowest_load=_PAD_LOWEST_SHARE * highest,
        highest_load=highest,
        free_height=thickness,
        free_travel=0.4 * thickness,
        dynamic_ratio=dynamic_ratio_estimate(hardness),
        loss_factor=loss_factor,
        creep_per_decade=creep_per_decade,
        rubber_mass=positive("rubber density", density, "kg/m³") * length * width * thickness,
    )
