"""The plan's local amendments: found by plain words, typed, said by whom and when, and taken back."""

from __future__ import annotations

from PySide6.QtCore import Qt
from PySide6.QtWidgets import QSplitter, QVBoxLayout, QWidget

from app.dialogs.plan_rows import amendment_columns, amendment_rows
from app.dialogs.rows import RowsTable
from app.dialogs.value_finder import ValueFinder
from engine.plan.records import Plan
from engine.rulebooks import RuleBook

ABOUT = (
    "What your place has changed in the rule book: find the value, write what it becomes, who said so and when. Every sheet "
    "says how many there are; the first sheets print each in full."
)
_BECOMES = 1


class AmendmentsPage(QWidget):
    """A finder over the rows of what is amended."""

    def __init__(self, plan: Plan, book: RuleBook, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.finder = ValueFinder()
        self.finder.wanted.connect(self._amend)
        self.rows = RowsTable("Local amendments", ABOUT, amendment_columns(book))
        parts = QSplitter(Qt.Orientation.Vertical)
        parts.setChildrenCollapsible(False)
        parts.addWidget(self.finder)
        parts.addWidget(self.rows)
        parts.setSizes([250, 250])
        whole = QVBoxLayout(self)
        whole.addWidget(parts)
        self.finder.show_book(book)
        self.rows.show_rows(amendment_rows(plan))

    def show_book(self, book: RuleBook) -> None:
        """Tell the rows, and look for values, by another book."""
        self.finder.show_book(book)
        self.rows.tell_by(amendment_columns(book))

    def _amend(self, key: str) -> None:
        """A row for a value, or the one that it has already; what it becomes is typed next."""
        rows = [cells[0] for cells in self.rows.rows()]
        if key not in rows:
            self.rows.add_row(first=key)
            rows.append(key)
        self.rows.type_into(rows.index(key), _BECOMES)
