"""What vents each trap: a list in step with the selection, and the one that is chosen in full."""

from __future__ import annotations

from typing import cast

from PySide6.QtCore import Qt, Signal
from PySide6.QtWidgets import QGridLayout, QSplitter, QVBoxLayout, QWidget

from app.document import Document
from app.panels.grouped import Group, GroupedTree, Row
from app.panels.pane import Pane, label
from app.theme import icon
from engine.lengths import feet_inches
from engine.study import Study
from engine.takeoff.vent_rows import VentRow, vent_rows

STATES = {
    "not vented": ("No vent serves these", "stop"),
    "too far": ("Too far from their vent", "stop"),
    "not judged": ("Not judged", "not_judged"),
    "vented": ("Vented", "calm"),
}
"""How traps may stand with air, worst first, each with its heading and sign."""
TELLS = ("Method", "Air goes", "Away", "May be", "Limit")


class VentsPane(Pane):
    """Lists every trap with its vent; choosing one selects its fixture. `place_wanted(x, y)` asks to show where its air is."""

    place_wanted = Signal(object)

    def __init__(self, document: Document, parent: QWidget | None = None) -> None:
        super().__init__("What vents each trap", parent)
        self._document = document
        self._count = label(role="quiet")
        self.rim.addWidget(self._count)
        self.tree = GroupedTree("Traps by how they are vented", many=False)
        self.tree.chosen.connect(self._on_chosen)
        self.card = _Card()
        listed = QSplitter(Qt.Orientation.Horizontal)
        listed.setObjectName("inner")
        listed.setChildrenCollapsible(False)
        listed.setHandleWidth(8)
        listed.addWidget(self.tree)
        listed.addWidget(self.card)
        listed.setSizes([380, 380])
        self.body.addWidget(listed)
        self._rows: dict[str, VentRow] = {}
        document.selection_changed.connect(self._on_selection)
        document.study_changed.connect(self.show_study)
        self.show_study(document.study)

    def home(self) -> QWidget:
        """The list."""
        return self.tree

    def show_study(self, study: Study | None) -> None:
        """List what this study says of each trap."""
        rows = vent_rows(study.model) if study is not None else ()
        self._rows = {row.fixture: row for row in rows}
        groups = []
        for state, (title, sign) in STATES.items():
            found = tuple(Row(row.fixture, _line(row), row.how) for row in rows if row.state == state)
            if found:
                groups.append(Group(state, f"{title} ({len(found)})", icon(sign), found))
        self.tree.renew(groups)
        vented = sum(row.state == "vented" for row in rows)
        self._count.setText(f"{vented} of {len(rows)} vented" if rows else "no trap is drained yet")
        self._on_selection(self._document.selection)

    def _on_chosen(self, keys: tuple[str, ...]) -> None:
        row = self._rows.get(keys[0]) if keys else None
        self.card.show_row(row)
        if row is not None:
            self._document.select((row.fixture,))
            self.place_wanted.emit(row.at)

    def _on_selection(self, chosen: frozenset[str]) -> None:
        fixture = next(iter(chosen)) if len(chosen) == 1 else None
        here = cast("tuple[str, ...]", self.tree.selected)
        if fixture in self._rows:
            if here != (fixture,):
                self.tree.point_to((fixture,))
            self.card.show_row(self._rows[fixture])
        else:
            self.tree.point_to(())
            self.card.show_row(None)


class _Card(QWidget):
    """One trap in full."""

    def __init__(self) -> None:
        super().__init__()
        self.title, self.how = label(role="pane-title", wrap=True), label(wrap=True)
        self._names = {tell: label(tell, "quiet") for tell in TELLS}
        self._values = {tell: label(wrap=True) for tell in TELLS}
        grid = QGridLayout()
        grid.setHorizontalSpacing(12)
        grid.setVerticalSpacing(4)
        grid.setColumnStretch(1, 1)
        for number, tell in enumerate(TELLS):
            grid.addWidget(self._names[tell], number, 0, Qt.AlignmentFlag.AlignTop)
            grid.addWidget(self._values[tell], number, 1)
        column = QVBoxLayout(self)
        column.setContentsMargins(8, 2, 8, 6)
        column.setSpacing(6)
        column.addWidget(self.title)
        column.addWidget(self.how)
        column.addLayout(grid)
        column.addStretch(1)
        self.show_row(None)

    @property
    def told(self) -> dict[str, str]:
        """What stands beside each heading that is shown."""
        return {tell: value.text() for tell, value in self._values.items() if value.text()}

    def show_row(self, row: VentRow | None) -> None:
        """Show a trap; None invites to choose one."""
        if row is None:
            self.title.setText("")
            self.how.setText("Choose a trap to see what vents it; the way of its air is marked on the plan.")
            self._fill({})
            return
        self.title.setText(f"{row.words}, trap {row.trap}")
        self.how.setText(row.how)
        self._fill(
            {
                "Method": f"{row.method} ({row.section})" if row.method else row.section,
                "Air goes": row.air,
                "Away": "" if row.distance is None else f"{feet_inches(row.distance)} along the pipe",
                "May be": "any length" if row.limit is None else feet_inches(row.limit),
                "Limit": row.limit_section,
            }
        )

    def _fill(self, values: dict[str, str]) -> None:
        for tell in TELLS:
            value = values.get(tell, "")
            self._values[tell].setText(value)
            self._values[tell].setVisible(bool(value))
            self._names[tell].setVisible(bool(value))


def _line(row: VentRow) -> str:
    if row.method == "" or row.distance is None:
        return f"{row.words}: {row.method or row.how}"
    limit = "any length" if row.limit is None else feet_inches(row.limit)
    return f"{row.words}: {row.method}, {feet_inches(row.distance)} of {limit}"
