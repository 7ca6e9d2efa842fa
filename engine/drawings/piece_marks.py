"""The marks of the cut pieces on the plan, as the cut list and the isometric have them: framed."""

from __future__ import annotations

from collections.abc import Sequence

from engine.drawings.labels import Box, label
from engine.drawings.linetypes import THIN
from engine.drawings.pipes import shown
from engine.drawings.sheet import Sheet
from engine.drawings.strokes import Line, Stroke, Text
from engine.drawings.typeface import text_width
from engine.joinery.records import Piece
from engine.plan.records import Point
from engine.study import Study
from engine.takeoff.trimming import is_plumb

SHARE = 0.78
"""Height of a mark's capitals as a share of the sheet's lettering."""

_AIR = 0.022
_CLEAR = 0.05


def draw_piece_marks(sheet: Sheet, study: Study) -> None:
    """Each piece's mark beside its middle; pieces that stand over one another share one frame, from below up."""
    plumb: dict[tuple[int, int], list[Piece]] = {}
    for piece in study.model.joinery.pieces:
        if not shown(sheet, piece.system):
            continue
        if is_plumb(piece):
            plumb.setdefault((round(piece.start[0]), round(piece.start[1])), []).append(piece)
        else:
            _mark(sheet, _middle(piece), [piece])
    for stood in plumb.values():
        stood.sort(key=lambda piece: min(piece.start[2], piece.end[2]))
        _mark(sheet, stood[0].start[:2], stood)


def framed(words: Text) -> Line:
    """The frame round a mark."""
    width = text_width(words.text, words.height, words.bold)
    (x, y), high = words.at, words.height
    left = x - (width / 2.0 if words.anchor == "middle" else 0.0)
    corners = (
        (left - _AIR, y - _AIR),
        (left + width + _AIR, y - _AIR),
        (left + width + _AIR, y + high + _AIR),
        (left - _AIR, y + high + _AIR),
    )
    return Line(corners, THIN, closed=True)


def _mark(sheet: Sheet, at: Point, pieces: Sequence[Piece]) -> None:
    words = ", ".join(piece.mark for piece in pieces)
    drawn: list[Stroke] = label(sheet.room, sheet.frame.at(at), words, sheet.height * SHARE, clear=_CLEAR, bold=True)
    for stroke in drawn:
        if isinstance(stroke, Text):
            frame = framed(stroke)
            sheet.add("labels", stroke, frame)
            (left, low), _, (right, high), _ = frame.points
            sheet.room.take(Box(left - _AIR, low - _AIR, right + _AIR, high + _AIR))
        else:
            sheet.add("marks", stroke)


def _middle(piece: Piece) -> Point:
    return ((piece.start[0] + piece.end[0]) / 2.0, (piece.start[1] + piece.end[1]) / 2.0)
