"""What must hold in a plan beyond the type of each field: between its things, and inside each of them."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import pairwise
from typing import NamedTuple

from engine.lengths import inches
from engine.plan.faults import shown
from engine.plan.grid import STEP
from engine.plan.limits import MOST_ELEMENTS, MOST_POINTS
from engine.plan.points import PATHS, point_count
from engine.plan.records import (
    KINDS,
    AirOpening,
    Beam,
    Floor,
    FlooringArea,
    FloorLayer,
    FloorOpening,
    Plan,
    Point,
    Wall,
)

LEAST_FLOOR = 144.0
"""Square inches under which an outline is taken for a slip: one square foot."""


LAYERED: dict[type, tuple[str, ...]] = {Floor: ("subfloor", "finish"), FlooringArea: ("finish",)}
"""The thicknesses of a record that may be told layer by layer."""


class Unsound(NamedTuple):
    """Something that can't be: its place in the plan, the sentence, and the id of the thing (empty: the floor)."""

    where: str
    what: str
    element: str


def unsound(plan: Plan) -> Iterator[Unsound]:
    """Everything about a plan that can't be, its own limits first."""
    count = sum(len(getattr(plan, kind)) for kind in KINDS)
    if count > MOST_ELEMENTS:
        yield Unsound("", f"expected at most {MOST_ELEMENTS} drawn things, found {count}", "")
    points = point_count(plan)
    if points > MOST_POINTS:
        yield Unsound("", f"expected at most {MOST_POINTS} points in all runs together, found {points}", "")
    for within, what in faults_of(plan.floor):
        yield Unsound(f"floor.{within}", what, "")
    seen: dict[str, str] = {}
    for kind in KINDS:
        for index, element in enumerate(getattr(plan, kind)):
            where = f"{kind}[{index}]"
            if element.id in seen:
                what = f"expected an id of its own, found {shown(element.id)}, which {seen[element.id]} has"
                yield Unsound(f"{where}.id", what, element.id)
            seen.setdefault(element.id, where)
            for within, what in faults_of(element):
                yield Unsound(f"{where}.{within}", what, element.id)
    walls = {wall.id for wall in plan.walls}
    for index, riser in enumerate(plan.risers):
        if riser.wall is not None and riser.wall not in walls:
            what = f"expected the id of one of the plan's walls, found {shown(riser.wall)}"
            yield Unsound(f"risers[{index}].wall", what, riser.id)
    yield from _through(plan)
    yield from _twice("amendments", "value", [(one.value,) for one in plan.amendments])
    yield from _twice("sticks", "length", [(f"{one.size} in stick of {one.length:.12g} in",) for one in plan.sticks])
    yield from _twice("on_hand", "part", [(one.part, one.size) for one in plan.on_hand])
    yield from _twice("takeoffs", "leg", [(one.kind, one.size, one.leg) for one in plan.takeoffs])


def _through(plan: Plan) -> Iterator[Unsound]:
    """Fixtures said to drain through another that is not there, or that has no trap of its own for them."""
    fixtures = {fixture.id: fixture for fixture in plan.fixtures}
    for index, fixture in enumerate(plan.fixtures):
        if fixture.through is None:
            continue
        other = fixtures.get(fixture.through)
        if other is None or other.through is not None:
            what = f"expected the id of a fixture with a drain of its own, found {shown(fixture.through)}"
            yield Unsound(f"fixtures[{index}].through", what, fixture.id)


def faults_of(thing: object) -> Iterator[tuple[str, str]]:
    """What can't be inside one element or floor: the place in it and the sentence."""
    path = PATHS.get(type(thing))
    if path is not None:
        points: tuple[Point, ...] = getattr(thing, path)
        for index, (a, b) in enumerate(pairwise(points)):
            if a == b:
                yield f"{path}[{index + 1}]", f"expected another point than the one before it, found {_spelt(b)} again"
    if isinstance(thing, FloorOpening | FlooringArea) and (
        thing.start[0] == thing.end[0] or thing.start[1] == thing.end[1]
    ):
        what = "opening" if isinstance(thing, FloorOpening) else "area"
        yield "end", f"expected the {what}'s opposite corner, found {_spelt(thing.end)}, which leaves it no width"
    if isinstance(thing, Wall | AirOpening | Beam) and thing.start == thing.end:
        what = {Wall: "wall", Beam: "beam"}.get(type(thing), "opening")
        yield "end", f"expected another point than the {what}'s start, found {_spelt(thing.end)} again"
    for part in LAYERED.get(type(thing), ()):
        layers: tuple[FloorLayer, ...] = getattr(thing, f"{part}_layers")
        whole, sum_ = getattr(thing, part), sum(layer.thickness for layer in layers)
        if layers and abs(whole - sum_) > STEP:
            yield f"{part}_layers", f"expected layers that add up to {inches(whole)} in, found {inches(sum_)} in"
    if isinstance(thing, Floor):
        yield from _outline(thing.outline)


def _outline(outline: tuple[Point, ...]) -> Iterator[tuple[str, str]]:
    if outline[0] == outline[-1]:
        yield f"outline[{len(outline) - 1}]", "expected the last corner to be joined to the first without repeating it"
        return
    sides = list(zip(outline, (*outline[1:], outline[0]), strict=True))
    area = sum(a[0] * b[1] - b[0] * a[1] for a, b in sides) / 2.0
    if abs(area) < LEAST_FLOOR:
        yield "outline", f"expected corners round a square foot or more, found {abs(area):.6g} square inches"
        return
    for i, (a, b) in enumerate(sides):
        for j in range(i + 2, len(sides) - (i == 0)):
            if _cross(a, b, *sides[j]):
                yield f"outline[{j}]", f"expected sides that don't meet, found the side from here on side {i}"
                return


def inside(outline: tuple[Point, ...], p: Point) -> bool:
    """Whether a point lies within an outline."""
    within = False
    for (x0, y0), (x1, y1) in zip(outline, (*outline[1:], outline[0]), strict=True):
        if (y0 > p[1]) != (y1 > p[1]) and p[0] < x0 + (p[1] - y0) * (x1 - x0) / (y1 - y0):
            within = not within
    return within


def _cross(a: Point, b: Point, c: Point, d: Point) -> bool:
    """Whether two stretches share a point."""
    sides = (_side(a, b, c), _side(a, b, d), _side(c, d, a), _side(c, d, b))
    if sides[0] * sides[1] < 0 and sides[2] * sides[3] < 0:
        return True
    ends = ((a, b, c), (a, b, d), (c, d, a), (c, d, b))
    return any(side == 0 and _between(*end) for side, end in zip(sides, ends, strict=True))


def _side(a: Point, b: Point, p: Point) -> float:
    return (b[0] - a[0]) * (p[1] - a[1]) - (b[1] - a[1]) * (p[0] - a[0])


def _between(a: Point, b: Point, p: Point) -> bool:
    return min(a[0], b[0]) <= p[0] <= max(a[0], b[0]) and min(a[1], b[1]) <= p[1] <= max(a[1], b[1])


def _twice(kind: str, field: str, names: list[tuple[str, ...]]) -> Iterator[Unsound]:
    seen: set[tuple[str, ...]] = set()
    for index, name in enumerate(names):
        if name in seen:
            yield Unsound(
                f"{kind}[{index}].{field}", f"expected it once, found {' '.join(filter(None, name))[:60]} again", ""
            )
        seen.add(name)


def _spelt(point: Point) -> str:
    return f"({inches(point[0])}, {inches(point[1])})"
