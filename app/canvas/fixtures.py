"""Fixtures from above, at their true size, with their letters and the marks of their outlet and water.

Each symbol is drawn once in the fixture's own frame (x the way it faces, y to its left) and turned into the
plan. The drawings are this program's own.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Sequence

from PySide6.QtCore import QPointF, QRectF
from PySide6.QtGui import QBrush, QPainterPath, QTransform

from app import palette
from app.canvas.picture import Picture, Seat, Tag, Turn, dot, shape
from app.canvas.places import disc, to_plan, track
from app.canvas.stub_marks import RING, stub_marks
from app.tools.plane import ahead
from engine.drafting.bodies import Body, body_of
from engine.drafting.stubs import stubs
from engine.plan.records import Fixture, Point, Wall
from engine.trade.fixtures import fixture as spec_of

Symbol = tuple[QPainterPath, QPainterPath]
"""A symbol's outer line, which is filled, and its inner lines."""

OUTLET = 1.5
"""Radius of the outlet's mark, inches."""


def draw_fixture(fixture: Fixture, walls: Sequence[Wall] = (), host: Fixture | None = None) -> Picture:
    """A fixture's symbol. `walls` says how thick the wall behind it is, `host` is the fixture that it drains through."""
    spec = spec_of(fixture.kind)
    body = body_of(fixture, walls)
    frame = _frame(fixture)
    outer, inner = _symbol(fixture, body)
    area = frame.map(outer)
    items = [
        shape(area, palette.pen(palette.FIXTURE_EDGE, 1.4), QBrush(palette.shade(palette.FIXTURE_FILL, 150))),
        shape(frame.map(inner), palette.pen(palette.FIXTURE_INNER, 1.1)),
    ]
    marks: list[tuple[Point, Point]] = []
    if host is not None:
        hose = (_behind(fixture, body), _behind(host, body_of(host, walls)))
        items.append(shape(track(hose), palette.pen(palette.WASTE, 1.6, dashes=(1.5, 1.5))))
        items += [dot(end, 0.7, palette.WASTE) for end in hose]
        marks.append(hose)
    elif spec.outlet != "none":
        items += [dot(fixture.at, OUTLET, palette.WASTE, 1.6, palette.GROUND), dot(fixture.at, 0.5, palette.WASTE)]
    if fixture.trap_at is not None:
        items.append(dot(fixture.trap_at, 1.0, palette.WASTE, 1.2, palette.GROUND))
        area = area.united(disc(fixture.trap_at, OUTLET))
    own = stubs(fixture, walls)
    items += [item for stub in own for item in stub_marks(stub)]
    forward, left = body.centre
    spots = [
        ahead(fixture.at, fixture.turn, forward + body.depth * share, left) for share in (0.0, 0.25, -0.25, -0.36, 0.36)
    ]
    room = min(body.width, body.depth)
    words = fixture.name or spec.words
    outside = _outside(area.boundingRect())
    if room < ROOMY:
        within, outside = [], _beside(area.boundingRect())
    else:
        within = [Seat(spot, 0.0, room) for spot in spots]
    seats = (*within, *outside, Seat(spots[0]))
    tag = Tag(spec.letters, seats, palette.INK, bold=True, pixels=12, urgent=True, turn=Turn.NAME)
    marks += [((x - RING, y), (x + RING, y)) for x, y in (stub.at for stub in own)]
    return Picture("fixtures", area.united(disc(fixture.at, OUTLET)), tuple(items), (tag,), words, tuple(marks))


def _symbol(fixture: Fixture, body: Body) -> Symbol:
    with_bowls = _WITH_BOWLS.get(fixture.kind)
    return _SYMBOLS[fixture.kind](body) if with_bowls is None else with_bowls(body, fixture.bowls)


def _behind(fixture: Fixture, body: Body) -> Point:
    """Just before the middle of a fixture's back, where its hose or tailpiece goes down."""
    return ahead(fixture.at, fixture.turn, HOSE - body.back, body.centre[1])


ROOMY = 9.0
"""A body narrower than this, inches, keeps its letters beside it: they would hide it."""

HOSE = 3.0
"""How far before a fixture's back the line of a hose is drawn, inches."""


def _outside(box: QRectF) -> list[Seat]:
    """Places for the letters about a body, for when pipes leave no room in it."""
    centre = to_plan(box.center())
    tall, wide = box.height() / 2.0, box.width() / 2.0
    room = 2.0 * max(tall, wide)
    above_and_below = [Seat(centre, 0.0, room, side, clear=tall) for side in (1, -1)]
    return [*above_and_below, *(Seat(centre, 0.0, room, anchor=anchor, clear=wide) for anchor in (1, -1))]


def _beside(box: QRectF) -> list[Seat]:
    """Places for the letters of a small body: past its sides, then past its lower and upper corners, then under it."""
    centre = to_plan(box.center())
    tall, wide = box.height() / 2.0, box.width() / 2.0
    sides = [Seat(centre, anchor=anchor, clear=wide) for anchor in (1, -1)]
    corners = [
        Seat((centre[0] + anchor * wide, centre[1] + side * tall), side=side, anchor=anchor)
        for side in (-1, 1)
        for anchor in (1, -1)
    ]
    return [*sides, *corners, Seat(centre, side=-1, clear=tall)]


def _frame(fixture: Fixture) -> QTransform:
    """From the fixture's own frame to the scene: turned, moved, and north turned up."""
    turn = math.radians(fixture.turn)
    c, s = math.cos(turn), math.sin(turn)
    return QTransform(c, -s, -s, -c, fixture.at[0], -fixture.at[1])


def _rect(body: Body, inset: float = 0.0) -> QRectF:
    return QRectF(-body.back + inset, -body.right + inset, body.depth - 2.0 * inset, body.width - 2.0 * inset)


def _closet(body: Body) -> Symbol:
    back, half = -body.back, body.width / 2.0
    tank = 0.29 * body.depth
    bowl_from, bowl_half = back + tank + 0.6, 0.74 * half
    outer = QPainterPath()
    outer.addRoundedRect(QRectF(back + 0.6, -half, tank - 0.6, body.width), 1.5, 1.5)
    bowl = QPainterPath(QPointF(bowl_from, -0.6 * bowl_half))
    bowl.cubicTo(bowl_from + 6.0, -1.25 * bowl_half, body.front, -1.1 * bowl_half, body.front, 0.0)
    bowl.cubicTo(body.front, 1.1 * bowl_half, bowl_from + 6.0, 1.25 * bowl_half, bowl_from, 0.6 * bowl_half)
    bowl.closeSubpath()
    outer.addPath(bowl)
    inner = QPainterPath()
    reach = body.front - bowl_from
    inner.addEllipse(QPointF(bowl_from + 0.56 * reach, 0.0), 0.34 * reach, 0.62 * bowl_half)
    return outer, inner


def _lavatory(body: Body, bowls: int) -> Symbol:
    outer = QPainterPath()
    outer.addRoundedRect(_rect(body), 2.0, 2.0)
    forward, _ = body.centre
    inner = QPainterPath()
    tap, wide = -body.back + 0.1 * body.depth, body.width / bowls
    for across in _middles(body, bowls):
        inner.addEllipse(QPointF(forward + 0.06 * body.depth, across), 0.34 * body.depth, 0.39 * wide)
        inner.moveTo(tap, across)
        inner.lineTo(tap + 0.22 * body.depth, across)
    return outer, inner


def _middles(body: Body, bowls: int) -> list[float]:
    """The middles of bowls side by side, inches to the left."""
    wide = body.width / bowls
    return [-body.right + wide * (number + 0.5) for number in range(bowls)]


def _shower(body: Body) -> Symbol:
    outer = QPainterPath()
    outer.addRect(_rect(body))
    edge = 1.8
    inner = QPainterPath()
    inner.addRect(_rect(body, edge))
    for x in (-body.back + edge, body.front - edge):
        for y in (-body.right + edge, body.left - edge):
            inner.moveTo(x, y)
            run = math.hypot(x, y) or 1.0
            inner.lineTo(x * 3.0 / run, y * 3.0 / run)
    return outer, inner


def _bathtub(body: Body) -> Symbol:
    outer = QPainterPath()
    outer.addRoundedRect(_rect(body), 1.5, 1.5)
    inner = QPainterPath()
    inner.addRoundedRect(_rect(body, 2.6), 6.0, 6.0)
    inner.addRoundedRect(_rect(body, 4.6), 4.5, 4.5)
    return outer, inner


def _kitchen_sink(body: Body, bowls: int) -> Symbol:
    outer = QPainterPath()
    outer.addRoundedRect(_rect(body), 1.5, 1.5)
    inner = QPainterPath()
    deep = 0.66 * body.depth
    begin = body.front - 1.5 - deep
    wide = body.width / bowls - 2.4
    for across in _middles(body, bowls):
        inner.addRoundedRect(QRectF(begin, across - wide / 2.0, deep, wide), 2.0, 2.0)
    tap = -body.back + 0.12 * body.depth
    inner.moveTo(tap, 0.0)
    inner.lineTo(tap + (0.3 if bowls % 2 == 0 else 0.2) * body.depth, 0.0)
    return outer, inner


def _washer(body: Body) -> Symbol:
    outer = QPainterPath()
    outer.addRoundedRect(_rect(body), 1.0, 1.0)
    forward, left = body.centre
    inner = QPainterPath()
    inner.addEllipse(QPointF(forward + 0.04 * body.depth, left), 0.33 * body.depth, 0.33 * body.depth)
    ledge = -body.back + 0.13 * body.depth
    inner.moveTo(ledge, -body.right)
    inner.lineTo(ledge, body.left)
    return outer, inner


def _water_heater(body: Body) -> Symbol:
    forward, left = body.centre
    outer, inner = QPainterPath(), QPainterPath()
    radius = min(body.depth, body.width) / 2.0
    outer.addEllipse(QPointF(forward, left), radius, radius)
    for side in (-0.4, 0.4):
        inner.addEllipse(QPointF(forward, left + side * radius), 1.0, 1.0)
    inner.addEllipse(QPointF(forward, left), 0.86 * radius, 0.86 * radius)
    return outer, inner


def _refrigerator(body: Body) -> Symbol:
    outer = QPainterPath()
    outer.addRect(_rect(body))
    inner = QPainterPath()
    door = body.front - 0.1 * body.depth
    inner.moveTo(door, -body.right)
    inner.lineTo(door, body.left)
    inner.moveTo(door, 0.72 * body.left)
    inner.lineTo(body.front, 0.72 * body.left)
    return outer, inner


def _hose_bibb(body: Body) -> Symbol:
    outer, inner = QPainterPath(), QPainterPath()
    outer.addRoundedRect(QRectF(-body.back, -0.25 * body.width, body.depth, 0.5 * body.width), 0.6, 0.6)
    inner.moveTo(-body.back + 0.35 * body.depth, -body.right)
    inner.lineTo(-body.back + 0.35 * body.depth, body.left)
    return outer, inner


def _bar_sink(body: Body, bowls: int) -> Symbol:
    outer, inner = QPainterPath(), QPainterPath()
    outer.addRoundedRect(_rect(body), 1.5, 1.5)
    for basin in _basins(body, bowls, 1.6, 0.16):
        inner.addRoundedRect(basin, 2.5, 2.5)
    tap = -body.back + 0.1 * body.depth
    inner.moveTo(tap, body.centre[1])
    inner.lineTo(tap + 0.3 * body.depth, body.centre[1])
    return outer, inner


def _laundry_tub(body: Body, bowls: int) -> Symbol:
    outer, inner = QPainterPath(), QPainterPath()
    outer.addRect(_rect(body))
    for basin in _basins(body, bowls, 1.4, 0.14):
        inner.addRoundedRect(basin, 1.5, 1.5)
        for step in (2.0, 4.0, 6.0):
            inner.moveTo(basin.right() - step, basin.top())
            inner.lineTo(basin.right() - step, basin.bottom())
    return outer, inner


def _basins(body: Body, bowls: int, rim: float, ledge: float) -> list[QRectF]:
    """Basins side by side inside a rim, before a ledge that is a share of the depth."""
    whole = _rect(body, rim).adjusted(ledge * body.depth, 0.0, 0.0, 0.0)
    wide = (whole.height() + rim) / bowls
    return [QRectF(whole.left(), whole.top() + n * wide, whole.width(), wide - rim) for n in range(bowls)]


def _dishwasher(body: Body) -> Symbol:
    outer, inner = QPainterPath(), QPainterPath()
    outer.addRoundedRect(_rect(body), 1.0, 1.0)
    door = body.front - 0.09 * body.depth
    inner.moveTo(door, -body.right)
    inner.lineTo(door, body.left)
    inner.addRoundedRect(_rect(body, 1.8).adjusted(0.0, 0.0, -0.12 * body.depth, 0.0), 2.5, 2.5)
    handle = 0.3 * body.width
    inner.moveTo(door + 0.045 * body.depth, body.centre[1] - handle / 2.0)
    inner.lineTo(door + 0.045 * body.depth, body.centre[1] + handle / 2.0)
    return outer, inner


def _floor_drain(body: Body) -> Symbol:
    outer, inner = QPainterPath(), QPainterPath()
    outer.addRect(_rect(body))
    forward, left = body.centre
    for share in (0.44, 0.24):
        inner.addEllipse(QPointF(forward, left), share * body.depth, share * body.depth)
    return outer, inner


def _bidet(body: Body) -> Symbol:
    outer, inner = QPainterPath(), QPainterPath()
    forward, left = body.centre
    outer.addEllipse(QPointF(forward, left), body.depth / 2.0, body.width / 2.0)
    inner.addEllipse(QPointF(forward + 0.06 * body.depth, left), 0.32 * body.depth, 0.32 * body.width)
    tap = -body.back + 0.1 * body.depth
    inner.moveTo(tap, left)
    inner.lineTo(tap + 0.2 * body.depth, left)
    return outer, inner


_SYMBOLS: dict[str, Callable[[Body], Symbol]] = {
    "water_closet": _closet,
    "shower": _shower,
    "bathtub": _bathtub,
    "washer_standpipe": _washer,
    "water_heater": _water_heater,
    "refrigerator": _refrigerator,
    "hose_bibb": _hose_bibb,
    "dishwasher": _dishwasher,
    "floor_drain": _floor_drain,
    "bidet": _bidet,
}

_WITH_BOWLS: dict[str, Callable[[Body, int], Symbol]] = {
    "lavatory": _lavatory,
    "kitchen_sink": _kitchen_sink,
    "bar_sink": _bar_sink,
    "laundry_tub": _laundry_tub,
}
