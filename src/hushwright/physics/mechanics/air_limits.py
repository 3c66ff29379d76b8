"""The two ends of what air under a floor does: a closed spring, a free mass; and how far up that holds."""

from __future__ import annotations

import math

from hushwright.physics.air import AIR_20C, Air
from hushwright.physics.mechanics._guard import positive


def trapped_air_stiffness(area: float, depth: float, air: Air = AIR_20C) -> float:
    """Stiffness of air that cannot get out from under a floor.

    Parameters
    ----------
    area : float
        Floor area [m²].
    depth : float
        Depth of the air [m].
    air : Air, optional
        Gives density [kg/m³] and speed of sound [m/s].

    Returns
    -------
    float
        Stiffness [N/m], ``ρc²A/d``.

    Raises
    ------
    InvalidInput
        If area or depth is not above zero.

    Notes
    -----
    Compression without heat exchange. In dense fibrous fill the air keeps its temperature and is softer by 1.4; that is
    left out, on the safe side.

    References
    ----------
    .. [1] L. Cremer, M. Heckl and B. A. T. Petersson, *Structure-Borne Sound*, 3rd ed., Springer, 2005.

    Examples
    --------
    >>> round(trapped_air_stiffness(3.4, 0.030) / 1e6, 1)
    16.1
    """
    modulus = air.density * air.speed_of_sound**2
    return modulus * positive("floor area", area, "m²") / positive("air depth", depth, "m")


def open_edge_air_mass(flow_path: float, depth: float, air: Air = AIR_20C) -> float:
    """Mass per area that air adds to a floor whose edges let it out.

    Parameters
    ----------
    flow_path : float
        Way from the line where the air rests to the open edge [m].
    depth : float
        Depth of the air [m].
    air : Air, optional
        Gives density [kg/m³].

    Returns
    -------
    float
        Added mass per area [kg/m²], ``ρL²/(3d)``.

    Raises
    ------
    InvalidInput
        If path or depth is not above zero.

    Notes
    -----
    The air under the floor must run sideways ``x/d`` times as fast as the floor moves; its kinetic energy, spread over
    the floor, is that of this mass. Holds while the path is short against the wavelength.

    References
    ----------
    .. [1] Follows from continuity and Euler's equation, as in P. M. Morse and K. U. Ingard, *Theoretical Acoustics*,
       McGraw-Hill, 1968.

    Examples
    --------
    >>> round(open_edge_air_mass(0.79, 0.030), 2)
    8.35
    """
    path, gap = positive("flow path", flow_path, "m"), positive("air depth", depth, "m")
    return air.density * path**2 / (3.0 * gap)


def piston_limit(flow_path: float, air: Air = AIR_20C) -> float:
    """Frequency up to which the air moves with the floor as one piece.

    Parameters
    ----------
    flow_path : float
        Way from the line where the air rests to the edge [m].
    air : Air, optional
        Gives the speed of sound [m/s].

    Returns
    -------
    float
        Frequency [Hz] at which the path is one radian of a wave, ``c/(2πL)``.

    Raises
    ------
    InvalidInput
        If the path is not above zero.

    Notes
    -----
    Above it the air under the floor belongs to the partition (its cavity), no longer to the springs of the floor.

    References
    ----------
    .. [1] P. M. Morse and K. U. Ingard, *Theoretical Acoustics*, McGraw-Hill, 1968.

    Examples
    --------
    >>> round(piston_limit(0.79))
    69
    """
    return air.speed_of_sound / (2.0 * math.pi * positive("flow path", flow_path, "m"))
