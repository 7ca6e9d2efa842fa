"""The floor's framing by itself: every corner, joist, row and beam from the floor's west and south faces."""

from __future__ import annotations

import math
from typing import NamedTuple

from engine.drawings import dimensions, wood
from engine.drawings.furniture import north_arrow, scale_bar
from engine.drawings.labels import Box
from engine.drawings.linetypes import FINE, HEAVY, MEDIUM, THIN, WALL_EDGE, WOOD, WOOD_FILL
from engine.drawings.scales import Scale, largest
from engine.drawings.sheet import Frame, Sheet
from engine.drawings.strokes import Dashes, Drawing, Fill, Line, Stroke, Text
from engine.drawings.typeface import text_width
from engine.framing.shadow import band
from engine.lengths import feet_inches, nearest
from engine.plan.records import Plan, Point
from engine.study import Study
from engine.takeoff.framing_rows import bearing, block_rows, corners, crossing, datum, running
from engine.takeoff.naming import joist_words
from engine.takeoff.squareness import largest_rectangle

_WALL: Dashes = (0.03, 0.03)
"""Pattern of a bearing partition's edges: the joist under it shows."""

_DIAGONAL: Dashes = (0.14, 0.05, 0.03, 0.05)
_OUTSIDE = 0.5
_BAR = 0.36
_LINE = 2.2
_SAMPLE = 0.42


class _Room(NamedTuple):
    """The scale, the paper's lower left corner of what is drawn, the floor inches there, the strip's height."""

    scale: Scale
    area: Box
    origin: Point
    strip: float


def framing_drawing(study: Study, width: float, height: float, lettering: float) -> Drawing:
    """The wood at the largest standard scale that fits, north up; distances from the west stand at the foot, from the
    south at the left, each at the end of its line. The diagonals to square it by are drawn."""
    room = _room(study, width, height, lettering)
    frame = Frame(room.scale, room.origin, room.area.left, room.area.bottom)
    sheet = Sheet(frame, Box(0.0, room.strip, width, height), lettering, "everything")
    wood.draw_wood(sheet, study)
    for wall in study.plan.walls:
        if wall.bearing and not wall.exterior:
            band = sheet.frame.many(wood.wall_corners(wall))
            sheet.add("walls", Line(band, MEDIUM, _WALL, WALL_EDGE, closed=True))
            wood.along(sheet, frame.at(wall.start), frame.at(wall.end), (wall.name or "bearing wall").upper(), 0.3)
    _faces(sheet, study.plan)
    dimensions.overall(sheet, study.plan)
    _strings(sheet, study)
    _names(sheet, study)
    _diagonals(sheet, study.plan)
    wood.note_wood(sheet, study)
    strokes = (*sheet.strokes(), *_strip(study, width, room, lettering))
    return Drawing(strokes, width, height, (0.0, 0.0, width, height), room.scale.name, room.scale.ratio)


def framing_scale(study: Study, width: float, height: float, lettering: float) -> Scale:
    """The scale that the drawing would have on such paper."""
    return _room(study, width, height, lettering).scale


def _room(study: Study, width: float, height: float, lettering: float) -> _Room:
    plan = study.plan
    points: list[Point] = list(plan.floor.outline)
    for stick in study.model.framing.members:
        points += band(stick.start, stick.end, stick.thickness)
    area = dimensions.box_of(points)
    strip = _BAR + 0.04 + lettering * _LINE * 4.0
    reach = 0.36 + text_width("12'-11 15/16\"", lettering)
    inner = (max(width - reach - _OUTSIDE, 0.5), max(height - strip - reach - _OUTSIDE, 0.5))
    scale = largest(area.right - area.left, area.top - area.bottom, *inner)
    shown = ((area.right - area.left) / scale.ratio, (area.top - area.bottom) / scale.ratio)
    origin = (reach + (inner[0] - shown[0]) / 2.0, strip + reach + (inner[1] - shown[1]) / 2.0)
    return _Room(scale, area, origin, strip)


def _faces(sheet: Sheet, plan: Plan) -> None:
    """The two lines that all figures run from, drawn heavy where the floor itself lies on them."""
    west, south, _, _ = dimensions.extent(plan)
    outline = plan.floor.outline
    for a, b in zip(outline, (*outline[1:], outline[0]), strict=True):
        if a[0] == b[0] == west or a[1] == b[1] == south:
            sheet.add("walls", Line(sheet.frame.many((a, b)), HEAVY))


def _strings(sheet: Sheet, study: Study) -> None:
    """Corners, marks of joists, rows of blocks, beams, openings' faces and bearing walls from the west and the south."""
    model = study.model
    west, south = datum(model)
    reaches: tuple[dict[float, float], dict[float, float]] = ({}, {})

    def add(axis: int, value: float, reach: float) -> None:
        key = nearest(value)
        reach = reach if key else (south, west)[axis]
        reaches[axis][key] = max(reach, reaches[axis].get(key, reach))

    for x, y in corners(model):
        add(0, x, south + y)
        add(1, y, west + x)
    for one in running(model):
        if one.kind != "end" and not one.aslant:
            add(0 if one.northward else 1, one.mark, (south if one.northward else west) + one.first)
    for one in (*bearing(model), *(rim for rim in crossing(model) if rim.kind == "header")):
        if one.kind != "wall" and not one.aslant:
            add(0 if one.northward else 1, one.mark, (south if one.northward else west) + one.first)
    for row in block_rows(model):
        axis = 0 if row.northward else 1
        add(axis, (row.near + row.far) / 2.0, (west, south)[1 - axis])
    for axis in (0, 1):
        dimensions.strung(sheet, study.plan, axis, reaches[axis])


def _names(sheet: Sheet, study: Study) -> None:
    """Rims, side joists and rows of blocks by the names that the lists give them."""
    for stick in study.model.framing.joists:
        start, end = sheet.frame.at(stick.start), sheet.frame.at(stick.end)
        if stick.kind in ("rim", "end"):
            wood.along(sheet, start, end, joist_words(study.model, stick).upper(), 0.62)
    seen: set[tuple[str, int]] = set()
    for stick in study.model.framing.joists:
        if stick.kind == "block" and (stick.field, stick.number) not in seen:
            seen.add((stick.field, stick.number))
            words = joist_words(study.model, stick).partition(" of ")[2]
            middle = sheet.frame.at(((stick.start[0] + stick.end[0]) / 2.0, (stick.start[1] + stick.end[1]) / 2.0))
            sheet.label(middle, f"BLOCKS, {words.upper()}", 0.85, clear=0.05)


def _diagonals(sheet: Sheet, plan: Plan) -> None:
    """Both diagonals of the largest rectangle, each with its length."""
    found = largest_rectangle(plan.floor.outline)
    if found is None:
        return
    a, b, c, d = sheet.frame.many(found.corners)
    for start, end in ((a, c), (d, b)):
        sheet.add("extensions", Line((start, end), THIN, _DIAGONAL, 0.35))
        angle = math.degrees(math.atan2(end[1] - start[1], end[0] - start[0]))
        share, height = 0.22, sheet.height * 0.9
        x, y = start[0] + share * (end[0] - start[0]), start[1] + share * (end[1] - start[1])
        lift = (-math.sin(math.radians(angle)) * height / 2.0, math.cos(math.radians(angle)) * height / 2.0)
        text = Text((x - lift[0], y - lift[1]), feet_inches(found.diagonal), height, "middle", angle, halo=True)
        sheet.add("labels", text)
        sheet.room.take_text(text)


def _strip(study: Study, width: float, room: _Room, height: float) -> list[Stroke]:
    """Under the plan: where the figures run from, what the lines mean, scale and north."""
    strokes, end = scale_bar((0.1, 0.1), room.scale, lettering=height, most=min(2.6, width * 0.35))
    strokes += north_arrow((width - 0.2, 0.17), 0.14, height)
    strokes.append(Text((end + 0.25, 0.14), f"SCALE {room.scale.name}", height * 1.15, bold=True))
    line = height * _LINE
    y = _BAR + 0.04 + line * 3.4
    strokes.append(Text((0.1, y - height / 2.0), dimensions.datum_words(study) + " (DRAWN HEAVY):", height, bold=True))
    y -= line
    words = "CORNERS OUTSIDE TO OUTSIDE; JOISTS AT THE CENTRE OF THE PLY LAID OUT FIRST; HEADERS, BLOCKS AND BEAMS AT THEIR CENTRES"
    strokes.append(Text((0.1, y - height / 2.0), words, height))
    for n, (sample, words) in enumerate(_ENTRIES):
        x = 0.1 + (n % 4) * (width - 0.2) / 4.0
        at = y - line * (1 + n // 4)
        strokes += sample(x, at, height)
        strokes.append(Text((x + _SAMPLE + 0.08, at - height / 2.0), words, height))
    return strokes


def _stick(x: float, y: float, height: float) -> list[Stroke]:
    half = height * 0.45
    box = ((x, y - half), (x + _SAMPLE, y - half), (x + _SAMPLE, y + half), (x, y + half))
    return [Fill(box, WOOD_FILL), Line(box, FINE, grey=WOOD, closed=True)]


def _wall(x: float, y: float, height: float) -> list[Stroke]:
    half = height * 0.6
    box = ((x, y - half), (x + _SAMPLE, y - half), (x + _SAMPLE, y + half), (x, y + half))
    return [Line(box, MEDIUM, _WALL, WALL_EDGE, closed=True)]


def _beam(x: float, y: float, height: float) -> list[Stroke]:
    half = height * 0.6
    ends = [((x, y + side), (x + _SAMPLE, y + side)) for side in (-half, half)]
    return [Line(pair, MEDIUM, wood.BEAM, 0.35) for pair in ends]


def _opening(x: float, y: float, height: float) -> list[Stroke]:
    half = height * 0.7
    box = ((x, y - half), (x + _SAMPLE, y - half), (x + _SAMPLE, y + half), (x, y + half))
    return [
        Line(box, THIN, closed=True),
        Line((box[0], box[2]), FINE, wood.EDGE),
        Line((box[1], box[3]), FINE, wood.EDGE),
    ]


def _diagonal(x: float, y: float, height: float) -> list[Stroke]:
    return [Line(((x, y), (x + _SAMPLE, y)), THIN, _DIAGONAL, 0.35)]


_ENTRIES = (
    (_stick, "JOIST, RIM, HEADER, BLOCK"),
    (_beam, "BEAM UNDER THE JOISTS"),
    (_opening, "OPENING FRAMED IN THE FLOOR"),
    (_diagonal, "DIAGONAL TO SQUARE IT BY"),
    (_wall, "PARTITION THAT BEARS"),
)
