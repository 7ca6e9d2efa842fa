"""What stands in the way of a support: other pipes with their hubs and sleeves, the floor's wood, supports placed before."""

from __future__ import annotations

from collections.abc import Collection, Iterable
from typing import NamedTuple

from engine.checks.clashes import pipes_under_floor
from engine.checks.model import Model
from engine.framing.shadow import share_in_box
from engine.framing.wood import Wood
from engine.joinery.records import Space
from engine.piping.records import Node
from engine.takeoff.standing import fittings_under
from engine.trade.openings import hub

TOUCH = 1.0 / 32.0
"""Things that reach less than this into each other touch: half of what a tape tells."""
_CUTS = 24
"""How often the search for a line's nearest place halves what is left of it."""


class Box(NamedTuple):
    """A piece of wood, or the way of a strap: its least and greatest corner, inches."""

    low: Space
    high: Space


class _Line(NamedTuple):
    """A pipe, or a hub on one: its axis and radius."""

    pipe: str
    start: Space
    end: Space
    radius: float


class InTheWay:
    """All that a new support must keep clear of; what is placed is told with :meth:`take`."""

    def __init__(self, model: Model, wood: Wood) -> None:
        self._wood = wood
        self._lines = [
            _Line(body.pipe, body.start, body.end, body.covered) for body in pipes_under_floor(model) if body.known
        ]
        self._lines += _hubs(model)
        self._taken: list[Box] = []

    def free(self, boxes: Iterable[Box], own: Collection[str]) -> bool:
        """Whether boxes keep clear of everything but the pipes named, which they carry."""
        return not any(self._met(box, own) for box in boxes)

    def take(self, boxes: Iterable[Box]) -> None:
        """Count these boxes among what stands in the way from now on."""
        self._taken.extend(boxes)

    def _met(self, box: Box, own: Collection[str]) -> bool:
        return (
            any(overlaps(box, other) for other in self._taken)
            or any(line.pipe not in own and _reaches(line, box) for line in self._lines)
            or self._in_wood(box)
        )

    def _in_wood(self, box: Box) -> bool:
        (x0, y0, z0), (x1, y1, z1) = box
        if x1 - x0 <= 2.0 * TOUCH or y1 - y0 <= 2.0 * TOUCH:
            return False
        low, high = (x0 + TOUCH, y0 + TOUCH), (x1 - TOUCH, y1 - TOUCH)
        for one in self._wood.near(low, high):
            if min(z1, one.top) - max(z0, one.bottom) <= TOUCH:
                continue
            aside = one.thickness / 2.0
            east, north = abs(one.along[1]) * aside, abs(one.along[0]) * aside
            wide = (low[0] - east, low[1] - north), (high[0] + east, high[1] + north)
            if share_in_box(one.start, one.end, *wide) is not None:
                return True
        return False


def overlaps(one: Box, other: Box) -> bool:
    """Whether two boxes reach into each other."""
    return all(min(one.high[i], other.high[i]) - max(one.low[i], other.low[i]) > TOUCH for i in range(3))


def _hubs(model: Model) -> list[_Line]:
    """The hubs of the drains' fittings, as thick cylinders from the fitting's centre; where no height is known, none."""
    found = []
    for part in fittings_under(model):
        if model.heights.get(Node(*part.node)) is None:
            continue
        for port in part.ports:
            reach = port.takeoff.length + port.depth
            x, y, z = (at + reach * way for at, way in zip(part.centre, port.toward, strict=True))
            found.append(_Line(port.pipe or "", part.centre, (x, y, z), hub(port.size) / 2.0))
    return found


def _reaches(line: _Line, box: Box) -> bool:
    """Whether a pipe's outside reaches into a box."""
    near = line.radius - TOUCH
    for i in range(3):
        if (
            min(line.start[i], line.end[i]) - near >= box.high[i]
            or max(line.start[i], line.end[i]) + near <= box.low[i]
        ):
            return False
    low, high = 0.0, 1.0
    for _ in range(_CUTS):
        a, b = low + (high - low) / 3.0, high - (high - low) / 3.0
        if _gap(line, a, box) < _gap(line, b, box):
            high = b
        else:
            low = a
    return _gap(line, (low + high) / 2.0, box) < near**2


def _gap(line: _Line, share: float, box: Box) -> float:
    """The square of the distance from one place of a line to a box."""
    total = 0.0
    for i in range(3):
        at = line.start[i] + share * (line.end[i] - line.start[i])
        aside = max(box.low[i] - at, at - box.high[i], 0.0)
        total += aside * aside
    return total
