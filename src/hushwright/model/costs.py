"""Prices, labour, options and budget of the file, in decimals."""

from __future__ import annotations

import re
from dataclasses import replace
from datetime import date
from decimal import Decimal

from hushwright.costing.money import NOTHING, exact
from hushwright.document.nodes import parse_path
from hushwright.document.schema import BuildFile
from hushwright.document.schema.costs import Labour, Operation, Option, Price, Prices
from hushwright.document.values import Value
from hushwright.errors import InvalidInput
from hushwright.library.library import plain
from hushwright.model.costs_in_place import EMPTY_COSTS, Costs, OperationInPlace, OptionInPlace, PriceInPlace
from hushwright.model.taking import Path, Taker, dotted

_CURRENCY = re.compile("[A-Z]{3}")
_HALF = 0.5  # plus_minus is two standard uncertainties


def resolve_costs(taker: Taker, root: BuildFile) -> Costs:
    """Join prices, labour, options and budget; nothing of it is a physical input that is moved for a sensitivity."""
    budget = root.brief.budget
    found = replace(
        EMPTY_COSTS,
        options=tuple(_option(taker, option, ("options", index)) for index, option in enumerate(root.options)),
        budget=None if budget is None else _known(taker, budget.total, ("brief", "budget", "total")),
        budget_with_tax=budget is not None and budget.tax == "with",
    )
    if root.prices is None:
        if root.labour is not None or budget is not None:
            taker.say("value-needed", ("labour",) if root.labour is not None else ("brief", "budget"), "",
                      "money has no currency without `prices`", "give `prices` with its `currency`",
                      severity="warning")  # fmt: skip
        return found
    prices = root.prices
    _check_date(taker, root.date, ("date",))
    if not _CURRENCY.fullmatch(prices.currency):
        taker.say("not-a-currency", ("prices", "currency"), prices.currency, "a currency has three capital letters",
                  "write EUR, USD, GBP …")  # fmt: skip
    tax = _share(taker, prices.tax, ("prices", "tax"))
    found = replace(
        found,
        currency=prices.currency,
        tax=tax,
        labour_tax=tax,
        markup=_share(taker, prices.markup, ("prices", "markup")),
        contingency=_share(taker, prices.contingency, ("prices", "contingency")),
        price_spread=_HALF * prices.spread.value,
        prices=tuple(
            _price(taker, prices, price, tax, ("prices", "items", index)) for index, price in enumerate(prices.items)
        ),
    )
    _check_twice(taker, found.prices)
    return found if root.labour is None else _with_labour(taker, root.labour, found)


def _with_labour(taker: Taker, labour: Labour, found: Costs) -> Costs:
    names = tuple(labour.rates)
    operations = []
    for index, typed in enumerate(labour.operations):
        at: Path = ("labour", "operations", index)
        if typed.trade and not taker.name_of(typed.trade, names, (*at, "trade"), "trade with a rate"):
            continue
        operations.append(_operation(taker, labour, typed, at))
    tax = found.tax if labour.tax is None else _share(taker, labour.tax, ("labour", "tax"))
    return replace(found, labour_given=True, labour_tax=tax, labour_spread=_HALF * labour.spread.value,
                   operations=tuple(operations))  # fmt: skip


def _operation(taker: Taker, labour: Labour, typed: Operation, at: Path) -> OperationInPlace:
    if typed.per != "job" and not typed.to:
        taker.say("value-needed", at, typed.operation, f"says its time per {typed.per} and not of what",
                  "name the things under `to`, or give the time per job")  # fmt: skip
    rate, path = labour.rate, ("labour", "rate")
    if typed.trade:
        rate, path = labour.rates[typed.trade], ("labour", "rates", typed.trade)  # type: ignore[assignment]
    return OperationInPlace(
        typed.operation, typed.trade, typed.to, typed.per, _number(taker, typed.time, (*at, "time")),
        typed.time.standard_uncertainty, _known(taker, rate, path) or NOTHING, typed.buys, typed.hold_point,
        typed.note, dotted(at),
    )  # fmt: skip


def _check_date(taker: Taker, typed: str, at: Path) -> None:
    """Tell a date from which no age can be found."""
    try:
        date.fromisoformat(typed.strip() or "2000-01-01")
    except ValueError:
        taker.say("not-a-date", at, typed, "is no day of the calendar, so nobody can say how old a price is",
                  "write year, month, day: 2026-05-04", severity="warning")  # fmt: skip


def _price(taker: Taker, prices: Prices, typed: Price, tax: Decimal, at: Path) -> PriceInPlace:
    amount, shown, rate = None, "", Decimal(1)
    _check_date(taker, typed.date, (*at, "date"))
    if typed.price is not None and typed.covered_by:
        taker.say(
            "two-kinds", at, typed.of, f"has a price and is covered by {typed.covered_by}", "take one of them out"
        )
    if typed.price is None and not typed.covered_by:
        taker.say("value-needed", at, typed.of, "has no price", "give `price`, or `covered_by` what pays for it")
    if typed.price is not None and not typed.price.unknown:
        rate = _rate(taker, prices, typed.currency, at)
        amount = exact(typed.price.value) * rate
        shown = f"{typed.price.text} {typed.currency}" if typed.currency not in ("", prices.currency) else ""
    return PriceInPlace(
        of=typed.of,
        size=None if typed.size is None else _number(taker, typed.size, (*at, "size")),
        amount=amount,
        typed=shown,
        spread=NOTHING if typed.price is None else exact(typed.price.standard_uncertainty) * rate,
        per=typed.per,
        pack=NOTHING if typed.pack is None else exact(_number(taker, typed.pack, (*at, "pack"))),
        plates=0 if typed.plates is None else round(_number(taker, typed.plates, (*at, "plates"))),
        waste=_share(taker, typed.waste, (*at, "waste")),
        covered_by=typed.covered_by,
        tax=tax if typed.tax is None else _share(taker, typed.tax, (*at, "tax")),
        buys=typed.buys,
        date=typed.date,
        supplier=typed.supplier,
        note=typed.note,
        place=dotted(at),
        width=0.0 if typed.width is None else _number(taker, typed.width, (*at, "width")),
    )


def _rate(taker: Taker, prices: Prices, currency: str, at: Path) -> Decimal:
    """What one unit of a price's currency costs in that of the build."""
    if currency in ("", prices.currency):
        return Decimal(1)
    if not taker.name_of(currency, tuple(prices.rates), (*at, "currency"), "currency with a rate"):
        return Decimal(1)
    return exact(_number(taker, prices.rates[currency], ("prices", "rates", currency)))


def _check_twice(taker: Taker, prices: tuple[PriceInPlace, ...]) -> None:
    """Two prices of the same thing contradict each other."""
    seen: dict[tuple[str, float | None], str] = {}
    for index, price in enumerate(prices):
        key = (plain(price.of), price.size)
        if key in seen:
            taker.say("duplicate-key", ("prices", "items", index), price.of, f"has a price already at {seen[key]}",
                      "take one of them out, or give each its `size`")  # fmt: skip
        seen.setdefault(key, price.place)


def _option(taker: Taker, typed: Option, at: Path) -> OptionInPlace:
    for index, edit in enumerate(typed.edits):
        try:
            taker.document.value_at(parse_path(edit.path))
        except InvalidInput as problem:
            taker.say("unknown-name", (*at, "edits", index, "path"), edit.path, str(problem),
                      "take a path as `hushwright set` does")  # fmt: skip
    if not typed.edits and typed.price is None:
        taker.say("value-needed", at, typed.name, "changes nothing and has no price", "give `edits` or `price`")
    price = None if typed.price is None else _known(taker, typed.price, (*at, "price"))
    return OptionInPlace(typed.name, tuple((edit.path, edit.to) for edit in typed.edits), price or NOTHING, typed.note,
                         dotted(at))  # fmt: skip


def _known(taker: Taker, value: Value, path: Path) -> Decimal | None:
    if value.unknown:
        taker.say("value-needed", path, "unknown", "money has to be known", "type a number, or a range")
        return None
    return exact(value.value)


def _number(taker: Taker, value: Value, path: Path) -> float:
    if value.unknown:
        taker.say("value-needed", path, "unknown", "has to be known", "type a number, or a range")
        return 0.0
    return value.value


def _share(taker: Taker, value: Value | None, path: Path) -> Decimal:
    return NOTHING if value is None else exact(_number(taker, value, path))
