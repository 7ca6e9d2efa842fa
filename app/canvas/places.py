"""Plan inches to scene units and back: the only place where y is turned over.

The plan's y runs north, up; the scene's runs down. One scene unit is one inch.
"""

from __future__ import annotations

from collections.abc import Iterable

from PySide6.QtCore import QPointF, QRectF, Qt
from PySide6.QtGui import QPainterPath, QPainterPathStroker, QPolygonF

from engine.plan.records import Point


def to_scene(point: Point) -> QPointF:
    """The scene's place of a plan point."""
    return QPointF(point[0], -point[1])


def to_plan(place: QPointF) -> Point:
    """The plan point of a place in the scene, not rounded to the plan's grid."""
    return (place.x(), -place.y())


def box(points: Iterable[Point]) -> QRectF:
    """The scene's rectangle round plan points."""
    return polygon(points).boundingRect()


def polygon(points: Iterable[Point]) -> QPolygonF:
    """The scene's polygon through plan points."""
    return QPolygonF([to_scene(point) for point in points])


def outline(points: Iterable[Point]) -> QPainterPath:
    """A closed path through plan points."""
    path = QPainterPath()
    path.addPolygon(polygon(points))
    path.closeSubpath()
    return path


def track(points: Iterable[Point]) -> QPainterPath:
    """An open path through plan points."""
    path = QPainterPath()
    path.addPolygon(polygon(points))
    return path


def band(points: Iterable[Point], width: float) -> QPainterPath:
    """The area that a pipe of this width covers along plan points."""
    stroker = QPainterPathStroker()
    stroker.setWidth(max(width, 1e-3))
    stroker.setCapStyle(Qt.PenCapStyle.FlatCap)
    stroker.setJoinStyle(Qt.PenJoinStyle.RoundJoin)
    return stroker.createStroke(track(points)).simplified()


def disc(centre: Point, radius: float) -> QPainterPath:
    """A round area about a plan point."""
    path = QPainterPath()
    path.addEllipse(to_scene(centre), radius, radius)
    return path
