"""The library as one value: find a record by name, list a kind, add a build file's own records."""

from __future__ import annotations

import re
from collections.abc import Callable, Iterable, Mapping
from dataclasses import dataclass
from functools import cache, lru_cache
from typing import TypeVar, overload

from hushwright.library.records import KINDS, Record, kind_of
from hushwright.library.rows import read_table

R = TypeVar("R", bound=Record)


class UnknownRecord(LookupError):
    """No record of that kind has that name; near names are looked for when somebody asks."""

    def __init__(self, kind: str, name: str, near: Callable[[], tuple[str, ...]]) -> None:
        super().__init__(kind, name)
        self.spoken_kind = KINDS[kind].spoken if kind in KINDS else kind
        self.kind = kind
        self.name = name
        self._near = near

    @property
    def suggestions(self) -> tuple[str, ...]:
        """Up to three near names."""
        return self._near()

    def __str__(self) -> str:
        hint = f"; perhaps {' or '.join(self.suggestions)}?" if self.suggestions else ""
        return f"no {self.spoken_kind} is called {self.name!r}{hint}"


@dataclass(frozen=True, slots=True)
class Library:
    """Records by kind. ``own`` are those of a build file; they come first and may replace ours by name."""

    own: tuple[Record, ...] = ()

    def with_own_records(self, records: Iterable[Record]) -> Library:
        """Library with records of a build file added; a later record of the same kind and name replaces."""
        return Library((*self.own, *records))

    def records(self, kind: str) -> Mapping[str, Record]:
        """Records of one kind by name: ours in table order, then the build file's."""
        ours = read_table(_known_kind(kind))
        added = {each.name: each for each in self._own(kind)}
        return {**ours, **added} if added else ours

    def rows(self, kind: str) -> tuple[Record, ...]:
        """Records of one kind in order, for lists."""
        return tuple(self.records(kind).values())

    @overload
    def find(self, kind: type[R], name: str, own: Iterable[Record] = ()) -> R: ...
    @overload
    def find(self, kind: str, name: str, own: Iterable[Record] = ()) -> Record: ...
    def find(self, kind: type[Record] | str, name: str, own: Iterable[Record] = ()) -> Record:
        """Record of a kind by name or alias; case, hyphens, commas, plural and double blanks do not matter.

        Parameters
        ----------
        kind : str or record class
            Kind of record, ``"sheet"`` or ``Sheet``.
        name : str
            Name as typed in a build file.
        own : iterable of Record, optional
            Further records that come before the library's.

        Raises
        ------
        UnknownRecord
            If there is none; carries up to three near names.
        """
        word = _known_kind(kind if isinstance(kind, str) else kind_of(kind).word)
        typed = plain(name)
        added = (*self._own(word), *(each for each in own if kind_of(type(each)).word == word))
        for index in (_index(added), _table_index(word)):
            if typed in index:
                return index[typed]
        raise UnknownRecord(word, name, lambda: _near(typed, {**_table_index(word), **_index(added)}))

    def _own(self, word: str) -> tuple[Record, ...]:
        return tuple(each for each in self.own if kind_of(type(each)).word == word)

    def kind_holding(self, name: str) -> tuple[str, ...]:
        """Kinds in which a record of that name or alias exists, for hints about a wrong kind."""
        typed = plain(name)
        return tuple(word for word in KINDS if typed in _table_index(word) or typed in _index(self._own(word)))


@lru_cache(maxsize=8192)
def plain(name: str) -> str:
    """Name without case, hyphens, underscores, commas, double blanks and plural s."""
    words = re.sub(r"[\s_,\-–]+", " ", name.casefold()).strip().split(" ")
    return " ".join(
        word[:-1] if len(word) > 3 and word.endswith("s") and not word.endswith("ss") else word for word in words
    )


def _known_kind(kind: str) -> str:
    if kind not in KINDS:
        raise UnknownRecord("kind", kind, lambda: tuple(_close(kind, KINDS, 3)))
    return kind


def _close(name: str, among: Iterable[str], count: int) -> list[str]:
    import difflib  # only a slip in typing needs it

    return difflib.get_close_matches(name, list(among), n=count, cutoff=0.6)


@cache
def _table_index(word: str) -> dict[str, Record]:
    return _index(tuple(read_table(word).values()))


def _index(records: Iterable[Record]) -> dict[str, Record]:
    """Plain name or alias → record; names win over aliases, later records over earlier ones."""
    listed = tuple(records)
    index = {plain(alias): record for record in listed for alias in record.aliases}
    index.update({plain(record.name): record for record in listed})
    return index


def _near(typed: str, index: Mapping[str, Record]) -> tuple[str, ...]:
    close = _close(typed, index, 6)
    wanted = {word for word in typed.split(" ") if len(word) > 2}
    sharing = [key for key in index if wanted & set(key.split(" "))]
    return tuple(dict.fromkeys(index[key].name for key in (*close, *sharing)))[:3]
