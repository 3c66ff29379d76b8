"""Sheets: true scale, own fonts, the same bytes, and a person's text as text."""

import math
import xml.etree.ElementTree as ET
from dataclasses import replace
from functools import lru_cache
from itertools import combinations
from pathlib import Path

import pytest
from tests.coupled import DEMO, build_of, edited
from tests.pdf_paths import page_sizes, paths, reader, size
from tests.plain_builds import plain_build

from hushwright.drawings.clip import cut_in_window
from hushwright.drawings.elevations import side
from hushwright.drawings.every_sheet import every_sheet, named
from hushwright.drawings.layers import LAYERS, TONES
from hushwright.drawings.marks import Fill, Letters, Ring, Stroke, apart, extent
from hushwright.drawings.on_paper import on_paper
from hushwright.drawings.paper import PAPERS, fitted, paper_named, placed, room_for_drawing
from hushwright.drawings.part_sheets import part_with_sizes
from hushwright.drawings.parts import parts_of
from hushwright.drawings.plan import plan
from hushwright.drawings.primitives import Balloon, Dimension, Drawing, Hatch, Line, Polyline, Text, chain
from hushwright.drawings.sections import section
from hushwright.drawings.sheets import Sheet, Table, sheets_pdf
from hushwright.drawings.svg import svg
from hushwright.drawings.templates import template, template_sheets
from hushwright.drawings.typeset import CannotTypeset, literal, preamble, typeset
from hushwright.errors import InvalidInput
from hushwright.model.build import Build
from hushwright.units import System

SVG = "{http://www.w3.org/2000/svg}"
HOSTILE = "A #strike[b] *c* $d$ \"e\" \\f <script>alert(1)</script> ] } & 'g' @h `i` 100 %%d"
SCRIPTS = "Ünïcödé Ωμέγα Привет שלום مرحبا 😀"


@lru_cache(maxsize=1)
def demo() -> Build:
    return build_of(DEMO)


def with_title(title: str) -> Build:
    return replace(demo(), title=title)


def text_of(pdf: bytes) -> str:
    return " ".join(page.extract_text() for page in reader(pdf).pages)


def test_the_plan_is_true_to_its_scale_on_paper() -> None:
    paper = paper_named("A3")
    drawing = plan(demo())
    scale = fitted(drawing, paper).scale
    pdf = sheets_pdf([Sheet("plan", "Plan", drawing)], demo(), paper)
    vehicle = demo().vehicle
    width = 2000.0 * vehicle.section.half_width_at("left", 1.2) / scale
    wanted = (1000.0 * vehicle.load_length / scale, width)
    assert any(size(path) == pytest.approx(wanted, abs=0.01) for path in paths(pdf))


@pytest.mark.parametrize("name", PAPERS)
def test_pages_have_the_size_of_their_paper(name: str) -> None:
    # ISO 216: A4 210 x 297 mm, A3 297 x 420 mm; ANSI/ASME Y14.1: A 8.5 x 11 in, B 11 x 17 in
    inch = 25.4
    wanted = {"A4": (297, 210), "A3": (420, 297), "Letter": (11 * inch, 8.5 * inch), "Tabloid": (17 * inch, 11 * inch)}
    pdf = sheets_pdf([Sheet("plan", "Plan", plan(demo()))], demo(), paper_named(name))
    assert page_sizes(pdf)[0] == pytest.approx(wanted[name], abs=0.1)


@pytest.mark.parametrize("name", ["A4", "A3", "Letter"])
def test_pages_are_counted_as_printed_where_a_table_runs_over(name: str) -> None:
    build = build_of(plain_build())
    rows = (("part", "count"), *((f"part {number}", "1") for number in range(90)))
    whole = Sheet("plan", "Plan", plan(build))
    sheets = [whole, Sheet("list", "List", tables=(Table("List", rows),)), whole]
    pages = reader(sheets_pdf(sheets, build, paper_named(name))).pages
    assert len(pages) > len(sheets)
    for number, page in enumerate(pages, start=1):
        assert f"{number} of {len(pages)}" in " ".join(page.extract_text().split())


def test_a_template_prints_its_cut_at_true_size() -> None:
    cut = next(cut for cut in demo().cuts if cut.name == "fresh_air")
    sheets = template_sheets(replace(demo(), cuts=(cut,)), paper_named("A3"), "metric")
    assert [sheet.scale for sheet in sheets] == [1.0]
    pdf = sheets_pdf(sheets, demo(), paper_named("A3"))
    found = [size(path) for path in paths(pdf)]
    assert any(each == pytest.approx((130.0, 130.0), abs=0.02) for each in found)  # examples: diameter 130 mm
    assert any(each == pytest.approx((100.0, 0.0), abs=0.02) for each in found)  # the rule for checking the print


def test_a_cut_whose_words_find_no_room_beside_it_has_them_in_the_column_and_stays_on_one_sheet() -> None:
    cut = next(cut for cut in demo().cuts if cut.name == "fresh_air")  # dia. 130 mm on Letter, 216 mm high
    (sheet,) = template_sheets(replace(demo(), cuts=(cut,)), paper_named("Letter"), "us")
    assert sheet.drawing is not None
    assert sheet.drawing.remarks[0] == "fresh air, left"
    assert not [each for each in sheet.drawing.elements if isinstance(each, Text) and each.layer == "text"]


def test_a_cut_larger_than_the_paper_comes_in_tiles_that_fit_together() -> None:
    cut = replace(demo().cuts[0], width=0.6, height=0.6)
    sheets = template_sheets(replace(demo(), cuts=(cut,)), paper_named("A4"), "metric")
    assert len(sheets) > 4
    assert all(sheet.scale == 1.0 for sheet in sheets)
    room = [each / 1000.0 for each in room_for_drawing(paper_named("A4"), with_key=True)]
    places: dict[str, set[tuple[float, float]]] = {}
    outline = 0.0
    for sheet in sheets:
        assert sheet.drawing is not None
        lines = [each for each in sheet.drawing.elements if isinstance(each, Polyline)]
        frame = next(each for each in lines if each.layer == "structure")
        xs, ys = zip(*frame.points, strict=True)
        assert max(xs) - min(xs) <= room[0]
        assert max(ys) - min(ys) <= room[1]
        cut_lines = [each for each in lines if each.layer == "cuts"]
        outline += sum(
            math.dist(a, b) for each in cut_lines for a, b in zip(each.points, each.points[1:], strict=False)
        )
        for element in sheet.drawing.elements:
            if isinstance(element, Text) and element.layer == "datums" and len(element.text) == 2:
                places.setdefault(element.text, set()).add((round(element.at[0], 6), round(element.at[1], 6)))
    assert all(len(each) == 1 for each in places.values()), "a cross of one name lies at one place"
    assert math.pi * 0.6 * 0.99 < outline < math.pi * 0.6 * 1.35  # all of the circle, overlaps twice


def test_svg_is_true_to_scale_and_names_the_parts_it_shows() -> None:
    root = ET.fromstring(svg(plan(demo()), 20.0))
    box = [float(each) for each in root.attrib["viewBox"].split()]
    assert root.attrib["width"] == f"{root.attrib['viewBox'].split()[2]}mm"
    assert box[2] > 0.0
    bodies = [each for each in root.iter(f"{SVG}path") if each.attrib.get("data-layer") == "body"]
    outline = next(each for each in bodies if each.attrib.get("fill") is None)
    numbers = [tuple(map(float, pair.split())) for pair in outline.attrib["d"].strip("MZ").split("L")]
    xs, ys = zip(*numbers, strict=True)
    assert max(xs) - min(xs) == pytest.approx(4350.0 / 20.0, abs=0.01)  # load length of the demo
    assert max(ys) - min(ys) == pytest.approx(1800.0 / 20.0, abs=0.01)  # its width at 1.2 m
    parts = {each.attrib.get("data-part") for each in root.iter()}
    assert {"quiet_room.left", "window", "quiet_room", "bank"} <= parts


def test_hostile_text_stays_text_in_svg() -> None:
    named = "'<script>alert(1)</script> & \"b\" ]]>'"
    text = DEMO.replace("{name: bank,", f"{{name: {named},").replace("fitting: bank,", f"fitting: {named},")
    root = ET.fromstring(svg(plan(build_of(edited(text, ("title: Song archive van", "title: '</title><x/>'"))))))
    assert not list(root.iter(f"{SVG}script"))
    assert '<script>alert(1)</script> & "b" ]]>' in {each.attrib.get("data-part") for each in root.iter()}


def test_hostile_text_stays_text_in_pdf() -> None:
    pdf = sheets_pdf([Sheet("plan", HOSTILE, plan(demo()))], with_title(HOSTILE), paper_named("A3"))
    shown = "".join(text_of(pdf).split())
    for piece in ("#strike[b]*c*$d$", '"e"\\f<script>', "]}&"):
        assert piece in shown


def test_other_scripts_are_shown_and_what_has_no_glyph_is_told_by_its_number() -> None:
    pdf = sheets_pdf([Sheet("plan", SCRIPTS, plan(demo()))], with_title(SCRIPTS), paper_named("A3"))
    shown = text_of(pdf)
    for word in ("Ünïcödé", "Ωμέγα", "Привет", "[U+1F600]"):
        assert word in shown
    assert "שלום" in shown or "םולש" in shown  # right to left: the order in which a reader gives it differs


def test_a_very_long_word_stays_inside_the_title_block() -> None:
    pdf = sheets_pdf([Sheet("plan", "x" * 400, plan(demo()))], with_title("y" * 4000), paper_named("A4"))
    assert len(reader(pdf).pages) == 1


def test_literal_has_no_way_out_of_its_quotes() -> None:
    for text in ('"', "\\", '\\"', "#eval", "\n\r\t\0", "[", "\u202e\u2066x"):
        assert typeset(preamble("x") + f"#{literal(text)}").startswith(b"%PDF")


def test_a_missing_glyph_or_font_is_an_error() -> None:
    with pytest.raises(CannotTypeset, match="could not be displayed"):
        typeset(preamble("x") + '#"中"')
    with pytest.raises(CannotTypeset, match="unknown font"):
        typeset(preamble("x") + '#set text(font: "No Such Font")\nx')


def test_the_same_input_gives_the_same_bytes() -> None:
    sheets = [Sheet("plan", "Plan", plan(demo()))]
    assert sheets_pdf(sheets, demo(), paper_named("A4")) == sheets_pdf(sheets, demo(), paper_named("A4"))


def test_sheets_are_pdf_a_with_every_font_inside_and_the_date_of_the_file() -> None:
    source = reader(sheets_pdf([Sheet("plan", "Plan", plan(demo()))], demo(), paper_named("A4")))
    catalog = source.trailer["/Root"]
    metadata = catalog["/Metadata"].get_data().decode()  # type: ignore[index]
    assert "pdfaid:part" in metadata  # ISO 19005-2
    assert "2026-05-04" in metadata
    fonts = [each.get_object() for each in source.pages[0]["/Resources"]["/Font"].values()]  # type: ignore[index]
    assert fonts
    for font in fonts:
        inner = font["/DescendantFonts"][0].get_object() if "/DescendantFonts" in font else font
        descriptor = inner["/FontDescriptor"].get_object()
        assert any(key in descriptor for key in ("/FontFile", "/FontFile2", "/FontFile3"))


@pytest.mark.parametrize(("text", "wanted"), [("2026-05-04", "2026-05-04"), ("4 May", "1970"), ("2026-13-45", "1970")])
def test_a_date_that_is_none_leaves_the_document_undated(text: str, wanted: str) -> None:
    metadata = reader(typeset(preamble("x", text) + "x")).trailer["/Root"]["/Metadata"].get_data()  # type: ignore[index]
    assert wanted in metadata.decode()


@pytest.mark.parametrize(("name", "system"), [("A4", "metric"), ("Letter", "us"), ("Tabloid", "us")])
def test_every_drawing_fits_on_its_paper(name: str, system: System) -> None:
    paper = paper_named(name)
    for sheet in every_sheet(demo(), paper, system):
        if sheet.drawing is None:
            continue
        keeps = bool(sheet.drawing.key or sheet.drawing.remarks)
        width, height = room_for_drawing(paper, with_key=keeps)
        found = placed(sheet.drawing, sheet.scale, system) if sheet.scale else fitted(sheet.drawing, paper, system)
        assert found.width <= width, sheet.name
        assert found.height <= height, sheet.name


def test_layers_and_tones_are_those_of_the_tables() -> None:
    for sheet in every_sheet(demo(), paper_named("A3")):
        elements = sheet.drawing.elements if sheet.drawing is not None else ()
        assert {each.layer for each in elements} <= set(LAYERS)
        assert {each.tone for each in elements if isinstance(each, Hatch)} <= {*TONES, ""}


def test_balloons_step_aside_from_each_other() -> None:
    elements = tuple(Balloon((0.0, 0.001 * index), str(index)) for index in range(12))
    rings = [mark for mark in on_paper(Drawing("x", "", "", elements), 20.0) if isinstance(mark, Ring) and mark.covers]
    assert len(rings) == 12
    for index, one in enumerate(rings):
        for other in rings[index + 1 :]:
            assert math.dist(one.centre, other.centre) >= one.radius + other.radius


def test_a_dimension_says_its_length_whatever_the_scale() -> None:
    drawing = Drawing("x", "", "", (Dimension((0.0, 0.0), (1.5824, 0.0), "x"),))
    for scale in (1.0, 10.0, 50.0):
        said = [mark.text for mark in on_paper(drawing, scale) if isinstance(mark, Letters)]
        assert said == ["1582"]
    assert [mark.text for mark in on_paper(drawing, 10.0, "us") if isinstance(mark, Letters)] == ["5 ft 2 5/16 in"]


def test_dimensions_of_the_section_are_the_clear_sizes_of_the_room() -> None:
    room = next(room for room in demo().rooms if room.purpose == "quiet")
    name, station = next(each for each in demo().drawn.sections if room.front < each[1] < room.rear)
    lengths = {round(each.length, 4) for each in section(demo(), name, station).elements if isinstance(each, Dimension)}
    assert round(room.section.height, 4) in lengths
    assert round(room.section.width_at(room.section.floor_height + 1.35), 4) in lengths


def test_the_right_side_is_the_left_side_seen_from_the_other_side() -> None:
    left, right = (fitted(side(demo(), face), paper_named("A3")) for face in ("left", "right"))
    fills = [next(mark for mark in each.marks if isinstance(mark, Fill)) for each in (left, right)]
    assert sorted(-x for x, _ in fills[0].outline) == pytest.approx(sorted(x for x, _ in fills[1].outline))


def test_sheets_have_names_of_their_own_and_families() -> None:
    sheets = every_sheet(demo(), paper_named("A4"))
    names = [sheet.name for sheet in sheets]
    assert len(names) == len(set(names))
    assert {sheet.name for sheet in named(sheets, ("section",))} == {each for each in names if each[:8] == "section-"}
    with pytest.raises(InvalidInput, match="no sheet is called 'attic'"):
        named(sheets, ("attic",))
    with pytest.raises(InvalidInput, match="A4, A3, Letter, Tabloid"):
        paper_named("A5")


def test_a_bare_van_without_rooms_can_be_drawn() -> None:
    text = plain_build()
    bare = text[: text.index("rooms:")]
    sheets = every_sheet(build_of(bare), paper_named("A4"))
    assert "plan" in {sheet.name for sheet in sheets}
    assert sheets_pdf(sheets, build_of(bare), paper_named("A4")).startswith(b"%PDF")


def test_sections_and_title_block_come_from_the_file() -> None:
    lines = (
        "drawings:\n  number: J-17\n  drawn_by: ab\n  checked_by: cd\n"
        "  revisions: [{revision: A, date: 2026-05-01, change: first issue}, {revision: B, date: 2026-05-09,"
        " change: door moved}]\n  sections: [{name: X, station: 500}, {name: Y, station: 1500}]\n"
    )
    build = build_of(plain_build(rest=lines))
    assert build.drawn.sections == (("X", 0.5), ("Y", 1.5))
    shown = text_of(sheets_pdf([Sheet("plan", "Plan", plan(build))], build, paper_named("A4")))
    for word in ("J-17", "ab / cd", "B", "2026-05-09", "door moved"):
        assert word in shown


def test_a_template_looks_from_outside() -> None:
    """What lies before the cut is to the left of it on the left side, to the right of it on the right side."""
    edges = {}
    for face in ("left", "right"):
        cut = replace(demo().cuts[0], face=face, along=1.25, width=0.5, height=0.1)
        lines = [each for each in template(demo(), cut, "metric").elements if isinstance(each, Line)]
        edges[face] = sorted(round(each.start[0], 3) for each in lines if each.layer == "hidden")
    assert edges["left"] == [-0.23, -0.17]  # the rib at 350 + 700 mm, 60 mm wide
    assert edges["right"] == [0.17, 0.23]


def test_very_long_names_everywhere_stay_on_the_paper() -> None:
    long = "w" * 300
    build = demo()
    named_long = replace(
        build,
        rooms=tuple(replace(room, name=f"{long}{i}") for i, room in enumerate(build.rooms)),
        openings=tuple(replace(each, name=f"{long}{i}") for i, each in enumerate(build.openings)),
        cuts=tuple(replace(each, name=f"{long}{i}") for i, each in enumerate(build.cuts)),
        masses=tuple(replace(each, name=f"{long}{i}") for i, each in enumerate(build.masses)),
    )
    paper = paper_named("A4")
    for sheet in every_sheet(named_long, paper):
        if sheet.drawing is None:
            continue
        keeps = bool(sheet.drawing.key or sheet.drawing.remarks)
        width, height = room_for_drawing(paper, with_key=keeps)
        found = fitted(sheet.drawing, paper)
        assert found.width <= width, sheet.name[:20]
        assert found.height <= height, sheet.name[:20]
    pages = sheets_pdf([Sheet("plan", "Plan", plan(named_long))], named_long, paper)
    assert len(reader(pages).pages) == 1


EXAMPLES = Path(__file__).parents[2] / "examples"
ON_PAPER: list[tuple[str, str, System]] = [
    ("archive-van", "A4", "metric"), ("archive-van", "A3", "metric"), ("archive-van", "Letter", "us"),
    ("archive-van", "Tabloid", "us"), ("hearing-screening-van", "A4", "metric"),
    ("hearing-screening-van", "Letter", "us"),
]  # fmt: skip


@pytest.mark.parametrize(("van", "name", "system"), ON_PAPER)
def test_no_two_texts_of_a_sheet_lie_over_each_other(van: str, name: str, system: System) -> None:
    paper = paper_named(name)
    for sheet in every_sheet(build_of((EXAMPLES / f"{van}.yaml").read_text()), paper, system):
        if sheet.drawing is None:
            continue
        keeps = bool(sheet.drawing.key or sheet.drawing.remarks or sheet.remarks)
        fit = fitted(sheet.drawing, paper, system, with_key=keeps)
        shown = placed(sheet.drawing, sheet.scale, system) if sheet.scale else fit
        texts = [mark for mark in shown.marks if isinstance(mark, Letters)]
        boxes = [extent([text]) for text in texts]
        for index, one in enumerate(boxes):
            for other, box in enumerate(boxes[index + 1 :], index + 1):
                assert apart(one, box), (sheet.name, texts[index].text, texts[other].text)


@pytest.mark.parametrize(("van", "name"), [("archive-van", "A3"), ("hearing-screening-van", "A4")])
def test_no_line_runs_through_words_that_have_no_margin_of_paper(van: str, name: str) -> None:
    paper = paper_named(name)
    for sheet in every_sheet(build_of((EXAMPLES / f"{van}.yaml").read_text()), paper):
        if sheet.drawing is None:
            continue
        shown = placed(sheet.drawing, sheet.scale, "metric") if sheet.scale else fitted(sheet.drawing, paper)
        rings = [mark for mark in shown.marks if isinstance(mark, Ring) and mark.covers]
        bare = [mark for mark in shown.marks if isinstance(mark, Letters) and not mark.covers
                and not any(math.dist(mark.at, ring.centre) < ring.radius for ring in rings)]  # fmt: skip
        strokes = [(pair, each) for each in shown.marks if isinstance(each, Stroke) and each.layer != "fills"
                   for pair in zip(each.points, (*each.points[1:], *each.points[: each.closed]), strict=False)
                   ]  # fmt: skip
        for letters in bare:
            left, low, right, high = extent([letters])
            edge = 0.15 * letters.size  # letters do not fill their box
            inside = (left + edge, low + edge), (right - edge, high - edge)
            for pair, stroke in strokes:
                assert cut_in_window(*pair, *inside) is None, (sheet.name, letters.text, stroke.layer, stroke.part)


@pytest.mark.parametrize("system", ["metric", "us"])
def test_every_length_of_a_crowded_chain_is_written_where_no_other_stands(system: System) -> None:
    places = (0.0, 0.004, 0.011, 0.013, 0.02, 0.026, 0.3)
    drawing = Drawing("x", "", "", (*chain(places, "x", 0.0, -0.009), *chain((0.0, 0.3), "x", 0.0, -0.0155)))
    texts = [mark for mark in on_paper(drawing, 5.0, system) if isinstance(mark, Letters)]
    assert len(texts) == len(places)
    assert all(apart(extent([a]), extent([b])) for a, b in combinations(texts, 2))


def test_every_corner_of_a_leaf_has_its_size() -> None:
    part = next(part for part in parts_of(demo()) if part.face == "front" and len(part.outline) == 8)
    shown = [each for each in part_with_sizes(part, (0.0, 0.0), "metric") if isinstance(each, Dimension)]
    for axis, name in ((0, "x"), (1, "y")):
        ends = {round(end[axis], 4) for each in shown if each.axis == name for end in (each.start, each.end)}
        assert {round(corner[axis], 4) for corner in part.outline} <= ends
