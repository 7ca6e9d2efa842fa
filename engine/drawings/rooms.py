"""The room that is kept clear about closets, bidets, lavatories and showers, on paper."""

from __future__ import annotations

from engine.drafting.bodies import body_of
from engine.drafting.room import spaces
from engine.drawings.linetypes import FINE
from engine.drawings.sheet import Sheet
from engine.drawings.strokes import Dashes, Line
from engine.study import Study

KEPT: Dashes = (0.035, 0.035)
"""Pattern of the outline of room that is kept clear."""
GREY = 0.45


def draw_rooms(sheet: Sheet, study: Study) -> None:
    """The outline of each room that the rule book wants about a fixture."""
    for fixture in study.plan.fixtures:
        for space in spaces(study.model.book, fixture, body_of(fixture, study.plan.walls)):
            sheet.add("extensions", Line(sheet.frame.many(space.corners), FINE, KEPT, grey=GREY, closed=True))
