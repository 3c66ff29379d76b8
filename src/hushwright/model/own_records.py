"""Records that the build file brings along."""

from __future__ import annotations

import math
from collections.abc import Callable, Iterator
from functools import partial
from typing import Any

from hushwright.document.schema.own_records import (
    OwnBlanket,
    OwnLimp,
    OwnRecords,
    OwnSeal,
    OwnSheet,
    OwnSpectrum,
)
from hushwright.document.values import Value
from hushwright.errors import InvalidInput
from hushwright.library.library import Library
from hushwright.library.records import (
    Blanket,
    LimpBarrier,
    OutdoorSituation,
    Record,
    Seal,
    Sheet,
    Source,
    Spread,
)
from hushwright.model.octaves import unbroken_octaves
from hushwright.model.taking import Path, Taker
from hushwright.units import Kind

_HALF_WIDTH = math.sqrt(3.0)  # half width of the rectangle with a standard uncertainty of one
_UNSOURCED = 5.0  # dB, standard uncertainty of a spectrum without a published source


def library_with(taker: Taker, own: OwnRecords | None) -> Library:
    """Library of a build: ours, and the records of the `library` section; one that cannot be is left out and noted."""
    return taker.library.with_own_records(_records(taker, own)) if own is not None else taker.library


def _records(taker: Taker, own: OwnRecords) -> Iterator[Record]:
    for group, make in _MAKERS.items():
        for index, each in enumerate(getattr(own, group)):
            path: Path = ("library", group, index)
            unknown = [name for name, value in each.__dict__.items() if isinstance(value, Value) and value.unknown]
            if unknown:
                taker.say("value-needed", (*path, unknown[0]), "unknown", "a record of one's own needs its values",
                          "type a value with its unit")  # fmt: skip
                continue
            try:
                yield make(taker, each, path)
            except InvalidInput as problem:
                taker.say("record-impossible", path, each.name, str(problem), "check the units of the record")


def _spread(taker: Taker, path: Path, own: object, name: str, kind: Kind) -> Spread:
    """Value as the build takes it, with the rectangle that has its standard uncertainty."""
    given: Value = getattr(own, name)
    label = f"{getattr(own, 'name', '')} {name.replace('_', ' ')}"
    value = taker.quantity((*path, name), given, kind, label=label)
    half = _HALF_WIDTH * given.standard_uncertainty
    return Spread(value, value - half, value + half)


def _source(text: str) -> Source:
    return Source(text.strip() or "the build file, no source given", found_or_memory="typical")


def _sheet(taker: Taker, own: OwnSheet, path: Path) -> Sheet:
    spread = partial(_spread, taker, path, own)
    across = None if own.youngs_modulus_across is None else spread("youngs_modulus_across", "modulus")
    return Sheet(
        name=own.name, source=_source(own.source), density=spread("density", "density"),
        youngs_modulus=spread("youngs_modulus", "modulus"), youngs_modulus_across=across,
        poisson=spread("poisson", "count"), loss_factor=spread("loss_factor", "count"),
    )  # fmt: skip


def _limp(taker: Taker, own: OwnLimp, path: Path) -> LimpBarrier:
    return LimpBarrier(name=own.name, source=_source(own.source),
                       density=_spread(taker, path, own, "density", "density"))  # fmt: skip


def _blanket(taker: Taker, own: OwnBlanket, path: Path) -> Blanket:
    spread = partial(_spread, taker, path, own)
    return Blanket(
        name=own.name, source=_source(own.source), flow_resistivity=spread("flow_resistivity", "flow_resistivity"),
        flow_resistivity_along=None, porosity=spread("porosity", "share"), tortuosity=spread("tortuosity", "count"),
        viscous_length=None, thermal_length=None, density=spread("density", "density"), frame_modulus=None,
    )  # fmt: skip


def _seal(taker: Taker, own: OwnSeal, path: Path) -> Seal:
    return Seal(
        name=own.name, source=_source(own.source), force_per_length=Spread.point(_USUAL_FORCE),
        residual_gap=_spread(taker, path, own, "residual_gap", "length"), lowest_compression=Spread.point(0.0),
        highest_compression=Spread.point(0.01), joint_reduction=None,
    )  # fmt: skip


_USUAL_FORCE = 80.0  # N/m of seal; common practice, no source


def _situation(taker: Taker, own: OwnSpectrum, path: Path) -> OutdoorSituation:
    pairs = unbroken_octaves(taker, own.octaves, (*path, "octaves"))
    if not pairs:
        raise InvalidInput(f"{own.name} has no octave levels")
    return OutdoorSituation(
        name=own.name, source=_source(own.source), width="octave", from_where="all round",
        frequency=tuple(pair[0] for pair in pairs), level=tuple(pair[1] for pair in pairs),
        standard_uncertainty=_UNSOURCED,
    )  # fmt: skip


_MAKERS: dict[str, Callable[[Taker, Any, Path], Record]] = {
    "sheets": _sheet,
    "limp_barriers": _limp,
    "blankets": _blanket,
    "seals": _seal,
    "situations": _situation,
}
