"""Money adds up: parts to the whole, lines to the sum, packs to at least the need."""

from decimal import Decimal

from hypothesis import given, settings
from hypothesis import strategies as st

from hushwright.costing.money import allotted, exact, payable, taxes
from hushwright.costing.purchase import bought
from hushwright.costing.quote import QuoteLine, quoted

CENT = Decimal("0.01")
MONEY = st.decimals(0, 100_000, places=2)
RATES = st.sampled_from([Decimal(0), Decimal("0.07"), Decimal("0.19"), Decimal("0.0825")])
LINES = st.lists(st.builds(QuoteLine, st.text(max_size=8), MONEY, MONEY, RATES), max_size=12)
AMOUNTS = st.decimals(0, 1000, places=4)
SMALL = settings(max_examples=60, deadline=None)


@SMALL
@given(LINES)
def test_a_quote_is_the_sum_of_its_lines_and_of_the_tax_it_shows(lines: list[QuoteLine]) -> None:
    quote = quoted(lines, CENT)
    assert quote.net == sum((line.material + line.labour for line in lines), Decimal(0))
    assert quote.gross - quote.net == sum((tax for _, _, tax in quote.taxes), Decimal(0))
    assert sum((net for _, net, _ in quote.taxes), Decimal(0)) == quote.net
    assert all(abs(tax - rate * net) <= CENT / 2 for rate, net, tax in quote.taxes)


@SMALL
@given(LINES, st.randoms())
def test_the_order_of_lines_changes_no_sum(lines: list[QuoteLine], shuffle) -> None:  # type: ignore[no-untyped-def]
    other = list(lines)
    shuffle.shuffle(other)
    one, two = quoted(lines, CENT), quoted(other, CENT)
    assert (one.net, one.taxes, one.gross) == (two.net, two.taxes, two.gross)


@SMALL
@given(st.decimals(-10_000, 10_000, places=2), st.lists(st.decimals(0, 100, places=3), min_size=1, max_size=9))
def test_parts_add_up_to_the_whole_to_the_cent(amount: Decimal, weights: list[Decimal]) -> None:
    weights[0] += 1
    parts = allotted(amount, weights, CENT)
    assert sum(parts, Decimal(0)) == amount
    total = sum(weights, Decimal(0))
    assert all(abs(part - amount * weight / total) < CENT for part, weight in zip(parts, weights, strict=True))
    assert all(part == payable(part, CENT) for part in parts)


@SMALL
@given(AMOUNTS, MONEY, st.decimals(0, 1, places=2), st.one_of(st.just(Decimal(0)), st.decimals("0.01", 50, places=2)))
def test_what_is_bought_is_enough_and_less_than_a_pack_too_much(
    need: Decimal, price: Decimal, waste: Decimal, pack: Decimal
) -> None:
    found = bought(need, price, CENT, waste=waste, pack=pack)
    wanted = need * (1 + waste)
    assert found.amount >= wanted - pack * Decimal("1e-6")
    assert found.amount <= wanted + pack
    assert found.cost == payable(found.amount * price, CENT)


@SMALL
@given(AMOUNTS, AMOUNTS, MONEY)
def test_more_need_never_costs_less(one: Decimal, more: Decimal, price: Decimal) -> None:
    pack = Decimal("3.125")
    assert bought(one + more, price, CENT, pack=pack).cost >= bought(one, price, CENT, pack=pack).cost


@SMALL
@given(st.integers(0, 10**9), st.integers(0, 3))
def test_typed_money_keeps_its_digits(digits: int, places: int) -> None:
    typed = Decimal(digits).scaleb(-places)
    assert exact(float(typed)) == typed


@SMALL
@given(RATES, st.lists(MONEY, min_size=1, max_size=20))
def test_tax_is_rounded_once_a_rate(rate: Decimal, nets: list[Decimal]) -> None:
    ((_, net, tax),) = taxes({rate: sum(nets, Decimal(0))}, CENT)
    assert tax == payable(rate * net, CENT)
