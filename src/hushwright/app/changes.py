"""What differs between two texts of one build file, by field."""

from __future__ import annotations

from dataclasses import dataclass

from hushwright.document.nodes import Path
from hushwright.document.outline import Entry, outline
from hushwright.errors import UnreadableDocument


@dataclass(frozen=True, slots=True)
class Difference:
    """One field with what stands there in two texts; nothing stands as an empty text."""

    path: str
    before: str
    after: str


def differences(before: str, after: str) -> tuple[Difference, ...]:
    """Fields that differ, in the order of the file; lines where one of the texts is no build file.

    Examples
    --------
    >>> differences("brief: {tallest: 1.8 m}", "brief: {tallest: 1.9 m, shoes: 3 cm}")[0]
    Difference(path='brief.tallest', before='1.8 m', after='1.9 m')
    """
    try:
        old, new = values_of(before), values_of(after)
    except UnreadableDocument:
        return _lines(before, after)
    paths = dict.fromkeys((*old, *new))
    found = (Difference(path, old.get(path, ""), new.get(path, "")) for path in paths)
    return tuple(one for one in found if one.before != one.after)


def values_of(text: str) -> dict[str, str]:
    """Every value that a text gives, by path."""
    found: dict[str, str] = {}

    def visit(entry: Entry) -> None:
        if entry.given and entry.form in ("value", "strange"):
            found[".".join(map(str, entry.path))] = said(entry)
        for child in entry.children:
            visit(child)

    visit(outline(text))
    return found


def said(entry: Entry) -> str:
    """A value with what stands beside it, in one line."""
    beside = (entry.origin, f"± {entry.plus_minus}" if entry.plus_minus else "", entry.by)
    more = ", ".join(part for part in beside if part)
    return f"{entry.text} ({more})" if more else entry.text


def called(path: Path, root: Entry) -> str:
    """What a person calls a place of the file: without its section where a name says it, items by their names.

    Examples
    --------
    >>> called(("fittings", 0, "mass"), outline("fittings: [{name: desk, mass: 40 kg}]"))
    'desk: mass'
    >>> called(("surfaces", "quiet_room", "left", "layers", 1, "thickness"), outline("hushwright: 1"))
    'quiet room, left, layer 2: thickness'
    """
    words: list[str] = []
    for at, key in enumerate(path):
        if isinstance(key, int):
            words.append(_name_of_item(root.find(path[: at + 1])) or f"{_one_of(str(path[at - 1]))} {key + 1}")
        elif not (at == 0 and len(path) > 2 and key in _NAMED_BY_WHAT_IS_IN_THEM) and not (
            at + 1 < len(path) and isinstance(path[at + 1], int)
        ):
            words.append(key.replace("_", " "))
    return ": ".join(part for part in (", ".join(words[:-1]), words[-1]) if part) if words else ""


_NAMED_BY_WHAT_IS_IN_THEM = ("surfaces", "rooms", "openings", "cuts", "mounts", "routes", "treatments")


def _name_of_item(entry: Entry | None) -> str:
    if entry is None:
        return ""
    return next((each.text for each in entry.children if each.given and each.path[-1] in ("name", "situation")), "")


def _one_of(plural: str) -> str:
    return plural.replace("_", " ").removesuffix("es" if plural.endswith("xes") else "s")


def _lines(before: str, after: str) -> tuple[Difference, ...]:
    from difflib import SequenceMatcher

    old, new = before.splitlines(), after.splitlines()
    found = []
    for what, i, j, k, m in SequenceMatcher(None, old, new, autojunk=False).get_opcodes():
        if what != "equal":
            found.append(Difference(f"line {i + 1}", "\n".join(old[i:j]), "\n".join(new[k:m])))
    return tuple(found)
