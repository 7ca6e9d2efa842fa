"""The properties pane: every field of every thing, edited in place, with what holds where one is empty."""

from __future__ import annotations

import msgspec
import pytest
from PySide6.QtCore import Qt

from app.panels.editors import WrittenEditor
from app.panels.fields import FIELDS
from app.window import MainWindow
from engine.plan.edits import find
from engine.plan.records import KINDS, Plan, Supply

TOLD_IN_THE_HEADING = {"id", "kind"}


def shown(make_window, plan: Plan, element: str) -> MainWindow:
    window: MainWindow = make_window(plan)
    window.activateWindow()
    window.document.select({element})
    return window


def write(qtbot, editor: WrittenEditor, text: str) -> None:
    editor.line.setFocus()
    editor.line.selectAll()
    editor.line.clear()
    qtbot.keyClicks(editor.line, text)
    qtbot.keyClick(editor.line, Qt.Key.Key_Return)


@pytest.mark.parametrize("kind", KINDS.values(), ids=lambda kind: kind.__name__)
def test_every_field_of_every_kind_is_there(kind: type) -> None:
    declared = {field.name for field in FIELDS[kind.__name__]}
    assert declared | TOLD_IN_THE_HEADING >= {field.name for field in msgspec.structs.fields(kind)}
    assert declared <= {field.name for field in msgspec.structs.fields(kind)}


@pytest.mark.parametrize("kind", KINDS.values(), ids=lambda kind: kind.__name__)
def test_fields_that_may_be_empty_are_those_whose_default_is_nothing(kind: type) -> None:
    optional = {field.name for field in FIELDS[kind.__name__] if field.optional}
    assert optional == {field.name for field in msgspec.structs.fields(kind) if field.default is None}


def test_every_choice_is_one_that_the_record_takes() -> None:
    from engine.plan.schema import schema

    definitions = schema()["$defs"]
    for kind in KINDS.values():
        for field in FIELDS[kind.__name__]:
            if field.how == "chosen":
                told = definitions[kind.__name__]["properties"][field.name]
                options = told.get("anyOf", [told])
                allowed = [value for option in options for value in option.get("enum", ())]
                assert {value for value, _ in field.choices} == set(allowed), f"{kind.__name__}.{field.name}"


def test_a_length_typed_in_feet_and_inches(make_window, qtbot, cottage: Plan) -> None:
    window = shown(make_window, cottage, "j1")
    write(qtbot, window.details.editors["spacing"], "1' 7 3/16\"")
    assert window.document.plan.fields[0].spacing == 19.1875
    assert window.document.undo_label == "change spacing of j1"
    window.commands["undo"].trigger()
    assert window.details.editors["spacing"].line.text() == "1'-4\""


@pytest.mark.parametrize(
    ("text", "words"), [("sixteen", "is not a length"), ("9 ft", "expected a number from 4 to 48")]
)
def test_what_can_not_stand_is_told_in_place_and_changes_nothing(
    make_window, qtbot, cottage: Plan, text: str, words: str
) -> None:
    window = shown(make_window, cottage, "j1")
    editor = window.details.editors["spacing"]
    write(qtbot, editor, text)
    assert words in editor.complaint
    assert editor.line.text() == text
    assert window.document.plan is cottage
    qtbot.keyClick(editor.line, Qt.Key.Key_Escape)
    assert editor.complaint == ""
    assert editor.line.text() == "1'-4\""


def test_an_empty_field_says_what_holds(make_window, qtbot, cottage: Plan) -> None:
    window = shown(make_window, cottage, "f1")
    arm = window.details.editors["rim_above_floor"].line
    assert arm.text() == ""
    assert arm.placeholderText().endswith("from the trade data")
    window.document.select({"d1"})
    assert window.details.editors["slope"].line.placeholderText() == "as the plan: 0.25"
    qtbot.waitUntil(lambda: window.document.studied, timeout=20_000)
    window.document.select({"d2"})
    assert window.details.editors["size"].box.itemText(0).startswith("by its load: ")


def test_emptying_a_field_gives_it_back_to_the_default(make_window, qtbot, cottage: Plan) -> None:
    window = shown(make_window, cottage, "f1")
    editor = window.details.editors["rim_above_floor"]
    write(qtbot, editor, "17")
    assert find(window.document.plan, "f1").rim_above_floor == 17.0
    write(qtbot, editor, "")
    assert find(window.document.plan, "f1").rim_above_floor is None


def test_moving_a_fixture_by_its_place_takes_the_drain_along(make_window, qtbot, cottage: Plan) -> None:
    window = shown(make_window, cottage, "f1")
    east = window.details.editors["at"].lines[0]
    east.setFocus()
    east.setText("3' 2\"")
    qtbot.keyClick(east, Qt.Key.Key_Return)
    assert find(window.document.plan, "f1").at == (38.0, 92.0)
    assert find(window.document.plan, "d1").points[0] == (38.0, 92.0)


def test_moving_one_point_of_a_run(make_window, qtbot, cottage: Plan) -> None:
    window = shown(make_window, cottage, "d2")
    path = window.details.editors["points"]
    assert len(path.spots) == 3
    north = path.spots[1].lines[1]
    north.setFocus()
    north.setText("70")
    qtbot.keyClick(north, Qt.Key.Key_Return)
    assert find(window.document.plan, "d2").points == ((70.25, 69.0), (43.0, 70.0), (36.0, 62.0))


def test_choices_and_ticks(make_window, qtbot, cottage: Plan) -> None:
    window = shown(make_window, cottage, "d1")
    box = window.details.editors["passing"].box
    box.setCurrentIndex(box.findData("under"))
    box.activated.emit(box.currentIndex())
    assert find(window.document.plan, "d1").passing == "under"
    window.document.select({"w2"})
    qtbot.mouseClick(window.details.editors["bearing"].box, Qt.MouseButton.LeftButton)
    assert find(window.document.plan, "w2").bearing


def test_fields_that_mean_nothing_are_shut(make_window, cottage: Plan) -> None:
    window = shown(make_window, cottage, "d1")
    assert not window.details.editors["roll"].isEnabled()
    box = window.details.editors["join"].box
    box.setCurrentIndex(box.findData("rolled"))
    box.activated.emit(box.currentIndex())
    assert window.details.editors["roll"].isEnabled()


def test_depths_are_told_downward(make_window, qtbot, cottage: Plan) -> None:
    window = shown(make_window, cottage, "x1")
    write(qtbot, window.details.editors["pinned_z"], "5 1/4")
    assert find(window.document.plan, "x1").pinned_z == -5.25
    write(qtbot, window.details.editors["pinned_z"], "-3")
    assert window.details.editors["pinned_z"].complaint != ""


def test_typing_is_not_disturbed_by_a_new_study(make_window, qtbot, cottage: Plan) -> None:
    window = shown(make_window, cottage, "j1")
    qtbot.waitUntil(lambda: window.document.studied, timeout=20_000)
    line = window.details.editors["spacing"].line
    line.setFocus()
    line.clear()
    qtbot.keyClicks(line, "1' 7")
    window.document.study_changed.emit(window.document.study)
    assert line.text() == "1' 7"


def test_letters_typed_in_a_field_choose_no_tool(make_window, qtbot, cottage: Plan) -> None:
    window = shown(make_window, cottage, "w2")
    line = window.details.editors["name"].line
    line.setFocus()
    qtbot.keyClicks(line, "wdvhe")
    assert line.text() == "wdvhe"
    assert window.view.tool_name == "choose"


def test_none_and_several_are_told(make_window, cottage: Plan) -> None:
    window: MainWindow = make_window(cottage)
    assert "Choose a thing" in window.details.told
    window.document.select({"f1", "d1"})
    assert "2 things are selected" in window.details.told


def test_every_kind_can_be_shown(make_window, cottage: Plan) -> None:
    """One thing of each kind, with its fields as they come."""
    from engine.plan.edits import add_new
    from engine.plan.records import Inlet, PinnedFitting, Vent

    plan = add_new(cottage, Supply, water="cold", points=((36.0, 92.0), (50.0, 92.0)))
    plan = add_new(plan, Vent, points=((70.25, 69.0), (70.25, 54.0)), above_floor=80.0)
    plan = add_new(plan, Inlet, at=(50.0, 92.0))
    plan = add_new(plan, PinnedFitting, at=(36.0, 62.0), pattern="wye")
    window: MainWindow = make_window(plan)
    for collection in KINDS:
        element = getattr(plan, collection)[0]
        window.document.select({element.id})
        assert set(window.details.editors) == {field.name for field in FIELDS[type(element).__name__]}
        assert all(editor.accessibleName() for editor in window.details.editors.values())
