"""What takes the load of an anchor: fixings, straps, spreaders, and stops beside the mounts."""

from __future__ import annotations

import math
from dataclasses import dataclass

from hushwright.errors import InvalidInput
from hushwright.physics.air import STANDARD_GRAVITY
from hushwright.physics.mechanics._guard import not_negative, positive


@dataclass(frozen=True, slots=True)
class StopContact:
    """What a stop with a gap does in a crash.

    Parameters
    ----------
    touches_in_use : bool
        Whether the mount's own travel in use closes the gap.
    clearance : float
        Gap less travel in use [m].
    peak_force : float
        Greatest force on the stops in the crash [N], with the speed gained over the gap.
    travel : float
        Movement of the room at that force [m].
    bottoms : bool
        Whether mounts reach the end of their own travel before the stops hold.

    References
    ----------
    .. [1] S. P. Timoshenko, *Strength of Materials*, part I, 3rd ed., 1955, suddenly applied loads.

    Examples
    --------
    >>> StopContact(False, 0.004, 4e4, 0.008, False).clearance
    0.004
    """

    touches_in_use: bool
    clearance: float
    peak_force: float
    travel: float
    bottoms: bool


def fixing_count(load: float, allowable_load: float, safety_factor: float = 1.0) -> int:
    """Number of fixings that carry a load.

    Parameters
    ----------
    load : float
        Load [N].
    allowable_load : float
        Load that one fixing may carry in this structure [N].
    safety_factor : float, optional
        Factor on the load [-].

    Returns
    -------
    int
        Number of fixings [-], one or more.

    Raises
    ------
    InvalidInput
        If a value is impossible.

    References
    ----------
    .. [1] Common practice, no source.

    Examples
    --------
    >>> fixing_count(21_000.0, 8_000.0, safety_factor=1.5)
    4
    """
    if not safety_factor >= 1.0:
        raise InvalidInput(f"safety factor is {safety_factor}; it must be 1 or more")
    carried = not_negative("load", load, "N") * safety_factor / positive("allowable load", allowable_load, "N")
    return max(1, math.ceil(carried - 1e-9))


def tie_down_count(
    mass: float,
    restraint_share: float,
    friction: float,
    standard_tension: float,
    lashing_angle: float = math.pi / 2,
    safety_factor: float = 1.25,
) -> float:
    """Straps over a load that hold it by friction alone, before rounding up.

    Parameters
    ----------
    mass : float
        Mass of the load [kg].
    restraint_share : float
        Inertia as a share of the weight [g].
    friction : float
        Friction coefficient [-].
    standard_tension : float
        Tension that the ratchet leaves in a strap [N].
    lashing_angle : float, optional
        Angle of the strap from level [rad].
    safety_factor : float, optional
        Factor of the standard [-].

    Returns
    -------
    float
        Number of straps [-]; none when friction alone is enough.

    Raises
    ------
    InvalidInput
        If a value is impossible.

    Notes
    -----
    ``n = (c − μ) m g f/(2 μ sin α · S)``.

    References
    ----------
    .. [1] EN 12195-1:2010.

    Examples
    --------
    >>> round(tie_down_count(200.0, 0.8, 0.3, 3000.0), 3)
    0.681
    """
    weight = positive("mass", mass, "kg") * STANDARD_GRAVITY
    if not 0.0 < lashing_angle <= math.pi / 2:
        raise InvalidInput(f"lashing angle is {lashing_angle} rad; it lies above 0 and up to a right angle")
    held = (
        2.0 * positive("friction", friction, "") * math.sin(lashing_angle) * positive("tension", standard_tension, "N")
    )
    return max(0.0, (not_negative("share", restraint_share, "g") - friction) * weight * safety_factor / held)


def spreader_side(load: float, sheet_thickness: float, allowable_shear: float) -> float:
    """Side of a square spreader plate that a sheet holds without being punched through.

    Parameters
    ----------
    load : float
        Pull on the sheet [N].
    sheet_thickness : float
        Thickness of the sheet [m].
    allowable_shear : float
        Shear stress that the sheet may bear [Pa].

    Returns
    -------
    float
        Side of the plate [m]; its square is the area.

    Raises
    ------
    InvalidInput
        If a value is not above zero.

    Notes
    -----
    ``F ≤ 4 a t τ``: punching along the rim. Sheet between ribs gives way in bending long before; the pull belongs on a
    rib, sill or cross member, and the plate only spreads it there.

    References
    ----------
    .. [1] Strength of materials, punching shear.

    Examples
    --------
    >>> round(spreader_side(10_000.0, 0.0015, 40e6), 3)
    0.042
    """
    rim = positive("load", load, "N") / (positive("sheet thickness", sheet_thickness, "m"))
    return rim / (4.0 * positive("allowable shear", allowable_shear, "Pa"))


def stop_contact(
    force: float, gap: float, stop_stiffness: float, mount_stiffness: float, use_travel: float, mount_travel: float
) -> StopContact:
    """Whether stops stay clear in use and hold in a crash.

    Parameters
    ----------
    force : float
        Inertia of the room in the crash, level times weight [N].
    gap : float
        Clear gap of the stops in that direction [m].
    stop_stiffness : float
        Stiffness of all stops that take the load [N/m].
    mount_stiffness : float
        Stiffness of all mounts in that direction [N/m].
    use_travel : float
        Movement of the room in use: people, sway, creep [m].
    mount_travel : float
        Movement at which the mounts themselves end [m].

    Returns
    -------
    StopContact
        Clearance [m], peak force [N], travel [m] and whether mounts bottom first.

    Raises
    ------
    InvalidInput
        If a value is impossible.

    Notes
    -----
    The force acts suddenly and stays: its work over the whole travel goes into mounts and stops,
    ``F x = k_m x²/2 + k_s (x − gap)²/2``. A gap lets the room gather speed, so that stops see more than twice the force
    when they are stiff: small gaps and soft stops. A pulse shorter than the motion gives less.

    References
    ----------
    .. [1] S. P. Timoshenko, *Strength of Materials*, part I, 3rd ed., 1955, suddenly applied loads.

    Examples
    --------
    Without a gap and without mounts a sudden load counts twice:

    >>> round(stop_contact(1000.0, 0.0, 1e6, 0.0, 0.0, 0.01).peak_force)
    2000
    """
    positive("force", force, "N")
    stop = positive("stop stiffness", stop_stiffness, "N/m")
    mount = not_negative("mount stiffness", mount_stiffness, "N/m")
    not_negative("gap", gap, "m")
    not_negative("travel in use", use_travel, "m")
    positive("mount travel", mount_travel, "m")
    # (k_m + k_s) x²/2 − (F + k_s g) x + k_s g²/2 = 0, unless the mounts alone hold within the gap.
    alone = 2.0 * force / mount if mount > 0.0 else math.inf
    if alone <= gap:
        travel = alone
    else:
        half, linear = 0.5 * (mount + stop), force + stop * gap
        travel = (linear + math.sqrt(linear**2 - 2.0 * half * stop * gap**2)) / (2.0 * half)
    peak = stop * max(travel - gap, 0.0)
    return StopContact(use_travel >= gap, gap - use_travel, peak, travel, travel > mount_travel)
