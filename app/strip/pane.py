"""The fall strip's pane: follows selection and study, and turns what a hand does into edits of the plan."""

from __future__ import annotations

from PySide6.QtCore import Qt, Signal
from PySide6.QtGui import QHideEvent, QPainter, QPaintEvent
from PySide6.QtWidgets import QHBoxLayout, QLabel, QSizePolicy, QToolButton, QWidget

from app.document import Document
from app.panels.line import Line
from app.panels.pane import Pane, give_role, label
from app.strip.sheet import FOLDED, MOST, StripSheet
from app.strip.subject import Subject, subject
from app.strip.wording import LABELS, tape, title, value_of
from engine.lengths import LengthError, parse
from engine.plan.edits import EditError
from engine.plan.records import Plan
from engine.takeoff.levers import Lever, let_go, put

TITLE = "Fall"
CHOOSE = "Let the program choose"


TITLED = 48
"""What the pane's title line and its rims take, pixels."""


class FallPane(Pane):
    """Shows the long section of the selected line; dragging the pipe in it sets its height. `told(words)` says what was done.

    Nothing of a section is worked out while the pane is out of sight.
    """

    told = Signal(str)

    def __init__(self, document: Document, parent: QWidget | None = None) -> None:
        super().__init__(TITLE, parent)
        self.setAccessibleName("Fall strip")
        self._document = document
        self._held = ""
        self._stale = True
        self._before: Plan | None = None
        self.sheet = StripSheet()
        self.line = _Elided()
        self.rim.insertWidget(1, self.line, 1)
        self.rim.setStretch(2, 0)
        self._name = label(role="quiet")
        self.field = Line("Height of the pipe")
        self.field.setFixedWidth(84)
        self.field.done.connect(self._on_typed)
        self._name.setBuddy(self.field)
        self.choose = QToolButton()
        self.choose.setText(CHOOSE)
        self.choose.setAccessibleName(CHOOSE)
        self.choose.setToolTip("Give the height up again: the program takes the one that suits best (Home)")
        self.choose.clicked.connect(self._on_choose)
        row = QHBoxLayout()
        row.setSpacing(6)
        for part in (self._name, self.field, label("in", "quiet"), self.choose):
            row.addWidget(part)
        self.rim.addLayout(row)
        self.body.addWidget(self.sheet, 1)
        sheet = self.sheet
        sheet.taken.connect(self._on_taken)
        sheet.moved.connect(self._on_moved)
        sheet.settled.connect(self._on_settled)
        sheet.dropped.connect(self._on_dropped)
        sheet.nudged.connect(self._on_nudged)
        sheet.released.connect(self._on_choose)
        sheet.typing.connect(self._on_typing)
        sheet.told.connect(self.told)
        document.selection_changed.connect(self._on_selection)
        document.study_changed.connect(self.renew)
        document.plan_changed.connect(self._on_plan)
        self._fold()

    def home(self) -> QWidget:
        """The sheet takes the keyboard."""
        return self.sheet

    def renew(self) -> None:
        """Show the line again: at once where it can be seen, else when it next is."""
        self._stale = True
        if self.isVisible():
            self._show()

    def paintEvent(self, event: QPaintEvent) -> None:
        """The first painting finds the line."""
        if self._stale:
            self._show()
        super().paintEvent(event)

    def hideEvent(self, event: QHideEvent) -> None:
        """What changes meanwhile is looked at when the pane comes back."""
        self._stale = True
        super().hideEvent(event)

    @property
    def subject(self) -> Subject:
        """The line on show."""
        return self.sheet.subject

    def _fold(self) -> None:
        """While the plan holds no line that could stand here, leave the room to the canvas."""
        plan = self._document.settled
        empty = not plan.drains and not plan.supplies
        self.sheet.fold(empty)
        self.setMaximumHeight(FOLDED + TITLED if empty else MOST)

    # following the document ------------------------------------------------------------------------------------

    def _on_selection(self) -> None:
        self.sheet.give_up()
        self._held = ""
        self.renew()

    def _on_plan(self, old: Plan, new: Plan) -> None:
        """A drag ends where the plan that it began from is no longer the one it would change."""
        self.sheet.asked = None
        self._fold()
        if self._before is not None and self._document.settled is not self._before:
            self._before = None
            self.sheet.give_up()
        self.sheet.may_drag = self._document.studied

    def _show(self) -> None:
        self._stale = False
        document = self._document
        found = subject(document.study, document.selection, self._held)
        self.sheet.show_subject(found, document.studied)
        section, lever = found.section, found.lever
        self.line.tell(title(section) if section is not None else "")
        give_role(self.line, "")
        for part in (self._name, self.field, self.choose):
            part.setEnabled(lever is not None)
        self.choose.setEnabled(lever is not None and lever.pinned)
        if lever is not None:
            self._name.setText(LABELS[lever.field].format(lever.words))
            self.field.show_text(tape(lever, lever.z))
            self.field.setToolTip(
                "Set in the plan" if lever.pinned else "Chosen by the program; type a height to set it yourself"
            )
        else:
            self._name.setText("set by the floor" if section is not None else "")
            self.field.show_text("")
            self.field.setToolTip(found.words)

    # what a hand does ------------------------------------------------------------------------------------------

    def _on_taken(self, pipe: str) -> None:
        if pipe != self._held:
            self._held = pipe
            self._show()

    def _on_moved(self, lever: Lever, z: float) -> None:
        if self._before is None:
            self._before = self._document.settled
        plan = self._with(lever, z)
        if plan is not None:
            self._document.propose(plan)

    def _on_settled(self, lever: Lever, z: float) -> None:
        self._before = None
        plan = self._with(lever, z)
        if plan is None:
            self._document.drop_proposal()
        else:
            self._document.commit(plan, _label(lever))

    def _on_dropped(self) -> None:
        self._before = None
        self._document.drop_proposal()

    def _on_nudged(self, lever: Lever, z: float) -> None:
        """Nudges of one height that follow each other are one step of history."""
        plan = self._with(lever, z)
        if plan is not None:
            self._document.commit(plan, _label(lever), ("height", lever.field, lever.elements))
            self.sheet.asked = None if self._document.studied else z

    def _on_choose(self) -> None:
        lever = self.subject.lever
        if lever is None or not lever.pinned:
            return
        try:
            plan = let_go(self._document.settled, lever)
        except EditError as fault:
            self.told.emit(str(fault))
            return
        self._document.commit(plan, f"let the program choose {_what(lever)}")
        self.told.emit(f"The program chooses {_what(lever)} again.")

    def _on_typing(self) -> None:
        if self.subject.lever is not None:
            self.field.setFocus(Qt.FocusReason.TabFocusReason)

    def _on_typed(self) -> None:
        lever = self.subject.lever
        if lever is None or self.field.untouched:
            self.field.mark_wrong(False)
            self._show()
            return
        text = self.field.text().strip()
        if not text:
            self.field.mark_wrong(False)
            self._on_choose()
            return
        try:
            z = value_of(lever, parse(text))
            plan = put(self._document.settled, lever, z)
        except (LengthError, EditError) as fault:
            self.field.mark_wrong(True)
            why = fault.what if isinstance(fault, EditError) else str(fault)
            self.line.tell(why)
            give_role(self.line, "fault")
            self.told.emit(why)
            return
        self.field.mark_wrong(False)
        self._document.commit(plan, _label(lever))

    def _with(self, lever: Lever, z: float) -> Plan | None:
        """The settled plan with this height; None, and the reason is told, where the field takes no such value."""
        try:
            return put(self._document.settled, lever, z)
        except EditError as fault:
            self.told.emit(str(fault))
            return None


class _Elided(QLabel):
    """A line that ends in dots where its place is too short for it; the whole is its tip."""

    def __init__(self) -> None:
        super().__init__()
        self.setSizePolicy(QSizePolicy.Policy.Ignored, QSizePolicy.Policy.Preferred)

    def tell(self, words: str) -> None:
        """Say this."""
        self.setText(words)
        self.setToolTip(words)

    def paintEvent(self, event: QPaintEvent) -> None:
        """As much as there is room for."""
        painter = QPainter(self)
        painter.setPen(self.palette().color(self.foregroundRole()))
        text = self.fontMetrics().elidedText(self.text(), Qt.TextElideMode.ElideRight, self.width())
        painter.drawText(self.rect(), Qt.AlignmentFlag.AlignLeft | Qt.AlignmentFlag.AlignVCenter, text)


def _what(lever: Lever) -> str:
    return "the depth of " + lever.words if lever.field == "down" else f"the height of {lever.words}"


def _label(lever: Lever) -> str:
    return f"set {_what(lever)}"
