"""touching(some, others): which rectangles of two sets touch, edges included, without asking of every pair where there are many."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

if TYPE_CHECKING:
    import numpy as np
    from numpy.typing import NDArray

    Numbers = NDArray[np.float64]
    Places = NDArray[np.intp]

FEW = 8192
"""So many pairs are all asked faster than a tree is planted: as on a cottage's floor."""

Envelopes = tuple["Numbers", "Numbers", "Numbers", "Numbers"]
"""Least x, least y, greatest x and greatest y of each rectangle, inches."""


def touching(some: Envelopes, others: Envelopes) -> tuple[Places, Places]:
    """Places in `some` and in `others` of each pair that touches, in no order."""
    import numpy as np
    import shapely

    if some[0].size * others[0].size > FEW:
        found: Any = shapely.STRtree(shapely.box(*others)).query(shapely.box(*some))
        return found[0], found[1]
    west, south, east, north = (column[:, None] for column in some)
    met = (west <= others[2]) & (east >= others[0]) & (south <= others[3]) & (north >= others[1])
    first, second = np.nonzero(met)
    return first, second
