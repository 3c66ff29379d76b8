"""Steps behind the verdicts on wiring."""

from __future__ import annotations

from typing import Final

_METHOD: Final = "docs/methods/wiring.md"
_CURRENT: Final = (
    "all that a circuit feeds at once over its voltage; a converter at its rating",
    _METHOD,
)
_AMPACITY: Final = ("table of the chosen rules, times bundle and engine space", _METHOD)
_SHORT: Final = ("voltage of the bank over its resistance and that of the cable", "Ohm's law")
_COUNTED: Final = ("counted in the build file", _METHOD)

WIRING_STEPS: Final[dict[str, tuple[tuple[str, str], ...]]] = {
    "conductors": (_CURRENT, _AMPACITY),
    "voltage-drop": (_CURRENT, ("resistance out and back, circuits before it added up", "IEC 60228; SAE J1127")),
    "fused": (_COUNTED,),
    "fuses-protect": (_AMPACITY, ("rating of the fuse before it", _METHOD)),
    "fuses-hold": (_CURRENT, ("over the rating of the fuse", _METHOD)),
    "fuses-interrupt": (_SHORT, ("a full bank, cold cables before the fuse", _METHOD)),
    "fuses-open": (_SHORT, ("nominal voltage, warm copper, over the rating of the fuse", _METHOD)),
    "fuses-selective": (("rating of the fuse before over its own", "IEC 60269"),),
    "fuses-socket": (
        ("what the socket gives over the voltage, and the rating of the first fuse aboard", "plain sums"),
    ),
    "first-fuse": (("cable before the fuse, as the file says", _METHOD),),
    "residual-current": (("every way in to a mains circuit followed to its source", _METHOD),),
    "residual-trip": (("slackest device on any way in", _METHOD),),
    "neutral-on-shore": (_COUNTED,),
    "neutral-aboard": (_COUNTED,),
    "change-over": (_COUNTED,),
    "isolators": (_COUNTED,),
    "isolator-reach": (("distance from the driver's shoulder or a door's clear opening", _METHOD),),
    "chassis-bond": (("cross-section in the file against 8 AWG and the lead of the bank", _METHOD),),
    "loads-wired": (_COUNTED,),
    "routes-bridge": (("routes followed to where they enter the floating room", _METHOD),),
    "routes-glands": (("routes followed to where they enter the floating room", _METHOD),),
}
"""Steps by the beginning of a verdict's id."""
