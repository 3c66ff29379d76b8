"""``hushwright cost`` as a workshop uses it: text, JSON, CSV, a workbook that two other programs open."""

import csv
import io
import json
import re
import subprocess
from collections.abc import Callable
from dataclasses import dataclass
from decimal import Decimal
from pathlib import Path

import openpyxl
import pytest
from tests.coupled import edited
from tests.needs import office
from tests.reference.test_hand_cost import BUILD

from hushwright.cli.main import run as call

Run = Callable[..., "Result"]


@dataclass(frozen=True)
class Result:
    """Exit code and what was printed."""

    code: int
    out: str
    err: str


@pytest.fixture
def run(capsys: pytest.CaptureFixture[str]) -> Run:
    """Call the command line in this process."""

    def called(*arguments: str) -> Result:
        code = call(list(arguments))
        printed = capsys.readouterr()
        return Result(code, printed.out, printed.err)

    return called


EVIL = '=HYPERLINK(\\"http://x\\")'
HOSTILE = edited(
    BUILD,
    ("    - {of: heavy", f"    - {{of: \"{EVIL}\", price: 5, supplier: \"+49 dealer\", note: \"@note\"}}\n"
     "    - {of: heavy"),
    ("states:\n", f"fittings: [{{name: \"{EVIL}\", mass: 1 kg, station: 1 m}}]\nstates:\n"),
    ("    - {operation: clean", "    - {operation: \"-1+1 fit\", to: [fitting], time: 1 h}\n    - {operation: clean"),
)  # fmt: skip


@pytest.fixture(scope="module")
def file(tmp_path_factory: pytest.TempPathFactory) -> Path:
    path = tmp_path_factory.mktemp("cost") / "build.yaml"
    path.write_text(HOSTILE, encoding="utf-8")
    return path


def test_text_tells_sums_purchase_jobs_and_never_is_too_wide(run: Run, file: Path) -> None:
    result: Result = run("cost", str(file))
    assert result.code == 0
    for word in ("without tax", "tax 20 %", "with tax", "Purchase list", "Jobs", "Covered by others"):
        assert word in result.out
    assert max(map(len, result.out.splitlines())) <= 100


def test_purchase_list_and_material_add_up_by_hand(run: Run, file: Path) -> None:
    """What is printed of the purchase list, the markup, the jobs and what is not foreseen makes the printed sum."""
    text = run("cost", str(file)).out.replace("\u00a0", "")

    def printed(start: str, part: str) -> Decimal:
        line = next(each for each in part.splitlines() if each.strip().startswith(start))
        return Decimal(line.split()[-1])

    head, _, rest = text.partition("Purchase list\n")
    bought, _, jobs = rest.partition("\nJobs\n")
    rows = head.partition(" total\n")[2].partition("\n\n")[0].splitlines()
    lines = [Decimal(each.split()[-1]) for each in bought.splitlines() if "." in each.split(" ")[-1]]
    assert sum(lines[:-1]) == lines[-1] == printed("purchase list", head)
    material = sum(Decimal(each.split()[-3]) for each in rows if "not foreseen" not in each)
    assert printed("material", head) == printed("purchase list", head) + printed("markup", head) == material
    assert printed("labour", head) == Decimal(re.findall(r"total +[0-9.]+ +([0-9.]+)", jobs)[0])
    sum_of_both = material + printed("labour", head)
    assert printed("not foreseen, 5 % of both", head) == pytest.approx(
        Decimal("0.05") * sum_of_both, abs=Decimal("0.01")
    )
    assert printed("without tax", head) == sum_of_both + printed("not foreseen, 5 %", head)


def test_json_money_adds_up(run: Run, file: Path) -> None:
    node = json.loads(run("cost", str(file), "--json").out)["cost"]
    net = sum((Decimal(line["material"]) + Decimal(line["labour"]) for line in node["lines"]), Decimal(0))
    assert Decimal(node["without_tax"]) == net
    assert Decimal(node["with_tax"]) == net + sum((Decimal(each["tax"]) for each in node["taxes"]), Decimal(0))
    assert Decimal(node["hours"]) == sum((Decimal(job["hours"]) for job in node["jobs"]), Decimal(0))


@pytest.mark.parametrize("units", ["metric", "us"])
def test_no_cell_of_the_table_runs_as_a_formula(run: Run, file: Path, units: str) -> None:
    rows = list(csv.reader(io.StringIO(run("cost", str(file), "--csv", "--units", units).out)))
    assert len({len(row) for row in rows}) == 1
    assert any("HYPERLINK" in cell for row in rows for cell in row)
    assert not [cell for row in rows for cell in row if cell.startswith(("=", "+", "-", "@", "\t", "\r"))]


def test_the_workbook_holds_no_formula_and_is_the_same_every_time(run: Run, file: Path, tmp_path: Path) -> None:
    paths = [tmp_path / "one.xlsx", tmp_path / "two.xlsx"]
    for path in paths:
        assert run("cost", str(file), "--xlsx", str(path)).code == 0
    assert paths[0].read_bytes() == paths[1].read_bytes()
    book = openpyxl.load_workbook(paths[0])
    assert {"Quote", "Purchase list", "Jobs", "Quantities"} <= set(book.sheetnames)
    cells = [cell for sheet in book for row in sheet.iter_rows() for cell in row]
    assert not [cell for cell in cells if cell.data_type == "f"]
    quote = {row[0].value: row[3].value for row in book["Quote"].iter_rows(min_row=2)}
    node = json.loads(run("cost", str(file), "--json").out)["cost"]
    assert f"{quote['with tax']:.2f}" == node["with_tax"]


def test_the_workbook_opens_in_an_office_program(run: Run, file: Path, tmp_path: Path) -> None:
    program = office()
    path = tmp_path / "cost.xlsx"
    run("cost", str(file), "--xlsx", str(path))
    profile = f"-env:UserInstallation={(tmp_path / 'profile').as_uri()}"
    call = [program, "--headless", profile, "--convert-to", "csv", "--outdir", str(tmp_path), str(path)]
    subprocess.run(call, check=True, capture_output=True, timeout=120)
    text = (tmp_path / "cost.csv").read_text(encoding="utf-8")
    node = json.loads(run("cost", str(file), "--json").out)["cost"]
    assert node["with_tax"] in text.replace(",", "").replace('"', "")


def test_a_build_without_prices_is_told_what_to_do(run: Run, tmp_path: Path) -> None:
    from tests.plain_builds import plain_build

    path = tmp_path / "bare.yaml"
    path.write_text(plain_build(), encoding="utf-8")
    result = run("cost", str(path))
    assert result.code == 1
    assert "prices: {currency: EUR}" in " ".join(result.out.split())


def test_a_place_that_cannot_be_written_is_refused(run: Run, file: Path, tmp_path: Path) -> None:
    result = run("cost", str(file), "--xlsx", str(tmp_path / "nowhere" / "x.xlsx"))
    assert result.code == 2
    assert "cannot be written" in result.err
