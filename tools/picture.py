"""Draw the head of the demo's check as docs/check.svg, so that the README shows what the terminal shows.

Run as ``python -m tools.picture`` from the repository root.
"""

from __future__ import annotations

import subprocess
import sys
from html import escape
from pathlib import Path

ROOT = Path(__file__).resolve().parent.parent
DEMO = "examples/archive-van.yaml"
LINES = 46
COLUMNS = 100
CELL = (7.8, 17.0)
MARGIN = 18.0


def check_text() -> list[str]:
    """First lines of what `check` prints for the demo."""
    call = [sys.executable, "-m", "hushwright", "check", DEMO]
    done = subprocess.run(call, cwd=ROOT, capture_output=True, encoding="utf-8", check=False)
    return done.stdout.splitlines()[:LINES]


def drawing(lines: list[str]) -> str:
    """Text as an SVG page: one line of text a line, a plain border."""
    width = COLUMNS * CELL[0] + 2.0 * MARGIN
    height = len(lines) * CELL[1] + 2.0 * MARGIN
    rows = "\n".join(
        f'<text x="{MARGIN:.1f}" y="{MARGIN + (index + 0.75) * CELL[1]:.1f}" xml:space="preserve">{escape(line)}</text>'
        for index, line in enumerate(lines)
    )
    return (
        f'<svg xmlns="http://www.w3.org/2000/svg" width="{width:.0f}" height="{height:.0f}" '
        f'viewBox="0 0 {width:.0f} {height:.0f}" font-family="monospace" font-size="13" fill="#23302b">\n'
        f"<title>Verdicts of the demo van in a terminal</title>\n"
        f'<rect x="0.5" y="0.5" width="{width - 1:.0f}" height="{height - 1:.0f}" fill="#f6f4ee" stroke="#b9b4a6"/>\n'
        f"{rows}\n</svg>\n"
    )


if __name__ == "__main__":
    (ROOT / "docs" / "check.svg").write_text(drawing(check_text()), encoding="utf-8")
