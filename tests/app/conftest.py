"""The window under test: offscreen unless `--headed`, with its own home for each test, driven as by a hand."""

from __future__ import annotations

import gc
import logging
import os
import sys
from collections.abc import Callable, Iterator
from pathlib import Path

if "--headed" not in sys.argv:
    os.environ["QT_QPA_PLATFORM"] = "offscreen"

import pytest
from PySide6.QtCore import QCoreApplication, QEvent, QMimeData, QPoint, QPointF, Qt
from PySide6.QtGui import QDragEnterEvent, QDragLeaveEvent, QDragMoveEvent, QDropEvent, QMouseEvent
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication

from app.canvas.places import to_scene
from app.canvas.view import PlanView
from app.document import Document
from app.tools import MIME
from engine.plan.records import Drain, Exit, Fixture, Floor, JoistField, Plan, Point, Riser, Wall

NO_KEYS = Qt.KeyboardModifier.NoModifier
LEFT = Qt.MouseButton.LeftButton


def pytest_addoption(parser: pytest.Parser) -> None:
    parser.addoption("--headed", action="store_true", help="show real windows instead of drawing offscreen")


@pytest.fixture(autouse=True)
def home(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """A folder of its own for each test's settings and recovery files."""
    folder = tmp_path / "home"
    folder.mkdir()
    monkeypatch.setenv("JOISTWAY_HOME", str(folder))
    return folder


@pytest.fixture(autouse=True)
def collected_here() -> Iterator[None]:
    """Keeps Python's collector to the test's own thread, as `app.collector` does in the program."""
    gc.disable()
    yield
    gc.collect(1)
    gc.enable()


@pytest.fixture(autouse=True)
def quiet_log(request: pytest.FixtureRequest, caplog: pytest.LogCaptureFixture) -> Iterator[None]:
    """Fails a test that logs a warning or worse, unless it is marked `logs_warnings`."""
    yield
    if request.node.get_closest_marker("logs_warnings") is None:
        loud = [record for record in caplog.get_records("call") if record.levelno >= logging.WARNING]
        assert not loud, f"logged: {[record.getMessage() for record in loud]}"


class Hand:
    """A hand at the mouse and keyboard of one canvas; places are plan points."""

    def __init__(self, view: PlanView) -> None:
        self.view = view

    def pixel(self, at: Point) -> QPoint:
        return self.view.mapFromScene(to_scene(at))

    def press(self, at: Point, keys: Qt.KeyboardModifier = NO_KEYS, button: Qt.MouseButton = LEFT) -> None:
        QTest.mousePress(self.view.viewport(), button, keys, self.pixel(at))

    def move(self, at: Point, keys: Qt.KeyboardModifier = NO_KEYS, button: Qt.MouseButton = LEFT) -> None:
        place = QPointF(self.pixel(at))
        port = self.view.viewport()
        event = QMouseEvent(
            QEvent.Type.MouseMove, place, port.mapToGlobal(place), Qt.MouseButton.NoButton, button, keys
        )
        QApplication.sendEvent(port, event)

    def release(self, at: Point, keys: Qt.KeyboardModifier = NO_KEYS, button: Qt.MouseButton = LEFT) -> None:
        QTest.mouseRelease(self.view.viewport(), button, keys, self.pixel(at))

    def click(self, at: Point, keys: Qt.KeyboardModifier = NO_KEYS, button: Qt.MouseButton = LEFT) -> None:
        self.move(at, keys, Qt.MouseButton.NoButton)
        self.press(at, keys, button)
        self.release(at, keys, button)

    def double_click(self, at: Point) -> None:
        self.click(at)
        QTest.mouseDClick(self.view.viewport(), LEFT, NO_KEYS, self.pixel(at))

    def drag(self, start: Point, end: Point, keys: Qt.KeyboardModifier = NO_KEYS) -> None:
        self.press(start, keys)
        self.move(((start[0] + end[0]) / 2.0, (start[1] + end[1]) / 2.0), keys)
        self.move(end, keys)
        self.release(end, keys)

    def key(self, key: Qt.Key, keys: Qt.KeyboardModifier = NO_KEYS) -> None:
        QTest.keyClick(self.view, key, keys)

    def type(self, text: str) -> None:
        QTest.keyClicks(self.view, text)

    def carry_in(self, kind: str, at: Point, mime: str = MIME) -> bool:
        data = self._data(kind, mime)
        place = self.pixel(at)
        event = QDragEnterEvent(place, Qt.DropAction.CopyAction, data, LEFT, NO_KEYS)
        QApplication.sendEvent(self.view.viewport(), event)
        return event.isAccepted()

    def carry(self, kind: str, at: Point) -> None:
        event = QDragMoveEvent(self.pixel(at), Qt.DropAction.CopyAction, self._data(kind, MIME), LEFT, NO_KEYS)
        QApplication.sendEvent(self.view.viewport(), event)

    def carry_out(self) -> None:
        QApplication.sendEvent(self.view.viewport(), QDragLeaveEvent())

    def drop(self, kind: str, at: Point) -> None:
        place = QPointF(self.pixel(at))
        event = QDropEvent(place, Qt.DropAction.CopyAction, self._data(kind, MIME), LEFT, NO_KEYS)
        QApplication.sendEvent(self.view.viewport(), event)

    def _data(self, kind: str, mime: str) -> QMimeData:
        self._carried = QMimeData()
        self._carried.setData(mime, kind.encode())
        return self._carried


Canvas = Callable[[Plan], Hand]


@pytest.fixture
def canvas(qapp: QApplication) -> Iterator[Canvas]:
    """Opens canvases of plans, shown at 4 pixels an inch or so, and closes them at the end."""
    opened: list[PlanView] = []

    def open_canvas(plan: Plan) -> Hand:
        document = Document(plan)
        view = PlanView(document)
        document.setParent(view)
        view.resize(1000, 800)
        view.show()
        view.setFocus()
        opened.append(view)
        return Hand(view)

    yield open_canvas
    for view in opened:
        view.let_go()
        view.tool.desk.document.close()
        view.close()
        view.deleteLater()
    QCoreApplication.sendPostedEvents(None, QEvent.Type.DeferredDelete)


@pytest.fixture
def cottage() -> Plan:
    """A small bath over 2x10 joists: a closet and a lavatory on one drain that turns down inside the rim."""
    return Plan(
        floor=Floor(outline=((0.0, 0.0), (128.0, 0.0), (128.0, 108.0), (0.0, 108.0))),
        fields=(JoistField(id="j1", corner=(0.0, 0.0), size=(128.0, 108.0)),),
        walls=(
            Wall(id="w1", start=(0.0, 106.25), end=(128.0, 106.25), exterior=True, name="north wall"),
            Wall(id="w2", start=(70.25, 54.0), end=(70.25, 104.5)),
        ),
        fixtures=(
            Fixture(id="f1", kind="water_closet", at=(36.0, 92.0)),
            Fixture(id="f2", kind="lavatory", at=(70.25, 69.0), turn=180.0),
        ),
        drains=(
            Drain(id="d1", points=((36.0, 92.0), (36.0, 62.0), (36.0, 20.0)), size="3"),
            Drain(id="d2", points=((70.25, 69.0), (43.0, 69.0), (36.0, 62.0)), size="1-1/2"),
        ),
        risers=(Riser(id="r1", at=(70.25, 69.0), wall="w2", vent="1-1/2"),),
        exits=(Exit(id="x1", at=(36.0, 20.0)),),
    )


@pytest.fixture
def bare() -> Plan:
    """A floor of 10 by 12 ft with joists and nothing else."""
    return Plan(
        floor=Floor(outline=((0.0, 0.0), (120.0, 0.0), (120.0, 144.0), (0.0, 144.0))),
        fields=(JoistField(id="j1", corner=(0.0, 0.0), size=(120.0, 144.0)),),
    )
