"""The sheets to be carried to the walls: each wall's sole plate from above and the wall from the side, with its figures."""

from __future__ import annotations

from engine.drawings.strokes import Drawing
from engine.drawings.walls import WallView, parted, scales_for, wall_drawing, wall_legend, wall_views
from engine.planset.block import Titled
from engine.planset.book import Book, Page
from engine.planset.stacked import FOOT, GAP, foot_of, packed, stacked_page
from engine.study import Study

TITLE = "Walls with pipes"

CAUTION = (
    "Cut nothing that is marked NOT legal. Mark all, check against the floor under it, then bore the sole plate with the "
    "subfloor. Your local code and its official decide."
)
SCALES = (
    "Lengths along a wall, its heights and the plate's width have scales of their own: go by the figures, never by a rule laid "
    "on the paper. Heights run from the subfloor's top, before any finish; all figures to 1/16 in."
)


def wall_sheets(book: Book, study: Study) -> list[Page]:
    """A drawing for each wall that pipe passes or lies in; no sheet where none does."""
    area, lettering = book.area(), book.paper.lettering
    foot = foot_of(wall_legend(area.width, lettering * FOOT), (CAUTION, SCALES), lettering)
    room = area.height - foot.height - GAP
    drawn = [
        _largest(part, area.width, lettering, room)
        for one in wall_views(study)
        for part in parted(one, area.width, lettering)
    ]
    return [stacked_page(book, Titled(TITLE, "as noted"), group, foot) for group in packed(drawn, room)]


def _largest(part: WallView, width: float, lettering: float, room: float) -> Drawing:
    """A wall at the largest scale that a sheet takes; one with very much to say in smaller letters."""
    while True:
        for scales in scales_for(part, width, lettering):
            made = wall_drawing(part, scales, width, lettering)
            if made.height <= room:
                return made
        if lettering < _SMALLEST:
            return made
        lettering *= _SMALLER


_SMALLER = 0.9
_SMALLEST = 0.05
