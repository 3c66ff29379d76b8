"""Parts of a duct run from their dimensions: loss and flow noise of each together."""

from __future__ import annotations

import math

from hushwright.physics.acoustics.duct_baffle_box import BaffleBox, baffle_box_loss
from hushwright.physics.acoustics.duct_bands import loss_from_thirds
from hushwright.physics.acoustics.duct_fittings import ElbowKind, EndKind, elbow, end_reflection, split
from hushwright.physics.acoustics.duct_lined import bare_duct, flexible_duct, lined_duct
from hushwright.physics.acoustics.duct_noise_laws import BendNoise, BoxNoise, DamperNoise, StraightNoise, TerminalNoise
from hushwright.physics.acoustics.duct_path import DuctElement
from hushwright.physics.acoustics.duct_sections import RoundSection, Section
from hushwright.physics.acoustics.duct_terminals import TerminalKind
from hushwright.physics.air import AIR_20C, Air


def straight_element(name: str, section: Section, length: float, lining_thickness: float = 0.0) -> DuctElement:
    """Straight duct, bare or lined.

    Parameters
    ----------
    name : str
        What it is called [-].
    section : RectangularSection or RoundSection
        Clear section (sides [m]).
    length : float
        Length [m].
    lining_thickness : float, optional
        Thickness of the lining [m]; 0 is a bare duct.

    Returns
    -------
    DuctElement
        The part (attenuation [dB] and flow noise).

    Raises
    ------
    InvalidInput
        If a dimension is impossible.

    References
    ----------
    .. [1] See `duct_lined` and `duct_flow_noise`.

    Examples
    --------
    >>> round(straight_element("duct", RoundSection(0.152), 1.0, 0.025).loss.octaves[4], 1)
    7.3
    """
    loss = lined_duct(section, length, lining_thickness) if lining_thickness > 0.0 else bare_duct(section, length)
    return DuctElement(name, loss, StraightNoise(section.area))


def elbow_element(
    name: str, section: Section, kind: ElbowKind = "square", *, rounding: float | None = None, air: Air = AIR_20C
) -> DuctElement:
    """A 90° elbow.

    Parameters
    ----------
    name : str
        What it is called [-].
    section : RectangularSection or RoundSection
        Clear section (sides [m]); the width is the side in the plane of the bend.
    kind : {"square", "square lined", "square vanes", "square vanes lined", "radiused"}, optional
        Build of the elbow [-].
    rounding : float or None, optional
        Radius of the inner edge over the equivalent diameter [-]; None takes 0.5 for a radiused elbow, else 0.
    air : Air, optional
        Air in it [-].

    Returns
    -------
    DuctElement
        The part (attenuation [dB] and flow noise); vanes are not credited with less noise.

    Raises
    ------
    InvalidInput
        If a value is impossible.

    References
    ----------
    .. [1] See `duct_fittings.elbow` and `duct_flow_noise.bend_noise`.

    Examples
    --------
    >>> elbow_element("bend", RoundSection(0.125), "radiused").loss.octaves[:5]
    (0.0, 0.0, 0.0, 1.0, 2.0)
    """
    width = section.diameter if isinstance(section, RoundSection) else section.width
    edge = rounding if rounding is not None else (0.5 if kind == "radiused" else 0.0)
    return DuctElement(name, elbow(width, kind, air), BendNoise(section.area, edge))


def flexible_element(name: str, diameter: float, length: float) -> DuctElement:
    """Lined flexible duct, stretched.

    Parameters
    ----------
    name : str
        What it is called [-].
    diameter : float
        Clear diameter [m].
    length : float
        Length [m].

    Returns
    -------
    DuctElement
        The part (attenuation [dB] and flow noise of a straight duct).

    Raises
    ------
    InvalidInput
        If a dimension is impossible.

    References
    ----------
    .. [1] See `duct_lined.flexible_duct`.

    Examples
    --------
    >>> flexible_element("hose", 0.127, 0.91).loss.octaves[0]
    2.0
    """
    return DuctElement(name, flexible_duct(diameter, length), StraightNoise(math.pi / 4.0 * diameter**2))


def box_element(name: str, box: BaffleBox, air: Air = AIR_20C) -> DuctElement:
    """A baffle box.

    Parameters
    ----------
    name : str
        What it is called [-].
    box : BaffleBox
        The box (sides [m] and so on).
    air : Air, optional
        Air in it [-].

    Returns
    -------
    DuctElement
        The part (attenuation [dB] and flow noise).

    References
    ----------
    .. [1] See `duct_baffle_box`.

    Examples
    --------
    >>> from hushwright.physics.acoustics.layers import Porous
    >>> wool = Porous(12_000.0, 0.97, 1.0, 40.0)
    >>> box = BaffleBox(0.9, 0.35, 0.25, 0.012, wool, 0.04, 3, 0.04, 0.1, 0.0123)
    >>> round(box_element("box", box).loss.octaves[4])
    35
    """
    return DuctElement(name, baffle_box_loss(box, air), BoxNoise(box))


def end_element(name: str, area: float, kind: EndKind = "flush", air: Air = AIR_20C) -> DuctElement:
    """An open end.

    Parameters
    ----------
    name : str
        What it is called [-].
    area : float
        Open area [m²].
    kind : {"flush", "free"}, optional
        Flush with a wall or free [-].
    air : Air, optional
        Air at the end [-].

    Returns
    -------
    DuctElement
        The part (end reflection [dB]); the noise of a grille in it is `terminal_element`, placed behind.

    Raises
    ------
    InvalidInput
        If the area is not above 0.

    References
    ----------
    .. [1] See `duct_fittings.end_reflection`.

    Examples
    --------
    >>> round(end_element("end", 0.0123).loss.octaves[3], 1)
    4.5
    """
    return DuctElement(name, end_reflection(area, kind, air))


def terminal_element(
    name: str, area: float, loss_coefficient: float, kind: TerminalKind = "round", *, throttling: float = 0.0
) -> DuctElement:
    """A grille or an air terminal: only its noise.

    Parameters
    ----------
    name : str
        What it is called [-].
    area : float
        Area of its face or neck [m²].
    loss_coefficient : float
        Total pressure loss over the velocity pressure in that area [-].
    kind : {"round", "slot"}, optional
        Shape of the spectrum [-].
    throttling : float, optional
        Increment of a damper beside it [dB].

    Returns
    -------
    DuctElement
        The part (no attenuation [dB]).

    References
    ----------
    .. [1] See `duct_terminals.terminal_noise`.

    Examples
    --------
    >>> terminal_element("grille", 0.0123, 3.0).loss.octaves[0]
    0.0
    """
    nothing = loss_from_thirds(0.0, basis="terminal")
    return DuctElement(name, nothing, TerminalNoise(area, loss_coefficient, kind, throttling))


def damper_element(
    name: str, area: float, height: float, loss_coefficient: float, *, single_blade: bool = False
) -> DuctElement:
    """A damper: only its noise.

    Parameters
    ----------
    name : str
        What it is called [-].
    area : float
        Clear area of the duct [m²].
    height : float
        Height of the duct across the damper axis [m].
    loss_coefficient : float
        Total pressure loss over the velocity pressure [-].
    single_blade : bool, optional
        Whether it has one blade [-].

    Returns
    -------
    DuctElement
        The part (no attenuation [dB]).

    References
    ----------
    .. [1] See `duct_flow_noise.damper_noise`.

    Examples
    --------
    >>> damper_element("damper", 0.0123, 0.125, 2.0).loss.octaves[0]
    0.0
    """
    noise = DamperNoise(area, height, loss_coefficient, single_blade)
    return DuctElement(name, loss_from_thirds(0.0, basis="damper"), noise)


def split_element(name: str, share: float) -> DuctElement:
    """A split: the branch that is followed takes a share of sound and air.

    Parameters
    ----------
    name : str
        What it is called [-].
    share : float
        Share of the flow, or of the area, of that branch [-].

    Returns
    -------
    DuctElement
        The part (attenuation [dB]), which passes that share of the flow on.

    Raises
    ------
    InvalidInput
        If the share is outside 0 to 1.

    References
    ----------
    .. [1] See `duct_fittings.split`.

    Examples
    --------
    >>> round(split_element("split", 0.5).loss.octaves[0], 1)
    3.0
    """
    return DuctElement(name, split(share), flow_share=share)
