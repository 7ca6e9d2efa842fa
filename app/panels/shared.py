"""A value that a thing shares with the plan until it is given one of its own, with a box that tells which."""

from __future__ import annotations

from typing import Any

from PySide6.QtWidgets import QCheckBox, QWidget

from app.panels.editors import Editor, WrittenEditor
from app.panels.writing import Writing


class SharedEditor(Editor):
    """A written value and a box ticked while it is the plan's: untick it to pin what holds, tick it to share again."""

    def __init__(self, name: str, writing: Writing, parent: QWidget | None = None) -> None:
        super().__init__(name, parent)
        self._writing = writing
        self._plans: Any = None
        self.written = WrittenEditor(name, writing, optional=True)
        self.written.entered.connect(self.entered)
        self.line = self.written.line
        self.box = QCheckBox("shared with the plan")
        self.box.setAccessibleName(f"{name} is shared with the plan")
        self.box.clicked.connect(self._on_clicked)
        self.setFocusProxy(self.line)
        self._column.addWidget(self.written)
        self._column.addWidget(self.box)
        self._column.addWidget(self._fault)

    def share(self, plans: Any) -> None:
        """Tell what the plan has, which holds while nothing is pinned here."""
        self._plans = plans

    def show_value(self, value: Any, unset: str) -> None:
        """Show the pinned value, or the plan's in its place with the box ticked."""
        super().show_value(value, unset)
        self.written.show_value(value, unset)
        self.box.setChecked(value is None)
        plans = f"{self._writing.say(self._plans)} {self._writing.unit}" if self._plans is not None else ""
        self.box.setToolTip(
            f"The plan's {plans}, and what it is changed to. Untick it to keep {plans} here whatever the plan says."
            if value is None
            else f"This run's own. Tick it to take the plan's, {plans}."
        )

    def complain(self, reason: str) -> None:
        """Say it under the field."""
        self.written.complain(reason)

    @property
    def complaint(self) -> str:
        """What is being complained of; empty when nothing."""
        return self.written.complaint

    def _on_clicked(self, shared: bool) -> None:
        self.entered.emit(None if shared else self._plans)
