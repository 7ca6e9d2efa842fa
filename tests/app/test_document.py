"""The document: history, proposals, selection, files, and studies that arrive in time or not at all."""

from __future__ import annotations

import threading
from pathlib import Path
from typing import cast

import pytest
from msgspec.structs import replace

from app.document import Document
from engine.plan import edits
from engine.plan.file import PlanFileError
from engine.plan.records import Plan, Wall
from engine.study import Study


class Answer:
    """Stands in for a study: it only knows its plan."""

    def __init__(self, plan: Plan) -> None:
        self.plan = plan


def answer(plan: Plan) -> Study:
    return cast(Study, Answer(plan))


@pytest.fixture
def document(bare: Plan, qapp):
    made = Document(bare, judge=answer)
    yield made
    made.close()


def with_wall(plan: Plan, x: float = 60.0) -> Plan:
    return edits.add_new(plan, Wall, start=(x, 0.0), end=(x, 100.0))


def test_a_commit_is_shown_told_and_undone(document: Document, bare: Plan, qtbot) -> None:
    after = with_wall(bare)
    with qtbot.waitSignals([document.plan_changed, document.history_changed]):
        document.commit(after, "draw wall w1")
    assert document.plan is after
    assert document.modified
    assert (document.undo_label, document.redo_label) == ("draw wall w1", "")
    document.undo()
    assert document.plan is bare
    assert not document.modified
    assert document.redo_label == "draw wall w1"
    document.redo()
    assert document.plan is after


def test_an_equal_plan_makes_no_step(document: Document, bare: Plan) -> None:
    document.propose(with_wall(bare))
    document.commit(replace(bare), "nothing")
    assert document.plan is bare
    assert not document.can_undo


def test_steps_with_one_token_become_one(document: Document, bare: Plan) -> None:
    for x in (10.0, 20.0, 30.0):
        document.commit(with_wall(bare, x), "nudge", token="n")
    document.undo()
    assert document.plan is bare


def test_a_proposal_is_shown_and_dropped(document: Document, bare: Plan, qtbot) -> None:
    shown: list[tuple[Plan, Plan]] = []
    document.plan_changed.connect(lambda old, new: shown.append((old, new)))
    proposal = with_wall(bare)
    document.propose(proposal)
    assert document.plan is proposal
    assert document.settled is bare
    assert not document.modified
    document.drop_proposal()
    document.drop_proposal()
    assert shown == [(bare, proposal), (proposal, bare)]


def test_undo_in_mid_proposal_ends_the_proposal(document: Document, bare: Plan) -> None:
    document.propose(with_wall(bare))
    document.undo()
    assert document.plan is bare
    assert not document.proposing


def test_selection_keeps_only_what_is_there(document: Document, bare: Plan, qtbot) -> None:
    document.commit(with_wall(bare), "draw")
    with qtbot.waitSignal(document.selection_changed):
        document.select(["w1", "nobody"])
    assert document.selection == {"w1"}
    with qtbot.waitSignal(document.selection_changed):
        document.undo()
    assert document.selection == frozenset()


def test_save_marks_clean_and_reopen_gives_an_equal_plan(document: Document, bare: Plan, tmp_path: Path, qtbot) -> None:
    document.commit(with_wall(bare), "draw")
    target = tmp_path / "floor.jway"
    with pytest.raises(ValueError, match="a path is needed"):
        document.save()
    with qtbot.waitSignal(document.path_changed):
        document.save(target)
    assert not document.modified
    assert document.path == target
    document.undo()
    assert document.modified
    document.open(target)
    assert document.plan == with_wall(bare)
    assert not document.can_undo


def test_a_file_that_cannot_be_used_changes_nothing(document: Document, bare: Plan, tmp_path: Path) -> None:
    bad = tmp_path / "bad.jway"
    bad.write_text("{")
    document.commit(with_wall(bare), "draw")
    with pytest.raises(PlanFileError):
        document.open(bad)
    assert document.plan == with_wall(bare)
    assert document.can_undo
    assert document.path is None


def test_the_study_comes_for_the_plan_on_show(document: Document, bare: Plan, qtbot) -> None:
    qtbot.waitUntil(lambda: document.studied)
    proposal = with_wall(bare)
    document.propose(proposal)
    assert not document.studied
    qtbot.waitUntil(lambda: document.studied)
    assert document.study is not None
    assert document.study.plan is proposal


def test_only_the_newest_plan_is_studied_and_stale_answers_are_dropped(bare: Plan, qtbot) -> None:
    gate, seen = threading.Event(), []

    def slow(plan: Plan) -> Study:
        seen.append(plan)
        gate.wait(5.0)
        return answer(plan)

    document = Document(bare, judge=slow)
    try:
        heard: list[object] = []
        document.study_changed.connect(heard.append)
        plans = [with_wall(bare, float(x)) for x in range(1, 9)]
        qtbot.waitUntil(lambda: len(seen) == 1)
        for plan in plans:
            document.propose(plan)
        gate.set()
        qtbot.waitUntil(lambda: document.studied)
        assert [id(plan) for plan in seen] == [id(bare), id(plans[-1])]
        assert len(heard) == 1
    finally:
        gate.set()
        document.close()


def test_a_study_that_breaks_is_told_and_the_next_one_comes(bare: Plan, qtbot) -> None:
    def fussy(plan: Plan) -> Study:
        if plan.walls:
            raise ZeroDivisionError("in the study")
        return answer(plan)

    document = Document(bare, judge=fussy)
    try:
        qtbot.waitUntil(lambda: document.studied)
        with qtbot.waitSignal(document.study_failed) as told:
            document.commit(with_wall(bare), "draw")
        assert isinstance(told.args[0], ZeroDivisionError)
        assert document.study is None
        document.undo()
        qtbot.waitUntil(lambda: document.studied)
    finally:
        document.close()


def test_nothing_arrives_after_close(bare: Plan, qtbot) -> None:
    gate = threading.Event()

    def slow(plan: Plan) -> Study:
        gate.wait(0.2)
        return answer(plan)

    document = Document(bare, judge=slow)
    heard: list[object] = []
    document.study_changed.connect(heard.append)
    document.close()
    qtbot.wait(20)
    assert heard == []
