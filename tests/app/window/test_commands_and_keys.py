"""Every command has a key or a reason, stands in a menu and does something; the panes are reached by keyboard."""

from __future__ import annotations

from collections import Counter
from pathlib import Path

import pytest
from PySide6.QtCore import Qt
from PySide6.QtGui import QAction, QKeySequence
from PySide6.QtWidgets import QApplication, QWidget

from app import theme
from app.actions import COMMANDS, MENUS
from app.canvas.picture import LAYERS
from app.dialogs.pages import PAGES
from app.menus import LAYERS_WITH_KEYS
from app.tools import TOOLS
from app.workplace import Workplace
from engine.plan.edits import set_plan
from engine.plan.file import save
from engine.plan.records import Plan
from engine.trade.fixtures import KINDS


@pytest.mark.parametrize("command", COMMANDS, ids=lambda command: command.name)
def test_a_command_has_a_key_or_a_reason(command) -> None:
    assert bool(command.keys) != bool(command.no_key), "exactly one of a key and a reason for none"
    assert not command.keys or not QKeySequence(command.keys).isEmpty()
    assert command.menu in MENUS
    assert command.help[0].isupper()
    assert not command.help.endswith(".")


def test_no_two_commands_share_a_key(work: Workplace) -> None:
    keys = Counter(
        action.shortcut().toString() for action in work.window.findChildren(QAction) if not action.shortcut().isEmpty()
    )
    assert [key for key, times in keys.items() if times > 1] == []


def test_every_action_of_the_window_is_declared(work: Workplace) -> None:
    """Commands, tools (a letter on the canvas), layers (a digit), recent plans (their number in the menu)."""
    known = {command.name for command in COMMANDS} | set(TOOLS) | {f"layer_{name}" for name in LAYERS}
    named = {action.objectName() for action in work.window.findChildren(QAction) if action.text() and not action.menu()}
    assert {name for name in named if name and not name.startswith(("recent_", "qt_"))} <= known
    assert named >= known


def test_layers_have_digits_and_the_rest_the_menu(work: Workplace) -> None:
    with_keys = [action for action in work.menus.layers.values() if not action.shortcut().isEmpty()]
    assert len(with_keys) == min(LAYERS_WITH_KEYS, len(LAYERS))


def test_one_letter_keys_belong_to_tools_alone(work: Workplace) -> None:
    letters = {QKeySequence(tool.key).toString() for tool in TOOLS.values()}
    for action in work.window.findChildren(QAction):
        keys = action.shortcut()
        plain = not keys.isEmpty() and not keys[0].keyboardModifiers() and keys[0].key() < Qt.Key.Key_Escape
        assert not plain or keys.toString() in letters, action.text()


@pytest.mark.parametrize("home", ["outline", "shelf", "findings", "exit_window", "toolstrip"])
def test_a_tools_letter_works_wherever_the_keyboard_is(make_work, cottage: Plan, qtbot, home: str) -> None:
    work: Workplace = make_work(cottage)
    work.window.activateWindow()
    qtbot.waitUntil(work.view.hasFocus)
    for name, tool in TOOLS.items():
        getattr(work, home).home().setFocus()
        qtbot.keyClick(QApplication.focusWidget(), QKeySequence(tool.key)[0].key())
        assert work.view.tool_name == name
        assert work.view.hasFocus()


def test_a_text_field_keeps_its_letters(make_work, cottage: Plan, qtbot) -> None:
    work: Workplace = make_work(cottage)
    work.window.activateWindow()
    work.document.select(["w1"])
    field = work.details.editors["name"].line
    field.setFocus()
    qtbot.waitUntil(field.hasFocus)
    field.selectAll()
    qtbot.keyClicks(field, "wed cold")
    assert field.text() == "wed cold"
    assert work.view.tool_name == "choose"


def test_units_of_a_typed_length_take_up_no_tool(work: Workplace, qtbot) -> None:
    """The i of "in" is a tool's letter too."""
    work.window.activateWindow()
    qtbot.waitUntil(work.view.hasFocus)
    view = work.view
    qtbot.keyClicks(view, "d")
    for east in (20.0, 60.0):
        pixel = view.mapFromScene(east, -40.0)
        qtbot.mouseMove(view.viewport(), pixel)
        if east == 20.0:
            qtbot.mouseClick(view.viewport(), Qt.MouseButton.LeftButton, pos=pixel)
    qtbot.keyClicks(view, "30in")
    qtbot.keyClick(view, Qt.Key.Key_Return)
    qtbot.keyClick(view, Qt.Key.Key_Return)
    assert view.tool_name == "drain"
    (x0, _), (x1, _) = work.document.settled.drains[0].points
    assert x1 - x0 == 30.0


def test_the_canvas_has_the_keyboard_after_a_new_plan_and_shows_it(
    make_work, cottage: Plan, bare: Plan, qtbot, tmp_path
) -> None:
    work: Workplace = make_work(cottage)
    work.window.activateWindow()
    qtbot.waitUntil(work.view.hasFocus)
    framed = work.view.grab().toImage().pixelColor(0, 40)
    work.outline.home().setFocus()
    assert work.view.grab().toImage().pixelColor(0, 40) != framed
    assert framed.name() == theme.PINE
    work.view.set_tool("drain")
    work.filing.begin(bare)
    assert (work.view.hasFocus(), work.view.tool_name) == (True, "choose")
    save(bare, tmp_path / "bare.jway")
    work.outline.home().setFocus()
    work.filing.open_path(tmp_path / "bare.jway")
    assert work.view.hasFocus()


def test_a_placed_fixture_gives_way_to_choosing_unless_shift_keeps_it(make_work, bare: Plan, qtbot) -> None:
    work: Workplace = make_work(bare)
    shelf, view = work.shelf.shelf, work.view
    card = shelf.visualItemRect(shelf.item(1))

    def take() -> None:
        qtbot.mouseClick(shelf.viewport(), Qt.MouseButton.LeftButton, pos=card.center())

    def place(east: float, keys: Qt.KeyboardModifier = Qt.KeyboardModifier.NoModifier) -> None:
        qtbot.mouseClick(view.viewport(), Qt.MouseButton.LeftButton, keys, view.mapFromScene(east, -60.0))

    unlit = shelf.viewport().grab(card).toImage()
    take()
    assert (shelf.armed, work.shelf.told) == (KINDS[1], "click on the plan")
    assert shelf.viewport().grab(card).toImage() != unlit
    place(40.0, Qt.KeyboardModifier.ShiftModifier)
    assert shelf.armed == KINDS[1]
    place(80.0)
    assert (view.tool_name, shelf.armed, work.shelf.told) == ("choose", "", "drag onto the plan")
    assert len(work.document.settled.fixtures) == 2
    place(100.0)
    assert len(work.document.settled.fixtures) == 2


def test_every_tool_can_be_taken_from_the_strip_and_the_menu(work: Workplace) -> None:
    for name in TOOLS:
        work.toolstrip.buttons[name].click()
        assert work.view.tool_name == name
        assert [n for n, button in work.toolstrip.buttons.items() if button.isChecked()] == [name]
        work.toolstrip.buttons[name].click()
        assert work.toolstrip.buttons[name].isChecked()


def test_every_fixture_stands_on_the_shelf_and_is_taken_by_click_or_enter(work: Workplace, qtbot) -> None:
    shelf = work.shelf.shelf
    assert shelf.count() == len(KINDS)
    for number, kind in enumerate(KINDS):
        shelf.itemActivated.emit(shelf.item(number))
        assert work.view.tool_name == f"place:{kind}"
        assert shelf.currentRow() == number
        assert not any(button.isChecked() for button in work.toolstrip.buttons.values())
    shelf.scrollToItem(shelf.item(1))
    qtbot.mouseClick(shelf.viewport(), Qt.MouseButton.LeftButton, pos=shelf.visualItemRect(shelf.item(1)).center())
    assert work.view.tool_name == f"place:{KINDS[1]}"
    work.view.set_tool("choose")
    assert shelf.selectedItems() == []


def test_what_the_shelf_gives_the_canvas_takes(work: Workplace) -> None:
    from app.panels.shelf import mime
    from app.tools import MIME

    assert bytes(mime("lavatory").data(MIME).data()) == b"lavatory"


def test_f6_goes_round_the_panes_and_shift_f6_back(make_work, cottage: Plan, qtbot) -> None:
    work: Workplace = make_work(cottage)
    work.window.activateWindow()
    qtbot.waitUntil(work.view.hasFocus)
    seen = []
    for _ in range(8):
        seen.append(QApplication.focusWidget())
        qtbot.keyClick(QApplication.focusWidget(), Qt.Key.Key_F6)
    assert QApplication.focusWidget() is work.view
    assert len(set(map(id, seen))) == 8
    qtbot.keyClick(work.view, Qt.Key.Key_F6, Qt.KeyboardModifier.ShiftModifier)
    assert QApplication.focusWidget() is work.outline.tree


def test_everything_that_takes_the_keyboard_has_a_name(make_work, cottage: Plan) -> None:
    work: Workplace = make_work(cottage)
    for selected in ((), ("f1",), ("d1",)):
        work.document.select(selected)
        nameless = [
            type(widget).__name__
            for widget in work.window.findChildren(QWidget)
            if widget.focusPolicy() != Qt.FocusPolicy.NoFocus
            and widget.isVisible()
            and widget.focusProxy() is None
            and not (widget.accessibleName() or getattr(widget, "text", str)())
        ]
        assert nameless == []


def test_layers_are_switched_and_remembered(work: Workplace, make_work, settings) -> None:
    work.menus.layers["water"].trigger()
    assert work.menus.hidden_layers == ("water",)
    assert work.window.close()
    assert settings.now.hidden_layers == ("water",)
    assert make_work().menus.hidden_layers == ("water",)


@pytest.mark.parametrize("name", PAGES)
def test_the_help_pages_open_and_close(work: Workplace, qtbot, name: str) -> None:
    work.commands[name].trigger()
    page = work.window.findChildren(QWidget, name="page")[0]
    assert page.isVisible()
    assert len(page.text.toPlainText()) > 100
    page.close()


def test_the_page_of_keys_names_every_key(work: Workplace) -> None:
    page = PAGES["keys"](work.window)
    text = page.text.toPlainText()
    assert [command.name for command in COMMANDS if command.keys and command.keys not in text] == []
    assert [tool.title for tool in TOOLS.values() if tool.title not in text] == []


def test_readme_help_and_hints_say_the_same_of_keys_and_joins(work: Workplace) -> None:
    readme = (Path(__file__).resolve().parents[3] / "README.md").read_text("utf-8").replace("`", "")
    told = {
        "README": " ".join(readme.split()),
        "guide": PAGES["guide"](work.window).text.toPlainText(),
        "keys": PAGES["keys"](work.window).text.toPlainText(),
    }
    work.view.set_tool("place:lavatory")
    assert "[ and ] turn it" in work.status.hint
    work.view.set_tool("choose")
    assert "T turns a fixture" in work.status.hint
    for text in told.values():
        assert "[ and ]" in text
        assert "T and Shift+T" in text or "T, Shift+T" in text
    for name in ("README", "guide"):
        assert "square by a combination" in told[name]
        assert "45 degrees by a wye" in told[name]
        assert "Write plan set" in told[name]
        assert "Print plan set" not in told[name]
    assert work.commands["print_set"].text() == "&Write plan set…"


def test_the_caution_never_leaves_the_window_and_leads_to_all(work: Workplace, qtbot) -> None:
    assert work.caution.isVisible()
    assert "not legal advice" in work.caution.words
    qtbot.mouseClick(work.caution.more, Qt.MouseButton.LeftButton)
    assert work.window.findChildren(QWidget, name="page")[0].windowTitle() == "Cautions"


def test_the_status_line_reads_the_pointer_in_feet_and_inches(work: Workplace, qtbot) -> None:
    work.view.pointer_at.emit((54.5, 126.25), "middle of the bay")
    assert work.status.pointer == "4'-6 1/2\" east   10'-6 1/4\" north"
    assert work.status.snap == "middle of the bay"
    work.view.hint_changed.emit("Click each turn.")
    assert work.status.hint == "Click each turn."


def test_news_goes_when_something_else_happens_and_the_hint_comes_back(make_work, cottage: Plan, qtbot) -> None:
    work: Workplace = make_work(cottage)
    hint = work.view.tool.hint
    for then in (
        lambda: work.document.select(["d1"]),
        lambda: work.view.set_tool("choose"),
        lambda: work.document.commit(set_plan(cottage, name="other"), "rename"),
        work.document.undo,
    ):
        work.view.hint_changed.emit("d1: it can't be done")
        assert work.status.hint == "d1: it can't be done"
        then()
        assert work.status.hint == hint
    work.status.tell("Saved")
    work.status._stale.setInterval(1)
    work.status.tell("Saved")
    qtbot.waitUntil(lambda: work.status.hint == hint)


def test_delete_asks_for_a_selection(make_work, cottage: Plan) -> None:
    work: Workplace = make_work(cottage)
    assert not work.commands["delete"].isEnabled()
    work.document.select({"d2"})
    work.commands["delete"].trigger()
    assert work.document.element("d2") is None
    assert work.document.undo_label == "delete drain d2"
