"""Laws of a search for quiet: it never ends louder than it began, nor louder with more rounds."""

from hypothesis import given, settings
from hypothesis import strategies as st
from tests.coupled import evaluation_of
from tests.plain_builds import plain_build

from hushwright.search.quiet_steps import Quietened
from hushwright.search.quietening import Quietening

QUAY = (
    "  outdoors:\n    - {situation: quay, octaves: {hz_125: 60 dB, hz_500: 55 dB, hz_2000: 45 dB}, "
    "comes_from: all round, limit: 20 dB(A)}\n"
)


def ended(text: str, rounds: int) -> Quietened:
    last = list(Quietening(text, "build.yaml", start=evaluation_of(text), rounds=rounds))[-1]
    assert isinstance(last, Quietened)
    return last


@settings(max_examples=3, deadline=None)
@given(outer=st.integers(6, 15), space=st.integers(30, 90), inner=st.integers(6, 18))
def test_more_rounds_never_end_louder(outer: int, space: int, inner: int) -> None:
    left = (
        f"        - {{sheet: birch plywood, thickness: {outer}}}\n        - {{cavity: {space}}}\n"
        f"        - {{sheet: birch plywood, thickness: {inner}}}\n"
    )
    text = plain_build(brief=QUAY, left=left)
    one, more = ended(text, 1), ended(text, 2)
    assert one.end <= one.start
    assert more.end <= one.end
    assert [each.text for each in more.steps[: len(one.steps)]] == [each.text for each in one.steps]
