"""The outline: everything in the plan in words, in step with the selection both ways."""

from __future__ import annotations

from typing import cast

from PySide6.QtCore import QModelIndex, QTimer, Signal
from PySide6.QtWidgets import QWidget

from app.document import Document
from app.panels.grouped import Group, GroupedTree, Row
from app.panels.pane import Pane, label
from engine.drafting.stubs import all_stubs
from engine.plan.outline import outline

LAG = 80
"""Milliseconds that the words may lag behind a plan which is only proposed, so that a drag stays light."""


class OutlinePane(Pane):
    """Lists the plan's things; `edit_wanted(id)` asks for the properties of the one that was entered."""

    edit_wanted = Signal(str)

    def __init__(self, document: Document, parent: QWidget | None = None) -> None:
        super().__init__("Outline", parent)
        self._document = document
        self._count = label(role="quiet")
        self.rim.addWidget(self._count)
        self.tree = GroupedTree("The plan's things in words", many=True)
        self.tree.chosen.connect(self._on_chosen)
        self.tree.activated.connect(self._on_activated)
        self.body.addWidget(self.tree)
        self._later = QTimer(self)
        self._later.setSingleShot(True)
        self._later.setInterval(LAG)
        self._later.timeout.connect(self._renew)
        document.plan_changed.connect(self._on_plan)
        document.selection_changed.connect(self._on_selection)
        self._renew()

    def home(self) -> QWidget:
        """The list."""
        return self.tree

    def _on_plan(self) -> None:
        if not self._document.proposing:
            self._renew()
        elif not self._later.isActive():
            self._later.start()

    def _renew(self) -> None:
        self._later.stop()
        document = self._document
        self.tree.renew(
            [
                Group(group.kind, f"{group.title} ({len(group.entries)})", None, tuple(Row(*e) for e in group.entries))
                for group in outline(document.plan, all_stubs(document.plan))
            ]
        )
        number = len(document.elements)
        self._count.setText("1 thing" if number == 1 else f"{number} things")
        self._on_selection(document.selection)

    def _on_selection(self, ids: frozenset[str]) -> None:
        if frozenset(self.tree.selected) != ids:
            self.tree.point_to(ids)

    def _on_chosen(self, keys: tuple[str, ...]) -> None:
        self._document.select(keys)

    def _on_activated(self, index: QModelIndex) -> None:
        row = self.tree.rows.row_at(index)
        if row is not None:
            self.edit_wanted.emit(cast("str", row.key))
