"""What got worse is told by the screen and refused by the search on the same grounds."""

from dataclasses import replace

import pytest

from hushwright.app.stood import _fallen
from hushwright.search.reckoning import broken_by
from hushwright.verdicts.verdict import Verdict
from hushwright.verdicts.worsening import trifles_worse

MISSED = Verdict(
    "background", "Quiet", "Is it quiet?", "record", "NC", 25.0, 20.0, "at_most", -5.0, 2.0, 0.01, "fails", "b", "p"
)


@pytest.mark.parametrize("uncertainty", [2.0, 0.0, None])
@pytest.mark.parametrize(("loss", "is_told"), [(0.09, False), (0.11, True)])
def test_screen_and_search_agree_on_what_is_worth_a_word(uncertainty: float | None, loss: float, is_told: bool) -> None:
    """A twentieth of 2 dB, and half a hundredth of a limit of 20: both 0.1."""
    old = replace(MISSED, uncertainty=uncertainty)
    now = replace(old, margin=-5.0 - loss)
    assert (trifles_worse(old, now) > 1.0) is is_told
    assert (_fallen([now], {old.id: old}) is not None) is is_told
    assert bool(broken_by({old.id: old}, {now.id: now}, "")) is is_told


def test_without_a_margin_nothing_is_counted() -> None:
    assert trifles_worse(MISSED, replace(MISSED, margin=None)) == 0.0
