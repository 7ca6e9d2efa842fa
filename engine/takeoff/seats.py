"""What a place along a run hangs on: the joist or the bay there, set out from faces that a tape hooks, and what to cut."""

from __future__ import annotations

import math
from typing import NamedTuple

from msgspec.structs import replace

from engine.checks.model import Model
from engine.crossings.records import Crossing
from engine.framing.records import Joist
from engine.framing.wood import Bay, Wood
from engine.lengths import inches, up
from engine.plan.records import Point
from engine.takeoff.in_the_way import Box
from engine.takeoff.naming import ends_of, whole_words
from engine.takeoff.records import Support
from engine.trade.facts import table
from engine.trade.lumber import actual

_SLACK = 1e-6


class Seat(NamedTuple):
    """Where one place lies among the joists; `bottom` is the joists' bottom edge there, inches from their top.

    `from_end` runs from the nearer `end` of the joist, or of the bay's first one, `from_start` from its south or west end,
    which is called `start`.
    """

    joist: Joist | None = None
    bay: Bay | None = None
    hangs: str = ""
    end: str = ""
    from_end: float | None = None
    off: float | None = None
    off_from: str = ""
    bottom: float | None = None
    start: str = ""
    from_start: float | None = None

    @property
    def pair(self) -> tuple[str, str] | None:
        """The two joists of the bay."""
        return None if self.bay is None else self.bay.joists


class Made(NamedTuple):
    """What to make for a place: a block's and a strap's length, a packer's height, inches, None where it takes none.

    `remark` is what to mind; `block_top`, `block_from` and `block_aside` tell where the block lies, as in
    :class:`~engine.takeoff.records.Support`. `takes` is the room that all takes up.
    """

    kind: str
    block: float | None = None
    strap: float | None = None
    remark: str = ""
    packer: float | None = None
    block_top: float | None = None
    block_from: str = ""
    block_aside: float = 0.0
    takes: tuple[Box, ...] = ()


def seat(model: Model, wood: Wood, at: Point, crossing: Crossing | None) -> Seat:
    """The joist that a place lies under or in, else the bay; neither where no joist is near."""
    met = model.joists[crossing.joist] if crossing is not None else None
    if met is not None and met.kind == "beam":
        crossing = met = None
    joist = met or wood.joist_at(at)
    if joist is not None:
        along = crossing.along if crossing is not None else _along(joist, at)
        end, distance = _from_end(joist, along)
        words, start = whole_words(model, joist), ends_of(joist)[0]
        return Seat(joist, None, words, end, distance, bottom=joist.bottom, start=start, from_start=along)
    bay = wood.bay_at(at)
    if bay is None:
        return Seat()
    first, second = (model.joists[name] for name in bay.joists)
    along = _along(first, at)
    end, distance = _from_end(first, along)
    across = 0 if bay.along[1] else 1
    words = f"{whole_words(model, first)} and {whole_words(model, second)}"
    return Seat(
        None,
        bay,
        f"between {words}",
        end,
        distance,
        at[across] - bay.corner[across],
        whole_words(model, first),
        -min(first.depth, second.depth),
        ends_of(first)[0],
        along,
    )


def set_out(one: Support, place: Seat, made: Made, lies: float | None) -> Support:
    """A support with its place among the joists and what is cut for it; `lies` is how far down the pipe is told there."""
    return replace(
        one,
        joist=None if place.joist is None else place.joist.id,
        hangs=place.hangs,
        bay=place.pair,
        end=place.end,
        from_end=place.from_end,
        off=place.off,
        off_from=place.off_from,
        below=None if lies is None or place.bottom is None else lies + place.bottom,
        block=made.block,
        strap=made.strap,
        packer=made.packer,
        block_top=made.block_top,
        block_from=made.block_from,
        block_aside=made.block_aside,
        remark=made.remark,
    )


def make(place: Seat, z: float | None, od: float) -> Made:
    """What holds a rigid pipe there: a block under it within the joists' depth, a strap where it lies deeper.

    In a bay a strap hangs from a block, whose underside is flush with the joists' or clears the pipe.
    """
    if z is None or place.bottom is None:
        alone = "" if place.bottom is not None else "no joist is near: fix it to what stands there"
        return Made("strap", remark=alone if z is not None else "")
    top, under = z + od / 2.0, z - od / 2.0
    if top > 0.0:
        return Made("strap", remark="" if under >= 0.0 else "part of the pipe lies over the joists")
    if place.bay is None:
        remark = "across the notch" if top > place.bottom + _SLACK else ""
        return Made("strap", strap=strap_length(max(0.0, place.bottom - z), od), remark=remark)
    if under >= place.bottom:
        return Made("block", place.bay.width, None, stands_out(place.bottom, under))
    hung = max(place.bottom, top)
    return Made("strap", place.bay.width, strap_length(hung - z, od), hung_words(hung - place.bottom))


def stands_out(bottom: float, top: float) -> str:
    """What is to be minded of a flat block whose upper face lies at a height: that it stands out under the joists."""
    past = bottom - (top - block_thickness())
    return f"its lower face stands {inches(past)} in under the joists" if past > _SLACK else ""


def hung_words(over: float) -> str:
    """Where a block lies that a strap hangs from, if not flush with the joists: so far over their bottom edge."""
    return f"the block's underside {inches(up(over))} in over the joists' bottom edge" if over > _SLACK else ""


def strap_length(legs: float, od: float) -> float:
    """A strap's length to cut: two legs down to the axis, half round the pipe, and a lap at each end to fix it."""
    return 2.0 * legs + math.pi * od / 2.0 + 2.0 * table("supports").number("hung_strap", "lap")


def block_thickness() -> float:
    """How thick a block lies under a pipe, flat, inches."""
    return actual(table("supports").text("drain_block", "lumber")).thickness


def block_width() -> float:
    """How wide a block lies under a pipe, flat, inches."""
    return actual(table("supports").text("drain_block", "lumber")).depth


def _along(joist: Joist, at: Point) -> float:
    return (at[0] - joist.start[0]) * joist.along[0] + (at[1] - joist.start[1]) * joist.along[1]


def _from_end(joist: Joist, along: float) -> tuple[str, float]:
    """The nearer end of a joist and how far from it."""
    start, end = ends_of(joist)
    return (start, along) if along <= joist.length - along else (end, joist.length - along)
