"""Air, climate, power and fittings of a first build, as text of a build file."""

from __future__ import annotations

import math

from hushwright.search.questions import Answers
from hushwright.search.starting_plan import COOLER_FROM, Plan, in_mm

# Typical figures of a first look; common practice, no source.
_PER_KILOWATT_HOUR = (8.0, 13.0)  # kg of a bank
_AIR_PER_PERSON = 0.010  # m³/s that the fans are chosen for


def air(plan: Plan) -> str:
    """Two fans, and a lined box at each passage of the air; without a quiet room a plain fan in and a hole out."""
    if not plan.has_quiet:
        return _PLAIN_AIR
    people = plan.answers.quiet_people
    duct = 125 if people > 1 else 100
    wanted = max(_AIR_PER_PERSON * people, 0.012)
    free = 1000.0 * wanted * 1.9
    box = (
        f"{{baffle_box: 900, width: 350, height: {200 + 25 * min(people, 4)}, lining: 40, absorber: melamine foam, "
        f"baffles: 3, passage: {50 + 8 * min(people, 5)}}}"
    )
    fan = f"shut_off: 150 Pa, free_flow: {free:.0f} l/s, power: {8 + 4 * people} W, sound_power: 40..46 dB(A)"
    grille = f"{{grille: outlet, width: {300 + 150 * min(people, 4)}, height: 300, free_share: 25 %, throws: spread}}"
    return f"""air:
  runs:
    fresh_air:
      takes_from: outdoors
      gives_to: control_room
      runs_in: [record]
      elements:
        - {{grille: intake, width: 300, height: 150, free_share: 60 %}}
        - {{fan: supply, kind: forward curved, {fan}}}
        - {{flexible: 400, diameter: 150, stretched: 95 %}}
        - {box}
        - {grille}
    supply:
      takes_from: control_room
      gives_to: quiet_room
      wanted: {1000.0 * wanted:.0f} l/s
      elements:
        - {{grille: intake, width: 250, height: 150, free_share: 70 %}}
        - {box}
        - {{flexible: 300, diameter: {duct}, stretched: 95 %, lined: yes}}
        - {grille}
    extract:
      takes_from: quiet_room
      gives_to: outdoors
      runs_in: [record]
      outdoor_end: rear
      elements:
        - {{grille: intake, width: 250, height: 150, free_share: 70 %}}
        - {{straight: 300, diameter: {duct}, lining: 25}}
        - {box}
        - {{bend: 90°}}
        - {{flexible: 900, diameter: {duct}, stretched: 95 %, lined: yes}}
        - {{fan: extract, kind: forward curved, {fan}}}
        - {{straight: 200, diameter: {duct}}}
"""


_PLAIN_AIR = """air:
  runs:
    fresh_air:
      takes_from: outdoors
      gives_to: workshop
      runs_in: [work]
      elements:
        - {grille: intake, width: 200, height: 150, free_share: 60 %}
        - fan: supply
          kind: forward curved
          shut_off: 120 Pa
          free_flow: 50 l/s
          power: 15 W
          sound_power: 45..52 dB(A)
        - {flexible: 500, diameter: 125, stretched: 95 %}
        - {grille: outlet, width: 600, height: 400, free_share: 40 %, throws: spread}
    outlet:
      takes_from: workshop
      gives_to: outdoors
      elements:
        - {grille: intake, width: 200, height: 150, free_share: 60 %}
        - {straight: 100, diameter: 125}
"""


def climate(plan: Plan) -> str:
    """Hottest and coldest day, heaters, a cooler where it is warm, lamps and gear."""
    answers, room = plan.answers, plan.room
    rooms = [room, *(["quiet_room"] if plan.has_quiet else [])]
    summer, autumn = ("21 July", "20 November") if answers.latitude >= 0.0 else ("21 January", "20 May")
    heaters = ", ".join(f"{{room: {each}, power: {1.5 if plan.has_quiet else 3.0} kW}}" for each in rooms)
    lines = [
        "climate:", f"  latitude: {math.degrees(answers.latitude):g}°", "  longitude: 0°",
        f"  hottest: {{date: {summer}, highest: {answers.hottest:g} °C, lowest: {answers.hottest - 11.0:g} °C}}",
        f"  coldest: {{date: {autumn}, highest: 8 °C, lowest: 3 °C, sky: no sun}}",
        f"  heaters: [{heaters}]",
    ]  # fmt: skip
    if plan.is_cooled:
        lines.append(f"  coolers: [{{room: {room}, capacity: 1.6 kW, power_draw: 520 W, silent_in_takes: no}}]")
    lights = "".join(f", {{room: {each}, lights: 25 W}}" for each in rooms[1:])
    lines.append(f"  loads: [{{room: {room}, lights: 25 W, equipment: {answers.gear:g} W}}{lights}]")
    return "\n".join(lines) + "\n"


def bank_energy(answers: Answers) -> float:
    """Energy [J] a bank is chosen for: gear, lamps, fans and half a cooler over the hours, with a fifth left."""
    power = answers.gear + 60.0 + (0.5 * 520.0 if answers.hottest >= COOLER_FROM else 0.0)
    return power * answers.hours / 0.8


def bank_capacity(answers: Answers) -> float:
    """Capacity of the bank that is put in [kWh]."""
    return 25.6e-3 * _capacity(answers)


def _capacity(answers: Answers) -> int:
    """Capacity [Ah] at 25.6 V, in steps of 50."""
    return max(50 * math.ceil(bank_energy(answers) / 3600.0 / 25.6 / 50.0), 100)


def power(plan: Plan) -> str:
    """Bank, converter, shore and sun, and what takes power over the hours asked for."""
    answers, room = plan.answers, plan.room
    hours = answers.hours / 3600.0
    state = "record" if plan.has_quiet else "work"
    loads = {"gear": f"side: ac, of: equipment {room}", "lights": f"of: lights {room}", "fans": "of: fans"}
    if plan.has_quiet:
        loads["quiet_lights"] = "of: lights quiet_room"
    if plan.is_cooled:
        loads["cooler"] = f"side: ac, of: cooler {room}"
    rating = max(1.0, 0.5 * math.ceil(2.0 * (answers.gear + (600.0 if plan.is_cooled else 0.0)) / 500.0))
    lines = [
        "power:", f"  bank: {{voltage: 25.6 V, capacity: {_capacity(answers)} Ah}}",
        f"  converter: {{rating: {rating:g} kVA}}", "  sources:",
        "    shore: {shore: 40 A, in_states: [standing]}", "    roof: {solar: 300 W}", "  loads:",
        *(f"    {name}: {{{of}, states: [{state}]}}" for name, of in loads.items()),
        f"  day: [{{state: {state}, begins: {min(10.0, 24.0 - hours):g} h, duration: {hours:g} h}}]", "  days: 1",
    ]  # fmt: skip
    return "\n".join(lines) + "\n"


_EQUIPMENT = (("fire extinguisher", "3..4.5", 350), ("first aid kit", "0.5..1.5", 1500))
"""Name, mass [kg] and height [mm] of a small extinguisher and a kit for a few people; common practice, no source."""


def fittings(plan: Plan) -> str:
    """What is built in, each with a range of mass and how it is held."""
    bank = bank_capacity(plan.answers)
    low, high = (round(each * bank) for each in _PER_KILOWATT_HOUR)
    rows = [
        ("bank", f"{low}..{high}", 400, 200, "body", 4),
        ("converter and chargers", "15..30", 450, 400, "body", 4),
        ("desk and gear", "60..120", in_mm(plan.control_rear / 2.0), 750, "body", 6),
        ("cable", "15..35", 1500, 1000, "body", 20),
        ("panels on the roof", "18..30", 2000, in_mm(plan.height + 0.08), "body", 8),
    ]
    if plan.has_quiet:
        rows += [
            ("fans and boxes", "22..40", in_mm(plan.middle), 1600, "body", 8),
            ("quiet furniture", "15..40", in_mm(plan.middle), 500, "quiet", 4),
            ("mounts and brackets", "25..45", in_mm(plan.middle), 100, "body", 12),
        ]
    if plan.is_cooled:
        rows.append(("cooler", "25..40", 1000, in_mm(plan.height), "body", 6))
    rows += [(name, mass, in_mm(plan.control_rear - 0.2), height, "body", 4) for name, mass, height in _EQUIPMENT]
    return "fittings:\n" + "".join(
        f"  - {{name: {name}, mass: {mass} kg, station: {station}, height: {height}, fixed_to: [{body}], "
        f"restraint: {{anchors: {anchors}, strength: 4..8 kN}}}}\n"
        for name, mass, station, height, body, anchors in rows
    )
