"""A legend as a strip along the foot of a sheet: samples with their words, in as many rows as they need."""

from __future__ import annotations

from collections.abc import Callable, Sequence

from engine.drawings.strokes import Drawing, Stroke, Text
from engine.drawings.typeface import text_width

SAMPLE = 0.42
"""How wide a sample may be, paper inches."""

_GAP = 0.07
_BETWEEN = 0.18
_ROW = 2.5

Sample = Callable[[float, float, float], list[Stroke]]
"""Draws a sample from a left edge, round a height, for a lettering."""


def strip(entries: Sequence[tuple[Sample, str]], width: float, lettering: float) -> Drawing:
    """The marks with their words in as many rows as the width asks for."""
    rows: list[list[tuple[Sample, str]]] = [[]]
    x = 0.0
    for entry in entries:
        wide = SAMPLE + _GAP + text_width(entry[1], lettering) + _BETWEEN
        if rows[-1] and x + wide - _BETWEEN > width:
            rows.append([])
            x = 0.0
        rows[-1].append(entry)
        x += wide
    tall = lettering * _ROW
    strokes: list[Stroke] = []
    for line, row in enumerate(rows):
        x, y = 0.0, (len(rows) - line - 0.5) * tall
        for sample, words in row:
            strokes += sample(x, y, lettering)
            strokes.append(Text((x + SAMPLE + _GAP, y - lettering / 2.0), words, lettering))
            x += SAMPLE + _GAP + text_width(words, lettering) + _BETWEEN
    height = len(rows) * tall
    return Drawing(tuple(strokes), width, height, (0.0, 0.0, width, height))
