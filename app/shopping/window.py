"""The shopping list's own window: works the list out beside the drawing, and writes what is there into the plan."""

from __future__ import annotations

from collections.abc import Iterable

from PySide6.QtCore import QSize, Qt, Signal, Slot
from PySide6.QtGui import QAction, QCloseEvent, QKeyEvent, QShowEvent
from PySide6.QtWidgets import QHBoxLayout, QVBoxLayout, QWidget

from app.document import Document
from app.live import LiveStudy
from app.panels.line import Line
from app.panels.own_window import OwnWindow
from app.panels.pane import Pane, label
from app.shopping.tree import TripTree
from engine.plan.edits import EditError, put_on_hand, set_plan, take_off_hand
from engine.plan.records import OnHand, Plan
from engine.study import work_out
from engine.takeoff.records import Trip, TripLine
from engine.takeoff.schedules import TakenOff, taken_off

FIRST_SIZE = QSize(660, 760)
_HUNDRED = 100.0


class ShoppingWindow(OwnWindow):
    """What to buy, in the order in which a store is walked. `failed(error)` hands on a fault of the program."""

    failed = Signal(object)

    def __init__(self, document: Document, actions: Iterable[QAction], parent: QWidget) -> None:
        super().__init__("shopping-window", "Shopping list", actions, parent)
        self._document = document
        self._live = LiveStudy(self, take_off)
        self._live.answered.connect(self._on_answer)
        self._live.failed.connect(self.failed)
        self._asked: Plan | None = None
        self.trip: Trip | None = None
        self.tree = TripTree()
        self.tree.there_changed.connect(self._on_there)
        self.spares = Line("Spares, per cent")
        self.spares.setMaximumWidth(64)
        self.spares.done.connect(self._on_spares)
        self._book = label(role="quiet", wrap=True)
        self._said = label(role="quiet", wrap=True)
        self._said.setAccessibleName("What is left to buy")
        self._lay_out()
        self.resize(FIRST_SIZE)
        document.history_changed.connect(self._ask)
        document.path_changed.connect(self._ask)

    def _lay_out(self) -> None:
        sheet = Pane("Shopping list")
        row = QHBoxLayout()
        row.setContentsMargins(4, 0, 4, 0)
        row.setSpacing(6)
        row.addWidget(label("Spares of each kind and size"))
        row.addWidget(self.spares)
        row.addWidget(label("%, rounded up; none of pipe or of dear parts", "quiet"), 1)
        sheet.body.addWidget(self._book)
        sheet.body.addLayout(row)
        sheet.body.addWidget(self.tree, 1)
        sheet.body.addWidget(self._said)
        whole = QVBoxLayout(self)
        whole.setContentsMargins(6, 6, 6, 6)
        whole.addWidget(sheet)

    @property
    def said(self) -> str:
        """What the window says under the list."""
        return self._said.text()

    @property
    def idle(self) -> bool:
        """Whether the list on show is that of the plan."""
        return self._live.idle

    def let_go(self) -> None:
        """Stop working anything out."""
        self._live.stop()

    def showEvent(self, event: QShowEvent) -> None:
        """Work the list out as soon as it is looked at."""
        super().showEvent(event)
        self.tree.setFocus(Qt.FocusReason.ActiveWindowFocusReason)
        self._ask()

    def closeEvent(self, event: QCloseEvent) -> None:
        """Closed, it works nothing out."""
        self._live.stop()
        self._asked = None
        super().closeEvent(event)

    def keyPressEvent(self, event: QKeyEvent) -> None:
        """Escape closes it."""
        if event.key() == Qt.Key.Key_Escape:
            self.close()
            return
        super().keyPressEvent(event)

    # the list --------------------------------------------------------------------------------------------------

    def _ask(self) -> None:
        plan = self._document.settled
        if not self.isVisible() or plan is self._asked:
            return
        self._asked = plan
        self.spares.show_text(f"{plan.spares * _HUNDRED:.6g}")
        self._said.setText("Working it out…")
        self._live.ask(plan)

    @Slot(object)
    def _on_answer(self, taken: TakenOff) -> None:
        self.trip = taken.trip
        self._book.setText(taken.trip.made_under)
        self.tree.show_trip(taken.trip)
        self._said.setText(_words(taken.trip))

    # what is there ---------------------------------------------------------------------------------------------

    def _on_there(self, line: TripLine, count: int) -> None:
        plan = self._document.settled
        thing = OnHand(line.part, line.size, count)
        name = f"{line.part} {line.size}".rstrip()
        try:
            plan = put_on_hand(plan, thing) if count else take_off_hand(plan, thing)
        except EditError as fault:
            self._said.setText(str(fault))
            return
        self._document.commit(plan, f"tick {name}" if count >= line.wanted else f"count {name}")

    def _on_spares(self) -> None:
        if self.spares.untouched:
            return
        try:
            share = float(self.spares.text().strip().removesuffix("%")) / _HUNDRED
            plan = set_plan(self._document.settled, spares=share)
        except (EditError, ValueError):
            self.spares.mark_wrong(True)
            self._said.setText(
                f"{self.spares.text()!r} is no share of spares; write a number from 0 to 200, such as 10"
            )
            return
        self._document.commit(plan, "change the share of spares")


def take_off(plan: Plan) -> TakenOff:
    """What a plan asks to be bought."""
    return taken_off(work_out(plan))


def _words(trip: Trip) -> str:
    lines = trip.lines
    if not lines:
        return "There is nothing to buy yet."
    left = [line for line in lines if line.buy]
    prices = [line.price for line in left if line.kind == "pipe"]
    cost = ""
    if prices and all(price is not None for price in prices):
        cost = f" The pipe comes to {sum(price for price in prices if price is not None):.2f}."
    return f"{len(left)} of {len(lines)} lines left to buy; a ticked line is there already.{cost}"
