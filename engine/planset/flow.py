"""Text and tables that flow from page to page."""

from __future__ import annotations

from collections.abc import Sequence
from typing import TYPE_CHECKING, Any, NamedTuple

from engine.planset.block import Titled
from engine.planset.book import Area, Book, Page, PlanSetError
from engine.planset.fonts import BOLD, REGULAR
from engine.planset.papers import POINTS
from engine.planset.words import paragraph, plain

if TYPE_CHECKING:
    from reportlab.platypus import Flowable

GUTTER = 0.3
_MOST_PAGES = 400
_WITH_NEXT = 52.0
"""What must be free under a heading for it to stand there, points: a table's heads and its first row."""


_KEPT = 3
"""Rows of a table that go over to another column together: one alone is overlooked."""


class Spot:
    """A place in a story that takes no room: `page` tells on which page, from 1, it came to lie."""

    page = 1


class Column(NamedTuple):
    """A table's column: heading, share of the width, and how its cells stand."""

    title: str
    share: float
    align: str = "LEFT"


class Group(NamedTuple):
    """A row of a table that is a heading over those that follow: bold words, and what is said beside them."""

    words: str
    beside: str = ""


def heading(words: str, size: float) -> Flowable:
    """A heading that stays with what follows."""
    return paragraph(words, size, bold=True, spaceBefore=size * 0.5, spaceAfter=size * 0.3, keepWithNext=1)


def note(words: str, size: float, lead: str = "") -> Flowable:
    """A paragraph with a little air under it."""
    return paragraph(words, size, lead=lead, spaceAfter=size * 0.45)


def table(columns: Sequence[Column], rows: Sequence[Sequence[Any] | Group], width: float, size: float) -> Flowable:
    """A table with its heads repeated on every page. Cells are texts, or flowables that stand as they are.

    A `Group` takes a row of its own, which stays with the next.

    `width` is inches. Short texts are drawn as they are, longer ones flow; both are printed as typed.
    """
    from reportlab.lib.colors import Color
    from reportlab.pdfbase.pdfmetrics import stringWidth
    from reportlab.platypus import LongTable

    whole = sum(column.share for column in columns)
    widths = [width * POINTS * column.share / whole for column in columns]
    air = 3.0

    alignment = {"LEFT": 0, "CENTER": 1, "RIGHT": 2}

    def cell(value: Any, n: int) -> Any:
        if not isinstance(value, str):
            return value
        words = plain(value) if "\n" not in value else value
        if "\n" not in words and stringWidth(words, REGULAR, size) <= widths[n] - 2.0 * air - 0.5:
            return words
        return paragraph(value, size, alignment=alignment[columns[n].align])

    heads = [paragraph(column.title, size * 0.86, bold=True, alignment=alignment[column.align]) for column in columns]

    def line(row: Sequence[Any] | Group) -> list[Any]:
        if isinstance(row, Group):
            return [paragraph(row.beside, size, lead=row.words), *("" for _ in columns[1:])]
        return [cell(value, n) for n, value in enumerate(row)]

    data = [heads, *map(line, rows)]
    ink, pale = Color(0.0, 0.0, 0.0), Color(0.955, 0.955, 0.955)
    style: list[tuple[Any, ...]] = [
        ("FONT", (0, 1), (-1, -1), REGULAR, size, size * 1.24),
        ("FONT", (0, 0), (-1, 0), BOLD, size * 0.86),
        ("VALIGN", (0, 0), (-1, -1), "TOP"),
        ("VALIGN", (0, 0), (-1, 0), "BOTTOM"),
        ("LEFTPADDING", (0, 0), (-1, -1), air),
        ("RIGHTPADDING", (0, 0), (-1, -1), air),
        ("TOPPADDING", (0, 0), (-1, -1), 1.2),
        ("BOTTOMPADDING", (0, 0), (-1, -1), 2.0),
        ("LINEBELOW", (0, 0), (-1, 0), 0.9, ink),
        ("LINEBELOW", (0, 1), (-1, -1), 0.3, Color(0.7, 0.7, 0.7)),
        ("ROWBACKGROUNDS", (0, 1), (-1, -1), (None, pale)),
    ]
    style += [("ALIGN", (n, 1), (n, -1), column.align) for n, column in enumerate(columns)]
    for n, row in enumerate(rows, 1):
        if isinstance(row, Group):
            style += [
                ("SPAN", (0, n), (-1, n)),
                ("BACKGROUND", (0, n), (-1, n), Color(0.88, 0.88, 0.88)),
                ("NOSPLIT", (0, n), (0, min(n + 1, len(rows)))),
            ]
    return LongTable(data, colWidths=widths, repeatRows=1, style=style, splitInRow=1, hAlign="LEFT")


def flowed(book: Book, title: str, story: Sequence[Flowable | Spot], columns: int = 1) -> list[Page]:
    """Lay a story out in columns over as many pages as it takes; `title` names them all, spots learn their page.

    PlanSetError names what does not fit on an empty page.
    """
    pages: list[Page] = []
    left: list[Any] = list(story)
    while left:
        placed: list[int] = []

        def fill(canvas: Any, area: Area) -> None:
            placed.extend(_column(canvas, area, n, columns, left) for n in range(columns))  # noqa: B023

        spots = [part for part in left if isinstance(part, Spot)]
        pages.append(book.page(Titled(title, "–"), fill))
        for spot in spots:
            if not any(spot is part for part in left):
                spot.page = len(pages)
        if not any(placed):
            raise PlanSetError(f"{title}: {_named(left[0])} is taller than a sheet; shorten its text")
        if len(pages) > _MOST_PAGES:
            raise PlanSetError(f"{title} runs over {_MOST_PAGES} sheets; shorten the texts in it")
    return pages


def _column(canvas: Any, area: Area, n: int, columns: int, left: list[Any]) -> int:
    """Fill one column with what is left, in order; returns how many flowables, or parts of one, it took."""
    from reportlab.platypus import Frame

    width = (area.width - GUTTER * (columns - 1)) / columns
    frame = Frame(
        (area.left + n * (width + GUTTER)) * POINTS,
        area.bottom * POINTS,
        width * POINTS,
        area.height * POINTS,
        leftPadding=0,
        rightPadding=0,
        topPadding=0,
        bottomPadding=0,
    )
    taken = 0
    while left:
        if isinstance(left[0], Spot):
            del left[0]
            continue
        if taken and len(left) > 1 and _stranded(left[0], frame, canvas):
            break
        if frame.add(left[0], canvas):
            del left[0]
            taken += 1
            continue
        parts = _well_split(frame, left[0], canvas)
        if len(parts) > 1 and frame.add(parts[0], canvas):
            left[0:1] = parts[1:]
            taken += 1
        break
    return taken


def _well_split(frame: Any, flowable: Flowable, canvas: Any) -> list[Any]:
    """A flowable in two where it does not fit whole; of a table no fewer than `_KEPT` rows go over to the next column."""
    parts: list[Any] = frame.split(flowable, canvas)
    heights = getattr(parts[0], "_rowHeights", None) if len(parts) == 2 else None
    if heights is None:
        return parts
    over = len(parts[1]._cellvalues) - 1
    if over >= _KEPT or len(heights) < 2 * _KEPT or None in heights:
        return parts
    shorter = flowable.split(frame._getAvailableWidth(), sum(heights[: over - _KEPT]) + 1.0)
    return shorter if len(shorter) == 2 else parts


def _stranded(flowable: Flowable, frame: Any, canvas: Any) -> bool:
    """Whether a heading would stand alone at the foot of a column."""
    style = getattr(flowable, "style", None)
    if not getattr(style, "keepWithNext", 0):
        return False
    _, high = flowable.wrapOn(canvas, frame._width, frame._height)
    return bool(frame._y - frame._y1p - high - flowable.getSpaceBefore() < _WITH_NEXT)


def _named(flowable: Flowable) -> str:
    """What to call a flowable that does not fit: a table's first row, or a paragraph's first words."""
    rows = getattr(flowable, "_cellvalues", None)
    if rows:
        first = rows[1] if len(rows) > 1 else rows[0]
        words = " | ".join(_text(cell) for cell in first)
        return f"the row beginning “{words[:80]}”"
    return f"the text beginning “{_text(flowable)[:80]}”"


def _text(value: Any) -> str:
    read = getattr(value, "getPlainText", None)
    return str(read()) if read is not None else value if isinstance(value, str) else ""
