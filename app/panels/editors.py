"""The fields of the properties pane: each shows one value, says what holds where it is empty, and reads it back.

An editor tells `entered(value)` only when the person changed something and it could be read; what can't be
read stays as typed, with the reason under it.
"""

from __future__ import annotations

from typing import Any

from PySide6.QtCore import Qt, Signal
from PySide6.QtGui import QWheelEvent
from PySide6.QtWidgets import QCheckBox, QComboBox, QHBoxLayout, QVBoxLayout, QWidget

from app.panels.line import Line
from app.panels.pane import label
from app.panels.reason import Reason
from app.panels.writing import LENGTH, Writing, say_place
from engine.plan.grid import spot
from engine.plan.records import Point

MOST_SPOTS = 24
"""Points of a run that are shown as fields; a longer run is edited on the canvas."""


SIDES = {"north": 90.0, "east": 0.0, "south": 270.0, "west": 180.0}
"""The four sides, by their headings in degrees counter-clockwise from east."""

ASLANT = "aslant, by degrees"


class Editor(QWidget):
    """What every editor does."""

    entered = Signal(object)

    def __init__(self, name: str, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.setAccessibleName(name)
        self._column = QVBoxLayout(self)
        self._column.setContentsMargins(0, 0, 0, 0)
        self._column.setSpacing(1)
        self._fault = Reason()
        self._fault.setAccessibleName(f"What is wrong with {name}")
        self._fault.hide()

    def show_value(self, value: Any, unset: str) -> None:
        """Show the plan's value; `unset` says what holds where it is None. What was complained of is settled."""
        self.complain("")

    def complain(self, reason: str) -> None:
        """Say under the field why what was entered can't stand; an empty reason takes it back."""
        self._fault.setText(reason)
        self._fault.setVisible(bool(reason))

    @property
    def complaint(self) -> str:
        """What is being complained of; empty when nothing."""
        return "" if self._fault.isHidden() else self._fault.text()


class WrittenEditor(Editor):
    """A value written as text: a length, a number, words."""

    def __init__(self, name: str, writing: Writing, optional: bool, parent: QWidget | None = None) -> None:
        super().__init__(name, parent)
        self._writing, self._optional = writing, optional
        self.element = ""
        """Whose field it is, by its id."""
        self.line = Line(name)
        self.line.done.connect(self._on_done)
        self.setFocusProxy(self.line)
        row = QHBoxLayout()
        row.setSpacing(6)
        row.addWidget(self.line, 1)
        if writing.unit:
            row.addWidget(label(writing.unit, "quiet"))
        self._column.addLayout(row)
        self._column.addWidget(self._fault)

    def show_value(self, value: Any, unset: str) -> None:
        """The value as it is written, or an empty field with what holds instead."""
        super().show_value(value, unset)
        self.line.setPlaceholderText(unset)
        self.line.setToolTip(unset if value is None else "")
        self.line.show_text("" if value is None else self._writing.say(value))

    def begin(self, part: str) -> None:
        """Begin a part of a list of numbered ones, in place of the part of that number; the cursor waits behind it."""
        number = part.split()[0]
        others = [one.strip() for one in self.line.text().split(";")]
        kept = [one for one in others if one and one.split()[0] != number]
        self.line.setText("; ".join([*kept, part]))
        self.line.setCursorPosition(len(self.line.text()))

    def complain(self, reason: str) -> None:
        """Frame the field too."""
        super().complain(reason)
        self.line.mark_wrong(bool(reason))

    def _on_done(self) -> None:
        if self.line.untouched:
            self.complain("")
            return
        text = self.line.text().strip()
        if not text and self._optional:
            self.entered.emit(None)
            return
        try:
            value = self._writing.read_of(text, self.element)
        except ValueError as fault:
            self.complain(str(fault))
            return
        self.entered.emit(value)


class ChosenEditor(Editor):
    """One of several values by their words; the first line of an optional one says what holds unset."""

    def __init__(
        self, name: str, choices: tuple[tuple[str, str], ...], optional: bool, parent: QWidget | None = None
    ) -> None:
        super().__init__(name, parent)
        self._optional = optional
        self.box = _StillBox()
        self.box.setAccessibleName(name)
        if optional:
            self.box.addItem("", None)
        for value, words in choices:
            self.box.addItem(words, value)
        self.box.activated.connect(self._on_activated)
        self.setFocusProxy(self.box)
        self._column.addWidget(self.box)
        self._column.addWidget(self._fault)
        self._value: Any = None

    def show_value(self, value: Any, unset: str) -> None:
        """Choose the value's line."""
        super().show_value(value, unset)
        self._value = value
        if self._optional:
            self.box.setItemText(0, unset)
        self.box.setCurrentIndex(max(0, self.box.findData(value)))
        self.box.setToolTip(self.box.currentText())

    def _on_activated(self) -> None:
        value = self.box.currentData()
        if value != self._value:
            self.entered.emit(value)


class HeadingEditor(Editor):
    """Which way something looks: one of the four sides by name, or any heading in degrees counted from east."""

    def __init__(self, name: str, writing: Writing, parent: QWidget | None = None) -> None:
        super().__init__(name, parent)
        self._writing = writing
        self._value = 0.0
        self.box = _StillBox()
        self.box.setAccessibleName(name)
        for words, degrees in SIDES.items():
            self.box.addItem(words, degrees)
        self.box.addItem(ASLANT, None)
        self.box.activated.connect(self._on_activated)
        self.line = Line(f"{name}, degrees from east")
        self.line.done.connect(self._on_done)
        self.setFocusProxy(self.box)
        row = QHBoxLayout()
        row.setSpacing(6)
        row.addWidget(self.box, 3)
        row.addWidget(self.line, 2)
        row.addWidget(label(writing.unit, "quiet"))
        self._column.addLayout(row)
        self._column.addWidget(self._fault)

    def show_value(self, value: Any, unset: str) -> None:
        """Choose the side's line, or none of the four, and show the degrees."""
        super().show_value(value, unset)
        self._value = value % 360.0
        number = self.box.findData(self._value)
        self.box.setCurrentIndex(number if number >= 0 else self.box.count() - 1)
        self.line.show_text(self._writing.say(self._value))

    def complain(self, reason: str) -> None:
        """Frame the field too."""
        super().complain(reason)
        self.line.mark_wrong(bool(reason))

    def _on_activated(self) -> None:
        degrees = self.box.currentData()
        if degrees is None:
            self.line.setFocus(Qt.FocusReason.TabFocusReason)
        elif degrees != self._value:
            self.entered.emit(degrees)

    def _on_done(self) -> None:
        if self.line.untouched:
            self.complain("")
            return
        try:
            self.entered.emit(self._writing.read(self.line.text()))
        except ValueError as fault:
            self.complain(str(fault))


class TickedEditor(Editor):
    """Yes or no."""

    def __init__(self, name: str, parent: QWidget | None = None) -> None:
        super().__init__(name, parent)
        self.box = QCheckBox(name)
        self.box.clicked.connect(self._on_clicked)
        self.setFocusProxy(self.box)
        self._column.addWidget(self.box)
        self._column.addWidget(self._fault)

    def show_value(self, value: Any, unset: str) -> None:
        """Tick it or not."""
        super().show_value(value, unset)
        self.box.setChecked(bool(value))

    def _on_clicked(self, ticked: bool) -> None:
        self.entered.emit(ticked)


class PairEditor(Editor):
    """Two lengths side by side: a plan point (east and north), or the two measures of a rectangle."""

    def __init__(
        self, name: str, names: tuple[str, str], on_grid: bool, optional: bool = False, parent: QWidget | None = None
    ) -> None:
        super().__init__(name, parent)
        self._on_grid, self._optional = on_grid, optional
        self._value: Point | None = None
        self.lines = tuple(Line(f"{name}, {part}") for part in names)
        self._parts = tuple(label(part[:1].upper() if on_grid else part, "quiet") for part in names)
        row = QHBoxLayout()
        row.setSpacing(4)
        for line, part in zip(self.lines, self._parts, strict=True):
            line.done.connect(self._on_done)
            row.addWidget(part)
            row.addWidget(line, 1)
        self.setFocusProxy(self.lines[0])
        self._column.addLayout(row)
        self._column.addWidget(self._fault)

    def call(self, names: tuple[str, str]) -> None:
        """Call the two lengths anew."""
        for line, part, name in zip(self.lines, self._parts, names, strict=True):
            line.setAccessibleName(f"{self.accessibleName()}, {name}")
            part.setText(name)

    def show_value(self, value: Any, unset: str) -> None:
        """Both lengths, or two empty fields with what holds instead."""
        super().show_value(value, unset)
        self._value = value
        for number, line in enumerate(self.lines):
            line.setPlaceholderText(unset)
            line.setToolTip(unset if value is None else LENGTH.say(value[number]))
            line.show_text("" if value is None else say_place(value[number]))

    def _on_done(self) -> None:
        if all(line.untouched for line in self.lines):
            self.complain("")
            return
        texts = [line.text().strip() for line in self.lines]
        if self._optional and not any(texts):
            self.entered.emit(None)
            return
        if self._optional and not all(texts) and any(line.hasFocus() for line in self.lines):
            return
        read = []
        for number, (line, text) in enumerate(zip(self.lines, texts, strict=True)):
            if line.untouched and self._value is not None:
                read.append(self._value[number])
                continue
            try:
                read.append(LENGTH.read(text))
            except ValueError as fault:
                line.mark_wrong(True)
                self.complain(str(fault))
                return
            line.mark_wrong(False)
        self.entered.emit(spot(*read) if self._on_grid else tuple(read))


class PathEditor(Editor):
    """The points of a run, one pair of fields each."""

    def __init__(self, name: str, parent: QWidget | None = None) -> None:
        super().__init__(name, parent)
        self._name = name
        self._points: tuple[Point, ...] = ()
        self.spots: list[PairEditor] = []
        self._more = label(role="quiet", wrap=True)
        self._column.addWidget(self._more)
        self._column.addWidget(self._fault)

    def show_value(self, value: Any, unset: str) -> None:
        """The run's points; past a number of them only how many more there are."""
        super().show_value(value, unset)
        self._points = value
        shown = min(len(value), MOST_SPOTS)
        while len(self.spots) > shown:
            self.spots.pop().deleteLater()
        while len(self.spots) < shown:
            editor = PairEditor(f"{self._name} {len(self.spots) + 1}", ("east", "north"), on_grid=True)
            editor.setProperty("number", len(self.spots))
            editor.entered.connect(self._on_entered)
            self._column.insertWidget(len(self.spots), editor)
            self.spots.append(editor)
        for editor, point in zip(self.spots, value, strict=False):
            editor.show_value(point, "")
        self._more.setText(f"and {len(value) - shown} more, to be moved on the canvas" if len(value) > shown else "")
        self._more.setVisible(len(value) > shown)

    def _on_entered(self, point: Point) -> None:
        number = self.sender().property("number")
        self.entered.emit((*self._points[:number], point, *self._points[number + 1 :]))


POPUP_RIM = 28
"""What a list's frame and scroll bar take beside its lines, pixels."""


class _StillBox(QComboBox):
    """A choice that the mouse wheel leaves alone while the pane is scrolled past it."""

    def __init__(self) -> None:
        super().__init__()
        self.setFocusPolicy(Qt.FocusPolicy.StrongFocus)
        self.setSizeAdjustPolicy(QComboBox.SizeAdjustPolicy.AdjustToMinimumContentsLengthWithIcon)
        self.setMinimumContentsLength(6)

    def showPopup(self) -> None:
        """Open the list wide enough for its longest line."""
        view = self.view()
        rim = view.width() - view.viewport().width() if view.isVisible() else POPUP_RIM
        view.setMinimumWidth(max(self.width(), view.sizeHintForColumn(0) + rim))
        super().showPopup()

    def wheelEvent(self, event: QWheelEvent) -> None:
        """Only a box that has the keyboard turns."""
        if self.hasFocus():
            super().wheelEvent(event)
        else:
            event.ignore()
