"""Every field that the schema declares, edited in a real browser: that value changes in the file, and nothing else."""

import time
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest
from tests.full_build import HEAD, another, declared, fields_in, full_parts, values_in
from tests.user.browser import opened_browser, running_app

from hushwright.app.changes import values_of
from hushwright.document.outline import Entry, outline
from hushwright.document.parts import set_deep
from hushwright.errors import InvalidInput, UnreadableDocument

ONE_VALUE_ALONE = {"SkinLayer.skin", "BuildFile.hushwright"}
"""Fields that can hold one value only: the skin is the body's, and the file has had one version so far."""

OPEN_ALL = """
() => { // unfolds what is closed or left out; says whether nothing was any more
  const turns = [".hw-turn", ".hw-more"].map((one) => `.hw-form ${one}[aria-expanded="false"]`);
  const closed = document.querySelectorAll(turns.join());
  closed.forEach((one) => one.click());
  return !closed.length;
}
"""
TYPE = """
([id, typed]) => {
  const input = document.getElementById("f-" + id);
  if (!input) return "no input";
  if (input.value === typed) return "has it already";
  input.value = typed;
  if (input.value !== typed) return "does not take it";
  input.dispatchEvent(new Event("change", { bubbles: true }));
  return "";
}
"""


@pytest.fixture(scope="module")
def folder(tmp_path_factory: pytest.TempPathFactory) -> Path:
    return tmp_path_factory.mktemp("fields")


@pytest.fixture(scope="module")
def page(folder: Path) -> Iterator[Any]:
    with running_app(folder) as address, opened_browser() as browser:
        found = browser.new_page(viewport={"width": 1440, "height": 900})
        found.address = address
        yield found


def opened(page: Any, path: Path, part: str) -> None:
    page.goto(f"{page.address}/build/{path.name}")
    page.wait_for_selector(".hw-form nav button")
    turned_to(page, part)


def turned_to(page: Any, part: str) -> None:
    """Another part of the form, with everything unfolded."""
    page.evaluate("(name) => [...document.querySelectorAll('.hw-narrow select')].forEach((one) => {"
                  " one.value = name; one.dispatchEvent(new Event('change')); })", part)  # fmt: skip
    page.wait_for_selector('[data-field="title"]' if part == "general" else f'[data-part="{part}"]')
    while not page.evaluate(OPEN_ALL):
        page.wait_for_timeout(20)


def changed_from(path: Path, before: str) -> str:
    for _ in range(4000):
        text = path.read_text(encoding="utf-8")
        if text != before:
            return text
        time.sleep(0.002)
    raise AssertionError("the file did not change")


UNDONE = 6
"""Steps that are undone after all edits of a part."""


def edit_all(page: Any, path: Path, entries: list[Entry]) -> list[str]:
    """Edit one field after the other; what each changes in the file is looked at before the next. Texts before each."""
    texts = []
    for entry in entries:
        dotted = ".".join(map(str, entry.path))
        now = path.read_text(encoding="utf-8")
        texts.append(now)
        here = outline(now).find(entry.path)
        assert here is not None
        new = another(now, here)
        assert page.evaluate(TYPE, [dotted, new]) == "", dotted
        after = changed_from(path, now)
        was, found = values_of(now), values_of(after)
        assert {key for key in {*was, *found} if was.get(key) != found.get(key)} == {dotted}
        assert found[dotted] == new, dotted
    return texts


UNDO = "[...document.querySelectorAll('button')].find((one) => one.innerText === 'Undo')"


def undo(page: Any, steps: int) -> None:
    """As many steps back, once the page knows that there is one: the file changes before the page hears of it."""
    page.wait_for_function(f"() => !{UNDO}.disabled")
    for _ in range(steps):
        page.evaluate(f"() => {UNDO}.click()")


def until(page: Any, path: Path, wanted: str) -> None:
    for _ in range(1000):
        if path.read_text(encoding="utf-8") == wanted:
            return
        page.wait_for_timeout(10)
    assert path.read_text(encoding="utf-8") == wanted


@pytest.mark.parametrize("part", ["general", *full_parts()])
def test_each_field_of_a_part_is_edited_alone_and_undone_to_the_byte(page: Any, folder: Path, part: str) -> None:
    text = HEAD + "# a remark that stays\n" if part == "general" else full_parts()[part]
    text += "\n"
    path = folder / f"{part}.yaml"
    path.write_text(text, encoding="utf-8")
    names = declared()
    if part == "general":
        entries = [one for one in values_in(outline(text)) if one.spec is not None and len(one.path) == 1]
    else:
        entries = list(fields_in(text, part))
    entries = [one for one in entries if names.get(id(one.spec)) not in ONE_VALUE_ALONE]
    opened(page, path, part)
    texts = edit_all(page, path, entries)
    undo(page, min(UNDONE, len(texts)))
    until(page, path, texts[-UNDONE:][0])


SCRIPT = "<img src=x onerror=window.hurt=1><script>window.hurt=1</script>"
SHOWN = """
(script) => ({
  fields: [...document.querySelectorAll(".hw-form input")].filter((one) => one.value === script).map((one) => one.id),
  made: document.querySelectorAll("img[onerror], body script:not([src]):not([type])").length,
  hurt: window.hurt || 0,
})
"""


def with_script(text: str, part: str) -> tuple[str, set[str]]:
    """A part with a script in every field of words, and which fields those are."""
    filled = set()
    for entry in list(values_in(_top(text, part))):
        if entry.spec is not None and entry.spec.form == "words" and entry.text != SCRIPT:
            try:
                text = set_deep(text, entry.path, SCRIPT)
            except (InvalidInput, UnreadableDocument):  # what can hold a word only, as a side, refuses it at once
                continue
            filled.add("f-" + ".".join(map(str, entry.path)))
    return text, filled


def _top(text: str, part: str) -> Entry:
    top = outline(text).find((part,))
    assert top is not None
    return top


def test_script_in_every_field_of_words_is_shown_as_text(page: Any, folder: Path) -> None:
    whole, all_filled = HEAD + f"title: '{SCRIPT}'\n", {}
    for part, text in full_parts().items():
        hostile, filled = with_script(text + "\n", part)
        if filled:
            whole += hostile.removeprefix(HEAD).rstrip("\n") + "\n"
            all_filled[part] = filled
    assert sum(map(len, all_filled.values())) > 100
    path = folder / "script.yaml"
    path.write_text(whole, encoding="utf-8")
    before = 0
    for at, (part, filled) in enumerate(all_filled.items()):
        opened(page, path, part) if at == 0 else turned_to(page, part)
        shown = page.evaluate(SHOWN, SCRIPT)
        assert filled <= set(shown["fields"]), part
        before = before or shown["made"]
        assert (shown["made"], shown["hurt"]) == (before, 0), part
    page.get_by_role("tab", name="Problems").click()
    page.get_by_text("▲ Problem").first.wait_for()
    assert SCRIPT in page.locator(".hw-panel").inner_text()
    page.get_by_role("tab", name="Text").click()
    page.wait_for_selector(".hw-text .cm-line")
    assert page.evaluate(SHOWN, SCRIPT)["hurt"] == 0
    page.get_by_role("tab", name="Plan").click()


def test_no_field_is_left_out_of_this() -> None:
    """Runs after the others: sections are reached by what is in them."""
    names = declared()
    reached: set[str] = set()
    for part, text in full_parts().items():
        top = outline(text).find((part,))
        assert top is not None
        reached |= _names(top, names)
    reached |= {names[id(one.spec)] for one in outline(HEAD).children if one.spec is not None}
    assert set(names.values()) - reached == set()


def _names(entry: Entry, names: dict[int, str]) -> set[str]:
    found = {names[id(entry.spec)]} if entry.spec is not None and id(entry.spec) in names else set()
    return found.union(*(_names(child, names) for child in entry.children)) if entry.children else found
