"""The sheets with the drains from the side: each line's fall from the exit up, with the figures of the height table."""

from __future__ import annotations

from engine.drawings.from_side import SKEWED, Layout, line_drawing, line_legend, scales_for
from engine.lengths import inches
from engine.planset.book import Book, Page
from engine.planset.stacked import FOOT, Stack, stacked
from engine.study import Study
from engine.takeoff.drain_lines import drain_lines
from engine.takeoff.schedules import TakenOff

TITLE = "Drains from the side"

SHARE = 0.93
"""The figures' lettering beside that of the other drawings: two lines are to stand on a sheet."""


def line_sheets(book: Book, study: Study, taken: TakenOff) -> list[Page]:
    """Every drain, and every vent under the floor, cut along its length; no sheet where none comes to an exit."""
    lines = drain_lines(study.model, taken.held)
    if not lines.drawn:
        return []
    width, lettering = book.area().width, book.paper.lettering * SHARE
    layout = Layout(study.model, lines.drawn, width, lettering)
    tried = []
    for scales in scales_for(layout):
        drawings = tuple(line_drawing(part, scales, layout) for part in layout.strips(scales.along))
        said = (_said(study), _left_out(lines.left_out), scales.warning(SKEWED))
        tried.append(Stack(drawings, scales.block, said))
    legend = line_legend(width, lettering * FOOT, layout.belly is not None)
    return stacked(book, TITLE, tried, legend, lettering)


def _said(study: Study) -> str:
    """What holds for every line on these sheets."""
    return (
        "Each line is laid out flat from its lower end at the left; turns do not show. Distances run along the pipe. Once the "
        f"subfloor lies, measure from the bottom edge, or add {inches(study.plan.floor.subfloor)} in to what is down from top."
    )


def _left_out(names: tuple[str, ...]) -> str:
    """Runs without a line, and why."""
    if not names:
        return ""
    some = len(names) > 1
    return f"Not drawn: {', '.join(names)}, since {'they come' if some else 'it comes'} to no exit by one way down."
