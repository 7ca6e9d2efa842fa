"""Stretches that meet inside a joist's wood, made one: where a run has a point there, the wood has one hole."""

from __future__ import annotations

import math
from collections.abc import Sequence

from engine.crossings.stretches import EXACT, Line, Stretch
from engine.piping.records import Node

Links = dict[int, list[tuple[int, Node]]]

ONE_LINE = math.sin(math.radians(1.0))
"""Sine of the angle up to which two pipes lie in one line: no fitting is made for less than a degree."""


def joined(found: list[Stretch], lines: Sequence[Line]) -> list[Stretch]:
    """The same, with stretches that meet inside a joist made one.

    Two meet when both pipes end at one node in the wood and either belong to one drawn run or go on in one
    line at one width. What they make is told from the pipe that crosses the joist's centre line, else the
    longest; `enters` may then lie before that pipe's start and `leaves` past its end.
    """
    by_node: dict[tuple[int, Node], list[int]] = {}
    for index, stretch in enumerate(found):
        if stretch.from_start:
            by_node.setdefault((stretch.joist, lines[stretch.line].start), []).append(index)
        if stretch.to_end:
            by_node.setdefault((stretch.joist, lines[stretch.line].end), []).append(index)
    links: Links = {}
    for (_, node), there in by_node.items():
        for place, one in enumerate(there):
            for other in there[place + 1 :]:
                if _one_run(lines[found[one].line], lines[found[other].line]):
                    links.setdefault(one, []).append((other, node))
                    links.setdefault(other, []).append((one, node))
    if not links:
        return found
    seen: set[int] = set()
    result: list[Stretch] = []
    for index, stretch in enumerate(found):
        if index in seen:
            continue
        if index not in links:
            result.append(stretch)
            continue
        members = _connected(index, links)
        seen.update(members)
        result.append(_union(sorted(members), found, lines, links))
    result.sort(key=lambda stretch: (stretch.line, stretch.enters, stretch.joist))
    return result


def _one_run(a: Line, b: Line) -> bool:
    same = a.system == b.system and a.passing == b.passing
    return same and (a.element == b.element or (a.width == b.width and in_line(a, b)))


def in_line(a: Line, b: Line) -> bool:
    """Whether two lines point one way or the opposite way, as drawn."""
    ax, ay, bx, by = a.end.x - a.start.x, a.end.y - a.start.y, b.end.x - b.start.x, b.end.y - b.start.y
    return abs(ax * by - ay * bx) <= ONE_LINE * math.hypot(ax, ay) * math.hypot(bx, by)


def _connected(start: int, links: Links) -> set[int]:
    members, waiting = {start}, [start]
    while waiting:
        for other, _ in links[waiting.pop()]:
            if other not in members:
                members.add(other)
                waiting.append(other)
    return members


def _union(members: list[int], found: list[Stretch], lines: Sequence[Line], links: Links) -> Stretch:
    over_centre = [m for m in members if found[m].low_v <= EXACT and found[m].high_v >= -EXACT]
    chief = max(over_centre or members, key=lambda m: (found[m].leaves - found[m].enters, -m))
    own = found[chief]
    before, after = 0.0, 0.0
    reached, waiting = {chief}, [chief]
    side: dict[int, bool] = {}
    while waiting:
        here = waiting.pop()
        for other, node in links[here]:
            if other in reached:
                continue
            reached.add(other)
            waiting.append(other)
            side[other] = node == lines[own.line].start if here == chief else side[here]
            length = found[other].leaves - found[other].enters
            before, after = (before + length, after) if side[other] else (before, after + length)
    pieces = [found[m] for m in members]
    return own._replace(
        enters=own.enters - before,
        leaves=own.leaves + after,
        low_u=min(p.low_u for p in pieces),
        high_u=max(p.high_u for p in pieces),
        low_v=min(p.low_v for p in pieces),
        high_v=max(p.high_v for p in pieces),
        bent=not all(in_line(lines[own.line], lines[p.line]) for p in pieces),
    )
