"""A fitting's sketch on paper: its outline, its centrelines, and a dimension with a letter for each leg to measure."""

from __future__ import annotations

import math
from collections.abc import Callable

from engine.drawings.gauging.outlines import Barrel, Outline, Span, outline
from engine.drawings.linetypes import FINE, MEDIUM, THIN
from engine.drawings.strokes import Arc, Dashes, Drawing, Fill, Line, Stroke, Text
from engine.plan.records import Point
from engine.takeoff.gauge import Gauge

_Map = Callable[[Point], Point]

BODY_GREY = 0.93
_AXIS: Dashes = (0.1, 0.025, 0.025, 0.025)
_HIDDEN: Dashes = (0.035, 0.025)
_OFF = 0.17
_PAST = 0.04
_TICK = 0.035
_AIR = 0.03
_WIDEST = 0.42
"""The most of the paper's width that a barrel is drawn across."""


def sketch(gauged: Gauge, width: float, height: float, lettering: float) -> Drawing:
    """A fitting from the side, as large as `width` by `height` inches of paper take with its letters."""
    shape = outline(gauged.kind, gauged.size)
    spans = {leg.letter: shape.spans[leg.legs[0]] for leg in gauged.legs}
    room = _OFF + lettering * 2.2 + _AIR * 3.0
    left, bottom, right, top = _bounds(shape, spans)
    sides = _sides(spans, room)
    wide, high = width - sides[0] - sides[2], height - sides[1] - sides[3]
    widest = 2.0 * max(barrel.half for barrel in shape.barrels)
    scale = max(min(wide / max(right - left, 0.1), high / max(top - bottom, 0.1), _WIDEST * width / widest), 0.01)
    origin = (
        sides[0] + (wide - (right - left) * scale) / 2.0 - left * scale,
        sides[1] + (high - (top - bottom) * scale) / 2.0 - bottom * scale,
    )

    def at(point: Point) -> Point:
        return (origin[0] + point[0] * scale, origin[1] + point[1] * scale)

    strokes = [*_body(shape, at, scale), *_axes(shape, at)]
    for letter, span in spans.items():
        strokes += _dimension(span, at, scale, letter, lettering)
    return Drawing(tuple(strokes), width, height, (0.0, 0.0, width, height), "not to scale", 1.0 / scale)


def _bounds(shape: Outline, spans: dict[str, Span]) -> tuple[float, float, float, float]:
    points = [point for barrel in shape.barrels for point in _edge(barrel)]
    points += [point for axis in shape.axes for point in axis]
    for span in spans.values():
        points += [(x + span.side[0] * span.clear, y + span.side[1] * span.clear) for x, y in (span.start, span.end)]
    xs, ys = zip(*points, strict=True)
    return min(xs), min(ys), max(xs), max(ys)


def _sides(spans: dict[str, Span], room: float) -> tuple[float, float, float, float]:
    """Paper kept free for dimensions: left, bottom, right, top."""
    ways = [span.side for span in spans.values()]
    small = _AIR * 2.0
    return (
        room if any(x < -0.3 for x, _ in ways) else small,
        room if any(y < -0.3 for _, y in ways) else small,
        room if any(x > 0.3 for x, _ in ways) else small,
        room if any(y > 0.3 for _, y in ways) else small,
    )


def _edge(barrel: Barrel) -> tuple[Point, ...]:
    """The outline of a tube along its line."""
    left: list[Point] = []
    right: list[Point] = []
    last = len(barrel.line) - 1
    for n, (x, y) in enumerate(barrel.line):
        a, b = barrel.line[max(n - 1, 0)], barrel.line[min(n + 1, last)]
        run = math.dist(a, b) or 1.0
        nx, ny = -(b[1] - a[1]) / run * barrel.half, (b[0] - a[0]) / run * barrel.half
        left.append((x + nx, y + ny))
        right.append((x - nx, y - ny))
    return (*left, *reversed(right))


def _body(shape: Outline, at: _Map, scale: float) -> list[Stroke]:
    """All outlines first, then all fillings, so that only the outside edge of the whole stays."""
    edges = [tuple(at(point) for point in _edge(barrel)) for barrel in shape.barrels]
    strokes: list[Stroke] = [Line(edge, MEDIUM * 2.2, closed=True) for edge in edges]
    strokes += [Fill(edge, BODY_GREY) for edge in edges]
    for barrel, edge in zip(shape.barrels, edges, strict=True):
        if len(barrel.line) == 2 and not shape.stops:
            strokes.append(Line(edge, THIN, closed=True))
    for stop in shape.stops:
        side = (-stop.way[1], stop.way[0])
        across = tuple(
            at((stop.at[0] + side[0] * stop.half * sign, stop.at[1] + side[1] * stop.half * sign)) for sign in (-1, 1)
        )
        strokes.append(Line(across, THIN, _HIDDEN))
    return strokes


def _axes(shape: Outline, at: _Map) -> list[Stroke]:
    return [Line(_stretched(at(a), at(b), 0.05), FINE, _AXIS) for a, b in shape.axes]


def _stretched(a: Point, b: Point, by: float) -> tuple[Point, Point]:
    run = math.dist(a, b) or 1.0
    ux, uy = (b[0] - a[0]) / run * by, (b[1] - a[1]) / run * by
    return ((a[0] - ux, a[1] - uy), (b[0] + ux, b[1] + uy))


def _dimension(span: Span, at: _Map, scale: float, letter: str, lettering: float) -> list[Stroke]:
    """Extension lines off the body, the dimension between them with ticks, its letter in a ring beside its middle."""
    off = span.clear * scale + _OFF
    ends = [at(span.start), at(span.end)]
    out = [(x + span.side[0] * off, y + span.side[1] * off) for x, y in ends]
    strokes: list[Stroke] = []
    for inner, outer in zip(ends, out, strict=True):
        past = (outer[0] + span.side[0] * _PAST, outer[1] + span.side[1] * _PAST)
        strokes.append(Line((inner, past), FINE, grey=0.35))
    strokes.append(Line((out[0], out[1]), THIN))
    for x, y in out:
        strokes.append(Line(((x - _TICK, y - _TICK), (x + _TICK, y + _TICK)), MEDIUM))
    reach = lettering * 1.05
    beyond = reach + _PAST
    middle = ((out[0][0] + out[1][0]) / 2.0, (out[0][1] + out[1][1]) / 2.0)
    if math.dist(out[0], out[1]) < 3.0 * reach:
        middle = (middle[0] + span.side[0] * beyond, middle[1] + span.side[1] * beyond)
    strokes.append(Arc(middle, reach, THIN, fill=1.0))
    strokes.append(Text((middle[0], middle[1] - lettering / 2.0), letter, lettering, "middle", bold=True))
    return strokes
