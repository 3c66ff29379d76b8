"""The page of a build by keyboard alone: each stop is seen and has a name, none is a trap, keys do what hands do."""

import re
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest
from tests.user.browser import needs_browser, opened_browser, running_app
from tests.user.test_browser_app import BUILD, file_in, until

LISTEN = """() => {
  const text = (all) => [...(all || [])].map((each) => each?.innerText || "").join(" ").trim();
  const by = (one) => (one.getAttribute("aria-labelledby") || "").split(" ").map((id) => document.getElementById(id));
  const name = (one) => (one.getAttribute("aria-label") || text(one.labels) || text(by(one))
    || (one.matches("input, select, textarea") ? "" : one.textContent) || one.title || "").trim();
  const seen = (one) => {
    const box = one.getBoundingClientRect(), style = getComputedStyle(one);
    const across = box.width && box.right > 0 && box.left < innerWidth;
    if (!across || !box.height || box.bottom <= 0 || box.top >= innerHeight) return "is out of sight";
    const reach = one.querySelector && one.matches(".hw-handle") && getComputedStyle(one.querySelector(".hw-reach"));
    if (reach) return reach.stroke !== "none" && parseFloat(reach.strokeWidth) > 0 ? "" : "has no mark of focus";
    return style.outlineStyle !== "none" && parseFloat(style.outlineWidth) >= 2 ? "" : "has no mark of focus";
  };
  window.stops = new Set();
  window.stop = () => {
    const one = document.activeElement;
    if (!one || one === document.body || one === document.documentElement) return ["end", "", ""];
    const again = window.stops.has(one);
    window.stops.add(one);
    return [again ? "again" : "new", one.outerHTML.slice(0, 160),
      [name(one) ? "" : "has no name", seen(one)].filter(Boolean).join(" and ")];
  };
  window.missed = () => [...document.querySelectorAll("a[href], button, input, select, textarea, [tabindex='0']")]
    .filter((one) => !one.disabled && one.checkVisibility({ checkVisibilityCSS: true }) && !window.stops.has(one)
      && !(one.type === "radio") && getComputedStyle(one).display !== "none" && one.getBoundingClientRect().width > 1)
    .map((one) => one.outerHTML.slice(0, 160));
}"""

TO_THE_TOP = """() => {
  const top = document.createElement("span");
  top.tabIndex = -1;
  document.body.prepend(top);
  top.focus();
}"""


@pytest.fixture(scope="module")
def folder(tmp_path_factory: pytest.TempPathFactory) -> Path:
    return tmp_path_factory.mktemp("keys")


@pytest.fixture(scope="module")
def page(folder: Path) -> Iterator[Any]:
    needs_browser()
    with running_app(folder) as address, opened_browser() as browser:
        found = browser.new_page(viewport={"width": 1440, "height": 900})
        file_in(folder, "keys.yaml", BUILD)
        found.goto(f"{address}/build/keys.yaml")
        found.wait_for_selector(".hw-form nav button")
        found.wait_for_selector('[data-group="Quiet"]')
        found.wait_for_selector(".hw-handle")
        found.wait_for_function("!document.querySelector('.hw-busy .hw-spin')")
        yield found


def walk(page: Any, most: int = 600) -> list[str]:
    """Every stop from the top of the page to its end; what is wrong with any."""
    page.evaluate(LISTEN)
    page.evaluate(TO_THE_TOP)
    wrong = []
    for _ in range(most):
        page.keyboard.press("Tab")
        kind, shown, problem = page.evaluate("window.stop()")
        if kind in ("end", "again"):  # out of the page, or round to its first stop
            break
        if problem:
            wrong.append(f"{shown} {problem}")
    return wrong + [f"{one} is not reached" for one in page.evaluate("window.missed()")]


@pytest.mark.parametrize("view", ["Plan", "Walls", "Verdicts"])
def test_every_stop_is_seen_has_a_name_and_lets_go(page: Any, view: str) -> None:
    page.get_by_role("tab", name=view).click()
    page.wait_for_selector(f'[role="tab"][aria-selected="true"]:has-text("{view}")')
    page.wait_for_selector({"Plan": ".hw-handle", "Walls": ".hw-layers", "Verdicts": ".hw-verdict"}[view])
    assert walk(page) == []


def test_keys_do_what_a_pointer_does_on_each_kind_of_stop(page: Any, folder: Path) -> None:
    path = folder / "keys.yaml"
    page.get_by_role("tab", name="Plan").focus()
    page.keyboard.press("Enter")
    page.wait_for_selector(".hw-handle")
    wall = page.locator('[data-handle="wall control_room quiet_room"]')
    wall.focus()
    page.keyboard.press("ArrowRight")
    until(page, path, "rear: 2435}")
    page.keyboard.press("Control+z")
    until(page, path, "rear: 2430}")
    wall.focus()
    page.keyboard.press("Enter")
    page.wait_for_selector('.hw-wide button[aria-current="true"]:has-text("Surfaces"), '
                           '.hw-wide button[aria-current="true"]:has-text("Rooms")')  # fmt: skip
    shown = page.locator(".hw-legend input[type=checkbox]").first
    before = shown.is_checked()
    shown.focus()
    page.keyboard.press("Space")
    assert shown.is_checked() != before
    part = page.locator(".hw-wide button", has_text=re.compile("^Brief"))
    part.focus()
    page.keyboard.press("Space")
    field = page.locator('[data-field="brief.tallest"] input')
    field.wait_for()
    field.focus()
    page.keyboard.press("Control+a")
    page.keyboard.type("1750")
    page.keyboard.press("Enter")
    until(page, path, "tallest: 1750")
    page.locator('[data-group="Space"]').focus()
    page.keyboard.press("Enter")
    turn = page.locator(".hw-verdict .hw-turn").first
    turn.wait_for()
    was = turn.get_attribute("aria-expanded")
    turn.focus()
    page.keyboard.press("Space")
    opened = "(was) => document.querySelector('.hw-verdict .hw-turn').getAttribute('aria-expanded') !== was"
    page.wait_for_function(opened, arg=was)
    choice = page.locator(".hw-entries select:visible, .hw-since select:visible").first
    old = choice.input_value()
    choice.focus()
    page.keyboard.press("ArrowDown")
    assert choice.input_value() != old
