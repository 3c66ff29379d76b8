"""Whatever value is set, every other byte of the file stays and reads as before."""

from hypothesis import assume, given, settings
from hypothesis import strategies as st
from tests.unit.document.small_schema import WHOLE, Top

from hushwright.document.nodes import compose
from hushwright.document.read import read_document_text
from hushwright.document.save import set_value
from hushwright.errors import InvalidInput

SCALARS = [
    "people", "title", "vehicle.wheelbase.is", "vehicle.wheelbase.by", "vehicle.rib_depth", "vehicle.side",
    "rooms.quiet_room.front", "rooms.quiet_room.rear", "rooms.quiet_room.layers.0.sheet",
    "rooms.quiet_room.layers.1.cavity", "rooms.quiet_room.layers.2.thickness", "rooms.quiet_room.corner.0",
    "heights.2", "coverage",
]  # fmt: skip
NEW_KEYS = ["note", "vehicle.note", "rooms.quiet_room.note", "rooms.quiet_room.layers.2.note", "vehicle.wheelbase.note"]
PRINTABLE = st.text(st.characters(min_codepoint=32, max_codepoint=0x2FF, exclude_categories=["Cc", "Cs"]), max_size=20)
LINE_ENDS = st.sampled_from(["\n", "\r\n"])


def flat(node, path=()):
    if node.id == "scalar":
        return {path: node.value}
    children = [(key.value, part) for key, part in node.value] if node.id == "mapping" else list(enumerate(node.value))
    return {at: value for key, part in children for at, value in flat(part, (*path, str(key))).items()}


@given(path=st.sampled_from(SCALARS), new=PRINTABLE, line_end=LINE_ENDS, mark=st.booleans())
def test_setting_any_text_leaves_every_other_byte(path, new, line_end, mark):
    assume(not new.strip().startswith(("{", "[", "'", '"')))
    text = ("\ufeff" if mark else "") + WHOLE.replace("\n", line_end)
    changed = set_value(text, path, new)
    start = next((at for at, (a, b) in enumerate(zip(text, changed, strict=False)) if a != b), len(text))
    end = len(text) - next(
        (at for at, (a, b) in enumerate(zip(reversed(text), reversed(changed), strict=False)) if a != b), len(text)
    )
    assert "\n" not in text[start:end]
    assert text.count("\n") == changed.count("\n")
    before, after = flat(compose(text, "")), flat(compose(changed, ""))
    keys = tuple(path.split("."))
    assert after.pop(keys) == new.strip()
    before.pop(keys)
    assert after == before


@given(path=st.sampled_from(NEW_KEYS), new=PRINTABLE, line_end=LINE_ENDS)
def test_adding_a_key_leaves_every_other_byte(path, new, line_end):
    assume(not new.strip().startswith(("{", "[", "'", '"')))
    text = WHOLE.replace("\n", line_end)
    changed = set_value(text, path, new)
    after = flat(compose(changed, ""))
    assert after.pop(tuple(path.split("."))) == new.strip()
    assert after == flat(compose(text, ""))
    added = len(changed) - len(text)
    at = next((at for at, (a, b) in enumerate(zip(text, changed, strict=False)) if a != b), len(text))
    assert any(changed[:cut] + changed[cut + added :] == text for cut in range(max(0, at - added), at + 1))


@given(path=st.sampled_from(SCALARS), new=PRINTABLE)
def test_setting_twice_is_setting_the_last(path, new):
    assume(not new.strip().startswith(("{", "[", "'", '"')))
    once = set_value(WHOLE, path, "first")
    again = set_value(set_value(once, path, new), path, "first")
    assert flat(compose(again, "")) == flat(compose(once, ""))


SIGNS = st.text(alphabet="{}[]:,-#&*!|>'\"%@ \n\tx1m", max_size=6)


@settings(max_examples=300)
@given(cut=st.integers(0, len(WHOLE)), length=st.integers(0, 30), put=SIGNS)
def test_a_damaged_file_is_read_or_refused_and_never_breaks_the_reader(cut, length, put):
    damaged = WHOLE[:cut] + put + WHOLE[cut + length :]
    document, problems = read_document_text(damaged, "van.yaml", Top)
    assert document is not None or problems
    lines = [one.place.line for one in problems]
    assert lines == sorted(lines)


@given(text=st.text(max_size=200))
def test_any_text_is_read_or_refused(text):
    document, problems = read_document_text(text, "van.yaml", Top)
    assert document is not None or problems


@given(path=st.text(alphabet="abvehicl.0123", max_size=12), new=PRINTABLE)
def test_any_path_is_set_or_refused(path, new):
    try:
        set_value(WHOLE, path, new)
    except InvalidInput:
        return
