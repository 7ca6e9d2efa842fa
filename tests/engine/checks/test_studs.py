"""Level pipe through studs, and studs in a pipe's way. Limits of IRC R602.6 as read in "What's the max size of drain/vent
pipe I can put thru a 2x4 stud", "2018 IRC page on R602.6" and "Notching and Boring Framing"; outsides 1.900, 2.375 and
3.500 from "Pipe Hole Saw Size Chart"; the 2 in hole from "What Size Hole Saw for 1 1/2 Inch PVC Pipe"."""

from __future__ import annotations

from typing import Any

import pytest
from msgspec.structs import replace

from engine.checks import judge
from engine.framing.studs import stand
from engine.plan.records import JoistShift
from tests.engine.checks.judged_plans import amended, broken, counts, findings, model_of
from tests.engine.checks.walled_plans import riser_in, vent_along, wall


class TestWidth:
    @pytest.mark.parametrize(
        ("size", "lumber", "given", "holds"),
        [
            # 2 in hole: 60 % of 3-1/2 is 2.10
            ("1-1/2", "2x4", {}, True),
            # 40 % is 1.40, doubled 2.10
            ("1-1/2", "2x4", {"bearing": True}, False),
            ("1-1/2", "2x4", {"exterior": True}, False),
            ("1-1/2", "2x4", {"bearing": True, "doubled": (4,)}, True),
            # 2.375 is over 2.10 already
            ("2", "2x4", {}, False),
            ("2", "2x4", {"bearing": True, "doubled": (4,)}, False),
            # 40 % of 5-1/2 is 2.20, 60 % 3.30
            ("1-1/2", "2x6", {"bearing": True}, True),
            ("2", "2x6", {}, True),
            ("2", "2x6", {"bearing": True}, False),
            ("2", "2x6", {"bearing": True, "doubled": (4,)}, True),
            # 3.5 is over 3.30
            ("3", "2x6", {}, False),
            ("3", "2x6", {"bearing": True, "doubled": (4,)}, False),
        ],
    )
    def test_which_pipe_goes_sideways_through_which_stud(
        self, size: str, lumber: Any, given: dict[str, Any], holds: bool
    ) -> None:
        assert bool(findings("stud-hole-too-wide", vent_along(wall(lumber=lumber, **given), size))) is not holds

    def test_at_the_limit_and_a_sixteenth_past_it(self) -> None:
        plan = vent_along(wall())
        at = amended(plan, "stud.nonbearing.bore", 2.0 / 3.5)
        past = amended(plan, "stud.nonbearing.bore", (2.0 - 1 / 16) / 3.5)
        assert findings("stud-hole-too-wide", at) == []
        found = broken("stud-hole-too-wide", past)
        assert (found.measured, found.limit, found.unit) == (2.0, pytest.approx(1.9375), "in")

    def test_what_it_says(self) -> None:
        found = broken("stud-hole-too-wide", vent_along(wall(bearing=True), to=148.0))
        assert found.weight == "stop"
        assert "2 in hole in studs 4 and 5 of partition" in found.text
        # 1.40, shown rounded down
        assert "1 3/8 in at most" in found.text
        assert found.cites == "IRC 2021 R602.6"

    def test_plumb_pipe_passes_no_stud_and_a_vent_over_the_plates_none(self) -> None:
        assert counts("stud-hole-too-wide", riser_in(wall(bearing=True), "2")) == (0, 0, 0, 0)
        assert counts("stud-hole-too-wide", vent_along(wall(bearing=True), above=100.0)) == (0, 0, 0, 0)

    def test_an_arm_drawn_sideways_in_the_wall_is_looked_at_too(self) -> None:
        plan = riser_in(wall(bearing=True))
        (lavatory,) = plan.fixtures
        plan = replace(plan, fixtures=(replace(lavatory, turn=90.0, arm=20.0),))
        assert broken("stud-hole-too-wide", plan).elements == ("l", "w")

    def test_without_the_value_it_is_not_judged(self) -> None:
        _, unjudged, looked_at = judge(model_of(vent_along(wall()), "stud.nonbearing.bore"))
        assert [case.missing for rule, case in unjudged if rule == "stud-hole-too-wide"] == [
            "the book gives no stud.nonbearing.bore"
        ]
        assert looked_at["stud-hole-too-wide"]["broken"] == 0


class TestEdge:
    # hole 2 in, half depth 1-3/4: 3/4 in left in the middle
    @pytest.mark.parametrize(("off", "found"), [(0.125, False), (0.1875, True)])
    def test_to_the_sixteenth(self, off: float, found: bool) -> None:
        assert bool(findings("stud-hole-near-edge", vent_along(wall(off)))) is found

    def test_a_hole_too_wide_has_to_go_first(self) -> None:
        assert findings("stud-hole-near-edge", vent_along(wall(), "2")) == []


class TestDoubled:
    def test_two_in_a_row_hold_and_three_do_not(self) -> None:
        two = vent_along(wall(bearing=True, doubled=(4, 5)), to=150.0)
        three = vent_along(wall(bearing=True, doubled=(4, 5, 6)), to=166.0)
        assert findings("doubled-studs-in-a-row", two) == []
        found = broken("doubled-studs-in-a-row", three)
        assert (found.measured, found.limit) == (3.0, 2.0)

    def test_a_wall_that_bears_nothing_does_not_ask(self) -> None:
        assert counts("doubled-studs-in-a-row", vent_along(wall(doubled=(4,)))) == (0, 0, 0, 0)


class TestInTheWay:
    # stud 3 from 107.25 to 108.75; the hub on 1-1/2 in pipe is 2.19 wide: half 1.095
    @pytest.mark.parametrize(("y", "into"), [(108.75 + 1.095, None), (108.75 + 1.095 - 1 / 16, 1 / 16)])
    def test_to_the_sixteenth(self, y: float, into: float | None) -> None:
        found = findings("stud-in-the-way", riser_in(wall(), y=y))
        assert [one.measured for one in found] == ([] if into is None else [pytest.approx(into)])

    def test_it_names_the_stud_and_the_least_move(self) -> None:
        found = broken("stud-in-the-way", riser_in(wall(), y=109.0))
        assert found.weight == "look"
        assert "stud 3 of partition" in found.text and "48 in from its south end" in found.text
        # 108.75 - (109 - 1.095) = 0.845, to the next sixteenth
        assert found.mend.startswith("Set the stud 7/8 in south of its place, or move r 7/8 in north.")

    def test_a_stud_set_aside_holds(self) -> None:
        assert findings("stud-in-the-way", riser_in(wall(stud_shifts=(JoistShift(3, -0.875),)), y=109.0)) == []

    def test_the_end_stud_stays(self) -> None:
        assert "the stud at a wall's end stays" in broken("stud-in-the-way", riser_in(wall(), y=61.0)).mend


class TestPlates:
    def test_under_them_in_them_and_over_them(self) -> None:
        wood = stand(wall(), 0.75)
        low, high = (z - 1.0 for z in wood.plates)
        half = 0.95
        for above, found in (
            (low - half, False),
            (low - half + 1 / 16, True),
            (high + half - 1 / 16, True),
            (high + half, False),
        ):
            assert bool(findings("level-pipe-in-plate", vent_along(wall(), above=above))) is found, above

    def test_in_the_sole_plate(self) -> None:
        # the sole's top 1-1/2 in over the subfloor, 1-1/4 in over the finished floor
        assert findings("level-pipe-in-plate", vent_along(wall(), above=1.25 + 0.95)) == []
        assert "sole plate" in broken("level-pipe-in-plate", vent_along(wall(), above=1.25 + 0.95 - 1 / 16)).text
