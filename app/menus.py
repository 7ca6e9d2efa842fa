"""The menu bar, made from the declared commands, the tools and the canvas's layers."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from pathlib import Path

from PySide6.QtCore import QSize, Qt, Signal
from PySide6.QtGui import QAction, QKeySequence
from PySide6.QtWidgets import QHBoxLayout, QMenu, QMenuBar, QToolButton, QWidget

from app.actions import MENUS, in_menu
from app.canvas.picture import LAYERS

AT_HAND = ("undo", "redo", "print_set")
"""Commands that stand as buttons at the end of the menu bar too."""

LAYERS_WITH_KEYS = 9
"""Layers from the first on that get Ctrl+Alt and a digit; the others are reached by the menu."""


class Menus(QMenuBar):
    """The menus; `recent_wanted(path)` and `layer_toggled(name, visible)` tell what was chosen from lists."""

    recent_wanted = Signal(object)
    layer_toggled = Signal(str, bool)

    def __init__(
        self,
        actions: Mapping[str, QAction],
        tools: Mapping[str, QAction],
        recent: Callable[[], tuple[str, ...]],
        parent: QWidget | None = None,
    ) -> None:
        super().__init__(parent)
        self._recent = recent
        self.layers: dict[str, QAction] = {}
        for title in MENUS:
            menu = self.addMenu(f"&{title}")
            menu.setToolTipsVisible(True)
            if title == "Draw":
                menu.addActions(list(tools.values()))
            if title == "View":
                self._add_layers(menu.addMenu("&Layers"))
            for command in in_menu(title):
                if command.gap_before:
                    menu.addSeparator()
                menu.addAction(actions[command.name])
                if command.name == "open":
                    self._add_recent(menu)
        self._at_hand = _buttons([actions[name] for name in AT_HAND])
        self.setCornerWidget(self._at_hand, Qt.Corner.TopRightCorner)

    def show_layers(self, hidden: tuple[str, ...]) -> None:
        """Tick every layer but these."""
        for name, action in self.layers.items():
            action.setChecked(name not in hidden)

    @property
    def hidden_layers(self) -> tuple[str, ...]:
        """Names of the layers that are not ticked."""
        return tuple(name for name, action in self.layers.items() if not action.isChecked())

    def _add_layers(self, menu: QMenu) -> None:
        for number, (name, words) in enumerate(LAYERS.items(), 1):
            action = menu.addAction(words)
            action.setObjectName(f"layer_{name}")
            action.setCheckable(True)
            action.setChecked(True)
            if number <= LAYERS_WITH_KEYS:
                action.setShortcut(QKeySequence(f"Ctrl+Alt+{number}"))
            action.setData(name)
            action.toggled.connect(self._on_layer)
            self.layers[name] = action

    def _on_layer(self, visible: bool) -> None:
        action = self.sender()
        if isinstance(action, QAction):
            self.layer_toggled.emit(action.data(), visible)

    def _add_recent(self, menu: QMenu) -> None:
        self.recent_menu = menu.addMenu("Open &recent")
        self.recent_menu.aboutToShow.connect(self.fill_recent)
        self.fill_recent()

    def fill_recent(self) -> None:
        """List the plans opened last, as the settings have them now."""
        self.recent_menu.clear()
        for number, name in enumerate(self._recent(), 1):
            path = Path(name)
            action = self.recent_menu.addAction(f"&{number}  {path.name}  ({path.parent})".replace("&&", "&"))
            action.setObjectName(f"recent_{number}")
            action.setData(path)
            action.triggered.connect(self._on_recent)
        self.recent_menu.menuAction().setEnabled(not self.recent_menu.isEmpty())

    def _on_recent(self) -> None:
        action = self.sender()
        if isinstance(action, QAction):
            self.recent_wanted.emit(action.data())


def _buttons(actions: list[QAction]) -> QWidget:
    row = QWidget()
    line = QHBoxLayout(row)
    line.setContentsMargins(0, 2, 8, 2)
    line.setSpacing(2)
    for action in actions:
        button = QToolButton()
        button.setDefaultAction(action)
        button.setIconSize(QSize(18, 18))
        button.setAccessibleName(action.text().replace("&", "").removesuffix("…"))
        line.addWidget(button)
    return row
