"""One joist taken by itself, by the pointer and by keys: doubled, moved, measured, each undone again."""

from __future__ import annotations

import pytest
from PySide6.QtCore import QPoint, Qt
from PySide6.QtWidgets import QApplication

from app.canvas.choice_menu import ChoiceMenu
from app.canvas.places import to_scene
from app.workplace import Workplace
from engine.plan.edits import set_fields
from engine.plan.records import DoubledJoist, Floor, JoistField, JoistShift, MeasuredJoist, Plan


@pytest.fixture
def wood() -> Plan:
    """10 ft by 9 ft of 2x10 at 16 in: joist 3 stands at 48 in."""
    return Plan(
        floor=Floor(outline=((0.0, 0.0), (120.0, 0.0), (120.0, 108.0), (0.0, 108.0))),
        fields=(JoistField("j1", (0.0, 0.0), (120.0, 108.0)),),
    )


@pytest.fixture
def work(make_work, wood: Plan) -> Workplace:
    made: Workplace = make_work(wood)
    made.window.activateWindow()
    made.view.setFocus()
    return made


def menu(work: Workplace) -> ChoiceMenu:
    """The menu that is open."""
    return next(one for one in work.view.findChildren(ChoiceMenu) if one.isVisible())


def right_click(work: Workplace, qtbot, x: float, y: float) -> ChoiceMenu:
    place: QPoint = work.view.mapFromScene(to_scene((x, y)))
    qtbot.mouseClick(work.view.viewport(), Qt.MouseButton.RightButton, pos=place)
    return menu(work)


def field(work: Workplace) -> JoistField:
    return work.document.plan.fields[0]


def test_a_right_click_doubles_the_joist_under_it(work: Workplace, qtbot) -> None:
    opened = right_click(work, qtbot, 48.2, 50.0)
    assert opened.accessibleName() == "Joist j1.3"
    assert work.document.selection == {"j1"}
    qtbot.keyClick(opened, Qt.Key.Key_1)
    assert field(work).doubled == (DoubledJoist(3),)
    assert work.document.undo_label == "double joist j1.3"
    work.commands["undo"].trigger()
    assert field(work).doubled == ()


def test_a_doubled_joist_changes_side_or_becomes_single(work: Workplace, qtbot, wood: Plan) -> None:
    work.document.commit(set_fields(wood, "j1", doubled=(DoubledJoist(3), DoubledJoist(5))), "double two")
    qtbot.keyClick(right_click(work, qtbot, 48.5, 50.0), Qt.Key.Key_2)
    assert field(work).doubled == (DoubledJoist(3, side="west or south"), DoubledJoist(5))
    qtbot.keyClick(right_click(work, qtbot, 47.5, 50.0), Qt.Key.Key_3)
    assert field(work).doubled == (DoubledJoist(5),)


def test_moving_and_measuring_are_begun_in_the_properties(work: Workplace, qtbot) -> None:
    qtbot.keyClick(right_click(work, qtbot, 48.2, 50.0), Qt.Key.Key_3)
    line = work.details.editors["shifts"].line
    assert QApplication.focusWidget() is line
    assert line.text() == "3 by "
    qtbot.keyClicks(line, '1 1/2"')
    qtbot.keyClick(line, Qt.Key.Key_Return)
    assert field(work).shifts == (JoistShift(3, 1.5),)
    qtbot.keyClick(right_click(work, qtbot, 49.7, 50.0), Qt.Key.Key_5)
    line = work.details.editors["measured"].line
    qtbot.keyClicks(line, '9 1/2"')
    qtbot.keyClick(line, Qt.Key.Key_Return)
    assert field(work).measured == (MeasuredJoist(3, 9.5),)


def test_what_is_said_of_other_joists_stays(work: Workplace, qtbot, wood: Plan) -> None:
    work.document.commit(set_fields(wood, "j1", shifts=(JoistShift(3, 1.0), JoistShift(5, 2.0))), "move two")
    qtbot.keyClick(right_click(work, qtbot, 49.0, 50.0), Qt.Key.Key_3)
    assert work.details.editors["shifts"].line.text() == '5 by 2"; 3 by '


def test_by_keys_alone(work: Workplace, qtbot) -> None:
    work.document.select(("j1",))
    qtbot.keyClick(work.view, Qt.Key.Key_X)
    which = menu(work)
    assert which.accessibleName() == "Which joist"
    qtbot.keyClick(which, Qt.Key.Key_Down)
    qtbot.keyClick(which, Qt.Key.Key_Down)
    qtbot.keyClick(which, Qt.Key.Key_Return)
    what = menu(work)
    assert what.accessibleName() == "Joist j1.2"
    qtbot.keyClick(what, Qt.Key.Key_2)
    assert field(work).doubled == (DoubledJoist(2, side="west or south"),)


def test_a_right_click_elsewhere_says_how(work: Workplace, qtbot) -> None:
    with qtbot.waitSignal(work.view.hint_changed, check_params_cb=lambda text: "Right click a joist" in text):
        qtbot.mouseClick(
            work.view.viewport(), Qt.MouseButton.RightButton, pos=work.view.mapFromScene(to_scene((56.0, 50.0)))
        )
