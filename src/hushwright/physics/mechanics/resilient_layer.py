"""A floor on a resilient layer all over instead of single mounts."""

from __future__ import annotations

import math

from hushwright.errors import InvalidInput
from hushwright.physics.mechanics._guard import positive


def layer_dynamic_stiffness(dynamic_modulus: float, thickness: float) -> float:
    """Dynamic stiffness per area of a resilient layer from its modulus.

    Parameters
    ----------
    dynamic_modulus : float
        Dynamic modulus of elasticity [Pa].
    thickness : float
        Thickness under load [m].

    Returns
    -------
    float
        Dynamic stiffness per area [N/m³].

    Raises
    ------
    InvalidInput
        If a value is not above zero.

    References
    ----------
    .. [1] C. Hopkins, *Sound Insulation*, Butterworth-Heinemann, 2007, table A3.

    Examples
    --------
    >>> round(layer_dynamic_stiffness(0.3e6, 0.030) / 1e6, 1)
    10.0
    """
    return positive("dynamic modulus", dynamic_modulus, "Pa") / positive("thickness", thickness, "m")


def enclosed_gas_stiffness(thickness: float, porosity: float = 0.9, pressure: float = 1e5) -> float:
    """Stiffness per area of the air held in a porous layer.

    Parameters
    ----------
    thickness : float
        Thickness under load [m].
    porosity : float, optional
        Share of air in the layer [-].
    pressure : float, optional
        Static pressure of the air [Pa].

    Returns
    -------
    float
        Dynamic stiffness per area [N/m³], ``p0/(d ε)``.

    Raises
    ------
    InvalidInput
        If a value is impossible.

    Notes
    -----
    Without heat kept back, as in the standard. It is added to the measured stiffness of layers with an airflow
    resistivity of 10 to 100 kPa·s/m²; above, the measurement holds it already; below, the air leaves.

    References
    ----------
    .. [1] ISO 9052-1:1989, *Determination of dynamic stiffness – Materials used under floating floors*, clause 8.2.

    Examples
    --------
    >>> round(enclosed_gas_stiffness(0.020) / 1e6, 2)
    5.56
    """
    if not 0.0 < porosity <= 1.0:
        raise InvalidInput(f"porosity is {porosity}; it must be above 0 and at most 1")
    return positive("pressure", pressure, "Pa") / (positive("thickness", thickness, "m") * porosity)


def layer_resonance(dynamic_stiffness: float, surface_density: float) -> float:
    """Resonance of a floor on a resilient layer over a heavy base.

    Parameters
    ----------
    dynamic_stiffness : float
        Dynamic stiffness per area [N/m³].
    surface_density : float
        Mass per area of the floor [kg/m²].

    Returns
    -------
    float
        Resonance [Hz].

    Raises
    ------
    InvalidInput
        If a value is not above zero.

    References
    ----------
    .. [1] ISO 9052-1:1989, clause 4.

    Examples
    --------
    >>> round(layer_resonance(10e6, 22.0), 1)
    107.3
    """
    stiffness = positive("dynamic stiffness", dynamic_stiffness, "N/m³")
    return math.sqrt(stiffness / positive("surface density", surface_density, "kg/m²")) / math.tau
