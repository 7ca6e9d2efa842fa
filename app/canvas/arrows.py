"""Pointing without a mouse: with a drawing tool in hand the arrow keys carry the pointer, and Enter presses.

Enter where the pointer was moved to since the last press is a press; Enter once more at the same place ends what
is under way, as a double click does.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from PySide6.QtCore import QRectF, Qt
from PySide6.QtGui import QKeyEvent

from app.canvas.places import to_plan, to_scene
from app.tools import Pointer
from app.tools.keyboard import ARROWS
from engine.plan.records import Point

if TYPE_CHECKING:
    from app.canvas.view import PlanView

STEP, LONG_STEP = 1.0, 12.0
"""How far an arrow carries the pointer, alone and with Shift, inches."""

BY_HAND = ("choose", "pan")
"""Tools under which arrows mean something else."""


class ArrowPointer:
    """The pointer as the keyboard moves it; it starts where the mouse last was, else in the middle of the view."""

    def __init__(self, view: PlanView) -> None:
        self._view = view
        self._mouse: Point | None = None
        self._at: Point | None = None
        self._pressed: Point | None = None

    def mouse_at(self, at: Point) -> None:
        """The mouse moved: it has the pointer again."""
        self._mouse, self._at, self._pressed = at, None, None

    def take(self, event: QKeyEvent) -> bool:
        """Whether the key moved the pointer or pressed where it is."""
        if self._view.tool_name in BY_HAND:
            return False
        keys = event.modifiers() & ~Qt.KeyboardModifier.KeypadModifier
        if keys & ~Qt.KeyboardModifier.ShiftModifier:
            return False
        if event.key() in ARROWS:
            step = LONG_STEP if keys else STEP
            self._go(ARROWS[event.key()], step)
            return True
        if event.key() in (Qt.Key.Key_Return, Qt.Key.Key_Enter):
            return self._press()
        return False

    def _go(self, toward: tuple[float, float], step: float) -> None:
        x, y = self._at or self._mouse or self._middle()
        self._at = (x + toward[0] * step, y + toward[1] * step)
        place = to_scene(self._at)
        self._view.ensureVisible(QRectF(place.x(), place.y(), 0.0, 0.0), 40, 40)
        self._view.point_to(self._pointer(self._at))

    def _press(self) -> bool:
        if self._at is None or self._at == self._pressed:
            return False
        self._pressed = self._at
        pointer = self._pointer(self._at)
        self._view.tool.press(pointer)
        self._view.tool.release(pointer)
        return True

    def _pointer(self, at: Point) -> Pointer:
        return Pointer(at=at, pixel=self._view.mapFromScene(to_scene(at)))

    def _middle(self) -> Point:
        x, y = to_plan(self._view.mapToScene(self._view.viewport().rect().center()))
        return (float(round(x)), float(round(y)))
