"""Unsaved work survives: kept while one draws, found after a crash, gone once it is saved or let go."""

from __future__ import annotations

import os
import subprocess
import sys
from pathlib import Path

import pytest

from app.filing import first_floor
from app.recovery import ABOUT, FAULTS, PLAN, Sitting, cut_short
from app.safety import Safety
from app.settings import state_folder
from app.workplace import Workplace
from engine.plan.edits import set_plan
from engine.plan.file import read, save

HOUSE = Path(__file__).resolve().parents[3]


def edit(work: Workplace, name: str = "Cabin") -> None:
    work.document.commit(set_plan(work.document.settled, name=name), "rename")


@pytest.fixture
def safe(work: Workplace, settings) -> Workplace:
    """A window whose work is kept a second after an edit, without the interpreter's hooks."""
    settings.change(autosave_seconds=1.0)
    safety = Safety(work, state_folder())
    safety.begin(hooks=False)
    work.safety = safety
    return work


def copies() -> list[Path]:
    return sorted(state_folder().glob(f"sittings/*/{PLAN}"))


def leave_behind(name: str = "Left over", path: Path | None = None, crash: str = "") -> Sitting:
    """What a sitting leaves that was cut short: its folder, with a lock that nobody holds."""
    left = Sitting(state_folder())
    left.keep(set_plan(first_floor(), name=name), path)
    if crash:
        (left.folder / FAULTS).write_text(crash)
    left._lock.unlock()
    return left


def test_work_is_kept_some_seconds_after_the_last_edit(safe: Workplace, qtbot) -> None:
    edit(safe)
    assert copies() == []
    qtbot.waitUntil(lambda: len(copies()) == 1, timeout=4000)
    assert read(copies()[0]) == safe.document.settled


def test_a_proposal_is_not_kept(safe: Workplace) -> None:
    edit(safe)
    safe.document.propose(set_plan(safe.document.settled, name="Only dragged"))
    safe.safety.keep_now()
    assert read(copies()[0]).name == "Cabin"
    safe.document.drop_proposal()


def test_saving_clears_the_copy(safe: Workplace, answers, tmp_path: Path) -> None:
    edit(safe)
    safe.safety.keep_now()
    assert len(copies()) == 1
    answers.save = tmp_path / "cabin.jway"
    safe.commands["save"].trigger()
    assert copies() == []


def test_letting_the_work_go_clears_the_copy(safe: Workplace, answers) -> None:
    edit(safe)
    safe.safety.keep_now()
    answers.unsaved = "discard"
    assert safe.window.close()
    assert copies() == []
    assert list((state_folder() / "sittings").iterdir()) == []


def test_a_living_sitting_is_not_offered(safe: Workplace) -> None:
    edit(safe)
    safe.safety.keep_now()
    assert cut_short(state_folder()) == ()


def test_recovering_unsaved_work_of_a_saved_plan(safe: Workplace, answers, tmp_path: Path) -> None:
    file = tmp_path / "cabin.jway"
    save(first_floor(), file)
    leave_behind("Half drawn", file)
    answers.left_over = "recover"
    safe.safety.offer_left_over()
    assert safe.document.plan.name == "Half drawn"
    assert safe.document.path == file
    assert safe.window.isWindowModified()
    assert read(file) == first_floor()
    assert [read(copy).name for copy in copies()] == ["Half drawn"]
    safe.commands["undo"].trigger()
    assert safe.document.plan == first_floor()


def test_recovering_a_plan_that_was_never_saved(safe: Workplace, answers) -> None:
    leave_behind("Never saved")
    answers.left_over = "recover"
    safe.safety.offer_left_over()
    assert safe.document.plan.name == "Never saved"
    assert safe.document.path is None
    assert safe.window.isWindowModified()


def test_opening_the_saved_one_keeps_the_copy_for_later(safe: Workplace, answers, tmp_path: Path) -> None:
    file = tmp_path / "cabin.jway"
    save(set_plan(first_floor(), name="As saved"), file)
    leave_behind("Half drawn", file)
    answers.left_over = "saved"
    safe.safety.offer_left_over()
    assert safe.document.plan.name == "As saved"
    assert [left.about.name for left in cut_short(state_folder())] == ["Half drawn"]


@pytest.mark.parametrize(("answer", "stays"), [("later", 1), ("discard", 0)])
def test_not_now_keeps_and_throwing_away_clears(safe: Workplace, answers, answer: str, stays: int) -> None:
    leave_behind()
    answers.left_over = answer
    safe.safety.offer_left_over()
    assert len(cut_short(state_folder())) == stays
    assert safe.document.plan == first_floor()


def test_a_copy_that_can_not_be_read_is_told_and_stays(safe: Workplace, answers) -> None:
    left = leave_behind()
    (left.folder / PLAN).write_bytes(b"{")
    (left.folder / ABOUT).write_bytes(b"not json")
    answers.left_over = "recover"
    safe.safety.offer_left_over()
    assert answers.told[0][0] == "The recovery copy can't be read"
    assert len(cut_short(state_folder())) == 1


def test_a_crash_is_told_once(safe: Workplace, answers) -> None:
    left = leave_behind(crash="Fatal Python error: Segmentation fault")
    answers.left_over = "later"
    safe.safety.offer_left_over()
    safe.safety.offer_left_over()
    assert [title for title, _ in answers.told] == ["The program crashed the last time"]
    assert (state_folder() / f"crash-{left.folder.name}.txt").read_text().startswith("Fatal")


KILLED = """
import os, sys
from PySide6.QtWidgets import QApplication
application = QApplication([])
from app.document import Document
from app.filing import first_floor
from app.safety import Safety
from app.settings import settings_file, state_folder
from app.window import MainWindow
from app.workplace import Workplace
from engine.plan.edits import set_plan
window = MainWindow(settings_file())
work = Workplace(window, Document(first_floor()), window.settings)
safety = Safety(work, state_folder())
safety.begin()
work.document.commit(set_plan(work.document.settled, name="Killed"), "rename")
safety.keep_now()
os.abort()
"""


def test_a_process_that_dies_leaves_its_work_and_where_it_stood(safe: Workplace, answers) -> None:
    dead = subprocess.run(
        [sys.executable, "-c", KILLED], cwd=HOUSE, env=os.environ | {"QT_QPA_PLATFORM": "offscreen"}, timeout=60
    )
    assert dead.returncode != 0
    answers.left_over = "recover"
    safe.safety.offer_left_over()
    assert answers.told[0][0] == "The program crashed the last time"
    assert safe.document.plan.name == "Killed"


@pytest.mark.logs_warnings
def test_a_state_folder_that_can_not_be_written_is_told_not_fatal(work: Workplace, tmp_path: Path) -> None:
    (tmp_path / "file").write_text("")
    Safety(work, tmp_path / "file" / "state").begin(hooks=False)
    assert "No recovery copies" in work.status.hint
