"""What pipes and fittings in a wall are called, written beside them where it covers nothing."""

from __future__ import annotations

from collections.abc import Iterator

from engine.drawings.labels import SOLID, Box, Room, text_boxes
from engine.drawings.strokes import Text
from engine.drawings.typeface import text_width
from engine.drawings.walls.records import Standing, WallView
from engine.drawings.walls.side import ARROW, Side, stud_box
from engine.lengths import inches
from engine.plan.records import Point

_SEATS = 9
_STEP_ASIDE = 0.05
"""What a line's way from its thing's own height is worth, beside covering a stud's edge."""

_COVERS = SOLID * 0.0004
"""What a pipe's name may cover at most, so that it is told on the drawing and not in its column alone."""


def labels(side: Side, drawn: WallView, height: float) -> Iterator[Text]:
    """What each pipe and fitting is called, seated where it covers nothing."""
    bounds = side.box(0.0, 0.0, drawn.hook.length, drawn.plates[0])
    room = Room(Box(*bounds[0], *bounds[2]))
    for stud in drawn.studs:
        for edge in (stud.low, stud.high):
            room.take_line(side.at(edge, drawn.sole), side.at(edge, drawn.plates[0]), 0.005)
    for box in _solids(side, drawn):
        room.take(box)
    small = height * 0.92
    for fitting in drawn.fittings:
        words = f'{inches(fitting.height)}" {fitting.words}'
        half = fitting.outside * 0.62
        yield _seated(
            room,
            words,
            small,
            side.box(fitting.at - half, fitting.height - half, fitting.at + half, fitting.height + half),
            bold=True,
        )
    for lying in drawn.lying:
        (x0, z0), (x1, z1) = lying.ends
        half = lying.outside / 2.0
        words = lying.words + (f' at {inches(z0)}"' if lying.crossing else "")
        yield _seated(room, words, small, side.box(x0 - half, min(z0, z1) - half, x1 + half, max(z0, z1) + half))
    for pipe in drawn.standing:
        name = _upright(room, side, pipe, small)
        if name is not None:
            yield name


def _solids(side: Side, drawn: WallView) -> Iterator[Box]:
    """What no word may cover."""
    for pipe in drawn.standing:
        half = pipe.outside / 2.0
        (left, low), _, (right, high), _ = side.box(pipe.at - half, pipe.low, pipe.at + half, pipe.high)
        yield Box(left, low, right, high + (2.0 * ARROW if pipe.cut_off else 0.0))
    for fitting in drawn.fittings:
        half = fitting.outside * 0.62
        (left, low), _, (right, high), _ = side.box(
            fitting.at - half, fitting.height - half, fitting.at + half, fitting.height + half
        )
        yield Box(left, low, right, high)
    for lying in drawn.lying:
        (x0, z0), (x1, z1) = lying.ends
        half = lying.outside / 2.0
        (left, low), _, (right, high), _ = side.box(x0, min(z0, z1) - half, x1, max(z0, z1) + half)
        yield Box(left, low, right, high)
    for cut in drawn.cuts:
        if cut.height is not None:
            (left, low), _, (right, high), _ = side.box(*stud_box(drawn, cut))
            yield Box(left, low, right, high)
    for steel in drawn.steel:
        (left, low), _, (right, high), _ = side.box(steel.low, steel.foot, steel.high, steel.top)
        yield Box(left, low, right, high)


def _seated(room: Room, words: str, height: float, box: tuple[Point, ...], bold: bool = False) -> Text:
    """Words beside a thing on paper: to its right or left, over or under it, where they cover least."""
    (left, low), (right, high) = box[0], box[2]
    wide, air, middle = text_width(words, height, bold), 0.04, (low + high) / 2.0
    centre = (left + right - wide) / 2.0
    lines = [middle - height / 2.0 + step * height * 0.8 for step in (0, 1, -1, 2, -2, 3, -3)]
    spots = [(right + air, y) for y in lines] + [(left - air - wide, y) for y in lines]
    spots += [(centre, high + air), (centre, low - air - height)]
    costs = [
        (room.cost(Box(x - 0.02, y - 0.02, x + wide + 0.02, y + height + 0.02)) + _STEP_ASIDE * (n % len(lines)), n)
        for n, (x, y) in enumerate(spots)
    ]
    text = Text(spots[min(costs)[1]], words, height, halo=True, bold=bold)
    room.take_text(text)
    return text


def _upright(room: Room, side: Side, pipe: Standing, height: float) -> Text | None:
    """A plumb pipe's name along it, at its left or right; None where it is shorter than its name."""
    wide, half = text_width(pipe.words, height), pipe.outside / 2.0
    low, high = side.at(pipe.at, max(pipe.low, 0.0))[1] + 0.05, side.at(pipe.at, pipe.high)[1]
    best: tuple[float, Text] | None = None
    for x in (side.at(pipe.at - half, 0.0)[0] - 0.03, side.at(pipe.at + half, 0.0)[0] + 0.03 + height):
        for n in range(_SEATS):
            y = low + max(0.0, high - low - wide) * n / (_SEATS - 1)
            text = Text((x, y), pipe.words, height, angle=90.0, halo=True)
            cost = sum(room.cost(box) for box in text_boxes(text))
            if best is None or cost < best[0] - 1e-9:
                best = (cost, text)
    if best is None or best[0] > _COVERS:
        return None
    room.take_text(best[1])
    return best[1]
