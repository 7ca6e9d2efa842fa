"""Mends of room: a fixture moved by the least that clears, its neighbour moved instead, a shower with a larger pan."""

from __future__ import annotations

import math
from collections.abc import Iterator
from functools import partial

from engine.checks.records import Finding
from engine.lengths import down, inches, up
from engine.mending import costs
from engine.mending.ideas import Idea, Maker
from engine.mending.moves import thing_moved
from engine.plan import edits
from engine.plan.records import Fixture
from engine.study import Study
from engine.trade.fixtures import fixture as spec_of
from engine.trade.habits import CLOSET_OUTLETS

MORE = (0.0, 1.0, 2.0, 4.0, 6.0)
"""Inches more than it must that a fixture is moved, so that it comes down clear of a joist."""


def further_off(study: Study, finding: Finding) -> Iterator[Idea]:
    """Each fixture of a finding moved to either side, or forward and back, by what the room lacks."""
    if finding.measured is None or finding.limit is None:
        return
    lacks = up(abs(finding.limit - finding.measured))
    for fixture in study.plan.fixtures:
        if fixture.id not in finding.elements:
            continue
        turn = math.radians(fixture.turn)
        c, s = round(math.cos(turn), 9), round(math.sin(turn), 9)
        for more in MORE:
            by = lacks + more
            for dx, dy in ((-s * by, c * by), (s * by, -c * by), (-c * by, -s * by), (c * by, s * by)):
                yield from thing_moved(study, fixture.id, dx, dy)


def larger_pan(study: Study, finding: Finding) -> Iterator[Idea]:
    """A shower's pan left to the trade's usual, or made as wide or as long as is asked."""
    if finding.limit is None:
        return
    for fixture in study.plan.fixtures:
        if fixture.id not in finding.elements:
            continue
        if fixture.width is not None or fixture.depth is not None:
            make = partial(edits.set_fields, study.plan, fixture.id, width=None, depth=None)
            yield Idea(f"Leave the size of {fixture.id} to the program", costs.UNPIN, make)
        usual = spec_of(fixture.kind)
        width = (usual.width if fixture.width is None else fixture.width) or 0.0
        depth = (usual.depth if fixture.depth is None else fixture.depth) or 0.0
        if not width or not depth:
            continue
        square = up(math.sqrt(finding.limit)) if finding.unit == "sq in" else finding.limit
        for wide, long in _sizes(width, depth, square, finding.limit, finding.unit == "sq in"):
            yield _pan(study, fixture, wide, long, abs(wide - width) + abs(long - depth))


def _sizes(width: float, depth: float, side: float, limit: float, by_area: bool) -> Iterator[tuple[float, float]]:
    """Pans that would do: one side longer, or both at least as long as `side`."""
    if by_area:
        yield up(limit / depth), depth
        yield width, up(limit / width)
    yield max(width, side), max(depth, side)
    step = 2.0
    yield max(width, side + step), max(depth, side + step)


def _pan(study: Study, fixture: Fixture, wide: float, long: float, more: float) -> Idea:
    make = partial(edits.set_fields, study.plan, fixture.id, width=wide, depth=long)
    words = f"Make {fixture.id} {inches(wide)} by {inches(long)} in"
    return Idea(words, costs.SIZE + costs.INCH * more, make, family=f"pan of {fixture.id}")


def onto_its_bowl(study: Study, finding: Finding) -> Iterator[Idea]:
    """A closet moved off its wall, or toward it, to where a bowl that is sold has its outlet."""
    if finding.measured is None:
        return
    for fixture in study.plan.fixtures:
        if fixture.id in finding.elements:
            turn = math.radians(fixture.turn)
            for wants in CLOSET_OUTLETS:
                by = wants - finding.measured
                dx, dy = round(math.cos(turn), 9) * by, round(math.sin(turn), 9) * by
                yield from thing_moved(study, fixture.id, dx, dy)


def under_its_tailpiece(study: Study, finding: Finding) -> Iterator[Idea]:
    """A drain in the wall set no higher than its fixture's own outlet, or where it usually is."""
    for fixture in study.plan.fixtures:
        if fixture.id not in finding.elements or finding.limit is None:
            continue
        if fixture.outlet_above_floor is not None:
            make = partial(edits.set_field, study.plan, fixture.id, "outlet_above_floor", None)
            yield Idea(f"Leave the outlet of {fixture.id} to the program", costs.UNPIN, make)
        to = down(finding.limit)
        lower = partial(edits.set_field, study.plan, fixture.id, "outlet_above_floor", to)
        yield Idea(f"Lower the outlet of {fixture.id} to {inches(to)} in above the floor", costs.HEIGHT, lower)


MAKERS: dict[str, Maker] = {
    "closet-off-its-bowl": onto_its_bowl,
    "fixture-in-wall": further_off,
    "outlet-over-its-tailpiece": under_its_tailpiece,
    "neighbours-too-close": further_off,
    "shower-too-small": larger_pan,
    "too-little-room-before": further_off,
    "too-little-room-before-shower": further_off,
    "too-little-room-beside": further_off,
}
