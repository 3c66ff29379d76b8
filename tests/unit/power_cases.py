"""Small builds that trip, and that clear, each check on power."""

from tests.coupled import edited
from tests.plain_builds import plain_build

Pair = tuple[str, str]

CLIMATE = "climate: {latitude: 48°, longitude: 8°}\n"
POWER = (
    "power:\n"
    "  bank: {voltage: 25.6 V, capacity: 200 Ah, lowest: 10 %, discharge: 200 A, surge: 400 A, charge: 100 A,"
    " resistance: 8 mΩ, charge_returned: 100 %, own_draw: 0 W, coldest_charge: 0 °C, temperature: 15 °C, fuse: 200 A}\n"
    "  converter: {rating: 1 kVA, surge: 2 kVA, idle: 10 W, best: 92 %, full: 88 %, lowest_voltage: 21 V}\n"
    "  sources:\n"
    "    shore: {shore: 40 A, efficiency: 90 %, supply: 3.6 kVA, in_states: [standing]}\n"
    "    panels: {solar: 400 W, area: 2 m2, sun: [1 kWh/m2, 1.8 kWh/m2, 3 kWh/m2, 4.4 kWh/m2, 5.2 kWh/m2, 5.9 kWh/m2,"
    " 5.7 kWh/m2, 4.8 kWh/m2, 3.7 kWh/m2, 2.2 kWh/m2, 1.2 kWh/m2, 0.8 kWh/m2]}\n"
    "  loads:\n"
    "    desk: {side: ac, power: 300 W, surge: 600 W, power_factor: 90 %}\n"
    "    lamps: {power: 40 W}\n"
    "    watch: {power: 5 W, states: [always]}\n"
    "  day: [{state: drive, begins: 8 h, duration: 1 h}, {state: record, begins: 10 h, duration: 6 h}]\n"
    "  days: 2\n"
)
WISHES = "  power: {off_grid: 8 h, unmet: 0 Wh, reserve: 10 %}\n"
FED = plain_build(WISHES, f"{CLIMATE}{POWER}")
"""A desk on a converter for six hours a day, sun on the roof, shore at night."""


def but(*changes: Pair) -> str:
    """The fed build with changes."""
    return edited(FED, *changes)


HEAVY = ("power: 300 W, surge: 600 W", "power: 950 W, surge: 950 W")

CASES = {
    "off-grid": (but(HEAVY), FED),
    "unmet": (but(HEAVY, ("power: 40 W", "power: 400 W")), FED),
    "charge-left": (but(HEAVY, ("reserve: 10 %", "reserve: 40 %")), FED),
    "converter-load": (but(("power: 300 W, surge: 600 W", "power: 1100 W")), FED),
    "converter-start": (but(("surge: 600 W", "surge: 2500 W")), FED),
    "bank-current": (but(("discharge: 200 A", "discharge: 12 A")), FED),
    "bank-start": (but(("surge: 400 A", "surge: 20 A")), FED),
    "bank-at-rating": (but(("converter: {rating: 1 kVA", "converter: {rating: 8 kVA"), ("idle: 10 W", "idle: 40 W"),
                           ("surge: 2 kVA", "surge: 16 kVA")), FED),
    "fuse-load": (but(("fuse: 200 A", "fuse: 15 A")), FED),
    "bank-voltage": (but(("lowest_voltage: 21 V", "lowest_voltage: 26 V")), FED),
    "charging": (but(("charge: 100 A", "charge: 50 A")), FED),
    "cold-charge": (but(("temperature: 15 °C", "temperature: -5 °C")), FED),
    "supply": (but(("supply: 3.6 kVA", "supply: 800 VA")), FED),
    "roof-panels": (but(("area: 2 m2", "area: 6 m2")), FED),
}  # fmt: skip
