"""The window in which the plan stands beside itself under another rule book, and keeps step with the drawing."""

from __future__ import annotations

from collections.abc import Iterable

from PySide6.QtCore import QSize, Qt, QUrl, Signal, Slot
from PySide6.QtGui import QAction, QCloseEvent, QKeyEvent, QShowEvent
from PySide6.QtWidgets import QCheckBox, QComboBox, QHBoxLayout, QTextBrowser, QVBoxLayout, QWidget

from app.beside.page import FINDING, page, summary
from app.document import Document
from app.live import LiveStudy
from app.panels.own_window import OwnWindow
from app.panels.pane import Pane, label
from engine.comparing import Comparison, SameBookError, compare
from engine.plan.records import Plan
from engine.rulebooks import AmendmentError, RuleBookError, load, names

FIRST_SIZE = QSize(980, 760)


class BesideWindow(OwnWindow):
    """What changes under another book. `place_wanted(at)` asks to show a place; `failed(error)` hands on a program's fault."""

    place_wanted = Signal(object)
    failed = Signal(object)

    def __init__(self, document: Document, actions: Iterable[QAction], parent: QWidget) -> None:
        super().__init__("beside-window", "Under another rule book", actions, parent)
        self._document = document
        self._live = LiveStudy(self, _compared)
        self._live.answered.connect(self._on_answer)
        self._live.failed.connect(self._on_failed)
        self._asked: tuple[Plan, str] | None = None
        self.comparison: Comparison | None = None
        self.book = QComboBox()
        self.book.setAccessibleName("The other rule book")
        self.book.activated.connect(self._ask)
        self.every = QCheckBox("Values that change nothing here &too")
        self.every.toggled.connect(self._show)
        self.text = QTextBrowser()
        self.text.setAccessibleName("What changes under the other book")
        self.text.setOpenLinks(False)
        self.text.document().setDocumentMargin(8)
        self.text.anchorClicked.connect(self._on_link)
        self._said = label(role="quiet", wrap=True)
        self._said.setAccessibleName("In one sentence")
        self._lay_out()
        self.resize(FIRST_SIZE)
        document.history_changed.connect(self._ask)
        document.path_changed.connect(self._ask)

    def _lay_out(self) -> None:
        sheet = Pane("Under another rule book")
        row = QHBoxLayout()
        row.setContentsMargins(4, 0, 4, 0)
        row.setSpacing(8)
        row.addWidget(label("Beside"))
        row.addWidget(self.book)
        row.addStretch(1)
        row.addWidget(self.every)
        sheet.body.addLayout(row)
        sheet.body.addWidget(self._said)
        sheet.body.addWidget(self.text, 1)
        whole = QVBoxLayout(self)
        whole.setContentsMargins(6, 6, 6, 6)
        whole.addWidget(sheet)

    @property
    def said(self) -> str:
        """The comparison in one sentence, or why there is none."""
        return self._said.text()

    @property
    def idle(self) -> bool:
        """Whether what is on show is of the plan as it is."""
        return self._live.idle

    def let_go(self) -> None:
        """Stop working anything out."""
        self._live.stop()

    def showEvent(self, event: QShowEvent) -> None:
        """Compare as soon as it is looked at."""
        super().showEvent(event)
        self.text.setFocus(Qt.FocusReason.ActiveWindowFocusReason)
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

    @Slot()
    def _ask(self) -> None:
        plan = self._document.settled
        if not self.isVisible():
            return
        self._fill(plan)
        other = str(self.book.currentData() or "")
        if self._asked is not None and self._asked[0] is plan and self._asked[1] == other:
            return
        self._asked = (plan, other)
        self._said.setText("Judging the plan by both…")
        self._live.ask((plan, other))

    def _fill(self, plan: Plan) -> None:
        """The books that the plan may stand beside: all others, and its own as printed where it is amended."""
        others = [name for name in names() if name != plan.rulebook]
        own = [plan.rulebook] if plan.amendments and plan.rulebook in names() else []
        if [self.book.itemData(row) for row in range(self.book.count())] == [*others, *own]:
            return
        chosen = self.book.currentData()
        self.book.clear()
        for name in others:
            self.book.addItem(f"{load(name).short}: {load(name).title}", name)
        for name in own:
            self.book.addItem(f"{load(name).short} as printed, without your amendments", name)
        self.book.setCurrentIndex(max(0, self.book.findData(chosen)))

    @Slot(object)
    def _on_answer(self, comparison: Comparison) -> None:
        self.comparison = comparison
        self._said.setText(summary(comparison))
        self._show()

    @Slot(object)
    def _on_failed(self, error: Exception) -> None:
        self.comparison = None
        self.text.clear()
        if isinstance(error, AmendmentError | RuleBookError | SameBookError):
            self._said.setText(f"Nothing can be set beside it: {error}.")
        else:
            self._said.setText("This failed: a fault of the program, not of the plan.")
            self.failed.emit(error)

    @Slot()
    def _show(self) -> None:
        if self.comparison is None:
            return
        bar = self.text.verticalScrollBar()
        here = bar.value()
        self.text.setHtml(page(self.comparison, self.every.isChecked()))
        bar.setValue(here)

    @Slot(QUrl)
    def _on_link(self, link: QUrl) -> None:
        """Go to what a row is about: a finding's things and place, or a fixture."""
        kind, _, number = link.toString().partition(":")
        if self.comparison is None or not number.isdigit():
            return
        if kind == FINDING:
            finding = self.comparison.findings[int(number)].finding
            there, at = finding.elements, finding.at
        else:
            fixture = self.comparison.traps[int(number)].fixture
            there, at = (fixture,), None
        self._document.select([name for name in there if name in self._document.elements])
        if at is not None and any(at):
            self.place_wanted.emit(at[:2])


def _compared(asked: tuple[Plan, str]) -> Comparison:
    """The plan beside itself under the other book."""
    return compare(*asked)
