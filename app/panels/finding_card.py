"""One finding in full: the sentence, what was measured against which limit, what it rests on, what mends it."""

from __future__ import annotations

from collections.abc import Iterable
from math import isfinite

from PySide6.QtCore import Qt, Signal
from PySide6.QtWidgets import QGridLayout, QLabel, QPushButton, QScrollArea, QSizePolicy, QVBoxLayout, QWidget

from app.commands.quantity import against, place
from app.panels.asked import Asked
from app.panels.mend_buttons import MendButtons
from app.panels.pane import label
from app.panels.verdict import Entry
from engine.plan.records import Ruling

BY_HAND = "No button does it at one stroke: mend it by hand, as is told below."

TELLS = ("Where", "Measured", "According to", "Mend", "Ruling", "More")


class FindingCard(QScrollArea):
    """Shows one entry of the list; every text can be marked and copied.

    `mends` are the buttons of the edits that mend it, once they have been tried; `field_wanted(element, field)` asks for
    the field that would let something be judged.
    """

    field_wanted = Signal(str, str)

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.setAccessibleName("The finding in full")
        self.setWidgetResizable(True)
        self.setHorizontalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
        self._title = label(role="pane-title", wrap=True)
        self._text = _copyable()
        self._names = {tell: label(tell, "quiet") for tell in TELLS}
        self._values = {tell: _copyable() for tell in TELLS}
        sheet = QWidget()
        column = QVBoxLayout(sheet)
        column.setContentsMargins(8, 2, 8, 6)
        column.setSpacing(6)
        column.addWidget(self._title)
        column.addWidget(self._text)
        self.ask = QPushButton()
        self.ask.setProperty("role", "mend")
        self.ask.setSizePolicy(QSizePolicy.Policy.Maximum, QSizePolicy.Policy.Fixed)
        self.ask.clicked.connect(self._on_ask)
        self._asked: Asked | None = None
        column.addWidget(self.ask)
        self.mends = MendButtons(none=BY_HAND)
        column.addWidget(self.mends)
        grid = QGridLayout()
        grid.setHorizontalSpacing(12)
        grid.setVerticalSpacing(4)
        grid.setColumnStretch(1, 1)
        for row, tell in enumerate(TELLS):
            grid.addWidget(self._names[tell], row, 0, Qt.AlignmentFlag.AlignTop)
            grid.addWidget(self._values[tell], row, 1)
        column.addLayout(grid)
        column.addStretch(1)
        self.setWidget(sheet)
        self._shown: tuple[object, ...] | None = None
        self.show_entry(None, ())

    @property
    def sentence(self) -> str:
        """The finding's own sentence."""
        return self._text.text()

    @property
    def told(self) -> dict[str, str]:
        """What stands beside each heading that is shown."""
        return {tell: value.text() for tell, value in self._values.items() if value.text()}

    def show_entry(
        self, entry: Entry | None, rulings: Iterable[Ruling], others: int = 0, wants: Asked | None = None
    ) -> None:
        """Show this entry with the rulings that are about it; None invites to choose one.

        `others` is how many more the row opens into, `wants` the field that would let it be judged.
        """
        about = tuple(ruling for ruling in rulings if entry is not None and _is_about(ruling, entry))
        if (entry, about, others, wants) == self._shown:
            return
        self._shown = (entry, about, others, wants)
        self._asked = wants
        self.ask.setText(wants.words if wants is not None else "")
        self.ask.setVisible(wants is not None)
        if entry is None:
            self._title.setText("")
            self._text.setText("Choose a finding to see it in full and to go to its place.")
            self._fill({})
            return
        self._title.setText(entry.title)
        self._text.setText(entry.text)
        self._fill(
            {
                "Where": _where(entry),
                "Measured": against(entry.measured, entry.limit, entry.unit).removeprefix("measured "),
                "According to": entry.cites,
                "Mend": entry.mend,
                "Ruling": "\n".join(_told(ruling) for ruling in about),
                "More": f"{others} more like it: open the row to see each." if others else "",
            }
        )

    def _on_ask(self) -> None:
        if self._asked is not None:
            self.field_wanted.emit(self._asked.element, self._asked.field)

    def _fill(self, values: dict[str, str]) -> None:
        for tell in TELLS:
            value = values.get(tell, "")
            self._values[tell].setText(value)
            self._values[tell].setVisible(bool(value))
            self._names[tell].setVisible(bool(value))


def _copyable() -> QLabel:
    made = label(wrap=True)
    made.setTextInteractionFlags(
        Qt.TextInteractionFlag.TextSelectableByMouse | Qt.TextInteractionFlag.TextSelectableByKeyboard
    )
    return made


def _where(entry: Entry) -> str:
    named = ", ".join(entry.elements)
    return " · ".join(part for part in (named, place(entry.at) if all(map(isfinite, entry.at[:2])) else "") if part)


def _is_about(ruling: Ruling, entry: Entry) -> bool:
    return ruling.about == entry.rule or ruling.about in entry.elements


def _told(ruling: Ruling) -> str:
    who = ", ".join(part for part in (ruling.said_by, ruling.on) if part)
    return f"{ruling.text} ({who})" if who else ruling.text
