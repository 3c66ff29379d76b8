"""Names find their records however they are typed, and near misses are answered with near names."""

import string

import pytest
from hypothesis import given
from hypothesis import strategies as st

from hushwright.errors import InvalidInput
from hushwright.library.library import Library, UnknownRecord, plain
from hushwright.library.own import own_record
from hushwright.library.read import read_library
from hushwright.library.records import KINDS, LimpBarrier, Sheet, Source, Spread
from hushwright.library.rows import read_spread

LIBRARY = read_library()
NAMED = [
    (kind, word, record) for kind in KINDS for record in LIBRARY.rows(kind) for word in (record.name, *record.aliases)
]


def found_or_refused(kind, name):
    try:
        return LIBRARY.find(kind, name)
    except UnknownRecord as problem:
        return problem


@given(st.sampled_from(NAMED), st.randoms(use_true_random=False))
def test_case_blanks_and_hyphens_do_not_matter(named, random):
    kind, word, record = named
    typed = "".join(letter.upper() if random.random() < 0.5 else letter.lower() for letter in word)
    typed = typed.replace(" ", random.choice((" ", "  ", "-", "_")))
    assert LIBRARY.find(kind, f" {typed} ") is record
    assert LIBRARY.find(KINDS[kind].record, word) is record


@given(st.sampled_from([each for each in NAMED if len(each[1]) >= 6]), st.integers(0, 4))
def test_a_slip_in_typing_is_answered_with_near_names(named, at):
    kind, word, _ = named
    typed = word[:at] + "x" + word[at + 1 :]
    found = found_or_refused(kind, typed)
    if isinstance(found, UnknownRecord):
        assert found.suggestions
        assert typed in str(found)
        assert all(LIBRARY.find(kind, near) for near in found.suggestions)
    else:
        assert plain(typed) in {plain(each) for each in (found.name, *found.aliases)}


@given(st.text(max_size=40), st.sampled_from(list(KINDS)))
def test_any_text_is_found_or_refused_in_words(text, kind):
    found = found_or_refused(kind, text)
    if isinstance(found, UnknownRecord):
        assert found.kind == kind
        assert len(found.suggestions) <= 3
    else:
        assert plain(text) in {plain(each) for each in (found.name, *found.aliases)}


@given(st.text(string.ascii_letters + " -_,", min_size=1))
def test_plain_names_stay_plain(text):
    assert plain(plain(text).upper()) in (plain(text), plain(plain(text)))


def test_an_unknown_kind_is_answered_with_near_kinds():
    with pytest.raises(UnknownRecord) as caught:
        LIBRARY.find("sheets", "birch plywood")
    assert "sheet" in caught.value.suggestions


def test_a_name_of_another_kind_can_be_located():
    assert LIBRARY.kind_holding("butyl pad") == ("damping",)


masses = st.floats(1.0, 25e3)


@given(masses)
def test_a_build_files_own_record_comes_before_the_librarys(density):
    own = own_record(LimpBarrier, "Loaded Vinyl", {"density": density}, source=Source("weighed", "", "found"))
    extended = LIBRARY.with_own_records([own])
    assert extended.find(LimpBarrier, "loaded vinyl") is own
    assert LIBRARY.find(LimpBarrier, "loaded vinyl", own=[own]) is own
    assert LIBRARY.find(LimpBarrier, "loaded vinyl") is not own
    assert extended.find(LimpBarrier, "lead foil") is LIBRARY.find(LimpBarrier, "lead foil")
    assert own in extended.rows("limp")
    assert hash(extended) == hash(Library((own,)))


@given(masses)
def test_an_own_record_takes_the_rest_from_what_it_is_like(density):
    birch = LIBRARY.find(Sheet, "birch plywood")
    own = own_record(Sheet, "my ply", {"density": density}, like=birch)
    assert own.density == Spread.point(density)
    assert (own.youngs_modulus, own.poisson, own.loss_factor) == (
        birch.youngs_modulus,
        birch.poisson,
        birch.loss_factor,
    )
    assert "birch plywood" in own.note


@pytest.mark.parametrize(
    ("values", "said"),
    [
        ({"density": 700.0}, "youngs_modulus, poisson, loss_factor missing"),
        ({"colour": 1.0}, "colour"),
        ({"density": "heavy"}, "heavy"),
        ({"density": -3.0}, "-3"),
        ({"poisson": Spread(0.3, 0.2, 0.7)}, "poisson"),
    ],
)
def test_an_own_record_that_cannot_be_is_refused(values, said):
    like = LIBRARY.find(Sheet, "MDF") if "missing" not in said else None
    with pytest.raises(InvalidInput, match=said):
        own_record(Sheet, "my board", values, like=like)


@given(st.floats(-1e6, 1e6), st.floats(0, 1e3), st.floats(0, 1e3))
def test_a_range_is_read_as_it_is_written(value, below, above):
    read = read_spread(f"{value!r} [{value - below!r}..{value + above!r}]")
    assert read == Spread(value, value - below, value + above)


@given(st.floats(1e-3, 1e3), st.floats(1e-6, 1e6))
def test_scaling_a_spread_scales_its_uncertainty(value, factor):
    spread = Spread(value, value / 2, value * 2)
    assert spread.times(factor).standard_uncertainty == pytest.approx(spread.standard_uncertainty * factor)
