"""The provisional marks of the tool in hand, and where the pointer snapped."""

from __future__ import annotations

import math
from collections.abc import Callable, Iterable
from typing import NamedTuple

from PySide6.QtCore import QPointF, QRectF, Qt
from PySide6.QtGui import QBrush, QPainterPath
from PySide6.QtWidgets import QGraphicsItem, QGraphicsPathItem, QGraphicsScene, QGraphicsSimpleTextItem

from app import palette
from app.canvas.picture import LAYERS, shape
from app.canvas.places import outline, to_scene, track
from app.tools.sketch import Handle, Mark, Stroke, Words
from engine.plan.records import Point

TOP = float(len(LAYERS) + 2)
GRIP = 4.5
"""Half the width of a grip, pixels."""

ASIDE, WORDS_BELOW, REASON_BELOW = 14.0, 10.0, 36.0
"""How far to the right of a point and below it words and reasons stand, pixels."""


class Room(NamedTuple):
    """Pixels in view to the right of a point and below it; without end where nothing shows it."""

    right: float = math.inf
    below: float = math.inf


class Sketches:
    """What a tool shows while it works; it lies over everything and is never hit."""

    def __init__(self, scene: QGraphicsScene) -> None:
        self._scene = scene
        self._items: list[QGraphicsItem] = []
        self._snap: QGraphicsItem | None = None
        self.snapped: tuple[Point, str] | None = None
        self.marks: tuple[Mark, ...] = ()

    def show(self, marks: Iterable[Mark]) -> None:
        """Show these marks in place of the last ones."""
        self.marks = tuple(marks)
        for item in self._items:
            self._scene.removeItem(item)
        self._items = [self._add(_item(mark, self._room)) for mark in self.marks]

    def point_out(self, point: Point | None, reason: str) -> None:
        """Ring the point that the pointer snapped to, with the reason beside it; None takes the ring away."""
        if self._snap is not None:
            self._scene.removeItem(self._snap)
            self._snap = None
        self.snapped = None if point is None else (point, reason)
        if point is not None:
            self._snap = self._add(_snap_item(point, reason, self._room(point)))

    def clear(self) -> None:
        """Take every mark away."""
        self.show(())
        self.point_out(None, "")

    def _room(self, at: Point) -> Room:
        """How much of the sheet in view lies to the right of a point and below it."""
        view = next(iter(self._scene.views()), None)
        if view is None:
            return Room()
        pixel, size = view.mapFromScene(to_scene(at)), view.viewport().size()
        return Room(float(size.width() - pixel.x()), float(size.height() - pixel.y()))

    def _add(self, item: QGraphicsItem) -> QGraphicsItem:
        item.setZValue(TOP)
        item.setAcceptedMouseButtons(Qt.MouseButton.NoButton)
        self._scene.addItem(item)
        return item


def _item(mark: Mark, room: Callable[[Point], Room]) -> QGraphicsItem:
    match mark:
        case Stroke(points, look, closed):
            path = outline(points) if closed else track(points)
            if look == "guide":
                return shape(path, palette.pen(palette.GUIDE, 1.0, dashes=(4.0, 4.0)))
            if look == "band":
                return shape(path, palette.pen(palette.SNAP, 1.0), QBrush(palette.shade(palette.SNAP, 24)))
            if look == "reach":
                return shape(path, palette.pen(palette.SNAP, 6.0, 150))
            return shape(path, palette.pen(palette.SNAP, 1.6))
        case Words(at, text):
            return _words_item(at, text, room(at))
        case Handle(at, is_round):
            return _grip(at, is_round)


def _words_item(at: Point, text: str, room: Room) -> QGraphicsItem:
    """A few words beside a point, on a dark plate."""
    plate = _plate(text, WORDS_BELOW, "#ffffff", palette.INK, bold=True, room=room)
    plate.setFlag(QGraphicsItem.GraphicsItemFlag.ItemIgnoresTransformations)
    plate.setPos(to_scene(at))
    return plate


def _plate(text: str, below: float, ink: str, ground: str, bold: bool, room: Room) -> QGraphicsPathItem:
    """A text on a plate to the lower right of a point, so many pixels below it: findings' marks lie above.

    At the lower or the right edge of what is in view it stands above the point, or to its left.
    """
    label = QGraphicsSimpleTextItem(text)
    label.setFont(palette.lettering(13 if bold else 12, bold))
    label.setBrush(palette.shade(ink))
    size = label.boundingRect()
    path = QPainterPath()
    wide, high = size.width() + 12.0, size.height() + 4.0
    left = ASIDE if ASIDE + wide <= room.right else -ASIDE - wide
    top = below if below + high <= room.below else -below - high
    path.addRoundedRect(QRectF(left, top, wide, high), 4.0, 4.0)
    plate = shape(path, palette.pen(ink, 1.0, 90), QBrush(palette.shade(ground, 235)))
    label.setPos(left + 6.0, top + 2.0)
    label.setParentItem(plate)
    return plate


def _grip(at: Point, is_round: bool) -> QGraphicsItem:
    path = QPainterPath()
    area = QRectF(-GRIP, -GRIP, 2.0 * GRIP, 2.0 * GRIP)
    if is_round:
        path.addEllipse(area)
    else:
        path.addRect(area)
    item = shape(
        path, palette.pen(palette.INK, 1.4), QBrush(palette.shade("#ffffff" if not is_round else palette.SELECTED))
    )
    item.setFlag(QGraphicsItem.GraphicsItemFlag.ItemIgnoresTransformations)
    item.setPos(to_scene(at))
    return item


def _snap_item(at: Point, reason: str, room: Room) -> QGraphicsItem:
    path = QPainterPath()
    path.addEllipse(QPointF(0.0, 0.0), 7.0, 7.0)
    path.addEllipse(QPointF(0.0, 0.0), 1.0, 1.0)
    ring = shape(path, palette.pen(palette.SNAP, 1.6))
    ring.setFlag(QGraphicsItem.GraphicsItemFlag.ItemIgnoresTransformations)
    ring.setPos(to_scene(at))
    if reason:
        _plate(reason, REASON_BELOW, palette.SNAP, palette.GROUND, bold=False, room=room).setParentItem(ring)
    return ring
