"""A small van judged by hand: every kind of outcome, so that screens can be read without computing anything."""

from collections.abc import Iterator
from dataclasses import replace
from pathlib import Path

import pytest
from tests.user.browser import WRONG

from hushwright.document.read import read_document_text
from hushwright.evaluation.results import (
    AtNeighbours,
    Background,
    BetweenRooms,
    Contribution,
    Evaluation,
    FacePrediction,
    Line,
    MassResult,
    MountLoad,
    MountsResult,
    PathLevel,
    Resonance,
    SpaceResult,
    StackItem,
)
from hushwright.library.read import read_library
from hushwright.model.resolve import resolve
from hushwright.verdicts.verdict import Verdict

SMALL = """\
hushwright: 1
title: Small van
brief:
  tallest: 1.80 m
vehicle: {}
"""
N = 27


def some_paths() -> tuple[PathLevel, ...]:
    names = ("quiet_room.left", "quiet_room.ceiling", "slit of quiet_door", "duct", "window", "gap", "quiet_room.floor")
    shares = (0.42, 0.25, 0.14, 0.1, 0.06, 0.02, 0.01)
    return tuple(
        PathLevel(name, tuple(30.0 * share + 20.0 for _ in range(N)), (4.0,) * N, 30.0 + share, share, "vehicle.ribs")
        for name, share in zip(names, shares, strict=True)
    )


def some_verdicts() -> tuple[Verdict, ...]:
    fair = Verdict(
        id="quiet-fair", group="quiet", question="Is the quiet room quiet enough at the fair?", state="record",
        kind="NC", value=38.2, limit=25.0, sense="at_most", margin=-13.2, uncertainty=3.0, chance=1e-5,
        verdict="fails", basis="target in the build file", place="brief.tallest",
        reason="bass of the fairground", hint="a cavity of 140 mm instead of 93 mm, or park 40 m away",
        lines=(Line("dB(A)", 43.1, "dB(A)", "43.1 dB(A) ±6"), Line("voice bands", 30.0, "dB", "NC 28 from 200 Hz")),
        contributions=(Contribution("vehicle.ribs.depth", "rib depth", 1.2),), method_uncertainty=2.7,
    )  # fmt: skip
    quay = replace(
        fair, id="quiet-quay", question="Is the quiet room quiet enough on the quay?", kind="level_a", value=33.1,
        limit=35.0, margin=1.9, uncertainty=3.0, chance=0.74, verdict="unproven", reason="margin inside 2u",
        lines=(), validity=("duct noise is not computed",),
        contributions=(Contribution("vehicle.ribs.depth", "rib depth", 2.0),
                       Contribution("vehicle.skin.thickness", "skin thickness", 1.0)), method_uncertainty=2.0,
    )  # fmt: skip
    headroom = Verdict(
        id="headroom", group="space", question="Does the tallest person stand upright?", state="", kind="length",
        value=1.898, limit=1.85, sense="at_least", margin=0.048, uncertainty=0.004, chance=1.0, verdict="meets",
        basis="tallest person, shoes 30 mm and clearance 20 mm", place="brief.tallest",
        caution="Restrain 120 kg of floor as local codes ask; licensed practice decides.",
    )  # fmt: skip
    none = Verdict(
        id="rain", group="quiet", question="Is it quiet in the rain?", state="record", kind="level_a", value=None,
        limit=None, sense="at_most", margin=None, uncertainty=None, chance=None, verdict="not_applicable", basis="",
        place="", reason="the brief names no rain",
    )  # fmt: skip
    return (headroom, none, quay, fair)


def some_evaluation(file: str) -> Evaluation:
    document, _ = read_document_text(SMALL, file)
    assert document is not None
    build, _ = resolve(document, read_library())
    assert build is not None
    outside = tuple(70.0 - band for band in range(N))
    background = Background(
        "fair/record", "fair", "record", "quiet_room", outside, (25.0, 31.5), tuple(50.0 - band for band in range(N)),
        (5.0,) * N, (3.0,) * N, some_paths(), (), ("heard",) * 10 + ("not heard",) * 17, (),
    )  # fmt: skip
    between = BetweenRooms("record", outside, (40.0,) * N, (50.0,) * N, (47.0,) * N, 46, (70.0,) * N,
                           ((63.0, 12.0), (1000.0, 22.0)), (4.0,) * N, some_paths())  # fmt: skip
    face = FacePrediction("quiet_room.left", "outdoors", (40.0,) * N, (4.0,) * N, 52, -3, -9, 52, 43, 21.3, 0.109, 4.1,
                          "double leaf", ("outside the range below 50 Hz",), "vehicle.ribs")  # fmt: skip
    stack = (StackItem("floor", 0.075), StackItem("ceiling", 0.057))
    space = SpaceResult("quiet_room", 1.898, 1.82, 1.5, 3.4, 6.5, stack, 0.005)
    floor = MountsResult("floor", "record", 744.0, (MountLoad((1.9, 0.6), 62.0, 0.0047, "in range"),
                         MountLoad((3.9, 0.6), 108.0, 0.008, "above its range")), (("bounce", 9.9),), 9.9, 12.0, 17.0,
                         (0.0,) * N, 0.0013, ("the air under the floor gives 2.1 Hz",))  # fmt: skip
    mass = MassResult("drive", 1070.0, 160.0, 3310.0, 1553.0, 1757.0, (("build-ups", 444.0), ("fittings", 380.0)))
    resonance = Resonance("quiet_room.left", "mass-air-mass", 78.0, "the cavity of 93 mm is a spring", "bass, cello")
    return Evaluation(
        build=build, quantities={}, backgrounds=(background,), between_rooms=(between,),
        neighbours=(AtNeighbours("record", 15.0, (30.0,) * N, (5.0,) * N, some_paths(), ()),), faces=(face,),
        resonances=(resonance,), rooms=(), space=(space,), mounts=(floor,), masses=(mass,),
        notes=("flanking along the skin is not measured",),
    )  # fmt: skip


@pytest.fixture(name="verdicts")
def _verdicts() -> tuple[Verdict, ...]:
    return some_verdicts()


@pytest.fixture(name="evaluation")
def _evaluation() -> Evaluation:
    return some_evaluation("small.yaml")


@pytest.fixture(name="small")
def _small(tmp_path: Path) -> Path:
    path = tmp_path / "small.yaml"
    path.write_text(SMALL, encoding="utf-8")
    return path


@pytest.fixture(autouse=True)
def _nothing_goes_wrong_in_a_browser() -> Iterator[None]:
    """No page tells an error, and none asks anything of another machine, whatever a test looks at."""
    WRONG.clear()
    yield
    assert WRONG == []
