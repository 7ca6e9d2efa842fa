"""Two pipes in one place: the drawing is flat, the floor is not, and pipes that cross on paper must pass in height."""

from __future__ import annotations

import math
from collections.abc import Iterator
from typing import NamedTuple

import numpy as np

from engine.checks.model import Model, once_a_model
from engine.checks.outcomes import COMMON
from engine.checks.records import Finding, Holds, NotJudged, Outcome, Rule
from engine.crossings.envelopes import touching
from engine.crossings.limits import over
from engine.joinery.records import Space
from engine.lengths import inches, up
from engine.piping.flow import is_under
from engine.piping.records import Node
from engine.trade.pipe import drain

SAME = 1e-6
"""Ends closer than this are one joint, inches."""


class Body(NamedTuple):
    """One straight pipe under the floor as it stands: its axis, its outside radius and that of its insulation."""

    pipe: str
    element: str
    words: str
    system: str
    start: Space
    end: Space
    radius: float
    covered: float
    known: bool


def pipes_in_one_place(model: Model) -> Iterator[Outcome]:
    """Two pipes under the floor whose outsides overlap.

    Drains, vents and water alike, with the plumb pipes that come down to them; pipes that meet at a joint do not
    count, nor do two of one run. Holds: a water line that passes 1/16 in clear above a drain. Broken: one whose
    axis crosses the drain's. Insulation that is squeezed is to be looked at. Not judged where a height is not
    known. Fittings' hubs and traps are not looked at. Common practice, no source.
    """
    bodies = list(pipes_under_floor(model))
    closest: dict[tuple[str, str], tuple[float, Space, Body, Body]] = {}
    for one, two in _near(bodies):
        if one.element == two.element or _joined(one, two):
            continue
        if one.element > two.element:
            one, two = two, one
        gap, at = _gap(one, two, flat=not (one.known and two.known))
        if not over(one.covered + two.covered, gap):
            continue
        pair = (one.element, two.element)
        if pair not in closest or gap < closest[pair][0] - SAME:
            closest[pair] = (gap, at, one, two)
    for pair, (gap, at, one, two) in closest.items():
        if not (one.known and two.known):
            lost = one if not one.known else two
            yield NotJudged(
                at, pair, f"the height of {lost.element}, which crosses {two.element if lost is one else one.element}"
            )
            continue
        yield _finding(one, two, gap, at)
    clashing = {element for pair in closest for element in pair}
    for body in bodies:
        if body.element not in clashing:
            clashing.add(body.element)
            yield Holds(body.element)


def _finding(one: Body, two: Body, gap: float, at: Space) -> Finding:
    bare = one.radius + two.radius
    if over(bare, gap):
        weight, room = "stop", bare
        text = f"{one.words} and {two.words} are in one place: their axes pass {inches(gap)} in apart and need {inches(up(bare))} in."
    else:
        weight, room = "look", one.covered + two.covered
        text = (
            f"{one.words} and {two.words} pass, but the insulation is squeezed: their axes are {inches(gap)} in apart and want "
            f"{inches(up(room))} in."
        )
    return Finding(
        "pipes-in-one-place",
        "stop" if weight == "stop" else "look",
        at,
        (one.element, two.element),
        gap,
        room,
        "in",
        text,
        COMMON,
        f"Part them by {inches(up(room - gap))} in more: lower or raise the water line, or take it another way.",
    )


def pipes_under_floor(model: Model) -> Iterator[Body]:
    """Every straight pipe under the floor as it stands, level and plumb ones; its height may not be known."""
    depth = min((joist.depth for joist in model.framing.joists), default=0.0)
    supplies = {supply.id: supply for supply in model.plan.supplies}
    for line in model.lines:
        supply = supplies.get(line.element)
        radius = line.width / 2.0
        if supply is not None:
            z = -depth / 2.0 if supply.down is None else -supply.down
            ends, bare = (z, z), radius - supply.insulation
            words = f"{supply.water} water run {supply.id}"
        else:
            a, b = model.heights.get(line.start), model.heights.get(line.end)
            ends, bare = (a, b), radius  # type: ignore[assignment]
            words = f"{'vent' if line.system == 'vent' else 'drain'} {line.element}"
        known = ends[0] is not None and ends[1] is not None
        east, north = _short_of_roll(model, line.id)
        yield Body(
            line.id,
            line.element,
            words,
            line.system,
            (line.start.x, line.start.y, ends[0] or 0.0),
            (line.end.x - east, line.end.y - north, ends[1] or 0.0),
            bare,
            radius,
            known,
        )
    for pipe in model.network.pipes:
        if pipe.shape != "plumb":
            continue
        low, high = (pipe.start, pipe.end) if pipe.start.level < pipe.end.level else (pipe.end, pipe.start)
        foot = model.heights.get(low)
        if not is_under(low) or foot is None:
            continue
        top = model.heights.get(high, 0.0) if is_under(high) else min(0.0, high.level)
        radius = drain(pipe.size).od / 2.0
        yield Body(
            pipe.id,
            pipe.element,
            f"the upright pipe of {pipe.element}",
            pipe.system,
            (low.x, low.y, foot),
            (low.x, low.y, top),
            radius,
            radius,
            True,
        )


@once_a_model
def _rolls(model: Model) -> frozenset[Node]:
    """Where pipe begins that climbs in a roll."""
    return frozenset(pipe.start for pipe in model.network.pipes if pipe.shape == "inclined")


def _short_of_roll(model: Model, name: str) -> tuple[float, float]:
    """How far short of its drawn end a level run stops whose lower end is rolled: what the roll's climb takes of it."""
    graph, pipe = model.network.graph, model.network.by_id.get(name)
    if pipe is None or pipe.end not in _rolls(model) or pipe.end not in graph:
        return (0.0, 0.0)
    for after in graph.successors(pipe.end):
        roll = graph.edges[pipe.end, after]["pipe"]
        top, foot = model.heights.get(roll.start), model.heights.get(roll.end)
        if roll.shape == "inclined" and roll.element == pipe.element and top is not None and foot is not None:
            taken = (top - foot) / math.tan(math.radians(roll.climb))
            return (taken * pipe.heading[0], taken * pipe.heading[1])
    return (0.0, 0.0)


def _near(bodies: list[Body]) -> Iterator[tuple[Body, Body]]:
    """Pairs whose outlines in plan touch, each once, in the bodies' order."""
    if len(bodies) < 2:
        return
    starts, stops = np.array([body.start[:2] for body in bodies]), np.array([body.end[:2] for body in bodies])
    wide = np.array([[body.covered] for body in bodies])
    low, high = np.minimum(starts, stops) - wide, np.maximum(starts, stops) + wide
    boxes = (low[:, 0], low[:, 1], high[:, 0], high[:, 1])
    first, second = touching(boxes, boxes)
    for one, two in sorted(zip(first[first < second].tolist(), second[first < second].tolist(), strict=True)):
        yield bodies[one], bodies[two]


def _joined(one: Body, two: Body) -> bool:
    """Whether two pipes meet at a joint; water of one kind that meets in plan is joined, whatever its depths."""
    flat = one.system == two.system and one.system in ("cold", "hot")
    for a in (one.start, one.end):
        for b in (two.start, two.end):
            if abs(a[0] - b[0]) < SAME and abs(a[1] - b[1]) < SAME and (flat or abs(a[2] - b[2]) < SAME):
                return True
    return False


def _gap(one: Body, two: Body, flat: bool) -> tuple[float, Space]:
    """The least distance between two axes (in plan only when `flat`), and the place halfway between."""
    p, q = one.start, two.start
    d1 = tuple(b - a for a, b in zip(one.start, one.end, strict=True))
    d2 = tuple(b - a for a, b in zip(two.start, two.end, strict=True))
    r = tuple(a - b for a, b in zip(p, q, strict=True))
    if flat:
        d1, d2, r = (*d1[:2], 0.0), (*d2[:2], 0.0), (*r[:2], 0.0)
    a, e, b = _dot(d1, d1), _dot(d2, d2), _dot(d1, d2)
    c, f = _dot(d1, r), _dot(d2, r)
    across = a * e - b * b
    s = min(1.0, max(0.0, (b * f - c * e) / across)) if across > SAME else 0.0
    t = (b * s + f) / e if e > 0.0 else 0.0
    if t < 0.0 or t > 1.0:
        t = min(1.0, max(0.0, t))
        s = min(1.0, max(0.0, (b * t - c) / a)) if a > 0.0 else 0.0
    near = [r[i] + d1[i] * s - d2[i] * t for i in range(3)]
    at = tuple(p[i] + d1[i] * s - near[i] / 2.0 for i in range(3))
    return math.hypot(*near), (at[0], at[1], at[2])


def _dot(u: tuple[float, ...], v: tuple[float, ...]) -> float:
    return u[0] * v[0] + u[1] * v[1] + u[2] * v[2]


RULES = (Rule("pipes-in-one-place", "Two pipes in one place", "drawing", "stop", (), pipes_in_one_place),)
