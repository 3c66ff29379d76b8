"""Extinguishers and the like are counted against what is asked for; detectors stand where the file says."""

import pytest
from tests.coupled import build_of, verdicts_of
from tests.unit.safety_cases import ASKED, EXTINGUISHER, SAFE, but
from tests.unit.test_model_diagnostics import only

from hushwright.drawings.primitives import Circle
from hushwright.drawings.ways_out import safety
from hushwright.evaluation.evaluate import evaluate_nominal
from hushwright.report.papers.blocks import Say, Table
from hushwright.report.papers.common import Case
from hushwright.report.papers.on_site import handover
from hushwright.report.safety import safety as safety_text
from hushwright.report.safety import safety_nodes

SMOKE = "{kind: smoke, room: quiet_room, fixed_on: ceiling, from_edge: 400}"


def smoke(*, more: str, edge: str = "from_edge: 400, ") -> str:
    return but((SMOKE, f"{{kind: smoke, room: quiet_room, fixed_on: ceiling, {edge}{more}}}"))


def test_what_is_asked_for_and_not_aboard_is_named() -> None:
    two = ("[fire extinguisher]", "[fire extinguisher, fire extinguisher, first aid kit]")
    verdict = verdicts_of(but(ASKED, *EXTINGUISHER, two))["equipment-aboard"]
    assert verdict.value == 2
    assert verdict.verdict == "fails"
    assert "fire extinguisher, first aid kit" in verdict.hint
    assert "local codes" in verdict.caution


def test_without_a_word_of_what_is_asked_for_equipment_stays_unproven() -> None:
    verdict = verdicts_of(but(*EXTINGUISHER))["equipment-aboard"]
    assert verdict.verdict == "unproven"
    assert "first aid kit" in verdict.hint
    assert "local rules" in " ".join((verdict.reason, *verdict.validity))


def test_where_no_equipment_is_named_none_is_judged() -> None:
    assert verdicts_of(SAFE)["equipment"].verdict == "not_applicable"


def test_a_detector_on_the_ceiling_has_its_distance_from_its_place() -> None:
    build = build_of(smoke(more="station: 230, offset: 0", edge=""))
    assert build.safety is not None
    assert build.safety.detectors[0].from_edge == pytest.approx(0.2)  # the room's front end is at 30


@pytest.mark.parametrize(
    ("more", "reference"),
    [("station: 9000, offset: 0", "outside-room"), ("station: 400", "value-needed")],
)
def test_a_place_that_cannot_be_is_told(more: str, reference: str) -> None:
    assert only(smoke(more=more), reference).place.dotted.startswith("safety.detectors.0")


def test_detectors_and_equipment_are_drawn_where_they_are() -> None:
    drawing = safety(build_of(but((SMOKE, SMOKE.replace("400}", "400, station: 1500, offset: 300}")), *EXTINGUISHER)))
    assert drawing is not None
    centres = [each.centre for each in drawing.elements if isinstance(each, Circle)]
    assert (1.5, -0.3) in centres
    assert (2.0, -0.4) in centres
    assert any("fire extinguisher, 2 kg" in text for _, text in drawing.key)


def test_the_report_tells_what_is_aboard_where_and_what_is_missing() -> None:
    two = ("[fire extinguisher]", "[fire extinguisher, first aid kit]")
    evaluation = evaluate_nominal(build_of(but(ASKED, *EXTINGUISHER, two)))[0]
    told = " ".join(" ".join(safety_text(evaluation, "metric")).split())
    assert "equipment fire extinguisher, 2 kg (quiet room); missing: first aid kit" in told
    node = safety_nodes(evaluation, "metric")["safety"]
    assert [(each["kind"], each["room"]) for each in node["equipment"]] == [("fire extinguisher", "quiet_room")]
    assert node["equipment_missing"] == ["first aid kit"]
    bare = evaluate_nominal(build_of(SAFE))[0]
    assert "equipment" not in safety_nodes(bare, "metric")["safety"]


def test_operating_card_and_inspections_name_the_equipment() -> None:
    evaluation = evaluate_nominal(build_of(but(ASKED, *EXTINGUISHER)))[0]
    blocks = handover(Case(evaluation, (), (), "metric")).blocks
    said = [block.text for block in blocks if isinstance(block, Say)]
    assert "For a fire, the way out and first aid: fire extinguisher, 2 kg (quiet room)." in said
    cells = [row for block in blocks if isinstance(block, Table) for row in block.rows]
    assert any(row[0] == "Equipment for fire and first aid" and "2 kg (quiet room)" in row[2] for row in cells)
