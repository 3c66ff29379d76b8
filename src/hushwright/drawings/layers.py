"""Layers by trade, with how each is drawn; and the tones of materials."""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class LayerStyle:
    """How a layer is drawn: width of its lines [mm], colour, and whether lines are dashed."""

    width: float
    colour: str
    dashed: bool = False


LAYERS: dict[str, LayerStyle] = {
    "body": LayerStyle(0.50, "#20262b"),
    "structure": LayerStyle(0.18, "#5b6670"),
    "linings": LayerStyle(0.25, "#5e4a2a"),
    "floor": LayerStyle(0.25, "#5e4a2a"),
    "mounts": LayerStyle(0.35, "#8a3b12"),
    "openings": LayerStyle(0.35, "#1f4e79"),
    "treatments": LayerStyle(0.25, "#6a4c93"),
    "fittings": LayerStyle(0.25, "#444b52"),
    "beyond": LayerStyle(0.13, "#5b6670"),
    "air": LayerStyle(0.35, "#0f6e6e"),
    "power": LayerStyle(0.35, "#a11d2b"),
    "signals": LayerStyle(0.35, "#28632a"),
    "routes": LayerStyle(0.35, "#7a4f00"),
    "course": LayerStyle(0.80, "#a11d2b"),
    "line": LayerStyle(0.80, "#28632a"),
    "cuts": LayerStyle(0.50, "#a11d2b"),
    "outlines": LayerStyle(0.35, "#000000"),
    "datums": LayerStyle(0.25, "#a11d2b"),
    "hidden": LayerStyle(0.18, "#8a939b", dashed=True),
    "sections": LayerStyle(0.35, "#20262b", dashed=True),
    "dimensions": LayerStyle(0.13, "#39424a"),
    "text": LayerStyle(0.18, "#20262b"),
    "fills": LayerStyle(0.13, "#9aa3aa"),
}
"""Style of every layer by name; a drawing uses no other."""

TONES: dict[str, str] = {
    "paper": "#ffffff",
    "sheet": "#e9dcc0",
    "wool": "#f6f1e1",
    "limp": "#8d9399",
    "foam": "#dde6ec",
    "core": "#d09a94",
    "covering": "#a7b0b7",
    "glass": "#cfe4ec",
    "absorber": "#ddd5ea",
    "metal": "#c4cacf",
    "room": "#fbfbf9",
    "duct": "#d6ebe9",
    "power": "#f3d9d6",
}
"""Fill of every material by name."""

_OF_KIND: dict[str, str] = {
    "skin": "metal", "damping": "limp", "sheet": "sheet", "limp": "limp", "foam": "foam", "core": "core",
    "covering": "covering", "glass": "glass", "blanket": "wool", "facing": "sheet",
}  # fmt: skip


def tone_of(kind: str) -> str:
    """Tone of a kind of layer; empty for a space.

    Examples
    --------
    >>> tone_of("limp"), tone_of("cavity")
    ('limp', '')
    """
    return _OF_KIND.get(kind, "")
