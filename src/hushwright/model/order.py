"""Which layer may lie on which."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

from hushwright.model.taking import Path, Taker

_SHEETS = ("skin", "sheet", "glass")
_SPACES = ("cavity", "floor_mounts")
_BONDED = (*_SHEETS, "damping", "core")


def check_order(taker: Taker, layers: Sequence[Any], path: Path) -> None:
    """Note layers that lie where they cannot work."""
    kinds = [layer.key for layer in layers]
    for index, kind in enumerate(kinds):
        before = kinds[index - 1] if index else ""
        after = kinds[index + 1] if index + 1 < len(kinds) else ""
        _CHECKS.get(kind, _nothing)(taker, (*path, index), before, after)
    _check_pads(taker, kinds, path)


def _nothing(taker: Taker, at: Path, before: str, after: str) -> None:
    """Layers that may lie anywhere."""


def _skin(taker: Taker, at: Path, before: str, after: str) -> None:
    if before:
        taker.say("skin-inside", at, "skin: body", "the vehicle's skin is the outermost layer",
                  "layers go from the outside in; put it first")  # fmt: skip


def _pad(taker: Taker, at: Path, before: str, after: str) -> None:
    if before not in (*_SHEETS, "damping"):
        taker.say("damping-on-nothing", at, "damping", "a damping layer sticks on the sheet or skin before it",
                  "put it directly after that sheet")  # fmt: skip


def _core(taker: Taker, at: Path, before: str, after: str) -> None:
    if before not in ("sheet", "glass") or after not in ("sheet", "glass"):
        taker.say("core-on-nothing", at, "core", "a viscoelastic core lies between two sheets or panes",
                  "put a sheet before and after it")  # fmt: skip


def _space(taker: Taker, at: Path, before: str, after: str) -> None:
    if before in ("", *_SPACES) or after in ("", *_SPACES):
        side = "outside" if before in ("", *_SPACES) else "inside"
        taker.say("space-without-leaf", at, "space", f"a space lies between two leaves; there is none {side} of it",
                  "add the sheet, or make one space of two")  # fmt: skip


_CHECKS = {"skin": _skin, "damping": _pad, "core": _core, "cavity": _space, "floor_mounts": _space}


def _check_pads(taker: Taker, kinds: list[str], path: Path) -> None:
    """One pad damps one leaf; a second, or one beside a viscoelastic core, would be lost."""
    run: list[str] = []
    for index, kind in enumerate(kinds):
        if kind not in _BONDED:
            run = []
            continue
        if kind == "damping" and "damping" in run:
            taker.say("damping-twice", (*path, index), "damping", "this leaf has a damping layer already",
                      "make one layer of both, as thick as the two")  # fmt: skip
        elif (kind == "damping" and "core" in run) or (kind == "core" and "damping" in run):
            taker.say("damping-beside-core", (*path, index), kind,
                      "a leaf with a viscoelastic core is damped by that alone; the pad would be left out",
                      "leave out the pad or the core")  # fmt: skip
        run.append(kind)
