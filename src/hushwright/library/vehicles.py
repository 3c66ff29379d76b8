"""Records of generic panel van bodies."""

# ruff: noqa: RUF009 -- quantity(...) and its like declare dataclass fields
from __future__ import annotations

from dataclasses import dataclass

from hushwright.library.base import Record
from hushwright.library.values import Spread, points, quantity, words

__all__ = ["VanBody"]


@dataclass(frozen=True, slots=True, kw_only=True)
class VanBody(Record):
    """A class of panel van. Stations run rearward from the B-pillar line, heights upward from the steel floor."""

    length_class: str = words("Short or long.")
    roof_class: str = words("Medium or high.")
    drive: str = words("Front or rear.")
    wheelbase: Spread = quantity("mm", "Distance between the axle centre lines.")
    front_axle: Spread = quantity("mm", "Station of the front axle.")
    rear_axle: Spread = quantity("mm", "Station of the rear axle.")
    track_width: Spread = quantity("mm", "Mean distance between the wheels of an axle.")
    overall_length: Spread = quantity("mm", "Length over all.")
    overall_width: Spread = quantity("mm", "Width of the body without mirrors.")
    overall_height: Spread = quantity("mm", "Height over the ground, unladen.")
    load_length: Spread = quantity("mm", "B-pillar line to the rear doors at the floor.")
    steel_floor_to_bow: Spread = quantity("mm", "Steel floor to the lower edge of the roof bows, at the centre.")
    section: tuple[tuple[float, float], ...] = points("mm", "Half width skin to skin by height.")
    bow_depth: Spread = quantity("mm", "Lower edge of the bows to the roof skin, at the centre.")
    bow_spacing: Spread = quantity("mm", "Distance between roof bows.")
    rib_depth: Spread = quantity("mm", "Depth of the side ribs from the skin.")
    rib_spacing: Spread = quantity("mm", "Distance between side ribs.")
    rib_width: Spread = quantity("mm", "Width of the inner flange of a rib.")
    skin_thickness: Spread = quantity("mm", "Sheet steel of sides and doors.")
    roof_thickness: Spread = quantity("mm", "Sheet steel of the roof.")
    floor_thickness: Spread = quantity("mm", "Sheet steel of the floor.")
    beading_ratio: Spread = quantity("-", "Bending stiffness of beaded sheet along the beads over across.")
    side_radius: Spread = quantity("m", "Radius of curvature of the side skin.")
    roof_radius: Spread = quantity("m", "Radius of curvature of the roof skin.")
    wheel_box_between: Spread = quantity("mm", "Width between the wheel boxes.")
    wheel_box_height: Spread = quantity("mm", "Height of the wheel boxes.")
    wheel_box_front: Spread = quantity("mm", "Station of the front end of the wheel boxes.")
    wheel_box_rear: Spread = quantity("mm", "Station of the rear end of the wheel boxes.")
    wheel_box_thickness: Spread = quantity("mm", "Sheet steel of the wheel boxes.")
    kerb_mass: Spread = quantity("kg", "Kerb mass without driver.")
    kerb_mass_front: Spread = quantity("kg", "Kerb mass on the front axle.")
    kerb_mass_rear: Spread = quantity("kg", "Kerb mass on the rear axle.")
    kerb_height: Spread = quantity("mm", "Height of the centre of gravity over the ground, empty.")
    permissible_mass: Spread = quantity("kg", "Technically permissible maximum laden mass.")
    permissible_front: Spread = quantity("kg", "Plated mass of the front axle.")
    permissible_rear: Spread = quantity("kg", "Plated mass of the rear axle.")
    floor_over_ground: Spread = quantity("mm", "Steel floor over the ground, unladen.")
    rear_door_width: Spread = quantity("mm", "Clear width of the rear doors.")
    rear_door_height: Spread = quantity("mm", "Clear height of the rear doors.")
    side_door_width: Spread = quantity("mm", "Clear width of the sliding door.")
    side_door_height: Spread = quantity("mm", "Clear height of the sliding door.")
    side_door_front: Spread = quantity("mm", "Station of the front edge of the sliding door.")
    windscreen_area: Spread = quantity("m2", "Area of the windscreen.")
    windscreen_thickness: Spread = quantity("mm", "Laminated glass of the windscreen.")
    cab_window_area: Spread = quantity("m2", "Area of both cab door windows.")
    cab_window_thickness: Spread = quantity("mm", "Toughened glass of the cab doors.")
