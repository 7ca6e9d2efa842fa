"""The plan for setting out: every centre on the floor as a numbered cross, measured from lettered faces."""

from __future__ import annotations

import math
from typing import NamedTuple

import msgspec

from engine.drawings import dimensions, fixtures, wood
from engine.drawings.dimensions import OFF, spread
from engine.drawings.furniture import north_arrow, scale_bar
from engine.drawings.labels import Box
from engine.drawings.linetypes import FAINT, FINE, HEAVY, MEDIUM, THIN
from engine.drawings.scales import Scale, largest
from engine.drawings.sheet import Frame, Sheet
from engine.drawings.strokes import Arc, Drawing, Fill, Line, Stroke, Text
from engine.drawings.struck import Setting, Struck
from engine.drawings.typeface import text_width
from engine.lengths import feet_inches
from engine.plan.records import Plan, Point
from engine.study import Study
from engine.takeoff.marking import Edge

ARM = 0.07
"""Half the length of a cross's arms, paper inches."""

_PALE = 0.72
_OUTSIDE = 0.5
_BAR = 0.36
_LINE = 2.2
_LIGHT = 10.0
_MISREAD = 0.4
"""What a number costs that may be taken for another cross's, beside the cost of covered ink."""
_DASHES = (0.05, 0.04)
_DIAGONAL = (0.14, 0.05, 0.03, 0.05)

_WAYS = {"west": "EASTWARD", "east": "WESTWARD", "south": "NORTHWARD", "north": "SOUTHWARD"}


class _Room(NamedTuple):
    """The scale, the paper's lower left corner of what is drawn, and the floor inches there."""

    scale: Scale
    area: Box
    origin: Point
    strip: float


def setting_out_drawing(study: Study, marks: Setting, width: float, height: float, lettering: float) -> Drawing:
    """The marks over framing and walls, at the largest standard scale that fits; north is up.

    Distances stand at the foot and at the left, each at the end of its line through the cross; the faces that they
    run from are drawn heavy, with their letters at the lines' origins.
    """
    room = _room(study, marks, width, height, lettering)
    frame = Frame(room.scale, room.origin, room.area.left, room.area.bottom)
    sheet = Sheet(frame, Box(0.0, room.strip, width, height), lettering, "everything")
    wood.draw_wood(sheet, study)
    wood.draw_walls(sheet, study.plan)
    for fixture in study.plan.fixtures:
        fixtures.draw_fixture(sheet, fixture, study.plan)
    sheet.layers["fixtures"] = [_faded(stroke) for stroke in sheet.layers["fixtures"]]
    dimensions.overall(sheet, study.plan)
    for axis in (0, 1):
        _distances(sheet, marks, axis)
    for one in marks.struck:
        _cross(sheet, one)
    for one in marks.struck:
        if one.mark.kind not in ("water", "water service"):
            _diagonal(sheet, marks, one)
    for one in marks.struck:
        _number(sheet, marks, one)
    strokes = (*sheet.strokes(), *_strip(marks, width, room, lettering))
    bounds = (0.0, 0.0, width, height)
    return Drawing(strokes, width, height, bounds, room.scale.name, room.scale.ratio)


def setting_out_scale(study: Study, marks: Setting, width: float, height: float, lettering: float) -> Scale:
    """The scale that the drawing would have on such paper."""
    return _room(study, marks, width, height, lettering).scale


def _room(study: Study, marks: Setting, width: float, height: float, lettering: float) -> _Room:
    area = _covered(study.plan, marks)
    strip = _BAR + 0.04 + lettering * _LINE * (len(marks.letters) + 2)
    reach = 0.36 + text_width("12'-11 15/16\" AA", lettering)
    inner = (max(width - reach - _OUTSIDE, 0.5), max(height - strip - reach - _OUTSIDE, 0.5))
    scale = largest(area.right - area.left, area.top - area.bottom, *inner)
    shown = ((area.right - area.left) / scale.ratio, (area.top - area.bottom) / scale.ratio)
    origin = (reach + (inner[0] - shown[0]) / 2.0, strip + reach + (inner[1] - shown[1]) / 2.0)
    return _Room(scale, area, origin, strip)


def _covered(plan: Plan, marks: Setting) -> Box:
    """The rectangle round floor, framing, walls, fixtures and marks, plan inches."""
    points: list[Point] = [*plan.floor.outline, *(one.mark.at for one in marks.struck)]
    for field in plan.fields:
        points += [field.corner, (field.corner[0] + field.size[0], field.corner[1] + field.size[1])]
    for wall in plan.walls:
        points += wood.wall_corners(wall)
    for fixture in plan.fixtures:
        points += fixtures.corners_of(fixture, plan)
    return dimensions.box_of(points)


def _faded(stroke: Stroke) -> Stroke:
    return stroke if isinstance(stroke, Text | Fill) else msgspec.structs.replace(stroke, grey=_PALE, weight=THIN)


def _distances(sheet: Sheet, marks: Setting, axis: int) -> None:
    """The distances along one axis at the drawing's foot (0) or left (1), and the faces that they run from."""
    faces = marks.along(axis)
    if not faces:
        return
    west, south = (min(c) for c in zip(*((x, y) for x, y in _hull(sheet, marks)), strict=True))
    edge = (south, west)[axis] - OFF
    places: dict[tuple[Edge, float], float] = {}
    far: dict[tuple[Edge, float], float] = {}
    for face in faces:
        places[face, 0.0] = sheet.frame.at((face.at, face.at))[axis]
    for one in marks.struck:
        paper = sheet.frame.at(one.mark.at)
        key = (one.east, one.mark.east_from) if axis == 0 else (one.north, one.mark.north_from)
        places.setdefault(key, paper[axis])
        far[key] = max(far.get(key, edge), paper[1 - axis])
    seats = spread(places, sheet.height * 1.65)
    bounds = sheet.room.bounds
    sheet.room.take(
        Box(bounds.left, bounds.bottom, bounds.right, edge) if axis == 0 else Box(0.0, bounds.bottom, edge, bounds.top)
    )
    for (face, distance), (place, seat) in seats.items():
        if (face, distance) in far:
            ends = (_turned(axis, place, edge), _turned(axis, place, far[face, distance]))
            sheet.add("extensions", Line(ends, FINE, _DASHES, FAINT))
        out = [(place, edge), (place, edge - 0.06), (seat, edge - 0.16), (seat, edge - 0.2)]
        sheet.add("dimensions", Line(tuple(_turned(axis, *point) for point in out), FINE))
        if not distance:
            _baseline(sheet, face, marks.letters[face], axis, _turned(axis, seat, edge - 0.2 - _ring(sheet.height)))
            continue
        words = feet_inches(distance) + (f" {marks.letters[face]}" if len(faces) > 1 else "")
        if axis == 0:
            text = Text((seat + sheet.height / 2.0, edge - 0.23), words, sheet.height, "end", 90.0)
        else:
            text = Text((edge - 0.23, seat - sheet.height / 2.0), words, sheet.height, "end")
        sheet.add("dimensions", text)
        sheet.room.take_text(text)


def _hull(sheet: Sheet, marks: Setting) -> list[Point]:
    """Paper points among which the lowest and the leftmost of wood, walls, fixtures and marks are."""
    drawn = [
        point
        for layer in ("wood", "walls", "fixtures")
        for stroke in sheet.layers[layer]
        if isinstance(stroke, Line)
        for point in stroke.points
    ]
    return [*drawn, *(sheet.frame.at(one.mark.at) for one in marks.struck)]


def _baseline(sheet: Sheet, face: Edge, letter: str, axis: int, centre: Point) -> None:
    """A face drawn heavy, with its letter in a ring at the origin of its distances."""
    ends = sheet.frame.many(_turned(axis, face.at, along) for along in (face.low, face.high))
    sheet.add("walls", Line(ends, HEAVY))
    radius = _ring(sheet.height)
    sheet.add("dimensions", *lettered(centre, letter, sheet.height, radius))


def lettered(centre: Point, letter: str, height: float, radius: float) -> tuple[Stroke, ...]:
    """A face's letter in its ring."""
    words = Text((centre[0], centre[1] - height / 2.0), letter, height, "middle", bold=True)
    return (Arc(centre, radius, MEDIUM, fill=1.0), words)


def _ring(height: float) -> float:
    return height * 0.8


def _turned(axis: int, along: float, off: float) -> Point:
    """A point by its place along an axis and off it."""
    return (along, off) if axis == 0 else (off, along)


def _cross(sheet: Sheet, one: Struck) -> None:
    """A cross on a centre, with its hole through the subfloor at its true width."""
    x, y = at = sheet.frame.at(one.mark.at)
    sheet.add("marks", Line(((x - ARM, y), (x + ARM, y)), MEDIUM), Line(((x, y - ARM), (x, y + ARM)), MEDIUM))
    if one.mark.hole is not None:
        sheet.add("marks", Arc(at, one.mark.hole / 2.0 / sheet.frame.scale.ratio, FINE))
    sheet.room.take(Box(x - ARM, y - ARM, x + ARM, y + ARM))


def _number(sheet: Sheet, marks: Setting, one: Struck) -> None:
    """A mark's number beside its cross, where it is nearer to it than to any other; else with a leader."""
    at, height = sheet.frame.at(one.mark.at), sheet.height * 1.2
    width = text_width(str(one.number), height, bold=True)
    others = [sheet.frame.at(other.mark.at) for other in marks.struck if other is not one]
    best: tuple[float, Point] = (math.inf, at)
    for off in (0.03, 0.08, 0.14, 0.22, 0.32, 0.45):
        for turn in range(0, 360, 30):
            c, s = math.cos(math.radians(turn)), math.sin(math.radians(turn))
            centre = (at[0] + c * (ARM + off + width / 2.0), at[1] + s * (ARM + off + height / 2.0))
            clear = _own(at, centre, others)
            box = Box(
                centre[0] - width / 2.0, centre[1] - height * 0.6, centre[0] + width / 2.0, centre[1] + height * 0.6
            )
            cost = sheet.room.cost(box) + off + (0.0 if clear else _MISREAD)
            if cost < best[0]:
                best = (cost, centre)
    centre = best[1]
    sheet.room.take(
        Box(centre[0] - width / 2.0, centre[1] - height / 2.0, centre[0] + width / 2.0, centre[1] + height / 2.0)
    )
    if not _own(at, centre, others):
        sheet.add("marks", Line((at, centre), FINE))
    words = Text((centre[0], centre[1] - height / 2.0), str(one.number), height, "middle", halo=True, bold=True)
    sheet.add("labels", words)


def _own(at: Point, centre: Point, others: list[Point]) -> bool:
    """Whether a number at `centre` is read as that of the cross at `at`: every other one is clearly farther."""
    return math.dist(at, centre) < 0.8 * min((math.dist(centre, other) for other in others), default=math.inf)


def _diagonal(sheet: Sheet, marks: Setting, one: Struck) -> None:
    """A mark's check diagonal with its length along it; two marks that check each other share one."""
    other = marks.struck[one.to - 1] if one.to is not None else None
    if other is not None and other.to == one.number and other.number < one.number:
        return
    a, b = sheet.frame.at(one.mark.at), sheet.frame.at(one.to_at)
    if b[0] < a[0]:
        a, b = b, a
    sheet.add("extensions", Line((a, b), THIN, _DIAGONAL, 0.35))
    angle = math.degrees(math.atan2(b[1] - a[1], b[0] - a[0]))
    height = sheet.height * 0.9
    words = feet_inches(one.mark.diagonal)
    if text_width(words, height) > 0.75 * math.dist(a, b):
        sheet.room.take_line(a, b, 0.01, _LIGHT)
        return
    best: tuple[float, Text] | None = None
    for share in (0.5, 0.38, 0.62, 0.28, 0.72):
        x, y = a[0] + share * (b[0] - a[0]), a[1] + share * (b[1] - a[1])
        c, s = math.cos(math.radians(angle)), math.sin(math.radians(angle))
        text = Text((x + s * height / 2.0, y - c * height / 2.0), words, height, "middle", angle, halo=True)
        half = text_width(words, height) / 2.0
        reach = (half * abs(c) + height * abs(s), half * abs(s) + height * abs(c))
        cost = sheet.room.cost(Box(x - reach[0], y - reach[1], x + reach[0], y + reach[1])) + abs(share - 0.5) * 0.1
        if best is None or cost < best[0]:
            best = (cost, text)
    assert best is not None
    sheet.add("labels", best[1])
    sheet.room.take_text(best[1])
    sheet.room.take_line(a, b, 0.01, _LIGHT)


def _strip(marks: Setting, width: float, room: _Room, height: float) -> list[Stroke]:
    """Under the plan: what each letter is and which way to measure, what the lines mean, scale and north."""
    strokes, end = scale_bar((0.1, 0.1), room.scale, lettering=height, most=min(2.6, width * 0.35))
    strokes += north_arrow((width - 0.2, 0.17), 0.14, height)
    strokes.append(Text((end + 0.25, 0.14), f"SCALE {room.scale.name}", height * 1.15, bold=True))
    line = height * _LINE
    y = _BAR + 0.04 + line * (len(marks.letters) + 1.5)
    for face, letter in marks.letters.items():
        strokes += lettered((0.1 + _ring(height), y), letter, height, _ring(height))
        words = f"{face.words.upper()}: HOOK THE TAPE THERE AND MEASURE {_WAYS[face.side]}"
        strokes.append(Text((0.36, y - height / 2.0), words, height))
        y -= line
    middle = 0.1 + _ring(height)
    strokes += [
        Line(((middle - ARM, y), (middle + ARM, y)), MEDIUM),
        Line(((middle, y - ARM), (middle, y + ARM)), MEDIUM),
    ]
    words = "CENTRE TO STRIKE, BY ITS NUMBER IN THE TABLE; THE RING ROUND IT IS THE HOLE IN THE SUBFLOOR"
    strokes.append(Text((0.36, y - height / 2.0), words, height))
    strokes.append(Line(((0.1, y - line), (0.6, y - line)), THIN, _DIAGONAL, 0.35))
    strokes.append(Text((0.7, y - line - height / 2.0), "CHECK DIAGONAL", height))
    return strokes
