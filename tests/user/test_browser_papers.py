"""Papers in the app: every page is seen before it is printed, and taken along as a file."""

import io
import urllib.error
import urllib.request
from pathlib import Path
from typing import Any

import openpyxl
import pytest
from pypdf import PdfReader
from tests.coupled import edited
from tests.reference.test_hand_cost import BUILD
from tests.user.browser import opened_browser, running_app


def test_papers_are_previewed_page_by_page_and_taken_along(tmp_path: Path) -> None:
    text = edited(BUILD, ("hushwright: 1\n", 'hushwright: 1\ntitle: "Plain <b>van</b>"\n'))
    (tmp_path / "plain.yaml").write_text(text, encoding="utf-8")
    with running_app(tmp_path) as address, opened_browser() as browser:
        page = browser.new_page()
        page.goto(f"{address}/build/plain.yaml")
        page.get_by_role("tab", name="Papers").click()
        page.get_by_role("region", name="View").get_by_role("button", name="Quote").click()
        picture = page.get_by_alt_text("Quote, page 1 of 1")
        picture.wait_for()
        assert picture.evaluate("one => one.decode().then(() => one.naturalWidth)") > 300
        _taken(page, address)


def _taken(page: Any, address: str) -> None:
    """What the links give opens in programs of its kind."""
    found = {}
    for link in page.get_by_role("link").all():
        target = str(link.get_attribute("href"))
        if target.startswith("/paper/"):
            with urllib.request.urlopen(address + target) as answer:
                found[target.rpartition("/")[2].partition("?")[0]] = answer.read()
    assert set(found) == {"quote.pdf", "drawings.pdf", "cost.xlsx"}
    assert "Plain <b>van</b>" in PdfReader(io.BytesIO(found["quote.pdf"])).pages[0].extract_text()
    assert openpyxl.load_workbook(io.BytesIO(found["cost.xlsx"])).sheetnames[0] == "Quote"
    for unknown in (
        "/paper/plain.yaml/secret.pdf",
        "/paper/plain.yaml/quote.png?page=99",
        "/paper/none.yaml/quote.pdf",
    ):
        with pytest.raises(urllib.error.HTTPError):
            urllib.request.urlopen(address + unknown)
