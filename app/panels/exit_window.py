"""The exit window: between which heights the drain may leave the floor, which was chosen, and what sets each end."""

from __future__ import annotations

from collections.abc import Callable
from typing import TYPE_CHECKING, NamedTuple

from PySide6.QtCore import QSize, Qt, Signal
from PySide6.QtGui import QResizeEvent
from PySide6.QtWidgets import QComboBox, QGridLayout, QHBoxLayout, QSizePolicy, QToolButton, QVBoxLayout, QWidget

from app.commands.window_words import without_window
from app.document import Document
from app.panels.joist_section import JoistSection
from app.panels.mend_buttons import MendButtons
from app.panels.mending import Answer, MendDesk
from app.panels.pane import Pane, give_role, label
from app.theme import icon
from engine.lengths import down, inches, up
from engine.study import Study

if TYPE_CHECKING:
    from engine.checks.records import Finding
    from engine.crossings.records import Bound, Window
    from engine.mending import Mend

HEIGHTS = ("Highest", "Chosen", "Lowest")
DOWN = "Heights are the drain's axis, inches down from the top of the joists."


OPENS = "What would open it:"
NO_HEIGHT = "no-height-fits"
"""The rule on the height of exits."""

ONE = 1.0 / 256.0
"""Two ends so near to each other are one height, inches."""


class Reading(NamedTuple):
    """The words of one window: its verdict, each end with what sets it, the height in force.

    `single` where both ends are one height: then the verdict says it all.
    """

    verdict: str
    possible: bool
    high: str
    high_by: str
    low: str
    low_by: str
    chosen: str
    how: str
    single: bool = False


def read(window: Window) -> Reading:
    """A window in words; its ends are rounded inward to sixteenths, so that what is read can be built.

    Where no sixteenth lies between them they are told in decimals, and one height alone to the nearest sixteenth.
    """
    low, high = window.low, window.high
    if low is not None and high is not None and abs(high - low) <= ONE:
        return _one_height(window, high)
    possible = low is None or high is None or low <= high
    fine = low is not None and high is not None and up(-high) > down(-low)
    if low is None or high is None:
        verdict = "Nothing limits it" if low is high else "Open at one end"
    elif not possible:
        verdict = f"No height serves: the two ends exclude each other by {_tape(up(low - high))}."
    else:
        room = down(high - low)
        verdict = f"{_tape(room)} of room" if room > 0.0 else f"{high - low:.3f} in of room"
    return Reading(
        verdict,
        possible,
        _end(high, up, fine),
        window.high_set_by or "",
        _end(low, down, fine),
        window.low_set_by or "",
        f"{-window.chosen:.3f} in down" if fine and possible and not window.pinned else f"{_tape(-window.chosen)} down",
        "pinned in the plan" if window.pinned else _how_chosen(window),
    )


def _one_height(window: Window, z: float) -> Reading:
    height = f"{_tape(-z)} down"
    above, below = window.high_set_by or "", window.low_set_by or ""
    by = above if above == below else " and ".join(filter(None, (above, below)))
    chosen, how = (f"{_tape(-window.chosen)} down", "pinned in the plan") if window.pinned else (height, "the only one")
    return Reading(f"One height only: {height}: {by}", True, height, above, height, below, chosen, how, single=True)


def _end(z: float | None, inward: Callable[[float], float], fine: bool) -> str:
    if z is None:
        return "no limit"
    return f"{-z:.3f} in down" if fine else f"{_tape(inward(-z))} down"


def _how_chosen(window: Window) -> str:
    if window.low is not None and window.high is not None:
        return "the middle" if window.low <= window.high else "the middle, which breaks both least"
    return "just inside the upper end" if window.high is not None else "the lower end"


def _set_by(what: str) -> str:
    return f"set by {what}" if what else ""


def _tape(length: float) -> str:
    return f"{inches(length)} in"


class ExitWindowPane(Pane):
    """Shows the windows of a study's exits, one at a time; `place_wanted(x, y)` asks for what sets an end.

    Where no height serves it offers what would open the window: changes that were tried, each made by one click.
    `done(words)` says what was done.
    """

    place_wanted = Signal(object)
    done = Signal(str)

    def __init__(self, document: Document, parent: QWidget | None = None) -> None:
        super().__init__("Exit window", parent)
        self._document = document
        self._windows: tuple[Window, ...] = ()
        self._which = QComboBox()
        self._which.setAccessibleName("Which exit")
        self.setSizePolicy(QSizePolicy.Policy.Preferred, QSizePolicy.Policy.Maximum)
        self._which.currentIndexChanged.connect(self._show)
        self.rim.addWidget(self._which)
        self.section = JoistSection()
        self._verdict = label(role="figure", wrap=True)
        self._verdict.setToolTip(DOWN)
        self._values = {name: label(role="figure") for name in HEIGHTS}
        self._reasons = {name: label(role="quiet", wrap=True) for name in HEIGHTS}
        self._names = {name: label(name, "quiet") for name in HEIGHTS}
        self.ways = {name: self._way(name) for name in HEIGHTS}
        words = QWidget()
        grid = QGridLayout(words)
        grid.setContentsMargins(0, 0, 0, 0)
        grid.setHorizontalSpacing(8)
        grid.setVerticalSpacing(0)
        grid.setColumnStretch(1, 1)
        for number, name in enumerate(HEIGHTS):
            grid.addWidget(self._names[name], 2 * number, 0)
            grid.addWidget(self._values[name], 2 * number, 1)
            grid.addWidget(self.ways[name], 2 * number, 2)
            grid.addWidget(self._reasons[name], 2 * number + 1, 0, 1, 3)
        self._words = words
        line = QHBoxLayout()
        line.setContentsMargins(4, 0, 2, 0)
        line.setSpacing(10)
        column = QVBoxLayout()
        column.setSpacing(4)
        column.addWidget(self._verdict)
        column.addWidget(words)
        column.addStretch(1)
        line.addWidget(self.section, 0, Qt.AlignmentFlag.AlignTop)
        line.addLayout(column, 1)
        self.body.addLayout(line)
        self._opens = label(OPENS, "quiet")
        self.mends = MendButtons()
        self.mends.wanted.connect(self._on_mend)
        self.desk = MendDesk(document, self)
        self.desk.found.connect(self._on_mends)
        self._asked: tuple[Study, Finding] | None = None
        self.body.addWidget(self._opens)
        self.body.addWidget(self.mends)
        document.study_changed.connect(self.show_study)
        self.show_study(document.study)

    @property
    def verdict(self) -> str:
        """What the pane says of the window as a whole."""
        return self._verdict.text()

    @property
    def told(self) -> dict[str, tuple[str, str]]:
        """Each height on show with the reason under it."""
        shown = (name for name in HEIGHTS if not self._values[name].isHidden())
        return {name: (self._values[name].text(), self._reasons[name].text()) for name in shown}

    def resizeEvent(self, event: QResizeEvent) -> None:
        """Keep room for every line of the words."""
        super().resizeEvent(event)
        self._keep_room()

    def _keep_room(self) -> None:
        self.setMinimumHeight(max(self.minimumSizeHint().height(), self.heightForWidth(self.width())))

    def show_study(self, study: Study | None) -> None:
        """Read out the windows of this study's exits."""
        windows = study.model.windows if study is not None else ()
        self._windows = tuple(window for window in windows if window.exit is not None)
        self._depth = max((joist.depth for joist in study.model.framing.joists), default=0.0) if study else 0.0
        names = [str(window.exit) for window in self._windows]
        if names != [self._which.itemText(number) for number in range(self._which.count())]:
            self._which.blockSignals(True)
            self._which.clear()
            self._which.addItems(names)
            self._which.blockSignals(False)
        self._which.setVisible(len(names) > 1)
        self._show()

    def _ask_for_openings(self, window: Window | None) -> None:
        """Have tried what would open an empty window; none while something is being dragged."""
        study = self._document.study
        finding = _no_height(study, window) if study is not None and window is not None else None
        if study is None or finding is None or not self.desk.may_ask:
            self._asked = None
            self.mends.clear()
        elif self._asked is None or self._asked[0] is not study or self._asked[1] != finding:
            self._asked = (study, finding)
            self.mends.wait()
            self.desk.ask(finding)
        self._opens.setVisible(self._asked is not None)

    def _on_mends(self, answer: Answer) -> None:
        if self._asked is not None and answer.study is self._asked[0] and answer.finding == self._asked[1]:
            self.mends.show_answer(answer)
            self._keep_room()

    def _on_mend(self, mend: Mend) -> None:
        if self._asked is not None and self.desk.make(mend, self._asked[0]):
            self.done.emit(mend.done)

    def _show(self) -> None:
        number = self._which.currentIndex()
        window = self._windows[number] if 0 <= number < len(self._windows) else None
        self._ask_for_openings(window)
        self._words.setVisible(window is not None)
        self.section.show_window(window, self._depth)
        if window is None:
            self._verdict.setText(without_window(self._document.plan))
            give_role(self._verdict, "quiet")
            return
        reading = read(window)
        self._verdict.setText(reading.verdict)
        give_role(self._verdict, "figure" if reading.possible else "fault")
        heights = (reading.high, reading.chosen, reading.low)
        reasons = (_set_by(reading.high_by), reading.how, _set_by(reading.low_by))
        for name, height, reason in zip(HEIGHTS, heights, reasons, strict=True):
            shown = name == "Chosen" or not reading.single
            self._values[name].setText(height)
            self._reasons[name].setText(reason)
            for part in (self._names[name], self._values[name]):
                part.setVisible(shown)
            self._reasons[name].setVisible(shown and bool(reason))
        for name, way in self.ways.items():
            led = name == "Chosen" if reading.single else name != "Chosen"
            way.setVisible(led and _bound(window, name) is not None)
        self._keep_room()

    def _way(self, name: str) -> QToolButton:
        button = QToolButton()
        button.setIcon(icon("place"))
        button.setIconSize(QSize(16, 16))
        button.setAccessibleName(f"Show what sets the {'only' if name == 'Chosen' else name.lower()} height")
        button.setToolTip("Show the place")
        button.setProperty("end", name)
        button.clicked.connect(self._on_way)
        return button

    def _on_way(self) -> None:
        name = self.sender().property("end")
        number = self._which.currentIndex()
        bound = _bound(self._windows[number], name) if 0 <= number < len(self._windows) else None
        if bound is not None:
            self._document.select((bound.element,))
            self.place_wanted.emit(bound.at)


def _no_height(study: Study, window: Window) -> Finding | None:
    """The finding that no height of a window's exit fits, or that the pinned one does not."""
    return next((one for one in study.findings if one.rule == NO_HEIGHT and one.elements[0] == window.exit), None)


def _bound(window: Window, end: str) -> Bound | None:
    """What sets an end of a window; for the chosen height what sets either, as where it is the only one."""
    ends = {
        "Highest": [("high", window.high, window.high_set_by)],
        "Lowest": [("low", window.low, window.low_set_by)],
    }
    wanted = ends.get(end, [*ends["Highest"], *ends["Lowest"]])
    return next((bound for bound in window.bounds if (bound.side, bound.z, bound.by) in wanted), None)
