"""Laws of wiring that hold whatever the numbers: thicker never more drop, every fuse at most what its conductor may."""

import math
from functools import lru_cache

import pytest
from hypothesis import assume, given, settings
from hypothesis import strategies as st
from tests.coupled import core_of, edited
from tests.plain_builds import plain_build

from hushwright.evaluation.wiring.parts import wires_of
from hushwright.model.wiring_in_place import CircuitInPlace, FuseInPlace, Links, WiringInPlace
from hushwright.physics.electrical.conductors import RULE_SETS, ampacity, cable_mass_per_length, conductors
from hushwright.physics.electrical.fault import short_circuit_current
from hushwright.physics.electrical.fuses import fuse_limit, smallest_fuse
from hushwright.physics.electrical.voltage_drop import needed_area, thinnest_for_drop, voltage_drop

GAUGES = st.sampled_from(("AWG", "mm2"))
RULES = st.sampled_from(RULE_SETS)
CURRENTS = st.floats(0.1, 300.0)
LENGTHS = st.floats(0.1, 30.0)


@given(CURRENTS, LENGTHS, RULES, GAUGES)
def test_a_thicker_conductor_never_loses_more(current, length, rules, gauge):
    drops = [voltage_drop(current, each, length, rules) for each in conductors(gauge)]
    assert drops == sorted(drops, reverse=True)


@given(RULES, GAUGES, st.floats(60.0, 200.0), st.integers(1, 60), st.booleans(), st.booleans())
def test_a_thicker_conductor_never_carries_less(rules, gauge, insulation, bundled, hot, alternating):
    found = [ampacity(each, insulation, rules, bundled=bundled, engine_space=hot, alternating=alternating).current
             for each in conductors(gauge)]  # fmt: skip
    known = [each for each in found if each is not None]
    assert known == sorted(known)


@given(RULES, GAUGES, st.floats(60.0, 200.0), st.integers(1, 60), st.booleans())
def test_more_in_a_bundle_never_carry_more(rules, gauge, insulation, bundled, alternating):
    for each in conductors(gauge)[::4]:
        alone, among = (ampacity(each, insulation, rules, bundled=number, alternating=alternating).current
                        for number in (1, bundled))  # fmt: skip
        assert alone is None or among is None or among <= alone


@given(CURRENTS, LENGTHS, st.floats(0.05, 3.0), RULES, GAUGES)
def test_the_thinnest_that_keeps_a_drop_is_one_size_from_breaking_it(current, length, drop, rules, gauge):
    found = thinnest_for_drop(current, length, drop, rules, gauge)
    sizes = conductors(gauge)
    if found is None:
        assert voltage_drop(current, sizes[-1], length, rules) > drop
        return
    assert voltage_drop(current, found, length, rules) <= drop
    if found != sizes[0]:
        assert voltage_drop(current, sizes[sizes.index(found) - 1], length, rules) > drop


@given(CURRENTS, LENGTHS, st.floats(0.05, 3.0))
def test_the_needed_area_loses_what_is_allowed(current, length, drop):
    area = needed_area(current, 2.0 * length, drop)
    resistivity = 10.75 * math.pi / 4.0 * 25.4e-6**2 / 0.3048
    assert current * resistivity * 2.0 * length / area == pytest.approx(drop)


@given(st.floats(5.0, 60.0), st.floats(1e-3, 1.0), st.floats(0.0, 1.0), st.floats(0.0, 1.0))
def test_more_cable_never_feeds_a_short_more(voltage, bank, cable, more):
    near, far = (short_circuit_current(voltage, bank, each) for each in (cable, cable + more))
    assert far <= near <= voltage / bank


def circuit(name: str, current: float, length: float, *, fuse: float | None = None, alternating: bool = False,
            upstream: tuple[str, ...] = (), bundled: int = 2, drop: float = 0.03, area: float | None = None,
            insulation: float = 105.0) -> CircuitInPlace:  # fmt: skip
    """A circuit on a bank whose conductor is left out."""
    return CircuitInPlace(
        name, "bank" if not upstream else "board", ("board",), "bank", upstream, alternating,
        230.0 if alternating else 25.6, current, length, "", ("body",), (0.0, 0.0, 0.0), area, "", insulation, False,
        bundled, drop, FuseInPlace(fuse, "class T", 20_000.0, 0.1, False, ""), None, None, "power.circuits",
    )  # fmt: skip


def wired(rules: str, sizes: str, *circuits: CircuitInPlace) -> WiringInPlace:
    return WiringInPlace(rules, sizes, 230.0, 0.65, circuits, Links(None, None, None, "", False), (None, ""), 25.6,
                         0.008, (), (), "")  # fmt: skip


@given(RULES, GAUGES, st.floats(0.1, 60.0), st.floats(0.2, 10.0), st.booleans(), st.integers(1, 12))
def test_what_the_tool_chooses_is_protected_carries_and_keeps_the_drop(rules, gauge, current, length, hot, bundled):
    """Fuse at most what the conductor may, current at most what it carries, drop at most what is allowed."""
    assume(rules != "NEC 551" or hot)  # on low voltage that rule set has no table
    one = circuit("one", current, length, alternating=hot, bundled=bundled)
    wire = wires_of(wired(rules, gauge, one))["one"]
    assume(wire.conductor != conductors(gauge)[-1])  # nothing served, which the verdicts then say
    limit = fuse_limit(wire.conductor, wire.ampacity.current, rules, alternating=hot)
    assert wire.fuse is not None
    assert limit is not None
    assert current <= wire.fuse <= limit
    assert wire.fuse == smallest_fuse(current / 0.8)
    assert wire.drop <= one.allowed_drop


@given(GAUGES, st.floats(1.0, 30.0), st.floats(0.5, 8.0), st.floats(0.5, 8.0))
def test_a_drop_before_takes_from_what_is_left(gauge, current, length, before):
    """A circuit behind a lossy one gets a conductor at least as thick as alone."""
    main = circuit("main", current, before, fuse=100.0, area=25e-6)
    behind = circuit("behind", current, length, upstream=("main",))
    alone = circuit("behind", current, length)
    thick = wires_of(wired("ABYC E-11", gauge, main, behind))["behind"].conductor
    thin = wires_of(wired("ABYC E-11", gauge, alone))["behind"].conductor
    assert thick.conductor_area >= thin.conductor_area


@pytest.mark.parametrize("gauge", ["AWG", "mm2"])
def test_a_thicker_conductor_weighs_more(gauge):
    masses = [cable_mass_per_length(each) for each in conductors(gauge)]
    assert masses == sorted(masses)


_CIRCUIT = (
    "routes:\n  way: {{points: [{{station: 500, height: 300}}, {{station: {end:.1f}, height: 300}}], slack: 0 %}}\n"
    "power:\n  bank: {{voltage: 12.8 V, capacity: 100 Ah}}\n  wiring: {{rules: ABYC E-11}}\n"
    "  circuits:\n    one: {{takes_from: bank, gives_to: [lamp], current: 20 A, route: way, area: {area:.2f} mm2}}\n"
)


@lru_cache(maxsize=64)
def along(end: float, area: float):
    """A plain build with one circuit from station 0.5 m to another station."""
    return core_of(plain_build("", _CIRCUIT.format(end=1000.0 * end, area=area)))


@settings(max_examples=12)
@given(st.integers(6, 22))
def test_the_mass_of_a_cable_lies_at_the_middle_of_its_way(tenths):
    end = tenths / 10.0
    bare = core_of(plain_build())
    core = along(end, 35.0)
    mass = core.wiring.circuits[0].mass
    assert core.wiring.circuits[0].length == pytest.approx(end - 0.5)
    before, after = bare.masses[1], core.masses[1]
    added = dict(after.groups)["cables"]
    assert added == pytest.approx(mass)
    allowance = (after.total - before.total) / mass  # what is not yet listed grows with it
    assert 1.0 <= allowance <= 1.25


def test_a_thicker_conductor_in_the_file_drops_less_and_weighs_more():
    thin, thick = (along(2.0, area).wiring.circuits[0] for area in (10.0, 35.0))
    assert thick.drop < thin.drop
    assert thick.mass > thin.mass
    text = plain_build("", _CIRCUIT.format(end=2000.0, area=35.0))
    gauge = core_of(edited(text, ("area: 35.00 mm2", "awg: 2/0"))).wiring.circuits[0]
    assert gauge.drop < thick.drop
