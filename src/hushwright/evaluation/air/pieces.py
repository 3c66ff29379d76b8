"""Pieces of a run as parts for the laws of pressure and of sound."""

from __future__ import annotations

import math
from collections.abc import Iterable
from functools import lru_cache

import numpy as np

from hushwright.evaluation.guard import at
from hushwright.evaluation.layers import porous_of
from hushwright.model.air_in_place import (
    BaffleBoxInPlace,
    BendInPlace,
    DuctShape,
    FanInPlace,
    FilterInPlace,
    FlexibleInPlace,
    GrilleInPlace,
    Piece,
    PieceInPlace,
    ReducerInPlace,
    RunInPlace,
    StraightInPlace,
)
from hushwright.physics.acoustics import duct_elements as sounding
from hushwright.physics.acoustics.duct_baffle_box import BaffleBox
from hushwright.physics.acoustics.duct_bands import DuctPower, loss_from_thirds
from hushwright.physics.acoustics.duct_fan import FanDuty, estimated_fan_power
from hushwright.physics.acoustics.duct_fan_figures import fan_power_from_level_a, measured_fan_power, power_at_speed
from hushwright.physics.acoustics.duct_fittings import section_change
from hushwright.physics.acoustics.duct_path import DuctElement as SoundPart
from hushwright.physics.acoustics.duct_sections import RectangularSection, RoundSection
from hushwright.physics.air import Air
from hushwright.physics.airflow import ducts, fittings
from hushwright.physics.airflow.element import DuctElement as FlowPart
from hushwright.physics.airflow.element import filter_element, system_pressure_loss
from hushwright.physics.airflow.fans import Fan
from hushwright.physics.airflow.friction import DuctSection, rectangular_section, round_section

_ELBOW = math.radians(60.0)
"""From this angle on a bend takes sound as an elbow of 90° does, below it takes none; common practice, no source."""

_LINED = 0.05
"""m, thickest lining that the regressions of lined ducts know; thicker counts as this."""

_ROUGHEST = 0.0499
"""Roughness over diameter [-] up to which Colebrook's law holds."""

_PROBE = 0.01
"""m³/s, flow at which each piece is tried by itself, so that a refusal names its place."""

_LEAST_COEFFICIENT = 0.05
"""Loss coefficient of an open end, whose noise is hardly any; common practice, no source."""


def flow_section(shape: DuctShape) -> DuctSection:
    """Section for the laws of pressure."""
    return round_section(shape.width) if shape.round else rectangular_section(shape.width, shape.height)


def sound_section(shape: DuctShape) -> RoundSection | RectangularSection:
    """Section for the laws of sound."""
    return RoundSection(shape.width) if shape.round else RectangularSection(shape.width, shape.height)


@lru_cache(maxsize=256)
def flow_parts(run: RunInPlace) -> tuple[tuple[str, FlowPart], ...]:
    """Parts that lose pressure, each with its piece's name."""
    found: list[tuple[str, FlowPart]] = []
    for piece in run.pieces:
        with at(piece.place):
            found += [(piece.name, part) for part in _flow_parts(piece.what)]
            system_pressure_loss([part for _, part in found], _PROBE)
    return tuple(found)


def _flow_parts(what: PieceInPlace) -> Iterable[FlowPart]:
    if isinstance(what, GrilleInPlace):
        return _grille_parts(what)
    if isinstance(what, StraightInPlace):
        wall = "fibrous lining" if what.lining > 0.0 else what.wall
        return (ducts.StraightDuct(flow_section(what.shape), what.length, ducts.ROUGHNESS[wall]),)
    if isinstance(what, BendInPlace):
        section = flow_section(what.shape)
        if what.radius is None:
            return (fittings.MitredBend(section, what.angle),)
        return (fittings.Bend(section, max(what.radius, 0.5 * section.hydraulic_diameter), what.angle),)
    if isinstance(what, FlexibleInPlace):
        return (_flexible(what),)
    if isinstance(what, ReducerInPlace):
        return (fittings.AreaChange(flow_section(what.before), flow_section(what.after), what.length),)
    if isinstance(what, FilterInPlace):
        return (filter_element(what.rated_flow, what.rated_loss, what.soiling),)
    return (_box_loss(what),) if isinstance(what, BaffleBoxInPlace) else ()


def _flexible(what: FlexibleInPlace) -> ducts.FlexibleDuct:
    """Flexible duct; where it is crushed so far that its folds fill it, as rough as the law goes."""
    free = what.free_share * what.diameter
    roughness = min(ducts.ROUGHNESS["flexible duct"], _ROUGHEST * free)
    return ducts.FlexibleDuct(what.diameter, what.length, max(what.compression, 0.0), what.free_share, roughness)


def _grille_parts(what: GrilleInPlace) -> Iterable[FlowPart]:
    section = flow_section(what.shape)
    end: FlowPart = fittings.Inlet(section) if what.end == "intake" else fittings.Outlet(section)
    if what.bare or what.free_share >= 1.0:
        return (end,)
    return (end, fittings.Grille(section, what.free_share))


def _box_loss(what: BaffleBoxInPlace) -> ducts.BaffleBox:
    box = sound_box(what)
    duct = flow_section(what.duct)
    height = box.inner_height
    narrow = min(what.passage, box.cell) if what.baffles else box.inner_width
    turns = float(box.turns) if what.baffles else 0.0
    return ducts.BaffleBox(duct, rectangular_section(narrow, height), duct, turns, box.path_length)


@lru_cache(maxsize=256)
def sound_box(what: BaffleBoxInPlace) -> BaffleBox:
    """Baffle box for the laws of sound; a baffle is as thick as the lining."""
    return BaffleBox(what.length, what.width, what.height, what.wall, porous_of(what.absorber), what.lining,
                     what.baffles, what.lining, what.passage, what.duct.area)  # fmt: skip


@lru_cache(maxsize=256)
def fans_of(run: RunInPlace) -> tuple[Fan, ...]:
    """Fans of a run."""
    found = []
    for piece in run.fans:
        assert isinstance(piece.what, FanInPlace)
        with at(piece.place):
            powers = () if piece.what.power is None else (piece.what.power,)
            found.append(Fan(piece.what.flows, piece.what.pressures, powers, speed=piece.what.speed))
    return tuple(found)


@lru_cache(maxsize=1024)
def _sound_part(piece: Piece, air: Air) -> SoundPart:
    with at(piece.place):
        return _part(piece.name, piece.what, air)


def _part(name: str, what: PieceInPlace, air: Air) -> SoundPart:
    if isinstance(what, StraightInPlace):
        lining = min(what.lining, _LINED)
        return sounding.straight_element(name, sound_section(what.shape), what.length, lining)
    if isinstance(what, BendInPlace) and what.angle >= _ELBOW:
        kind = "square" if what.radius is None else "radiused"
        return sounding.elbow_element(name, sound_section(what.shape), kind, air=air)  # type: ignore[arg-type]
    if isinstance(what, FlexibleInPlace):
        if what.lined:
            return sounding.flexible_element(name, what.diameter, what.length)
        return sounding.straight_element(name, RoundSection(what.diameter * math.sqrt(what.free_share)), what.length)
    if isinstance(what, ReducerInPlace):
        return SoundPart(name, section_change(what.before.area, what.after.area))
    if isinstance(what, BaffleBoxInPlace):
        return sounding.box_element(name, sound_box(what), air)
    return SoundPart(name, loss_from_thirds(0.0))


@lru_cache(maxsize=256)
def _end_parts(name: str, what: GrilleInPlace, air: Air) -> tuple[SoundPart, SoundPart]:
    """Open end and grille: the end throws sound back, the grille behind it makes its own."""
    coefficient = _LEAST_COEFFICIENT
    if not what.bare and what.free_share < 1.0:
        section = flow_section(what.shape)
        pressure = fittings.Grille(section, what.free_share).pressure_loss(section.area, air)
        coefficient = max(pressure / section.velocity_pressure(section.area, air), _LEAST_COEFFICIENT)
    kind = "round" if what.shape.round else "slot"
    return (
        sounding.end_element(f"{name}, open end", what.shape.area, air=air),
        sounding.terminal_element(name, what.shape.area, coefficient, kind),  # type: ignore[arg-type]
    )


def sound_parts(run: RunInPlace, air: Air, *, against: bool = False, from_piece: int | None = None) -> list[SoundPart]:
    """Parts in the order in which sound passes them.

    Parameters
    ----------
    run : RunInPlace
        The run.
    air : Air
        Air in it.
    against : bool, optional
        Whether the sound runs against the air.
    from_piece : int, optional
        Piece at which the sound begins; the whole run when left out.

    Returns
    -------
    list of DuctElement
        Without the piece it begins at.
    """
    pieces = list(run.pieces)
    if from_piece is not None:
        pieces = pieces[:from_piece] if against else pieces[from_piece + 1 :]
    found: list[SoundPart] = []
    for piece in reversed(pieces) if against else pieces:
        if isinstance(piece.what, GrilleInPlace):
            found += _end_parts(piece.name, piece.what, air)
        else:
            found.append(_sound_part(piece, air))
    return found


@lru_cache(maxsize=256)
def fan_sound(piece: Piece, flow: float, pressure: float) -> DuctPower:
    """Sound power of a fan into its duct: from the file, else estimated from what it does."""
    what = piece.what
    assert isinstance(what, FanInPlace)
    with at(piece.place):
        if what.octaves:
            known = measured_fan_power([level for _, level in what.octaves], [band for band, _ in what.octaves])
        elif what.sound_power is not None:
            known = fan_power_from_level_a(what.sound_power, what.kind)  # type: ignore[arg-type]
        else:
            duty = FanDuty(max(flow, 1e-3), max(pressure, 1.0))
            return estimated_fan_power(duty, what.kind)  # type: ignore[arg-type]
        return known if np.isclose(what.speed, 1.0) else power_at_speed(known, what.speed)
