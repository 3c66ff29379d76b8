"""``hushwright open``: a workspace folder in the browser."""

from __future__ import annotations

import sys
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path
from typing import Annotated

import typer

from hushwright.cli.options import refuse
from hushwright.cli.output import say

USUAL_PORT = 8127
_HERE = ("127.0.0.1", "localhost", "::1")


def open_app(
    where: Annotated[
        str, typer.Argument(metavar="FOLDER|FILE", help="Folder of build files, or one of them; this folder when "
                            "left out.", show_default=False)
    ] = ".",
    host: Annotated[
        str, typer.Option("--host", help="Address to listen on; any but this machine's own asks for a token.")
    ] = "127.0.0.1",
    port: Annotated[int, typer.Option("--port", min=1, max=65535, help="Port to listen on.")] = USUAL_PORT,
    show: Annotated[bool, typer.Option("--show/--no-show", help="Open the browser at once.")] = True,
) -> None:  # fmt: skip
    """Open a workspace in the browser: forms, drawings and verdicts.

    Every change is saved at once; stop with Ctrl+C. Nothing leaves this machine.
    """
    from urllib.parse import quote

    from hushwright.cli.examples import example_files

    place = Path(where)
    if not place.exists():
        refuse(f"There is no {where}; make the folder first, or begin with: hushwright new {where}")
    folder = place if place.is_dir() else place.parent
    name = "" if place.is_dir() else place.name
    token = "" if host in _HERE else _token()
    path = f"/build/{quote(name)}" if name else "/"
    shown = "127.0.0.1" if host in ("0.0.0.0", "::") else host
    address = f"http://{f'[{shown}]' if ':' in shown else shown}:{port}{path}{f'?token={token}' if token else ''}"
    _refuse_taken(host, port)
    say(f"Open {address}\nStop with Ctrl+C.")
    from hushwright.app.desk import Desk
    from hushwright.app.worker import Worker
    from hushwright.app.workspace import Workspace

    with _without("aiohttp", "requests"):  # the sockets would load both to be a client, a fifth of all that is loaded
        from hushwright.app.server import serve

    examples = {each: file.read_text(encoding="utf-8") for each, file in example_files().items()}
    browser = f"{path}{f'?token={token}' if token else ''}" if show else False
    serve(Desk(Workspace(folder), Worker()), examples, host=host, port=port, token=token, show=browser)


@contextmanager
def _without(*names: str) -> Iterator[None]:
    """Load other modules as if these, which they can do without, were not there."""
    hidden = [name for name in names if name not in sys.modules]
    sys.modules.update(dict.fromkeys(hidden))  # type: ignore[arg-type]
    try:
        yield
    finally:
        for name in hidden:
            sys.modules.pop(name, None)


def _token() -> str:
    import secrets

    return secrets.token_urlsafe(24)


def _refuse_taken(host: str, port: int) -> None:
    """Say at once when another program has the port, before anything is loaded."""
    import socket

    family = socket.AF_INET6 if ":" in host else socket.AF_INET
    with socket.socket(family, socket.SOCK_STREAM) as trial:
        trial.setsockopt(socket.SOL_SOCKET, socket.SO_REUSEADDR, 1)
        try:
            trial.bind((host, port))
        except OSError as problem:
            refuse(f"Port {port} of {host} cannot be had: {problem.strerror}. Choose another with --port.")
