"""Programs of the machine that a few tests drive: skipped with a reason where one is missing, never in `.ci/run`."""

from __future__ import annotations

import os
import shutil

import pytest


def program(*names: str) -> str:
    """Path of the first of some programs that is there; else the test is skipped, or fails where nothing may be."""
    found = next((path for name in names if (path := shutil.which(name))), None)
    if found:
        return found
    reason = f"needs {' or '.join(names)}, which this machine does not have"
    if os.environ.get("HUSHWRIGHT_SKIPS_NOTHING"):
        pytest.fail(reason)
    pytest.skip(reason)


def browser() -> str:
    return program("chromium", "chromium-browser")


def office() -> str:
    return program("soffice", "libreoffice")
