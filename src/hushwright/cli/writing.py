"""Files that a command writes: why it cannot, in words, and what to do; nobody's other file is written over.

A command writes all its files before it prints: whoever reads may leave at any line (`| head`), and the file is there.
"""

from __future__ import annotations

import errno
from pathlib import Path

from hushwright.cli.options import refuse

PDF, WORKBOOK = b"%PDF", b"PK"
"""How what a command writes begins: a file that begins otherwise is somebody's own."""

_OF_FILES = (".pdf", ".yaml", ".yml", ".xlsx", ".csv", ".json", ".svg", ".dxf")
"""Ends of names that nobody gives to a folder."""

_FULL = (errno.ENOSPC, errno.EDQUOT)
_CLOSED = (errno.EACCES, errno.EPERM, errno.EROFS)


def check_folder(folder: Path) -> None:
    """Refuse at once, before anything is computed, where files cannot go into a folder of that name."""
    if folder.exists() and not folder.is_dir():
        refuse(f"{folder} is a file, so nothing can be written into it; name a folder, like {_beside(folder)}.")
    if not folder.exists() and folder.suffix.lower() in _OF_FILES:
        refuse(f"{folder} is named like a file, and what is written is several; name a folder, like {_beside(folder)}.")


def check_file(path: Path, begins: bytes) -> None:
    """Refuse at once where a file of that name cannot be written, or is there already and somebody's own."""
    if path.is_dir():
        refuse(f"{path} is a folder; give the name of the file to write, like {path / _usual(begins)}.")
    try:
        with path.open("rb") as there:
            start = there.read(len(begins))
    except (OSError, ValueError):
        return  # what is not there is free; what is wrong with its name shows when it is written
    if start and start != begins:
        kind = "PDF" if begins == PDF else "workbook"
        refuse(f"{path} is there already, is no {kind}, and stays as it is; choose another name.")


def make_folder(folder: Path) -> None:
    """Make a folder with those above it."""
    check_folder(folder)
    try:
        folder.mkdir(parents=True, exist_ok=True)
    except (OSError, ValueError) as problem:
        refuse(unwritable(folder, problem))


def write_bytes(path: Path, content: bytes) -> None:
    """Write a file whole."""
    try:
        path.write_bytes(content)
    except (OSError, ValueError) as problem:
        refuse(unwritable(path, problem))


def check_new(path: Path) -> None:
    """Refuse at once a name that is taken: a file, a link or a folder stays as it is."""
    if path.is_dir():
        refuse(f"{path} is a folder; give the name of the file to write, like {path / 'my-van.yaml'}.")
    if path.is_symlink() or path.exists():
        refuse(f"{path} is there already and stays as it is; choose another name.")
    if not path.parent.is_dir() and not any(each.is_file() for each in path.parents):
        refuse(f"{path} cannot be written: there is no such folder as {path.parent}; make it first, or name another.")


def write_new(path: Path, content: bytes) -> None:
    """Write a file that is not there yet, even where somebody else begins it at the same moment."""
    check_new(path)
    try:
        with path.open("xb") as file:
            file.write(content)
    except FileExistsError:
        refuse(f"{path} is there already and stays as it is; choose another name.")
    except (OSError, ValueError) as problem:
        refuse(unwritable(path, problem))


def save_paper(path: Path, content: bytes) -> None:
    """Write a paper; folders on the way are made."""
    check_file(path, PDF)
    make_folder(path.parent)
    write_bytes(path, content)


def unwritable(path: Path, problem: OSError | ValueError) -> str:
    """Why a file or folder cannot be written, and what to do.

    Examples
    --------
    >>> print(unwritable(Path("out/van.pdf"), PermissionError(13, "")))
    out/van.pdf cannot be written: the system does not let you write there; name another place.
    """
    why, hint = _reason(path, problem)
    return f"{path} cannot be written: {why}; {hint}."


def _reason(path: Path, problem: OSError | ValueError) -> tuple[str, str]:
    number = getattr(problem, "errno", None)
    if number in _CLOSED:
        return "the system does not let you write there", "name another place"
    if number in _FULL:
        return "the disk is full", "make room, or name another place"
    if number == errno.ENAMETOOLONG:
        return "its name is too long", "name a shorter one"
    file = next((each for each in path.parents if each.is_file()), None)
    if file is not None:
        return f"{file} is a file, so nothing can be written into it", "name a folder"
    if isinstance(problem, FileNotFoundError):
        return f"there is no folder {path.parent}", "make it first, or name another"
    return "the system does not take this name", "name another one"


def _beside(file: Path) -> Path:
    return file.with_name(f"{file.stem}-papers" if file.suffix else f"{file.name}-files")


def _usual(begins: bytes) -> str:
    return "paper.pdf" if begins == PDF else "cost.xlsx"
