"""Pipe along a bay that comes out under it: how far it may run before it hangs below the joists."""

from __future__ import annotations

import math
from collections.abc import Iterator
from itertools import groupby

from engine.checks.landing import floor_wood
from engine.checks.model import Model
from engine.checks.outcomes import COMMON, name
from engine.checks.records import DoesNotApply, Finding, Holds, NotJudged, Outcome, Rule
from engine.crossings.limits import over
from engine.crossings.stretches import Line
from engine.lengths import down, feet_inches, inches, up
from engine.plan.records import Point


def out_of_bay(model: Model) -> Iterator[Outcome]:
    """Pipe that lies in a bay and whose underside comes out below the joists beside it.

    Noted once for a run, where it is lowest: it wants room below, and hangs where frost and knocks reach it. Stretches that
    cross joists are for the rules on crossings. Holds: a 3 in drain whose axis is 7-1/2 in down in a 2x10 bay. Broken: 1/16 in
    lower. Does not apply to runs that are to pass under, over an insulated belly, or off the joists. Common practice, no source.
    """
    shallowest = min((joist.depth for joist in model.framing.joists if joist.runs), default=math.inf)
    crossing = {one.pipe for one in model.crossings if model.joists[one.joist].runs}
    supplies = {supply.id: supply.down for supply in model.plan.supplies}
    for element, lines in groupby(model.lines, key=lambda line: line.element):
        run = list(lines)
        in_bays = [line for line in run if line.passing != "under" and line.id not in crossing]
        if model.plan.floor.belly is not None or not in_bays or math.isinf(shallowest):
            yield DoesNotApply(element)
            continue
        if element in supplies:
            z = supplies[element]
            lowest = [(-shallowest / 2.0 if z is None else -z, line) for line in in_bays]
        elif any(node not in model.heights for line in in_bays for node in (line.start, line.end)):
            start = run[0].start
            yield NotJudged(
                (start.x, start.y, 0.0),
                (element,),
                f"the height of {element}: it is joined to no exit that would set it",
            )
            continue
        else:
            lowest = [(min(model.heights[line.start], model.heights[line.end]), line) for line in in_bays]
        found = [
            (out, line)
            for z, line in lowest
            if over(line.width / 2.0 - z, shallowest) and over(out := _out(model, line, z), 0.0)
        ]
        if not found:
            yield Holds(element)
        else:
            yield _finding(model, run, *max(found, key=lambda pair: pair[0]))


def _out(model: Model, line: Line, z: float) -> float:
    """How far a line's underside lies below its bay's joists, inches; under 0 where it does not, or lies in no bay."""
    depth = _depth(model, line)
    return -math.inf if depth is None else line.width / 2.0 - z - depth


def _depth(model: Model, line: Line) -> float | None:
    """The depth of the bay that a line's middle lies in, by the shallower of its joists; None where it lies in none."""
    bay = floor_wood(model).bay_at(_along(line, 0.5))
    return None if bay is None else min(model.joists[joist].depth for joist in bay.joists)


def _along(line: Line, share: float) -> Point:
    return line.start.x + share * (line.end.x - line.start.x), line.start.y + share * (line.end.y - line.start.y)


def _within(model: Model, run: list[Line]) -> float:
    """How far from its upper end a run of drain lies within its bays; 0 where it does not fall, or begins under them."""
    length = 0.0
    for line in run:
        a, b, depth = model.heights.get(line.start), model.heights.get(line.end), _depth(model, line)
        if a is None or b is None or a <= b:
            return 0.0
        share = 1.0 if depth is None else min(1.0, (a + depth - line.width / 2.0) / (a - b))
        length += max(0.0, share) * math.dist(line.start[:2], line.end[:2])
        if share < 1.0:
            break
    return length


def _finding(model: Model, run: list[Line], out: float, line: Line) -> Finding:
    a, b, length = model.heights.get(line.start), model.heights.get(line.end), _within(model, run)
    within = (
        f"; down to {feet_inches(down(length))} from its upper end it lies within them" if over(length, 0.0) else ""
    )
    place = line.start if a is not None and b is not None and a < b else line.end
    return Finding(
        "pipe-leaves-bay",
        "note",
        (place.x, place.y, model.heights.get(place, 0.0)),
        (line.element,),
        out,
        0.0,
        "in",
        f"{name(model, line.element)} comes out under the joists of its bay: its underside lies {inches(up(out))} in below their "
        f"bottom edge{within}.",
        COMMON,
        "Leave room for it below and keep it from freezing there; a shorter run, a higher start or deeper joists keep it in.",
    )


RULES = (Rule("pipe-leaves-bay", "Pipe that comes out under its bay", "joist cuts", "note", (), out_of_bay),)
