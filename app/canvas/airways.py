"""The way of the air to the selected fixture's trap: its arm, the pipes that bring the air, and where they meet."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from PySide6.QtCore import Qt
from PySide6.QtGui import QPainterPath
from PySide6.QtWidgets import QGraphicsPathItem, QGraphicsScene

from app import palette
from app.canvas.picture import HEIGHT_OF, Seat, Tag, Turn, dot, shape
from app.canvas.places import to_scene
from engine.lengths import inches
from engine.piping.records import Pipe
from engine.plan.records import Point
from engine.study import Study
from engine.takeoff.vent_rows import VentRow, vent_row

WIDE, FAINT = 11.0, 80
"""How wide the band beside a pipe is drawn, pixels, and how strong, of 255."""
RING = 2.2
"""Radius of the mark where air meets the drain, inches."""
ASIDE = ((86.0, -26.0), (86.0, 26.0), (0.0, -34.0), (0.0, 34.0), (-86.0, -26.0), (-86.0, 26.0))
"""Where its words may stand off it, pixels east and north."""


class Airways:
    """The band along the selected trap's arm and along the way of its air; one fixture at a time."""

    def __init__(self, scene: QGraphicsScene) -> None:
        self._scene = scene
        self._items: list[QGraphicsPathItem] = []
        self._shown: tuple[object, ...] = ()
        self.tags: tuple[Tag, ...] = ()

    def show(self, study: Study | None, chosen: frozenset[str]) -> None:
        """Band the way of the one fixture that is chosen; nothing where none or several are."""
        row = vent_row(study.model, next(iter(chosen))) if study is not None and len(chosen) == 1 else None
        arm, air = _ways(study, row) if study is not None and row is not None else ((), ())
        shown = (row, arm, air)
        if shown == self._shown:
            return
        self.clear()
        self._shown = shown
        if row is None:
            return
        good = row.state == "vented"
        self._band(arm, palette.WASTE if good else palette.BROKEN)
        self._band(air, palette.VENT)
        mark = dot(row.at, RING, palette.VENT if good else palette.BROKEN, 2.0, palette.GROUND)
        self._put(mark, 1.0)
        self.tags = (_tag(row),)

    def clear(self) -> None:
        """Take the bands away."""
        for item in self._items:
            self._scene.removeItem(item)
        self._items, self._shown, self.tags = [], (), ()

    @property
    def shown(self) -> int:
        """How many marks are on the canvas."""
        return len(self._items)

    def _band(self, pipes: tuple[tuple[Point, Point], ...], colour: str) -> None:
        if not pipes:
            return
        path = QPainterPath()
        for start, end in pipes:
            path.moveTo(to_scene(start))
            path.lineTo(to_scene(end))
        pen = palette.pen(colour, WIDE, FAINT)
        pen.setCapStyle(Qt.PenCapStyle.RoundCap)
        self._put(shape(path, pen), 0.0)

    def _put(self, item: QGraphicsPathItem, over: float) -> None:
        item.setZValue(HEIGHT_OF["vents"] - 0.5 + over)
        item.setAcceptedMouseButtons(Qt.MouseButton.NoButton)
        self._scene.addItem(item)
        self._items.append(item)


def _ways(study: Study, row: VentRow) -> tuple[tuple[tuple[Point, Point], ...], tuple[tuple[Point, Point], ...]]:
    """The stretches in plan of a trap's arm, and of the pipes by which its air comes."""
    network = study.model.network
    trap = next(trap for trap in network.traps if trap.fixture == row.fixture)
    arm = tuple(_flat(network.by_id[pipe] for pipe in (*trap.arm, *trap.beyond)))
    if trap.way is None:
        return arm, ()
    way = network.ways[trap.way]
    wet = (network.by_id[pipe] for pipe in way.pipes)
    dry = (pipe for pipe in network.pipes if pipe.element == way.source and pipe.system == "vent")
    return arm, (*_flat(wet), *_flat(dry))


def _flat(pipes: Iterable[Pipe]) -> Iterator[tuple[Point, Point]]:
    for pipe in pipes:
        start, end = (pipe.start.x, pipe.start.y), (pipe.end.x, pipe.end.y)
        if start != end:
            yield start, end


def _tag(row: VentRow) -> Tag:
    """How far the vent is and may be, beside the place where the air meets the drain."""
    words: str = row.state
    if row.distance is not None:
        words = f"vent at {inches(row.distance)}" + ("" if row.limit is None else f" of {inches(row.limit)}") + " in"
    colour = palette.VENT if row.state == "vented" else palette.BROKEN
    beside = (Seat(row.at, 0.0, clear=RING, anchor=1), Seat(row.at, 90.0, clear=RING, anchor=1))
    seats = (*beside, *(Seat(row.at, off=off) for off in ASIDE), Seat(row.at, 0.0, clear=RING, anchor=-1))
    return Tag(words, seats, colour, bold=True, layer="heights", urgent=True, leads=60.0, turn=Turn.HEIGHT)
