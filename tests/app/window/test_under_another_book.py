"""The window in which a plan stands beside itself under another rule book."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path

import pytest
from msgspec.structs import replace
from PySide6.QtCore import QPoint, Qt
from PySide6.QtWidgets import QToolButton

from app.beside.window import BesideWindow
from app.workplace import Workplace
from engine.plan.edits import set_plan
from engine.plan.file import read
from engine.plan.records import Amendment

SAMPLE = Path(__file__).resolve().parents[3] / "samples" / "one-bath-cottage.jway"


class Reader:
    """A person who reads a plan under another book."""

    def __init__(self, work: Workplace, qtbot) -> None:
        self.work, self._qtbot = work, qtbot
        work.commands["other_book"].trigger()
        assert work.joblists.beside is not None
        self.window: BesideWindow = work.joblists.beside
        self.settle()

    def settle(self) -> None:
        self._qtbot.waitUntil(lambda: self.window.idle and self.window.comparison is not None, timeout=20_000)

    @property
    def text(self) -> str:
        return " ".join(self.window.text.toPlainText().split())

    @property
    def books(self) -> list[str]:
        return [self.window.book.itemData(row) for row in range(self.window.book.count())]

    def take(self, book: str) -> None:
        self.window.comparison = None
        self.window.book.setCurrentIndex(self.window.book.findData(book))
        self.window.book.activated.emit(self.window.book.currentIndex())
        self.settle()

    def click(self, words: str) -> None:
        """Click where these words stand as a link."""
        cursor = self.window.text.document().find(words)
        assert not cursor.isNull(), words
        self.window.text.setTextCursor(cursor)
        self.window.text.ensureCursorVisible()
        place = self.window.text.cursorRect(cursor).center() - QPoint(6, 0)
        self._qtbot.mouseMove(self.window.text.viewport(), place)
        self._qtbot.mouseClick(self.window.text.viewport(), Qt.MouseButton.LeftButton, pos=place)


@pytest.fixture
def reader(make_work: Callable[..., Workplace], qtbot) -> Reader:
    return Reader(make_work(read(SAMPLE)), qtbot)


def test_it_tells_what_changes_and_by_which_section(reader: Reader) -> None:
    assert reader.books == ["upc-2021"]
    assert "found by UPC 2021 alone" in reader.window.said
    assert (
        "Farthest from a trap's weir to its vent (2 in): 96 in by IRC 2021 Table P3105.1; "
        "60 in by UPC 2021 Table 1002.2." in reader.text
    )
    for heading in ("What each book finds", "Findings that differ", "How each trap is vented", "Sizes that change"):
        assert heading in reader.text
    assert "only your building department can say" in reader.text


def test_values_that_change_nothing_are_shown_when_asked_for(reader: Reader) -> None:
    assert "Other values that differ" not in reader.text
    reader.window.every.click()
    assert "Other values that differ" in reader.text
    assert "distance from the wood's face under which pipe needs a shield" in reader.text


def test_a_click_leads_to_the_fixture_and_to_the_finding(reader: Reader) -> None:
    reader.work.document.select(())
    reader.click("No vent serves")
    assert reader.work.document.selection == {"sh1"}
    wanted: list[object] = []
    reader.window.place_wanted.connect(wanted.append)
    reader.click("No vent serves")
    assert len(wanted) == 1


def test_it_follows_the_drawing(reader: Reader) -> None:
    before = reader.window.said
    plan = reader.work.document.plan
    reader.window.comparison = None
    without = replace(plan, fixtures=tuple(one for one in plan.fixtures if one.kind != "shower"))
    reader.work.document.commit(without, "leave the shower out")
    reader.settle()
    assert reader.window.said != before
    assert "No vent serves" not in reader.text


def test_a_plan_that_takes_the_other_book_is_set_beside_this_one(reader: Reader) -> None:
    reader.window.comparison = None
    reader.work.document.commit(set_plan(reader.work.document.plan, rulebook="upc-2021"), "take the uniform code")
    reader.settle()
    assert reader.books == ["irc-2021"]
    assert "found by IRC 2021 alone" in reader.window.said


def test_an_amended_plan_may_stand_beside_its_own_book_as_printed(reader: Reader) -> None:
    reader.window.comparison = None
    amended = replace(reader.work.document.plan, amendments=(Amendment("slope.least.3", 0.5, "the <b>county</b>", ""),))
    reader.work.document.commit(amended, "amend")
    reader.settle()
    assert reader.books == ["upc-2021", "irc-2021"]
    assert "Local amendments that are left out" in reader.text
    assert "the <b>county</b>" in reader.text, "what was typed is shown as typed"
    reader.take("irc-2021")
    assert "IRC 2021 as printed" in reader.text
    assert "1/4 in per ft" not in reader.text.split("Findings that differ")[0].split("Amended to")[0]


def test_the_findings_offer_it_and_escape_closes_it(reader: Reader, qtbot) -> None:
    buttons = reader.work.findings.findChildren(QToolButton)
    offered = next(button for button in buttons if button.text() == "Another book…")
    qtbot.keyClick(reader.window, Qt.Key.Key_Escape)
    assert not reader.window.isVisible()
    qtbot.mouseClick(offered, Qt.MouseButton.LeftButton)
    assert reader.window.isVisible()


def test_an_amendment_that_cannot_be_is_told(reader: Reader, qtbot) -> None:
    broken = replace(reader.work.document.plan, amendments=(Amendment("no.such.value", 1.0),))
    reader.work.document.commit(broken, "amend what is not there")
    qtbot.waitUntil(lambda: "no.such.value" in reader.window.said, timeout=10_000)
    assert reader.window.text.toPlainText() == ""
