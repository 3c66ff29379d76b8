"""What keeps a picture from being drawn is told, and a step back is offered only where it cures."""

from hushwright.app.views import kept_back
from hushwright.errors import Diagnostic, Place

WRONG = Diagnostic("rear-before-front", Place("van.yaml", path=("rooms", "quiet_room", "rear")), "10",
                   "lies before the room's front")  # fmt: skip


def test_what_keeps_the_plan_from_being_drawn_is_told_with_its_place() -> None:
    told = kept_back((WRONG,), True)
    assert "Rooms, quiet room, rear: lies before the room's front." in told
    assert told.endswith("The picture below is the last one that could be drawn.")
    assert "below" not in kept_back((WRONG,), False)
    assert "cannot be read" in kept_back((), False)
