"""A small build file of its own, so that these tests stand when the real schema grows."""

from __future__ import annotations

from typing import ClassVar

from hushwright.document.fields import Quantity, Section, choice, count, flag, quantity, section, words


class Sheet(Section):
    """A sheet."""

    key: ClassVar[str] = "sheet"
    sheet: str = words("Sheet of the library.")
    thickness: Quantity = quantity("length", "Thickness.", low=0.0002, high=0.1)


class Cavity(Section):
    """An air space."""

    key: ClassVar[str] = "cavity"
    cavity: Quantity = quantity("length", "Depth.", low=0, high=1)
    fill: str = words("Blanket.", default="")


class Room(Section):
    """A room."""

    front: Quantity = quantity("length", "Station of the front face.", low=-3, high=8)
    rear: Quantity = quantity("length", "Station of the rear face.", low=-3, high=8)
    layers: tuple[Sheet | Cavity, ...] = section("Layers.", default=())
    corner: tuple[Quantity, Quantity] | None = quantity("length", "A corner.", default=None)

    def contradictions(self) -> tuple[tuple[str, str, str], ...]:
        if self.rear.value <= self.front.value:
            return (("rear", "the rear face lies before the front face", "stations run rearward"),)
        return ()


class Vehicle(Section):
    """The van."""

    wheelbase: Quantity = quantity("length", "Distance between the axle centre lines.", low=2.0, high=6.5)
    rib_depth: Quantity | None = quantity(
        "length", "Depth of a rib.", low=0, high=0.2, default=None, fallback="library: body"
    )
    side: str = choice("Driver's side.", ("left", "right"), default="left")
    glued: bool = flag("Whether it is glued.", default=True)


class Top(Section):
    """A small file."""

    hushwright: int = count("Format.", low=1, high=1, default=1)
    title: str = words("Title.", default="", descriptive="names the build", longest=40)
    people: int = count("People.", low=0, high=12, default=0)
    vehicle: Vehicle = section("The van.")
    rooms: dict[str, Room] = section("Rooms by name.", default={})
    heights: tuple[Quantity, ...] = quantity("length", "Heights.", low=0, high=3, default=(), longest=4)
    loudness: Quantity = quantity("level", "Level.", low=0, high=140, default="60 dB")
    fixed_to: tuple[str, ...] = choice("Fixed to.", ("body", "quiet"), default=())
    coverage: Quantity = quantity("share", "Share.", low=0, high=1, default="100 %")


WHOLE = """\
# a small van
hushwright: 1
title: demo            # names it
people: 4
vehicle:
  wheelbase: {is: 4300 mm, from: measured, plus_minus: 10 mm, by: tape}
  rib_depth: 50..60 mm
  side: right
rooms:
  quiet_room:
    front: 1800 mm
    rear: "4050 mm"
    layers:
      - sheet: birch
        thickness: 9 mm
      - cavity: 93 mm
        fill: wool
      - {sheet: birch, thickness: 3/4 in}
    corner: [100 mm, 6 ft 3 in]
heights: [1 m, 1.5 m, unknown]
coverage: 75 %
"""
