"""Blocks to typst source and PDF: own plain look, every text a literal, pages numbered."""

from __future__ import annotations

from typing import Final

from hushwright.drawings.paper import PAPERS
from hushwright.drawings.sheets import HELPERS, sheet_source
from hushwright.drawings.typeset import literal, pictures, preamble, typeset
from hushwright.model.build import Build
from hushwright.report.papers.blocks import (
    Blanks,
    Block,
    Caution,
    Chart,
    Checks,
    Contents,
    Drawn,
    Heading,
    Judged,
    PageBreak,
    Paper,
    Say,
    Signatures,
    Table,
    Together,
)
from hushwright.report.papers.charts import chart_source
from hushwright.report.papers.from_lines import holds_blocks
from hushwright.units import System

_TINTS: Final = {"MEETS": "#2b6e4f", "UNPROVEN": "#9a6400", "FAILS": "#a8322a", "NOT APPLICABLE": "#5b6670"}
_ONE_CARD = 2500  # characters, up to which a card is never parted by a page break
_INK, _FAINT = "#20262b", "#5b6670"

_LOOK: Final = """
#set par(leading: 0.55em, spacing: 0.8em)
#set heading(numbering: none)
#show heading.where(level: 1): it => block(above: 6mm, below: 3mm, sticky: true)[
  #text(size: 15pt, weight: "bold", it.body) #v(-2.2mm) #line(length: 100%, stroke: 0.5mm + rgb("#20262b"))]
#show heading.where(level: 2): it => block(above: 5mm, below: 2mm, sticky: true,
  text(size: 11.5pt, weight: "bold", it.body))
#show heading.where(level: 3): it => block(above: 3.5mm, below: 1.5mm, sticky: true,
  text(size: 9.5pt, weight: "bold", it.body))
#let _rule = (x: none, y: 0.1mm + rgb("#9aa3aa"))
#let _word(word, colour) = box(text(weight: "bold", size: 0.92em, fill: rgb(colour), word))
#let _caution(body) = block(breakable: false, width: 100%, inset: (x: 2.4mm, y: 1.5mm), radius: 0.8mm,
  above: 1.8mm, below: 1.8mm, stroke: (left: 1mm + rgb("#9a6400"), rest: 0.15mm + rgb("#9aa3aa")), body)
#let _card(colour, whole, body) = block(breakable: not whole, width: 100%, above: 2.6mm, below: 2.6mm,
  inset: (left: 3mm, y: 0.6mm), stroke: (left: 0.9mm + rgb(colour)), body)
#let _together(body) = layout(page => block(width: 100%,
  breakable: measure(width: page.width, body).height > page.height, body))
#let _blank(label, body) = block(breakable: false, width: 100%, below: 1mm)[
  #text(size: 0.85em, fill: rgb("#5b6670"), label) #v(-2mm) #block(width: 100%,
    stroke: (bottom: 0.15mm + rgb("#5b6670")), inset: (bottom: 1mm))[#box(width: 0mm, height: 4.2mm)#body]]
#let _tick(body) = grid(columns: (5mm, 1fr), rect(width: 3mm, height: 3mm, stroke: 0.25mm + rgb("#20262b")), body)
"""


def paper_pdf(paper: Paper, build: Build, system: System) -> bytes:
    """PDF/A of a paper.

    Parameters
    ----------
    paper : Paper
        Blocks.
    build : Build
        Gives title and date of every page.
    system : {"metric", "us"}
        Chooses A4 or Letter.

    Returns
    -------
    bytes
        The same for the same input.
    """
    return typeset(paper_source(paper, build, system))


def paper_pictures(paper: Paper, build: Build, system: System) -> tuple[bytes, ...]:
    """Pages of a paper as pictures, for a preview."""
    return pictures(paper_source(paper, build, system))


def paper_source(paper: Paper, build: Build, system: System) -> str:
    """Typst source of a paper."""
    date = build.document.root.date
    title = f"{build.title or 'Untitled build'}, {paper.title.lower()}"
    size = '"us-letter"' if system == "us" else '"a4"'
    foot = " · ".join(text for text in (build.title, paper.title, date) if text)
    page = (
        f"#set page(paper: {size}, margin: (x: 20mm, top: 18mm, bottom: 20mm), footer: context "
        f'[#set text(size: 7.5pt, fill: rgb("{_FAINT}"))\n#{literal(foot, breakable=True)} #h(1fr) '
        "#counter(page).display() / #counter(page).final().first()])\n"
    )
    parts = [_block(block, build, system) for block in paper.blocks]
    helpers = HELPERS if any(isinstance(block, Drawn) for block in paper.blocks) else ""
    return preamble(title, date, "9.5pt") + page + _LOOK + helpers + "\n".join(parts)


def text(words: str) -> str:
    """Text of anybody as content of typst."""
    return f"#{literal(words, breakable=True)}"


def _block(block: Block, build: Build, system: System) -> str:
    if isinstance(block, Drawn):
        return _drawn(block, build, system)
    if isinstance(block, Chart):
        return chart_source(block)
    if isinstance(block, Heading):
        return _heading(block)
    if isinstance(block, Table):
        return _table(block)
    if isinstance(block, Judged):
        return _judged(block)
    if isinstance(block, Together):
        return (
            "#v(7mm, weak: true)\n#_together[" + "\n".join(_block(each, build, system) for each in block.blocks) + "]"
        )
    return _plain(block)


def _plain(block: Block) -> str:
    if isinstance(block, Say):
        return _say(block)
    if isinstance(block, Caution):
        return f"#_caution[{text(block.text)}]"
    if isinstance(block, Blanks):
        cells = ", ".join(f"_blank({literal(name)}, [{text(value)}])" for name, value in block.fields)
        grid = f"#grid(columns: (1fr,) * {block.columns}, column-gutter: 6mm, row-gutter: 2mm, {cells})"
        return f"#block(sticky: true, width: 100%)[{grid}]"
    if isinstance(block, Checks):
        return "\n".join(f"#_tick[{text(each)}]" for each in block.texts)
    if isinstance(block, Signatures):
        return _signatures(block)
    if isinstance(block, Contents):
        return (
            "#[#set text(size: 8.5pt)\n#set par(leading: 0.42em)\n#set outline.entry(fill: repeat[.#h(1mm)])\n"
            "#show outline.entry: set block(above: 1.25mm)\n#outline(title: none, depth: 2, indent: 6mm)]"
        )
    assert isinstance(block, PageBreak)
    return "#pagebreak(weak: true)"


def _heading(block: Heading) -> str:
    fresh = "#pagebreak(weak: true)\n" if block.fresh else ""
    return f"{fresh}#heading(level: {block.level}, [{text(block.text)}])"


def _say(block: Say) -> str:
    if block.style == "small":
        return f'#block(text(size: 8pt, fill: rgb("{_FAINT}"))[{text(block.text)}])'
    if block.style == "strong":
        return f'#block(text(weight: "bold")[{text(block.text)}])'
    if block.style == "title":
        return f'#block(below: 4.5mm, text(size: 22pt, weight: "bold")[{text(block.text)}])'
    if block.style == "lead":
        return f"#block(below: 4mm, text(size: 12pt)[{text(block.text)}])"
    return f"#par[{text(block.text)}]"


def _table(block: Table) -> str:
    if not block.rows:
        return ""
    widths = block.widths or (1.0,) * len(block.columns)
    shares = ", ".join("auto" if width == 0 else f"{width:g}fr" for width in widths)
    aligned = ", ".join("right" if at in block.right else "left" for at in range(len(block.columns)))
    head = ", ".join(f"[*{text(cell)}*]" for cell in block.columns)
    names = f"table.header({head})," if any(block.columns) else ""
    last = len(block.rows) - 1
    cells = ", ".join(
        _cell(cell, at == block.mark, strong=block.total and row == last)
        for row, line in enumerate(block.rows)
        for at, cell in enumerate(line)
    )
    size = "8pt" if block.small else "9pt"
    return (
        f"#[#set text(size: {size})\n#set par(leading: 0.45em)\n#table(columns: ({shares},), align: ({aligned},),"
        f" inset: (x: 1.1mm, y: {'1.9mm' if block.to_write else '1mm'}), stroke: _rule, {names} {cells})]"
    )


def _cell(words: str, mark: bool, *, strong: bool) -> str:
    if mark and words in _TINTS:
        return f'[#_word({literal(words)}, "{_TINTS[words]}")]'
    if holds_blocks(words):
        return f'[#text(font: "DejaVu Sans Mono", size: 0.8em, raw({literal(words)}))]'
    return f"[*{text(words)}*]" if strong and words else f"[{text(words)}]"


def _judged(block: Judged) -> str:
    colour = _TINTS.get(block.outcome, _INK)
    lines = ", ".join(
        f'text(size: 8pt, fill: rgb("{_FAINT}"), {literal(label)}), [{text(told)}]' for label, told in block.lines
    )
    grid = f"#grid(columns: (17mm, 1fr), row-gutter: 1.3mm, {lines})" if lines else ""
    numbers = f"#block(above: 1.6mm, below: 1.8mm)[{text(block.numbers)}]" if block.numbers else ""
    head = (
        f'#block(sticky: true, below: 1.2mm)[#_word({literal(block.outcome)}, "{colour}") #h(2mm)'
        f" *{text(block.question)}*"
        f' #h(2mm) #text(size: 8pt, fill: rgb("{_FAINT}"))[{text(block.name)}]]'
    )
    whole = sum(len(told) for _, told in block.lines) < _ONE_CARD
    return f'#_card("{colour}", {str(whole).lower()})[{head}\n{numbers}\n#text(size: 8.8pt)[{grid}]]'


def _signatures(block: Signatures) -> str:
    cells = ", ".join(
        f"[#v(9mm) #line(length: 100%, stroke: 0.2mm) #v(-1mm) #text(size: 8pt)[{text(role)}: place, date, signature]]"
        for role in block.roles
    )
    return f"#block(breakable: false, width: 100%)[#grid(columns: (1fr,) * 2, column-gutter: 10mm, {cells})]"


def _drawn(block: Drawn, build: Build, system: System) -> str:
    """A sheet on a lying page; what comes after stands upright again."""
    paper = PAPERS["Letter" if system == "us" else "A4"]
    return f"#[#set page(footer: none)\n{sheet_source(block.sheet, build, paper, system, block.number)}]\n"
