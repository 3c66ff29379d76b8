"""Names of the writer's own, and what fittings are fixed to."""

from __future__ import annotations

import re

from hushwright.document.schema import BuildFile
from hushwright.model.taking import Taker

NAME = re.compile(r"[^\W\d][\w-]*")
"""What a name of the writer's own looks like."""

_RESERVED = ("vehicle", "cab", "outdoors")
_BODIES = {"quiet": "quiet", "control": "control"}


def check_names(taker: Taker, root: BuildFile) -> None:
    """Note names that cannot be told from paths or from parts of the van, and bodies that are not there."""
    for section in ("rooms", "openings", "mounts", "states", "routes"):
        for name in getattr(root, section):
            if not NAME.fullmatch(name):
                taker.say("name-unusable", (section, name), name, "a name is made of letters, digits, _ and -",
                          "begin with a letter, without blanks or dots")  # fmt: skip
            elif section == "rooms" and name in _RESERVED:
                taker.say("name-unusable", (section, name), name, "means a part of the van already",
                          "give the room another name")  # fmt: skip
    _check_fixed(taker, root)


def _check_fixed(taker: Taker, root: BuildFile) -> None:
    purposes = {room.purpose for room in root.rooms.values()}
    for index, fitting in enumerate(root.fittings):
        path = ("fittings", index, "fixed_to")
        for body in fitting.fixed_to:
            if _BODIES.get(body, body) not in (*purposes, "body", "loose"):
                taker.say("unknown-name", path, body, f"the build has no {body} room to fix it to",
                          "fix it to the body, or add the room")  # fmt: skip
        if "loose" in fitting.fixed_to and len(set(fitting.fixed_to)) > 1:
            taker.say("loose-and-fixed", path, ", ".join(fitting.fixed_to), "what is loose is fixed to nothing",
                      "take out `loose` or the others")  # fmt: skip


def headcount(number: int) -> str:
    """How many people, as it is said.

    Examples
    --------
    >>> headcount(1), headcount(4)
    ('1 person', '4 people')
    """
    return "1 person" if number == 1 else f"{number} people"
