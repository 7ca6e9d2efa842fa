"""The sheets with isometrics: every pipe and part with its name, to check the lists by eye."""

from __future__ import annotations

from typing import Any, NamedTuple

from engine.drawings.isometric import Isometric, isometric_legend, isometrics
from engine.drawings.isometric.sheets import USUAL, fit
from engine.drawings.isometric.skeleton import SYSTEMS, Cover
from engine.planset.block import Titled
from engine.planset.book import Area, Book, Page
from engine.study import Study

TITLES: dict[Cover, str] = {"drains": "Drains and vents, isometric", "water": "Water, isometric"}

SHARE = 0.9
"""The isometrics' lettering beside that of the other drawings: many names have to find room."""

LEGEND = 0.86
"""The legend's lettering beside the isometric's."""

_AIR = 0.08


def isometric_sheets(book: Book, study: Study) -> list[Page]:
    """The isometrics of drains and vents, then of water, on as many sheets as they need to be readable."""
    pages: list[Page] = []
    for cover in TITLES:
        pages += _sheets(book, study, cover)
    return pages


class Layout(NamedTuple):
    """How the isometric and its legend share a page: the isometric's room, and the legend's columns' width if below."""

    width: float
    height: float
    below: float | None


def _sheets(book: Book, study: Study, cover: Cover) -> list[Page]:
    lettering = book.paper.lettering * SHARE
    kinds = {part.id: part.kind for part in study.model.joinery.parts if part.system in SYSTEMS[cover]}
    layout = _best(book, study, cover, set(kinds.values()), lettering)
    made = isometrics(study, cover, layout.width, layout.height, lettering)
    return [_page(book, sheet, kinds, layout, lettering) for sheet in made]


def _best(book: Book, study: Study, cover: Cover, kinds: set[str], lettering: float) -> Layout:
    """The legend below or at the right, whichever leaves the isometric the larger scale."""
    area = book.area()
    below = isometric_legend(kinds, cover, area.width, lettering * LEGEND, USUAL)
    beside = isometric_legend(kinds, cover, None, lettering * LEGEND, USUAL)
    layouts = [Layout(area.width, area.height - below.height - _AIR, area.width)]
    if beside.height <= area.height:
        layouts.append(Layout(area.width - beside.width - _AIR, area.height, None))
    return max(layouts, key=lambda layout: fit(study, cover, layout.width, layout.height, lettering))


def _page(book: Book, made: Isometric, kinds: dict[str, str], layout: Layout, lettering: float) -> Page:
    here = [kinds[shown.name] for shown in made.shown if shown.name in kinds]
    legend = isometric_legend(here, made.cover, layout.below, lettering * LEGEND, USUAL)

    def fill(_canvas: Any, area: Area) -> None:
        book.drawing(made.drawing, area.left, area.bottom + area.height - made.drawing.height)
        if layout.below is not None:
            book.drawing(legend, area.left, area.bottom)
        else:
            top = area.bottom + area.height - legend.height
            book.drawing(legend, area.left + area.width - legend.width, top)

    return book.page(Titled(TITLES[made.cover], made.drawing.scale_name), fill)
