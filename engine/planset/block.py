"""The border and the title block of every sheet."""

from __future__ import annotations

from itertools import pairwise
from typing import TYPE_CHECKING, NamedTuple

from engine.plan.records import Plan
from engine.planset.fonts import BOLD, REGULAR
from engine.planset.papers import MILLIMETRE, POINTS
from engine.planset.words import fitted

if TYPE_CHECKING:
    from reportlab.pdfgen.canvas import Canvas

MARGIN = 0.38
"""From the paper's edge to the border, inches: most printers reach no further."""

STRIP = 0.56
"""Height of the title block, inches."""

_SMALL = 5.6
_LOCAL = 7.0
_AIR = 4.5


class Titled(NamedTuple):
    """A sheet's title and its scale."""

    title: str
    scale: str


def draw_block(canvas: Canvas, plan: Plan, judged: tuple[str, str], titled: Titled, number: int, count: int) -> None:
    """Draw border and title block on the page in hand.

    `judged` is the rule book's short name, and what local words go with it; these stand over the block as well.
    """
    code, local = judged
    wide, high = canvas._pagesize  # type: ignore[attr-defined]
    left, bottom = MARGIN * POINTS, MARGIN * POINTS
    right, top = wide - left, high - bottom
    strip = STRIP * POINTS
    canvas.saveState()
    canvas.setStrokeGray(0.0)
    canvas.setDash([], 0)
    canvas.setLineWidth(0.7 * MILLIMETRE)
    canvas.rect(left, bottom, right - left, top - bottom, stroke=1, fill=0)
    canvas.setLineWidth(0.35 * MILLIMETRE)
    canvas.line(left, bottom + strip, right, bottom + strip)
    edges = [left + share * (right - left) for share in (0.0, 0.31, 0.54, 0.71, 0.87, 1.0)]
    for edge in edges[1:-1]:
        canvas.line(edge, bottom, edge, bottom + strip)
    cells = list(pairwise(edges))
    upper, lower = bottom + strip / 2.0 + 1.0, bottom + _AIR
    _cell(canvas, cells[0], upper, "PROJECT", plan.name or "(no name given)", 11.0, bold=True)
    _cell(canvas, cells[0], lower, "PLACE", plan.place or "(not given)", 8.0)
    _cell(canvas, cells[1], upper, "SHEET", titled.title, 11.0, bold=True)
    _cell(canvas, cells[1], lower, "JUDGED BY", f"{code}, see note above" if local else code, 8.0)
    if local:
        canvas.setFillGray(0.0)
        canvas.setFont(BOLD, _LOCAL)
        words = f"Judged by {code} with {local}."
        canvas.drawString(left + _AIR, bottom + strip + 2.4, fitted(words, right - left - 2.0 * _AIR, BOLD, _LOCAL))
    _cell(canvas, cells[2], upper, "SCALE", titled.scale, 8.0)
    _cell(canvas, cells[2], lower, "DATE", plan.drawn_on or "(not given)", 8.0)
    _cell(canvas, cells[3], upper, "DRAWN BY", plan.drawn_by or "(not given)", 8.0)
    _cell(canvas, cells[3], lower, "MATERIAL", plan.material, 8.0)
    start, end = cells[4]
    canvas.setFillGray(0.0)
    canvas.setFont(BOLD, 21.0)
    canvas.drawCentredString((start + end) / 2.0, bottom + strip / 2.0 - 4.0, f"P-{number}")
    canvas.setFont(REGULAR, 7.5)
    canvas.drawCentredString((start + end) / 2.0, bottom + _AIR + 1.0, f"P-{number} of {count}")
    canvas.restoreState()


def _cell(
    canvas: Canvas, span: tuple[float, float], base: float, head: str, words: str, size: float, bold: bool = False
) -> None:
    """One entry: its heading small, its words beside it, cut off where they are too long."""
    start, end = span
    font = BOLD if bold else REGULAR
    canvas.setFillGray(0.35)
    canvas.setFont(REGULAR, _SMALL)
    canvas.drawString(start + _AIR, base + size * 0.72 + 1.5 if bold else base + 1.0, head)
    canvas.setFillGray(0.0)
    canvas.setFont(font, size)
    indent = 0.0 if bold else 33.0
    canvas.drawString(start + _AIR + indent, base, fitted(words, end - start - 2.0 * _AIR - indent, font, size))
