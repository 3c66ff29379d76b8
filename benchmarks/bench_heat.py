"""A year of heat in two rooms at five minutes; the aim is one second.

Run with ``python3 start.py bench heat``. Times are processor times of this process on the machine at hand.
"""

import time

import numpy as np

from hushwright.physics.thermal.network import run_network
from hushwright.physics.thermal.rooms import Cooler, Drive, Envelope, Heater, HeatNetwork, RoomNode

AIM = 1.0  # s
STEP = 300.0  # s


def two_rooms() -> HeatNetwork:
    """Two rooms with four faces each, a wall between them, heaters and a cooler."""
    faces = (("left", 4.0), ("right", 4.0), ("roof", 3.0), ("outside", 3.0))
    walls = [
        Envelope(f"{room} {face}", room, face, area, 0.04, 4e3, 1.5, 15e3, 0.13)
        for room in ("quiet", "control")
        for face, area in faces
    ]
    walls.append(Envelope("dividing", "quiet", "control", 3.0, 0.13, 15e3, 1.0, 15e3, 0.13))
    return HeatNetwork(
        (RoomNode("quiet", 6.5, 3e4), RoomNode("control", 8.0, 5e4)),
        tuple(walls),
        (Heater("quiet", 1000.0, 20.0), Heater("control", 1500.0, 20.0)),
        (Cooler("quiet", 1600.0, 3.0, 24.0),),
    )


def one_year() -> Drive:
    """Weather of a plain year and a session on every day."""
    count = round(365 * 86_400.0 / STEP)
    day = (np.arange(count) + 0.5) * STEP / 86_400.0
    air = 10.0 - 10.0 * np.cos(2.0 * np.pi * day / 365.0) - 5.0 * np.cos(2.0 * np.pi * day)
    sun = np.maximum(-np.cos(2.0 * np.pi * day), 0.0) * (1.0 - 0.5 * np.cos(2.0 * np.pi * day / 365.0))
    busy = ((day % 1.0 > 0.4) & (day % 1.0 < 0.7)).astype(float)
    return Drive(
        STEP,
        {"outside": air, "left": air + 10.0 * sun, "right": air + 8.0 * sun, "roof": air + 25.0 * sun},
        np.full(count, 0.7),
        flows={
            ("outside", "control"): 0.06 * busy + 0.002,
            ("control", "quiet"): 0.033 * busy,
            ("quiet", "outside"): 0.033 * busy,
        },
        gains={("quiet", "people"): 300.0 * busy, ("control", "equipment"): 400.0 * busy},
        vapour={"quiet": 7e-5 * busy},
        cooler_allowed={"quiet": busy},
        heater_allowed={"quiet": busy, "control": busy},
    )


def main() -> None:
    """Print the time of a year."""
    network, drive = two_rooms(), one_year()
    times = []
    for _ in range(3):
        begun = time.process_time()
        run = run_network(network, drive, 10.0)
        times.append(time.process_time() - begun)
    print(f"a year at {STEP:.0f} s, two rooms, {run.temperature.shape[0]} nodes{min(times) * 1000:9.1f} ms")
    print(f"aim {AIM * 1000:.0f} ms: {'met' if min(times) < AIM else 'missed'}; imbalance {run.heat_imbalance:.1e}")


if __name__ == "__main__":
    main()
