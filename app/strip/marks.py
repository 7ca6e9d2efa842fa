"""What is written round the strip: the depth's ruler, distances, the heights that serve, ends and the readout."""

from __future__ import annotations

from collections.abc import Sequence

from PySide6.QtCore import QLineF, QPointF, QRectF, QSize, Qt
from PySide6.QtGui import QBrush, QColor, QFontMetricsF, QPainter, QPen

from app import palette, theme
from app.strip.scale import LEFT, RIGHT, Scale
from app.strip.wording import limit, tape
from engine.lengths import inches
from engine.takeoff.levers import Lever
from engine.takeoff.long_section import Leg, LongSection

SMALL, BOLD = 11, 12
"""Heights of the lettering, pixels."""

ROW = 14.0
"""Between two lines of lettering, pixels."""

RULER = 30.0
"""Where the depth's ruler stands, pixels from the left."""

LINE = 16.0
"""Height of a line of the readout, pixels."""

FOOT = 3.0
"""Left free under the last line, pixels."""

BETWEEN = "  \u00b7  "
"""Between two things that are said on one line."""

FROM_MAIN = "over its main:"
"""Stands over the heights of what counts from the pipe it meets, where others count down from the joists' top."""

GAUGE = 14.0
"""From the gauge of heights to the section, pixels."""

TICKS = (1, 2, 3, 4, 6, 8, 12, 24)
"""Inches or feet between two figures of a ruler: the first that leaves them room."""


def draw_rulers(painter: QPainter, scale: Scale, section: LongSection, size: QSize) -> None:
    """Inches down from the joists' top at the left, feet from the exit at the foot, and how the two are drawn."""
    painter.setFont(palette.lettering(SMALL))
    painter.setPen(QPen(QColor(theme.QUIET), 1.0))
    top, foot = scale.y(section.finished), size.height() - 2.0 * ROW - FOOT
    deepest = int(scale.z(foot) * -1.0)
    step = next((tick for tick in TICKS if tick * scale.up >= ROW), TICKS[-1])
    _written(painter, QRectF(5.0, top - ROW - 2.0, LEFT, ROW), "in down", Qt.AlignmentFlag.AlignLeft)
    painter.drawLine(QLineF(RULER, top, RULER, foot))
    for inch in range(deepest + 1):
        row = scale.y(-inch)
        figure = inch % step == 0
        painter.drawLine(QLineF(RULER - (6.0 if figure else 3.0), row, RULER, row))
        if figure:
            _written(painter, QRectF(0.0, row - ROW / 2.0, RULER - 8.0, ROW), str(inch), Qt.AlignmentFlag.AlignRight)
    _draw_feet(painter, scale, section, size)


def _draw_feet(painter: QPainter, scale: Scale, section: LongSection, size: QSize) -> None:
    row = size.height() - ROW - FOOT + 1.0
    room = 12.0 * scale.along
    step = next((tick for tick in TICKS if tick * room >= 30.0), TICKS[-1])
    painter.setPen(QPen(QColor(theme.QUIET), 1.0))
    painter.drawLine(QLineF(scale.x(0.0), row, scale.x(section.length), row))
    larger = scale.larger
    said = "Heights and lengths alike" if larger < 1.05 else f"Heights drawn {larger:.1f} times as large as lengths"
    width = QFontMetricsF(painter.font()).horizontalAdvance(said)
    left = max(scale.x(0.0), size.width() - width - 6.0)
    for foot in range(0, int(section.length / 12.0) + 1, step):
        x = scale.x(12.0 * foot)
        painter.drawLine(QLineF(x, row, x, row + 3.0))
        if x + FIGURE < left:
            area = QRectF(x - 20.0, row + 1.0, 40.0, ROW - 2.0)
            _written(painter, area, f"{foot}'", Qt.AlignmentFlag.AlignHCenter)
    painter.fillRect(QRectF(left - 4.0, row + 4.0, width + 10.0, ROW - 3.0), QColor(theme.SHEET))
    _written(painter, QRectF(left, row + 1.0, width + 4.0, ROW - 2.0), said, Qt.AlignmentFlag.AlignLeft)


FIGURE = 14.0
"""Half of what a distance's figure takes at most, pixels."""


def draw_bores(painter: QPainter, scale: Scale, section: LongSection, size: QSize) -> None:
    """Under each joist how far down its hole's middle lies, as far as the figures have room side by side."""
    painter.setFont(palette.lettering(SMALL))
    metrics = QFontMetricsF(painter.font())
    row = size.height() - 2.0 * ROW - FOOT - 2.0
    last = -1.0e9
    for wood in section.woods:
        if wood.cut is None:
            continue
        text = inches(-wood.middle)
        width = metrics.horizontalAdvance(text)
        left = scale.x(wood.station) - width / 2.0
        if left <= last:
            continue
        broken = wood.cut.legal is False
        painter.setFont(palette.lettering(SMALL, bold=broken))
        painter.setPen(QColor(palette.BROKEN if broken else theme.INK))
        painter.drawText(QRectF(left - 2.0, row, width + 6.0, ROW), Qt.AlignmentFlag.AlignHCenter, text)
        last = left + width + 8.0


def draw_room(painter: QPainter, scale: Scale, section: LongSection, lever: Lever) -> None:
    """Between which heights the axis of the pipes that move together may lie, and the axis as it is."""
    legs = [leg for leg in section.legs if leg.pipe in lever.pipes]
    if lever.low is not None and lever.high is not None:
        _draw_ribbon(painter, scale, legs, lever)
    pen = QPen(QColor(theme.STOP if lever.empty else theme.PINE), 1.3, Qt.PenStyle.DashLine)
    for end in (lever.low, lever.high):
        if end is not None:
            _draw_line(painter, scale, legs, end - lever.z, pen)


def draw_axis(painter: QPainter, scale: Scale, section: LongSection, lever: Lever | None) -> None:
    """The pipes' axes, heavy where the lever's hand is, broken and red where it lies past a limit."""
    for leg in section.legs:
        held = lever is not None and leg.pipe in lever.pipes
        if held and lever is not None and (lever.past or lever.empty):
            pen = QPen(QColor(palette.BROKEN), 2.2, Qt.PenStyle.DotLine)
        else:
            pen = QPen(QColor(theme.INK), 1.6 if held else 0.9)
        _draw_line(painter, scale, [leg], 0.0, pen)


def _draw_ribbon(painter: QPainter, scale: Scale, legs: Sequence[Leg], lever: Lever) -> None:
    assert lever.low is not None and lever.high is not None  # the caller looked
    brush = QBrush(QColor(theme.STOP), Qt.BrushStyle.FDiagPattern) if lever.empty else QBrush(QColor(theme.PINE_TINT))
    painter.setPen(Qt.PenStyle.NoPen)
    painter.setBrush(brush)
    for leg in legs:
        if leg.begins == leg.ends:
            continue
        above, below = lever.high - lever.z, lever.low - lever.z
        painter.drawPolygon(
            [
                scale.point(leg.begins, leg.z0 + above),
                scale.point(leg.ends, leg.z1 + above),
                scale.point(leg.ends, leg.z1 + below),
                scale.point(leg.begins, leg.z0 + below),
            ]
        )


def _draw_line(painter: QPainter, scale: Scale, legs: Sequence[Leg], by: float, pen: QPen) -> None:
    painter.setPen(pen)
    for leg in legs:
        painter.drawLine(scale.point(leg.begins, leg.z0 + by), scale.point(leg.ends, leg.z1 + by))


def draw_gauge(painter: QPainter, scale: Scale, lever: Lever, size: QSize) -> None:
    """The heights that serve beside the place where they are measured, each in words at the left."""
    x = scale.x(lever.station) - (GAUGE if lever.station == 0.0 else 0.0)
    wrong = bool(lever.past) or lever.empty
    ink = QColor(palette.BROKEN if wrong else theme.INK)
    for end in (lever.low, lever.high):
        if end is not None:
            painter.setPen(QPen(QColor(theme.STOP if lever.empty else theme.PINE), 2.0))
            painter.drawLine(QLineF(x - 5.0, scale.y(end), x + 5.0, scale.y(end)))
    if lever.low is not None and lever.high is not None:
        painter.drawLine(QLineF(x, scale.y(lever.low), x, scale.y(lever.high)))
    painter.setPen(QPen(QColor(theme.PINE), 2.0))
    for z, _ in lever.others:
        painter.drawLine(QLineF(x - 5.0, scale.y(z), x + 5.0, scale.y(z)))
    painter.setPen(QPen(ink, 1.4))
    painter.setBrush(QColor(theme.RAISED))
    now = QPointF(x, scale.y(lever.z))
    if wrong:
        painter.drawRect(QRectF(now.x() - 4.0, now.y() - 4.0, 8.0, 8.0))
    else:
        painter.drawEllipse(now, 4.5, 4.5)
    painter.setBrush(ink)
    painter.drawEllipse(now, 1.4, 1.4)
    one = lever.low is not None and lever.high is not None and abs(lever.high - lever.low) < 1.0 / 256.0
    rows = [(lever.z, f"{'set' if lever.pinned else 'now'} {tape(lever, lever.z)}", True, wrong)]
    if one and not wrong:
        rows.append((lever.z - 1.0 / scale.up, "the only height", False, False))
    else:
        ends = (("highest", "high", lever.high), ("lowest", "low", lever.low))
        rows += [(z, f"{name} {limit(lever, end)}", False, False) for name, end, z in ends if z is not None]
    rows += [(z, f"or {tape(lever, z)}", False, False) for z, _ in lever.others if abs(z - lever.z) > 1.0 / 256.0]
    rows.sort(key=lambda row: -row[0])
    if lever.field == "rise":
        rows.insert(0, (rows[0][0], FROM_MAIN, False, False))
    _draw_rows(painter, scale, rows, x if lever.station == 0.0 else None, size)


def draw_still(painter: QPainter, words: str, size: QSize) -> None:
    """At the left, where the heights else stand, why nobody can set this one."""
    painter.setFont(palette.lettering(SMALL))
    painter.setPen(QColor(theme.QUIET))
    area = QRectF(RULER + 6.0, 2.0, LEFT - GAUGE - RULER - 12.0, size.height() - 2.0 * ROW - 2.0)
    painter.drawText(area, Qt.AlignmentFlag.AlignLeft | Qt.AlignmentFlag.AlignVCenter | Qt.TextFlag.TextWordWrap, words)


def _draw_rows(
    painter: QPainter, scale: Scale, rows: list[tuple[float, str, bool, bool]], to: float | None, size: QSize
) -> None:
    """Words at the left, each as near to its height as the others let it be, with a hair line there."""
    first = min(scale.y(z) for z, *_ in rows) - ROW / 2.0
    middle = sum(scale.y(z) for z, *_ in rows) / len(rows)
    top = max(2.0, min(first, middle - ROW * len(rows) / 2.0))
    top = min(top, size.height() - 2.0 * ROW - ROW * len(rows))
    right = LEFT - GAUGE - 16.0
    for number, (z, text, bold, wrong) in enumerate(rows):
        row = top + ROW * number
        painter.setFont(palette.lettering(BOLD if bold else SMALL, bold=bold))
        painter.setPen(QColor(palette.BROKEN if wrong else theme.INK if bold else theme.QUIET))
        _written(painter, QRectF(RULER + 2.0, row, right - RULER - 2.0, ROW), text, Qt.AlignmentFlag.AlignRight)
        if to is not None:
            painter.setPen(QPen(QColor(theme.QUIET), 0.8))
            painter.drawLine(QLineF(right + 3.0, row + ROW / 2.0, to - 6.0, scale.y(z)))


def draw_ends(painter: QPainter, scale: Scale, section: LongSection) -> None:
    """What stands at the upper end, beside the section."""
    half = section.stands.od / 2.0 * scale.along if section.stands is not None else 0.0
    left = scale.x(section.length) + max(10.0, half + 8.0)
    painter.setFont(palette.lettering(BOLD, bold=True))
    painter.setPen(QColor(theme.INK))
    area = QRectF(left, 2.0, max(RIGHT - 16.0, 60.0), 3.0 * ROW)
    words, _, name = section.high_end.rpartition(" ")
    metrics = QFontMetricsF(painter.font())
    text = metrics.elidedText(words, Qt.TextElideMode.ElideRight, area.width())
    painter.drawText(area, Qt.AlignmentFlag.AlignLeft | Qt.AlignmentFlag.AlignTop, f"{text}\n{name}".strip())


def draw_readout(painter: QPainter, said: Sequence[str], size: QSize, wrong: bool) -> None:
    """Words along the foot of the strip, over the distances; on two lines where one is too short."""
    painter.setFont(palette.lettering(BOLD))
    metrics = QFontMetricsF(painter.font())
    most = size.width() - 20.0
    lines = [BETWEEN.join(said)]
    if len(said) > 1 and metrics.horizontalAdvance(lines[0]) > most:
        lines = [said[0] + BETWEEN + said[1], BETWEEN.join(said[2:])] if len(said) > 2 else list(said)
    height = LINE * len(lines)
    box = QRectF(3.0, size.height() - height - 3.0, size.width() - 6.0, height)
    painter.setPen(QPen(QColor(palette.BROKEN if wrong else theme.PINE), 1.2))
    painter.setBrush(QColor(theme.RAISED))
    painter.drawRoundedRect(box, 4.0, 4.0)
    painter.setPen(QColor(theme.INK))
    for number, line in enumerate(lines):
        row = QRectF(box.left() + 7.0, box.top() + LINE * number, most, LINE)
        text = metrics.elidedText(line, Qt.TextElideMode.ElideRight, most)
        painter.drawText(row, Qt.AlignmentFlag.AlignLeft | Qt.AlignmentFlag.AlignVCenter, text)


def draw_station(painter: QPainter, scale: Scale, station: float, z: float, top: float, bottom: float | None) -> None:
    """A plumb line through a place, from the joists' top to the axis and on to the joists' bottom."""
    x = scale.x(station)
    painter.setPen(QPen(QColor(palette.SNAP), 1.2))
    painter.drawLine(QLineF(x, scale.y(top), x, scale.y(z)))
    if bottom is not None:
        painter.drawLine(QLineF(x, scale.y(z), x, scale.y(bottom)))
        painter.drawLine(QLineF(x - 4.0, scale.y(bottom), x + 4.0, scale.y(bottom)))
    painter.drawLine(QLineF(x - 4.0, scale.y(top), x + 4.0, scale.y(top)))
    painter.setBrush(QColor(palette.SNAP))
    painter.drawEllipse(QPointF(x, scale.y(z)), 2.4, 2.4)


def _written(painter: QPainter, area: QRectF, text: str, align: Qt.AlignmentFlag) -> None:
    painter.drawText(area, align | Qt.AlignmentFlag.AlignVCenter | Qt.TextFlag.TextDontClip, text)
