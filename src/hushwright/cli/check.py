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


def check(
    file: FileArgument,
    as_json: JsonOption = False,
    units: UnitsOption = Units.METRIC,
    explain: Annotated[
        str,
        typer.Option("--explain", metavar="ID", help="Show how one verdict came about, with sources."),
    ] = "",
    state: Annotated[str, typer.Option("--state", metavar="NAME", help="Judge one state of use only.")] = "",
) -> None:
    """Judge a build file: is the room quiet, and what does it cost?

    Verdicts worst first, each with value, limit, margin, spread and basis; then the weakest paths, resonances,
    headroom, mounts, mass, assumptions, and what to measure next.

    Exit code 0 when every verdict meets its limit, 1 when one fails or is unproven, 2 when the file cannot be read.
    """
    from hushwright.cli.reading import judged, read_evaluation

    evaluation, remarks = read_evaluation(file, as_json=as_json)
    verdicts = _of_state(judged(evaluation), evaluation, state)
    if explain:
        verdicts = (_named(verdicts, explain),)
    if as_json:
        from hushwright.report.as_json import check_json
        from hushwright.report.measure_next import measure_next_nodes

        ranked = measure_next_nodes(verdicts, units.system)
        say(check_json(evaluation, verdicts, ranked, remarks, units.system))
    elif explain:
        from hushwright.report.explain import explanation

        say(explanation(verdicts[0], evaluation, units.system))
    else:
        from hushwright.report.measure_next import measure_next_lines
        from hushwright.report.text import check_report

        say(check_report(evaluation, verdicts, measure_next_lines(verdicts, units.system), units.system))
    if any(one.verdict in ("fails", "unproven") for one in verdicts):
        raise typer.Exit(SOMETHING_OPEN)


def _of_state(verdicts: Sequence[Verdict], evaluation: Evaluation, state: str) -> tuple[Verdict, ...]:
    """Verdicts of one state; those that name no state hold in each."""
    if not state:
        return tuple(verdicts)
    names = dict.fromkeys([*(one.name for one in evaluation.build.states), *(v.state for v in verdicts if v.state)])
    if state not in names:
        refuse(f"The build has no state {state!r}; there are {', '.join(names) or 'none'}.")
    return tuple(one for one in verdicts if one.state in ("", state))


def _named(verdicts: Sequence[Verdict], name: str) -> Verdict:
    """Verdict by its id, refused with a near one when there is none."""
    from difflib import get_close_matches

    found = {one.id: one for one in verdicts}
    if name not in found:
        near = get_close_matches(name, found, n=3, cutoff=0.4)
        hint = f"perhaps {' or '.join(near)}?" if near else f"there are {', '.join(found)}."
        refuse(f"No verdict is called {name!r}; {hint}")
    return found[name]
