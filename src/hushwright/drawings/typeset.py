"""Typesetting: a source in, a PDF out. The only place where typst and the fonts enter.

The same source gives the same bytes: no date of the day, no font of the machine, no file but those handed in. A
missing font, a missing glyph, any warning at all is an error. Text of a person goes through :func:`literal`, which
makes it text whatever stands in it.
"""

from __future__ import annotations

import re
import unicodedata
from collections.abc import Mapping
from datetime import date
from functools import lru_cache
from pathlib import Path
from typing import TYPE_CHECKING, Any, Final

if TYPE_CHECKING:
    from typst import Fonts

FAMILIES = ("Source Sans Pro", "DejaVu Sans Mono", "Libertinus Serif")
"""Fonts in the order in which a character is looked for: the text font, then two for scripts that it lacks."""

_STANDARD: Final = "a-2b"  # PDF/A-2b, ISO 19005-2: fonts inside, every glyph there
_MISSING = re.compile(r'the text `"(.+?)"` could not be displayed')
_LONGEST_WORD = 24  # characters, from which a word may be broken
_BREAK: Final = "\u200b"  # in the source alone: the preamble sets a box without width there, so no page holds it
_JOINT = re.compile(r"(?<=[-./_])")
_ISO_DATE = re.compile(r"^(\d{4})-(\d{2})-(\d{2})$")


class CannotTypeset(RuntimeError):
    """The source cannot be set: an error or a warning, or a glyph that no font has."""


@lru_cache(maxsize=1)
def _fonts() -> Fonts:
    from typst import Fonts

    return Fonts(include_system_fonts=False, include_embedded_fonts=True, font_paths=[str(font_folder())])


def font_folder() -> Path:
    """Folder of the text font, from its own package."""
    import font_source_sans_pro

    return Path(font_source_sans_pro.__file__).parent / "files"


def typeset(source: str, files: Mapping[str, bytes] | None = None) -> bytes:
    """Set a source as PDF/A.

    Parameters
    ----------
    source : str
        Typst source; it begins with :func:`preamble`.
    files : mapping of name to bytes, optional
        Pictures and other files that the source names.

    Returns
    -------
    bytes
        The PDF, the same for the same input.

    Raises
    ------
    CannotTypeset
        On an error, a warning, or a character that no font has.

    Examples
    --------
    >>> typeset(preamble("A title") + "Hello")[:5]
    b'%PDF-'
    """
    import typst

    inputs: Any = {"main.typ": source.encode(), **(files or {})}
    try:
        pdf, warnings = typst.compile_with_warnings(
            inputs, format="pdf", font_paths=_fonts(), pdf_standards=[_STANDARD], timestamp=0
        )
    except typst.TypstError as problem:
        raise CannotTypeset(problem.diagnostic or problem.message) from problem
    if warnings:
        raise CannotTypeset("; ".join(warning.message for warning in warnings))
    assert isinstance(pdf, bytes)
    return pdf


def pictures(source: str, resolution: float = 80.0) -> tuple[bytes, ...]:
    """Pages of a source as pictures, for a screen.

    Parameters
    ----------
    source : str
        Typst source; it begins with :func:`preamble`.
    resolution : float
        Dots per inch.

    Returns
    -------
    tuple of bytes
        One PNG a page.

    Raises
    ------
    CannotTypeset
        On an error.
    """
    import typst

    inputs: Any = {"main.typ": source.encode()}
    try:
        pages: Any = typst.compile(inputs, format="png", font_paths=_fonts(), ppi=resolution)
    except typst.TypstError as problem:
        raise CannotTypeset(problem.diagnostic or problem.message) from problem
    return tuple(pages) if isinstance(pages, list) else (pages,)


def preamble(title: str, day: str = "", size: str = "9pt") -> str:
    """Set-up of every document: title, date of the file, fonts, language.

    Parameters
    ----------
    title : str
        Title, as plain text.
    day : str
        Date as the file has it; one that is not of the form 2026-05-04 leaves the document undated (1970).
    size : str
        Size of the text.
    """
    found = _ISO_DATE.match(day.strip())
    when = "datetime(year: 1970, month: 1, day: 1)"
    if found is not None and _is_date(*(int(each) for each in found.groups())):
        year, month, day_number = (int(each) for each in found.groups())
        when = f"datetime(year: {year}, month: {month}, day: {day_number})"
    families = ", ".join(f'"{family}"' for family in FAMILIES)
    return (
        f"#set document(title: {literal(title)}, date: {when})\n"
        f'#set text(font: ({families}), size: {size}, lang: "en", hyphenate: false)\n'
        f'#show "{_BREAK}": box(width: 0pt)\n'
    )


def _is_date(year: int, month: int, day: int) -> bool:
    try:
        date(year, month, day)
    except ValueError:
        return False
    return True


def literal(text: str, *, breakable: bool = False) -> str:
    r"""Text of a person as a typst string: no markup, no control characters, no character without a glyph.

    Parameters
    ----------
    text : str
        Anything.
    breakable : bool
        Whether very long words may be broken, for table cells and running text: at their joints first. What is
        copied from the page has no mark of it.

    Returns
    -------
    str
        The string with its quotes. What no font can show stands as its number, ``[U+1F600]``.

    Examples
    --------
    >>> literal('2" #hole *here*'), literal("tab\there")
    ('"2\\" #hole *here*"', '"tab here"')
    """
    plain = "".join(" " if unicodedata.category(each) in ("Cc", "Cs", "Cn", "Co") else each for each in text)
    plain = "".join(f"[U+{ord(each):04X}]" if each in _without_glyph(plain) else each for each in plain)
    if breakable:
        plain = " ".join(_with_breaks(word) for word in plain.split(" "))
    return '"' + plain.replace("\\", "\\\\").replace('"', '\\"') + '"'


def _with_breaks(word: str) -> str:
    if len(word) <= _LONGEST_WORD:
        return word
    pieces = [piece for piece in _JOINT.split(word) if piece]
    chopped = [[piece] if len(piece) <= _LONGEST_WORD else _chopped(piece) for piece in pieces]
    return _BREAK.join(piece for each in chopped for piece in each)


def _chopped(word: str) -> list[str]:
    return [word[index : index + 8] for index in range(0, len(word), 8)]


@lru_cache(maxsize=4096)
def _without_glyph(text: str) -> frozenset[str]:
    """Characters of a text that no font can show."""
    unusual = frozenset(each for each in text if ord(each) > 0x17F and each != _BREAK)
    return _probed(unusual) if unusual else frozenset()


@lru_cache(maxsize=4096)
def _probed(characters: frozenset[str]) -> frozenset[str]:
    import typst

    families = ", ".join(f'"{family}"' for family in FAMILIES)
    lines = "\n".join(f'#text("{each}")' for each in sorted(characters))
    source = (
        "#set document(date: datetime(year: 1970, month: 1, day: 1))\n"
        f"#set page(height: auto)\n#set text(font: ({families}))\n{lines}\n"
    )
    text: Any = source.encode()
    try:
        typst.compile(text, format="pdf", font_paths=_fonts(), pdf_standards=[_STANDARD], timestamp=0)
    except typst.TypstError as problem:
        return frozenset("".join(_MISSING.findall(problem.diagnostic))) & characters or characters
    return frozenset()
