"""What every record has: a name, a source, a note, and which of its values the source holds."""

from __future__ import annotations

from dataclasses import dataclass, fields

from hushwright.errors import InvalidInput
from hushwright.library.values import NO_SOURCE, Source, Spread


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
