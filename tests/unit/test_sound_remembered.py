"""Sound is remembered by what it reads of a build: a field that it reads and that is not compared would be a trap."""

import gc
import sys
from dataclasses import fields
from functools import _lru_cache_wrapper, cache
from pathlib import Path

import pytest
from tests.coupled import build_of, edited

from hushwright.evaluation.couple import couple
from hushwright.evaluation.sound import heard
from hushwright.evaluation.sound.heard import HEARD_OF_BRIEF, HEARD_OF_BUILD
from hushwright.model.build import Build
from hushwright.model.wishes import BriefInPlace

EXAMPLES = Path(__file__).resolve().parents[2] / "examples"
TEXTS = {path.stem: path.read_text(encoding="utf-8") for path in sorted(EXAMPLES.glob("*.yaml"))}


class Watched:
    """A field that notes when it is read, copies of a value left out."""

    def __init__(self, name: str, slot: object, read: set[str]) -> None:
        self.name, self.slot, self.read = name, slot, read

    def __get__(self, owner: object, kind: type | None = None) -> object:
        if owner is None:
            return self
        if sys._getframe(1).f_code.co_name != "replace":
            self.read.add(self.name)
        return self.slot.__get__(owner, kind)  # type: ignore[attr-defined]

    def __set__(self, owner: object, value: object) -> None:
        self.slot.__set__(owner, value)  # type: ignore[attr-defined]


@cache
def _memories(_modules: int) -> list[_lru_cache_wrapper]:
    found = [one for one in gc.get_objects() if isinstance(one, _lru_cache_wrapper)]
    return [one for one in found if str(getattr(one, "__module__", "")).startswith("hushwright.eval")]


def forget() -> None:
    for one in _memories(len(sys.modules)):  # looked for again only where a module has come
        one.cache_clear()


@pytest.mark.parametrize("example", sorted(TEXTS))
def test_sound_reads_nothing_of_a_build_that_its_memory_does_not_compare(
    example: str, monkeypatch: pytest.MonkeyPatch
) -> None:
    build = build_of(TEXTS[example])
    read: set[str] = set()
    plain = heard._sounds_of

    def watched(*given, **named):  # type: ignore[no-untyped-def]
        with monkeypatch.context() as patched:
            for kind in (Build, BriefInPlace):
                for each in fields(kind):
                    told = Watched(f"{kind.__name__}.{each.name}", kind.__dict__[each.name], read)
                    patched.setattr(kind, each.name, told)
            return plain(*given, **named)

    monkeypatch.setattr(heard, "_sounds_of", watched)
    forget()
    couple(build)
    compared = {f"Build.{each}" for each in (*HEARD_OF_BUILD, "brief")}
    assert read
    assert read <= compared | {f"BriefInPlace.{each}" for each in HEARD_OF_BRIEF}


def test_what_sound_does_not_read_finds_it_again_and_what_it_reads_does_not() -> None:
    before = couple(build_of(TEXTS["archive-van"]))
    taller = couple(build_of(edited(TEXTS["archive-van"], ("tallest: 1800", "tallest: 1807"))))
    heavier = couple(build_of(edited(TEXTS["archive-van"], ("cavity: 93", "cavity: 91"))))
    assert all(one is other for one, other in zip(before.backgrounds, taller.backgrounds, strict=True))
    assert before.quantities["background/quay/record"].value != heavier.quantities["background/quay/record"].value
