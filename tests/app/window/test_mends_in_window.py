"""Mends by one click: the card's buttons, the exit window's, undo, and that nothing is tried while something is dragged."""

from __future__ import annotations

import time
from pathlib import Path

import pytest
from msgspec.structs import replace
from PySide6.QtCore import Qt
from PySide6.QtGui import QFontMetrics

from app.panels.mend_buttons import TRIED, broken
from app.panels.verdict import Entry, entries
from app.thread_turns import short_turns
from app.workplace import Workplace
from engine.mending import WITHOUT
from engine.plan.edits import move, set_field
from engine.plan.file import read
from engine.plan.records import Plan

SAMPLES = Path(__file__).resolve().parents[3] / "samples"
PATIENT = 20_000


SHUT = Path(__file__).resolve().parents[2] / "engine" / "mending" / "shut"
"""Cottages judged by the UPC whose exit windows are empty."""


def sample(name: str) -> Plan:
    return read(SAMPLES / f"{name}.jway")


def studied(make_work, qtbot, plan: Plan) -> Workplace:
    work: Workplace = make_work(plan)
    qtbot.waitUntil(lambda: work.document.studied, timeout=PATIENT)
    return work


def chosen(work: Workplace, qtbot, rule: str, first: str = "") -> Entry:
    """Go to a finding and wait until what mends it has been tried."""
    entry = next(e for e in entries(work.document.study) if e.rule == rule and e.elements[0].startswith(first))
    work.findings.go_to(entry)
    qtbot.waitUntil(lambda: bool(work.findings.card.mends.remark), timeout=PATIENT)
    qtbot.waitUntil(lambda: "\u2026" not in work.findings.card.mends.remark, timeout=PATIENT)
    return entry


def short_of_main(plan: Plan, gap: float, start: bool) -> Plan:
    """The lavatory's branch stops that far from the main, which has no point there."""
    main, branch = plan.drains[:2]
    joint = branch.points[-1]
    assert joint in main.points
    points = (*branch.points[:-1], (joint[0] + gap, joint[1]))
    return replace(
        plan,
        drains=(
            replace(main, points=tuple(point for point in main.points if point != joint)),
            replace(branch, points=points[::-1] if start else points),
            *plan.drains[2:],
        ),
    )


def past_exit(plan: Plan, by: float) -> Plan:
    """The exit so far up the main, which has no point at it."""
    at = plan.exits[0].at
    return replace(plan, exits=(replace(plan.exits[0], at=(at[0], at[1] + by)),))


def past_closet(plan: Plan, by: float) -> Plan:
    """The main goes on past the closet's outlet, which it has no point at."""
    main = plan.drains[0]
    (x, y), *rest = main.points
    return replace(plan, drains=(replace(main, points=((x, y + by), *rest)), *plan.drains[1:]))


NEAR = {
    "a run's end on a run": (lambda: short_of_main(sample("one-bath-cottage"), 0.0, start=False), ("d2", "d1")),
    "a run's beginning a quarter inch short": (
        lambda: short_of_main(sample("one-bath-cottage"), 0.25, start=True),
        ("d2", "d1"),
    ),
    "a riser": (lambda: sample("cottage-with-mistakes"), ("r3", "d4")),
    "an exit": (lambda: past_exit(sample("one-bath-cottage"), 0.25), ("x1", "d1")),
    "a fixture's outlet": (lambda: past_closet(sample("one-bath-cottage"), 0.5), ("wc1", "d1")),
}


@pytest.mark.parametrize("what", NEAR)
def test_an_end_that_looks_joined_is_joined_by_the_button_as_one_step(make_work, qtbot, what: str) -> None:
    make, elements = NEAR[what]
    plan = make()
    work = studied(make_work, qtbot, plan)
    mends = work.findings.card.mends
    assert not mends.isVisible()
    entry = chosen(work, qtbot, "end-not-joined", elements[0])
    assert entry.elements == elements
    assert mends.words[0] == f"Join {elements[0]} to {elements[1]}"
    assert mends.remark == TRIED
    qtbot.mouseClick(mends.shown[0], Qt.MouseButton.LeftButton)
    assert work.document.undo_label == f"join {elements[0]} to {elements[1]}"
    assert work.status.hint == f"Joined {elements[0]} to {elements[1]}."
    qtbot.waitUntil(lambda: work.document.studied, timeout=PATIENT)
    assert not [e for e in entries(work.document.study) if e.rule == "end-not-joined" and e.elements == elements]
    work.document.undo()
    assert work.document.settled == plan
    assert not work.document.can_undo


@pytest.mark.parametrize(
    ("rule", "first"), [("bore-too-large", "d7"), ("trap-too-far-from-vent", "bt1"), ("lands-on-wood", "wc1")]
)
def test_each_button_mends_its_finding_and_brings_no_stop(make_work, qtbot, rule: str, first: str) -> None:
    plan = sample("cottage-with-mistakes")
    work = studied(make_work, qtbot, plan)
    entry = chosen(work, qtbot, rule, first)
    count = len(work.findings.card.mends.shown)
    assert count >= 1
    before = {(f.rule, f.elements) for f in work.document.study.findings if f.weight == "stop"}
    for number in range(count):
        chosen(work, qtbot, rule, first)
        button = work.findings.card.mends.shown[number]
        assert button.isVisible() and button.accessibleName()
        button.setFocus()
        qtbot.keyClick(button, Qt.Key.Key_Space)
        qtbot.waitUntil(lambda: work.document.studied, timeout=PATIENT)
        after = {(f.rule, f.elements) for f in work.document.study.findings if f.weight == "stop"}
        assert (entry.rule, entry.elements) not in after
        assert after <= before
        work.document.undo()
        assert work.document.settled is plan or work.document.settled == plan
        qtbot.waitUntil(lambda: work.document.studied, timeout=PATIENT)


def test_a_rule_that_no_edit_mends_says_why(make_work, qtbot) -> None:
    work = studied(make_work, qtbot, sample("one-bath-cottage"))
    chosen(work, qtbot, "trap-below-joists")
    assert work.findings.card.mends.shown == ()
    assert WITHOUT["trap-below-joists"] in work.findings.card.mends.remark


def test_what_would_open_the_window_is_offered_beside_it(make_work, qtbot) -> None:
    """By the UPC the small cottage's two limits exclude each other by 0.625 in (worked by hand)."""
    plan = read(SHUT / "small-cottage.jway")
    work = studied(make_work, qtbot, plan)
    pane = work.exit_window
    assert "exclude each other by 5/8 in" in pane.verdict
    qtbot.waitUntil(lambda: bool(pane.mends.shown), timeout=PATIENT)
    assert all("the window opens" in words or "one height serves" in words for words in pane.mends.words)
    qtbot.mouseClick(pane.mends.shown[0], Qt.MouseButton.LeftButton)
    assert work.document.can_undo
    assert work.status.hint.endswith(".")
    qtbot.waitUntil(lambda: work.document.studied, timeout=PATIENT)
    assert "exclude" not in pane.verdict
    qtbot.waitUntil(lambda: not pane.mends.isVisible(), timeout=PATIENT)
    work.document.undo()
    assert work.document.settled == plan


def test_an_open_window_offers_nothing(make_work, qtbot) -> None:
    work = studied(make_work, qtbot, sample("one-bath-cottage"))
    assert not work.exit_window.mends.isVisible()


def test_nothing_is_tried_while_something_is_dragged(make_work, qtbot) -> None:
    plan = sample("cottage-with-mistakes")
    work = studied(make_work, qtbot, plan)
    chosen(work, qtbot, "bore-too-large", "d7")
    dragged = move(plan, ("w1",), 1.0, 0.0)
    work.document.propose(dragged)
    qtbot.waitUntil(lambda: work.document.studied, timeout=PATIENT)
    assert work.document.study.plan is dragged
    assert not work.findings.desk.may_ask
    assert work.findings.card.mends.shown == ()
    work.document.drop_proposal()
    qtbot.waitUntil(lambda: bool(work.findings.card.mends.shown), timeout=PATIENT)


def test_a_button_of_a_plan_that_is_gone_changes_nothing(make_work, qtbot) -> None:
    plan = sample("cottage-with-mistakes")
    work = studied(make_work, qtbot, plan)
    chosen(work, qtbot, "bore-too-large", "d7")
    study = work.document.study
    from engine.mending import mends_for

    finding = next(f for f in study.findings if f.rule == "bore-too-large")
    mend = mends_for(study, finding)[0]
    work.document.commit(set_field(plan, "d1", "slope", 0.5), "change d1")
    assert not work.findings.desk.make(mend, study)
    assert work.document.undo_label == "change d1"


def test_trying_keeps_the_window_awake(make_work, qtbot) -> None:
    """While mends are tried the window's thread goes on: no turn of its loop waits long for them."""
    work = studied(make_work, qtbot, read(SHUT / "larger-cottage.jway"))
    entry = next(e for e in entries(work.document.study) if e.rule == "no-height-fits")
    qtbot.wait(300)  # the plan's first painting is long, and none of this
    with short_turns():
        work.findings.go_to(entry)
        start = last = time.perf_counter()
        worst, end = 0.0, start + 20.0
        while not work.findings.card.mends.shown and time.perf_counter() < end:
            qtbot.wait(1)
            now = time.perf_counter()
            worst, last = max(worst, now - last), now
    assert work.findings.card.mends.shown
    whole = last - start
    assert worst < whole / 2.0, f"the window stood still for {worst:.3f} s of {whole:.3f} s"


def test_words_are_broken_to_the_buttons_width(qapp) -> None:
    metrics = QFontMetrics(qapp.font())
    words = "Roll d2 up from its main by 22.5 degrees, and pin x1 8 1/4 in down: the window opens to 3/8 in"
    lines = broken(words, metrics, 200).split("\n")
    assert len(lines) > 1
    assert " ".join(lines) == words
    assert all(metrics.horizontalAdvance(line) <= 200 for line in lines)
