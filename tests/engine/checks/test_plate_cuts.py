"""What holes cut of a wall's plate together, and the wood between two of them. IRC 2021 R602.6.1 ("Plumbing - tie a top plate
that is bored") counts what is cut of the width, more than half of it; the wood between two holes is common practice, no source.
Bits: 2-1/8 in for 1-1/2 in pipe, 2-9/16 in for 2 in.
"""

from __future__ import annotations

import math
from typing import Any

import pytest
from msgspec.structs import replace

from engine.checks import judge
from engine.checks.plate_cuts import plate_cuts, plate_holes, tied
from engine.plan.records import Drain, Exit, Fixture, Floor, Plan, Riser, Wall
from engine.study import study
from engine.takeoff.shopping import shopping
from engine.takeoff.supports import supports
from tests.engine.checks.judged_plans import amended, broken, findings, model_of
from tests.engine.checks.walled_plans import SMALL, X, wall

SIXTEENTH = 1.0 / 16.0


def two(one: Wall, apart: float, across: float = 0.0, sizes: tuple[Any, Any] = ("1-1/2", "1-1/2")) -> Plan:
    """Two lavatories back to back in the wall, their risers so far apart along it and across it, through the roof."""
    at = ((X - across / 2.0, 113.0), (X + across / 2.0, 113.0 + apart))
    (west, south), (east, north) = at
    return Plan(
        floor=Floor(outline=SMALL),
        walls=(one,),
        fixtures=(Fixture("l", "lavatory", at[0], turn=180.0), Fixture("k", "lavatory", at[1], turn=0.0)),
        drains=(
            Drain("d", ((west, south), (20.0, south)), size=sizes[0]),
            Drain("e", ((east, north), (200.0, north)), size=sizes[1]),
        ),
        risers=(
            Riser("r", at[0], wall="w", size=sizes[0], vent=sizes[0]),
            Riser("s", at[1], wall="w", size=sizes[1], vent=sizes[1]),
        ),
        exits=(Exit("x", (20.0, south)), Exit("y", (200.0, north))),
    )


def ties(plan: Plan) -> int:
    model = study(plan).model
    return sum(line.count for line in shopping(model, supports(model)) if line.kind == "plate_tie")


class TestTogether:
    def test_side_by_side_they_add_up(self) -> None:
        """2-1/8 + 2-1/8 = 4-1/4 in of a bearing 2x6's 5-1/2, over the half of 2-3/4; each alone is under it."""
        plan = two(wall(lumber="2x6", bearing=True), 0.0, 2.5)
        found = broken("top-plate-wants-tie", plan)
        assert (found.measured, found.limit, found.unit) == (pytest.approx(4.25), 2.75, "in")
        assert found.elements == ("r", "s", "w") and found.cites == "IRC 2021 R602.6.1"
        assert (
            "r and s pass the top plate of partition side by side: their holes cut 4 1/4 in of its width together"
            in found.text
        )
        assert ties(plan) == 1

    def test_further_along_they_do_not(self) -> None:
        """At 2-1/8 in along they no longer share a section; a sixteenth nearer they do, in a sliver of it."""
        one = wall(lumber="2x6", bearing=True)
        assert findings("top-plate-wants-tie", two(one, 2.125, 2.5)) == []
        assert len(plate_cuts(model_of(two(one, 2.125, 2.5)))) == 4
        assert len(plate_cuts(model_of(two(one, 2.125 - SIXTEENTH, 2.5)))) == 2
        assert ties(two(one, 8.0)) == 0

    def test_what_they_cut_at_the_worst_place_between(self) -> None:
        """1 in along: halfway between both chords are 2 x sqrt(1.0625^2 - 0.5^2) = 1.8750 in, together 3.7500."""
        (cut,) = (cut for cut in plate_cuts(model_of(two(wall(lumber="2x6"), 1.0, 2.5))) if cut.holes[0].top)
        assert cut.width == pytest.approx(4.0 * math.sqrt(1.0625**2 - 0.25), abs=1e-4)

    def test_at_the_limit_and_a_sixteenth_past_it(self) -> None:
        plan = two(wall(lumber="2x6", bearing=True), 0.0, 2.5)
        assert findings("top-plate-wants-tie", amended(plan, "plate.cut_most", 4.25 / 5.5)) == []
        assert findings("top-plate-wants-tie", amended(plan, "plate.cut_most", (4.25 - SIXTEENTH) / 5.5))

    def test_where_two_holes_run_into_each_other_it_counts_once(self) -> None:
        """1 in across: from -0.5 - 1.0625 to 0.5 + 1.0625 are 3.125 in."""
        (cut,) = (cut for cut in plate_cuts(model_of(two(wall(lumber="2x6"), 0.0, 1.0))) if cut.holes[0].top)
        assert cut.width == pytest.approx(3.125, abs=1e-4)

    def test_each_plate_by_itself(self) -> None:
        model = model_of(two(wall(lumber="2x6", bearing=True), 0.0, 2.5))
        assert [len(cut.holes) for cut in plate_cuts(model)] == [2, 2]
        assert [cut.holes[0].top for cut in tied(model)] == [True]

    def test_a_wall_that_bears_nothing_wants_none(self) -> None:
        assert findings("top-plate-wants-tie", two(wall(lumber="2x6"), 0.0, 2.5)) == []

    @pytest.mark.parametrize("book", ["irc-2021", "upc-2021"])
    def test_two_that_each_want_one_get_one_each(self, book: str) -> None:
        plan = replace(two(wall(bearing=True), 12.0), rulebook=book)
        assert len(findings("top-plate-wants-tie", plan)) == ties(plan) == 2

    def test_without_the_value_it_is_not_judged(self) -> None:
        _, unjudged, _ = judge(model_of(two(wall(bearing=True), 12.0), "plate.cut_most"))
        assert "top-plate-wants-tie" in {rule for rule, _ in unjudged}


class TestClose:
    # two 2-1/8 in holes in a row: 1 in between them at 3-1/8 in
    @pytest.mark.parametrize(("apart", "found"), [(3.125, 0), (3.125 - SIXTEENTH, 2), (2.0, 2)])
    def test_to_the_sixteenth(self, apart: float, found: int) -> None:
        """Told of the sole plate and of the top plates."""
        cases = findings("plate-holes-close", two(wall(), apart))
        assert len(cases) == found
        assert all(case.measured == pytest.approx(apart - 2.125) and case.limit == 1.0 for case in cases)

    def test_the_way_between_them_is_straight(self) -> None:
        """2 in along and 2-1/2 across: sqrt(4 + 6.25) - 2.125 = 1.0766 in."""
        one = wall(lumber="2x6")
        assert findings("plate-holes-close", two(one, 2.0, 2.5)) == []
        sole, top = findings("plate-holes-close", two(one, 1.75, 2.5))
        assert sole.measured == top.measured == pytest.approx(math.hypot(1.75, 2.5) - 2.125)

    def test_what_it_says(self) -> None:
        first, second = findings("plate-holes-close", two(wall(), 3.0))
        assert first.weight == "look" and first.cites == "common practice"
        assert "for s and r in the sole plate of partition leave 7/8 in of wood between them" in first.text
        assert first.mend.startswith("Move s 1/8 in north")
        assert "top plates" in second.text
        assert "run into each other" in findings("plate-holes-close", two(wall(), 2.0))[0].text

    def test_every_hole_is_told_of_once(self) -> None:
        model = model_of(two(wall(), 12.0))
        assert sorted((hole.element, hole.top) for hole in plate_holes(model)) == [
            ("r", False), ("r", True), ("s", False), ("s", True),
        ]  # fmt: skip
