"""Runs the real program and works it as a person would: real pointer and key events through the display server.

Started as a process by the test of the real window, with the name of a sitting and a plan file; the sitting's
steps run beside the program's own event loop, and only look at the window to know where to click and when to go on.
"""

from __future__ import annotations

import os
import subprocess
import sys
import time
import traceback
from collections.abc import Callable, Generator
from pathlib import Path

sys.path.insert(0, str(Path(__file__).resolve().parents[2]))

from PySide6.QtCore import QPoint, QTimer
from PySide6.QtWidgets import QApplication, QDialog, QLineEdit, QWidget

from app.canvas.places import to_scene
from app.commands import main
from app.window import MainWindow
from app.workplace import Workplace

DEADLINE = 20.0
BEAT_MS = 25

Wait = Callable[[], bool]
Steps = Generator[tuple[str, Wait], None, None]


class Hand:
    """A hand at the mouse and keyboard of the display."""

    def __init__(self, place: Workplace) -> None:
        self.window, self.view, self.document = place.window, place.view, place.document

    def key(self, *keys: str) -> None:
        self._do("key", "--clearmodifiers", *keys)

    def type(self, text: str) -> None:
        self._do("type", "--delay", "5", text)

    def click(self, place: QPoint) -> None:
        self._do("mousemove", "--sync", str(place.x()), str(place.y()))
        self._do("click", "1")

    def click_plan(self, x: float, y: float) -> None:
        self.click(self.view.viewport().mapToGlobal(self.view.mapFromScene(to_scene((x, y)))))

    def click_widget(self, widget: QWidget) -> None:
        self.click(widget.mapToGlobal(widget.rect().center()))

    def take(self, widget: QWidget) -> None:
        """Give a window the keyboard, as a window manager would."""
        self._do("windowfocus", str(int(widget.winId())))

    def _do(self, *words: str) -> None:
        subprocess.run(["xdotool", *words], check=True, timeout=10)


def dialog_shown(hand: Hand, what: str) -> Steps:
    """Wait for a dialog and give it the keys."""
    yield what, lambda: _dialog() is not None
    yield "the dialog to settle", _beats(8)
    hand.take(_dialog())
    yield f"{what} to have the keys", lambda: _dialog().isActiveWindow()


def dialog_left(hand: Hand) -> Steps:
    """Escape puts the dialog away; the main window has the keys again."""
    hand.key("Escape")
    yield "the dialog to go", lambda: _dialog() is None
    yield from window_taken(hand)


def window_taken(hand: Hand) -> Steps:
    """Give the main window the keys."""
    hand.take(hand.window)
    yield "the window to have the keys", hand.window.isActiveWindow


def draw_save_print(hand: Hand) -> Steps:
    """Draw a drain of three points, save, print the plan set, leave."""
    document = hand.document
    yield from dialog_shown(hand, "the cautions of a first start")
    yield from dialog_left(hand)
    yield "the plan to be opened", lambda: document.path is not None and document.studied
    hand.click_plan(24.0, 200.0)
    hand.key("d")
    yield "the drain tool", lambda: hand.view.tool_name == "drain"
    for point in ((40.0, 160.0), (40.0, 60.0), (24.0, 44.0)):
        hand.click_plan(*point)
        yield "the next point", _beats(4)
    hand.key("Return")
    yield "the drain", lambda: len(document.settled.drains) == 1
    hand.key("Escape", "ctrl+s")
    yield "the plan to be saved", lambda: not document.modified
    hand.key("ctrl+p")
    yield from dialog_shown(hand, "the print dialog")
    dialog = _dialog()
    line = dialog.findChild(QLineEdit)
    hand.click_widget(line)
    hand.key("ctrl+a")
    hand.type(str(document.path.parent / "sheets"))
    yield "the folder's name", lambda: line.text().endswith("sheets")
    hand.key("Return")
    yield "the plan set", lambda: bool(dialog.written)
    yield from dialog_left(hand)
    hand.key("ctrl+q")


def reopen(hand: Hand) -> Steps:
    """Open the saved plan again, see the drain, take it away with the keyboard and put it back, leave."""
    document = hand.document
    yield "the plan to be opened", lambda: document.path is not None and document.studied
    yield from window_taken(hand)
    drain = document.settled.drains[0]
    hand.click_plan(40.0, 110.0)
    yield "the drain to be selected", lambda: document.selection == {drain.id}
    hand.key("Delete")
    yield "the drain to go", lambda: document.settled.drains == ()
    hand.key("ctrl+z")
    yield "the drain to come back", lambda: document.settled.drains == (drain,)
    hand.key("ctrl+q")


def _dialog() -> QDialog | None:
    return next(
        (each for each in QApplication.topLevelWidgets() if isinstance(each, QDialog) and each.isVisible()), None
    )


def _beats(number: int) -> Wait:
    left = iter(range(number))
    return lambda: next(left, None) is None


class Conductor:
    """Takes a sitting's next step once what it waits for is there; gives up, and says on what, at the deadline."""

    def __init__(self, sitting: Callable[[Hand], Steps]) -> None:
        self._sitting = sitting
        self._steps: Steps | None = None
        self._what, self._wait = "the window", lambda: False
        self._since = time.monotonic()
        self._timer = QTimer()
        self._timer.timeout.connect(self.beat)
        self._timer.start(BEAT_MS)

    def beat(self) -> None:
        """One look; whatever goes wrong in it ends the process, since the program would go on."""
        try:
            self._look()
        except Exception:
            traceback.print_exc()
            os._exit(4)

    def _look(self) -> None:
        if self._steps is None:
            places = [
                each.findChild(Workplace) for each in QApplication.topLevelWidgets() if isinstance(each, MainWindow)
            ]
            if not any(places):
                return
            self._steps = self._sitting(Hand(places[0]))
        elif not self._wait():
            if time.monotonic() - self._since > DEADLINE:
                print(f"waited in vain for {self._what}", file=sys.stderr, flush=True)
                os._exit(3)
            return
        try:
            self._what, self._wait = next(self._steps)
        except StopIteration:
            self._timer.stop()
        self._since = time.monotonic()


def run(sitting: str, plan: str) -> int:
    """The program as the command line starts it, with a conductor beside its event loop."""
    begin = QApplication.exec
    kept = []

    def conducted() -> int:
        kept.append(Conductor({"draw_save_print": draw_save_print, "reopen": reopen}[sitting]))
        return begin()

    QApplication.exec = staticmethod(conducted)
    return main([plan])


if __name__ == "__main__":
    sys.exit(run(*sys.argv[1:]))
