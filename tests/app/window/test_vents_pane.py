"""The vents pane: every trap with what vents it, how far that is and may be, in step with the plan and the canvas."""

from __future__ import annotations

from pathlib import Path

import pytest
from PySide6.QtCore import Qt

from app.workplace import Workplace
from engine.plan.file import read
from engine.plan.records import Plan

SAMPLES = Path(__file__).resolve().parents[3] / "samples"


def studied(make_work, qtbot, plan: Plan) -> Workplace:
    work: Workplace = make_work(plan)
    qtbot.waitUntil(lambda: work.document.studied, timeout=20_000)
    return work


@pytest.fixture
def work(make_work, qtbot) -> Workplace:
    return studied(make_work, qtbot, read(SAMPLES / "cottage-with-kitchen.jway"))


def shown(work: Workplace, qtbot) -> None:
    """Bring the pane forward by its tab, as a hand does."""
    bar = work.told.tabBar()
    qtbot.mouseClick(bar, Qt.MouseButton.LeftButton, pos=bar.tabRect(1).center())
    assert work.told.currentWidget() is work.vents


def test_every_trap_is_listed(work: Workplace, qtbot) -> None:
    shown(work, qtbot)
    (group,) = work.vents.tree.rows.groups
    assert group.title == "Vented (5)"
    assert [row.key for row in group.rows] == ["wc1", "lav1", "sh1", "ks1", "wm1"]
    # IRC 2021 Table P3105.1: a 2 in trap may be 8 ft from its vent
    assert 'washer: individual vent, 8" of 8\'-0"' in [row.text for row in group.rows]


def test_those_without_come_first(make_work, qtbot) -> None:
    work = studied(make_work, qtbot, read(SAMPLES / "cottage-with-mistakes.jway"))
    groups = [group.title for group in work.vents.tree.rows.groups]
    assert groups[0].startswith("No vent serves these")
    assert groups[1] == "Too far from their vent (1)"


def test_choosing_a_trap_selects_it_and_marks_the_way_of_its_air(work: Workplace, qtbot) -> None:
    shown(work, qtbot)
    tree = work.vents.tree
    (index,) = tree.rows.places(("sh1",))
    with qtbot.waitSignal(work.vents.place_wanted):
        qtbot.mouseClick(tree.viewport(), Qt.MouseButton.LeftButton, pos=tree.visualRect(index).center())
    assert work.document.selection == frozenset({"sh1"})
    told = work.vents.card.told
    assert told["Method"] == "horizontal wet vent (IRC 2021 P3108.1)"
    assert told["Limit"] == "IRC 2021 Table P3105.1"
    assert told["Air goes"] == "out through the roof"
    # the arm, the pipes that bring the air, and the mark where they meet
    assert work.view.scene().airways.shown == 3
    assert any("of 96 in" in tag.text for tag in work.view.scene().airways.tags)


def test_the_canvas_and_the_list_keep_in_step(work: Workplace) -> None:
    work.document.select(["ks1"])
    assert work.vents.tree.selected == ("ks1",)
    assert work.vents.card.title.text().startswith("kitchen sink")
    work.document.select(["w1"])
    assert work.vents.tree.selected == ()
    assert work.view.scene().airways.shown == 0


def test_a_trap_that_loses_its_vent_says_so_at_once(work: Workplace, qtbot) -> None:
    from msgspec.structs import replace

    plan = work.document.plan
    work.document.select(["ks1"])
    risers = tuple(replace(riser, top="none") if riser.id == "r1" else riser for riser in plan.risers)
    work.document.commit(replace(plan, risers=risers), "take the bath vent away")
    qtbot.waitUntil(lambda: work.document.studied, timeout=20_000)
    assert work.vents.tree.rows.groups[0].title != "Vented (5)"


def test_going_to_a_finding_brings_the_findings_forward(work: Workplace, qtbot) -> None:
    shown(work, qtbot)
    work.next_finding()
    assert work.told.currentWidget() is work.findings
