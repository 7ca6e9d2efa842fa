"""Fixtures from above, true to size, with their letters."""

from __future__ import annotations

import math
from collections.abc import Callable
from typing import NamedTuple

from engine.drawings.labels import Box
from engine.drawings.linetypes import FIXTURE, MEDIUM, THIN
from engine.drawings.sheet import Sheet
from engine.drawings.strokes import Arc, Dashes, Line, Stroke, Text
from engine.drawings.typeface import text_width
from engine.plan.records import Fixture, Plan, Point
from engine.plan.walls import wall_at
from engine.trade.fixtures import fixture as spec_of
from engine.trade.lumber import actual

_ASSUMED_WALL = ("2x4", 0.5)
"""Studs and board of the wall behind a fixture while none is drawn."""


_CROWDED = 0.4
"""Cost over which a fixture's letters stand beside its body rather than in it."""

_PALE = 0.6
"""Cost of covering one square inch of a fixture: other ground is a little better."""


class Body(NamedTuple):
    """A fixture's outline about its point: inches behind it, before it, to the left and right of the way it faces."""

    back: float
    front: float
    left: float
    right: float


def body_of(fixture: Fixture, plan: Plan) -> Body:
    """Where a fixture's body lies about the point that its pipe starts from."""
    spec = spec_of(fixture.kind)
    width = fixture.width if fixture.width is not None else spec.width
    depth = fixture.depth if fixture.depth is not None else spec.depth
    if spec.outlet_from_back is None:
        wall = wall_at(plan, fixture.at)
        lumber, board = (wall.lumber, wall.finish) if wall is not None else _ASSUMED_WALL
        back = -(actual(lumber).depth / 2.0 + board)
    elif spec.outlet_from_back * 2.0 == spec.depth:
        back = depth / 2.0
    else:
        back = spec.outlet_from_back
    near = width / 2.0 if spec.outlet_from_side is None else spec.outlet_from_side
    left, right = (near, width - near) if _drains_left(fixture) else (width - near, near)
    return Body(back, depth - back, left, right)


def corners_of(fixture: Fixture, plan: Plan) -> tuple[Point, ...]:
    """The corners of a fixture's body in plan."""
    body = body_of(fixture, plan)
    place = _placer(fixture)
    return (
        place(-body.back, -body.right),
        place(body.front, -body.right),
        place(body.front, body.left),
        place(-body.back, body.left),
    )


def draw_fixture(sheet: Sheet, fixture: Fixture, plan: Plan) -> None:
    """A fixture's symbol."""
    body = body_of(fixture, plan)
    place = _placer(fixture)
    turn = fixture.turn
    for stroke in _symbol(fixture, body):
        sheet.add("fixtures", _placed(sheet, stroke, place, turn))
    corners = sheet.frame.many(corners_of(fixture, plan))
    xs, ys = zip(*corners, strict=True)
    sheet.room.take(Box(min(xs), min(ys), max(xs), max(ys)), _PALE)


def draw_hoses(sheet: Sheet, plan: Plan) -> None:
    """The way of each waste to the fixture that it drains through, dotted along the back of both."""
    fixtures = {fixture.id: fixture for fixture in plan.fixtures}
    for guest in plan.fixtures:
        host = fixtures.get(guest.through or "")
        if host is None:
            continue
        ends = sheet.frame.many(_behind(fixture, plan) for fixture in (guest, host))
        sheet.add("fixtures", Line(ends, MEDIUM, HOSE))
        for end in ends:
            sheet.add("fixtures", Arc(end, 0.02, THIN, fill=0.0))


def _behind(fixture: Fixture, plan: Plan) -> Point:
    """Just before the middle of a fixture's back, where its hose or tailpiece goes down."""
    body = body_of(fixture, plan)
    return _placer(fixture)(_IN - body.back, (body.left - body.right) / 2.0)


HOSE: Dashes = (0.03, 0.035)
"""Pattern of the way to a trap that another fixture has."""
_IN = 3.0


def _symbol(fixture: Fixture, body: Body) -> tuple[Stroke, ...]:
    with_bowls = _WITH_BOWLS.get(fixture.kind)
    return _SYMBOLS[fixture.kind](body) if with_bowls is None else with_bowls(body, fixture.bowls)


def draw_letters(sheet: Sheet, fixture: Fixture, plan: Plan) -> None:
    """A fixture's letters, in the middle of its body if there is room, else beside it."""
    body = body_of(fixture, plan)
    place = _placer(fixture)
    letters = spec_of(fixture.kind).letters
    height = sheet.height * 1.25
    width = text_width(letters, height, bold=True)
    left = (body.left - body.right) / 2.0
    best: tuple[float, Point] | None = None
    for share in (0.5, 0.36, 0.64, 0.24, 0.76):
        x, y = sheet.frame.at(place(-body.back + share * (body.back + body.front), left))
        box = Box(x - width / 2.0, y - height * 0.6, x + width / 2.0, y + height * 0.6)
        cost = sheet.room.cost(box)
        if best is None or cost < best[0] - 1e-6:
            best = (cost, (x, y))
    assert best is not None
    cost, (x, y) = best
    if cost > _CROWDED:
        sheet.label((x, y), letters, 1.25, bold=True)
        return
    words = Text((x, y - height / 2.0), letters, height, "middle", halo=True, bold=True)
    sheet.add("labels", words)
    sheet.room.take_text(words)


def _drains_left(tub: Fixture) -> bool:
    """Whether the outlet's end is on the left of someone standing in the fixture's back, looking out."""
    if tub.trap_at is None:
        return True
    dx, dy = tub.trap_at[0] - tub.at[0], tub.trap_at[1] - tub.at[1]
    turn = math.radians(tub.turn)
    return -dx * math.sin(turn) + dy * math.cos(turn) >= 0.0


def _placer(fixture: Fixture) -> Callable[[float, float], Point]:
    turn = math.radians(fixture.turn)
    c, s = math.cos(turn), math.sin(turn)

    def place(forward: float, left: float) -> Point:
        return (fixture.at[0] + forward * c - left * s, fixture.at[1] + forward * s + left * c)

    return place


def _placed(sheet: Sheet, stroke: Stroke, place: Callable[[float, float], Point], turn: float) -> Stroke:
    """A stroke of a symbol, from the fixture's own frame to paper."""
    if isinstance(stroke, Line):
        points = sheet.frame.many(place(*point) for point in stroke.points)
        return Line(points, stroke.weight, stroke.dashes, stroke.grey, stroke.closed)
    if isinstance(stroke, Arc):
        centre = sheet.frame.at(place(*stroke.centre))
        radius = stroke.radius / sheet.frame.scale.ratio
        return Arc(centre, radius, stroke.weight, stroke.start + turn, stroke.sweep, stroke.dashes, stroke.grey)
    raise TypeError(f"a symbol is made of lines and arcs, not of {type(stroke).__name__}")


def _rect(body: Body, inset: float = 0.0, weight: float = MEDIUM) -> Line:
    b, f, le, r = body.back - inset, body.front - inset, body.left - inset, body.right - inset
    return Line(((-b, -r), (f, -r), (f, le), (-b, le)), weight, grey=FIXTURE, closed=True)


def _rounded(body: Body, inset: float, radius: float, weight: float = MEDIUM) -> Line:
    """A rectangle with round corners, as a line of short chords."""
    b, f, le, r = body.back - inset, body.front - inset, body.left - inset, body.right - inset
    radius = max(0.0, min(radius, (b + f) / 2.0, (le + r) / 2.0))
    corners = (
        (f - radius, le - radius, 0),
        (-b + radius, le - radius, 90),
        (-b + radius, -r + radius, 180),
        (f - radius, -r + radius, 270),
    )
    points = [
        (x + radius * math.cos(math.radians(start + step)), y + radius * math.sin(math.radians(start + step)))
        for x, y, start in corners
        for step in (0, 30, 60, 90)
    ]
    return Line(tuple(points), weight, grey=FIXTURE, closed=True)


def _oval(x: float, y: float, along: float, across: float, weight: float = THIN) -> Line:
    points = tuple(
        (x + along * math.cos(math.radians(a)), y + across * math.sin(math.radians(a))) for a in range(0, 360, 15)
    )
    return Line(points, weight, grey=FIXTURE, closed=True)


def _middle(body: Body) -> tuple[float, float]:
    return ((body.front - body.back) / 2.0, (body.left - body.right) / 2.0)


def _closet(body: Body) -> tuple[Stroke, ...]:
    tank = 0.28 * (body.back + body.front)
    tank_body = Body(body.back, -body.back + tank, body.left, body.right)
    reach = body.back + body.front - tank
    bowl = _oval(
        -body.back + tank + reach / 2.0, _middle(body)[1], reach / 2.0, 0.36 * (body.left + body.right), MEDIUM
    )
    return (_rounded(tank_body, 0.4, 1.5), bowl)


def _lavatory(body: Body, bowls: int) -> tuple[Stroke, ...]:
    ovals = []
    for bowl in _bowls(body, bowls):
        x, y = _middle(bowl)
        deep, wide = bowl.back + bowl.front, bowl.left + bowl.right
        ovals.append(_oval(x + 0.08 * deep, y, 0.32 * deep, 0.38 * wide))
    return (_rounded(body, 0.0, 2.5), *ovals)


def _bowls(body: Body, count: int) -> list[Body]:
    """Equal parts of a body, side by side."""
    wide = (body.left + body.right) / count
    return [Body(body.back, body.front, body.left - wide * n, wide * (n + 1) - body.left) for n in range(count)]


def _shower(body: Body) -> tuple[Stroke, ...]:
    inner = _rect(body, 1.75, THIN)
    diagonals = tuple(Line(((0.0, 0.0), corner), THIN, grey=0.6) for corner in inner.points)
    return (_rect(body), inner, *diagonals, Arc((0.0, 0.0), 2.0, THIN, grey=FIXTURE))


def _bathtub(body: Body) -> tuple[Stroke, ...]:
    return (_rect(body), _rounded(body, 3.0, 8.0, THIN), Arc((0.0, 0.0), 1.5, THIN, grey=FIXTURE))


def _kitchen_sink(body: Body, bowls: int) -> tuple[Stroke, ...]:
    basins = [_basin(bowl, 4.0, 1.1) for bowl in _bowls(body, bowls)]
    return (_rounded(body, 0.0, 1.0), *(_rounded(basin, 0.0, 2.0, THIN) for basin in basins))


def _basin(bowl: Body, ledge: float, rim: float) -> Body:
    """A basin within a rim, before a ledge for the taps."""
    return Body(bowl.back - ledge, bowl.front - rim, bowl.left - rim, bowl.right - rim)


def _washer(body: Body) -> tuple[Stroke, ...]:
    x, y = _middle(body)
    radius = 0.34 * min(body.back + body.front, body.left + body.right)
    return (_rounded(body, 0.0, 1.0), Arc((x, y), radius, THIN, grey=FIXTURE))


def _water_heater(body: Body) -> tuple[Stroke, ...]:
    x, y = _middle(body)
    radius = min(body.back + body.front, body.left + body.right) / 2.0
    return (Arc((x, y), radius, MEDIUM, grey=FIXTURE), Arc((x, y), 0.85 * radius, THIN, grey=FIXTURE))


def _refrigerator(body: Body) -> tuple[Stroke, ...]:
    door = body.front - 2.5
    return (_rect(body), Line(((door, -body.right), (door, body.left)), THIN, grey=FIXTURE))


def _hose_bibb(body: Body) -> tuple[Stroke, ...]:
    return (_rect(body), Line(((-body.back, -body.right), (body.front, body.left)), THIN, grey=FIXTURE))


def _bar_sink(body: Body, bowls: int) -> tuple[Stroke, ...]:
    basins = [_basin(bowl, 3.0, 1.5) for bowl in _bowls(body, bowls)]
    return (_rounded(body, 0.0, 1.0), *(_rounded(basin, 0.0, 2.0, THIN) for basin in basins))


def _laundry_tub(body: Body, bowls: int) -> tuple[Stroke, ...]:
    strokes: list[Stroke] = [_rect(body)]
    for bowl in _bowls(body, bowls):
        basin = _basin(bowl, 3.0, 1.25)
        strokes.append(_rect(basin, 0.0, THIN))
        for step in (1.5, 3.0, 4.5):
            ends = ((basin.front - step, -basin.right), (basin.front - step, basin.left))
            strokes.append(Line(ends, THIN, grey=FIXTURE))
    return tuple(strokes)


def _dishwasher(body: Body) -> tuple[Stroke, ...]:
    door = body.front - 2.0
    tub = Body(body.back - 2.0, door - 1.5, body.left - 2.0, body.right - 2.0)
    return (
        _rounded(body, 0.0, 1.0),
        Line(((door, -body.right), (door, body.left)), THIN, grey=FIXTURE),
        _rounded(tub, 0.0, 2.0, THIN),
    )


def _floor_drain(body: Body) -> tuple[Stroke, ...]:
    x, y = _middle(body)
    radius = min(body.back + body.front, body.left + body.right) / 2.0
    return (_rect(body), Arc((x, y), 0.9 * radius, THIN, grey=FIXTURE), Arc((x, y), 0.5 * radius, THIN, grey=FIXTURE))


def _bidet(body: Body) -> tuple[Stroke, ...]:
    x, y = _middle(body)
    deep, wide = body.back + body.front, body.left + body.right
    return (_oval(x, y, 0.5 * deep, 0.5 * wide, MEDIUM), _oval(x + 0.06 * deep, y, 0.3 * deep, 0.3 * wide))


_SYMBOLS: dict[str, Callable[[Body], tuple[Stroke, ...]]] = {
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

_WITH_BOWLS: dict[str, Callable[[Body, int], tuple[Stroke, ...]]] = {
    "lavatory": _lavatory,
    "kitchen_sink": _kitchen_sink,
    "bar_sink": _bar_sink,
    "laundry_tub": _laundry_tub,
}
