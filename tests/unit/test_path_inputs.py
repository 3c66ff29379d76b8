"""Impossible input of the path functions is refused and shown."""

import math

import numpy as np
import pytest

from hushwright.errors import InvalidInput
from hushwright.physics.acoustics.flanking import (
    equivalent_absorption_length,
    flanking_rating,
    flanking_reduction,
    skin_flanking,
    structural_reverberation_time,
    velocity_level_difference_from_index,
)
from hushwright.physics.acoustics.gap_network import (
    GapTransfer,
    Junction,
    Segment,
    gap_powers,
    gap_transfer,
    lateral_decay,
)
from hushwright.physics.acoustics.incidence import OutdoorSource, face_incidence
from hushwright.physics.acoustics.layers import Porous
from hushwright.physics.acoustics.leaks import (
    Element,
    band_tuple,
    composite_reduction,
    door_cap,
    joint_transmission_area,
    niche_allowance,
)
from hushwright.physics.acoustics.modal_coupling import radiation_factor_forced
from hushwright.physics.acoustics.modes import cross_section_modes, modal_density, room_modes, section_shapes
from hushwright.physics.acoustics.mounts_path import MountedFloor, mount_borne_power
from hushwright.physics.acoustics.polygons import polygon_area
from hushwright.physics.acoustics.ribs import Rib, Sheet, rib_transmission_at, skin_velocity_difference
from hushwright.physics.acoustics.room_field import path_gain, source_gain
from hushwright.physics.acoustics.rooms import FaceOnRoom, PointSource, RoomField
from hushwright.physics.acoustics.slits import (
    Slit,
    circular_hole_transmission,
    slit_fluid,
    slit_resonance,
    slit_transmission,
)

SQUARE = ((0.0, 0.0), (1.0, 0.0), (1.0, 1.0), (0.0, 1.0))
BANDS = (20.0,) * 27
ROOM = RoomField(SQUARE, 2.0, (3.0,) * 27)
SKIN = Sheet(7.0, 14.0, (0.02,) * 27)
FLOOR = MountedFloor(1.6, 2.0, 20.0, 4000.0, (0.05,) * 27, 600.0)
SIDE = Segment("left", 2.0, 0.05, BANDS, BANDS)

REFUSED = {
    "no-area": lambda: polygon_area(((0.0, 0.0), (1.0, 0.0), (2.0, 0.0))),
    "two-corners": lambda: polygon_area(((0.0, 0.0), (1.0, 0.0))),
    "crossed": lambda: cross_section_modes(((0.0, 0.0), (1.0, 1.0), (1.0, 0.0), (0.0, 0.8)), 300.0),
    "no-frequency": lambda: cross_section_modes(SQUARE, 0.0),
    "no-wavenumber": lambda: section_shapes(SQUARE, -1.0),
    "no-length": lambda: room_modes(cross_section_modes(SQUARE, 200.0), 0.0, 200.0),
    "beyond-section": lambda: room_modes(cross_section_modes(SQUARE, 200.0), 1.0, 300.0),
    "negative-frequency": lambda: modal_density(-1.0, 1.0, 1.0, 1.0),
    "room-length": lambda: RoomField(SQUARE, 0.0, (3.0,) * 27),
    "room-bands": lambda: RoomField(SQUARE, 1.0, (3.0,) * 21),
    "room-absorption": lambda: RoomField(SQUARE, 1.0, (0.0,) * 27),
    "face-area": lambda: FaceOnRoom("edge", 0, 0.0),
    "edge-without-index": lambda: FaceOnRoom("edge", None, 1.0),
    "end-with-index": lambda: FaceOnRoom("end_front", 1, 1.0),
    "no-such-edge": lambda: path_gain(ROOM, FaceOnRoom("edge", 9, 1.0), BANDS),
    "face-too-large": lambda: path_gain(ROOM, FaceOnRoom("end_rear", None, 2.0), BANDS),
    "few-bands": lambda: path_gain(ROOM, FaceOnRoom("end_rear", None, 1.0), BANDS[:5]),
    "source-outside": lambda: source_gain(ROOM, PointSource((0.5, 2.0, 0.5)), None),
    "source-behind": lambda: source_gain(ROOM, PointSource((9.0, 0.5, 0.5)), None),
    "no-side": lambda: radiation_factor_forced(np.array([1.0]), (0.0, 1.0)),
    "slit-width": lambda: Slit(0.0, 0.1),
    "slit-too-wide": lambda: Slit(0.5, 0.1),
    "slit-depth": lambda: Slit(0.001, 0.0),
    "slit-frequency": lambda: slit_transmission(Slit(0.001, 0.1), [0.0]),
    "slit-fluid": lambda: slit_fluid([100.0], 0.0),
    "resonance-order": lambda: slit_resonance(Slit(0.001, 0.1), 0),
    "hole": lambda: circular_hole_transmission(0.0, 0.1),
    "element": lambda: Element(0.0, (1.0,)),
    "no-elements": lambda: composite_reduction(()),
    "total-area": lambda: composite_reduction((Element(1.0, (1.0,)),), total_area=0.0),
    "joint-length": lambda: joint_transmission_area([30.0], -1.0),
    "door": lambda: door_cap(0.0, 5.0, Slit(0.001, 0.1)),
    "niche": lambda: niche_allowance(-0.1, 1.0, 1.0, 1000.0),
    "bands": lambda: band_tuple([1.0, 2.0]),
    "segment-area": lambda: Segment("a", 0.0, 0.1, BANDS, BANDS),
    "segment-share": lambda: Segment("a", 1.0, 0.1, BANDS, BANDS, fill_share=1.2),
    "segment-bands": lambda: Segment("a", 1.0, 0.1, BANDS[:3], BANDS),
    "junction-self": lambda: Junction("a", "a", 1.0, 0.1),
    "junction-length": lambda: Junction("a", "b", 0.0, 0.1),
    "junction-bands": lambda: Junction("a", "b", 1.0, 0.1, reduction=(1.0,)),
    "junction-unknown": lambda: gap_transfer((SIDE,), (Junction("left", "roof", 1.0, 0.01),)),
    "junction-deep": lambda: gap_transfer(
        (SIDE, Segment("roof", 2.0, 0.02, BANDS, BANDS)), (Junction("left", "roof", 1.0, 0.05),)
    ),
    "segment-twice": lambda: gap_transfer((SIDE, SIDE), ()),
    "powers": lambda: gap_powers(GapTransfer((), (), (), (), (), ()), (BANDS,)),
    "decay-share": lambda: lateral_decay(Porous(1e4, 0.98, 1.0, 40.0), 1.5),
    "decay-frequency": lambda: lateral_decay(Porous(1e4, 0.98, 1.0, 40.0), 0.5, [0.0]),
    "sheet": lambda: Sheet(0.0, 14.0, (0.02,) * 27),
    "sheet-loss": lambda: Sheet(7.0, 14.0, (0.0,) * 27),
    "rib": lambda: Rib(-1.0),
    "rib-angle": lambda: rib_transmission_at(SKIN, Rib(1.0), [100.0], [1.6]),
    "structure-loss": lambda: structural_reverberation_time([0.0], [100.0]),
    "structure-area": lambda: equivalent_absorption_length(0.0, [0.1]),
    "structure-edge": lambda: velocity_level_difference_from_index([1.0], 0.0, [1.0], [1.0]),
    "bays": lambda: skin_velocity_difference(SKIN, (0.5,), (), 1),
    "flanking-area": lambda: flanking_reduction([1.0], [1.0], [1.0], 0.0, 1.0, 1.0),
    "flanking-length": lambda: flanking_rating(1.0, 1.0, 1.0, 1.0, 0.0),
    "flanking-height": lambda: skin_flanking(BANDS, BANDS, SKIN, (0.5, 0.5), (Rib(1.0),), 1, 0.0, 3.0),
    "floor": lambda: MountedFloor(0.0, 2.0, 20.0, 4000.0, (0.05,) * 27, 600.0),
    "floor-loss": lambda: MountedFloor(1.0, 2.0, 20.0, 4000.0, (0.05,) * 3, 600.0),
    "no-mounts": lambda: mount_borne_power(BANDS, (1e-4 + 0j,) * 27, BANDS, 0, FLOOR),
    "mount-bands": lambda: mount_borne_power(BANDS[:2], (1e-4 + 0j,) * 27, BANDS, 4, FLOOR),
    "source-width": lambda: OutdoorSource(0.0, 4.0),
    "source-elevation": lambda: OutdoorSource(0.0, 1.0, 0.5, 0.1),
    "face-name": lambda: face_incidence("keel", OutdoorSource(0.0, 1.0), (5.0,), 1.0, 1.0),
    "shadow": lambda: face_incidence("left", OutdoorSource(0.0, 1.0), (-5.0,), 1.0, 1.0),
    "face-size": lambda: face_incidence("left", OutdoorSource(0.0, 1.0), (5.0,), 0.0, 1.0),
}


@pytest.mark.parametrize("case", REFUSED.values(), ids=REFUSED.keys())
def test_impossible_input_is_refused(case):
    with pytest.raises(InvalidInput) as caught:
        case()
    assert any(character.isdigit() for character in str(caught.value)) or "'" in str(caught.value)


def test_gap_without_segments_passes_nothing():
    assert gap_transfer((), ()).names == ()
    assert gap_powers(gap_transfer((), ()), ()) == ()


def test_silent_base_gives_silence_without_parts():
    silent = mount_borne_power((0.0,) * 27, (1e-4 + 0j,) * 27, BANDS, 4, FLOOR)
    assert max(silent.power) == 0.0
    assert max(silent.body_share) == 0.0


def test_wheel_box_corner_is_meshed():
    """A section with a step for a wheel box: area and lowest mode stay plausible."""
    stepped = ((-0.8, 0.3), (-0.6, 0.3), (-0.6, 0.0), (0.6, 0.0), (0.6, 0.3), (0.8, 0.3), (0.8, 1.9), (-0.8, 1.9))
    section = cross_section_modes(stepped, 400.0)
    assert math.isclose(polygon_area(stepped), 1.2 * 0.3 + 1.6 * 1.6)
    assert math.pi / 2.0 < section.wavenumbers[1] < math.pi / 1.6


def test_niche_does_nothing_above_coincidence():
    allowance = niche_allowance(0.2, 0.74, 0.56, 1200.0)
    assert allowance.allowance[20] == 0.0
    assert allowance.allowance[5] > 0.5
    assert niche_allowance(0.0, 0.74, 0.56, 1200.0).allowance[5] == 0.0
    assert max(niche_allowance(0.0, 0.74, 0.56, 1200.0).standard_uncertainty) == 0.0
