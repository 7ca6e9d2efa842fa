"""The PDF in the making: pages with border and title block, numbered and listed once all are there."""

from __future__ import annotations

import io
from collections.abc import Callable
from typing import Any, NamedTuple

from engine.drawings.strokes import Drawing
from engine.plan.records import Plan
from engine.planset import ink
from engine.planset.block import MARGIN, STRIP, Titled, draw_block
from engine.planset.fonts import register
from engine.planset.papers import POINTS, Paper
from engine.planset.words import plain

PAD = 0.12


class PlanSetError(ValueError):
    """A plan set that could not be laid out: it names the sheet and the row, and says what to shorten."""


class Area(NamedTuple):
    """A rectangle of a page, inches from its lower left corner."""

    left: float
    bottom: float
    width: float
    height: float


class Page(NamedTuple):
    """One page that is drawn but not numbered yet."""

    titled: Titled
    state: dict[str, Any]


class Book:
    """Pages in the order in which they were made; :meth:`saved` numbers them in the order asked for.

    `local` says with what local words the plan was judged and on which sheet they stand; every sheet repeats it.
    """

    def __init__(self, plan: Plan, paper: Paper, code: str) -> None:
        from reportlab.pdfgen.canvas import Canvas

        register()
        self.plan, self.paper, self._code = plan, paper, code
        self.local = ""
        self._out = io.BytesIO()
        size = (paper.long * POINTS, paper.short * POINTS)
        self.canvas = Canvas(self._out, pagesize=size, invariant=1, pageCompression=1, lang="en-US")
        self._name = plain(plan.name) or "Floor without a name"
        self.canvas.setTitle(f"{self._name}: plan set")
        self.canvas.setAuthor(plain(plan.drawn_by))
        self.canvas.setSubject(plain(f"Pipes under the floor, judged by {code}"))
        self.canvas.setCreator("Joistway")
        self.canvas.setKeywords("plumbing, plan set, joists")

    def area(self, landscape: bool = True) -> Area:
        """What a page leaves for its content."""
        wide, high = (self.paper.long, self.paper.short) if landscape else (self.paper.short, self.paper.long)
        left, bottom = MARGIN + PAD, MARGIN + STRIP + PAD
        return Area(left, bottom, wide - 2.0 * left, high - bottom - MARGIN - PAD)

    def page(self, titled: Titled, fill: Callable[[Any, Area], None], landscape: bool = True) -> Page:
        """Draw one page's content."""
        canvas = self.canvas
        sides = (self.paper.long, self.paper.short) if landscape else (self.paper.short, self.paper.long)
        canvas.setPageSize((sides[0] * POINTS, sides[1] * POINTS))
        fill(canvas, self.area(landscape))
        state = dict(canvas.__dict__)
        canvas._startPage()  # type: ignore[attr-defined]
        return Page(titled, state)

    def drawing(self, drawing: Drawing, left: float, bottom: float) -> None:
        """Put a drawing on the page in hand."""
        ink.draw(self.canvas, drawing, left, bottom)

    def saved(self, pages: list[Page]) -> bytes:
        """The finished PDF: each page gets its border, title block, number and outline entry."""
        from reportlab.pdfgen.canvas import Canvas

        canvas = self.canvas
        last = ""
        for number, page in enumerate(pages, 1):
            canvas.__dict__.update(page.state)
            draw_block(canvas, self.plan, (self._code, self.local), page.titled, number, len(pages))
            key = f"P-{number}"
            canvas.bookmarkPage(key)
            if page.titled.title != last:
                canvas.addOutlineEntry(f"{key}  {page.titled.title}", key, 0)
            last = page.titled.title
            Canvas.showPage(canvas)
        canvas.showOutline()
        canvas.save()
        return self._out.getvalue()
