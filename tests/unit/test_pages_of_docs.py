"""Pages under docs: what they link to is there, and their commands are ones that there are, with those options."""

import re
import shlex
from pathlib import Path

import pytest
import typer

from hushwright.cli.main import app

ROOT = Path(__file__).parents[2]
PAGES = sorted([*ROOT.glob("*.md"), *(ROOT / "docs").rglob("*.md")])
TUTORIAL = ROOT / "docs" / "tutorial" / "from-brief-to-handover.md"


def commands(page: Path) -> list[str]:
    return re.findall(r"^hushwright (.+)$", page.read_text(encoding="utf-8"), re.MULTILINE)


@pytest.mark.parametrize("page", PAGES, ids=lambda page: str(page.relative_to(ROOT)))
def test_what_a_page_links_to_is_there(page: Path) -> None:
    links = re.findall(r"\]\((?!\w+:)([^)#\s]+)(?:#[^)]*)?\)", page.read_text(encoding="utf-8"))
    assert [link for link in links if not (page.parent / link).exists()] == []


def test_the_tutorial_has_commands() -> None:
    assert len(commands(TUTORIAL)) > 10


@pytest.mark.parametrize("line", commands(TUTORIAL))
def test_commands_of_the_tutorial_are_ones_that_there_are(line: str) -> None:
    group = typer.main.get_command(app)
    name, *words = shlex.split(line)
    command = group.get_command(group.make_context("hushwright", ["check", "x"]), name)  # type: ignore[attr-defined]
    assert command is not None, name
    command.make_context(name, words)  # raises where it does not know an option
