"""The window of joist elevations by pointer and key: which joist, which cut, and the run selected on the plan."""

from __future__ import annotations

from pathlib import Path

import pytest
from PySide6.QtCore import Qt
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QWidget

from app.canvas.hits import beneath
from app.elevation.window import ElevationWindow
from app.workplace import Workplace
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


def test_it_follows_the_plan(work: Workplace, opened: ElevationWindow, qtbot) -> None:
    plan = work.document.settled
    runs = [run.id for run in plan.supplies] + [run.id for run in plan.drains]
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
