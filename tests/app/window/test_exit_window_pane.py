"""The exit window in words: ends rounded inward, what sets them, the height in force."""

from __future__ import annotations

from pathlib import Path

import pytest
from PySide6.QtCore import Qt

from app.panels.exit_window import read
from app.workplace import Workplace
from engine.crossings.records import Window
from engine.plan.edits import set_field
from engine.plan.file import read as read_plan

SAMPLES = Path(__file__).resolve().parents[3] / "samples"


def window(low: float | None, high: float | None, chosen: float, pinned: bool = False) -> Window:
    return Window(0, "x1", low, high, chosen, "the sink's arm", "the closet's bend", pinned)


@pytest.mark.parametrize(
    ("low", "high", "chosen", "verdict", "highest", "lowest", "told"),
    [
        (-6.10, -4.40, -5.25, "1 11/16 in of room", "4 7/16 in down", "6 1/16 in down", "5 1/4 in down"),
        (None, -4.40, -5.1875, "Open at one end", "4 7/16 in down", "no limit", "5 3/16 in down"),
        (-6.10, None, -6.0, "Open at one end", "no limit", "6 1/16 in down", "6 in down"),
        (None, None, -5.0, "Nothing limits it", "no limit", "no limit", "5 in down"),
        (-6.04, -6.01, -6.025, "0.030 in of room", "6.010 in down", "6.040 in down", "6.025 in down"),
    ],
)
def test_a_window_in_words(low, high, chosen, verdict: str, highest: str, lowest: str, told: str) -> None:
    """Depths inward to 1/16 in: the least rounded up, the greatest down (worked by hand)."""
    reading = read(window(low, high, chosen))
    assert (reading.verdict, reading.high, reading.low, reading.chosen) == (verdict, highest, lowest, told)
    assert reading.possible


def test_ends_that_exclude_each_other() -> None:
    reading = read(window(-4.0, -5.03, -4.515))
    assert not reading.possible
    assert reading.verdict == "No height serves: the two ends exclude each other by 1 1/16 in."
    assert "breaks both least" in reading.how


@pytest.mark.parametrize(("z", "told"), [(-6.021, "6 in"), (-6.0625, "6 1/16 in"), (-6.05, "6 1/16 in")])
def test_one_height_alone_is_told_once_and_to_the_nearest_mark(z: float, told: str) -> None:
    street = "a street bend straight in the flange"
    reading = read(Window(0, "x1", z, z, z, street, street, False))
    assert reading.verdict == f"One height only: {told} down: {street}"
    assert (reading.chosen, reading.how, reading.single) == (f"{told} down", "the only one", True)
    assert "0.000" not in reading.verdict


def test_the_pane_with_one_height_shows_that_one(make_work, qtbot) -> None:
    """The larger sample's closet hangs on a street bend: one height (common practice, no source)."""
    work: Workplace = make_work(read_plan(SAMPLES / "cottage-with-kitchen.jway"))
    qtbot.waitUntil(lambda: work.document.studied, timeout=20_000)
    pane = work.exit_window
    (found,) = (window for window in work.document.study.model.windows if window.exit is not None)
    assert found.low == found.high
    assert pane.verdict.startswith("One height only: 6 in down: a street bend in the flange of wc1")
    assert pane.told == {"Chosen": ("6 in down", "the only one")}


def test_a_pinned_height_says_so() -> None:
    assert read(window(-6.0, -4.0, -5.5, pinned=True)).how == "pinned in the plan"


def test_the_pane_reads_the_study_and_leads_to_what_sets_an_end(make_work, qtbot) -> None:
    work: Workplace = make_work(read_plan(SAMPLES / "one-bath-cottage.jway"))
    qtbot.waitUntil(lambda: work.document.studied, timeout=20_000)
    found = next(window for window in work.document.study.model.windows if window.exit is not None)
    pane = work.exit_window
    assert pane.told["Highest"] == (read(found).high, f"set by {found.high_set_by}")
    assert pane.told["Lowest"] == (read(found).low, f"set by {found.low_set_by}")
    bound = next(bound for bound in found.bounds if bound.side == "high" and bound.z == found.high)
    with qtbot.waitSignal(pane.place_wanted) as asked:
        qtbot.mouseClick(pane.ways["Highest"], Qt.MouseButton.LeftButton)
    assert asked.args == [bound.at]


def test_pinning_shows_at_once(make_work, qtbot) -> None:
    plan = read_plan(SAMPLES / "one-bath-cottage.jway")
    work: Workplace = make_work(set_field(plan, plan.exits[0].id, "pinned_z", -7.5))
    qtbot.waitUntil(lambda: work.document.studied, timeout=20_000)
    assert work.exit_window.told["Chosen"] == ("7 1/2 in down", "pinned in the plan")


def test_without_an_exit_it_says_so(make_work, qtbot) -> None:
    work: Workplace = make_work()
    qtbot.waitUntil(lambda: work.document.studied, timeout=20_000)
    assert work.exit_window.verdict == "No exit is drawn yet, so no height can be told."
