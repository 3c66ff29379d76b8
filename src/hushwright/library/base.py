"""What every record has: a name, a source, a note, and which of its values the source holds."""

from __future__ import annotations

from dataclasses import dataclass, fields
from functools import cache
from typing import Any

from hushwright.errors import InvalidInput
from hushwright.library.values import NO_SOURCE, Source, Spread

# What matter allows, SI: a slip of a unit shows here, whether in a table or in a build file's own record.
BOUNDS: dict[str, tuple[float, float]] = {
    "density": (1.0, 25e3),
    "youngs_modulus": (1e5, 1.3e12),
    "youngs_modulus_across": (1e5, 1.3e12),
    "modulus": (1e3, 1.3e12),
    "dynamic_modulus": (1e3, 1e11),
    "frame_modulus": (1e2, 1e11),
    "shear_modulus": (1e3, 1e11),
    "poisson": (0.0, 0.4999),
    "loss_factor": (0.0, 3.0),
    "flow_resistivity": (10.0, 1e8),
    "flow_resistivity_along": (10.0, 1e8),
    "porosity": (0.01, 1.0),
    "tortuosity": (1.0, 20.0),
    "viscous_length": (1e-7, 1e-2),
    "thermal_length": (1e-7, 1e-2),
    "open_area_ratio": (0.0, 1.0),
    "hole_radius": (1e-6, 1.0),
    "thickness": (1e-6, 1.0),
    "wheelbase": (1.5, 8.0),
    "skin_thickness": (1e-4, 1e-2),
    "static_stiffness": (1.0, 1e9),
    "shear_stiffness": (1.0, 1e9),
    "dynamic_ratio": (1.0, 10.0),
    "free_height": (1e-3, 1.0),
    "conductivity": (5e-3, 500.0),
    "vapour_resistance_factor": (1.0, 1e9),
    "heat_capacity": (100.0, 5000.0),
}


@dataclass(frozen=True, slots=True, kw_only=True)
class Record:
    """A named row of the library.

    ``cited`` pairs a field with the row of a reference table its value stands in; where a record is partly
    from a source, its other values are typical (common practice, no source) unless the note says otherwise.
    """

    name: str
    source: Source
    note: str = ""
    aliases: tuple[str, ...] = ()
    cited: tuple[tuple[str, str], ...] = ()

    def __post_init__(self) -> None:
        for name, lowest, highest in _bounded(type(self)):  # type: ignore[arg-type]  # mypy asks the instance for its hash
            value = getattr(self, name)
            if not isinstance(value, Spread):
                continue
            if value.low < lowest or value.high > highest or value.value <= 0.0:
                raise InvalidInput(
                    f"{self.name}: {name} is {value.value:g} [{value.low:g}..{value.high:g}];"
                    f" it is above zero, within {lowest:g} to {highest:g}"
                )

    def spread(self, field_name: str) -> Spread:
        """Value and plausible range of one field, in SI.

        Raises
        ------
        InvalidInput
            If the record has no such field, or it holds no spread.
        """
        value = getattr(self, field_name, None)
        if isinstance(value, Spread):
            return value
        known = [each.name for each in fields(self) if isinstance(getattr(self, each.name), Spread)]
        raise InvalidInput(f"{self.name} has no spread {field_name!r}; it has {', '.join(known) or 'none'}")

    def origin(self, field_name: str) -> str:
        """Where one field's value comes from, for people."""
        row = dict(self.cited).get(field_name)
        if row is not None:
            return f"{self.source}; reference row {row}"
        return NO_SOURCE if self.cited or not self.source.published else str(self.source)


@cache
def _bounded(record: type[Any]) -> tuple[tuple[str, float, float], ...]:
    return tuple((each.name, *BOUNDS[each.name]) for each in fields(record) if each.name in BOUNDS)
