"""Anchors of the floating room and the mounts under it do not stand in one place."""

from __future__ import annotations

from tests.coupled import DEMO, edited, library

from hushwright.document.read import read_document_text
from hushwright.model.resolve import resolve


def clashes(text: str) -> list[tuple[str, str]]:
    document, _ = read_document_text(text, "build.yaml")
    assert document is not None
    return [(each.place.dotted, each.hint) for each in resolve(document, library())[1]
            if each.reference == "anchor-on-mount"]  # fmt: skip


def test_an_anchor_on_a_mount_is_told_with_how_far_to_move_it() -> None:
    # the demo's mount stands at 3945, 570 left: 25 of pad and 20 of plate from middle to middle
    assert clashes(DEMO) == []
    moved = edited(DEMO, ("{station: 3950, offset: 620, height: 60", "{station: 3950, offset: 600, height: 60"))
    assert [hint for _, hint in clashes(moved)] == ["move the anchor along the van by 40 mm or more"]
