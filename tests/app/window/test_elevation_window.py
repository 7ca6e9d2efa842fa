"""The window of joists and walls by pointer and key: which one, which cut, and the run selected on the plan."""

from __future__ import annotations

from pathlib import Path

import pytest
from PySide6.QtCore import Qt
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QWidget

from app.canvas.hits import beneath
from app.elevation.window import ElevationWindow
from app.workplace import Workplace
from engine.drawings.walls import WallView
from engine.plan.edits import delete
from engine.plan.file import read

SAMPLES = Path(__file__).resolve().parents[3] / "samples"


@pytest.fixture
def opened(work: Workplace, qtbot) -> ElevationWindow:
    work.document.new(read(SAMPLES / "cottage-with-mistakes.jway"))
    qtbot.waitUntil(lambda: work.document.studied)
    work.commands["elevations"].trigger()
    window = work.joblists.elevation
    assert window is not None
    qtbot.waitExposed(window)
    return window


def test_it_shows_the_first_cut_joist_and_lists_all(opened: ElevationWindow) -> None:
    assert opened.view.shown is not None
    assert opened.view.shown.title == "JOIST 2"
    assert opened.joist.itemText(0) == "Joist 2: 4 cuts, 1 not legal"
    assert not opened.before.isEnabled()
    assert opened.view.grab().toImage().width() > 0


def test_keys_change_the_joist_and_walk_its_cuts(work: Workplace, opened: ElevationWindow) -> None:
    QTest.keyClick(opened.view, Qt.Key.Key_PageDown)
    assert opened.view.shown is not None
    assert opened.view.shown.title == "JOIST 3"
    QTest.keyClick(opened.view, Qt.Key.Key_Right)
    assert work.document.selection == {"d7"}
    assert "NOT LEGAL" in opened.words.text()
    assert '22 1/2" from the south end' in opened.words.text()
    QTest.keyClick(opened.view, Qt.Key.Key_Right)
    assert work.document.selection == {"c2"}
    QTest.keyClick(opened.view, Qt.Key.Key_PageUp)
    assert opened.view.shown.title == "JOIST 2"


def test_a_click_on_a_cut_selects_its_run(work: Workplace, opened: ElevationWindow) -> None:
    at = opened.view.place_of(2)
    assert at is not None
    QTest.mouseClick(opened.view, Qt.MouseButton.LeftButton, pos=at.toPoint())
    assert work.document.selection == {"d2"}
    assert opened.view.held == 2


def test_a_run_chosen_on_the_plan_brings_its_joist(work: Workplace, opened: ElevationWindow) -> None:
    work.document.select(("c7",))
    assert opened.view.shown is not None
    assert opened.view.shown.title == "JOIST 8"
    assert opened.view.held is not None
    assert opened.view.shown.cuts[opened.view.held].runs == ("c7",)


def test_a_click_on_a_joist_of_the_plan_shows_it(work: Workplace, opened: ElevationWindow, qtbot) -> None:
    view = work.view
    work.window.activateWindow()
    qtbot.waitExposed(work.window)
    qtbot.wait(50)  # the panes find their sizes, and the canvas with them
    view.frame_floor()
    spots = (view.mapFromScene(8.0 * 16.0, -float(y)) for y in range(4, 116))
    at = next(spot for spot in spots if beneath(view, view.scene(), spot) == ("f1",))
    QTest.mouseMove(view.viewport(), at)
    QTest.mouseClick(view.viewport(), Qt.MouseButton.LeftButton, pos=at)
    assert work.document.selection == {"f1"}
    assert opened.view.shown is not None
    assert abs(view.mapToScene(at).x() - 8.0 * 16.0) < 2.0
    assert opened.view.shown.title == "JOIST 8"


def test_the_walls_stand_after_the_joists_and_their_places_are_walked(work: Workplace, opened: ElevationWindow) -> None:
    names = [opened.joist.itemText(n) for n in range(opened.joist.count())]
    assert names[-1] == "Wall: kitchen wall: 6 places to bore"
    for _ in names[1:]:
        QTest.keyClick(opened.view, Qt.Key.Key_PageDown)
    assert isinstance(opened.view.shown, WallView) and opened.view.shown.name == "kitchen wall"
    assert not opened.after.isEnabled()
    QTest.keyClick(opened.view, Qt.Key.Key_Right)
    assert work.document.selection == {"r3"}
    QTest.keyClick(opened.view, Qt.Key.Key_Right)
    assert work.document.selection == {"c8"}
    assert '14" from the south end (66 1/2" from the north end), 3/4" from the east face' in opened.words.text()
    assert '7/8" in the sole plate' in opened.words.text()


def test_a_click_on_a_hole_in_a_plate_selects_its_pipe(work: Workplace, opened: ElevationWindow) -> None:
    work.document.select(("p3",))
    assert isinstance(opened.view.shown, WallView)
    runs = [cut.run for cut in opened.view.shown.cuts]
    at = opened.view.place_of(runs.index("h4"))
    assert at is not None
    QTest.mouseClick(opened.view, Qt.MouseButton.LeftButton, pos=at.toPoint())
    assert work.document.selection == {"h4"}
    assert opened.view.held == runs.index("h4")


def test_a_click_on_a_wall_of_the_plan_shows_it(work: Workplace, opened: ElevationWindow, qtbot) -> None:
    view = work.view
    work.window.activateWindow()
    qtbot.waitExposed(work.window)
    qtbot.wait(50)  # the panes find their sizes, and the canvas with them
    view.frame_floor()
    spots = (view.mapFromScene(120.0, -float(y)) for y in range(80, 112))
    at = next(spot for spot in spots if beneath(view, view.scene(), spot)[:1] == ("p3",))
    QTest.mouseMove(view.viewport(), at)
    QTest.mouseClick(view.viewport(), Qt.MouseButton.LeftButton, pos=at)
    assert work.document.selection == {"p3"}
    assert isinstance(opened.view.shown, WallView) and opened.view.shown.name == "kitchen wall"
    assert opened.view.grab().toImage().width() > 0


def test_it_follows_the_plan(work: Workplace, opened: ElevationWindow, qtbot) -> None:
    plan = work.document.settled
    runs = [run.id for run in (*plan.supplies, *plan.drains, *plan.risers, *plan.fixtures)]
    work.document.commit(delete(plan, *runs), "delete runs")
    qtbot.waitUntil(lambda: work.document.studied)
    assert opened.view.shown is None
    assert not opened.joist.isEnabled()


def test_every_widget_that_takes_the_keyboard_has_a_name(opened: ElevationWindow) -> None:
    takers = [each for each in opened.findChildren(QWidget) if each.focusPolicy() & Qt.FocusPolicy.TabFocus]
    named = [each for each in takers if each.accessibleName()]
    assert {opened.view, opened.joist, opened.before, opened.after} <= set(named)
    QTest.keyClick(opened.view, Qt.Key.Key_Escape)
    assert not opened.isVisible()
