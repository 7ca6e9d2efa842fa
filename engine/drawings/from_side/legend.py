"""What is drawn on the drains from the side: a strip at the foot of every sheet of them."""

from __future__ import annotations

from itertools import pairwise

from engine.drawings.elevations.stick import hatched
from engine.drawings.from_side.pipes import AXIS, BLOCK, HUB
from engine.drawings.from_side.wood import BELLY, FINISH, SUBFLOOR
from engine.drawings.legend_strip import SAMPLE, Sample, legend_strip
from engine.drawings.linetypes import FINE, MEDIUM, THIN, WIDE, WOOD_FILL
from engine.drawings.marks import badge
from engine.drawings.strokes import Arc, Drawing, Fill, Line, Stroke
from engine.plan.records import Point


def line_legend(width: float, lettering: float, belly: bool) -> Drawing:
    """The marks with their words in as many rows as the width asks for; the belly only where there is one."""
    entries = [entry for entry in _ENTRIES if belly or entry[0] is not _belly]
    return legend_strip(entries, width, lettering)


def _box(x: float, y: float, wide: float, tall: float) -> tuple[Point, ...]:
    return ((x, y - tall), (x + wide, y - tall), (x + wide, y + tall), (x, y + tall))


def _solid(box: tuple[Point, ...], grey: float) -> list[Stroke]:
    return [Fill(box, grey), *(Line(pair, THIN) for pair in pairwise((*box, box[0])))]


def _joist(x: float, y: float, lettering: float) -> list[Stroke]:
    box = _box(x + 0.12, y, 0.16, lettering)
    low, third = box[0], 2.0 * lettering / 3.0
    bands = [hatched((low[0], low[1] + lift), (low[0] + 0.16, low[1] + lift + third)) for lift in (0.0, 2.0 * third)]
    return [Fill(box, WOOD_FILL), *(stroke for band in bands for stroke in band), Line(box, MEDIUM, closed=True)]


def _pipe(x: float, y: float, lettering: float) -> list[Stroke]:
    half = lettering * 0.6
    sides = [Line(((x, y + side), (x + SAMPLE, y + side)), WIDE) for side in (-half, half)]
    return [*sides, Line(((x, y), (x + SAMPLE, y)), FINE, AXIS), Arc((x + SAMPLE / 2.0, y), 0.013, FINE, fill=0.0)]


def _hub(x: float, y: float, lettering: float) -> list[Stroke]:
    return _solid(_box(x + 0.06, y, SAMPLE - 0.12, lettering * 0.7), HUB)


def _block(x: float, y: float, _lettering: float) -> list[Stroke]:
    return _solid(_box(x + 0.08, y, SAMPLE - 0.16, 0.03), BLOCK)


def _strap(x: float, y: float, lettering: float) -> list[Stroke]:
    sides = [Line(((x + 0.2 + s, y - lettering), (x + 0.2 + s, y + lettering)), THIN) for s in (-0.014, 0.014)]
    return [*sides, Line(((x + 0.186, y - lettering), (x + 0.214, y - lettering)), MEDIUM)]


def _base(x: float, y: float, _lettering: float) -> list[Stroke]:
    return [Fill(((x + 0.2, y + 0.05), (x + 0.25, y - 0.05), (x + 0.15, y - 0.05)), 0.0)]


def _layers(x: float, y: float, lettering: float) -> list[Stroke]:
    half = lettering / 2.0
    low, high = _box(x, y - half, SAMPLE, half), _box(x, y + half, SAMPLE, half)
    return [Fill(low, SUBFLOOR), Fill(high, FINISH), Line((low[0], low[1]), MEDIUM)]


def _cut(x: float, y: float, lettering: float) -> list[Stroke]:
    return [*badge("legal cut", (x + 0.12, y), "7", lettering), *badge("illegal cut", (x + 0.32, y), "7", lettering)]


def _match(x: float, y: float, lettering: float) -> list[Stroke]:
    return list(badge("look", (x + 0.25, y), "A", lettering))


def _belly(x: float, y: float, _lettering: float) -> list[Stroke]:
    return [Line(((x, y), (x + SAMPLE, y)), THIN, BELLY)]


_ENTRIES: tuple[tuple[Sample, str], ...] = (
    (_joist, "joist cut through; no hole in the hatching"),
    (_pipe, "pipe, its axis, a place told below"),
    (_hub, "fitting"),
    (_block, "block"),
    (_strap, "strap"),
    (_base, "foot carried by itself"),
    (_layers, "subfloor, finish"),
    (_cut, "cut as numbered on the joists' sheets; black: NOT legal, dashed: not judged"),
    (_match, "goes on at the same letter"),
    (_belly, "insulated belly"),
)
