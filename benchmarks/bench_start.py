"""Start-up: start.py's own share, the command line's help, and what its imports cost.

Run with ``python3 start.py bench start``. Times are medians of fresh processes on the machine at hand.
"""

import importlib.util
import statistics
import subprocess
import sys
import time
from pathlib import Path
from types import ModuleType

ROOT = Path(__file__).resolve().parents[1]
ROUNDS = 9
SHOWN_IMPORTS = 12


def start_module() -> ModuleType:
    """Load start.py as a module, for its own words on where the environment is."""
    specification = importlib.util.spec_from_file_location("start", ROOT / "start.py")
    assert specification is not None
    assert specification.loader is not None
    module = importlib.util.module_from_spec(specification)
    specification.loader.exec_module(module)
    return module


def median_time(command: list[str]) -> float:
    """Median wall time of a fresh process [s]; one that breaks off is no measurement and ends the benchmark."""
    times = []
    for _round in range(ROUNDS):
        begun = time.perf_counter()
        done = subprocess.run(command, cwd=ROOT, stdin=subprocess.DEVNULL, capture_output=True, text=True, check=False)
        times.append(time.perf_counter() - begun)
        if done.returncode not in (0, 1) or "Traceback" in done.stderr:
            sys.exit(f"{' '.join(command[-2:])} broke off with {done.returncode}:\n{done.stderr[-600:]}")
    return statistics.median(times)


def imports_of(code: str) -> list[tuple[str, float, float]]:
    """Name, own and cumulated time [ms] of every import that the code makes."""
    done = subprocess.run(
        [sys.executable, "-P", "-X", "importtime", "-c", code],
        cwd=ROOT,
        stdin=subprocess.DEVNULL,
        capture_output=True,
        encoding="utf-8",
        check=False,
    )
    rows = []
    for line in done.stderr.splitlines():
        if line.startswith("import time:") and "self [us]" not in line:
            own, cumulated, name = line.removeprefix("import time:").split("|")
            rows.append((name.strip(), int(own) / 1000.0, int(cumulated) / 1000.0))
    return rows


def own_time_by_package(rows: list[tuple[str, float, float]]) -> list[tuple[str, float]]:
    """Own times summed by top package [ms], largest first."""
    totals: dict[str, float] = {}
    for name, own, _cumulated in rows:
        package = name.split(".")[0]
        totals[package] = totals.get(package, 0.0) + own
    return sorted(totals.items(), key=lambda item: -item[1])


def show(label: str, seconds: float, aim: float | None = None) -> None:
    """One line of the table."""
    against = "" if aim is None else f"   aim {aim * 1000:5.0f} ms"
    print(f"{label:<46}{seconds * 1000:8.0f} ms{against}")


def main() -> None:
    """Print the tables."""
    start = start_module()
    hand_over = [str(start.PYTHON), "-P", "-c", start.HAND_OVER]
    bare = median_time([str(start.PYTHON), "-P", "-c", "pass"])
    direct = median_time([*hand_over, "--help"])
    through_start = median_time([sys.executable, str(ROOT / "start.py"), "--help"])
    show("bare Python", bare)
    show("hushwright --help", direct, 0.150)
    show("start.py --help less hushwright --help", through_start - direct, 0.200)
    demo = ROOT / start.DEMO
    if demo.is_file():
        show("hushwright check, the demo, cold", median_time([*hand_over, "check", str(demo)]), 1.500)
    for arguments in (["hushwright", "--help"], ["hushwright", "check", str(demo)]):
        rows = imports_of(f"import sys; sys.argv = {arguments!r}; from hushwright.cli.main import run; run()")
        packages = own_time_by_package(rows)
        total = sum(own for _name, own in packages)
        print(f"\nImports of {arguments[1]}: {total:.0f} ms in {len(rows)} modules, by package")
        for name, own in packages[:SHOWN_IMPORTS]:
            print(f"  {name:<44}{own:8.1f} ms")


if __name__ == "__main__":
    main()
