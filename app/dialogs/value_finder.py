"""Finds a value of the rule book by plain words, for somebody whose official has changed it."""

from __future__ import annotations

from PySide6.QtCore import Qt, Signal
from PySide6.QtGui import QKeyEvent
from PySide6.QtWidgets import (
    QAbstractItemView,
    QHBoxLayout,
    QHeaderView,
    QLineEdit,
    QPushButton,
    QTreeWidget,
    QTreeWidgetItem,
    QVBoxLayout,
    QWidget,
)

from app.panels.pane import label
from engine.rulebooks import RuleBook
from engine.rulebooks.saying import KNOWN, heading, plain, said
from engine.rulebooks.searching import search

COLUMNS = ("What", "In the book", "Where", "How known")
MOST = 200
"""So many values are listed at most; more words tell them apart."""


class ValueFinder(QWidget):
    """A line to type words into, and the values that they find; `wanted(key)` brings the one to be amended."""

    wanted = Signal(str)

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._book: RuleBook | None = None
        self.words = QLineEdit()
        self.words.setAccessibleName("Find a value by plain words")
        self.words.setPlaceholderText("Find a value: trap arm 2, vent over roof, admittance valve, cleanout…")
        self.words.setClearButtonEnabled(True)
        self.words.textChanged.connect(self._find)
        self.list = QTreeWidget()
        self.list.setAccessibleName("Values found")
        self.list.setColumnCount(len(COLUMNS))
        self.list.setHeaderLabels(COLUMNS)
        self.list.setRootIsDecorated(False)
        self.list.setUniformRowHeights(True)
        self.list.setSelectionMode(QAbstractItemView.SelectionMode.SingleSelection)
        head = self.list.header()
        head.setSectionResizeMode(0, QHeaderView.ResizeMode.Stretch)
        head.setStretchLastSection(False)
        for column, wide in ((1, 130), (2, 190), (3, 110)):
            self.list.setColumnWidth(column, wide)
        self.list.itemActivated.connect(self._take)
        self._count = label(role="quiet")
        self.take = QPushButton("Amend &this value")
        self.take.setAutoDefault(False)
        self.take.clicked.connect(self._take)
        foot = QHBoxLayout()
        foot.addWidget(self.take)
        foot.addWidget(self._count, 1)
        whole = QVBoxLayout(self)
        whole.setContentsMargins(0, 0, 0, 0)
        whole.addWidget(self.words)
        whole.addWidget(self.list, 1)
        whole.addLayout(foot)

    @property
    def found(self) -> list[str]:
        """The keys of the values listed."""
        items = (self.list.topLevelItem(row) for row in range(self.list.topLevelItemCount()))
        return [str(item.data(0, Qt.ItemDataRole.UserRole)) for item in items if item is not None]

    def show_book(self, book: RuleBook) -> None:
        """Look in this book from now on."""
        self._book = book
        self._find()

    def _find(self) -> None:
        if self._book is None:
            return
        found = search(self._book, self.words.text())
        self.list.clear()
        for value in found[:MOST]:
            cells = [heading(value.key), said(value), self._book.cite(value.key), KNOWN[value.standing]]
            item = QTreeWidgetItem(cells)
            item.setData(0, Qt.ItemDataRole.UserRole, value.key)
            note = f"\n{plain(value.note)}" if value.note else ""
            for column in range(len(COLUMNS)):
                item.setToolTip(column, f"{cells[0]}: {cells[1]}{note}\nSource: {value.source}")
            self.list.addTopLevelItem(item)
        first = self.list.topLevelItem(0)
        if first is not None:
            self.list.setCurrentItem(first)
        more = "" if len(found) <= MOST else f", the first {MOST} listed"
        self._count.setText(f"{len(found)} of {len(self._book)} values of {self._book.short}{more}")
        self.take.setEnabled(bool(found))

    def _take(self) -> None:
        item = self.list.currentItem()
        if item is not None:
            self.wanted.emit(str(item.data(0, Qt.ItemDataRole.UserRole)))

    def keyPressEvent(self, event: QKeyEvent) -> None:
        """Down goes from the words to the list, Enter takes the value that is chosen."""
        if event.key() in (Qt.Key.Key_Return, Qt.Key.Key_Enter) and self.words.hasFocus():
            self._take()
        elif event.key() == Qt.Key.Key_Down and self.words.hasFocus():
            self.list.setFocus()
        else:
            super().keyPressEvent(event)
