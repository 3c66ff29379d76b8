"""Quote and purchase list."""

from __future__ import annotations

from decimal import Decimal

from hushwright.evaluation.results.cost import CostResult, PurchaseLine
from hushwright.report.cost import amount_of, coins, in_system, named, share, steps_to_sum, unit_words
from hushwright.report.cost_text import NO_PRICES, signed
from hushwright.report.papers.blocks import Blanks, Block, Caution, Heading, Paper, Say, Signatures, Table
from hushwright.report.papers.common import Case, title_of
from hushwright.report.plates import plates_told
from hushwright.report.units_out import shown

_LEAST_MASS = 0.05  # kg, from which a difference is told


def quote(case: Case) -> Paper:
    """Quote with options as lines, terms, and lines to sign."""
    quoting = case.evaluation.build.document.root.quote
    fields = (
        ("quote", quoting.number if quoting else ""), ("workshop", quoting.workshop if quoting else ""),
        ("client", quoting.client if quoting else ""), ("valid until", quoting.valid_until if quoting else ""),
        ("payment", quoting.payment if quoting else ""), ("delivery", quoting.delivery if quoting else ""),
    )  # fmt: skip
    blocks: list[Block] = [*title_of(case, "Quote"), Blanks(fields, 2), *quote_blocks(case)]
    blocks += [Caution(case.told(each)) for each in (quoting.terms if quoting else ())]
    blocks += [
        Say("Both sign; a sum without both signatures is an estimate.", "small"),
        Signatures(("workshop", "client")),
    ]
    return Paper("quote", "Quote", tuple(blocks))


def quote_blocks(case: Case) -> list[Block]:
    """Lines by what they buy, sums, options, what is covered by others, what has no price."""
    found = case.evaluation.cost
    if found.quote is None:
        return [Say(NO_PRICES)]
    rows = [
        (_line(line.name), coins(line.material), coins(line.labour), share(line.tax_rate), coins(line.net))
        for line in found.quote.lines
    ]
    rows.append(("without tax", "", "", "", coins(found.quote.net)))
    rows += [(f"tax {share(rate)} of {coins(net)}", "", "", "", coins(tax)) for rate, net, tax in found.quote.taxes]
    rows.append(("with tax", "", "", "", coins(found.quote.gross)))
    columns = ("what it buys", "material", "labour", "tax rate", f"sum [{found.currency}]")
    table = Table(columns, tuple(rows), (3, 1.2, 1.2, 0.9, 1.3), right=(1, 2, 3, 4), total=True)
    material = "Material is the price of the supplier with what the workshop adds for buying and keeping it."
    beyond = f" Not foreseen is {share(found.contingency)} of all other lines." if found.contingency else ""
    added = [Say(f"{material if found.markup else ''}{beyond}".strip(), "small")] if found.markup or beyond else []
    return [table, *added, *_options(case), *_covered(case), *_unpriced(case)]


def _line(name: str) -> str:
    return name[:1].upper() + name[1:]


def _options(case: Case) -> list[Block]:
    if not case.options:
        return []
    rows = []
    for one in case.options:
        if one.problem:
            rows.append((one.name, one.problem, "", "", ""))
            continue
        mass = shown(round(one.mass, 2), "mass", case.system, signed=True) if abs(one.mass) >= _LEAST_MASS else "–"
        rows.append((one.name, case.told(one.note), mass, signed(one.net), signed(one.gross)))
    columns = ("option", "", "mass", "without tax", "with tax")
    return [Heading("Options", 2), Table(columns, tuple(rows), (1.6, 2.2, 0.9, 1.1, 1.1), right=(2, 3, 4))]


def _covered(case: Case) -> list[Block]:
    client = [named(one.name, one.size, case.system) for one in case.evaluation.cost.covered if one.by == "client"]
    return [Say(f"The client brings: {', '.join(client)}.")] if client else []


def _unpriced(case: Case) -> list[Block]:
    rows = tuple(
        (named(one.name, one.size, case.system), amount_of(one.amount, one.unit, case.system), one.reason)
        for one in case.evaluation.cost.unpriced
    )
    if not rows:
        return []
    return [
        Heading("Without a price, and not in the sum", 2),
        Caution(f"This sum is not complete: {len(rows)} things have no price yet."),
        Table(("item", "amount", "why"), rows, (2, 1, 2), small=True),
    ]


def purchase(case: Case) -> Paper:
    """What to buy, by supplier, with boxes to tick."""
    found = case.evaluation.cost
    blocks: list[Block] = title_of(case, "Purchase list")
    suppliers = sorted({line.supplier for line in found.purchase})
    for supplier in suppliers:
        lines = [line for line in found.purchase if line.supplier == supplier]
        rows = [_purchase_row(line, case) for line in sorted(lines, key=lambda line: (line.name, line.size or 0.0))]
        rows.append(("total", "", "", "", coins(sum((line.cost for line in lines), Decimal(0))), "", ""))
        columns = ("item", "need", "buy", "unit price", f"cost [{found.currency}]", "price of", "got")
        blocks += [Heading(_line(supplier or "supplier not named"), 2),
                   Table(columns, tuple(rows), (2.8, 1.1, 1.4, 1, 1.1, 1.1, 0.5), right=(1, 2, 3, 4), small=True,
                         total=True)]  # fmt: skip
    if not suppliers:
        blocks.append(Say(NO_PRICES))
    blocks += _steps(found)
    blocks += [Say(case.told(told), "small") for told in plates_told(case.evaluation.build, case.system)]
    blocks += _by_others(case, found) + _unpriced(case)
    return Paper("purchase", "Purchase list", tuple(blocks))


def _steps(found: CostResult) -> list[Block]:
    """How the list leads to the sum of the quote: for the workshop, not for the client."""
    if found.quote is None:
        return []
    rows = tuple((name, coins(amount)) for name, amount in steps_to_sum(found))
    table = Table(("part of the sum", f"money [{found.currency}]"), rows, (3, 1.3), right=(1,), small=True, total=True)
    return [Heading("From purchase to quote", 2), table]


def _purchase_row(one: PurchaseLine, case: Case) -> tuple[str, ...]:
    told, factor = in_system(one.unit, case.system)
    buy = amount_of(float(one.amount), one.unit, case.system)
    if one.pack:
        buy = f"{one.packs} × {float(one.pack) * factor:.4g} {unit_words(told, 1)}"
    price = round(one.unit_price / Decimal(repr(factor)), 2)
    name = named(one.name, one.size, case.system)
    note = "; ".join(text for text in (one.typed, case.told(one.note)) if text)
    return (f"{name} ({note})" if note else name, amount_of(float(one.need), one.unit, case.system), buy, coins(price),
            coins(one.cost), one.date, "")  # fmt: skip


def _by_others(case: Case, found: CostResult) -> list[Block]:
    rows = tuple(
        (named(one.name, one.size, case.system), amount_of(one.amount, one.unit, case.system), one.by)
        for one in found.covered
    )
    return (
        [Heading("Covered by others", 2), Table(("item", "amount", "covered by"), rows, (2, 1, 1.4), small=True)]
        if rows
        else []
    )
