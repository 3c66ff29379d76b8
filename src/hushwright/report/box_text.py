"""A designed baffle box as text: what is asked, what it takes, and the line for the build file."""

from __future__ import annotations

from hushwright.evaluation.box_design import BoxDesign
from hushwright.physics.acoustics.duct_bands import DUCT_OCTAVES
from hushwright.report.layout import counted, table, wrapped
from hushwright.report.units_out import restated, shown
from hushwright.units import System

_NOTE = (
    "Counted is the sound of the run's own fan and moving air; outdoors in through the duct and talk between rooms are"
    " judged by `hushwright check` once the box is in the file."
)


def box_text(found: BoxDesign, system: System) -> str:
    """Text of a design.

    Parameters
    ----------
    found : BoxDesign
        The design.
    system : {"metric", "us"}
        Units of the output.

    Returns
    -------
    str
        Lines to print.
    """
    names = [f"{octave:g}" if octave < 1000 else f"{octave / 1000:g}k" for octave in DUCT_OCTAVES]
    loss = found.design.loss.octaves
    rows = [
        ("octave [Hz]", *names),
        (f"in {found.room} without it", *_cells(found.without_box)),
        ("asked of the box", *_cells(found.required)),
        ("box", *_cells(loss)),
        ("missing", *_cells(found.design.shortfall)),
    ]
    box = found.design.box
    size = " × ".join(shown(side, "length", system) for side in (box.length, box.width, box.height))
    meets = "takes all that is asked" if found.design.meets else "comes nearest; it does not take all that is asked"
    lines = [f"Baffle box for run {found.run}, NC {found.curve:g} in {found.room}", ""]
    lines += table(rows, right=range(1, len(names) + 1))
    lining = f"lining {shown(box.lining_thickness, 'length', system)} of {found.absorber}"
    inside = f"{counted(box.baffle_count, 'baffle')}, free {shown(box.passage, 'length', system)}"
    told = f"{size} outside, {lining}, {inside}: {meets} ({found.design.tried} boxes tried)."
    lines += ["", *wrapped(told, hanging=2)]
    for note in found.design.loss.notes:
        lines += wrapped(restated(note, system), indent=2, hanging=4)
    lines += ["", "For the build file, under the run's elements:", f"  {box_line(found, system)}", ""]
    return "\n".join([*lines, *wrapped(_NOTE)])


def _cells(levels: tuple[float, ...]) -> list[str]:
    return [f"{level:.0f}" if level > -100.0 else "-" for level in levels]


def box_line(found: BoxDesign, system: System) -> str:
    """The piece as the build file writes it."""
    box = found.design.box

    def length(value: float) -> str:
        return f"{1000.0 * value:.0f} mm" if system == "metric" else f"{value / 0.0254:.3f} in"

    passage = f", passage: {length(box.passage)}" if box.baffle_count else ""
    return (
        f"- {{baffle_box: {length(box.length)}, width: {length(box.width)}, height: {length(box.height)}, "
        f"lining: {length(box.lining_thickness)}, absorber: {found.absorber}, baffles: {box.baffle_count}{passage}}}"
    )
