"""What holds a pipe in a bay where other things stand too: the first way that keeps clear of all of them.

A block across the bay is tried first. Then, in order: a packer on a girder right under the pipe, a short block from the
face of one of the two joists, and a strap from a block over it. What is found takes its own room from then on.
"""

from __future__ import annotations

import math
from collections.abc import Collection, Iterator
from typing import NamedTuple

from engine.checks.model import Model
from engine.framing.records import Joist
from engine.framing.shadow import covers
from engine.framing.wood import Bay, Wood
from engine.lengths import inches, nearest
from engine.plan.records import Point
from engine.takeoff.in_the_way import Box, InTheWay
from engine.takeoff.naming import joist_words
from engine.takeoff.seats import (
    Made,
    Seat,
    block_thickness,
    block_width,
    hung_words,
    make,
    stands_out,
    strap_length,
)
from engine.trade.facts import table

_HAIR = 1e-6
_STEP = 1.0 / 16.0
NO_ROOM = "nothing can be seated here"
"""What is said where every way of holding a pipe meets something else."""


class Spot(NamedTuple):
    """A place in a bay: the pipe's axis `off` from the first joist's face, `p` along the joists, `z` high; its radius."""

    bay: Bay
    at: Point
    off: float
    bottom: float
    z: float
    radius: float

    @property
    def top(self) -> float:
        """The pipe's upper side."""
        return self.z + self.radius

    @property
    def under(self) -> float:
        """The pipe's underside."""
        return self.z - self.radius

    def has_room(self, by: float) -> bool:
        """Whether a block moved so far along the joists still lies wholly in the bay."""
        other = 1 if self.bay.along[1] else 0
        half, p = block_width() / 2.0, self.at[other] + by
        return self.bay.corner[other] <= p - half and p + half <= self.bay.opposite[other]

    def box(self, start: float, end: float, low: float, high: float, by: float = 0.0, half: float | None = None) -> Box:
        """Wood from `start` to `end` across the bay, counted from the first joist's face; `by` moves it along the joists.

        `half` is half its width, a flat block's if not told. What would reach past the bay's end lies against it.
        """
        across = 0 if self.bay.along[1] else 1
        other = 1 - across
        half = block_width() / 2.0 if half is None else half
        first, last = self.bay.corner[other] + half, self.bay.opposite[other] - half
        p = min(max(self.at[other] + by, first), max(first, last))
        face = self.bay.corner[across]
        if across == 0:
            return Box((face + start, p - half, low), (face + end, p + half, high))
        return Box((p - half, face + start, low), (p + half, face + end, high))


class Seating:
    """Seats one support after the other on a floor, each clear of the pipes, the wood and what was seated before."""

    def __init__(self, model: Model, wood: Wood) -> None:
        self._model = model
        self._wood = wood
        self._way = InTheWay(model, wood)

    def pipe(self, place: Seat, at: Point, z: float | None, od: float, own: Collection[str]) -> Made:
        """What holds a rigid level pipe there; `own` are the pipes that may touch it."""
        plain = make(place, z, od)
        spot = _spot(place, at, z, od / 2.0)
        if plain.block is None or spot is None:
            return plain
        ways = self._under(spot, plain) if plain.kind == "block" else iter(())
        return self._first([ways, self._over(spot)], own)

    def foot(self, place: Seat, at: Point, z: float, radius: float, own: Collection[str]) -> Made:
        """What carries a plumb pipe's foot: as for a level pipe, but a strap hangs from a block beside it."""
        plain = make(place, z, 2.0 * radius)
        spot = _spot(place, at, z, radius)
        if plain.block is None or spot is None:
            return plain
        ways = self._under(spot, plain) if plain.kind == "block" else iter(())
        return self._first([ways, self._beside(spot)], own)

    def tube(self, place: Seat, at: Point, z: float | None, radius: float, own: Collection[str]) -> Made:
        """What a hook for tube is nailed to: a joist, the face beside the tube, or a strip across the bay where none is near."""
        if place.bay is None:
            return Made(
                "hook", remark="" if place.joist is not None else "no joist is near: fix it to what stands there"
            )
        reach = table("supports").number("tube_hook", "reach")
        if place.off is not None and min(place.off, place.bay.width - place.off) <= reach:
            return Made("hook")
        spot = _spot(place, at, z, radius)
        if spot is None:
            return Made("hook", place.bay.width, None, "on a strip across the bay")
        return self._first([self._strips(spot)], own)

    def _first(self, ways: list[Iterator[Made]], own: Collection[str]) -> Made:
        for way in ways:
            for made in way:
                if self._way.free(made.takes, own):
                    self._way.take(made.takes)
                    return made
        return Made("nothing", remark=NO_ROOM)

    def _under(self, spot: Spot, plain: Made) -> Iterator[Made]:
        """A block across the bay, a packer on a girder, a short block from either joist."""
        thick, top = block_thickness(), -spot.under
        whole = spot.box(0.0, spot.bay.width, spot.under - thick, spot.under)
        yield plain._replace(block_top=top, takes=(whole,))
        girder = self._girder(spot)
        if girder is not None:
            yield _packed(spot, girder)
        for joist, start, end in self._short(spot):
            wood = spot.box(start, end, spot.under - thick, spot.under)
            words = _all(self._short_words(joist), stands_out(spot.bottom, spot.under))
            yield Made("block", end - start, None, words, None, top, joist, takes=(wood,))

    def _over(self, spot: Spot) -> Iterator[Made]:
        """A strap from a block across the bay over the pipe, as low as it goes; else from a short block."""
        thick = block_thickness()
        for joist, start, end in (("", 0.0, spot.bay.width), *self._short(spot)):
            for low in _rising(max(spot.bottom, spot.top)):
                loop = spot.box(spot.off - spot.radius, spot.off + spot.radius, spot.z, low, half=spot.radius)
                wood = spot.box(start, end, low, low + thick)
                words = _all(self._short_words(joist), hung_words(low - spot.bottom))
                strap = strap_length(low - spot.z, 2.0 * spot.radius)
                yield Made("strap", end - start, strap, words, None, -low - thick, joist, takes=(wood, loop))

    def _beside(self, spot: Spot) -> Iterator[Made]:
        """A strap under a plumb pipe's foot, from a block across the bay close beside the pipe, on either side."""
        aside, thick = spot.radius + block_width() / 2.0, block_thickness()
        ways = ("north", "south") if spot.bay.along[1] else ("east", "west")
        for low in _rising(max(spot.bottom, spot.top)):
            for by, way in zip((aside, -aside), ways, strict=True):
                if not spot.has_room(by):
                    continue
                wood = spot.box(0.0, spot.bay.width, low, low + thick, by)
                loop = spot.box(spot.off - spot.radius, spot.off + spot.radius, spot.z, low, by / 2.0, abs(by) / 2.0)
                hangs = f"the strap hangs from a block whose middle is {inches(aside)} in {way} of the pipe's"
                strap = strap_length(math.hypot(low - spot.z, aside), 2.0 * spot.radius)
                words = _all(hangs, hung_words(low - spot.bottom))
                yield Made("base", spot.bay.width, strap, words, None, -low - thick, "", by, (wood, loop))

    def _strips(self, spot: Spot) -> Iterator[Made]:
        """A strip flat under the tube, or over it: across the bay, else from one of the two joists."""
        thick = block_thickness()
        for joist, start, end in (("", 0.0, spot.bay.width), *self._short(spot)):
            kind = self._short_words(joist, "strip") or "strip across the bay"
            if spot.under > spot.bottom + thick / 2.0:
                lies = f"{kind}, flat under the tube, its top {inches(-spot.under)} in down"
                words = _all(lies, stands_out(spot.bottom, spot.under))
                wood = spot.box(start, end, spot.under - thick, spot.under)
                yield Made("hook", end - start, None, words, None, -spot.under, joist, takes=(wood,))
            low = max(spot.bottom, spot.top)
            if low + thick <= _HAIR:
                gap = low - spot.top
                packed = f"; a packer {inches(gap)} in thick between" if gap > _HAIR else ""
                words = f"{kind}, flat over the tube, its underside {inches(-low)} in down{packed}"
                wood = spot.box(start, end, low, low + thick)
                yield Made("hook", end - start, None, words, None, -low - thick, joist, takes=(wood,))

    def _short_words(self, joist: str, what: str = "block") -> str:
        """How a short block is fixed; nothing is said of a whole one."""
        if not joist:
            return ""
        return f"short {what} from {joist_words(self._model, self._model.joists[joist])}, screwed through it"

    def _short(self, spot: Spot) -> Iterator[tuple[str, float, float]]:
        """Short blocks from a joist's face to the pipe's far side, the shorter first: the joist, from and to across the bay."""
        longest = table("supports").number("drain_block", "longest held at one end")
        first, second = spot.bay.joists
        width = spot.bay.width
        found = [
            (first, 0.0, min(width, spot.off + spot.radius)),
            (second, max(0.0, spot.off - spot.radius), width),
        ]
        yield from sorted((one for one in found if one[2] - one[1] <= longest), key=lambda one: one[2] - one[1])

    def _girder(self, spot: Spot) -> Joist | None:
        """The dropped girder right under the pipe, if a packer on it can reach."""
        tallest = table("supports").number("drain_block", "tallest packer")
        beams = [
            one
            for one in self._wood.near(spot.at, spot.at)
            if one.kind == "beam" and covers(one, spot.at) and -_HAIR <= spot.under - one.top <= tallest
        ]
        return max(beams, key=lambda one: one.top, default=None)


def _spot(place: Seat, at: Point, z: float | None, radius: float) -> Spot | None:
    if place.bay is None or place.off is None or place.bottom is None or z is None:
        return None
    return Spot(place.bay, at, place.off, place.bottom, z, radius)


def _packed(spot: Spot, girder: Joist) -> Made:
    height = spot.under - girder.top
    half = block_width() / 2.0
    words = f"on the girder, on a packer {inches(height)} in high" if nearest(height) else "on the girder itself"
    return Made(
        "block",
        None,
        None,
        words,
        packer=height,
        block_top=-spot.under,
        takes=(spot.box(spot.off - half, spot.off + half, girder.top, spot.under),),
    )


def _rising(low: float) -> Iterator[float]:
    """Heights for a block's underside, from the lowest up in sixteenths, as long as the block stays under the floor."""
    height = low
    while height + block_thickness() <= _HAIR:
        yield height
        height = (math.floor(height / _STEP + _HAIR) + 1) * _STEP


def _all(*words: str) -> str:
    return "; ".join(filter(None, words))
