"""Dimensions: overall strings, and each outlet's and riser's distance from two faces that a tape can hook."""

from __future__ import annotations

from collections.abc import Hashable, Sequence
from typing import TypeVar

from engine.drawings.labels import Box
from engine.drawings.linetypes import FAINT, FINE, THIN
from engine.drawings.sheet import Sheet
from engine.drawings.strokes import Line, Text
from engine.lengths import feet_inches, nearest
from engine.piping import islands
from engine.plan.records import Plan, Point
from engine.study import Study
from engine.takeoff.naming import edges_of
from engine.trade import fixtures as trade

TICK = 0.045
OFF = 0.06
PAST = 0.06

Key = TypeVar("Key", bound=Hashable)


def overall(sheet: Sheet, plan: Plan) -> None:
    """The floor's whole width over it, and its whole length to the right of it."""
    west, south, east, north = extent(plan)
    a, b = sheet.frame.at((west, north)), sheet.frame.at((east, north))
    c, d = sheet.frame.at((east, south)), sheet.frame.at((east, north))
    up = max(a[1], _reach(sheet, 1)) + 0.24
    out = max(c[0], _reach(sheet, 0)) + 0.24
    extensions = [((x, y + OFF), (x, up + PAST)) for x, y in (a, b)]
    extensions += [((x + OFF, y), (out + PAST, y)) for x, y in (c, d)]
    for start, end in extensions:
        sheet.add("dimensions", Line((start, end), THIN))
        sheet.room.take_line(start, end, 0.03)
    _string(sheet, (a[0], up), (b[0], up), feet_inches(east - west))
    _string(sheet, (out, c[1]), (out, d[1]), feet_inches(north - south))


def extent(plan: Plan) -> tuple[float, float, float, float]:
    """The floor outline's west, south, east and north."""
    xs, ys = zip(*plan.floor.outline, strict=True)
    return min(xs), min(ys), max(xs), max(ys)


def ordinates(sheet: Sheet, study: Study) -> None:
    """From the west and the south outside face to every outlet, trap, riser, exit and supply end shown."""
    west, south, _, _ = extent(study.plan)
    points = _features(sheet, study)
    if not points:
        return
    columns: dict[float, float] = {}
    rows: dict[float, float] = {}
    for x, y in points:
        columns[nearest(x - west)] = max(y, columns.get(nearest(x - west), y))
        rows[nearest(y - south)] = max(x, rows.get(nearest(y - south), x))
    strung(sheet, study.plan, 0, columns)
    strung(sheet, study.plan, 1, rows)


def strung(sheet: Sheet, plan: Plan, axis: int, reaches: dict[float, float]) -> None:
    """Distances from the west (axis 0) in a row under the floor, or from the south (1) at its left.

    `reaches` says of each how far over the floor its line is drawn: the plan's y, or x, where that ends.
    """
    west, south, _, _ = extent(plan)
    height = sheet.height * 0.92
    corner = sheet.frame.at((west, south))
    places = {value: sheet.frame.at((west + value, south + value))[axis] for value in reaches}
    low, bounds = corner[1 - axis] - OFF, sheet.room.bounds
    edge = low + OFF / 2.0
    sheet.room.take(Box(0.0, 0.0, bounds.right, edge) if axis == 0 else Box(0.0, 0.0, edge, bounds.top))
    for value, (paper, seat) in spread(places, height * 1.5).items():
        reach = sheet.frame.at((reaches[value], reaches[value]))[1 - axis]
        ends = _turned(axis, (paper, low), (paper, reach))
        sheet.add("extensions", Line(ends, FINE, (0.05, 0.04), FAINT))
        out = _turned(axis, (paper, low), (paper, low - 0.06), (seat, low - 0.16), (seat, low - 0.2))
        sheet.add("dimensions", Line(out, FINE))
        at = (seat + height / 2.0, low - 0.23) if axis == 0 else (low - 0.23, seat - height / 2.0)
        text = Text(at, feet_inches(value), height, "end", 0.0 if axis else 90.0)
        sheet.add("dimensions", text)
        sheet.room.take_text(text)


def _turned(axis: int, *points: Point) -> tuple[Point, ...]:
    """Points by their places along an axis and off it."""
    return points if axis == 0 else tuple((off, along) for along, off in points)


def datum_words(study: Study) -> str:
    """What the distances at the edges are measured from."""
    first, second = edges_of(study.model)
    return f"DISTANCES FROM THE OUTSIDE FACES OF THE {first.upper()} AND THE {second.upper()}"


def _features(sheet: Sheet, study: Study) -> list[Point]:
    plan = study.plan
    points: list[Point] = []
    if sheet.content in ("everything", "drains"):
        for fixture in plan.fixtures:
            if trade.fixture(fixture.kind).outlet in ("closet", "floor", "tub"):
                points.append(fixture.at)
                points += [fixture.trap_at] if fixture.trap_at is not None else []
        points += [riser.at for riser in plan.risers]
        points += [riser.returns for riser in plan.risers if islands.returns(riser) and riser.returns is not None]
        points += [exit_.at for exit_ in plan.exits]
    if sheet.content in ("everything", "water"):
        joined = [point for supply in plan.supplies for point in dict.fromkeys(supply.points)]
        points += [inlet.at for inlet in plan.inlets]
        points += [
            end for supply in plan.supplies for end in (supply.points[0], supply.points[-1]) if joined.count(end) == 1
        ]
    return list(dict.fromkeys(points))


def spread(values: dict[Key, float], apart: float) -> dict[Key, tuple[float, float]]:
    """Seats for labels in a row, near their places and no closer than `apart`: label to place and seat."""
    order = sorted(values.items(), key=lambda item: item[1])
    groups: list[list[float]] = []
    for n, (_, place) in enumerate(order):
        groups.append([place, place, 1.0, float(n)])
        while len(groups) > 1:
            (total_a, _, count_a, first), (total_b, _, count_b, _) = groups[-2], groups[-1]
            end_a = total_a / count_a + (count_a - 1.0) * apart / 2.0
            start_b = total_b / count_b - (count_b - 1.0) * apart / 2.0
            if start_b - end_a >= apart - 1e-9:
                break
            groups[-2:] = [[total_a + total_b, 0.0, count_a + count_b, first]]
    seats: dict[Key, tuple[float, float]] = {}
    for total, _, count, first in groups:
        begin = total / count - (count - 1.0) * apart / 2.0
        for n in range(int(count)):
            value, place = order[int(first) + n]
            seats[value] = (place, begin + n * apart)
    return seats


def _string(sheet: Sheet, a: Point, b: Point, words: str) -> None:
    """A dimension line with its 45 degree ticks and its text above it, read from the bottom or the right."""
    upright = abs(a[0] - b[0]) < 1e-9
    sheet.add("dimensions", Line((a, b), THIN))
    for x, y in (a, b):
        sheet.add("dimensions", Line(((x - TICK, y - TICK), (x + TICK, y + TICK)), THIN))
    middle = ((a[0] + b[0]) / 2.0, (a[1] + b[1]) / 2.0)
    at = (middle[0] - 0.05, middle[1]) if upright else (middle[0], middle[1] + 0.05)
    text = Text(at, words, sheet.height, "middle", 90.0 if upright else 0.0)
    sheet.add("dimensions", text)
    sheet.room.take_text(text)
    sheet.room.take_line(a, b, 0.02)


def _reach(sheet: Sheet, axis: int) -> float:
    """How far walls and fixtures reach to the right (axis 0) or up (axis 1) on paper."""
    drawn = sheet.layers["walls"] + sheet.layers["fixtures"]
    return max((point[axis] for stroke in drawn if isinstance(stroke, Line) for point in stroke.points), default=0.0)


def box_of(points: Sequence[Point]) -> Box:
    """The rectangle round points."""
    xs, ys = zip(*points, strict=True)
    return Box(min(xs), min(ys), max(xs), max(ys))
