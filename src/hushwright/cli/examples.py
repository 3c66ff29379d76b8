"""Where the example build files are, in a working copy and where the package is installed."""

from __future__ import annotations

import site
import sysconfig
from collections.abc import Iterator
from pathlib import Path

USUAL = "archive-van"
_INSTALLED = Path("share") / "hushwright" / "examples"


def example_files() -> dict[str, Path]:
    """Example files by name, the usual one first."""
    for folder in _folders():
        if (folder / f"{USUAL}.yaml").is_file():
            found = {path.stem: path for path in sorted(folder.glob("*.yaml"))}
            return {USUAL: found.pop(USUAL), **found}
    return {}


def title_of(path: Path) -> str:
    """Return the title that a file gives itself, without reading all of it."""
    for line in path.read_text(encoding="utf-8").splitlines():
        if line.startswith("title:"):
            return line.removeprefix("title:").split(" #")[0].strip().strip("\"'")
    return ""


def _folders() -> Iterator[Path]:
    """A working copy first, then the places where an installer puts a package's files."""
    package = Path(__file__).resolve().parents[1]
    yield package.parents[1] / "examples"
    yield Path(sysconfig.get_path("data")) / _INSTALLED
    yield package.parent / _INSTALLED
    yield Path(site.getuserbase()) / _INSTALLED
