"""The shelf: every kind of fixture by picture and name, to drag onto the plan or to take up by click or Enter."""

from __future__ import annotations

from PySide6.QtCore import QMimeData, QModelIndex, QPersistentModelIndex, QPointF, QRect, QRectF, QSize, Qt, Signal
from PySide6.QtGui import QColor, QDrag, QIcon, QPainter, QPen, QPolygonF
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

from app.panels.pane import Pane, give_role, label
from app.theme import INK, LINE, PINE, PINE_TINT, RAISED, fixture_icon
from app.tools import MIME
from engine.trade.fixtures import KINDS, fixture

PICTURE = QSize(52, 39)
CELL = QSize(96, 83)
PLACE = "place:"
DRAG, CLICK = "drag onto the plan", "click on the plan"
"""What to do with the shelf, and with what was taken from it."""

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
        self.armed = ""
        """The kind of fixture that a click on the plan would place; empty when none."""

    def point_to(self, tool: str) -> None:
        """Light the fixture that this tool places, or none."""
        self.armed = tool.removeprefix(PLACE) if tool.startswith(PLACE) else ""
        self.viewport().update()
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
        self._way = label(DRAG, "quiet")
        self.rim.addWidget(self._way)
        self.shelf = Shelf()
        self.body.addWidget(self.shelf)

    @property
    def told(self) -> str:
        """What the pane says to do."""
        return self._way.text()

    def point_to(self, tool: str) -> None:
        """Light the fixture that this tool places and say where to click; none lit for any other tool."""
        self.shelf.point_to(tool)
        self._way.setText(CLICK if self.shelf.armed else DRAG)
        give_role(self._way, "calm" if self.shelf.armed else "quiet")

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
        shelf = self.parent()
        armed = isinstance(shelf, Shelf) and index.data(_KIND) == shelf.armed
        if armed:
            painter.setPen(QPen(QColor(PINE), 2.0))
            painter.setBrush(QColor(PINE_TINT))
            painter.drawRoundedRect(QRectF(box).adjusted(1.0, 1.0, -1.0, -1.0), 6.0, 6.0)
            _arm_tip(painter, box)
        elif chosen or pointed:
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


def _arm_tip(painter: QPainter, box: QRect) -> None:
    """A filled corner: what is armed is told by shape too."""
    right, top = box.right() - 1.0, box.top() + 2.0
    corner = QPolygonF([QPointF(right, top), QPointF(right - 16.0, top), QPointF(right, top + 16.0)])
    painter.setPen(Qt.PenStyle.NoPen)
    painter.setBrush(QColor(PINE))
    painter.drawPolygon(corner)


def _item(kind: str) -> QListWidgetItem:
    words = fixture(kind).words
    words = words[:1].upper() + words[1:]
    item = QListWidgetItem(fixture_icon(kind), words)
    item.setData(_KIND, kind)
    item.setData(Qt.ItemDataRole.AccessibleTextRole, words)
    item.setToolTip(f"{words}: drag it onto the plan, or click it and then the plan (Shift keeps it in hand)")
    return item
