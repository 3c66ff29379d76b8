"""Words of the trade in one plain sentence each: the foot of the long report and the app take them from here."""

from __future__ import annotations

import re
from dataclasses import dataclass
from functools import lru_cache

from hushwright.report.labels import heading as words
from hushwright.report.layout import heading, labelled

LONGEST = 140
"""Letters of a sentence, so that it is read at one glance."""


@dataclass(frozen=True, slots=True)
class Term:
    """A word, its other forms, and what it means; one with a capital is looked for as it is written."""

    name: str
    says: str
    forms: tuple[str, ...] = ()
    not_before: tuple[str, ...] = ()  # words after which a form is another word that is spelled alike

    @property
    def spelled(self) -> tuple[str, ...]:
        """Every form."""
        return (self.name, *self.forms)


_AFTER_LEAVES = (
    "a", "all", "an", "her", "him", "it", "its", "least", "less", "little", "low", "more", "most", "much", "no",
    "nothing", "one", "only", "open", "out", "room", "something", "the", "them", "through", "too", "what",
)  # fmt: skip
"""Words before which it is the verb: "the file leaves it out"."""

TERMS = (
    Term("2u", "Half the width of the range in which the true value lies in about 95 of 100 cases; u is the standard "
         "uncertainty.", ("±2u", "(2u)")),
    Term("baffle box", "Lined box with walls across, in which air turns corners and sound is lost.", ("baffle boxes",)),
    Term("bearer", "Batten under the floating floor that spreads its load on the mounts.", ("bearers",)),
    Term("bow", "Profile across the roof, from side to side; headroom begins under it.", ("bows",)),
    Term("cavity", "Air space between two leaves, mostly with wool in it.", ("cavities",)),
    Term("chance", "How probably the limit is kept, given how sure the numbers are; about even is 50 %."),
    Term("coincidence", "Frequency at which bending waves of a leaf run as fast as sound: there it lets more through."),
    Term("common practice", "What the trade does without a printed source; better replaced by a measured value."),
    Term("creep", "How far loaded rubber sinks on over the years."),
    Term("Ctr", "Correction of Rw for low sounds such as traffic: Rw plus Ctr tells more about engines."),
    Term("dB(A)", "Sound level as the ear weighs it; 10 dB more is heard about twice as loud."),
    Term("draught", "Moving air that is felt as cold; told as the share of people who would complain."),
    Term("dynamic ratio", "How much stiffer rubber is against vibration than under its steady load."),
    Term("gland", "Tight passage for cables or pipes through a wall.", ("glands",)),
    Term("leaf", "Stiff layer that moves as one, such as board or glass; two with a space between make a double wall.",
         ("leaves",), _AFTER_LEAVES),
    Term("limp", "Heavy and soft, like barrier mat: it adds mass to a leaf and does not ring itself."),
    Term("lining", "What covers the inside: the finished surface of a room, or the absorber in a duct.", ("linings",)),
    Term("margin", "How far the value is on the right side of its limit; below zero it is beyond it."),
    Term("mount", "Rubber on which the floating room stands; nothing else may join it to the van.", ("mounts",)),
    Term("NC", "Noise criterion: one number for a background by curves over the octaves; lower is quieter."),
    Term("not foreseen", "Share added to the sum for what nobody has thought of yet."),
    Term("octave", "From one frequency to its double; a third octave is a third of that.", ("octaves",)),
    Term("plated", "The most that the van or an axle may weigh, as printed on its plate."),
    Term("ppm", "Parts in a million, here of carbon dioxide: about 420 outdoors; from 1000 on a room feels stale."),
    Term("residual current", "Current that leaks to earth; its breaker cuts off before it is dangerous."),
    Term("resonance", "Frequency at which something swings by itself, and lets most through.", ("resonances",)),
    Term("rib", "Profile up the side of the body behind the skin; leaves must not touch it.", ("ribs",)),
    Term("Rw", "Sound reduction of a wall as one number by ISO 717-1; higher keeps more out."),
    Term("sill", "Lower edge of an opening, counted from the steel floor."),
    Term("skin", "Sheet metal of the van's body, the outermost layer of every wall."),
    Term("slit", "Gap that is left round a door or along a joint; sound goes through the narrowest.", ("slits",)),
    Term("snubber", "Stop that holds the floating room when the van brakes, without touching it at rest.",
         ("snubbers",)),
    Term("station", "Place along the van, counted rearward from the B-pillar, the post behind the cab doors.",
         ("stations",)),
    Term("threshold of hearing", "The quietest that young good ears can hear, at each frequency."),
    Term("unproven", "Met or not as computed, but not sure enough: measuring the named input settles it."),
)  # fmt: skip


@lru_cache(maxsize=128)
def _pattern(term: Term) -> re.Pattern[str]:
    exact = any(letter.isupper() for letter in term.name)
    forms = "|".join(re.escape(each) for each in sorted(term.spelled, key=len, reverse=True))
    verb = rf"(?! (?:{'|'.join(term.not_before)})\b)" if term.not_before else ""
    return re.compile(rf"(?<![\w-])(?:{forms})(?![\w-]){verb}", 0 if exact else re.IGNORECASE)


def terms_in(text: str) -> tuple[Term, ...]:
    """The words of the table that stand in a text, by the alphabet.

    Examples
    --------
    >>> [one.name for one in terms_in("Both leaves hang on bows")]
    ['bow', 'leaf']
    >>> terms_in("The file leaves the price out; it leaves room")
    ()
    """
    return tuple(term for term in TERMS if _pattern(term).search(text))


def explained(text: str) -> list[str]:
    """Foot of a report: every word of the table that stands in it, with its sentence."""
    found = terms_in(text)
    lines = heading(words("words")) if found else []
    for term in found:
        lines += labelled(term.name, term.says, column=24)
    return lines
