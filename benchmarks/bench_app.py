"""Time from an edit to what the screen shows: text, form and drawing at once, then first numbers, then everything.

Run with ``python3 start.py bench app``. Aims on a quiet machine: everything within 300 ms of an edit, median, warm,
the demo; what the screen itself does (save, read, resolve, form, drawing) and the first, provisional numbers within
100 ms. Every time counts from the moment at which the value arrives. Times are wall times of a machine that does
nothing else; a window makes form, plan and tiles anew whenever it is told to, as in the app.
"""

import asyncio
import shutil
import socket
import statistics
import subprocess
import sys
import tempfile
import time
import urllib.request
from collections.abc import Iterable
from pathlib import Path

from hushwright.app import glance
from hushwright.app.computing import without_pauses
from hushwright.app.desk import Desk, OpenBuild
from hushwright.app.form import form_of
from hushwright.app.pictures import picture
from hushwright.app.taking import take_value
from hushwright.app.worker import Worker
from hushwright.app.workspace import Workspace
from hushwright.document.nodes import Path as Place
from hushwright.library.read import read_library

FILE = Path(__file__).resolve().parents[1] / "examples" / "archive-van.yaml"
DEMO = FILE.read_text(encoding="utf-8")
LAYER = ("surfaces", "quiet_room", "left", "layers")
EDITS: tuple[tuple[str, Place, tuple[str, ...]], ...] = (
    ("a dimension", ("brief", "tallest"), ("1801", "1802", "1803", "1804", "1805")),
    ("a limit of the brief", ("brief", "budget", "total"), ("57000", "57100", "57200", "57300", "57400")),
    ("the mass of a fitting", ("fittings", 5, "mass"), ("27 kg", "26 kg", "25 kg", "24 kg", "23 kg")),
    ("the schedule", ("power", "day", 9, "duration"), ("55 min", "58 min", "62 min", "65 min", "70 min")),
    ("a sheet", (*LAYER, 3, "thickness"), ("9.5", "10", "10.5", "11", "11.5")),
    ("coverage of a damper", (*LAYER, 1, "coverage"), ("56 %", "57 %", "58 %", "59 %", "60 %")),
    ("a cavity", (*LAYER, 2, "cavity"), ("92", "91", "90", "89", "88")),
    ("a dividing face", ("rooms", "quiet_room", "front"), ("1802", "1804", "1806", "1808", "1810")),
)
ON_SCREEN, FIRST, EVERYTHING = "text, form and plan", "first numbers", "everything"
AIMS = {ON_SCREEN: 0.100, FIRST: 0.100, EVERYTHING: 0.300}
PAGE_AIM, PAGES, PATIENCE = 1.500, 5, 30.0


class Window:
    """One window on the build, which notes when it shows what."""

    def __init__(self, opened: OpenBuild) -> None:
        self.opened = opened
        self.seen: dict[str, float] = {}
        opened.listen(self.show)

    def show(self) -> None:
        """Make anew what a page shows."""
        opened = self.opened
        reading, session = opened.reading, opened.session
        form_of(session.outline(), "brief", read_library(), reading.problems, {}, "metric")
        assert reading.build is not None, reading.problems
        picture(reading.build, "plan", 0.0, "metric")
        now = opened.shown.verdicts if opened.shown is not None else ()
        before = opened.compared.verdicts if opened.compared is not None else ()
        glance.tiles(now, before, "metric", provisional=opened.is_provisional)
        shown = ON_SCREEN
        if opened.is_provisional:
            shown = FIRST
        elif not opened.is_stale:
            shown = EVERYTHING
        self.seen.setdefault(shown, time.perf_counter())

    async def edit(self, path: Place, new: str) -> dict[str, float]:
        """Set a value, wait for everything, and tell how long each took."""
        self.seen.clear()
        entry = self.opened.session.outline().find(path)
        assert entry is not None, path
        begin = time.perf_counter()
        take_value(self.opened.session, path, new, entry.text)
        while EVERYTHING not in self.seen:
            await asyncio.sleep(0.001)
        self.seen.setdefault(FIRST, self.seen[EVERYTHING])
        return {name: at - begin for name, at in self.seen.items()}


def told(name: str, times: Iterable[float], aim: float) -> str:
    """One line: median and worst of a kind of time, and whether its aim is met."""
    found = sorted(times)
    median = statistics.median(found)
    return (
        f"{name:<26}{median:8.3f} s median{found[-1]:8.3f} s worst of {len(found)}   "
        f"aim {aim:.3f} s: {'met' if median <= aim else 'not met'}"
    )


def first_page() -> float:
    """Time from the command to the page of a build [s], in a new process; the browser's own time is not in it."""
    with tempfile.TemporaryDirectory() as folder, socket.socket() as trial:
        shutil.copy(FILE, Path(folder) / "van.yaml")
        trial.bind(("127.0.0.1", 0))
        port = trial.getsockname()[1]
        trial.close()
        begin = time.perf_counter()
        command = [sys.executable, "-P", "-m", "hushwright", "open", folder, "--port", str(port), "--no-show"]
        with subprocess.Popen(command, stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL) as running:
            while True:
                try:
                    urllib.request.urlopen(f"http://127.0.0.1:{port}/build/van.yaml", timeout=PATIENCE).read()
                    break
                except OSError:
                    if time.perf_counter() - begin > PATIENCE:
                        raise
                    time.sleep(0.005)
            taken = time.perf_counter() - begin
            running.terminate()
    return taken


def quiet_share() -> float:
    """Share of its time [-] that one process gets of a core: well below 1 the machine does something else too."""
    begin, used = time.perf_counter(), time.process_time()
    while time.process_time() - used < 0.5:
        sum(range(1000))
    return (time.process_time() - used) / (time.perf_counter() - begin)


async def main() -> None:
    """Print the tables."""
    print(f"a process gets {100.0 * quiet_share():.0f} % of a core; below 95 % these times say little")
    with tempfile.TemporaryDirectory() as folder:
        (Path(folder) / "van.yaml").write_text(DEMO, encoding="utf-8")
        worker = Worker()
        begin = time.perf_counter()
        worker.begin()
        opened = Desk(Workspace(Path(folder)), worker).open("van.yaml")
        window = Window(opened)
        opened.begin()
        while opened.is_stale:
            await asyncio.sleep(0.001)
        without_pauses()
        print(f"{worker.shares} processes; all numbers of the first text, from nothing: "
              f"{time.perf_counter() - begin:.3f} s")  # fmt: skip
        print(f"{'median (worst) after':<24}" + "".join(f"{name:>24}" for name in AIMS))
        every: dict[str, list[float]] = {name: [] for name in AIMS}
        for kind, path, values in EDITS:
            times = [await window.edit(path, new) for new in values]
            cells = []
            for name, found in every.items():
                here = [each[name] for each in times]
                found += here
                cells.append(f"{statistics.median(here):14.3f} ({max(here):.3f}) s")
            print(f"  {kind:<22}" + "".join(cells))
        begin = time.perf_counter()
        opened.session.undo()
        print(f"a step back, everything: {time.perf_counter() - begin:.3f} s")
        assert not opened.is_stale
        worker.stop()
    for name, aim in AIMS.items():
        print(told(name, every[name], aim))
    print(told("first page, a new process", [first_page() for _ in range(PAGES)], PAGE_AIM))
    print(f"at the end a process gets {100.0 * quiet_share():.0f} % of a core")


if __name__ == "__main__":
    asyncio.run(main())
