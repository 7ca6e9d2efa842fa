"""Measuring between two points; it leaves nothing in the plan."""

from __future__ import annotations

import math

from app.tools.plane import heading_of
from app.tools.sketch import Mark, Stroke, Words
from app.tools.stretch import Stretch
from engine.lengths import feet_inches
from engine.plan.records import Point


class Measure(Stretch):
    """Measures a distance; the last one stays in sight until the next press."""

    name = "measure"
    title = "Measure"
    key = "M"
    hint = "Click one point, then another; the last measure stays until the next."

    def make(self, start: Point, end: Point) -> None:
        """Leave the measure standing and say it in full."""
        self.desk.sketch(self.marks(start, end))
        east, north = abs(end[0] - start[0]), abs(end[1] - start[1])
        self.desk.say(
            f"{feet_inches(math.dist(start, end))} long: {feet_inches(east)} east-west, "
            f"{feet_inches(north)} north-south, heading {heading_of(start, end) % 360.0:.1f} degrees"
        )

    def marks(self, start: Point, end: Point) -> list[Mark]:
        """The line measured, with its length."""
        return [Stroke((start, end)), Words(end, self.entry.text or feet_inches(math.dist(start, end)))]
