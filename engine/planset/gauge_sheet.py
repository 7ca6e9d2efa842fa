"""The gauge sheet: the fittings of this job, each with a sketch, the legs to measure and boxes to write in."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from engine.drawings.gauging import sketch
from engine.joinery.records import Standing
from engine.planset.book import Book, Page
from engine.planset.boxes import write_boxes
from engine.planset.figures import figure
from engine.planset.flow import GUTTER, flowed, note
from engine.planset.papers import POINTS
from engine.planset.quantities import tape
from engine.planset.words import paragraph
from engine.study import Study
from engine.takeoff.gauge import Gauge, GaugeLeg, gauge

if TYPE_CHECKING:
    from reportlab.platypus import Flowable

TITLE = "Gauge sheet"
_SKETCH = (1.62, 1.3)
_MOST_MARKS = 14
_KNOWN: dict[Standing, str] = {
    "measured": "measured",
    "read": "published",
    "derived": "derived from what is published",
    "memory": "from memory",
    "estimate": "an estimate",
    "assumed": "assumed",
}

_HOW = (
    "Makers differ, so take one fitting of each kind to a table and measure these legs before you saw. Draw the "
    "centrelines on it: halfway across each hub. Measure each socket's depth with a rule pushed down to its stop. Write "
    "down what you find, type it in under Edit, Measured fittings, and print the cut list again. The sketches show "
    "which leg is meant, not its length; sizes are run, run, branch."
)


def gauge_sheet(book: Book, study: Study) -> list[Page]:
    """Exactly the fittings whose legs a cut or a height rests on, largest first, two columns of them."""
    size = book.paper.type_size
    width = (book.area().width - GUTTER) / 2.0
    found = gauge(study.model)
    story: list[Flowable] = [note(_HOW, size)]
    if not found:
        return flowed(book, TITLE, [note("No cut rests on a fitting yet.", size)])
    story += [_card(book, gauged, width) for gauged in found]
    return flowed(book, TITLE, story, columns=2)


def _card(book: Book, gauged: Gauge, width: float) -> Flowable:
    """One fitting: sketch at the left, its legs at the right. It is never parted between two columns."""
    from reportlab.lib.colors import Color
    from reportlab.platypus import Table

    size = book.paper.type_size
    count = f"{gauged.count} in this job" + (", measured" if gauged.measured else "")
    words: list[Any] = [paragraph(count, size, lead=gauged.name, spaceAfter=size * 0.2)]
    said = ""
    for leg in gauged.legs:
        words += _leg(leg, "likewise" if leg.how == said else leg.how, size)
        said = leg.how
    drawn = sketch(gauged, *_SKETCH, book.paper.lettering * 1.05)
    left = (_SKETCH[0] + 0.08) * POINTS
    style: list[Any] = [
        ("VALIGN", (0, 0), (-1, -1), "TOP"),
        ("LEFTPADDING", (0, 0), (-1, -1), 0),
        ("RIGHTPADDING", (0, 0), (-1, -1), 0),
        ("TOPPADDING", (0, 0), (-1, -1), 3),
        ("BOTTOMPADDING", (0, 0), (-1, -1), 5),
        ("LINEABOVE", (0, 0), (-1, 0), 0.5, Color(0.55, 0.55, 0.55)),
        ("NOSPLIT", (0, 0), (-1, -1)),
    ]
    return Table(
        [[figure(drawn), words]], colWidths=[left, width * POINTS - left], style=style, hAlign="LEFT", splitByRow=0
    )


def _leg(leg: GaugeLeg, how: str, size: float) -> list[Flowable]:
    under = " (under zero: the stop lies past the centreline)" if leg.stands < 0.0 else ""
    now = f"{tape(leg.stands)}{under} ± {tape(leg.tolerance)}, {_KNOWN[leg.standing]}"
    story = [
        paragraph(f"{leg.name}: {how}.", size * 0.94, lead=leg.letter),
        paragraph(f"Stands at {now}. {_changes(leg)}", size * 0.94, spaceAfter=size * 0.25),
    ]
    if leg.question:
        story.append(paragraph(leg.question, size * 0.94, bold=True, spaceAfter=size * 0.25))
    if leg.socket is None:
        return [*story, write_boxes((leg.letter,), (), size)]
    sign = "−" if leg.socket > 0.0 else "+"
    return [*story, write_boxes(("hub's face", "socket", leg.letter), (sign, "="), size)]


def _changes(leg: GaugeLeg) -> str:
    """What a measure of the leg changes, in words."""
    parts = []
    if leg.pieces:
        marks = ", ".join(leg.pieces[:_MOST_MARKS])
        more = len(leg.pieces) - _MOST_MARKS
        parts.append(f"Changes {marks}{f' and {more} more' if more > 0 else ''}.")
    if leg.holds:
        parts.append(f"Sets {'; '.join(leg.holds)}.")
    return " ".join(parts)
