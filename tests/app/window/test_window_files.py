"""New floor, open, save, save as, reopen, the modified mark, and leaving with unsaved work."""

from __future__ import annotations

from pathlib import Path

import pytest
from PySide6.QtCore import Qt
from PySide6.QtWidgets import QDialogButtonBox

from app.dialogs import ask
from app.dialogs.new_floor import NewFloorDialog
from app.settings import documents
from app.workplace import Workplace
from engine.plan.edits import set_plan
from engine.plan.file import read, save
from engine.plan.start import new_floor


def rename(work: Workplace, name: str) -> None:
    work.document.commit(set_plan(work.document.settled, name=name), "rename")


def new_floor_dialog(work: Workplace) -> NewFloorDialog:
    work.commands["new"].trigger()
    return work.window.findChildren(NewFloorDialog)[-1]


def test_a_new_floor_of_the_measures_that_were_typed(work: Workplace, qtbot) -> None:
    dialog = new_floor_dialog(work)
    dialog.name.setText("Fern cabin")
    for name, text in (("width", "12ft"), ("length", "18' 6\""), ("spacing", "24"), ("subfloor", "1-1/8")):
        dialog.lines[name].setText(text)
    dialog.lumber.setCurrentText("2x12")
    dialog.direction.setCurrentText("east-west")
    qtbot.mouseClick(dialog.buttons.button(QDialogButtonBox.StandardButton.Ok), Qt.MouseButton.LeftButton)
    plan = work.document.plan
    assert plan.name == "Fern cabin"
    assert plan.fields[0].size == (144.0, 222.0)
    assert (plan.fields[0].lumber, plan.fields[0].spacing, plan.fields[0].direction) == ("2x12", 24.0, "east-west")
    assert (plan.floor.subfloor, plan.floor.finish) == (1.125, 0.25)
    assert not work.document.modified
    assert work.window.windowTitle() == "Fern cabin[*] - Joistway"


@pytest.mark.parametrize(("field", "text"), [("width", "ten feet"), ("spacing", "0"), ("length", "9000 m")])
def test_a_measure_that_cannot_be_is_told_in_place(work: Workplace, field: str, text: str) -> None:
    before = work.document.plan
    dialog = new_floor_dialog(work)
    dialog.lines[field].setText(text)
    assert dialog.plan is None
    assert dialog.fault != ""
    assert not dialog.buttons.button(QDialogButtonBox.StandardButton.Ok).isEnabled()
    dialog.accept()
    assert work.document.plan is before
    dialog.reject()


def test_the_sketch_counts_the_joists(work: Workplace) -> None:
    """10 ft wide, centres at 16, 32 ... 112 in: seven common joists (worked by hand)."""
    dialog = new_floor_dialog(work)
    assert dialog.sketch.accessibleDescription() == "10'-0\" by 20'-0\", 7 common joists"
    dialog.reject()


def test_save_as_save_and_reopen(work: Workplace, make_work, answers, tmp_path: Path) -> None:
    file = tmp_path / "cabin.jway"
    answers.save = file
    rename(work, "Cabin")
    assert work.window.isWindowModified()
    work.commands["save"].trigger()
    assert not work.window.isWindowModified()
    assert work.window.windowTitle() == "cabin.jway[*] - Joistway"
    rename(work, "Cabin by the brook")
    assert work.window.isWindowModified()
    answers.save = None
    work.commands["save"].trigger()
    assert read(file).name == "Cabin by the brook"

    other = make_work()
    answers.open = file
    other.commands["open"].trigger()
    assert other.document.plan == work.document.plan
    assert not other.window.isWindowModified()


def test_save_as_goes_on_in_the_new_file(work: Workplace, answers, tmp_path: Path) -> None:
    answers.save = tmp_path / "first.jway"
    work.commands["save_as"].trigger()
    rename(work, "Second")
    answers.save = tmp_path / "second.jway"
    work.commands["save_as"].trigger()
    assert read(tmp_path / "first.jway").name == ""
    assert read(tmp_path / "second.jway").name == "Second"
    assert work.document.path == tmp_path / "second.jway"


def test_undoing_to_the_saved_plan_takes_the_mark_away(work: Workplace) -> None:
    rename(work, "Cabin")
    assert work.window.isWindowModified()
    assert work.commands["undo"].text() == "&Undo rename"
    work.commands["undo"].trigger()
    assert not work.window.isWindowModified()
    assert not work.commands["undo"].isEnabled()
    assert work.commands["redo"].text() == "&Redo rename"
    work.commands["redo"].trigger()
    assert work.window.isWindowModified()


def test_a_file_that_is_no_plan_is_told_and_changes_nothing(work: Workplace, answers, tmp_path: Path) -> None:
    answers.open = tmp_path / "letter.jway"
    answers.open.write_text("Dear county office,")
    before = work.document.plan
    work.commands["open"].trigger()
    title, text = answers.told[0]
    assert title == "letter.jway can't be opened"
    assert text.endswith(".")
    assert work.document.plan is before
    assert work.document.path is None


def test_a_place_that_can_not_be_written_is_told(work: Workplace, answers, tmp_path: Path) -> None:
    rename(work, "Cabin")
    answers.save = tmp_path / "no such folder" / "cabin.jway"
    work.commands["save"].trigger()
    assert answers.told[0][0] == "cabin.jway can't be saved"
    assert work.window.isWindowModified()


@pytest.mark.parametrize(
    ("answer", "closes", "saved"), [("cancel", False, False), ("discard", True, False), ("save", True, True)]
)
def test_closing_with_unsaved_work_asks(
    work: Workplace, answers, tmp_path: Path, answer: str, closes: bool, saved: bool
) -> None:
    rename(work, "Cabin")
    answers.unsaved, answers.save = answer, tmp_path / "cabin.jway"
    assert work.window.close() is closes
    assert (tmp_path / "cabin.jway").exists() is saved


def test_leaving_for_another_plan_asks_too(work: Workplace, answers, tmp_path: Path) -> None:
    save(new_floor(120.0, 240.0), tmp_path / "other.jway")
    rename(work, "Cabin")
    answers.unsaved, answers.open = "cancel", tmp_path / "other.jway"
    work.commands["open"].trigger()
    assert work.document.plan.name == "Cabin"
    answers.unsaved = "discard"
    work.commands["open"].trigger()
    assert work.document.plan.fields[0].size == (120.0, 240.0)


def test_opened_plans_are_remembered_newest_first(work: Workplace, answers, settings, tmp_path: Path) -> None:
    for name in ("a", "b"):
        save(new_floor(120.0, 240.0), tmp_path / f"{name}.jway")
        assert work.filing.open_path(tmp_path / f"{name}.jway")
    assert [Path(path).name for path in settings.now.recent] == ["b.jway", "a.jway"]
    work.menus.fill_recent()
    entries = work.menus.recent_menu.actions()
    assert [action.data().name for action in entries] == ["b.jway", "a.jway"]
    entries[1].trigger()
    assert work.document.path == tmp_path / "a.jway"
    (tmp_path / "b.jway").unlink()
    assert not work.filing.open_path(tmp_path / "b.jway")
    assert [Path(path).name for path in settings.now.recent] == ["a.jway"]


def test_dialogs_about_plans_start_among_the_documents(work: Workplace, monkeypatch, tmp_path: Path) -> None:
    asked: list[str] = []
    monkeypatch.setattr(ask, "ask_plan_to_open", lambda parent, folder: asked.append(folder))
    monkeypatch.setattr(ask, "ask_where_to_save", lambda parent, name: asked.append(str(Path(name).parent)))
    work.filing.open()
    work.filing.save_as()
    assert asked == [documents()] * 2
    asked.clear()
    work.settings.remember_plan(tmp_path / "a.jway")
    work.filing.open()
    work.filing.save_as()
    assert asked == [str(tmp_path)] * 2
