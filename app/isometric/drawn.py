"""The isometric as it stands on the screen at one zoom: painted, and asked what lies under a pixel."""

from __future__ import annotations

from collections.abc import Collection
from typing import NamedTuple

import msgspec
from PySide6.QtCore import QPointF, QRectF
from PySide6.QtGui import QBrush, QColor, QPainter, QPen

from app import palette
from app.isometric.inking import Ink, gap, inked, outline, paint, paint_text, pixel, rectangle
from app.isometric.subject import PIXELS, Subject
from engine.drawings.isometric.figure import Figure, Shown
from engine.drawings.isometric.labelling import Label
from engine.drawings.labels import Box
from engine.drawings.strokes import Line, Text
from engine.drawings.typeface import text_width
from engine.plan.records import Point

NEAR = 6.0
"""The pointer may miss a pipe or part by so much, pixels."""

PART_FIRST = 0.5
"""A part is preferred to a pipe that is nearer by no more than this, pixels."""

GLOW = 9.0
"""Width of the glow along what is selected, pixels."""

_RING = 7.0


class _Painted(NamedTuple):
    """One thing shown, ready to be painted."""

    shown: Shown
    inks: list[Ink]
    colour: str


class Drawn:
    """One subject at one scale (paper inches an inch of the building), with whatever labels have been seated."""

    def __init__(self, subject: Subject, scale: float) -> None:
        self.scale = scale
        self.figure: Figure = subject.figure(scale)
        self.labels: list[Label] = []
        self._painted = [
            _Painted(
                shown, inked(shown.strokes, palette.LINES[shown.system].colour), palette.LINES[shown.system].colour
            )
            for shown in self.figure.shown
        ]
        self._by_name = {each.shown.name: each.shown for each in self._painted}

    @property
    def names(self) -> tuple[str, ...]:
        """Everything shown, in the order in which it is read: from the top down, and from left to right."""
        line = 0.4
        return tuple(
            shown.name for shown in sorted(self.figure.shown, key=lambda s: (-(s.at[1] // line), s.at[0], s.name))
        )

    def place(self, name: str) -> QPointF | None:
        """Where a thing stands, in pixels from the drawing's origin."""
        shown = self._by_name.get(name)
        return None if shown is None else pixel(shown.at)

    def carry(self, labels: list[Label], before: Figure) -> None:
        """Take over labels that were seated at another zoom, each moved with what it names, until they are seated anew."""
        moves = {point: self.figure.points.get(key) for key, point in before.points.items()}
        for label in labels:
            to = moves.get(label.anchor) or _on_line(label, self.figure)
            if to is not None:
                self.labels.append(_moved(label, to[0] - label.anchor[0], to[1] - label.anchor[1]))

    def at(self, point: Point) -> str | None:
        """The name of what lies at a paper point: a label's line, else the nearest part, else the nearest pipe."""
        for label in self.labels:
            if label.box.left <= point[0] <= label.box.right and label.box.bottom <= point[1] <= label.box.top:
                nearest = min(
                    zip(label.texts, label.about, strict=True), key=lambda pair: abs(_middle(pair[0]) - point[1])
                )
                return nearest[1] or None
        found = []
        for shown in self.figure.shown:
            far = gap(shown.strokes, point) * PIXELS
            if far <= NEAR:
                found.append((far + (PART_FIRST if shown.what != "part" else 0.0), shown.name))
        return min(found)[1] if found else None

    def paint(self, painter: QPainter, glowing: Collection[str], held: str | None) -> None:
        """Paint everything, with a glow along what is selected and a ring round what the keyboard holds."""
        for each in self._painted:
            if each.shown.name in glowing:
                self._glow(painter, each.shown)
        for label in self.labels:
            if label.leader is not None:
                paint(painter, inked((label.leader,), palette.QUIET))
        for each in self._painted:
            paint(painter, each.inks)
            for stroke in each.shown.strokes:
                if isinstance(stroke, Text):
                    paint_text(painter, stroke, each.colour)
        for label in self.labels:
            self._label(painter, label, glowing)
        if held is not None and held in self._by_name:
            self._ring(painter, self._by_name[held])

    def _glow(self, painter: QPainter, shown: Shown) -> None:
        pen = QPen(palette.shade(palette.SELECTED, 130), GLOW)
        painter.setPen(pen)
        painter.setBrush(QBrush(palette.shade(palette.SELECTED, 90)) if shown.what == "part" else QBrush())
        painter.drawPath(outline(shown.strokes))

    def _label(self, painter: QPainter, label: Label, glowing: Collection[str]) -> None:
        for text, about in zip(label.texts, label.about, strict=True):
            if about in glowing:
                painter.fillRect(_behind(text), palette.shade(palette.SELECTED, 70))
        if label.frame is not None:
            paint(painter, inked((label.frame,), palette.INK))
        for text in label.texts:
            paint_text(painter, text, palette.INK)

    def _ring(self, painter: QPainter, shown: Shown) -> None:
        painter.setPen(QPen(QColor(palette.INK), 1.4))
        painter.setBrush(QBrush())
        at = pixel(shown.at)
        if shown.what == "part":
            around: QRectF = outline(shown.strokes).boundingRect().adjusted(-_RING, -_RING, _RING, _RING)
            painter.drawRoundedRect(around, _RING, _RING)
        else:
            painter.drawEllipse(at, _RING, _RING)


def _behind(text: Text) -> QRectF:
    """The rectangle behind one line of a label, pixels."""
    wide = text_width(text.text, text.height, text.bold)
    left = text.at[0] - (wide if text.anchor == "end" else 0.0)
    air = text.height * 0.28
    return rectangle(left - air, text.at[1] - air, left + wide + air, text.at[1] + text.height + air)


def _middle(text: Text) -> float:
    return text.at[1] + text.height / 2.0


def _on_line(label: Label, figure: Figure) -> Point | None:
    """Where the pipe that a label names lies now."""
    lines = figure.lines_of(label.about[0])
    return lines[0].at(0.5) if lines else None


def _moved(label: Label, dx: float, dy: float) -> Label:
    def over(at: Point) -> Point:
        return (at[0] + dx, at[1] + dy)

    def line(each: Line | None) -> Line | None:
        return None if each is None else msgspec.structs.replace(each, points=tuple(over(p) for p in each.points))

    box = label.box
    return Label(
        Box(box.left + dx, box.bottom + dy, box.right + dx, box.top + dy),
        over(label.anchor),
        tuple(msgspec.structs.replace(text, at=over(text.at)) for text in label.texts),
        label.about,
        line(label.leader),
        line(label.frame),
    )
