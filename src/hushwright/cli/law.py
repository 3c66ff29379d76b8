"""``hushwright law``: the laws behind the verdicts, one by one."""

from __future__ import annotations

from typing import TYPE_CHECKING, Annotated, NoReturn

import typer

from hushwright.cli.options import JsonOption, Units, UnitsOption, refuse, refuse_file
from hushwright.cli.output import say

if TYPE_CHECKING:
    from hushwright.evaluation.laws.laws import Law


def law(
    name: Annotated[str, typer.Argument(metavar="NAME", help="Law to show or to compute.", show_default=False)] = "",
    values: Annotated[
        list[str] | None,
        typer.Argument(metavar="PARAMETER=VALUE", help="What it is given, `length='900 mm'`.", show_default=False),
    ] = None,
    domain: Annotated[str, typer.Option("--of", metavar="DOMAIN", help="List the laws of one domain.")] = "",
    like: Annotated[str, typer.Option("--like", metavar="WORDS", help="List the laws that speak of these words.")] = "",
    as_json: JsonOption = False,
    units: UnitsOption = Units.METRIC,
) -> None:
    """List the laws behind the verdicts, show one with its source, or compute it by hand.

    Without NAME every law by domain; with NAME what it takes, its formula and source; with PARAMETER=VALUE what it
    gives. Values have units as in a build file, lists have commas (`frequency='100, 200 Hz'`, `levels='27 x 60 dB'`),
    parts of a part a dot (`air.temperature='20 °C'`, `layers.0.thickness='12 mm'`).
    """
    if not name:
        _list(domain, like, as_json=as_json)
        return
    if domain or like:
        refuse("--of and --like choose from the list of laws: leave NAME out.")
    found = _found(name)
    if values or not found.parameters:
        _compute(found, values or [], units, as_json=as_json)
        return
    from hushwright.evaluation.laws.calls import computed
    from hushwright.report.law_json import law_json
    from hushwright.report.law_text import law_text

    answer = None if any(one.needed for one in found.parameters) else computed(found, ())[0]
    say((law_json if as_json else law_text)(found, units.system, answer))


def _list(domain: str, like: str, *, as_json: bool) -> None:
    from hushwright.evaluation.laws.laws import DOMAINS, laws, laws_like
    from hushwright.report.law_json import laws_json
    from hushwright.report.law_text import laws_text

    if domain and domain not in DOMAINS:
        refuse(f"There is no domain {domain!r} of laws. There are {', '.join(DOMAINS)}.")
    found = tuple(one for one in laws() if not domain or one.domain == domain)
    found = laws_like(like, found) if like else found
    if not found:
        refuse(f"No law speaks of {like!r}. `hushwright law` lists them all.")
    say(laws_json(found) if as_json else laws_text(found))


def _compute(found: Law, values: list[str], units: Units, *, as_json: bool) -> None:
    from hushwright.evaluation.laws.calls import computed
    from hushwright.report.law_json import answer_json
    from hushwright.report.law_text import answer_text

    answer, problems = computed(found, values)
    if answer is None:
        refuse_file(problems, as_json=as_json)
    say(answer_json(answer, units.system) if as_json else answer_text(answer, units.system))


def _found(typed: str) -> Law:
    """Law of a name; `thermal.march` or the whole path of its module say which of two."""
    from hushwright.evaluation.laws.laws import laws

    tidy = typed.strip().replace("-", "_").replace(" ", "_").casefold()
    alike = [one for one in laws() if tidy in _names_of(one)]
    if len(alike) != 1:
        _refuse_name(typed, tidy, alike)
    return alike[0]


def _names_of(law: Law) -> tuple[str, ...]:
    """Every way to name a law: alone, after its domain, after its module, or both."""
    stem = law.module.rpartition(".")[2]
    heads = ("", f"{law.domain}.", f"{stem}.", f"{law.module}.")
    return tuple(f"{head}{law.stands_as}".casefold() for head in heads)


def _refuse_name(typed: str, tidy: str, alike: list[Law]) -> NoReturn:
    from difflib import get_close_matches

    from hushwright.evaluation.laws.laws import laws, laws_like

    if alike:
        refuse(f"There are several laws {typed!r}: {', '.join(one.name for one in alike)}.")
    near = get_close_matches(tidy, [one.name for one in laws()], n=3)
    near = near or [one.name for one in laws_like(tidy, laws())[:3]]
    hint = f"Perhaps {' or '.join(near)}?" if near else "`hushwright law` lists them all."
    refuse(f"There is no law {typed!r}. {hint}")
