"""Prices and hours of a first build: kinds of things with ranges, typical, common practice, no source."""

from __future__ import annotations

from hushwright.search.starting_plan import Plan

_USUAL_CURRENCY = "EUR"

_PRICES = (
    ("damping", "16..26", "m2"), ("fill", "80..140", "m3"), ("sheet", "18..38", "m2"), ("core", "16..28", "m2"),
    ("limp", "18..34", "m2"), ("batten", "1.5..3", "m"), ("bearer", "1.5..3", "m"), ("covering", "18..42", "m2"),
    ("absorber", "25..40", "m2"), ("glass", "110..190", "m2"), ("seal", "2.5..5", "m"), ("latch", "40..90", "piece"),
    ("hinge", "18..40", "piece"), ("gland", "10..25", "piece"), ("mount", "25..50", "piece"),
    ("grille", "25..60", "piece"), ("duct", "8..20", "m"), ("lined duct", "30..60", "m"),
    ("flexible duct", "8..18", "m"), ("lined flexible duct", "18..32", "m"), ("bend", "12..30", "piece"),
    ("baffle box", "45..90", "m2"), ("fan", "60..180", "piece"), ("heater", "600..1200", "piece"),
    ("anchor", "12..28", "piece"),
    ("converter and chargers", "1200..2600", "piece"), ("desk and gear", "2500..8000", "piece"),
    ("cable", "250..700", "piece"), ("panels on the roof", "350..800", "piece"),
    ("quiet furniture", "400..1200", "piece"), ("mounts and brackets", "500..1100", "piece"),
    ("fans and boxes", "100..300", "piece"), ("detector", "35..60", "piece"), ("alarm", "30..50", "piece"),
    ("warning light", "40..70", "piece"), ("fire extinguisher", "35..60", "piece"),
    ("first aid kit", "15..35", "piece"),
)  # fmt: skip
_COVERED = {"converter": "converter and chargers", "shore charger": "converter and chargers",
            "panels": "panels on the roof"}  # fmt: skip
_WITH_DEVICES = "wire"
_ONLY_QUIET = 3  # first jobs, which only a quiet room needs
_BANK = (450.0, 750.0)  # for each kilowatt hour
_HOURS = (
    ("prepare and damp", "16..40", ("damping", "anchor")),
    ("shell", "60..140", ("fill", "batten", "bearer", "mount", "sheet", "core", "limp")),
    ("doors and windows", "16..40", ("door", "window", "glass", "seal", "latch", "hinge", "gland")),
    ("air and warmth", "20..50", ("grille", "duct", "lined duct", "flexible duct", "lined flexible duct", "bend",
                                  "baffle box", "fan", "heater", "cooler")),
    (_WITH_DEVICES, "24..60", ("converter", "shore charger", "panels", "detector", "alarm", "warning light")),
    ("finish", "30..80", ("absorber", "covering", "fitting")),
    ("prove and hand over", "8..16", ()),
)  # fmt: skip


def _typical(text: str) -> str:
    """A range that is nobody's own yet."""
    return f"{{is: {text}, from: typical}}"


def money(plan: Plan, bank: float) -> str:
    """Prices and labour as text of a build file; ``bank`` [kWh]."""
    currency = _USUAL_CURRENCY if plan.answers.budget is None else plan.answers.budget[1]
    low, high = (round(bank * each) for each in _BANK)
    rows = [*_PRICES, ("bank", f"{low}..{high}", "piece")]
    if plan.is_cooled:
        rows.append(("cooler", "1400..2200", "piece"))
    items = ["    - {of: donor van, covered_by: client}"]
    items += [f"    - {{of: {of}, price: {_typical(price)}, per: {per}}}" for of, price, per in rows]
    devices = {f"bank 25.6 V {bank / 25.6e-3:.0f} Ah": "bank"}
    if plan.is_cooled:
        devices[f"cooler {plan.room.replace('_', ' ')}"] = "cooler"
    items += [f"    - {{of: {of}, covered_by: {payer}}}" for of, payer in (_COVERED | devices).items()]
    jobs = []
    for name, hours, to in _HOURS if plan.has_quiet else _HOURS[_ONLY_QUIET:]:
        done_to = (*to, *devices) if name == _WITH_DEVICES else to
        parts = f"to: [{', '.join(done_to)}], " if done_to else ""  # without: to the van as a whole
        jobs.append(f"    - {{operation: {name}, {parts}time: {_typical(f'{hours} h')}}}")
    return (
        f"prices:                           # all typical, without tax\n  currency: {currency}\n  contingency: 10 %\n"
        "  items:\n" + "\n".join(items) + "\n"
        f"labour:\n  rate: {_typical('50..75')}\n  operations:\n" + "\n".join(jobs) + "\n"
    )
