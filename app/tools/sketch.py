"""Provisional marks that a tool shows while it works: data in plan inches, drawn by the canvas."""

from __future__ import annotations

from typing import Literal, NamedTuple

from engine.plan.records import Point


class Stroke(NamedTuple):
    """A provisional line through plan points; `look` says what it stands for."""

    points: tuple[Point, ...]
    look: Literal["guide", "edge", "band", "reach"] = "edge"
    closed: bool = False


class Words(NamedTuple):
    """A few words beside a plan point, such as a length while it is being drawn."""

    at: Point
    text: str


class Handle(NamedTuple):
    """A grip that can be dragged, by its plan point; `round` ones turn, square ones move a point."""

    at: Point
    round: bool = False


Mark = Stroke | Words | Handle
