"""A person draws a one-bath floor from an empty one, with the pointer and a few letters, and it holds."""

from __future__ import annotations

from PySide6.QtCore import Qt

from engine.plan.start import new_floor

NO_BUTTON = Qt.MouseButton.NoButton


class Counted:
    """The hand, with its clicks and keys counted."""

    def __init__(self, hand) -> None:
        self._hand, self.clicks, self.keys = hand, 0, 0

    def click(self, x: float, y: float) -> None:
        self.clicks += 1
        self._hand.click((x, y))

    def type(self, text: str) -> None:
        self.keys += len(text)
        self._hand.type(text)

    def take(self, tool: str) -> None:
        """A click on the shelf takes up the tool that places a fixture."""
        self.clicks += 1
        self._hand.view.set_tool(tool)


def test_a_bath_is_drawn_in_some_twenty_clicks_and_nothing_in_it_must_stop_the_work(canvas, qtbot) -> None:
    hand = canvas(new_floor(240.0, 120.0))
    document = hand.view.tool.desk.document
    work = Counted(hand)
    work.type("w")
    work.click(56.3, 118.0)
    work.click(55.8, 32.4)
    work.click(55.7, 32.5)
    work.click(2.0, 32.0)
    work.take("place:water_closet")
    work.click(23.0, 102.0)
    work.take("place:lavatory")
    work.click(53.0, 80.0)
    work.take("place:shower")
    work.click(36.0, 52.0)
    work.type("e")
    work.click(24.2, 12.1)
    work.type("d")
    work.click(24.0, 104.0)
    work.click(24.1, 12.3)
    work.click(56.1, 80.2)
    work.click(24.2, 80.1)
    shower = document.plan.fixtures[-1].at
    work.click(*shower)
    work.click(shower[0], shower[1] - 12.0)
    work.click(24.2, 24.8)
    qtbot.waitUntil(lambda: document.studied)
    stops = [finding.text for finding in document.study.findings if finding.weight == "stop"]
    assert stops == []
    assert {trap.fixture: trap.vented_by is not None for trap in document.study.model.network.traps} == {
        "f1": True,
        "f2": True,
        "f3": True,
    }
    assert (work.clicks, work.keys) == (18, 3)
    while document.can_undo:
        document.undo()
    assert document.plan == new_floor(240.0, 120.0)
