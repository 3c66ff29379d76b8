"""One build-up on its own, from a partition file."""

from __future__ import annotations

from dataclasses import dataclass, replace

import numpy as np

from hushwright.document.document import Document
from hushwright.document.schema import PartitionFile
from hushwright.document.schema.vehicle import Vehicle
from hushwright.errors import Diagnostic, InvalidInput
from hushwright.evaluation.layers import acoustic_layers
from hushwright.evaluation.results import FacePrediction, Resonance
from hushwright.evaluation.sound.faces import Setting
from hushwright.evaluation.sound.links import bands, slit_area
from hushwright.evaluation.sound.predictions import face_prediction
from hushwright.library.library import Library
from hushwright.library.records import Seal
from hushwright.model.build import LayerInPlace
from hushwright.model.layers import resolve_layers
from hushwright.model.own_records import library_with
from hushwright.model.taking import Taker
from hushwright.model.vehicle import resolve_vehicle
from hushwright.physics.acoustics.bridges import Bridge, LineBridge, PointBridge
from hushwright.physics.acoustics.glazing import sealed_unit_bridges
from hushwright.physics.acoustics.partition import Partition
from hushwright.physics.acoustics.ratings import rate
from hushwright.physics.air import Air

__all__ = ["SinglePartition", "evaluate_partition"]

_SEAL_LAND = 0.03  # m, way through the slit beside a leaf, at most
_USUAL_SIDE = 1.0  # m


@dataclass(frozen=True, slots=True)
class SinglePartition:
    """Prediction of one build-up, its resonances, and what was assumed."""

    face: FacePrediction
    resonances: tuple[Resonance, ...]
    mass_air_mass: tuple[float, ...]
    assumptions: tuple[str, ...]


def evaluate_partition(
    document: Document[PartitionFile], library: Library
) -> tuple[SinglePartition | None, tuple[Diagnostic, ...]]:
    """Sound reduction of the build-up in a partition file.

    Parameters
    ----------
    document : Document
        The partition file, read.
    library : Library
        Records it may name.

    Returns
    -------
    tuple of SinglePartition or None and diagnostics
        `None` when an error leaves nothing to compute.
    """
    found, problems = _evaluated(document, library)
    if found is not None or document.stand_in is None:
        return found, problems
    # What follows from a refused value changes, or is gone, where another value stands in its place.
    others = set(_evaluated(document.stand_in, library)[1])
    return None, tuple(each for each in problems if each in others)


def _evaluated(
    document: Document[PartitionFile], library: Library
) -> tuple[SinglePartition | None, tuple[Diagnostic, ...]]:
    root = document.root
    taker = Taker(document, library, {})  # type: ignore[arg-type]
    taker.library = library_with(taker, root.library)
    vehicle = resolve_vehicle(taker, root.vehicle or Vehicle())
    if vehicle is None:
        return None, tuple(taker.diagnostics)
    layers = resolve_layers(taker, root.layers, ("layers",), vehicle)
    sides = _sides(taker, root)
    bridges = _bridges(taker, root, sides[0] * sides[1])
    temperature = taker.quantity(("air_temperature",), root.air_temperature, "temperature")
    if any(each.severity == "error" for each in taker.diagnostics) or not layers:
        return None, tuple(taker.diagnostics)
    setting = Setting(Air(temperature), temperature, vehicle, taker.library)
    acoustic = acoustic_layers(layers, vehicle, taker.library, temperature, height=sides[1])
    try:
        spacers = sealed_unit_bridges(acoustic, sides[0], sides[1])
        partition = Partition(acoustic, sides[0], sides[1], (*bridges, *spacers))
    except InvalidInput as problem:
        taker.say("partition-impossible", ("layers",), "", str(problem), "check the sizes")
        return None, tuple(taker.diagnostics)
    face, resonances = face_prediction(root.title or "build-up", "", partition, partition.area, "layers", setting)
    face = _with_seal(taker, root, face, sides, sum(layer.thickness for layer in layers), setting)
    found = tuple(each.frequency for each in resonances if each.kind == "mass-air-mass")
    single = SinglePartition(face, tuple(resonances), found, _assumed(taker, layers))
    return single, tuple(taker.diagnostics)


def _assumed(taker: Taker, layers: tuple[LayerInPlace, ...]) -> tuple[str, ...]:
    """What was filled in and matters: of the vehicle only its skin, and only where a layer is that skin."""
    on_skin = any(layer.kind == "skin" for layer in layers)
    return tuple(
        each.text
        for each in taker.assumptions.values()
        if not each.path.startswith("vehicle.") or (on_skin and each.path.startswith("vehicle.skin."))
    )


def _sides(taker: Taker, root: PartitionFile) -> tuple[float, float]:
    if root.width is not None and root.height is not None:
        return taker.quantity(("width",), root.width, "length"), taker.quantity(("height",), root.height, "length")
    if root.area is None:
        taker.say("value-needed", (), "size", "the build-up has no size", "give `area`, or `width` and `height`")
        return _USUAL_SIDE, _USUAL_SIDE
    side = taker.quantity(("area",), root.area, "area") ** 0.5
    return side, side


def _bridges(taker: Taker, root: PartitionFile, area: float) -> tuple[Bridge, ...]:
    found: list[Bridge] = []
    for index, bridge in enumerate(root.bridges):
        at = ("bridges", index)
        if bridge.kind == "line":
            if bridge.spacing is None:
                taker.say("value-needed", at, "line", "a line bridge needs its spacing", "add `spacing: 600 mm`")
                continue
            spacing = taker.quantity((*at, "spacing"), bridge.spacing, "length")
            stiffness = None if bridge.line_stiffness is None else bridge.line_stiffness.value
            found.append(LineBridge(1.0 / spacing, stiffness))
        elif bridge.number is None:
            taker.say("value-needed", at, "point", "point bridges need their number", "add `number: 24`")
        else:
            each = None if bridge.stiffness is None else bridge.stiffness.value
            found.append(PointBridge(bridge.number / area, each))
    return tuple(found)


def _with_seal(
    taker: Taker, root: PartitionFile, face: FacePrediction, sides: tuple[float, float], depth: float, setting: Setting
) -> FacePrediction:
    """Leaf and slit together."""
    if root.seal is None:
        return face
    seal = taker.record(Seal, root.seal.seal, ("seal", "seal"))
    if seal is None:
        return face
    gap = taker.quantity(("seal", "residual_gap"), root.seal.residual_gap, "length", fallback=seal.residual_gap,
                         source=str(seal.source))  # fmt: skip
    if gap < 1e-6:
        return face
    length = 2.0 * (sides[0] + sides[1])
    slit = np.asarray(slit_area(gap, min(depth, _SEAL_LAND), length, root.seal.rows, setting))
    through = face.area * 10.0 ** (-np.asarray(face.reduction) / 10.0) + slit
    reduction = bands(-10.0 * np.log10(through / face.area))
    rating = rate(reduction)
    return replace(face, reduction=reduction, rw=rating.rw, c=rating.spectrum_adaptation_term_c,
                   ctr=rating.spectrum_adaptation_term_ctr, stc=rating.stc, oitc=rating.oitc)  # fmt: skip
