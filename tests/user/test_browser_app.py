"""The app in a real browser: what a person does at the screen ends in the file, and nothing leaves the machine."""

import re
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest
from tests.plain_builds import plain_build, two_rooms
from tests.user.browser import needs_browser, opened_browser, running_app

SCRIPT = "<img src=x onerror=window.hurt=1><script>window.hurt=1</script>"
OUTDOORS = (
    "  outdoors:\n    - {situation: quay, octaves: {hz_125: 60 dB, hz_500: 55 dB, hz_2000: 45 dB}, "
    "comes_from: all round, limit: 35 dB(A)}\n"
)
BUILD = two_rooms(
    brief=OUTDOORS,
    rest="fittings:\n  - {name: desk, mass: 40 kg, station: 1000, height: 700}   # of oak\n",
).replace("lengths: mm\n", "lengths: mm\ntitle: A small van\n")


@pytest.fixture(scope="module")
def folder(tmp_path_factory: pytest.TempPathFactory) -> Path:
    return tmp_path_factory.mktemp("workshop")


@pytest.fixture(scope="module")
def address(folder: Path) -> Iterator[str]:
    needs_browser()
    with running_app(folder) as found:
        yield found


@pytest.fixture(scope="module")
def browser() -> Iterator[Any]:
    with opened_browser() as found:
        yield found


class Window:
    """One page."""

    def __init__(self, page: Any) -> None:
        self.page = page

    def open(self, address: str, name: str) -> Any:
        self.page.goto(f"{address}/build/{name}")
        self.page.wait_for_selector(".hw-form nav button")
        return self.page


@pytest.fixture
def window(browser: Any) -> Iterator[Window]:
    context = browser.new_context(viewport={"width": 1440, "height": 900})
    found = Window(context.new_page())
    yield found
    context.close()


def file_in(folder: Path, name: str, text: str = BUILD) -> Path:
    path = folder / name
    path.write_text(text, encoding="utf-8")
    return path


def until(page: Any, path: Path, wanted: str) -> str:
    """Wait until the file holds a text."""
    for _ in range(100):
        text = path.read_text(encoding="utf-8")
        if wanted in text:
            return text
        page.wait_for_timeout(50)
    raise AssertionError(f"{wanted!r} did not come into the file:\n{text}")


def part(page: Any, label: str) -> None:
    page.locator(".hw-wide button", has_text=re.compile(f"^{label}")).click()


def test_a_value_changed_undone_and_done_again_is_in_the_file_each_time(
    window: Window, address: str, folder: Path
) -> None:
    path = file_in(folder, "one.yaml")
    page = window.open(address, "one.yaml")
    page.wait_for_selector('[data-group="Quiet"]')
    first = page.locator('[data-group="Space"]').inner_text()
    field = page.locator('[data-field="brief.tallest"] input')
    field.fill("1950 mm")
    field.press("Enter")
    assert until(page, path, "tallest: 1950 mm") == BUILD.replace("tallest: 1700", "tallest: 1950 mm")
    page.wait_for_selector('[data-group="Space"] .hw-tile-before')
    assert page.locator('[data-group="Space"]').inner_text() != first
    page.get_by_role("button", name="Undo").click()
    until(page, path, "tallest: 1700")
    assert path.read_text(encoding="utf-8") == BUILD
    page.get_by_role("button", name="Redo").click()
    until(page, path, "tallest: 1950 mm")
    page.reload()
    page.wait_for_selector('[data-field="brief.tallest"] input')
    assert page.locator('[data-field="brief.tallest"] input').input_value() == "1950 mm"


def test_a_mistake_keeps_the_last_picture_and_offers_its_cure_first(window: Window, address: str, folder: Path) -> None:
    path = file_in(folder, "mistake.yaml")
    page = window.open(address, "mistake.yaml")
    page.wait_for_selector(".hw-under svg")
    side = page.locator(".hw-side")
    assert side.evaluate("pane => { pane.scrollTop = 300; return pane.scrollTop; }") > 0
    part(page, "Rooms")
    field = page.locator('[data-field="rooms.quiet_room.rear"] input')
    field.wait_for()
    assert side.evaluate("pane => pane.scrollTop") == 0  # another part begins at its head
    field.fill("2400")
    field.press("Enter")
    page.get_by_text("This cannot be drawn. Rooms, quiet room, rear:").wait_for()
    assert page.locator(".hw-faded .hw-under svg").count() == 1
    first = page.locator(".hw-stuck button").first
    assert first.inner_text().startswith("Keep the earlier value")
    first.click()
    until(page, path, "rear: 4860")
    page.wait_for_selector(".hw-stuck", state="detached")


def test_a_value_that_cannot_be_read_is_told_at_its_field_and_leaves_the_file(
    window: Window, address: str, folder: Path
) -> None:
    path = file_in(folder, "two.yaml")
    page = window.open(address, "two.yaml")
    field = page.locator('[data-field="brief.tallest"] input')
    field.fill("50 parsec")
    field.press("Enter")
    told = page.locator('[data-field="brief.tallest"] [role="alert"]')
    told.wait_for()
    assert "Not taken" in told.inner_text()
    assert path.read_text(encoding="utf-8") == BUILD


def test_the_dividing_wall_is_dragged_with_the_mouse_and_moved_with_keys(
    window: Window, address: str, folder: Path
) -> None:
    path = file_in(folder, "wall.yaml")
    page = window.open(address, "wall.yaml")
    wall = page.locator('[data-handle="wall control_room quiet_room"]')
    box = wall.bounding_box()
    assert min(box["width"], box["height"]) >= 24.0  # WCAG 2.2, success criterion 2.5.8
    x, y = box["x"] + box["width"] / 2, box["y"] + box["height"] / 2
    page.mouse.move(x, y)
    page.mouse.down()
    page.mouse.move(x + 40, y + 3, steps=4)
    page.mouse.up()
    for _ in range(100):
        found = re.search(
            r"rear: (\d+)}\n  quiet_room: {purpose: quiet, front: (\d+),", path.read_text(encoding="utf-8")
        )
        assert found
        if found[1] != "2430":
            break
        page.wait_for_timeout(50)
    moved = int(found[1]) - 2430
    assert moved > 50
    assert int(found[2]) - 2460 == moved
    wall.focus()
    page.keyboard.press("ArrowLeft")
    until(page, path, f"rear: {2430 + moved - 5}}}")
    page.get_by_role("button", name="Undo").click()
    page.get_by_role("button", name="Undo").click()
    until(page, path, "rear: 2430}")
    assert path.read_text(encoding="utf-8") == BUILD


def test_a_layer_is_dragged_on_the_section_and_a_compared_build_up_is_used(
    window: Window, address: str, folder: Path
) -> None:
    text = plain_build(
        left="        - {sheet: birch plywood, thickness: 9}   # of the yard\n        - {cavity: 60}\n"
        "        - {sheet: birch plywood, thickness: 12}\n",
        brief=OUTDOORS,
    )
    path = file_in(folder, "walls.yaml", text)
    page = window.open(address, "walls.yaml")
    page.wait_for_selector('[data-group="Quiet"]')
    before = page.locator('[data-group="Quiet"]').inner_text()
    page.get_by_role("tab", name="Walls").click()
    page.wait_for_selector(".hw-layers [data-layer-row]")
    thickness = page.locator(".hw-layers [data-layer-row] input").first
    first = float(thickness.input_value())
    handle = page.locator('[data-handle^="layer "]').first
    box = handle.locator("circle").first.bounding_box()
    page.mouse.move(box["x"] + box["width"] / 2, box["y"] + box["height"] / 2)
    page.mouse.down()
    page.mouse.move(box["x"] + box["width"] / 2 - 30, box["y"] + box["height"] / 2, steps=4)
    page.mouse.up()
    changed = "(first) => +document.querySelector('.hw-layers li input').value !== first"
    page.wait_for_function(changed, arg=first)
    now = float(thickness.input_value())
    assert now < first
    assert (now - first) % 0.5 == 0.0
    page.wait_for_function("(old) => document.querySelector('[data-group=Quiet]').innerText !== old", arg=before)
    assert f"thickness: {now:g}}}" in path.read_text(encoding="utf-8")
    page.get_by_role("button", name="Undo").click()
    until(page, path, text)
    page.get_by_role("button", name="Compare build-ups").click()
    page.wait_for_selector("[data-row] .hw-plain")
    page.locator("[data-row] .hw-plain").first.click()
    page.wait_for_selector("[data-row] .hw-plain", state="detached")
    assert path.read_text(encoding="utf-8") != text
    page.get_by_role("button", name="Undo").click()
    until(page, path, text)
    assert path.read_text(encoding="utf-8") == text


def test_steps_found_before_a_search_is_cancelled_are_kept_and_can_be_taken(
    window: Window, address: str, folder: Path
) -> None:
    text = plain_build(
        left="        - {sheet: birch plywood, thickness: 9}\n        - {cavity: 60}\n"
        "        - {sheet: birch plywood, thickness: 12}\n",
        brief=OUTDOORS.replace("limit: 35", "limit: 20"),
    )
    path = file_in(folder, "steps.yaml", text)
    page = window.open(address, "steps.yaml")
    page.wait_for_selector('[data-group="Quiet"]')
    page.get_by_role("tab", name="Steps to quiet").click()
    page.get_by_role("button", name="Find steps to quiet").click()
    page.wait_for_selector(".hw-steps [data-row]")
    page.get_by_role("button", name="Cancel").click()
    page.wait_for_selector("text=given up; what was found so far can be taken")
    kept = page.locator(".hw-steps [data-row]").count()
    assert kept >= 1
    page.get_by_role("button", name="Take this: 1.").click()
    page.wait_for_selector("text=✓ 1.")
    assert path.read_text(encoding="utf-8") != text
    assert page.locator(".hw-steps [data-row]").count() == kept


def test_script_in_texts_is_shown_as_text(window: Window, address: str, folder: Path) -> None:
    hostile = BUILD.replace("title: A small van", f"title: '{SCRIPT}'").replace("name: desk", f"name: '{SCRIPT}'")
    path = file_in(folder, "script.yaml", hostile)
    page = window.open(address, "script.yaml")
    page.wait_for_selector("[data-handle]")
    part(page, "General")
    field = page.locator('[data-field="note"] input')
    field.fill(SCRIPT)
    field.press("Enter")
    until(page, path, "note:")
    for view in ("Left side", "Section", "Verdicts", "Problems"):
        page.get_by_role("tab", name=view).click()
    part(page, "Fittings")
    page.goto(address)
    page.wait_for_selector('[data-build="script.yaml"]')
    assert SCRIPT in page.locator('[data-build="script.yaml"]').inner_text()
    assert page.evaluate("window.hurt") is None


def test_a_file_changed_by_another_program_is_asked_about_and_neither_is_lost(
    window: Window, address: str, folder: Path
) -> None:
    path = file_in(folder, "both.yaml")
    page = window.open(address, "both.yaml")
    field = page.locator('[data-field="brief.tallest"] input')
    field.fill("1750 mm")
    path.write_text(BUILD.replace("mass: 40 kg", "mass: 45 kg"), encoding="utf-8")
    field.press("Enter")
    page.wait_for_selector(".hw-question")
    text = page.locator(".hw-question").inner_text()
    assert "fittings.0.mass" in text
    assert "45 kg" in text
    assert "45 kg" in path.read_text(encoding="utf-8")
    page.get_by_role("button", name="Keep both").click()
    page.wait_for_selector(".hw-question", state="hidden")
    assert "mass: 45 kg" in path.read_text(encoding="utf-8")
    assert "tallest: 1750 mm" in (folder / "both 2.yaml").read_text(encoding="utf-8")


def test_two_windows_show_the_same_and_do_not_overwrite_each_other(
    window: Window, browser: Any, address: str, folder: Path
) -> None:
    path = file_in(folder, "tabs.yaml")
    page = window.open(address, "tabs.yaml")
    other = page.context.new_page()
    other.goto(f"{address}/build/tabs.yaml")
    there = other.locator('[data-field="brief.tallest"] input')
    there.wait_for()
    there.fill("1600 mm")  # typed, not yet entered
    field = page.locator('[data-field="brief.tallest"] input')
    field.fill("1800 mm")
    field.press("Enter")
    until(page, path, "1800 mm")
    other.wait_for_timeout(200)
    part(other, "Fittings")
    mass = other.locator('[data-field="fittings.0.mass"] input')
    if not mass.count():
        other.locator('[data-part="fittings.0"] .hw-turn').click()
    mass.fill("50 kg")
    mass.press("Enter")
    text = until(page, path, "mass: 50 kg")
    assert "# of oak" in text
    assert "1800 mm" in text or "1600 mm" in text


def test_every_field_of_the_form_has_an_input_with_a_label(window: Window, address: str, folder: Path) -> None:
    file_in(folder, "form.yaml")
    page = window.open(address, "form.yaml")
    for label in ("Brief", "Vehicle", "Surfaces", "States"):
        part(page, label)
        page.wait_for_selector(f'.hw-wide button[aria-current="true"]:has-text("{label}")')
        for _ in range(6):
            if not page.evaluate("""() => { const shut = [...document.querySelectorAll(
              '.hw-entries .hw-turn[aria-expanded="false"], .hw-entries .hw-more[aria-expanded="false"]')];
              shut.forEach((one) => one.click()); return shut.length; }"""):
                break
        bare = page.evaluate("""() => [...document.querySelectorAll('.hw-entries [data-field]')].filter((field) => {
          const input = field.querySelector('.hw-input input, .hw-input select');
          return !input || !field.querySelector(`label[for="${CSS.escape(input.id)}"]`);
        }).map((one) => one.dataset.field)""")
        assert bare == []
        assert page.locator(".hw-entries [data-field]").count() > 3


@pytest.mark.parametrize("scheme", ["light", "dark"])
def test_a_page_fits_a_telephone_and_is_readable(browser: Any, address: str, folder: Path, scheme: str) -> None:
    file_in(folder, "small.yaml")
    context = browser.new_context(viewport={"width": 390, "height": 844}, color_scheme=scheme)
    window = Window(context.new_page())
    page = window.page
    page.goto(f"{address}/build/small.yaml")
    page.wait_for_selector(".hw-narrow select")
    page.wait_for_selector('[data-group="Quiet"]')
    for view in ("Plan", "Left side", "Section", "3-D", "Walls", "Verdicts", "Papers", "Problems", "Text"):
        page.get_by_role("tab", name=view).click()
        page.wait_for_selector(f'[role="tab"][aria-selected="true"]:has-text("{view}")')
        page.wait_for_timeout(250)
        assert page.evaluate("document.documentElement.scrollWidth") <= 390, view
        if view == "3-D":
            page.wait_for_function(FITS)
        assert page.evaluate(CONTRAST) == [], view
    context.close()


def test_the_plan_on_a_telephone_is_panned_and_its_list_stands_below(browser: Any, address: str, folder: Path) -> None:
    file_in(folder, "small.yaml")
    context = browser.new_context(viewport={"width": 390, "height": 844})
    page = context.new_page()
    page.goto(f"{address}/build/small.yaml")
    page.wait_for_selector(".hw-pan .hw-sheet svg")
    page.wait_for_selector(".hw-listed li")
    seen, sheet, named = (page.locator(each).first.bounding_box() for each in (".hw-pan", ".hw-sheet", ".hw-listed"))
    assert seen["x"] + seen["width"] <= 390
    assert sheet["width"] > 1.3 * seen["width"]  # as large as its numbers need, and moved sideways under the finger
    assert named["y"] >= sheet["y"] + sheet["height"]
    assert named["x"] + named["width"] <= 390
    context.close()


FITS = """() => { const scene = document.querySelector('.hw-scene'), canvas = scene && scene.querySelector('canvas');
  return canvas && canvas.clientHeight <= scene.clientHeight && canvas.clientHeight > 0.9 * scene.clientHeight; }"""
CONTRAST = """() => {
  const light = (text) => { const [r, g, b] = text.match(/[\\d.]+/g).map(Number).slice(0, 3)
    .map((one) => { const v = one / 255; return v <= 0.03928 ? v / 12.92 : ((v + 0.055) / 1.055) ** 2.4; });
    return 0.2126 * r + 0.7152 * g + 0.0722 * b; };
  const ground = (node) => { for (let one = node; one; one = one.parentElement) {
    const colour = getComputedStyle(one).backgroundColor; if (!/, 0\\)$|transparent/.test(colour)) return colour; }
    return 'rgb(255, 255, 255)'; };
  const found = new Set();
  for (const node of document.querySelectorAll('.hw-head *, .hw-strip *, .hw-tabs *, .hw-panel *, .hw-form *')) {
    if (!node.innerText || !node.offsetParent || node.children.length) continue;
    if (node.closest('[disabled], svg, option')) continue;
    const [a, b] = [light(getComputedStyle(node).color), light(ground(node))].sort((x, y) => y - x);
    if ((a + 0.05) / (b + 0.05) < 4.5) found.add(node.className + ' ' + node.innerText.slice(0, 20));
  }
  return [...found]; }"""


UNDER_A_WORD = """() => { // middle of a marked word that nothing covers
  for (const range of CSS.highlights.get('hw-term') || []) {
    const box = range.getBoundingClientRect(), at = [box.x + box.width / 2, box.y + box.height / 2];
    const top = document.elementFromPoint(...at);
    if (box.width && top && top.contains(range.startContainer)) return at;
  }
  return null;
}"""


def test_a_new_build_is_begun_copied_and_taken_in_and_nothing_leads_out(
    window: Window, address: str, folder: Path, tmp_path: Path
) -> None:
    page = window.page
    page.goto(address)
    name = page.locator('input[aria-label="Name of a new build"]')
    name.fill("../outside")
    page.get_by_role("button", name="Begin").click()
    page.get_by_text("cannot lead to another folder").wait_for()
    (tmp_path / "huge.yaml").write_bytes(b"a: " + b"x" * 50_000_000)
    (tmp_path / "sent.yaml").write_text(BUILD, encoding="utf-8")
    page.locator("input[type=file]").set_input_files(tmp_path / "huge.yaml")
    page.get_by_text("That is no build file").wait_for()
    page.locator("input[type=file]").set_input_files(tmp_path / "sent.yaml")
    page.wait_for_selector('[data-build="sent.yaml"]')
    page.locator('[data-build="sent.yaml"]').get_by_role("button", name="Duplicate").click()
    page.wait_for_selector('[data-build="sent 2.yaml"]')
    with page.expect_download() as taken:
        page.locator('[data-build="sent.yaml"]').get_by_role("button", name="Download").click()
    assert Path(taken.value.path()).read_text(encoding="utf-8") == BUILD
    name.fill("Choir van")
    page.get_by_role("button", name="Begin").click()
    page.wait_for_selector(".hw-form nav button")
    assert (folder / "Choir van.yaml").is_file()
    assert not (folder.parent / "outside.yaml").exists()
    assert not (folder / "huge.yaml").exists()


def test_a_bomb_and_a_broken_file_are_told_and_the_app_lives_on(window: Window, address: str, folder: Path) -> None:
    bomb = "a0: &a0 [x, x]\n" + "".join(f"a{n}: &a{n} [{', '.join([f'*a{n - 1}'] * 9)}]\n" for n in range(1, 30))
    file_in(folder, "bomb.yaml", bomb)
    file_in(folder, "broken.yaml", "brief: {tallest: 1.8 m\n")
    page = window.page
    for name in ("bomb.yaml", "broken.yaml"):
        page.goto(f"{address}/build/{name}")
        page.get_by_role("tab", name="Problems").click()
        page.get_by_text("▲ Problem").first.wait_for()
    window.open(address, "one.yaml" if (folder / "one.yaml").exists() else file_in(folder, "one.yaml").name)


def test_units_and_look_are_switched_and_a_verdict_opens_to_its_reasons(
    window: Window, address: str, folder: Path
) -> None:
    file_in(folder, "us.yaml")
    page = window.open(address, "us.yaml")
    page.get_by_role("button", name="Units: metric").click()
    page.get_by_role("button", name="Units: US").wait_for()
    page.wait_for_selector('[data-group="Space"]')
    assert re.search(r"\din\b|\d in", page.locator('[data-group="Space"]').inner_text())
    page.locator('[data-group="Space"]').click()
    page.locator(".hw-verdict .hw-turn").first.click()
    page.wait_for_selector(".hw-verdict dl")
    page.get_by_role("button", name="Words", exact=True).click()
    sheet = page.get_by_role("dialog", name="Words on this page")
    assert "on the right side of its limit" in sheet.inner_text()
    sheet.get_by_role("button", name="Close").click()
    page.wait_for_function(UNDER_A_WORD)
    mark = page.evaluate(UNDER_A_WORD)
    page.mouse.move(mark[0] - 2, mark[1])
    page.wait_for_timeout(100)
    page.mouse.move(*mark)
    page.get_by_role("tooltip").wait_for()
    page.get_by_role("button", name="Light or dark").click()
    assert page.evaluate("document.documentElement.dataset.look") == "dark"
    page.locator(".hw-verdict .hw-link").first.click()
    page.wait_for_function("document.activeElement && document.activeElement.closest('[data-field], [data-part]')")


def test_a_first_look_becomes_a_build_in_the_folder(window: Window, address: str, folder: Path) -> None:
    page = window.page
    page.goto(f"{address}/")
    page.get_by_role("button", name="First look").click()
    question = page.locator('[data-question="tallest"]')
    question.locator("input").fill("9")
    people = page.locator('[data-question="quiet_people"] input')
    people.fill("0")  # a van without a quiet room is computed in a moment
    page.get_by_role("button", name="Look", exact=True).click()
    question.get_by_text("1200 mm to 2300 mm").wait_for()
    page.get_by_text("1 answer needs mending").wait_for()
    page.wait_for_function("document.querySelector('[data-question=tallest]').getBoundingClientRect().top > 0")
    question.locator("input").fill("6 ft")
    page.get_by_role("button", name="Look", exact=True).click()
    page.get_by_text("Where to begin").wait_for(timeout=60_000)
    assert page.locator("table.hw-table").first.locator("tr").count() == 10
    headline = page.locator('section[aria-label="What comes out"] h2')
    page.wait_for_timeout(200)
    box = headline.bounding_box()
    assert 0 < box["y"] < 500  # the top of what came out is in sight, not its middle
    question.locator("input").fill("9")
    page.get_by_role("button", name="Look", exact=True).click()
    page.get_by_text("those that stand above now are not computed").wait_for(timeout=60_000)
    named = page.locator('input[aria-label="Name of the build"]')
    assert named.input_value() == "recording long high roof rear drive"
    named.fill("")
    page.get_by_role("button", name="Keep and open").click()
    page.get_by_text("Give the build a name").wait_for()
    named.fill("idea")
    page.get_by_role("button", name="Keep and open").click()
    page.wait_for_url("**/build/idea.yaml")
    page.wait_for_selector(".hw-form nav button")
    text = (folder / "idea.yaml").read_text(encoding="utf-8")
    assert "tallest: 1829" in text
    assert "title: idea\n" in text
