"""A sink's riser made to turn over in the properties pane, and its return pulled along the drain by its grip."""

from __future__ import annotations

import pytest
from msgspec.structs import replace
from PySide6.QtCore import Qt

from app.canvas.posts import draw_riser
from app.tools.grips import grips
from engine.plan.edits import find, turn_over
from engine.plan.records import Drain, Exit, Fixture, Plan, Riser


@pytest.fixture
def island(cottage: Plan) -> Plan:
    """The cottage with a sink in the middle of its floor: riser at (60, 60), its drain going east."""
    return replace(
        cottage,
        fixtures=(*cottage.fixtures, Fixture("ks9", "kitchen_sink", (60.0, 60.0), turn=90.0)),
        risers=(*cottage.risers, Riser("r9", (60.0, 60.0), size="2")),
        drains=(*cottage.drains, Drain("d9", ((60.0, 60.0), (100.0, 60.0)), size="2")),
        exits=(*cottage.exits, Exit("x9", (100.0, 60.0))),
    )


def test_choosing_the_loop_gives_the_drain_a_point_under_it(make_work, qtbot, island: Plan) -> None:
    work = make_work(island)
    work.document.select({"r9"})
    box = work.details.editors["top"].box
    box.setFocus()
    box.setCurrentIndex(box.findData("loop"))
    box.activated.emit(box.currentIndex())
    riser = find(work.document.plan, "r9")
    assert (riser.top, riser.returns) == ("loop", (72.0, 60.0))
    assert find(work.document.plan, "d9").points == ((60.0, 60.0), (72.0, 60.0), (100.0, 60.0))
    assert work.details.editors["returns"].isVisible()
    work.commands["undo"].trigger()
    assert work.document.plan is island


def test_the_return_is_typed(make_work, qtbot, island: Plan) -> None:
    work = make_work(turn_over(island, "r9"))
    work.window.activateWindow()
    work.document.select({"r9"})
    east = work.details.editors["returns"].lines[0]
    east.setFocus()
    east.setText("5' 8\"")
    qtbot.keyClick(east, Qt.Key.Key_Return)
    assert find(work.document.plan, "r9").returns == (68.0, 60.0)
    assert find(work.document.plan, "d9").points[1] == (68.0, 60.0)


def test_the_return_is_pulled_along_the_drain_by_its_grip(canvas, island: Plan) -> None:
    hand = canvas(turn_over(island, "r9"))
    document = hand.view.tool.desk.document
    document.select({"r9"})
    assert [grip.at for grip in grips(document.element("r9"))] == [(72.0, 60.0)]
    hand.drag((72.0, 60.0), (84.0, 60.0))
    assert document.element("r9").returns == pytest.approx((84.0, 60.0), abs=1.0)
    assert document.element("d9").points[1] == document.element("r9").returns
    assert document.element("r9").at == (60.0, 60.0)


def test_its_picture_reaches_to_the_return(island: Plan) -> None:
    plain = draw_riser(island.risers[-1])
    looped = draw_riser(turn_over(island, "r9").risers[-1])
    assert len(looped.items) == len(plain.items) + 2
    assert looped.area.boundingRect().right() > plain.area.boundingRect().right() + 10.0
    assert "comes down again" in looped.tip
