"""New floor, open, save, save as, reopen, the modified mark, and leaving with unsaved work."""

from __future__ import annotations

from pathlib import Path

import pytest
from PySide6.QtCore import Qt
from PySide6.QtWidgets import QDialogButtonBox

from app.dialogs.new_floor import NewFloorDialog
from app.window import MainWindow
from engine.plan.edits import set_plan
from engine.plan.file import read, save
from engine.plan.start import new_floor


def rename(window: MainWindow, name: str) -> None:
    window.document.commit(set_plan(window.document.settled, name=name), "rename")


def new_floor_dialog(window: MainWindow) -> NewFloorDialog:
    window.commands["new"].trigger()
    return window.findChildren(NewFloorDialog)[-1]


def test_a_new_floor_of_the_measures_that_were_typed(window: MainWindow, qtbot) -> None:
    dialog = new_floor_dialog(window)
    dialog.name.setText("Fern cabin")
    for name, text in (("width", "12ft"), ("length", "18' 6\""), ("spacing", "24"), ("subfloor", "1-1/8")):
        dialog.lines[name].setText(text)
    dialog.lumber.setCurrentText("2x12")
    dialog.direction.setCurrentText("east-west")
    qtbot.mouseClick(dialog.buttons.button(QDialogButtonBox.StandardButton.Ok), Qt.MouseButton.LeftButton)
    plan = window.document.plan
    assert plan.name == "Fern cabin"
    assert plan.fields[0].size == (144.0, 222.0)
    assert (plan.fields[0].lumber, plan.fields[0].spacing, plan.fields[0].direction) == ("2x12", 24.0, "east-west")
    assert (plan.floor.subfloor, plan.floor.finish) == (1.125, 0.25)
    assert not window.document.modified
    assert window.windowTitle() == "Fern cabin[*] - Joistway"


@pytest.mark.parametrize(("field", "text"), [("width", "ten feet"), ("spacing", "0"), ("length", "9000 m")])
def test_a_measure_that_cannot_be_is_told_in_place(window: MainWindow, field: str, text: str) -> None:
    before = window.document.plan
    dialog = new_floor_dialog(window)
    dialog.lines[field].setText(text)
    assert dialog.plan is None
    assert dialog.fault != ""
    assert not dialog.buttons.button(QDialogButtonBox.StandardButton.Ok).isEnabled()
    dialog.accept()
    assert window.document.plan is before
    dialog.reject()


def test_the_sketch_counts_the_joists(window: MainWindow) -> None:
    """10 ft wide, centres at 16, 32 ... 112 in: seven common joists (worked by hand)."""
    dialog = new_floor_dialog(window)
    assert dialog.sketch.accessibleDescription() == "10'-0\" by 20'-0\", 7 common joists"
    dialog.reject()


def test_save_as_save_and_reopen(window: MainWindow, make_window, answers, tmp_path: Path) -> None:
    file = tmp_path / "cabin.jway"
    answers.save = file
    rename(window, "Cabin")
    assert window.isWindowModified()
    window.commands["save"].trigger()
    assert not window.isWindowModified()
    assert window.windowTitle() == "cabin.jway[*] - Joistway"
    rename(window, "Cabin by the brook")
    assert window.isWindowModified()
    answers.save = None
    window.commands["save"].trigger()
    assert read(file).name == "Cabin by the brook"

    other = make_window()
    answers.open = file
    other.commands["open"].trigger()
    assert other.document.plan == window.document.plan
    assert not other.isWindowModified()


def test_save_as_goes_on_in_the_new_file(window: MainWindow, answers, tmp_path: Path) -> None:
    answers.save = tmp_path / "first.jway"
    window.commands["save_as"].trigger()
    rename(window, "Second")
    answers.save = tmp_path / "second.jway"
    window.commands["save_as"].trigger()
    assert read(tmp_path / "first.jway").name == ""
    assert read(tmp_path / "second.jway").name == "Second"
    assert window.document.path == tmp_path / "second.jway"


def test_undoing_to_the_saved_plan_takes_the_mark_away(window: MainWindow) -> None:
    rename(window, "Cabin")
    assert window.isWindowModified()
    assert window.commands["undo"].text() == "&Undo rename"
    window.commands["undo"].trigger()
    assert not window.isWindowModified()
    assert not window.commands["undo"].isEnabled()
    assert window.commands["redo"].text() == "&Redo rename"
    window.commands["redo"].trigger()
    assert window.isWindowModified()


def test_a_file_that_is_no_plan_is_told_and_changes_nothing(window: MainWindow, answers, tmp_path: Path) -> None:
    answers.open = tmp_path / "letter.jway"
    answers.open.write_text("Dear county office,")
    before = window.document.plan
    window.commands["open"].trigger()
    title, text = answers.told[0]
    assert title == "letter.jway can't be opened"
    assert text.endswith(".")
    assert window.document.plan is before
    assert window.document.path is None


def test_a_place_that_can_not_be_written_is_told(window: MainWindow, answers, tmp_path: Path) -> None:
    rename(window, "Cabin")
    answers.save = tmp_path / "no such folder" / "cabin.jway"
    window.commands["save"].trigger()
    assert answers.told[0][0] == "cabin.jway can't be saved"
    assert window.isWindowModified()


@pytest.mark.parametrize(
    ("answer", "closes", "saved"), [("cancel", False, False), ("discard", True, False), ("save", True, True)]
)
def test_closing_with_unsaved_work_asks(
    window: MainWindow, answers, tmp_path: Path, answer: str, closes: bool, saved: bool
) -> None:
    rename(window, "Cabin")
    answers.unsaved, answers.save = answer, tmp_path / "cabin.jway"
    assert window.close() is closes
    assert (tmp_path / "cabin.jway").exists() is saved


def test_leaving_for_another_plan_asks_too(window: MainWindow, answers, tmp_path: Path) -> None:
    save(new_floor(120.0, 240.0), tmp_path / "other.jway")
    rename(window, "Cabin")
    answers.unsaved, answers.open = "cancel", tmp_path / "other.jway"
    window.commands["open"].trigger()
    assert window.document.plan.name == "Cabin"
    answers.unsaved = "discard"
    window.commands["open"].trigger()
    assert window.document.plan.fields[0].size == (120.0, 240.0)


def test_opened_plans_are_remembered_newest_first(window: MainWindow, answers, settings, tmp_path: Path) -> None:
    for name in ("a", "b"):
        save(new_floor(120.0, 240.0), tmp_path / f"{name}.jway")
        assert window.filing.open_path(tmp_path / f"{name}.jway")
    assert [Path(path).name for path in settings.now.recent] == ["b.jway", "a.jway"]
    window.menus.fill_recent()
    entries = window.menus.recent_menu.actions()
    assert [action.data().name for action in entries] == ["b.jway", "a.jway"]
    entries[1].trigger()
    assert window.document.path == tmp_path / "a.jway"
    (tmp_path / "b.jway").unlink()
    assert not window.filing.open_path(tmp_path / "b.jway")
    assert [Path(path).name for path in settings.now.recent] == ["a.jway"]
