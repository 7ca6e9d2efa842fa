"""shared(crossings, ...): the water tubes that pass a joist in one hole, since their own bores would run into each other.

Only whole tubes that pass straight through count: a drain or vent has its hole for itself, a notch is open, and what
ends or turns in the wood no bore takes. Tubes hang together as far as their own bores touch, one by one. Whether the
hole round them is one that the joist bears is then asked like of any bore.
"""

from __future__ import annotations

import math
from collections.abc import Mapping, Sequence
from itertools import pairwise

from msgspec.structs import replace

from engine.crossings.circles import Circle, least_round
from engine.crossings.cuts import clear_of
from engine.crossings.gaps import Shape, wood_between
from engine.crossings.limits import Allowance, allowance, judged_by_book
from engine.crossings.records import Crossing, SharedHole, Tube
from engine.crossings.stretches import DIGITS, EXACT, Line
from engine.framing.records import Framing, Joist
from engine.rulebooks import RuleBook
from engine.trade.bits import bit_for

Met = tuple[Crossing, float]
"""A crossing and the height of its axis."""


def shared(
    crossings: Sequence[Crossing],
    framing: Framing,
    heights: Mapping[str, float],
    book: RuleBook,
    lines: Sequence[Line],
) -> tuple[SharedHole, ...]:
    """Every hole that two or more tubes share, joist by joist as the crossings come, and along each joist.

    `heights` is the axis height at each crossing by its id; one whose height is not known shares no hole.
    """
    tubes: dict[str, list[Crossing]] = {}
    for crossing in crossings:
        if crossing.system in ("cold", "hot") and crossing.passing == "through" and crossing.straight:
            tubes.setdefault(crossing.joist, []).append(crossing)
    crowded = {joist: found for joist, found in tubes.items() if len(found) > 1 and _near(found)}
    if not crowded:
        return ()
    members = {member.id: member for member in framing.members}
    drawn = {line.id: line for line in lines}
    holes: list[SharedHole] = []
    for name, found in crowded.items():
        joist = members[name]
        if joist.kind == "beam":
            continue
        met = [(one, heights[one.id]) for one in found if one.id in heights]
        most = allowance(joist.depth, book)
        holes += (
            _hole(group, [lean(drawn[one.pipe], joist) for one, _ in group], joist, most)
            for group in _together([(one, z) for one, z in met if not clear_of(one, joist, z)])
        )
    return tuple(holes)


def lean(line: Line, joist: Joist) -> float:
    """How far a line that crosses a joist goes along it for each inch across it, from its start side's left to right."""
    run = (line.end.x - line.start.x, line.end.y - line.start.y)
    (ux, uy), across = joist.along, run[0] * joist.along[1] - run[1] * joist.along[0]
    return (run[0] * ux + run[1] * uy) / across


def midway(leans: Sequence[float]) -> float:
    """The direction of one hole for lines that lean so: halfway between the outermost."""
    return (min(leans) + max(leans)) / 2.0


def own_bore(crossing: Crossing, z: float) -> Shape:
    """The face of the bore that a crossing asks for by itself, its axis at `z`."""
    half, tall = crossing.run_along / 2.0, (crossing.bore or crossing.width) / 2.0
    return Shape(crossing.id, True, crossing.along - half, crossing.along + half, z - tall, z + tall)


def _near(found: list[Crossing]) -> bool:
    """Whether any two of a joist's tubes come near each other along it, whatever their heights."""
    ends = sorted((one.along - one.run_along / 2.0, one.along + one.run_along / 2.0) for one in found)
    return any(after[0] <= before[1] + EXACT for before, after in pairwise(ends))


def _together(met: list[Met]) -> list[list[Met]]:
    """The tubes of a joist whose own bores touch, from one to the next; those that touch none are left out."""
    met = sorted(met, key=lambda one: (one[0].along, -one[1], one[0].id))
    faces = [own_bore(*one) for one in met]
    group = list(range(len(met)))
    for one, face in enumerate(faces):
        for other in range(one):
            if group[other] != group[one] and wood_between(faces[other], face) <= EXACT:
                taken, into = group[one], group[other]
                group = [into if number == taken else number for number in group]
    gathered: dict[int, list[Met]] = {}
    for number, each in zip(group, met, strict=True):
        gathered.setdefault(number, []).append(each)
    return [those for those in gathered.values() if len(those) > 1]


def _hole(group: list[Met], leans: list[float], joist: Joist, most: Allowance) -> SharedHole:
    """The one hole of several tubes: the least round them as seen along it, at both faces of the joist."""
    way = midway(leans)
    square = 1.0 / math.hypot(1.0, way)
    seen = []
    for (crossing, z), own in zip(group, leans, strict=True):
        radius = crossing.width / 2.0 / math.cos(math.atan(own) - math.atan(way))
        aside = (own - way) * joist.thickness / 2.0
        seen += [Circle((crossing.along + off) * square, z, radius) for off in {aside, -aside}]
    least = least_round(seen)
    along, z, width = (round(value, DIGITS) for value in (least.x / square, least.y, 2.0 * least.radius))
    bit = bit_for(width)
    cut = width if bit is None else bit.diameter
    heights = most.heights(cut) if bit is not None and judged_by_book(joist) else None
    (x, y), (ux, uy), first = joist.start, joist.along, group[0][0]
    crossing = replace(
        first,
        at=(round(x + ux * along, DIGITS), round(y + uy * along, DIGITS)),
        along=along,
        skew=math.degrees(math.atan(abs(way))),
        width=width,
        bore=None if bit is None else cut,
        bit=None if bit is None else bit.label,
        low=None if heights is None else heights[0],
        high=None if heights is None else heights[1],
        run_along=min(joist.length, joist.thickness * abs(way) + cut / square),
    )
    tubes = tuple(
        Tube(one.id, one.pipe, one.element, one.system, one.along, height, one.width, own)
        for (one, height), own in zip(group, leans, strict=True)
    )
    return SharedHole(crossing, z, way, tubes)
