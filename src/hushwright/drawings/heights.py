"""Clear heights on paper: mounts are drawn under no load, verdicts hold the height under load."""

from __future__ import annotations

from hushwright.evaluation.mass.space import space_in_take
from hushwright.model.build import Build, Room
from hushwright.units import System, format_quantity


def heights_told(build: Build, room: Room | None, system: System) -> tuple[str, ...]:
    """Clear height of a room as drawn, and under load where it stands on mounts; nothing where there is no room."""
    if room is None:
        return ()
    space = space_in_take(build, room)
    drawn = format_quantity(room.section.height, "length", system)
    if space.mount_deflection <= 0.0:
        return (f"Clear height {drawn}, without what is hung from the ceiling.",)
    given = format_quantity(round(space.mount_deflection, 3), "length", system)
    loaded = format_quantity(round(space.headroom_centre, 3), "length", system)
    lining = room.section.height + space.mount_deflection - space.headroom_centre > 1e-4
    less = ", absorbers at the ceiling taken off" if lining else ""
    return (
        f"Mounts are drawn under no load: clear height {drawn}. In the take they give {given}: clear height"
        f" {loaded}{less}, which the verdict on headroom counts.",
    )
