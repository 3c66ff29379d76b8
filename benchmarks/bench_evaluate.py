"""Evaluate the demo: cold, warm and after one edit, by part; ratios within the run.

Run with ``python3 start.py bench evaluate``. Times are processor times of this process on the machine at hand.
"""

import statistics
import time
from collections.abc import Callable
from pathlib import Path

from hushwright.document.read import read_document_text
from hushwright.evaluation.couple import couple
from hushwright.evaluation.evaluate import changes_of, completed, evaluate, evaluate_nominal
from hushwright.evaluation.held import held_geometry
from hushwright.evaluation.sensitivity import with_contributions
from hushwright.library.read import read_library
from hushwright.model.build import Build
from hushwright.model.resolve import moved, resolve

DEMO = (Path(__file__).resolve().parents[1] / "examples" / "archive-van.yaml").read_text(encoding="utf-8")
FIRST_AIM, AIM = 0.100, 0.300  # s, after one edit: every number, and what the inputs add to its uncertainty
EDITS = (
    ("a cavity", "cavity: 93", "cavity: {}", (92, 91, 90, 89)),
    ("coverage of the dampers", "coverage: 55 %", "coverage: {} %", (56, 57, 58, 59)),
    ("a slit", "residual_gap: 0..0.1 mm", "residual_gap: {} mm", (0.11, 0.12, 0.13, 0.14)),
    ("the tallest person", "tallest: 1800", "tallest: {}", (1801, 1802, 1803, 1804)),
    ("coverage of an absorber", "coverage: 30 %", "coverage: {} %", (31, 32, 33, 34)),
)


def build_of(text: str) -> Build:
    """Build of a file's text."""
    document, _ = read_document_text(text, "demo.yaml")
    build, diagnostics = resolve(document, read_library())
    assert build is not None, diagnostics
    return build


def timed(action: Callable[[], object]) -> float:
    """Processor time of one call [s]."""
    begun = time.process_time()
    action()
    return time.process_time() - begun


def after(build: Build) -> tuple[float, float]:
    """Processor time until every number of an edited build is there, and until their uncertainty is, too [s]."""
    begun = time.process_time()
    nominal, core = evaluate_nominal(build)
    first = time.process_time() - begun
    completed(nominal, changes_of(nominal, core, nominal.build.inputs))
    return first, time.process_time() - begun


def show(label: str, seconds: float, reference: float) -> None:
    """One line of the table."""
    print(f"{label:<46}{seconds * 1000:9.1f} ms{seconds / reference:8.2f}")


def main() -> None:
    """Print the tables."""
    build = build_of(DEMO)
    print(f"{'':<46}{'':>12}  of cold")
    core_cold = timed(lambda: couple(build))
    rest = timed(lambda: evaluate(build))
    cold = core_cold + rest
    show("evaluate, cold", cold, cold)
    show("  of it the nominal build", core_cold, cold)
    show("  of it inputs, faces, rooms", rest, cold)
    warm = statistics.median(timed(lambda: evaluate(build)) for _ in range(5))
    show("evaluate, warm, nothing changed", warm, cold)
    core = couple(build)
    show("  of it couple", timed(lambda: couple(build)), cold)
    show(f"  of it {len(build.inputs)} inputs", timed(lambda: with_contributions(build, core)), cold)
    path, shift = build.inputs[-1].path, build.inputs[-1].standard_uncertainty
    other = moved(build, {path: shift})
    assert other is not None
    show("  resolve the whole file", timed(lambda: resolve(build.document, build.library, shifts={path: shift})), cold)
    show("  resolve what one input moves", timed(lambda: moved(build, {path: shift})), cold)
    show("  hold shapes, one input", timed(lambda: held_geometry(other, build)), cold)
    for label, old, new, values in EDITS:
        first, whole = zip(*(after(build_of(DEMO.replace(old, new.format(value)))) for value in values), strict=True)
        show(f"numbers after changing {label}", statistics.median(first), cold)
        show("  with what the inputs add", statistics.median(whole), cold)
    print(
        f"aims: numbers {FIRST_AIM * 1000:.0f} ms, all {AIM * 1000:.0f} ms; the app deals the inputs out to processes"
    )


if __name__ == "__main__":
    main()
