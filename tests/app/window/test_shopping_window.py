"""The shopping list's window: a tick means that it is there, counts can be typed, and every change can be undone."""

from __future__ import annotations

from collections.abc import Callable

import pytest
from PySide6.QtCore import Qt

from app.shopping.tree import HAVE, TripTree
from app.shopping.window import ShoppingWindow
from app.workplace import Workplace
from engine.plan.records import OnHand, Plan


class Shopper:
    """A person at the list of one plan."""

    def __init__(self, work: Workplace, qtbot) -> None:
        self.work, self._qtbot = work, qtbot
        work.commands["shopping_list"].trigger()
        assert work.joblists.shopping is not None
        self.window: ShoppingWindow = work.joblists.shopping
        self.settle()

    @property
    def tree(self) -> TripTree:
        return self.window.tree

    def settle(self) -> None:
        self._qtbot.waitUntil(lambda: self.window.idle and self.window.trip is not None, timeout=20_000)

    def tick(self, part: str, size: str = "", on: bool = True) -> None:
        state = Qt.CheckState.Checked if on else Qt.CheckState.Unchecked
        self.tree.item_of(part, size).setCheckState(0, state)
        self.settle()

    def count(self, part: str, size: str, text: str) -> None:
        self.tree.item_of(part, size).setText(HAVE, text)
        self.settle()

    def cells(self, part: str, size: str = "") -> list[str]:
        item = self.tree.item_of(part, size)
        return [item.text(column) for column in range(2, 6)]


@pytest.fixture
def shopper(make_work: Callable[..., Workplace], cottage: Plan, qtbot) -> Shopper:
    return Shopper(make_work(cottage), qtbot)


def test_it_says_under_which_book_and_what_is_left(shopper: Shopper) -> None:
    said = [child.text() for child in shopper.window.findChildren(type(shopper.window._book))]
    assert any("IRC 2021" in text and "with it this list changes too" in text for text in said)
    assert "lines left to buy" in shopper.window.said
    assert shopper.cells("quarter bend", "3") == ["3", "2", "1", ""]


def test_a_tick_means_there_and_can_be_undone(shopper: Shopper) -> None:
    shopper.tick("quarter bend", "3")
    document = shopper.work.document
    assert document.settled.on_hand == (OnHand("quarter bend", "3", 3),)
    assert document.undo_label == "tick quarter bend 3"
    assert shopper.cells("quarter bend", "3") == ["–", "2", "1", "3"]
    assert shopper.tree.item_of("quarter bend", "3").checkState(0) == Qt.CheckState.Checked
    document.undo()
    shopper.settle()
    assert document.settled.on_hand == ()
    assert shopper.tree.item_of("quarter bend", "3").checkState(0) == Qt.CheckState.Unchecked


def test_a_tick_taken_away(shopper: Shopper) -> None:
    shopper.tick("closet seal")
    shopper.tick("closet seal", on=False)
    assert shopper.work.document.settled.on_hand == ()


@pytest.mark.parametrize(
    ("text", "there", "buy"),
    [("1", (OnHand("quarter bend", "3", 1),), "2"), ("9", (OnHand("quarter bend", "3", 9),), "–")],
)
def test_a_count_is_typed(shopper: Shopper, text: str, there: tuple[OnHand, ...], buy: str) -> None:
    shopper.count("quarter bend", "3", text)
    assert shopper.work.document.settled.on_hand == there
    assert shopper.cells("quarter bend", "3")[0] == buy


@pytest.mark.parametrize("text", ["many", "-3", "1.5", "²", "99999"])
def test_what_is_no_count_changes_nothing(shopper: Shopper, text: str) -> None:
    shopper.count("quarter bend", "3", text)
    assert shopper.work.document.settled.on_hand == ()
    assert shopper.cells("quarter bend", "3")[3] == ""


def test_an_emptied_count_takes_it_off(shopper: Shopper) -> None:
    shopper.count("quarter bend", "3", "2")
    shopper.count("quarter bend", "3", "")
    assert shopper.work.document.settled.on_hand == ()


def test_the_share_of_spares(shopper: Shopper) -> None:
    shopper.window.spares.setText("0 %")
    shopper.window.spares.editingFinished.emit()
    shopper.settle()
    assert shopper.work.document.settled.spares == 0.0
    assert shopper.cells("quarter bend", "3") == ["2", "2", "", ""]
    shopper.window.spares.setText("900")
    shopper.window.spares.editingFinished.emit()
    assert shopper.work.document.settled.spares == 0.0
    assert "from 0 to 200" in shopper.window.said


def test_it_follows_the_plan(shopper: Shopper) -> None:
    from msgspec.structs import replace

    document = shopper.work.document
    document.commit(replace(document.settled, rulebook="upc-2021"), "judge by the other book")
    shopper.settle()
    assert shopper.window.trip is not None
    assert "UPC 2021" in shopper.window.trip.made_under


def test_only_the_count_can_be_typed(shopper: Shopper, qtbot) -> None:
    item = shopper.tree.item_of("quarter bend", "3")
    for column in range(HAVE):
        index = shopper.tree.indexFromItem(item, column)
        assert shopper.tree.itemDelegate().createEditor(shopper.tree.viewport(), None, index) is None


def test_a_folded_place_stays_folded(shopper: Shopper) -> None:
    branch = shopper.tree.topLevelItem(0)
    assert branch is not None
    branch.setExpanded(False)
    shopper.tick("quarter bend", "3")
    branch = shopper.tree.topLevelItem(0)
    assert branch is not None
    assert not branch.isExpanded()


def test_it_works_nothing_out_while_it_is_closed(shopper: Shopper) -> None:
    shopper.window.close()
    trip = shopper.window.trip
    document = shopper.work.document
    from msgspec.structs import replace

    document.commit(replace(document.settled, spares=0.5), "more spares")
    assert shopper.window.trip is trip
    shopper.work.commands["shopping_list"].trigger()
    shopper.settle()
    assert shopper.window.trip is not trip


def test_space_ticks_the_chosen_line(shopper: Shopper, qtbot) -> None:
    shopper.tree.setCurrentItem(shopper.tree.item_of("closet seal"), 0)
    qtbot.keyClick(shopper.tree, Qt.Key.Key_Space)
    shopper.settle()
    assert [thing.part for thing in shopper.work.document.settled.on_hand] == ["closet seal"]


def test_an_empty_floor_has_an_empty_list(work: Workplace, qtbot) -> None:
    shopper = Shopper(work, qtbot)
    assert shopper.window.said == "There is nothing to buy yet."
