"""Small marks that keep their size on the screen: crossings, findings, flow. Shape tells what colour tells too."""

from __future__ import annotations

from collections.abc import Callable

from PySide6.QtCore import QPointF, QRectF, Qt
from PySide6.QtGui import QBrush, QPainterPath, QPolygonF
from PySide6.QtWidgets import QGraphicsItem, QGraphicsPathItem, QGraphicsSimpleTextItem

from app import palette, theme
from app.canvas.picture import shape
from app.canvas.places import to_scene
from engine.plan.records import Point

REACH = 6.0
"""Half the height of a crossing's mark, pixels."""

BADGE = 9.0
"""Half the height of a finding's mark, pixels."""

LIFT = QPointF(13.0, -13.0)
"""From the place of a finding to its mark, pixels: the mark never hides the place."""


DOUBT = 6.5
"""Half the height of the mark of what could not be judged, pixels."""

ASIDE = QPointF(-11.0, -11.0)
"""From a place to the mark of what could not be judged there, pixels: away from a finding's mark."""


LEADER = 0.55
"""Share of that way that a dotted line goes, up to the ring."""


def crossing_badge(at: Point, legal: bool | None) -> QGraphicsPathItem:
    """A ring with a tick where a cut holds, a square with a cross where it does not, a broken ring if not judged."""
    ground = QBrush(palette.shade(palette.GROUND))
    outer, inner = QPainterPath(), QPainterPath()
    if legal is True:
        outer.addEllipse(QPointF(0.0, 0.0), REACH, REACH)
        inner.addPolygon(QPolygonF([QPointF(-2.8, 0.3), QPointF(-0.7, 2.5), QPointF(3.0, -2.4)]))
        return _badge(at, outer, inner, palette.LEGAL, 1.6, ground)
    if legal is False:
        outer.addRect(QRectF(-REACH, -REACH, 2.0 * REACH, 2.0 * REACH))
        for side in (-1.0, 1.0):
            inner.moveTo(-3.6, -3.6 * side)
            inner.lineTo(3.6, 3.6 * side)
        return _badge(at, outer, inner, palette.BROKEN, 2.2, ground)
    outer.addEllipse(QPointF(0.0, 0.0), REACH, REACH)
    inner.addEllipse(QPointF(0.0, 0.0), 1.2, 1.2)
    badge = _badge(at, outer, inner, palette.UNKNOWN, 1.6, ground)
    badge.setPen(palette.pen(palette.UNKNOWN, 1.6, dashes=(1.6, 1.2)))
    return badge


def finding_badge(at: Point, weight: str, count: int) -> QGraphicsPathItem:
    """A finding's mark lifted off its place on a leader; `count` says how many share the place."""
    leader = QPainterPath(QPointF(0.0, 0.0))
    leader.lineTo(LIFT)
    root = _steady(shape(leader, palette.pen(theme.WEIGHT_INKS[weight], 1.2)), at)
    outer, inner, stroke = _WEIGHTS[weight]()
    for path, pen, fill in (
        (outer, palette.pen(palette.GROUND, 1.4), QBrush(palette.shade(theme.WEIGHT_INKS[weight]))),
        (inner, palette.pen("#ffffff", stroke), QBrush(Qt.BrushStyle.NoBrush)),
    ):
        child = shape(path, pen, fill)
        child.setPos(LIFT)
        child.setParentItem(root)
    if count > 1:
        text = QGraphicsSimpleTextItem(str(count), root)
        text.setFont(palette.lettering(11, bold=True))
        text.setBrush(palette.shade(theme.WEIGHT_INKS[weight]))
        text.setPos(LIFT.x() + 10.0, LIFT.y() - 14.0)
    return root


def doubt_badge(at: Point) -> QGraphicsPathItem:
    """A dotted ring with a question mark, off its place, where something could not be judged."""
    ring = QPainterPath(QPointF(0.0, 0.0))
    ring.lineTo(ASIDE * LEADER)
    ring.addEllipse(ASIDE, DOUBT, DOUBT)
    pen = palette.pen(palette.UNKNOWN, 1.2, dashes=(1.2, 2.0))
    root = _steady(shape(ring, pen, QBrush(palette.shade(palette.GROUND, 220))), at)
    text = QGraphicsSimpleTextItem("?", root)
    text.setFont(palette.lettering(11, bold=True))
    text.setBrush(palette.shade(palette.UNKNOWN))
    ink = text.boundingRect()
    text.setPos(ASIDE.x() - ink.width() / 2.0, ASIDE.y() - ink.height() / 2.0)
    return root


def joint_badge(at: Point) -> QGraphicsPathItem:
    """A dot where pipes are welded to each other."""
    path = QPainterPath()
    path.addEllipse(QPointF(0.0, 0.0), 3.6, 3.6)
    return _steady(shape(path, palette.pen(palette.GROUND, 1.2), QBrush(palette.shade(palette.WASTE))), at)


def flow_badge(at: Point, heading: tuple[float, float]) -> QGraphicsPathItem:
    """An arrowhead on a pipe's axis, the way the waste runs. `heading` is a unit vector in plan."""
    c, s = heading[0], -heading[1]
    tip, tail, half = 6.0, -4.5, 5.0
    points = [(tip, 0.0), (tail, half), (tail + 2.0, 0.0), (tail, -half)]
    path = QPainterPath()
    path.addPolygon(QPolygonF([QPointF(x * c - y * s, x * s + y * c) for x, y in points]))
    path.closeSubpath()
    fill = QBrush(palette.shade(palette.WASTE))
    return _steady(shape(path, palette.pen(palette.GROUND, 1.0), fill), at)


def _badge(
    at: Point, outer: QPainterPath, inner: QPainterPath, colour: str, weight: float, ground: QBrush
) -> QGraphicsPathItem:
    root = _steady(shape(outer, palette.pen(colour, 1.6), ground), at)
    mark = palette.pen(colour, weight)
    mark.setCapStyle(Qt.PenCapStyle.RoundCap)
    shape(inner, mark).setParentItem(root)
    return root


def _steady(item: QGraphicsPathItem, at: Point) -> QGraphicsPathItem:
    item.setFlag(QGraphicsItem.GraphicsItemFlag.ItemIgnoresTransformations)
    item.setPos(to_scene(at))
    return item


def _stop() -> tuple[QPainterPath, QPainterPath, float]:
    """An octagon with a bar."""
    reach, cut = 8.5, 3.5
    corners = [(-cut, -reach), (cut, -reach), (reach, -cut), (reach, cut), (cut, reach), (-cut, reach)]
    corners += [(-reach, cut), (-reach, -cut)]
    outer, inner = _closed(corners), QPainterPath(QPointF(-4.0, 0.0))
    inner.lineTo(4.0, 0.0)
    return outer, inner, 2.4


def _look() -> tuple[QPainterPath, QPainterPath, float]:
    """A triangle with a stroke and a dot."""
    outer, inner = _closed([(0.0, -8.5), (9.0, 7.0), (-9.0, 7.0)]), QPainterPath(QPointF(0.0, -3.2))
    inner.lineTo(0.0, 1.4)
    inner.addEllipse(QPointF(0.0, 4.4), 0.35, 0.35)
    return outer, inner, 1.9


def _note() -> tuple[QPainterPath, QPainterPath, float]:
    """A sheet with a turned corner and two lines."""
    outer, inner = _closed([(-7.0, -7.5), (7.0, -7.5), (7.0, 3.5), (3.0, 7.5), (-7.0, 7.5)]), QPainterPath()
    for y, end in ((-3.0, 4.0), (0.8, 1.5)):
        inner.moveTo(-3.8, y)
        inner.lineTo(end, y)
    return outer, inner, 1.6


def _closed(corners: list[tuple[float, float]]) -> QPainterPath:
    path = QPainterPath()
    path.addPolygon(QPolygonF([QPointF(x, y) for x, y in corners]))
    path.closeSubpath()
    return path


_WEIGHTS: dict[str, Callable[[], tuple[QPainterPath, QPainterPath, float]]] = {
    "stop": _stop,
    "look": _look,
    "note": _note,
}
