"""A hole that two tubes share, in the window: one mark, one column that picks both, and mends by a click."""

from __future__ import annotations

import pytest
from PySide6.QtCore import Qt
from PySide6.QtTest import QTest

from app.panels.verdict import entries
from app.strip.wording import cut_words
from app.workplace import Workplace
from engine.plan.records import Floor, JoistField, Plan, Supply


def floor(apart: float) -> Plan:
    outline = ((0.0, 0.0), (120.0, 0.0), (120.0, 108.0), (0.0, 108.0))
    runs = ((y, water) for y, water in ((40.0, "cold"), (40.0 + apart, "hot")))
    supplies = tuple(
        Supply(f"{water[0]}1", water, ((40.0, y), (56.0, y)), insulation=0.0)  # type: ignore[arg-type]
        for y, water in runs
    )
    field = JoistField("F", (0.0, 0.0), (120.0, 108.0), lumber="2x6")
    return Plan(floor=Floor(outline=outline), fields=(field,), supplies=supplies)


@pytest.fixture
def side_by_side(work: Workplace, qtbot) -> Workplace:
    work.document.new(floor(0.625))
    qtbot.waitUntil(lambda: work.document.studied)
    return work


def test_its_column_picks_both_runs(side_by_side: Workplace, qtbot) -> None:
    work = side_by_side
    work.commands["elevations"].trigger()
    window = work.joblists.elevation
    assert window is not None
    qtbot.waitExposed(window)
    assert window.joist.itemText(0) == "Joist 3: 1 cut"
    QTest.keyClick(window.view, Qt.Key.Key_Right)
    assert work.document.selection == {"c1", "h1"}
    assert '1-3/8", for 1/2" CW c1 and 1/2" HW h1.' in window.words.text()
    work.document.select(())
    work.document.select(("h1",))
    assert window.view.held == 0


def test_the_canvas_marks_it_once(side_by_side: Workplace) -> None:
    scene = side_by_side.view.scene()
    (mark,) = [item for item in scene.items() if "1-3/8 in bit" in item.toolTip()]
    assert "round c1 and h1" in mark.toolTip()


def test_the_strip_says_what_the_hole_goes_round(side_by_side: Workplace) -> None:
    side_by_side.document.select(("h1",))
    side_by_side.fall.sheet.grab()
    section = side_by_side.fall.sheet.subject.section
    assert section is not None
    assert [cut_words(wood) for wood in section.woods] == ["bore, 1-3/8 in bit round c1 and h1, holds"]


@pytest.mark.parametrize(
    ("apart", "rule", "button", "hint"),
    [
        (0.75, "bore-too-large", 0, "Slid c1 1/8 in north, into one hole with h1."),
        (0.75, "bore-too-large", 1, "Slid c1 2 1/8 in south, to a hole of its own."),
        (1.0, "bores-close-together", 0, "Slid c1 3/8 in north, into one hole with h1."),
    ],
)
def test_a_click_draws_two_tubes_together_or_parts_them(
    make_work, qtbot, apart: float, rule: str, button: int, hint: str
) -> None:
    work: Workplace = make_work(floor(apart))
    qtbot.waitUntil(lambda: work.document.studied)
    entry = next(one for one in entries(work.document.study) if one.rule == rule)
    work.findings.go_to(entry)
    mends = work.findings.card.mends
    qtbot.waitUntil(lambda: len(mends.shown) > button and "\u2026" not in mends.remark, timeout=20_000)
    qtbot.mouseClick(mends.shown[button], Qt.MouseButton.LeftButton)
    assert work.status.hint == hint
    qtbot.waitUntil(lambda: work.document.studied)
    assert work.document.study is not None
    assert {made.legal for made in work.document.study.model.cuts} == {True}
    assert rule not in {one.rule for one in entries(work.document.study)}
