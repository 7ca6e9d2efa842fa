"""The floor's framing on paper: outline, joists at their real width, bearing lines, walls."""

from __future__ import annotations

import math
from collections import Counter

from engine.drawings.labels import Box
from engine.drawings.linetypes import BEAM_FILL, BEARING, FINE, MEDIUM, THIN, WALL_EDGE, WALL_FILL, WOOD, WOOD_FILL
from engine.drawings.sheet import Sheet
from engine.drawings.strokes import Dashes, Fill, Line, Text
from engine.drawings.typeface import text_width
from engine.framing.records import Joist
from engine.framing.shadow import band
from engine.lengths import inches
from engine.plan.records import JoistField, Plan, Point, Wall
from engine.study import Study
from engine.trade.lumber import actual

BEAM: Dashes = (0.16, 0.06)
"""Pattern of the edges of a beam that lies under the joists; one among them is drawn in full."""

EDGE: Dashes = (0.06, 0.04)
"""Pattern of the diagonals by which an opening is told."""


def draw_wood(sheet: Sheet, study: Study) -> None:
    """Joists and what is framed with them, the floor's outline over them, openings, beams, the joists' numbers."""
    for joist in study.model.framing.joists:
        corners = sheet.frame.many(band(joist.start, joist.end, joist.thickness))
        sheet.add("wood", Fill(corners, WOOD_FILL), Line(corners, FINE, grey=WOOD, closed=True))
        for line in between_plies(joist):
            sheet.add("wood", Line(sheet.frame.many(line), FINE, grey=WOOD))
    for opening in study.plan.floor_openings:
        (x0, y0), (x1, y1) = opening.start, opening.end
        corners = sheet.frame.many(((x0, y0), (x1, y0), (x1, y1), (x0, y1)))
        sheet.add("wood", Line(corners, THIN, closed=True))
        for diagonal in ((corners[0], corners[2]), (corners[1], corners[3])):
            sheet.add("wood", Line(diagonal, FINE, EDGE))
    for beam in study.model.framing.beams:
        corners = sheet.frame.many(band(beam.start, beam.end, beam.thickness))
        if beam.flush:
            sheet.add("wood", Fill(corners, BEAM_FILL))
        sheet.add("wood", Line(corners, MEDIUM, () if beam.flush else BEAM, 0.35, closed=True))
    outline = sheet.frame.many(study.plan.floor.outline)
    sheet.add("wood", Line(outline, MEDIUM, grey=0.25, closed=True))
    _numbers(sheet, study)


def between_plies(joist: Joist) -> list[tuple[Point, Point]]:
    """The lines in plan where a stick's plies touch."""
    thick = joist.thickness / joist.plies
    found = []
    for ply in range(1, joist.plies):
        off = ply * thick - joist.thickness / 2.0
        dx, dy = joist.along[1] * off, -joist.along[0] * off
        found.append(((joist.start[0] + dx, joist.start[1] + dy), (joist.end[0] + dx, joist.end[1] + dy)))
    return found


def note_wood(sheet: Sheet, study: Study) -> None:
    """Bearing lines with their word, and along a joist what joists these are, where there is room."""
    for beam in study.plan.beams:
        made = {"wood": "", "engineered": "ENGINEERED ", "steel": "STEEL "}[beam.material]
        words = f'{made}{beam.name.upper() or "BEAM"} {inches(beam.width)}" X {inches(beam.depth)}"'
        start, end = sheet.frame.many((beam.start, beam.end))
        along(sheet, start, end, words, _clearest(sheet, start, end, words))
    for field in study.plan.fields:
        _bearings(sheet, field)
        _note(sheet, field, study)
    for opening in study.plan.floor_openings:
        (x0, y0), (x1, y1) = opening.start, opening.end
        words = f'{opening.name.upper() or "OPENING"} {inches(x1 - x0)}" X {inches(y1 - y0)}"'
        sheet.label(sheet.frame.at(((x0 + x1) / 2.0, (y0 + y1) / 2.0)), words, 0.85, clear=0.06)


def draw_walls(sheet: Sheet, plan: Plan) -> None:
    """Walls as wide as their studs; a bearing wall has a line along its middle."""
    for wall in plan.walls:
        corners = sheet.frame.many(band(wall.start, wall.end, actual(wall.lumber).depth))
        sheet.add("walls", Fill(corners, WALL_FILL), Line(corners, THIN, grey=WALL_EDGE, closed=True))
        if wall.bearing:
            sheet.add("walls", Line(sheet.frame.many((wall.start, wall.end)), THIN, BEARING, WALL_EDGE))


def wall_corners(wall: Wall) -> tuple[Point, ...]:
    """The corners of a wall's studs in plan."""
    return band(wall.start, wall.end, actual(wall.lumber).depth)


def _bearings(sheet: Sheet, field: JoistField) -> None:
    x, y = field.corner
    wide, long = field.size
    for centre in field.bearings:
        if field.direction == "north-south":
            ends = ((x, y + centre), (x + wide, y + centre))
        else:
            ends = ((x + centre, y), (x + centre, y + long))
        a, b = sheet.frame.many(ends)
        sheet.add("wood", Line((a, b), MEDIUM, BEARING, 0.45))
        along(sheet, a, b, "BEARING")


def _note(sheet: Sheet, field: JoistField, study: Study) -> None:
    """Lumber, spacing and depth, written along a joist near the field's middle where there is room."""
    commons = [j for j in study.model.framing.joists if j.field == field.id and j.kind == "common"]
    if not commons:
        return
    text = f'{field.lumber} JOISTS AT {inches(field.spacing)}" O.C.'
    if field.depth is not None:
        text += f', {inches(field.depth)}" DEEP AS MEASURED'
    order = sorted(commons, key=lambda joist: abs(joist.number - (len(commons) + 1) / 2.0))
    best: tuple[float, Joist, float] | None = None
    width = text_width(text, sheet.height) / 2.0
    for joist in order:
        a, b = sheet.frame.many((joist.start, joist.end))
        for share in (0.5, 0.3, 0.7, 0.18, 0.82):
            x, y = a[0] + share * (b[0] - a[0]), a[1] + share * (b[1] - a[1])
            half = (sheet.height, width) if joist.along[1] else (width, sheet.height)
            cost = sheet.room.cost(Box(x - half[0], y - half[1], x + half[0], y + half[1]))
            if best is None or cost < best[0] - 1e-9:
                best = (cost, joist, share)
    if best is not None:
        a, b = sheet.frame.many((best[1].start, best[1].end))
        along(sheet, a, b, text, best[2])


def _clearest(sheet: Sheet, a: Point, b: Point, text: str) -> float:
    """At which share of a line a text along it covers least."""
    wide, high = text_width(text, sheet.height) / 2.0, sheet.height
    half = (high, wide) if abs(b[1] - a[1]) > abs(b[0] - a[0]) else (wide, high)

    def cost(share: float) -> float:
        x, y = a[0] + share * (b[0] - a[0]), a[1] + share * (b[1] - a[1])
        return sheet.room.cost(Box(x - half[0], y - half[1], x + half[0], y + half[1]))

    return min((0.35, 0.5, 0.65, 0.22, 0.78, 0.12, 0.88), key=cost)


def along(sheet: Sheet, a: Point, b: Point, text: str, share: float = 0.5) -> None:
    """A grey text in a line, read from the bottom or from the right."""
    angle = 90.0 if abs(b[1] - a[1]) > abs(b[0] - a[0]) else 0.0
    x, y = a[0] + share * (b[0] - a[0]), a[1] + share * (b[1] - a[1])
    drop = sheet.height / 2.0
    at = (x + drop, y) if angle else (x, y - drop)
    words = Text(at, text, sheet.height * 0.85, "middle", angle, halo=True, grey=0.3)
    sheet.add("labels", words)
    sheet.room.take_text(words)


def _numbers(sheet: Sheet, study: Study) -> None:
    """Each common joist's number at both of its ends, just inside the rim, the beam or the lap."""
    laps = {field.id: field.lap for field in study.plan.fields}
    fields = Counter(joist.field for joist in study.model.framing.joists)
    height = sheet.height * 0.8
    reach = height * 1.1
    for joist in study.model.framing.joists:
        if joist.kind not in ("common", "tail"):
            continue
        own = joist.id.removeprefix(f"{joist.field}.")
        text = own if len(fields) == 1 else joist.id
        first, last = (laps[joist.field] if joined else 0.0 for joined in joist.joined)
        a, b = sheet.frame.many((_ahead(joist, first), _ahead(joist, joist.length - last)))
        if math.dist(a, b) < 6.0 * reach:
            continue
        for end, sign in ((a, 1.0), (b, -1.0)):
            x, y = end[0] + sign * joist.along[0] * reach, end[1] + sign * joist.along[1] * reach
            words = Text((x, y - height / 2.0), text, height, "middle", halo=True, grey=0.3)
            sheet.add("labels", words)
            sheet.room.take_text(words)


def _ahead(joist: Joist, u: float) -> Point:
    """The point of a stick's centre line so far from its start, in plan."""
    return joist.start[0] + u * joist.along[0], joist.start[1] + u * joist.along[1]
