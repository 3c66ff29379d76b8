"""Flow noise of each kind of part as a small value, so that a run of parts can be one."""

from __future__ import annotations

from dataclasses import dataclass

from hushwright.physics.acoustics.duct_baffle_box import BaffleBox, baffle_box_noise
from hushwright.physics.acoustics.duct_bands import DuctPower
from hushwright.physics.acoustics.duct_flow_noise import bend_noise, damper_noise, straight_duct_noise
from hushwright.physics.acoustics.duct_terminals import TerminalKind, terminal_noise


@dataclass(frozen=True, slots=True)
class StraightNoise:
    """Flow noise of a straight duct.

    Parameters
    ----------
    area : float
        Clear area of the duct [m²].

    References
    ----------
    .. [1] VDI 2081-1:2001.

    Examples
    --------
    >>> round(StraightNoise(0.04).sound_power(0.4).octaves[2], 1)
    35.4
    """

    area: float

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
        return straight_duct_noise(volume_flow_rate / self.area, self.area)


@dataclass(frozen=True, slots=True)
class BendNoise:
    """Flow noise of a 90° bend.

    Parameters
    ----------
    area : float
        Clear area of the duct [m²].
    rounding : float, optional
        Radius of the inner edge over the equivalent diameter [-].

    References
    ----------
    .. [1] D. D. Reynolds and J. M. Bledsoe, *Algorithms for HVAC Acoustics*, ASHRAE, 1991.

    Examples
    --------
    >>> round(BendNoise(0.0123).sound_power(0.0369).octaves[2], 1)
    16.7
    """

    area: float
    rounding: float = 0.0

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
        return bend_noise(volume_flow_rate / self.area, self.area, rounding=self.rounding)


@dataclass(frozen=True, slots=True)
class DamperNoise:
    """Flow noise of a damper.

    Parameters
    ----------
    area : float
        Clear area of the duct [m²].
    height : float
        Height of the duct across the damper axis [m].
    loss_coefficient : float
        Total pressure loss over the velocity pressure [-].
    single_blade : bool, optional
        Whether it has one blade [-].

    References
    ----------
    .. [1] D. D. Reynolds and J. M. Bledsoe, *Algorithms for HVAC Acoustics*, ASHRAE, 1991.

    Examples
    --------
    >>> round(DamperNoise(0.0123, 0.125, 2.0).sound_power(0.0369).octaves[2], 1)
    19.0
    """

    area: float
    height: float
    loss_coefficient: float
    single_blade: bool = False

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
        velocity = volume_flow_rate / self.area
        return damper_noise(velocity, self.area, self.height, self.loss_coefficient, single_blade=self.single_blade)


@dataclass(frozen=True, slots=True)
class TerminalNoise:
    """Flow noise of a grille or an air terminal.

    Parameters
    ----------
    area : float
        Area of its face or neck [m²].
    loss_coefficient : float
        Total pressure loss over the velocity pressure in that area [-].
    kind : {"round", "slot"}, optional
        Shape of the spectrum [-].
    throttling : float, optional
        Increment of a damper beside it [dB].

    References
    ----------
    .. [1] M. Long, *Architectural Acoustics*, 2nd ed., Academic Press, 2014, ch. 13.

    Examples
    --------
    >>> round(TerminalNoise(0.0123, 3.0).sound_power(0.0246).octaves[2], 1)
    17.5
    """

    area: float
    loss_coefficient: float
    kind: TerminalKind = "round"
    throttling: float = 0.0

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
        velocity = volume_flow_rate / self.area
        return terminal_noise(velocity, self.area, self.loss_coefficient, self.kind, throttling=self.throttling)


@dataclass(frozen=True, slots=True)
class BoxNoise:
    """Flow noise of a baffle box.

    Parameters
    ----------
    box : BaffleBox
        The box (sides [m] and so on).

    References
    ----------
    .. [1] D. D. Reynolds and J. M. Bledsoe, *Algorithms for HVAC Acoustics*, ASHRAE, 1991.

    Examples
    --------
    >>> from hushwright.physics.acoustics.layers import Porous
    >>> wool = Porous(12_000.0, 0.97, 1.0, 40.0)
    >>> box = BaffleBox(0.9, 0.35, 0.25, 0.012, wool, 0.04, 3, 0.04, 0.1, 0.0123)
    >>> round(BoxNoise(box).sound_power(0.033).octaves[1], 1)
    17.3
    """

    box: BaffleBox

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
        return baffle_box_noise(self.box, volume_flow_rate)
