"""Windows, doors and air intakes on paper, and the reach of a vent over the roof where it comes too near to one."""

from __future__ import annotations

import math
from collections.abc import Iterator

from engine.drawings.linetypes import DOT, FINE, MEDIUM, THIN
from engine.drawings.sheet import Sheet
from engine.drawings.strokes import Dashes, Fill, Line
from engine.framing.shadow import band
from engine.lengths import feet_inches
from engine.plan.records import AirOpening, Plan, Point
from engine.plan.walls import holds
from engine.study import Study
from engine.trade.lumber import actual

RULE = "vent-near-opening"
"""The finding that the reach is drawn for."""

REACH: Dashes = (DOT, 0.05)
"""Pattern of the circle within which a vent's end wants height over an opening."""

STEPS = 180
"""Into how many chords the circle is cut."""

USUAL_WALL = "2x4"
"""The wall that an opening is drawn as deep as where it stands in none."""


def draw_openings(sheet: Sheet, plan: Plan) -> None:
    """Each opening as a break in its wall with a jamb at either end."""
    for opening in plan.air_openings:
        corners = sheet.frame.many(band(opening.start, opening.end, depth_of(opening, plan)))
        sheet.add("walls", Fill(corners, 1.0), Line(corners, THIN, closed=True))
        sheet.add("walls", Line(sheet.frame.many((opening.start, opening.end)), FINE))
        for side in ((corners[0], corners[3]), (corners[1], corners[2])):
            sheet.add("walls", Line(side, MEDIUM))


def name_openings(sheet: Sheet, plan: Plan) -> None:
    """Each opening's name and the height of its top over the floor."""
    for opening in plan.air_openings:
        (x0, y0), (x1, y1) = sheet.frame.many((opening.start, opening.end))
        top = f"TOP {feet_inches(opening.top_above_floor)}"
        words = f"{opening.name.upper()}, {top}" if opening.name else top
        sheet.label(((x0 + x1) / 2.0, (y0 + y1) / 2.0), words, 0.85, clear=0.06)


def draw_reaches(sheet: Sheet, study: Study) -> None:
    """Round each vent's end that is too near to an opening, the circle of the distance that it should keep.

    Only what lies over the floor is drawn of it, so that it runs into no dimension.
    """
    if not study.model.book.has("vent.opening_sideways"):
        return
    radius = study.model.book.number("vent.opening_sideways")
    for x, y in dict.fromkeys(finding.at[:2] for finding in study.findings if finding.rule == RULE):
        for arc in _within(study.plan, (x, y), radius):
            sheet.add("marks", Line(sheet.frame.many(arc), THIN, REACH))


def depth_of(opening: AirOpening, plan: Plan) -> float:
    """How deep the wall is that an opening stands in, inches; a usual one where it stands in none."""
    at = ((opening.start[0] + opening.end[0]) / 2.0, (opening.start[1] + opening.end[1]) / 2.0)
    depths = (actual(wall.lumber).depth for wall in plan.walls if holds(wall, at))
    return max(depths, default=actual(USUAL_WALL).depth)


def _within(plan: Plan, centre: Point, radius: float) -> Iterator[tuple[Point, ...]]:
    """The parts of a circle that lie in the rectangle round the floor."""
    across, along = zip(*plan.floor.outline, strict=True)
    west, east, south, north = min(across), max(across), min(along), max(along)
    turns = (2.0 * math.pi * step / STEPS for step in range(STEPS + 1))
    part: list[Point] = []
    for turn in turns:
        point = (centre[0] + radius * math.cos(turn), centre[1] + radius * math.sin(turn))
        if west <= point[0] <= east and south <= point[1] <= north:
            part.append(point)
        elif part:
            if len(part) > 1:
                yield tuple(part)
            part = []
    if len(part) > 1:
        yield tuple(part)
