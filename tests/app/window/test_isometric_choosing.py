"""One selection in isometric, plan, outline and list, by real pointer and keys."""

from __future__ import annotations

from PySide6.QtCore import QPoint, Qt
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication, QToolButton

from app.canvas.places import to_scene
from app.workplace import Workplace
from engine.plan.edits import set_field
from engine.plan.records import Plan
from tests.app.window.isometric_hand import (
    LEFT,
    NO_KEYS,
    SHIFT,
    click,
    ink_of,
    names,
    part,
    pixel_in,
    view_of,
    window_of,
)


class TestSelection:
    def test_a_click_on_a_piece_selects_its_run_in_plan_and_outline(self, opened: Workplace) -> None:
        view = view_of(opened)
        click(view, ink_of(view, "D15"))
        assert opened.document.selection == {"d1"}
        assert "d1" in opened.view.scene().outlined()
        assert opened.outline.tree.selected == ("d1",)
        assert view.held == "D15"

    def test_every_piece_can_be_clicked(self, opened: Workplace) -> None:
        view = view_of(opened)
        assert view.subject is not None
        for told in view.subject.told[0]:
            click(view, ink_of(view, told.name))
            assert opened.document.selection == set(told.elements), told.text

    def test_a_click_on_a_part_selects_all_that_it_joins(self, opened: Workplace) -> None:
        view = view_of(opened)
        tee = part(view, "Sanitary tee 1-1/2: r1")
        click(view, ink_of(view, tee))
        assert opened.document.selection == {"r1", "lav1"}
        assert set(opened.outline.tree.selected) == {"r1", "lav1"}

    def test_a_click_on_a_label_selects_what_it_names(self, opened: Workplace) -> None:
        view = view_of(opened)
        label = next(label for label in view.labels if label.texts[0].text.startswith("WC wc1"))
        click(view, pixel_in(view, label.box))
        assert opened.document.selection == {"wc1"}

    def test_a_click_beside_everything_lets_go(self, opened: Workplace) -> None:
        view = view_of(opened)
        click(view, ink_of(view, "D15"))
        click(view, QPoint(view.width() - 8, view.height() - 8))
        assert opened.document.selection == frozenset()
        assert view.held is None

    def test_shift_adds_and_takes_away(self, opened: Workplace) -> None:
        view = view_of(opened)
        click(view, ink_of(view, "D15"))
        click(view, ink_of(view, "V1"), SHIFT)
        assert opened.document.selection == {"d1", "r1"}
        click(view, ink_of(view, "D15"), SHIFT)
        assert opened.document.selection == {"r1"}

    def test_a_click_on_the_plan_glows_here(self, opened: Workplace) -> None:
        view = view_of(opened)
        middle = opened.view.mapFromScene(to_scene((70.0, 24.0)))  # on run d4, in the kitchen's bay
        QTest.mouseClick(opened.view.viewport(), LEFT, NO_KEYS, middle)
        assert opened.document.selection == {"d4"}
        assert {"D4", "D5", "D20"} <= view.glowing
        assert "D15" not in view.glowing
        assert window_of(opened).tree.selected == ("D4",)

    def test_a_choice_in_the_outline_glows_here(self, opened: Workplace, qtbot) -> None:
        tree = opened.outline.tree
        index = tree.rows.places(("r2",))[0]
        tree.scrollTo(index)
        qtbot.mouseClick(tree.viewport(), LEFT, pos=tree.visualRect(index).center())
        assert opened.document.selection == {"r2"}
        assert "V3" in view_of(opened).glowing

    def test_a_choice_in_the_list_beside_it_is_held_and_selected(self, opened: Workplace, qtbot) -> None:
        tree = window_of(opened).tree
        index = tree.rows.places(("D7",))[0]
        tree.scrollTo(index)
        qtbot.mouseClick(tree.viewport(), LEFT, pos=tree.visualRect(index).center())
        assert view_of(opened).held == "D7"
        assert opened.document.selection == {"d4"}
        assert tree.selected == ("D7",)

    def test_what_is_chosen_elsewhere_is_brought_into_sight(self, opened: Workplace) -> None:
        view = view_of(opened)
        for _ in range(12):
            view.zoom_by(1.3)
        view.pan_by(4000.0, 4000.0)
        opened.document.select({"wc1"})
        places = [view.pixel_of(name) for name in view.glowing]
        assert any(place is not None and view.rect().contains(place.toPoint()) for place in places)


class TestKeyboard:
    def test_tab_walks_everything_and_leaves_at_the_end(self, opened: Workplace) -> None:
        view = view_of(opened)
        view.setFocus()
        seen = []
        for _ in range(len(names(view))):
            QTest.keyClick(view, Qt.Key.Key_Tab)
            assert view.held is not None
            seen.append(view.held)
            assert opened.document.selection == set(names(view)[view.held])
        assert sorted(seen) == sorted(names(view))
        assert not view.focusNextPrevChild(True) or QApplication.focusWidget() is not view
        view.hold(None)
        assert view.focusNextPrevChild(False)
        assert view.held == seen[-1]

    def test_enter_goes_to_the_properties(self, opened: Workplace, qtbot) -> None:
        view = view_of(opened)
        view.hold("D15")
        QTest.keyClick(view, Qt.Key.Key_Return)
        assert opened.document.selection == {"d1"}
        qtbot.waitUntil(opened.window.isActiveWindow)

    def test_escape_lets_go(self, opened: Workplace) -> None:
        view = view_of(opened)
        view.hold("D15")
        QTest.keyClick(view, Qt.Key.Key_Escape)
        assert opened.document.selection == frozenset()
        assert view.held is None

    def test_f6_goes_round_the_window(self, opened: Workplace, qtbot) -> None:
        window = window_of(opened)
        window.view.setFocus()
        qtbot.waitUntil(window.view.hasFocus)
        for expected in (window.tree, window.buttons["turn_left"], window.view):
            focus = QApplication.focusWidget()
            assert focus is not None
            QTest.keyClick(focus, Qt.Key.Key_F6)
            assert QApplication.focusWidget() is expected

    def test_undo_works_from_here(self, opened: Workplace, kitchen: Plan) -> None:
        opened.document.commit(set_field(kitchen, "d4", "size", "3"), "resize")
        window = window_of(opened)
        window.activateWindow()
        QTest.keyClick(window.view, Qt.Key.Key_Z, Qt.KeyboardModifier.ControlModifier)
        assert opened.document.plan == kitchen

    def test_everything_has_a_name_for_a_screen_reader(self, opened: Workplace) -> None:
        window = window_of(opened)
        assert window.view.accessibleName() == "Isometric"
        assert "28 pipes" in window.view.accessibleDescription()
        assert window.tree.accessibleName() == "Pieces and parts in words"
        for button in window.findChildren(QToolButton):
            assert button.accessibleName(), button.text()
            assert button.focusPolicy() == Qt.FocusPolicy.StrongFocus

    def test_the_list_says_everything_that_the_picture_shows(self, opened: Workplace) -> None:
        window, view = window_of(opened), view_of(opened)
        listed = {row.key for group in window.tree.rows.groups for row in group.rows}
        assert view.subject is not None
        assert listed == {shown.name for shown in view.subject.figure(0.05).shown}
