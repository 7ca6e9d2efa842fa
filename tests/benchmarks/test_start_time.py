"""From the process's start to the first painted window, beside a bare window of the same toolkit."""

from __future__ import annotations

import math
import os
import subprocess
import sys
import time
from collections.abc import Sequence
from pathlib import Path

HOUSE = Path(__file__).resolve().parents[2]
TIMES_BARE = 2.0
RUNS = 7

WATCH = """
import os, sys
from PySide6.QtCore import QEvent, QObject, QTimer
from PySide6.QtWidgets import QApplication

class Watch(QObject):
    # Ends the process once a window's first painting is done.
    def eventFilter(self, thing, event):
        if event.type() == QEvent.Type.Paint and thing.isWidgetType() and thing.isWindow():
            QTimer.singleShot(0, lambda: os._exit(0))
        return False

def watched(run):
    def begin(*given):
        watch = Watch(QApplication.instance())
        QApplication.instance().installEventFilter(watch)
        return run()
    return begin

QApplication.exec = staticmethod(watched(QApplication.exec))
"""
BARE = (
    WATCH
    + """
application = QApplication([])
from PySide6.QtWidgets import QMainWindow
window = QMainWindow()
window.resize(1200, 800)
window.show()
sys.exit(QApplication.exec())
"""
)
WHOLE = (
    WATCH
    + """
from app.commands import main
sys.exit(main(sys.argv[1:]))
"""
)


READY = """
import os, sys
from PySide6.QtCore import QTimer
from PySide6.QtWidgets import QApplication

def look():
    if "app.workplace" not in sys.modules:
        return
    kind = sys.modules["app.workplace"].Workplace
    places = [place for window in QApplication.topLevelWidgets() for place in window.findChildren(kind)]
    if places and places[0].document.studied:
        os._exit(0)

def watched(run):
    def begin():
        timer = QTimer(QApplication.instance(), interval=5)
        timer.timeout.connect(look)
        QTimer.singleShot(50, timer.start)
        return run()
    return begin

QApplication.exec = staticmethod(watched(QApplication.exec))
from app.commands import main
sys.exit(main(sys.argv[1:]))
"""


def _best(programs: Sequence[str], environment: dict[str, str]) -> list[float]:
    """The fastest run of each program, seconds. They take turns, so that a busy moment disturbs all of them."""
    best = [math.inf] * len(programs)
    for _ in range(RUNS):
        for number, program in enumerate(programs):
            begun = time.perf_counter()
            subprocess.run([sys.executable, "-c", program], cwd=HOUSE, env=environment, check=True, timeout=60)
            best[number] = min(best[number], time.perf_counter() - begun)
    return best


def test_the_window_is_there_within_twice_a_bare_one(screen: str, tmp_path: Path, say) -> None:
    environment = {key: value for key, value in os.environ.items() if key != "QT_QPA_PLATFORM"}
    environment |= {"DISPLAY": screen, "HOME": str(tmp_path), "JOISTWAY_HOME": str(tmp_path / "home")}
    bare, whole, ready = _best((BARE, WHOLE, READY), environment)
    say(f"start to first painted window: {whole:.3f} s, a bare one {bare:.3f} s = {whole / bare:.2f} (at most 2)")
    say(f"start to a furnished window with its first answer: {ready:.3f} s")
    assert whole / bare <= TIMES_BARE
