"""The fall strip: what it shows, and a hand that sets heights in it with mouse and keys."""

from __future__ import annotations

import time
from collections.abc import Callable
from pathlib import Path

import msgspec
import pytest
from hypothesis import HealthCheck, given, settings
from PySide6.QtCore import QPointF, Qt
from PySide6.QtGui import QAccessible, QImage, QPainter
from PySide6.QtTest import QTest

from app.strip import picture
from app.strip.pane import FallPane
from app.strip.scale import fitted
from app.strip.sheet import KEYS
from app.strip.subject import NOTHING, subject
from app.strip.wording import limit
from app.workplace import Workplace
from engine.plan.edits import move, set_field
from engine.plan.file import read as read_plan
from engine.plan.records import Plan
from engine.study import study
from tests.app.window.strip_hand import StripHand
from tests.engine import coarse_plans

SAMPLES = Path(__file__).resolve().parents[3] / "samples"
SHIFT = Qt.KeyboardModifier.ShiftModifier


@pytest.fixture
def bath() -> Plan:
    return read_plan(SAMPLES / "one-bath-cottage.jway")


@pytest.fixture
def hand(make_work: Callable[..., Workplace], bath: Plan, qtbot) -> StripHand:
    """The smaller sample with its lavatory's branch on show, on a window of usual size."""
    work = make_work(bath)
    work.window.resize(1280, 800)
    made = StripHand(work, qtbot)
    made.select("d2")
    return made


def dropping(plan: Plan) -> Plan:
    return set_field(plan, "d2", "join", "drop")


def test_it_shows_the_line_of_what_is_selected(hand: StripHand) -> None:
    assert (hand.section.low_end, hand.section.high_end) == ("exit x1", "riser r1")
    assert hand.work.fall.line.text().startswith("exit x1 to riser r1: falls 1 15/16 in over 7'-9\"")
    hand.select("wc1")
    assert hand.section.high_end == "closet wc1"
    hand.select("w1")
    assert hand.section.high_end == "riser r1", "a wall lies on no line: the longest of the exit is shown"
    hand.select()
    assert hand.section.high_end == "riser r1"


def test_of_several_things_the_line_with_most_of_them(hand: StripHand) -> None:
    hand.select("d1", "d3")
    assert {leg.element for leg in hand.section.legs} == {"d1", "d3"}


def test_without_an_exit_it_says_what_to_do(make_work, qtbot) -> None:
    work: Workplace = make_work()
    qtbot.waitUntil(lambda: work.document.studied, timeout=20_000)
    work.fall.sheet.grab()
    assert work.fall.subject.words == NOTHING
    assert not work.fall.field.isEnabled()
    assert not work.fall.choose.isEnabled()
    assert work.fall.sheet.accessibleDescription() == NOTHING


def test_a_drain_that_reaches_no_exit_is_named(hand: StripHand) -> None:
    document = hand.work.document
    document.commit(msgspec.structs.replace(document.settled, exits=()), "take the exit away")
    hand.rest()
    hand.select("d1")
    assert hand.work.fall.subject.words == "Drain d1 reaches no exit, so no height of it is known."


def test_a_drag_sets_the_exits_height_to_a_sixteenth(hand: StripHand) -> None:
    """7 7/16 down is chosen in a window of 7 1/4 to 7 5/8; a hand far past the upper end leaves it at what it shows."""
    end = hand.pull(40.0, 3.5)
    shown = hand.lever.z
    assert hand.work.document.proposing
    hand.release(end)
    document = hand.work.document
    (exit_,) = document.settled.exits
    assert exit_.pinned_z == shown == hand.lever.z
    assert shown == pytest.approx(round(shown * 16.0) / 16.0)
    assert shown == pytest.approx(-7.427 + 3.5, abs=0.2)
    assert document.undo_label == "set the height of exit x1"
    document.undo()
    assert document.settled.exits[0].pinned_z is None
    assert not document.can_undo, "one step for the whole drag"


def test_a_drag_holds_at_a_limit_until_it_is_pulled_on(hand: StripHand) -> None:
    """The highest is 7 11/48 down, 7 1/4 on a tape: a hand just past it leaves the pipe there."""
    assert limit(hand.lever, "high") == "7 1/4"
    start = hand.axis(40.0)
    begun = QPointF(start.toPoint())
    over = (-7.25 - hand.lever.z) * hand.sheet.scale.up
    hand.press(start)
    hand.move(begun + QPointF(0.0, 9.0))
    for past, wanted in ((1.5, -7.25), (3.0, -7.25)):
        hand.move(begun - QPointF(0.0, over + past))
        assert hand.lever.z == wanted
    hand.move(begun - QPointF(0.0, over + 6.0))
    assert hand.lever.z > -7.25
    assert hand.lever.past > 0.0
    hand.sheet.give_up()


def test_escape_puts_the_pipe_back(hand: StripHand) -> None:
    before = hand.work.document.settled
    hand.pull(40.0, 1.5)
    assert hand.work.document.plan.exits[0].pinned_z is not None
    hand.key(Qt.Key.Key_Escape)
    assert hand.work.document.plan is before
    assert not hand.work.document.can_undo
    hand.release(hand.axis(40.0))
    assert hand.work.document.plan is before, "letting go afterwards changes nothing"


def test_findings_change_while_the_pipe_is_dragged(hand: StripHand) -> None:
    document = hand.work.document
    assert not [one for one in document.study.findings if one.rule == "no-height-fits"]
    hand.pull(40.0, -2.0)
    assert [one for one in document.study.findings if one.rule == "no-height-fits"]
    assert [wood.cut.legal for wood in hand.section.woods] == [False, False], "too little wood under both bores"
    assert "under the lowest" in hand.sheet.accessibleDescription()
    assert "2 cuts do not hold" in hand.sheet.accessibleDescription()
    hand.key(Qt.Key.Key_Escape)
    assert [wood.cut.legal for wood in hand.section.woods] == [True, True]


def test_shift_drags_slowly(hand: StripHand) -> None:
    start = hand.axis(40.0)
    begun = QPointF(start.toPoint())
    hand.press(start)
    hand.move(begun + QPointF(0.0, 4.0), keys=SHIFT)
    hand.release(begun + QPointF(0.0, 4.0))
    # 4 pixels of 1/32 in under 7.427 is 7.552 down: 7 9/16
    assert hand.work.document.settled.exits[0].pinned_z == -7.5625


def test_a_press_alone_moves_nothing(hand: StripHand) -> None:
    before = hand.work.document.settled
    start = hand.axis(40.0)
    hand.press(start)
    hand.move(start + QPointF(0.0, 1.0))
    hand.release(start)
    assert hand.work.document.settled is before


def test_the_wheel_and_a_press_beside_the_pipe_move_nothing(hand: StripHand) -> None:
    before = hand.work.document.settled
    place = hand.sheet.scale.point(40.0, -1.0)
    hand.press(place)
    hand.move(place + QPointF(0.0, 30.0))
    hand.release(place)
    assert hand.work.document.settled is before


def test_a_drop_is_dragged_by_itself(make_work, bath: Plan, qtbot) -> None:
    work: Workplace = make_work(dropping(bath))
    hand = StripHand(work, qtbot)
    hand.select("d2")
    assert hand.lever.field == "rise"
    before = work.document.settled.exits
    end = hand.pull(hand.section.length - 10.0, 2.0)
    hand.release(end)
    run = next(run for run in work.document.settled.drains if run.id == "d2")
    assert run.rise == pytest.approx(round(run.rise * 16.0) / 16.0)
    assert work.document.settled.exits == before
    assert hand.lever.pinned
    # the main under it still hangs on the exit
    start = hand.axis(20.0)
    hand.press(start)
    hand.release(start)
    assert hand.lever.field == "pinned_z"
    assert "exit x1" in hand.work.fall._name.text()


def test_a_water_line_is_dragged_by_itself(make_work, kitchen: Plan, qtbot) -> None:
    work: Workplace = make_work(kitchen)
    hand = StripHand(work, qtbot)
    hand.select("c1")
    end = hand.pull(20.0, 1.5)
    hand.release(end)
    line = next(one for one in work.document.settled.supplies if one.id == "c1")
    assert line.down == pytest.approx(4.5, abs=0.15)
    assert line.down == round(line.down * 16.0) / 16.0
    assert work.document.undo_label == "set the depth of water line c1"


def test_keys_move_the_pipe_by_marks_of_the_tape(hand: StripHand) -> None:
    document = hand.work.document
    hand.sheet.setFocus()
    hand.key(Qt.Key.Key_Up)
    assert document.settled.exits[0].pinned_z == -7.375, "from 7.427 down to the next mark up"
    hand.key(Qt.Key.Key_Down)
    hand.key(Qt.Key.Key_Down, SHIFT)
    assert document.settled.exits[0].pinned_z == -7.5
    hand.key(Qt.Key.Key_PageDown)
    assert document.settled.exits[0].pinned_z == -8.0
    document.undo()
    assert document.settled.exits[0].pinned_z is None, "nudges one after the other are one step"


def test_keys_pressed_faster_than_the_study_all_count(hand: StripHand) -> None:
    for _ in range(5):
        QTest.keyClick(hand.sheet, Qt.Key.Key_Down)
    hand.rest()
    # 7.427: 7 7/16, then four marks more
    assert hand.work.document.settled.exits[0].pinned_z == -7.6875


@pytest.mark.parametrize("how", ["key", "button", "empty field"])
def test_the_program_chooses_again(hand: StripHand, how: str) -> None:
    hand.key(Qt.Key.Key_Up)
    pane: FallPane = hand.work.fall
    assert pane.choose.isEnabled()
    if how == "key":
        hand.key(Qt.Key.Key_Home)
    elif how == "button":
        QTest.mouseClick(pane.choose, Qt.MouseButton.LeftButton)
    else:
        pane.field.selectAll()
        QTest.keyClick(pane.field, Qt.Key.Key_Delete)
        QTest.keyClick(pane.field, Qt.Key.Key_Return)
    hand.rest()
    assert hand.work.document.settled.exits[0].pinned_z is None
    assert not pane.choose.isEnabled()


def test_a_double_click_leads_to_the_field_and_a_height_is_typed(hand: StripHand) -> None:
    pane: FallPane = hand.work.fall
    hand.work.window.activateWindow()
    at = hand.axis(40.0).toPoint()
    QTest.mouseDClick(hand.sheet, Qt.MouseButton.LeftButton, Qt.KeyboardModifier.NoModifier, at)
    assert pane.field.hasFocus()
    assert pane.field.selectedText() == pane.field.text() == "7 7/16"
    QTest.keyClicks(pane.field, "7-1/2")
    QTest.keyClick(pane.field, Qt.Key.Key_Return)
    hand.rest()
    assert hand.work.document.settled.exits[0].pinned_z == -7.5
    assert pane.field.text() == "7 1/2"


@pytest.mark.parametrize("text", ["seven", "-3"])
def test_what_is_no_height_is_refused_with_the_reason(hand: StripHand, text: str) -> None:
    before = hand.work.document.settled
    pane: FallPane = hand.work.fall
    said: list[str] = []
    pane.told.connect(said.append)
    pane.field.setText(text)
    QTest.keyClick(pane.field, Qt.Key.Key_Return)
    assert hand.work.document.settled is before
    assert said
    assert pane.field.property("wrong")


def test_a_joist_under_the_pointer_tells_its_height_from_both_edges(hand: StripHand) -> None:
    """Joist 2: 7.427 less 69 in of fall, 1.4375: 5.990 down; 9.25 less that up."""
    (second, _) = hand.section.woods
    hand.move(hand.sheet.scale.point(second.station, -1.0), held=Qt.MouseButton.NoButton)
    told = hand.sheet.accessibleDescription()
    assert "axis 6 in down, 3 1/4 in up from the bottom" in told
    assert "joist 2: bore, 2-1/8 in bit, holds" in told


def test_arrows_walk_along_the_line(hand: StripHand) -> None:
    told = []
    for _ in range(6):
        hand.key(Qt.Key.Key_Right)
        told.append(hand.sheet.accessibleDescription())
    assert [any(word in one for one in told) for word in ("quarter bend", "wye", "joist 2", "coupling")] == [True] * 4
    hand.key(Qt.Key.Key_Left)
    assert hand.sheet.accessibleDescription() == told[-2]
    hand.key(Qt.Key.Key_Escape)
    assert hand.sheet.accessibleDescription().startswith("7 7/16 in down at exit x1")


def test_assistive_programs_find_a_slider_and_can_set_it(hand: StripHand) -> None:
    found = QAccessible.queryAccessibleInterface(hand.sheet)
    assert found.role() == QAccessible.Role.Slider
    assert found.text(QAccessible.Text.Name) == "Long section of the fall"
    assert hand.sheet.value() == round(7.427 * 16)
    assert hand.work.document.settled.exits[0].pinned_z is None, "showing a value sets nothing"
    hand.sheet.setValue(120)
    hand.rest()
    assert hand.work.document.settled.exits[0].pinned_z == -7.5


def test_limits_stand_in_the_drawing(hand: StripHand) -> None:
    """Where the axis may lie is tinted: between 7 1/4 and 7 5/8 down at the exit."""
    image = hand.sheet.grab().toImage()
    scale = hand.sheet.scale
    column = int(scale.x(4.0))
    inks = {image.pixelColor(column, row).name() for row in range(int(scale.y(-6.9)), int(scale.y(-7.9)))}
    hand.sheet.subject = hand.sheet.subject._replace(lever=None)
    bare = hand.sheet.grab().toImage()
    without = {bare.pixelColor(column, row).name() for row in range(int(scale.y(-6.9)), int(scale.y(-7.9)))}
    assert inks - without


def test_it_follows_whatever_is_being_dragged_on_the_canvas(hand: StripHand) -> None:
    document = hand.work.document
    before = hand.section.length
    document.propose(move(document.settled, ("x1",), 0.0, -4.0))
    hand.rest()
    assert hand.section.length == before + 4.0
    document.drop_proposal()
    hand.rest()
    assert hand.section.length == before


def test_what_was_shown_may_be_deleted(hand: StripHand) -> None:
    hand.work.delete()
    hand.rest()
    assert "d2" not in {leg.element for leg in hand.section.legs}
    hand.work.document.undo()
    hand.rest()
    hand.select("d2")
    assert hand.section.high_end == "riser r1"


def test_coming_by_keyboard_tells_the_keys(hand: StripHand) -> None:
    said: list[str] = []
    hand.work.fall.told.connect(said.append)
    hand.work.window.activateWindow()
    hand.sheet.setFocus(Qt.FocusReason.TabFocusReason)
    assert said == [KEYS]


def test_another_change_ends_a_drag(hand: StripHand) -> None:
    hand.pull(40.0, 1.0)
    document = hand.work.document
    document.commit(set_field(document.settled, "x1", "tail_z", -30.0), "lower the tail")
    hand.rest()
    assert not hand.sheet.holding
    hand.release(hand.axis(40.0))
    assert document.settled.exits[0].pinned_z is None
    assert document.settled.exits[0].tail_z == -30.0


def test_it_is_shown_and_hidden_from_the_menu_and_that_is_remembered(make_work, bath: Plan, qtbot) -> None:
    work: Workplace = make_work(bath)
    assert work.fall.isVisible()
    work.commands["fall_strip"].trigger()
    assert not work.fall.isVisible()
    work.window.close()
    assert work.settings.now.fall_strip is False
    again: Workplace = make_work(bath)
    assert not again.fall.isVisible()
    assert not again.commands["fall_strip"].isChecked()
    again.commands["fall_strip"].trigger()
    qtbot.waitUntil(lambda: again.document.studied, timeout=20_000)
    again.fall.sheet.grab()
    assert again.fall.subject.section is not None, "what came meanwhile is shown"


def test_its_height_is_remembered_shown_or_hidden(make_work, bath: Plan, qtbot) -> None:
    work: Workplace = make_work(bath)
    work.window.resize(1280, 1000)
    work._layout._middle.setSizes([300, 280, 200])
    qtbot.waitUntil(lambda: work.fall.height() > 260)
    tall = work.fall.height()
    work.commands["fall_strip"].trigger()
    work.window.close()
    again: Workplace = make_work(bath)
    again.window.resize(1280, 1000)
    again.commands["fall_strip"].trigger()
    qtbot.waitUntil(lambda: abs(again.fall.height() - tall) <= 12)


def test_out_of_sight_nothing_is_worked_out(make_work, bath: Plan, qtbot, monkeypatch: pytest.MonkeyPatch) -> None:
    work: Workplace = make_work(bath)
    work.commands["fall_strip"].trigger()
    asked: list[object] = []
    monkeypatch.setattr("app.strip.pane.subject", lambda *given: asked.append(given))
    work.document.commit(set_field(bath, "x1", "pinned_z", -7.5), "pin it")
    qtbot.waitUntil(lambda: work.document.studied, timeout=20_000)
    assert asked == []


def test_the_round_of_the_panes_stops_there(hand: StripHand) -> None:
    hand.work.view.setFocus()
    places = []
    for _ in range(9):
        hand.work.next_pane()
        places.append(hand.sheet.hasFocus())
    assert any(places)


@given(coarse_plans.plans() | coarse_plans.bathrooms())
@settings(deadline=None, max_examples=60, suppress_health_check=list(HealthCheck))
def test_any_line_of_any_plan_can_be_painted(qapp, plan: Plan) -> None:
    found = study(plan)
    image = QImage(640, 140, QImage.Format.Format_ARGB32_Premultiplied)
    for one in (*plan.drains, *plan.fixtures, *plan.risers, *plan.exits, *plan.supplies, *plan.vents):
        made = subject(found, {one.id})
        painter = QPainter(image)
        if made.section is None:
            picture.paint_words(painter, made.words, image.size())
        else:
            scale = fitted(made.section, image.size())
            assert scale.along > 0.0
            assert scale.up >= scale.along - 1e-9, "lengths are never drawn larger than heights"
            picture.paint(painter, scale, made.section, made.lever, image.size())
            for share in (0.0, 0.37, 1.0):
                station = share * made.section.length
                picture.paint_place(painter, scale, made.section, station, image.size())
                assert all(picture.told_at(scale, made.section, station))
            if made.lever is not None:
                picture.paint_dragging(painter, made.section, made.lever, image.size())
        painter.end()


@pytest.mark.parametrize("sample", ["one-bath-cottage", "cottage-with-kitchen", "cottage-with-mistakes"])
def test_a_frame_of_a_drag_is_painted_well_within_a_screens_beat(make_work, sample: str, qtbot) -> None:
    """A screen shows 60 frames a second, 16 ms each (common practice, no source): finding and painting a line takes less."""
    work: Workplace = make_work(read_plan(SAMPLES / f"{sample}.jway"))
    work.window.resize(1600, 1000)
    hand = StripHand(work, qtbot)
    image = QImage(hand.sheet.size(), QImage.Format.Format_ARGB32_Premultiplied)
    best = 1.0
    for _ in range(10):
        begun = time.perf_counter()
        work.fall._show()
        painter = QPainter(image)
        hand.sheet.render(painter, hand.sheet.rect().topLeft())
        painter.end()
        best = min(best, time.perf_counter() - begun)
    assert best < 0.016
