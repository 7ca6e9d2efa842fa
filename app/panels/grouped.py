"""A tree of groups over rows, some of which open into rows of their own, that keeps its place when it is renewed.

Findings come anew with every study and the outline with every edit, many times a second during a drag: so
the model holds plain tuples, and nothing is built per row.
"""

from __future__ import annotations

from collections.abc import Hashable, Iterable, Iterator, Sequence
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
from PySide6.QtWidgets import (
    QAbstractItemView,
    QStyle,
    QStyledItemDelegate,
    QStyleOptionViewItem,
    QTreeView,
    QWidget,
)

from app.panels.eliding import Apart, elided

Index = QModelIndex | QPersistentModelIndex
SPARE = 4
"""Pixels that the style may take more for a row's margins than it says."""

OUTER = 1 << 24
"""More groups than there ever are: where an outer row's number begins in an internal id."""

_NOWHERE = QModelIndex()


class Row(NamedTuple):
    """One line: what it stands for, its words, what a pointer resting on it is told, and the rows that it opens into.

    `apart` is the stretch of its words that tells it from its neighbours: it is never shortened away.
    """

    key: Hashable
    text: str
    tip: str = ""
    rows: tuple[Row, ...] = ()
    apart: Apart = (0, 0)


class Group(NamedTuple):
    """A heading with its picture and rows; `name` stays while the title's count changes."""

    name: str
    title: str
    icon: QIcon | None
    rows: tuple[Row, ...]


class GroupedModel(QAbstractItemModel):
    """Groups and their rows.

    A group's internal id is 0, a row's is its group's number plus one; that of a row within a row has the outer row's
    number plus one above `OUTER` besides.
    """

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
        outer, group = divmod(number, OUTER)
        rows = self.groups[group - 1].rows
        return rows[outer - 1].rows[index.row()] if outer else rows[index.row()]

    def heading(self, group: int) -> QModelIndex:
        """The index of a group's heading."""
        return self.createIndex(group, 0, 0)

    def openable(self) -> Iterator[tuple[QModelIndex, Row]]:
        """The rows that open into rows of their own, with their places."""
        for which, group in enumerate(self.groups, 1):
            for number, row in enumerate(group.rows):
                if row.rows:
                    yield self.createIndex(number, 0, which), row

    def places(self, keys: Iterable[Hashable]) -> list[QModelIndex]:
        """The indexes of the rows that stand for these keys."""
        wanted = frozenset(keys)
        found: list[QModelIndex] = []
        for which, group in enumerate(self.groups if wanted else (), 1):
            for number, row in enumerate(group.rows):
                if row.key in wanted:
                    found.append(self.createIndex(number, 0, which))
                outer = which + (number + 1) * OUTER
                found += [self.createIndex(k, 0, outer) for k, one in enumerate(row.rows) if one.key in wanted]
        return found

    def index(self, row: int, column: int, parent: Index = _NOWHERE) -> QModelIndex:
        """Qt's way to a child."""
        if not self.hasIndex(row, column, parent):
            return QModelIndex()
        if not parent.isValid():
            return self.createIndex(row, column, 0)
        group = parent.internalId()
        number = parent.row() + 1 if group == 0 else group + (parent.row() + 1) * OUTER
        return self.createIndex(row, column, number)

    def parent(self, index: Index = _NOWHERE) -> QModelIndex:  # type: ignore[override]
        """Qt's way to a heading, or to the row that a row lies in."""
        number = index.internalId() if index.isValid() else 0
        if number == 0:
            return QModelIndex()
        outer, group = divmod(number, OUTER)
        return self.createIndex(outer - 1, 0, group) if outer else self.createIndex(group - 1, 0, 0)

    def rowCount(self, parent: Index = _NOWHERE) -> int:
        """Groups at the top, rows under a heading, and under a row what it opens into."""
        if not parent.isValid():
            return len(self.groups)
        row = self.row_at(parent)
        return len(self.groups[parent.row()].rows if row is None else row.rows)

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


class _FittedLine(QStyledItemDelegate):
    """Shortens a row's words where they say what its neighbours say too."""

    def initStyleOption(self, option: QStyleOptionViewItem, index: Index) -> None:
        """The words that fit."""
        super().initStyleOption(option, index)
        model = index.model()
        row = model.row_at(index) if isinstance(model, GroupedModel) else None
        if row is None:
            return
        style, widget = option.widget.style(), option.widget
        margin = style.pixelMetric(QStyle.PixelMetric.PM_FocusFrameHMargin, option, widget) + 1
        room = style.subElementRect(QStyle.SubElement.SE_ItemViewItemText, option, widget).width() - 2 * margin - SPARE
        option.text = elided(row.text, row.apart, room, option.fontMetrics.horizontalAdvance)


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
        self.setItemDelegate(_FittedLine(self))
        self._folded: set[str] = set()
        self._opened: set[Hashable] = set()
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
            for place, row in self.rows.openable():
                self.setExpanded(place, row.key in self._opened)
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
                    self._open_to(places[0])
                    self.scrollTo(places[0])
        finally:
            self._quiet = False

    def _open_to(self, place: QModelIndex) -> None:
        """Open the row that a row lies in, and remember it as open."""
        outer = self.rows.row_at(place.parent())
        if outer is not None:
            self.expand(place.parent())
            self._opened.add(outer.key)

    def _on_selected(self) -> None:
        if not self._quiet:
            self.chosen.emit(self.selected)

    def _on_folded(self, index: QModelIndex) -> None:
        if not self._quiet:
            row = self.rows.row_at(index)
            if row is None:
                self._folded.add(self.rows.groups[index.row()].name)
            else:
                self._opened.discard(row.key)

    def _on_unfolded(self, index: QModelIndex) -> None:
        if not self._quiet:
            row = self.rows.row_at(index)
            if row is None:
                self._folded.discard(self.rows.groups[index.row()].name)
            else:
                self._opened.add(row.key)


def _order(index: QModelIndex) -> tuple[int, int, int]:
    outer, group = divmod(index.internalId(), OUTER)
    return (group, outer - 1, index.row()) if outer else (group, index.row(), -1)
