"""The hatch's fields, the exit's cleanout outside and the crawl space's height, as one types them in the window."""

from __future__ import annotations

from PySide6.QtCore import Qt
from PySide6.QtTest import QTest

from app.dialogs.plan_settings import PlanSettingsDialog
from engine.plan.edits import add_new, find, set_floor
from engine.plan.records import Hatch, Plan
from tests.app.window.test_details_pane import shown, write


def test_a_hatchs_width_is_typed(make_work, qtbot, cottage: Plan) -> None:
    work = shown(make_work, add_new(cottage, Hatch, at=(90.0, 40.0)), "h1")
    assert work.details.title.text() == "Hatch h1"
    write(qtbot, work.details.editors["clear"], "30")
    assert find(work.document.plan, "h1").clear == 30.0
    write(qtbot, work.details.editors["name"], "crawl door")
    assert work.details.title.text() == "Crawl door h1"


def test_a_cleanout_outside_is_ticked_and_the_finding_goes(make_work, qtbot, cottage: Plan) -> None:
    work = shown(make_work, cottage, "x1")
    qtbot.waitUntil(lambda: work.document.study is not None)
    rules = {finding.rule for finding in work.document.study.findings}
    assert "no-cleanout-at-sewer" in rules
    editor = work.details.editors["cleanout_outside"]
    assert "sewer" in editor.toolTip()
    qtbot.mouseClick(editor.box, Qt.MouseButton.LeftButton, pos=editor.box.rect().center().__class__(8, 8))
    assert find(work.document.plan, "x1").cleanout_outside
    qtbot.waitUntil(lambda: "no-cleanout-at-sewer" not in {finding.rule for finding in work.document.study.findings})


def test_the_crawl_spaces_height_is_typed_and_taken_back(qtbot, cottage: Plan) -> None:
    dialog = PlanSettingsDialog(cottage)
    qtbot.addWidget(dialog)
    editor = dialog.editors["Floor", "crawl"]
    assert "joists" in editor.toolTip()
    write(qtbot, editor, "2ft 2in")
    dialog.accept()
    assert dialog.plan.floor.crawl == 26.0
    again = PlanSettingsDialog(set_floor(cottage, crawl=26.0))
    qtbot.addWidget(again)
    line = again.editors["Floor", "crawl"].line
    line.setFocus()
    line.selectAll()
    QTest.keyClick(line, Qt.Key.Key_Delete)
    line.done.emit()
    again.accept()
    assert again.plan.floor.crawl is None
