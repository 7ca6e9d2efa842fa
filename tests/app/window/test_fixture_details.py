"""What a fixture is, in the properties: whose trap takes its waste, its bowls, heads, flush and disposer."""

from __future__ import annotations

from PySide6.QtCore import Qt

from engine.drafting.placing import place_fixture
from engine.plan.edits import find, set_fields
from engine.plan.records import Plan
from tests.app.window.details_by_hand import seen, shown, write


def test_what_takes_a_fixtures_waste_is_chosen_with_its_riser(make_work, cottage: Plan) -> None:
    """A dishwasher through the sink beside it: its riser goes, and what its own drain would have asks nothing more."""
    plan = place_fixture(place_fixture(cottage, "kitchen_sink", (100.0, 106.25)), "dishwasher", (20.0, 106.25))
    work = shown(make_work, plan, "f4")
    assert {"through", "trap", "outlet_above_floor", "arm"} <= set(seen(work))
    box = work.details.editors["through"].box
    assert [box.itemText(row) for row in range(box.count())] == ["a drain of its own", "Kitchen sink f3"]
    box.setCurrentIndex(1)
    box.activated.emit(1)
    now = work.document.plan
    assert find(now, "f4").through == "f3"
    assert len(now.risers) == len(plan.risers) - 1
    assert work.document.undo_label == "change drains through of f4"
    assert {"trap", "outlet_above_floor", "arm"}.isdisjoint(seen(work))
    work.document.undo()
    assert work.document.plan is plan


def test_bowls_heads_flush_and_disposer_are_asked_of_those_that_have_them(make_work, cottage: Plan) -> None:
    plan = place_fixture(place_fixture(cottage, "kitchen_sink", (100.0, 106.25)), "shower", (100.0, 30.0))
    work = shown(make_work, plan, "f3")
    assert {"bowls", "disposer"} <= set(seen(work))
    assert {"bowls_apart", "heads", "gallons", "through"}.isdisjoint(seen(work))
    work.document.commit(set_fields(work.document.plan, "f3", bowls=2), "bowls")
    assert "bowls_apart" in seen(work)
    work.document.select({"f4"})
    assert "heads" in seen(work)
    assert {"bowls", "disposer", "gallons"}.isdisjoint(seen(work))
    work.document.select({"f1"})
    assert "gallons" in seen(work)


def test_drains_through_is_chosen_from_its_list(make_work, qtbot, cottage: Plan) -> None:
    """The pointer opens the list, a key goes to the sink, Enter takes it; and back to a drain of its own."""
    plan = place_fixture(place_fixture(cottage, "kitchen_sink", (100.0, 106.25)), "dishwasher", (20.0, 106.25))
    work = shown(make_work, plan, "f4")
    for key, through, risers in ((Qt.Key.Key_Down, "f3", 2), (Qt.Key.Key_Up, None, 3)):
        box = work.details.editors["through"].box
        qtbot.mouseClick(box, Qt.MouseButton.LeftButton)
        qtbot.waitUntil(box.view().isVisible)
        qtbot.keyClick(box.view(), key)
        qtbot.keyClick(box.view(), Qt.Key.Key_Return)
        assert find(work.document.plan, "f4").through == through
        assert len(work.document.plan.risers) == risers


def test_bowls_heads_and_flush_are_typed(make_work, qtbot, cottage: Plan) -> None:
    plan = place_fixture(place_fixture(cottage, "kitchen_sink", (100.0, 106.25)), "shower", (100.0, 30.0))
    work = shown(make_work, plan, "f3")
    write(qtbot, work.details.editors["bowls"], "3")
    write(qtbot, work.details.editors["bowls_apart"], "2' 6")
    qtbot.mouseClick(work.details.editors["disposer"].box, Qt.MouseButton.LeftButton)
    sink = find(work.document.plan, "f3")
    assert (sink.bowls, sink.bowls_apart, sink.disposer) == (3, 30.0, True)
    write(qtbot, work.details.editors["bowls"], "five")
    assert find(work.document.plan, "f3") == sink
    work.document.select({"f4"})
    write(qtbot, work.details.editors["heads"], "6")
    assert find(work.document.plan, "f4").heads == 6
    write(qtbot, work.details.editors["heads"], "13")
    assert find(work.document.plan, "f4").heads == 6
    work.document.select({"f1"})
    write(qtbot, work.details.editors["gallons"], "3.5")
    assert find(work.document.plan, "f1").gallons == 3.5


def test_what_a_fixture_is_comes_before_its_measures(make_work, cottage: Plan) -> None:
    plan = place_fixture(cottage, "kitchen_sink", (100.0, 106.25))
    names = seen(shown(make_work, plan, "f3"))
    assert names.index("bowls") < names.index("disposer") < names.index("trap") < names.index("width")
