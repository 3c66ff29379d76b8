"""A paper as lines for a terminal."""

from __future__ import annotations

from hushwright.report.layout import WIDTH, heading, table, wrapped
from hushwright.report.papers.blocks import (
    Blanks,
    Block,
    Caution,
    Checks,
    Heading,
    Judged,
    Paper,
    Say,
    Signatures,
    Table,
    one_by_one,
)

_INDENT = 2


def paper_text(paper: Paper) -> str:
    """Text of a paper, at most 100 columns wide; charts, drawings and signatures are left to the PDF."""
    lines = [line for block in one_by_one(paper.blocks) for line in _lines(block)]
    return "\n".join(lines).strip("\n")


def _lines(block: Block) -> list[str]:
    if isinstance(block, Heading):
        return heading(block.text)
    if isinstance(block, Say):
        return wrapped(block.text, indent=0 if block.style in ("title", "lead") else _INDENT, hanging=_INDENT)
    if isinstance(block, Table):
        return _table(block)
    if isinstance(block, Caution):
        return wrapped(f"! {block.text}", indent=_INDENT, hanging=4)
    if isinstance(block, Judged):
        told = [f"{block.outcome}  {block.name}: {block.question}", block.numbers]
        told += [f"{name} {text}" for name, text in block.lines]
        return [line for text in told for line in wrapped(text, indent=_INDENT, hanging=4)]
    return _others(block)


def _others(block: Block) -> list[str]:
    if isinstance(block, Checks):
        return [line for text in block.texts for line in wrapped(f"[ ] {text}", indent=_INDENT, hanging=6)]
    if isinstance(block, Blanks):
        return [f"  {name}: {value or '________'}" for name, value in block.fields]
    if isinstance(block, Signatures):
        return [f"  {role}: ________" for role in block.roles]
    return []


def _table(block: Table) -> list[str]:
    """Columns side by side; where they are too wide, each row under its first cell."""
    rows = [block.columns, *block.rows]
    widths = [max(len(row[at]) for row in rows) for at in range(len(block.columns))]
    if sum(widths) <= WIDTH - _INDENT - 2 * (len(widths) - 1):
        return table(rows, right=block.right)
    lines: list[str] = []
    for first, *others in block.rows:
        told = [f"{name} {cell}".strip() for name, cell in zip(block.columns[1:], others, strict=True) if cell]
        lines += [*wrapped(first, indent=_INDENT, hanging=4), *wrapped("; ".join(told), indent=6, hanging=6)]
    return lines
