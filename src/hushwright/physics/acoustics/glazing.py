"""What glazing has of its own: the spacer that joins the panes of a sealed unit."""

from __future__ import annotations

from collections.abc import Sequence
from itertools import pairwise

from hushwright.physics.acoustics.bridges import LineBridge, spacer_bridge
from hushwright.physics.acoustics.layers import Layer
from hushwright.physics.acoustics.resonances import split_leaves
from hushwright.physics.acoustics.spaces import DEEPEST_SPACER
from hushwright.physics.acoustics.spread import is_glass


def sealed_unit_bridges(layers: Sequence[Layer], width: float, height: float) -> tuple[LineBridge, ...]:
    """Spacers of all sealed units in a build-up: two panes of glass with no more than a spacer's depth between.

    Parameters
    ----------
    layers : sequence of Layer
        Layers, outside in (thickness [m]).
    width : float
        Width of the pane [m].
    height : float
        Height of the pane [m].

    Returns
    -------
    tuple of LineBridge
        One per sealed unit, between its two panes.

    Raises
    ------
    InvalidInput
        If a side is not positive.

    References
    ----------
    .. [1] docs/accuracy.md: the stiffness is set on the fit half.

    Examples
    --------
    >>> from hushwright.physics.acoustics.layers import Gap, Plate
    >>> pane = Plate(0.004, 2500.0, 64e9, 0.24, 0.03)
    >>> [bridge.leaves for bridge in sealed_unit_bridges((pane, Gap(0.012), pane, Gap(0.1), pane), 1.25, 1.5)]
    [(0, 1)]
    """
    leaves = split_leaves(layers)
    found = []
    for index, (outer, inner) in enumerate(pairwise(leaves)):
        depth = sum(layer.thickness for layer in layers[outer.last + 1 : inner.first])
        if is_glass(outer) and is_glass(inner) and depth <= DEEPEST_SPACER:
            found.append(spacer_bridge(width, height, (index, index + 1)))
    return tuple(found)
