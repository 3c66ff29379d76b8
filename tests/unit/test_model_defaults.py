"""What a file leaves out is filled from one place and told, each default once, with its source."""

import pytest
from tests.coupled import DEMO, build_of, edited, library
from tests.plain_builds import plain_build

from hushwright.document.read import read_document_text
from hushwright.library.records import Limit
from hushwright.model.build import Build
from hushwright.model.resolve import resolve

SMALLEST = "hushwright: 1\nbrief: {tallest: 1.8 m}\nvehicle: {}\n"


def built(text: str) -> Build:
    document, problems = read_document_text(text, "van.yaml")
    assert document is not None
    assert not problems
    build, _ = resolve(document, library())
    assert build is not None
    return build


def texts(build: Build) -> dict[str, str]:
    return {each.path: each.text for each in build.assumptions}


@pytest.mark.parametrize(
    ("field", "limit"),
    [
        ("shoes", "shoe height"),
        ("clearance", "headroom clearance"),
        ("shoulder_width", "clear width at standing places"),
        ("person_mass", "standing person mass"),
    ],
)
def test_a_default_of_the_brief_is_the_limit_of_the_library(field: str, limit: str) -> None:
    build = built(SMALLEST)
    record = library().find(Limit, limit)
    assert getattr(build.brief, field) == pytest.approx(record.value.value)
    told = next(each for each in build.assumptions if each.path == f"brief.{field}")
    assert told.source == str(record.source)


def test_a_convention_is_no_uncertain_input() -> None:
    assert not {"brief.shoes", "brief.person_mass"} & {each.path for each in built(SMALLEST).inputs}


def test_tolerances_left_out_are_those_of_the_library() -> None:
    build = built(SMALLEST)
    assert build.tolerances.headroom == pytest.approx(library().find(Limit, "build tolerance").value.value / 2.0)
    assert {"tolerances.headroom", "tolerances.width", "tolerances.mass"} <= set(texts(build))


def test_a_van_left_out_is_a_body_of_the_library_value_by_value() -> None:
    told = texts(built(SMALLEST))
    paths = "load_length floor_to_bow widths skin.material skin.thickness ribs.depth bows.spacing wheel_boxes.height"
    for path in (*paths.split(" "), "kerb.total", "plated.front", "body", "seats"):
        assert f"vehicle.{path}" in told


def test_every_assumption_says_where_it_comes_from() -> None:
    for build in (built(SMALLEST), build_of(DEMO), build_of(plain_build())):
        assert all(each.text and each.source for each in build.assumptions)


def test_equal_defaults_are_one_line_with_their_number() -> None:
    lines = [each.text for each in build_of(DEMO).assumptions if "air behind" in each.text]
    assert lines == ["treatments: air behind 0 mm (in 5 places)"]


def test_defaults_that_say_nothing_where_they_stand_are_not_told() -> None:
    told = " ".join(texts(build_of(DEMO)).values())
    for word in ("fixings", "joint", "number", "frames"):
        assert word not in told


def test_a_default_is_told_where_it_says_something() -> None:
    two_boards = edited(DEMO, ("        - {foam: cross-linked polyethylene foam, thickness: 10}\n",
                               "        - {sheet: birch plywood, thickness: 10}\n"))  # fmt: skip
    assert "sheets directly on sheets: glued" in texts(build_of(two_boards)).values()
    bridging = edited(DEMO, ("height: 1000, fixed_to: [body]", "height: 1000, fixed_to: [body, quiet]"))
    assert "fittings: fixings 4" in texts(build_of(bridging)).values()
    no_frames = edited(DEMO, ("    frames: separate ", "    # "))
    assert "openings: frames separate" in texts(build_of(no_frames)).values()


def test_every_default_left_out_in_an_example_is_told_or_says_nothing() -> None:
    """Fields with a default that a fresh reader would ask about: all of the smallest file's are there."""
    build = built(SMALLEST)
    told = set(texts(build))
    for path, spec in build.document.left_out():
        if spec.fallback or (spec.default_text and not spec.descriptive):
            dotted = ".".join(map(str, path))
            assert any(each == dotted or each.startswith(f"{dotted}.") for each in told), dotted


def test_states_left_out_are_takes_and_the_road() -> None:
    build = built(SMALLEST)
    assert [(each.name, each.takes, each.road) for each in build.states] == [
        ("record", True, False),
        ("drive", False, True),
    ]
    assert build.states[1].people == (("cab", 2),)
    assert "states" in texts(build)


def test_a_limit_left_out_is_the_usual_one_for_the_use() -> None:
    text = edited(DEMO, ("      limit: 35 dB(A)\n", ""))
    build = build_of(text)
    assert (build.brief.situations[0].target.kind, build.brief.situations[0].target.value) == ("NC", 20.0)
    assert "brief.outdoors.0.limit" in texts(build)
    other = build_of(text.replace("use: recording", "use: other"))
    assert other.brief.situations[0].target is None


def test_an_octave_left_out_between_two_lies_on_the_line() -> None:
    build = build_of(edited(DEMO, ("hz_125: 56 dB, hz_250: 53 dB,", "hz_250: 53 dB,")))
    assert dict(build.brief.situations[0].octaves)[125.0] == pytest.approx((60 + 53) / 2)
    assert "brief.outdoors.0.octaves.hz_125" in texts(build)


def test_an_own_record_keeps_its_standard_uncertainty() -> None:
    text = plain_build(floor="        - {limp: own mat, thickness: 4}\n").replace(
        "  limp_barriers:\n",
        "  limp_barriers:\n    - {name: own mat, source: invented, density: {is: 1000 kg/m3, plus_minus: 100 kg/m3}}\n",
    )
    build = build_of(text)
    layer = build.rooms[0].surface("floor").layers[0]
    assert layer.record.density.standard_uncertainty == pytest.approx(50.0)
    assert layer.record.density.high == pytest.approx(1000.0 + 50.0 * 3.0**0.5)
    assert any(each.path == "library.limp_barriers.0.density" for each in build.inputs)


def test_a_shifted_own_record_shifts_its_layers() -> None:
    text = DEMO.replace("density: 1667 kg/m3", "density: {is: 1667 kg/m3, plus_minus: 5 %}")
    build = build_of(text)
    moved, _ = resolve(build.document, library(), shifts={"library.limp_barriers.0.density": 100.0})
    assert moved is not None
    mass = [sum(each.mass for each in one.masses) for one in (build, moved)]
    assert mass[1] > mass[0]
