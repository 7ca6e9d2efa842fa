"""The whole picture of a line: floor, wood, pipes and marks in their order, and what is told of a place in it."""

from __future__ import annotations

from PySide6.QtCore import QRectF, QSize, Qt
from PySide6.QtGui import QColor, QPainter

from app import theme
from app.strip import marks, pipes, wood
from app.strip.scale import BOTTOM, Scale
from app.strip.wording import at_place, height, verdict
from engine.takeoff.levers import Lever
from engine.takeoff.long_section import LongSection, Wood

SLACK = 4.0
"""How near to a pipe the pointer takes hold of it, pixels; a joist or fitting so near is the one that is meant."""

SLOWLY = "Shift drags slowly"


def paint(
    painter: QPainter, scale: Scale, section: LongSection, lever: Lever | None, size: QSize, still: str = ""
) -> None:
    """A line with everything round it; `still` says why nobody can set its height, where that is so."""
    inner = QRectF(0.0, 0.0, size.width(), size.height() - BOTTOM + 2.0)
    wood.draw_floor(painter, scale, section)
    wood.draw_joists(painter, scale, section)
    pipes.draw_pipes(painter, scale, section, inner)
    if lever is not None:
        marks.draw_room(painter, scale, section, lever)
    marks.draw_axis(painter, scale, section, lever)
    wood.draw_names(painter, scale, section)
    marks.draw_rulers(painter, scale, section, size)
    marks.draw_bores(painter, scale, section, size)
    marks.draw_ends(painter, scale, section)
    if lever is not None:
        marks.draw_gauge(painter, scale, lever, size)
    elif still:
        marks.draw_still(painter, still, size)


def paint_words(painter: QPainter, words: str, size: QSize) -> None:
    """What is said in the place of a line."""
    painter.setPen(QColor(theme.QUIET))
    area = QRectF(24.0, 4.0, size.width() - 48.0, size.height() - 8.0)
    painter.drawText(area, Qt.AlignmentFlag.AlignCenter | Qt.TextFlag.TextWordWrap, words)


def paint_dragging(painter: QPainter, section: LongSection, lever: Lever, size: QSize) -> None:
    """The height in the hand and what it breaks."""
    broken = any(one.cut is not None and one.cut.legal is False for one in section.woods)
    said = [height(lever), verdict(lever, section), SLOWLY]
    marks.draw_readout(painter, said, size, bool(lever.past) or lever.empty or broken)


def paint_place(painter: QPainter, scale: Scale, section: LongSection, station: float, size: QSize) -> None:
    """The heights at one place, from both edges of the wood."""
    cut = _wood_at(section, station)
    z = cut.z if cut is not None else section.leg_at(station).z(station)
    bays = (-bay.depth for bay in section.bays if bay.begins <= station <= bay.ends)
    bottom = cut.bottom if cut is not None else next(bays, None)
    marks.draw_station(painter, scale, station, z, cut.top if cut is not None else 0.0, bottom)
    broken = cut is not None and cut.cut is not None and cut.cut.legal is False
    marks.draw_readout(painter, told_at(scale, section, station), size, broken)


def told_at(scale: Scale, section: LongSection, station: float) -> list[str]:
    """What lies at a distance from the exit, in words."""
    things = [thing.words for thing in pipes.thing_at(scale, section, station, SLACK)]
    return list(at_place(section, station, _wood_at(section, station), things))


def _wood_at(section: LongSection, station: float) -> Wood | None:
    hair = 1.0e-6
    return next((one for one in section.woods if one.begins - hair <= station <= one.ends + hair), None)
