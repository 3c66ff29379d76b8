"""What tells verdicts apart that ask one question in one state: the run, the mount or the circuit each is on."""

from __future__ import annotations

from collections.abc import Sequence
from itertools import takewhile

from hushwright.verdicts.verdict import Verdict


def told_apart(listed: Sequence[Verdict]) -> list[str]:
    """For verdicts with one question in one state, what each is on; empty where the question alone is enough."""
    ends = ["-" + one.state.replace("_", "-") if one.state else "" for one in listed]
    names = [one.id.removesuffix(end).split("-") for one, end in zip(listed, ends, strict=True)]
    alike: dict[tuple[str, str], list[list[str]]] = {}
    for one, name in zip(listed, names, strict=True):
        alike.setdefault((one.question, one.state), []).append(name)
    found = []
    for one, name in zip(listed, names, strict=True):
        same = alike[one.question, one.state]
        shared = sum(1 for _ in takewhile(lambda words: len(set(words)) == 1, zip(*same, strict=False)))
        found.append(" ".join(name[shared:]))  # a question that is there once shares all its words with itself
    return found
