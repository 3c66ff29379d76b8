"""The reference page and the JSON schema say what the fields declare, and are up to date."""

import json
from pathlib import Path

import pytest
from tests.unit.document.small_schema import Top

from hushwright.document.fields import Section, quantity
from hushwright.document.reference import json_schema, main, reference_page, rendered
from hushwright.document.schema import BuildFile, PartitionFile
from hushwright.document.shapes import fields_of, walk_fields
from hushwright.errors import InvalidInput

FOLDER = Path(__file__).parents[3] / "docs" / "reference"


@pytest.mark.parametrize("name", ["build-file.md", "build-file.schema.json"])
def test_the_written_reference_is_up_to_date(name):
    written = (FOLDER / name).read_text(encoding="utf-8")
    assert written == rendered()[name], "renew it: python -m hushwright.document.reference --write"


def test_every_field_is_on_the_page_with_its_range_and_default():
    page = reference_page(Top)
    for path, _ in walk_fields(Top):
        assert f"| `{path[-1]}` |" in page
    wanted = (
        "| `wheelbase` | Distance between the axle centre lines. | length, `4300 mm` | 2000 mm to 6500 mm | required |"
    )
    assert wanted.split("|")[2] in page
    assert "2000 mm to 6500 mm | required |" in page
    assert "from the library: body" in page
    assert "`title` names the build" in page


def test_walking_the_fields_names_sections_told_apart_by_their_key():
    paths = {".".join(path) for path, _ in walk_fields(Top)}
    assert "rooms.*.layers.*.sheet.thickness" in paths
    assert "rooms.*.layers.*.cavity.fill" in paths


@pytest.mark.parametrize("model", [BuildFile, PartitionFile])
def test_every_declared_example_lies_within_its_own_bounds(model):
    from hushwright.document.leaves import example_of
    from hushwright.units import parse_quantity

    for path, one in walk_fields(model):
        if one.spec.form == "quantity":
            value = parse_quantity(example_of(one.spec), one.spec.kind).value
            assert one.spec.low is None or value >= one.spec.low * (1 - 1e-9), path
            assert one.spec.high is None or value <= one.spec.high * (1 + 1e-9), path


@pytest.mark.parametrize("model", [BuildFile, PartitionFile])
def test_every_field_has_a_sentence(model):
    for path, one in walk_fields(model):
        assert one.spec.sentence.strip().endswith((".", "`", "…")), path


def test_the_json_schema_refers_only_to_what_it_defines():
    schema = json_schema(BuildFile)
    text = json.dumps(schema)
    for part in text.split('"#/$defs/')[1:]:
        assert part.split('"')[0] in schema["$defs"]
    assert schema["required"] == [name for name, one in fields_of(BuildFile).items() if one.required]
    assert schema["additionalProperties"] is False


def test_a_field_without_a_declaration_is_refused():
    class Bare(Section):
        """A section with a field that says nothing about itself."""

        width: float = 1.0

    with pytest.raises(InvalidInput, match="width"):
        fields_of(Bare)


def test_a_union_of_sections_without_keys_is_refused():
    class Some(Section):
        """One."""

    class Other(Section):
        """Another."""

    class Holder(Section):
        """Holds either."""

        either: Some | Other = quantity("length", "Either.")

    with pytest.raises(InvalidInput, match="key"):
        fields_of(Holder)


def test_the_command_renews_and_compares(tmp_path, capsys):
    assert main([str(tmp_path)]) == 1
    assert "out of date" in capsys.readouterr().out
    assert main(["--write", str(tmp_path)]) == 0
    assert main([str(tmp_path)]) == 0
