"""The sheets with a floor plan: as large as the paper takes, each with its legend."""

from __future__ import annotations

from typing import Any, NamedTuple

from engine.drawings import legend, plan_drawing
from engine.drawings.legend import column_width, columns_in
from engine.drawings.plan import fit
from engine.drawings.sheet import Content
from engine.planset.block import Titled
from engine.planset.book import Area, Book, Page
from engine.study import Study

_AIR = 0.1
_FEW_MARKS = 7
"""With so few cuts and findings and no water one sheet shows everything without crowding."""


class Layout(NamedTuple):
    """How a plan and its legend share a page: which way round, and the legend below or at the right."""

    landscape: bool
    below: bool


def plan_sheets(book: Book, study: Study) -> list[Page]:
    """One sheet with everything for a small job; else an overview, then one sheet for each trade with its measures."""
    if not study.plan.supplies and len(study.model.cuts) + len(study.findings) <= _FEW_MARKS:
        return [_sheet(book, study, "Floor plan", "everything")]
    pages = [_sheet(book, study, "Floor plan", "overview"), _sheet(book, study, "Drains and vents", "drains")]
    if study.plan.supplies:
        pages.append(_sheet(book, study, "Water", "water"))
    return pages


def _sheet(book: Book, study: Study, title: str, content: Content) -> Page:
    layout = _best(book, study, content)
    area = book.area(layout.landscape)
    room, legend_at, width, columns = _shared(book, area, layout, content)
    lettering = book.paper.lettering
    drawing = plan_drawing(study, room.width, room.height, content, lettering)

    def fill(_canvas: Any, _area: Area) -> None:
        book.drawing(drawing, room.left, room.bottom)
        book.drawing(legend(width, lettering * 0.9, content, columns), *legend_at)

    return book.page(Titled(title, drawing.scale_name), fill, layout.landscape)


def _best(book: Book, study: Study, content: Content) -> Layout:
    """The layout with the largest scale; of equals the first: landscape before portrait, legend below before beside."""
    layouts = [Layout(landscape, below) for landscape in (True, False) for below in (True, False)]

    def ratio(layout: Layout) -> float:
        room, *_ = _shared(book, book.area(layout.landscape), layout, content)
        return fit(study, room.width, room.height, content, book.paper.lettering).ratio

    return min(layouts, key=ratio)


def _shared(book: Book, area: Area, layout: Layout, content: Content) -> tuple[Area, tuple[float, float], float, int]:
    """The plan's room, the legend's lower left corner, its width and its columns."""
    lettering = book.paper.lettering * 0.9
    if layout.below:
        columns = columns_in(area.width, lettering)
        high = legend(area.width, lettering, content, columns).height
        room = Area(area.left, area.bottom + high + _AIR, area.width, area.height - high - _AIR)
        return room, (area.left, area.bottom), area.width, columns
    wide = column_width(lettering)
    high = legend(wide, lettering, content).height
    room = Area(area.left, area.bottom, area.width - wide - _AIR, area.height)
    corner = (area.left + area.width - wide, area.bottom + area.height - high)
    return room, corner, wide, 1
