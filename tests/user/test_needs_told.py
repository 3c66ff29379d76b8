"""What each build-up has to keep out, as an explanation tells it and as other programs get it."""

import json

from tests.coupled import DEMO, evaluation_of, verdicts_of

from hushwright.report.explain import explanation
from hushwright.report.needs import need_nodes, needs_behind
from hushwright.verdicts.judge import judge


def test_an_explanation_tells_what_each_build_up_may_lose_or_has_to_gain() -> None:
    evaluation = evaluation_of(DEMO)
    verdict = verdicts_of(DEMO)["background-fair-record"]
    text = explanation(verdict, evaluation, "metric")
    assert "What each build-up has to keep out" in text
    first = needs_behind(verdict, evaluation)[0]
    assert first.spare is not None
    assert f"may fall by {first.spare:.1f} dB" in text
    open_door = verdicts_of(DEMO)["background-fair-record-side-door-open"]
    assert "no rise is enough alone" in explanation(open_door, evaluation, "metric")


def test_a_verdict_without_a_limit_on_sound_tells_no_need() -> None:
    evaluation = evaluation_of(DEMO)
    for one in judge(evaluation):
        if one.group not in ("Quiet",):
            assert needs_behind(one, evaluation) == (), one.id


def test_other_programs_get_needs_that_fit_the_levels() -> None:
    evaluation = evaluation_of(DEMO)
    nodes = json.loads(json.dumps(need_nodes(evaluation)))
    assert {each["sound"].split("/")[0] for each in nodes} == {"background", "rooms", "neighbours"}
    for each in nodes:
        assert len(each["margin_db"]) == len(each["needed_db"]) == 27
        within = each["spare_db"] is not None and each["spare_db"] > 0.0
        assert not within or each["without_it_db"] >= 0.0
