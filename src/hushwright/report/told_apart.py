"""What tells verdicts apart that ask one question in one state: the run, the mount or the circuit each is on."""

from __future__ import annotations

from collections.abc import Hashable, Sequence
from itertools import takewhile

from hushwright.verdicts.verdict import Verdict


def told_apart(listed: Sequence[Verdict]) -> list[str]:
    """For verdicts with one question in one state, what each is on; empty where the question alone is enough."""
    ends = ["-" + one.state.replace("_", "-") if one.state else "" for one in listed]
    names = [one.id.removesuffix(end) for one, end in zip(listed, ends, strict=True)]
    return apart([(one.question, one.state) for one in listed], names)


def apart(asked: Sequence[Hashable], names: Sequence[str]) -> list[str]:
    """Words of each name after those that all share that ask the same; none where something is asked once.

    Examples
    --------
    >>> apart(["draught?", "draught?", "heat?"], ["draught-supply-record", "draught-fresh-air-drive", "warmest-drive"])
    ['supply record', 'fresh air drive', '']
    """
    words = [name.split("-") for name in names]
    alike: dict[Hashable, list[list[str]]] = {}
    for key, each in zip(asked, words, strict=True):
        alike.setdefault(key, []).append(each)
    found = []
    for key, each in zip(asked, words, strict=True):
        shared = sum(1 for _ in takewhile(lambda same: len(set(same)) == 1, zip(*alike[key], strict=False)))
        found.append(" ".join(each[shared:]))  # what is there once shares all its words with itself
    return found
