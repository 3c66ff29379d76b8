"""Circuits as they are told on paper: a charger stands between its source and the bank under its own name."""

from __future__ import annotations

from dataclasses import replace

from hushwright.evaluation.results.wiring import CircuitResult, WiringResults
from hushwright.model.build import Build
from hushwright.model.power_in_place import SolarInPlace


def with_chargers(found: WiringResults, build: Build, *, linked: bool = False) -> WiringResults:
    """Circuits whose ends name the charger where the file names its source.

    Parameters
    ----------
    found : WiringResults
        Circuits as computed.
    build : Build
        Says what the sources are.
    linked : bool, default False
        Whether a source whose circuit leaves its charger has a bare link to it, for a diagram.

    Returns
    -------
    WiringResults
        "Shore board to shore" becomes "shore board to shore charger", "panels to bank" "panels controller to bank".
    """
    sources = build.power.sources if build.power is not None else ()
    names = {each.name: f"{each.name}_{'controller' if isinstance(each, SolarInPlace) else 'charger'}"
             for each in sources}  # fmt: skip
    told: list[CircuitResult] = []
    reached = {to for each in found.circuits if each.alternating for to in each.gives_to if to in names}
    for each in found.circuits:
        if each.alternating:
            told.append(replace(each, gives_to=tuple(names.get(to, to) for to in each.gives_to)))
            continue
        source = each.takes_from
        if source in names and linked and source not in reached:
            told.append(_link(each, source, names[source]))
            reached.add(source)
        told.append(replace(each, takes_from=names.get(source, source)))
    return replace(found, circuits=tuple(told))


def _link(circuit: CircuitResult, source: str, charger: str) -> CircuitResult:
    """A line from a source to its charger, of which the file says nothing."""
    return replace(circuit, name=f"{source}_to_{charger}", takes_from=source, gives_to=(charger,), conductor="",
                   fuse=None, residual=None, isolator="")  # fmt: skip
