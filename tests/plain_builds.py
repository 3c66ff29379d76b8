"""Tiny build files as text, plain enough to be worked out by hand: one leaf, no ribs that matter, hard faces."""

HEAVY, LIGHT = "heavy sheet", "light sheet"
FACES = ("left", "right", "ceiling", "floor", "front", "rear")
NOTHING_PASSES = "        - {limp: heavy sheet, thickness: 30}\n"  # 600 kg/m²
ONE_LEAF = "        - {limp: light sheet, thickness: 1}\n"  # 5 kg/m²

_VEHICLE = """\
vehicle:
  load_length: 2460
  floor_to_bow: 2000
  widths: [{height: 0, width: 1800}, {height: 1000, width: 1800}, {height: 2000, width: 1800}]
  ribs: {depth: 0, spacing: 2000, width: 60}
  bows: {depth: 0, spacing: 2000}
  wheel_boxes_present: no
  front_axle: -1000
  rear_axle: 2000
  kerb: {total: 2000 kg, front: 1200 kg, rear: 800 kg}
  plated: {total: 3500 kg, front: 1800 kg, rear: 2200 kg}
"""
_LIBRARY = """\
library:
  limp_barriers:
    - {name: heavy sheet, source: invented, density: 20000 kg/m3}
    - {name: light sheet, source: invented, density: 5000 kg/m3}
"""
_HEAD = """\
hushwright: 1
lengths: mm
brief:
  tallest: 1700
  shoes: 20
  clearance: 10
  shoulder_width: 600
  person_mass: 75 kg
  crew_on_the_road: 2
  air_temperature: 20 °C
"""


def faces(room: str, **layers: str) -> str:
    """Build-ups of one room: nothing passes except where ``layers`` says otherwise; "" leaves a face out."""
    lines = [f"  {room}:\n"]
    for face in FACES:
        text = layers.get(face, NOTHING_PASSES)
        if text:
            lines.append(f"    {face}:\n      layers:\n{text}")
    return "".join(lines)


def plain_build(
    brief: str = "", rest: str = "", vehicle: str = _VEHICLE, library: str = _LIBRARY, **layers: str
) -> str:
    """One hard quiet room of 2.4 m between its finished ends, empty of people.

    ``brief`` and ``rest`` are further lines; ``layers`` the build-up of a face.
    """
    return (
        f"{_HEAD}{brief}{vehicle}rooms:\n  quiet_room: {{purpose: quiet, front: 30, rear: 2430}}\n"
        f"surfaces:\n{faces('quiet_room', **layers)}{rest}"
        f"states:\n  record:\n    people: {{quiet_room: 0}}\n    takes: yes\n  drive:\n    road: yes\n{library}"
    )


def two_rooms(brief: str = "", rest: str = "", front: str = NOTHING_PASSES, state: str = "", **ahead: str) -> str:
    """A control room and a quiet room, both hard and 2.4 m long, with one leaf between them."""
    vehicle = _VEHICLE.replace("load_length: 2460", "load_length: 4890")
    return (
        f"{_HEAD}{brief}{vehicle}rooms:\n"
        "  control_room: {purpose: control, front: 30, rear: 2430}\n"
        "  quiet_room: {purpose: quiet, front: 2460, rear: 4860}\n"
        f"surfaces:\n{faces('quiet_room', front=front)}{faces('control_room', rear='', **ahead)}{rest}"
        f"states:\n  record:\n    people: {{quiet_room: 0, control_room: 0}}\n    takes: yes\n{state}{_LIBRARY}"
    )
