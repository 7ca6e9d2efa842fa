"""Every question that stops the window until it is answered, each a function, so that a test can answer instead."""

from __future__ import annotations

from pathlib import Path
from typing import Literal

from PySide6.QtCore import Qt
from PySide6.QtWidgets import QFileDialog, QMessageBox, QWidget

ENDING = ".jway"
PLANS = f"Joistway plans (*{ENDING});;All files (*)"

Unsaved = Literal["save", "discard", "cancel"]
LeftOver = Literal["recover", "saved", "later", "discard"]


def ask_plan_to_open(parent: QWidget, folder: str) -> Path | None:
    """Which plan file to open; None when the person thought better of it."""
    name, _ = QFileDialog.getOpenFileName(parent, "Open a plan", folder, PLANS)
    return Path(name) if name else None


def ask_where_to_save(parent: QWidget, suggestion: str) -> Path | None:
    """Which file to write the plan to. The ending is added first, so that a file of that name is asked about."""
    dialog = QFileDialog(parent, "Save the plan as", str(Path(suggestion).parent), PLANS)
    dialog.setAcceptMode(QFileDialog.AcceptMode.AcceptSave)
    dialog.setDefaultSuffix(ENDING)
    dialog.selectFile(suggestion)
    try:
        return Path(dialog.selectedFiles()[0]) if dialog.exec() else None
    finally:
        dialog.deleteLater()


def ask_folder(parent: QWidget, title: str, folder: str) -> Path | None:
    """Which folder to use."""
    name = QFileDialog.getExistingDirectory(parent, title, folder)
    return Path(name) if name else None


def ask_unsaved(parent: QWidget, plan_name: str) -> Unsaved:
    """What to do with work that is not saved, before it would be lost."""
    box = _box(parent, f"Save the changes to {plan_name}?", "Without saving they are lost.")
    button = QMessageBox.StandardButton
    box.setStandardButtons(button.Save | button.Discard | button.Cancel)
    for which, words in ((button.Save, "&Save"), (button.Discard, "&Discard"), (button.Cancel, "&Cancel")):
        box.button(which).setText(words)
    box.setDefaultButton(button.Save)
    answers: dict[int, Unsaved] = {button.Save: "save", button.Discard: "discard"}
    return answers.get(box.exec(), "cancel")


def ask_left_over(parent: QWidget, plan_name: str, path: str | None, kept_at: str) -> LeftOver:
    """What to do with unsaved work of a sitting that was cut short."""
    box = _box(
        parent,
        f"Unsaved work on {plan_name} was found",
        f"The program was cut short. It kept a copy at {kept_at}."
        + (f"\nThe saved file is {path}." if path else "\nThis plan was never saved."),
    )
    role = QMessageBox.ButtonRole
    recover = box.addButton("&Recover the work", role.AcceptRole)
    saved = box.addButton("Open the &saved file", role.ActionRole) if path else None
    later = box.addButton("&Not now", role.RejectRole)
    discard = box.addButton("&Throw the copy away", role.DestructiveRole)
    box.setDefaultButton(recover)
    box.setEscapeButton(later)
    box.exec()
    clicked = box.clickedButton()
    if clicked is recover:
        return "recover"
    if saved is not None and clicked is saved:
        return "saved"
    return "discard" if clicked is discard else "later"


def tell(parent: QWidget | None, title: str, text: str) -> None:
    """Say something that needs no answer, such as why a file can't be opened."""
    _box(parent, title, text, QMessageBox.Icon.Warning).exec()


def tell_fault(parent: QWidget | None, fault: str, log: Path) -> bool:
    """Own up to a fault of the program; whether the person would rather close the window now."""
    box = _box(
        parent,
        "Something went wrong in the program",
        f"{fault}\n\nThis is the program's fault, not your plan's. A recovery copy of your work was kept and what "
        f"happened is written to {log}.\n\nYou can go on, but it is safer to save under another name and start "
        "the program again.",
        QMessageBox.Icon.Critical,
    )
    go_on = box.addButton("&Go on", QMessageBox.ButtonRole.AcceptRole)
    close = box.addButton("&Close the window", QMessageBox.ButtonRole.RejectRole)
    box.setDefaultButton(go_on)
    box.setEscapeButton(go_on)
    box.exec()
    return box.clickedButton() is close


def _box(
    parent: QWidget | None, title: str, text: str, sign: QMessageBox.Icon = QMessageBox.Icon.Question
) -> QMessageBox:
    box = QMessageBox(sign, "Joistway", title, QMessageBox.StandardButton.NoButton, parent)
    box.setTextFormat(Qt.TextFormat.PlainText)
    box.setInformativeText(text)
    return box
