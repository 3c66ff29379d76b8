"""Every law of physics by name: listed, told, and computed from typed arguments as its own example says."""

import ast
import contextlib
import doctest
import io
import json
import re
from collections.abc import Iterator
from typing import Any

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from tests.unit.test_docstrings import ENTRIES

from hushwright.cli.law import law as command
from hushwright.cli.main import run
from hushwright.evaluation.laws.calls import computed
from hushwright.evaluation.laws.laws import Law, laws, module_of
from hushwright.report.law_text import law_text

LAWS = {law.name: law for law in laws()}


def text_of(capsys: pytest.CaptureFixture[str], *arguments: str) -> str:
    assert run(["law", *arguments]) == 0
    return capsys.readouterr().out


def complaint(capsys: pytest.CaptureFixture[str], *arguments: str) -> str:
    assert run(["law", *arguments]) == 2
    return capsys.readouterr().err


def value_of(law: str, *typed: str) -> Any:
    answer, problems = computed(LAWS[law], typed)
    assert answer is not None, problems
    return answer.found.value


def test_every_public_function_of_physics_is_listed_by_its_own_line(capsys: pytest.CaptureFixture[str]) -> None:
    paths = {entry.path for entry in ENTRIES if entry.kind == "function"}
    assert {f"{law.module}.{law.stands_as}" for law in LAWS.values()} >= paths
    assert {"Snubber.touches", "Fan.pressure", "Air", "DuctSection.reynolds_number"} <= set(LAWS)
    lines = text_of(capsys).splitlines()
    named = {line.split()[0] for line in lines if line.startswith("  ") and line.strip()}
    assert set(LAWS) <= named
    assert max(map(len, lines)) <= 100


def test_what_is_told_of_a_law_is_what_its_text_says() -> None:
    """The documentation's own reader of such texts is the second opinion."""
    for entry in ENTRIES:
        if entry.kind != "function":
            continue
        law = next(one for one in LAWS.values() if f"{one.module}.{one.stands_as}" == entry.path)
        assert law.summary == " ".join(entry.documented["Summary"])
        told = {one.name: one.meaning for one in law.parameters}
        assert told == {name: " ".join(" ".join(text.split()) for text in [described[1]])
                        for name, described in entry.described.items()}, entry.path  # fmt: skip


# --- Examples of the laws themselves, asked of the command ----------------------------------------------------------


def typed(law: Law, name: str, value: Any) -> str:
    """Argument as a person types it; nothing where it is no number, word or list of them."""
    parameter = next((one for one in law.parameters if one.name == name), None)
    if parameter is None:
        return f"{next(one.name for one in law.parameters if one.keyed)}.{name}={value}"
    units = [unit if unit != "-" else "" for unit in parameter.units] or [""]
    if isinstance(value, bool | str) or value is None:
        return f"{name}={ {True: 'yes', False: 'no', None: 'none'}.get(value, value) }"
    if isinstance(value, int | float | complex):
        return f"{name}={value} {units[0]}".strip() if not isinstance(value, complex) else f"{name}={value}"
    if not value:
        return f"{name}=none"
    nested = any(isinstance(row, list | tuple) for row in value)
    rows = [row if isinstance(row, list | tuple) else [row] for row in value]
    texts = [", ".join(f"{one} {units[at] if len(units) == len(row) else units[0]}".strip()
                       for at, one in enumerate(row)) for row in rows]  # fmt: skip
    return f"{name}={'; '.join(texts)}" if nested else f"{name}={', '.join(texts)}{',' * (len(texts) == 1)}"


def same(node: dict[str, Any], value: Any) -> bool:
    """Whether the JSON of a result is a value: its number, its list, its parts by name."""
    if "parts" in node and isinstance(value, dict):
        return all(same(part, value[part["name"]]) for part in node["parts"])
    if "parts" in node and isinstance(value, list | tuple):
        return all(same(part, each) for part, each in zip(node["parts"], value, strict=True))
    if "parts" in node:
        return all(same(part, getattr(value, part["name"])) for part in node["parts"])
    return alike(node["value"], value)


def alike(found: Any, value: Any) -> bool:
    if isinstance(value, np.ndarray | np.generic):
        value = value.tolist()
    if isinstance(value, list | tuple):
        return len(found) == len(value) and all(map(alike, found, value))
    if isinstance(found, dict):
        return complex(found["real"], found["imaginary"]) == pytest.approx(value, rel=1e-9)
    if value is None or isinstance(value, bool | str):
        return bool(found == value)
    if isinstance(value, float) and not np.isfinite(value):
        return found is None
    return bool(found == pytest.approx(value, rel=1e-9))


def examples() -> Iterator[str]:
    """Laws whose example gives them numbers, words and lists alone."""
    for law in LAWS.values():
        calls = [node for line in doctest.DocTestParser().get_examples(law.example)
                 for node in ast.walk(ast.parse(line.source))
                 if isinstance(node, ast.Call) and getattr(node.func, "id", "") == law.stands_as]  # fmt: skip
        if calls and all(plain(each) for call in calls for each in [*call.args, *(key.value for key in call.keywords)]):
            yield law.name


def plain(node: ast.expr) -> bool:
    allowed = (ast.Constant, ast.List, ast.Tuple, ast.UnaryOp, ast.BinOp, ast.operator, ast.unaryop, ast.expr_context)
    return all(isinstance(each, allowed) for each in ast.walk(node))


EXAMPLES = tuple(examples())


def test_most_laws_are_given_plain_arguments_in_their_examples() -> None:
    assert len(EXAMPLES) > 200


@pytest.mark.parametrize("name", EXAMPLES)
def test_the_command_gives_what_the_example_of_a_law_gives(name: str) -> None:
    """What the example prints is held where it stands; here the command gives the same to the same arguments."""
    law = LAWS[name]
    asked: list[Any] = []

    def through_the_command(*listed: Any, **named: Any) -> Any:
        several = next((one.name for one in law.parameters if one.several), "")
        names = [one.name for one in law.parameters]
        values = {several: list(listed)} if several else dict(zip(names, listed, strict=False)) | named
        texts = [typed(law, key, value) for key, value in values.items()]
        caught = io.StringIO()
        with contextlib.redirect_stdout(caught):
            command(name, texts, as_json=True)
        found = law.function(*listed, **named)
        asked.append(found)
        assert same(json.loads(caught.getvalue())["result"], found)
        return found

    names = module_of(law.function) | {law.stands_as: through_the_command}
    for line in doctest.DocTestParser().get_examples(law.example):
        exec(line.source, names)
    assert asked


# --- A dozen by hand ------------------------------------------------------------------------------------------------

BY_HAND = [
    # T = 24 ln 10/c · V/A = 55.26/343.23 · 120/31.6
    ("sabine_reverberation_time", ["volume=120 m3", "absorption_area=31.6 m2"], 0.6114),
    # the same with V = 4237.76 ft3 and A = 340.14 ft2
    ("sabine_reverberation_time", ["volume=4237.76 ft3", "absorption_area=340.14 ft2"], 0.6114),
    # f = √(g/δ)/2π = √(9.80665/0.005)/6.28319
    ("natural_frequency", ["static_deflection=5 mm"], 7.0485),
    # twice a decibel value adds 10 lg 2
    ("energy_sum_level", ["levels=60, 60 dB"], 63.0103),
    # r = √2 passes all, whatever the damping
    ("viscous_transmissibility", ["frequency_ratio=1.4142135624", "damping_ratio=37 %"], 1.0),
    # −10 lg((1·10^−5 + 1·10^−3)/2): two elements of 1 m² with 50 dB and 30 dB
    ("composite_reduction",
     ["elements.0.area=1 m2", "elements.0.reduction=50 dB", "elements.1.area=1 m2", "elements.1.reduction=30 dB"],
     (32.9671,)),
    # |Y| = 1/(ω m) = 1/(2π · 100 · 10), turning by −90°
    ("mass_mobility", ["mass=10 kg", "frequency=100 Hz"], -1.59155e-4j),
    # equal values in all bands are the class
    ("outdoor_indoor_transmission_class", ["reduction=27 x 30 dB"], 30),
    # R' = D + 10 lg(S/A) = 40 + 10 lg(20/10)
    ("apparent_sound_reduction_index",
     ["level_difference=40 dB", "area=20 m2", "absorption_area=107.639 ft2"], 43.0103),
    # a stop with 6 mm of gap is silent at 5 mm and touches at 7 mm
    ("Snubber.touches", ["gap=6 mm", "travel=5 mm"], False),
    ("Snubber.touches", ["gap=1/4 in", "travel=7 mm"], True),
    # Re = ρ v D/μ in a round duct of 100 mm at 3 m/s: 1.2041 · 3 · 0.1/1.8133e−5
    ("DuctSection.reynolds_number",
     ["area=7853.98 mm2", "hydraulic_diameter=100 mm", "volume_flow_rate=23.5619 l/s"], 19_921.0),
    # 0.62198 p_v/(p − p_v) of ASHRAE with p_v = 1000 Pa at 101 000 Pa
    ("psychrometrics.humidity_ratio", ["vapour_pressure=1 kPa", "pressure=101 kPa"], 0.0062195),
]  # fmt: skip


@pytest.mark.parametrize(("name", "arguments", "expected"), BY_HAND)
def test_a_law_by_hand(name: str, arguments: list[str], expected: Any) -> None:
    assert value_of(name, *arguments) == pytest.approx(expected, rel=2e-4, abs=1e-12)


def test_the_fan_and_the_run_settle_at_one_flow() -> None:
    """Two fans on one run that loses 100 Pa at 50 l/s, the law's own example, typed in other units."""
    fan = [f"fans.{at}.{part}" for at in (0, 1) for part in
           ("volume_flow_rates=0, 35, 70 l/s", "pressures=160, 120, 0 Pa")]  # fmt: skip
    run = ["elements.0=rated element", "elements.0.rated_flow=50 l/s", "elements.0.rated_loss=100 Pa"]
    answer, problems = computed(LAWS["operating_point"], [*fan, *run])
    assert answer is not None, problems
    found = {part.name: part.value for part in answer.found.parts}
    flow, loss = found["volume_flow_rate"], found["pressure_loss"]
    density = 101_325.0 / (287.055 * 293.15)
    assert loss == pytest.approx(100.0 * (flow / 0.050) ** 2 * density / 1.2, rel=1e-6)  # rated in air of 1.2 kg/m³
    assert sum(found["fan_pressures"]) == pytest.approx(loss, rel=1e-6)


def test_output_in_us_units_holds_no_metric_number(capsys: pytest.CaptureFixture[str]) -> None:
    arguments = ("sabine_reverberation_time", "volume=120 m3", "absorption_area=30, 31.6 m2", "air.temperature=20 °C")
    text = text_of(capsys, *arguments, "--units", "us")
    assert "68 °F" in text
    assert "4237.8 ft³" in text
    assert not re.search(r"\d (?:m|m²|m³|°C|kg)\b", text)
    node = json.loads(text_of(capsys, *arguments, "--units", "us", "--json"))
    assert [one["unit"] for one in node["given"][:2]] == ["ft3", "ft2"]
    assert node["result"]["value"] == pytest.approx([0.64402, 0.61141], rel=1e-4)


def test_every_problem_of_a_call_is_told_at_once(capsys: pytest.CaptureFixture[str]) -> None:
    text = complaint(
        capsys, "sabine_reverberation_time", "volume=120", "absorbtion_area=3 m2", "air.temperature=500 °C"
    )
    for said in ("volume\n  120: the number has no unit", "perhaps absorption_area?", "absorption_area\n  is missing",
                 "air\n  air temperature is 500", "problem 4 of 4"):  # fmt: skip
        assert said in text


@pytest.mark.parametrize(
    ("arguments", "said"),
    [
        (("natural_frequncy",), "Perhaps natural_frequency"),
        (("march",), "There are several laws"),
        (("--of", "magic"), "There are air, acoustics"),
        (("--like", "unheard of"), "No law speaks"),
        (("natural_frequency", "--of", "mechanics"), "leave NAME out"),
        (("natural_frequency", "5 mm"), "write parameter=value"),
        (("natural_frequency", "static_deflection="), "no value after the equals sign"),
        (("natural_frequency", "static_deflection=1 mm", "static_deflection=2 mm"), "given twice"),
        (("natural_frequency", "static_deflection=1..2 mm"), "not an interval"),
        (("natural_frequency", "static_deflection=0 mm"), "static_deflection\n  0 mm: static deflection is 0"),
        (("natural_frequency", "static_deflection=3 kg"), "kg is a unit of mass"),
        (("sabine_reverberation_time", "volume=3 m3", "absorption_area=1 m2", "air=dry"), "is given by its parts"),
        (("composite_reduction", "elements.1.area=3 m2"), "counted from 0"),
        (("design_level", "acceleration=x"), "it is no number"),
    ],
)
def test_a_wrong_call_says_what_to_do(
    arguments: tuple[str, ...], said: str, capsys: pytest.CaptureFixture[str]
) -> None:
    assert said in complaint(capsys, *arguments)


def test_no_nonsense_ends_in_a_traceback() -> None:
    """Whatever is typed for whatever a law takes, an answer or problems come back."""
    for law in LAWS.values():
        for text in ("x", "-1", "1, 2; 3"):
            answer, problems = computed(law, [f"{one.name}={text}" for one in law.parameters])
            assert (answer is None) == bool(problems), (law.name, text)


def test_laws_are_found_by_words(capsys: pytest.CaptureFixture[str]) -> None:
    named = {line.split()[0] for line in text_of(capsys, "--like", "transmissibility").splitlines() if line[:2] == "  "}
    assert {"viscous_transmissibility", "rubber_transmissibility"} <= named
    listed = json.loads(text_of(capsys, "--of", "electrical", "--json"))["laws"]
    assert {law["domain"] for law in listed} == {"electrical"}


def test_a_law_is_told_with_units_formula_source_and_example(capsys: pytest.CaptureFixture[str]) -> None:
    text = text_of(capsys, "sabine-reverberation-time")
    for said in ("Volume of the room [m³]", "T = 24 ln 10/c · V/A", "Kuttruff", ">>> round(float(sabine", "air.temp"):
        assert said in text or said == "air.temp"
    assert "parts of air, typed air.part=value" in text
    assert "``" not in text


def test_words_to_choose_from_are_told(capsys: pytest.CaptureFixture[str]) -> None:
    assert "One of: heavy_wall, heavy_floor, lightweight_wall." in text_of(capsys, "lining_improvement").replace(
        "\n", " "
    )


def test_what_is_several_values_by_parts_is_told_part_by_part(capsys: pytest.CaptureFixture[str]) -> None:
    """Duct wall of the law's own example: 70 dB in an octave radiate 67 dB at most, half of it."""
    wall = ("wall=rectangular duct wall", "wall.width=305 mm", "wall.height=305 mm", "wall.surface_density=4.88 kg/m2",
            "wall.length=6.1 m")  # fmt: skip
    inside = ("inside.sound_power_level=27 x 65.2288 dB", "inside.standard_uncertainty=27 x 0 dB")
    node = json.loads(text_of(capsys, "breakout_power", *inside, *wall, "--json"))["result"]
    parts = {part["name"]: part for part in node["parts"]}
    assert parts["octaves"]["value"][0] == pytest.approx(67.0, abs=0.05)
    assert complaint(capsys, "breakout_power", *inside, *wall[1:]).count("say which") == 1


def test_parts_of_parts_are_told_and_taken(capsys: pytest.CaptureFixture[str]) -> None:
    assert "parts of elements.0.loss, typed elements.0.loss.part=value" in text_of(capsys, "crosstalk_power")
    end = (
        "elements.0.name=end",
        "elements.0.loss.attenuation=27 x 10 dB",
        "elements.0.loss.standard_uncertainty=27 x 1 dB",
    )
    level = ("sound_pressure_level=27 x 70 dB", "area=1 m2")
    answer, problems = computed(LAWS["crosstalk_power"], [*end, *level])
    assert answer is not None, problems
    power = next(part.value for part in answer.found.parts if part.name == "sound_power_level")
    assert power == pytest.approx((70.0 - 6.0 - 10.0,) * 27, abs=0.2)  # L_W = L_p + 10 lg(S/4), less what it takes


def test_a_rigid_fixing_has_an_infinite_stiffness() -> None:
    assert value_of("bridge_mobility", "path.spring_stiffness=infinite", "frequency=100 Hz") == 0.0


def test_no_page_shows_how_it_is_typeset() -> None:
    for law in LAWS.values():
        text = law_text(law, "metric").split("\n  example")[0]
        assert not re.search(r"``|\]_|math::|\\[a-z]|\bfrac\b", text), law.name
        assert max(map(len, text.splitlines())) <= 100, law.name


def test_a_law_that_needs_nothing_shows_its_value(capsys: pytest.CaptureFixture[str]) -> None:
    assert "with nothing given" in text_of(capsys, "speech_levels")
    assert "result" in json.loads(text_of(capsys, "speech_levels", "--json"))


def test_a_remark_on_validity_is_told(capsys: pytest.CaptureFixture[str]) -> None:
    """A cold jet sinks, which the law leaves out and says."""
    arguments = ("jet_velocity", "outlet_velocity=1.1 m/s", "outlet_area=300 cm2", "distance=1.5 m",
                 "temperature_difference=-9 °F")  # fmt: skip
    text = text_of(capsys, *arguments)
    assert "Remark: the jet differs by -5 K" in text
    assert json.loads(text_of(capsys, *arguments, "--json"))["remarks"]


def test_what_can_be_several_things_asks_which(capsys: pytest.CaptureFixture[str]) -> None:
    text = complaint(capsys, "system_pressure_loss", "volume_flow_rate=50 l/s", "elements.0.section.shape=round")
    assert "elements.0" in text
    assert "Traceback" not in text


# --- Units ----------------------------------------------------------------------------------------------------------


@settings(max_examples=30, deadline=None)
@given(inches=st.floats(0.01, 3.0), fahrenheit=st.floats(-30.0, 130.0), cubic_feet=st.floats(1.0, 1000.0))
def test_metric_and_us_arguments_give_one_number(inches: float, fahrenheit: float, cubic_feet: float) -> None:
    deflections = (f"static_deflection={inches!r} in", f"static_deflection={inches * 25.4!r} mm")
    frequencies = [value_of("natural_frequency", typed) for typed in deflections]
    assert frequencies[0] == pytest.approx(frequencies[1], rel=1e-9)
    volume = (f"volume={cubic_feet!r} ft3", f"volume={cubic_feet * 0.3048**3!r} m3")
    air = (f"air.temperature={fahrenheit!r} °F", f"air.temperature={(fahrenheit - 32.0) / 1.8!r} °C")
    rooms = [value_of("sabine_reverberation_time", volume[at], "absorption_area=3 m2", air[at]) for at in (0, 1)]
    assert rooms[0] == pytest.approx(rooms[1], rel=1e-9)
