"""The new-floor window: an empty floor by its measures, with its joists drawn as they will lie."""

from __future__ import annotations

from typing import cast, get_args

from PySide6.QtCore import QSize, Qt, Signal
from PySide6.QtWidgets import (
    QCheckBox,
    QComboBox,
    QDialog,
    QDialogButtonBox,
    QFormLayout,
    QHBoxLayout,
    QVBoxLayout,
    QWidget,
)

from app.dialogs.floor_sketch import FloorSketch
from app.panels.line import Line
from app.panels.pane import label
from engine.lengths import LengthError, parse
from engine.plan.edits import EditError, set_plan
from engine.plan.own_fittings import OwnFittings
from engine.plan.records import Plan
from engine.plan.start import Direction, Lumber, new_floor
from engine.plan.timber import Species
from engine.takeoff.gauge import taken_over

LUMBER = ("2x4", "2x6", "2x8", "2x10", "2x12")
MOST_LETTERS = 30
"""Of the maker's name, beside the box that takes the measures over."""

UNTOLD = "not told: spans not judged"
"""Stands first among the species."""

DIRECTIONS = ("north-south", "east-west")
MEASURES = (
    ("width", "Width, west to east", "10'-0\""),
    ("length", "Length, south to north", "20'-0\""),
    ("spacing", "Joist spacing", '16"'),
    ("subfloor", "Subfloor", '3/4"'),
    ("finish", "Finished flooring", '1/4"'),
)
"""The lengths asked for: name, words, what stands there at first."""


class NewFloorDialog(QDialog):
    """Asks for a floor's measures; `plan` is the floor that they make, None while they make none.

    What the person measured on fittings before is offered, and taken over only where it is ticked. `made(plan)`
    tells that the person begins with it.
    """

    made = Signal(object)

    def __init__(self, parent: QWidget | None = None, own: OwnFittings | None = None) -> None:
        super().__init__(parent)
        self.setAttribute(Qt.WidgetAttribute.WA_DeleteOnClose)
        self.setWindowTitle("New floor")
        self._own = own or OwnFittings()
        self.fittings = QCheckBox(_offer(self._own))
        self.fittings.setVisible(bool(self._own.takeoffs))
        self.plan: Plan | None = None
        self.name = Line("Name of the job")
        self.name.setPlaceholderText("Unnamed floor")
        self.lines = {name: Line(words) for name, words, _ in MEASURES}
        self.lumber = _box("Joist lumber", LUMBER, "2x10")
        self.species = _box("Species", (UNTOLD, *get_args(Species)), UNTOLD)
        self.direction = _box("Joists run", DIRECTIONS, DIRECTIONS[0])
        form = QFormLayout()
        form.setHorizontalSpacing(12)
        form.setVerticalSpacing(8)
        form.addRow("Name of the job", self.name)
        for name, words, first in MEASURES:
            line = self.lines[name]
            line.show_text(first)
            line.textChanged.connect(self._renew)
            form.addRow(words, line)
            if name == "length":
                form.addRow("Joist lumber", self.lumber)
                form.addRow("Its species", self.species)
            elif name == "spacing":
                form.addRow("Joists run", self.direction)
        for box in (self.lumber, self.species, self.direction):
            box.currentIndexChanged.connect(self._renew)

        self._fault = label(role="fault", wrap=True)
        self._fault.setMinimumHeight(self._fault.fontMetrics().height() * 2)
        self._fault.setAlignment(Qt.AlignmentFlag.AlignTop)
        self.sketch = FloorSketch()
        button = QDialogButtonBox.StandardButton
        self.buttons = QDialogButtonBox(button.Ok | button.Cancel)
        self.buttons.button(button.Ok).setText("Begin this floor")
        self.buttons.accepted.connect(self.accept)
        self.buttons.rejected.connect(self.reject)

        left = QVBoxLayout()
        left.addLayout(form)
        left.addWidget(label("Outside of the framing. Write 10ft, 10' 6\", 126 or 3.2m.", "quiet", wrap=True))
        left.addWidget(self.fittings)
        left.addWidget(self._fault)
        left.addStretch(1)
        both = QHBoxLayout()
        both.setSpacing(18)
        both.addLayout(left, 1)
        both.addWidget(self.sketch, 1)
        column = QVBoxLayout(self)
        column.setContentsMargins(16, 16, 16, 12)
        column.addLayout(both, 1)
        column.addWidget(self.buttons)
        self.resize(QSize(720, 460))
        self._renew()

    @property
    def fault(self) -> str:
        """Why what stands in the fields makes no floor; empty when it makes one."""
        return self._fault.text()

    def _renew(self) -> None:
        """Make the floor anew from what stands in the fields, or say what keeps it from being one."""
        self.plan = None
        fault = ""
        lengths: dict[str, float] = {}
        for name, words, _ in MEASURES:
            line = self.lines[name]
            try:
                lengths[name] = parse(line.text())
            except LengthError as refusal:
                fault = fault or f"{words}: {refusal}"
                line.mark_wrong(True)
            else:
                line.mark_wrong(False)
        if not fault:
            try:
                self.plan = _floor(
                    lengths, self.lumber.currentText(), self.direction.currentText(), self.species.currentText()
                )
            except EditError as refusal:
                fault = f"This floor cannot be: {refusal}."
        self._fault.setText(fault)
        self.buttons.button(QDialogButtonBox.StandardButton.Ok).setEnabled(self.plan is not None)
        self.sketch.show_plan(self.plan)

    def accept(self) -> None:
        """Give the floor its name and close."""
        if self.plan is not None:
            self.plan = set_plan(self.plan, name=self.name.text().strip())
            if self.fittings.isChecked():
                self.plan = taken_over(self.plan, self._own.takeoffs)
            self.made.emit(self.plan)
            super().accept()


def _floor(lengths: dict[str, float], lumber: str, direction: str, species: str) -> Plan:
    """The empty floor of these measures. Raises EditError where it can be none."""
    return new_floor(
        lengths["width"],
        lengths["length"],
        lumber=cast(Lumber, lumber),
        spacing=lengths["spacing"],
        direction=cast(Direction, direction),
        subfloor=lengths["subfloor"],
        finish=lengths["finish"],
        species=None if species == UNTOLD else cast(Species, species),
    )


def _offer(own: OwnFittings) -> str:
    """What is offered from the person's own file."""
    whose = f" on {own.maker[:MOST_LETTERS]}{'…' if len(own.maker) > MOST_LETTERS else ''}" if own.maker else ""
    return f"Start with {len(own.takeoffs)} &measured take-offs{whose.replace('&', '&&')}"


def _box(name: str, choices: tuple[str, ...], first: str) -> QComboBox:
    box = QComboBox()
    box.setAccessibleName(name)
    box.addItems(choices)
    box.setCurrentText(first)
    return box
