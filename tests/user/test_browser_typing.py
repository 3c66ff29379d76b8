"""Who types on before the answer to the last value has come gets what was typed, to the last digit."""

from pathlib import Path

from tests.user.browser import needs_browser, opened_browser, running_app
from tests.user.test_browser_app import BUILD, file_in, part, until

TALLEST = ("1611", "1755")
FIELD = '[data-field="brief.tallest"] input'


def test_a_value_typed_while_answers_come_is_the_value_of_the_file(tmp_path: Path) -> None:
    needs_browser()
    written = file_in(tmp_path, "typing.yaml", BUILD)
    with running_app(tmp_path) as address, opened_browser() as browser:
        page = browser.new_page(viewport={"width": 1440, "height": 900})
        page.goto(f"{address}/build/typing.yaml")
        part(page, "Brief")
        page.locator(FIELD).focus()
        for each in TALLEST:
            page.keyboard.press("Control+a")
            page.keyboard.type(each, delay=150)  # so that the answer to the one before comes in its midst
            page.keyboard.press("Enter")
        until(page, written, "tallest: 1755")
        page.wait_for_timeout(600)
        assert "tallest: 1755" in written.read_text(encoding="utf-8")
        assert page.locator(FIELD).input_value() == "1755"
        assert page.locator(".hw-form .hw-problem.error").all_inner_texts() == []
