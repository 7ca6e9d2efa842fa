"""The plan's settings: what holds for the whole floor rather than for one thing on it."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any, get_args

import msgspec
from PySide6.QtCore import QSize, Qt, Signal
from PySide6.QtWidgets import QDialog, QDialogButtonBox, QFormLayout, QTabWidget, QVBoxLayout, QWidget

from app.dialogs.amendments import AmendmentsPage
from app.dialogs.plan_rows import (
    TAKEOFF_COLUMNS,
    RowError,
    amendments_of,
    ruling_columns,
    ruling_rows,
    rulings_of,
    stick_columns,
    stick_rows,
    sticks_of,
    takeoff_rows,
    takeoffs_of,
)
from app.dialogs.rows import Cells, RowsTable
from app.panels.editors import ChosenEditor, Editor, TickedEditor, WrittenEditor
from app.panels.pane import label
from app.panels.writing import LAYERS, LENGTH, SLOPE, TEMPERATURE, WORDS, Writing
from engine.plan.descriptions import FIELDS as FIELD_WORDS
from engine.plan.file import PlanFileError, dumps
from engine.plan.records import FloorLayer, Plan, SeismicCategory
from engine.rulebooks import AmendmentError, RuleBook, load, names

Place = tuple[str, str]

JOB: tuple[tuple[Place, str, Writing], ...] = (
    (("Plan", "name"), "Name of the job", WORDS),
    (("Plan", "place"), "Where it is", WORDS),
    (("Plan", "drawn_by"), "Drawn by", WORDS),
    (("Plan", "drawn_on"), "Drawn on", WORDS),
)
FLOOR: tuple[tuple[Place, str, Writing], ...] = (
    (("Floor", "subfloor_layers"), "Subfloor", LAYERS),
    (("Floor", "finish_layers"), "Finished flooring", LAYERS),
    (("Floor", "roof_above_floor"), "Roof above finished floor", LENGTH),
    (("Floor", "snow"), "Snow to clear", LENGTH),
)
OPEN: tuple[tuple[Place, str, Writing], ...] = (
    (("Floor", "belly"), "Belly below the joists", LENGTH),
    (("Floor", "crawl"), "Clear height under the joists", LENGTH),
    (("Floor", "design_temp"), "Winter design temperature", TEMPERATURE),
)
"""What may be left empty, because it is not known."""

UNKNOWN = "not known"
ROOF_DECK = "People use the roof as a deck"
SEISMIC = "Seismic design category"
MATERIALS = (("PVC", "PVC"), ("ABS", "ABS"))
READ: dict[str, Callable[[list[Cells]], object]] = {
    "rulings": rulings_of,
    "takeoffs": takeoffs_of,
    "sticks": sticks_of,
}
"""What reads the rows of each list that asks for no rule book."""


class PlanSettingsDialog(QDialog):
    """Edits what holds for the whole plan; `made(plan)` brings the plan that follows, once it is accepted."""

    made = Signal(object)

    def __init__(self, plan: Plan, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.setAttribute(Qt.WidgetAttribute.WA_DeleteOnClose)
        self.setWindowTitle("Plan settings")
        self.plan = plan
        self.editors: dict[Place, Editor] = {}
        self._values: dict[Place, Any] = {}
        book = load(_known(plan.rulebook))
        from engine.checks import ALL_RULES

        self.amending = AmendmentsPage(plan, book)
        self.amendments = self.amending.rows
        self._amended_by = (book.name, self.amendments.rows())
        self.rulings = RowsTable(
            "Rulings",
            "What your official decided about one thing or one rule. It is printed beside the finding, which stays.",
            ruling_columns(plan, tuple(rule.id for rule in ALL_RULES)),
        )
        self.takeoffs = RowsTable(
            "Measured take-offs",
            "What you measured on the fittings in your hand, from the centre to where the pipe stops. It replaces the "
            "catalogue in every cut. Sizes: 3, or run in x run out x branch, 3x3x2.",
            TAKEOFF_COLUMNS,
        )
        self.sticks = RowsTable(
            "Sticks for sale",
            "The lengths of drain pipe that your store sells. Sizes that are not named come in the usual lengths. Where every "
            "length of a size has a price, the cheapest sticks are chosen, else the least total length; then the fewest.",
            stick_columns(plan.material),
        )
        self.sticks.show_rows(stick_rows(plan))
        self.rulings.show_rows(ruling_rows(plan))
        self.takeoffs.show_rows(takeoff_rows(plan))

        self.tabs = QTabWidget()
        self.tabs.setAccessibleName("Parts of the settings")
        self.tabs.addTab(self._general(plan), "&Job, floor and pipe")
        self.tabs.addTab(self.amending, "Local a&mendments")
        self.tabs.addTab(self.rulings, "&Rulings")
        self.tabs.addTab(self.takeoffs, "Measured take-&offs")
        self.tabs.addTab(self.sticks, "Sti&cks for sale")
        self._fault = label(role="fault", wrap=True)
        self._fault.setAccessibleName("What is wrong with the settings")
        button = QDialogButtonBox.StandardButton
        buttons = QDialogButtonBox(button.Ok | button.Cancel)
        buttons.button(button.Ok).setText("Use these")
        buttons.accepted.connect(self.accept)
        buttons.rejected.connect(self.reject)
        column = QVBoxLayout(self)
        column.addWidget(self.tabs, 1)
        column.addWidget(self._fault)
        column.addWidget(buttons)
        self.resize(QSize(1000, 640))

    @property
    def fault(self) -> str:
        """Why the settings can't stand; empty when nothing was refused."""
        return self._fault.text()

    def accept(self) -> None:
        """Make the plan that the settings ask for, or say what keeps it from being one."""
        self.setFocus()
        wrong = next((place for place, editor in self.editors.items() if editor.complaint), None)
        if wrong is not None:
            self._refuse(0, self.editors[wrong].complaint)
            return
        book = load(self._values["Plan", "rulebook"])
        if self._carried_over(book):
            return
        made: dict[str, Any] = {}
        for tab, table, name in (
            (1, self.amendments, "amendments"),
            (2, self.rulings, "rulings"),
            (3, self.takeoffs, "takeoffs"),
            (4, self.sticks, "sticks"),
        ):
            try:
                if name == "amendments":
                    made[name] = amendments_of(table.rows(), book)
                    load(book.name, made[name])
                else:
                    made[name] = READ[name](table.rows())
            except RowError as fault:
                self._refuse(tab, str(fault))
                table.point_to(fault.row)
                return
            except AmendmentError as fault:
                self._refuse(tab, str(fault))
                return
        floor = msgspec.structs.replace(self.plan.floor, **_stacked(self._changed("Floor")))
        after = msgspec.structs.replace(self.plan, floor=floor, **self._changed("Plan"), **made)
        try:
            dumps(after)
        except PlanFileError as fault:
            self._refuse(0, str(fault))
            return
        self.plan = after
        self.made.emit(after)
        super().accept()

    def _carried_over(self, book: RuleBook) -> bool:
        """Whether amendments of another book would hold unseen in this one: that is asked once, row by row."""
        made_for, rows = self._amended_by
        self._amended_by = book.name, self.amendments.rows()
        if made_for == book.name or not rows or rows != self.amendments.rows():
            return False
        before = load(made_for).short
        self._refuse(
            1,
            f"These amendments were made for {before} and its numbers. Look at each beside what {book.short} has, take away "
            "what does not hold there, then choose “Use these” again.",
        )
        return True

    def _refuse(self, tab: int, reason: str) -> None:
        self.tabs.setCurrentIndex(tab)
        self._fault.setText(reason)

    def _changed(self, record: str) -> dict[str, Any]:
        return {name: value for (owner, name), value in self._values.items() if owner == record}

    def _general(self, plan: Plan) -> QWidget:
        sheet = QWidget()
        form = QFormLayout(sheet)
        form.setContentsMargins(16, 14, 16, 14)
        form.setHorizontalSpacing(14)
        form.setVerticalSpacing(8)
        for place, words, writing in JOB:
            self._add(form, place, words, WrittenEditor(words, writing, optional=False))
        for place, words, writing in FLOOR:
            self._add(form, place, words, WrittenEditor(words, writing, optional=False))
        for place, words, writing in OPEN:
            self._add(form, place, words, WrittenEditor(words, writing, optional=True))
        self._add(form, ("Floor", "roof_deck"), "", TickedEditor(ROOF_DECK))
        categories = tuple((name, name) for name in get_args(SeismicCategory))
        self._add(form, ("Floor", "seismic"), SEISMIC, ChosenEditor(SEISMIC, categories, optional=True))
        self._add(form, ("Plan", "material"), "Drain pipe", ChosenEditor("Drain pipe", MATERIALS, optional=False))
        slope = WrittenEditor("Slope of drains", SLOPE, optional=False)
        self._add(form, ("Plan", "slope"), "Slope of drains", slope)
        books = tuple((name, f"{load(name).short}: {load(name).title}") for name in names())
        self._add(form, ("Plan", "rulebook"), "Rule book", ChosenEditor("Rule book", books, optional=False))
        for (record, name), editor in self.editors.items():
            value = getattr(plan.floor if record == "Floor" else plan, name)
            if name == "rulebook":
                value = _known(value)
            elif name in STACKS:
                value = value or _one_layer(getattr(plan.floor, STACKS[name]))
            self._values[record, name] = value
            editor.show_value(value, UNKNOWN)
        return sheet

    def _add(self, form: QFormLayout, place: Place, words: str, editor: Editor) -> None:
        editor.setProperty("place", "/".join(place))
        editor.setToolTip(FIELD_WORDS[place[0]][place[1]])
        editor.entered.connect(self._on_entered)
        self.editors[place] = editor
        form.addRow(words, editor)

    def _on_entered(self, value: Any) -> None:
        editor = self.sender()
        if isinstance(editor, Editor):
            record, name = str(editor.property("place")).split("/")
            self._values[record, name] = value
            editor.show_value(value, UNKNOWN)
            if name == "rulebook":
                self.amending.show_book(load(value))


STACKS = {"subfloor_layers": "subfloor", "finish_layers": "finish"}
"""Layers and the thickness that they add up to, by the floor's fields."""


def _one_layer(thickness: float) -> tuple[FloorLayer, ...]:
    return (FloorLayer(thickness),) if thickness else ()


def _stacked(values: dict[str, Any]) -> dict[str, Any]:
    """The floor's values with each stack's thickness; a single layer without a name is a thickness and no more."""
    made = dict(values)
    for name, whole in STACKS.items():
        layers: tuple[FloorLayer, ...] = values[name]
        made[whole] = sum(layer.thickness for layer in layers)
        made[name] = layers if len(layers) > 1 or any(layer.name for layer in layers) else ()
    return made


def _known(name: str) -> str:
    """The rule book of this name, or the first there is: a plan may name one that this program lacks."""
    return name if name in names() else names()[0]
