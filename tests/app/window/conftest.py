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
from app.workplace import Workplace
from engine.plan.file import read
from engine.plan.records import Plan
from tests.app.window.isometric_hand import open_isometric
from tests.app.window.strip_hand import StripHand


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
def make_work(qtbot, settings: SettingsFile) -> Iterator[Callable[..., Workplace]]:
    windows: list[Workplace] = []

    def make(plan: Plan | None = None) -> Workplace:
        frame = MainWindow(settings)
        document = Document(plan or first_floor())
        document.setParent(frame)
        workplace = Workplace(frame, document, settings)
        windows.append(workplace)
        qtbot.addWidget(frame, before_close_func=lambda _: workplace.let_go())
        frame.show()
        qtbot.waitExposed(frame)
        return workplace

    yield make
    for work in windows:
        work.let_go()


@pytest.fixture
def work(make_work: Callable[..., Workplace]) -> Workplace:
    return make_work()


@pytest.fixture
def kitchen() -> Plan:
    """The fuller sample."""
    return read(Path(__file__).resolve().parents[3] / "samples" / "cottage-with-kitchen.jway")


@pytest.fixture
def opened(make_work: Callable[..., Workplace], kitchen: Plan, qtbot) -> Workplace:
    """A workplace on the fuller sample with its isometric open and lettered."""
    return open_isometric(make_work(kitchen), qtbot)


@pytest.fixture
def bath() -> Plan:
    """The smaller sample."""
    return read(Path(__file__).resolve().parents[3] / "samples" / "one-bath-cottage.jway")


@pytest.fixture
def hand(make_work: Callable[..., Workplace], bath: Plan, qtbot) -> StripHand:
    """A hand at the fall strip of the smaller sample, its lavatory's branch on show, in a window of usual size."""
    work = make_work(bath)
    work.window.resize(1280, 800)
    made = StripHand(work, qtbot)
    made.select("d2")
    return made
