"""Fields of the build file: each declared once with kind, sentence, bounds and default.

The reader, the JSON schema, the reference page and the error texts all use the one declaration::

    class Vehicle(Section):
        \"\"\"The van as it comes.\"\"\"

        wheelbase: Quantity = quantity("length", "Distance between the axle centre lines.", low=2.0, high=6.5)
        rib_depth: Quantity | None = quantity("length", "Depth of the ribs.", low=0, high=0.2, default=None)
        heights: tuple[Quantity, ...] = quantity("length", "Heights of the section.", low=0, high=3.5)
        doors: dict[str, Door] = section("Doors by name.", default={})
        layers: tuple[Sheet | Cavity, ...] = section("Layers from outside in.")

A union of sections is told apart by which key is there: each class names its own in the class attribute
``key``, and the field of that name is required (``class Sheet(Section): key = "sheet"; sheet: str = words("…")``).
Tuples (``tuple[X, ...]`` or of fixed length), ``dict[str, X]`` and ``X | None`` go with every form of field.
"""

from __future__ import annotations

import re
from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from typing import Annotated, Any, ClassVar, Literal, NoReturn, Self

from pydantic import BaseModel, ConfigDict, Field, InstanceOf, model_validator

from hushwright.document.quantities import value_from_plain
from hushwright.document.values import Value
from hushwright.errors import InvalidInput
from hushwright.units import KINDS, Kind, parse_quantity

Form = Literal["quantity", "count", "words", "choice", "flag", "section"]
Quantity = Annotated[Value, InstanceOf()]
REQUIRED: Any = ...


@dataclass(frozen=True, slots=True)
class FieldSpec:
    """What is declared about one field, whatever reads it.

    ``low`` and ``high`` are in SI. ``default_text`` is the default as the file would say it, ``fallback`` the
    place from which a left-out value is filled. ``descriptive`` is the reason why the field changes no number.
    """

    form: Form
    sentence: str
    kind: Kind | None = None
    low: float | None = None
    high: float | None = None
    choices: tuple[str, ...] = ()
    default_text: str = ""
    fallback: str = ""
    descriptive: str = ""
    shortest: int = 0
    longest: int | None = None

    @property
    def left_out_means(self) -> str:
        """What it means that the field is left out, where that is something else than nothing: from its sentence.

        Examples
        --------
        >>> FieldSpec("words", "States in which it is on; left out, all.").left_out_means
        'all'
        """
        _, found, rest = self.sentence.partition("eft out, ")
        return re.split(r"[;.]", rest, maxsplit=1)[0] if found else ""

    def __call__(self, schema: dict[str, Any]) -> None:
        """Add what the field says to a JSON schema node (pydantic calls this)."""
        schema["description"] = self.sentence


class FrozenDict(dict[str, Any]):
    """A dict that refuses change and can be hashed, so that a section that holds one stays a value."""

    def __hash__(self) -> int:  # type: ignore[override]
        return hash(frozenset(self.items()))

    def _refuse(self, *_args: object, **_kwargs: object) -> NoReturn:
        raise TypeError(f"a section of the build file is frozen; make a new document (keys here: {', '.join(self)})")

    __setitem__ = __delitem__ = clear = pop = popitem = setdefault = update = __ior__ = _refuse

    def __copy__(self) -> FrozenDict:
        return self

    def __deepcopy__(self, _memo: object) -> FrozenDict:
        return self

    def __reduce__(self) -> tuple[type[FrozenDict], tuple[dict[str, Any]]]:
        return FrozenDict, (dict(self),)

    def replaced(self, key: str, value: object) -> FrozenDict:
        """Return a copy with one entry replaced."""
        return FrozenDict({**self, key: value})


class Section(BaseModel):
    """Base of every part of the build file: frozen, no key beyond the declared ones."""

    model_config = ConfigDict(frozen=True, extra="forbid", defer_build=True)
    key: ClassVar[str] = ""

    def contradictions(self) -> tuple[tuple[str, str, str], ...]:
        """Problems between the fields of this section, each as field name (or ""), note and hint.

        A section overrides this for what it can tell without the library and without its neighbours.
        """
        return ()

    @model_validator(mode="before")
    @classmethod
    def _read_plain_values(cls, raw: Any) -> Any:
        """Let Python callers and tests write values as the file does (text) or in SI (numbers)."""
        if not isinstance(raw, Mapping):
            return raw
        specs = field_specs(cls)
        return {name: _typed(specs[name], item) if name in specs else item for name, item in raw.items()}

    @model_validator(mode="after")
    def _freeze_maps(self) -> Self:
        for name, item in self.__dict__.items():
            if type(item) is dict:
                self.__dict__[name] = FrozenDict(item)
        return self


def field_specs(model: type[BaseModel]) -> dict[str, FieldSpec]:
    """Return the declarations of a section by field name, in the order of the class."""
    known = _SPECS.get(model)
    if known is None:
        known = {
            name: info.json_schema_extra
            for name, info in model.model_fields.items()
            if isinstance(info.json_schema_extra, FieldSpec)
        }
        _SPECS[model] = known
    return known


_SPECS: dict[type[BaseModel], dict[str, FieldSpec]] = {}


def _typed(spec: FieldSpec, raw: Any) -> Any:
    if spec.form != "quantity" or raw is None or isinstance(raw, Value):
        return raw
    assert spec.kind is not None
    if isinstance(raw, (list, tuple)):
        return tuple(_typed(spec, item) for item in raw)
    if isinstance(raw, Mapping) and "is" not in raw:
        return {name: _typed(spec, item) for name, item in raw.items()}
    return value_from_plain(raw, spec.kind)


def _declare(spec: FieldSpec, default: Any) -> Any:
    if isinstance(default, dict):
        default = FrozenDict(default)
    elif isinstance(default, list):
        default = tuple(default)
    if default is REQUIRED:
        return Field(description=spec.sentence, json_schema_extra=spec)
    return Field(default=default, description=spec.sentence, json_schema_extra=spec)


def quantity(
    kind: Kind,
    sentence: str,
    *,
    low: float | None = None,
    high: float | None = None,
    default: Any = REQUIRED,
    fallback: str = "",
    descriptive: str = "",
    shortest: int = 0,
    longest: int | None = None,
) -> Any:
    """Declare a quantity of one kind.

    Parameters
    ----------
    kind
        Name in :data:`hushwright.units.KINDS`.
    sentence
        What the value is, one sentence.
    low, high
        Bounds in SI, both included; no bound when left out.
    default
        Text as the file would say it (``"20 mm"``), ``None`` or a container; required when left out.
    fallback
        Where a left-out value is filled from, for example ``"library: body"``.
    descriptive
        Reason why the field changes no number.
    shortest, longest
        Number of items when the field is a list.
    """
    if kind not in KINDS:
        raise InvalidInput(f"no kind of quantity is named {kind!r}; there are {', '.join(KINDS)}")
    text = default if isinstance(default, str) else ""
    spec = FieldSpec(
        "quantity", sentence, kind, low, high, default_text=text, fallback=fallback, descriptive=descriptive,
        shortest=shortest, longest=longest,
    )  # fmt: skip
    if text:
        default = Value(parse_quantity(text, kind).value, origin="assumed", text=text)
    return _declare(spec, default)


def count(
    sentence: str, *, low: int | None = 0, high: int | None = None, default: Any = REQUIRED, descriptive: str = ""
) -> Any:
    """Declare a whole number; ``low`` and ``high`` are included."""
    text = str(default) if isinstance(default, int) else ""
    spec = FieldSpec("count", sentence, None, low, high, default_text=text, descriptive=descriptive)
    return _declare(spec, default)


def words(
    sentence: str, *, default: Any = REQUIRED, fallback: str = "", descriptive: str = "", longest: int | None = None
) -> Any:
    """Declare free text or a name."""
    text = default if isinstance(default, str) else ""
    spec = FieldSpec("words", sentence, default_text=text, fallback=fallback, descriptive=descriptive, longest=longest)
    return _declare(spec, default)


def choice(
    sentence: str, choices: Iterable[str], *, default: Any = REQUIRED, fallback: str = "", descriptive: str = ""
) -> Any:
    """Declare one word out of a closed list."""
    allowed = tuple(choices)
    if isinstance(default, str) and default not in allowed:
        raise InvalidInput(f"default {default!r} is not one of {', '.join(allowed)}")
    text = default if isinstance(default, str) else ""
    spec = FieldSpec("choice", sentence, choices=allowed, default_text=text, fallback=fallback, descriptive=descriptive)
    return _declare(spec, default)


def flag(sentence: str, *, default: Any = REQUIRED, descriptive: str = "") -> Any:
    """Declare a yes or no."""
    text = {True: "true", False: "false"}.get(default, "") if isinstance(default, bool) else ""
    return _declare(FieldSpec("flag", sentence, default_text=text, descriptive=descriptive), default)


def section(
    sentence: str,
    *,
    default: Any = REQUIRED,
    fallback: str = "",
    descriptive: str = "",
    shortest: int = 0,
    longest: int | None = None,
) -> Any:
    """Declare a section, a list of sections, or a map of sections by name."""
    spec = FieldSpec(
        "section", sentence, fallback=fallback, descriptive=descriptive, shortest=shortest, longest=longest
    )
    return _declare(spec, default)
