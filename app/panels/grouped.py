"""A tree two levels deep, groups over rows, that keeps its place when what it shows is renewed.

Findings come anew with every study and the outline with every edit, many times a second during a drag: so
the model holds plain tuples, and nothing is built per row.
"""

from __future__ import annotations

from collections.abc import Hashable, Iterable, Sequence
from typing import Any, NamedTuple

from PySide6.QtCore import (
    QAbstractItemModel,
    QItemSelection,
    QItemSelectionModel,
    QModelIndex,
    QPersistentModelIndex,
    Qt,
    Signal,
)
from PySide6.QtGui import QFont, QIcon
from PySide6.QtWidgets import QAbstractItemView, QTreeView, QWidget

Index = QModelIndex | QPersistentModelIndex
_NOWHERE = QModelIndex()


class Row(NamedTuple):
    """One line: what it stands for, its words, and what a pointer resting on it is told."""

    key: Hashable
    text: str
    tip: str = ""


class Group(NamedTuple):
    """A heading with its picture and rows; `name` stays while the title's count changes."""

    name: str
    title: str
    icon: QIcon | None
    rows: tuple[Row, ...]


class GroupedModel(QAbstractItemModel):
    """Groups and their rows. A row's internal id is its group's number plus one; a group's is 0."""

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.groups: tuple[Group, ...] = ()
        self._heading = QFont()
        self._heading.setWeight(QFont.Weight.DemiBold)

    def renew(self, groups: Sequence[Group]) -> None:
        """Show these groups instead."""
        self.beginResetModel()
        self.groups = tuple(groups)
        self.endResetModel()

    def row_at(self, index: Index) -> Row | None:
        """The row at an index; None for a heading."""
        number = index.internalId()
        if not index.isValid() or number == 0:
            return None
        return self.groups[number - 1].rows[index.row()]

    def heading(self, group: int) -> QModelIndex:
        """The index of a group's heading."""
        return self.createIndex(group, 0, 0)

    def places(self, keys: Iterable[Hashable]) -> list[QModelIndex]:
        """The indexes of the rows that stand for these keys."""
        wanted = frozenset(keys)
        if not wanted:
            return []
        return [
            self.createIndex(number, 0, which + 1)
            for which, group in enumerate(self.groups)
            for number, row in enumerate(group.rows)
            if row.key in wanted
        ]

    def index(self, row: int, column: int, parent: Index = _NOWHERE) -> QModelIndex:
        """Qt's way to a child."""
        if not self.hasIndex(row, column, parent):
            return QModelIndex()
        return self.createIndex(row, column, parent.row() + 1 if parent.isValid() else 0)

    def parent(self, index: Index = _NOWHERE) -> QModelIndex:  # type: ignore[override]
        """Qt's way to a heading."""
        number = index.internalId() if index.isValid() else 0
        return self.createIndex(number - 1, 0, 0) if number else QModelIndex()

    def rowCount(self, parent: Index = _NOWHERE) -> int:
        """Groups at the top, rows under a heading, nothing under a row."""
        if not parent.isValid():
            return len(self.groups)
        return len(self.groups[parent.row()].rows) if parent.internalId() == 0 else 0

    def columnCount(self, parent: Index = _NOWHERE) -> int:
        """One column: the words."""
        return 1

    def flags(self, index: Index) -> Qt.ItemFlag:
        """Rows can be selected, headings only folded."""
        if index.isValid() and index.internalId() == 0:
            return Qt.ItemFlag.ItemIsEnabled
        return super().flags(index)

    def data(self, index: Index, role: int = Qt.ItemDataRole.DisplayRole) -> Any:
        """Words, tips, pictures of headings and their heavier letters."""
        row = self.row_at(index)
        if row is None:
            group = self.groups[index.row()]
            if role in (Qt.ItemDataRole.DisplayRole, Qt.ItemDataRole.AccessibleTextRole):
                return group.title
            if role == Qt.ItemDataRole.DecorationRole:
                return group.icon
            return self._heading if role == Qt.ItemDataRole.FontRole else None
        if role in (Qt.ItemDataRole.DisplayRole, Qt.ItemDataRole.AccessibleTextRole):
            return row.text
        return (row.tip or row.text) if role == Qt.ItemDataRole.ToolTipRole else None


class GroupedTree(QTreeView):
    """Shows groups; `chosen(keys)` tells what the person selected, never what the program did."""

    chosen = Signal(object)

    def __init__(self, name: str, many: bool, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.setAccessibleName(name)
        self.rows = GroupedModel(self)
        self.setModel(self.rows)
        self.setHeaderHidden(True)
        self.setUniformRowHeights(True)
        self.setIndentation(14)
        self.setEditTriggers(QAbstractItemView.EditTrigger.NoEditTriggers)
        mode = QAbstractItemView.SelectionMode
        self.setSelectionMode(mode.ExtendedSelection if many else mode.SingleSelection)
        self._folded: set[str] = set()
        self._quiet = False
        self.selectionModel().selectionChanged.connect(self._on_selected)
        self.collapsed.connect(self._on_folded)
        self.expanded.connect(self._on_unfolded)

    @property
    def selected(self) -> tuple[Hashable, ...]:
        """The keys of the selected rows, top to bottom."""
        rows = (self.rows.row_at(index) for index in sorted(self.selectedIndexes(), key=_order))
        return tuple(row.key for row in rows if row is not None)

    def renew(self, groups: Sequence[Group]) -> None:
        """Show these groups instead; what was selected, folded and scrolled to stays so where it still exists."""
        if tuple(groups) == self.rows.groups:
            return
        chosen, height = self.selected, self.verticalScrollBar().value()
        self._quiet = True
        try:
            self.rows.renew(groups)
            for number, group in enumerate(self.rows.groups):
                self.setExpanded(self.rows.heading(number), group.name not in self._folded)
        finally:
            self._quiet = False
        self.point_to(chosen, reveal=False)
        self.verticalScrollBar().setValue(height)

    def point_to(self, keys: Iterable[Hashable], reveal: bool = True) -> None:
        """Select the rows of these keys, and only those, without telling anyone."""
        places = self.rows.places(keys)
        self._quiet = True
        try:
            chooser, picked = self.selectionModel(), QItemSelection()
            for place in places:
                picked.select(place, place)
            chooser.select(picked, QItemSelectionModel.SelectionFlag.ClearAndSelect)
            if places:
                chooser.setCurrentIndex(places[0], QItemSelectionModel.SelectionFlag.NoUpdate)
                if reveal:
                    self.scrollTo(places[0])
        finally:
            self._quiet = False

    def _on_selected(self) -> None:
        if not self._quiet:
            self.chosen.emit(self.selected)

    def _on_folded(self, index: QModelIndex) -> None:
        if not self._quiet:
            self._folded.add(self.rows.groups[index.row()].name)

    def _on_unfolded(self, index: QModelIndex) -> None:
        if not self._quiet:
            self._folded.discard(self.rows.groups[index.row()].name)


def _order(index: QModelIndex) -> tuple[int, int]:
    return (index.internalId(), index.row())
