"""The shelf: every kind of fixture by picture and name, to drag onto the plan or to take up by click or Enter."""

from __future__ import annotations

from PySide6.QtCore import QMimeData, QModelIndex, QPersistentModelIndex, QRect, QRectF, QSize, Qt, Signal
from PySide6.QtGui import QColor, QDrag, QIcon, QPainter, QPen
from PySide6.QtWidgets import (
    QAbstractItemView,
    QListView,
    QListWidget,
    QListWidgetItem,
    QStyle,
    QStyledItemDelegate,
    QStyleOptionViewItem,
    QWidget,
)

from app.panels.pane import Pane, label
from app.theme import INK, LINE, PINE, PINE_TINT, RAISED, fixture_icon
from app.tools import MIME
from engine.trade.fixtures import KINDS, fixture

PICTURE = QSize(52, 39)
CELL = QSize(96, 83)
PLACE = "place:"
_KIND = Qt.ItemDataRole.UserRole


def mime(kind: str) -> QMimeData:
    """What is dragged for a fixture of this kind."""
    data = QMimeData()
    data.setData(MIME, kind.encode())
    return data


class Shelf(QListWidget):
    """The pictures in rows of two; `taken(tool)` names the tool that places what was clicked or entered."""

    taken = Signal(str)

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.setAccessibleName("Fixtures to place")
        self.setViewMode(QListView.ViewMode.IconMode)
        self.setMovement(QListView.Movement.Static)
        self.setResizeMode(QListView.ResizeMode.Adjust)
        self.setSelectionMode(QAbstractItemView.SelectionMode.SingleSelection)
        self.setDragEnabled(True)
        self.setDragDropMode(QAbstractItemView.DragDropMode.DragOnly)
        self.setMouseTracking(True)
        self.setGridSize(CELL)
        self.setUniformItemSizes(True)
        self.setHorizontalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
        self.setItemDelegate(_Card(self))
        for kind in KINDS:
            self.addItem(_item(kind))
        self.itemClicked.connect(self._on_taken)
        self.itemActivated.connect(self._on_taken)

    def point_to(self, tool: str) -> None:
        """Mark the fixture that this tool places, or none."""
        for number in range(self.count()):
            item = self.item(number)
            if tool == PLACE + item.data(_KIND):
                self.setCurrentItem(item)
                return
        self.clearSelection()

    def startDrag(self, actions: Qt.DropAction) -> None:
        """Carry the chosen fixture to the plan."""
        item = self.currentItem()
        if item is None:
            return
        drag = QDrag(self)
        drag.setMimeData(mime(item.data(_KIND)))
        drag.setPixmap(item.icon().pixmap(PICTURE, self.devicePixelRatioF()))
        drag.exec(Qt.DropAction.CopyAction)

    def _on_taken(self, item: QListWidgetItem) -> None:
        self.taken.emit(PLACE + item.data(_KIND))


class ShelfPane(Pane):
    """The shelf as a pane."""

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__("Shelf", parent)
        self.rim.addWidget(label("drag onto the plan", "quiet"))
        self.shelf = Shelf()
        self.body.addWidget(self.shelf)

    def home(self) -> QWidget:
        """The pictures, one of which is marked."""
        if self.shelf.currentItem() is None:
            self.shelf.setCurrentRow(0)
        return self.shelf


class _Card(QStyledItemDelegate):
    """A picture over its name, which may take two lines."""

    def paint(
        self, painter: QPainter, option: QStyleOptionViewItem, index: QModelIndex | QPersistentModelIndex
    ) -> None:
        """The card, framed while it is chosen or pointed at."""
        state, box = option.state, QRect(option.rect).adjusted(2, 2, -2, -2)
        chosen, pointed = state & QStyle.StateFlag.State_Selected, state & QStyle.StateFlag.State_MouseOver
        painter.save()
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        if chosen or pointed:
            painter.setPen(QPen(QColor(PINE if chosen else LINE), 1.0))
            painter.setBrush(QColor(PINE_TINT if chosen else RAISED))
            painter.drawRoundedRect(QRectF(box).adjusted(0.5, 0.5, -0.5, -0.5), 6.0, 6.0)
        picture = QRect(box.center().x() - PICTURE.width() // 2, box.top() + 3, PICTURE.width(), PICTURE.height())
        icon: QIcon = index.data(Qt.ItemDataRole.DecorationRole)
        icon.paint(painter, picture)
        words = QRect(box.left() + 2, picture.bottom() + 1, box.width() - 4, box.bottom() - picture.bottom() - 1)
        font = option.font
        font.setPointSizeF(font.pointSizeF() - 1.0)
        painter.setFont(font)
        painter.setPen(QColor(INK))
        painter.drawText(words, Qt.AlignmentFlag.AlignHCenter | Qt.TextFlag.TextWordWrap, str(index.data()))
        painter.restore()

    def sizeHint(self, option: QStyleOptionViewItem, index: QModelIndex | QPersistentModelIndex) -> QSize:
        """Every card is as large as the next."""
        return CELL


def _item(kind: str) -> QListWidgetItem:
    words = fixture(kind).words
    words = words[:1].upper() + words[1:]
    item = QListWidgetItem(fixture_icon(kind), words)
    item.setData(_KIND, kind)
    item.setData(Qt.ItemDataRole.AccessibleTextRole, words)
    item.setToolTip(f"{words}: drag it onto the plan, or click and then click on the plan")
    return item
