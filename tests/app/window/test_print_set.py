"""Printing from the window: in the background, told what was written, refused in place."""

from __future__ import annotations

from pathlib import Path

from PySide6.QtCore import Qt
from PySide6.QtGui import QDesktopServices
from PySide6.QtWidgets import QDialogButtonBox

from app.dialogs.print_set import PAPERS, PrintSetDialog
from app.settings import Paper
from app.workplace import Workplace
from engine.plan.records import Plan


def opened(make_work, plan: Plan) -> tuple[Workplace, PrintSetDialog]:
    work: Workplace = make_work(plan)
    work.commands["print_set"].trigger()
    return work, work.window.findChildren(PrintSetDialog)[-1]


def write(dialog: PrintSetDialog, qtbot) -> None:
    button = dialog.buttons.button(QDialogButtonBox.StandardButton.Ok)
    qtbot.mouseClick(button, Qt.MouseButton.LeftButton)
    assert dialog.said == "Writing…"
    assert not button.isEnabled()
    qtbot.waitUntil(button.isEnabled, timeout=30_000)


def test_the_sheets_are_written_and_told(
    make_work, cottage: Plan, qtbot, tmp_path: Path, settings, monkeypatch
) -> None:
    work, dialog = opened(make_work, cottage)
    dialog.folder.setText(str(tmp_path / "new" / "sheets"))
    dialog.paper.setCurrentIndex(dialog.paper.findData("a3"))
    write(dialog, qtbot)
    assert dialog.written
    assert all(path.is_file() and path.parent == tmp_path / "new" / "sheets" for path in dialog.written)
    assert any(path.read_bytes().startswith(b"%PDF") for path in dialog.written)
    assert dialog.said.startswith(f"Wrote {len(dialog.written)} files")
    assert (settings.now.paper, settings.now.print_folder) == ("a3", str(tmp_path / "new" / "sheets"))
    shown: list[str] = []
    monkeypatch.setattr(QDesktopServices, "openUrl", lambda url: shown.append(url.toLocalFile()))
    qtbot.mouseClick(dialog.show_folder, Qt.MouseButton.LeftButton)
    assert shown == [str(tmp_path / "new" / "sheets")]
    assert not work.document.modified


def test_a_folder_that_can_not_be_is_told(make_work, cottage: Plan, qtbot, tmp_path: Path) -> None:
    _, dialog = opened(make_work, cottage)
    (tmp_path / "file").write_text("")
    dialog.folder.setText(str(tmp_path / "file" / "sheets"))
    write(dialog, qtbot)
    assert dialog.said.startswith("Nothing could be written there")
    assert dialog.show_folder.isHidden()
    dialog.folder.setText("  ")
    dialog.begin()
    assert dialog.said.startswith("Choose the folder")


def test_a_fault_of_the_program_is_handed_on(make_work, cottage: Plan, qtbot, tmp_path: Path, monkeypatch) -> None:
    import engine.planset

    def break_down(*given: object, **named: object) -> None:
        raise RuntimeError("the pen broke")

    monkeypatch.setattr(engine.planset, "write", break_down)
    work, dialog = opened(make_work, cottage)
    faults: list[Exception] = []
    work.faulted.connect(faults.append)
    dialog.folder.setText(str(tmp_path))
    write(dialog, qtbot)
    assert [str(fault) for fault in faults] == ["the pen broke"]
    assert "log" in dialog.said


def test_every_paper_of_the_settings_is_offered() -> None:
    from typing import get_args

    assert tuple(PAPERS) == get_args(Paper)
