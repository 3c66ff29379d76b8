"""Venues and papers: what has to be so where the van stands, and what authorities want to see."""

from __future__ import annotations

from hushwright.document.fields import Quantity, Section, choice, quantity, section, words

SUPPLIES = ("none", "socket", "generator")
CABLE_WAYS = ("no cable", "covered", "marked", "open", "not said")
LIGHTS = ("by day only", "lit", "dark", "not said")
STATUSES = ("open", "asked", "applied", "granted", "refused", "not needed")


class Venue(Section):
    """What one place offers and asks; gone through on the spot."""

    supply: str = choice("Where power comes from there.", SUPPLIES, default="none")
    cable: Quantity | None = quantity("length", "Length of the cable to the van.", low=0, high=500, default=None)
    longest_cable: Quantity | None = quantity("length", "Longest cable that its wires and protection allow.", low=1,
                                              high=500, default=None, fallback="library: limit of safety")  # fmt: skip
    residual_current: Quantity | None = quantity("current", "Rated residual current of the protection of the supply.",
                                                 low=0.001, high=10, default=None)  # fmt: skip
    generator_distance: Quantity | None = quantity("length", "From the generator to the nearest opening of the van.",
                                                   low=0, high=200, default=None)  # fmt: skip
    slope: Quantity | None = quantity("angle", "Slope of the ground.", low=0, high=0.6, default=None)
    steepest: Quantity | None = quantity("angle", "Steepest ground on which the van is to stand open.", low=0.001,
                                         high=0.3, default=None, fallback="library: limit of safety")  # fmt: skip
    wind: Quantity | None = quantity("speed", "Strongest gusts that are forecast.", low=0, high=70, default=None)
    awning: str = choice("Whether the awning is out there.", ("in", "out"), default="in")
    awning_limit: Quantity | None = quantity("speed", "Gusts up to which its maker allows the awning.", low=1, high=70,
                                             default=None)  # fmt: skip
    cable_way: str = choice("How cables lie where people walk.", CABLE_WAYS, default="not said")
    light: str = choice("Light on the way to the van.", LIGHTS, default="not said")


class Paper(Section):
    """One paper on a list."""

    status: str = choice("How far it is.", STATUSES, default="open")
    owner: str = words("Role that sees to it.", default="")
    date: str = words("Date of that status.", default="")
    says_who: str = words("Authority or office that said so.", default="")


class PaperList(Section):
    """What one jurisdiction asks for; edit it, since only the authority knows."""

    items: dict[str, Paper] = section("Papers by name.", default={})
