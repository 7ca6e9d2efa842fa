"""The floor behind a strip: bays with subfloor and finish, joists cut through with what of them must stay, and the belly."""

from __future__ import annotations

from collections.abc import Iterator

from engine.drawings.clipping import clipped
from engine.drawings.elevations.stick import hatched
from engine.drawings.from_side.frame import Frame
from engine.drawings.linetypes import MEDIUM, THIN, WOOD_FILL
from engine.drawings.strokes import Fill, Line, Stroke
from engine.plan.records import Point
from engine.takeoff.long_section import LongSection, Wood
from engine.takeoff.section_shapes import hole

SUBFLOOR, FINISH = 0.84, 0.7
"""Greys of the layers on the joists."""

BELLY = (0.12, 0.05, 0.03, 0.05)
UNJUDGED = (0.03, 0.025)
_LEAST = 0.03
_NOTHING = 1e-6


def floor(frame: Frame, section: LongSection, belly: float | None) -> Iterator[Stroke]:
    """The bays along the strip: their joists' top and bottom edges, what lies on them, and the belly that closes them."""
    for bay in section.bays:
        layers = [(bay.begins, bay.ends, 0.0, section.subfloor, SUBFLOOR)]
        layers += [
            (max(bay.begins, laid.begins), min(bay.ends, laid.ends), section.subfloor, laid.z, FINISH)
            for laid in section.floors
            if laid.begins < bay.ends and bay.begins < laid.ends
        ]
        for begins, ends, low, high, grey in layers:
            layer = clipped(frame.rect(begins, ends, low, high), frame.box)
            if layer and high - low > _NOTHING:
                yield Fill(layer, grey)
        for z, weight, grey in ((0.0, MEDIUM, 0.0), (-bay.depth, THIN, 0.35)):
            yield from _level(frame, bay.begins, bay.ends, z, weight, grey)
        if belly is not None:
            for stroke in _level(frame, bay.begins, bay.ends, -bay.depth - belly, THIN, 0.0):
                yield Line(stroke.points, THIN, BELLY)


def joists(frame: Frame, section: LongSection) -> Iterator[Stroke]:
    """Every joist that the line cuts or passes, hatched where no hole may lie, with the hole that the pipe takes."""
    for wood in section.woods:
        area = clipped(frame.rect(*_ends(frame, wood), wood.bottom, wood.top), frame.box)
        if not area:
            continue
        yield Fill(area, WOOD_FILL)
        for top, bottom in wood.keeps:
            band = clipped(frame.rect(*_ends(frame, wood), bottom, top), frame.box) if top > bottom else ()
            if band:
                (left, low), (right, high) = _corners(band)
                yield from hatched((left, low), (right, high))
        yield Line(area, MEDIUM, closed=True)
        yield from _hole(frame, wood)


def _hole(frame: Frame, wood: Wood) -> Iterator[Stroke]:
    """White where legal, black where not, dashed where not judged."""
    cut, taken = wood.cut, hole(wood)
    if cut is None or taken is None:
        return
    top, bottom = min(taken[0], wood.top), max(taken[1], wood.bottom)
    area = clipped(frame.rect(*_ends(frame, wood), bottom, top), frame.box)
    if area and top > bottom:
        yield Fill(area, 0.0 if cut.legal is False else 1.0)
        yield Line(area, THIN, UNJUDGED if cut.legal is None else (), closed=True)


def _ends(frame: Frame, wood: Wood) -> tuple[float, float]:
    """Where a joist begins and ends along the line, widened where it would be too narrow to see."""
    half = max(wood.ends - wood.begins, _LEAST * frame.along) / 2.0
    middle = (wood.begins + wood.ends) / 2.0
    return middle - half, middle + half


def _level(frame: Frame, begins: float, ends: float, z: float, weight: float, grey: float) -> Iterator[Line]:
    left, right = max(frame.x(begins), frame.box.left), min(frame.x(ends), frame.box.right)
    y = frame.y(z)
    if left < right and frame.box.bottom <= y <= frame.box.top:
        yield Line(((left, y), (right, y)), weight, grey=grey)


def _corners(area: tuple[Point, ...]) -> tuple[Point, Point]:
    xs, ys = zip(*area, strict=True)
    return (min(xs), min(ys)), (max(xs), max(ys))
