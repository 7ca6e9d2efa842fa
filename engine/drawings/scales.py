"""The architect's scales, and the largest at which a floor fits the paper."""

from __future__ import annotations

import math
from typing import NamedTuple


class Scale(NamedTuple):
    """A scale: what it is called, and how many inches of floor one inch of paper shows."""

    name: str
    ratio: float


STANDARD: tuple[Scale, ...] = (
    Scale('3" = 1\'-0"', 4.0),
    Scale('1 1/2" = 1\'-0"', 8.0),
    Scale('1" = 1\'-0"', 12.0),
    Scale('3/4" = 1\'-0"', 16.0),
    Scale('1/2" = 1\'-0"', 24.0),
    Scale('3/8" = 1\'-0"', 32.0),
    Scale('1/4" = 1\'-0"', 48.0),
    Scale('1/8" = 1\'-0"', 96.0),
)
"""The scales of an architect's rule, largest first."""


def largest(width: float, height: float, paper_width: float, paper_height: float) -> Scale:
    """The largest standard scale at which `width` by `height` of floor fits the paper, all in inches.

    A floor that fits at none is drawn smaller, to a round ratio, and its scale's name says that it is no
    standard one.
    """
    for scale in STANDARD:
        if width / scale.ratio <= paper_width and height / scale.ratio <= paper_height:
            return scale
    need = max(width / max(paper_width, 0.1), height / max(paper_height, 0.1))
    step = 10.0 ** math.floor(math.log10(need))
    ratio = math.ceil(need / step) * step
    return Scale(f"1 : {ratio:g} (no standard scale)", ratio)


class Scales(NamedTuple):
    """The two scales of a drawing from the side: along it, and up."""

    along: Scale
    up: Scale

    @property
    def words(self) -> str:
        """Both scales in few words, for a drawing's own record."""
        if self.along == self.up:
            return self.along.name
        return f"{self.along.name} along, {self.up.name} up"

    @property
    def block(self) -> str:
        """What a title block says of them."""
        return self.along.name if self.along == self.up else "as noted"

    def warning(self, what: str) -> str:
        """What a reader has to know of a drawing whose two scales differ, and `what` that does to it; else to go by figures."""
        if self.along == self.up:
            return f"All at {self.along.name}. Go by the figures, never by a rule laid on the paper."
        return (
            f"Lengths at {self.along.name}, heights at {self.up.name}: the two scales differ, so {what}. Go by the figures, "
            "never by a rule laid on the paper."
        )
