"""The properties pane: every field of every thing, edited in place, with what holds where one is empty."""

from __future__ import annotations

import msgspec
import pytest
from PySide6.QtCore import Qt

from app.panels.fields import FIELDS
from app.panels.measures import MEASURES
from app.workplace import Workplace
from engine.plan.edits import add_new, delete, find, insert_point, move_point, set_fields
from engine.plan.records import (
    KINDS,
    AirOpening,
    Beam,
    Cleanout,
    Fixture,
    FlooringArea,
    FloorOpening,
    Hatch,
    Inlet,
    PinnedFitting,
    Plan,
    Supply,
    Vent,
)
from tests.app.window.details_by_hand import seen, shown, write

TOLD_IN_THE_HEADING = {"id", "kind"}


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


def test_a_length_typed_in_feet_and_inches(make_work, qtbot, cottage: Plan) -> None:
    work = shown(make_work, cottage, "j1")
    write(qtbot, work.details.editors["spacing"], "1' 7 3/16\"")
    assert work.document.plan.fields[0].spacing == 19.1875
    assert work.document.undo_label == "change spacing of j1"
    work.commands["undo"].trigger()
    assert work.details.editors["spacing"].line.text() == "1'-4\""


def test_undo_is_the_plans_as_soon_as_a_field_is_done(make_work, qtbot, cottage: Plan) -> None:
    """While something is typed Ctrl+Z takes back letters; once it is done, and the keys are still there, the plan's change."""
    work = shown(make_work, cottage, "j1")
    line = work.details.editors["spacing"].line
    write(qtbot, work.details.editors["spacing"], "19")
    assert work.document.plan.fields[0].spacing == 19.0
    qtbot.waitUntil(work.window.isActiveWindow)
    line.setFocus()
    qtbot.waitUntil(line.hasFocus)
    qtbot.keyClick(line, Qt.Key.Key_Z, Qt.KeyboardModifier.ControlModifier)
    assert work.document.plan == cottage
    qtbot.keyClicks(line, "7")
    qtbot.keyClick(line, Qt.Key.Key_Z, Qt.KeyboardModifier.ControlModifier)
    assert line.text() == "1'-4\""
    assert work.document.plan == cottage


@pytest.mark.parametrize(("text", "words"), [("sixteen", "is not a length"), ("9 ft", 'expected 4" to 4\'-0"')])
def test_what_can_not_stand_is_told_in_place_and_changes_nothing(
    make_work, qtbot, cottage: Plan, text: str, words: str
) -> None:
    work = shown(make_work, cottage, "j1")
    editor = work.details.editors["spacing"]
    write(qtbot, editor, text)
    assert words in editor.complaint
    assert editor.line.text() == text
    assert work.document.plan is cottage
    qtbot.keyClick(editor.line, Qt.Key.Key_Escape)
    assert editor.complaint == ""
    assert editor.line.text() == "1'-4\""


def test_an_empty_field_says_what_holds(make_work, qtbot, cottage: Plan) -> None:
    work = shown(make_work, cottage, "f1")
    arm = work.details.editors["rim_above_floor"].line
    assert arm.text() == ""
    assert arm.placeholderText() == "usual: 1'-4\""
    work.document.select({"d1"})
    assert work.details.editors["slope"].line.placeholderText() == "as the plan: 0.25"
    qtbot.waitUntil(lambda: work.document.studied, timeout=20_000)
    work.document.select({"d2"})
    assert work.details.editors["size"].box.itemText(0).startswith("by its load: ")


def test_emptying_a_field_gives_it_back_to_the_default(make_work, qtbot, cottage: Plan) -> None:
    work = shown(make_work, cottage, "f1")
    editor = work.details.editors["rim_above_floor"]
    write(qtbot, editor, "17")
    assert find(work.document.plan, "f1").rim_above_floor == 17.0
    write(qtbot, editor, "")
    assert find(work.document.plan, "f1").rim_above_floor is None


def test_moving_a_fixture_by_its_place_takes_the_drain_along(make_work, qtbot, cottage: Plan) -> None:
    work = shown(make_work, cottage, "f1")
    east = work.details.editors["at"].lines[0]
    east.setFocus()
    east.setText("3' 2\"")
    qtbot.keyClick(east, Qt.Key.Key_Return)
    assert find(work.document.plan, "f1").at == (38.0, 92.0)
    assert find(work.document.plan, "d1").points[0] == (38.0, 92.0)


def test_moving_one_point_of_a_run(make_work, qtbot, cottage: Plan) -> None:
    work = shown(make_work, cottage, "d2")
    path = work.details.editors["points"]
    assert len(path.spots) == 3
    north = path.spots[1].lines[1]
    north.setFocus()
    north.setText("70")
    qtbot.keyClick(north, Qt.Key.Key_Return)
    assert find(work.document.plan, "d2").points == ((70.25, 69.0), (43.0, 70.0), (36.0, 62.0))


def test_places_are_told_by_the_tape_and_kept_exactly(make_work, qtbot, cottage: Plan) -> None:
    """84.068 in is 7 ft and a sixteenth to the nearest 64th; a change of the other measure leaves it as it is."""
    plan = move_point(cottage, "d2", 1, (43.0, 84.068359375))
    work = shown(make_work, plan, "d2")
    pair = work.details.editors["points"].spots[1]
    assert pair.lines[1].text() == "7'-0 1/16\""
    fill(qtbot, pair.lines[0], "44")
    assert find(work.document.settled, "d2").points[1] == (44.0, 84.068359375)


def test_choices_and_ticks(make_work, qtbot, cottage: Plan) -> None:
    work = shown(make_work, cottage, "d1")
    box = work.details.editors["passing"].box
    box.setCurrentIndex(box.findData("under"))
    box.activated.emit(box.currentIndex())
    assert find(work.document.plan, "d1").passing == "under"
    work.document.select({"w2"})
    qtbot.mouseClick(work.details.editors["bearing"].box, Qt.MouseButton.LeftButton)
    assert find(work.document.plan, "w2").bearing


def test_an_overhead_vent_is_let_into_studs_and_one_under_the_floor_past_joists(
    make_work, qtbot, cottage: Plan
) -> None:
    plan = add_new(cottage, Vent, points=((70.25, 69.0), (70.25, 90.0)), above_floor=42.0)
    name = plan.vents[-1].id
    work = shown(make_work, plan, name)
    box = work.details.editors["passing"].box
    assert [box.itemText(n) for n in range(1, box.count())] == ["bored through", "let into their face"]
    box.setFocus()
    qtbot.keyClick(box, Qt.Key.Key_End)
    assert find(work.document.settled, name).passing == "notched"
    line = work.details.editors["above_floor"].line
    line.setFocus()
    line.selectAll()
    qtbot.keyClick(line, Qt.Key.Key_Backspace)
    qtbot.keyClick(line, Qt.Key.Key_Return)
    box = work.details.editors["passing"].box
    assert "hung under them" in [box.itemText(n) for n in range(box.count())]


def test_fields_that_mean_nothing_are_hidden(make_work, cottage: Plan) -> None:
    work = shown(make_work, cottage, "d1")
    assert seen(work) == ["size", "slope", "passing", "join", "points"]
    box = work.details.editors["join"].box
    box.setCurrentIndex(box.findData("rolled"))
    box.activated.emit(box.currentIndex())
    assert seen(work) == ["size", "slope", "passing", "join", "roll", "rise", "points"]
    work.document.select({"f1"})
    assert "arm" not in seen(work), "a closet has its trap within it"
    assert "trap_at" not in seen(work)
    assert "flow_gpm" in seen(work)
    work.document.select({"f2"})
    assert {"arm", "trap", "outlet_above_floor"} <= set(seen(work))


@pytest.mark.parametrize(("element", "degrees"), [("f1", 270.0), ("k1", 180.0)])
def test_a_heading_is_chosen_by_its_side_or_written_in_degrees(
    make_work, qtbot, cottage: Plan, element: str, degrees: float
) -> None:
    plan = add_new(cottage, Cleanout, at=(70.25, 69.0), above_floor=11.0, turn=180.0)
    work = shown(make_work, plan, element)
    editor = work.details.editors["turn"]
    side = {270.0: "south", 180.0: "west"}[degrees]
    assert (editor.box.currentText(), editor.line.text()) == (side, f"{degrees:g}")
    editor.box.setFocus()
    editor.box.setCurrentIndex(0)
    editor.box.activated.emit(0)
    assert find(work.document.settled, element).turn == 90.0
    assert editor.line.text() == "90"
    fill(qtbot, editor.line, "45")
    assert find(work.document.settled, element).turn == 45.0
    assert editor.box.currentText() == "aslant, by degrees"
    fill(qtbot, editor.line, "-90")
    assert editor.box.currentText() == "south"
    fill(qtbot, editor.line, "round")
    assert "'round' is not a number" in editor.complaint


def test_a_turned_fixture_takes_its_supply_along(make_work, qtbot, cottage: Plan) -> None:
    """The lavatory faces west with its cold 4 in south of the outlet; facing north it is 4 in west."""
    plan = add_new(cottage, Supply, water="cold", points=((100.0, 65.0), (70.25, 65.0)))
    work = shown(make_work, plan, "f2")
    fill(qtbot, work.details.editors["turn"].line, "90")
    assert find(work.document.settled, "s1").points[-1] == (66.25, 69.0)


def test_a_list_of_choices_opens_with_all_of_it_in_sight(make_work, qtbot, cottage: Plan) -> None:
    work = shown(make_work, cottage, "x1")
    for element, name in (("x1", "how"), ("d1", "join"), ("d1", "passing"), ("r1", "top")):
        work.document.select({element})
        box = work.details.editors[name].box
        box.setFixedWidth(90)
        box.showPopup()
        view = box.view()
        qtbot.waitUntil(view.isVisible)
        assert view.viewport().width() >= view.sizeHintForColumn(0)
        last = view.visualRect(view.model().index(box.count() - 1, 0))
        assert view.viewport().rect().contains(last)
        box.hidePopup()


def test_the_title_is_always_that_of_the_selection(make_work, cottage: Plan, bare: Plan) -> None:
    work: Workplace = make_work(cottage)
    title = work.details.title
    assert title.text() == "Properties"
    work.document.select({"d1"})
    assert title.text() == "Drain d1"
    work.document.select({"d1", "f1", "w2"})
    assert title.text() == "3 things"
    work.document.select({"w2"})
    work.document.commit(delete(cottage, "w2"), "delete wall w2")
    assert title.text() == "Properties"
    work.document.undo()
    work.document.select({"f1"})
    assert title.text() == "Water closet f1"
    work.filing.begin(bare)
    assert title.text() == "Properties"


def test_depths_are_told_downward(make_work, qtbot, cottage: Plan) -> None:
    work = shown(make_work, cottage, "x1")
    write(qtbot, work.details.editors["pinned_z"], "5 1/4")
    assert find(work.document.plan, "x1").pinned_z == -5.25
    write(qtbot, work.details.editors["pinned_z"], "-3")
    assert work.details.editors["pinned_z"].complaint != ""


def test_a_field_changes_the_plan_and_not_what_is_only_proposed(make_work, qtbot, cottage: Plan) -> None:
    """A shower hovers over the plan while a field of the drain is filled in: the drain's step holds no shower."""
    work = shown(make_work, cottage, "d1")
    work.view.set_tool("place:shower")
    ghost = add_new(cottage, Fixture, kind="shower", at=(90.0, 40.0))
    for name, text in (("slope", "0.5"), ("rise", "3")):
        work.document.propose(ghost)
        editor = work.details.editors[name]
        work.details._form.setRowVisible(editor, True)
        write(qtbot, editor, text)
    assert work.document.plan == set_fields(cottage, "d1", slope=0.5, rise=3.0)
    assert work.document.undo_label == "change height above that pipe of d1"


def test_a_point_that_is_only_proposed_can_not_be_written(make_work, qtbot, cottage: Plan) -> None:
    work = shown(make_work, cottage, "d1")
    work.document.propose(insert_point(cottage, "d1", 0, (36.0, 80.0)))
    path = work.details.editors["points"]
    assert len(path.spots) == 4
    fill(qtbot, path.spots[1].lines[0], "40")
    assert "only proposed" in path.complaint
    assert work.document.settled is cottage
    fill(qtbot, path.spots[2].lines[0], "35")
    assert work.document.settled == move_point(cottage, "d1", 1, (35.0, 62.0))


def test_a_thing_that_is_only_proposed_can_not_be_written(make_work, qtbot, cottage: Plan) -> None:
    work = shown(make_work, cottage, "d1")
    work.document.propose(add_new(cottage, Fixture, kind="shower", at=(90.0, 40.0)))
    work.document.select({"f3"})
    write(qtbot, work.details.editors["name"], "pan")
    assert "nothing of that id" in work.details.editors["name"].complaint
    assert work.document.settled is cottage


def test_a_cleanouts_heading_matters_in_a_riser_only(make_work, qtbot, cottage: Plan) -> None:
    work = shown(make_work, add_new(cottage, Cleanout, at=(70.25, 69.0), above_floor=11.0, turn=180.0), "k1")
    editors = work.details.editors
    assert "turn" in seen(work)
    fill(qtbot, editors["turn"].line, "90")
    assert find(work.document.plan, "k1").turn == 90.0
    write(qtbot, editors["above_floor"], "")
    assert find(work.document.plan, "k1") == Cleanout("k1", (70.25, 69.0))
    assert "turn" not in seen(work)
    assert editors["above_floor"].line.placeholderText() == "at the end of the run"
    assert editors["size"].box.currentText() == "as its pipe"


def fill(qtbot, line, text: str) -> None:
    line.setFocus()
    line.selectAll()
    qtbot.keyClicks(line, text)
    qtbot.keyClick(line, Qt.Key.Key_Return)


def test_typing_is_not_disturbed_by_a_new_study(make_work, qtbot, cottage: Plan) -> None:
    work = shown(make_work, cottage, "j1")
    qtbot.waitUntil(lambda: work.document.studied, timeout=20_000)
    line = work.details.editors["spacing"].line
    line.setFocus()
    line.clear()
    qtbot.keyClicks(line, "1' 7")
    work.document.study_changed.emit(work.document.study)
    assert line.text() == "1' 7"


def test_letters_typed_in_a_field_choose_no_tool(make_work, qtbot, cottage: Plan) -> None:
    work = shown(make_work, cottage, "w2")
    line = work.details.editors["name"].line
    line.setFocus()
    qtbot.keyClicks(line, "wdvhe")
    assert line.text() == "wdvhe"
    assert work.view.tool_name == "choose"


def test_none_and_several_are_told(make_work, cottage: Plan) -> None:
    work: Workplace = make_work(cottage)
    assert "Choose a thing" in work.details.told
    work.document.select({"f1", "d1"})
    assert "2 things are selected" in work.details.told


def test_every_kind_can_be_shown(make_work, cottage: Plan) -> None:
    """One thing of each kind, with its fields as they come."""
    plan = add_new(cottage, Supply, water="cold", points=((36.0, 92.0), (50.0, 92.0)))
    plan = add_new(plan, Vent, points=((70.25, 69.0), (70.25, 54.0)), above_floor=80.0)
    plan = add_new(plan, Inlet, at=(50.0, 92.0))
    plan = add_new(plan, PinnedFitting, at=(36.0, 62.0), pattern="wye")
    plan = add_new(plan, Cleanout, at=(36.0, 92.0))
    plan = add_new(plan, AirOpening, start=(20.0, 106.25), end=(44.0, 106.25))
    plan = add_new(plan, Hatch, at=(100.0, 60.0))
    plan = add_new(plan, FloorOpening, start=(90.0, 30.0), end=(110.0, 50.0))
    plan = add_new(plan, Beam, start=(0.0, 54.0), end=(120.0, 54.0))
    plan = add_new(plan, FlooringArea, start=(10.0, 60.0), end=(60.0, 100.0), finish=0.625)
    work: Workplace = make_work(plan)
    for collection in KINDS:
        element = getattr(plan, collection)[0]
        work.document.select({element.id})
        assert set(work.details.editors) - {MEASURES} == {field.name for field in FIELDS[type(element).__name__]}
        assert all(editor.accessibleName() for editor in work.details.editors.values())
