"""Areas with a flooring of their own on paper: their edges, and in words what lies there."""

from __future__ import annotations

from engine.drawings.linetypes import DOT, THIN
from engine.drawings.sheet import Sheet
from engine.drawings.strokes import Dashes, Line
from engine.lengths import inches
from engine.plan.records import FlooringArea, Plan

SIDE: Dashes = (0.14, 0.03, DOT, 0.03, DOT, 0.03, DOT, 0.03)
"""Pattern of an area's edge."""

GREY = 0.3


def draw_areas(sheet: Sheet, plan: Plan) -> None:
    """The edge of each area; on sheets for all trades only, since it is no line to measure pipe from."""
    if not _shown(sheet):
        return
    for area in plan.flooring_areas:
        (x0, y0), (x1, y1) = area.start, area.end
        corners = sheet.frame.many(((x0, y0), (x1, y0), (x1, y1), (x0, y1)))
        sheet.add("walls", Line(corners, THIN, SIDE, GREY, closed=True))


def name_areas(sheet: Sheet, plan: Plan) -> None:
    """What each area is called and how thick it is finished."""
    if not _shown(sheet):
        return
    for area in plan.flooring_areas:
        (x0, y0), (x1, y1) = area.start, area.end
        at = sheet.frame.at(((x0 + x1) / 2.0, (y0 + y1) / 2.0))
        sheet.label(at, words(area), 0.85)


def words(area: FlooringArea) -> str:
    """An area's label: its name and the thickness of its finish."""
    return f'{area.name.upper() or "FLOORING"}, FINISH {inches(area.finish)}"'


def _shown(sheet: Sheet) -> bool:
    return sheet.content in ("everything", "overview")
