"""Drawing on the canvas with each tool: what the plan holds afterwards, in one step or none."""

from __future__ import annotations

import pytest
from msgspec.structs import replace
from PySide6.QtCore import Qt

from app.tools import TOOLS
from engine.plan.records import Drain, Floor, Plan

RIGHT = Qt.MouseButton.RightButton


def document_of(hand):
    return hand.view.tool.desk.document


def test_a_drain_is_clicked_from_outlet_to_main_and_welded_there(canvas, cottage: Plan) -> None:
    """Three clicks: headings and whole inches hold, and the last one, on the main, ends it and puts the vertex in."""
    plan = replace(cottage, drains=(Drain(id="d1", points=((36.0, 92.0), (36.0, 20.0)), size="3"),))
    hand = canvas(plan)
    document = document_of(hand)
    hand.view.set_tool("drain")
    hand.click((70.4, 69.3))
    hand.click((43.2, 69.2))
    hand.click((36.3, 61.8))
    drain = document.element("d2")
    assert drain.points == ((70.25, 69.0), (43.25, 69.0), (36.0, 61.75))
    assert document.element("d1").points == ((36.0, 92.0), (36.0, 61.75), (36.0, 20.0))
    assert document.undo_label == "draw drain d2"
    assert document.selection == {"d2"}
    document.undo()
    assert document.plan == plan
    assert not document.can_undo


def test_headings_keep_to_eighths_of_a_turn(canvas, bare: Plan) -> None:
    hand = canvas(bare)
    hand.view.set_tool("drain")
    hand.click((20.0, 20.0))
    hand.click((60.4, 61.1))
    hand.key(Qt.Key.Key_Return)
    (x0, y0), (x1, y1) = document_of(hand).element("d1").points
    assert x1 - x0 == y1 - y0 > 30.0


def test_a_typed_length_sets_the_stretch_and_the_pointer_its_heading(canvas, bare: Plan) -> None:
    hand = canvas(bare)
    hand.view.set_tool("drain")
    hand.click((21.0, 30.0))
    hand.move((60.0, 30.2), button=Qt.MouseButton.NoButton)
    hand.type("2' 3 1/2\"")
    hand.key(Qt.Key.Key_Return)
    hand.key(Qt.Key.Key_Return)
    assert document_of(hand).element("d1").points == ((21.0, 30.0), (48.5, 30.0))


def test_backspace_takes_digits_back_first_then_points(canvas, bare: Plan) -> None:
    hand = canvas(bare)
    hand.view.set_tool("cold")
    for at in ((20.0, 30.0), (60.0, 30.0), (60.0, 70.0)):
        hand.click(at)
    hand.type("5")
    hand.key(Qt.Key.Key_Backspace)
    hand.key(Qt.Key.Key_Backspace)
    hand.key(Qt.Key.Key_Return)
    run = document_of(hand).element("s1")
    assert run.points == ((20.0, 30.0), (60.0, 30.0))
    assert run.water == "cold"


@pytest.mark.parametrize("ending", ["enter", "double click", "right button"])
def test_a_run_ends_by_enter_by_double_click_and_by_the_right_button(canvas, bare: Plan, ending: str) -> None:
    hand = canvas(bare)
    hand.view.set_tool("vent")
    hand.click((20.0, 30.0))
    if ending == "double click":
        hand.double_click((60.0, 30.0))
    else:
        hand.click((60.0, 30.0))
        hand.move((90.0, 50.0), button=Qt.MouseButton.NoButton)
        if ending == "enter":
            hand.key(Qt.Key.Key_Return)
        else:
            hand.click((90.0, 50.0), button=RIGHT)
    document = document_of(hand)
    assert [vent.points for vent in document.plan.vents] == [((20.0, 30.0), (60.0, 30.0))]
    assert not document.proposing
    assert hand.view.tool_name == "vent"


def test_escape_gives_the_run_up_then_the_tool_then_the_selection(canvas, cottage: Plan) -> None:
    hand = canvas(cottage)
    document = document_of(hand)
    document.select(["d1"])
    hand.view.set_tool("drain")
    hand.click((20.0, 30.0))
    hand.click((50.0, 30.0))
    assert document.proposing
    hand.key(Qt.Key.Key_Escape)
    assert document.plan is cottage
    assert hand.view.tool_name == "drain"
    hand.key(Qt.Key.Key_Escape)
    assert hand.view.tool_name == "choose"
    assert document.selection == {"d1"}
    hand.key(Qt.Key.Key_Escape)
    assert document.selection == frozenset()
    assert not document.can_undo


def test_one_point_makes_no_run(canvas, bare: Plan) -> None:
    hand = canvas(bare)
    hand.view.set_tool("hot")
    hand.click((20.0, 30.0))
    hand.key(Qt.Key.Key_Return)
    assert document_of(hand).plan is bare


def test_a_run_under_way_is_studied_but_not_in_history(canvas, cottage: Plan, qtbot) -> None:
    hand = canvas(cottage)
    document = document_of(hand)
    hand.view.set_tool("drain")
    hand.click((100.0, 40.0))
    hand.move((60.0, 40.0), button=Qt.MouseButton.NoButton)
    assert len(document.plan.drains) == 3
    qtbot.waitUntil(lambda: document.studied)
    assert document.study.plan.drains[-1].id == "d3"
    assert not document.can_undo


def test_a_hot_run_never_welds_to_a_cold_one(canvas, bare: Plan) -> None:
    hand = canvas(bare)
    document = document_of(hand)
    hand.view.set_tool("cold")
    hand.click((20.0, 50.0))
    hand.click((100.0, 50.0))
    hand.key(Qt.Key.Key_Return)
    hand.view.set_tool("hot")
    hand.click((60.0, 20.0))
    hand.click((60.0, 50.0))
    assert len(document.settled.supplies) == 1
    hand.key(Qt.Key.Key_Return)
    assert document.element("s1").points == ((20.0, 50.0), (100.0, 50.0))


@pytest.mark.parametrize("way", ["drag", "two clicks", "typed"])
def test_a_wall_is_drawn_by_dragging_by_two_clicks_and_by_length(canvas, bare: Plan, way: str) -> None:
    hand = canvas(bare)
    document = document_of(hand)
    hand.view.set_tool("wall")
    if way == "drag":
        hand.drag((10.0, 60.0), (70.0, 60.0))
    elif way == "two clicks":
        hand.click((10.0, 60.0))
        hand.click((70.0, 60.0))
    else:
        hand.click((10.0, 60.0))
        hand.move((40.0, 60.1), button=Qt.MouseButton.NoButton)
        hand.type("5ft")
        hand.key(Qt.Key.Key_Return)
    wall = document.element("w1")
    assert (wall.start, wall.end) == ((10.0, 60.0), (70.0, 60.0))
    assert document.undo_label == "draw wall w1"


def test_a_wall_on_the_floors_edge_has_its_studs_flush(canvas, bare: Plan) -> None:
    """Half of a 2x4's 3-1/2 in inside the edge (worked by hand)."""
    hand = canvas(bare)
    hand.view.set_tool("wall")
    hand.drag((1.0, 142.5), (119.0, 142.5))
    wall = document_of(hand).element("w1")
    assert wall.start[1] == wall.end[1] == 144.0 - 1.75


def test_joists_are_dragged_from_corner_to_corner_of_the_floor(canvas, bare: Plan) -> None:
    hand = canvas(replace(bare, fields=()))
    document = document_of(hand)
    hand.view.set_tool("field")
    hand.drag((119.0, 143.0), (1.0, 1.0))
    field = document.element("j1")
    assert (field.corner, field.size) == ((0.0, 0.0), (120.0, 144.0))
    document.undo()
    assert document.plan.fields == ()


def test_a_speck_of_a_field_is_no_field(canvas, bare: Plan) -> None:
    hand = canvas(bare)
    hand.view.set_tool("field")
    hand.drag((20.0, 20.0), (26.0, 60.0))
    assert document_of(hand).plan is bare


def test_a_riser_takes_its_wall_and_an_exit_joins_the_drain_under_it(canvas, cottage: Plan) -> None:
    hand = canvas(replace(cottage, exits=()))
    document = document_of(hand)
    hand.view.set_tool("riser")
    hand.click((70.9, 90.0))
    riser = document.element("r2")
    assert riser.at == (70.25, 90.0)
    assert riser.wall == "w2"
    hand.view.set_tool("exit")
    hand.click((36.3, 20.2))
    assert document.element("x1").at == (36.0, 20.0)
    assert document.undo_label == "put exit x1"


def test_hovering_with_a_riser_shows_it_and_leaving_the_tool_takes_it_away(canvas, cottage: Plan) -> None:
    hand = canvas(cottage)
    document = document_of(hand)
    hand.view.set_tool("inlet")
    hand.move((90.0, 40.0), button=Qt.MouseButton.NoButton)
    assert len(document.plan.inlets) == 1
    hand.view.set_tool("choose")
    assert document.plan is cottage


def test_measuring_says_the_length_and_changes_nothing(canvas, bare: Plan, qtbot) -> None:
    hand = canvas(bare)
    hand.view.set_tool("measure")
    with qtbot.waitSignal(hand.view.hint_changed) as told:
        hand.drag((20.0, 20.0), (50.0, 60.0))
    assert told.args[0].startswith("4'-2\" long: 2'-6\" east-west, 3'-4\" north-south")
    assert document_of(hand).plan is bare


def test_letters_take_up_tools_while_the_canvas_has_the_focus(canvas, bare: Plan) -> None:
    hand = canvas(bare)
    for name, tool in TOOLS.items():
        hand.type(tool.key.lower())
        assert hand.view.tool_name == name


def test_tools_are_complete_and_their_letters_differ() -> None:
    letters = [tool.key for tool in TOOLS.values()]
    assert len(set(letters)) == len(letters)
    assert not {"T", "F", "S"} & set(letters), "turning, the whole floor and parting a run have these"
    for name, tool in TOOLS.items():
        assert tool.name == name
        assert tool.title
        assert tool.hint.endswith(".")


def test_an_unknown_tool_is_refused_and_the_old_one_stays(canvas, bare: Plan) -> None:
    hand = canvas(bare)
    with pytest.raises(KeyError, match="no tool is called 'saw'"):
        hand.view.set_tool("saw")
    with pytest.raises(KeyError, match="place:"):
        hand.view.set_tool("place:fountain")
    assert hand.view.tool_name == "choose"


def test_a_run_is_drawn_with_the_keyboard_alone(canvas, cottage: Plan) -> None:
    """Arrows carry the pointer, Enter presses, Enter again ends: from the closet's outlet, 12 in down and 6 across."""
    hand = canvas(replace(cottage, drains=()))
    document = document_of(hand)
    hand.type("d")
    hand.move((36.0, 92.0), button=Qt.MouseButton.NoButton)
    hand.key(Qt.Key.Key_Left)
    hand.key(Qt.Key.Key_Right)
    hand.key(Qt.Key.Key_Return)
    hand.key(Qt.Key.Key_Down, Qt.KeyboardModifier.ShiftModifier)
    hand.key(Qt.Key.Key_Return)
    for _ in range(6):
        hand.key(Qt.Key.Key_Left)
    hand.key(Qt.Key.Key_Return)
    hand.key(Qt.Key.Key_Return)
    assert document.element("d1").points == ((36.0, 92.0), (36.0, 80.0), (30.0, 80.0))
    assert document.undo_label == "draw drain d1"


def test_joists_and_walls_are_drawn_with_the_keyboard_alone(canvas, bare: Plan) -> None:
    hand = canvas(replace(bare, fields=()))
    document = document_of(hand)
    shift = Qt.KeyboardModifier.ShiftModifier
    hand.type("j")
    hand.move((0.0, 0.0), button=Qt.MouseButton.NoButton)
    hand.key(Qt.Key.Key_Up)
    hand.key(Qt.Key.Key_Down)
    hand.key(Qt.Key.Key_Return)
    for _ in range(5):
        hand.key(Qt.Key.Key_Up, shift)
        hand.key(Qt.Key.Key_Right, shift)
    hand.key(Qt.Key.Key_Return)
    assert document.element("j1").size == (60.0, 60.0)


def test_undo_in_mid_run_gives_the_run_up(canvas, cottage: Plan) -> None:
    hand = canvas(cottage)
    document = document_of(hand)
    document.commit(replace(cottage, name="named"), "name the plan")
    hand.view.set_tool("drain")
    hand.click((100.0, 40.0))
    hand.click((80.0, 40.0))
    document.undo()
    assert document.plan is cottage
    hand.key(Qt.Key.Key_Return)
    assert document.plan is cottage
    assert document.can_redo


def test_a_length_that_cannot_be_read_is_not_taken(canvas, bare: Plan) -> None:
    hand = canvas(bare)
    hand.view.set_tool("drain")
    hand.click((20.0, 30.0))
    hand.move((60.0, 30.0), button=Qt.MouseButton.NoButton)
    hand.type("1//")
    hand.click((60.0, 30.0))
    hand.key(Qt.Key.Key_Return)
    assert document_of(hand).element("d1").points == ((20.0, 30.0), (60.0, 30.0))


@pytest.mark.parametrize("name", ["drain", "wall", "exit", "place:shower"])
def test_what_a_plan_cannot_hold_is_told_and_not_drawn(canvas, qtbot, name: str) -> None:
    """Points of a plan lie within 12,000 in of its origin; this floor's sheet reaches a little past that."""
    corner = 12000.0
    outline = ((corner - 100.0, 0.0), (corner, 0.0), (corner, 100.0), (corner - 100.0, 100.0))
    plan = Plan(floor=Floor(outline=outline))
    hand = canvas(plan)
    hand.view.set_tool(name)
    with qtbot.waitSignal(hand.view.hint_changed) as told:
        hand.click((corner - 50.0, 50.0), Qt.KeyboardModifier.ShiftModifier)
        hand.click((corner + 60.0, 80.0), Qt.KeyboardModifier.ShiftModifier)
        hand.key(Qt.Key.Key_Return)
    assert "12000" in told.args[0]
    left = document_of(hand).settled
    assert all(abs(x) <= 12000.0 for run in left.drains for x, _ in run.points)
    hand.key(Qt.Key.Key_Escape)
