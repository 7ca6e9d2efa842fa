"""The records of the layout marks."""

from __future__ import annotations

from typing import Literal

from engine.plan.records import Point, Record
from engine.trade.facts import Standing

Side = Literal["west", "east", "south", "north"]
MarkKind = Literal["closet", "floor outlet", "tub", "riser", "exit", "water", "water service"]


class Edge(Record, frozen=True, gc=False):
    """One outside face of a joist field: `at` is its x (or y), `low` and `high` how far it reaches; inches."""

    field: str
    side: Side
    at: float
    low: float
    high: float
    words: str


class Hole(Record, frozen=True, gc=False):
    """One hole to make at a mark: through what, how wide, with which tool, for what, and how that is known.

    `diameter` is None where no listed bit fits and no width is known; `tool` then says what to go by.
    """

    through: str
    diameter: float | None
    tool: str
    passes: str
    standing: Standing
    source: str


class Mark(Record, frozen=True, gc=False):
    """One centre to strike on the floor.

    `east_from` is its distance along the east-west line from the outside face `east_edge`, `north_from` that along
    the north-south line from `north_edge`: each from the framing itself, to the nearest 1/16 in, none added to
    another. `walls` says how it stands to the studs, with the finish that is allowed for. `diagonal` is the straight
    distance to the mark (or corner) `diagonal_to`, to the nearest 1/16 in.
    """

    element: str
    kind: MarkKind
    words: str
    at: Point
    east_from: float
    east_edge: str
    north_from: float
    north_edge: str
    holes: tuple[Hole, ...]
    walls: str
    diagonal_to: str
    diagonal: float

    @property
    def hole(self) -> float | None:
        """The diameter of its hole through the subfloor, inches; None where it has none or none is known."""
        return next((hole.diameter for hole in self.holes if hole.through == "subfloor"), None)


class NotMarked(Record, frozen=True, gc=False):
    """One centre that cannot be struck from an edge, and why."""

    element: str
    words: str
    why: str


class Layout(Record, frozen=True, gc=False):
    """All marks of a plan, and what could not be marked."""

    marks: tuple[Mark, ...]
    not_marked: tuple[NotMarked, ...]
