"""A small build's money by hand: areas, sheets, hours and tax in plain arithmetic, importing nothing of ours for it.

The room is that of ``tests/plain_builds.py``: one leaf of light sheet on the right, glued to nothing.
"""

from decimal import Decimal

import pytest
from tests.coupled import build_of, edited
from tests.plain_builds import ONE_LEAF, plain_build

from hushwright.evaluation.cost.cost import cost_of
from hushwright.evaluation.cost.take_off import net_area

MONEY = """\
prices:
  currency: EUR
  tax: 20 %
  markup: 10 %
  contingency: 5 %
  items:
    - {of: donor van, covered_by: client}
    - {of: heavy sheet, price: 80, per: m2}
    - {of: light sheet, size: 1 mm, price: 12.50, per: m2, pack: 3, waste: 10 %}
labour:
  rate: 60
  operations:
    - {operation: hang leaves, to: [limp], per: m2, time: 30 min}
    - {operation: clean, time: 90 min}
"""
BUILD = edited(plain_build(right=ONE_LEAF), ("states:\n", f"{MONEY}states:\n"))


def test_a_small_build_costs_what_it_costs_by_hand() -> None:
    build = build_of(BUILD)
    (room,) = build.rooms
    areas = {surface.face: net_area(room, surface, build.openings) for surface in room.surfaces if surface.layers}
    light = areas["right"]
    heavy = sum(area for face, area in areas.items() if face != "right")
    assert light == pytest.approx(room.surfaces[1].width * room.surfaces[1].height, rel=0.2)  # a side is long by high

    packs = -(-light * 1.1 // 3)  # whole packs of 3 m²
    light_cost = round(packs * 3 * 12.50, 2)
    heavy_cost = round(heavy * 80, 2)
    material = round(light_cost * 1.10, 2) + round(heavy_cost * 1.10, 2)
    labour = round(round((light + heavy) * 0.5, 2) * 60, 2) + 1.5 * 60
    net = round(material + labour, 2)
    net = round(net + net * 0.05, 2)
    gross = round(net * 1.20, 2)

    found = cost_of(build)
    assert found.quote is not None
    assert not found.unpriced
    assert {line.name: line.packs for line in found.purchase}["light sheet"] == packs
    assert found.quote.net == pytest.approx(Decimal(str(net)), abs=Decimal("0.03"))  # binary halves
    assert found.quote.gross == pytest.approx(Decimal(str(gross)), abs=Decimal("0.03"))


def test_sheets_for_a_known_area_by_hand() -> None:
    """10 m² and a tenth of waste from sheets of 2.5 m x 1.25 m: 11 / 3.125 = 3.52, so four sheets."""
    from hushwright.costing.purchase import bought

    sheets = bought(Decimal(10), Decimal("20"), Decimal("0.01"), waste=Decimal("0.1"), pack=Decimal("3.125"))
    assert (sheets.packs, sheets.cost) == (4, Decimal("250.00"))
