"""Papers: everything that was judged is in them, text is text whatever stands in it, and the bytes stay the same."""

import io
import json
import math
import re
import unicodedata
from dataclasses import replace
from functools import lru_cache

import pytest
from pypdf import PdfReader
from tests.coupled import DEMO, edited, evaluation_of, verdicts_of
from tests.plain_builds import plain_build
from tests.reference.test_hand_cost import BUILD

from hushwright.evaluation.cost.options import options_of
from hushwright.evaluation.sound.floor import on_the_first_day
from hushwright.physics.acoustics.bands import THIRD_OCTAVE_BANDS
from hushwright.physics.air import Air
from hushwright.report.as_json import check_json
from hushwright.report.papers.as_text import paper_text
from hushwright.report.papers.blocks import Blanks, Chart, Checks, Heading, Judged, Say, Table, one_by_one
from hushwright.report.papers.change import change_order
from hushwright.report.papers.common import Case, without_code_marks
from hushwright.report.papers.every_paper import PAPERS
from hushwright.report.papers.hold_points import HOLD_POINTS
from hushwright.report.papers.setting import paper_pdf
from hushwright.units import System


def case_of(text: str, system: System = "metric") -> Case:
    evaluation = evaluation_of(text)
    return Case(evaluation, tuple(verdicts_of(text).values()), options_of(evaluation.build), system)


def pdf_of(text: str, name: str, system: System = "metric") -> bytes:
    case = case_of(text, system)
    return paper_pdf(PAPERS[name](case), case.evaluation.build, system)


@lru_cache(maxsize=16)
def read(text: str, name: str, system: System = "metric") -> PdfReader:
    return PdfReader(io.BytesIO(pdf_of(text, name, system)))


def bare(text: str) -> str:
    """Text without blanks and breaks, ligatures taken apart."""
    return "".join(unicodedata.normalize("NFKC", text).split())


@lru_cache(maxsize=16)
def words_of(text: str, name: str, system: System = "metric") -> str:
    """Text of all pages without foot lines."""
    pages = []
    for page in read(text, name, system).pages:
        lines = page.extract_text().splitlines()
        foot = f"/ {len(read(text, name, system).pages)}"
        pages.append("\n".join(line for line in lines if not line.rstrip().endswith(foot)))
    return bare("\n".join(pages))


@pytest.mark.parametrize("system", ["metric", "us"])
def test_every_verdict_stands_in_the_dossier_as_check_says_it(system: System) -> None:
    case = case_of(DEMO, system)
    told = json.loads(check_json(case.evaluation, case.verdicts, [], (), system))
    cards = {each.name.split(",")[0]: each for each in PAPERS["dossier"](case).blocks if isinstance(each, Judged)}
    assert set(cards) == {each["id"] for each in told["verdicts"]}
    for each in told["verdicts"]:
        card = cards[each["id"]]
        said = " ".join(text for _, text in card.lines)
        assert card.question == each["question"]
        assert card.outcome.replace(" ", "_").lower() == each["verdict"]
        for key in ("basis", "reason", "hint", "caution"):
            assert without_code_marks(each[key]) in said
        assert all(without_code_marks(note.removeprefix("reported: ")) in said for note in each["validity"])


def test_the_dossier_reads_back_with_every_verdict_and_caution() -> None:
    case = case_of(DEMO)
    printed = words_of(DEMO, "dossier")
    told = json.loads(check_json(case.evaluation, case.verdicts, [], (), "metric"))
    for each in told["verdicts"]:
        assert bare(each["id"]) in printed
        assert bare(without_code_marks(each["question"])) in printed
    for caution in {without_code_marks(each["caution"]) for each in told["verdicts"] if each["caution"]}:
        assert bare(caution) in printed
    for each in told["assumptions"]:
        assert bare(each["path"]) in printed
    for part in ("Contents", "Brief and targets", "Curves", "The session over time", "Mass", "Glossary",
                 "Methods and their sources", "Drawings", "Cost"):  # fmt: skip
        assert bare(part) in printed


def test_the_contents_end_on_the_first_page_and_no_chart_is_a_flat_line() -> None:
    assert re.search(r"Drawings[ .]*[0-9]+", read(DEMO, "dossier").pages[0].extract_text())
    charts = [block for block in PAPERS["dossier"](case_of(DEMO)).blocks if isinstance(block, Chart)]
    assert charts
    for chart in charts:
        values = [{each for each in curve.values if each is not None} for curve in chart.curves]
        assert any(len(each) > 1 for each in values), chart.heading
    rows = [row for block in PAPERS["dossier"](case_of(DEMO)).blocks if isinstance(block, Table) for row in block.rows]
    assert any(row[:2] == ("background, quay", "quiet room") and row[2].endswith(" dB(A)") for row in rows)
    assert ("power, months", "May, June, July, August, September, October") in {row[:2] for row in rows}


def test_papers_are_archivable_with_fonts_inside_contents_and_links() -> None:
    reader = read(DEMO, "dossier")
    assert reader.xmp_metadata is not None
    assert b"pdfaid:part" in reader.xmp_metadata.stream.get_data()
    fonts = [
        font.get_object()
        for page in reader.pages
        for font in page["/Resources"].get("/Font", {}).values()  # type: ignore[union-attr]
    ]
    descriptors = [font["/DescendantFonts"][0].get_object()["/FontDescriptor"].get_object() for font in fonts]
    assert descriptors
    assert all({"/FontFile3", "/FontFile2"} & set(each) for each in descriptors)
    assert len(reader.outline) > 5
    assert any(note.get_object()["/Subtype"] == "/Link" for note in reader.pages[0]["/Annots"])  # type: ignore[union-attr]


@pytest.mark.parametrize("name", ["dossier", "handover"])
def test_what_is_copied_from_a_paper_holds_no_invisible_characters(name: str) -> None:
    text = "".join(page.extract_text() for page in read(DEMO, name).pages)
    assert re.findall("[\u00ad\u200b-\u200d\u2060\ufeff]", text) == []


@pytest.mark.parametrize("name", PAPERS)
def test_a_paper_is_the_same_every_time_and_promises_no_wonder(name: str) -> None:
    assert pdf_of(DEMO, name) == pdf_of(DEMO, name)
    assert "soundproof" not in words_of(DEMO, name).lower()
    assert "sound-proof" not in words_of(DEMO, name).lower()


def test_the_summary_for_the_client_has_two_pages_at_most() -> None:
    assert len(read(DEMO, "client").pages) <= 2


def test_the_promise_sheet_names_state_bands_method_and_what_is_not_promised() -> None:
    text = words_of(DEMO, "promise")
    for part in ("From outside into the quiet room, state record", "Open: side door", "How it is measured",
                 "What is not promised", "Between the rooms", "1000", "3150", "not promised"):  # fmt: skip
        assert bare(part) in text
    case = case_of(DEMO)
    blocks = one_by_one(PAPERS["promise"](case).blocks)
    table = next(block for block in blocks if getattr(block, "columns", ())[:1] == ("Hz",))
    for row in table.rows:  # type: ignore[union-attr]
        for at in (0, 6):
            if row[at]:
                kept = 0 if row[at + 5] == "not promised" else int(row[at + 5].split()[0])
                assert kept <= max(int(row[at + 3]) - int(row[at + 4][1:]) + 1, 0)


def test_every_promised_band_has_a_line_to_measure_it_and_every_sheet_what_a_meter_needs() -> None:
    blocks = list(one_by_one(PAPERS["promise"](case_of(DEMO)).blocks))
    tables = [block for block in blocks if isinstance(block, Table) and block.columns[:1] == ("Hz",)]
    promises = [each for each in tables if len(each.columns) == 12]
    sheets = [each for each in tables if len(each.columns) == 8]
    assert len(promises) == len(sheets) == 4
    for told, sheet in zip(promises, sheets, strict=True):
        kept = {row[at]: row[at + 5] for row in told.rows for at in (0, 6) if row[at + 5].endswith("dB")}
        assert {row[0]: row[6] for row in sheet.rows} == kept
    asked = [" ".join(name for name, _ in block.fields) for block in blocks if isinstance(block, Blanks)]
    for part in ("date", "temperature", "wind", "class, number", "calibrator", "microphones", "background"):
        assert all(part in text for text in asked)
    checks = [text for block in blocks if isinstance(block, Checks) for text in block.texts]
    assert checks.count("The loudspeaker stands on the right.") == 2
    assert "State: Open: side door; fans of fresh air, extract run." in checks
    # ISO 16283-1: 10 lg (10^(L_sb/10) - 10^(L_b/10)); 1.3 dB at 6 dB and nothing from 10 dB up
    assert "lies lower by 6 dB: 1.3 dB, 7 dB: 1.0 dB" in " ".join(b.text for b in blocks if isinstance(b, Say))


def test_what_comes_in_from_outside_is_promised_without_fans_and_never_more_with_a_door_open() -> None:
    evaluation = evaluation_of(DEMO)
    row = THIRD_OCTAVE_BANDS.index(1000.0)
    for one in evaluation.backgrounds:
        own = [each.levels[row] for each in one.paths if each.kind not in ("fan", "flow", "gear")]
        summed = 10.0 * math.log10(sum(10.0 ** (level / 10.0) for level in own))
        assert one.from_outside[row] == pytest.approx(summed, abs=0.2)
        assert all(alone <= whole + 1e-9 for alone, whole in zip(one.from_outside, one.levels, strict=True))
    blocks = one_by_one(PAPERS["promise"](case_of(DEMO)).blocks)
    tables = [block for block in blocks if isinstance(block, Table) and block.columns[:1] == ("Hz",)]
    shut, opened = ([row[at + 5] for row in each.rows for at in (0, 6)] for each in tables[:2])
    kept = [[0 if text in ("", "not promised") else int(text.split()[0]) for text in each] for each in (shut, opened)]
    assert all(more >= less for more, less in zip(*kept, strict=True))
    assert max(kept[0]) > 50


def test_jobs_of_the_demo_come_in_an_order_that_their_hold_points_allow() -> None:
    jobs = evaluation_of(DEMO).cost.jobs
    order = [job.name for job in jobs]
    before = [job.name for job in jobs].index(next(job.name for job in jobs if job.hold_point == "before lining"))
    assert before < order.index("boards")
    for name in ("door and window", "glands", "air ways and boxes", "wire", "signal lines"):
        assert order.index(name) < order.index("boards")
    assert order.index("set the floor on its mounts") < order.index("battens")


def test_every_hold_point_has_a_sheet_with_lines_to_sign() -> None:
    text = words_of(DEMO, "hold-points")
    names = {each.name for each in HOLD_POINTS}
    assert names == {"arrival scale", "skin damping", "floor push and bridge test", "shell leak", "airflow", "wiring",
                     "before lining", "finished"}  # fmt: skip
    assert all(bare(f"Hold point: {name}") in text for name in names)
    assert text.count(bare("released by: place, date, signature")) == len(names)
    known = {job.hold_point for job in evaluation_of(DEMO).cost.jobs if job.hold_point}
    assert known <= names


def test_the_floor_push_has_the_numbers_of_the_day_it_is_tested() -> None:
    evaluation = evaluation_of(DEMO)
    alone, empty = on_the_first_day(evaluation.build, Air(evaluation.build.brief.air_temperature))
    drive = next(one for one in evaluation.mounts if one.state == "drive")
    assert alone.mass < 0.5 * empty.mass
    assert empty.mass == pytest.approx(drive.mass)  # nobody sits in the room on the road
    assert all(first.deflection < later.deflection for first, later in zip(empty.loads, drive.loads, strict=True))
    text = words_of(DEMO, "hold-points")
    for part in ("floor alone, a minute after it is set down", "with its people, after 1 year", "with air"):
        assert bare(part) in text
    assert bare("after 1 year of creep") in words_of(DEMO, "handover")


def test_a_run_that_stands_still_has_no_row_to_measure() -> None:
    point = next(each for each in HOLD_POINTS if each.name == "airflow")
    table = point.tables(case_of(DEMO))[0]
    assert isinstance(table, Table)
    assert "drive" not in {row[0] for row in table.rows}
    assert all(not row[3].startswith("0 ") for row in table.rows)


def test_the_client_reads_that_low_hum_does_not_count_and_the_builder_which_octaves_do() -> None:
    text = " ".join(paper_text(PAPERS["client"](case_of(DEMO))).split())
    assert "does not count low hum, which may be heard. With it, 45 dB(A)" in text
    assert re.findall(r"octave|±|\b2u\b|\d Hz octave|margin", text) == []
    assert "UNPROVEN: it may come out either way, and how likely it is kept stands beside it" in text
    assert "octaves from 250 Hz up" in " ".join(paper_text(PAPERS["hold-points"](case_of(DEMO))).split())


def test_the_handover_book_says_what_it_was_prepared_from() -> None:
    assert bare("Prepared from the file of 2026-05-04") in words_of(DEMO, "handover")


def test_the_handover_book_has_its_parts() -> None:
    text = words_of(DEMO, "handover")
    for part in ("Operating card", "Fuse chart", "Keys", "Spares", "Torques", "Inspections", "Mounts, creep",
                 "As built", "Behind the linings", "Warranty", "Defect log", "On the road", "at most 3500 kg",
                 "When the fans stop", "everybody is out before"):  # fmt: skip
        assert bare(part) in text


def test_money_on_paper_is_that_of_the_cost_command() -> None:
    quote = evaluation_of(DEMO).cost.quote
    assert quote is not None
    for name in ("quote", "dossier"):
        assert bare(f"{quote.gross:,}".replace(",", " ")) in words_of(DEMO, name)
    cards = [block for block in one_by_one(PAPERS["jobs"](case_of(DEMO)).blocks) if isinstance(block, Heading)]
    names = [card.text.split(". ")[1].lower() for card in cards]
    assert names == [job.name.lower() for job in evaluation_of(DEMO).cost.jobs]


def test_short_job_cards_share_a_page_and_none_is_parted() -> None:
    pages = [page.extract_text() for page in read(DEMO, "jobs").pages]
    cards = [len(re.findall(r"^\d+\. [A-Z]", text, re.MULTILINE)) for text in pages]
    ends = [text.count("what went otherwise") for text in pages]
    assert cards == ends
    assert sum(cards) == len(evaluation_of(DEMO).cost.jobs)
    assert len(pages) <= 0.5 * sum(cards)


def test_a_job_card_names_its_drawings_and_where_the_anchors_sit() -> None:
    blocks = list(one_by_one(PAPERS["jobs"](case_of(DEMO)).blocks))
    told: dict[str, list[str]] = {}
    for block in blocks:
        if isinstance(block, Heading):
            told[block.text.split(". ")[1]] = drawings = []
        elif isinstance(block, Say) and block.text.startswith("Drawings: "):
            drawings += block.text.removeprefix("Drawings: ").rstrip(".").split(", ")
    assert told["Cut and reinforce"] == ["cuts", "templates"]
    assert told["Battens"] == ["sections", "battens and bearers"]
    assert "doors and windows" in told["Door and window"]
    assert told["Air ways and boxes"][-1] == "duct runs"
    table = next(block for block in blocks if isinstance(block, Table) and block.columns[0].startswith("anchor of"))
    assert len(table.rows) == len(evaluation_of(DEMO).build.anchoring.room)
    assert table.rows[1][1:6] == ("1850 mm", "620 mm right", "60 mm", "structure", "30 kN")


@pytest.mark.parametrize("name", ["client", "quote", "purchase", "jobs", "hold-points", "venue", "handover"])
def test_papers_for_the_us_hold_no_metric_numbers(name: str) -> None:
    text = paper_text(PAPERS[name](case_of(DEMO, "us")))
    found = re.findall(r"[0-9] (?:mm|kg|m²|m|kg/m²|°C|l/s|Pa)\b(?!²)", text)
    assert found == []


HOSTILE = '#strong[x] $a^2$ *b* _c_ <l> @ref \\ // `raw` "quoted" // [z]'
OTHER_SCRIPTS = "שלום עולם, Привет, Ωμέγα, 😀 " + "W" * 120


def test_names_and_notes_with_markup_and_other_scripts_print_as_text() -> None:
    title = HOSTILE.replace("\\", "\\\\").replace('"', '\\"')
    note = OTHER_SCRIPTS
    text = edited(BUILD, ("hushwright: 1\n", f'hushwright: 1\ntitle: "{title}"\nnote: "{note}"\n'),
                  ("    - {operation: clean, time", f"    - {{operation: \"{title}\", time"))  # fmt: skip
    for name in ("dossier", "client", "quote", "jobs", "handover"):
        printed = words_of(text, name)
        assert bare(HOSTILE) in printed, name
        assert "W" * 120 in printed, name
    assert bare("Привет, Ωμέγα") in words_of(text, "quote")


def test_a_bare_build_has_every_paper_all_the_same() -> None:
    for name in ("promise", "hold-points", "handover", "venue"):
        assert words_of(plain_build(), name)


def test_a_change_order_tells_fields_price_mass_and_every_verdict() -> None:
    other = edited(BUILD, ("{of: heavy sheet, price: 80", "{of: heavy sheet, price: 100"),
                   ("  crew_on_the_road: 2\n", "  crew_on_the_road: 3\n"), ("thickness: 1}", "thickness: 2}"),
                   ("size: 1 mm, ", ""))  # fmt: skip
    old, new = case_of(BUILD), case_of(other)
    paper = change_order(old, new)
    text = paper_text(paper)
    for part in ("prices.items.heavy sheet.price", "80", "100", "brief.crew_on_the_road", "light sheet", "with tax"):
        assert part in text
    assert old.evaluation.cost.quote is not None
    assert new.evaluation.cost.quote is not None
    difference = new.evaluation.cost.quote.gross - old.evaluation.cost.quote.gross
    assert f"+{difference:,}".replace(",", "\u00a0") in text
    table = next(block for block in paper.blocks if isinstance(block, Table) and block.columns[1:2] == ("verdict",))
    named = {row[1] for row in table.rows}
    assert named <= {one.id for one in (*old.verdicts, *new.verdicts)}
    unchanged = next(block.text for block in paper.blocks if isinstance(block, Say) and block.text[:9] == "Unchanged")
    told = [int(count) for count in re.findall(r"[A-Z][a-z]+ ([0-9]+)", unchanged)]
    assert sum(told) == int(unchanged.split()[1]) == len({one.id for one in new.verdicts} - named)
    assert paper_pdf(paper, new.evaluation.build, "metric") == paper_pdf(paper, new.evaluation.build, "metric")
    same = " ".join(paper_text(change_order(old, old)).split())
    for part in ("Every verdict stays.", "Values of the file that change: 0", "0 get worse, 0 better, 0 are new"):
        assert part in same
    heads = [block.text for block in paper.blocks if isinstance(block, Heading)]
    assert heads.index("Price") < heads.index("Verdicts") < heads.index("What changes in the file")
    ways = [row[4] for row in table.rows]
    assert ways == sorted(ways, key=lambda way: {"worse": 0, "new": 1, "better": 1}.get(way, 2))


def test_what_fails_stands_under_its_own_heading_for_the_client() -> None:
    case = case_of(DEMO)
    unsure = next(one for one in case.verdicts if one.verdict == "unproven" and one.value is not None)
    failed = tuple(replace(one, verdict="fails") if one is unsure else one for one in case.verdicts)
    heading = ""
    outcomes: dict[str, set[str]] = {}
    for block in PAPERS["client"](replace(case, verdicts=failed)).blocks:
        if isinstance(block, Heading):
            heading = block.text
        elif isinstance(block, Table) and block.mark == 0:
            outcomes.setdefault(heading, set()).update(row[0] for row in block.rows)
    assert outcomes["What does not hold yet"] == {"FAILS"}
    assert outcomes["What is not sure yet"] == {"UNPROVEN"}
