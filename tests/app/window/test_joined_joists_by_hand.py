"""Beams at the joists' level, laps and what the building code asks of a field, typed into the window and seen on the canvas."""

from __future__ import annotations

import pytest
from PySide6.QtCore import Qt

from app.canvas.framed import draw_beam
from app.dialogs.plan_settings import PlanSettingsDialog
from engine.framing.layout import lay_out
from engine.plan.outline import tell
from engine.plan.records import Beam, Floor, JoistField, Plan
from engine.study import study
from tests.app.window.details_by_hand import seen, shown, write


@pytest.fixture
def long() -> Plan:
    """A floor 10 ft by 25 ft of 2x10 at 16 in with a bearing across its middle, and a beam drawn over that."""
    outline = ((0.0, 0.0), (120.0, 0.0), (120.0, 300.0), (0.0, 300.0))
    field = JoistField("j1", (0.0, 0.0), (120.0, 300.0), bearings=(150.0,))
    return Plan(floor=Floor(outline=outline), fields=(field,), beams=(Beam("b1", (0.0, 150.0), (120.0, 150.0)),))


def texts(work, element: str) -> set[str]:
    return {tag.text for tag in work.view.scene()._pictures[element].tags}


def test_a_beam_raised_to_the_joists_top_cuts_them_on_the_canvas(make_work, qtbot, long: Plan) -> None:
    work = shown(make_work, long, "b1")
    under = work.view.scene()._pictures["b1"].tip
    write(qtbot, work.details.editors["top_z"], "0")
    assert work.document.plan.beams[0].top_z == 0.0
    assert {"j1.4a", "j1.4b"} <= texts(work, "j1")
    assert "joists rest on it" in under
    assert "joists hang on it" in work.view.scene()._pictures["b1"].tip
    work.commands["undo"].trigger()
    assert "j1.4" in texts(work, "j1")
    assert "joists rest on it" in work.view.scene()._pictures["b1"].tip


def test_a_beam_among_the_joists_is_drawn_in_full_lines() -> None:
    beam = Beam("b1", (0.0, 54.0), (120.0, 54.0), top_z=0.0)
    (full,), (broken,) = draw_beam(beam, True).items, draw_beam(beam, False).items
    assert full.pen().style() == Qt.PenStyle.SolidLine
    assert broken.pen().style() == Qt.PenStyle.CustomDashLine


def test_laps_are_typed_and_what_tells_of_them_appears(make_work, qtbot, long: Plan) -> None:
    work = shown(make_work, long, "j1")
    assert not {"lap", "lap_moves", "lap_side"} & set(seen(work))
    write(qtbot, work.details.editors["laps"], "12' 6")
    assert work.document.plan.fields[0].laps == (150.0,)
    assert {"lap", "lap_moves", "lap_side"} <= set(seen(work))
    assert {"j1.4a", "j1.4b"} <= texts(work, "j1")
    write(qtbot, work.details.editors["lap"], "2")
    assert "lap-too-short" in {finding.rule for finding in study(work.document.plan).findings}
    box = work.details.editors["lap_side"].box
    box.setFocus()
    qtbot.keyClick(box, Qt.Key.Key_Down)
    assert work.document.plan.fields[0].lap_side == "west or south"
    moved = next(one for one in lay_out(work.document.plan).joists if one.id == "j1.4b")
    assert moved.start[0] == 62.5
    assert tell(work.document.plan, work.document.plan.fields[0]).endswith("lapped at 12'-6\"")


def test_what_an_overhang_carries_is_asked_where_there_is_one(make_work, qtbot, long: Plan) -> None:
    work = shown(make_work, long, "j1")
    assert "overhang_carries" not in seen(work)
    editor = work.details.editors["overhangs"]
    editor.lines[0].setFocus()
    editor.lines[0].selectAll()
    qtbot.keyClicks(editor.lines[0], "11")
    qtbot.keyClick(editor.lines[0], Qt.Key.Key_Return)
    assert work.document.plan.fields[0].overhangs == (11.0, 0.0)
    assert "overhang_carries" in seen(work)


def test_finish_and_grade_are_ticked(make_work, qtbot, long: Plan) -> None:
    work = shown(make_work, long, "j1")
    for name in ("heavy_finish", "graded"):
        box = work.details.editors[name].box
        box.setFocus()
        qtbot.keyClick(box, Qt.Key.Key_Space)
    field = work.document.plan.fields[0]
    assert (field.heavy_finish, field.graded) == (True, False)


def test_the_seismic_category_is_chosen_in_the_settings(make_work, qtbot, long: Plan) -> None:
    work = make_work(long)
    work.commands["plan_settings"].trigger()
    dialog = work.window.findChildren(PlanSettingsDialog)[-1]
    box = dialog.editors["Floor", "seismic"].box
    box.setFocus()
    qtbot.keyClicks(box, "D1")
    box.activated.emit(box.currentIndex())
    dialog.accept()
    assert work.document.plan.floor.seismic == "D1"
    assert "joists-unbraced-between" in {finding.rule for finding in study(work.document.plan).findings}
