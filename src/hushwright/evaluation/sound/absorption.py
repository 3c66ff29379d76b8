"""What a room absorbs, and its field: faces, absorbers, people."""

from __future__ import annotations

from collections.abc import Sequence
from functools import lru_cache

import numpy as np

from hushwright.evaluation.layers import porous_of
from hushwright.evaluation.results import Bands, RoomSound
from hushwright.evaluation.sound.faces import Setting, surface_layers
from hushwright.library.records import AbsorptionRow
from hushwright.model.build import Room, Surface, TreatmentInPlace
from hushwright.physics.acoustics.absorption_air import air_absorption_area
from hushwright.physics.acoustics.bands import FREQUENCIES, THIRD_OCTAVE_BANDS
from hushwright.physics.acoustics.layers import Layer
from hushwright.physics.acoustics.matrices import surface_absorption
from hushwright.physics.acoustics.modes import cross_section_modes, room_modes
from hushwright.physics.acoustics.rooms import FaceOnRoom, RoomField, crossover_frequency, reverberation_times
from hushwright.physics.acoustics.spaces import Gap, PorousLayer
from hushwright.physics.air import Air

_HARD = 0.03  # least absorption of a painted face with its edges and fittings; common practice, no source
_HUMIDITY = 0.5  # relative, of the air in rooms while it absorbs sound; common practice, no source
_OCTAVES = (125.0, 250.0, 500.0, 1000.0, 2000.0, 4000.0)
_MODE_CEILING = 250.0  # Hz, up to which the lowest modes are listed

absorption_of = lru_cache(maxsize=512)(surface_absorption)


def thirds_from_octaves(values: Sequence[float]) -> Bands:
    """Octave coefficients 125 Hz–4 kHz held over each octave, the outer ones on to the ends of the range."""
    edges = np.log2(np.asarray(_OCTAVES))
    nearest = [int(np.argmin(np.abs(edges - np.log2(band)))) for band in THIRD_OCTAVE_BANDS]
    return tuple(float(values[index]) for index in nearest)


@lru_cache(maxsize=256)
def room_field(room: Room, people: int, setting: Setting, open_area: float = 0.0) -> RoomField:
    """Prismatic room with its absorption area per band: faces, people, air; an open door takes all that meets it."""
    area = open_area + air_absorption_area(
        FREQUENCIES, room.volume, temperature=setting.temperature, relative_humidity=_HUMIDITY
    )
    for surface in room.surfaces:
        area += _face(room, surface, setting)
    person = setting.library.find(AbsorptionRow, "person, standing")
    area += people * np.asarray(thirds_from_octaves(person.absorption))
    return RoomField(room.section.polygon, room.length, tuple(float(value) for value in area), setting.air)


def _face(room: Room, surface: Surface, setting: Setting) -> np.ndarray:
    """Absorption area of one face with the absorbers on it [m²]."""
    treatments = [each for each in room.treatments if each.face == surface.face]
    covered = min(sum(each.coverage for each in treatments), 1.0)
    area = surface.area * (1.0 - covered) * np.maximum(_bare(surface, setting), _HARD)
    for each in treatments:
        area = area + surface.area * each.coverage * np.asarray(absorption_of(_lining(each), air=setting.air))
    return np.asarray(area)


def _bare(surface: Surface, setting: Setting) -> np.ndarray:
    layers = surface_layers(surface, setting)
    if not layers:
        return np.zeros(len(THIRD_OCTAVE_BANDS))
    return np.asarray(absorption_of(layers[::-1], rigid_backing=False, air=setting.air))


def _lining(treatment: TreatmentInPlace) -> tuple[Layer, ...]:
    porous = PorousLayer(porous_of(treatment.blanket), treatment.thickness)
    return (porous, Gap(treatment.air_behind)) if treatment.air_behind > 0.0 else (porous,)


@lru_cache(maxsize=2048)
def face_on_room(room: Room, face: str, area: float) -> FaceOnRoom:
    """Where a face lies on the prism; a side of several edges is taken at its longest one."""
    if face in ("front", "rear"):
        return FaceOnRoom("end_front" if face == "front" else "end_rear", None, min(area, room.section.area))
    index = _edge_index(room, face)
    corners = room.section.polygon
    run = float(np.hypot(*np.subtract(corners[(index + 1) % len(corners)], corners[index])))
    return FaceOnRoom("edge", index, min(area, run * room.length))


def _edge_index(room: Room, face: str) -> int:
    """Edge of the polygon: the floor first, then the left side up, the ceiling, the right side down."""
    left, right = room.section.left, room.section.right
    if face in ("floor", "wheel_box_left", "wheel_box_right"):
        return 0
    if face == "ceiling":
        return len(left)
    corners = room.section.polygon
    first = 1 if face == "left" else len(left) + 1
    count = len(left) - 1 if face == "left" else len(right) - 1
    edges = range(first, first + count)
    return max(edges, key=lambda at: float(np.hypot(*np.subtract(corners[(at + 1) % len(corners)], corners[at]))))


@lru_cache(maxsize=64)
def _lowest(polygon: tuple[tuple[float, float], ...], length: float, air: Air) -> tuple[float, ...]:
    section = cross_section_modes(polygon, _MODE_CEILING, air)
    modes = room_modes(section, length, _MODE_CEILING, air)
    return tuple(mode.frequency for mode in modes if mode.frequency > 1.0)[:8]


def room_sound(room: Room, field: RoomField) -> RoomSound:
    """Absorption, reverberation and lowest modes of a room, for reports."""
    times = tuple(float(value) for value in reverberation_times(field))
    return RoomSound(room.name, field.absorption_area, times, crossover_frequency(field),
                     _lowest(field.polygon, field.length, field.air))  # fmt: skip
