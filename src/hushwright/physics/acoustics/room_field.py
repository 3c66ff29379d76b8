"""Sound in a room too small for a diffuse field: one modal sum, with the statistical field above it."""

from __future__ import annotations

import math
from functools import lru_cache

import numpy as np
from numpy.typing import NDArray

from hushwright.errors import InvalidInput
from hushwright.physics.acoustics.bands import FREQUENCIES, N_BANDS
from hushwright.physics.acoustics.modal_coupling import (
    PARTS_PER_BAND,
    SharedFace,
    coupling,
    face_squares,
    modal_grid,
    part_edges,
    place_squares,
)
from hushwright.physics.acoustics.polygons import edge_lengths, mirrored_edges, polygon_area
from hushwright.physics.acoustics.rooms import (
    FaceOnRoom,
    Gain,
    PointSource,
    RoomField,
    SourceGain,
    crossover_frequency,
    diffuse_spread,
    reverberation_times,
)

FloatArray = NDArray[np.float64]


def _modal_share(room: RoomField) -> FloatArray:
    """1 below, 0 above, rising as a cosine over the octave centred on the crossover."""
    octaves = np.log2(FREQUENCIES / crossover_frequency(room))
    return np.asarray(0.5 - 0.5 * np.sin(np.pi * np.clip(octaves, -0.5, 0.5)))


def path_gain(room: RoomField, face: FaceOnRoom, reduction: tuple[float, ...]) -> Gain:
    r"""Space-mean room level over the power level that a face would radiate into free space.

    Parameters
    ----------
    room : RoomField
        Receiving room [-].
    face : FaceOnRoom
        Face or part of a face that radiates [-].
    reduction : tuple of float, shape (27,)
        Sound reduction index of the path, from which the face's impedance follows [dB].

    Returns
    -------
    Gain
        Level minus power level and its spread over places [dB]. The power level is
        ``L − 6 + 10 lg S − R`` with L the level that goes with R outside.

    Raises
    ------
    InvalidInput
        If the face is no part of the room or there are not 27 reductions.

    Notes
    -----
    The face moves with ``⟨v²⟩ = W/(ρ c S σ)``, σ its radiation factor for diffuse forcing, in waves that are the
    traces of that field (uniform where the face is small against the wavelength). With modes ψ of mean square 1,

    .. math:: \frac{\langle p^2\rangle}{\rho c W} = \frac{S}{\sigma V^2}\sum_N B_N
              \left\langle\frac{k^2}{|k_N^2-k^2+2jk\delta/c|^2}\right\rangle_{band},\qquad
              B_N=\frac{\langle|\int\psi_N v\,dS|^2\rangle}{S^2\langle v^2\rangle},\quad
              \delta=\frac{cA}{8V}.

    The constant-pressure mode is one of the N. The room pushes back on the face: divided by ``|1 + Z_in/Z_w|²``,
    with ``|Z_w| = ρc·sqrt(8σ/τ)`` taken as a mass; below the first mode that is p_in/p_blocked = K/(Z_w + K),
    K = ρc²S/(jωV). Over the octave round the crossover the sum fades into ``10 lg(4/A)``. Other faces that give
    way at the same time are not in K. All modes decay alike.

    References
    ----------
    .. [1] P. M. Morse and K. U. Ingard, *Theoretical Acoustics*, McGraw-Hill, 1968, ch. 9.
    .. [2] H. Kuttruff, *Room Acoustics*, 5th ed., Spon, 2009, ch. 3 and 5.

    Examples
    --------
    >>> room = RoomField(((0.0, 0.0), (1.6, 0.0), (1.6, 1.9), (0.0, 1.9)), 2.25, (5.0,) * 27)
    >>> gain = path_gain(room, FaceOnRoom("edge", 1, 1.9 * 2.25), (30.0,) * 27).gain
    >>> round(gain[20], 1) == round(10.0 * math.log10(4.0 / 5.0), 1)
    True
    """
    if len(reduction) != N_BANDS:
        raise InvalidInput(f"{len(reduction)} reductions given; there are {N_BANDS} bands")
    share = _modal_share(room)
    diffuse = 10.0 * np.log10(4.0 / np.asarray(room.absorption_area))
    spread = diffuse_spread(FREQUENCIES, reverberation_times(room))
    bands = int(np.count_nonzero(share > 0.0))
    if bands:
        modal, places = _modal_path(room, face, np.asarray(reduction[:bands]), bands)
        diffuse[:bands] = _fade(modal, diffuse[:bands], share[:bands])
        spread[:bands] = share[:bands] * places + (1.0 - share[:bands]) * spread[:bands]
    return Gain(_floats(diffuse), _floats(spread), _floats(share))


def joined_gain(room: RoomField, faces: tuple[FaceOnRoom, ...], reduction: tuple[float, ...]) -> Gain:
    """Gain of a path whose face runs over several edges of the cross-section, such as a leaning side or a ceiling.

    Parameters
    ----------
    room : RoomField
        Receiving room [-].
    faces : tuple of FaceOnRoom
        The pieces of the face [-]; each radiates power by its area.
    reduction : tuple of float, shape (27,)
        Sound reduction index of the path [dB].

    Returns
    -------
    Gain
        Energy mean by area of the pieces' gains and spreads [dB].

    Raises
    ------
    InvalidInput
        If there is no piece, or one is no part of the room.

    Notes
    -----
    Where the whole is small against the wave each piece has the same gain per power as the whole would have; where it
    is large they radiate independently. The mean serves both.

    References
    ----------
    .. [1] P. M. Morse and K. U. Ingard, *Theoretical Acoustics*, McGraw-Hill, 1968, ch. 9.

    Examples
    --------
    >>> room = RoomField(((0.0, 0.0), (1.6, 0.0), (1.6, 1.9), (0.0, 1.9)), 2.25, (5.0,) * 27)
    >>> side = FaceOnRoom("edge", 1, 4.0)
    >>> joined_gain(room, (side,), (30.0,) * 27) == path_gain(room, side, (30.0,) * 27)
    True
    """
    if not faces:
        raise InvalidInput("a path with 0 faces; at least one is needed")
    gains = [path_gain(room, face, reduction) for face in faces]
    if len(gains) == 1:
        return gains[0]
    weight = np.array([face.area for face in faces]) / sum(face.area for face in faces)
    level = 10.0 * np.log10(weight @ 10.0 ** (np.array([gain.gain for gain in gains]) / 10.0))
    spread = np.sqrt(weight @ np.array([gain.spread for gain in gains]) ** 2)
    return Gain(_floats(level), _floats(spread), gains[0].modal_share)


def _floats(values: FloatArray) -> tuple[float, ...]:
    return tuple(float(value) for value in values)


def _fade(modal: FloatArray, statistical: FloatArray, share: FloatArray) -> FloatArray:
    """Mix energies, so that neither side's dips or peaks rule the octave of the change."""
    return np.asarray(10.0 * np.log10(share * 10.0 ** (modal / 10.0) + (1.0 - share) * 10.0 ** (statistical / 10.0)))


def _shared(room: RoomField, face: FaceOnRoom) -> SharedFace:
    """What the coupling depends on: geometry and speed of sound, not absorption or reduction, so it is memoised."""
    if face.kind == "edge":
        lengths = edge_lengths(room.polygon)
        index = face.edge_index if face.edge_index is not None else -1
        if not 0 <= index < len(lengths):
            raise InvalidInput(f"edge {index} is none of the {len(lengths)} edges of the cross-section")
        index = mirrored_edges(room.polygon)[index]
        full = lengths[index] * room.length
        sides = (lengths[index], room.length)
    else:
        index = -1
        full = polygon_area(room.polygon)
        rows = [corner[1] for corner in room.polygon]
        height = max(rows) - min(rows)
        sides = (full / height, height)
    if face.area > full * 1.02:
        raise InvalidInput(f"face area is {face.area} m², the whole face is {full:.3f} m²")
    return SharedFace("edge" if face.kind == "edge" else "end", index, min(1.0, face.area / full), sides)


@lru_cache(maxsize=64)
def _resonance_sums(room: RoomField, bands: int) -> tuple[FloatArray, FloatArray, FloatArray]:
    """Mode wavenumbers (m, n), and the part-band means of k²/|k_N² − k² + 2jkδ/c|², shape (part, m, n)."""
    grid = modal_grid(room.polygon, room.length, room.air.speed_of_sound, bands)
    decay = np.repeat(np.asarray(room.absorption_area[:bands]) / (8.0 * room.volume), PARTS_PER_BAND)
    low, high = part_edges(bands, room.air.speed_of_sound)
    shape = (-1, 1, 1)
    return grid, _band_mean(grid, decay.reshape(shape), low.reshape(shape), high.reshape(shape)), decay


def _band_mean(resonance: FloatArray, decay: FloatArray, low: FloatArray, high: FloatArray) -> FloatArray:
    """Mean of k²/((K² − k²)² + 4d²k²) between two wavenumbers, in closed form so that no resonance is missed."""
    offset = np.sqrt(np.maximum(resonance**2 - decay**2, (0.05 * decay) ** 2))

    def primitive(k: FloatArray) -> FloatArray:
        below, above = k - offset, k + offset
        logarithm = 0.5 * np.log((below**2 + decay**2) / (above**2 + decay**2))
        angle = np.arctan(below / decay) + np.arctan(above / decay)
        return np.asarray((logarithm + offset / decay * angle) / (4.0 * offset))

    oscillating = (primitive(high) - primitive(low)) / (high - low)
    constant = (np.arctan(high / (2.0 * decay)) - np.arctan(low / (2.0 * decay))) / (2.0 * decay * (high - low))
    return np.asarray(np.where(resonance > 0.0, oscillating, constant))


def _band_sum(parts: FloatArray) -> FloatArray:
    """Mean over the parts of each band."""
    return np.asarray(parts.reshape(-1, PARTS_PER_BAND, *parts.shape[1:]).mean(axis=1))


def _modal_path(room: RoomField, face: FaceOnRoom, reduction: FloatArray, bands: int) -> tuple[FloatArray, FloatArray]:
    shared = _shared(room, face)
    force, radiation = coupling(room.polygon, room.length, room.air.speed_of_sound, bands, shared)
    grid, resonance, decay = _resonance_sums(room, bands)
    wall = np.sqrt(8.0 * radiation * 10.0 ** (np.repeat(reduction, PARTS_PER_BAND) / 10.0))
    pushed = resonance * force * _back_reaction(room, face, grid, force, decay, wall)[:, None, None]
    energy = face.area / (radiation * room.volume**2) * pushed.sum(axis=(1, 2))
    per_mode = _band_sum(face.area / (radiation * room.volume**2)[:, None, None] * pushed)
    return 10.0 * np.log10(_band_sum(energy)), _place_spread(room, per_mode, bands)


def _back_reaction(
    room: RoomField, face: FaceOnRoom, grid: FloatArray, force: FloatArray, decay: FloatArray, wall: FloatArray
) -> FloatArray:
    """1/|1 + Z_in/Z_w|² at the middle of each part; resonances are smeared over half the part's width."""
    low, high = part_edges(decay.size // PARTS_PER_BAND, room.air.speed_of_sound)
    k = 0.5 * (low + high)
    smeared = (decay + 0.5 * (high - low))[:, None, None]
    k_grid = k[:, None, None]
    damping = np.where(grid > 0.0, smeared, decay[:, None, None])
    terms = force * 1j * k_grid / (grid**2 - k_grid**2 + 2j * k_grid * damping)
    inner = face.area / room.volume * terms.sum(axis=(1, 2))
    return np.asarray(1.0 / np.abs(1.0 + inner / (1j * wall)) ** 2)


def _place_spread(room: RoomField, per_mode: FloatArray, bands: int) -> FloatArray:
    """Standard deviation over places of a level whose modes add in energy."""
    section, along = place_squares(room.polygon, room.length, room.air.speed_of_sound, bands)
    squares = np.einsum("bmn,pm,xn->bpx", per_mode, section, along, optimize=True)
    return np.asarray(np.std(10.0 * np.log10(squares.reshape(bands, -1)), axis=1))


def source_gain(room: RoomField, source: PointSource | None, face: FaceOnRoom | None) -> SourceGain:
    """Levels that a source of known sound power makes in its room and at one of its faces.

    Parameters
    ----------
    room : RoomField
        Source room [-].
    source : PointSource or None
        Where the source is [m]; None is the mean over places away from the walls.
    face : FaceOnRoom or None
        Face through which the sound leaves [-]; None gives the space mean in its place.

    Returns
    -------
    SourceGain
        Levels minus sound power level [dB].

    Raises
    ------
    InvalidInput
        If the source is outside the room or the face no part of it.

    Notes
    -----
    The source has the volume velocity that radiates its power in free field, ``Q² = 4πW/(ρ c k²)``. Modal sum as
    in :func:`path_gain`; at the face the blocked mean square is halved, since R belongs to a diffuse field whose
    blocked pressure is twice its mean square. Above the crossover ``10 lg(4/A)``, and with a known place the
    direct wave ``2/(4πr²)`` at the centre of the face.

    References
    ----------
    .. [1] P. M. Morse and K. U. Ingard, *Theoretical Acoustics*, McGraw-Hill, 1968, ch. 9.
    .. [2] H. Kuttruff, *Room Acoustics*, 5th ed., Spon, 2009, ch. 3 and 5.

    Examples
    --------
    >>> room = RoomField(((0.0, 0.0), (1.6, 0.0), (1.6, 1.9), (0.0, 1.9)), 1.65, (5.0,) * 27)
    >>> gain = source_gain(room, PointSource((0.8, 0.8, 1.2)), FaceOnRoom("end_rear", None, 3.04))
    >>> gain.at_face[24] > gain.space_mean[24]
    True
    """
    share = _modal_share(room)
    mean = 10.0 * np.log10(4.0 / np.asarray(room.absorption_area))
    leaving = 10.0 * np.log10(4.0 / np.asarray(room.absorption_area) + _direct(room, source, face))
    spread = diffuse_spread(FREQUENCIES, reverberation_times(room))
    bands = int(np.count_nonzero(share > 0.0))
    if bands:
        modal_mean, modal_face, places = _modal_source(room, source, face, bands)
        mean[:bands] = _fade(modal_mean, mean[:bands], share[:bands])
        leaving[:bands] = _fade(modal_face, leaving[:bands], share[:bands])
        spread[:bands] = share[:bands] * places + (1.0 - share[:bands]) * spread[:bands]
    return SourceGain(_floats(mean), _floats(leaving), _floats(spread))


def _direct(room: RoomField, source: PointSource | None, face: FaceOnRoom | None) -> float:
    """Direct wave at the face's centre, blocked and halved; 0 where no place is given."""
    if source is None or face is None:
        return 0.0
    corners = np.asarray(room.polygon)
    if face.kind == "edge":
        index = face.edge_index if face.edge_index is not None else -1
        middle = 0.5 * (corners[index] + corners[(index + 1) % len(corners)])
        centre = np.array([0.5 * room.length, *middle])
    else:
        centre = np.array([0.0 if face.kind == "end_front" else room.length, *corners.mean(axis=0)])
    # Nearer than the face is wide the wave from a point no longer falls with distance on the whole face.
    squared = float(np.sum((np.asarray(source.place) - centre) ** 2)) + face.area / (2.0 * math.pi)
    return 2.0 / (4.0 * math.pi * squared)


def _modal_source(
    room: RoomField, source: PointSource | None, face: FaceOnRoom | None, bands: int
) -> tuple[FloatArray, FloatArray, FloatArray]:
    speed = room.air.speed_of_sound
    _, resonance, _ = _resonance_sums(room, bands)
    low, high = part_edges(bands, speed)
    k_squared = (0.25 * (low + high) ** 2)[:, None, None]
    section, along = place_squares(room.polygon, room.length, speed, bands, source.place if source else None)
    strength = section.mean(axis=0)[:, None] * along.mean(axis=0)[None, :]
    terms = 4.0 * math.pi / room.volume**2 * strength * resonance / k_squared
    per_mode = _band_sum(terms)
    mean = 10.0 * np.log10(per_mode.sum(axis=(1, 2)))
    if face is None:
        return mean, mean, _place_spread(room, per_mode, bands)
    on_face = face_squares(room.polygon, room.length, speed, bands, _shared(room, face))
    at_face = 10.0 * np.log10(0.5 * _band_sum(terms * on_face).sum(axis=(1, 2)))
    return mean, at_face, _place_spread(room, per_mode, bands)
