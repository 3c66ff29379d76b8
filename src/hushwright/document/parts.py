"""Parts of a build file added and taken out, with every other byte kept."""

from __future__ import annotations

from hushwright.document.nodes import Node, Path, compose, is_mapping, is_null, is_scalar, is_sequence
from hushwright.document.save import dotted, end_of, line_end, set_value, typed_text, walk
from hushwright.errors import InvalidInput, UnreadableDocument


def set_deep(text: str, path: Path, new: str) -> str:
    """Return the text with one value set; sections on the way that are not there yet are begun.

    Parameters
    ----------
    text
        The build file's text.
    path
        Keys and list positions; a position one past the end of a list adds an item.
    new
        The value as a person types it.

    Raises
    ------
    InvalidInput
        If the value cannot stand there.
    UnreadableDocument
        If the text is no YAML.

    Examples
    --------
    >>> set_deep("brief: {use: recording}", ("brief", "rain", "rate"), "4 mm/h")
    'brief: {use: recording, rain: {rate: 4 mm/h}}'
    """
    there = len(walk(compose(text, ""), path)) - 1
    if there + 1 >= len(path):
        last = path[-1]
        if there < len(path) and isinstance(last, int):
            return add_item(text, path[:-1], new)
        return set_value(text, path, new)
    whole = new.lstrip().startswith(("{", "["))
    nested = new if whole else typed_text(new, in_flow=True, quote="", whole=False)
    for key in reversed(path[there + 1 :]):
        nested = f"[{nested}]" if isinstance(key, int) else f"{{{key}: {nested}}}"
    if isinstance(path[there], int):
        return add_item(text, path[:there], nested)
    return set_value(text, path[: there + 1], nested)


def add_item(text: str, path: Path, new: str, before: int | None = None) -> str:
    """Return the text with one item more in a list, which is begun where it is not there.

    Parameters
    ----------
    text
        The build file's text.
    path
        Keys and list positions that lead to the list.
    new
        The item as a person types it.
    before
        Position of the item before which it goes; the end when left out.

    Raises
    ------
    InvalidInput
        If no list can stand there.
    UnreadableDocument
        If the text is no YAML.

    Examples
    --------
    >>> add_item("states: {record: {open: [side_door]}}", ("states", "record", "open"), "quiet_door")
    'states: {record: {open: [side_door, quiet_door]}}'
    """
    root = compose(text, "")
    nodes = walk(root, path)
    if len(nodes) <= len(path):
        return set_deep(text, path, f"[{_in_brackets(new)}]")
    node = nodes[-1]
    if is_null(node) and len(nodes) > 1:
        return set_value(text, path, f"[{_in_brackets(new)}]")
    if is_scalar(node):
        return set_value(text, path, f"[{_in_brackets(node.value)}, {_in_brackets(new)}]")
    if not is_sequence(node):
        raise InvalidInput(f"{dotted(path)} is no list, so no item can be added to it")
    at = len(node.value) if before is None else min(max(before, 0), len(node.value))
    changed = _appended(text, node, new) if at == len(node.value) else _inserted(text, node, new, at)
    _same_otherwise(root, changed, at, path, added=True)
    return changed


def _inserted(text: str, node: Node, new: str, at: int) -> str:
    begin = node.value[at].start_mark.index
    if node.flow_style:
        return text[:begin] + f"{_in_brackets(new)}, " + text[begin:]
    newline = "\r\n" if "\r\n" in text else "\n"
    dash = text.rfind("-", 0, begin)
    whole = new.lstrip().startswith(("{", "["))
    typed = typed_text(new, in_flow=False, quote="", whole=whole)
    return text[:dash] + f"- {typed}{newline}{' ' * node.start_mark.column}" + text[dash:]


def lift_item(text: str, path: Path) -> str:
    """Return the text with a list item moved one place up.

    Raises
    ------
    InvalidInput
        If it is the first, no item, or written over several lines.
    UnreadableDocument
        If the text is no YAML.

    Examples
    --------
    >>> lift_item("open: [side_door, quiet_door]", ("open", 1))
    'open: [quiet_door, side_door]'
    """
    at = path[-1] if path else ""
    nodes = walk(compose(text, ""), path)
    if not isinstance(at, int) or at < 1 or len(nodes) != len(path) + 1:
        raise InvalidInput(f"{dotted(path)} cannot be moved up")
    begin, end = nodes[-1].start_mark.index, end_of(nodes[-1], text)
    item = text[begin:end]
    if "\n" in item or (is_mapping(nodes[-1]) and not nodes[-1].flow_style and len(nodes[-1].value) > 1):
        raise InvalidInput(f"{dotted(path)} is written over several lines; move it in an editor")
    whole = item if is_scalar(nodes[-1]) or nodes[-1].flow_style else f"{{{item}}}"
    return add_item(remove_part(text, path), path[:-1], whole, before=at - 1)


def _appended(text: str, node: Node, new: str) -> str:
    if node.flow_style:
        typed = _in_brackets(new)
        if not node.value:
            at = node.end_mark.index - 1
            return text[:at] + typed + text[at:]
        at = end_of(node.value[-1], text)
        return text[:at] + f", {typed}" + text[at:]
    newline = "\r\n" if "\r\n" in text else "\n"
    at = line_end(text, end_of(node.value[-1], text))
    whole = new.lstrip().startswith(("{", "["))
    typed = typed_text(new, in_flow=False, quote="", whole=whole)
    return text[:at] + f"{newline}{' ' * node.start_mark.column}- {typed}" + text[at:]


def _in_brackets(new: str) -> str:
    whole = new.lstrip().startswith(("{", "["))
    return typed_text(new, in_flow=True, quote="", whole=whole)


def remove_part(text: str, path: Path) -> str:
    """Return the text without one key or list item; a remark on its own lines goes with it.

    Raises
    ------
    InvalidInput
        If there is nothing at the path, or something else in the file leans on it.
    UnreadableDocument
        If the text is no YAML.

    Examples
    --------
    >>> remove_part("vehicle: {seats: 3, track_width: 1.7 m}", ("vehicle", "seats"))
    'vehicle: {track_width: 1.7 m}'
    """
    root = compose(text, "")
    nodes = walk(root, path)
    if not path or len(nodes) != len(path) + 1:
        raise InvalidInput(f"there is no {dotted(path)} in the file")
    parent = nodes[-2]
    spans = _spans(parent, text)
    at = _position(parent, path[-1])
    start, end = _cut_in_brackets(spans, at) if parent.flow_style else _cut_of_lines(parent, spans, at, text)
    changed = text[:start] + text[end:]
    _same_otherwise(root, changed, at, path, added=False)
    return changed


def _position(parent: Node, key: str | int) -> int:
    if is_mapping(parent):
        return next(at for at, pair in enumerate(parent.value) if is_scalar(pair[0]) and pair[0].value == str(key))
    return int(key)


def _spans(parent: Node, text: str) -> list[tuple[int, int]]:
    """Where each entry of a mapping or list begins and ends, dashes not counted."""
    if is_mapping(parent):
        return [(name.start_mark.index, max(end_of(part, text), name.end_mark.index)) for name, part in parent.value]
    return [(part.start_mark.index, end_of(part, text)) for part in parent.value]


def _cut_in_brackets(spans: list[tuple[int, int]], at: int) -> tuple[int, int]:
    if at + 1 < len(spans):
        return spans[at][0], spans[at + 1][0]
    return (spans[at - 1][1], spans[at][1]) if at else spans[at]


def _cut_of_lines(parent: Node, spans: list[tuple[int, int]], at: int, text: str) -> tuple[int, int]:
    begin, end = spans[at]
    if is_sequence(parent):
        begin = text.rfind("-", 0, begin)
    start = text.rfind("\n", 0, begin) + 1
    if text[start:begin].strip():  # the first key of a list item stands behind its dash
        if at + 1 == len(spans):
            raise InvalidInput("this is all that the item says; take the item out")
        return begin, spans[at + 1][0]
    stop = line_end(text, end)
    if stop == len(text):
        return (max(start - 1, 0), stop)
    return start, text.index("\n", stop) + 1


def _same_otherwise(before: Node, changed: str, at: int, path: Path, *, added: bool) -> None:
    """Read the changed text again: it must hold what it held, one part more or less."""
    try:
        after = compose(changed, "")
    except UnreadableDocument as problem:
        raise InvalidInput(f"this would break the file: {problem.diagnostics[0].note}") from None
    names = tuple(str(key) for key in path)
    here, there = ((), (*names, str(at))) if added else (names, ())
    if _texts(before, here) != _texts(after, there):
        raise InvalidInput(f"{dotted(path)} is tied to another part of the file; change it in an editor")


def _texts(root: Node, but: tuple[str, ...]) -> list[str]:
    """Every key and value in order, save what stands at one path; what is empty says nothing."""
    found: list[str] = []

    def visit(node: Node, path: tuple[str, ...]) -> None:
        if but and path == but:
            return
        if is_scalar(node):
            if not is_null(node):
                found.append(node.value)
            return
        for at, part in enumerate(node.value):
            name, child = (str(part[0].value), part[1]) if is_mapping(node) else (str(at), part)
            if is_mapping(node) and (*path, name) != but:
                found.append(name)
            visit(child, (*path, name))

    visit(root, ())
    return found
