"""Text to the terminal: whatever encoding it has, and whether or not someone still reads."""

from __future__ import annotations

import contextlib
import os
import re
import sys
from typing import TextIO

# What a terminal without these characters gets instead, so that nothing is lost in meaning.
_PLAIN = {
    "\u00a0": " ",
    "─": "-", "═": "=", "│": "|", "┌": "+", "┐": "+", "└": "+", "┘": "+", "├": "+", "┤": "+", "┬": "+", "┴": "+",
    "┼": "+", "╱": "/", "╲": "\\", "−": "-", "–": "-", "—": "-", "±": "+/-", "·": ".", "…": "...", "×": "x",
    "║": "|", "→": ">", "←": "<", "↑": "^", "↓": "v", "≤": "<=", "≥": ">=", "√": "sqrt", "²": "2", "³": "3", "⁴": "4",
    "°": "deg ", "“": '"', "”": '"', "‘": "'", "’": "'", "µ": "u", "Δ": "delta ", "ρ": "rho", "η": "eta", "λ": "lambda",
    "α": "alpha", "σ": "sigma", "ω": "omega", "π": "pi", "″": '"', "′": "'", "½": "1/2", "¼": "1/4", "¾": "3/4",
    "▌": "|", "▐": "|", "╥": "|", "╨": "|", "╰": "\\", "╯": "/", "↕": "|", "≈": "~", "━": "-",
    "█": "#", "░": ".", "▏": ":", "▁": "1", "▂": "2", "▃": "3", "▄": "4", "▅": "5", "▆": "6", "▇": "7",
}  # fmt: skip

_TINTS = {"FAILS": "1;31", "UNPROVEN": "1;33", "MEETS": "1;32"}
_OUTCOME = re.compile(rf"^(?:{'|'.join(_TINTS)})\b", re.MULTILINE)


class ReaderLeft(Exception):
    """Whoever read the output has closed it; there is nobody to tell anything."""


def say(text: str) -> None:
    """Print text for the person who called."""
    write(sys.stdout, tinted(text) if _takes_colour(sys.stdout) else text)


def complain(text: str) -> None:
    """Print on the error stream, so that what is piped on stays clean.

    Where nobody reads that, the work goes on: a remark must not keep a file from being written.
    """
    with contextlib.suppress(ReaderLeft):
        write(sys.stderr, text)


def tinted(text: str) -> str:
    r"""Words of outcomes in colour; the word says it all the same.

    Examples
    --------
    >>> tinted("FAILS  headroom")
    '\x1b[1;31mFAILS\x1b[0m  headroom'
    """
    return _OUTCOME.sub(lambda found: f"\x1b[{_TINTS[found[0]]}m{found[0]}\x1b[0m", text)


def _takes_colour(stream: TextIO) -> bool:
    """Whether colour is wanted: a terminal that can, and nobody who has asked for none."""
    if os.environ.get("NO_COLOR") or os.environ.get("TERM", "") in ("", "dumb"):
        return False
    return stream.isatty()


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
