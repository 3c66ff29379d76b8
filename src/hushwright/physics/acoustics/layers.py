"""The layers of a partition as small values, outside in: plates and barriers here, spaces one import away."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TypeAlias

from hushwright.errors import InvalidInput
from hushwright.physics.acoustics.spaces import (
    Gap,
    GluedFoam,
    PerforatedFacing,
    Porous,
    PorousLayer,
    require_range,
)

__all__ = [
    "BondedPlates", "DampedPlate", "Gap", "GluedFoam", "Layer", "LimpMass", "LooseBoards", "Panel", "PerforatedFacing",
    "Plate", "Porous", "PorousLayer",
]  # fmt: skip


@dataclass(frozen=True, slots=True)
class Plate:
    """Homogeneous thin plate with bending stiffness.

    Parameters
    ----------
    thickness : float
        Thickness [m]; 0 stands for no plate.
    density : float
        Density [kg/m³].
    youngs_modulus : float
        Young's modulus along the height [Pa]; 0 makes the plate limp.
    poisson : float
        Poisson's ratio [-], 0 to 0.5.
    loss_factor : float
        Loss factor of the mounted plate in place [-].
    youngs_modulus_across : float or None, optional
        Young's modulus across the width [Pa] of an orthotropic sheet (beads, plywood); None for an isotropic one.

    Raises
    ------
    InvalidInput
        If a value is outside what a solid can have.

    References
    ----------
    .. [1] L. Cremer, M. Heckl and B. A. T. Petersson, *Structure-Borne Sound*, 3rd ed., Springer, 2005, ch. 3.

    Examples
    --------
    >>> round(Plate(0.001, 7850.0, 207e9, 0.3, 0.01).surface_density, 2)
    7.85
    """

    thickness: float
    density: float
    youngs_modulus: float
    poisson: float
    loss_factor: float
    youngs_modulus_across: float | None = None

    def __post_init__(self) -> None:
        require_range("plate thickness", self.thickness, 0.0, 1.0, "m")
        require_range("plate density", self.density, 0.0, 25_000.0, "kg/m³", open_low=True)
        require_range("Young's modulus", self.youngs_modulus, 0.0, 1e14, "Pa")
        require_range("Poisson's ratio", self.poisson, 0.0, 0.5, "")
        require_range("loss factor", self.loss_factor, 0.0, 2.0, "")
        if self.youngs_modulus_across is not None:
            require_range("Young's modulus across", self.youngs_modulus_across, 0.0, 1e14, "Pa")

    @property
    def surface_density(self) -> float:
        """Mass per area [kg/m²]."""
        return self.thickness * self.density

    @property
    def bending_stiffness(self) -> float:
        """Bending stiffness per width along the height [N·m]."""
        return self.youngs_modulus * self.thickness**3 / (12.0 * (1.0 - self.poisson**2))

    @property
    def bending_stiffness_across(self) -> float:
        """Bending stiffness per width across the width [N·m]."""
        if self.youngs_modulus_across is None:
            return self.bending_stiffness
        return self.youngs_modulus_across * self.thickness**3 / (12.0 * (1.0 - self.poisson**2))

    @property
    def extensional_stiffness(self) -> float:
        """Stretching stiffness per width [N/m]."""
        return self.youngs_modulus * self.thickness / (1.0 - self.poisson**2)

    @property
    def shear_stiffness(self) -> float:
        """Transverse shear stiffness per width with factor 5/6 [N/m]."""
        return 5.0 / 6.0 * self.youngs_modulus / (2.0 * (1.0 + self.poisson)) * self.thickness


@dataclass(frozen=True, slots=True)
class DampedPlate:
    """Plate with a free viscoelastic layer stuck on a share of its area.

    Parameters
    ----------
    plate : Plate
        The plate that is damped (its thickness [m] and so on).
    pad_thickness : float
        Thickness of the pad [m].
    pad_density : float
        Density of the pad [kg/m³].
    pad_modulus : float
        Young's modulus of the pad at its temperature [Pa].
    pad_loss_factor : float or tuple of float
        Loss factor of the pad at its temperature [-], one value or one per third octave, 27 values from 25 Hz.
    coverage : float
        Share of the area that is covered [-], 0 to 1.

    Raises
    ------
    InvalidInput
        If a value is outside what a pad can have.

    References
    ----------
    .. [1] H. Oberst, *Acustica* 2 (1952), Akustische Beihefte 181–194.

    Examples
    --------
    >>> steel = Plate(0.0008, 7850.0, 207e9, 0.3, 0.005)
    >>> round(DampedPlate(steel, 0.002, 1600.0, 0.5e9, 0.3, 0.5).surface_density, 2)
    7.88
    """

    plate: Plate
    pad_thickness: float
    pad_density: float
    pad_modulus: float
    pad_loss_factor: float | tuple[float, ...]
    coverage: float

    def __post_init__(self) -> None:
        require_range("pad thickness", self.pad_thickness, 0.0, 0.1, "m")
        require_range("pad density", self.pad_density, 0.0, 10_000.0, "kg/m³", open_low=True)
        require_range("pad modulus", self.pad_modulus, 0.0, 1e11, "Pa")
        require_range("pad coverage", self.coverage, 0.0, 1.0, "")
        if isinstance(self.pad_loss_factor, tuple) and len(self.pad_loss_factor) != 27:
            raise InvalidInput(f"{len(self.pad_loss_factor)} pad loss factors given; 27 third octaves are needed")
        for value in self.pad_losses:
            require_range("pad loss factor", value, 0.0, 3.0, "")

    @property
    def pad_losses(self) -> tuple[float, ...]:
        """Loss factor of the pad [-], one value or 27."""
        return self.pad_loss_factor if isinstance(self.pad_loss_factor, tuple) else (self.pad_loss_factor,)

    @property
    def thickness(self) -> float:
        """Thickness [m] where the pad is."""
        return self.plate.thickness + (self.pad_thickness if self.coverage > 0.0 else 0.0)

    @property
    def surface_density(self) -> float:
        """Mass per area with the pad counted at its coverage [kg/m²]."""
        return self.plate.surface_density + self.coverage * self.pad_thickness * self.pad_density


@dataclass(frozen=True, slots=True)
class BondedPlates:
    """Plates glued by a thin viscoelastic core that shears (laminated glass, boards with damping glue).

    Parameters
    ----------
    plates : tuple of Plate
        The plates, two or more (thickness [m] and so on in each).
    core_thickness : float
        Thickness of each core [m].
    core_density : float
        Density of the core [kg/m³].
    core_shear_modulus : float
        Storage shear modulus of the core at its temperature [Pa].
    core_loss_factor : float
        Loss factor of the core in shear [-].

    Raises
    ------
    InvalidInput
        If there are fewer than two plates or a value is impossible.

    References
    ----------
    .. [1] D. Ross, E. E. Ungar and E. M. Kerwin, "Damping of plate flexural vibrations by means of viscoelastic
       laminae", in *Structural Damping*, ASME, 1959.

    Examples
    --------
    >>> pane = Plate(0.004, 2500.0, 63.7e9, 0.24, 0.02)
    >>> round(BondedPlates((pane, pane), 0.00076, 1070.0, 1e8, 0.5).surface_density, 1)
    20.8
    """

    plates: tuple[Plate, ...]
    core_thickness: float
    core_density: float
    core_shear_modulus: float
    core_loss_factor: float

    def __post_init__(self) -> None:
        if len(self.plates) < 2:
            raise InvalidInput(f"{len(self.plates)} plate is bonded; a bond needs two or more")
        require_range("core thickness", self.core_thickness, 0.0, 0.1, "m", open_low=True)
        require_range("core density", self.core_density, 0.0, 10_000.0, "kg/m³", open_low=True)
        require_range("core shear modulus", self.core_shear_modulus, 0.0, 1e11, "Pa", open_low=True)
        require_range("core loss factor", self.core_loss_factor, 0.0, 3.0, "")

    @property
    def thickness(self) -> float:
        """Thickness of all plates and cores [m]."""
        return sum(p.thickness for p in self.plates) + (len(self.plates) - 1) * self.core_thickness

    @property
    def surface_density(self) -> float:
        """Mass per area [kg/m²]."""
        cores = (len(self.plates) - 1) * self.core_thickness * self.core_density
        return sum(p.surface_density for p in self.plates) + cores


@dataclass(frozen=True, slots=True)
class LooseBoards:
    """Boards that lie on each other unbonded: masses and bending stiffnesses add.

    Parameters
    ----------
    plates : tuple of Plate
        The boards (thickness [m] and so on in each).

    Raises
    ------
    InvalidInput
        If there is no board.

    References
    ----------
    .. [1] B. H. Sharp, *Noise Control Engineering* 11 (1978) 53–63: laminated boards spot-joined keep the coincidence
       of one.

    Examples
    --------
    >>> board = Plate(0.0125, 680.0, 2.03e9, 0.3, 0.03)
    >>> LooseBoards((board, board)).surface_density
    17.0
    """

    plates: tuple[Plate, ...]

    def __post_init__(self) -> None:
        if not self.plates:
            raise InvalidInput("0 boards given; a stack of loose boards needs one or more")

    @property
    def thickness(self) -> float:
        """Thickness of the stack [m]."""
        return sum(p.thickness for p in self.plates)

    @property
    def surface_density(self) -> float:
        """Mass per area [kg/m²]."""
        return sum(p.surface_density for p in self.plates)


@dataclass(frozen=True, slots=True)
class LimpMass:
    """Heavy sheet without bending stiffness (loaded barrier).

    Parameters
    ----------
    surface_density : float
        Mass per area [kg/m²].
    thickness : float, optional
        Thickness [m], which only counts for the build-up.

    Raises
    ------
    InvalidInput
        If a value is negative.

    References
    ----------
    .. [1] F. Fahy and P. Gardonio, *Sound and Structural Vibration*, 2nd ed., Academic Press, 2007, ch. 5.

    Examples
    --------
    >>> LimpMass(5.0, 0.0025).surface_density
    5.0
    """

    surface_density: float
    thickness: float = 0.0

    def __post_init__(self) -> None:
        require_range("surface density", self.surface_density, 0.0, 5000.0, "kg/m²")
        require_range("barrier thickness", self.thickness, 0.0, 1.0, "m")


Panel: TypeAlias = Plate | DampedPlate | BondedPlates | LooseBoards
"""What has bending stiffness."""

Layer: TypeAlias = (
    Plate | DampedPlate | BondedPlates | LooseBoards | LimpMass | Gap | PorousLayer | GluedFoam | PerforatedFacing
)
"""Any layer of a partition."""
