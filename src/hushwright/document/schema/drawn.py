"""What stands in the title block of a drawing, and where sections are cut."""

from __future__ import annotations

from hushwright.document.fields import Quantity, Section, quantity, section, words

_PRINTED = "printed in the title block of every sheet"


class Revision(Section):
    """One revision of the papers."""

    revision: str = words("Its letter or number.", longest=20, descriptive=_PRINTED)
    date: str = words("Its date, as it is to be printed.", default="", longest=40, descriptive=_PRINTED)
    change: str = words("What changed, in one line.", default="", longest=120, descriptive=_PRINTED)


class CutAt(Section):
    """A section across the van."""

    name: str = words("Its letter.", longest=12, descriptive="names the section on the sheets")
    station: Quantity = quantity("length", "Station at which the van is cut.", low=-0.5, high=8)


class Drawn(Section):
    """What the drawings need beside the build."""

    number: str = words("Number of the job.", default="", longest=40, descriptive=_PRINTED)
    revisions: tuple[Revision, ...] = section("Revisions, oldest first; the last one is that of the sheets.",
                                              default=(), longest=40)  # fmt: skip
    drawn_by: str = words("Who drew, as initials or role.", default="", longest=40, descriptive=_PRINTED)
    checked_by: str = words("Who checked, as initials or role.", default="", longest=40, descriptive=_PRINTED)
    sections: tuple[CutAt, ...] = section(
        "Sections across the van; left out, one in the middle of each room and one through the wheel boxes.",
        default=(), longest=12,
    )  # fmt: skip
