"""Names of records that hold metric sizes, in US units: the name stays, and its size stands beside it."""

from __future__ import annotations

import re
from functools import cache
from typing import Final

from hushwright.library.read import read_library
from hushwright.library.records import KINDS
from hushwright.units import Kind, System, format_quantity, parse_quantity

_KINDS: Final[dict[str, Kind]] = {
    "kg/m3": "density", "kg/m2": "surface_density", "N/mm": "stiffness", "mm": "length", "degC": "temperature",
}  # fmt: skip
_SIZE: Final = re.compile(
    rf"((?:minus )?\d+(?:\.\d+)?(?: x \d+(?:\.\d+)?)*) ({'|'.join(re.escape(unit) for unit in _KINDS)})(?!\w)"
)


def sized_name(name: str, system: System) -> str:
    """Name of a record as a list shows it: in US units with its metric size told in those, in brackets.

    Parameters
    ----------
    name : str
        Name of a record, or any other, which stays as it is.
    system : {"metric", "us"}
        Units.

    Examples
    --------
    >>> sized_name("rock wool 40 kg/m3", "us"), sized_name("rock wool 40 kg/m3", "metric")
    ('rock wool 40 (2.5 lb/ft³)', 'rock wool 40 kg/m3')
    >>> sized_name("rubber bobbin 20 x 15 mm, 45 IRHD", "us")
    'rubber bobbin 20 x 15 mm, 45 IRHD (0.787 × 0.591 in)'
    """
    return name if system == "metric" else _sized().get(name, name)


def short_name(name: str, system: System) -> str:
    """Name by which a record is found just as well, without a metric unit where it has such a name.

    Examples
    --------
    >>> short_name("rock wool 40 kg/m3", "us"), short_name("birch plywood", "us")
    ('rock wool 40', 'birch plywood')
    """
    return name if system == "metric" else names_with_sizes().get(name, name)


@cache
def names_with_sizes() -> dict[str, str]:
    """Names of records that hold metric sizes, longest first, with their first other name that does not."""
    library = read_library()
    records = [record for kind in KINDS for record in library.rows(kind)]
    found = {
        record.name: next((alias for alias in record.aliases if not _SIZE.search(alias)), record.name)
        for record in records
        if _SIZE.search(record.name)
    }
    return dict(sorted(found.items(), key=lambda pair: -len(pair[0])))


@cache
def _sized() -> dict[str, str]:
    return {name: f"{short} ({', '.join(_told(*size.groups()) for size in _SIZE.finditer(name))})"
            for name, short in names_with_sizes().items()}  # fmt: skip


def _told(numbers: str, unit: str) -> str:
    """A size in US units; of several numbers only the last has the unit."""
    kind = _KINDS[unit]
    spelt = {"degC": "°C"}.get(unit, unit)
    values = [parse_quantity(f"{number.replace('minus ', '-')} {spelt}", kind).value for number in numbers.split(" x ")]
    if kind == "length":
        return " × ".join(f"{value / 0.0254:.3g}" for value in values) + " in"
    return " × ".join(format_quantity(value, kind, "us", digits=3) for value in values)
