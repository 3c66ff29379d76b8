"""Whether as many plates are bought as the panel saw takes, and what bars are cut into, beside every purchase list."""

from __future__ import annotations

from hushwright.costing.bars import SAW_CUT
from hushwright.drawings.plates import PlatesOf, plates_of
from hushwright.evaluation.cost.cost import cost_of
from hushwright.model.build import Build
from hushwright.report.cost import named
from hushwright.report.units_out import shown
from hushwright.units import System


def plates_told(build: Build, system: System) -> tuple[str, ...]:
    """Boards whose purchase differs from the plates of their layout, one line that all agree where they do; bars.

    Parameters
    ----------
    build : Build
        The build.
    system : {"metric", "us"}
        Units.

    Returns
    -------
    tuple of str
        Nothing where no board is bought by the plate and no timber by the bar.
    """
    found = [lot for lot in plates_of(build) if lot.bought is not None]
    told = tuple(_told(lot, system) for lot in found if lot.bought is not None and lot.bought.packs != len(lot.plates))
    if found and not told:
        told = (f"As many plates are bought as the saw takes: {sum(len(lot.plates) for lot in found)} in all.",)
    return (*told, *_bars_told(build, system), *_rolls_told(build, system))


def _bars_told(build: Build, system: System) -> tuple[str, ...]:
    """Pieces and bars of all timber together, which are more bars than its length alone takes."""
    lines = [line for line in cost_of(build).purchase if line.bars]
    if not lines:
        return ()
    bars = sum(len(line.bars) for line in lines)
    pieces = sum(len(bar) for line in lines for bar in line.bars)
    blade = shown(SAW_CUT, "length", system)
    told = f"Battens and bearers come off whole bars, none joined from offcuts: {pieces} pieces from {bars} bars"
    return (f"{told}, a saw cut of {blade} between two; the sheet of battens says which comes off which.",)


def _rolls_told(build: Build, system: System) -> tuple[str, ...]:
    """How many rolls and slabs the strips of wool, mats and foams take, where prices say how wide they come."""
    lines = [line for line in cost_of(build).purchase if line.rolls]
    if not lines:
        return ()
    strips = sum(len(one.strips) for line in lines for roll in line.rolls for one in roll.slices)
    names = ", ".join(dict.fromkeys(named(line.name, None, system) for line in lines))
    return (f"Off the roll, by the strips on the sheet of rolls: {names}; {strips} strips.",)


def _told(lot: PlatesOf, system: System) -> str:
    assert lot.bought is not None
    plate = f"{shown(lot.stock.length, 'length', system)} by {shown(lot.stock.width, 'length', system)}"
    name = named(lot.material, lot.thickness, system)
    head = f"{name}: the saw takes {len(lot.plates)} plates of {plate}, {lot.bought.packs} are bought"
    if lot.bought.packs > len(lot.plates):
        return f"{head}."
    return f"{head}; `plates: {len(lot.plates)}` in its price buys them all."
