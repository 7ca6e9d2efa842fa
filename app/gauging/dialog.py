"""Measured fittings: the fittings of the job, what a rule shows on each, and every cut as it follows from that."""

from __future__ import annotations

from PySide6.QtCore import QSize, Qt, Signal
from PySide6.QtWidgets import (
    QCheckBox,
    QDialog,
    QDialogButtonBox,
    QHBoxLayout,
    QListWidget,
    QListWidgetItem,
    QPushButton,
    QScrollArea,
    QSplitter,
    QVBoxLayout,
    QWidget,
)

from app.document import Document
from app.gauging.cuts import CutsTable
from app.gauging.legs import LegsForm
from app.gauging.own_file import OwnFittingsFile
from app.gauging.sketch import FittingSketch
from app.panels.line import Line
from app.panels.pane import label
from engine.checks.model import Model
from engine.lengths import inches
from engine.plan.own_fittings import OwnFittingsError, with_measured
from engine.plan.records import Plan
from engine.study import Study, work_out
from engine.takeoff.gauge import Gauge, GaugeLeg, gauge, taken_over, written_down
from engine.trade.fittings import size_label

MOST_LETTERS = 32
"""Of the maker's name, on a button."""


class MeasuredFittingsDialog(QDialog):
    """Types measures into a proposal that the document studies as it goes; `made(plan)` brings the plan accepted."""

    made = Signal(object)

    def __init__(self, document: Document, own: OwnFittingsFile, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.setAttribute(Qt.WidgetAttribute.WA_DeleteOnClose)
        self.setWindowTitle("Measured fittings")
        self._document, self._own_file = document, own
        self._own = own.read()
        self.plan: Plan = document.settled
        self._before: Model = work_out(document.settled)
        self._found: dict[str, Gauge] = {}

        self.list = QListWidget()
        self.list.setAccessibleName("Fittings of this job")
        self.list.setFixedWidth(264)
        self.list.setSpacing(3)
        self.list.setTextElideMode(Qt.TextElideMode.ElideRight)
        self.list.setHorizontalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
        self.list.currentItemChanged.connect(self._on_chosen)
        self.sketch = FittingSketch()
        self.form = LegsForm()
        self.form.measured.connect(self._on_measured)
        self.cuts = CutsTable()
        self._heading = label(role="pane-title")
        self._told = label(role="quiet", wrap=True)
        self._told.setAccessibleName("What the measures change")

        self.maker = Line("Whose fittings these are, in your words")
        self.maker.setPlaceholderText("whose fittings these are, in your words")
        self.maker.show_text(self._own.maker)
        self.keep = QCheckBox("&Keep what is measured, to offer it to the next plan")
        self.keep.setChecked(True)
        self.before = QPushButton()
        self.before.setAutoDefault(False)
        self.before.clicked.connect(self._take_over)
        self._fault = label(role="fault", wrap=True)
        self._fault.setAccessibleName("What is wrong")

        button = QDialogButtonBox.StandardButton
        self.buttons = QDialogButtonBox(button.Ok | button.Cancel)
        self.buttons.button(button.Ok).setText("&Use these")
        self.buttons.button(button.Ok).setAutoDefault(False)
        self.buttons.accepted.connect(self.accept)
        self.buttons.rejected.connect(self.reject)
        self._lay_out()
        document.study_changed.connect(self._on_study)
        self._show(self._before)
        self._offer()
        self._complain(own.fault)
        self.resize(QSize(1040, 700))

    # laying out ------------------------------------------------------------------------------------------------

    def _lay_out(self) -> None:
        scroll = QScrollArea()
        scroll.setWidgetResizable(True)
        scroll.setWidget(self.form)
        scroll.setFocusPolicy(Qt.FocusPolicy.NoFocus)
        fitting = QHBoxLayout()
        fitting.setSpacing(14)
        fitting.addWidget(self.sketch)
        fitting.addWidget(scroll, 1)
        upper = QWidget()
        top = QVBoxLayout(upper)
        top.setContentsMargins(0, 0, 0, 0)
        top.addWidget(self._heading)
        top.addLayout(fitting, 1)
        lower = QWidget()
        foot = QVBoxLayout(lower)
        foot.setContentsMargins(0, 4, 0, 0)
        foot.addWidget(self._told)
        foot.addWidget(self.cuts, 1)
        right = QSplitter(Qt.Orientation.Vertical)
        right.setChildrenCollapsible(False)
        right.addWidget(upper)
        right.addWidget(lower)
        right.setStretchFactor(0, 3)
        right.setStretchFactor(1, 2)
        both = QHBoxLayout()
        both.setSpacing(14)
        both.addWidget(self.list)
        both.addWidget(right, 1)
        keeping = QHBoxLayout()
        keeping.setSpacing(10)
        keeping.addWidget(self.keep)
        keeping.addWidget(self.maker, 1)
        keeping.addWidget(self.before)
        column = QVBoxLayout(self)
        column.setContentsMargins(16, 14, 16, 12)
        column.setSpacing(10)
        words = "Measure one fitting of each kind, as its sketch shows. Write 3 1/16, or the hub's face less the socket: 4 9/16 - 1 1/2."
        column.addWidget(label(words, "quiet", wrap=True))
        column.addLayout(both, 1)
        column.addLayout(keeping)
        column.addWidget(self._fault)
        column.addWidget(self.buttons)

    # what is typed ---------------------------------------------------------------------------------------------

    @property
    def chosen(self) -> Gauge | None:
        """The fitting on show."""
        item = self.list.currentItem()
        return self._found.get(item.data(Qt.ItemDataRole.UserRole)) if item is not None else None

    @property
    def fault(self) -> str:
        """What keeps the dialog from closing, or what is wrong with the person's own file."""
        return self._fault.text()

    def _on_measured(self, leg: GaugeLeg, length: float | None) -> None:
        gauged = self.chosen
        if gauged is not None:
            self._propose(written_down(self.plan, gauged, leg, length))

    def _take_over(self) -> None:
        self._propose(taken_over(self.plan, self._own.takeoffs))

    def _propose(self, plan: Plan) -> None:
        self.plan = plan
        self._document.propose(plan)
        self._offer()

    def _on_study(self, study: Study | None) -> None:
        if study is not None and study.plan is self.plan:
            self._show(study.model)

    def _on_chosen(self) -> None:
        gauged = self.chosen
        self._heading.setText("" if gauged is None else f"{gauged.name}, {gauged.count} in this job")
        self.sketch.show_fitting(gauged)
        self.form.show_fitting(gauged)

    # what follows ----------------------------------------------------------------------------------------------

    def _show(self, model: Model) -> None:
        """List the fittings of a model, keep the chosen one, and compare its cuts with those before."""
        item = self.list.currentItem()
        kept = item.data(Qt.ItemDataRole.UserRole) if item is not None else None
        self._found = {f"{gauged.kind} {size_label(gauged.size)}": gauged for gauged in gauge(model)}
        self.list.blockSignals(True)
        self.list.clear()
        for key, gauged in self._found.items():
            made = QListWidgetItem(f"{gauged.name}\n{_state(gauged)}")
            made.setData(Qt.ItemDataRole.UserRole, key)
            self.list.addItem(made)
            if key == kept:
                self.list.setCurrentItem(made)
        if self.list.currentItem() is None and self.list.count():
            self.list.setCurrentRow(0)
        self.list.blockSignals(False)
        self._on_chosen()
        self.cuts.show_cuts(self._before, model)
        self._told.setText(self._words(model))

    def _words(self, model: Model) -> str:
        if not self._found:
            return "No cut rests on a fitting yet."
        count = len(self.cuts.changed)
        cuts = f"{count} cut{'s' if count != 1 else ''} changed" if count else "No cut is changed so far"
        moved = [
            f"{new.exit} moves from {inches(-old.chosen)} to {inches(-new.chosen)} in down"
            for old, new in zip(self._before.windows, model.windows, strict=False)
            if new.exit is not None and inches(old.chosen) != inches(new.chosen)
        ]
        return f"{'; '.join([cuts, *moved])}."

    def _offer(self) -> None:
        """Offer what the person measured before and this plan does not have."""
        more = len(taken_over(self.plan, self._own.takeoffs).takeoffs) - len(self.plan.takeoffs)
        maker = self._own.maker if len(self._own.maker) <= MOST_LETTERS else f"{self._own.maker[:MOST_LETTERS]}…"
        whose = f" on {maker}" if maker else ""
        self.before.setText(f"&Take over {more} measured before{whose.replace('&', '&&')}")
        self.before.setVisible(more > 0)

    def _complain(self, words: str) -> None:
        self._fault.setText(words)
        self._fault.setVisible(bool(words))

    # end -------------------------------------------------------------------------------------------------------

    def accept(self) -> None:
        """Keep the measures for the next plan if asked, and hand the plan over."""
        self.setFocus()
        if self.keep.isChecked() and self.plan.takeoffs:
            try:
                self._own_file.keep(with_measured(self._own, self.plan.takeoffs, self.maker.text()))
            except (OSError, OwnFittingsError) as error:
                said = error.strerror or str(error) if isinstance(error, OSError) else str(error)
                self._complain(f"What was measured can't be kept in {self._own_file.path}: {said}.")
                self.keep.setChecked(False)
                return
        self._document.study_changed.disconnect(self._on_study)
        self.made.emit(self.plan)
        self._document.drop_proposal()
        super().accept()

    def reject(self) -> None:
        """Leave the plan as it was."""
        self._document.study_changed.disconnect(self._on_study)
        self._document.drop_proposal()
        super().reject()


def _state(gauged: Gauge) -> str:
    done = sum(leg.standing == "measured" for leg in gauged.legs)
    odd = ", to look at" if any(leg.question for leg in gauged.legs) else ""
    if gauged.measured:
        return f"measured{odd}"
    return f"{done} of {len(gauged.legs)} measured{odd}" if done else "not measured"
