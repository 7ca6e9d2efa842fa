"""Where pipes meet wood, and what that does to both."""

from __future__ import annotations

from collections.abc import Iterable
from typing import Literal

from engine.plan.records import Point, Record


class Crossing(Record, frozen=True, gc=False):
    """One connected stretch of a pipe inside one joist's wood, in plan.

    `at` is where the pipe's axis crosses the joist's centre line, `along` the distance from the joist's start
    (south or west end) to it, `enters` and `leaves` the stretch's ends as distances from the pipe's start.
    `position` is the distance from the pipe's start to `at`. `run_along` is the wood's length along the joist
    that the stretch covers (more than the bit's width when the pipe crosses at an angle), `width` the outside
    diameter with insulation. `skew` is degrees from square to the joist, 90 for a pipe that runs along in it.
    `straight` says that the axis goes in by one face and out by the other in one line; one that does not ends,
    turns or runs along inside the wood, and no bore makes it. Bore, bit and heights are those of the pipe by itself,
    also where it shares its hole.
    """

    id: str
    joist: str
    pipe: str
    element: str
    system: Literal["waste", "vent", "cold", "hot"]
    at: Point
    along: float
    position: float
    enters: float
    leaves: float
    skew: float
    width: float
    passing: Literal["through", "notched", "under"]
    bore: float | None
    bit: str | None
    bore_limit: float
    low: float | None
    high: float | None
    run_along: float = 0.0
    straight: bool = True


class Bound(Record, frozen=True, gc=False):
    """One limit on a height: the axis at a reach's foot may not be under (`low`) or over (`high`) `z`."""

    side: Literal["low", "high"]
    z: float
    by: str
    element: str
    at: Point


class Window(Record, frozen=True, gc=False):
    """The heights that an exit's axis (or an open rise's foot) may have, inches from the joists' top.

    A missing end is None. `low > high` means that the two ends exclude each other by their difference.
    `chosen` is always a height. `others` are single heights that a street fitting makes possible.
    """

    reach: int
    exit: str | None
    low: float | None
    high: float | None
    chosen: float
    low_set_by: str | None
    high_set_by: str | None
    pinned: bool
    others: tuple[tuple[float, str], ...] = ()
    bounds: tuple[Bound, ...] = ()


class Tube(Record, frozen=True, gc=False):
    """One of the water tubes in a shared hole: its crossing, and where its axis lies on the joist's side.

    `along` is from the joist's start, at its centre line, `z` the height over the joists' top, `width` the outside
    diameter with insulation, `lean` how far the axis goes along the joist for each inch across it; inches.
    """

    crossing: str
    pipe: str
    element: str
    system: Literal["waste", "vent", "cold", "hot"]
    along: float
    z: float
    width: float
    lean: float


class SharedHole(Record, frozen=True, gc=False):
    """Water tubes that pass a joist in one hole, since the bores of each alone would run into each other.

    `crossing` is the hole's: that of the first tube, with the hole's middle, bit and heights, and for `width` the least
    circle round all tubes. `z` is the middle's height, `lean` the hole's own direction, midway between the outermost
    tubes'. `tubes` stand from the joist's start on, at one place from the top down.
    """

    crossing: Crossing
    z: float
    lean: float
    tubes: tuple[Tube, ...]


class JoistCut(Record, frozen=True, gc=False):
    """A bore or notch that a crossing asks for, with its measures from edges that a tape can hook.

    `from_start` and `from_end` run along the joist from its two ends to the cut's centre; `down_from_top` and
    `up_from_bottom` are the axis. `wood_above` and `wood_below` are what a bore leaves; for a notch `depth`
    and `length` are what it takes, `edge` is the edge it is cut into, and `over_bearing` tells that it lies
    wholly over a bearing at the joist's end. `gap` is the wood between a bore and the nearest other bore in the
    joist (`beside` is that crossing), `notch_gap` the wood between a bore and the nearest notch, either way
    (`beside_notch`); None where it is more than the rules ask. `limit` is the widest bore or deepest notch
    allowed there. `faults` are the rules it breaks and `unjudged` those that lack a datum, by the ids of the
    checks; `legal` is None where something is not judged or no rule of the book speaks of the member.
    `tubes` are those that share the hole, none where one pipe has it; crossing, pipe and element are then the first's.
    """

    crossing: str
    joist: str
    pipe: str
    element: str
    kind: Literal["bore", "notch"]
    at: Point
    diameter: float
    bit: str | None
    from_start: float
    from_end: float
    down_from_top: float
    up_from_bottom: float
    wood_above: float
    wood_below: float
    depth: float
    length: float
    limit: float
    legal: bool | None
    faults: tuple[str, ...]
    edge: Literal["top", "bottom"] | None = None
    over_bearing: bool = False
    gap: float | None = None
    beside: str = ""
    notch_gap: float | None = None
    beside_notch: str = ""
    unjudged: tuple[str, ...] = ()
    tubes: tuple[Tube, ...] = ()

    @property
    def crossings(self) -> tuple[str, ...]:
        """Every crossing that the cut is made for, the first one's first."""
        return tuple(tube.crossing for tube in self.tubes) or (self.crossing,)

    @property
    def pipes(self) -> tuple[str, ...]:
        """The pipes of those crossings, in the same order."""
        return tuple(tube.pipe for tube in self.tubes) or (self.pipe,)

    @property
    def elements(self) -> tuple[str, ...]:
        """The runs that the cut is made for, each once."""
        return tuple(dict.fromkeys(tube.element for tube in self.tubes)) or (self.element,)


def by_crossing(cuts: Iterable[JoistCut]) -> dict[str, JoistCut]:
    """The cut that each crossing asks for, by the crossing's id; tubes that share a hole have the same."""
    return {crossing: made for made in cuts for crossing in made.crossings}
