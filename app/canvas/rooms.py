"""The room that fixtures want about them: round what is selected, and wherever it is wanting."""

from __future__ import annotations

from PySide6.QtCore import Qt
from PySide6.QtGui import QBrush
from PySide6.QtWidgets import QGraphicsPathItem, QGraphicsScene

from app import palette
from app.canvas.picture import HEIGHT_OF, shape
from app.canvas.places import outline
from engine.drafting.bodies import body_of
from engine.drafting.room import Space, spaces
from engine.plan.records import Fixture, Plan
from engine.study import Study

WANTING = frozenset(
    {"too-little-room-beside", "too-little-room-before", "too-little-room-before-shower", "neighbours-too-close"}
)
"""Findings that tell of room that is wanting."""
DASHES = (4.0, 3.0)


class Rooms:
    """The outlines of rooms, hatched, under the fixtures; never hit."""

    def __init__(self, scene: QGraphicsScene) -> None:
        self._scene = scene
        self._items: list[QGraphicsPathItem] = []
        self._shown: tuple[object, ...] = ()
        self._visible = True

    @property
    def shown(self) -> int:
        """How many rooms are on the canvas."""
        return len(self._items)

    def show(self, plan: Plan, study: Study | None, chosen: frozenset[str]) -> None:
        """Show the rooms of the chosen fixtures, and of those whose room is wanting."""
        wanted: list[tuple[Space, bool]] = []
        if study is not None and self._visible:
            wanting = {found.elements[0] for found in study.findings if found.rule in WANTING}
            for fixture in plan.fixtures:
                if fixture.id in chosen or fixture.id in wanting:
                    wanted += ((space, fixture.id in wanting) for space in self._of(plan, study, fixture))
        if tuple(wanted) == self._shown:
            return
        self.clear()
        self._shown = tuple(wanted)
        for space, broken in wanted:
            self._put(space, broken)

    def hide(self, hidden: bool) -> None:
        """Leave the rooms out, or show them again with what is next studied or chosen."""
        self._visible = not hidden
        if hidden:
            self.clear()

    def clear(self) -> None:
        """Take every room away."""
        for item in self._items:
            self._scene.removeItem(item)
        self._items, self._shown = [], ()

    def _of(self, plan: Plan, study: Study, fixture: Fixture) -> tuple[Space, ...]:
        return spaces(study.model.book, fixture, body_of(fixture, plan.walls))

    def _put(self, space: Space, broken: bool) -> None:
        colour = palette.BROKEN if broken else palette.QUIET
        fill = QBrush(palette.shade(colour, 60), Qt.BrushStyle.BDiagPattern if broken else Qt.BrushStyle.Dense7Pattern)
        item = shape(outline(space.corners), palette.pen(colour, 1.0, 170, DASHES), fill)
        item.setZValue(HEIGHT_OF["room"])
        item.setAcceptedMouseButtons(Qt.MouseButton.NoButton)
        self._scene.addItem(item)
        self._items.append(item)
