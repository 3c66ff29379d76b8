"""Numbers on the screen before all is worked out: nominal first, shares by several processes, newest text wins."""

import asyncio
import random
from collections.abc import Awaitable
from functools import cache
from typing import TypeVar

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from tests.plain_builds import plain_build

from hushwright.app import glance
from hushwright.app.computing import Computed, Order, compute, from_halves, provisional, read, stages_of
from hushwright.app.desk import Desk
from hushwright.app.worker import Halves, Worker
from hushwright.app.workspace import Workspace
from hushwright.errors import InvalidInput
from hushwright.evaluation import couple
from hushwright.evaluation import evaluate as evaluating
from hushwright.evaluation.evaluate import changes_of, completed, evaluate_nominal
from hushwright.evaluation.sound import heard
from hushwright.verdicts.judge import judge

T = TypeVar("T")
TEXT = plain_build()
EDITED = TEXT.replace("tallest: 1700", "tallest: 1720")


def run(act: Awaitable[T]) -> T:
    async def whole() -> T:
        return await asyncio.wait_for(act, 60.0)

    return asyncio.run(whole())


@settings(max_examples=6, deadline=None)
@given(dealt=st.lists(st.integers(0, 3), min_size=24, max_size=24), order=st.randoms(use_true_random=False))
def test_inputs_dealt_out_in_any_way_and_joined_in_any_order_are_the_whole(
    dealt: list[int], order: random.Random
) -> None:
    build = read(TEXT, "van.yaml").build
    assert build is not None
    nominal, core = evaluate_nominal(build)
    inputs = nominal.build.inputs
    assert 5 < len(inputs) <= len(dealt)
    parts = [[each for each, to in zip(inputs, dealt, strict=False) if to == hand] for hand in range(4)]
    changes = [each for part in parts for each in changes_of(nominal, core, part)]
    order.shuffle(changes)
    assert completed(nominal, changes).quantities == whole_of(TEXT).quantities


@pytest.mark.parametrize("shares", [1, 3])
def test_shares_of_processes_are_the_whole(shares: int) -> None:
    stages = [stage for share in range(shares) for stage in stages_of(Order(1, TEXT, "van.yaml", share, shares))]
    nominal = next(one.nominal for one in stages if one.nominal is not None)
    changes = [each for stage in stages for each in stage.changes or ()]
    assert completed(nominal, changes).quantities == whole_of(TEXT).quantities


def test_two_processes_tell_a_half_each_where_the_sound_is_new_and_the_first_all_where_it_is_not() -> None:
    text = TEXT.replace("tallest: 1700", "tallest: 1712")
    reading = read(text, "van.yaml")
    assert reading.build is not None
    orders = [Order(1, text, "van.yaml", share, 2, reading.document) for share in range(2)]
    heard._lately.clear()  # as in a new process
    silent, sound = (next(stages_of(order)) for order in orders)
    assert silent.silent is not None
    assert silent.nominal is None
    plain, _ = evaluate_nominal(reading.build)
    joined = from_halves(reading.build, silent.silent, sound.sound)
    assert joined == plain
    assert list(joined.quantities) == list(plain.quantities)
    (again, *_) = stages_of(orders[0])
    assert again.nominal is not None
    assert again.nominal.quantities == plain.quantities


@pytest.mark.parametrize("where", ["heard_of", "parts_of", "with_sound"])
def test_what_no_law_takes_is_told_once_whichever_half_finds_it(where: str, monkeypatch: pytest.MonkeyPatch) -> None:
    reading = read(TEXT, "van.yaml")

    def refuses(*_: object, **__: object) -> None:
        raise InvalidInput("too much")

    monkeypatch.setattr(evaluating, where, refuses)
    monkeypatch.setattr(couple, "heard_of", refuses)
    orders = [Order(1, TEXT, "van.yaml", share, 2, reading.document) for share in range(2)]
    heard._lately.clear()
    halves, told = Halves(reading), set()
    for stage in (stage for order in orders for stage in stages_of(order)):
        told |= {each.note for each in halves.joined(stage)[1] if stage.silent is not None or stage.sound}
        told |= {each.note for each in stage.problems}
    assert told == {"too much"}


@cache
def whole_of(text: str):  # type: ignore[no-untyped-def]
    found = compute(text, "van.yaml").evaluation
    assert found is not None
    return found


def test_a_missing_share_is_refused_and_nothing_incomplete_is_judged_for_good() -> None:
    (nominal, *_) = stages_of(Order(1, TEXT, "van.yaml"))
    assert nominal.nominal is not None
    assert not nominal.nominal.complete
    with pytest.raises(InvalidInput, match="not worked out yet"):
        judge(nominal.nominal)
    with pytest.raises(InvalidInput, match="not worked out yet"):
        completed(nominal.nominal, ())


def test_processes_give_the_same_as_this_one_and_the_nominal_numbers_first() -> None:
    async def act() -> tuple[list[Computed], Computed | None]:
        worker, heard = Worker(2), []
        try:
            first = await worker.compute(TEXT, "van.yaml")
            worker.overtake("van.yaml", EDITED)
            found = await worker.compute(EDITED, "van.yaml", read(EDITED, "van.yaml"), heard.append, first)
        finally:
            worker.stop()
        return heard, found

    heard, found = run(act())
    (early,) = heard
    alone = compute(EDITED, "van.yaml")
    assert found is not None
    assert found.verdicts == alone.verdicts
    assert found.measure_next == alone.measure_next
    assert early.evaluation is not None
    assert not early.evaluation.complete
    assert {one.id: one.value for one in early.verdicts} == {one.id: one.value for one in alone.verdicts}


def test_a_newer_text_overtakes_the_older_one_and_a_killed_process_is_replaced() -> None:
    async def act() -> None:
        worker = Worker(2)
        try:
            older = asyncio.create_task(worker.compute(TEXT, "van.yaml"))
            while not worker._busy:
                await asyncio.sleep(0.01)
            worker.overtake("other.yaml")
            worker.overtake("van.yaml")
            assert await older is None
            assert all(hand.process.is_alive() for hand in worker._hands)
            newer = asyncio.create_task(worker.compute(EDITED, "van.yaml"))
            await asyncio.sleep(0.05)
            worker._hands[1].process.kill()
            found = await newer
            assert found is not None
            assert found.verdicts == compute(EDITED, "van.yaml").verdicts
        finally:
            worker.stop()

    run(act())


def test_provisional_states_say_so_in_words_and_only_where_something_differs() -> None:
    before, after = compute(TEXT, "van.yaml"), compute(EDITED, "van.yaml")
    assert after.evaluation is not None
    (stage, *_) = stages_of(Order(1, EDITED, "van.yaml"))
    assert stage.nominal is not None
    early = provisional(EDITED, stage.nominal, before, ())
    tiles = glance.tiles(early.verdicts, before.verdicts, "metric", provisional=True)
    told = [tile for tile in tiles if "provisional" in tile["word"]]
    assert told
    assert all(tile["before"] for tile in told)
    assert not any("provisional" in tile["word"] for tile in glance.tiles(after.verdicts, before.verdicts, "metric"))
    assert provisional(EDITED, stage.nominal, None, ()).verdicts == ()


def test_a_step_back_shows_what_is_known_at_once(tmp_path) -> None:  # type: ignore[no-untyped-def]
    (tmp_path / "van.yaml").write_text(TEXT, encoding="utf-8")

    async def act() -> None:
        worker = Worker(1)
        opened = Desk(Workspace(tmp_path), worker).open("van.yaml")
        try:
            opened.begin()
            while opened.is_stale:
                await asyncio.sleep(0.01)
            first = opened.computed
            opened.session.set_values({("brief", "tallest"): "1720"})
            while opened.is_stale:
                await asyncio.sleep(0.01)
            opened.session.undo()
            assert not opened.is_stale
            assert opened.computed is first
        finally:
            worker.stop()

    run(act())
