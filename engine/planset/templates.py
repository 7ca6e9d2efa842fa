"""The full-size templates as a PDF of their own: pages that must be printed at 100 %, each with bars that prove it."""

from __future__ import annotations

import io
from typing import TYPE_CHECKING

from engine.drawings.check_bars import check_bars, upright_bar
from engine.drawings.linetypes import MEDIUM, THIN
from engine.drawings.plate_templates import plate_templates
from engine.drawings.strokes import Drawing, Line, Stroke
from engine.drawings.templates import Template, opening_templates
from engine.drawings.tiling import Tile, tiles
from engine.planset import ink
from engine.planset.block import MARGIN
from engine.planset.book import Area
from engine.planset.fonts import BOLD, REGULAR, register
from engine.planset.papers import POINTS, Paper, paper_named
from engine.planset.words import fitted, plain
from engine.study import Study
from engine.takeoff.local import local_words

if TYPE_CHECKING:
    from reportlab.pdfgen.canvas import Canvas

_HEAD = 0.56
_FOOT = 0.46
_SIDE = 0.3

AT_FULL_SIZE = "Print at 100 % (“actual size”), never “fit to page”. Hold a rule against all three bars before you saw."
"""What every page says of its scale."""

NOTHING = "No closet, shower or riser in a wall is marked on this plan, so there is nothing to make a template of."


def pdf(study: Study, paper: str = "letter") -> bytes:
    """The templates as PDF bytes: the same study gives the same bytes. Raises PaperError for an unknown paper."""
    from reportlab.pdfgen.canvas import Canvas

    register()
    chosen = paper_named(paper)
    window = window_of(chosen)
    out = io.BytesIO()
    size = (chosen.short * POINTS, chosen.long * POINTS)
    canvas = Canvas(out, pagesize=size, invariant=1, pageCompression=1, lang="en-US")
    name = plain(study.plan.name) or "Floor without a name"
    local = local_words(study.model)
    judged = f"Judged by {study.model.book.short}{f'; {local}: see the plan set' if local else ''}"
    canvas.setTitle(f"{name}: templates, full size")
    canvas.setAuthor(plain(study.plan.drawn_by))
    canvas.setSubject("Full-size templates; print at 100 %")
    canvas.setCreator("Joistway")
    canvas.setViewerPreference("PrintScaling", "None")
    made = (
        *opening_templates(study, window.width, window.height),
        *plate_templates(study, window.width, window.height),
    )
    pages = [(template, tile) for template in made for tile in tiles(template.drawing, window.width, window.height)]
    for number, (template, tile) in enumerate(pages, 1):
        key = f"T-{number}"
        canvas.bookmarkPage(key)
        if tile.number == 1:
            canvas.addOutlineEntry(f"{key}  {plain(template.title)}", key, 0)
        _page(canvas, chosen, name, template, tile, number, len(pages))
        _judged(canvas, chosen, judged)
        canvas.showPage()
    if not pages:
        canvas.setFont(REGULAR, 11.0)
        canvas.drawString(MARGIN * POINTS, (chosen.long - 1.0) * POINTS, NOTHING)
        canvas.showPage()
    canvas.showOutline()
    canvas.save()
    return out.getvalue()


def window_of(paper: Paper) -> Area:
    """What a page leaves for a template, inches."""
    return Area(
        MARGIN,
        MARGIN + _FOOT,
        paper.short - 2.0 * MARGIN - _SIDE,
        paper.long - 2.0 * MARGIN - _HEAD - _FOOT,
    )


def _page(canvas: Canvas, paper: Paper, name: str, template: Template, tile: Tile, number: int, count: int) -> None:
    """One page: the part of the template in its window, over it what it is, at its side and foot the bars."""
    window = window_of(paper)
    canvas.saveState()
    clip = canvas.beginPath()
    clip.rect(
        (window.left + tile.window.left) * POINTS,
        (window.bottom + tile.window.bottom) * POINTS,
        (tile.window.right - tile.window.left) * POINTS,
        (tile.window.top - tile.window.bottom) * POINTS,
    )
    canvas.clipPath(clip, stroke=0, fill=0)
    _draw(canvas, tile.strokes, window.left, window.bottom)
    canvas.restoreState()
    top, right = window.bottom + window.height, paper.short - MARGIN
    head = top + 0.06
    part = f", sheet {tile.number} of {tile.of}" if tile.of > 1 else ""
    wide = (right - window.left - 1.1) * POINTS
    canvas.setFillGray(0.0)
    canvas.setFont(BOLD, 13.0)
    canvas.drawString(window.left * POINTS, (head + 0.26) * POINTS, fitted(template.title + part, wide, BOLD, 13.0))
    canvas.drawRightString(right * POINTS, (head + 0.26) * POINTS, f"T-{number} of {count}")
    canvas.setFont(REGULAR, 9.0)
    words = f"{template.drawing.scale_name}. {AT_FULL_SIZE}"
    canvas.drawString(window.left * POINTS, (head + 0.07) * POINTS, fitted(words, wide + 79.0, REGULAR, 9.0))
    foot = MARGIN
    bars: list[Stroke] = [*check_bars((window.left, foot + 0.06)), *upright_bar((right, window.bottom + 0.1))]
    bars.append(Line(((window.left, top), (right, top)), MEDIUM))
    bars.append(Line(((window.left, window.bottom - 0.05), (right, window.bottom - 0.05)), THIN))
    _draw(canvas, tuple(bars), 0.0, 0.0)
    canvas.setFont(REGULAR, 9.0)
    canvas.drawRightString(right * POINTS, (foot + 0.2) * POINTS, fitted(name, 2.7 * POINTS, REGULAR, 9.0))


def _judged(canvas: Canvas, paper: Paper, words: str) -> None:
    """The rule book, and with what local words it was read, at the foot of the page."""
    canvas.setFont(REGULAR, 7.0)
    canvas.drawRightString(
        (paper.short - MARGIN) * POINTS, (MARGIN + 0.06) * POINTS, fitted(words, 3.2 * POINTS, REGULAR, 7.0)
    )


def _draw(canvas: Canvas, strokes: tuple[Stroke, ...], left: float, bottom: float) -> None:
    ink.draw(canvas, Drawing(strokes, 0.0, 0.0, (0.0, 0.0, 0.0, 0.0)), left, bottom)
