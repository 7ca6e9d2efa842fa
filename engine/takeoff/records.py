"""The take-off's records: cuts in sticks, supports, shopping lines and cut-list rows."""

from __future__ import annotations

from typing import Literal

from engine.plan.records import Point, Record

System = Literal["waste", "vent", "cold", "hot"]


class Cutting(Record, frozen=True, gc=False):
    """One length to saw, inches, under the mark that it carries on the cut list."""

    mark: str
    length: float


class StockLength(Record, frozen=True, gc=False):
    """One length that a shop sells, inches, with its price where the builder knows it."""

    length: float
    price: float | None = None


class Stick(Record, frozen=True, gc=False):
    """One stick to buy, the cuts that it yields in sawing order, and what is left of it, inches.

    `offcut` names what is left where it is worth keeping.
    """

    length: float
    cuts: tuple[Cutting, ...]
    left: float
    offcut: str = ""


class SticksPlan(Record, frozen=True, gc=False):
    """Which sticks to buy for a set of cuts.

    `counts` pairs each stick length with how many of it, `waste` is everything bought that ends in no piece
    (kerfs and damaged ends included), inches. `cheapest_proven` is True only when no choice of sticks is
    cheaper, and none as cheap has fewer sticks. `too_long` are the cuts that no stock length can yield:
    nothing is bought for them. `judged_by` names the stake, `note` says what a reader should know.
    """

    sticks: tuple[Stick, ...]
    counts: tuple[tuple[float, int], ...]
    total_length: float
    waste: float
    price: float | None
    judged_by: Literal["price", "length"]
    cheapest_proven: bool
    too_long: tuple[Cutting, ...]
    note: str


class Bought(Record, frozen=True, gc=False):
    """The sticks or coils of one material and size; `kerf` is what a saw cut takes, `damaged` each stick's end, inches."""

    material: str
    size: float
    plan: SticksPlan
    kerf: float = 0.0
    damaged: float = 0.0


SupportKind = Literal[
    "bored joist", "notched joist", "block", "strap", "hook", "bend support", "guide", "base", "sway brace", "nothing"
]


class Support(Record, frozen=True, gc=False):
    """One place where a pipe is held.

    A `bored joist` or `notched joist` carries the pipe itself, a `block` lies across the bay, a `strap` hangs
    or clasps, a `base` carries a plumb pipe's foot; a `hook`, a `bend support`, a `guide` and a `sway brace` only
    steady; where there is `nothing`, one would be due but has no room. `along` is the plan distance from the run's upper end (from a supply's first point, from a plumb pipe's
    foot), inches. `down` counts from the joists' top, negative above it: to the pipe's underside for a block, strap
    or base, else to its axis; None where the height is not known. `limit` is the greatest spacing, `cites` where that
    stands, `reason` what it is there for.

    `hangs` names the joist or the bay, `bay` is its two joists; `from_end` runs along the joists from the `end` named,
    which is the rim's inside face, or the face of what it hangs on; `off` is the axis' distance across the bay from the face of
    its first joist (`off_from`). `below` is how far the same place of the pipe lies under the joists' bottom edge, negative above it.
    `block` is the block's length, `strap` the strap's, to cut; with both, the strap
    hangs from the block; a hook's block is the strip that it is nailed to. `packer` is the height of a packer on the
    girder that the pipe rests on there. `block_top` is how far a block's, strip's or packer's upper face lies under the joists'
    top; `block_from` the joist that a short one stands out from; `block_aside` how far north (east) of the pipe its middle
    lies, where that is not under or over it. `mark` names what has to be made and placed, `remark` is what to mind. All
    inches, None where it has none.
    """

    element: str
    pipe: str
    system: System
    size: float
    kind: SupportKind
    at: Point
    along: float
    down: float | None
    joist: str | None
    limit: float
    cites: str
    reason: str = ""
    hangs: str = ""
    bay: tuple[str, str] | None = None
    end: str = ""
    from_end: float | None = None
    off: float | None = None
    off_from: str = ""
    below: float | None = None
    block: float | None = None
    strap: float | None = None
    remark: str = ""
    packer: float | None = None
    mark: str = ""
    block_top: float | None = None
    block_from: str = ""
    block_aside: float = 0.0


class ShoppingLine(Record, frozen=True, gc=False):
    """One line of the shopping list: `count` of `unit`, with the arithmetic and what the line rests on.

    `part` is what the thing is called, `kind` its name in the trade data."""

    part: str
    size: str
    count: int
    unit: str
    system: str
    why: str
    source: str
    kind: str


class TripLine(Record, frozen=True, gc=False):
    """One thing to take off a shelf: how many the job needs, spares beside them, what is there, what is left to buy.

    `part` and `size` are what the list calls it, and what :class:`~engine.plan.records.OnHand` names it by.
    `systems` are those that it is for, `price` what all that are to buy cost, None where that is not known.
    """

    part: str
    size: str
    unit: str
    need: int
    spares: int
    on_hand: int
    systems: tuple[str, ...]
    why: str
    source: str
    kind: str
    price: float | None = None

    @property
    def wanted(self) -> int:
        """How many there should be on the site: needed and spare."""
        return self.need + self.spares

    @property
    def buy(self) -> int:
        """How many are left to buy."""
        return max(0, self.wanted - self.on_hand)


class TripStop(Record, frozen=True, gc=False):
    """One place in the store, with what is to be had there."""

    title: str
    lines: tuple[TripLine, ...]


class Trip(Record, frozen=True, gc=False):
    """The shopping list in the order in which a store is walked.

    `made_under` names the rule book that it was made under, `check_list` what people forget. `unknown` are things
    on hand that the list does not ask for.
    """

    made_under: str
    stops: tuple[TripStop, ...]
    check_list: tuple[str, ...]
    unknown: tuple[str, ...]

    @property
    def lines(self) -> tuple[TripLine, ...]:
        """The lines of all stops."""
        return tuple(line for stop in self.stops for line in stop.lines)


class CutRow(Record, frozen=True, gc=False):
    """One row of the cut list: `length` inches to the nearest 1/16, `tolerance` plus or minus inches.

    `start` and `end` name the fittings at its two ends, `lies` tells where it goes, `rests_on` the weakest thing
    that the length was worked out from, `unmeasured` the fittings at its ends that nobody has measured. A stub or
    vent is first sawn `extra` inches longer, `until` then; `plumb` tells that it stands upright.
    """

    mark: str
    system: System
    material: str
    size: float
    length: float
    tolerance: float
    start: str
    end: str
    lies: str
    rests_on: str
    unmeasured: tuple[str, ...]
    note: str
    extra: float = 0.0
    until: str = ""
    plumb: bool = False

    @property
    def saw(self) -> float:
        """The length to saw first, inches: the final one and what is left for trimming."""
        return self.length + self.extra

    @property
    def warning(self) -> str:
        """What to know and do before sawing; empty when every fitting at its ends was measured."""
        words = [self.note] if self.note else []
        if self.unmeasured:
            words.append(f"not measured: {', '.join(self.unmeasured)}; measure before sawing")
        return "; ".join(words)
