"""What drawing a vent shows: how far it may go sideways under the floor, and which walls are within that.

The drain lies 6 in down, so a vent taken off it gains 6 in sideways (45 degrees; IRC 2021 P3104.4). Worked by hand.
"""

from __future__ import annotations

import math

import pytest
from msgspec.structs import replace
from PySide6.QtCore import Qt

from app.tools.sketch import Stroke
from engine.plan.records import Amendment, Drain, Exit, Fixture, Floor, Plan, Wall

NO_BUTTON = Qt.MouseButton.NoButton


def document_of(hand):
    return hand.view.tool.desk.document


@pytest.fixture
def drained() -> Plan:
    """A closet on a dead level drain 6 in down along y = 60; one wall 5 in to the north of it, one 20 in to the south."""
    return Plan(
        floor=Floor(outline=((0.0, 0.0), (128.0, 0.0), (128.0, 108.0), (0.0, 108.0))),
        walls=(Wall("w1", (10.0, 65.0), (118.0, 65.0), name="bath wall"), Wall("w2", (10.0, 40.0), (118.0, 40.0))),
        fixtures=(Fixture("wc1", "water_closet", (100.0, 60.0)),),
        drains=(Drain("d1", ((100.0, 60.0), (20.0, 60.0)), size="3", slope=0.0),),
        exits=(Exit("x1", (20.0, 60.0), pinned_z=-6.0),),
    )


@pytest.fixture
def drawing(canvas, qtbot):
    """Opens a plan with the vent tool in hand and its answer there, and hears what is said."""

    def take_up(plan: Plan):
        hand = canvas(plan)
        document = document_of(hand)
        qtbot.waitUntil(lambda: document.studied)
        said: list[str] = []
        hand.view.hint_changed.connect(said.append)
        hand.view.set_tool("vent")
        return hand, said

    return take_up


def reach_of(hand) -> list[Stroke]:
    """The circle and the stretches of walls on show, circle first."""
    marks = hand.view.scene().sketches.marks
    return [mark for mark in marks if isinstance(mark, Stroke) and mark.look in ("guide", "reach")]


def test_a_drain_under_the_pointer_shows_what_a_vent_could_reach(drawing, drained: Plan) -> None:
    hand, said = drawing(drained)
    hand.move((60.2, 60.3), button=NO_BUTTON)
    circle, *stretches = reach_of(hand)
    assert {round(math.dist((60.0, 60.0), point), 9) for point in circle.points} == {6.0}
    # 5 in off within 6: sqrt(36 - 25) = 3.3166 to either side
    (stretch,) = stretches
    assert [point[1] for point in stretch.points] == [65.0, 65.0]
    assert [point[0] for point in stretch.points] == pytest.approx([60.0 - 3.3166, 60.0 + 3.3166], abs=1e-3)
    assert said[-1] == (
        "A vent taken off here may go 6 in sideways before it stands in a wall; the nearest wall, bath wall w1, is 5 in away: "
        "within reach."
    )
    hand.move((60.0, 90.0), button=NO_BUTTON)
    assert reach_of(hand) == []
    assert said[-1] == hand.view.tool.hint


def test_it_stays_while_the_vent_is_drawn_from_there(drawing, drained: Plan) -> None:
    hand, said = drawing(drained)
    hand.click((60.0, 60.0))
    hand.move((60.0, 80.0), button=NO_BUTTON)
    assert len(reach_of(hand)) == 2
    assert said[-1].startswith("A vent taken off here")
    hand.key(Qt.Key.Key_Escape)
    assert reach_of(hand) == []


def test_a_wall_out_of_reach_is_told_with_how_far_it_is(drawing, drained: Plan) -> None:
    hand, said = drawing(replace(drained, walls=drained.walls[1:]))
    hand.move((60.0, 60.0), button=NO_BUTTON)
    assert len(reach_of(hand)) == 1
    assert said[-1].endswith("the nearest wall, wall w2, is 20 in away: too far.")


def test_drawn_from_the_wall_to_the_drain_it_shows_at_the_drain(drawing, drained: Plan) -> None:
    hand, _ = drawing(drained)
    hand.click((60.0, 65.0))
    hand.move((60.0, 60.0), button=NO_BUTTON)
    assert len(reach_of(hand)) == 2


def test_a_fraction_is_rounded_to_the_safe_side(drawing, drained: Plan) -> None:
    """4 3/16 and a hair: 4 3/16."""
    hand, said = drawing(replace(drained, exits=(replace(drained.exits[0], pinned_z=-4.24),), walls=()))
    hand.move((60.0, 60.0), button=NO_BUTTON)
    assert said[-1] == "A vent taken off here may go 4 3/16 in sideways before it stands in a wall; no wall is drawn."


def test_without_a_height_or_where_vents_may_lie_there_is_no_reach(drawing, drained: Plan) -> None:
    hand, _ = drawing(replace(drained, exits=()))
    hand.move((60.0, 60.0), button=NO_BUTTON)
    assert reach_of(hand) == []
    hand, _ = drawing(replace(drained, amendments=(Amendment("vent.low_allowed", True, "the official", "May"),)))
    hand.move((60.0, 60.0), button=NO_BUTTON)
    assert reach_of(hand) == []


def test_other_tools_show_none(canvas, qtbot, drained: Plan) -> None:
    hand = canvas(drained)
    qtbot.waitUntil(lambda: document_of(hand).studied)
    hand.view.set_tool("drain")
    hand.click((60.0, 60.0))
    hand.move((60.0, 80.0), button=NO_BUTTON)
    assert reach_of(hand) == []


def test_a_vent_within_reach_is_drawn_leaning_and_one_beyond_it_is_not(drawing, drained: Plan) -> None:
    """5 in to the wall of 6: drawn with 12 in per foot, which is 45 degrees. 20 in to the other wall: as any vent."""
    hand, _ = drawing(drained)
    hand.click((60.0, 60.0))
    hand.click((60.0, 65.0))
    hand.key(Qt.Key.Key_Return)
    assert document_of(hand).element("v1").points == ((60.0, 60.0), (60.0, 65.0))
    assert document_of(hand).element("v1").slope == 12.0
    hand.view.set_tool("vent")
    hand.click((80.0, 60.0))
    hand.click((80.0, 40.0))
    hand.key(Qt.Key.Key_Return)
    assert document_of(hand).element("v2").slope is None
