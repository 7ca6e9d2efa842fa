"""What lies under the pointer: asked of the view with a small rectangle of pixels, then ranked."""

from __future__ import annotations

import math
from itertools import pairwise
from typing import TYPE_CHECKING

from PySide6.QtCore import QPoint, QPointF, QRect, QSize, Qt
from PySide6.QtGui import QPainterPath

if TYPE_CHECKING:
    from app.canvas.scene import PlanScene
    from app.canvas.view import PlanView

REACH = 5
"""Half the side of the rectangle that counts as the pointer, pixels."""

NEAR_STEP = 2.0
"""Two things nearer to each other than this in distance from the pointer are equally near, pixels."""


def beneath(view: PlanView, scene: PlanScene, pixel: QPoint) -> tuple[str, ...]:
    """Ids of the elements under a pixel, likeliest first: the nearest, then the smallest, then the topmost."""
    box = QRect(QPoint(0, 0), QSize(2 * REACH + 1, 2 * REACH + 1))
    box.moveCenter(pixel)
    items = view.items(box, Qt.ItemSelectionMode.IntersectsItemShape)
    found = [element_id for element_id in map(scene.element_of, items) if element_id is not None]
    at, scale = view.mapToScene(pixel), view.scale_now
    ranks = {
        element_id: (
            round(_off(scene.area_of(element_id), at) * scale / NEAR_STEP),
            _extent(scene.area_of(element_id)),
            depth,
        )
        for depth, element_id in enumerate(dict.fromkeys(found))
    }
    return tuple(sorted(ranks, key=ranks.__getitem__))


def inside(view: PlanView, scene: PlanScene, box: QRect) -> frozenset[str]:
    """Ids of the elements on show whose pictures lie wholly in a rectangle of the view."""
    items = view.items(box, Qt.ItemSelectionMode.ContainsItemShape)
    return frozenset(element_id for element_id in map(scene.element_of, items) if element_id is not None)


def _off(area: QPainterPath, at: QPointF) -> float:
    """Inches from a point to an area, 0 inside it."""
    if area.contains(at):
        return 0.0
    least = math.inf
    for polygon in area.toSubpathPolygons():
        points = [polygon.at(k) for k in range(polygon.size())]
        for start, end in pairwise(points):
            least = min(least, _from_line(at, start, end))
    return least


def _from_line(at: QPointF, start: QPointF, end: QPointF) -> float:
    dx, dy = end.x() - start.x(), end.y() - start.y()
    run = dx * dx + dy * dy
    share = 0.0 if run == 0.0 else max(0.0, min(1.0, ((at.x() - start.x()) * dx + (at.y() - start.y()) * dy) / run))
    return math.hypot(at.x() - start.x() - share * dx, at.y() - start.y() - share * dy)


def _extent(area: QPainterPath) -> float:
    """How much of the sheet an area takes up, near enough to tell small things from large ones, square inches."""
    total = 0.0
    for polygon in area.toSubpathPolygons():
        points = [polygon.at(k) for k in range(polygon.size())]
        pairs = zip(points, points[1:] + points[:1], strict=True)
        total += abs(sum(a.x() * b.y() - b.x() * a.y() for a, b in pairs)) / 2.0
    return total
