"""Tables to records: one table a kind, read when first asked for."""

from __future__ import annotations

import csv
import io
from collections.abc import Iterator, Mapping
from dataclasses import Field, fields
from functools import cache
from itertools import product
from pathlib import Path
from types import MappingProxyType
from typing import Any

from hushwright.errors import InvalidInput
from hushwright.library.records import KINDS, Kind, Record, Source
from hushwright.library.values import COLUMN_UNITS, Spread

_TABLES = Path(__file__).parent / "tables"


@cache
def read_table(word: str) -> Mapping[str, Record]:
    """Records of one kind by name, in the order of their table."""
    kind = KINDS[word]
    text = (_TABLES / kind.table).read_text(encoding="utf-8")
    records: dict[str, Record] = {}
    for row in _toml_rows(text) if kind.table.endswith(".toml") else csv.DictReader(io.StringIO(text)):
        record = record_from_row(kind, row)
        if record.name in records:
            raise InvalidInput(f"{kind.table}: {record.name!r} stands twice")
        records[record.name] = record
    return MappingProxyType(records)


def record_from_row(kind: Kind, row: Mapping[str, str]) -> Record:
    """One record from one row of its table.

    Raises
    ------
    InvalidInput
        If the source is empty, a column is unknown or missing, or a cell cannot be read; the message names
        table, row and column.
    """
    where = f"{kind.table}: {row.get('name') or 'row without a name'}"
    columns = declared_columns(kind.record)  # type: ignore[arg-type]  # mypy asks the instance for its hash
    unknown = set(row) - set(columns) - set(_COMMON)
    if unknown:
        raise InvalidInput(f"{where}: unknown column {sorted(unknown, key=str)[0]!r}")
    values: dict[str, Any] = {}
    for column, declared in columns.items():
        cell = (row.get(column) or "").strip()
        if cell:
            values[declared.name] = _cell(cell, declared, f"{where}: {column}")
        elif not declared.metadata["optional"]:
            raise InvalidInput(f"{where}: {column} is empty")
    try:
        return kind.record(**_common(row), **values)
    except InvalidInput as problem:
        raise InvalidInput(f"{where}: {problem}") from None


@cache
def declared_columns(record: type[Any]) -> Mapping[str, Field[Any]]:
    """Declared fields of a record class by the title of their table column, ``density [kg/m3]``."""
    found: dict[str, Field[Any]] = {}
    for declared in fields(record):
        if "form" in declared.metadata:
            unit = declared.metadata["unit"]
            found[f"{declared.name} [{unit}]" if unit else declared.name] = declared
    return MappingProxyType(found)


_COMMON = ("name", "aliases", "source", "edition", "page", "found_or_memory", "cited", "note")


def _common(row: Mapping[str, str]) -> dict[str, Any]:
    source = Source(
        text=(row.get("source") or "").strip(),
        edition=(row.get("edition") or "").strip(),
        found_or_memory=row.get("found_or_memory") or "",  # type: ignore[arg-type]  # Source checks the word
        page=(row.get("page") or "").strip(),
    )
    pairs = (pair.partition("=") for pair in (row.get("cited") or "").split())
    name = (row.get("name") or "").strip()
    if not name:
        raise InvalidInput("name is empty")
    return {
        "name": name,
        "source": source,
        "note": (row.get("note") or "").strip(),
        "aliases": _names(row.get("aliases") or ""),
        "cited": tuple((field_name, place) for field_name, _, place in pairs),
    }


def _cell(cell: str, declared: Field[Any], where: str) -> object:
    form, unit = declared.metadata["form"], declared.metadata["unit"]
    if form == "words":
        return cell
    if form == "names":
        return _names(cell)
    factor = COLUMN_UNITS[unit]
    try:
        if form == "number":
            return _scaled(cell, factor)
        if form == "numbers":
            return tuple(_scaled(each, factor) for each in cell.split())
        if form == "points":
            pairs = (each.split(":") for each in cell.split())
            return tuple((_scaled(first, factor), _scaled(second, factor)) for first, second in pairs)
        return read_spread(cell, factor)
    except (ValueError, TypeError) as problem:
        raise InvalidInput(f"{where} is {cell!r}; {problem}") from None


def read_spread(cell: str, factor: float = 1.0) -> Spread:
    """Spread from ``710`` or ``710 [640..760]``, times ``factor``.

    Examples
    --------
    >>> read_spread("9 [8..11]", 1e-3)
    Spread(value=0.009, low=0.008, high=0.011)
    """
    value, bracket, rest = cell.partition("[")
    if not bracket:
        return Spread.point(_scaled(value, factor))
    low, dots, high = rest.strip().removesuffix("]").partition("..")
    if not dots:
        raise InvalidInput("a range is written [low..high]")
    return Spread(_scaled(value, factor), _scaled(low, factor), _scaled(high, factor))


def _scaled(text: str, factor: float) -> float:
    # Factors below one are one over a whole number; dividing keeps 0.9 mm at 0.0009.
    number = float(text)
    return number / round(1.0 / factor) if factor < 1.0 else number * factor


def _names(text: str) -> tuple[str, ...]:
    return tuple(part.strip() for part in text.split(";") if part.strip())


def _toml_rows(text: str) -> Iterator[dict[str, str]]:
    """Rows of a table of parts: every combination of one part from each group, added up by `_merge`."""
    import tomllib  # one table of many needs it

    table = tomllib.loads(text)
    groups = table["combine"]
    for choice in product(*(table[group].items() for group in groups)):
        row: dict[str, str] = dict(table["common"])
        for _, part in choice:
            for column, cell in part.items():
                row[column] = _merge(row.get(column), str(cell))
        label = {word: name for word, (name, _) in zip(groups, choice, strict=True)}
        override: dict[str, object] = next(
            (each for each in table.get("override", ()) if label.items() <= each.items()), {}
        )
        row.update({column: str(cell) for column, cell in override.items() if column not in label})
        row["name"] = table["name"].format(**label)
        row["aliases"] = table.get("aliases", "").format(**label)
        yield row


def _merge(before: str | None, cell: str) -> str:
    """A cell that begins with ``+`` adds to what the parts before gave, value and range alike."""
    if not cell.startswith("+") or before is None:
        return cell
    first, second = read_spread(before), read_spread(cell[1:])
    added = (first.value + second.value, first.low + second.low, first.high + second.high)
    return "{:g} [{:g}..{:g}]".format(*added)
