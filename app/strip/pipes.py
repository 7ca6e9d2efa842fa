"""The strip's pipes with their outsides, the fittings on them, and the trap or flange at the upper end."""

from __future__ import annotations

from PySide6.QtCore import QPointF, QRectF, Qt
from PySide6.QtGui import QColor, QPainter, QPainterPath, QPainterPathStroker, QPen, QPolygonF, QTransform

from app import palette, theme
from app.strip.scale import Scale
from engine.takeoff.long_section import Leg, LongSection
from engine.takeoff.section_shapes import RING, barrel, body, outside, return_bend
from engine.takeoff.section_things import Thing

PIPE, HUB = "#fdfdfb", "#dcd8cd"
INK = {"waste": palette.WASTE, "vent": palette.VENT, "cold": palette.COLD, "hot": palette.HOT}

LEAST_HUB = 1.5
"""A fitting's hub stands out from its pipe by so many pixels at least."""

OVERHEAD = 4.0
"""Pixels by which the pipe through the floor stands out over it."""


def draw_pipes(painter: QPainter, scale: Scale, section: LongSection, area: QRectF) -> None:
    """Every pipe with its outside, then the fittings over their ends; what goes on beyond the strip is cut off."""
    painter.save()
    painter.setClipRect(area)
    for leg in _all(section):
        _draw_leg(painter, scale, leg, section)
    for thing in section.things:
        if thing.kind != "p_trap":
            _draw_fitting(painter, scale, thing, section)
    for thing in section.things:
        if thing.kind == "p_trap":
            _draw_trap(painter, scale, thing, section)
    painter.restore()


def leg_at(scale: Scale, section: LongSection, at: QPointF, slack: float) -> Leg | None:
    """The pipe under a pixel, or nearer to it than `slack` pixels; of several the one drawn over the others."""
    for leg in reversed(_all(section)):
        if outline(scale, leg, section).boundingRect().adjusted(-slack, -slack, slack, slack).contains(at) and (
            leg.begins == leg.ends or abs(at.y() - scale.y(leg.z(scale.station(at.x())))) <= _half(scale, leg) + slack
        ):
            return leg
    return None


def thing_at(scale: Scale, section: LongSection, station: float, reach: float) -> list[Thing]:
    """The fittings at a distance from the exit, within `reach` pixels of where they stand."""
    near = [thing for thing in section.things if abs(scale.x(thing.station) - scale.x(station)) <= reach]
    return sorted(near, key=lambda thing: abs(thing.station - station))


def outline(scale: Scale, leg: Leg, section: LongSection) -> QPolygonF:
    """The outside of one pipe in pixels; upright pipe through the floor is cut off over it."""
    if leg.begins == leg.ends:
        half = leg.od / 2.0 * scale.along
        x, top = scale.x(leg.begins), scale.y(leg.z1)
        if leg is section.stands:
            top = max(top, scale.y(section.finished) - OVERHEAD)
        bottom = scale.y(leg.z0)
        return QPolygonF(QRectF(x - half, min(top, bottom), 2.0 * half, abs(bottom - top)))
    return QPolygonF([scale.point(*corner) for corner in barrel(leg)])


def _all(section: LongSection) -> list[Leg]:
    extra = [leg for leg in (section.tail, section.stands) if leg is not None]
    return [*extra, *section.legs]


def _half(scale: Scale, leg: Leg) -> float:
    return leg.od / 2.0 * scale.up


def _draw_leg(painter: QPainter, scale: Scale, leg: Leg, section: LongSection) -> None:
    fill = QColor(PIPE)
    fill.setAlpha(225)
    pen = QPen(QColor(INK[leg.system]), 1.5)
    if leg.system == "vent":
        pen.setDashPattern([4.0, 2.0])
    painter.setPen(pen)
    painter.setBrush(fill)
    painter.drawPolygon(outline(scale, leg, section))


def draw_axis(painter: QPainter, scale: Scale, legs: list[Leg], by: float, pen: QPen) -> None:
    """The axis of some legs moved up by so many inches."""
    painter.setPen(pen)
    for leg in legs:
        painter.drawLine(scale.point(leg.begins, leg.z0 + by), scale.point(leg.ends, leg.z1 + by))


def _draw_fitting(painter: QPainter, scale: Scale, thing: Thing, section: LongSection) -> None:
    """A fitting's hubs: along the line, and up or down where a leg of it stands plumb."""
    if thing.kind.startswith("closet_flange"):
        _draw_flange(painter, scale, thing, section)
        return
    half = outside(section, thing) / 2.0
    hub = half + max(half / 12.0, LEAST_HUB / scale.up)
    path = QPainterPath()
    path.setFillRule(Qt.FillRule.WindingFill)
    along = body(section, thing, hub)
    if along:
        path.addPolygon(QPolygonF([scale.point(*corner) for corner in along]))
        path.closeSubpath()
    if thing.up or thing.down:
        wide = half * scale.along + LEAST_HUB
        top, bottom = scale.y(thing.z + (thing.up or half)), scale.y(thing.z - (thing.down or half))
        path.addRect(QRectF(scale.x(thing.station) - wide, top, 2.0 * wide, bottom - top))
    painter.setPen(QPen(QColor(INK[_system(section)]), 1.2))
    painter.setBrush(QColor(HUB))
    painter.drawPath(path.simplified())


def _system(section: LongSection) -> str:
    return section.legs[0].system


def _draw_flange(painter: QPainter, scale: Scale, thing: Thing, section: LongSection) -> None:
    """A closet's flange: its ring on the finished floor, wider than the pipe."""
    wide = (outside(section, thing) / 2.0 + RING) * scale.along
    row = scale.y(thing.z)
    ring = QRectF(scale.x(thing.station) - wide, row - 3.5, 2.0 * wide, 4.0)
    painter.setPen(QPen(QColor(palette.WASTE), 1.2))
    painter.setBrush(QColor(HUB))
    painter.drawRect(ring)


def _draw_trap(painter: QPainter, scale: Scale, thing: Thing, section: LongSection) -> None:
    """A P-trap: a return bend under its inlet and a quarter up to the arm, the bend's radius a third of its length."""
    bend = return_bend(section, thing)
    if bend is None:
        return
    radius, z = bend
    od = outside(section, thing)
    path = QPainterPath(QPointF(thing.station, z - radius))
    path.arcTo(QRectF(thing.station - 2.0 * radius, z - 2.0 * radius, 2.0 * radius, 2.0 * radius), 0.0, 180.0)
    path.arcTo(QRectF(thing.station - 4.0 * radius, z - 2.0 * radius, 2.0 * radius, 2.0 * radius), 0.0, -90.0)
    stroker = QPainterPathStroker()
    stroker.setWidth(od)
    stroker.setCapStyle(Qt.PenCapStyle.FlatCap)
    to_pixels = QTransform(scale.along, 0.0, 0.0, -scale.up, scale.left, scale.zero)
    painter.setPen(QPen(QColor(palette.WASTE), 1.2))
    painter.setBrush(QColor(HUB))
    painter.drawPath(to_pixels.map(stroker.createStroke(path).simplified()))
    water = to_pixels.map(QPointF(thing.station, z - radius))
    painter.setPen(QPen(QColor(theme.NOTE), 1.0, Qt.PenStyle.DotLine))
    half = od / 2.0 * scale.along
    painter.drawLine(water + QPointF(-half, 0.0), water + QPointF(half, 0.0))
