"""Where power comes from: shore, alternator, sun, generator."""

from __future__ import annotations

from typing import ClassVar

from hushwright.document.fields import Quantity, Section, choice, quantity, words

STANDING = "standing"
"""What a day plan calls the time in which no state is planned."""


class ShoreSource(Section):
    """Shore power: a socket outside, and the charger behind it."""

    key: ClassVar[str] = "shore"
    shore: Quantity = quantity("current", "Greatest current of its charger into the bank.", low=0.5, high=1000)
    efficiency: Quantity = quantity("share", "Efficiency of the charger.", low=0.5, high=1, default="90 %")
    supply: Quantity = quantity("apparent_power", "What the socket gives lastingly.", low=100, high=50_000,
                                default="3.6 kVA")  # fmt: skip
    in_states: tuple[str, ...] = words(
        "States in which it is plugged in; left out, `standing`, which is the rest of the day; `always` is all of it.",
        default=(),
    )  # fmt: skip


class AlternatorSource(Section):
    """The engine's alternator through a d.c. charger."""

    key: ClassVar[str] = "alternator"
    alternator: Quantity = quantity("current", "Greatest current of the charger into the bank.", low=0.5, high=1000)
    efficiency: Quantity = quantity("share", "Efficiency of the charger.", low=0.5, high=1, default="92 %")
    in_states: tuple[str, ...] = words("States in which the engine runs; left out, those on the road.", default=())


class SolarSource(Section):
    """Panels on the roof, or on a stand beside the van."""

    key: ClassVar[str] = "solar"
    solar: Quantity = quantity("power", "Power of all panels in the light of the standard test.", low=5, high=20_000)
    efficiency: Quantity = quantity("share", "Efficiency of the charger behind them.", low=0.5, high=1, default="96 %")
    losses: Quantity = quantity("share", "Lost to dirt, mismatch and wire.", low=0, high=0.6, default="8 %")
    shading: Quantity = quantity("share", "Share of the sun that masts, trees, fans and boxes take.", low=0, high=1,
                                 default="10 %")  # fmt: skip
    tilt: Quantity = quantity("angle", "Tilt of the panels from level.", low=0, high=1.5708, default="0°")
    towards: Quantity = quantity("angle", "Where they lean, clockwise from the van's nose.", low=-6.29, high=6.29,
                                 default="0°")  # fmt: skip
    coefficient: Quantity = quantity("share", "Share of the power that each kelvin over 25 °C takes.", low=0,
                                     high=0.01, default="0.38 %")  # fmt: skip
    mounted: str = choice("How the air gets behind them.", ("close to the roof", "in the open"),
                          default="close to the roof")  # fmt: skip
    area: Quantity | None = quantity("area", "Area of all panels on the roof; 0 for panels beside the van.", low=0,
                                     high=40, default=None, fallback="library: limit")  # fmt: skip
    roof_taken: Quantity = quantity("area", "Roof that fans, hatches, boxes and ways over the roof take.", low=0,
                                    high=40, default="0 m2")  # fmt: skip
    sun: tuple[Quantity, ...] = quantity(
        "irradiation", "Sun on level ground on a mean day of each month, January to December; left out, a share of "
        "the clear sky's.", low=0, high=5e7, default=(), longest=12,
    )  # fmt: skip
    in_states: tuple[str, ...] = words("States in which they lie in the sun; left out, always.", default=())


class GeneratorSource(Section):
    """A generator that feeds what shore power feeds."""

    key: ClassVar[str] = "generator"
    generator: Quantity = quantity("apparent_power", "What it gives lastingly.", low=100, high=50_000)
    charger: Quantity = quantity("current", "Greatest current of its charger into the bank.", low=0, high=1000,
                                 default="0 A")  # fmt: skip
    efficiency: Quantity = quantity("share", "Efficiency of the charger.", low=0.5, high=1, default="90 %")
    in_states: tuple[str, ...] = words("States in which it runs; left out, `standing`, the rest of the day.",
                                       default=())  # fmt: skip


PowerSource = ShoreSource | AlternatorSource | SolarSource | GeneratorSource
