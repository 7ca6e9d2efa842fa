"""Two studies beside each other: what is gone, what is new, and what a mend may not do (made up, no source)."""

from __future__ import annotations

from collections.abc import Callable

import pytest
from msgspec.structs import replace

from engine.checks.records import Finding
from engine.mending import mends_for
from engine.mending.guards import keeps_its_place
from engine.mending.ideas import Idea, both
from engine.mending.trying import beside, tried
from engine.plan import edits
from engine.plan.records import Plan
from engine.plan.sound import inside
from engine.study import study

Floor = Callable[..., Plan]


def found(rule: str, *elements: str, at: tuple[float, float] = (0.0, 0.0), weight: str = "stop") -> Finding:
    return Finding(rule, weight, (*at, 0.0), elements, None, None, "", "It is so.", "common practice", "Mend it.")  # type: ignore[arg-type]


def test_alike_findings_are_paired_the_nearest_first() -> None:
    before = (found("a", "d1", at=(0.0, 0.0)), found("a", "d1", at=(40.0, 0.0)))
    gone, new = beside(before, (found("a", "d1", at=(42.0, 0.0)),))
    assert gone == before[:1]
    assert new == ()


def test_order_of_things_does_not_matter_and_far_off_is_another() -> None:
    assert beside((found("a", "d1", "d2"),), (found("a", "d2", "d1"),)) == ((), ())
    gone, new = beside((found("a", "d1"),), (found("a", "d1", at=(60.5, 0.0)),))
    assert (len(gone), len(new)) == (1, 1)


def test_an_edit_that_changes_nothing_or_cannot_be_made_is_no_mend(hand_floor: Floor) -> None:
    before = study(hand_floor(pinned=-6.0))
    finding = next(one for one in before.findings if one.rule == "no-height-fits")
    assert tried(before, finding, Idea("Leave it", 1.0, lambda: before.plan)) is None
    assert tried(before, finding, Idea("Move it", 1.0, lambda: edits.move(before.plan, ("nothing",), 1.0, 0.0))) is None


def test_a_mend_that_only_hides_the_fault_is_refused(hand_floor: Floor) -> None:
    """Without its exit nothing can be judged of the height any more: that mends nothing."""
    before = study(hand_floor(pinned=-6.0))
    finding = next(one for one in before.findings if one.rule == "no-height-fits")
    assert tried(before, finding, Idea("Delete x1", 1.0, lambda: edits.delete(before.plan, "x1"))) is None
    pinned = Idea("Pin x1 7 1/4 in down", 1.0, lambda: edits.set_field(before.plan, "x1", "pinned_z", -7.25))
    mend = tried(before, finding, pinned)
    assert mend is not None
    assert (mend.label, mend.done) == ("pin x1 7 1/4 in down", "Pinned x1 7 1/4 in down.")


def test_two_edits_are_told_as_one(hand_floor: Floor) -> None:
    plan = hand_floor()
    first = Idea("Make d2 2 in", 2.0, lambda: edits.set_field(plan, "d2", "size", "2"))
    idea = both(first, lambda after: edits.set_field(after, "x1", "pinned_z", None), "Leave x1 open", 0.5)
    assert (idea.words, idea.cost) == ("Make d2 2 in, and leave x1 open", 2.5)
    made = idea.make()
    assert made.drains[1].size == "2" and made.exits[0].pinned_z is None


def test_no_riser_leaves_its_wall_and_no_fixture_goes_through_one(hand_floor: Floor) -> None:
    plan = hand_floor()
    aside = edits.move(plan, ("r1",), 6.0, 0.0)
    assert not keeps_its_place(plan, aside)
    assert keeps_its_place(plan, edits.move(plan, ("r1",), 0.0, 6.0))
    assert keeps_its_place(plan, edits.move(plan, ("wc1",), 2.0, 0.0))
    assert not keeps_its_place(plan, edits.move(plan, ("wc1",), 40.0, 0.0))
    assert not keeps_its_place(plan, edits.move(plan, ("wc1",), -40.0, 0.0))


@pytest.mark.parametrize(("point", "within"), [((1.0, 1.0), True), ((5.0, 5.0), False), ((-1.0, 2.0), False)])
def test_a_point_in_an_outline(point: tuple[float, float], within: bool) -> None:
    ell = ((0.0, 0.0), (8.0, 0.0), (8.0, 4.0), (4.0, 4.0), (4.0, 8.0), (0.0, 8.0))
    assert inside(ell, point) is within


def test_a_rule_without_a_mend_offers_none(hand_floor: Floor) -> None:
    before = study(hand_floor())
    assert mends_for(before, found("trap-below-joists", "wc1")) == ()


def test_a_pinned_height_is_let_go_or_put_inside_its_window(hand_floor: Floor) -> None:
    """The hand floor's window is [-7.3729, -7.0625]; on a tape its ends are 7 5/16 and 7 1/16 in down."""
    plan = hand_floor(pinned=-6.0)
    before = study(replace(plan, exits=(replace(plan.exits[0], cleanout_outside=True),)))
    finding = next(one for one in before.findings if one.rule == "no-height-fits")
    words = [mend.words for mend in mends_for(before, finding)]
    assert words == ["Leave the height of x1 to the program", "Pin x1 7 5/16 in down"]


def test_a_thing_beside_its_pipe_is_moved_onto_it_where_joining_would_bend_the_pipe(hand_floor: Floor) -> None:
    """The main drawn to an exit 1/4 in east of it would come in askew: the exit goes west instead."""
    plan = hand_floor(pinned=None)
    exit_ = replace(plan.exits[0], at=(36.25, 20.0), cleanout_outside=True)
    before = study(replace(plan, exits=(exit_,)))
    finding = next(one for one in before.findings if one.rule == "end-not-joined")
    (mend,) = (one for one in mends_for(before, finding) if one.words.startswith("Move"))
    assert mend.words == "Move x1 1/4 in west onto d1"
    assert mend.plan.exits[0].at in mend.plan.drains[0].points


def test_what_was_to_be_looked_at_and_is_now_to_stop_for_is_new() -> None:
    look, stop = found("a", "d1", weight="look"), found("a", "d1")
    assert beside((look,), (stop,)) == ((look,), (stop,))
    assert beside((look,), (found("a", "d1", weight="note"),)) == ((), ())


@pytest.mark.parametrize(
    ("words", "done"),
    [
        ("Make d2 2 in", "Made d2 2 in."),
        (
            "Leave the size of r1 to the program, and make d 3 in",
            "Left the size of r1 to the program, and made d 3 in.",
        ),
        ("Give v1 a slope of 12 in per foot", "Gave v1 a slope of 12 in per foot."),
    ],
)
def test_what_was_done_is_told_in_the_past(words: str, done: str) -> None:
    assert Idea(words, 1.0, lambda: None).done == done  # type: ignore[arg-type, return-value]
