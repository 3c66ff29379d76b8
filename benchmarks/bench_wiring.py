"""Wiring against the number of circuits; the aim is half a millisecond a circuit, so that a check does not feel it.

Run with ``python3 start.py bench wiring``. Times are processor times of this process on the machine at hand.
"""

import time

from hushwright.evaluation.wiring.parts import circuit_result
from hushwright.model.wiring_in_place import CircuitInPlace, FuseInPlace, Links, WiringInPlace

AIM = 0.5e-3  # s a circuit
COUNTS = (10, 20, 40, 80, 160)


def circuit(index: int) -> CircuitInPlace:
    """One of many circuits behind a main lead, its conductor and fuse left out."""
    main = index == 0
    return CircuitInPlace(
        f"circuit_{index}", "bank" if main else "board", ("board",) if main else (f"load_{index}",), "bank",
        () if main else ("circuit_0",), False, 25.6, 100.0 if main else 1.0 + index % 9, 1.0 + index % 7, "", ("body",),
        (1.0, 0.0, 0.5), None, "", 105.0, False, 2 + index % 12, 0.03,
        FuseInPlace(None, "class T", 20_000.0, 0.1, False, ""), None, None, "power.circuits",
    )  # fmt: skip


def wiring(count: int, *, moved: float = 0.0) -> WiringInPlace:
    """A net of a number of circuits; ``moved`` makes it another one, which nothing has kept."""
    return WiringInPlace("ABYC E-11", "mm2", 230.0, 0.65, tuple(circuit(index) for index in range(count)),
                         Links(None, None, None, "", False), (None, ""), 25.6 + moved, 0.008, (), (), "")  # fmt: skip


def seconds(count: int) -> float:
    """Shortest time of five nets of a number of circuits: conductors, fuses, shorts."""
    times = []
    for attempt in range(5):
        net = wiring(count, moved=1e-3 * (attempt + 1) + 1e-6 * count)
        start = time.process_time()
        for each in net.circuits:
            circuit_result(net, each)
        times.append(time.process_time() - start)
    return min(times)


def main() -> None:
    """Print the time of nets of growing size."""
    for count in COUNTS:
        found = seconds(count)
        met = "met" if found / count < AIM else "missed"
        print(f"{count:4d} circuits {1000.0 * found:7.2f} ms, {1e6 * found / count:4.0f} µs each; aim {met}")


if __name__ == "__main__":
    main()
