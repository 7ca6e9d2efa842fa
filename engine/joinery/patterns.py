"""Which pattern of fitting a store has for the sizes that meet, and what a bushing must make up."""

from __future__ import annotations

from collections.abc import Iterable

import msgspec

from engine.joinery.records import Standing, TakeOff
from engine.plan.records import MeasuredTakeOff
from engine.trade import fittings
from engine.trade.fittings import LegName
from engine.trade.pipe import DRAIN_SIZES

Measured = tuple[MeasuredTakeOff, ...]
ORDER: tuple[Standing, ...] = ("measured", "read", "derived", "memory", "estimate", "assumed")
"""Standings from firm to soft."""


class Pattern(msgspec.Struct, frozen=True, gc=False):
    """A fitting as sold: kind, sizes (run in, run out[, branch]), and the hub sizes by role."""

    kind: str
    size: tuple[float, ...]

    def hub(self, role: str) -> float:
        """Nominal size of one hub."""
        if role in ("run_in", "inlet"):
            return self.size[0]
        if role in ("run_out", "outlet"):
            return self.size[1]
        return self.size[2]


def bend(kind: str, upstream: float, downstream: float) -> Pattern:
    """A bend is as big as the larger of its two pipes; the smaller one gets a bushing."""
    size = max(upstream, downstream)
    return Pattern(kind, (size, size))


def branch(kind: str, run_in: float, run_out: float, side: float) -> Pattern:
    """The sold pattern nearest to the sizes that meet: a reducing one where there is one, else the next up."""
    run = max(run_in, run_out)
    if run_in < run_out and fittings.sold(kind, (run_in, run_out, side)):
        return Pattern(kind, (run_in, run_out, side))
    for size in DRAIN_SIZES:
        if side <= size <= run and fittings.sold(kind, (run, run, size)):
            return Pattern(kind, (run, run, size))
    big = max(run, side)
    return Pattern(kind, (big, big, big))


def leg(pattern: Pattern, role: LegName, pipe_size: float, measured: Measured) -> TakeOff:
    """Take-off of one leg for the pipe that enters it, a flush bushing's share added where sizes differ."""
    found = fittings.takeoff(pattern.kind, pattern.size, role, measured)
    length, tolerance, standing, source = found.length, found.tolerance, found.standing, found.source
    hub = pattern.hub(role)
    if pipe_size < hub:
        more = fittings.takeoff("flush_bushing_addon", (pipe_size, hub), "run_in", measured)
        length, tolerance = length + more.length, tolerance + more.tolerance
        standing = softer(standing, more.standing)
        source = f"{source}; bushing: {more.source}"
    return TakeOff(length, tolerance, standing, source)


def softer(a: Standing, b: Standing) -> Standing:
    """The less firm of two standings."""
    return a if ORDER.index(a) >= ORDER.index(b) else b


def softest(standings: Iterable[Standing]) -> Standing:
    """The least firm of some standings; derived where there are none, since then nothing is subtracted."""
    return max(standings, key=ORDER.index, default="derived")
