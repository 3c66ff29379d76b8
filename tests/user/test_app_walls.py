"""The view of walls: what is changed there ends in the file, and what is compared is used by one step."""

import asyncio
from collections.abc import AsyncIterator
from pathlib import Path
from typing import Any

import pytest
from tests.coupled import build_of
from tests.plain_builds import plain_build

pytest.importorskip("nicegui", reason="nicegui is not installed here")

from nicegui.testing.user_simulation import user_simulation
from tests.inline_computer import Inline
from tests.user.test_app_pages import of_kind, run, tell

from hushwright.app import comparing
from hushwright.app.desk import Desk
from hushwright.app.elements import Drawing, Layers, Table
from hushwright.app.frame import Button
from hushwright.app.server import root_of
from hushwright.app.wall_rows import layer_rows
from hushwright.app.walls import OLD
from hushwright.app.workspace import Workspace
from hushwright.document.outline import outline
from hushwright.evaluation.cost.cost import cost_of
from hushwright.search.comparing import Comparison

pytestmark = pytest.mark.filterwarnings("ignore::DeprecationWarning")
LEFT = (
    "        - {sheet: birch plywood, thickness: 9}   # of the yard\n"
    "        - {cavity: 60}\n        - {sheet: birch plywood, thickness: 12}\n"
)
BUILD = plain_build(
    brief="  outdoors:\n    - {situation: quay, octaves: {hz_125: 60 dB, hz_500: 55 dB, hz_2000: 45 dB}, "
    "comes_from: all round, limit: 35 dB(A)}\n",
    left=LEFT,
)


class AtOnce:
    """Compares in this process."""

    async def run(self, text: str, file: str, face: str) -> AsyncIterator[Any]:
        found = Comparison(text, file, face)
        for each in found:
            yield found.number, each

    def stop(self) -> None:
        """Nothing to end."""


def test_layers_are_dragged_typed_and_compared_in_the_view_of_walls(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(comparing, "comparer", AtOnce)
    path = tmp_path / "van.yaml"

    def text() -> str:
        return path.read_text(encoding="utf-8")

    async def act() -> None:
        path.write_text(BUILD, encoding="utf-8")
        async with user_simulation(root=root_of(Desk(Workspace(tmp_path), Inline()), {})) as user:
            await user.open("/build/van.yaml")
            press(user, "Walls")
            await user.should_see("Margin of its own ways in each third octave")
            layers = of_kind(user, Layers)
            assert [row["word"] for row in layers.props["layers"]] == ["sheet", "cavity", "sheet"]
            handles = of_kind(user, Drawing).props["handles"]
            cavity = next(one for one in handles if one["id"].endswith(".1"))
            tell(of_kind(user, Drawing), "move", {"id": cavity["id"], "dx": 0.0005, "dy": 0.0})
            assert text() == BUILD.replace("{cavity: 60}", "{cavity: 60.5}")
            press(user, "Undo")
            assert text() == BUILD
            board = layers.props["layers"][2]
            tell(layers, "set", {"path": [*board["path"], "sheet"], "typed": "MDF", "seen": "birch plywood"})
            assert "{sheet: MDF, thickness: 12}" in text()
            tell(layers, "set", {"path": [*board["path"], "thickness"], "typed": "hollow", "seen": "12"})
            assert layers.props["refused"]["id"] == board["id"]
            tell(layers, "set", {"path": [*board["path"], "thickness"], "typed": "1,9 m", "seen": "12"})
            assert layers.props["refused"]["offers"] == ["1.9 mm", "1.9 cm"]
            assert board["unit"] == "mm"
            faces = next(one for one in _tables(user) if "of what gets in" in one.props.get("head", []))
            assert {row["cells"][2] for row in faces.props["rows"]} - {"", "< 1 %"}
            press(user, "Undo")
            press(user, "Compare build-ups")
            table = next(one for one in _tables(user) if one.props.get("act"))
            for _ in range(300):
                await asyncio.sleep(0.01)
                if any("filled" in row["cells"][0] for row in table.props.get("rows", [])):
                    break
            filled = next(row for row in table.props["rows"] if "filled" in row["cells"][0])
            assert filled["can"]
            tell(layers, "set", {"path": [*board["path"], "thickness"], "typed": "15", "seen": "12"})
            assert not any(row["can"] for row in table.props["rows"])
            assert table.props["caption"] == OLD
            press(user, "Undo")
            assert table.props["caption"] != OLD
            tell(table, "choose", {"id": filled["id"]})
            assert text() == BUILD.replace("{cavity: 60}", "{cavity: 60, fill: rock wool 40 kg/m3}")
            press(user, "Undo")
            assert text() == BUILD
            press(user, "Problems")
            await user.should_see("The file can be read and computed; ")
            await user.should_see("open: see Verdicts.")

    run(act())


def test_a_layer_says_what_nobody_sells_and_what_has_no_price() -> None:
    text = plain_build(left=LEFT.replace("thickness: 12", "thickness: 13.5")) + (
        "prices:\n  currency: EUR\n  items:\n    - {of: birch plywood, size: 9, price: 20, per: m2}\n"
    )
    build = build_of(text)
    unpriced = cost_of(build).unpriced
    rows, _, _ = layer_rows(build, "quiet_room.left", outline(text), "metric", unpriced)
    assert rows[0]["notes"] == []
    assert rows[2]["notes"] == ["not usually made in 13.5 mm; nearest: 12 mm and 15 mm",
                                "birch plywood: no price in the file; priced are 9 mm"]  # fmt: skip


def press(user: Any, text: str) -> None:
    """Press a plain button by its words."""
    from nicegui import ElementFilter

    with user:
        (found,) = [one for one in ElementFilter(kind=Button) if one._text == text]
    tell(found, "click", {})


def _tables(user: Any) -> list[Any]:
    from nicegui import ElementFilter

    with user:
        return list(ElementFilter(kind=Table))
