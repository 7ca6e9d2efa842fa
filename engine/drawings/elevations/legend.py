"""What the marks on joist elevations mean: a strip at the foot of every sheet of them."""

from __future__ import annotations

import math
from itertools import pairwise

from engine.drawings.elevations.holes import UNJUDGED
from engine.drawings.elevations.stick import SUPPORT, THIRD_FILL, THIRD_LINE, hatched
from engine.drawings.legend_strip import SAMPLE, Sample, legend_strip
from engine.drawings.linetypes import FINE, MEDIUM, THIN
from engine.drawings.marks import badge
from engine.drawings.strokes import Drawing, Fill, Line, Stroke
from engine.plan.records import Point


def elevation_legend(width: float, lettering: float) -> Drawing:
    """The marks with their words in as many rows as the width asks for."""
    return legend_strip(_ENTRIES, width, lettering)


def hole_sample(grey: float, kind: str) -> Sample:
    """A hole of a grey with its mark."""

    def draw(x: float, y: float, lettering: float) -> list[Stroke]:
        wide, tall = lettering * 0.75, lettering
        angles = [2.0 * math.pi * n / 24 for n in range(24)]
        outline = tuple((x + wide + wide * math.cos(a), y + tall * math.sin(a)) for a in angles)
        dashes = UNJUDGED if kind == "unjudged cut" else ()
        mark = badge(kind, (x + 0.3, y), "7", lettering)  # type: ignore[arg-type]
        return [Fill(outline, grey), Line(outline, MEDIUM, dashes, closed=True), *mark]

    return draw


def _box(x: float, y: float, lettering: float) -> tuple[Point, Point]:
    return (x, y - lettering), (x + SAMPLE, y + lettering)


def _band(x: float, y: float, lettering: float) -> list[Stroke]:
    low, high = _box(x, y, lettering)
    edge = Line(((low[0], high[1]), high), MEDIUM)
    return [*hatched(low, high), edge, Line((low, (high[0], low[1])), FINE, (0.04, 0.03), 0.35)]


def _third(x: float, y: float, lettering: float) -> list[Stroke]:
    (left, low), (right, high) = _box(x, y, lettering)
    sides = [Line(((side, low), (side, high)), THIN, THIRD_LINE, 0.2) for side in (left, right)]
    return [Fill(((left, low), (right, low), (right, high), (left, high)), THIRD_FILL), *sides]


def _support(x: float, y: float, _lettering: float) -> list[Stroke]:
    box = (
        (x, y - SUPPORT / 2.0),
        (x + SAMPLE, y - SUPPORT / 2.0),
        (x + SAMPLE, y + SUPPORT / 2.0),
        (x, y + SUPPORT / 2.0),
    )
    return [Fill(box, 0.45), *(Line(pair, THIN) for pair in pairwise((*box, box[0])))]


def from_here(x: float, y: float, _lettering: float) -> list[Stroke]:
    """The arrow at the end that a tape is hooked on."""
    tip = (x + SAMPLE * 0.7, y)
    return [Fill((tip, (tip[0] - 0.09, y - 0.045), (tip[0] - 0.09, y + 0.045)), 0.0)]


_ENTRIES: tuple[tuple[Sample, str], ...] = (
    (hole_sample(1.0, "legal cut"), "legal"),
    (hole_sample(0.0, "illegal cut"), "NOT legal: do not cut"),
    (hole_sample(1.0, "unjudged cut"), "not judged: ask first"),
    (_band, "no hole reaches in here"),
    (_third, "middle third of the span"),
    (_support, "support"),
    (from_here, "measure from here"),
)
