"""The properties pane: every field of the selected thing, edited in place, with what holds where one is empty."""

from __future__ import annotations

from typing import Any

from PySide6.QtCore import Qt, Signal
from PySide6.QtWidgets import QFormLayout, QPushButton, QScrollArea, QStackedWidget, QVBoxLayout, QWidget

from app.document import Document
from app.panels.amending import amended
from app.panels.editors import ChosenEditor, Editor, HeadingEditor, PairEditor, PathEditor, TickedEditor, WrittenEditor
from app.panels.fields import Field, fields_of, means_something
from app.panels.hints import ends_of, example, tip
from app.panels.measures import MEASURES, measures_of
from app.panels.pane import Pane, label
from app.panels.refusals import in_words, not_there
from app.panels.shared import SharedEditor
from app.panels.sizes import SizesBox
from app.panels.unset import unset_words
from engine.drafting.sharing import hosts_for
from engine.plan.edits import EditError, find
from engine.plan.outline import describe
from engine.plan.records import Element, Fixture, JoistField, Plan

TITLE = "Properties"


class DetailsPane(Pane):
    """Edits the one selected thing; tells what is selected when it is none or several, in its title too.

    `settings_wanted` asks for the plan-wide settings.
    """

    settings_wanted = Signal()

    def __init__(self, document: Document, parent: QWidget | None = None) -> None:
        super().__init__(TITLE, parent)
        self._document = document
        self._element: Element | None = None
        self.editors: dict[str, Editor] = {}
        self.sizes: SizesBox | None = None
        self._form = QFormLayout()

        self._nothing = _Nothing()
        self._nothing.settings.clicked.connect(self.settings_wanted)
        self._scroll = QScrollArea()
        self._scroll.setWidgetResizable(True)
        self._scroll.setHorizontalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
        self._scroll.setFocusPolicy(Qt.FocusPolicy.NoFocus)
        self._stack = QStackedWidget()
        self._stack.addWidget(self._nothing)
        self._stack.addWidget(self._scroll)
        self.body.addWidget(self._stack)

        document.selection_changed.connect(self._on_selection)
        document.plan_changed.connect(self._on_plan)
        document.study_changed.connect(self._on_study)
        self._show()

    @property
    def told(self) -> str:
        """What stands in the fields' place while no one thing is selected; empty when one is."""
        return self._nothing.words if self._element is None else ""

    def home(self) -> QWidget:
        """The first field, or the button for the plan's settings."""
        first = next(iter(self.editors.values()), None)
        return first.focusProxy() or first if first is not None else self._nothing.settings

    def go_to(self, element: str, field: str, begun: str = "") -> None:
        """Select an element and move the keyboard to one of its fields; `begun` is put there as its last part, to go on from."""
        self._document.select((element,))
        editor = self.editors[field]
        self._in_sight(editor)
        editor.setFocus(Qt.FocusReason.OtherFocusReason if begun else Qt.FocusReason.TabFocusReason)
        if begun and isinstance(editor, WrittenEditor):
            editor.begin(begun)

    def _on_selection(self) -> None:
        self._show()

    def _on_plan(self, old: Plan, new: Plan) -> None:
        self._show()

    def _on_study(self) -> None:
        if self._element is not None:
            self._fill(self._element)

    def _show(self) -> None:
        chosen = self._document.selection
        element = self._document.element(next(iter(chosen))) if len(chosen) == 1 else None
        if element is None:
            self._element = None
            self.title.setText(TITLE if not chosen else f"{len(chosen)} things")
            self._nothing.tell(self._document.plan, len(chosen))
            self._stack.setCurrentIndex(0)
            return
        before, self._element = self._element, element
        if before is None or before.id != element.id or fields_of(before) != fields_of(element):
            self._build(element)
        self._fill(element)
        self._stack.setCurrentIndex(1)

    def _build(self, element: Element) -> None:
        sheet = QWidget()
        form = QFormLayout(sheet)
        form.setContentsMargins(6, 2, 6, 6)
        form.setHorizontalSpacing(10)
        form.setVerticalSpacing(6)
        form.setRowWrapPolicy(QFormLayout.RowWrapPolicy.DontWrapRows)
        form.setFieldGrowthPolicy(QFormLayout.FieldGrowthPolicy.AllNonFixedFieldsGrow)
        self.editors = {}
        self.sizes = SizesBox()
        for field in fields_of(element):
            if field.how == "path":
                form.addRow(self.sizes)
            editor = _editor(field, element, self._document.settled)
            editor.setProperty("field", field.name)
            if isinstance(editor, WrittenEditor):
                editor.element = element.id
            editor.entered.connect(self._on_entered)
            self.editors[field.name] = editor
            if field.how == "ticked":
                form.addRow("", editor)
            else:
                name = label(field.words, "quiet")
                name.setBuddy(editor)
                form.addRow(name, editor)
        if form.indexOf(self.sizes) < 0:
            form.addRow(self.sizes)
        old = self._scroll.takeWidget()
        if old is not None:
            old.deleteLater()
        self._scroll.setWidget(sheet)
        self._form = form

    def _fill(self, element: Element) -> None:
        plan, study = self._document.plan, self._document.study
        self.title.setText(describe(element))
        for field in fields_of(element):
            editor = self.editors[field.name]
            self._tell_meaning(editor, element, field)
            if editor.complaint:
                continue
            value = measures_of(element) if field.name == MEASURES else getattr(element, field.name)
            unset = unset_words(element, field.name, plan, study) if field.optional else example(element, field.name)
            if isinstance(editor, SharedEditor):
                editor.share(getattr(plan, field.name))
            editor.show_value(value, unset)
            nothing_to_choose = field.how == "fixture" and isinstance(editor, ChosenEditor) and editor.box.count() < 2
            self._form.setRowVisible(editor, means_something(field, element) and not nothing_to_choose)
        if self.sizes is not None:
            self.sizes.tell(element, study)

    def _tell_meaning(self, editor: Editor, element: Element, field: Field) -> None:
        """Have the field and its name tell what it means, by the sides that it has as the element stands."""
        editor.setToolTip(tip(element, field.name))
        name = self._form.labelForField(editor)
        if name is not None:
            name.setToolTip(editor.toolTip())
        if isinstance(editor, PairEditor) and isinstance(element, JoistField) and field.name == "overhangs":
            editor.call(ends_of(element))

    def _in_sight(self, editor: Editor) -> None:
        """Scroll so that a field and what is said under it are seen."""
        self._form.activate()
        self._scroll.ensureWidgetVisible(editor)

    def _on_entered(self, value: Any) -> None:
        editor = self.sender()
        element = self._element
        if not isinstance(editor, Editor) or element is None:
            return
        name = editor.property("field")
        field = next(field for field in fields_of(element) if field.name == name)
        editor.complain("")
        try:
            plan = amended(self._document.settled, element, name, value)
        except EditError as fault:
            editor.complain(in_words(field, fault.what))
            self._in_sight(editor)
            return
        if lost := not_there(find(plan, element.id), name, plan):
            editor.complain(lost)
            self._in_sight(editor)
            return
        self._document.commit(plan, f"change {field.words.lower()} of {element.id}")


def _editor(field: Field, element: Element, plan: Plan) -> Editor:
    match field.how:
        case "written":
            return WrittenEditor(field.words, field.writing, field.optional)
        case "shared":
            return SharedEditor(field.words, field.writing)
        case "chosen":
            return ChosenEditor(field.words, field.choices, field.optional)
        case "ticked":
            return TickedEditor(field.words)
        case "spot":
            return PairEditor(field.words, ("east", "north"), on_grid=True, optional=field.optional)
        case "heading":
            return HeadingEditor(field.words, field.writing)
        case "pair":
            return PairEditor(field.words, ("wide", "long"), on_grid=False)
        case "path":
            return PathEditor(field.words)
        case "fixture":
            return ChosenEditor(field.words, _hosts(element, plan), field.optional)
        case "wall":
            walls = tuple((wall.id, describe(wall)) for wall in plan.walls)
            return ChosenEditor(field.words, walls, field.optional)


def _hosts(element: Element, plan: Plan) -> tuple[tuple[str, str], ...]:
    """The fixtures that may take this one's waste, and the one that does, by their words."""
    if not isinstance(element, Fixture):
        return ()
    offered = {host.id for host in hosts_for(plan, element)} | {element.through}
    return tuple((one.id, describe(one)) for one in plan.fixtures if one.id in offered)


class _Nothing(QWidget):
    """What the pane says while it has no one thing to show."""

    def __init__(self) -> None:
        super().__init__()
        self._what = label(wrap=True)
        self._plan = label(role="quiet", wrap=True)
        self.settings = QPushButton("Plan settings…")
        column = QVBoxLayout(self)
        column.setContentsMargins(6, 4, 6, 6)
        column.setSpacing(8)
        column.addWidget(self._what)
        column.addWidget(self._plan)
        column.addWidget(self.settings, 0, Qt.AlignmentFlag.AlignLeft)
        column.addStretch(1)

    @property
    def words(self) -> str:
        """What it says."""
        return f"{self._what.text()} {self._plan.text()}"

    def tell(self, plan: Plan, selected: int) -> None:
        """Say how many things are selected and what holds for the whole plan."""
        self._what.setText(
            f"{selected} things are selected. Choose one to see its fields."
            if selected
            else "Choose a thing on the canvas or in the outline to see and edit its fields."
        )
        self._plan.setText(
            f"{plan.name or 'Unnamed floor'}: {plan.material} drains at {plan.slope:.6g} in per ft, "
            f"judged by {plan.rulebook}"
            + (f" with {len(plan.amendments)} amended values" if plan.amendments else "")
            + "."
        )
