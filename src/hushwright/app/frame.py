"""What every page has round it: head line, units, light or dark, the look."""

from __future__ import annotations

import json
from collections.abc import Callable
from functools import cache
from pathlib import Path

from nicegui import ui
from nicegui.element import Element

from hushwright.app.dark import dark_rules
from hushwright.report.explained import TERMS
from hushwright.units import System

_HERE = Path(__file__).parent / "screen"
_THEME = """
<script>
(() => {
  const kept = (() => { try { return localStorage.getItem("hushwright-look"); } catch { return null; } })();
  if (kept) document.documentElement.dataset.look = kept;
  window.hushwrightLook = () => {
    const root = document.documentElement;
    const dark = root.dataset.look ? root.dataset.look === "dark" : matchMedia("(prefers-color-scheme: dark)").matches;
    root.dataset.look = dark ? "light" : "dark";
    try { localStorage.setItem("hushwright-look", root.dataset.look); } catch { /* a private window keeps nothing */ }
    window.dispatchEvent(new Event("hushwright-look"));
  };
})();
</script>
"""


@cache
def style_sheet() -> str:
    """The app's own look."""
    return (_HERE / "look.css").read_text(encoding="utf-8") + dark_rules()


@cache
def words_script() -> str:
    """What explains words of the trade on every page, with the table in it."""
    table = json.dumps([{"name": one.name, "says": one.says, "spelled": one.spelled, "notBefore": one.not_before}
                        for one in TERMS])  # fmt: skip
    code = (_HERE / "words.js").read_text(encoding="utf-8").replace("const TERMS = [];", f"const TERMS = {table};", 1)
    safe = code.replace("</", r"<\/")
    return f"<script>\n{safe}</script>"


@cache
def typed_script() -> str:
    """What lets a field keep what is typed in it, shared by all parts of a page that have such fields."""
    return f"<script>\n{(_HERE / 'typed.js').read_text(encoding='utf-8')}</script>"


class Frame:
    """Head line and body of a page."""

    def __init__(self, title: str, system: System, *, home: bool = False) -> None:
        self.system: System = system
        ui.add_head_html(_THEME)
        ui.add_head_html(words_script())
        ui.add_head_html(typed_script())
        ui.add_css(style_sheet())
        ui.query(".nicegui-content").classes("hw-page")
        with ui.element("header").classes("hw-head"):
            with ui.element("a").props('href="/"').classes("hw-home"):
                ui.label("Hushwright")
            if not home:
                with ui.element("h1"):
                    self._title = ui.label(title)
            self.actions = ui.element("div").classes("hw-actions")
            with ui.element("div").classes("hw-settings"):
                other = "us" if system == "metric" else "metric"
                word = "Units: metric" if system == "metric" else "Units: US"
                button(word, lambda: ui.navigate.to(f"?units={other}"))
                with ui.element("button").props('type="button" onclick="hushwrightWords()"').classes("hw-plain"):
                    ui.label("Words")
                with ui.element("button").props('type="button" onclick="hushwrightLook()"').classes("hw-plain"):
                    ui.label("Light or dark")
        self.body = ui.element("div").classes("hw-body")

    def title(self, text: str) -> None:
        """Show another title."""
        if text == self._title.text:
            return
        self._title.set_text(text)
        ui.page_title(f"{text} · Hushwright")


def button(text: str, act: Callable[[], object], *, key: str = "") -> Button:
    """Make a plain button."""
    made = Button(text, act)
    if key:
        made.props(f'title="{key}" aria-keyshortcuts="{key.replace("Ctrl", "Control")}"')
    return made


class Button(Element):
    """A plain button of the page, without the framework's look."""

    def __init__(self, text: str, act: Callable[[], object]) -> None:
        super().__init__("button")
        self.props('type="button"').classes("hw-plain")
        self._text = text
        self.on("click", lambda: act())

    def set_enabled(self, enabled: bool) -> None:
        """Let it be pressed or not."""
        if enabled == bool(self._props.get("disabled")):
            self._props["disabled"] = not enabled
            self.update()

    def tell(self, text: str) -> None:
        """Say closer what it will do, for the pointer and for who listens."""
        if self._props.get("title") != text:
            self._props["title"] = self._props["aria-label"] = text
            self.update()


def say(text: str) -> None:
    """Tell something in passing."""
    ui.notify(text, position="bottom", timeout=6000, close_button="Close", classes="hw-told")
