"""Time from an edit to what the screen shows: text, forms and drawings at once, numbers from the computing process.

Run with ``python3 start.py bench app``. Aims on a quiet machine: everything within 300 ms of an edit, median, warm,
the demo; what the screen itself does (set, read, resolve, form, drawing) within 100 ms. Times are wall times.
"""

import asyncio
import statistics
import tempfile
import time
from collections.abc import Callable
from pathlib import Path

from hushwright.app import glance
from hushwright.app.computing import read
from hushwright.app.form import form_of
from hushwright.app.pictures import picture
from hushwright.app.session import Session
from hushwright.app.worker import Worker
from hushwright.app.workspace import Workspace
from hushwright.library.read import read_library

DEMO = (Path(__file__).resolve().parents[1] / "examples" / "archive-van.yaml").read_text(encoding="utf-8")
EDITS = tuple((("brief", "tallest"), f"{value}") for value in range(1801, 1812)) + tuple(
    (("surfaces", "quiet_room", "left", "layers", 3, "thickness"), f"{value}") for value in (9.5, 10, 10.5, 11, 12)
)
ON_SCREEN_AIM, EVERYTHING_AIM = 0.100, 0.300


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
    with tempfile.TemporaryDirectory() as folder:
        (Path(folder) / "van.yaml").write_text(DEMO, encoding="utf-8")
        session, worker = Session(Workspace(Path(folder)), "van.yaml"), Worker()
        begin = time.perf_counter()
        await worker.compute(session.text, session.name)
        print(f"first numbers, a new process {time.perf_counter() - begin:7.3f} s")
        edits, screens, numbers, everything = [], [], [], []
        for path, new in EDITS:
            whole = time.perf_counter()
            edits.append(timed(lambda path=path, new=new: session.set_values({path: new})))
            screens.append(timed(lambda: on_screen(session)))
            begin = time.perf_counter()
            computed = await worker.compute(session.text, session.name, read(session.text, session.name))
            assert computed is not None
            glance.tiles(computed.verdicts, (), "metric")
            numbers.append(time.perf_counter() - begin)
            everything.append(time.perf_counter() - whole)
        worker.stop()
    for name, times, aim in (
        ("edit, saved", edits, None), ("text, form and plan", screens, ON_SCREEN_AIM),
        ("numbers and tiles", numbers, None),
        ("everything", everything, EVERYTHING_AIM),
    ):  # fmt: skip
        median = statistics.median(times)
        said = "" if aim is None else f"   aim {aim:.3f} s: {'met' if median <= aim else 'not met'}"
        print(f"{name:<28} {median:7.3f} s median of {len(times)}{said}")


if __name__ == "__main__":
    asyncio.run(main())
