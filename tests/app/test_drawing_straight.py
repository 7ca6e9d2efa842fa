"""While a run is drawn: straight ahead stays straight, water seeks its own stubs, and no words cover the work."""

from __future__ import annotations

import pytest
from msgspec.structs import replace
from PySide6.QtCore import QEvent, Qt
from PySide6.QtGui import QHelpEvent
from PySide6.QtWidgets import QApplication, QToolTip

from app.tools import TOOLS
from engine.drafting.stubs import follow
from engine.plan.edits import move
from engine.plan.records import Drain, Plan, Supply

pytestmark = pytest.mark.qt_log_ignore("This plugin does not support raise")

NO_BUTTON = Qt.MouseButton.NoButton


def document_of(hand):
    return hand.view.tool.desk.document


def test_straight_ahead_wins_over_a_pipe_two_inches_aside(canvas, cottage: Plan) -> None:
    """d1 ends 2 in off the heading, well within the pointer's reach: the pointer on the heading goes straight."""
    plan = replace(
        cottage, drains=(Drain(id="d1", points=((36.0, 92.0), (36.0, 20.0)), size="3"),), fixtures=(), risers=()
    )
    hand = canvas(plan)
    hand.view.zoom_by(3.0 / hand.view.scale_now)
    hand.view.set_tool("drain")
    hand.click((100.0, 18.0))
    hand.move((37.5, 18.0), button=NO_BUTTON)
    assert document_of(hand).plan.drains[-1].points[-1][1] == 18.0
    hand.move((36.2, 19.8), button=NO_BUTTON)
    assert document_of(hand).plan.drains[-1].points[-1] == (36.0, 20.0), "the end itself still draws the pointer"


def test_water_ends_at_the_fixtures_own_stubs_and_not_at_its_drain(canvas, cottage: Plan) -> None:
    """The lavatory f2 faces west: hot 4 in north of its outlet, cold 4 in south (worked by hand)."""
    hand = canvas(cottage)
    document = document_of(hand)
    hand.view.set_tool("cold")
    hand.click((100.0, 65.0))
    hand.click((70.6, 65.2))
    hand.view.set_tool("hot")
    hand.click((100.0, 73.0))
    hand.click((70.6, 73.2))
    cold, hot = document.element("s1"), document.element("s2")
    assert (cold.water, cold.points[-1]) == ("cold", (70.25, 65.0))
    assert (hot.water, hot.points[-1]) == ("hot", (70.25, 73.0))


def test_the_snap_says_whose_water_it_is_and_passes_the_flange_by(canvas, cottage: Plan, qtbot) -> None:
    """The closet's cold: 6 in left of one who faces it, in the north wall at y 106.25 (worked by hand)."""
    hand = canvas(cottage)
    hand.view.set_tool("cold")
    with qtbot.waitSignal(hand.view.pointer_at) as told:
        hand.move((30.3, 105.6), button=NO_BUTTON)
    assert told.args == [(30.0, 106.25), "cold for the water closet"]
    with qtbot.waitSignal(hand.view.pointer_at) as told:
        hand.move((36.2, 92.1), button=NO_BUTTON)
    assert "closet" not in told.args[1]
    assert "drain" not in told.args[1]


def test_an_inlet_is_drawn_to_water_alone(canvas, cottage: Plan, qtbot) -> None:
    hand = canvas(cottage)
    hand.view.set_tool("inlet")
    with qtbot.waitSignal(hand.view.pointer_at) as told:
        hand.move((36.3, 20.2), button=NO_BUTTON)
    assert "exit" not in told.args[1]
    assert "drain" not in told.args[1]


@pytest.mark.parametrize("way", ["drag", "arrow", "turn", "grip"])
def test_a_supply_end_goes_along_with_its_stub(canvas, cottage: Plan, way: str) -> None:
    supply = Supply(id="s1", water="cold", points=((70.25, 20.0), (70.25, 65.0)))
    hand = canvas(replace(cottage, supplies=(supply,)))
    document = document_of(hand)
    document.select(["f2"])
    if way == "arrow":
        hand.key(Qt.Key.Key_Up)
    elif way == "turn":
        hand.type("t")
    elif way == "drag":
        hand.drag((60.0, 72.0), (60.0, 78.0))
    else:
        grip = next(mark.at for mark in hand.view.scene().sketches.marks if mark.round)
        hand.drag(grip, (70.25, 110.0))
    lavatory = document.element("f2")
    expected = {
        "drag": (70.25, lavatory.at[1] - 4.0),
        "arrow": (70.25, 66.0),
        "turn": (74.25, 69.0),
        "grip": (66.25, 69.0),
    }[way]
    assert (lavatory.at, lavatory.turn) != ((70.25, 69.0), 180.0)
    assert document.element("s1").points[-1] == expected
    document.undo()
    assert document.element("s1") is supply


def tip_shown(hand, at) -> bool:
    """Rest the pointer there until a tip would show; whether one does."""
    port = hand.view.viewport()
    pixel = hand.pixel(at)
    event = QHelpEvent(QEvent.Type.ToolTip, pixel, port.mapToGlobal(pixel))
    QApplication.sendEvent(port, event)
    return event.isAccepted()


@pytest.mark.parametrize("tool", [name for name in TOOLS if name not in ("choose", "pan")] + ["place:shower"])
def test_no_tip_covers_the_work_while_a_tool_draws_or_places(canvas, cottage: Plan, tool: str) -> None:
    hand = canvas(cottage)
    assert tip_shown(hand, (36.0, 45.0)), "while choosing, things tell what they are"
    hand.view.set_tool(tool)
    assert not tip_shown(hand, (36.0, 45.0))
    hand.view.set_tool("choose")
    assert tip_shown(hand, (36.0, 45.0))


def test_a_turning_grip_says_what_it_is_for(canvas, cottage: Plan, qtbot) -> None:
    hand = canvas(cottage)
    document_of(hand).select(["f1"])
    grip = next(mark.at for mark in hand.view.scene().sketches.marks if mark.round)
    with qtbot.waitSignal(hand.view.hint_changed) as told:
        hand.move(grip, button=NO_BUTTON)
    assert told.args[0] == "Drag round to turn water closet f1 by quarters; T and Shift+T do the same."
    assert tip_shown(hand, grip)
    assert QToolTip.text() == told.args[0]
    with qtbot.waitSignal(hand.view.hint_changed) as told:
        hand.move((100.0, 40.0), button=NO_BUTTON)
    assert told.args[0] == hand.view.tool.hint


def test_the_last_stretch_to_a_stub_comes_out_straight(canvas, cottage: Plan) -> None:
    """The lavatory's hot is at y 73.25 here: the turn set at y 73 slides a quarter inch along its own line."""
    moved = follow(cottage, move(cottage, ["f2"], 0.0, 0.25))
    hand = canvas(moved)
    document = document_of(hand)
    hand.view.set_tool("hot")
    hand.click((100.0, 20.0))
    hand.click((100.2, 73.1))
    hand.move((70.5, 73.2), button=NO_BUTTON)
    assert document.plan.supplies[-1].points == ((100.0, 20.0), (100.0, 73.25), (70.25, 73.25))
    hand.click((70.5, 73.2))
    assert document.element("s1").points == ((100.0, 20.0), (100.0, 73.25), (70.25, 73.25))


def test_a_beginning_on_a_run_slides_along_it(canvas, cottage: Plan) -> None:
    moved = follow(cottage, move(cottage, ["f2"], 0.0, 0.25))
    trunk = Supply(id="s1", water="cold", points=((100.0, 20.0), (100.0, 100.0)))
    hand = canvas(replace(moved, supplies=(trunk,)))
    hand.view.set_tool("cold")
    hand.click((100.1, 65.2))
    hand.click((70.4, 65.4))
    assert document_of(hand).element("s2").points == ((100.0, 65.25), (70.25, 65.25))
    assert (100.0, 65.25) in document_of(hand).element("s1").points


def test_what_was_typed_or_meant_just_there_does_not_slide(canvas, cottage: Plan) -> None:
    moved = follow(cottage, move(cottage, ["f2"], 0.0, 0.25))
    hand = canvas(moved)
    hand.view.set_tool("hot")
    hand.click((100.0, 20.0))
    hand.move((100.0, 60.0), button=NO_BUTTON)
    hand.type("53")
    hand.key(Qt.Key.Key_Return)
    hand.click((70.5, 73.2))
    assert document_of(hand).element("s1").points == ((100.0, 20.0), (100.0, 73.0), (70.25, 73.25))
