"""Fittings whose place across the van nobody says: the middle is taken, and the balance of the sides is not sure."""

from tests.coupled import verdicts_of
from tests.plain_builds import FACES, ONE_LEAF, plain_build

LIGHT = dict.fromkeys(FACES, ONE_LEAF)


def test_what_nobody_places_across_the_van_leaves_the_balance_unproven() -> None:
    load = "fittings:\n  - {{name: load, mass: 400 kg, station: 1000{}}}\n"
    untyped, typed = (
        verdicts_of(plain_build("", load.format(offset), **LIGHT))["side-balance-drive"]
        for offset in ("", ", offset: 0")
    )
    assert typed.verdict == "meets"
    assert untyped.verdict == "unproven"
    assert untyped.value == typed.value
    assert untyped.place == "fittings.0"
    assert "type how far left or right load stand" in untyped.hint
    assert "places across the van of load are not typed" in untyped.basis


def test_what_has_a_place_across_or_was_weighed_aboard_is_not_asked_for() -> None:
    load = "fittings:\n  - {name: load, mass: 400 kg, station: 1000}\n"
    scales = ", ".join(f"{wheel}: {mass} kg" for wheel, mass in (("front_left", 700), ("front_right", 700),
                                                               ("rear_left", 500), ("rear_right", 500)))  # fmt: skip
    weighed = plain_build(
        "", f"{load}measured:\n  scales:\n    - {{stage: shell, aboard: [load], {scales}}}\n", **LIGHT
    )
    found = verdicts_of(weighed)["side-balance-drive"]
    assert found.verdict == "meets"
    assert "not typed" not in found.basis
