"""The app as a server on this machine."""

from __future__ import annotations

import asyncio
from collections.abc import Callable
from pathlib import Path
from urllib.parse import unquote

from fastapi import Response
from nicegui import app, background_tasks, ui

from hushwright.app.build_page import BuildPage
from hushwright.app.computing import collect_cycles, without_pauses
from hushwright.app.desk import Desk
from hushwright.app.first_page import FIRST, FirstPage
from hushwright.app.frame import Frame
from hushwright.app.gate import Gate
from hushwright.app.home_page import HomePage
from hushwright.app.papers import paper_route
from hushwright.errors import UnreadableDocument
from hushwright.units import System

_FIRST_PAGE = 1.5  # s left to the first page, before processes that nobody has asked yet take the cores from it
_SETTLED = 5.0  # s after the start, when the first page stands
_SEARCH_EVERY = 10.0  # s between two looks whether there is time to search for objects in circles
LARGEST_MESSAGE = 2_000_000  # bytes a browser may send at once over its socket


def root_of(desk: Desk, examples: dict[str, str]) -> Callable[[], None]:
    """Make the function that draws whatever address is asked for."""

    def root() -> None:
        request = ui.context.client.request
        path = unquote(request.url.path)
        system: System = "us" if request.query_params.get("units") == "us" else "metric"
        if path.startswith("/build/"):
            _build(desk, path.removeprefix("/build/"), system)
        elif path == FIRST:
            FirstPage(desk, Frame("First look", system))
        else:
            HomePage(desk, Frame("", system, home=True), examples)

    return root


def _build(desk: Desk, name: str, system: System) -> None:
    try:
        desk.open(name)
    except UnreadableDocument as problem:
        frame = Frame("This file cannot be opened", system)
        with frame.body, ui.element("main").classes("hw-home-main"):
            for one in problem.diagnostics:
                ui.label(f"{one.note}{f'; {one.hint}' if one.hint else ''}").classes("hw-problem error")
        return
    BuildPage(desk, name, Frame(name, system))


def serve(desk: Desk, examples: dict[str, str], *, host: str, port: int, token: str, show: str | bool) -> None:
    """Run until stopped."""
    prepare(desk, token)
    ui.run(
        root_of(desk, examples), host=host, port=port, title="Hushwright", reload=False, show=show, tailwind=False,
        dark=None, favicon=_favicon(), show_welcome_message=False, uvicorn_logging_level="warning",
        reconnect_timeout=10.0,
    )  # fmt: skip


def prepare(desk: Desk, token: str) -> None:
    """Set up what every page needs: the gate, the letters, the end."""
    app.add_middleware(Gate, token=token)
    desk.workspace.tidy()
    fonts = font_folder()
    if fonts is not None:
        app.add_static_files("/letters", fonts)
    app.add_api_route("/model/{name}", _models(desk), methods=["GET"], include_in_schema=False)
    app.add_api_route("/paper/{name}/{file}", paper_route(desk), methods=["GET"], include_in_schema=False)
    app.on_startup(lambda: asyncio.get_running_loop().call_later(_FIRST_PAGE, desk.computer.begin))
    app.on_startup(lambda: asyncio.get_running_loop().call_later(_SETTLED, without_pauses))
    app.on_startup(lambda: background_tasks.create(_search_when_idle(desk), name="search for circles"))
    app.on_shutdown(desk.computer.stop)
    app.on_shutdown(_stop_comparing)


async def _search_when_idle(desk: Desk) -> None:
    """Search for objects in circles while nothing is being computed."""
    while True:
        await asyncio.sleep(_SEARCH_EVERY)
        if not desk.is_busy:
            collect_cycles()


def _stop_comparing() -> None:
    from hushwright.app.comparing import comparer

    comparer().stop()


def _models(desk: Desk) -> Callable[[str, str], Response]:
    """Answer with the three-dimensional model of a part of an open build."""

    def model(name: str, part: str = "") -> Response:
        from hushwright.app.scene import model_of

        try:
            build = desk.open(name).reading.build
        except UnreadableDocument:
            build = None
        if build is None:
            return Response(status_code=404)
        return Response(model_of(build, part), media_type="model/gltf-binary", headers={"cache-control": "no-store"})

    return model


def font_folder() -> Path | None:
    """Where the letters are; the browser's own do where they are not installed."""
    from importlib.util import find_spec

    found = find_spec("font_source_sans_pro")
    if found is None or found.origin is None:
        return None
    return Path(found.origin).parent / "files"


def _favicon() -> str:
    return (Path(__file__).parent / "screen" / "mark.svg").read_text(encoding="utf-8")
