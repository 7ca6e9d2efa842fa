"""What a drain, riser, vent or fixture carries, and why its pipes are as large as they are; read, not edited."""

from __future__ import annotations

from typing import TYPE_CHECKING

from PySide6.QtCore import Qt
from PySide6.QtWidgets import QVBoxLayout, QWidget

from app.panels.pane import label
from engine.plan.records import Drain, Element, Fixture, Riser, Vent
from engine.takeoff.size_rows import SizeRow, drain_rows, unit_rows, vent_size_rows

if TYPE_CHECKING:
    from engine.study import Study

TITLE = "Load and size"


class SizesBox(QWidget):
    """The stretches of one thing's pipes, each with its load, what its size may carry, and what sets the least size."""

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.setAccessibleName(TITLE)
        self._title = label(TITLE, "pane-title")
        self._told = label(wrap=True)
        self._told.setTextInteractionFlags(
            Qt.TextInteractionFlag.TextSelectableByMouse | Qt.TextInteractionFlag.TextSelectableByKeyboard
        )
        self._told.setAccessibleName(TITLE)
        column = QVBoxLayout(self)
        column.setContentsMargins(0, 8, 0, 0)
        column.setSpacing(2)
        column.addWidget(self._title)
        column.addWidget(self._told)
        self.setVisible(False)

    @property
    def told(self) -> str:
        """What it says; empty where there is nothing to say."""
        return self._told.text()

    def tell(self, element: Element, study: Study | None) -> None:
        """Say it of a selected thing, or hide where it has no drain and no vent."""
        words = size_story(element, study)
        self._told.setText(words)
        self.setVisible(bool(words))


def size_story(element: Element, study: Study | None) -> str:
    """A thing's loads and sizes, a paragraph for each stretch that differs; empty for what carries nothing."""
    if study is None or not isinstance(element, Drain | Riser | Vent | Fixture):
        return ""
    model = study.model
    parts = []
    if isinstance(element, Fixture):
        own = next((row for row in unit_rows(model) if row.fixture == element.id), None)
        if own is None:
            return ""
        units = "no fixture units that the book knows of" if own.units is None else f"{own.units:g} fixture units"
        counts = f" ({own.note})" if own.note else ""
        parts.append(f"Gives {units}{counts}. {own.section}{f', {own.known}' if own.known else ''}".rstrip(". ") + ".")
    parts += [_paragraph(row) for row in (*drain_rows(model, element.id), *vent_size_rows(model, element.id))]
    return "\n\n".join(parts)


def _paragraph(row: SizeRow) -> str:
    chosen = "drawn" if row.drawn else "chosen by the program"
    lines = [f"{row.size} in {row.kind}, {chosen}."]
    if row.fixtures:
        does = "Serves" if row.system == "vent" else "Carries"
        lines.append(f"{does} {row.fixtures}: {row.told}.")
    if row.most is not None:
        lines.append(f"May {'serve' if row.system == 'vent' else 'carry'} {row.most:g} ({row.section}).")
    if row.others:
        lines.append(f"{row.others[:1].upper()}{row.others[1:]}.")
    lines.append(f"The least is {row.least} in: {row.why}.")
    return "\n".join(lines)
