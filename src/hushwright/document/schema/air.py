"""Ventilation: the air outside, and the runs that bring and take air."""

from __future__ import annotations

from hushwright.document.fields import Quantity, Section, choice, quantity, section, words
from hushwright.document.schema.duct_elements import RunElement

FACES_OF_VEHICLE = ("left", "right", "front", "rear", "ceiling", "floor")


class OutdoorAir(Section):
    """The air outside."""

    carbon_dioxide: Quantity = quantity("concentration", "Carbon dioxide outdoors.", low=300e-6, high=1000e-6,
                                        default="420 ppm")  # fmt: skip
    temperature: Quantity = quantity("temperature", "Temperature outdoors.", low=-30, high=50, default="15 °C")
    humidity: Quantity = quantity("share", "Relative humidity outdoors.", low=0, high=1, default="75 %")


class DuctRun(Section):
    """One way of the air from outdoors or a room to a room or outdoors, piece by piece in the order of the flow."""

    takes_from: str = words("Where the air comes from: `outdoors` or a room.")
    gives_to: str = words("Where it goes: `outdoors` or a room.")
    runs_in: tuple[str, ...] = words(
        "States in which its fans run; where they stand still no air is counted through it. A run without a fan is "
        "always open.",
        default=(),
    )
    wanted: Quantity | None = quantity(
        "volume_flow", "Flow that the client or the fan's label promises; held against what the fans deliver.",
        low=0.0001, high=1, default=None,
    )  # fmt: skip
    outdoor_end: str = choice("Face of the vehicle where its outdoor end is.", FACES_OF_VEHICLE, default="floor")
    elements: tuple[RunElement, ...] = section("Its pieces, in the order of the flow.", shortest=1)


class AirSupply(Section):
    """Ventilation."""

    runs: dict[str, DuctRun] = section("Runs by name.", default={})
    outdoors: OutdoorAir | None = section("The air outside.", default=None)
    leaks: dict[str, Quantity] = quantity(
        "area", "Leakage of a room to outdoors, as the area of an open hole, by the room's name; left out, none.",
        low=0, high=0.5, default={},
    )  # fmt: skip
