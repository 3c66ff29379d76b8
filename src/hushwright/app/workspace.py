"""The folder that holds a workshop's build files: what is in it, new ones, copies, uploads."""

from __future__ import annotations

import re
import time
import unicodedata
from dataclasses import dataclass
from pathlib import Path

from hushwright.document.files import LARGEST_FILE, decode, read_text
from hushwright.document.save import save_atomically
from hushwright.errors import Diagnostic, Place, UnreadableDocument

LONGEST_NAME = 80
_LEFT_BEHIND = 3600.0  # s
_LEFT_OVER = re.compile(r"\..+\.ya?ml\.[0-9a-f]{8}\.part", re.IGNORECASE)
_SUFFIXES = (".yaml", ".yml")
_RESERVED = re.compile(r"(con|prn|aux|nul|com[0-9]|lpt[0-9])(\..*)?", re.IGNORECASE)


@dataclass(frozen=True, slots=True)
class Listed:
    """One build file of a workspace."""

    name: str
    title: str
    changed: float


class Refused(UnreadableDocument):
    """What was asked for a file cannot be done; says why and what to do."""


def refuse(name: str, note: str, hint: str = "") -> Refused:
    """Make the refusal for a file of a workspace."""
    return Refused((Diagnostic("file-refused", Place(name), "", note, hint),))


def safe_name(typed: str) -> str:
    """Name of a build file from what a person typed, or the name of an uploaded file.

    Raises
    ------
    Refused
        If the name leads out of the folder, is hidden, or is no name of a build file.

    Examples
    --------
    >>> safe_name("Choir van 2"), safe_name("choir.yml")
    ('Choir van 2.yaml', 'choir.yml')
    """
    name = unicodedata.normalize("NFC", typed).strip()
    if not name:
        raise refuse("", "a name is needed", "type one, like choir van")
    if "/" in name or "\\" in name or name in (".", "..") or ":" in name:
        raise refuse(name[:60], "a name cannot lead to another folder", "leave out / \\ : and ..")
    if not name.isprintable() or any(sign in name for sign in '<>|?*"'):
        raise refuse(repr(name)[:60], "the name holds signs that a file cannot have", 'leave out < > | ? * "')
    if name.startswith((".", "~", "-")) or name.endswith("."):
        raise refuse(name[:60], "a name begins with a letter or a number", "take the sign in front away")
    if not name.lower().endswith(_SUFFIXES):
        name += ".yaml"
    if len(name.encode()) > LONGEST_NAME or _RESERVED.fullmatch(name):
        raise refuse(name[:60], f"the name cannot be used; at most {LONGEST_NAME} letters", "choose a shorter one")
    return name


class Workspace:
    """A folder of build files. Nothing outside it is read or written."""

    def __init__(self, folder: Path, only: str = "") -> None:
        self.folder = folder.resolve()
        self.only = only

    def path_of(self, name: str) -> Path:
        """File of a name in this folder; a link that leads out of it is refused."""
        path = self.folder / safe_name(name)
        if path.resolve().parent != self.folder:
            raise refuse(name, "this leads out of the folder", "copy the file into the folder")
        return path

    def tidy(self) -> int:
        """Take away what saves that were killed have left for more than an hour; returns how many."""
        old = [
            path for path in self.folder.glob(".*.part")
            if _LEFT_OVER.fullmatch(path.name) and time.time() - path.lstat().st_mtime > _LEFT_BEHIND
        ]  # fmt: skip
        for path in old:
            path.unlink(missing_ok=True)
        return len(old)

    def listed(self) -> tuple[Listed, ...]:
        """Build files by name; what cannot be listed is left out."""
        found = []
        for path in sorted(self.folder.iterdir(), key=lambda each: each.name.lower()):
            if path.suffix.lower() not in _SUFFIXES or path.name.startswith(".") or not path.is_file():
                continue
            try:
                self.path_of(path.name)
                found.append(Listed(path.name, _title(path), path.stat().st_mtime))
            except (OSError, UnreadableDocument):
                continue
        return tuple(found)

    def create(self, name: str, text: str) -> str:
        """Write a file that is not there yet and return its name.

        Raises
        ------
        Refused
            If a file of that name is there, or the text is no text of a build file.
        """
        path = self.path_of(name)
        if path.exists():
            raise refuse(path.name, "a file of that name is there already and stays as it is", "choose another name")
        save_atomically(path, text)
        return path.name

    def upload(self, name: str, content: bytes) -> str:
        """Take in a file that a browser sends, and return the name it got.

        Raises
        ------
        UnreadableDocument
            If it is too large, no text, or its name cannot be used.
        """
        if len(content) > LARGEST_FILE:
            raise self.too_large(name)
        text = decode(content, name[:60])
        return self.create(self.free_name(safe_name(name)), text)

    def too_large(self, name: str) -> Refused:
        """Make the refusal for a file that is more than any build file."""
        note = f"the file has more than {LARGEST_FILE // 1024} kB, more than any build file"
        return refuse(name[:60], note, "is this the build file? It is a short text")

    def duplicate(self, name: str) -> str:
        """Copy a file under a free name, and return that."""
        return self.create(self.free_name(self.path_of(name).name), read_text(self.path_of(name)))

    def free_name(self, name: str) -> str:
        """Return the name, or the name with a number where it is taken."""
        if not (self.folder / name).exists():
            return name
        stem, suffix = Path(name).stem, Path(name).suffix
        stem = re.sub(r" [0-9]+$", "", stem)
        number = 2
        while (self.folder / f"{stem} {number}{suffix}").exists():
            number += 1
        return f"{stem} {number}{suffix}"


def _title(path: Path) -> str:
    """Return the title that a file gives itself, from its first lines."""
    with path.open("rb") as opened:
        head = opened.read(32_768).decode("utf-8", "replace")
    found = re.search(r"^title:[ \t]*(.*)$", head, re.MULTILINE)
    return found[1].split(" #")[0].strip().strip("\"'")[:120] if found else ""
