"""What more rows of seals change is said where seals are named: hardly anything behind a good leaf, much at a slit."""

from functools import lru_cache

import pytest
from tests.coupled import DEMO, build_of, core_of, edited
from tests.unit.test_doors_in_series import SINGLE, rooms

from hushwright.evaluation.evaluate import evaluate_nominal
from hushwright.evaluation.results import Evaluation
from hushwright.evaluation.sound.seals import SlitShare, slit_share_of, slit_shares
from hushwright.report.needs import need_rows
from hushwright.search.comparing import Comparison
from hushwright.search.worse import why_no_better
from hushwright.verdicts.judge import judge
from hushwright.verdicts.seals import leaf_not_seals, said_of_slit

ROWS = "seals: {seal: compression bulb, rows: 2, residual_gap: 0..0.15 mm,"


@lru_cache(maxsize=4)
def nominal(text: str) -> Evaluation:
    """Evaluation without the shares of its inputs."""
    return evaluate_nominal(build_of(text))[0]


def share(text: str, name: str) -> SlitShare:
    found = slit_share_of(nominal(text), name)
    assert found is not None
    return found


def test_behind_a_shut_outer_door_more_rows_change_nothing() -> None:
    told = said_of_slit(share(DEMO, "quiet_door"))
    assert told.startswith("The slit at its seals lets through under 1 % (0.005 %) of what gets in by this door: more")
    assert told.endswith("rows of seals change nothing one can hear.")
    three = edited(DEMO, (ROWS, ROWS.replace("rows: 2", "rows: 3")))
    for key, each in core_of(DEMO).quantities.items():
        if key.startswith(("background/", "rooms/", "neighbours/")):
            assert core_of(three).quantities[key].value == pytest.approx(each.value, abs=0.001)


def test_every_door_and_window_of_the_van_with_a_way_of_its_own_is_told() -> None:
    assert [each.opening.name for each in slit_shares(nominal(DEMO))] == ["window", "quiet_door", "side_door"]
    assert "75 % of what gets in by this vehicle door, but under 1 % of all" in said_of_slit(share(DEMO, "side_door"))


def test_a_slit_that_matters_gains_what_is_told_once_it_is_closed() -> None:
    found = share(rooms(SINGLE), "inner")
    assert found.is_heard
    assert said_of_slit(found).endswith(f"closer seals or more rows gain {found.gain:.1f} dB at most.")
    closed = nominal(rooms(SINGLE.replace("residual_gap: 0.3 mm", "residual_gap: 0 mm")))
    before, after = (each.quantities["rooms/record"].value for each in (nominal(rooms(SINGLE)), closed))
    assert after - before == pytest.approx(found.gain, abs=0.05)
    assert found.gain > 0.5


def test_a_hint_sends_to_the_leaf_where_the_slit_is_a_small_way() -> None:
    closed, open_ = (nominal(rooms(SINGLE.replace("residual_gap: 0.3 mm", f"residual_gap: {gap}")))
                     for gap in ("0.01 mm", "0.3 mm"))  # fmt: skip
    assert leaf_not_seals(closed.between_rooms[0].paths, closed).startswith("mend inner itself, not its seals")
    assert not leaf_not_seals(open_.between_rooms[0].paths, open_)


def test_an_explanation_tells_of_the_slit_of_every_listed_door() -> None:
    evaluation = nominal(rooms(SINGLE))
    verdict = next(each for each in judge(evaluation, provisional=True) if each.id == "rooms-record")
    assert "closer seals or more rows gain" in " ".join(" ".join(need_rows(verdict, evaluation, "metric")).split())


def test_one_row_more_among_the_build_ups_says_why_it_is_no_better() -> None:
    text = rooms(SINGLE.replace("residual_gap: 0.3 mm", "residual_gap: 0.01 mm"))
    found = [each for each in Comparison(text, "van.yaml", "inner") if not each.edits or each.name == "2 rows of seals"]
    told = why_no_better(found[1], found[0], "rooms/record", 10)
    assert told.startswith("moves it by ")
    assert told.endswith(" dB: the slit at its seals is a small way here")
