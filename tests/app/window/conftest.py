"""A window with settings and state of its own, and nobody to answer questions unless a test does."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from pathlib import Path

import pytest

from app import theme
from app.dialogs import ask
from app.document import Document
from app.filing import first_floor
from app.settings import SettingsFile, settings_file
from app.window import MainWindow
from engine.plan.records import Plan


def pytest_configure(config: pytest.Config) -> None:
    config.addinivalue_line("markers", "logs_warnings: the test makes the program log a warning or worse")


def pytest_collection_modifyitems(items: list[pytest.Item]) -> None:
    """The screenless platform says of every window with a fixed part that it can't pass its size on: no fault."""
    here = Path(__file__).parent
    for item in items:
        if here in item.path.parents:
            item.add_marker(pytest.mark.qt_log_ignore("This plugin does not support"))


@pytest.fixture(scope="session", autouse=True)
def dressed(qapp):
    """The program's own lettering and colours, as a person sees them."""
    theme.dress(qapp)


class Answers:
    """What a person would answer; a question that no test expects is a failure."""

    def __init__(self) -> None:
        self.told: list[tuple[str, str]] = []
        self.open: Path | None = None
        self.save: Path | None = None
        self.unsaved: str | None = None
        self.left_over: str | None = None
        self.close_after_fault = False
        self.faults: list[str] = []


@pytest.fixture(autouse=True)
def answers(monkeypatch: pytest.MonkeyPatch) -> Answers:
    given = Answers()

    def answer(name: str) -> Callable[..., object]:
        def told(*asked: object) -> object:
            value = getattr(given, name)
            assert value is not None, f"nobody answers the question about {name}: {asked[1:]}"
            return value

        return told

    monkeypatch.setattr(ask, "ask_plan_to_open", answer("open"))
    monkeypatch.setattr(ask, "ask_where_to_save", answer("save"))
    monkeypatch.setattr(ask, "ask_unsaved", answer("unsaved"))
    monkeypatch.setattr(ask, "ask_left_over", answer("left_over"))
    monkeypatch.setattr(ask, "tell", lambda parent, title, text: given.told.append((title, text)))
    monkeypatch.setattr(
        ask, "tell_fault", lambda parent, fault, log: (given.faults.append(fault), given.close_after_fault)[1]
    )
    return given


@pytest.fixture
def settings(home: Path) -> SettingsFile:
    return settings_file()


@pytest.fixture
def make_window(qtbot, settings: SettingsFile) -> Iterator[Callable[..., MainWindow]]:
    windows: list[MainWindow] = []

    def make(plan: Plan | None = None) -> MainWindow:
        window = MainWindow(Document(plan or first_floor()), settings)
        window.document.setParent(window)
        windows.append(window)
        qtbot.addWidget(window, before_close_func=MainWindow.let_go)
        window.show()
        qtbot.waitExposed(window)
        return window

    yield make
    for window in windows:
        window.let_go()


@pytest.fixture
def window(make_window: Callable[..., MainWindow]) -> MainWindow:
    return make_window()
