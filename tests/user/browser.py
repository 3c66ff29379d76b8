"""A real browser and a running app for tests that act as a person at the screen."""

import os
import re
import shutil
import socket
import subprocess
import sys
import time
import urllib.error
import urllib.request
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path
from typing import Any

from tests.needs import program

CHROMIUM = next((found for name in ("chromium", "chromium-browser") if (found := shutil.which(name))), "")
FLAGS = [
    "--headless", "--no-sandbox", "--disable-gpu", "--disable-quic", "--no-first-run",
    "--disable-background-networking", "--disable-component-update", "--disable-sync",
]  # fmt: skip


def free_port() -> int:
    with socket.socket() as trial:
        trial.bind(("127.0.0.1", 0))
        return int(trial.getsockname()[1])


@contextmanager
def running_app(folder: Path, *more: str) -> Iterator[str]:
    """Start `hushwright open` on a folder and give its address; ends with it."""
    port = free_port()
    call = [sys.executable, "-m", "hushwright", "open", str(folder), "--port", str(port), "--no-show", *more]
    # The framework behaves otherwise where it finds itself inside a test run; this is a program of its own.
    plain = {name: value for name, value in os.environ.items() if not name.startswith(("PYTEST", "NICEGUI"))}
    with subprocess.Popen(call, env=plain, stdout=subprocess.PIPE, stderr=subprocess.STDOUT, text=True) as process:
        try:
            address = f"http://127.0.0.1:{port}"
            deadline = time.monotonic() + 30.0
            while not _answers(address):
                assert process.poll() is None, process.stdout.read() if process.stdout else ""
                assert time.monotonic() < deadline, "the app did not answer within 30 s"
                time.sleep(0.1)
            yield address
        finally:
            process.terminate()
            try:
                process.wait(10.0)
            except subprocess.TimeoutExpired:
                process.kill()


def _answers(address: str) -> bool:
    try:
        with urllib.request.urlopen(f"{address}/nothing-here.css", timeout=2.0):
            return True
    except urllib.error.HTTPError:
        return True
    except OSError:
        return False


def needs_browser() -> None:
    """Skip with the reason where no browser is; in `.ci/run` that fails."""
    program("chromium", "chromium-browser")


WRONG: list[str] = []
"""What went wrong in the pages of the present test: errors told, and requests to anywhere but this machine."""


@contextmanager
def opened_browser() -> Iterator[Any]:
    """Start a browser in which every page is listened to; `conftest.py` fails a test in which anything went wrong."""
    needs_browser()
    from playwright.sync_api import sync_playwright

    with sync_playwright() as driver:
        browser = driver.chromium.launch(executable_path=CHROMIUM, args=FLAGS)
        plain = browser.new_context

        def new_context(**given: Any) -> Any:
            context = plain(**given)
            context.set_default_timeout(20_000)
            context.on("console", lambda said: WRONG.append(said.text) if said.type == "error" else None)
            context.on("weberror", lambda problem: WRONG.append(str(problem.error)))
            context.on("request", lambda request: _asked(request.url))
            context.on("page", lambda page: page.on("websocket", lambda socket: _asked(socket.url)))
            return context

        browser.new_context = new_context
        browser.new_page = lambda **given: new_context(**given).new_page()
        yield browser
        browser.close()


def _asked(url: str) -> None:
    if not re.match(r"(https?|wss?)://127\.0\.0\.1:|data:|blob:", url):
        WRONG.append(f"asked {url}")
