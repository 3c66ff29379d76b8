"""Whether every mount stands under its bearer with its whole pad."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from hushwright.document.schema import BuildFile
from hushwright.errors import Mend
from hushwright.model.faces import BattenInPlace, LayerInPlace
from hushwright.model.mending import down, up
from hushwright.model.parts import MOUNT_PAD, MountSet
from hushwright.model.taking import Path, Taker

_GRAIN = 1e-6  # m, below which a pad ends with its bearer


@dataclass(frozen=True, slots=True)
class _Pad:
    """A pad that hangs out: which mount, where across the van, how far, and where its bearer ends."""

    index: int
    offset: float
    over: float
    end: float
    at_box: bool


def check_pads(
    taker: Taker,
    root: BuildFile,
    floor: tuple[float, float],
    layers: Sequence[LayerInPlace],
    bearers: Sequence[BattenInPlace],
    mounts: Sequence[MountSet],
) -> None:
    """Note mounts whose pad reaches past the end of the bearer over them, and by how much to move them in.

    Parameters
    ----------
    taker : Taker
        Collects what is noted.
    root : BuildFile
        The file.
    floor : tuple of float
        Station of its front and its width across the van [m].
    layers : sequence of LayerInPlace
        Layers of the floor; those on mounts have the bearers.
    bearers : sequence of BattenInPlace
        Battens and bearers of all its layers.
    mounts : sequence of MountSet
        Every group of mounts.
    """
    for index, layer in enumerate(layers):
        over = [each for each in bearers if each.layer == index]
        group = layer.cavity.mount_group if layer.cavity is not None else ""
        placed = next((each for each in mounts if each.name == group), None)
        if layer.kind == "floor_mounts" and over and placed is not None:
            _say(taker, root, placed, _hanging_out(placed, floor, over))


def _hanging_out(group: MountSet, floor: tuple[float, float], bearers: Sequence[BattenInPlace]) -> list[_Pad]:
    front, width = floor
    found = []
    for index, (station, offset) in enumerate(group.places):
        bearer = min(bearers, key=lambda each: abs(front + each.along - station))
        end = bearer.high - width / 2.0 if offset >= 0.0 else width / 2.0 - bearer.low
        over = abs(offset) + MOUNT_PAD / 2.0 - end
        if over > _GRAIN:
            found.append(_Pad(index, offset, over, end, bearer.length < width - _GRAIN))
    return found


def _say(taker: Taker, root: BuildFile, group: MountSet, pads: Sequence[_Pad]) -> None:
    """One note for all mounts of a group: the worst is told with its numbers, and how many there are."""
    if not pads:
        return
    worst = max(pads, key=lambda each: each.over)
    at: Path = ("mounts", group.name)
    typed = root.mounts[group.name]
    if typed.places:
        inward = worst.end - MOUNT_PAD / 2.0
        here: Path = (*at, "places", worst.index, "offset")
        aim = down(inward) if worst.offset >= 0.0 else up(-inward)
        mend = Mend(f"move mount {worst.index + 1} to offset", here, aim)
    else:
        here = (*at, "inset")
        mend = Mend("set the rows in by", here, up((0.0 if typed.inset is None else typed.inset.value) + worst.over))
    where = "the lining of a wheel box" if worst.at_box else "the edge of the floor"
    number = f"{len(pads)} mounts hang" if len(pads) > 1 else "one mount hangs"
    taker.say_fit(
        "mount-beyond-bearer", here, f"{1000.0 * abs(worst.offset):.0f} mm from the middle",
        f"{number} out from under the bearer by up to {1000.0 * worst.over:.0f} mm, counting pads"
        f" {1000.0 * MOUNT_PAD:.0f} mm wide: the bearer ends {1000.0 * worst.end:.0f} mm from the middle, at {where}",
        "what hangs out carries nothing, and what is left carries more", severity="warning", mends=(mend,),
    )  # fmt: skip
