"""Room that things take when they move, and the place at which someone works."""

from __future__ import annotations

from hushwright.document.fields import Quantity, Section, choice, quantity, section, words


class Envelope(Section):
    """Outer size of a fitting round its centre; where it has an `out` place it moves there in a straight line."""

    length: Quantity = quantity("length", "Size along the van.", low=0.01, high=6)
    width: Quantity = quantity("length", "Size across the van.", low=0.01, high=3)
    height: Quantity = quantity("length", "Size upward.", low=0.01, high=3)
    out_length: Quantity | None = quantity("length", "Size along the van at its `out` place; left out, the same.",
                                           low=0.01, high=6, default=None)  # fmt: skip
    out_width: Quantity | None = quantity("length", "Size across the van at its `out` place; left out, the same.",
                                          low=0.01, high=3, default=None)  # fmt: skip
    turning_radius: Quantity | None = quantity("length", "Radius of the circle in which it turns, for a seat.",
                                               low=0.05, high=2, default=None)  # fmt: skip


class Swing(Section):
    """How a hinged door moves."""

    hinge: str = choice("Side of the hinges, as one faces the door from inside.", ("left", "right"))
    opens: str = choice("Into the room, or out of it.", ("in", "out"))
    angle: Quantity = quantity("angle", "How far it opens.", low=0.1, high=3.1415, default="90°")


class SpotPlace(Section):
    """A point in the van."""

    station: Quantity = quantity("length", "Station.", low=-3, high=8)
    offset: Quantity = quantity("length", "Left of the centre line (right is negative).", low=-1.5, high=1.5,
                                default="0 mm")  # fmt: skip
    height: Quantity = quantity("length", "Height over the steel floor.", low=-0.5, high=3)


class Control(SpotPlace):
    """Something that a hand has to reach."""

    name: str = words("What it is.")


class CameraPlace(SpotPlace):
    """A camera: it looks at one singer and is to show all of them."""

    field: Quantity = quantity("angle", "Angle that its picture takes in, across.", low=0.1, high=3)


class Workplace(Section):
    """The seat at the desk, what has to be reached, seen and heard from it."""

    eye: SpotPlace = section("Eyes of the person who sits there.")
    seat_height: Quantity | None = quantity("length", "Height of the seat over the steel floor.", low=0.2, high=1,
                                            default=None)  # fmt: skip
    desk_underside: Quantity | None = quantity("length", "Height of the underside of the desk over the steel floor.",
                                               low=0.3, high=1.5, default=None)  # fmt: skip
    thighs: Quantity = quantity("length", "Height that thighs take over the seat.", low=0.08, high=0.35,
                                default="180 mm")  # fmt: skip
    reach: Quantity = quantity("length", "How far a hand gets from the shoulder without leaning.", low=0.3, high=1.2,
                               default="700 mm")  # fmt: skip
    shoulder_below_eye: Quantity = quantity("length", "How far the shoulders lie under the eyes.", low=0.05, high=0.4,
                                            default="200 mm")  # fmt: skip
    controls: tuple[Control, ...] = section("What has to be reached.", default=())
    speakers: tuple[SpotPlace, ...] = section("The two monitor loudspeakers.", default=(), longest=2)
    base_angle: Quantity = quantity("angle", "Angle at which both are wanted to stand apart, seen from the seat.",
                                    low=0.3, high=2, default="60°")  # fmt: skip
    base_tolerance: Quantity = quantity("angle", "How much more or less than that is good.", low=0.01, high=0.6,
                                        default="10°")  # fmt: skip
    singers: tuple[SpotPlace, ...] = section("Faces of singers, to be seen through the window.", default=())
    window: str = words("Opening through which they are seen; left out, the first window of the quiet room.",
                        default="")  # fmt: skip
    camera: CameraPlace | None = section("Camera that shows the singers.", default=None)
