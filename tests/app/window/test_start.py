"""From the command to a window at work, and out again."""

from __future__ import annotations

import gc
import subprocess
import sys
from collections.abc import Callable, Iterator
from pathlib import Path

import pytest
from PySide6.QtWidgets import QLabel, QWidget

from app.panels.caution import CautionLine
from app.settings import settings_file, state_folder
from app.window import MainWindow, Opening
from app.workplace import Workplace
from engine.plan.edits import set_plan
from engine.plan.file import save
from engine.plan.records import Plan
from engine.plan.start import new_floor

HOUSE = Path(__file__).resolve().parents[3]


@pytest.fixture(autouse=True)
def thaw(monkeypatch: pytest.MonkeyPatch):
    """Hooks and frozen objects stay with their test."""
    from app.errors import FaultDesk
    from app.recovery import Sitting

    monkeypatch.setattr(FaultDesk, "install", lambda self: None)
    monkeypatch.setattr(Sitting, "watch_for_crashes", lambda self: None)
    yield
    gc.unfreeze()


@pytest.fixture
def open_window(qtbot, home: Path) -> Iterator[Callable[..., Workplace]]:
    """Opens a window as the command does, up to the end of what follows the first painting."""
    opened: list[Workplace] = []

    def open_one(plan: Path | Plan | None = None) -> Workplace:
        window = MainWindow(settings_file())
        opening = Opening(window, state_folder(), plan)
        window.painted.connect(opening.soon)
        qtbot.addWidget(window, before_close_func=lambda _: opened and [work.let_go() for work in opened])
        window.show()
        qtbot.waitUntil(lambda: opening.workplace is not None)
        assert opening.workplace is not None
        opened.append(opening.workplace)
        return opening.workplace

    yield open_one
    for work in opened:
        work.let_go()


def pages(work: Workplace) -> list[str]:
    return [page.windowTitle() for page in work.window.findChildren(QWidget, name="page")]


def test_the_frame_and_its_caution_are_painted_before_anything_is_loaded(qtbot, home: Path) -> None:
    window = MainWindow(settings_file())
    opening = Opening(window, state_folder(), None)
    seen: list[bool] = []
    window.painted.connect(lambda: seen.append(opening.workplace is None))
    qtbot.addWidget(window)
    window.show()
    qtbot.waitUntil(lambda: bool(seen))
    assert seen == [True]
    assert "not legal advice" in window.findChildren(CautionLine)[0].words


def test_nothing_heavy_is_loaded_for_the_frame() -> None:
    """What the first painting waits for: the toolkit, the look and the settings."""
    look = (
        "import sys, app.window;"
        "heavy = {'engine.study', 'networkx', 'shapely', 'reportlab', 'pint', 'numpy', 'app.canvas.view', 'app.document'};"
        "sys.exit(', '.join(heavy & sys.modules.keys()) or 0)"
    )
    done = subprocess.run([sys.executable, "-c", look], cwd=HOUSE, capture_output=True, text=True)
    assert done.returncode == 0, done.stderr


def test_the_cautions_show_at_the_first_start_only(open_window) -> None:
    first = open_window()
    assert pages(first) == ["Cautions"]
    assert settings_file().now.cautions_read
    first.window.close()
    assert pages(open_window()) == []


def test_a_plan_named_on_the_command_line_is_opened(open_window, tmp_path: Path) -> None:
    file = tmp_path / "cabin.jway"
    save(set_plan(new_floor(120.0, 240.0), name="Cabin"), file)
    work = open_window(file)
    assert work.document.path == file
    assert work.document.plan.name == "Cabin"
    assert not work.document.modified


def test_a_plan_may_be_handed_over_as_it_is(open_window) -> None:
    plan = set_plan(new_floor(120.0, 240.0), name="Handed over")
    assert open_window(plan).document.plan is plan


def test_a_file_that_can_not_be_opened_leaves_a_usable_window(open_window, answers, tmp_path: Path) -> None:
    work = open_window(tmp_path / "nothing.jway")
    assert answers.told[0][0] == "nothing.jway can't be opened"
    assert work.window.isVisible()
    assert work.document.path is None


def test_the_window_comes_back_as_it_was_left(open_window) -> None:
    """As far as the screen has room: Qt brings a window that would stick out back to its least size."""
    work = open_window()
    room = work.window.screen().availableSize().height()
    height = work.window.minimumSizeHint().height() + 7
    work.window.resize(work.window.width(), height)
    work.details.parentWidget().setSizes([1, 0, 1000])
    split = work.details.parentWidget().sizes()
    assert work.window.close()
    again = open_window()
    assert again.window.height() == height or height > room - 60
    assert again.details.parentWidget().sizes()[:2] == split[:2]


def test_nothing_is_heard_after_closing(open_window) -> None:
    work = open_window()
    assert work.window.close()
    work.document.commit(set_plan(work.document.settled, name="Too late"), "rename")
    assert "Too late" not in work.window.windowTitle()
    assert work.window.close()


def test_the_study_s_time_is_told(open_window, qtbot) -> None:
    work = open_window()
    qtbot.waitUntil(lambda: work.status.study.startswith("The last study took "), timeout=20_000)
    assert work.status.study.endswith(" ms.")
    assert not any("ms" in part.text() for part in work.status.findChildren(QLabel)), "it is told in a tip alone"
