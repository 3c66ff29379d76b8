"""``hushwright check``: a build file to verdicts."""

from __future__ import annotations

from typing import TYPE_CHECKING, Annotated

import typer

from hushwright.cli.options import FileArgument, JsonOption, Units, UnitsOption, refuse
from hushwright.cli.output import say

if TYPE_CHECKING:
    from collections.abc import Sequence

    from hushwright.evaluation.results import Evaluation
    from hushwright.verdicts.verdict import Verdict

SOMETHING_OPEN = 1
_NEAR_SHOWN = 3


def check(
    file: FileArgument,
    as_json: JsonOption = False,
    units: UnitsOption = Units.METRIC,
    explain: Annotated[
        str,
        typer.Option("--explain", metavar="ID", help="Show how one verdict came about, with sources."),
    ] = "",
    state: Annotated[str, typer.Option("--state", metavar="NAME", help="Judge one state of use only.")] = "",
    only: Annotated[
        list[str] | None,
        typer.Option(
            "--only", metavar="GROUP",
            help="Show one group only, again for more: Quiet, Air, Heat, Mass, Space, Mounts, Anchoring, Doors, "
            "Safety, Papers, Power, Wiring, Signals, Budget.",
        ),
    ] = None,
    whole: Annotated[bool, typer.Option("--all", help="Show every table and every note.")] = False,
) -> None:  # fmt: skip
    """Judge a build file: is the room quiet, and what does it cost?

    What to do first; verdicts worst first, what is open with value, limit, margin, spread, basis and what to try; the
    weakest paths, assumptions, and what to measure next. With --all, or for one group with --only, also the tables:
    resonances, air, heat, headroom, mounts, mass and all else.

    Exit code 0 when every verdict meets its limit, 1 when one fails or is unproven, 2 when the file cannot be read.
    """
    from hushwright.cli.only import groups_named
    from hushwright.cli.reading import judged, read_evaluation

    groups = groups_named(only or ())
    evaluation, remarks = read_evaluation(file, as_json=as_json)
    verdicts = judged(evaluation)
    if groups:
        verdicts = tuple(one for one in verdicts if one.group in groups)
    if state:
        verdicts, evaluation = _of_state(verdicts, evaluation, state)
    if explain:
        verdicts = (_named(verdicts, explain),)
    if as_json:
        from hushwright.report.as_json import check_json
        from hushwright.report.measure_next import measure_next_nodes
        from hushwright.verdicts.measure_next import measure_next

        ranked = measure_next_nodes(measure_next(evaluation, verdicts), units.system)
        say(check_json(evaluation, verdicts, ranked, remarks, units.system))
    elif explain:
        from hushwright.report.explain import explanation

        say(explanation(verdicts[0], evaluation, units.system))
    else:
        from hushwright.report.measure_next import measure_next_lines
        from hushwright.report.text import check_report
        from hushwright.verdicts.measure_next import measure_next

        lines = measure_next_lines(measure_next(evaluation, verdicts), units.system)
        say(check_report(evaluation, verdicts, lines, units.system, groups, whole=whole or bool(groups)))
    if any(one.verdict in ("fails", "unproven") for one in verdicts):
        raise typer.Exit(SOMETHING_OPEN)


def _of_state(
    verdicts: Sequence[Verdict], evaluation: Evaluation, state: str
) -> tuple[tuple[Verdict, ...], Evaluation]:
    """Verdicts and results of one state; verdicts that name no state hold in each."""
    from dataclasses import replace

    names = dict.fromkeys([*(one.name for one in evaluation.build.states), *(v.state for v in verdicts if v.state)])
    if state not in names:
        refuse(f"The build has no state {state!r}; there are {', '.join(names) or 'none'}.")
    of_state = replace(
        evaluation,
        backgrounds=tuple(one for one in evaluation.backgrounds if one.state == state),
        between_rooms=tuple(one for one in evaluation.between_rooms if one.state == state),
        neighbours=tuple(one for one in evaluation.neighbours if one.state == state),
        mounts=tuple(one for one in evaluation.mounts if one.state == state),
        masses=tuple(one for one in evaluation.masses if one.state == state),
        air=replace(
            evaluation.air,
            states=tuple(one for one in evaluation.air.states if one.state == state),
            sounds=tuple(one for one in evaluation.air.sounds if one.state == state),
        ),
        structure=replace(
            evaluation.structure,
            anchoring=tuple(one for one in evaluation.structure.anchoring if one.state == state),
            changes=tuple(one for one in evaluation.structure.changes if one.state == state),
        ),
    )
    return tuple(one for one in verdicts if one.state in ("", state)), of_state


def _run_together(name: str) -> str:
    """Name as it is left when a page broke it at the end of a line and it was copied from there."""
    return "".join(name.split(",")[0].split()).replace("-", "")


def _named(verdicts: Sequence[Verdict], name: str) -> Verdict:
    """Verdict by its id, refused with a near one when there is none."""
    from difflib import get_close_matches

    found = {one.id: one for one in verdicts}
    if name not in found:
        alike = [one for one in verdicts if _run_together(one.id) == _run_together(name)]
        if len(alike) == 1:
            return alike[0]
        near = [each for each in found if each.startswith(name)][:_NEAR_SHOWN]
        near = near or get_close_matches(name, found, n=_NEAR_SHOWN, cutoff=0.4)
        hint = f"perhaps {' or '.join(near)}?" if near else "`check` without --explain shows the name of each verdict."
        refuse(f"No verdict is called {name!r}; {hint}")
    return found[name]
