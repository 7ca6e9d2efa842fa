"""Where a strip of a line lies on paper."""

from __future__ import annotations

from collections.abc import Iterable
from typing import NamedTuple

from engine.drawings.labels import Box
from engine.plan.records import Point


class Frame(NamedTuple):
    """From distance and height to paper inches: `left` and `zero` are where `low` and the joists' top lie.

    `along` and `up` are inches of floor in a paper inch, `box` is the paper that the cut floor may take.
    """

    left: float
    zero: float
    low: float
    along: float
    up: float
    box: Box

    def x(self, station: float) -> float:
        """The paper place of a distance from the exit."""
        return self.left + (station - self.low) / self.along

    def y(self, z: float) -> float:
        """The paper height of a height over the joists' top."""
        return self.zero + z / self.up

    def at(self, station: float, z: float) -> Point:
        """The paper point of a place."""
        return (self.x(station), self.y(z))

    def many(self, places: Iterable[Point]) -> tuple[Point, ...]:
        """Paper points of several places."""
        return tuple(self.at(*place) for place in places)

    def rect(self, begins: float, ends: float, low: float, high: float) -> tuple[Point, Point, Point, Point]:
        """The corners of an upright rectangle."""
        return (self.at(begins, low), self.at(ends, low), self.at(ends, high), self.at(begins, high))
