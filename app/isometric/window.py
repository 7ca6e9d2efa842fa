"""The isometric's own window: the view, its buttons, and the same in words beside it."""

from __future__ import annotations

from collections.abc import Iterable
from typing import get_args

from PySide6.QtCore import QSize, Qt, Signal
from PySide6.QtGui import QAction, QCloseEvent, QKeyEvent
from PySide6.QtWidgets import QApplication, QButtonGroup, QHBoxLayout, QSplitter, QToolButton, QVBoxLayout, QWidget

from app.document import Document
from app.isometric.view import ZOOM_STEP, IsometricView
from app.panels.grouped import Group, GroupedTree, Row
from app.panels.own_window import OwnWindow
from app.panels.pane import Pane, label
from app.theme import icon
from app.window import from_text, to_text
from engine.drawings.isometric.axes import CORNERS
from engine.drawings.isometric.skeleton import Cover
from engine.drawings.isometric.telling import Told

TITLE = "Isometric"
FIRST_SIZE = QSize(1120, 740)
LIST_WIDTH = 340
LEAST_LIST = 260
PICTURE = QSize(20, 20)

COVERS: dict[Cover, str] = {"drains": "Drains and vents", "water": "Water"}
"""The two isometrics by their buttons' words."""

SHARED = ("undo", "redo", "save", "isometric", "keys")
"""The main window's commands that work here by their keys too."""


class IsometricWindow(OwnWindow):
    """Shows the isometric beside the plan. `edit_wanted(id)` asks for an element's properties."""

    edit_wanted = Signal(str)

    def __init__(self, document: Document, actions: Iterable[QAction], parent: QWidget) -> None:
        super().__init__("isometric-window", TITLE, actions, parent)
        self._document = document
        self.view = IsometricView(document)
        self.tree = GroupedTree("Pieces and parts in words", many=False)
        self.corner = label(role="quiet")
        self.words = label(role="quiet")
        self.words.setMinimumWidth(1)
        self.buttons: dict[str, QToolButton] = {}
        self._covers = QButtonGroup(self)
        self._split = QSplitter(Qt.Orientation.Horizontal)
        self._lay_out()
        self.resize(FIRST_SIZE)
        self.view.turned.connect(self._on_turned)
        self.view.edit_requested.connect(self.edit_wanted)
        self.view.described.connect(self.words.setText)
        self.tree.chosen.connect(self._on_chosen)
        self.tree.activated.connect(self._on_activated)
        document.selection_changed.connect(self._on_selection)
        document.study_changed.connect(self._on_study)

    # putting together ------------------------------------------------------------------------------------------

    def _lay_out(self) -> None:
        sheet, listed = Pane(TITLE), Pane("In words")
        listed.body.addWidget(self.tree)
        sheet.rim.addWidget(self.corner)
        row = QHBoxLayout()
        row.setContentsMargins(4, 0, 4, 0)
        row.setSpacing(4)
        for cover, title in COVERS.items():
            button = self._button(cover, title, f"Show {title.lower()}")
            button.setCheckable(True)
            button.setChecked(cover == self.view.cover)
            self._covers.addButton(button)
            button.toggled.connect(self._on_cover)
            row.addWidget(button)
        row.addStretch(1)
        for name, words, tip, picture, does in (
            (
                "turn_left",
                "Turn left",
                "See it from the next corner to the left (Shift+T)",
                "turn_left",
                self.turn_left,
            ),
            ("turn_right", "Turn right", "See it from the next corner to the right (T)", "turn_right", self.turn_right),
            ("nearer", "Nearer", "Come nearer (+)", "", self.nearer),
            ("farther", "Farther", "Step back (-)", "", self.farther),
            ("whole", "Whole", "See the whole of it (F)", "", self.view.frame_all),
        ):
            button = self._button(name, words, tip, picture)
            button.clicked.connect(does)
            row.addWidget(button)
        sheet.body.addLayout(row)
        sheet.body.addWidget(self.view, 1)
        sheet.body.addWidget(self.words)
        listed.setMinimumWidth(LEAST_LIST)
        self._split.setChildrenCollapsible(False)
        self._split.addWidget(sheet)
        self._split.addWidget(listed)
        self._split.setStretchFactor(0, 1)
        self._split.setSizes([FIRST_SIZE.width() - LIST_WIDTH, LIST_WIDTH])
        whole = QVBoxLayout(self)
        whole.setContentsMargins(6, 6, 6, 6)
        whole.addWidget(self._split)

    def _button(self, name: str, words: str, tip: str, picture: str = "") -> QToolButton:
        button = QToolButton()
        button.setText(words)
        button.setToolTip(tip)
        button.setAccessibleName(words)
        button.setAccessibleDescription(tip)
        button.setFocusPolicy(Qt.FocusPolicy.StrongFocus)
        if picture:
            button.setIcon(icon(picture))
            button.setIconSize(PICTURE)
            button.setToolButtonStyle(Qt.ToolButtonStyle.ToolButtonTextBesideIcon)
        self.buttons[name] = button
        return button

    # what the buttons do ---------------------------------------------------------------------------------------

    def turn_left(self) -> None:
        """See it from the next corner to the left."""
        self.view.turn_by(-1)

    def turn_right(self) -> None:
        """See it from the next corner to the right."""
        self.view.turn_by(1)

    def nearer(self) -> None:
        """Come nearer."""
        self.view.zoom_by(ZOOM_STEP)

    def farther(self) -> None:
        """Step back."""
        self.view.zoom_by(1.0 / ZOOM_STEP)

    # standing --------------------------------------------------------------------------------------------------

    def come_forward(self, place: str = "") -> None:
        """Show the window, the first time where it stood last, and give it the keyboard."""
        if place and not self.isVisible():
            self.restoreGeometry(from_text(place))
        self.show()
        self.raise_()
        self.activateWindow()
        self.view.setFocus(Qt.FocusReason.OtherFocusReason)

    @property
    def place(self) -> str:
        """Where the window stands, as a text for the settings."""
        return to_text(self.saveGeometry())

    def let_go(self) -> None:
        """Stop following the document, and close."""
        self.view.let_go()
        self._document.selection_changed.disconnect(self._on_selection)
        self._document.study_changed.disconnect(self._on_study)
        self.hide()

    def closeEvent(self, event: QCloseEvent) -> None:
        """Step aside; the window comes back as it was."""
        event.accept()

    def keyPressEvent(self, event: QKeyEvent) -> None:
        """F6 goes round the window's three parts."""
        if event.key() == Qt.Key.Key_F6:
            self._go(-1 if event.modifiers() & Qt.KeyboardModifier.ShiftModifier else 1)
            return
        super().keyPressEvent(event)

    def _go(self, by: int) -> None:
        stops: tuple[QWidget, ...] = (self.view, self.tree, self.buttons["turn_left"])
        here = QApplication.focusWidget()
        number = stops.index(here) if here in stops else len(stops) - 1
        stops[(number + by) % len(stops)].setFocus(Qt.FocusReason.TabFocusReason)

    # following -------------------------------------------------------------------------------------------------

    def _on_turned(self, corner: int) -> None:
        self.corner.setText(f"seen from the {CORNERS[corner]}")
        self._tell()

    def _on_cover(self, on: bool) -> None:
        button = self.sender()
        if on:
            for name in get_args(Cover):
                if self.buttons[name] is button:
                    self.view.show_cover(name)
                    self._tell()

    def _on_study(self) -> None:
        if self.isVisible():
            self._tell()

    def _tell(self) -> None:
        """Put the pieces and parts into words."""
        subject = self.view.subject
        told = subject.told if subject is not None else ((), ())
        pipes = "Pieces" if self.view.cover == "drains" else "Runs"
        groups = [
            Group(name, f"{title} ({len(lines)})", None, tuple(map(_row, lines)))
            for name, title, lines in (("pipes", pipes, told[0]), ("parts", "Fittings and other parts", told[1]))
            if lines
        ]
        self.tree.renew(groups)
        if self.view.held is None:
            self.words.setText("")
        self._on_selection(self._document.selection)

    def _on_selection(self, chosen: frozenset[str]) -> None:
        """Point to what the picture holds, else to the first line that belongs to the selection."""
        held = self.view.held
        glowing = self.view.glowing
        if held is None:
            order = [row.key for group in self.tree.rows.groups for row in group.rows]
            held = next((str(key) for key in order if key in glowing), None)
        self.tree.point_to((held,) if held is not None else ())
        if not chosen:
            self.words.setText("")

    def _on_chosen(self, keys: tuple[str, ...]) -> None:
        if keys:
            self.view.hold(keys[0])
            self.view.reveal(keys[0])

    def _on_activated(self) -> None:
        if self.tree.selected:
            self.view.hold(str(self.tree.selected[0]))
            elements = [each for each in self._document.elements if each in self._document.selection]
            if elements:
                self.edit_wanted.emit(elements[0])


def _row(told: Told) -> Row:
    """A line of the list; a piece's mark and length are never shortened away."""
    return Row(told.name, told.text, told.text, apart=(0, max(0, told.text.find(", from"))))
