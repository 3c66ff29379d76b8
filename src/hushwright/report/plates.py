"""Whether as many plates are bought as the panel saw takes, said beside every purchase list."""

from __future__ import annotations

from hushwright.drawings.plates import PlatesOf, plates_of
from hushwright.model.build import Build
from hushwright.report.cost import named
from hushwright.report.units_out import shown
from hushwright.units import System


def plates_told(build: Build, system: System) -> tuple[str, ...]:
    """Boards whose purchase differs from the plates of their layout; one line that all agree where they do.

    Parameters
    ----------
    build : Build
        The build.
    system : {"metric", "us"}
        Units.

    Returns
    -------
    tuple of str
        Nothing where no board is bought by the plate.
    """
    found = [lot for lot in plates_of(build) if lot.bought is not None]
    told = tuple(_told(lot, system) for lot in found if lot.bought is not None and lot.bought.packs != len(lot.plates))
    if found and not told:
        return (f"As many plates are bought as the saw takes: {sum(len(lot.plates) for lot in found)} in all.",)
    return told


def _told(lot: PlatesOf, system: System) -> str:
    assert lot.bought is not None
    plate = f"{shown(lot.stock.length, 'length', system)} by {shown(lot.stock.width, 'length', system)}"
    name = named(lot.material, lot.thickness, system)
    head = f"{name}: the saw takes {len(lot.plates)} plates of {plate}, {lot.bought.packs} are bought"
    if lot.bought.packs > len(lot.plates):
        return f"{head}."
    return f"{head}; `plates: {len(lot.plates)}` in its price buys them all."
