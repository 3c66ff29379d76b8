"""What can be changed where a verdict points at the limit itself: the means come first, the limit last."""

from __future__ import annotations

from typing import TYPE_CHECKING, Final

if TYPE_CHECKING:
    from collections.abc import Container, Mapping, Sequence

    from hushwright.verdicts.verdict import Verdict

_OWN: Final = ".."
"""Stands for the part itself: another one is taken, its number is not merely typed higher."""

_FIELDS: Final[dict[tuple[str, str], tuple[str, ...]]] = {
    ("mounts", "lowest_load"): ("../along", "../across", "../mount"),
    ("mounts", "highest_load"): ("../along", "../across", "../mount"),
    ("air", "wanted"): (_OWN,),
    ("power", "discharge"): (_OWN,),
    ("power", "surge"): (_OWN,),
    ("power", "charge"): (_OWN,),
    ("power", "coldest_charge"): (_OWN,),
    ("power", "rating"): (_OWN,),
    ("power", "supply"): ("power.loads", _OWN),
    ("power", "generator"): ("power.loads", _OWN),
    ("power", "allowed_drop"): ("../area", _OWN),
    ("power", "interrupt_rating"): (_OWN,),
    ("safety", "holding"): (_OWN,),
    ("safety", "keep_strength"): (_OWN,),
    ("signals", "lowest_load"): ("signals.headphones", _OWN),
    ("openings", "hand_force"): (_OWN,),
    ("openings", "latch_strength"): (_OWN,),
    ("openings", "hinge_strength"): (_OWN,),
    ("vehicle", "plated"): ("fittings",),
    ("vehicle", "total"): ("fittings",),
    ("vehicle", "front"): ("fittings",),
    ("vehicle", "rear"): ("fittings",),
}
"""Section and last word of places that hold a limit, with what is changed instead."""

_MEANS: Final[dict[str, tuple[str, ...]]] = {
    "steering-share": ("fittings",),
    "stability": ("fittings",),
    "warmest": ("climate.coolers",),
    "coldest": ("climate.heaters",),
    "bank-at-rating": ("power.bank",),
    "headphone-points": ("signals.headphones",),
    "headphone-listening": ("signals.headphones",),
}
"""Checks whose place is a given condition or a wish, with what is changed instead."""

_FACES: Final[dict[str, tuple[str, ...]]] = {"headroom": ("ceiling", "floor"), "clear-width": ("left", "right")}
"""Checks of a room's size, with the faces that take it."""


def holds_limit(place: str) -> bool:
    """Whether a place of the file holds a limit, and not what is held against it."""
    return _key(place) in _FIELDS


def cures_of(one: Verdict, names: Mapping[str, str], placed_singly: Container[str] = frozenset()) -> Sequence[str]:
    """Places to change first, for verdicts whose own place is none; ``names`` are faces with their places.

    ``placed_singly`` are groups of mounts whose places are typed one by one: they have no rows to change.

    Examples
    --------
    >>> from types import SimpleNamespace
    >>> cures_of(SimpleNamespace(id="mount-least-load-drive", place="mounts.a.lowest_load"), {})
    ('mounts.a.along', 'mounts.a.across', 'mounts.a.mount')
    """
    found = next((means for check, means in _MEANS.items() if one.id.startswith(f"{check}-")), ())
    for check, faces in _FACES.items():
        if one.id.startswith(f"{check}-"):
            room = one.id.removeprefix(f"{check}-").replace("-", " ")
            found = tuple(names[f"{room} {face}"] for face in faces if f"{room} {face}" in names)
    fields = _FIELDS.get(_key(one.place), ())
    if one.place.rpartition(".")[0] in placed_singly:
        fields = tuple("../places" if each == "../along" else each for each in fields if each != "../across")
    return tuple(dict.fromkeys((*found, *(_resolved(one.place, each) for each in fields))))


def _key(place: str) -> tuple[str, str]:
    keys = place.split(".")
    is_fuse = keys[-2:] == ["fuse", "rating"]  # a fuse is chosen by its rating, which may be too large as well
    return keys[0], "" if is_fuse else keys[-1]


def _resolved(place: str, cure: str) -> str:
    around = place.rpartition(".")[0]
    return f"{around}.{cure[3:]}" if cure.startswith("../") else around if cure == _OWN else cure
