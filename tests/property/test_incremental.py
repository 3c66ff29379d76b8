"""What is found again after an edit equals what is computed afresh: random edits of the demo, one after the other."""

import json
import random
import subprocess
import sys
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest
from tests.coupled import DEMO, edited, evaluation_of, library

from hushwright.document.document import Document
from hushwright.document.fields import Section
from hushwright.document.read import read_document_text
from hushwright.document.save import set_value
from hushwright.document.values import Value
from hushwright.errors import UnreadableDocument
from hushwright.evaluation.evaluate import couple, evaluate
from hushwright.model.build import Build
from hushwright.model.resolve import resolve
from hushwright.report.as_json import check_json
from hushwright.verdicts.judge import judge

CHOSEN = (
    ("cavity: 93", ("cavity: 88", "cavity: 97")),
    ("residual_gap: 0..0.1 mm", ("residual_gap: 0.2 mm", "residual_gap: 0..0.3 mm")),
    ("rear: 4050", ("rear: 4020",)),
    ("coverage: 30 %", ("coverage: 45 %",)),
    ("along: 4", ("along: 3",)),
)
"""Edits that turn what the laws take over from one computation to the next: shapes, slits, mounts, damping."""


MONEY = {"labour", "options", "prices"}
"""Parts that nothing coupled hangs on; what they come to is held to work by hand."""
EDITS_IN = {"air": 2, "brief": 4, "openings": 2, "surfaces": 2}


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


def read(text: str) -> Document:
    document, problems = read_document_text(text, "van.yaml")
    assert document is not None, problems
    return document


def edited_at_random(text: str, top: str, chance: random.Random) -> str:
    """One value of a part a little larger or smaller, such that the file is still a build."""
    places = sorted((each for each in typed_values(read(text).root) if each[0].split(".")[0] == top),
                    key=lambda each: each[0])  # fmt: skip
    chance.shuffle(places)
    for path, value in places[:20]:
        number, _, unit = value.text.partition(" ")
        try:
            found = set_value(text, path, f"{float(number) * chance.choice((0.98, 1.02)):.6g} {unit}".strip())
        except (ValueError, UnreadableDocument):
            continue
        changed, problems = read_document_text(found, "van.yaml")
        if changed is None or problems:
            continue
        build, remarks = resolve(changed, library())
        if build is not None and not remarks:
            return found
    return text


def built(text: str) -> Build:
    build, remarks = resolve(read(text), library())
    assert build is not None, remarks
    return build


def computed(text: str) -> dict[str, Any]:
    """Every verdict, and every quantity with its uncertainty."""
    evaluation = evaluate(built(text))
    verdicts = json.loads(check_json(evaluation, judge(evaluation), [], (), "metric"))["verdicts"]
    spread = {key: [each.value, each.standard_uncertainty] for key, each in evaluation.quantities.items()}
    return {"verdicts": {each["id"]: each for each in verdicts}, "quantities": json.loads(json.dumps(spread))}


def coupled(text: str) -> dict[str, list[float]]:
    """Every quantity with what its own law adds to its uncertainty."""
    return {key: [each.value, each.method_uncertainty] for key, each in couple(built(text)).quantities.items()}


FRESH = """
import json, sys
from tests.property.test_incremental import computed, coupled
texts = json.load(sys.stdin)
print(json.dumps([computed(texts[-1]), *(coupled(text) for text in reversed(texts))]))
"""


def fresh(texts: list[str]) -> list[dict[str, Any]]:
    """The last one complete, and all of them the other way round, by a process that has computed nothing before.

    What is wrongly taken over from one text to the next is then taken over the other way, and so differs.
    """
    done = subprocess.run([sys.executable, "-c", FRESH], input=json.dumps(texts), capture_output=True, text=True,
                          check=True, cwd=Path(__file__).resolve().parents[2])  # fmt: skip
    found: list[dict[str, Any]] = json.loads(done.stdout)
    return found


@pytest.mark.parametrize("seed", [1])
def test_a_chain_of_edits_ends_where_a_fresh_computation_does(seed: int) -> None:
    """One edit in every part, each computed on the way; the shares of the inputs before and after all of them."""
    chance, text = random.Random(seed), DEMO
    evaluation_of(DEMO)
    texts, touched = [DEMO], set()
    for top in sorted({path.split(".")[0] for path, _ in typed_values(read(DEMO).root)} - MONEY):
        for _ in range(EDITS_IN.get(top, 1)):
            text = edited_at_random(text, top, chance)
            if text != texts[-1]:
                touched.add(top)
                texts.append(text)
    for old, news in chance.sample(CHOSEN, 3):
        text = edited(text, (old, chance.choice(news))) if old in text else text
        texts.append(text)
    assert {"air", "brief", "climate", "fittings", "mounts", "openings", "power", "rooms", "safety", "signals",
            "surfaces", "treatments", "vehicle"} <= touched  # fmt: skip
    steps = [coupled(each) for each in texts]
    last, *others = fresh(texts)
    for before, text, warm, cold in zip(texts[:-1], texts[1:], steps[1:], others[::-1][1:], strict=True):
        assert warm == cold, changes(before, text)
    assert computed(texts[-1]) == last


def changes(before: str, after: str) -> list[str]:
    """Lines that an edit has changed."""
    return [new for old, new in zip(before.splitlines(), after.splitlines(), strict=False) if old != new]
