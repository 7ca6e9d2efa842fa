"""A drawing in the making: where plan points lie on paper, the strokes so far, and the room that is left."""

from __future__ import annotations

from collections.abc import Iterable
from typing import Literal, NamedTuple

from engine.drawings.labels import Box, Room, label
from engine.drawings.scales import Scale
from engine.drawings.strokes import Stroke, Text
from engine.plan.records import Point

Content = Literal["everything", "overview", "drains", "water"]
"""What a plan drawing shows: all of it; all systems without their measures; or one trade with its measures."""


class Frame(NamedTuple):
    """From plan inches to paper inches."""

    scale: Scale
    origin: Point
    west: float
    south: float

    def at(self, point: tuple[float, ...]) -> Point:
        """A plan point's place on paper."""
        ratio = self.scale.ratio
        return (self.origin[0] + (point[0] - self.west) / ratio, self.origin[1] + (point[1] - self.south) / ratio)

    def many(self, points: Iterable[Point]) -> tuple[Point, ...]:
        """Plan points' places on paper."""
        return tuple(self.at(point) for point in points)


class Sheet:
    """Strokes in layers, drawn from the first to the last; what they cover is marked in `room`."""

    __slots__ = ("content", "frame", "height", "layers", "room")

    def __init__(self, frame: Frame, bounds: Box, height: float, content: Content) -> None:
        self.frame = frame
        self.room = Room(bounds)
        self.height = height
        self.content = content
        self.layers: dict[str, list[Stroke]] = {name: [] for name in LAYERS}

    def add(self, layer: str, *strokes: Stroke) -> None:
        """Put strokes on a layer."""
        self.layers[layer].extend(strokes)

    def label(self, at: Point, text: str, share: float = 1.0, clear: float = 0.0, bold: bool = False) -> None:
        """Write a text beside a paper point; a leader to it lies under all labels."""
        for stroke in label(self.room, at, text, self.height * share, clear=clear, bold=bold):
            self.add("labels" if isinstance(stroke, Text) else "marks", stroke)

    def strokes(self) -> tuple[Stroke, ...]:
        """All strokes, the lowest layer first."""
        return tuple(stroke for layer in self.layers.values() for stroke in layer)


LAYERS = (
    "wood",
    "walls",
    "extensions",
    "fixtures",
    "overhead",
    "water",
    "vents",
    "drains",
    "marks",
    "labels",
    "dimensions",
)
"""From the bottom up."""
