"""The cuts beside the measures: what each piece was to be sawn to, and what it is now."""

from __future__ import annotations

from PySide6.QtCore import Qt
from PySide6.QtGui import QFont
from PySide6.QtWidgets import QAbstractItemView, QHeaderView, QTableWidget, QTableWidgetItem, QWidget

from engine.checks.model import Model
from engine.lengths import inches
from engine.takeoff.cutlist import cut_list
from engine.trade.pipe import label as size_label

HEADS = ("Mark", "Pipe", "Before", "Now", "Give or take", "Rests on", "Between")


class CutsTable(QTableWidget):
    """Every piece with both lengths; those that differ stand in bold and are counted."""

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(0, len(HEADS), parent)
        self.setAccessibleName("Cuts before and now")
        self.setHorizontalHeaderLabels(HEADS)
        self.verticalHeader().setVisible(False)
        self.setEditTriggers(QAbstractItemView.EditTrigger.NoEditTriggers)
        self.setSelectionBehavior(QAbstractItemView.SelectionBehavior.SelectRows)
        self.setShowGrid(False)
        self.setTabKeyNavigation(False)
        head = self.horizontalHeader()
        head.setDefaultAlignment(Qt.AlignmentFlag.AlignLeft | Qt.AlignmentFlag.AlignVCenter)
        head.setSectionResizeMode(QHeaderView.ResizeMode.ResizeToContents)
        head.setSectionResizeMode(len(HEADS) - 1, QHeaderView.ResizeMode.Stretch)
        self.changed: tuple[str, ...] = ()

    def show_cuts(self, before: Model, now: Model) -> None:
        """Compare the cuts of two models; the first that differs is brought into sight."""
        old = {row.mark: row.length for row in cut_list(before)}
        rows = cut_list(now)
        self.changed = tuple(row.mark for row in rows if old.get(row.mark) != row.length)
        self.setRowCount(len(rows))
        for number, row in enumerate(rows):
            was = f'{inches(old[row.mark])}"' if row.mark in old else "–"
            cells = (
                row.mark,
                f'{size_label(row.size)}" {row.material}',
                was,
                f'{inches(row.length)}"',
                f'± {inches(row.tolerance)}"',
                row.rests_on,
                f"{row.start} to {row.end}",
            )
            for column, text in enumerate(cells):
                self._put(number, column, text, row.mark in self.changed)
        if self.changed:
            first = self.item(next(number for number, row in enumerate(rows) if row.mark in self.changed), 0)
            if first is not None:
                self.scrollToItem(first, QAbstractItemView.ScrollHint.PositionAtCenter)

    def _put(self, row: int, column: int, text: str, bold: bool) -> None:
        item = QTableWidgetItem(text)
        if column in (2, 3, 4):
            item.setTextAlignment(Qt.AlignmentFlag.AlignRight | Qt.AlignmentFlag.AlignVCenter)
        font = QFont(self.font())
        font.setBold(bold)
        item.setFont(font)
        self.setItem(row, column, item)
