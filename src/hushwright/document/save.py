"""One value of a build file changed with every other byte kept, and a file saved whole or not at all."""

from __future__ import annotations

import contextlib
import hashlib
import os
import re
import secrets
import stat
from pathlib import Path as FilePath

from hushwright.document.files import refusal
from hushwright.document.nodes import (
    Node,
    Path,
    compose,
    is_mapping,
    is_null,
    is_scalar,
    is_sequence,
    line_of,
    parse_path,
    shown,
)
from hushwright.errors import InvalidInput, UnreadableDocument

_KEY = re.compile(r"[^\W\d][\w-]*(?: [\w-]+)*")


def set_value(text: str, path: Path | str, new: str) -> str:
    """Return the text with one value replaced, or added where its section is there and it is not.

    Parameters
    ----------
    text
        The build file's text.
    path
        Keys and list positions, as a tuple or ``surfaces.quiet_room.left.layers.2.thickness``. Where the value has
        an origin (``{is: …, from: …}``) its ``is`` is changed.
    new
        The value as a person types it: ``95 mm``, or a whole ``{is: 95 mm, from: measured}``. Quotes are added
        where YAML needs them.

    Raises
    ------
    InvalidInput
        If nothing is at the path, or it holds more than one value.
    UnreadableDocument
        If the text is no YAML.

    Examples
    --------
    >>> set_value("vehicle: {wheelbase: 4.3 m}  # as listed", "vehicle.wheelbase", "4.32 m")
    'vehicle: {wheelbase: 4.32 m}  # as listed'
    """
    keys = parse_path(path) if isinstance(path, str) else path
    root = compose(text, "")
    parents = walk(root, keys)
    if len(parents) == len(keys) + 1:
        changed = _replace(text, parents, keys, new)
    elif len(parents) == len(keys) and keys:
        changed = _add(text, parents, keys, new)
    else:
        at = ".".join(str(key) for key in keys[: len(parents)])
        advice = _meant(parents[-1], keys[len(parents) - 1]) or "add its section first"
        raise InvalidInput(f"there is no {at} in the file, so {dotted(keys)} cannot be set; {advice}")
    _check(root, changed, keys, new)
    return changed


def _meant(node: Node, key: str | int) -> str:
    """Which key of a section a misspelt one may be."""
    from difflib import get_close_matches

    known = [name.value for name, _ in node.value if is_scalar(name)] if is_mapping(node) else []
    close = get_close_matches(str(key), known, n=1, cutoff=0.6)
    return f"did you mean {close[0]}?" if close else ""


def walk(root: Node, keys: Path) -> list[Node]:
    """Nodes from the root along the path, as far as they are there."""
    found = [root]
    for depth, key in enumerate(keys):
        node = found[-1]
        child = None
        key_node = None
        if is_mapping(node):
            entry = next((pair for pair in node.value if is_scalar(pair[0]) and pair[0].value == str(key)), None)
            key_node, child = entry or (None, None)
        elif is_sequence(node) and isinstance(key, int) and 0 <= key < len(node.value):
            child = node.value[key]
        if child is None:
            break
        if child.start_mark.index < _begins_after(node, key_node, key):
            note = f"repeats the part in line {line_of(child)} by *name; change it there, or write it out"
            raise InvalidInput(f"{dotted(keys[: depth + 1])} {note}")
        found.append(child)
    return found


def _begins_after(node: Node, key_node: Node, key: str | int) -> int:
    """Where a part can begin at the earliest when it stands at its own place and not behind a *name."""
    if key_node is not None:
        return int(key_node.end_mark.index)
    return int((node.value[int(key) - 1].end_mark if key else node.start_mark).index)


def _replace(text: str, nodes: list[Node], keys: Path, new: str) -> str:
    node = nodes[-1]
    whole = new.lstrip().startswith(("{", "["))
    if is_mapping(node) and not whole:
        value = next((part for name, part in node.value if name.value == "is"), None)
        if value is not None:
            nodes = [*nodes, value]
            node = value
    if not is_scalar(node) and not (whole and node.flow_style):
        raise InvalidInput(f"{dotted(keys)} is a section, not one value; name a value in it: {_names(node)}")
    if is_scalar(node) and node.style in ("|", ">"):
        raise InvalidInput(f"{dotted(keys)} is a text over several lines; change it in an editor")
    start, end = _span(node, text)
    if start == end:
        start = end = _empty_place(text, nodes, keys)
    in_flow = any(bool(parent.flow_style) for parent in nodes[:-1])
    quote = node.style if is_scalar(node) and node.style in ("'", '"') else ""
    typed = typed_text(new, in_flow=in_flow, quote=quote, whole=whole)
    if start == end and start > 0 and not text[start - 1].isspace():
        typed = " " + typed
    if start == end and text[end : end + 1] not in ("", " ", "\r", "\n", ",", "}", "]"):
        typed += " "
    return text[:start] + typed + text[end:]


def _empty_place(text: str, nodes: list[Node], keys: Path) -> int:
    """Where a value goes that is left empty; YAML marks it at whatever comes next."""
    parent = nodes[-2] if len(nodes) > 1 else nodes[-1]
    if not is_mapping(parent):
        raise InvalidInput(f"{dotted(keys)} is empty; write it in an editor")
    name = next(name for name, part in parent.value if part is nodes[-1])
    return text.index(":", name.end_mark.index) + 1


def _add(text: str, nodes: list[Node], keys: Path, new: str) -> str:
    parent, key = nodes[-1], str(keys[-1])
    if not _KEY.fullmatch(key) or isinstance(keys[-1], int):
        raise InvalidInput(f"there is no {dotted(keys)}; only a key can be added, not {key!r}")
    whole = new.lstrip().startswith(("{", "["))
    newline = "\r\n" if "\r\n" in text else "\n"
    if is_mapping(parent) and parent.flow_style:
        entry = f"{key}: {typed_text(new, in_flow=True, quote='', whole=whole)}"
        if not parent.value:
            at = parent.end_mark.index - 1
            return text[:at] + entry + text[at:]
        at = end_of(parent.value[-1][1], text)
        return text[:at] + f", {entry}" + text[at:]
    entry = f"{key}: {typed_text(new, in_flow=False, quote='', whole=whole)}"
    if is_mapping(parent) and parent.value:
        indent = " " * parent.value[0][0].start_mark.column
        at = line_end(text, end_of(parent.value[-1][1], text))
        return text[:at] + f"{newline}{indent}{entry}" + text[at:]
    if is_null(parent) and len(nodes) > 1 and is_mapping(nodes[-2]) and not nodes[-2].flow_style:
        name = next(name for name, part in nodes[-2].value if part is parent)
        indent = " " * (name.start_mark.column + 2)
        if _span(parent, text)[0] == _span(parent, text)[1]:
            at = line_end(text, name.end_mark.index)
            return text[:at] + f"{newline}{indent}{entry}" + text[at:]
    raise InvalidInput(f"{dotted(keys)} cannot be added: {shown(parent, text)!r} holds no keys")


def typed_text(new: str, *, in_flow: bool, quote: str, whole: bool) -> str:
    """Text of a value as YAML wants it: as typed, or in quotes where it would mean something else."""
    text = new.strip()
    if "\n" in text or "\r" in text:
        raise InvalidInput(f"a value is one line, not {new!r}")
    if whole:
        return text
    if len(text) > 1 and text[0] == text[-1] and text[0] in "'\"":
        return text
    if not quote and _is_plain(text, in_flow=in_flow):
        return text
    if quote == "'" or ('"' in text and "'" not in text) or ("\\" in text and "'" not in text):
        return "'" + text.replace("'", "''") + "'"
    return '"' + text.replace("\\", "\\\\").replace('"', '\\"') + '"'


def _is_plain(text: str, *, in_flow: bool) -> bool:
    if not text or text[0] in "!&*%@`#|>'\"[]{},?":
        return False
    if text in ("-", "~") or text.startswith(("- ", "---", "...", ": ")):
        return False
    if ": " in text or " #" in text or text.endswith(":") or "\t" in text or not text.isprintable():
        return False
    return not (in_flow and re.search(r"[,\[\]{}]|:$", text))


def _span(node: Node, text: str) -> tuple[int, int]:
    """Start and end of what the node itself says, without an anchor in front."""
    start, end = node.start_mark.index, node.end_mark.index
    anchor = re.match(r"&\S+[ \t]*", text[start:end])
    return (start + anchor.end() if anchor else start), end


def end_of(node: Node, text: str) -> int:
    """End of the node's last character; the mark of a block runs on over remarks to the next key."""
    if is_scalar(node) or node.flow_style or not node.value:
        end = int(node.end_mark.index)
        if is_scalar(node) and node.style in ("|", ">"):
            end = len(text[:end].rstrip())
        return end
    last = node.value[-1]
    return end_of(last[1] if is_mapping(node) else last, text)


def line_end(text: str, at: int) -> int:
    """Where the line ends that holds a position, its line end not counted."""
    match = re.compile(r"\r?\n").search(text, at)
    return match.start() if match else len(text)


def _names(node: Node) -> str:
    if is_mapping(node):
        return ", ".join(str(name.value) for name, _ in node.value[:8])
    return f"0 to {len(node.value) - 1}" if node.value else "(it is empty)"


def dotted(keys: Path) -> str:
    """Path as a person types it."""
    return ".".join(str(key) for key in keys)


def _check(before: Node, changed: str, keys: Path, new: str) -> None:
    """Read the changed text again: a value that breaks the file or moves another is refused, never written."""
    try:
        after = compose(changed, "")
    except UnreadableDocument as problem:
        raise InvalidInput(f"{new!r} would break the file: {problem.diagnostics[0].note}") from None
    nodes = walk(after, keys)
    if len(nodes) != len(keys) + 1:
        raise InvalidInput(f"{new!r} cannot be written at {dotted(keys)}")
    names = tuple(str(key) for key in keys)
    if _others(before, names) != _others(after, names):
        raise InvalidInput(f"{dotted(keys)} is repeated elsewhere by *name, so {new!r} would change more than it")


def _others(root: Node, but: tuple[str, ...]) -> list[tuple[tuple[str, ...], str]]:
    """Every value with its path, save what stands at or under one path (or was null where a key is added)."""
    found: list[tuple[tuple[str, ...], str]] = []

    def visit(node: Node, path: tuple[str, ...]) -> None:
        if path == but or (path == but[:-1] and is_null(node)):
            return
        if is_scalar(node):
            found.append((path, node.value))
        elif is_mapping(node):
            for name, part in node.value:
                visit(part, (*path, str(name.value)))
        else:
            for at, part in enumerate(node.value):
                visit(part, (*path, str(at)))

    visit(root, ())
    return found


def digest(text: str) -> str:
    """Fingerprint of a file's text, by which a later save sees whether someone else has changed the file."""
    return hashlib.sha256(text.encode("utf-8")).hexdigest()


def save_atomically(path: FilePath | str, text: str, expected_digest: str | None = None) -> None:
    """Write a file so that at every moment either the old or the new text is there, whole.

    Parameters
    ----------
    path
        File to write; a link is followed, the mode of the file stays.
    text
        The new text, line ends and byte order mark included.
    expected_digest
        :func:`digest` of the text that was read; the save is refused when the file holds another one now.

    Raises
    ------
    UnreadableDocument
        If the file has changed since it was read, or cannot be written.
    """
    target = FilePath(os.path.realpath(path))
    if expected_digest is not None:
        _refuse_changed(target, str(path), expected_digest)
    beside = target.with_name(f".{target.name}.{secrets.token_hex(4)}.part")
    try:
        mode = stat.S_IMODE(target.stat().st_mode) if target.exists() else None
        with beside.open("xb") as file:
            file.write(text.encode("utf-8"))
            file.flush()
            os.fsync(file.fileno())
        if mode is not None:
            beside.chmod(mode)
        beside.replace(target)
    except OSError as problem:
        with contextlib.suppress(OSError):
            beside.unlink()
        note = f"the file cannot be written: {problem.strerror or problem}"
        raise refusal(str(path), "file-not-written", note, "the old file is untouched") from None
    _sync_folder(target.parent)


def _refuse_changed(target: FilePath, file: str, expected: str) -> None:
    try:
        now = hashlib.sha256(target.read_bytes()).hexdigest()
    except OSError:
        now = ""
    if now != expected:
        note = "the file has changed since it was read"
        raise refusal(file, "file-changed", note, "read it again and repeat the change")


def _sync_folder(folder: FilePath) -> None:
    """Make the new name last through a power cut, where the system lets a folder be synced."""
    with contextlib.suppress(OSError):
        handle = os.open(folder, os.O_RDONLY)
        try:
            os.fsync(handle)
        finally:
            os.close(handle)
