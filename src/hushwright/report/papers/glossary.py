"""Words of the papers, for readers who are not of the trade."""

from __future__ import annotations

from typing import Final

GLOSSARY: Final = (
    ("A-weighted level, dB(A)", "level that counts each pitch as the ear does; 10 dB more are twice as loud"),
    ("background", "everything that is heard in the room while nobody makes a sound in it"),
    ("baffle box", "lined box with turns, through which air passes and sound hardly"),
    ("bank", "batteries of the living part, not those of the engine"),
    ("build-up", "layers of a wall, floor or ceiling, from outside in"),
    ("chance", "probability that the limit is met: unlikely is under a third, likely over two thirds"),
    ("floating room", "room within the van that touches it through soft mounts alone"),
    ("headroom", "clear height to stand in"),
    ("hold point", "moment in the work at which nobody goes on before something was measured and signed"),
    ("leaf", "one of two skins of a wall with a space between"),
    ("level difference", "level on one side less the level on the other, both measured at the same time"),
    ("limit", "what a value is held against: a target of the brief, a standard, a plate"),
    ("margin", "how far a value is on the good side of its limit; negative is too much or too little"),
    ("mount", "soft foot that carries the floating floor"),
    ("NC, NR", "families of curves that judge a background band by band"),
    ("octave, third octave", "bands of pitch: the upper end of an octave is twice its lower end"),
    ("plated mass", "mass that the maker's plate of the van allows"),
    ("promise sheet", "what workshop and client agree to measure, and the numbers that count"),
    ("sound reduction index R, Rw", "how much less sound passes an element in a laboratory; Rw is its single number"),
    ("state", "state of use: who is where, which doors stand open, what runs"),
    ("take", "a piece recorded without a break"),
    ("u, 2u", "standard uncertainty; within ±2u lies the truth in about 19 of 20 cases"),
    ("unproven", "neither surely met nor surely missed: the spread reaches over the limit, or a method ends"),
    ("verdict", "meets when value and twice its uncertainty keep the limit, fails when they surely do not"),
    ("weakest path", "way by which most of the sound comes in"),
)  # fmt: skip
