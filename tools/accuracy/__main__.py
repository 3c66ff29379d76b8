"""``python -m tools.accuracy`` writes docs/accuracy.md; ``python -m tools.accuracy fit`` sets the constants first."""

from __future__ import annotations

import subprocess
import sys

from tools.accuracy import fit
from tools.accuracy.score import compare
from tools.accuracy.write import PAGE, page


def main(arguments: list[str]) -> int:
    """Run one of the two jobs."""
    if arguments == ["fit"]:
        fit.write_constants(fit.fit())
        # New constants only count in a new interpreter.
        for job in ("spread", "page"):
            subprocess.run([sys.executable, "-m", "tools.accuracy", job], check=True)
        return 0
    if arguments == ["spread"]:
        fit.write_spread(compare()[0])
        return 0
    if arguments in ([], ["page"]):
        PAGE.write_text(page(*compare()), encoding="utf-8")
        return 0
    sys.stderr.write("usage: python -m tools.accuracy [fit | spread | page]\n")
    return 2


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
