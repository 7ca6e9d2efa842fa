"""The floor's wood as it stands: joists and all that is framed with them, and the beams under them. Knows no pipe."""

from __future__ import annotations

from typing import Literal

from engine.plan.records import Point, Record

Kind = Literal["common", "end", "trimmer", "tail", "rim", "header", "block", "beam"]


class Joist(Record, frozen=True, gc=False):
    """One stick of floor framing.

    `start` and `end` are its centre line's ends in plan (south to north, or west to east). `along` is the unit
    heading start to end. `supports` are the intervals (from, to) measured from `start`, inches, over which it
    bears. `kind` is a common joist, an end joist (outermost, parallel to the commons), a trimmer beside an opening, a
    tail (what an opening leaves of a common joist), a rim or header (across them), a block between two, or a beam.
    `thickness` is of all its `plies` together; its `top` is in inches from the top of the joists. `opening` is the
    floor opening that a trimmer or header frames. `cut_at` names the beams at the joists' level that its start and end are
    cut off at, empty where none; such a beam itself is `flush`. `joined` tells of each end that the joist goes on there as
    another stick, lapped or spliced.
    """

    id: str
    field: str
    number: int
    kind: Kind
    start: Point
    end: Point
    along: tuple[float, float]
    length: float
    thickness: float
    depth: float
    member: Literal["sawn", "engineered", "steel"]
    supports: tuple[tuple[float, float], ...]
    top: float = 0.0
    plies: int = 1
    opening: str = ""
    cut_at: tuple[str, str] = ("", "")
    flush: bool = False
    joined: tuple[bool, bool] = (False, False)

    @property
    def bottom(self) -> float:
        """Its lower edge, inches from the top of the joists."""
        return self.top - self.depth

    @property
    def runs(self) -> bool:
        """Whether it runs the joists' way and carries the floor: common, end, trimmer or tail."""
        return self.kind in ("common", "end", "trimmer", "tail")

    @property
    def hangers(self) -> tuple[str, ...]:
        """The beams that its ends hang on, one for each end that does."""
        ends = ((0.0, 0.0), (self.length, self.length))
        return tuple(beam for beam, end in zip(self.cut_at, ends, strict=True) if beam and end in self.supports)


class Framing(Record, frozen=True, gc=False):
    """All the wood of one floor: `joists` at the joists' level, common joists first, and the `beams` by themselves."""

    joists: tuple[Joist, ...]
    beams: tuple[Joist, ...] = ()

    @property
    def members(self) -> tuple[Joist, ...]:
        """Everything that a pipe can meet: joists and what is framed with them, then beams."""
        return self.joists + self.beams
