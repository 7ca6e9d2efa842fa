"""What a drawing is made of: lines, arcs, fills and texts on paper, as plain data.

Paper coordinates are inches from the drawing's lower left corner, x to the right, y up. Line weights are
millimetres, dash patterns inches (drawn, gap, drawn, gap ...; empty for a solid line), greys 0 black to 1 white,
angles degrees counter-clockwise.
"""

from __future__ import annotations

from typing import Literal

from engine.plan.records import Point, Record

Dashes = tuple[float, ...]


class Line(Record, frozen=True, gc=False):
    """A line through two or more points."""

    points: tuple[Point, ...]
    weight: float
    dashes: Dashes = ()
    grey: float = 0.0
    closed: bool = False


class Arc(Record, frozen=True, gc=False):
    """Part of a circle from angle `start` through `sweep` degrees; 360 is a circle, which `fill` may fill."""

    centre: Point
    radius: float
    weight: float
    start: float = 0.0
    sweep: float = 360.0
    dashes: Dashes = ()
    grey: float = 0.0
    fill: float | None = None


class Fill(Record, frozen=True, gc=False):
    """An area of one grey, without an edge."""

    points: tuple[Point, ...]
    grey: float


class Text(Record, frozen=True, gc=False):
    """One line of text. `height` is its capitals' height in inches; `at` is on the base line.

    `anchor` says which part of the text stands at `at`. With `halo` a white plate lies behind it. Text that the
    user typed stands here as typed: whoever draws it must not read it as markup.
    """

    at: Point
    text: str
    height: float
    anchor: Literal["start", "middle", "end"] = "start"
    angle: float = 0.0
    halo: bool = False
    grey: float = 0.0
    bold: bool = False


Stroke = Line | Arc | Fill | Text
"""Strokes are drawn in their order: later ones lie on top."""


class Drawing(Record, frozen=True, gc=False):
    """A finished drawing.

    `width` and `height` are the paper that it was made for, `bounds` what it covers (left, bottom, right, top).
    `scale_ratio` is how many inches of floor one inch of paper shows; `scale_name` says it in words.
    """

    strokes: tuple[Stroke, ...]
    width: float
    height: float
    bounds: tuple[float, float, float, float]
    scale_name: str = ""
    scale_ratio: float = 1.0
