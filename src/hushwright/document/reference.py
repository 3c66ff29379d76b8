"""The reference page and the JSON schema of the build file, both made from the declared fields.

``python -m hushwright.document.reference --write`` renews the files in ``docs/reference``; without ``--write`` it
tells whether they are up to date.
"""

from __future__ import annotations

import json
import re
import sys
from collections.abc import Sequence
from pathlib import Path
from typing import Any

from hushwright.document.fields import FieldSpec, Section
from hushwright.document.leaves import example_of
from hushwright.document.shapes import Field, Items, Leaf, Named, OneSection, Shape, fields_of, sections_in
from hushwright.document.values import WRITABLE_ORIGINS
from hushwright.library.pages import renew
from hushwright.units import KINDS, format_quantity, spoken

PAGE = "build-file.md"
SCHEMA = "build-file.schema.json"

_HEAD = """# The build file

Made from the declarations of the fields by `python -m hushwright.document.reference --write`; do not edit.

YAML 1.2, saved as UTF-8. `hushwright: 1` at the top names the format. A quantity carries its unit; bare numbers are
read only as counts and shares, and as lengths where the file says `lengths: mm` (or `in`) at the top.
Any quantity may be written in four ways:

| written | means |
| --- | --- |
| `93 mm` | this number, without a spread |
| `85..100 mm` | somewhere between the two, a rectangle with u = width/√12 |
| `{is: 93 mm, from: measured, plus_minus: 2 mm, by: tape}` | with origin and spread; `plus_minus` is 2u, in the unit \
of the value or as a percentage of it; `from` is one of ORIGINS |
| `unknown` | the interval of the library is used, and the value is proposed for measuring |

An empty list, `[]`, means none. Where a list that is left out means something else than none, its sentence says so
("left out, all"), and an empty one is an error.
"""


def reference_page(model: type[Section], *others: type[Section]) -> str:
    """Markdown page of every section and field under a top section, then of other files' top sections."""
    uses = _uses(model)
    units = [
        f"| {spoken(kind.name)} | {', '.join(f'`{text}`' for text in kind.units) or 'none'} | {kind.example} |"
        for kind in KINDS.values()
    ]
    parts = [_HEAD.replace("ORIGINS", ", ".join(f"`{name}`" for name in WRITABLE_ORIGINS))]
    parts.append("## Units\n\n| kind | units | for example |\n| --- | --- | --- |\n" + "\n".join(units) + "\n")
    parts += [_section_text(section, places) for section, places in uses.items()]
    for other in others:
        own = {section: places for section, places in _uses(other).items() if section not in uses}
        parts += [_section_text(section, places, top=other.__name__) for section, places in own.items()]
    return "\n".join(parts)


def _uses(model: type[Section]) -> dict[type[Section], list[tuple[str, ...]]]:
    """Sections in the order in which a reader of the file meets them, with the places of each."""
    found: dict[type[Section], list[tuple[str, ...]]] = {model: [()]}

    def visit(section: type[Section], path: tuple[str, ...]) -> None:
        for name, one in fields_of(section).items():
            for inner, place in sections_in(one.shape, (*path, name)):
                seen = inner in found
                found.setdefault(inner, []).append(place)
                if not seen:
                    visit(inner, place)

    visit(model, ())
    return found


def _section_text(section: type[Section], places: Sequence[tuple[str, ...]], top: str = "") -> str:
    title = _place(places[0]) if places[0] else f"The top of the {_words(top) or 'file'}"
    lines = [f"## {title}", "", " ".join((section.__doc__ or "").split()), ""]
    if len(places) > 1:
        others = [f"`{_place(place)}`" for place in places[1:6]]
        lines += [f"The same under {', '.join(others)}{' …' if len(places) > 6 else ''}.", ""]
    lines += ["| key | what | written as | range | left out |", "| --- | --- | --- | --- | --- |"]
    lines += [_row(one) for one in fields_of(section).values()]
    reasons = [one for one in fields_of(section).values() if one.spec.descriptive]
    if reasons:
        lines += [
            "",
            "Changes no number: " + "; ".join(f"`{one.name}` {one.spec.descriptive}" for one in reasons) + ".",
        ]
    return "\n".join(lines) + "\n"


def _words(name: str) -> str:
    return re.sub("(?<=[a-z])(?=[A-Z])", " ", name).lower()


def _place(path: tuple[str, ...]) -> str:
    return ".".join("⟨item⟩" if key == "*" else key for key in path)


def _row(one: Field) -> str:
    cells = (f"`{one.name}`", one.spec.sentence, _written(one), _range(one.spec), _left_out(one))
    return "| " + " | ".join(cell.replace("|", "\\|") for cell in cells) + " |"


def _written(one: Field) -> str:
    spec = one.spec
    if spec.form == "quantity":
        assert spec.kind is not None
        text = f"{spoken(spec.kind)}, `{example_of(spec)}`"
    elif spec.form == "choice":
        text = ", ".join(f"`{choice}`" for choice in spec.choices)
    elif spec.form == "section":
        return _written_section(one.shape)
    else:
        text = {"count": "whole number", "words": "text", "flag": "`true` or `false`"}[spec.form]
    if isinstance(one.shape, Items):
        return f"list, each {text}"
    return f"by name, each {text}" if isinstance(one.shape, Named) else text


def _written_section(shape: Shape) -> str:
    if isinstance(shape, Items):
        return f"list, each a {_written_section(shape.each[0])}"
    if isinstance(shape, Named):
        return f"by name, each a {_written_section(shape.each)}"
    if isinstance(shape, OneSection) and len(shape.classes) > 1:
        return "section with one of " + ", ".join(f"`{one.key}`" for one in shape.classes)
    return "section"


def _range(spec: FieldSpec) -> str:
    ends = [_bound(spec, end) for end in (spec.low, spec.high)]
    if spec.low is not None and spec.high is not None:
        return f"{ends[0]} to {ends[1]}"
    if spec.low is not None:
        return f"from {ends[0]}"
    return f"up to {ends[1]}" if spec.high is not None else ""


def _bound(spec: FieldSpec, value: float | None) -> str:
    if value is None:
        return ""
    return format_quantity(value, spec.kind or "count", "metric", 4)


def _left_out(one: Field) -> str:
    if one.required:
        return "required"
    if one.spec.default_text:
        return f"`{one.spec.default_text}`"
    return f"from the {one.spec.fallback}" if one.spec.fallback else "nothing"


def json_schema(model: type[Section]) -> dict[str, Any]:
    """JSON schema (2020-12) of the build file, for editors that check while typing."""
    schema: dict[str, Any] = {
        "$schema": "https://json-schema.org/draft/2020-12/schema",
        "title": "Hushwright build file",
        **_object(model),
        "$defs": {"origin": _origin(), **{one.__name__: _object(one) for one in _uses(model) if one is not model}},
    }
    schema["properties"]["lengths"] = {"enum": ["mm", "in"], "description": "Unit of lengths without one."}
    return schema


def _object(model: type[Section]) -> dict[str, Any]:
    fields = fields_of(model)
    return {
        "type": "object",
        "description": " ".join((model.__doc__ or "").split()),
        "properties": {name: _property(one) for name, one in fields.items()},
        "required": [name for name, one in fields.items() if one.required],
        "additionalProperties": False,
    }


def _property(one: Field) -> dict[str, Any]:
    schema = {"description": one.spec.sentence, **_shape(one.spec, one.shape)}
    if one.spec.default_text:
        schema["default"] = one.spec.default_text
    return schema


def _shape(spec: FieldSpec, shape: Shape) -> dict[str, Any]:
    if isinstance(shape, Leaf):
        return _leaf(spec)
    if isinstance(shape, OneSection):
        links = [{"$ref": f"#/$defs/{one.__name__}"} for one in shape.classes]
        return links[0] if len(links) == 1 else {"oneOf": links}
    if isinstance(shape, Named):
        return {"type": "object", "additionalProperties": _shape(spec, shape.each)}
    each = [_shape(spec, one) for one in shape.each]
    if not shape.any_length:
        return {"type": "array", "prefixItems": each, "minItems": len(each), "maxItems": len(each)}
    listed: dict[str, Any] = {"type": "array", "items": each[0]}
    if spec.left_out_means:
        listed["minItems"] = 1
    if spec.form in ("words", "choice"):
        return {"anyOf": [each[0], listed]}
    return listed


def _leaf(spec: FieldSpec) -> dict[str, Any]:
    if spec.form == "quantity":
        assert spec.kind is not None
        note = {"x-kind": spec.kind, "x-unit": KINDS[spec.kind].unit}
        bounds = {"x-low": spec.low, "x-high": spec.high}
        given = {name: bound for name, bound in bounds.items() if bound is not None}
        return {"anyOf": [{"type": ["string", "number"]}, {"$ref": "#/$defs/origin"}], **note, **given}
    if spec.form == "count":
        whole: dict[str, Any] = {"type": "integer"}
        if spec.low is not None:
            whole["minimum"] = int(spec.low)
        if spec.high is not None:
            whole["maximum"] = int(spec.high)
        return whole
    if spec.form == "choice":
        return {"enum": [_yaml_word(choice) for choice in spec.choices]}
    return {"type": "boolean"} if spec.form == "flag" else {"type": ["string", "number"]}


def _yaml_word(choice: str) -> Any:
    return int(choice) if re.fullmatch("[0-9]+", choice) else choice


def _origin() -> dict[str, Any]:
    typed = {"type": ["string", "number"]}
    return {
        "type": "object",
        "description": "A value with its origin and spread.",
        "properties": {"is": typed, "from": {"enum": list(WRITABLE_ORIGINS)}, "plus_minus": typed, "by": typed},
        "required": ["is"],
        "additionalProperties": False,
    }


def rendered(model: type[Section] | None = None) -> dict[str, str]:
    """Texts of the generated files by file name."""
    others: tuple[type[Section], ...] = ()
    if model is None:
        from hushwright.document.schema import BuildFile, PartitionFile

        model, others = BuildFile, (PartitionFile,)
    schema = json.dumps(json_schema(model), ensure_ascii=False, indent=1)
    return {PAGE: reference_page(model, *others), SCHEMA: schema + "\n"}


def main(arguments: Sequence[str]) -> int:
    """Renew or compare the generated files; the folder is the last argument, ``docs/reference`` when left out."""
    named = [argument for argument in arguments if not argument.startswith("--")]
    folder = Path(named[-1]) if named else Path("docs") / "reference"
    return renew({folder / name: text for name, text in rendered().items()}, write="--write" in arguments)


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
