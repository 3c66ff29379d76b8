"""Changing any field of the build file changes an output, or the field is declared descriptive with a reason."""

from __future__ import annotations

import math
from collections import Counter
from collections.abc import Iterator
from functools import lru_cache
from typing import Any

import pytest
from tests.coupled import DEMO, edited, library

from hushwright.document.document import Document
from hushwright.document.fields import FieldSpec, Section
from hushwright.document.read import read_document_text
from hushwright.document.schema import BuildFile
from hushwright.document.shapes import fields_of, sections_in
from hushwright.document.values import Value
from hushwright.drawings.ducts import stretches
from hushwright.drawings.ways_out import safety as alarms_drawn
from hushwright.evaluation.air.air import air_states
from hushwright.evaluation.cost.cost import cost_of, cost_quantities
from hushwright.evaluation.cost.options import options_of
from hushwright.evaluation.evaluate import couple
from hushwright.evaluation.heat.heat import heat_of_build
from hushwright.evaluation.mass.envelopes import use_of
from hushwright.evaluation.mass.mass import mass_quantities, masses_in
from hushwright.evaluation.mass.structure import structure_of
from hushwright.evaluation.power.power import power_of_build
from hushwright.evaluation.results import Evaluation, Quantity
from hushwright.evaluation.safety.doses import Sounding
from hushwright.evaluation.safety.safety import safety_of_build
from hushwright.evaluation.sound.faces import Setting, surface_partition
from hushwright.evaluation.sound.floor import floating_room
from hushwright.evaluation.wiring.cables import with_cables
from hushwright.evaluation.wiring.signals import signals_of
from hushwright.evaluation.wiring.wiring import wiring_of
from hushwright.model.build import Build
from hushwright.model.resolve import resolve
from hushwright.physics.acoustics.partition import sound_reduction
from hushwright.physics.air import Air
from hushwright.verdicts import power as power_verdicts
from hushwright.verdicts import use as use_verdicts
from hushwright.verdicts.check import verdicts_of
from hushwright.verdicts.judge import judge

Path = tuple[str | int, ...]
VARIANT = edited(
    DEMO,
    # A floor on single mounts of a record, a loose board, typed bridges, a bridging fitting, own records of every kind.
    ("    mount: rubber floor mount 130 N/mm\n    along: 4\n    across: 3\n    inset: 105\n",
     "    mount: rubber floor mount 130 N/mm\n    places: [{station: 1900, offset: 500}, {station: 1900, offset: -500},"
     " {station: 3900, offset: 500}, {station: 3900, offset: -500}]\n"),
    ("    highest_load: 105 kg", "    highest_load: 300 kg"),
    # Pieces of runs by their other sizes, a fan at less speed, a duct with a loss of its own.
    ("{grille: outlet, width: 900, height: 450, free_share: 25 %, throws: spread}",
     "{grille: outlet, diameter: 250, free_share: 50 %, from_people: 2500}"),
    ("        - {straight: 100, diameter: 125}\n        - {baffle_box: 900, width: 350, height: 300, lining: 40,",
     "        - {straight: 100, width: 120, height: 110}\n        - {flexible: 200, diameter: 125, free_share: 80 %}\n"
     "        - {baffle_box: 900, width: 350, height: 300, wall: 15, lining: 40,"),
    ("          shut_off: 160 Pa\n", "          shut_off: 160 Pa\n          speed: 90 %\n"),
    ("    run: extract\n", "    insertion_loss: {hz_63: 8 dB, hz_125: 14 dB, hz_250: 20 dB}\n"),
    ("    right: {same_as: left}\n    ceiling:\n      layers:\n        - skin: body\n        - {damping: butyl pad "
     "with aluminium foil, thickness: 2, coverage: 55 %}\n        - {cavity: 40,",
     "    right: {same_as: left, bridges: [{kind: point, number: 20, stiffness: 100 N/mm}]}\n    ceiling:\n"
     "      bridges: [{kind: line, spacing: 600 mm, line_stiffness: 1 MPa}]\n      layers:\n        - skin: body\n"
     "        - {damping: butyl pad with aluminium foil, thickness: 2, coverage: 55 %}\n        - {cavity: 40,"),
    ("        - {sheet: birch plywood, thickness: 6}\n    right: {same_as: left}\n    ceiling:\n      layers:\n"
     "        - skin: body\n        - {damping: butyl pad with aluminium foil, thickness: 2, coverage: 55 %}\n"
     "        - {cavity: 20,",
     "        - {sheet: own board, thickness: 6}\n        - {sheet: own board, thickness: 6, joint: loose}\n"
     "    right: {same_as: left}\n    ceiling:\n      layers:\n        - skin: body\n"
     "        - {damping: butyl pad with aluminium foil, thickness: 2, coverage: 55 %}\n        - {cavity: 20,"),
    ("        - {covering: vinyl flooring, thickness: 2}\n    front:\n      layers:\n        - {sheet: birch plywood, "
     "thickness: 12}\n",
     "        - {covering: vinyl flooring, thickness: 2}\n    front:\n      layers:\n        - {sheet: birch plywood, "
     "thickness: 6}\n        - {blanket: own wool, thickness: 4}\n        - {facing: perforated plywood, "
     "thickness: 2}\n"),
    ("  - {name: cable, length: 112 m, mass_per_length: 0.19 kg/m, station: 1500, height: 1000, fixed_to: [body]}",
     "  - {name: cable, mass: 32 kg, station: 2500, height: 1000, fixed_to: [body, quiet], fixings: 6,"
     " fixing_stiffness: 200 N/mm}"),
    # Intakes of air as places of their own, a measured depth for a door.
    ("  found_within: 15 min", "  intakes: {fresh: {station: 700, offset: 900, height: 300}}\n  found_within: 15 min"),
    ("occupied_alarm: yes, swing: in, leaves: 1}", "occupied_alarm: yes, swing: in, leaves: 1, free_depth: 900}"),
    # Weighed at two stages with a driver in the cab, a cut that strikes a line.
    ("{stage: arrival, date: 2026-03-02, people: 0,", "{stage: arrival, aboard: [bank], people: 1,"),
    ("\nmeasured:\n  scales:\n", "\nmeasured:\n  scales:\n    - {stage: finish, people: 1, missing: [outside seats], "
     "front_left: 760 kg, front_right: 750 kg, rear_left: 890 kg, rear_right: 885 kg}\n"),
    ("width: 80, height: 90, reinforcement: none,", "width: 80, height: 90, behind: [fuel line], reinforcement: none,"),
    ("    - situation: quay\n", "    - {situation: own place, level: 60 dB(A), comes_from: left, limit: NR 30, "
     "limit_from: 125 Hz}\n    - situation: quay\n"),
    ("    seals: {seal: compression bulb, rows: 2, residual_gap: 0..0.1 mm}",
     "    seals: {seal: own seal, rows: 2}\n    overlap: 25"),
    ("    filled: packed with putty", "    filled: open"),
    # A generator, leaning panels, a typed curve, a bank in a warm place that begins short of full.
    ("    shore: {shore: 40 A,", "    generator: {generator: 1.8 kVA, charger: 20 A, efficiency: 88 %,"
     " in_states: [pause]}\n"
     "    shore: {shore: 40 A,"),
    ("tilt: 0°, coefficient:", "tilt: 20°, towards: 90°, in_states: [pause, record, standing], coefficient:"),
    ("fuse: 250 A}\n  converter", "fuse: 250 A, begins: 90 %, temperature: 12 °C}\n  converter"),
    ("best: 93 %, full: 88 %,", "curve: [{load: 10 %, efficiency: 85 %}, {load: 50 %, efficiency: 92 %}, {load: 100 %,"
     " efficiency: 87 %}],"),
    ("recorder: {side: ac,", "recorder: {side: ac, duty: 90 %,"),
    # Wires by gauge on another system, a generator, a route of a duct, a bank lead in a sheath that a door reaches.
    ("    rules: ABYC E-11 ", "    sizes: AWG\n    mains: 120 V\n    reach: 700 mm\n    rules: ABYC E-11 "),
    ("{at_shore: open, at_converter: linked,", "{at_generator: open, insulation_monitor: yes, at_converter: linked,"),
    ("    chassis_bond: {area: 70 mm2}", "    chassis_bond: {awg: 2/0}"),
    ("height: 600}}\n    converter_lead:", "height: 600, reached_from: side_door}}\n    converter_lead:"),
    ("route: bank_lead, area: 70 mm2, fuse: {", "length: 2 m, awg: 2/0, fuse: {sheathed: yes, "),
    ("distance: 120}", "distance: 170}"), ("  shore_lead:  ", "  shore_lead:\n    slack: 4 %  "),
    ("route: lamp_lead, area: 1.5 mm2,", "route: lamp_lead, insulation: 85 °C, voltage: 24 V,"),
    ("  fan_lead:  ", "  fan_way: {points: [{station: 0}, {station: 500, height: 900}], run: fresh_air}\n"
     "  fan_lead:  "),
    ("bearer_depth: 25,", "bearer_depth: 25, bearer_sheet: birch plywood,"),
    ("frame: {depth: 28, width: 45, spacing: 600}}   # 10 clear",
     "frame: {depth: 28, width: 45, spacing: 600, sheet: birch plywood}}   # 10 clear"),
    ("  rate: 58\n", "  rate: 58\n  tax: 7 %\n"),
    ("  seats: 3\n", "  seats: 3\n  driver_side: right\n  wheel_boxes_present: yes\n"),
    ("  - {room: quiet_room, on: left, absorber: melamine foam, thickness: 50,",
     "  - {room: quiet_room, on: left, absorber: melamine foam, thickness: 50, air_behind: 20,"),
    ("library:\n", "library:\n  sheets: [{name: own board, source: invented, density: 600 kg/m3, youngs_modulus: 5 GPa,"
     " youngs_modulus_across: 3 GPa, poisson: 0.25, loss_factor: 0.03}]\n"
     "  blankets: [{name: own wool, source: invented, flow_resistivity: 12 kPa·s/m2, density: 40 kg/m3, porosity: 95 %,"
     " tortuosity: 1.1}]\n"
     "  seals: [{name: own seal, source: invented, residual_gap: 0..0.2 mm}]\n"
     "  situations: [{name: own place, source: invented, octaves: {hz_31: 60 dB, hz_63: 58 dB, hz_125: 55 dB,"
     " hz_250: 52 dB, hz_500: 50 dB, hz_1000: 48 dB, hz_2000: 45 dB, hz_4000: 42 dB, hz_8000: 38 dB}}]\n"),
    ("swing: {hinge: right, opens: in}", "swing: {hinge: right, opens: in, angle: 80°}"),
    ("envelope: {length: 600, width: 500, height: 250}",
     "envelope: {length: 600, width: 500, height: 250, out_length: 700, out_width: 600, turning_radius: 300}"),
    ("  seat_height: 470\n", "  seat_height: 470\n  thighs: 170\n  reach: 690\n  shoulder_below_eye: 210\n"
     "  base_angle: 61°\n  base_tolerance: 9°\n  window: window\n"),
)  # fmt: skip


def document_of(text: str) -> Document:
    document, diagnostics = read_document_text(text, "build.yaml")
    assert document is not None
    assert not diagnostics, diagnostics
    return document


def given_fields(node: Any, path: Path = ()) -> Iterator[tuple[Path, type[Section], FieldSpec, Any]]:
    """Every value that a file gives, with its section and declaration."""
    for name, one in fields_of(type(node)).items():
        if name in node.model_fields_set:
            for at, value in _leaves(node.__dict__[name], (*path, name)):
                if isinstance(value, Section):
                    yield from given_fields(value, at)
                else:
                    yield at, type(node), one.spec, value


def _leaves(value: Any, path: Path) -> Iterator[tuple[Path, Any]]:
    """Values and sections in lists and maps."""
    if isinstance(value, (tuple, dict)):
        for key, each in value.items() if isinstance(value, dict) else enumerate(value):
            yield from _leaves(each, (*path, key))
    elif value is not None:
        yield path, value


def other_values(spec: FieldSpec, value: Any) -> Iterator[Any]:
    """Plausible other values, small changes first."""
    if isinstance(value, Value):
        steps = (1.02, 0.98, 1.1, 0.9, 1.4, 0.6, 2.0) if value.value else ()
        moved = [value.value * step for step in steps] or [0.01, 0.1, 1.0]
        low = -math.inf if spec.low is None else spec.low
        high = math.inf if spec.high is None else spec.high
        yield from (each for each in moved if low <= each <= high)
    elif spec.form == "choice":
        yield from (choice for choice in spec.choices if choice != value)
    elif spec.form == "count":
        yield from (number for number in (value + 1, value - 1, value + 3, 1) if number >= (spec.low or 0))
    else:
        yield from _OTHER_WORDS.get(value, ("something else",))


_OTHER_WORDS = {"35 dB(A)": ("36 dB(A)",), "NC 25": ("NC 26",), "40 dB(A)": ("41 dB(A)",), "NR 30": ("NR 31",)}


def cheap_outputs(build: Build) -> Iterator[object]:
    """What needs no sound, what is found fastest first: assumptions, masses, where they lie."""
    yield build.assumptions
    yield [masses_in(build, state) for state in build.states], build.centre_of_masses
    yield build.drawn.sections, tuple(stretches(build))
    yield signals_of(build, {})
    quantities: dict[str, Quantity] = {}
    yield wiring_of(with_cables(build), quantities), quantities
    yield use_outputs(build)


def use_outputs(build: Build) -> object:
    """What envelopes, swings and the place at the desk change."""
    quantities: dict[str, Quantity] = {}
    found = use_of(build, quantities)
    evaluation = Evaluation(build, quantities, (), (), (), (), (), (), (), (), (), use=found)
    return found, quantities, [verdicts_of(check, evaluation) for check in use_verdicts.CHECKS]


def all_outputs(build: Build) -> object:
    """Everything that is coupled, and the texts of the verdicts."""
    core = couple(build)
    cost = cost_of(build)
    cost_quantities(build, cost, core.quantities)
    evaluation = Evaluation(build, core.quantities, core.backgrounds, core.between_rooms, core.neighbours, (), (), (),
                            core.space, core.mounts, core.masses, (), core.structure, core.air,
                            core.heat, signals=core.signals, safety=core.safety, wiring=core.wiring,
                            power=core.power)  # fmt: skip
    return (
        core.quantities, core.backgrounds, core.between_rooms, core.neighbours, core.mounts, core.structure, core.air,
        core.heat, core.signals, core.power, cost, judge(evaluation),
    )  # fmt: skip


def money_outputs(build: Build) -> object:
    """What prices, times, options and the budget change; they change nothing else."""
    quantities: dict[str, Quantity] = {}
    cost = cost_of(build)
    cost_quantities(build, cost, quantities)
    costs = build.costs
    return build.assumptions, cost, options_of(build), quantities, costs.budget, costs.budget_with_tax


def power_outputs(build: Build) -> object:
    """What bank, sources, loads and day plan change; they change nothing else beside the wiring."""
    quantities: dict[str, Quantity] = {}
    air = air_states(build, {})
    heat = heat_of_build(build, air, {})
    power = power_of_build(build, air, heat, quantities)
    evaluation = Evaluation(build, quantities, (), (), (), (), (), (), (), (), (), air=air, heat=heat, power=power)
    return quantities, power, [verdicts_of(check, evaluation) for check in power_verdicts.CHECKS]


def air_outputs(build: Build) -> object:
    """Flows, gases and what they come to, without the sound of fans."""
    quantities: dict[str, Quantity] = {}
    return air_states(build, quantities), quantities


def heat_outputs(build: Build) -> object:
    """Heat and water of the day, on air as it flows."""
    quantities: dict[str, Quantity] = {}
    return heat_of_build(build, air_states(build, {}), quantities), quantities


def structure_outputs(build: Build) -> object:
    """Anchors, cuts, doors and stages of the mass, and with them what is safe where no alarm is asked."""
    quantities: dict[str, Quantity] = {}
    air = Air(build.brief.air_temperature)
    floats = {state.name: floating_room(build, state, air) for state in build.states}
    masses = tuple(masses_in(build, state) for state in build.states)
    mass_quantities(build, masses, quantities)
    structure = structure_of(build, floats, masses, quantities)
    quiet = Sounding(signals_of(build, quantities), (), ())
    safe = safety_of_build(build, structure.doors, air_states(build, {}), (), quiet, quantities)
    return structure, safe, alarms_drawn(build), quantities


def notes_of_faces(build: Build) -> object:
    """Resonances and notes of every face."""
    temperature = build.brief.air_temperature
    setting = Setting(Air(temperature), temperature, build.vehicle, build.library)
    surfaces = [surface for room in build.rooms for surface in room.surfaces if surface.layers]
    return [(result.resonances, result.validity) for each in surfaces
            if (result := sound_reduction(surface_partition(each, setting), air=setting.air))]  # fmt: skip


SOONEST = {
    "air": air_outputs, "climate": heat_outputs, "restraint": structure_outputs, "cuts": structure_outputs,
    "safety": structure_outputs, "measured": structure_outputs, "surfaces": notes_of_faces, "vehicle": notes_of_faces,
}  # fmt: skip
"""Where a change of a part shows before everything is coupled; what does not show there is coupled all the same."""


def is_of_power(path: Path) -> bool:
    circuits = path[:2] in (("power", "wiring"), ("power", "circuits"))
    return (path[0] == "power" and not circuits) or path[:2] == ("brief", "power")


def is_of_money(path: Path) -> bool:
    return path[0] in ("prices", "labour", "options") or path[:2] == ("brief", "budget")


class Base:
    """One build file and its outputs, against which single changes are held."""

    def __init__(self, text: str) -> None:
        self.document = document_of(text)
        found, self.problems = resolve(self.document, library())
        assert found is not None, self.problems
        self.build = found
        self.cheap = tuple(cheap_outputs(found))
        self.of = lru_cache(lambda outputs: outputs(found))

    def notices(self, path: Path, new: object) -> bool:
        """Whether a change of one value shows in any output; stops at the first, so that most cost little."""
        build, problems = resolve(self.document.with_value(path, new), library())
        if build is None or problems != self.problems:
            return True
        if is_of_money(path):
            return bool(money_outputs(build) != self.of(money_outputs))
        if any(one != other for one, other in zip(cheap_outputs(build), self.cheap, strict=True)):
            return True
        if is_of_power(path):
            return bool(power_outputs(build) != self.of(power_outputs))
        if build.states == self.build.states and same(build, self.build):
            return False
        soonest = SOONEST.get(str(path[0]), all_outputs)
        return any(outputs(build) != self.of(outputs) for outputs in (soonest, all_outputs, notes_of_faces))


def same(one: Build, other: Build) -> bool:
    """Whether two builds differ in nothing but the document they come from."""
    fields = [name for name in Build.__dataclass_fields__ if name not in ("document", "library")]
    return all(getattr(one, name) == getattr(other, name) for name in fields)


@lru_cache(maxsize=2)
def base(text: str) -> Base:
    return Base(text)


def unnoticed(text: str, top: str, but: frozenset[tuple[type[Section], str]] = frozenset()) -> list[str]:
    """Fields given in one part of a file whose change shows nowhere; those of ``but`` are passed over."""
    found = base(text)
    lost = []
    tried: Counter[tuple[type[Section], str]] = Counter()
    for path, section, spec, value in given_fields(found.document.root):
        if path[0] != top or spec.descriptive or (section, named(path)) in but:
            continue
        if spec.form == "choice" and len(spec.choices) == 1:  # `skin: body` is what makes it a skin
            continue
        if is_of_money(path) or path[0] in MANY:  # many and alike: the first ones of each field stand for all
            tried[section, named(path)] += 1
            if tried[section, named(path)] > _ALIKE:
                continue
        if not any(found.notices(path, new) for new in other_values(spec, value)):
            lost.append(".".join(map(str, path)))
    return lost


_ALIKE = 5
MANY = ("power", "signals", "fittings", "routes", "safety", "cuts", "restraint", "papers", "venue")


def named(path: Path) -> str:
    """Name of the field at the end of a path, list positions left out."""
    return next(str(key) for key in reversed(path) if not isinstance(key, int))


def fields_given(text: str) -> frozenset[tuple[type[Section], str]]:
    return frozenset((section, name) for _, section, name in _given_names(base(text).document.root))


def _given_names(node: Any) -> Iterator[tuple[Any, type[Section], str]]:
    if isinstance(node, Section):
        for name in node.model_fields_set:
            yield node, type(node), name
            yield from _given_names(node.__dict__[name])
    elif isinstance(node, tuple):
        for each in node:
            yield from _given_names(each)
    elif isinstance(node, dict):
        for each in node.values():
            yield from _given_names(each)


def declared() -> frozenset[tuple[type[Section], str]]:
    """Every field of the build file, by its section."""
    found: dict[tuple[type[Section], str], None] = {}

    def visit(section: type[Section]) -> None:
        for name, one in fields_of(section).items():
            if (section, name) not in found:
                found[section, name] = None
                for inner, _ in sections_in(one.shape, ()):
                    visit(inner)

    visit(BuildFile)
    return frozenset(found)


PARTS = tuple(fields_of(BuildFile))


@pytest.mark.parametrize("part", PARTS)
def test_changing_any_field_of_the_demo_changes_an_output(part: str) -> None:
    assert unnoticed(DEMO, part) == []


VALUE_KEYS = {
    "is": ("is: 2030,", "is: 2040,"),
    "from": ("is: 2030, from: measured", "is: 2030, from: assumed"),
    "plus_minus": ("from: measured, plus_minus: 6 mm, by", "from: measured, plus_minus: 8 mm, by"),
    "by": ("by: tape at three stations", "by: laser at three stations"),
}


@pytest.mark.parametrize("key", VALUE_KEYS)
def test_all_that_is_said_about_a_value_goes_on_to_the_inputs(key: str) -> None:
    document = document_of(edited(DEMO, VALUE_KEYS[key]))
    build, _ = resolve(document, library())
    assert build is not None
    assert base(DEMO).build is not None
    assert build.inputs != base(DEMO).build.inputs


def test_demo_and_variant_give_every_field_there_is() -> None:
    missing = declared() - fields_given(DEMO) - fields_given(VARIANT)
    assert sorted(f"{section.__name__}.{name}" for section, name in missing) == []


@pytest.mark.parametrize("part", PARTS)
def test_changing_any_field_that_the_demo_does_not_use_changes_an_output(part: str) -> None:
    assert unnoticed(VARIANT, part, fields_given(DEMO)) == []


def test_descriptive_fields_change_no_number() -> None:
    found = base(DEMO)
    for path, _, spec, value in given_fields(found.document.root):
        if spec.descriptive and path[0] != "fittings":
            build, _ = resolve(found.document.with_value(path, f"{value} and more"), library())
            assert build is not None
            assert build.masses == found.build.masses
            assert build.inputs == found.build.inputs


def test_every_descriptive_field_says_why() -> None:
    reasons = [spec.descriptive for section, name in declared() if (spec := fields_of(section)[name].spec).descriptive]
    assert len(reasons) >= 5
    assert all(len(reason.split()) >= 3 for reason in reasons)
