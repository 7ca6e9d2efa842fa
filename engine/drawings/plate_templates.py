"""Full-size templates of the holes that risers take through wall plates, many on one sheet."""

from __future__ import annotations

import math
from collections.abc import Iterator
from typing import NamedTuple

from engine.drawings.linetypes import FINE, MEDIUM, WALL_FILL, WIDE
from engine.drawings.strokes import Arc, Drawing, Fill, Line, Stroke, Text
from engine.drawings.struck import setting
from engine.drawings.templates import CAPS, FULL_SIZE, Template, shift, wrapped
from engine.lengths import inches
from engine.plan.outline import compass
from engine.plan.records import Wall
from engine.plan.walls import wall_at
from engine.study import Study
from engine.trade.lumber import actual

_AXIS = (0.3, 0.06, 0.06, 0.06)
_LEAST = 2.3
_AIR = 0.25
_ROW = CAPS * 1.7
_PLATES = ("sole plate", "top plates")
_HAIR = 1.0 / 64.0


class PlateHole(NamedTuple):
    """One kind of hole through a plate: plate width, the hole's place off its middle, diameter, and what goes through.

    `off` is toward `toward`, the compass word that lies up on the template; `away` lies down.
    """

    plate: float
    off: float
    diameter: float
    passes: str
    toward: str
    away: str


def plate_templates(study: Study, width: float, height: float) -> tuple[Template, ...]:
    """The holes of all risers through plates, alike ones once, on as few sheets of `width` by `height` as they fill."""
    sheets: list[list[Stroke]] = []
    x, top, tallest = 0.0, 0.0, 0.0
    for hole, words in _holes(study):
        wide = max(_LEAST, hole.diameter + 0.5)
        cell, high = _cell(hole, words, wide)
        if x and x + wide > width:
            x, top, tallest = 0.0, top - tallest - _AIR, 0.0
        if not sheets or top - high < -1e-9:
            sheets.append([])
            x, top, tallest = 0.0, height - 0.08, 0.0
        sheets[-1] += [shift(stroke, x, top - high) for stroke in cell]
        x += wide + _AIR
        tallest = max(tallest, high)
    bounds = (0.0, 0.0, width, height)
    return tuple(
        Template("Risers through wall plates", Drawing(tuple(strokes), width, height, bounds, FULL_SIZE, 1.0))
        for strokes in sheets
    )


def _holes(study: Study) -> list[tuple[PlateHole, list[str]]]:
    """Every kind of plate hole with where it is made, wide plates first so that rows of equal height fill the sheet."""
    risers = {riser.id: riser.wall for riser in study.plan.risers}
    found: dict[PlateHole, list[str]] = {}
    for one in setting(study.model).struck:
        wall = wall_at(study.plan, one.mark.at, risers.get(one.mark.element))
        if one.mark.kind != "riser" or wall is None:
            continue
        places: dict[PlateHole, list[str]] = {}
        for hole in one.mark.holes:
            if hole.through in _PLATES and hole.diameter is not None:
                places.setdefault(_placed(wall, one.mark.at, hole.diameter, hole.passes), []).append(hole.through)
        name = wall.name or f"wall {wall.id}"
        for kind, through in places.items():
            words = f"Mark {one.number}, {one.mark.words}, {name}: {' and '.join(through)}."
            found.setdefault(kind, []).append(words)
    return sorted(found.items(), key=lambda item: -item[0].plate)


def _placed(wall: Wall, at: tuple[float, float], diameter: float, passes: str) -> PlateHole:
    """A hole in its plate; the wall's side that lies north (or west) is up on the template."""
    length = math.dist(wall.start, wall.end)
    along = ((wall.end[0] - wall.start[0]) / length, (wall.end[1] - wall.start[1]) / length)
    side = (-along[1], along[0])
    if (round(side[1], 6), -side[0]) < (0.0, 0.0):
        side = (-side[0], -side[1])
    off = (at[0] - wall.start[0]) * side[0] + (at[1] - wall.start[1]) * side[1]
    heading = math.degrees(math.atan2(side[1], side[0]))
    exact = 0.0 if abs(off) < _HAIR else off
    return PlateHole(actual(wall.lumber).depth, exact, diameter, passes, compass(heading), compass(heading + 180.0))


def _cell(hole: PlateHole, places: list[str], width: float) -> tuple[list[Stroke], float]:
    """One hole in its piece of plate, with its words over it; its lower left corner at the origin."""
    said = [f"{inches(hole.diameter)} in hole for {hole.passes}.", *places]
    if hole.off:
        way = hole.toward if hole.off > 0.0 else hole.away
        said.append(f"{inches(abs(hole.off))} in off the plate's middle to the {way}.")
    lines = [line for words in said for line in wrapped(words, CAPS, width - 0.05)]
    high = hole.plate + 0.12 + _ROW * len(lines)
    strokes = list(_plate(hole, width))
    y = high - CAPS * 1.2
    for n, line in enumerate(lines):
        strokes.append(Text((0.0, y), line, CAPS, bold=n < len(wrapped(said[0], CAPS, width - 0.05))))
        y -= _ROW
    return strokes, high


def _plate(hole: PlateHole, width: float) -> Iterator[Stroke]:
    corners = ((0.0, 0.0), (width, 0.0), (width, hole.plate), (0.0, hole.plate))
    middle, axis = width / 2.0, hole.plate / 2.0 + hole.off
    yield Fill(corners, WALL_FILL)
    yield Line(corners[:2], WIDE)
    yield Line(corners[2:], WIDE)
    yield Arc((middle, axis), hole.diameter / 2.0, WIDE, fill=1.0)
    yield Line(((0.0, axis), (width, axis)), FINE, _AXIS)
    yield Line(((middle, 0.0), (middle, hole.plate)), FINE, _AXIS)
    for ends in (((middle - 0.2, axis), (middle + 0.2, axis)), ((middle, axis - 0.2), (middle, axis + 0.2))):
        yield Line(ends, MEDIUM)
    yield Text((0.06, hole.plate - CAPS - 0.06), f"{hole.toward} side", CAPS, halo=True)
    yield Text((0.06, 0.06), f"{hole.away} side", CAPS, halo=True)
