"""Steps behind the verdicts on power, each with its source."""

from __future__ import annotations

from typing import Final

_CELL = "S. Sunil, K. R. Pattipati and B. Balasingam, IEEE Transactions on Instrumentation and Measurement, 2025"
_LOADS = ("mean power of every load by state, over the day plan in steps of five minutes", "docs/methods/power.md")
_CONVERTER = ("own draw, a part with the load and a part with its square",
              "H. Schmidt and D. U. Sauer, Sonnenenergie 4, 1996")  # fmt: skip
_SUN = (
    ("sun of a mean day over its hours", "M. Collares-Pereira and A. Rabl, Solar Energy 22, 1979"),
    ("cells warmed by sun and air", "King et al., Sandia National Laboratories, SAND2004-3535, 2004"),
    ("power of panels", "A. P. Dobos, PVWatts Version 5 Manual, NREL/TP-6A20-62641, 2014"),
)
_BANK = ("voltage at rest over the charge, with the bank's own resistance", _CELL)
_DAYS = (_LOADS, _CONVERTER, *_SUN, _BANK)
_USE = ("time in the states of the day plan, day after day from the first charge on, without shore or generator, until"
        " something goes without power; idle hours between drain or charge the bank and do not count",
        "docs/methods/power.md")  # fmt: skip
_AT_ONCE = ("all loads of a state that may run together", "plain sums")
_START = ("the largest start on top", "plain sums")
_SAG = ("current for a power behind a resistance, at the lowest charge", "Ohm's law")

POWER_STEPS: Final[dict[str, tuple[tuple[str, str], ...]]] = {
    "off-grid": (*_DAYS, _USE),
    "unmet": _DAYS,
    "charge-left": _DAYS,
    "converter-load": (_AT_ONCE, ("power over power factor", "IEC 60050-131")),
    "converter-start": (_AT_ONCE, _START, ("power over power factor", "IEC 60050-131")),
    "bank-current": (_AT_ONCE, _CONVERTER, _BANK, _SAG),
    "bank-start": (_AT_ONCE, _START, _CONVERTER, _BANK, _SAG),
    "bank-at-rating": (("the converter at its rating", "plain sums"), _CONVERTER, _BANK, _SAG),
    "fuse-load": (_AT_ONCE, _CONVERTER, _BANK, _SAG, ("current over the rating of the fuse", "plain sums")),
    "bank-voltage": (_AT_ONCE, _START, _CONVERTER, _BANK, _SAG),
    "charging": (("currents of all sources of a state", "plain sums"),),
    "cold-charge": (("air outdoors over the day, or the temperature as typed",
                     "ASHRAE Handbook, Fundamentals, 2009, ch. 14"),),
    "supply": (_AT_ONCE, ("power of the charger over its efficiency", "plain sums")),
    "roof-panels": (("level roof over the load space less its cuts", "plain geometry"),),
}  # fmt: skip
"""Steps by the beginning of a verdict's id."""
