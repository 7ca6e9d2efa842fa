"""The strip's floor: bays, joists cut through, what of them must stay, and the holes that the pipe takes."""

from __future__ import annotations

from PySide6.QtCore import QLineF, QPointF, QRectF, Qt
from PySide6.QtGui import QBrush, QColor, QPainter, QPen

from app import palette, theme
from app.strip.scale import Scale
from engine.takeoff import section_shapes
from engine.takeoff.long_section import LongSection, Wood

BAY = "#f8f2e4"
"""The bay behind the pipe, where its joists run along the line."""

JOIST = "#ecd6ae"
KEEP = "#a9803f"
"""Hatching of the wood that must stay."""

LEAST = 5.0
"""A joist is never drawn narrower, pixels."""

BADGE = 4.5
"""Half the height of a cut's mark, pixels."""

MARK = 11
"""Height of the joists' names, pixels."""


def draw_floor(painter: QPainter, scale: Scale, section: LongSection) -> None:
    """The bays' depth behind the line, the subfloor on the joists and the finish on it."""
    painter.setPen(Qt.PenStyle.NoPen)
    for bay in section.bays:
        area = scale.rect(bay.begins, bay.ends, 0.0, -bay.depth)
        painter.fillRect(area, QColor(BAY))
        painter.setPen(QPen(QColor(palette.WOOD_EDGE), 1.0))
        painter.drawLine(area.bottomLeft(), area.bottomRight())
        painter.setPen(Qt.PenStyle.NoPen)
        painter.fillRect(scale.rect(bay.begins, bay.ends, section.subfloor, 0.0), QColor(theme.TIMBER_TINT))
        for laid in section.floors:
            begins, ends = max(bay.begins, laid.begins), min(bay.ends, laid.ends)
            if begins < ends:
                painter.fillRect(scale.rect(begins, ends, laid.z, section.subfloor), QColor(theme.LINE))
        painter.setPen(QPen(QColor(palette.WOOD_TEXT), 1.2))
        top = scale.y(0.0)
        painter.drawLine(QLineF(area.left(), top, area.right(), top))
        painter.setPen(Qt.PenStyle.NoPen)


def draw_joists(painter: QPainter, scale: Scale, section: LongSection) -> None:
    """Each joist that the line cuts, hatched where the wood must stay, with the hole that the pipe takes."""
    for wood in section.woods:
        area = joist_area(scale, wood)
        painter.setPen(QPen(QColor(palette.WOOD_TEXT), 1.0))
        painter.setBrush(QColor(JOIST))
        painter.drawRect(area)
        painter.setPen(Qt.PenStyle.NoPen)
        painter.setBrush(QBrush(QColor(KEEP), Qt.BrushStyle.BDiagPattern))
        for top, bottom in wood.keeps:
            if top > bottom:
                painter.drawRect(QRectF(area.left(), scale.y(top), area.width(), scale.y(bottom) - scale.y(top)))
        _draw_cut(painter, scale, wood, area)


def joist_area(scale: Scale, wood: Wood) -> QRectF:
    """The pixels of a joist, widened where it would be too narrow to see."""
    area = scale.rect(wood.begins, wood.ends, wood.top, wood.bottom).normalized()
    if area.width() < LEAST:
        middle = scale.x(wood.station)
        area.setLeft(middle - LEAST / 2.0)
        area.setWidth(LEAST)
    return area


def _draw_cut(painter: QPainter, scale: Scale, wood: Wood, area: QRectF) -> None:
    """The wood that is taken: a bore's height, or a notch from its edge."""
    cut, taken = wood.cut, section_shapes.hole(wood)
    if cut is None or taken is None:
        return
    top, bottom = taken
    hole = QRectF(area.left(), scale.y(top), area.width(), scale.y(bottom) - scale.y(top))
    if cut.legal is False:
        painter.setPen(QPen(QColor(palette.BROKEN), 2.0))
        painter.setBrush(Qt.BrushStyle.NoBrush)
        painter.drawRect(area)
        painter.fillRect(hole, QColor(theme.SHEET))
        painter.setBrush(QBrush(QColor(palette.BROKEN), Qt.BrushStyle.DiagCrossPattern))
        painter.drawRect(hole)
        return
    ink = palette.LEGAL if cut.legal else palette.UNKNOWN
    painter.setPen(QPen(QColor(ink), 1.4, Qt.PenStyle.SolidLine if cut.legal else Qt.PenStyle.DotLine))
    painter.setBrush(QColor(theme.SHEET))
    painter.drawRect(hole)


def draw_names(painter: QPainter, scale: Scale, section: LongSection) -> None:
    """Over each joist the mark of its cut and its name, as far as they have room side by side."""
    painter.setFont(palette.lettering(MARK))
    metrics = painter.fontMetrics()
    row = scale.y(section.finished) - 9.0
    last = -1.0e9
    for wood in section.woods:
        middle = scale.x(wood.station)
        draw_badge(painter, QPointF(middle, row), wood)
        name = wood.words.removeprefix("joist ")
        left = middle + BADGE + 3.0
        if left > last:
            painter.setPen(QColor(palette.WOOD_TEXT))
            painter.drawText(QPointF(left, row + metrics.capHeight() / 2.0), name)
            last = left + metrics.horizontalAdvance(name) + 2.0 * BADGE + 6.0


def draw_badge(painter: QPainter, at: QPointF, wood: Wood) -> None:
    """A ring with a tick where a cut holds, a square with a cross where it does not, a dotted ring if not judged."""
    cut = wood.cut
    if cut is None:
        return
    painter.setBrush(QColor(theme.RAISED))
    if cut.legal is False:
        painter.setPen(QPen(QColor(palette.BROKEN), 1.4))
        painter.drawRect(QRectF(at.x() - BADGE, at.y() - BADGE, 2.0 * BADGE, 2.0 * BADGE))
        painter.setPen(QPen(QColor(palette.BROKEN), 1.8))
        for side in (-1.0, 1.0):
            painter.drawLine(QLineF(at.x() - 2.6, at.y() - 2.6 * side, at.x() + 2.6, at.y() + 2.6 * side))
    elif cut.legal is True:
        painter.setPen(QPen(QColor(palette.LEGAL), 1.3))
        painter.drawEllipse(at, BADGE, BADGE)
        painter.drawPolyline([at + QPointF(-2.2, 0.2), at + QPointF(-0.6, 1.9), at + QPointF(2.3, -1.8)])
    else:
        painter.setPen(QPen(QColor(palette.UNKNOWN), 1.3, Qt.PenStyle.DotLine))
        painter.drawEllipse(at, BADGE, BADGE)
