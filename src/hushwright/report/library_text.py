"""The library as text: kinds, records of a kind, one record in full."""

from __future__ import annotations

from typing import Any, Final

from hushwright.library.catalogue import Column, columns
from hushwright.library.library import Library
from hushwright.library.records import KINDS, Limit, Record
from hushwright.library.values import NO_SOURCE, Spread
from hushwright.report.labels import heading as words
from hushwright.report.labels import label
from hushwright.report.layout import WIDTH, counted, heading, labelled, shortened, table, wrapped
from hushwright.report.units_out import restated, shown, shown_name
from hushwright.units import Kind, System, format_quantity

# Unit of a library column → kind of quantity; a column whose unit is not here is written as it stands.
_KIND_OF_UNIT: Final[dict[str, Kind]] = {
    "dB": "level", "degC": "temperature", "°C": "temperature", "kg": "mass", "kg/m2": "surface_density",
    "kg/m3": "density", "m": "length", "mm": "length", "um": "length", "m2": "area", "N": "force",
    "N/m": "force_per_length", "N/mm": "stiffness", "MPa": "modulus", "GPa": "modulus", "Pa s/m2": "flow_resistivity",
    "Hz": "frequency", "mm/h": "rain_rate", "m/s": "speed", "dB(A)": "level_a", "Pa": "pressure", "-": "count",
    "K": "count", "m3/s": "volume_flow", "s": "time", "V": "voltage", "A": "current", "ohm": "resistance",
    "F/m": "capacitance_per_length",
}  # fmt: skip
_KIND_OF_LIMIT: Final[dict[str, Kind]] = {
    "carbon dioxide in rooms": "concentration", "carbon dioxide that warns": "concentration",
    "shear stress of sheet": "modulus", "snubber stiffness": "stiffness", "hinge stiffness": "stiffness",
}  # fmt: skip
"""Limits whose unit stands for more than one kind."""

_SPELLED: Final[dict[System, dict[str, tuple[float, str]]]] = {
    "metric": {"Pa s/m": (1.0, "Pa·s/m"), "W/(m K)": (1.0, "W/(m·K)"), "J/(kg K)": (1.0, "J/(kg·K)")},
    "us": {"Pa s/m": (1.0, "rayl"), "W/(m K)": (1.730735, "BTU/(h·ft·°F)"), "J/(kg K)": (4186.8, "BTU/(lb·°F)")},
}
"""Size and name of units that quantities of a build file do not have; the international BTU."""

_NOT_PRINTED: Final = "0 where it is not printed"
_COLUMNS_IN_A_LIST = 4
_NAME_WIDTH = 44


def kinds_text(library: Library) -> str:
    """List of the kinds with how many records each holds."""
    rows = [(word, kind.plural, counted(len(library.rows(word)), "record")) for word, kind in KINDS.items()]
    how = wrapped(
        "hushwright materials KIND lists the records of one kind, KIND NAME shows one of them in full.", indent=2
    )
    return "\n".join([*heading(words("materials"))[1:], *table(rows, right=(2,)), "", *how])


def kind_text(library: Library, kind: str, system: System) -> str:
    """List of the records of one kind with their main values."""
    records = library.rows(kind)
    short = [each for each in columns(kind) if _in_list(each, records)][:_COLUMNS_IN_A_LIST]
    rows = _list_rows(records, short, system)
    while short and max(map(len, rows)) > WIDTH:
        short.pop()
        rows = _list_rows(records, short, system)
    title = f"{KINDS[kind].plural} ({kind}), {counted(len(records), 'record')}"
    return "\n".join([*heading(title)[1:], *rows])


def _list_rows(records: tuple[Record, ...], chosen: list[Column], system: System) -> list[str]:
    rows = [("", *(_title(each) for each in chosen), label("source"))]
    rows += [
        (
            shortened(shown_name(record.name, system), _NAME_WIDTH),
            *(_written(record, each, system, with_range=False) for each in chosen),
            record.source.found_or_memory,
        )
        for record in records
    ]
    return table(rows, right=range(1, len(chosen) + 1))


def record_text(record: Record, kind: str, system: System) -> str:
    """One record in full: every value with its range and where it is from."""
    lines = [*heading(f"{shown_name(record.name, system)} ({kind})")[1:]]
    for column in columns(kind):
        text = _written(record, column, system, with_range=True)
        if text:
            lines += labelled(_title(column), text, column=30)
            lines += wrapped(restated(column.sentence, system), indent=30, hanging=30)
            lines += wrapped(_origin(record, column.field), indent=30, hanging=30)
    lines += ["", *labelled(label("aliases"), "; ".join(record.aliases), column=16)]
    lines += labelled(label("source"), str(record.source), column=16)
    lines += labelled(label("note"), restated(record.note, system), column=16)
    return "\n".join(lines)


def _origin(record: Record, field: str) -> str:
    """Where one value is from, where that differs from the record's own source."""
    row = dict(record.cited).get(field)
    if row is not None:
        return f"[row {row} of the source]"
    return f"[{NO_SOURCE}]" if record.origin(field) == NO_SOURCE and record.source.published else ""


def _title(column: Column) -> str:
    return column.field.replace("_", " ").replace("youngs", "Young's").replace("poisson", "Poisson's ratio")


def _in_list(column: Column, records: tuple[Record, ...]) -> bool:
    """Whether a column is short enough for a list and not empty throughout."""
    values = [getattr(record, column.field) for record in records]
    short = all(
        isinstance(value, (Spread, float)) or value is None or (isinstance(value, str) and len(value) < 14)
        for value in values
    )
    return short and any(value not in (None, "") for value in values)


def _written(record: Record, column: Column, system: System, *, with_range: bool) -> str:
    value = getattr(record, column.field)
    unit = record.unit if isinstance(record, Limit) and column.field == "value" else column.unit
    if value == 0.0 and _NOT_PRINTED in column.sentence:
        return ""
    kind = _KIND_OF_LIMIT.get(record.name) if isinstance(record, Limit) else None
    if isinstance(value, Spread):

        def write(number: float) -> str:
            return _quantity(number, unit, system) if kind is None else shown(number, kind, system)

        text = write(value.value)
        if with_range and value.low != value.high:
            ends = f"{write(value.low)} to {write(value.high)}"
            text += f"   ({label('range')} {ends})"
        return text
    return _plain(value, unit, system)


def _plain(value: Any, unit: str, system: System) -> str:
    if value is None or value == ():
        return ""
    if isinstance(value, float):
        return _quantity(value, unit, system)
    if isinstance(value, tuple):
        return ", ".join(_pair(each, unit, system) for each in value)
    return str(value)


def _pair(value: Any, unit: str, system: System) -> str:
    if not isinstance(value, tuple):
        return _plain(value, unit, system)
    units = unit.split(":") if ":" in unit else [unit] * len(value)
    return " at ".join(_plain(each, one, system) for each, one in zip(reversed(value), reversed(units), strict=False))


def _quantity(value: float, unit: str, system: System) -> str:
    """Library value, held in SI, with its unit."""
    if unit in _SPELLED[system]:
        size, name = _SPELLED[system][unit]
        return f"{float(f'{value / size:.3g}'):g} {name}"
    kind = _KIND_OF_UNIT.get(unit)
    if kind is None:
        return f"{value:g} {unit}".rstrip()
    if kind == "length" and system == "us" and unit == "mm":
        return format_quantity(value, kind, system, digits=3)  # sheets and fills: a tape's fractions are too coarse
    if unit == "K":
        return f"{value:g} K" if system == "metric" else f"{value * 1.8:g} °F"
    if unit == "um":
        return f"{value * 1e6:g} µm" if system == "metric" else f"{value / 0.0254 * 1e3:.3g} mil"
    if kind == "modulus":
        return format_quantity(value, kind, system, digits=3)
    return f"{value:.4g}" if kind == "count" else shown(value, kind, system)
