"""The layout marks with the numbers and letters that their drawing, their table and the templates share."""

from __future__ import annotations

from itertools import chain
from typing import NamedTuple

from engine.checks.model import Model
from engine.plan.records import Point
from engine.takeoff.marking import Edge, Layout, Mark, layout
from engine.takeoff.marks.edges import edges


class Struck(NamedTuple):
    """One mark with its number, the faces that it is measured from, and where its check diagonal runs to.

    `to` is the number of the mark at the diagonal's other end; None where that is the two faces' corner.
    """

    number: int
    mark: Mark
    east: Edge
    north: Edge
    to: int | None
    to_at: Point


class Setting(NamedTuple):
    """All marks of a plan in the order of their numbers, and the letter of each face that any is measured from."""

    struck: tuple[Struck, ...]
    letters: dict[Edge, str]
    layout: Layout

    def along(self, axis: int) -> tuple[Edge, ...]:
        """The faces that are measured from along an axis (0 east-west, 1 north-south), in the letters' order."""
        sides = (("west", "east"), ("south", "north"))[axis]
        return tuple(edge for edge in self.letters if edge.side in sides)

    def number_of(self, element: str) -> int | None:
        """The number of an element's first mark; None where it has none."""
        return next((one.number for one in self.struck if one.mark.element == element), None)


def setting(model: Model) -> Setting:
    """The marks of a plan, numbered from 1; faces are lettered, the west or east ones first."""
    found = layout(model)
    faces = {edge.words: edge for edge in edges(model)}
    ends = {f"{mark.element} ({mark.words})": (number, mark.at) for number, mark in enumerate(found.marks, 1)}
    struck = []
    for number, mark in enumerate(found.marks, 1):
        east, north = faces[mark.east_edge], faces[mark.north_edge]
        to, at = ends.get(mark.diagonal_to, (None, (east.at, north.at)))
        struck.append(Struck(number, mark, east, north, to, at))
    used = dict.fromkeys(chain((one.east for one in struck), (one.north for one in struck)))
    return Setting(tuple(struck), {edge: letter(n) for n, edge in enumerate(used)}, found)


def letter(n: int) -> str:
    """A face's letter: A, B, ... Z, AA, AB ...

    >>> letter(0), letter(25), letter(26)
    ('A', 'Z', 'AA')
    """
    return (letter(n // 26 - 1) if n >= 26 else "") + chr(ord("A") + n % 26)
