"""Words of the quote and of the handover book: printed, never computed with."""

from __future__ import annotations

from hushwright.document.fields import Section, section, words

_QUOTED = "printed on the quote"
_PRINTED = "printed in the handover book"


class Quoting(Section):
    """Head and terms of the quote; roles and places, no names of people needed."""

    number: str = words("Number of the quote.", default="", descriptive=_QUOTED)
    workshop: str = words("Who offers.", default="", descriptive=_QUOTED)
    client: str = words("Who asked.", default="", descriptive=_QUOTED)
    valid_until: str = words("Date until which it holds.", default="", descriptive=_QUOTED)
    payment: str = words("When what is paid.", default="", descriptive=_QUOTED)
    delivery: str = words("When the van is ready.", default="", descriptive=_QUOTED)
    terms: tuple[str, ...] = words("Further terms, one sentence each.", default=(), descriptive=_QUOTED)


class Inspection(Section):
    """Something that is looked at again and again."""

    what: str = words("What is inspected.", descriptive=_PRINTED)
    every: str = words("How often.", descriptive=_PRINTED)
    how: str = words("How, and what is still good.", default="", descriptive=_PRINTED)


class Substitution(Section):
    """Something that was built otherwise than planned."""

    planned: str = words("What the plan says.", descriptive=_PRINTED)
    built: str = words("What is there.", descriptive=_PRINTED)
    place: str = words("Where.", default="", descriptive=_PRINTED)
    date: str = words("When.", default="", descriptive=_PRINTED)


class Photograph(Section):
    """A photograph of what is behind a lining."""

    place: str = words("Where it was taken.", descriptive=_PRINTED)
    shows: str = words("What it shows.", descriptive=_PRINTED)
    file: str = words("Name of the picture file.", default="", descriptive=_PRINTED)


class Defect(Section):
    """A defect and what became of it."""

    what: str = words("What is wrong.", descriptive=_PRINTED)
    found: str = words("When it was found.", default="", descriptive=_PRINTED)
    mended: str = words("When and how it was mended.", default="", descriptive=_PRINTED)


class Handover(Section):
    """What the handover book holds beside what is computed."""

    operating: tuple[str, ...] = words("Steps of the operating card, in order.", default=(), descriptive=_PRINTED)
    keys: tuple[str, ...] = words("Keys and what they open.", default=(), descriptive=_PRINTED)
    spares: tuple[str, ...] = words("Spares aboard and where to get more.", default=(), descriptive=_PRINTED)
    torques: tuple[str, ...] = words("Screws and bolts with their torque.", default=(), descriptive=_PRINTED)
    inspections: tuple[Inspection, ...] = section("Inspections beside the usual ones.", default=())
    substitutions: tuple[Substitution, ...] = section("What was built otherwise than planned.", default=())
    photographs: tuple[Photograph, ...] = section("Photographs of what is behind the linings.", default=())
    warranty: tuple[str, ...] = words("What the warranty covers and what ends it.", default=(), descriptive=_PRINTED)
    defects: tuple[Defect, ...] = section("Defects known at handover, and later ones.", default=())
