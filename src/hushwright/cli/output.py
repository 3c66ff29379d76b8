"""Text to the terminal: whatever encoding it has, and whether or not someone still reads."""

from __future__ import annotations

import sys
from typing import TextIO

# What a terminal without these characters gets instead, so that nothing is lost in meaning.
_PLAIN = {
    "─": "-", "═": "=", "│": "|", "┌": "+", "┐": "+", "└": "+", "┘": "+", "├": "+", "┤": "+", "┬": "+", "┴": "+",
    "╱": "/", "╲": "\\", "−": "-", "–": "-", "—": "-", "±": "+/-", "·": ".", "…": "...", "×": "x", "→": "->",
    "←": "<-", "↑": "^", "↓": "v", "≤": "<=", "≥": ">=", "√": "sqrt", "²": "2", "³": "3", "⁴": "4", "°": "deg ",
    "“": '"', "”": '"', "‘": "'", "’": "'", "µ": "u", "Δ": "delta ", "ρ": "rho", "η": "eta", "λ": "lambda",
    "α": "alpha", "σ": "sigma", "ω": "omega", "π": "pi", "″": '"', "′": "'", "½": "1/2", "¼": "1/4", "¾": "3/4",
    "▌": "|", "▐": "|", "╥": "|", "╨": "|", "╰": "\\", "╯": "/", "↕": "|", "≈": "~", "━": "-",
    "█": "#", "░": ".", "▏": ":", "▁": "1", "▂": "2", "▃": "3", "▄": "4", "▅": "5", "▆": "6", "▇": "7",
}  # fmt: skip


class ReaderLeft(Exception):
    """Whoever read the output has closed it; there is nobody to tell anything."""


def say(text: str) -> None:
    """Print text for the person who called."""
    write(sys.stdout, text)


def complain(text: str) -> None:
    """Print on the error stream, so that what is piped on stays clean."""
    write(sys.stderr, text)


def write(stream: TextIO, text: str) -> None:
    """Write a text and a line end.

    Raises
    ------
    ReaderLeft
        If the other end of the pipe is closed.
    """
    try:
        stream.write(encodable(text, getattr(stream, "encoding", None)) + "\n")
        stream.flush()
    except BrokenPipeError:
        raise ReaderLeft from None


def encodable(text: str, encoding: str | None) -> str:
    """Text as it is where the encoding has all of it, else with plain characters for those it lacks.

    Examples
    --------
    >>> encodable("1.8 m², ±2 dB", "ascii"), encodable("1.8 m², ±2 dB", "utf-8")
    ('1.8 m2, +/-2 dB', '1.8 m², ±2 dB')
    """
    encoding = encoding or "utf-8"
    try:
        text.encode(encoding)
    except (UnicodeEncodeError, LookupError):
        plain = "".join(_PLAIN.get(character, character) for character in text)
        return plain.encode("ascii", "replace").decode("ascii")
    return text
