"""Budget: what trips it, what clears it, what leaves it open; prices that cannot be."""

from pathlib import Path

import pytest
from tests.coupled import DEMO, build_of, edited, library
from tests.plain_builds import plain_build
from tests.reference.test_hand_cost import BUILD, MONEY

from hushwright.document.read import read_document_text
from hushwright.document.save import set_value
from hushwright.evaluation.cost.cost import cost_of, cost_quantities
from hushwright.evaluation.cost.options import options_of
from hushwright.evaluation.cost.take_off import things_of, together
from hushwright.evaluation.mass.mass import masses_in
from hushwright.evaluation.results import Evaluation, Quantity
from hushwright.evaluation.results.cost import NO_COST
from hushwright.evaluation.wiring.cables import with_cables
from hushwright.model.resolve import resolve
from hushwright.verdicts.check import verdicts_of
from hushwright.verdicts.cost import CHECKS
from hushwright.verdicts.verdict import Verdict


def judged(text: str) -> Verdict:
    build = build_of(text)
    cost = cost_of(build)
    quantities: dict[str, Quantity] = {}
    cost_quantities(build, cost, quantities)
    evaluation = Evaluation(build, quantities, (), (), (), (), (), (), (), (), (), cost=cost)
    (found,) = verdicts_of(CHECKS[0], evaluation)
    return found


def with_budget(total: str, text: str = BUILD, tax: str = "without") -> str:
    return edited(
        text, ("  crew_on_the_road: 2\n", f"  crew_on_the_road: 2\n  budget: {{total: {total}, tax: {tax}}}\n")
    )


def test_a_wide_budget_is_met_and_a_narrow_one_fails() -> None:
    assert judged(with_budget("1000000")).verdict == "meets"
    tight = judged(with_budget("100"))
    assert tight.verdict == "fails"
    assert "most goes into isolation" in tight.hint
    assert tight.caution


def test_a_budget_with_tax_is_held_against_the_sum_with_tax() -> None:
    net, gross = judged(with_budget("9999")), judged(with_budget("9999", tax="with"))
    assert net.value is not None
    assert gross.value == pytest.approx(net.value * 1.2, abs=0.02)


def test_what_has_no_price_leaves_the_budget_open_and_is_never_nothing() -> None:
    text = with_budget("1000000", edited(BUILD, ("    - {of: heavy sheet, price: 80, per: m2}\n", "")))
    found = judged(text)
    assert found.verdict == "unproven"
    assert "heavy sheet" in found.reason
    cost = cost_of(build_of(text))
    assert {each.name for each in cost.unpriced} == {"heavy sheet"}
    assert "heavy sheet" not in {line.name for line in cost.purchase}


def test_too_much_without_all_prices_is_too_much() -> None:
    found = judged(with_budget("100", edited(BUILD, ("    - {of: heavy sheet, price: 80, per: m2}\n", ""))))
    assert found.verdict == "fails"


def test_a_budget_without_prices_is_unproven_and_nothing_at_all_is_not_asked() -> None:
    assert judged(with_budget("9999", plain_build())).verdict == "unproven"
    assert judged(plain_build()).verdict == "not_applicable"
    assert cost_of(build_of(plain_build())) == NO_COST


def test_work_that_no_job_names_has_no_price() -> None:
    cost = cost_of(build_of(edited(BUILD, ("    - {operation: hang leaves, to: [limp], per: m2, time: 30 min}\n", ""))))
    assert {each.name for each in cost.unpriced} == {"work on heavy sheet", "work on light sheet"}
    cost = cost_of(build_of(BUILD.split("labour:")[0] + "states:" + BUILD.split("states:")[1]))
    assert [each.reason for each in cost.unpriced] == ["the file has no `labour`"]


def test_a_price_by_a_unit_that_nothing_is_counted_in_is_no_price() -> None:
    cost = cost_of(build_of(edited(BUILD, ("price: 80, per: m2", "price: 80, per: m"))))
    assert "per m " in cost.unpriced[0].reason


def test_prices_by_foot_and_by_metre_are_one_price() -> None:
    by_foot = cost_of(build_of(edited(BUILD, ("price: 80, per: m2", "price: 7.432243, per: ft2"))))
    by_metre = cost_of(build_of(BUILD))
    assert by_foot.quote is not None
    assert by_metre.quote is not None
    assert float(by_foot.quote.net) == pytest.approx(float(by_metre.quote.net), abs=0.05)


def test_old_prices_and_names_of_nothing_are_told() -> None:
    text = edited(BUILD, ("price: 80, per: m2", "price: 80, per: m2, date: 2024-01-01"),
                  ("    - {of: light sheet,", "    - {of: lite sheet, price: 1}\n    - {of: light sheet,"),
                  ("hushwright: 1\n", "hushwright: 1\ndate: 2026-05-04\n"))  # fmt: skip
    notes = " ".join(cost_of(build_of(text)).notes)
    assert "older than half a year: heavy sheet" in notes
    assert "what this van does not have, so it is not in the sum: lite sheet" in notes


@pytest.mark.parametrize(
    ("price", "told"),
    [
        ("80", "All prices and hours are as the build file gives them."),
        ("{is: 80, from: typical}", "% of the sum are typical"),
    ],
)
def test_a_sum_says_what_of_it_is_typical_and_whether_the_van_itself_is_in_it(price: str, told: str) -> None:
    found = judged(
        with_budget("1000000", edited(BUILD, ("{of: heavy sheet, price: 80,", f"{{of: heavy sheet, price: {price},")))
    )
    assert told in found.caution
    assert "the donor van" in found.basis


def test_an_option_is_its_edit_and_one_without_a_price_says_so() -> None:
    options = (
        "options:\n"
        "  - {name: thinner, edits: [{path: surfaces.quiet_room.right.layers.0.thickness, to: 2 mm}]}\n"
        "  - {name: heavier, edits: [{path: surfaces.quiet_room.right.layers.0.limp, to: heavy sheet}]}\n"
        "  - {name: kit, price: -50}\n"
    )
    found = {each.name: each for each in options_of(build_of(edited(BUILD, ("states:\n", f"{options}states:\n"))))}
    assert "no price for light sheet 2 mm" in found["thinner"].problem
    assert found["heavier"].net > 0
    assert found["heavier"].mass > 0
    assert (str(found["kit"].net), str(found["kit"].gross)) == ("-50.00", "-60.00")


@pytest.mark.parametrize(
    ("old", "new", "reference"),
    [
        ("currency: EUR", "currency: euro", "not-a-currency"),
        ("price: 80, per: m2}", "price: 80, per: m2, currency: USD}", "unknown-name"),
        ("price: 80, per: m2}", "per: m2}", "value-needed"),
        ("price: 80, per: m2}", "price: 80, covered_by: client}", "two-kinds"),
        ("{of: donor van, covered_by: client}", "{of: heavy sheet, price: 3}", "duplicate-key"),
        ("time: 90 min", "time: unknown", "value-needed"),
        ("time: 90 min", "time: 90 min, trade: tailor", "unknown-name"),
        ("{operation: clean, time", "{operation: clean, per: m2, time", "value-needed"),
        ("labour:\n", "options: [{name: none}]\nlabour:\n", "value-needed"),
        ("labour:\n", "options: [{name: x, edits: [{path: rooms.attic, to: no}]}]\nlabour:\n", "unknown-name"),
    ],
)
def test_what_cannot_be_a_price_is_refused_with_its_place(old: str, new: str, reference: str) -> None:
    document, problems = read_document_text(edited(BUILD, (old, new)), "build.yaml")
    assert document is not None
    _, more = resolve(document, library())
    assert reference in {each.reference for each in (*problems, *more) if each.severity == "error"}
    assert all(each.place.line for each in more)


def test_prices_below_zero_are_out_of_range() -> None:
    _, problems = read_document_text(edited(BUILD, ("price: 80", "price: -80")), "build.yaml")
    assert [each.reference for each in problems] == ["out-of-range"]
    assert MONEY in BUILD


def test_every_example_names_a_price_or_a_payer_for_each_thing_or_shows_what_a_gap_does() -> None:
    folder = Path(__file__).parents[2] / "examples"
    gaps = {}
    for name in ("archive-van", "archive-van-first-draft", "voice-booth-short-van"):
        build = build_of((folder / f"{name}.yaml").read_text(encoding="utf-8"))
        gaps[name] = len(cost_of(build).unpriced)
    assert gaps.pop("archive-van-first-draft") > 20
    assert set(gaps.values()) == {0}


def test_devices_of_power_signals_and_safety_and_their_cables_are_counted() -> None:
    build = build_of(DEMO)
    things = together(things_of(build))
    kinds = {each.kind for each in things}
    power = {"bank", "converter", "panels", "shore charger", "engine charger", "wire", "fuse"}
    heard = {"signal line", "connector", "headphone amplifier", "headphone point", "detector", "alarm"}
    assert power | heard <= kinds
    assert build.wiring is not None
    wires = sum(each.amount("m") or 0.0 for each in things if each.kind == "wire")
    assert wires >= 2.0 * sum(circuit.length for circuit in build.wiring.circuits) - 1e-9
    assert build.signals is not None
    lines = sum(each.amount("m") or 0.0 for each in things if each.kind == "signal line")
    assert lines == pytest.approx(sum(line.length * line.number for line in build.signals.lines))


def test_the_mass_of_an_option_is_that_of_the_same_edit_in_a_check() -> None:
    text = DEMO
    path, new = "fittings.13.mass", "0 kg"
    (option,) = [each for each in options_of(build_of(text)) if each.name == "Without the awning"]
    before, after = (with_cables(build_of(one)) for one in (text, set_value(text, path, new)))
    for state, other in zip(before.states, after.states, strict=True):
        change = masses_in(after, other).total - masses_in(before, state).total
        assert option.mass == pytest.approx(change, abs=1e-6)


def test_a_day_that_no_calendar_has_is_told_at_its_place() -> None:
    document, _ = read_document_text(DEMO.replace("date: 2026-05-04", "date: 2026-02-30", 1), "van.yaml")
    assert document is not None
    _, problems = resolve(document, library())
    (found,) = [one for one in problems if one.reference == "not-a-date"]
    assert found.severity == "warning"
    assert "2026-05-04" in found.hint
