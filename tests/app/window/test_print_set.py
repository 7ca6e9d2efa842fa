"""Printing from the window: in the background, told what was written, refused in place."""

from __future__ import annotations

from pathlib import Path

from pypdf import PdfReader
from PySide6.QtCore import Qt
from PySide6.QtGui import QDesktopServices
from PySide6.QtWidgets import QDialogButtonBox

from app.dialogs.print_set import PAPERS, PDF, PrintSetDialog
from app.settings import Paper, documents
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
    assert dialog.written[0].name == PDF
    assert (settings.now.paper, settings.now.print_folder) == ("a3", str(tmp_path / "new" / "sheets"))
    shown: list[str] = []
    monkeypatch.setattr(QDesktopServices, "openUrl", lambda url: shown.append(url.toLocalFile()))
    qtbot.mouseClick(dialog.show_folder, Qt.MouseButton.LeftButton)
    assert shown == [str(tmp_path / "new" / "sheets")]
    assert not work.document.modified


def pick(dialog: PrintSetDialog, paper: str) -> None:
    """Choose a paper as a person does."""
    number = dialog.paper.findData(paper)
    dialog.paper.setCurrentIndex(number)
    dialog.paper.activated.emit(number)


def test_another_paper_goes_to_a_folder_of_its_own(make_work, cottage: Plan, qtbot, tmp_path: Path) -> None:
    _, dialog = opened(make_work, cottage)
    first = tmp_path / "plan set"
    dialog.folder.setText(str(first))
    write(dialog, qtbot)
    letter = (first / PDF).read_bytes()
    pick(dialog, "a3")
    assert dialog.folder.text() == str(tmp_path / "plan set a3")
    write(dialog, qtbot)
    assert (first / PDF).read_bytes() == letter
    assert (tmp_path / "plan set a3" / PDF).is_file()
    pick(dialog, "letter")
    assert dialog.folder.text() == str(first)
    write(dialog, qtbot)
    assert (first / PDF).read_bytes() == letter
    pick(dialog, "a3")
    assert dialog.folder.text() == str(tmp_path / "plan set a3")


def test_a_plan_set_on_another_paper_is_replaced_only_when_it_is_said(
    make_work, cottage: Plan, qtbot, tmp_path: Path
) -> None:
    _, dialog = opened(make_work, cottage)
    (tmp_path / PDF).write_bytes(b"an older one")
    dialog.folder.setText(str(tmp_path))
    button = dialog.buttons.button(QDialogButtonBox.StandardButton.Ok)
    qtbot.mouseClick(button, Qt.MouseButton.LeftButton)
    assert dialog.said == f"A plan set lies in {tmp_path} already. Replace it, or choose another folder."
    assert button.text() == "&Replace"
    assert (tmp_path / PDF).read_bytes() == b"an older one"
    qtbot.keyClicks(dialog.folder, "x")
    assert button.text() == "&Write"
    dialog.folder.setText(str(tmp_path))
    qtbot.mouseClick(button, Qt.MouseButton.LeftButton)
    assert (tmp_path / PDF).read_bytes() == b"an older one"
    write(dialog, qtbot)
    assert (tmp_path / PDF).read_bytes().startswith(b"%PDF")
    write(dialog, qtbot)
    assert dialog.said.startswith("Wrote"), "the same paper again asks nothing"


def test_a_first_plan_set_goes_beside_the_plans_or_to_the_documents(make_work, cottage: Plan, settings) -> None:
    _, dialog = opened(make_work, cottage)
    assert dialog.folder.text() == str(Path(documents()) / "plan set")
    assert dialog.windowTitle() == "Write plan set"


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


def test_sheets_under_another_book_are_added_where_asked_for(make_work, cottage: Plan, qtbot, tmp_path: Path) -> None:
    _, dialog = opened(make_work, cottage)
    dialog.folder.setText(str(tmp_path / "sheets"))
    write(dialog, qtbot)
    plain = sheet_titles(tmp_path / "sheets" / PDF)
    assert [dialog.beside.itemData(row) for row in range(dialog.beside.count())] == [None, "upc-2021"]
    dialog.beside.setCurrentIndex(1)
    write(dialog, qtbot)
    titles = sheet_titles(tmp_path / "sheets" / PDF)
    assert [title for title in titles if title not in plain] == ["Under UPC 2021"]


def sheet_titles(pdf: Path) -> list[str]:
    """The titles of a plan set's sheets, as its outline has them."""
    return [str(entry.title).split("  ", 1)[1] for entry in PdfReader(pdf).outline if not isinstance(entry, list)]
