"""A metric build file rewritten in US customary units, for tests that both give the same room."""

import re

_LENGTHS = (
    "tallest|shoes|clearance|shoulder_width|load_length|floor_to_bow|floor_over_ground|height|width|thickness|depth|"
    "spacing|between|front|rear|front_axle|rear_axle|bearer_depth|bearer_width|bearer_spacing|fill_thickness|cavity|"
    "sill|offset|reveal|diameter|inset|free_height|snubber_gap|station|headroom|is|reducer|baffle_box|lining|passage|"
    "radius|straight|flexible|from_people|first|at|handle_distance|hinge_spacing|threshold|base_length|base_width|"
    "base_height|track_width|distance|length|reach|seat_height|desk_underside|clear_width|clear_height|from_edge|"
    "from_skin|bank_to_skin"
)
_BARE = re.compile(rf"\b({_LENGTHS}): (-?\d+(?:\.\d+)?)(?=[,}}\s])(?! (?:(?:kg|mm|m|N|dB|s|l/s)\b|%))")
_NUMBER = r"(-?\d+(?:\.\d+)?)"
_WITH_UNIT = (
    ("mm/h", "in/h", 1.0 / 25.4),
    ("N/mm", "lbf/in", 5.710147162769201),
    ("kg/m3", "lb/ft3", 0.06242796057614462),
    ("mm", "in", 1.0 / 25.4),
    ("kg", "lb", 1.0 / 0.45359237),
    ("m", "ft", 1.0 / 0.3048),
)


def in_us_units(text: str) -> str:
    """Same file with inches, feet, pounds and degrees Fahrenheit; names of materials keep their figures."""
    text = text.replace("lengths: mm", "lengths: in")
    text = _BARE.sub(lambda found: f"{found[1]}: {float(found[2]) / 25.4:.9f}", text)
    for unit, other, factor in _WITH_UNIT:
        pattern = re.compile(rf"(?<=[ .]){_NUMBER}(\.\.{_NUMBER})? {re.escape(unit)}(?=[,}}\s])")
        text = "".join(_line(line, pattern, other, factor) for line in text.splitlines(keepends=True))
    return re.sub(rf"{_NUMBER} °C", lambda found: f"{float(found[1]) * 1.8 + 32.0:.6f} °F", text)


def _line(line: str, pattern: re.Pattern[str], unit: str, factor: float) -> str:
    def rewritten(found: re.Match[str]) -> str:
        if line[: found.start()].rstrip().endswith(("rock wool", "floor mount")):
            return found[0]  # part of a name
        second = f"..{float(found[3]) * factor:.9f}" if found[3] else ""
        return f"{float(found[1]) * factor:.9f}{second} {unit}"

    return pattern.sub(rewritten, line)
