"""What the examples say of themselves on mass, anchoring and doors is what comes out."""

from functools import lru_cache
from pathlib import Path

import pytest
from tests.coupled import evaluation_of

from hushwright.verdicts.judge import judge

EXAMPLES = Path(__file__).parents[2] / "examples"
GROUPS = ("Mass", "Anchoring", "Doors")


@lru_cache(maxsize=5)
def outcomes(name: str) -> dict[str, str]:
    text = (EXAMPLES / f"{name}.yaml").read_text(encoding="utf-8")
    return {each.id: each.verdict for each in judge(evaluation_of(text)) if each.group in GROUPS}


@pytest.mark.parametrize(
    "name", ["archive-van", "voice-booth-short-van", "hearing-screening-van", "repair-workshop-van"]
)
def test_finished_vans_stand_hold_and_close(name: str) -> None:
    found = outcomes(name)
    assert {each for each, verdict in found.items() if verdict in ("fails", "unproven")} == set()
    assert {"fittings-hold-drive", "road-mass-drive", "stability-drive"} <= set(found)
    assert ("room-holds-drive" in found) == (name != "repair-workshop-van")  # nothing floats in it


def test_the_first_draft_fails_as_its_header_says() -> None:
    found = outcomes("archive-van-first-draft")
    failing = {each for each, verdict in found.items() if verdict == "fails"}
    assert {
        "road-mass-drive", "fittings-hold-drive", "structure-not-skin-drive", "heavy-fittings-drive",
        "door-sag-quiet-door", "door-threshold-quiet-door", "cut-clear-of-ribs-vehicle", "cuts-reinforced-vehicle",
    } <= failing  # fmt: skip
    assert found["cuts-behind-vehicle"] == "unproven"
    assert found["room-anchors-drive"] == "unproven"


def test_every_verdict_on_mass_and_crash_carries_a_caution() -> None:
    for name in ("archive-van", "archive-van-first-draft"):
        text = (EXAMPLES / f"{name}.yaml").read_text(encoding="utf-8")
        for each in judge(evaluation_of(text)):
            if each.group in GROUPS and each.verdict != "not_applicable":
                assert each.caution, each.id
