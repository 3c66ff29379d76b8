"""What is found again after an edit equals what is computed afresh: random edits of the demo, one after the other."""

import json
import random
import subprocess
import sys
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest
from tests.coupled import DEMO, library

from hushwright.document.fields import Section
from hushwright.document.read import read_document_text
from hushwright.document.save import set_value
from hushwright.document.values import Value
from hushwright.errors import UnreadableDocument
from hushwright.evaluation.couple import evaluate
from hushwright.model.resolve import resolve
from hushwright.report.as_json import check_json
from hushwright.verdicts.judge import judge

EDITS = 3


def typed_values(node: Any, path: tuple[str | int, ...] = ()) -> Iterator[tuple[str, Value]]:
    """Quantities of the file without a range, by the path that `set` takes."""
    if isinstance(node, Value):
        if node.text and not node.unknown and ".." not in node.text and node.value > 0.0:
            yield ".".join(map(str, path)), node
    elif isinstance(node, Section):
        for name in node.model_fields_set:
            yield from typed_values(node.__dict__[name], (*path, name))
    elif isinstance(node, (tuple, dict)):
        for key, each in node.items() if isinstance(node, dict) else enumerate(node):
            yield from typed_values(each, (*path, key))


def edited_at_random(text: str, chance: random.Random) -> str:
    """One value a little larger or smaller, such that the file is still a build."""
    document, _ = read_document_text(text, "van.yaml")
    assert document is not None
    places = sorted(typed_values(document.root), key=lambda each: each[0])
    for _ in range(50):
        path, value = chance.choice(places)
        number, _, unit = value.text.partition(" ")
        try:
            moved = f"{float(number) * chance.choice((0.98, 1.02)):.6g} {unit}".strip()
            found = set_value(text, path, moved)
        except (ValueError, UnreadableDocument):
            continue
        changed, problems = read_document_text(found, "van.yaml")
        if changed is None or problems:
            continue
        build, remarks = resolve(changed, library())
        if build is not None and not remarks:
            return found
    raise AssertionError("no value of the demo could be moved")


def judged(text: str) -> dict[str, Any]:
    document, _ = read_document_text(text, "van.yaml")
    assert document is not None
    build, _ = resolve(document, library())
    assert build is not None
    evaluation = evaluate(build)
    found: dict[str, Any] = json.loads(check_json(evaluation, judge(evaluation), [], (), "metric"))
    return found


@pytest.mark.parametrize("seed", [1])
def test_a_chain_of_edits_ends_where_a_fresh_computation_does(seed: int, tmp_path: Path) -> None:
    chance, text = random.Random(seed), DEMO
    for _ in range(EDITS):
        text = edited_at_random(text, chance)
        found = judged(text)
    file = tmp_path / "van.yaml"
    file.write_text(text, encoding="utf-8")
    call = [sys.executable, "-m", "hushwright", "check", str(file), "--json"]
    fresh = json.loads(subprocess.run(call, capture_output=True, text=True, check=False).stdout)
    assert {each["id"]: each for each in found["verdicts"]} == {each["id"]: each for each in fresh["verdicts"]}
