"""The steps behind each kind of number, with the published work or standard of each, for explanations."""

from __future__ import annotations

from typing import Final

from hushwright.report.power_steps import POWER_STEPS
from hushwright.report.safety_steps import SAFETY_STEPS
from hushwright.report.wiring_steps import WIRING_STEPS

Step = tuple[str, str]
COMMON: Final = "common practice, no source"

_LAYERS: Final[tuple[Step, ...]] = (
    ("layers in order as transfer matrices, every angle of incidence",
     "Allard and Atalla, Propagation of Sound in Porous Media, 2009, ch. 11"),
    ("finite size of each face, once", "Davy, J. Acoust. Soc. Am. 126 (2009); ISO 15186-3, annex A"),
    ("resonant part below coincidence", "Maidanik, J. Acoust. Soc. Am. 34 (1962)"),
    ("blankets as limp-frame fluid", "Champoux and Allard 1991; Panneton, J. Acoust. Soc. Am. 122 (2007)"),
    ("battens, ribs and screws across a cavity", "Sharp, Noise Control Eng. 11 (1978); Davy 1991, 2012"),
    ("slits, holes and joints", "Gomperts and Kihlman, Acustica 18 (1967); Stinson 1991; ISO 10140-1"),
)  # fmt: skip
_ROUND: Final[tuple[Step, ...]] = (
    ("round the gap: energy balance of the air between body and inner room", "docs/methods/paths.md"),
    ("along the skin", "EN ISO 12354-1; Cremer, Heckl and Petersson, Structure-Borne Sound, 2005, ch. 6"),
    ("up through the mounts: mobilities of both sides", "Cremer, Heckl and Petersson, ch. 5; ISO 10846-1"),
)  # fmt: skip
_ROOM: Final[Step] = (
    "level in the small room: sum over its modes, zero mode included, 4/A above Schroeder's frequency",
    "Morse and Ingard, Theoretical Acoustics, 1968, ch. 9; Kuttruff, Room Acoustics, 2009",
)
_ADDED: Final[Step] = ("paths added in energy, A-weighted", "IEC 61672-1")
_SPREAD: Final[Step] = (
    "uncertainty: class of construction from measured rows, vehicle allowance, each input moved by its own u",
    "docs/accuracy.md; ISO/IEC Guide 98-3",
)
_FLOWS: Final[tuple[Step, ...]] = (
    ("pressure loss of each piece; fan curves, runs, leaks and open doors agree",
     "Colebrook 1939; ASHRAE Handbook, Fundamentals, 2017, ch. 21; Todini and Pilati 1988"),
)  # fmt: skip
_BREATH: Final[tuple[Step, ...]] = (
    *_FLOWS,
    ("carbon dioxide of each person by sex, age and activity", "Persily and de Jonge, Indoor Air 27 (2017)"),
    ("well-mixed rooms in series and in exchange", "Axley, HVAC&R Research 13 (2007)"),
)  # fmt: skip
_FANS: Final[tuple[Step, ...]] = (
    (
        "sound power of the fan: data, or specific sound power of its kind",
        "Long, Architectural Acoustics, 2014, ch. 13",
    ),
    ("what each piece takes and makes, to the end of the run", "VDI 2081-1; docs/methods/duct-sound.md"),
    ("lined box with baffles", "Munjal, Acoustics of Ducts and Mufflers, 2014, ch. 2 and 6"),
    _ROOM, _ADDED,
)  # fmt: skip

_NETWORK: Final[tuple[Step, ...]] = (
    ("layers, with ribs and battens as bridges", "ISO 6946"),
    ("sun on roof and sides, sol-air temperature",
     "Michalsky 1988; Ineichen and Perez 2002; ASHRAE Handbook, Fundamentals, ch. 18"),
    ("heat of people by metabolic rate", "ISO 8996; Jones, Air Conditioning Engineering, table 7.16"),
    ("rooms, skins and leaves as one network in steps of five minutes, day after day until it repeats",
     "ISO 52016-1; docs/methods/heat.md"),
)  # fmt: skip
_SURFACE: Final[tuple[Step, ...]] = (
    ("coldest place of each face, ribs included", "ISO 13788; ISO 6946"),
    ("months of the year; rooms in use by the season", "EN 15026, annex C"),
)
_GLASER: Final[tuple[Step, ...]] = (
    ("water in the planes of each build-up, month by month", "ISO 13788; Glaser 1959"),
    ("vapour resistances of the layers", "EN ISO 10456"),
)

STEPS: Final[dict[str, tuple[Step, ...]]] = {
    "background": (
        ("level outside at each face", "ISO 16283-3; levels of the brief or of the library"),
        *_LAYERS, *_ROUND, _ROOM, _ADDED,
        ("bass against the threshold of hearing", "ISO 389-7"),
        ("NC on classic curves, those of 2019 on request; hearing tests by third octaves", "ISO 8253-1 for the latter"),
        _SPREAD,
    ),
    "rain": (
        ("sound power of drops on each sheet, scaled from the reference pane", "ISO 10140-1, annex K; ISO 10140-5"),
        *_LAYERS, _ROOM, _ADDED, _SPREAD,
    ),
    "rooms": (
        ("source in the quiet room: sum over modes, Lw + 10 lg 4/A above Schroeder's frequency", "Kuttruff 2009"),
        *_LAYERS, _ROUND[1], _ROOM,
        ("octaves 63 to 4000 Hz against the monitor level", COMMON), _SPREAD,
    ),
    "neighbours": (
        ("source in the quiet room", "Kuttruff, Room Acoustics, 2009"), *_LAYERS, *_ROUND[1:],
        ("from the faces to the neighbours", "EN ISO 12354-4"), _ADDED, _SPREAD,
    ),
    "headroom": (("steel floor to bow, less every layer of floor and ceiling, plus what the mounts give under load",
                  "plain geometry"),),
    "clear-width": (("width of the body's section at shoulder height, less both build-ups", "plain geometry"),),
    "mount": (
        ("rigid body on its mounts: load of each", "Meirovitch, Analytical Methods in Vibrations, 1967"),
        ("stiffness of rubber, creep, cold", "Gent and Lindley 1959; Lindley, Engineering Design with Natural Rubber"),
    ),
    "floor-frequency": (
        ("rigid body on its mounts: six natural frequencies", "Meirovitch, Analytical Methods in Vibrations, 1967"),
        ("air under the floor as a spring beside the mounts", "docs/methods/mounts.md"),
    ),
    "snubber-clear": (
        ("gap less the way a mount has gone since the snubbers were set in the empty room", "plain geometry"),
        ("creep over the years on the mounts", "Lindley, Engineering Design with Natural Rubber, 1978"),
    ),
    "fans-alone": _FANS,
    "fans-in-takes": _FANS,
    "co2-steady": _BREATH,
    "co2-session": _BREATH,
    "without-fan": (*_BREATH, ("air at which it ends", "OSHA, 29 CFR 1910.1000, table Z-1")),
    "fresh-air": _FLOWS,
    "run-flow": _FLOWS,
    "humidity": (
        *_FLOWS,
        ("moisture of people from the latent share of their heat", "ASHRAE Handbook, Fundamentals, 2009, ch. 18"),
        ("balance of water vapour; relative humidity", "ASHRAE Handbook, Fundamentals, 2017, ch. 1"),
    ),
    "warmest": _NETWORK,
    "coldest": _NETWORK,
    "without-cooler": _NETWORK,
    "dew": (*_NETWORK, ("temperature factor of the coldest place of each face", "ISO 13788")),
    "mould": _SURFACE,
    "wall-water": _GLASER,
    "wall-drying": _GLASER,
    "terminal": (*_FLOWS, ("flow over the free area", "plain geometry")),
    "draught": (
        *_FLOWS,
        ("free jet from a grille", "ASHRAE Handbook, Fundamentals, 2017, ch. 20"),
        ("share of people who feel it", "ISO 7730, clause 6.2"),
    ),
    "road-mass": (("kerb mass, every layer, part and person; moments about the axles", "plain statics"),),
    "front-axle": (("moments of every layer, part and person about the rear axle", "plain statics"),),
    "rear-axle": (("moments of every layer, part and person about the front axle", "plain statics"),),
    "wheel-load": (("moments along and across the van; half the plated mass of an axle for a wheel", "plain statics"),),
    "side-balance": (("moments across the van", "plain statics"),),
    "steering-share": (("moments of everything about the rear axle", "plain statics; Regulation (EU) 1230/2012"),),
    "stability": (("half the track over the height of the centre of gravity",
                   "NHTSA, Consumer Information Regulations: Rollover Resistance"),),
    "scales": (("readings less the list: mass, and moments for its place", "plain statics; ISO/IEC Guide 98-3"),),
    "room-anchors": (("three points hold a body", "plain statics"),),
    "room-holds": (("stiff body on equal springs, every direction, weight included", "docs/methods/anchoring.md"),
                   ("design level beside people", "EN 1789"), ("cargo rule", "ISO 27956; VDI 2700 sheet 16")),
    "fittings-hold": (("stiff body on equal springs, every direction, weight included", "docs/methods/anchoring.md"),
                      ("design level beside people", "EN 1789"), ("cargo rule", "ISO 27956; VDI 2700 sheet 16")),
    "structure-not-skin": (("where each anchor sits, as the file says", COMMON),),
    "heavy-fittings": (("fittings from the mass of the library's limit up", COMMON),),
    "snubber-crash": (("work of a sudden push over gap and stops", "Timoshenko, Strength of Materials, part I, 1955"),),
    "bridges": (("parts fixed to two bodies", COMMON),),
    "door": (("moments of seals and weight about the hinges", "docs/methods/doors.md"),),
    "cut": (("sheet left between edges, by plain geometry", COMMON),),
    "budget": (("quantities from geometry, whole packs, hours, tax once a rate", "docs/methods/cost.md"),),
    "cuts": (("sheet left between edges, by plain geometry", COMMON),),
    "line-treble": (("first-order low-pass of source and cable", "docs/methods/signals.md"),),
    "line-hum": (("field of long straight wires, induction, rejection; voltage between earths",
                  "H. W. Ott, Electromagnetic Compatibility Engineering, 2009; docs/methods/signals.md"),),
    "star-earth": (("lines whose ends hang on two earths", COMMON),),
    "through-glands": (("walls that a line passes without an opening", COMMON),),
    "cable-bridges": (("cables without a loop between floating and fixed", COMMON),),
    "gland-fill": (("cross-sections of cables over that of the hole", "NEC, chapter 9, table 1"),),
    "headphone-points": (("sockets counted by place", COMMON),),
    "headphone-loud": (("voltage divider, sensitivity at one volt", "Ohm's law; docs/methods/signals.md"),),
    "headphone-ceiling": (("voltage divider of one headphone alone, limiter", "IEC 62368-1; EN 50332"),),
    "headphone-listening": (("level over a working day", "Directive 2003/10/EC"),),
    "headphone-load": (("all headphones in parallel behind their cables", "Ohm's law"),),
    "talkback": (("lines of the kind talkback counted", COMMON),),
    "gear-sound": (("sound power in its band, field of the room, ways between rooms", "docs/methods/signals.md"),),
    "dimmer-frequency": (("frequency of the pulses, as the file says", COMMON),),
    "clearance": (("upright prisms of what moves and of what stands, apart by their outlines", "plain geometry"),),
    "knee-room": (("underside of the desk less seat less thighs", "plain geometry; docs/methods/use.md"),),
    "reach": (("distance from the shoulder to the control", "plain geometry; docs/methods/use.md"),),
    "sight-line": (("straight line from eye to face through both ends of the opening", "plain geometry"),),
    "speaker-angle": (("angle between the loudspeakers from the ears", "ITU-R BS.775 (memory)"),),
    "camera-field": (("half of the field less the angle to each singer", "plain geometry"),),
    **POWER_STEPS,
    **SAFETY_STEPS,
    **WIRING_STEPS,
}  # fmt: skip
"""Steps by the beginning of a verdict's id."""


def steps_of(verdict_id: str) -> tuple[Step, ...]:
    """Steps behind a verdict; none for an id that nobody has described.

    Examples
    --------
    >>> steps_of("front-axle-drive")[0][1]
    'plain statics'
    """
    begun = [name for name in STEPS if verdict_id == name or verdict_id.startswith(f"{name}-")]
    return STEPS[max(begun, key=len)] if begun else ()
