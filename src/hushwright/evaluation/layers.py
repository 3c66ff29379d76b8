"""Layers in place → acoustic layers: which sheets act together, how the skin is damped, how large a bay is."""

from __future__ import annotations

from collections.abc import Sequence
from functools import lru_cache

from hushwright.library.library import Library
from hushwright.library.records import (
    Blanket,
    ClosedFoam,
    Covering,
    DampingLayer,
    Facing,
    Glass,
    LimpBarrier,
    Sheet,
    ViscoelasticCore,
)
from hushwright.model.build import CavityInPlace, LayerInPlace, VehicleInPlace
from hushwright.physics.acoustics.bands import FREQUENCIES
from hushwright.physics.acoustics.layers import BondedPlates, DampedPlate, Layer, LimpMass, LooseBoards, Plate
from hushwright.physics.acoustics.plates import mounted_loss_factor
from hushwright.physics.acoustics.spaces import Gap, GluedFoam, PerforatedFacing, Porous, PorousLayer

_CLOTH_LEAST = 1e-4  # m; thinner cloth is still a layer with its flow resistance


def porous_of(blanket: Blanket) -> Porous:
    """Acoustic values of a blanket."""
    return Porous(
        blanket.flow_resistivity.value,
        blanket.porosity.value,
        blanket.tortuosity.value,
        blanket.density.value,
        None if blanket.viscous_length is None else blanket.viscous_length.value,
        None if blanket.thermal_length is None else blanket.thermal_length.value,
    )


@lru_cache(maxsize=64)
def pad_losses(pad: DampingLayer, temperature: float) -> tuple[float, ...]:
    """Loss factor of a damping pad per third octave at its temperature."""
    return tuple(pad.loss_factor_at(temperature, float(frequency)) for frequency in FREQUENCIES)


def acoustic_layers(
    layers: Sequence[LayerInPlace],
    vehicle: VehicleInPlace | None,
    library: Library,
    temperature: float,
    *,
    height: float,
) -> tuple[Layer, ...]:
    """Acoustic layers, outside in.

    Parameters
    ----------
    layers : sequence of LayerInPlace
        Layers, outside first.
    vehicle : VehicleInPlace or None
        Gives the beading of the skin.
    library : Library
        Interlayers of laminated glass.
    temperature : float
        Of the damping pads [°C].
    height : float
        Length of a bay along ribs or battens [m].

    Returns
    -------
    tuple of Layer
        Acoustic layers.
    """
    found: list[Layer] = []
    index = 0
    while index < len(layers):
        layer = layers[index]
        if layer.kind in ("skin", "sheet", "glass"):
            run = _run(layers, index)
            found.append(_panel(run, vehicle, library, temperature))
            index += len(run)
            continue
        found += _single(layer, height)
        index += 1
    return tuple(found)


def _run(layers: Sequence[LayerInPlace], start: int) -> Sequence[LayerInPlace]:
    """Sheets that act together from one on: with their damping, cores, and boards directly behind."""
    end = start + 1
    while end < len(layers) and layers[end].kind in ("damping", "core", "sheet", "glass"):
        end += 1
    return layers[start:end]


def _panel(
    run: Sequence[LayerInPlace], vehicle: VehicleInPlace | None, library: Library, temperature: float
) -> Layer:
    if len(run) == 1:
        return _one(run[0], vehicle, library)
    if run[1].kind == "damping" and len(run) == 2:
        return _damped(run[0], run[1], vehicle, temperature)
    cores = [layer for layer in run if layer.kind == "core"]
    plates = [_plate(layer, vehicle) for layer in run if layer.kind in ("skin", "sheet", "glass")]
    if cores and len(plates) == len(cores) + 1:
        return _bonded(tuple(plates), cores)
    if any(layer.kind == "damping" for layer in run):
        return _damped_stack(run, plates, temperature)
    if any(layer.joint == "loose" for layer in run[1:]):
        return LooseBoards(tuple(plates))
    return _as_one(plates)


def _one(layer: LayerInPlace, vehicle: VehicleInPlace | None, library: Library) -> Layer:
    record = layer.record
    if isinstance(record, Glass) and record.interlayer and record.interlayer_thickness is not None:
        core = library.find(ViscoelasticCore, record.interlayer)
        panes = tuple(_pane(record, thickness) for thickness in record.pane_thicknesses(layer.thickness))
        return BondedPlates(panes, record.interlayer_thickness.value, core.density.value, core.shear_modulus.value,
                            core.loss_factor.value)  # fmt: skip
    return _plate(layer, vehicle)


def _pane(glass: Glass, thickness: float) -> Plate:
    loss = mounted_loss_factor(glass.loss_factor.value, glass.density.value, glass.youngs_modulus.value)
    return Plate(thickness, glass.density.value, glass.youngs_modulus.value, glass.poisson.value, loss)


def _plate(layer: LayerInPlace, vehicle: VehicleInPlace | None) -> Plate:
    record = layer.record
    if isinstance(record, Glass):
        return _pane(record, layer.thickness)
    assert isinstance(record, Sheet)
    modulus = record.youngs_modulus.value
    across = None if record.youngs_modulus_across is None else record.youngs_modulus_across.value
    if layer.kind == "skin" and vehicle is not None and vehicle.beading > 1.0:
        modulus, across = modulus * vehicle.beading, modulus
    loss = mounted_loss_factor(record.loss_factor.value, record.density.value, record.youngs_modulus.value)
    return Plate(layer.thickness, record.density.value, modulus, record.poisson.value, loss, across)


def _damped(
    sheet: LayerInPlace, pad: LayerInPlace, vehicle: VehicleInPlace | None, temperature: float
) -> DampedPlate | Plate:
    return _with_pad(_plate(sheet, vehicle), pad, temperature)


def _with_pad(plate: Plate, pad: LayerInPlace, temperature: float) -> DampedPlate | Plate:
    record = pad.record
    assert isinstance(record, DampingLayer)
    if pad.coverage <= 0.0:
        return plate
    return DampedPlate(plate, pad.thickness, record.density.value, record.modulus.value,
                       pad_losses(record, temperature), pad.coverage)  # fmt: skip


def _damped_stack(run: Sequence[LayerInPlace], plates: list[Plate], temperature: float) -> Layer:
    """Glued sheets with one pad somewhere on them: the pad damps the whole."""
    pad = next(layer for layer in run if layer.kind == "damping")
    return _with_pad(_as_one(plates), pad, temperature)


def _bonded(plates: tuple[Plate, ...], cores: Sequence[LayerInPlace]) -> BondedPlates:
    """Plates with viscoelastic layers between; several cores act as one of their mean thickness."""
    record = cores[0].record
    assert isinstance(record, ViscoelasticCore)
    thickness = sum(core.thickness for core in cores) / len(cores)
    return BondedPlates(plates, thickness, record.density.value, record.shear_modulus.value, record.loss_factor.value)


def _as_one(plates: Sequence[Plate]) -> Plate:
    """Glued sheets as one plate: same mass, thickness and bending stiffness about the common neutral plane."""
    if len(plates) == 1:
        return plates[0]
    thickness = sum(plate.thickness for plate in plates)
    density = sum(plate.surface_density for plate in plates) / thickness
    poisson = sum(plate.poisson * plate.thickness for plate in plates) / thickness
    loss = sum(plate.loss_factor * plate.thickness for plate in plates) / thickness
    along = _laminate_modulus(plates, [plate.youngs_modulus for plate in plates], thickness)
    if all(plate.youngs_modulus_across is None for plate in plates):
        return Plate(thickness, density, along, poisson, loss)
    moduli = [plate.youngs_modulus_across or plate.youngs_modulus for plate in plates]
    across = _laminate_modulus(plates, moduli, thickness)
    return Plate(thickness, density, along, poisson, loss, across)


def _laminate_modulus(plates: Sequence[Plate], moduli: Sequence[float], thickness: float) -> float:
    """Modulus of the plain plate that is as stiff in bending as the laminate (classical laminate theory)."""
    middles, height = [], 0.0
    for plate in plates:
        middles.append(height + plate.thickness / 2.0)
        height += plate.thickness
    areas = [modulus * plate.thickness for modulus, plate in zip(moduli, plates, strict=True)]
    neutral = sum(area * middle for area, middle in zip(areas, middles, strict=True)) / sum(areas)
    bending = sum(
        area * (plate.thickness**2 / 12.0 + (middle - neutral) ** 2)
        for area, plate, middle in zip(areas, plates, middles, strict=True)
    )
    return 12.0 * bending / thickness**3


def _single(layer: LayerInPlace, height: float) -> list[Layer]:
    record = layer.record
    if layer.is_cavity:
        return [_gap(layer, height)]
    if isinstance(record, LimpBarrier | Covering):
        return [LimpMass(layer.surface_density, layer.thickness)]
    if isinstance(record, Blanket):
        return [PorousLayer(porous_of(record), layer.thickness)]
    if isinstance(record, ClosedFoam):
        return [GluedFoam(record.dynamic_stiffness(layer.thickness).value, layer.thickness, record.density.value,
                          record.loss_factor.value)]  # fmt: skip
    if isinstance(record, DampingLayer):
        return [LimpMass(layer.surface_density, layer.thickness)]
    assert isinstance(record, Facing)
    return [_facing(record, layer)]


def _facing(record: Facing, layer: LayerInPlace) -> Layer:
    if record.open_area_ratio is not None and record.hole_radius is not None:
        return PerforatedFacing(layer.thickness, record.density.value, record.open_area_ratio.value,
                                record.hole_radius.value)  # fmt: skip
    resistance = record.flow_resistance.value if record.flow_resistance is not None else 0.0
    thickness = max(layer.thickness, _CLOTH_LEAST)
    return PorousLayer(Porous(max(resistance / thickness, 100.0), 0.9, 1.0, record.density.value), thickness)


def gap_depth(layer: LayerInPlace) -> float:
    """Depth of air of a cavity [m]: as built up, with the space between bows."""
    return layer.thickness + (layer.cavity.extra_depth if layer.cavity is not None else 0.0)


def _gap(layer: LayerInPlace, height: float) -> Gap:
    space = layer.cavity
    assert space is not None
    depth = gap_depth(layer)
    spacing = _bay_spacing(space)
    bay = (None, None) if spacing is None else (2.0 * (spacing + height), spacing * height)
    fill = None if space.fill is None or space.fill_thickness <= 0.0 else porous_of(space.fill)
    thickness = min(space.fill_thickness, depth) if fill is not None else 0.0
    return Gap(depth, fill, thickness, bay[0], bay[1])


def _bay_spacing(space: CavityInPlace) -> float | None:
    """Width of a bay: ribs if they stand in the space, else battens, else the whole face."""
    if space.ribs is not None and space.ribs.depth > 0.0:
        return space.ribs.spacing
    return space.frame.spacing if space.frame is not None and space.frame.depth > 0.0 else None
