"""Local amendments in the plan's settings: a value is found by plain words, changed, told beside the book's, and taken back."""

from __future__ import annotations

from pathlib import Path

import pytest
from PySide6.QtCore import Qt
from PySide6.QtWidgets import QLineEdit

from app.dialogs.plan_settings import PlanSettingsDialog
from app.workplace import Workplace
from engine.plan.file import dumps, loads, read
from engine.plan.records import Amendment, Plan
from engine.rulebooks import load

SAMPLE = Path(__file__).resolve().parents[3] / "samples" / "one-bath-cottage.jway"
WHAT, BECOMES, SAID_BY, WHEN, IN_THE_BOOK, IN_WORDS = range(6)


class Amender:
    """A person at the amendments of one plan."""

    def __init__(self, work: Workplace, qtbot) -> None:
        self.work, self._qtbot = work, qtbot
        self.open()

    def open(self) -> None:
        self.work.commands["plan_settings"].trigger()
        self.dialog = self.work.window.findChildren(PlanSettingsDialog)[-1]
        self.dialog.tabs.setCurrentIndex(1)
        self.finder, self.rows = self.dialog.amending.finder, self.dialog.amendments

    def look_for(self, words: str) -> list[str]:
        self.finder.words.setFocus()
        self.finder.words.selectAll()
        self._qtbot.keyClicks(self.finder.words, words)
        return self.finder.found

    def press(self, key: Qt.Key) -> None:
        self.finder.words.setFocus()
        self._qtbot.keyClick(self.finder.words, key)

    def type(self, text: str) -> None:
        """Type into the cell that is being written, and end it."""
        (editor,) = self._open()
        editor.selectAll()
        self._qtbot.keyClicks(editor, text)
        self._qtbot.keyClick(editor, Qt.Key.Key_Return)
        self._qtbot.waitUntil(lambda: not self._open(), timeout=2_000)

    def _open(self) -> list[QLineEdit]:
        return [one for one in self.rows.table.viewport().findChildren(QLineEdit) if one.isVisible()]

    def cell(self, row: int, column: int) -> str:
        return self.rows.table.item(row, column).text()

    def choose_book(self, name: str) -> None:
        box = self.dialog.editors["Plan", "rulebook"].box
        number = next(row for row in range(box.count()) if box.itemData(row) == name or name in str(box.itemText(row)))
        box.setCurrentIndex(number)
        box.activated.emit(number)


@pytest.fixture
def amender(make_work, qtbot) -> Amender:
    return Amender(make_work(read(SAMPLE)), qtbot)


def test_any_value_is_found_by_plain_words(amender: Amender) -> None:
    assert len(amender.look_for("")) == 200, "the first ones, and the count says that there are more"
    assert amender.look_for("trap arm 2") == ["trap_arm.length.2", "trap_arm.slope.2"]
    first = amender.finder.list.topLevelItem(0)
    assert [first.text(column) for column in range(4)] == [
        "Farthest from a trap's weir to its vent (2 in)",
        "96 in",
        "IRC 2021 Table P3105.1",
        "read",
    ]
    assert amender.look_for("no such thing at all") == []
    assert not amender.finder.take.isEnabled()


def test_found_changed_and_told_beside_the_book(amender: Amender) -> None:
    amender.look_for("admittance valve accepted")
    amender.press(Qt.Key.Key_Return)
    amender.type("no")
    assert [amender.cell(0, column) for column in (WHAT, BECOMES)] == ["valve.allowed", "no"]
    assert amender.cell(0, IN_THE_BOOK) == "yes · IRC 2021 P3114 · read"
    assert amender.cell(0, IN_WORDS) == "Whether air admittance valves are accepted"
    amender.rows.table.item(0, SAID_BY).setText("the county")
    amender.rows.table.item(0, WHEN).setText("2026-03-01")
    amender.dialog.accept()
    plan = amender.work.document.plan
    assert plan.amendments == (Amendment("valve.allowed", False, "the county", "2026-03-01"),)
    assert loads(dumps(plan)).amendments == plan.amendments, "the file keeps it"


def test_a_value_that_is_amended_already_is_written_over(amender: Amender) -> None:
    amender.look_for("trap arm 2")
    amender.press(Qt.Key.Key_Return)
    amender.type("5 ft")
    amender.press(Qt.Key.Key_Return)
    assert len(amender.rows.rows()) == 1
    amender.type("4 ft")
    assert amender.rows.rows() == [("trap_arm.length.2", "4 ft", "", "")]


def test_an_amendment_is_taken_back(amender: Amender) -> None:
    amender.look_for("trap arm 2")
    amender.press(Qt.Key.Key_Return)
    amender.type("5 ft")
    amender.dialog.accept()
    assert amender.work.document.plan.amendments
    amender.open()
    amender.rows.table.setCurrentCell(0, 0)
    amender.rows.take_row()
    amender.dialog.accept()
    assert amender.work.document.plan.amendments == ()
    amender.work.commands["undo"].trigger()
    assert len(amender.work.document.plan.amendments) == 1


def test_another_book_is_looked_through_and_told(amender: Amender) -> None:
    amender.look_for("trap arm 2")
    amender.press(Qt.Key.Key_Return)
    amender.type("5 ft")
    amender.choose_book("upc-2021")
    assert amender.cell(0, IN_THE_BOOK) == "60 in · UPC 2021 Table 1002.2 · read"
    assert "trap_arm.closet_length.3" in amender.look_for("closet farthest vent")


def test_amendments_do_not_hold_in_another_book_unseen(make_work, qtbot) -> None:
    """They were written against one book's numbers: the person is asked once, with the other book's beside them."""
    plan: Plan = loads(dumps(read(SAMPLE)))
    from msgspec.structs import replace

    amender = Amender(make_work(replace(plan, amendments=(Amendment("trap_arm.length.2", 90.0),))), qtbot)
    amender.choose_book("upc-2021")
    amender.dialog.accept()
    assert amender.dialog.isVisible()
    assert "were made for IRC 2021 and its numbers" in amender.dialog.fault
    amender.dialog.accept()
    after = amender.work.document.plan
    assert (after.rulebook, after.amendments) == ("upc-2021", (Amendment("trap_arm.length.2", 90.0),))


def test_one_that_the_other_book_has_no_value_for_is_refused(make_work, qtbot) -> None:
    from msgspec.structs import replace

    amender = Amender(make_work(replace(read(SAMPLE), amendments=(Amendment("dfu.group.full_bath", 6.0),))), qtbot)
    amender.choose_book("upc-2021")
    amender.dialog.accept()
    amender.dialog.accept()
    assert "UPC 2021 has no value called 'dfu.group.full_bath'" in amender.dialog.fault
    assert amender.work.document.plan.rulebook == "irc-2021"


@pytest.mark.parametrize("name", ["irc-2021", "upc-2021"])
def test_the_finder_counts_the_whole_book(amender: Amender, name: str) -> None:
    amender.choose_book(name)
    amender.look_for("")
    from PySide6.QtWidgets import QLabel

    said = [one.text() for one in amender.finder.findChildren(QLabel)]
    assert any(text.startswith(f"{len(load(name))} of {len(load(name))} values of {load(name).short}") for text in said)
