"""Typeset formulas as one line of plain text."""

from __future__ import annotations

import re
from typing import Final

_SIGNS: Final = {
    "alpha": "α", "beta": "β", "gamma": "γ", "delta": "δ", "epsilon": "ε", "varepsilon": "ε", "eta": "η", "theta": "θ",
    "vartheta": "ϑ", "kappa": "κ", "lambda": "λ", "mu": "μ", "nu": "ν", "pi": "π", "rho": "ρ", "sigma": "σ",
    "tau": "τ", "phi": "φ", "varphi": "φ", "omega": "ω", "zeta": "ζ", "psi": "ψ", "Delta": "Δ", "Omega": "Ω",
    "Phi": "Φ", "Psi": "Ψ", "Sigma": "Σ", "cdot": "·", "times": "×", "le": "≤", "leq": "≤", "ge": "≥", "geq": "≥",
    "approx": "≈", "sum": "Σ", "int": "∫", "infty": "∞", "pm": "±", "langle": "⟨", "rangle": "⟩", "to": "→", "ne": "≠",
    "ll": "≪", "gg": "≫", "partial": "∂", "prime": "′", "quad": "  ", "qquad": "  ", "dots": "…", "ldots": "…",
    "propto": "∝", "sim": "~", "sqrt": "√", "left": "", "right": "", "big": "", "Big": "", "bigl": "", "bigr": "",
    "mid": "|", "in": "∈", "degree": "°", "circ": "°", "ell": "ℓ",
}  # fmt: skip
_RELATIONS: Final = "≤≥≈≠≪≫→∝~∈"
_GROUP: Final = r"\{((?:[^{}]|\{[^{}]*\})*)\}"
_POWERS: Final = str.maketrans("0123456789+-n", "⁰¹²³⁴⁵⁶⁷⁸⁹⁺⁻ⁿ")


def formula_text(text: str) -> str:
    r"""Formula without the commands of its typesetting.

    Examples
    --------
    >>> formula_text(r".. math:: f = \frac{1}{2 \pi}\sqrt{\frac{k}{m}}")
    'f = 1/(2 π)√(k/m)'
    >>> formula_text(r"L_{EX,8h} \le 10\,\lg x^2")
    'L_EX,8h ≤ 10 lg x²'
    """
    text = text.replace(r"\\", "; ").replace(".. math::", "").replace(r"\,", " ").replace(r"\;", " ").replace(r"\!", "")
    text = text.replace(r"\ ", " ").replace(r"\begin{cases}", "(").replace(r"\end{cases}", ")")
    text = text.replace("&", " if ")
    text = re.sub(r"\\[dt]?frac\s*(\d)\s*(\d|\\[a-z]+)", r"(\1/\2)", text)
    text = re.sub(r"\\(?:mathrm|text|mathit|operatorname|overline|bar|hat|vec)\s*" + _GROUP, r"\1", text)
    text = re.sub(r"\\dot\s*\{?([A-Za-z])\}?", "\\1\u0307", text)
    before = ""
    while before != text:
        before = text
        text = re.sub(r"\\[dt]?frac\s*" + _GROUP + r"\s*" + _GROUP, r"(\1)/(\2)", text)
        text = re.sub(r"\\sqrt\s*" + _GROUP, r"√(\1)", text)
        text = re.sub(r"_" + _GROUP, r"_\1", text)
    text = re.sub(r"\^(?:\{([-+0-9n]+)\}|([0-9n]))", lambda found: (found[1] or found[2]).translate(_POWERS), text)
    text = re.sub(r"\^" + _GROUP, r"^(\1)", text)
    text = re.sub(r"\\([A-Za-z]+) ?", lambda found: _sign(found[1]), text)
    text = re.sub(r"(?<!\w)\((\w+)\)/", r"\1/", text)
    text = re.sub(r"/\((\w|[0-9]+)\)", r"/\1", text)
    text = re.sub(r"(?<=\() +| +(?=[\u00b2\u00b3])", "", text)
    return " ".join(text.replace("{", "").replace("}", "").replace("\\", "").replace("~", " ").split())


def _sign(command: str) -> str:
    """Sign of a command; names of functions stay words."""
    sign = _SIGNS.get(command, f" {command} ")
    return f" {sign} " if sign and sign in _RELATIONS else sign
