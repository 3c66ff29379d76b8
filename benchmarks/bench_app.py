"""Time from an edit to what the screen shows: text, forms and drawings at once, numbers from the computing process.

Run with ``python3 start.py bench app``. Aims on a quiet machine: everything within 300 ms of an edit, median, warm,
the demo; what the screen itself does (read, resolve, form, drawing) within 100 ms, and the first, provisional numbers
within 100 ms. Times are wall times of a machine that does nothing else.
"""

import asyncio
import statistics
import tempfile
import time
from collections.abc import Callable
from pathlib import Path

from hushwright.app import glance
from hushwright.app.computing import Computed, read
from hushwright.app.form import form_of
from hushwright.app.pictures import picture
from hushwright.app.session import Session
from hushwright.app.worker import Worker
from hushwright.app.workspace import Workspace
from hushwright.library.read import read_library

DEMO = (Path(__file__).resolve().parents[1] / "examples" / "archive-van.yaml").read_text(encoding="utf-8")
LAYER = ("surfaces", "quiet_room", "left", "layers")
EDITS = (
    ("tallest person", ("brief", "tallest"), ("1801", "1802", "1803", "1804")),
    ("a sheet", (*LAYER, 3, "thickness"), ("9.5", "10", "10.5", "11")),
    ("a cavity", (*LAYER, 2, "cavity"), ("92", "91", "90", "89")),
    ("mass of a fitting", ("fittings", 5, "mass"), ("27 kg", "26 kg", "25 kg", "24 kg")),
    ("a dividing face", ("rooms", "quiet_room", "front"), ("1802", "1804", "1806", "1808")),
    ("limit of the brief", ("brief", "budget", "total"), ("57000", "57100", "57200", "57300")),
)
ON_SCREEN_AIM, FIRST_AIM, EVERYTHING_AIM = 0.100, 0.100, 0.300


def on_screen(session: Session) -> None:
    """What a window shows at once after an edit."""
    reading = read(session.text, session.name)
    form_of(session.outline(), "brief", read_library(), reading.problems, {}, "metric")
    assert reading.build is not None
    picture(reading.build, "plan", 0.0, "metric")


def timed(act: Callable[[], object]) -> float:
    begin = time.perf_counter()
    act()
    return time.perf_counter() - begin


async def main() -> None:
    """Print the tables."""
    with tempfile.TemporaryDirectory() as folder:
        (Path(folder) / "van.yaml").write_text(DEMO, encoding="utf-8")
        session, worker = Session(Workspace(Path(folder)), "van.yaml"), Worker()
        worker.begin()
        begin = time.perf_counter()
        known = await worker.compute(session.text, session.name)
        print(f"{worker.shares} processes; all numbers of the first text {time.perf_counter() - begin:6.3f} s")
        saved, screens, firsts, wholes = [], [], [], []
        print(f"{'median after an edit of':<28}{'first numbers':>15}{'everything':>12}")
        for kind, path, values in EDITS:
            first, everything = [], []
            for new in values:
                begin = time.perf_counter()
                session.set_values({path: new})
                saved.append(time.perf_counter() - begin)
                screens.append(timed(lambda: on_screen(session)))
                computing = time.perf_counter()
                already = read(session.text, session.name)

                def early(found: Computed, since: float = computing, times: list[float] = first) -> None:
                    glance.tiles(found.verdicts, (), "metric", provisional=True)
                    times.append(time.perf_counter() - since)

                known = await worker.compute(session.text, session.name, already, early, known)
                assert known is not None
                assert known.evaluation is not None, known.problems
                glance.tiles(known.verdicts, (), "metric")
                everything.append(time.perf_counter() - computing)
            print(f"  {kind:<26}{statistics.median(first):13.3f} s{statistics.median(everything):10.3f} s")
            firsts += first
            wholes += everything
        worker.stop()
    for name, times, aim in (
        ("edit, saved", saved, None), ("text, form and plan", screens, ON_SCREEN_AIM),
        ("first numbers, tiles", firsts, FIRST_AIM), ("everything", wholes, EVERYTHING_AIM),
    ):  # fmt: skip
        median = statistics.median(times)
        said = "" if aim is None else f"   aim {aim:.3f} s: {'met' if median <= aim else 'not met'}"
        print(f"{name:<28} {median:7.3f} s median, {max(times):7.3f} s worst of {len(times)}{said}")


if __name__ == "__main__":
    asyncio.run(main())
