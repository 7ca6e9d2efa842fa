"""Undo, redo, what joins, and what counts as modified."""

from __future__ import annotations

from hypothesis import given, settings
from hypothesis import strategies as st
from msgspec.structs import replace

from app.history import History
from engine.plan.file import dumps, loads
from engine.plan.records import Plan
from engine.plan.start import new_floor
from tests.engine.plan.drawn_plans import edited, plans

FLOOR = new_floor(120, 240)


def named(name: str) -> Plan:
    return replace(FLOOR, name=name)


def test_a_new_history_has_nothing_to_take_back() -> None:
    history = History(FLOOR)
    assert (history.can_undo, history.can_redo, history.undo_label, history.redo_label) == (False, False, None, None)
    history.undo()
    history.redo()
    assert history.plan is FLOOR
    assert not history.modified


def test_steps_go_back_and_forth_with_their_labels() -> None:
    history = History(FLOOR)
    history.push("draw a", named("a"))
    history.push("draw b", named("b"))
    assert history.undo_label == "draw b"
    history.undo()
    assert (history.plan.name, history.undo_label, history.redo_label) == ("a", "draw a", "draw b")
    history.undo()
    assert history.plan is FLOOR
    history.redo()
    history.redo()
    assert history.plan.name == "b"
    assert not history.can_redo


def test_one_drag_is_one_step() -> None:
    history = History(FLOOR)
    for name in "abc":
        history.push(f"move to {name}", named(name), token=7)
    history.push("move on", named("d"), token=8)
    assert history.undo_label == "move on"
    history.undo()
    assert (history.plan.name, history.undo_label) == ("c", "move to c")
    history.undo()
    assert history.plan is FLOOR


def test_steps_without_a_token_never_join() -> None:
    history = History(FLOOR)
    history.push("a", named("a"))
    history.push("b", named("b"))
    history.undo()
    assert history.plan.name == "a"


def test_nothing_joins_the_saved_plan() -> None:
    history = History(FLOOR)
    history.push("a", named("a"), token=7)
    history.mark_saved()
    history.push("b", named("b"), token=7)
    assert history.modified
    history.undo()
    assert history.plan.name == "a"
    assert not history.modified


def test_a_joined_step_drops_what_was_undone() -> None:
    history = History(FLOOR)
    history.push("a", named("a"), token=7)
    history.push("b", named("b"), token=8)
    history.undo()
    history.push("c", named("c"), token=7)
    assert not history.can_redo
    history.undo()
    assert history.plan is FLOOR


def test_a_step_after_undoing_everything_does_not_join_the_opened_plan() -> None:
    history = History(FLOOR)
    history.push("a", named("a"), token=7)
    history.undo()
    history.push("b", named("b"), token=7)
    history.undo()
    assert history.plan is FLOOR


def test_modified_means_different_from_what_was_saved() -> None:
    history = History(FLOOR)
    history.push("a", named("a"))
    assert history.modified
    history.push("back", replace(named(""), name=FLOOR.name))
    assert not history.modified
    history.undo()
    history.mark_saved()
    history.redo()
    assert history.modified


@given(plans(), st.data())
@settings(deadline=None, max_examples=60)
def test_any_edits_undone_give_the_plan_again(plan: Plan, data: st.DataObject) -> None:
    history = History(plan)
    raw = dumps(plan)
    passed = [plan]
    for _ in range(data.draw(st.integers(1, 8))):
        history.push("edit", data.draw(edited(history.plan)))
        passed.append(history.plan)
        assert loads(dumps(history.plan)) == history.plan
    for earlier in reversed(passed[:-1]):
        history.undo()
        assert history.plan is earlier
    assert dumps(history.plan) == raw
    assert not history.modified
    for later in passed[1:]:
        history.redo()
        assert history.plan is later


@given(st.lists(st.tuples(st.sampled_from(("push", "undo", "redo", "save")), st.integers(0, 2)), max_size=30))
def test_it_is_a_list_with_a_place_in_it(acts: list[tuple[str, int]]) -> None:
    history = History(FLOOR)
    steps: list[tuple[Plan, int]] = [(FLOOR, 0)]
    at, saved = 0, FLOOR
    for number, (act, token) in enumerate(acts):
        if act == "push":
            plan = named(str(number))
            history.push("push", plan, token or None)
            joins = token != 0 and steps[at][1] == token and steps[at][0] is not saved
            steps = [*steps[: at + (0 if joins else 1)], (plan, token)]
            at = len(steps) - 1
        elif act == "undo":
            history.undo()
            at = max(0, at - 1)
        elif act == "redo":
            history.redo()
            at = min(len(steps) - 1, at + 1)
        else:
            history.mark_saved()
            saved = steps[at][0]
        assert history.plan is steps[at][0]
        assert history.modified == (steps[at][0] != saved)
        assert (history.can_undo, history.can_redo) == (at > 0, at < len(steps) - 1)
