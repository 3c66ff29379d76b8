"""Bytes of a build file to text, refusing with a reason what is not one."""

from __future__ import annotations

from pathlib import Path

from hushwright.errors import Diagnostic, Place, UnreadableDocument

LARGEST_FILE = 512 * 1024  # far above any build file; the reader would need seconds beyond it
_UTF8_HINT = "save it as UTF-8 in your editor (often under “Save as”, “Encoding”)"
_WHOLE_FILE_MARKS = ((b"\xff\xfe", "UTF-16"), (b"\xfe\xff", "UTF-16"))


def read_text(path: Path | str) -> str:
    """Read the text of a file exactly as it stands, with its line ends and byte order mark.

    Parameters
    ----------
    path
        File to read.

    Raises
    ------
    UnreadableDocument
        If there is no such file, or it is a folder, empty, binary, too large or in another encoding.
    """
    file = str(path)
    place = Path(path)
    try:
        if place.is_dir():
            raise refusal(file, "file-is-folder", "this is a folder, not a file", _inside(place))
        with place.open("rb") as opened:
            raw = opened.read(LARGEST_FILE + 1)  # never more, whatever stands behind the name
        if len(raw) > LARGEST_FILE:
            note = f"the file has more than {LARGEST_FILE // 1024} kB, more than any build file"
            raise refusal(file, "file-too-large", note, "is this the build file? It is a short text")
    except FileNotFoundError:
        raise refusal(file, "file-missing", "there is no such file", _similar(place)) from None
    except PermissionError:
        note = "the system does not let you read this file"
        raise refusal(file, "file-not-readable", note, "check its permissions and owner") from None
    except NotADirectoryError:
        inside = next((each for each in place.parents if each.is_file()), place.parent)
        raise refusal(
            file, "file-missing", f"{inside} is a file, so nothing lies in it", f"perhaps {inside}?"
        ) from None
    except (OSError, ValueError) as problem:
        reason = getattr(problem, "strerror", None) or str(problem)
        raise refusal(file, "file-not-readable", f"the file cannot be read: {reason}", "") from None
    return decode(raw, file)


def decode(raw: bytes, file: str) -> str:
    """Decode UTF-8 and refuse everything else with what to do."""
    if not raw.strip():
        raise refusal(file, "file-empty", "the file is empty", "start from an example: hushwright new FILE")
    for mark, name in _WHOLE_FILE_MARKS:
        if raw.startswith(mark):
            raise refusal(file, "file-not-utf8", f"the file is saved as {name}", _UTF8_HINT)
    if b"\x00" in raw:
        zeros = raw.count(b"\x00")
        if zeros > len(raw) // 3 and all(byte < 0x80 for byte in raw[:64]):
            raise refusal(file, "file-not-utf8", "the file is saved as UTF-16 or UTF-32", _UTF8_HINT)
        raise refusal(file, "file-binary", "this is not a text file", "a build file is a text that an editor can open")
    try:
        text = raw.decode("utf-8")
    except UnicodeDecodeError as problem:
        line = raw.count(b"\n", 0, problem.start) + 1
        if _control_share(raw) > 0.05:
            hint = "a build file is a text that an editor can open"
            raise refusal(file, "file-binary", "this is not a text file", hint) from None
        note = f"line {line} holds a character that is not UTF-8 (byte {raw[problem.start]:#04x})"
        raise refusal(file, "file-not-utf8", note, _UTF8_HINT, line=line) from None
    if not text.strip("\ufeff \t\r\n"):
        raise refusal(file, "file-empty", "the file is empty", "start from an example: hushwright new FILE")
    return text


def refusal(file: str, reference: str, note: str, hint: str, *, line: int = 0, value: str = "") -> UnreadableDocument:
    """Make the exception for a whole file that cannot be read."""
    return UnreadableDocument((Diagnostic(reference, Place(file, line), value, note, hint),))


def _control_share(raw: bytes) -> float:
    start = raw[:4096]
    return sum(byte < 0x20 and byte not in b"\t\r\n\f" for byte in start) / len(start)


def _inside(folder: Path) -> str:
    try:
        found = sorted(item.name for item in folder.iterdir() if item.suffix in (".yaml", ".yml"))
    except OSError:
        found = []
    return f"perhaps {folder / found[0]}?" if found else "give the name of the build file in it"


def _similar(path: Path) -> str:
    """Name a file next to the missing one that is called nearly so."""
    from difflib import get_close_matches

    try:
        names = sorted(item.name for item in path.parent.iterdir() if item.is_file())
    except OSError:
        return f"there is no folder {path.parent} either"
    close = get_close_matches(path.name, names, n=1, cutoff=0.6)
    return f"perhaps {path.parent / close[0]}?" if close else "check the name, or start one: hushwright new FILE"
