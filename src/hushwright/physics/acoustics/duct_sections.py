"""Cross-sections of ducts."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import TypeAlias

from hushwright.physics.acoustics.spaces import require_range


@dataclass(frozen=True, slots=True)
class RectangularSection:
    """Clear rectangular section of a duct, inside any lining.

    Parameters
    ----------
    width : float
        Clear width [m].
    height : float
        Clear height [m].

    Raises
    ------
    InvalidInput
        If a side is not above 0 or longer than 5 m.

    References
    ----------
    .. [1] ISO 7807:1983, rectangular ducts (dimensions).

    Examples
    --------
    >>> round(RectangularSection(0.2, 0.1).hydraulic_diameter, 4)
    0.1333
    """

    width: float
    height: float

    def __post_init__(self) -> None:
        require_range("duct width", self.width, 0.0, 5.0, "m", open_low=True)
        require_range("duct height", self.height, 0.0, 5.0, "m", open_low=True)

    @property
    def area(self) -> float:
        """Clear area [m²]."""
        return self.width * self.height

    @property
    def perimeter(self) -> float:
        """Clear perimeter [m]."""
        return 2.0 * (self.width + self.height)

    @property
    def longest_side(self) -> float:
        """Longer side [m]."""
        return max(self.width, self.height)

    @property
    def hydraulic_diameter(self) -> float:
        """Four times the area over the perimeter [m]."""
        return 4.0 * self.area / self.perimeter

    @property
    def equivalent_diameter(self) -> float:
        """Diameter of the circle of equal area [m]."""
        return math.sqrt(4.0 * self.area / math.pi)


@dataclass(frozen=True, slots=True)
class RoundSection:
    """Clear round section of a duct, inside any lining.

    Parameters
    ----------
    diameter : float
        Clear diameter [m].

    Raises
    ------
    InvalidInput
        If the diameter is not above 0 or larger than 5 m.

    References
    ----------
    .. [1] EN 1506:2007, round ducts (dimensions).

    Examples
    --------
    >>> round(RoundSection(0.125).area, 5)
    0.01227
    """

    diameter: float

    def __post_init__(self) -> None:
        require_range("duct diameter", self.diameter, 0.0, 5.0, "m", open_low=True)

    @property
    def area(self) -> float:
        """Clear area [m²]."""
        return math.pi / 4.0 * self.diameter**2

    @property
    def perimeter(self) -> float:
        """Clear perimeter [m]."""
        return math.pi * self.diameter

    @property
    def longest_side(self) -> float:
        """Diameter [m]."""
        return self.diameter

    @property
    def hydraulic_diameter(self) -> float:
        """Diameter [m]."""
        return self.diameter

    @property
    def equivalent_diameter(self) -> float:
        """Diameter [m]."""
        return self.diameter


Section: TypeAlias = RectangularSection | RoundSection
"""Any section of a duct."""
