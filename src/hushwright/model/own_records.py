"""Records that the build file brings along."""

from __future__ import annotations

from hushwright.document.schema.own_records import (
    OwnBlanket,
    OwnLimp,
    OwnRecords,
    OwnSeal,
    OwnSheet,
    OwnSpectrum,
)
from hushwright.document.values import Value
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

_HALF_OF_95_PERCENT = 2.0


def records_of(own: OwnRecords | None) -> tuple[Record, ...]:
    """Library records from the `library` section."""
    if own is None:
        return ()
    return (
        *(_sheet(each) for each in own.sheets),
        *(_limp(each) for each in own.limp_barriers),
        *(_blanket(each) for each in own.blankets),
        *(_seal(each) for each in own.seals),
        *(_situation(each) for each in own.situations),
    )


def _spread(value: Value) -> Spread:
    half = _HALF_OF_95_PERCENT * value.standard_uncertainty
    return Spread(value.value, value.value - half, value.value + half)


def _source(text: str) -> Source:
    return Source(text or "the build file, no source given", found_or_memory="typical")


def _sheet(own: OwnSheet) -> Sheet:
    return Sheet(
        name=own.name, source=_source(own.source), density=_spread(own.density),
        youngs_modulus=_spread(own.youngs_modulus),
        youngs_modulus_across=None if own.youngs_modulus_across is None else _spread(own.youngs_modulus_across),
        poisson=_spread(own.poisson), loss_factor=_spread(own.loss_factor),
    )  # fmt: skip


def _limp(own: OwnLimp) -> LimpBarrier:
    return LimpBarrier(name=own.name, source=_source(own.source), density=_spread(own.density))


def _blanket(own: OwnBlanket) -> Blanket:
    return Blanket(
        name=own.name, source=_source(own.source), flow_resistivity=_spread(own.flow_resistivity),
        flow_resistivity_along=None, porosity=_spread(own.porosity), tortuosity=_spread(own.tortuosity),
        viscous_length=None, thermal_length=None, density=_spread(own.density), frame_modulus=None,
    )  # fmt: skip


def _seal(own: OwnSeal) -> Seal:
    return Seal(
        name=own.name, source=_source(own.source), force_per_length=_spread(own.force_per_length),
        residual_gap=_spread(own.residual_gap), lowest_compression=Spread.point(0.0),
        highest_compression=Spread.point(0.01), joint_reduction=None,
    )  # fmt: skip


def _situation(own: OwnSpectrum) -> OutdoorSituation:
    pairs = [
        (31.5 if field == "hz_31" else float(field.removeprefix("hz_")), value.value)
        for field in type(own.octaves).model_fields
        if (value := getattr(own.octaves, field)) is not None
    ]
    return OutdoorSituation(
        name=own.name, source=_source(own.source), width="octave", from_where="all round",
        frequency=tuple(pair[0] for pair in pairs), level=tuple(pair[1] for pair in pairs), standard_uncertainty=5.0,
    )  # fmt: skip
