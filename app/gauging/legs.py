"""The legs of one fitting to type in: letter, how it is measured, a field, what it comes to, and what is odd about it."""

from __future__ import annotations

from PySide6.QtCore import Qt, Signal
from PySide6.QtWidgets import QGridLayout, QVBoxLayout, QWidget

from app.panels.line import Line
from app.panels.pane import label
from app.panels.writing import say_length
from engine.lengths import LengthError, inches
from engine.takeoff.cutlist import RESTS_ON
from engine.takeoff.gauge import Gauge, GaugeLeg
from engine.takeoff.measuring import read_measure

_MOST_INCHES = 24.0
"""No leg of a drain fitting is longer, inches: past it a slip is told at once."""


class LegField(QWidget):
    """One leg: `entered(length or None)` tells what was typed, None that the measure is taken back."""

    entered = Signal(object)

    def __init__(self, gauged: Gauge, leg: GaugeLeg, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.leg = leg
        name = f"{gauged.name}, {leg.letter}, {leg.name}"
        self.line = Line(name)
        self.line.setMaximumWidth(170)
        self.line.done.connect(self._on_done)
        self._comes_to = label(role="figure")
        self._stands = label(role="quiet", wrap=True)
        self.doubt = label(role="fault", wrap=True)
        self.doubt.setAccessibleName(f"What is odd about {name}")
        grid = QGridLayout(self)
        grid.setContentsMargins(0, 0, 0, 6)
        grid.setHorizontalSpacing(10)
        grid.setVerticalSpacing(2)
        letter = label(leg.letter, "figure")
        letter.setMinimumWidth(14)
        grid.addWidget(letter, 0, 0, Qt.AlignmentFlag.AlignTop)
        grid.addWidget(label(f"{leg.name}: {leg.how}.", wrap=True), 0, 1, 1, 3)
        grid.addWidget(self.line, 1, 1)
        grid.addWidget(self._comes_to, 1, 2, 1, 2)
        grid.addWidget(self._stands, 2, 1, 1, 3)
        grid.addWidget(self.doubt, 3, 1, 1, 3)
        grid.setColumnStretch(3, 1)
        self.setFocusProxy(self.line)
        self.show_leg(leg)

    def show_leg(self, leg: GaugeLeg) -> None:
        """What stands now: the measure in the field, or what stands in for it beside an empty one."""
        self.leg = leg
        measured = leg.standing == "measured"
        sum_ = "" if leg.socket is None else f"face {'-' if leg.socket > 0.0 else '+'} socket, such as {_example(leg)}"
        self.line.setPlaceholderText("not measured")
        self.line.setToolTip(f"A length, or {sum_}" if sum_ else "A length, such as 3 1/16")
        self.line.show_text(say_length(leg.stands) if measured else "")
        self._comes_to.setText(f'{leg.letter} = {inches(leg.stands)}"' if measured else "")
        known = (
            "measured" if measured else f"{inches(leg.stands)} ± {inches(leg.tolerance)} in, {RESTS_ON[leg.standing]}"
        )
        self._stands.setText(f"Now {known}. {_changes(leg)}" if not measured else _changes(leg))
        self._doubt(leg.question)

    def _doubt(self, words: str) -> None:
        self.doubt.setText(words)
        self.doubt.setVisible(bool(words))
        self.line.mark_wrong(bool(words))

    def _on_done(self) -> None:
        if self.line.untouched:
            return
        text = self.line.text().strip()
        if not text:
            self.entered.emit(None)
            return
        try:
            value = read_measure(text)
            if abs(value) > _MOST_INCHES:
                raise LengthError(f"{text!r} is longer than any leg of a fitting; check the unit")
        except LengthError as fault:
            self._doubt(str(fault))
            return
        self.entered.emit(value)


class LegsForm(QWidget):
    """All legs of the fitting on show; `measured(leg, length or None)` tells what was typed."""

    measured = Signal(object, object)

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.fields: list[LegField] = []
        self._gauged: Gauge | None = None
        self._column = QVBoxLayout(self)
        self._column.setContentsMargins(0, 0, 0, 0)
        self._column.setSpacing(6)
        self._column.addStretch(1)

    def show_fitting(self, gauged: Gauge | None) -> None:
        """The legs of this fitting; those that are on show already keep what is being typed."""
        old = self._gauged
        self._gauged = gauged
        legs = gauged.legs if gauged is not None else ()
        same = old is not None and gauged is not None and (old.kind, old.size) == (gauged.kind, gauged.size)
        if same and [field.leg.legs for field in self.fields] == [leg.legs for leg in legs]:
            for field, leg in zip(self.fields, legs, strict=True):
                field.show_leg(leg)
            return
        for field in self.fields:
            self._column.removeWidget(field)
            field.deleteLater()
        self.fields = [LegField(gauged, leg) for leg in legs] if gauged is not None else []
        for number, field in enumerate(self.fields):
            field.entered.connect(self._on_entered)
            self._column.insertWidget(number, field)

    def _on_entered(self, length: float | None) -> None:
        field = self.sender()
        if isinstance(field, LegField):
            self.measured.emit(field.leg, length)


def _example(leg: GaugeLeg) -> str:
    depth = abs(leg.socket or 0.0)
    face = leg.stands + (leg.socket or 0.0)
    return f"{inches(face)} {'-' if (leg.socket or 0.0) > 0.0 else '+'} {inches(depth)}"


def _changes(leg: GaugeLeg) -> str:
    words = [f"Changes {', '.join(leg.pieces)}."] if leg.pieces else []
    return " ".join([*words, *(f"Sets {said}." for said in leg.holds)])
