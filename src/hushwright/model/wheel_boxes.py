"""What the finished wheel boxes take from a room."""

from __future__ import annotations

from dataclasses import dataclass

from hushwright.model.faces import LayerInPlace
from hushwright.model.mending import mend_of_depth
from hushwright.model.parts import VehicleInPlace
from hushwright.model.section import Section
from hushwright.model.stations import Extent
from hushwright.model.taking import Taker

Shape = tuple[str, float, float, float, tuple[float, float, float]]
"""Name of a face, area, width, height, centre (station, y, z)."""


@dataclass(frozen=True, slots=True)
class WheelBoxes:
    """What the finished wheel boxes take from a room, both sides together."""

    intrusion: float = 0.0
    rise: float = 0.0
    length: float = 0.0
    ends: int = 0
    middle: float = 0.0
    half_between: float = 0.0
    floor_height: float = 0.0

    @classmethod
    def in_room(cls, extent: Extent, vehicle: VehicleInPlace, section: Section, lining: float) -> WheelBoxes:
        """Wheel boxes with their lining, as far as they lie in a room."""
        if vehicle.wheel_boxes is None:
            return cls()
        between, height, front, rear = vehicle.wheel_boxes
        start, end = max(extent.front, front - lining), min(extent.rear, rear + lining)
        half = between / 2.0 - lining
        intrusion = section.half_width_at("left", section.floor_height) - half
        rise = height + lining - section.floor_height
        if end <= start or intrusion <= 0.0 or rise <= 0.0:
            return cls()
        ends = (front - lining > extent.front) + (rear + lining < extent.rear)
        return cls(intrusion, rise, end - start, ends, (start + end) / 2.0, half, section.floor_height)

    def check(self, taker: Taker, extent: Extent, section: Section, lining: tuple[LayerInPlace, ...]) -> bool:
        """Whether a person can still stand between and over them inside their lining; noted when not."""
        if self.length <= 0.0:
            return True
        if self.half_between < _LEAST_HALF_WAY:
            taker.say_fit("wheel-boxes-meet", ("surfaces", extent.name, "wheel_boxes"),
                          f"{2000.0 * self.half_between:.0f} mm",
                          "is all that stays clear between the lined wheel boxes",
                          f"thin their lining by {1000.0 * (_LEAST_HALF_WAY - self.half_between):.0f} mm",
                          mends=mend_of_depth(lining, _LEAST_HALF_WAY - self.half_between, _LINED))  # fmt: skip
            return False
        too_high = self.rise - section.height + _LEAST_OVER
        if too_high > 0.0:
            taker.say_fit("wheel-boxes-too-high", ("surfaces", extent.name, "wheel_boxes"),
                          f"{1000.0 * self.rise:.0f} mm over the finished floor",
                          f"the room is {1000.0 * section.height:.0f} mm high",
                          f"lower them or thin their lining by {1000.0 * too_high:.0f} mm",
                          mends=mend_of_depth(lining, too_high, _LINED))  # fmt: skip
            return False
        return True

    @property
    def volume(self) -> float:
        """Air that they take [m³]."""
        return 2.0 * self.intrusion * self.rise * self.length

    @property
    def side_area(self) -> float:
        """Part of one side that they cover [m²]."""
        return self.rise * self.length

    @property
    def floor_area(self) -> float:
        """Part of the floor that they cover, both together [m²]."""
        return 2.0 * self.intrusion * self.length

    def clear_of(self, face: str, reach: tuple[float, float], height: float) -> tuple[float, float]:
        """Ends of what they leave of a strip over the developed face that reaches from one station to another [m]."""
        low, high = self.middle - self.length / 2.0, self.middle + self.length / 2.0
        if self.length <= 0.0 or reach[1] <= low or reach[0] >= high:
            return 0.0, height
        if face in ("left", "right"):
            return min(self.rise, height), height
        return (self.intrusion, height - self.intrusion) if face == "floor" else (0.0, height)

    def shapes(self) -> tuple[Shape, ...]:
        """Both wheel boxes as faces: top and side developed, with the ends that stand in the room."""
        area = (self.intrusion + self.rise) * self.length + self.ends * self.intrusion * self.rise
        y, z = self.half_between + self.intrusion / 2.0, self.floor_height + self.rise / 2.0
        height = self.intrusion + self.rise
        return (
            ("wheel_box_left", area, self.length, height, (self.middle, y, z)),
            ("wheel_box_right", area, self.length, height, (self.middle, -y, z)),
        )


_LINED = "the wheel boxes' lining"
_LEAST_HALF_WAY = 0.1  # m
_LEAST_OVER = 0.1  # m
