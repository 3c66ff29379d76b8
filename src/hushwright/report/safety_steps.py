"""How numbers of safety, venues and papers come about."""

from __future__ import annotations

from typing import Final

_COMMON = "common practice, no source"
_METHOD = "docs/methods/safety.md"

SAFETY_STEPS: Final[dict[str, tuple[tuple[str, str], ...]]] = {
    "safety-said": (("ways out named for the quiet room", _COMMON),),
    "lock-without-power": (("locks that stay shut without power", "NFPA 101"),),
    "opens-from-inside": (("what keeps a hand from opening it: key, tool, further moves, a keep outside", "NFPA 101"),),
    "lock-holds": (("seals at the latch edge and a push at the handle, moments about the hinges",
                    "statics of rigid bodies"),),
    "keep-holds": (("seals and half the inertia of the leaf at the design level", "statics of rigid bodies"),),
    "occupied-alarm": (("alarm at the lock, as the file says", _COMMON),),
    "ways-out": (("ways that serve in the worst state, without an opening in common", "NFPA 1192"),
                 ("doors that open by hand, have depth to swing and let a body pass", _METHOD)),
    "way-swing": (("room, lobby or typed depth against the width of the leaf", "geometry of the build"),),
    "way-clear": (("clear opening over the body that has to pass, the smaller of both sides", "NFPA 1192"),),
    "time-until-found": (("time with stopped fans from the air domain", "docs/methods/air.md"),),
    "detector-place": (("distance from wall, ceiling or appliance, as the file says", "EN 50292"),),
    "detectors": (("kinds of detectors each room lacks", _METHOD),),
    "equipment": (("pieces asked for that are not aboard", "the build file"),),
    "alarm-heard": (("sounder's power, field of the room, ways between rooms", "docs/methods/paths.md"),
                    ("over noise from outside and fans, with upward masking", "ISO 7731")),
    "alarm-noticed": (("over what is played as well; else lights that are bright and slow enough",
                       "ISO 7731; ISO 11428; NFPA 72"),),
    "alarm-wakes": (("sounder's power, field of the room, ways between rooms", "docs/methods/paths.md"),),
    "alarm-tone": (("tone of the sounder, as the file says", "ISO 7731"),),
    "noise-exposure": (("levels as typed, or of headphones, monitors and players in the van", _METHOD),
                       ("level over eight hours at the rule's exchange rate", "ISO 9612; 29 CFR 1910.95"),),
    "noise-peak": (("peak level, as the file says", "Directive 2003/10/EC"),),
    "burning-rate": (("burning rate of materials in reach of the room's air, as the file says",
                      "49 CFR 571.302; UN Regulation 118"),),
    "bank-place": (("place of the fitting against the quiet room", "geometry of the build"),),
    "bank-edge": (("distance from the skin, as the file says", _COMMON),),
    "bank-warm": (("temperature round the bank, as the file says", _METHOD),),
    "bank-cold": (("temperature of the cells, as the file says", _METHOD),),
    "bank-ready": (("what is missing of ventilation, removal and label", _COMMON),),
    "exhaust-apart": (("straight way from each exhaust to the nearest intake", "geometry of the build"),),
    "venue": (("as the file says of the venue", _METHOD),),
    "paper": (("status of the paper, as the file says", "docs/methods/safety.md"),),
}  # fmt: skip
"""Steps by the beginning of a verdict's id."""
