"""The fall strip: what it shows, whom it follows, and how it is shown and hidden."""

from __future__ import annotations

import time
from pathlib import Path

import msgspec
import pytest
from hypothesis import HealthCheck, given, settings
from PySide6.QtCore import Qt
from PySide6.QtGui import QImage, QPainter

from app.strip import picture
from app.strip.scale import fitted
from app.strip.sheet import FOLDED, LOWEST
from app.strip.subject import NOTHING, subject
from app.workplace import Workplace
from engine.plan.edits import move, set_field
from engine.plan.file import read as read_plan
from engine.plan.records import Plan
from engine.study import study
from engine.takeoff.levers import HANGS
from tests.app.window.strip_hand import StripHand
from tests.engine import coarse_plans
from tests.engine.checks.island_plans import island

SAMPLES = Path(__file__).resolve().parents[3] / "samples"


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


def test_a_foot_vent_says_in_the_strip_why_it_cannot_be_dragged(make_work, qtbot) -> None:
    """What it says stands where the heights of other lines stand, and only where a line cannot be moved."""
    work: Workplace = make_work()
    work.document.commit(island(), "draw an island")
    hand = StripHand(work, qtbot)
    hand.select("v1")
    assert hand.sheet.subject.lever is None
    assert hand.sheet.accessibleDescription() == HANGS
    written = words_at_the_left(hand)
    hand.sheet.subject = hand.sheet.subject._replace(words="")
    assert written != words_at_the_left(hand)
    before = hand.work.document.settled
    hand.release(hand.pull(hand.section.length - 40.0, 1.0))
    assert hand.work.document.settled is before


def words_at_the_left(hand: StripHand) -> bytes:
    """What is painted where a line's heights are told."""
    shown = hand.sheet.grab().toImage().copy(36, 2, 96, hand.sheet.height() - 34)
    return bytes(shown.constBits())


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


def test_a_height_that_is_none_is_told_in_the_strip_itself(hand: StripHand, qtbot) -> None:
    """Not only by a red frame; Escape takes it back."""
    pane = hand.work.fall
    before = pane.line.text()
    pane.field.setFocus()
    pane.field.selectAll()
    qtbot.keyClicks(pane.field, "abc")
    qtbot.keyClick(pane.field, Qt.Key.Key_Return)
    assert "abc" in pane.line.text()
    assert pane.line.property("role") == "fault"
    qtbot.keyClick(pane.field, Qt.Key.Key_Escape)
    assert (pane.line.text(), pane.line.property("role")) == (before, "")


def test_it_takes_little_room_until_a_line_is_drawn(make_work, bath: Plan, qtbot) -> None:
    """The canvas of such a plan is higher; the first drain brings the section its room."""
    empty = msgspec.structs.replace(bath, drains=(), supplies=())
    work: Workplace = make_work(empty)
    qtbot.waitUntil(lambda: work.fall.sheet.height() <= FOLDED)
    assert make_work(bath).view.height() < work.view.height()
    work.document.commit(bath, "draw it all")
    qtbot.waitUntil(lambda: work.fall.sheet.height() >= LOWEST)
    work.commands["undo"].trigger()
    qtbot.waitUntil(lambda: work.fall.sheet.height() <= FOLDED)
