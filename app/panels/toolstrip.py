"""The tools by picture, word and letter; the one in hand stands out."""

from __future__ import annotations

from PySide6.QtCore import QSize, Qt, Signal
from PySide6.QtGui import QAction, QActionGroup, QKeySequence
from PySide6.QtWidgets import QGridLayout, QSizePolicy, QToolButton, QWidget

from app.panels.pane import Pane
from app.theme import icon
from app.tools import TOOLS

COLUMNS = 2
PICTURE = QSize(20, 20)


class ToolStrip(Pane):
    """A button for each tool; `taken(name)` tells which was chosen. Its actions stand in a menu as well."""

    taken = Signal(str)

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__("Draw", parent)
        self._group = QActionGroup(self)
        self._group.setExclusionPolicy(QActionGroup.ExclusionPolicy.ExclusiveOptional)
        self.actions_by_tool: dict[str, QAction] = {}
        self.buttons: dict[str, QToolButton] = {}
        grid = QGridLayout()
        grid.setSpacing(2)
        for number, name in enumerate(TOOLS):
            self.actions_by_tool[name] = action = self._action(name)
            self.buttons[name] = button = _button(action)
            grid.addWidget(button, number // COLUMNS, number % COLUMNS)
        self.body.addLayout(grid)
        self._group.triggered.connect(self._on_taken)

    def home(self) -> QWidget:
        """The tool in hand."""
        checked = self._group.checkedAction()
        return self.buttons[checked.objectName() if checked else next(iter(self.buttons))]

    def point_to(self, tool: str) -> None:
        """Show this tool as the one in hand; none when it is no tool of the strip."""
        for name, action in self.actions_by_tool.items():
            action.setChecked(name == tool)

    def _action(self, name: str) -> QAction:
        tool = TOOLS[name]
        action = QAction(icon(name), tool.title, self._group)
        action.setShortcut(QKeySequence(tool.key))
        action.setIconText(tool.title)
        action.setObjectName(name)
        action.setCheckable(True)
        action.setToolTip(f"{tool.title}: {tool.hint} (letter {tool.key})")
        action.setStatusTip(tool.hint)
        return action

    def _on_taken(self, action: QAction) -> None:
        action.setChecked(True)
        self.taken.emit(action.objectName())


def _button(action: QAction) -> QToolButton:
    button = QToolButton()
    button.setDefaultAction(action)
    button.setIconSize(PICTURE)
    button.setToolButtonStyle(Qt.ToolButtonStyle.ToolButtonTextBesideIcon)
    button.setSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Fixed)
    button.setAccessibleName(action.iconText())
    button.setAccessibleDescription(action.toolTip())
    button.setFocusPolicy(Qt.FocusPolicy.StrongFocus)
    return button
