"""What of a sheet is covered, on a raster of small cells: rows of bits, so that a whole strip is asked at once."""

from __future__ import annotations

import math
from itertools import pairwise

from engine.drawings.labels import Box, text_boxes
from engine.drawings.strokes import Arc, Fill, Line, Stroke
from engine.plan.records import Point

CELL = 0.02
"""Side of a cell, paper inches."""


class Raster:
    """One layer of a sheet: which of its cells are covered. What lies beside the sheet is left out."""

    __slots__ = ("_bottom", "_columns", "_left", "_rows")

    def __init__(self, bounds: Box) -> None:
        self._left, self._bottom = bounds.left, bounds.bottom
        self._columns = max(1, math.ceil((bounds.right - bounds.left) / CELL))
        self._rows = [0] * max(1, math.ceil((bounds.top - bounds.bottom) / CELL))

    def cover(self, box: Box) -> None:
        """Cover every cell that a rectangle touches."""
        low, high, mask = self._span(box)
        for row in range(low, high):
            self._rows[row] |= mask

    def bare(self, box: Box) -> bool:
        """Whether no cell that a rectangle touches is covered."""
        low, high, mask = self._span(box)
        return all(not row & mask for row in self._rows[low:high])

    def bare_with(self, box: Box, texts: Raster, leaders: Raster) -> bool:
        """Whether a rectangle is bare here and among leaders, and with a cell round it among texts; all of one sheet."""
        low, high, mask = self._span(box)
        for row in self._rows[low:high]:
            if row & mask:
                return False
        for row in leaders._rows[low:high]:
            if row & mask:
                return False
        wide = mask << 1 | mask | mask >> 1
        return all(not row & wide for row in texts._rows[max(0, low - 1) : high + 1])

    def uncover(self, box: Box) -> None:
        """Lay bare every cell that a rectangle touches."""
        low, high, mask = self._span(box)
        for row in range(low, high):
            self._rows[row] &= ~mask

    def cover_line(self, a: Point, b: Point, half: float) -> None:
        """Cover a straight line, `half` its width to each side."""
        steps = max(1, min(20000, math.ceil(math.dist(a, b) / CELL)))
        for n in range(steps + 1):
            x, y = a[0] + (b[0] - a[0]) * n / steps, a[1] + (b[1] - a[1]) * n / steps
            self.cover(Box(x - half, y - half, x + half, y + half))

    def trace(self, a: Point, b: Point) -> None:
        """Cover the cells that a thin straight line runs through."""
        steps = max(1, min(20000, math.ceil(math.dist(a, b) / CELL * 1.5)))
        rows, last = self._rows, len(self._rows) - 1
        x, y = (a[0] - self._left) / CELL, (a[1] - self._bottom) / CELL
        dx, dy = (b[0] - a[0]) / CELL / steps, (b[1] - a[1]) / CELL / steps
        for _ in range(steps + 1):
            row, column = int(y), int(x)
            if 0 <= row <= last and 0 <= column < self._columns:
                rows[row] |= 1 << column
            x += dx
            y += dy

    def kept(self) -> list[int]:
        """The raster as it is now, for :meth:`put_back`."""
        return list(self._rows)

    def put_back(self, kept: list[int]) -> None:
        """Make the raster what it was."""
        self._rows = list(kept)

    def clear(self) -> None:
        """Lay every cell bare."""
        self._rows = [0] * len(self._rows)

    def crossed(self, a: Point, b: Point) -> int:
        """How often a straight line comes onto covered cells from bare ones."""
        steps = max(1, min(20000, math.ceil(math.dist(a, b) / CELL)))
        times, on = 0, False
        rows, last = self._rows, len(self._rows) - 1
        x, y = (a[0] - self._left) / CELL, (a[1] - self._bottom) / CELL
        dx, dy = (b[0] - a[0]) / CELL / steps, (b[1] - a[1]) / CELL / steps
        for _ in range(steps + 1):
            row, column = int(y), int(x)
            here = 0 <= row <= last and column >= 0 and bool(rows[row] >> column & 1)
            times += here and not on
            on = here
            x += dx
            y += dy
        return times

    def cover_stroke(self, stroke: Stroke, air: float) -> None:
        """Cover a stroke with so much air round it."""
        if isinstance(stroke, Line):
            points = (*stroke.points, stroke.points[0]) if stroke.closed else stroke.points
            for a, b in pairwise(points):
                self.cover_line(a, b, air)
        elif isinstance(stroke, Arc):
            reach = stroke.radius + air
            (x, y) = stroke.centre
            self.cover(Box(x - reach, y - reach, x + reach, y + reach))
        elif isinstance(stroke, Fill):
            xs, ys = zip(*stroke.points, strict=True)
            self.cover(Box(min(xs) - air, min(ys) - air, max(xs) + air, max(ys) + air))
        else:
            for box in text_boxes(stroke):
                self.cover(Box(box.left - air, box.bottom - air, box.right + air, box.top + air))

    def _span(self, box: Box) -> tuple[int, int, int]:
        """First row, row after the last, and the columns' bits."""
        left = max(0, math.floor((box.left - self._left) / CELL))
        right = min(self._columns, math.ceil((box.right - self._left) / CELL))
        low = max(0, math.floor((box.bottom - self._bottom) / CELL))
        high = min(len(self._rows), math.ceil((box.top - self._bottom) / CELL))
        if right <= left:
            return 0, 0, 0
        return low, high, ((1 << (right - left)) - 1) << left
