"""A year of power at five minutes, and what days and loads cost.

Run with ``python3 start.py bench power``. Times are processor times of this process on the machine at hand.
"""

import time
from collections.abc import Callable
from dataclasses import replace
from functools import partial
from pathlib import Path

import numpy as np

from hushwright.document.read import read_document
from hushwright.evaluation.air.air import air_states
from hushwright.evaluation.heat.heat import heat_of_build
from hushwright.evaluation.power.case import Powered, powered
from hushwright.evaluation.power.days import days_of
from hushwright.evaluation.power.power import law_of
from hushwright.library.read import read_library
from hushwright.model.power_in_place import LoadOnBank
from hushwright.model.resolve import resolve
from hushwright.physics.electrical.bank_run import BankLaw, run_bank

AIM_YEAR = 5.0  # s
AIM_DAYS = 0.05  # s
STEP = 300.0  # s
DEMO = Path(__file__).parents[1] / "examples" / "archive-van.yaml"


def seconds(work: Callable[[], object], times: int = 3) -> float:
    """Shortest processor time of several runs."""
    found = []
    for _ in range(times):
        begun = time.process_time()
        work()
        found.append(time.process_time() - begun)
    return min(found)


def one_year() -> None:
    """A year on end in one case, and twelve months side by side."""
    bank = BankLaw(8, 200.0, 0.008, 0.995, 0.2, 1.0, 200.0, 100.0)
    steps = round(365 * 86_400.0 / STEP)
    hour = (np.arange(steps) * STEP / 3600.0) % 24.0
    sun = 300.0 * np.maximum(np.cos((hour - 12.0) / 3.8), 0.0)
    wanted = np.where((hour > 10.0) & (hour < 17.0), -500.0, -12.0) + sun
    on_end = wanted[:, np.newaxis]
    beside = wanted[: 12 * (steps // 12)].reshape(12, -1).T
    for name, rows in (("a year on end", on_end), ("twelve months side by side", beside)):
        found = seconds(partial(run_bank, bank, np.ones(rows.shape[1]), rows, np.ones(rows.shape), STEP))
        met = "met" if found < AIM_YEAR else "missed"
        print(f"{name:40}{1000.0 * found:9.1f} ms; aim {1000.0 * AIM_YEAR:.0f} ms {met}")


def demo() -> Powered:
    """Power of the demo."""
    document, problems = read_document(DEMO)
    assert document is not None, problems
    build, problems = resolve(document, read_library())
    assert build is not None, problems
    air = air_states(build, {})
    found = powered(build, air, heat_of_build(build, air, {}))
    assert found is not None
    return found


def with_loads(case: Powered, count: int) -> Powered:
    """The demo with further loads."""
    more = tuple(LoadOnBank(f"more {index}", "dc", 1.0, ("", ""), 1.0, ("record",), 0.0, 1.0, "power.loads")
                 for index in range(count))  # fmt: skip
    return replace(case, power=replace(case.power, loads=(*case.power.loads, *more)))


def main() -> None:
    """Print the times."""
    one_year()
    case = demo()
    assert case.power.bank is not None
    law = law_of(case.power.bank)
    for days in (2, 7, 30):
        longer = replace(case, power=replace(case.power, days=days))
        found = seconds(partial(days_of, longer, law))
        print(f"{'demo, fourteen cases twice, days':34}{days:6d}{1000.0 * found:9.1f} ms")
    for count in (0, 20, 80):
        larger = with_loads(case, count)
        found = seconds(partial(days_of, larger, law))
        print(f"{'demo, two days, further loads':34}{count:6d}{1000.0 * found:9.1f} ms")
    found = seconds(partial(days_of, case, law))
    print(f"aim {1000.0 * AIM_DAYS:.0f} ms for the demo: {'met' if found < AIM_DAYS else 'missed'}")


if __name__ == "__main__":
    main()
