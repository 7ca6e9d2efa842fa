"""The findings pane: what to stop for, to look at and to know, what was not judged, and how much was looked at."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Iterator
from math import isfinite
from typing import TYPE_CHECKING, cast

from PySide6.QtCore import QSize, Qt, Signal
from PySide6.QtGui import QAction
from PySide6.QtWidgets import (
    QHBoxLayout,
    QLabel,
    QSizePolicy,
    QSplitter,
    QStackedWidget,
    QToolButton,
    QVBoxLayout,
    QWidget,
)

from app.document import Document
from app.panels.asked import asked
from app.panels.eliding import apart
from app.panels.finding_card import FindingCard
from app.panels.grouped import Group, GroupedTree, Row
from app.panels.mending import Answer, MendDesk
from app.panels.pane import Pane, label
from app.panels.verdict import (
    WEIGHTS,
    Bundle,
    Entry,
    bundle_words,
    bundled,
    count,
    entries,
    finding_of,
    in_words,
    member_words,
)
from app.theme import icon
from engine.plan.points import Run
from engine.study import Study

if TYPE_CHECKING:
    from engine.checks.records import Finding
    from engine.mending import Mend

Key = Entry | Bundle
"""What a row of the list stands for."""

SIGN = QSize(16, 16)


class FindingsPane(Pane):
    """Lists a study's findings in step with the document, and lets go of one when something else is chosen.

    `place_wanted(x, y)` asks for a place to be shown, `field_wanted(element, field)` for a field of the properties, `told(words)`
    says what was done to the plan.
    """

    place_wanted = Signal(object)
    field_wanted = Signal(str, str)
    told = Signal(str)

    def __init__(self, document: Document, parent: QWidget | None = None) -> None:
        super().__init__("Findings", parent)
        self._document = document
        self._pictures = {weight: icon(weight.replace(" ", "_")) for weight in WEIGHTS}
        self._counts = {weight: self._counter(weight) for weight in WEIGHTS}
        self._looked_at = label(role="quiet")
        self._looked_at.setSizePolicy(QSizePolicy.Policy.Ignored, QSizePolicy.Policy.Preferred)
        self.rim.addSpacing(6)
        self.rim.addWidget(self._looked_at, 100)

        self.tree = GroupedTree("Findings by weight", many=False)
        self.tree.setIconSize(SIGN)
        self.tree.chosen.connect(self._on_chosen)
        self.card = FindingCard()
        self.card.field_wanted.connect(self.field_wanted)
        self.card.mends.wanted.connect(self._on_mend)
        self.desk = MendDesk(document, self)
        self.desk.found.connect(self._on_mends)
        self._asked: tuple[Study, Finding] | None = None
        listed = QSplitter(Qt.Orientation.Horizontal)
        listed.setChildrenCollapsible(False)
        listed.addWidget(self.tree)
        listed.addWidget(self.card)
        listed.setObjectName("inner")
        listed.setHandleWidth(8)
        listed.setSizes([430, 330])
        listed.setStretchFactor(0, 1)
        listed.setStretchFactor(1, 1)
        self._calm = _Calm()
        self._stack = QStackedWidget()
        self._stack.addWidget(self._calm)
        self._stack.addWidget(listed)
        self.body.addWidget(self._stack)

        self._entries: tuple[Entry, ...] = ()
        self._bundles: dict[Bundle, tuple[Entry, ...]] = {}
        document.selection_changed.connect(self._on_selection)
        document.study_changed.connect(self.show_study)
        self.show_study(document.study)

    @property
    def said(self) -> str:
        """What the pane says of the whole plan: the line beside its title, and what stands in an empty list's place."""
        return f"{self._looked_at.text()} {self._calm.accessibleName()}"

    def home(self) -> QWidget:
        """The list, or the whole pane while there is none."""
        return self.tree if self._entries else self._calm

    def offer(self, action: QAction, words: str) -> None:
        """Put a command at the end of the title line, in few words."""
        button = QToolButton()
        action.setIconText(words)
        button.setDefaultAction(action)
        button.setToolButtonStyle(Qt.ToolButtonStyle.ToolButtonTextOnly)
        button.setAccessibleName(words)
        self.rim.addWidget(button)

    def show_study(self, study: Study | None) -> None:
        """List what this study found; None says that there is no answer."""
        self._entries = entries(study) if study is not None else ()
        for weight, counter in self._counts.items():
            number = sum(entry.weight == weight for entry in self._entries)
            counter.tell(number)
        self._bundles = {}
        joists = frozenset(joist.id for joist in study.model.framing.joists) if study is not None else frozenset()
        groups = tuple(self._groups(self._entries, joists))
        self._entries = tuple(_in_order(groups))
        self.tree.renew(groups)
        self._show_card(self._chosen())
        self._stack.setCurrentIndex(1 if self._entries else 0)
        if study is None:
            self._looked_at.setText("not studied yet")
            self._calm.tell("", "The plan is being studied.")
            return
        drawn = count(study).looked_at > 0
        stops = any(entry.weight == "stop" for entry in self._entries)
        calm = "Nothing to stop for" if drawn and not stops else ""
        words = in_words(study)
        self._looked_at.setText(" · ".join(part for part in (calm, words) if part) if self._entries else "")
        self._calm.tell(calm, words)

    def tell_refusal(self, reason: str) -> None:
        """Say why the plan on show has no answer."""
        self._looked_at.setText("not judged")
        self._calm.tell("", reason)

    def step(self, by: int) -> None:
        """Go to the next finding (1) or the one before (-1), round the end."""
        if not self._entries:
            return
        chosen = self._first(self._chosen())
        if chosen is None:
            number = 0 if by > 0 else len(self._entries) - 1
        else:
            number = (self._entries.index(chosen) + by) % len(self._entries)
        self.go_to(self._entries[number])

    def go_to(self, entry: Entry) -> None:
        """Choose this entry: its card shows, its elements are selected, its place is asked for."""
        self.tree.point_to((entry,))
        self._on_chosen((entry,))

    def _chosen(self) -> Key | None:
        selected = self.tree.selected
        return cast("Key", selected[0]) if selected else None

    def _first(self, key: Key | None) -> Entry | None:
        """The entry itself, or the first of a bundle."""
        return self._bundles[key][0] if isinstance(key, Bundle) else key

    def _about(self, key: Key) -> frozenset[str]:
        """The elements of the plan that an entry, or any of a bundle, is about."""
        members = self._bundles[key] if isinstance(key, Bundle) else (key,)
        return frozenset(name for entry in members for name in entry.elements) & self._document.elements.keys()

    def _on_chosen(self, keys: tuple[Key, ...]) -> None:
        key = keys[0] if keys else None
        self._show_card(key)
        entry = self._first(key)
        if key is not None and entry is not None:
            about = self._about(key)
            if about:
                self._document.select(about)
            if all(map(isfinite, entry.at[:2])):
                self.place_wanted.emit(entry.at[:2])

    def _on_selection(self, selected: frozenset[str]) -> None:
        """Something else was chosen: the finding is lit no longer."""
        key = self._chosen()
        if key is not None and selected != self._about(key):
            self.tree.point_to(())
            self._show_card(None)

    def _on_mend(self, mend: Mend) -> None:
        """Make the edit that was pressed, as one step."""
        if self._asked is not None and self.desk.make(mend, self._asked[0]):
            self.told.emit(mend.done)

    def _show_card(self, key: Key | None) -> None:
        entry, plan = self._first(key), self._document.plan
        others = len(self._bundles[key]) - 1 if isinstance(key, Bundle) else 0
        first = self._document.element(entry.elements[0]) if entry is not None and entry.elements else None
        self.card.show_entry(entry, plan.rulings, others, asked(entry, first) if entry is not None else None)
        self._ask_for_mends(entry)

    def _ask_for_mends(self, entry: Entry | None) -> None:
        """Have mends tried for the finding on the card; none while something is being dragged."""
        study = self._document.study
        finding = finding_of(study, entry) if study is not None and entry is not None else None
        if study is None or finding is None or not self.desk.may_ask:
            self._asked = None
            self.card.mends.clear()
        elif self._asked is None or self._asked[0] is not study or self._asked[1] != finding:
            self._asked = (study, finding)
            self.card.mends.wait()
            self.desk.ask(finding)

    def _on_mends(self, answer: Answer) -> None:
        if self._asked is not None and answer.study is self._asked[0] and answer.finding == self._asked[1]:
            self.card.mends.show_answer(answer, without_button(answer))

    def _groups(self, found: Iterable[Entry], joists: frozenset[str]) -> Iterator[Group]:
        by_weight: dict[str, list[Row]] = {weight: [] for weight in WEIGHTS}
        numbers: Counter[str] = Counter()
        for key, members in bundled(found, self._is_run).items():
            weight = members[0].weight
            numbers[weight] += len(members)
            if isinstance(key, Bundle):
                self._bundles[key] = members
                inner = _told_apart(Row(entry, member_words(key, entry), entry.text) for entry in members)
                by_weight[weight].append(Row(key, bundle_words(key, members, joists), rows=inner))
            else:
                by_weight[weight].append(Row(key, key.line))
        for weight, rows in by_weight.items():
            if rows:
                title = f"{WEIGHTS[weight]} ({numbers[weight]})"
                yield Group(weight, title, self._pictures[weight], _told_apart(rows))

    def _is_run(self, name: str) -> bool:
        return isinstance(self._document.element(name), Run)

    def _counter(self, weight: str) -> _Counter:
        counter = _Counter(weight)
        self.rim.addWidget(counter)
        return counter


def _told_apart(rows: Iterable[Row]) -> tuple[Row, ...]:
    """The rows, each with the stretch of its words that is not to be shortened away."""
    listed = tuple(rows)
    return tuple(row._replace(apart=keep) for row, keep in zip(listed, apart([r.text for r in listed]), strict=True))


def _in_order(groups: Iterable[Group]) -> Iterator[Entry]:
    """The entries as the list shows them, from top to bottom."""
    for group in groups:
        for row in group.rows:
            yield from (cast("Entry", one.key) for one in (row.rows or (row,)))


HEADED = "To head the joist off was tried too: it leaves the finding, or brings another to stop for."


def without_button(answer: Answer) -> str:
    """Why a way that the finding names has no button of its own; empty where each has one."""
    named = " off round it" in answer.finding.mend
    return HEADED if named and not any("headed off" in mend.words for mend in answer.mends) else ""


class _Counter(QWidget):
    """A weight's sign with its number; stays quiet at none, save that no stop is said aloud."""

    def __init__(self, weight: str) -> None:
        super().__init__()
        self._weight = weight
        line = QHBoxLayout(self)
        line.setContentsMargins(4, 0, 4, 0)
        line.setSpacing(4)
        self._sign = QLabel()
        self._number = label(role="figure")
        line.addWidget(self._sign)
        line.addWidget(self._number)
        self.tell(0)

    def tell(self, number: int) -> None:
        """Show this many; a weight that has none is not shown."""
        self._number.setText(str(number))
        self._sign.setPixmap(icon(self._weight.replace(" ", "_")).pixmap(SIGN, self.devicePixelRatioF()))
        words = f"{WEIGHTS[self._weight]}: {number}"
        self.setToolTip(words)
        self.setAccessibleName(words)
        self.setVisible(number > 0)


class _Calm(QWidget):
    """What stands in the list's place while it is empty."""

    def __init__(self) -> None:
        super().__init__()
        self.setFocusPolicy(Qt.FocusPolicy.StrongFocus)
        self._sign = QLabel()
        self._sign.setPixmap(icon("calm").pixmap(QSize(36, 36), self.devicePixelRatioF()))
        self._title, self._words = label(role="calm"), label(role="quiet")
        for part in (self._sign, self._title, self._words):
            part.setAlignment(Qt.AlignmentFlag.AlignCenter)
        column = QVBoxLayout(self)
        column.addStretch(1)
        for part in (self._sign, self._title, self._words):
            column.addWidget(part)
        column.addStretch(1)

    def tell(self, title: str, words: str) -> None:
        """A title under the sign of calm, or only words without it."""
        self._sign.setVisible(bool(title))
        self._title.setVisible(bool(title))
        self._title.setText(title)
        self._words.setText(words)
        self.setAccessibleName(f"{title}. {words}" if title else words)
