"""Papers of the demo beyond its evaluation: composing and setting each, and the dossier against its aim.

Run with ``python3 start.py bench report``. Times are processor times of this process on the machine at hand.
"""

import time
from pathlib import Path

from hushwright.document.read import read_document_text
from hushwright.evaluation.cost.options import options_of
from hushwright.evaluation.evaluate import evaluate
from hushwright.library.read import read_library
from hushwright.model.resolve import resolve
from hushwright.report.papers.common import Case
from hushwright.report.papers.every_paper import PAPERS
from hushwright.report.papers.setting import paper_pdf
from hushwright.verdicts.judge import judge

DEMO = (Path(__file__).resolve().parents[1] / "examples" / "archive-van.yaml").read_text(encoding="utf-8")
AIM = 3.0  # s, dossier beyond evaluate


def main() -> None:
    """Print the table."""
    document, _ = read_document_text(DEMO, "demo.yaml")
    build, diagnostics = resolve(document, read_library())
    assert build is not None, diagnostics
    begun = time.process_time()
    evaluation = evaluate(build)
    print(f"{'evaluate, cold':<20}{time.process_time() - begun:8.2f} s")
    begun = time.process_time()
    options = options_of(build)
    print(f"{'options':<20}{time.process_time() - begun:8.2f} s")
    case = Case(evaluation, judge(evaluation), options, "metric")
    for name, make in PAPERS.items():
        begun = time.process_time()
        paper = make(case)
        composed = time.process_time()
        pdf = paper_pdf(paper, build, "metric")
        done = time.process_time()
        told = f"   aim {AIM:.0f} s" if name == "dossier" else ""
        size = f"{len(pdf) / 1000:.0f} kB"
        print(f"{name:<20}{done - begun:8.2f} s, of it composing {composed - begun:.2f} s, {size}{told}")


if __name__ == "__main__":
    main()
