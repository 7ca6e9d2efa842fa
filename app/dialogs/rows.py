"""A small table that a person fills in: rows are added, typed over and taken away."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from typing import NamedTuple

from PySide6.QtCore import QModelIndex, QPersistentModelIndex, Qt, Signal
from PySide6.QtWidgets import (
    QAbstractItemView,
    QComboBox,
    QHBoxLayout,
    QHeaderView,
    QPushButton,
    QStyledItemDelegate,
    QStyleOptionViewItem,
    QTableWidget,
    QTableWidgetItem,
    QVBoxLayout,
    QWidget,
)

from app.panels.pane import label

Cells = tuple[str, ...]


class Column(NamedTuple):
    """A column: its title, what may stand in it (any text when empty), whether it is only told.

    A `told` column is filled by the table from the row's other cells.
    """

    title: str
    choices: tuple[str, ...] = ()
    told: Callable[[Cells], str] | None = None
    wide: bool = False


class RowsTable(QWidget):
    """The table with its buttons; `changed` tells that something was typed, added or taken away."""

    changed = Signal()

    def __init__(self, name: str, about: str, columns: Sequence[Column], parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._columns = tuple(columns)
        self._filling = False
        self.table = QTableWidget(0, len(columns))
        self.table.setAccessibleName(name)
        self.table.setHorizontalHeaderLabels([column.title for column in columns])
        self.table.verticalHeader().setVisible(False)
        self.table.setSelectionBehavior(QAbstractItemView.SelectionBehavior.SelectRows)
        self.table.setSelectionMode(QAbstractItemView.SelectionMode.SingleSelection)
        self.table.setItemDelegate(_Chooser(self._columns, self.table))
        self.table.setTabKeyNavigation(False)
        head = self.table.horizontalHeader()
        for number, column in enumerate(columns):
            head.setSectionResizeMode(
                number,
                QHeaderView.ResizeMode.Stretch if column.wide else QHeaderView.ResizeMode.Interactive,
            )
            if not column.wide:
                self.table.setColumnWidth(number, 110)
        self.table.itemChanged.connect(self._on_changed)
        add, take = QPushButton("&Add a row"), QPushButton("&Take the row away")
        add.setAutoDefault(False)
        take.setAutoDefault(False)
        add.clicked.connect(self._add_empty)
        take.clicked.connect(self.take_row)
        buttons = QHBoxLayout()
        buttons.addWidget(add)
        buttons.addWidget(take)
        buttons.addStretch(1)
        whole = QVBoxLayout(self)
        whole.addWidget(label(about, "quiet", wrap=True))
        whole.addWidget(self.table, 1)
        whole.addLayout(buttons)

    def show_rows(self, rows: Sequence[Cells]) -> None:
        """Show these rows, one text a column that is not told."""
        self._filling = True
        self.table.setRowCount(0)
        for cells in rows:
            self._append(cells)
        self._filling = False
        self._tell()

    def rows(self) -> list[Cells]:
        """What stands in the rows, top to bottom, told columns left out."""
        return [self._cells(row) for row in range(self.table.rowCount())]

    def point_to(self, row: int) -> None:
        """Choose a row, such as the one at fault."""
        self.table.setCurrentCell(row, 0)
        self.table.setFocus()

    def tell_by(self, columns: Sequence[Column]) -> None:
        """Tell the rows by other columns of the same shape, such as another rule book's."""
        self._columns = tuple(columns)
        self.table.setItemDelegate(_Chooser(self._columns, self.table))
        self._tell()

    def type_into(self, row: int, column: int) -> None:
        """Begin to type into one cell."""
        self.table.setCurrentCell(row, column)
        self.table.setFocus()
        item = self.table.item(row, column)
        if item is not None:
            self.table.editItem(item)

    def add_row(self, first: str = "") -> None:
        """Add a row, empty but for what `first` names, and begin to type in it."""
        self._filling = True
        texts = ["" for column in self._columns if column.told is None]
        self._append((first or "", *texts[1:]))
        self._filling = False
        self.table.setCurrentCell(self.table.rowCount() - 1, 0)
        self.table.setFocus()
        self._on_changed()

    def _add_empty(self) -> None:
        self.add_row()

    def take_row(self) -> None:
        """Take the chosen row away."""
        if self.table.currentRow() >= 0:
            self.table.removeRow(self.table.currentRow())
            self._on_changed()

    def _append(self, cells: Cells) -> None:
        row = self.table.rowCount()
        self.table.insertRow(row)
        texts = iter(cells)
        for number, column in enumerate(self._columns):
            item = QTableWidgetItem("" if column.told else next(texts))
            if column.told:
                item.setFlags(Qt.ItemFlag.ItemIsEnabled | Qt.ItemFlag.ItemIsSelectable)
            self.table.setItem(row, number, item)

    def _cells(self, row: int) -> Cells:
        items = (self.table.item(row, number) for number, column in enumerate(self._columns) if column.told is None)
        return tuple(item.text().strip() if item is not None else "" for item in items)

    def _on_changed(self) -> None:
        if not self._filling:
            self._tell()
            self.changed.emit()

    def _tell(self) -> None:
        """Fill the told columns."""
        self._filling = True
        for row in range(self.table.rowCount()):
            for number, column in enumerate(self._columns):
                item = self.table.item(row, number)
                if column.told is not None and item is not None:
                    item.setText(column.told(self._cells(row)))
                    item.setToolTip(item.text())
        self._filling = False


class _Chooser(QStyledItemDelegate):
    """Gives a column with choices a list that may also be typed into."""

    def __init__(self, columns: tuple[Column, ...], parent: QWidget) -> None:
        super().__init__(parent)
        self._columns = columns

    def createEditor(
        self, parent: QWidget, option: QStyleOptionViewItem, index: QModelIndex | QPersistentModelIndex
    ) -> QWidget:
        """A list where there are choices, else Qt's own field."""
        choices = self._columns[index.column()].choices
        if not choices:
            return super().createEditor(parent, option, index)
        box = QComboBox(parent)
        box.setEditable(True)
        box.addItems(choices)
        box.setAccessibleName(self._columns[index.column()].title)
        box.setMinimumWidth(240)
        return box

    def setEditorData(self, editor: QWidget, index: QModelIndex | QPersistentModelIndex) -> None:
        """Show the cell's text."""
        if isinstance(editor, QComboBox):
            editor.setCurrentText(str(index.data() or ""))
        else:
            super().setEditorData(editor, index)
