"""Notches in studs, and the limits of stud holes to the sixteenth: IRC 2021 R602.6 (2x4: 1.40, 2.10; 2x6: 2.20, 3.30).

Widths of holes and depths of notches as read in "What's the max size of drain/vent pipe I can put thru a 2x4 stud"; that no
hole lies at a notch's level in "Notching and Boring Framing". The UPC gives no numbers for wood: the building code's hold.
1-1/2 in pipe is 1.900 in outside, 2 in pipe 2.375.
"""

from __future__ import annotations

from typing import Any

import pytest
from msgspec.structs import replace

from engine.checks import judge
from engine.checks.records import NotJudged
from engine.checks.stud_cuts import stud_holes, stud_notches
from engine.checks.studs import is_too_wide
from engine.plan.records import Plan, Vent, Wall
from engine.takeoff.wall_holes import shield_count, wall_holes
from tests.engine.checks.judged_plans import amended, broken, counts, findings, model_of
from tests.engine.checks.walled_plans import SMALL, X, vent_along, wall

BOOKS = ("irc-2021", "upc-2021")
SIXTEENTH = 1.0 / 16.0


def let_in(one: Wall, size: Any = "1-1/2", **given: Any) -> Plan:
    """The vent along a wall, said to be notched into its studs."""
    plan = vent_along(one, size)
    (vent,) = plan.vents
    return replace(plan, vents=(replace(vent, passing="notched", slope=0.0, **given),))


def flush(lumber: Any, size: Any = "1-1/2", **given: Any) -> Plan:
    """A vent whose outside lies in the studs' west face: its notch is as deep as the pipe is wide."""
    outside, depth = {"1-1/2": 1.9, "2": 2.375}[size], {"2x4": 3.5, "2x6": 5.5}[lumber]
    return let_in(wall(depth / 2.0 - outside / 2.0, lumber=lumber, **given), size)


def told(unjudged: tuple[tuple[str, NotJudged], ...]) -> set[tuple[str, str]]:
    """What could not be judged, and which datum is missing."""
    return {(rule, case.missing) for rule, case in unjudged}


@pytest.mark.parametrize("book", BOOKS)
@pytest.mark.parametrize(
    ("lumber", "given", "most"),
    [
        ("2x4", {"bearing": True}, 1.4),
        ("2x4", {"exterior": True}, 1.4),
        ("2x4", {}, 2.1),
        ("2x4", {"bearing": True, "doubled": (4,)}, 2.1),
        ("2x6", {"bearing": True}, 2.2),
        ("2x6", {"exterior": True}, 2.2),
        ("2x6", {}, 3.3),
        ("2x6", {"bearing": True, "doubled": (4,)}, 3.3),
    ],
)
def test_the_widest_hole_at_its_limit_and_a_sixteenth_past_it(
    book: str, lumber: Any, given: dict[str, Any], most: float
) -> None:
    model = model_of(replace(vent_along(wall(lumber=lumber, **given)), rulebook=book))
    (hole,) = stud_holes(model)
    assert not is_too_wide(model, hole._replace(across=most))
    assert is_too_wide(model, hole._replace(across=most + SIXTEENTH))


@pytest.mark.parametrize("book", BOOKS)
@pytest.mark.parametrize("given", [{}, {"bearing": True}, {"bearing": True, "doubled": (4,)}, {"exterior": True}])
def test_two_inch_pipe_never_goes_sideways_through_2x4(book: str, given: dict[str, Any]) -> None:
    """2.375 in outside is over 2.10 already, whatever the tool."""
    assert broken("stud-hole-too-wide", replace(vent_along(wall(**given), "2"), rulebook=book))


@pytest.mark.parametrize("book", BOOKS)
@pytest.mark.parametrize(("last", "found"), [(150.0, 0), (166.0, 1), (182.0, 1)])
def test_two_doubled_studs_in_a_row_and_no_more(book: str, last: float, found: int) -> None:
    """The studs at 124, 140, 156 and 172, all doubled, in a wall to 250: two, three and four of them bored."""
    one = replace(wall(bearing=True, doubled=(4, 5, 6, 7)), end=(X, 250.0))
    assert len(findings("doubled-studs-in-a-row", replace(vent_along(one, to=last), rulebook=book))) == found


class TestDepth:
    @pytest.mark.parametrize("book", BOOKS)
    @pytest.mark.parametrize(
        ("lumber", "size", "given", "holds"),
        [
            # 40 % of 3-1/2 is 1.40, of 5-1/2 2.20; 25 % is 0.875 and 1.375
            ("2x4", "1-1/2", {}, False),
            ("2x6", "1-1/2", {}, True),
            ("2x6", "2", {}, False),
            ("2x6", "1-1/2", {"bearing": True}, False),
            ("2x6", "1-1/2", {"exterior": True}, False),
            ("2x6", "1-1/2", {"bearing": True, "doubled": (4,)}, False),
        ],
    )
    def test_pipe_flush_in_the_face(
        self, book: str, lumber: Any, size: Any, given: dict[str, Any], holds: bool
    ) -> None:
        plan = replace(flush(lumber, size, **given), rulebook=book)
        assert bool(findings("stud-notch-too-deep", plan)) is not holds
        assert findings("stud-hole-too-wide", plan) == findings("stud-hole-near-edge", plan) == []

    def test_at_the_limit_and_a_sixteenth_past_it(self) -> None:
        plan = flush("2x6")
        assert findings("stud-notch-too-deep", amended(plan, "stud.nonbearing.notch", 1.9 / 5.5)) == []
        found = broken("stud-notch-too-deep", amended(plan, "stud.nonbearing.notch", (1.9 - SIXTEENTH) / 5.5))
        assert (found.measured, found.limit, found.unit) == (pytest.approx(1.9), pytest.approx(1.8375), "in")

    def test_farther_in_it_is_deeper(self) -> None:
        """In the middle of a 2x6: 2.75 + 0.95 = 3.70 in from the face to the pipe's far side."""
        found = broken("stud-notch-too-deep", let_in(wall(lumber="2x6")))
        assert (found.measured, found.limit) == (pytest.approx(3.7), pytest.approx(2.2))
        assert found.weight == "stop" and found.cites == "IRC 2021 R602.6"
        # to the next sixteenth up, and 2.20 down
        assert "a notch 3 3/4 in deep in stud 4 of partition" in found.text and "2 3/16 in at most" in found.text
        assert found.mend == "Move it 1 1/2 in toward the west face of partition, or bore the studs."

    def test_without_the_value_it_is_not_judged(self) -> None:
        _, unjudged, _ = judge(model_of(flush("2x6"), "stud.nonbearing.notch"))
        assert ("stud-notch-too-deep", "the book gives no stud.nonbearing.notch") in told(unjudged)

    def test_a_bored_run_has_no_notch(self) -> None:
        assert counts("stud-notch-too-deep", vent_along(wall())) == (0, 0, 0, 0)

    def test_it_is_on_the_list_and_shielded(self) -> None:
        model = model_of(flush("2x6"))
        (row,) = (row for row in wall_holes(model) if row.part == "stud")
        assert (row.kind, row.deep, row.bit, row.face, row.shields) == ("notch", pytest.approx(1.9), "", "west", 1)
        assert shield_count(model) == sum(row.shields for row in wall_holes(model))
        assert [notch.deep for notch in stud_notches(model)] == [pytest.approx(1.9)]


class TestAtAHole:
    @staticmethod
    def two(above: float, size: Any = "1-1/2") -> Plan:
        """A notch for 1-1/2 in pipe in the east face of a 2x6, 42 in up, and a hole for a second run."""
        return Plan(
            floor=replace(vent_along(wall()).floor, outline=SMALL),
            walls=(wall(lumber="2x6"),),
            vents=(
                Vent("v", ((X + 1.8, 112.0), (X + 1.8, 136.0)), above_floor=42.0, size="1-1/2", slope=0.0, passing="notched"),
                Vent("u", ((X - 1.0, 112.0), (X - 1.0, 136.0)), above_floor=above, size=size, slope=0.0),
            ),
        )  # fmt: skip

    # the notch takes 0.95 in to each side of its middle, the 2 in hole 1 in
    @pytest.mark.parametrize(("apart", "found"), [(1.95, False), (1.95 - SIXTEENTH, True), (-1.95, False)])
    def test_to_the_sixteenth(self, apart: float, found: bool) -> None:
        case = findings("stud-notch-at-hole", self.two(42.0 + apart))
        assert [one.measured for one in case] == ([pytest.approx(SIXTEENTH)] if found else [])

    def test_what_it_says(self) -> None:
        found = broken("stud-notch-at-hole", self.two(42.0))
        assert found.weight == "stop" and found.cites == "IRC 2021 R602.6"
        assert "v's notch in stud 4 of partition lies at the level of u's hole" in found.text
        assert found.elements == ("v", "u", "w")

    def test_two_notches_at_one_level_are_told_once(self) -> None:
        plan = self.two(42.0)
        first, second = plan.vents
        both = replace(
            plan, vents=(first, replace(second, points=((X - 1.8, 112.0), (X - 1.8, 136.0)), passing="notched"))
        )
        assert "u's notch" in broken("stud-notch-at-hole", both).text

    def test_where_the_town_lets_it_be(self) -> None:
        assert findings("stud-notch-at-hole", amended(self.two(42.0), "stud.hole_at_notch_allowed", True)) == []

    def test_without_the_value_it_is_not_judged(self) -> None:
        _, unjudged, _ = judge(model_of(self.two(42.0), "stud.hole_at_notch_allowed"))
        assert ("stud-notch-at-hole", "the book gives no stud.hole_at_notch_allowed") in told(unjudged)


class TestNearEdge:
    def test_it_says_why_a_notch_is_no_way_out(self) -> None:
        """A 2x4 that bears nothing may be notched 1.40 in; 1.75 - 0.1875 + 0.95 = 2.5125 in would be taken."""
        found = broken("stud-hole-near-edge", vent_along(wall(0.1875)))
        assert "It can't be notched in there: that would take 2 9/16 in" in found.mend
        assert "2x4 stud of a wall that bears nothing may be 1 3/8 in deep" in found.mend

    def test_or_that_it_is_one(self) -> None:
        """1-1/2 in pipe 1.75 in off the middle of a 2x6: its hole breaks out; a notch takes 2.75 - 1.75 + 0.95 = 1.95 in of 2.20."""
        found = broken("stud-hole-near-edge", vent_along(wall(1.75, lumber="2x6")))
        assert found.mend.endswith("Or let it into their face: a notch in a 2x6 stud of a wall that bears nothing may be "
                                   "2 3/16 in deep, and it takes 2 in.")  # fmt: skip


class TestFall:
    def test_holes_rise_from_the_drains_end(self) -> None:
        """42 in over the floor at y 116, 1/4 in per foot: 1/6 in higher at the stud 8 in on, 1/2 in at the one 24 in on."""
        model = model_of(vent_along(wall(lumber="2x6"), to=148.0))
        assert [hole.z for hole in stud_holes(model)] == pytest.approx([43.0 + 8.0 / 48.0, 43.0 + 24.0 / 48.0])
        rows = [row for row in wall_holes(model) if row.part == "stud"]
        assert [row.above_subfloor for row in rows] == pytest.approx([42.25 + 8.0 / 48.0, 42.25 + 24.0 / 48.0])

    def test_a_run_of_several_stretches_goes_on_rising(self) -> None:
        plan = vent_along(wall(lumber="2x6"), to=148.0)
        (vent,) = plan.vents
        bent = replace(plan, vents=(replace(vent, points=((X, 116.0), (X, 130.0), (X, 148.0))),))
        assert [hole.z for hole in stud_holes(model_of(bent))] == pytest.approx([43.0 + 8.0 / 48.0, 43.0 + 24.0 / 48.0])
