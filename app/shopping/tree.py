"""The list as a tree: a branch for each place in the store, a line for each thing, with its box to tick."""

from __future__ import annotations

from PySide6.QtCore import QModelIndex, QPersistentModelIndex, Qt, Signal
from PySide6.QtGui import QFont
from PySide6.QtWidgets import (
    QAbstractItemView,
    QHeaderView,
    QStyledItemDelegate,
    QStyleOptionViewItem,
    QTreeWidget,
    QTreeWidgetItem,
    QWidget,
)

from engine.takeoff.records import Trip, TripLine

HEADS = ("What", "Size", "Buy", "Need", "Spare", "Have")
HAVE = 5
_KEY = Qt.ItemDataRole.UserRole
_NONE = "–"


class TripTree(QTreeWidget):
    """Shows a trip. `there_changed(line, count)` tells how many of a line's things are there now."""

    there_changed = Signal(object, int)

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.setAccessibleName("Things to buy")
        self.setColumnCount(len(HEADS))
        self.setHeaderLabels(HEADS)
        self.setUniformRowHeights(True)
        self.setSelectionMode(QAbstractItemView.SelectionMode.SingleSelection)
        self.setEditTriggers(
            QAbstractItemView.EditTrigger.DoubleClicked
            | QAbstractItemView.EditTrigger.EditKeyPressed
            | QAbstractItemView.EditTrigger.AnyKeyPressed
        )
        self.setItemDelegate(_CountsOnly(self))
        self.setAlternatingRowColors(False)
        head = self.header()
        head.setStretchLastSection(False)
        head.setSectionResizeMode(QHeaderView.ResizeMode.ResizeToContents)
        head.setSectionResizeMode(0, QHeaderView.ResizeMode.Stretch)
        self._lines: dict[str, TripLine] = {}
        self.itemChanged.connect(self._on_changed)

    def show_trip(self, trip: Trip) -> None:
        """Show this trip; what is chosen, folded and in sight stays so."""
        folded = {item.text(0) for item in self._branches() if not item.isExpanded()}
        current = self.currentItem()
        kept = str(current.data(0, _KEY) or "") if current is not None else ""
        column = self.currentColumn()
        at = self.verticalScrollBar().value()
        self.blockSignals(True)
        self.clear()
        self._lines = {}
        for stop in trip.stops:
            branch = self._branch(stop.title, folded)
            for line in stop.lines:
                item = self._line(branch, line)
                if item.data(0, _KEY) == kept:
                    self.setCurrentItem(item, max(column, 0))
        self._told("What people forget", trip.check_list, folded)
        self._told("On hand, but not asked for", trip.unknown, folded)
        self.blockSignals(False)
        self.verticalScrollBar().setValue(at)

    def item_of(self, part: str, size: str = "") -> QTreeWidgetItem:
        """The line of a part. KeyError when the list has none."""
        for branch in self._branches():
            for number in range(branch.childCount()):
                item = branch.child(number)
                if item is not None and item.data(0, _KEY) == _key(part, size):
                    return item
        raise KeyError(f"the shopping list has no {part} {size}".rstrip())

    def _branches(self) -> list[QTreeWidgetItem]:
        return [item for n in range(self.topLevelItemCount()) if (item := self.topLevelItem(n)) is not None]

    def _branch(self, title: str, folded: set[str]) -> QTreeWidgetItem:
        branch = QTreeWidgetItem([title])
        branch.setFlags(Qt.ItemFlag.ItemIsEnabled | Qt.ItemFlag.ItemIsSelectable)
        font = QFont(self.font())
        font.setBold(True)
        branch.setFont(0, font)
        self.addTopLevelItem(branch)
        branch.setExpanded(title not in folded)
        branch.setFirstColumnSpanned(True)
        return branch

    def _line(self, branch: QTreeWidgetItem, line: TripLine) -> QTreeWidgetItem:
        unit = "" if line.unit in ("each", "stick", "coil") else f", {line.unit}"
        counts = (line.buy or _NONE, line.need, line.spares or "", line.on_hand or "")
        item = QTreeWidgetItem([f"{line.part}{unit}", line.size, *map(str, counts)])
        for column in range(2, len(HEADS)):
            item.setTextAlignment(column, Qt.AlignmentFlag.AlignRight | Qt.AlignmentFlag.AlignVCenter)
        item.setFlags(
            Qt.ItemFlag.ItemIsEnabled
            | Qt.ItemFlag.ItemIsSelectable
            | Qt.ItemFlag.ItemIsUserCheckable
            | Qt.ItemFlag.ItemIsEditable
        )
        item.setCheckState(0, Qt.CheckState.Checked if line.buy == 0 else Qt.CheckState.Unchecked)
        key = _key(line.part, line.size)
        item.setData(0, _KEY, key)
        words = (
            f"{line.part} {line.size}: buy {line.buy}, {line.need} needed, {line.spares} spare, {line.on_hand} there"
        )
        item.setData(0, Qt.ItemDataRole.AccessibleTextRole, words)
        tip = f"{line.why}\n{line.source}".strip()
        for column in range(len(HEADS)):
            item.setToolTip(column, tip)
        self._lines[key] = line
        branch.addChild(item)
        return item

    def _told(self, title: str, words: tuple[str, ...], folded: set[str]) -> None:
        if not words:
            return
        branch = self._branch(title, folded)
        for text in words:
            item = QTreeWidgetItem([text])
            item.setFlags(Qt.ItemFlag.ItemIsEnabled | Qt.ItemFlag.ItemIsSelectable)
            item.setToolTip(0, text)
            branch.addChild(item)
            item.setFirstColumnSpanned(True)

    def _on_changed(self, item: QTreeWidgetItem, column: int) -> None:
        line = self._lines.get(str(item.data(0, _KEY) or ""))
        if line is None:
            return
        if column == HAVE:
            text = item.text(HAVE).strip()
            count = int(text) if text.isascii() and text.isdigit() and len(text) < 5 else line.on_hand if text else 0
        elif (item.checkState(0) == Qt.CheckState.Checked) != (line.buy == 0):
            count = line.wanted if item.checkState(0) == Qt.CheckState.Checked else 0
        else:
            return
        if count == line.on_hand:
            self.blockSignals(True)
            item.setText(HAVE, str(line.on_hand or ""))
            self.blockSignals(False)
            return
        self.there_changed.emit(line, count)


class _CountsOnly(QStyledItemDelegate):
    """Lets only the count of what is there be typed."""

    def createEditor(
        self, parent: QWidget, option: QStyleOptionViewItem, index: QModelIndex | QPersistentModelIndex
    ) -> QWidget:
        """A field for the count; none for the rest."""
        if index.column() != HAVE:
            return None  # type: ignore[return-value]
        return super().createEditor(parent, option, index)


def _key(part: str, size: str) -> str:
    return f"{part}\n{size}"
