"""Money in the check report and in JSON: what it comes to, what it buys, what has no price."""

from __future__ import annotations

from collections.abc import Sequence
from decimal import Decimal
from typing import Any

from hushwright.evaluation.results import Evaluation
from hushwright.evaluation.results.cost import US_AMOUNTS, CostResult, CostShare, PurchaseLine, Unpriced
from hushwright.report.labels import heading as words
from hushwright.report.labels import label
from hushwright.report.layout import heading, table, wrapped
from hushwright.report.units_out import bare_number, restated, shown, unit_of
from hushwright.units import System

_TO_US = {base: (unit, 1.0 / size) for unit, (base, size) in US_AMOUNTS.items()}
_TO_METRIC = dict(US_AMOUNTS)
_MOST = 12  # lines of what has no price, before the rest is counted


def cost(evaluation: Evaluation, system: System) -> list[str]:
    """Cost by what it buys, sums and what has no price; nothing where the file has no prices."""
    found = evaluation.cost
    if found.quote is None:
        return []
    lines = heading(words("cost"))
    rows: list[tuple[str, ...]] = [(label("buys"), label("material"), label("labour"), label("total"))]
    rows += [(one.name, *(coins(part) for part in (one.material, one.labour, one.total))) for one in found.by_purpose]
    lines += table(rows, right=(1, 2, 3))
    lines += ["", *table([(name, coins(amount)) for name, amount in steps_to_sum(found)], right=(1,))]
    lines += ["", *table(sums(found), right=(1,))]
    return lines + without_price(found.unpriced, system, _MOST) + _notes(found, system)


def sums(found: CostResult) -> list[tuple[str, str]]:
    """Sum without tax, tax by rate, sum with tax."""
    assert found.quote is not None
    rows = [(label("without_tax"), f"{coins(found.quote.net)} {found.currency}")]
    rows += [(f"{label('tax')} {share(rate)}", f"{coins(tax)} {found.currency}") for rate, _, tax in found.quote.taxes]
    return [*rows, (label("with_tax"), f"{coins(found.quote.gross)} {found.currency}")]


def steps_to_sum(found: CostResult) -> list[tuple[str, Decimal]]:
    """From the purchase list to the sum without tax, so that it can be added up by hand."""
    assert found.quote is not None
    rows = [(label("purchase_list"), found.bought)]
    if found.markup:
        rows += [(f"{label('markup')}, {share(found.markup)}", found.material - found.bought),
                 (label("material"), found.material)]  # fmt: skip
    rows.append((label("labour"), found.labour))
    if found.contingency:
        beyond = found.quote.net - found.material - found.labour
        rows.append((f"{label('not_foreseen')}, {share(found.contingency)} of both", beyond))
    return [*rows, (label("without_tax"), found.quote.net)]


def without_price(unpriced: Sequence[Unpriced], system: System, most: int) -> list[str]:
    """What has no price and why, the first of them; never counted as nothing."""
    if not unpriced:
        return []
    lines = ["", f"  {label('unpriced')}"]
    for one in unpriced[:most]:
        told = f"{named(one.name, one.size, system)}, {amount_of(one.amount, one.unit, system)}: {one.reason}"
        lines += wrapped(told, indent=4, hanging=6)
    if len(unpriced) > most:
        lines.append(f"    … {len(unpriced) - most} more: hushwright cost")
    return lines


def _notes(found: CostResult, system: System) -> list[str]:
    lines: list[str] = []
    for note in found.notes:
        lines += wrapped(restated(note, system), indent=2, hanging=4)
    return ["", *lines] if lines else []


def coins(amount: Decimal) -> str:
    r"""Money to the coin, by thousands.

    Examples
    --------
    >>> coins(Decimal("12345.60"))
    '12\xa0345.60'
    """
    return f"{amount:,}".replace(",", "\u00a0")


def share(rate: Decimal) -> str:
    """Share in per cent as typed.

    Examples
    --------
    >>> share(Decimal("0.19")), share(Decimal("0.075"))
    ('19 %', '7.5 %')
    """
    return f"{(rate * 100).normalize():f} %"


def named(name: str, size: float | None, system: System) -> str:
    """Name with the thickness or diameter, where it has one."""
    told = restated(name, system)
    return told if size is None else f"{told}, {shown(size, 'length', system)}"


def in_system(unit: str, system: System) -> tuple[str, float]:
    """Unit of an amount in the wanted system, and what an amount in the given one is multiplied by.

    Examples
    --------
    >>> in_system("ft", "metric"), in_system("m2", "metric"), in_system("piece", "us")
    (('m', 0.3048), ('m2', 1.0), ('piece', 1.0))
    """
    return (_TO_US if system == "us" else _TO_METRIC).get(unit, (unit, 1.0))


def unit_words(unit: str, amount: float) -> str:
    """Unit as it is printed."""
    plural = "s" if unit in ("piece", "job") and amount != 1 else ""
    return unit.replace("2", "²").replace("3", "³") + plural


def amount_of(amount: float, unit: str, system: System) -> str:
    """Amount with its unit, in the wanted system: metres of cable, not millimetres.

    Examples
    --------
    >>> amount_of(128.0, "m", "us"), amount_of(2.0, "piece", "us")
    ('420 ft', '2 pieces')
    """
    told, factor = in_system(unit, system)
    return f"{amount_number(amount * factor)} {unit_words(told, amount)}"


def amount_number(amount: float) -> str:
    """Amount to three digits, whole ones whole."""
    return f"{amount:.0f}" if amount == int(amount) or amount >= 100.0 else f"{amount:.3g}"


def cost_nodes(evaluation: Evaluation, system: System) -> dict[str, Any]:
    """Money for JSON; sums are texts, so that no reader rounds them."""
    found = evaluation.cost
    if found.quote is None:
        return {"cost": None}
    return {
        "cost": {
            "currency": found.currency,
            "without_tax": str(found.quote.net),
            "taxes": [{"rate": str(rate), "of": str(net), "tax": str(tax)} for rate, net, tax in found.quote.taxes],
            "with_tax": str(found.quote.gross),
            "uncertainty": round(found.uncertainty, 2),
            "purchase_list": str(found.bought),
            "markup": str(found.markup),
            "not_foreseen": str(found.contingency),
            "lines": [
                {"buys": one.name, "material": str(one.material), "labour": str(one.labour),
                 "tax_rate": str(one.tax_rate)}
                for one in found.quote.lines
            ],
            "by_purpose": [_share_node(one) for one in found.by_purpose],
            "by_group": [_share_node(one) for one in found.by_group],
            "hours": str(found.hours),
            "jobs": [
                {"job": one.name, "trade": one.trade, "hours": str(one.hours), "cost": str(one.cost)}
                for one in found.jobs
            ],
            "purchase": [_purchase_node(one, system) for one in found.purchase],
            "covered": [
                {"name": one.name, "by": one.by, **_amount_node(one.amount, one.unit, system)} for one in found.covered
            ],
            "unpriced": [
                {"name": one.name, "reason": one.reason, "place": one.place,
                 **_amount_node(one.amount, one.unit, system)}
                for one in found.unpriced
            ],
            "notes": [restated(note, system) for note in found.notes],
        }
    }  # fmt: skip


def _share_node(one: CostShare) -> dict[str, str]:
    return {"name": one.name, "material": str(one.material), "labour": str(one.labour), "total": str(one.total)}


def _amount_node(amount: float, unit: str, system: System) -> dict[str, Any]:
    told, factor = in_system(unit, system)
    return {"amount": float(f"{amount * factor:.6g}"), "unit": told}


def _purchase_node(one: PurchaseLine, system: System) -> dict[str, Any]:
    told, factor = in_system(one.unit, system)
    return {
        "name": one.name,
        "size": bare_number(one.size, "length", system),
        "size_unit": unit_of("length", system),
        "unit": told,
        "need": float(f"{float(one.need) * factor:.6g}"),
        "with_waste": float(f"{float(one.with_waste) * factor:.6g}"),
        "packs": one.packs or None,
        "buy": float(f"{float(one.amount) * factor:.6g}"),
        "unit_price": float(f"{float(one.unit_price) / factor:.6g}"),
        "cost": str(one.cost),
        "place": one.place,
    }
