"""How the panes share the window: tools and shelf, canvas over fall strip and findings, what is told of the selection."""

from __future__ import annotations

from collections.abc import Mapping

from PySide6.QtCore import Qt
from PySide6.QtWidgets import QSplitter, QVBoxLayout, QWidget

from app.window import from_text, to_text

MARGIN = 6
LEFT, RIGHT = 244, 368
"""First widths of the columns beside the canvas, pixels."""

LEAST_RIGHT = 300
"""The right column never gets narrower than its fields need, pixels."""

CANVAS, STRIP, FINDINGS = 410, 200, 224
"""First heights in the middle column, pixels."""


class Layout(QWidget):
    """Three columns over a foot line; the person may draw their borders, and they are remembered."""

    def __init__(
        self,
        left: tuple[QWidget, QWidget],
        middle: tuple[QWidget, QWidget, QWidget],
        right: tuple[QWidget, QWidget, QWidget],
        foot: QWidget,
    ) -> None:
        super().__init__()
        first = QWidget()
        first.setFixedWidth(LEFT)
        column = QVBoxLayout(first)
        column.setContentsMargins(0, 0, 0, 0)
        column.setSpacing(MARGIN)
        column.addWidget(left[0])
        column.addWidget(left[1], 1)
        down, across = Qt.Orientation.Vertical, Qt.Orientation.Horizontal
        self._middle = _splitter(down, (middle[0], 5), (middle[1], 1), (middle[2], 2))
        self._middle.setSizes([CANVAS, STRIP, FINDINGS])
        self._right = _splitter(down, (right[0], 5), (right[1], 0), (right[2], 3))
        self._right.setMinimumWidth(LEAST_RIGHT)
        self._whole = _splitter(across, (first, 0), (self._middle, 1), (self._right, 0))
        self._whole.setSizes([LEFT, 10 * LEFT, RIGHT])
        sheet = QVBoxLayout(self)
        sheet.setContentsMargins(MARGIN, MARGIN, MARGIN, 0)
        sheet.setSpacing(MARGIN)
        sheet.addWidget(self._whole, 1)
        sheet.addWidget(foot)

    def splits(self) -> dict[str, str]:
        """Where the borders stand, as texts for the settings."""
        return {name: to_text(splitter.saveState()) for name, splitter in self._named().items()}

    def restore(self, splits: Mapping[str, str]) -> None:
        """Put the borders where they stood."""
        for name, splitter in self._named().items():
            if name in splits:
                splitter.restoreState(from_text(splits[name]))

    def _named(self) -> dict[str, QSplitter]:
        return {"whole": self._whole, "middle": self._middle, "right": self._right}


def _splitter(direction: Qt.Orientation, *parts: tuple[QWidget, int]) -> QSplitter:
    made = QSplitter(direction)
    made.setChildrenCollapsible(False)
    made.setHandleWidth(MARGIN)
    for number, (widget, stretch) in enumerate(parts):
        made.addWidget(widget)
        made.setStretchFactor(number, stretch)
    return made
