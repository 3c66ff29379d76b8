"""Sketches of a panel van in text, with the letters that the measure sheet uses."""

from __future__ import annotations

from typing import Final

SKETCHES: Final[tuple[tuple[str, str], ...]] = (
    (
        "Section, seen from the rear doors",
        r"""
              ┌───────────────────────────┐  roof skin
             ╱ ═══════════════════════════ ╲ ← bow, depth E
            ╱        ↑                      ╲
           │         │           width C at  │
           │←────────┼── each height B ─────→│  skin to skin
           │         │                       │
           │▌        │ A  floor to bow      ▐│ ← rib, depth F, flange G
           │▌        │                      ▐│
           │▌        ↓                      ▐│
           ├───┐ ←────── between H ─────→ ┌──┤
           │box│ I height                 │  │
           └───┴──────── steel floor ─────┴──┘
                         ↕ K floor over ground
        ═════════════════════════════════════════  ground, level""",
    ),
    (
        "Side, from the left; stations run rearward from the B-pillar line",
        r"""
         ┌──────────╥───────────────────────────────────┐
        ╱  cab      ║   │   │   │   │   │   │   │   │    │ ← ribs, spacing L
       ╱            ║   │   │   │   │   │   │   │   │    │
      │             ║←─────────── load length M ────────→│ rear doors
      └──(O)────────╨──────────────────────(O)───────────┘
          ↑         ↑              ↑   ╰────╯   ↑
          N         0, B-pillar    P front of   Q rear of the wheel box
      front axle    line           the wheel box
          ←── negative │ positive ──→      R rear axle""",
    ),
    (
        "Sheet of the side, from inside, between two ribs",
        r"""
      rib │                       │ rib
          │   ≈≈≈≈≈≈≈≈≈≈≈≈≈≈≈≈≈   │     S thickness: at a drilled edge or by ultrasonic gauge
          │   ≈≈≈≈≈ beads ≈≈≈≈≈   │     T beads: depth and spacing, how much of the bay they fill
          │   ≈≈≈≈≈≈≈≈≈≈≈≈≈≈≈≈≈   │     U roof: rise of the curve over a straight edge across it""",
    ),
)
"""Title and lines of each sketch."""

LOOK: Final = "look"
"""Stands for a letter where a word is the answer."""

HOW: Final[dict[str, tuple[str, str]]] = {
    "floor_to_bow": ("A", "steel floor to the underside of a bow on the centre line, at three stations"),
    "widths.height": ("B", "height over the steel floor at which the width is taken"),
    "widths.width": ("C", "skin to skin, straight across, between two ribs"),
    "widths": ("B C", "skin to skin at the floor, at table height, at shoulder height and under the bows"),
    "bows.depth": ("E", "roof skin to the underside of a bow"),
    "bows.spacing": ("E", "bow to bow, centre lines, along the roof"),
    "ribs.depth": ("F", "skin to the inner edge of a rib, at the deepest rib"),
    "ribs.width": ("G", "width of the inner flange of a rib"),
    "ribs.spacing": ("L", "rib to rib, centre lines, along the side"),
    "wheel_boxes.between": ("H", "clear width between the wheel boxes"),
    "wheel_boxes.height": ("I", "top of a wheel box over the steel floor"),
    "wheel_boxes.front": ("P", "station of the front edge of a wheel box"),
    "wheel_boxes.rear": ("Q", "station of the rear edge of a wheel box"),
    "floor_over_ground": ("K", "steel floor over level ground, at the rear doors, van empty"),
    "load_length": ("M", "B-pillar line to the rear doors, at the floor"),
    "front_axle": ("N", "station of the front wheel centres; negative, before the B-pillar line"),
    "rear_axle": ("R", "station of the rear wheel centres"),
    "skin.thickness": ("S", "thickness of the side sheet, paint off, at three places"),
    "skin.beading": ("T", "depth, width and spacing of the beads; a photograph beside a rule"),
    "skin.roof_radius": ("U", "straight edge of known length across the roof, rise in its middle"),
    "kerb.total": ("scale", "weighbridge, van as it comes, tank full, nobody in it"),
    "kerb.front": ("scale", "weighbridge, front axle alone"),
    "kerb.rear": ("scale", "weighbridge, rear axle alone"),
    "track_width": ("tape", "middle of one tyre to middle of the other, front and rear, their mean"),
    "kerb_height": ("scale", "from the maker, or by weighing with the rear axle raised (ISO 10392)"),
    "ribs.first": ("L", "station of the first rib's centre line behind the B-pillar line"),
    "bows.first": ("L", "station of the first bow's centre line"),
    "driver_side": (LOOK, "on which side the driver sits, left or right, seen in the direction of travel"),
    "plated.total": ("plate", "maker's plate: total"),
    "plated.front": ("plate", "maker's plate: front axle"),
    "plated.rear": ("plate", "maker's plate: rear axle"),
}
"""What to measure for a field of the vehicle: letter of the sketch, and how."""


def how_to_measure(path: str) -> tuple[str, str]:
    """Letter and way for a path under ``vehicle``; list positions do not matter.

    Examples
    --------
    >>> how_to_measure("vehicle.widths.2.width")
    ('C', 'skin to skin, straight across, between two ribs')
    """
    keys = [key for key in path.split(".")[1:] if not key.isdecimal()]
    return HOW.get(".".join(keys), ("", ""))


def legend() -> list[tuple[str, str]]:
    """Every letter of the sketches with what is measured there, in the order of the alphabet.

    Examples
    --------
    >>> legend()[0]
    ('A', 'steel floor to the underside of a bow on the centre line, at three stations')
    """
    found: dict[str, str] = {}
    for letter, how in HOW.values():
        if len(letter) == 1:
            found[letter] = f"{found[letter]}; {how}" if letter in found else how
    return sorted(found.items())
