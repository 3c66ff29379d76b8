"""A real browser and a running app for tests that act as a person at the screen."""

import os
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

from tests.needs import program

CHROMIUM = next(
    (found for name in ("chromium", "chromium-browser") if (found := shutil.which(name))), ""
)
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
