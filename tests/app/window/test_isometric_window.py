"""The isometric's window: turning, zooming, following the study, its picture, its place."""

from __future__ import annotations

from collections.abc import Callable

import pytest
from PySide6.QtCore import QPoint, Qt
from PySide6.QtTest import QTest

from app import palette
from app.workplace import Workplace
from engine.drawings.isometric.axes import project
from engine.plan.edits import set_field
from engine.plan.records import Plan
from tests.app.window.isometric_hand import (
    LEFT,
    NO_KEYS,
    SHIFT,
    click,
    ink_of,
    move,
    names,
    near,
    view_of,
    wheel,
    window_of,
)

MakeWork = Callable[..., Workplace]


class TestTurning:
    def test_buttons_and_keys_turn_by_quarters(self, opened: Workplace) -> None:
        window, view = window_of(opened), view_of(opened)
        first = view.corner
        window.buttons["turn_right"].click()
        assert view.corner == (first + 1) % 4
        window.buttons["turn_left"].click()
        assert view.corner == first
        for step in range(1, 5):
            QTest.keyClick(view, Qt.Key.Key_T)
            assert view.corner == (first + step) % 4
        QTest.keyClick(view, Qt.Key.Key_T, SHIFT)
        assert view.corner == (first + 3) % 4

    def test_the_corner_is_told_in_words(self, opened: Workplace) -> None:
        window = window_of(opened)
        assert window.corner.text() == "seen from the south-west"
        window.turn_right()
        assert window.corner.text() == "seen from the south-east"
        assert "south-east" in view_of(opened).accessibleDescription()

    @pytest.mark.parametrize("turns", range(4))
    def test_pipes_lie_on_the_axes_of_the_corner(self, opened: Workplace, turns: int) -> None:
        """The main runs from north to south: on the screen that is the projection of (0, -1, 0), y down."""
        view = view_of(opened)
        view.turn_by(turns)
        upper, lower = view.pixel_of("D15"), view.pixel_of("D11")
        assert upper is not None and lower is not None
        across, up = project((0.0, -1.0, 0.0), view.corner)
        gone = lower - upper
        assert gone.x() / -gone.y() == pytest.approx(across / up, rel=0.02)
        assert gone.x() * across > 0.0

    def test_a_turn_keeps_the_selection_and_shows_the_whole(self, opened: Workplace) -> None:
        view = view_of(opened)
        click(view, ink_of(view, "D15"))
        view.zoom_by(4.0)
        QTest.keyClick(view, Qt.Key.Key_T)
        assert opened.document.selection == {"d1"}
        assert view.held == "D15"
        assert all(view.rect().contains(ink_of(view, name)) for name in names(view))


class TestMoving:
    def test_the_wheel_zooms_about_the_pointer(self, opened: Workplace) -> None:
        view = view_of(opened)
        spot = ink_of(view, "D15")
        before = view.scale_now
        wheel(view, spot, 3)
        assert view.scale_now == pytest.approx(before * 1.18**3)
        after = ink_of(view, "D15")
        assert (after - spot).manhattanLength() <= 3

    def test_a_drag_moves_the_sheet_and_chooses_nothing(self, opened: Workplace) -> None:
        view = view_of(opened)
        start = ink_of(view, "D15")
        QTest.mousePress(view, LEFT, NO_KEYS, start)
        for step in (20, 60, 90):
            move(view, start + QPoint(step, step // 2), LEFT)
        QTest.mouseRelease(view, LEFT, NO_KEYS, start + QPoint(90, 45))
        assert ink_of(view, "D15") == start + QPoint(90, 45)
        assert opened.document.selection == frozenset()

    def test_keys_move_and_zoom(self, opened: Workplace) -> None:
        view = view_of(opened)
        start, scale = ink_of(view, "D15"), view.scale_now
        QTest.keyClick(view, Qt.Key.Key_Left)
        assert ink_of(view, "D15").x() > start.x()
        QTest.keyClicks(view, "+")
        assert view.scale_now > scale
        QTest.keyClicks(view, "-")
        assert view.scale_now == pytest.approx(scale)
        QTest.keyClicks(view, "f")
        assert ink_of(view, "D15") == start

    def test_names_and_marks_come_as_one_comes_nearer(self, opened: Workplace) -> None:
        """Far away some wait for room; near enough every part and piece in sight has its name."""
        window, view = window_of(opened), view_of(opened)
        window.resize(760, 420)
        view.frame_all()
        view.seat_labels()
        far = len(view.labels)
        view.zoom_by(4.0)
        view.reveal("D20")
        view.seat_labels()
        texts = {text.text for label in view.labels for text in label.texts}
        inside = view.rect().adjusted(70, 70, -70, -70)
        assert view.subject is not None
        for told in (*view.subject.told[0], *view.subject.told[1]):
            if inside.contains(ink_of(view, told.name)):
                assert any(told.name in label.about for label in view.labels), told.text
        assert 'D20 2"' in texts
        view.frame_all()
        view.seat_labels()
        assert len(view.labels) == far

    def test_labels_find_their_places_once_things_rest(self, opened: Workplace, qtbot) -> None:
        view = view_of(opened)
        view.zoom_by(2.0)
        carried = view.labels
        qtbot.waitUntil(lambda: view.labels != carried)

    def test_labels_keep_apart_and_inside(self, opened: Workplace) -> None:
        view = view_of(opened)
        for factor in (1.0, 1.7, 2.0):
            view.zoom_by(factor)
            view.seat_labels()
            boxes = [label.box for label in view.labels]
            for n, one in enumerate(boxes):
                assert all(one.overlap(other) == 0.0 for other in boxes[n + 1 :])
                corner = view.pixel_at((one.left, one.top))
                assert view.rect().contains(corner.toPoint())


class TestFollowing:
    def test_an_edit_shows_at_once(self, opened: Workplace, kitchen: Plan, qtbot) -> None:
        view = view_of(opened)
        opened.document.commit(set_field(kitchen, "d2", "size", "2"), "resize")
        qtbot.waitUntil(lambda: opened.document.studied)
        assert view.subject is not None
        assert "2 in waste" in view.subject.lines["D16"]
        listed = {row.key: row.text for group in window_of(opened).tree.rows.groups for row in group.rows}
        assert "2 in waste" in listed["D16"]

    def test_a_proposal_shows_while_it_lasts(self, opened: Workplace, kitchen: Plan, qtbot) -> None:
        view = view_of(opened)
        opened.document.propose(set_field(kitchen, "d2", "size", "2"))
        qtbot.waitUntil(lambda: view.subject is not None and "2 in waste" in view.subject.lines["D16"])
        opened.document.drop_proposal()
        qtbot.waitUntil(lambda: view.subject is not None and "1-1/2 in waste" in view.subject.lines["D16"])

    def test_what_was_zoomed_to_stays_where_it_was(self, opened: Workplace, kitchen: Plan, qtbot) -> None:
        view = view_of(opened)
        view.zoom_by(2.0)
        spot = ink_of(view, "D15")
        opened.document.commit(set_field(kitchen, "r2", "vent", "2"), "resize")
        qtbot.waitUntil(lambda: opened.document.studied)
        assert (ink_of(view, "D15") - spot).manhattanLength() <= 2

    def test_a_hidden_window_catches_up_when_it_comes_back(self, opened: Workplace, kitchen: Plan, qtbot) -> None:
        window, view = window_of(opened), view_of(opened)
        window.close()
        opened.document.commit(set_field(kitchen, "d2", "size", "2"), "resize")
        qtbot.waitUntil(lambda: opened.document.studied)
        assert view.subject is not None
        assert "1-1/2 in waste" in view.subject.lines["D16"]
        opened.commands["isometric"].trigger()
        qtbot.waitExposed(window)
        assert "2 in waste" in view.subject.lines["D16"]

    def test_water_is_shown_at_the_press_of_a_button(self, opened: Workplace) -> None:
        window, view = window_of(opened), view_of(opened)
        window.buttons["water"].click()
        assert view.cover == "water"
        assert {"c1", "h1"} <= set(names(view))
        click(view, ink_of(view, "c1"))
        assert opened.document.selection == {"c1"}
        assert [group.title.split(" (")[0] for group in window.tree.rows.groups] == ["Runs", "Fittings and other parts"]
        window.buttons["drains"].click()
        assert view.cover == "drains"

    def test_an_empty_floor_says_so(self, make_work: MakeWork, bare: Plan, qtbot) -> None:
        work = make_work(bare)
        qtbot.waitUntil(lambda: work.document.studied)
        work.commands["isometric"].trigger()
        view = view_of(work)
        qtbot.waitUntil(lambda: view.subject is not None)
        assert view.subject is not None
        assert view.subject.empty
        QTest.mouseClick(view, LEFT, NO_KEYS, QPoint(50, 50))
        QTest.keyClick(view, Qt.Key.Key_T)
        view.zoom_by(2.0)
        assert not view.grab().isNull()


class TestPicture:
    def test_pipes_are_drawn_in_their_systems_ink(self, opened: Workplace) -> None:
        view = view_of(opened)
        picture = view.grab().toImage()
        assert near(picture, view, ink_of(view, "D22"), palette.WASTE)
        vent = view.pixel_of("V3")
        assert vent is not None
        reach = [vent.toPoint() + QPoint(0, step) for step in range(-20, 21)]
        assert any(near(picture, view, at, palette.VENT) for at in reach)

    def test_what_is_selected_glows(self, opened: Workplace) -> None:
        view = view_of(opened)
        beside = ink_of(view, "D23") + QPoint(4, 0)
        assert near(view.grab().toImage(), view, beside, palette.GROUND)
        opened.document.select({"r2"})
        assert not near(view.grab().toImage(), view, beside, palette.GROUND)
        opened.document.select(())
        assert near(view.grab().toImage(), view, beside, palette.GROUND)

    @pytest.mark.logs_warnings
    def test_a_fault_in_painting_leaves_plain_paper(self, opened: Workplace, monkeypatch, caplog) -> None:
        view = view_of(opened)
        monkeypatch.setattr("app.isometric.drawn.Drawn.paint", lambda *_: 1 / 0)
        assert not view.grab().isNull()
        assert "the isometric could not be painted" in caplog.text


class TestWindow:
    def test_the_command_opens_it_and_goes_back_and_forth(self, opened: Workplace, qtbot) -> None:
        window = window_of(opened)
        qtbot.waitUntil(window.isActiveWindow)
        opened.commands["isometric"].trigger()
        qtbot.waitUntil(opened.window.isActiveWindow)
        assert window.isVisible()
        opened.commands["isometric"].trigger()
        qtbot.waitUntil(window.isActiveWindow)
        assert window_of(opened) is window

    def test_its_place_is_remembered(self, opened: Workplace) -> None:
        window_of(opened).resize(900, 610)
        opened.window.close()
        assert opened.settings.now.splits["isometric"]
        assert not window_of(opened).isVisible()

    def test_it_stands_in_the_view_menu(self, opened: Workplace) -> None:
        view_menu = next(action.menu() for action in opened.menus.actions() if action.text() == "&View")
        assert opened.commands["isometric"] in view_menu.actions()  # type: ignore[union-attr]
        assert opened.commands["isometric"].shortcut().toString() == "Ctrl+I"

    def test_after_letting_go_it_hears_nothing_more(self, opened: Workplace) -> None:
        view = view_of(opened)
        opened.let_go()
        subject = view.subject
        opened.document.blockSignals(False)
        opened.document.select({"d1"})
        assert view.subject is subject
