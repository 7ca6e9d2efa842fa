"""The questions themselves: what they say, and what each button answers."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path

import pytest
from PySide6.QtCore import Qt, QTimer
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication, QFileDialog, QLineEdit, QMessageBox, QWidget

from app.dialogs.ask import (
    ask_folder,
    ask_left_over,
    ask_plan_to_open,
    ask_unsaved,
    ask_where_to_save,
    tell,
    tell_fault,
)


@pytest.fixture
def parent(qtbot) -> QWidget:
    widget = QWidget()
    qtbot.addWidget(widget)
    return widget


def pressing(words: str, seen: list[str]) -> Callable[[], None]:
    """Presses the button of those words in the box that is open, Escape when they are empty."""

    def press() -> None:
        box = QApplication.activeModalWidget()
        if not isinstance(box, QMessageBox):
            QTimer.singleShot(10, press)
            return
        seen.append(f"{box.text()} {box.informativeText()}")
        assert box.textFormat() == Qt.TextFormat.PlainText
        if not words:
            box.reject()
            return
        buttons = {button.text().replace("&", ""): button for button in box.buttons()}
        buttons[words].click()

    return press


@pytest.mark.parametrize(
    ("button", "answer"), [("Save", "save"), ("Discard", "discard"), ("Cancel", "cancel"), ("", "cancel")]
)
def test_unsaved_work(parent: QWidget, button: str, answer: str) -> None:
    seen: list[str] = []
    QTimer.singleShot(0, pressing(button, seen))
    assert ask_unsaved(parent, "<b>cabin</b>.jway") == answer
    assert "Save the changes to <b>cabin</b>.jway?" in seen[0]


@pytest.mark.parametrize(
    ("key", "answer"), [(Qt.Key.Key_S, "save"), (Qt.Key.Key_D, "discard"), (Qt.Key.Key_C, "cancel")]
)
def test_unsaved_work_is_answered_by_a_letter(parent: QWidget, key: Qt.Key, answer: str) -> None:
    def press() -> None:
        box = QApplication.activeModalWidget()
        if not isinstance(box, QMessageBox) or not box.isActiveWindow():
            QTimer.singleShot(10, press)
            return
        QTest.keyClick(box, key, Qt.KeyboardModifier.AltModifier)

    QTimer.singleShot(0, press)
    assert ask_unsaved(parent, "cabin.jway") == answer


@pytest.mark.parametrize(
    ("button", "answer"),
    [
        ("Recover the work", "recover"),
        ("Open the saved file", "saved"),
        ("Not now", "later"),
        ("Throw the copy away", "discard"),
        ("", "later"),
    ],
)
def test_work_that_was_left_over(parent: QWidget, button: str, answer: str) -> None:
    seen: list[str] = []
    QTimer.singleShot(0, pressing(button, seen))
    assert ask_left_over(parent, "cabin", "plans/cabin.jway", "2021-05-01 10:15") == answer
    assert "plans/cabin.jway" in seen[0]
    assert "2021-05-01 10:15" in seen[0]


def test_left_over_work_that_was_never_saved_has_no_saved_file_to_open(parent: QWidget) -> None:
    seen: list[str] = []
    QTimer.singleShot(0, pressing("Recover the work", seen))
    assert ask_left_over(parent, "cabin", None, "noon") == "recover"
    assert "never saved" in seen[0]


@pytest.mark.parametrize(("button", "closes"), [("Go on", False), ("Close the window", True), ("", False)])
def test_a_fault_is_owned_up_to(parent: QWidget, button: str, closes: bool) -> None:
    seen: list[str] = []
    QTimer.singleShot(0, pressing(button, seen))
    assert tell_fault(parent, "KeyError: 'd1'", Path("state/joistway.log")) is closes
    assert "the program's fault, not your plan's" in seen[0]
    assert "joistway.log" in seen[0]


def test_telling_needs_only_an_ok(parent: QWidget) -> None:
    seen: list[str] = []
    QTimer.singleShot(0, pressing("OK", seen))
    tell(parent, "cabin.jway can't be opened", "Expected a plan.")
    assert seen == ["cabin.jway can't be opened Expected a plan."]


def test_files_and_folders(parent: QWidget, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(QFileDialog, "getOpenFileName", lambda *asked: ("plans/a.jway", ""))
    assert ask_plan_to_open(parent, "plans") == Path("plans/a.jway")
    monkeypatch.setattr(QFileDialog, "getOpenFileName", lambda *asked: ("", ""))
    assert ask_plan_to_open(parent, "plans") is None
    monkeypatch.setattr(QFileDialog, "getExistingDirectory", lambda *asked: "sheets")
    assert ask_folder(parent, "Where to", "") == Path("sheets")


@pytest.mark.parametrize(("typed", "name"), [("a", "a.jway"), ("a.jway", "a.jway"), ("a.txt", "a.txt")])
def test_the_ending_is_added_where_none_was_given(parent: QWidget, tmp_path: Path, typed: str, name: str) -> None:
    def enter() -> None:
        dialog = QApplication.activeModalWidget()
        assert isinstance(dialog, QFileDialog)
        dialog.findChild(QLineEdit, "fileNameEdit").setText(typed)
        dialog.accept()

    QTimer.singleShot(100, enter)
    assert ask_where_to_save(parent, str(tmp_path / "floor.jway")) == tmp_path / name


def test_saving_can_be_given_up(parent: QWidget, tmp_path: Path) -> None:
    QTimer.singleShot(100, lambda: QApplication.activeModalWidget().reject())
    assert ask_where_to_save(parent, str(tmp_path / "floor.jway")) is None
