"""Driving-point mobilities of masses, plates, beams and bays: how easily a point is moved by a force."""

from __future__ import annotations

from typing import Final

import numpy as np
from numpy.typing import ArrayLike

from hushwright.errors import InvalidInput
from hushwright.physics.mechanics._guard import ComplexArray, FloatArray, angular, not_negative, positive

_GRID_SUM: Final = 6.0268120  # sum of (p² + q²)⁻² over all whole p, q but (0, 0): 4 ζ(2) β(2)


def mass_mobility(mass: float, frequency: ArrayLike) -> ComplexArray:
    """Mobility of a rigid mass pushed through its centre.

    Parameters
    ----------
    mass : float
        Mass [kg].
    frequency : array_like, shape (n_frequency,)
        Frequency [Hz], above zero.

    Returns
    -------
    ndarray, shape (n_frequency,)
        Mobility [m/(N·s)], ``1/(jωm)``.

    Raises
    ------
    InvalidInput
        If the mass or a frequency is not above zero.

    References
    ----------
    .. [1] L. Cremer, M. Heckl and B. A. T. Petersson, *Structure-Borne Sound*, 3rd ed., Springer, 2005, ch. 5.

    Examples
    --------
    >>> round(abs(complex(mass_mobility(10.0, 100.0))) * 1e6, 1)
    159.2
    """
    return np.asarray(1.0 / (1j * angular(frequency) * positive("mass", mass, "kg")))


def spring_mobility(stiffness: float, loss_factor: float, frequency: ArrayLike) -> ComplexArray:
    """Mobility of a spring without mass, from one end with the other held.

    Parameters
    ----------
    stiffness : float
        Dynamic stiffness [N/m].
    loss_factor : float
        Loss factor [-].
    frequency : array_like, shape (n_frequency,)
        Frequency [Hz], above zero.

    Returns
    -------
    ndarray, shape (n_frequency,)
        Mobility [m/(N·s)], ``jω/(k(1 + jη))``.

    Raises
    ------
    InvalidInput
        If the stiffness or a frequency is not above zero.

    References
    ----------
    .. [1] L. Cremer, M. Heckl and B. A. T. Petersson, *Structure-Borne Sound*, 3rd ed., Springer, 2005, ch. 5.

    Examples
    --------
    >>> round(abs(complex(spring_mobility(182e3, 0.0, 100.0))) * 1e3, 2)
    3.45
    """
    spring = positive("dynamic stiffness", stiffness, "N/m") * (1.0 + 1j * not_negative("loss factor", loss_factor, ""))
    return np.asarray(1j * angular(frequency) / spring)


def plate_mobility(bending_stiffness: float, surface_density: float, *, at_edge: bool = False) -> float:
    """Point mobility of a thin plate so large or so damped that nothing comes back from its edges.

    Parameters
    ----------
    bending_stiffness : float
        Bending stiffness per width [N·m]; of an orthotropic plate the geometric mean of both directions.
    surface_density : float
        Mass per area [kg/m²].
    at_edge : bool, optional
        Pushed at a free edge instead of in the field [-].

    Returns
    -------
    float
        Mobility [m/(N·s)], real and the same at all frequencies.

    Raises
    ------
    InvalidInput
        If stiffness or mass is not above zero.

    Notes
    -----
    ``Y = 1/(8 √(B m))`` in the field, ``1/(3.5 √(B m))`` at a free edge (that figure from memory). Holds for thin
    plates, bending wavelength above six thicknesses, and above the plate's first few modes.

    References
    ----------
    .. [1] L. Cremer, M. Heckl and B. A. T. Petersson, *Structure-Borne Sound*, 3rd ed., Springer, 2005, ch. 5.

    Examples
    --------
    Steel sheet 0.9 mm.

    >>> round(plate_mobility(14.0, 7.02) * 1e3, 1)
    12.6
    """
    stiffness = positive("bending stiffness", bending_stiffness, "N·m")
    density = positive("surface density", surface_density, "kg/m²")
    return 1.0 / ((3.5 if at_edge else 8.0) * float(np.sqrt(stiffness * density)))


def beam_mobility(
    flexural_rigidity: float, mass_per_length: float, frequency: ArrayLike, *, at_end: bool = False
) -> ComplexArray:
    """Point mobility of a long beam in bending: a rib, a bearer, a sill.

    Parameters
    ----------
    flexural_rigidity : float
        Bending stiffness of the whole section, E times I [N·m²].
    mass_per_length : float
        Mass per length [kg/m].
    frequency : array_like, shape (n_frequency,)
        Frequency [Hz], above zero.
    at_end : bool, optional
        Pushed at a free end instead of in the middle [-].

    Returns
    -------
    ndarray, shape (n_frequency,)
        Mobility [m/(N·s)].

    Raises
    ------
    InvalidInput
        If a value is not above zero.

    Notes
    -----
    ``Z = 2 m' c_B (1 + j)`` in the middle and a quarter of it at a free end, with ``c_B = (B ω²/m')^(1/4)``.

    References
    ----------
    .. [1] L. Cremer, M. Heckl and B. A. T. Petersson, *Structure-Borne Sound*, 3rd ed., Springer, 2005, ch. 5.

    Examples
    --------
    >>> round(abs(complex(beam_mobility(2000.0, 1.5, 100.0))) * 1e3, 2)
    1.56
    """
    stiffness = positive("flexural rigidity", flexural_rigidity, "N·m²")
    density = positive("mass per length", mass_per_length, "kg/m")
    wave_speed = (stiffness * angular(frequency) ** 2 / density) ** 0.25
    return np.asarray((4.0 if at_end else 1.0) / (2.0 * density * wave_speed * (1.0 + 1j)))


def bay_mobility(
    bending_stiffness: float,
    surface_density: float,
    size: tuple[float, float],
    place: tuple[float, float],
    loss_factor: float,
    frequency: ArrayLike,
) -> ComplexArray:
    """Point mobility of one bay of sheet simply supported on the ribs around it.

    Parameters
    ----------
    bending_stiffness : float
        Bending stiffness per width [N·m].
    surface_density : float
        Mass per area [kg/m²].
    size : tuple of two floats
        Length and width of the bay [m].
    place : tuple of two floats
        Where it is pushed, from one corner [m].
    loss_factor : float
        Loss factor of the mounted sheet [-], above zero.
    frequency : array_like, shape (n_frequency,)
        Frequency [Hz], above zero.

    Returns
    -------
    ndarray, shape (n_frequency,)
        Mobility [m/(N·s)]; a spring below the first mode, on average that of the endless plate far above it.

    Raises
    ------
    InvalidInput
        If the place is outside the bay or a value is impossible.

    Notes
    -----
    ``Y = jω · 4/(m a b) · Σ sin²(pπx/a) sin²(qπy/b)/(ω_pq²(1 + jη) − ω²)``. The sum runs over modes up to nine times
    the highest frequency, at least 24 each way; what is cut off is a little static compliance (under 3 %).

    References
    ----------
    .. [1] L. Cremer, M. Heckl and B. A. T. Petersson, *Structure-Borne Sound*, 3rd ed., Springer, 2005, ch. 5.

    Examples
    --------
    >>> values = bay_mobility(14.0, 7.02, (0.5, 0.4), (0.2, 0.15), 0.02, [10.0, 1000.0])
    >>> bool(abs(values[0]) < abs(values[1]))
    True
    """
    stiffness = positive("bending stiffness", bending_stiffness, "N·m")
    density = positive("surface density", surface_density, "kg/m²")
    losses = positive("loss factor", loss_factor, "")
    length, width = positive("bay length", size[0], "m"), positive("bay width", size[1], "m")
    if not (0.0 < place[0] < length and 0.0 < place[1] < width):
        raise InvalidInput(f"place {place} m is not inside the bay of {length} m by {width} m")
    omega = angular(frequency)
    top_wavenumber = 3.0 * (float(omega.max()) * np.sqrt(density / stiffness)) ** 0.5
    along = np.arange(1, max(24, int(top_wavenumber * length / np.pi) + 1) + 1) * np.pi / length
    across = np.arange(1, max(24, int(top_wavenumber * width / np.pi) + 1) + 1) * np.pi / width
    shape = np.sin(along * place[0])[:, None] ** 2 * np.sin(across * place[1])[None, :] ** 2
    square = (along[:, None] ** 2 + across[None, :] ** 2) ** 2 * stiffness / density * (1.0 + 1j * losses)
    flat = omega.reshape(-1)
    terms = np.array([np.sum(shape / (square - one**2)) for one in flat]).reshape(omega.shape)
    return np.asarray(1j * omega * 4.0 / (density * length * width) * terms)


def mount_cell_compliance(area: float, bending_stiffness: float) -> float:
    """How far an even floor gives locally over one of many mounts that push together.

    Parameters
    ----------
    area : float
        Floor area that one mount carries [m²], about square.
    bending_stiffness : float
        Bending stiffness per width of the floor [N·m].

    Returns
    -------
    float
        Compliance [m/N] of the mount's place against the mean of the floor.

    Raises
    ------
    InvalidInput
        If a value is not above zero.

    Notes
    -----
    Double Fourier series of an endless plate on a square grid of points, evenly loaded:
    ``C = a²/(16π⁴B) · Σ′(p² + q²)⁻²`` with the sum ``4 ζ(2) β(2) = 6.027``.

    References
    ----------
    .. [1] S. P. Timoshenko and S. Woinowsky-Krieger, *Theory of Plates and Shells*, 2nd ed., McGraw-Hill, 1959, art. 54
       (flat slabs; article from memory).

    Examples
    --------
    >>> round(mount_cell_compliance(0.283, 3000.0) * 1e6, 3)
    0.365
    """
    stiffness = positive("bending stiffness", bending_stiffness, "N·m")
    return _GRID_SUM * positive("area per mount", area, "m²") / (16.0 * float(np.pi) ** 4 * stiffness)


def floating_floor_mobility(
    mass: float, count: int, area: float, bending_stiffness: float, surface_density: float, frequency: ArrayLike
) -> ComplexArray:
    """Mobility that one of several mounts feels under a floating floor, without the floor's single modes.

    Parameters
    ----------
    mass : float
        Mass that the mounts carry [kg]: floor and all that stands on it.
    count : int
        Number of mounts that move together [-].
    area : float
        Area of the whole floor [m²].
    bending_stiffness : float
        Bending stiffness per width of the floor [N·m].
    surface_density : float
        Mass per area of the floor itself [kg/m²].
    frequency : array_like, shape (n_frequency,)
        Frequency [Hz], above zero.

    Returns
    -------
    ndarray, shape (n_frequency,)
        Mobility [m/(N·s)].

    Raises
    ------
    InvalidInput
        If a value is not above zero.

    Notes
    -----
    ``Y = N/(jωM) + 1/(1/(jωC) + 8√(B m))``: low down each mount moves its share of the mass and dents its cell of the
    floor (C of `mount_cell_compliance`); higher up the floor bends round each mount as if it had no end. The two
    limits are exact for an even floor, the passage between them is a fit without resonances.

    References
    ----------
    .. [1] L. Cremer, M. Heckl and B. A. T. Petersson, *Structure-Borne Sound*, 3rd ed., Springer, 2005, ch. 5.

    Examples
    --------
    >>> low, high = abs(floating_floor_mobility(444.0, 12, 3.4, 3000.0, 22.0, [10.0, 10_000.0]))
    >>> round(float(low) * 1e6), round(float(high) * 1e6)
    (407, 486)
    """
    if not (isinstance(count, int) and count >= 1):
        raise InvalidInput(f"number of mounts is {count}; it must be a whole number, one or more")
    cell = 1j * angular(frequency) * mount_cell_compliance(area / count, bending_stiffness)
    far = plate_mobility(bending_stiffness, surface_density)
    return mass_mobility(mass / count, frequency) + joined_mobility(cell, far)


def joined_mobility(*mobilities: ArrayLike) -> ComplexArray:
    """Mobility of structures that are joined at the point where they are pushed, such as sheet on a rib.

    Parameters
    ----------
    *mobilities : array_like, shape (n_frequency,)
        Mobility of each alone [m/(N·s)].

    Returns
    -------
    ndarray, shape (n_frequency,)
        Mobility of the joint [m/(N·s)]: impedances add.

    Raises
    ------
    InvalidInput
        If none is given or one is zero.

    References
    ----------
    .. [1] L. Cremer, M. Heckl and B. A. T. Petersson, *Structure-Borne Sound*, 3rd ed., Springer, 2005, ch. 5.

    Examples
    --------
    >>> round(float(joined_mobility(2e-3, 2e-3).real) * 1e3, 6)
    1.0
    """
    parts = [np.asarray(one, dtype=np.complex128) for one in mobilities]
    if not parts or any(np.any(part == 0.0) for part in parts):
        raise InvalidInput(f"{len(parts)} mobilities given; a joint needs one or more, none of them zero")
    return np.asarray(1.0 / sum(1.0 / part for part in parts))


def injected_power(force: ArrayLike, mobility: ArrayLike) -> FloatArray:
    """Mean power that a force sends into a structure.

    Parameters
    ----------
    force : array_like, shape (n_frequency,)
        Effective value of the force [N].
    mobility : array_like, shape (n_frequency,)
        Mobility of the point [m/(N·s)].

    Returns
    -------
    ndarray, shape (n_frequency,)
        Power [W], ``F² Re Y``.

    References
    ----------
    .. [1] L. Cremer, M. Heckl and B. A. T. Petersson, *Structure-Borne Sound*, 3rd ed., Springer, 2005, ch. 5.

    Examples
    --------
    >>> round(float(injected_power(2.0, 0.5e-3 + 1e-3j)) * 1e3, 3)
    2.0
    """
    return np.asarray(np.abs(np.asarray(force)) ** 2 * np.real(np.asarray(mobility)), dtype=np.float64)
