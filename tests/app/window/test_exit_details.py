"""The exit in the properties pane: its way to the ground, asked for in plain words and only where it matters."""

from __future__ import annotations

from msgspec.structs import replace

from app.panels.editors import ChosenEditor
from engine.plan import edits
from engine.plan.records import Exit, Plan
from tests.app.window.details_by_hand import seen, shown, write


def exit_of(work) -> Exit:
    found = edits.find(work.document.plan, "x1")
    assert isinstance(found, Exit)
    return found


def choose(editor: ChosenEditor, words: str) -> None:
    editor.box.setCurrentText(words)
    editor.box.activated.emit(editor.box.currentIndex())


def test_a_sleeve_is_asked_for_where_concrete_is_passed(qtbot, make_work, cottage: Plan) -> None:
    work = shown(make_work, cottage, "x1")
    assert {"ground_z", "meets", "frost_guard"} <= set(seen(work))
    assert not {"sleeve", "box_foam"} & set(seen(work))
    choose(work.details.editors["meets"], "a foundation or footing")
    assert exit_of(work).meets == "foundation"
    assert "sleeve" in seen(work)
    choose(work.details.editors["sleeve"], "6 in")
    assert exit_of(work).sleeve == "6"


def test_a_box_against_frost_has_its_foam(qtbot, make_work, cottage: Plan) -> None:
    work = shown(make_work, cottage, "x1")
    choose(work.details.editors["frost_guard"], "an insulated box")
    assert exit_of(work).frost_guard == "box"
    assert "box_foam" in seen(work)
    write(qtbot, work.details.editors["box_foam"], "3")
    assert exit_of(work).box_foam == 3.0


def test_the_ground_is_typed_in_below_the_joists_top(qtbot, make_work, cottage: Plan) -> None:
    work = shown(make_work, cottage, "x1")
    write(qtbot, work.details.editors["ground_z"], "30")
    assert exit_of(work).ground_z == -30.0


def test_a_drain_through_the_rim_has_no_drop_to_guard(make_work, cottage: Plan) -> None:
    plan = cottage
    out = replace(plan.exits[0], at=(36.0, 0.0), how="through-rim")
    work = shown(make_work, replace(plan, exits=(out,)), "x1")
    assert "frost_guard" not in seen(work)
    assert "meets" in seen(work)
