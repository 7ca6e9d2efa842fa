"""The window of joists and walls from the side: which one, the one before and the next, the drawing, and the cut picked in words."""

from __future__ import annotations

from collections.abc import Iterable

from PySide6.QtCore import QSize, Qt, Slot
from PySide6.QtGui import QAction, QKeyEvent, QShowEvent
from PySide6.QtWidgets import QComboBox, QHBoxLayout, QScrollArea, QToolButton, QVBoxLayout, QWidget

from app.document import Document
from app.elevation.subject import Subject, counted, figures, ids, runs, subjects
from app.elevation.view import ElevationView
from app.panels.own_window import OwnWindow
from app.panels.pane import Pane, label
from engine.drawings.elevations import Elevation
from engine.drawings.walls import WallView

TITLE = "Joists and walls from the side"
FIRST_SIZE = QSize(1180, 600)

_NEAR = 3.0
"""How far from a joist's middle a click may be to mean that joist, inches."""


class ElevationWindow(OwnWindow):
    """Shows one cut joist, or one wall with pipes, follows the study, and selects on the plan the run whose cut is picked."""

    def __init__(self, document: Document, actions: Iterable[QAction], parent: QWidget) -> None:
        super().__init__("elevation-window", TITLE, actions, parent)
        self._document = document
        self._all: tuple[Subject, ...] = ()
        self._pointed: tuple[float, float] | None = None
        self.view = ElevationView()
        self.joist = QComboBox()
        self.joist.setAccessibleName("Which joist or wall")
        self.joist.setSizeAdjustPolicy(QComboBox.SizeAdjustPolicy.AdjustToContents)
        self.before = self._button("Previous", "The cut joist or the wall before (Page Up)")
        self.after = self._button("Next", "The next cut joist, and after the last the first wall (Page Down)")
        self.words = label(role="quiet", wrap=True)
        self.words.setAccessibleName("The cut that is picked")
        self._lay_out()
        self.resize(FIRST_SIZE)
        self.joist.activated.connect(self.show_number)
        self.before.clicked.connect(self.last_joist)
        self.after.clicked.connect(self.next_joist)
        self.view.picked.connect(self._on_picked)
        self.view.turned.connect(self._step)
        document.study_changed.connect(self._on_study)
        document.selection_changed.connect(self._on_selection)

    def _button(self, words: str, tip: str) -> QToolButton:
        button = QToolButton()
        button.setText(words)
        button.setToolTip(tip)
        button.setAccessibleName(words)
        button.setAccessibleDescription(tip)
        button.setFocusPolicy(Qt.FocusPolicy.StrongFocus)
        return button

    def _lay_out(self) -> None:
        sheet = Pane(TITLE)
        sheet.rim.addWidget(label("heights are drawn larger than lengths: go by the figures", role="quiet"))
        row = QHBoxLayout()
        row.setContentsMargins(4, 0, 4, 0)
        row.setSpacing(6)
        for widget in (self.before, self.joist, self.after):
            row.addWidget(widget)
        row.addStretch(1)
        scroll = QScrollArea()
        scroll.setWidgetResizable(True)
        scroll.setFocusPolicy(Qt.FocusPolicy.NoFocus)
        scroll.setWidget(self.view)
        sheet.body.addLayout(row)
        sheet.body.addWidget(scroll, 1)
        sheet.body.addWidget(self.words)
        whole = QVBoxLayout(self)
        whole.setContentsMargins(6, 6, 6, 6)
        whole.addWidget(sheet)

    # which joist -----------------------------------------------------------------------------------------------

    @Slot(int)
    def show_number(self, number: int) -> None:
        """Show one of the cut joists, counted in the order in which one walks them, or of the walls after them."""
        shown = self._all[number] if 0 <= number < len(self._all) else None
        self.joist.setCurrentIndex(number if shown is not None else -1)
        self.before.setEnabled(shown is not None and number > 0)
        self.after.setEnabled(shown is not None and number + 1 < len(self._all))
        self.view.show_elevation(shown)
        self._point_to_selection()
        self._tell()

    @Slot()
    def next_joist(self) -> None:
        """The next cut joist or wall."""
        self._step(1)

    @Slot()
    def last_joist(self) -> None:
        """The cut joist or wall before."""
        self._step(-1)

    @Slot(int)
    def _step(self, by: int) -> None:
        number = self.joist.currentIndex() + by
        if 0 <= number < len(self._all):
            self.show_number(number)

    def point_to(self, at: tuple[float, float] | None) -> None:
        """Remember where the pointer is on the plan: a joist field that is chosen there means the joist under it."""
        if at is not None:
            self._pointed = at

    def _under_pointer(self, chosen: frozenset[str]) -> int | None:
        """The drawing of the cut joist nearest to the pointer, where its field is what was chosen."""
        study = self._document.study
        if study is None or self._pointed is None:
            return None
        x, y = self._pointed
        found = []
        for number, one in enumerate(self._all):
            for name in one.joists if isinstance(one, Elevation) else ():
                joist = study.model.joists[name]
                if joist.field in chosen:
                    away = abs(x - joist.start[0]) if joist.along[1] else abs(y - joist.start[1])
                    found.append((away, number))
        return min(found)[1] if found and min(found)[0] <= _NEAR else None

    # following -------------------------------------------------------------------------------------------------

    def showEvent(self, event: QShowEvent) -> None:
        """Catch up with the study; the drawing has the keyboard."""
        super().showEvent(event)
        self._renew()
        self._on_selection(self._document.selection)
        self.view.setFocus(Qt.FocusReason.OtherFocusReason)

    def keyPressEvent(self, event: QKeyEvent) -> None:
        """Escape closes the window."""
        if event.key() == Qt.Key.Key_Escape:
            self.close()
        else:
            super().keyPressEvent(event)

    def let_go(self) -> None:
        """Stop following the document, and close."""
        self._document.study_changed.disconnect(self._on_study)
        self._document.selection_changed.disconnect(self._on_selection)
        self.hide()

    @Slot(object)
    def _on_study(self, _study: object) -> None:
        if self.isVisible():
            self._renew()

    def _renew(self) -> None:
        """Show the latest study; what is on show stays where it is still cut."""
        study = self._document.study
        here = set(ids(self.view.shown)) if self.view.shown is not None else set()
        self._all = subjects(study)
        self.joist.clear()
        self.joist.addItems([counted(one) for one in self._all])
        self.joist.setEnabled(bool(self._all))
        self.show_number(next((n for n, one in enumerate(self._all) if here & set(ids(one))), 0))

    @Slot(object)
    def _on_selection(self, chosen: frozenset[str]) -> None:
        """Go to a wall chosen on the plan, or to the first joist or wall that a run chosen there cuts, unless it is on show."""
        if not self.isVisible() or not chosen:
            return
        wall = next((n for n, one in enumerate(self._all) if isinstance(one, WallView) and one.wall in chosen), None)
        if wall is not None:
            self.show_number(wall)
            return
        under = self._under_pointer(chosen)
        if under is not None:
            self.show_number(under)
            return
        cut = [n for n, one in enumerate(self._all) if any(chosen.intersection(own) for own in runs(one))]
        if cut and self.joist.currentIndex() not in cut:
            self.show_number(cut[0])
        else:
            self._point_to_selection()
            self._tell()

    def _point_to_selection(self) -> None:
        """Ring the first cut of what is selected, unless one of them is ringed already."""
        shown, chosen = self.view.shown, self._document.selection
        if shown is None:
            return
        own = [n for n, those in enumerate(runs(shown)) if chosen.intersection(those)]
        if self.view.held not in own:
            self.view.hold(own[0] if own else None)

    @Slot(int)
    def _on_picked(self, cut: int) -> None:
        shown = self.view.shown
        if shown is not None:
            self._document.select(runs(shown)[cut])
            self._tell()

    def _tell(self) -> None:
        """The picked cut in words, for who hears the window instead of seeing it."""
        shown, held = self.view.shown, self.view.held
        self.view.setAccessibleDescription("" if shown is None else f"{shown.title}; {'; '.join(shown.facts)}")
        if shown is None or held is None:
            self.words.setText("Pick a cut to read its figures here and to select its run on the plan.")
            return
        self.words.setText(figures(shown, held))
