"""The gap round the inner box as coupled spaces: what enters over one face and leaves through another."""

from __future__ import annotations

import math
from dataclasses import dataclass, field
from functools import lru_cache

import numpy as np
from numpy.typing import ArrayLike, NDArray

from hushwright.errors import InvalidInput
from hushwright.physics.acoustics.bands import FREQUENCIES, N_BANDS
from hushwright.physics.acoustics.layers import Porous
from hushwright.physics.acoustics.porous import effective_bulk_modulus, effective_density
from hushwright.physics.air import AIR_20C, Air

FloatArray = NDArray[np.float64]

_OBLIQUITY = 0.5 * math.pi  # mean way over straight way for waves that spread in the plane of the gap
_BORDER_SHARE = 0.5  # of a segment's area, shared by its edges; the rest is its core
_SHORTEST_LINE = 1e-3  # attenuation below which a line is as good as none; keeps the equations well conditioned


@dataclass(frozen=True, slots=True)
class Segment:
    """The gap behind one face.

    Parameters
    ----------
    name : str
        Name of the face [-].
    area : float
        Area [m²], > 0.
    thickness : float
        Clear depth of the gap [m], > 0.
    inner_reduction : tuple of float, shape (27,)
        Sound reduction index of the inner leaf alone [dB].
    outer_reduction : tuple of float, shape (27,)
        Sound reduction index of the skin alone [dB].
    fill : Porous or None, optional
        Blanket in the gap (flow resistivity [Pa·s/m²] and so on).
    fill_share : float, optional
        Part of the depth that the blanket fills [-], 0–1.
    surface_absorption : float, optional
        Absorption coefficient of the bare faces of the gap [-]; 0.02 is common practice, no source.

    Raises
    ------
    InvalidInput
        If a dimension is not above 0, a share is outside 0–1 or there are not 27 bands.

    References
    ----------
    .. [1] C. Hopkins, *Sound Insulation*, Butterworth-Heinemann, 2007, ch. 4 (cavities as subsystems).

    Examples
    --------
    >>> Segment("left", 4.3, 0.09, (25.0,) * 27, (20.0,) * 27).fill_share
    0.0
    """

    name: str
    area: float
    thickness: float
    inner_reduction: tuple[float, ...]
    outer_reduction: tuple[float, ...]
    fill: Porous | None = None
    fill_share: float = 0.0
    surface_absorption: float = 0.02

    def __post_init__(self) -> None:
        if not (self.area > 0.0 and self.thickness > 0.0):
            raise InvalidInput(f"gap {self.name!r}: area {self.area} m², depth {self.thickness} m; both above 0")
        if not 0.0 <= self.fill_share <= 1.0 or not 0.0 <= self.surface_absorption <= 1.0:
            raise InvalidInput(
                f"gap {self.name!r}: filled share {self.fill_share}, absorption {self.surface_absorption}; from 0 to 1"
            )
        if len(self.inner_reduction) != N_BANDS or len(self.outer_reduction) != N_BANDS:
            raise InvalidInput(
                f"gap {self.name!r}: {len(self.inner_reduction)} and {len(self.outer_reduction)} reductions; "
                f"there are {N_BANDS} bands"
            )


@dataclass(frozen=True, slots=True)
class Junction:
    """An edge over which two segments of the gap meet.

    Parameters
    ----------
    first : str
        Name of one segment [-].
    second : str
        Name of the other [-].
    length : float
        Length of the edge [m], > 0.
    aperture : float
        Clear depth that is open across the edge [m], ≥ 0; 0 is closed.
    way : float, optional
        Further way through the aperture, such as the depth of a rib or a trim [m], ≥ 0.
    damped : bool, optional
        Whether that way is filled like the segments [-].
    reduction : tuple of float, shape (27,), or None, optional
        Sound reduction index of what stands in the aperture [dB].

    Raises
    ------
    InvalidInput
        If a dimension is out of range or a segment meets itself.

    References
    ----------
    .. [1] R. J. M. Craik, *Sound Transmission through Buildings using Statistical Energy Analysis*, Gower, 1996.

    Examples
    --------
    >>> Junction("left", "ceiling", 2.25, 0.05).damped
    True
    """

    first: str
    second: str
    length: float
    aperture: float
    way: float = 0.0
    damped: bool = True
    reduction: tuple[float, ...] | None = None

    def __post_init__(self) -> None:
        if self.first == self.second:
            raise InvalidInput(f"junction joins {self.first!r} with itself; it needs two segments")
        if not self.length > 0.0 or self.aperture < 0.0 or self.way < 0.0:
            raise InvalidInput(
                f"junction {self.first!r}–{self.second!r}: length {self.length} m, aperture {self.aperture} m, way "
                f"{self.way} m; length above 0, the others from 0"
            )
        if self.reduction is not None and len(self.reduction) != N_BANDS:
            raise InvalidInput(f"{len(self.reduction)} reductions in a junction; there are {N_BANDS} bands")


@dataclass(frozen=True, slots=True)
class GapTransfer:
    """Where one watt that enters a segment of the gap ends up, per band.

    Parameters
    ----------
    names : tuple of str
        Segments in order [-].
    transfer : tuple of tuple of tuple of float, shape (n, n, 27)
        ``transfer[i][j]`` is the part of the power put into segment i that leaves through the inner leaf of j [-];
        0 for j = i, because the way straight through belongs to the transfer matrix of that face.
    own : tuple of tuple of float, shape (n, 27)
        Part that would leave through the inner leaf of the segment itself [-]; for the balance only.
    absorbed : tuple of tuple of float, shape (n, 27)
        Part that the fill and the bare faces take [-].
    returned : tuple of tuple of float, shape (n, 27)
        Part that goes out again through the skins [-].
    exposure : tuple of tuple of tuple of float, shape (n, n, 27)
        ``exposure[i][j]`` is the power that meets the inner leaf of j per power put into i, i = j included [-]. A slit
        or hole of transmission area a in a leaf of area S passes ``exposure · a/S``.

    References
    ----------
    .. [1] C. Hopkins, *Sound Insulation*, Butterworth-Heinemann, 2007, ch. 4.

    Examples
    --------
    >>> GapTransfer((), (), (), (), (), ()).names
    ()
    """

    names: tuple[str, ...]
    transfer: tuple[tuple[tuple[float, ...], ...], ...]
    own: tuple[tuple[float, ...], ...]
    absorbed: tuple[tuple[float, ...], ...]
    returned: tuple[tuple[float, ...], ...]
    exposure: tuple[tuple[tuple[float, ...], ...], ...]


def lateral_decay(
    fill: Porous | None, fill_share: float, frequency: ArrayLike = FREQUENCIES, air: Air = AIR_20C
) -> FloatArray:
    r"""Decay of sound along a gap that is filled wholly or partly with a blanket.

    Parameters
    ----------
    fill : Porous or None
        Blanket (flow resistivity [Pa·s/m²] and so on); None is an empty gap.
    fill_share : float
        Part of the depth that it fills [-], 0–1.
    frequency : array_like, shape (n_band,), optional
        Frequency [Hz], > 0.
    air : Air, optional
        Air in the gap [-].

    Returns
    -------
    ndarray, shape (n_band,)
        Decay of the level per metre [dB/m], ≥ 0.

    Raises
    ------
    InvalidInput
        If the share is outside 0–1 or a frequency is ≤ 0.

    Notes
    -----
    Limp-frame Johnson–Champoux–Allard fluid [1]_. Air and blanket lie side by side along the way, so compressibility
    and the inverse of density add by their shares of the depth; the wavenumber is ``ω·sqrt(ρ/K)`` of that mixture and
    the decay ``−8.686·Im k``. Valid while the depth is less than half a wavelength; above that sound also beams along
    the open part and decays less.

    References
    ----------
    .. [1] R. Panneton, *J. Acoust. Soc. Am.* 122 (2007) EL217–EL222.
    .. [2] J.-F. Allard and N. Atalla, *Propagation of Sound in Porous Media*, 2nd ed., Wiley, 2009, ch. 5.

    Examples
    --------
    >>> lateral_decay(Porous(10_000.0, 0.98, 1.0, 40.0), 1.0, [500.0]).round().tolist()
    [83.0]
    """
    if not 0.0 <= fill_share <= 1.0:
        raise InvalidInput(f"filled share of the gap is {fill_share}; it goes from 0 to 1")
    values = np.atleast_1d(np.asarray(frequency, dtype=np.float64))
    if not np.all(values > 0.0):
        raise InvalidInput(f"lowest frequency is {float(values.min())} Hz; it must be above 0")
    if fill is None or fill_share == 0.0:
        return np.zeros(values.shape)
    density = effective_density(fill, values, air=air)
    modulus = effective_bulk_modulus(fill, values, air=air)
    lightness = (1.0 - fill_share) / air.density + fill_share / density
    compliance = (1.0 - fill_share) / (air.density * air.speed_of_sound**2) + fill_share / modulus
    wavenumber = 2.0 * np.pi * values * np.sqrt(compliance / lightness)
    return np.asarray(20.0 / math.log(10.0) * np.abs(wavenumber.imag))


@dataclass(slots=True)
class _Nodes:
    """Cores and borders of the segments while the balance is being set up."""

    segment: list[int] = field(default_factory=list)
    area: list[float] = field(default_factory=list)

    def add(self, segment: int, area: float) -> int:
        self.segment.append(segment)
        self.area.append(area)
        return len(self.area) - 1


def _per_metre(segment: Segment, air: Air) -> FloatArray:
    """Energy attenuation of a straight way [1/m]."""
    return _energy_decay(segment.fill, segment.fill_share, air)


@lru_cache(maxsize=256)
def _energy_decay(fill: Porous | None, fill_share: float, air: Air) -> FloatArray:
    decay = np.asarray(lateral_decay(fill, fill_share, FREQUENCIES, air) * (math.log(10.0) / 10.0))
    decay.setflags(write=False)
    return decay


def _line(attenuation: FloatArray) -> FloatArray:
    """1/sinh, without overflow."""
    bounded = np.maximum(attenuation, _SHORTEST_LINE)
    return np.asarray(2.0 * np.exp(-bounded) / (1.0 - np.exp(-2.0 * bounded)))


def _opening(junction: Junction, energy_decay: FloatArray) -> FloatArray:
    """Conductance of the aperture itself."""
    conductance = np.full(N_BANDS, 4.0 / math.pi * junction.length * junction.aperture)
    if junction.damped:
        conductance = conductance * np.exp(-energy_decay * junction.way)
    if junction.reduction is not None:
        conductance = conductance * 10.0 ** (-np.asarray(junction.reduction) / 10.0)
    return conductance


def junction_conductance(junction: Junction, first: Segment, second: Segment, air: Air = AIR_20C) -> tuple[float, ...]:
    """Power that crosses an edge per unit difference of p²/(4ρc) between the borders on both sides.

    Parameters
    ----------
    junction : Junction
        The edge [-].
    first : Segment
        Segment on one side [-].
    second : Segment
        Segment on the other side [-].
    air : Air, optional
        Air in the gap [-].

    Returns
    -------
    tuple of float, shape (27,)
        Conductance [m²]; the same both ways.

    Raises
    ------
    InvalidInput
        If the junction is deeper than the shallower of the two segments.

    Notes
    -----
    Waves that spread in the plane of the gap send ``4/π · p²/(4ρc)`` through the aperture; a further way decays with
    the mean decay of both sides, what stands in it takes off its sound reduction index.

    References
    ----------
    .. [1] R. J. M. Craik, *Sound Transmission through Buildings using Statistical Energy Analysis*, Gower, 1996.

    Examples
    --------
    >>> side = Segment("left", 4.3, 0.09, (25.0,) * 27, (20.0,) * 27)
    >>> roof = Segment("ceiling", 3.5, 0.05, (25.0,) * 27, (20.0,) * 27)
    >>> round(junction_conductance(Junction("left", "ceiling", 2.0, 0.05), side, roof)[0], 3)
    0.127
    """
    if junction.aperture > min(first.thickness, second.thickness) * (1.0 + 1e-9):
        raise InvalidInput(
            f"junction {junction.first!r}–{junction.second!r} is {junction.aperture} m deep; the gap there is "
            f"{min(first.thickness, second.thickness)} m"
        )
    decay = 0.5 * (_per_metre(first, air) + _per_metre(second, air))
    return tuple(_opening(junction, decay).tolist())


def gap_transfer(segments: tuple[Segment, ...], junctions: tuple[Junction, ...], air: Air = AIR_20C) -> GapTransfer:
    r"""Share of the power put into each segment of the gap that leaves through the inner leaf of every other.

    Parameters
    ----------
    segments : tuple of Segment
        The gap face by face; names must differ [-].
    junctions : tuple of Junction
        Edges over which segments meet [-].
    air : Air, optional
        Air in the gap [-].

    Returns
    -------
    GapTransfer
        Shares of the injected power [-]. Multiply by the power that a skin radiates into its segment,
        ``W_i = τ_skin · S · I``.

    Raises
    ------
    InvalidInput
        If a name is missing or given twice, or a junction is deeper than its gap.

    Notes
    -----
    Each segment is a core and one border along each junction; half of its area lies in the borders, by length. With
    e = p²/(4ρc), m the energy decay per metre and g the depth, an area S takes
    ``e·S·(4 m g + 2α + τ_inner + τ_outer)``. Core and border are joined by a damped line over the way
    ``h = 3/8·S/l``, conductance ``(8/π)·g·l/sinh(π m h/2)``; borders of two segments by
    :func:`junction_conductance`. All links are symmetric, so the transfer is reciprocal and power is conserved.
    An energy balance needs several lateral modes; below the first (c over twice the longest side) it tends to equal
    levels in an undamped gap, and is a guess where wool fills it.

    References
    ----------
    .. [1] C. Hopkins, *Sound Insulation*, Butterworth-Heinemann, 2007, ch. 2 and 4.
    .. [2] R. J. M. Craik, *Sound Transmission through Buildings using Statistical Energy Analysis*, Gower, 1996.

    Examples
    --------
    >>> side = Segment("left", 4.3, 0.09, (25.0,) * 27, (20.0,) * 27)
    >>> roof = Segment("ceiling", 3.5, 0.05, (25.0,) * 27, (20.0,) * 27)
    >>> shares = gap_transfer((side, roof), (Junction("left", "ceiling", 2.25, 0.05),))
    >>> shares.transfer[0][0][10], 0.0 < shares.transfer[0][1][10] < shares.own[0][10]
    (0.0, True)
    """
    index = {segment.name: position for position, segment in enumerate(segments)}
    if len(index) != len(segments):
        raise InvalidInput(f"segment names are {[segment.name for segment in segments]}; each may be there once")
    for junction in junctions:
        for name in (junction.first, junction.second):
            if name not in index:
                raise InvalidInput(f"junction names segment {name!r}; known are {sorted(index)}")
    if not segments:
        return GapTransfer((), (), (), (), (), ())
    nodes, links = _links(segments, junctions, index, air)
    return _balance(segments, nodes, links, air)


def _links(
    segments: tuple[Segment, ...], junctions: tuple[Junction, ...], index: dict[str, int], air: Air
) -> tuple[_Nodes, list[tuple[int, int, FloatArray]]]:
    nodes = _Nodes()
    lengths = [sum(j.length for j in junctions if segment.name in (j.first, j.second)) for segment in segments]
    for position, segment in enumerate(segments):
        nodes.add(position, segment.area * (1.0 - _BORDER_SHARE if lengths[position] else 1.0))
    decays = [_per_metre(segment, air) for segment in segments]
    links = []
    for junction in junctions:
        ends = []
        for name in (junction.first, junction.second):
            at = index[name]
            segment = segments[at]
            border = nodes.add(at, segment.area * _BORDER_SHARE * junction.length / lengths[at])
            way = 0.375 * segment.area / junction.length
            line = _line(_OBLIQUITY * decays[at] * way)
            links.append((at, border, 8.0 / math.pi * segment.thickness * junction.length * line))
            ends.append(border)
        pair = (segments[index[junction.first]], segments[index[junction.second]])
        links.append((ends[0], ends[1], np.asarray(junction_conductance(junction, *pair, air))))
    return nodes, links


def _balance(
    segments: tuple[Segment, ...], nodes: _Nodes, links: list[tuple[int, int, FloatArray]], air: Air
) -> GapTransfer:
    of_node = np.asarray(nodes.segment)
    area = np.asarray(nodes.area)
    inner = np.stack([10.0 ** (-np.asarray(segment.inner_reduction) / 10.0) for segment in segments])
    outer = np.stack([10.0 ** (-np.asarray(segment.outer_reduction) / 10.0) for segment in segments])
    taken = np.stack([4.0 * _per_metre(s, air) * s.thickness + 2.0 * s.surface_absorption for s in segments])
    matrix = np.zeros((N_BANDS, area.size, area.size))
    diagonal = np.arange(area.size)
    matrix[:, diagonal, diagonal] = (area[:, None] * (inner + outer + taken)[of_node]).T
    for first, second, conductance in links:
        matrix[:, first, first] += conductance
        matrix[:, second, second] += conductance
        matrix[:, first, second] -= conductance
        matrix[:, second, first] -= conductance
    member = (of_node[:, None] == np.arange(len(segments))).astype(np.float64)
    weight = member * area[:, None]
    injected = weight / weight.sum(axis=0)
    field_in = np.linalg.solve(matrix, np.broadcast_to(injected, (N_BANDS, *injected.shape)))
    # Area-weighted e in segment j per watt put into segment i, shape (i, j, band).
    exposure = np.einsum("bni,nj->ijb", field_in, weight)
    through = exposure * inner[None, :, :]
    own = np.einsum("iib->ib", through).copy()
    position = np.arange(len(segments))
    through[position, position] = 0.0
    return GapTransfer(
        tuple(segment.name for segment in segments),
        tuple(tuple(tuple(row.tolist()) for row in rows) for rows in through),
        tuple(tuple(row.tolist()) for row in own),
        tuple(tuple(row.tolist()) for row in np.einsum("ijb,jb->ib", exposure, taken)),
        tuple(tuple(row.tolist()) for row in np.einsum("ijb,jb->ib", exposure, outer)),
        tuple(tuple(tuple(row.tolist()) for row in rows) for rows in exposure),
    )


def gap_powers(
    transfer: GapTransfer,
    injected: tuple[tuple[float, ...], ...],
    leaked: tuple[tuple[float, ...], ...] | None = None,
) -> tuple[tuple[float, ...], ...]:
    """Power that leaves through each inner leaf after going round the gap.

    Parameters
    ----------
    transfer : GapTransfer
        Shares from :func:`gap_transfer` [-].
    injected : tuple of tuple of float, shape (n, 27)
        Power that the skin of each segment radiates into it [W].
    leaked : tuple of tuple of float, shape (n, 27), or None, optional
        Power that slits and holes in the skin let into each segment [W]. It has no part in the transfer matrix of the
        face, so what it sends straight on through the same face counts too.

    Returns
    -------
    tuple of tuple of float, shape (n, 27)
        Power through each inner leaf from the other segments, and from leaks of all [W].

    Raises
    ------
    InvalidInput
        If the number of segments differs.

    References
    ----------
    .. [1] C. Hopkins, *Sound Insulation*, Butterworth-Heinemann, 2007, ch. 4.

    Examples
    --------
    >>> shares = GapTransfer(("a", "b"), (((0.0,), (0.1,)), ((0.2,), (0.0,))), ((0.3,), (0.4,)), (), (), ())
    >>> gap_powers(shares, ((1.0,), (2.0,)))
    ((0.4,), (0.1,))
    >>> gap_powers(shares, ((0.0,), (0.0,)), ((1.0,), (0.0,)))
    ((0.3,), (0.1,))
    """
    count = len(transfer.names)
    if len(injected) != count or (leaked is not None and len(leaked) != count):
        raise InvalidInput(f"{len(injected)} injected and {len(leaked or ())} leaked powers for {count} segments")
    if not injected:
        return ()
    through = np.asarray(transfer.transfer)
    entering = np.asarray(injected) if leaked is None else np.asarray(injected) + np.asarray(leaked)
    powers = np.einsum("ib,ijb->jb", entering, through)
    if leaked is not None:
        powers = powers + np.asarray(leaked) * np.asarray(transfer.own)
    return tuple(tuple(row.tolist()) for row in powers)
