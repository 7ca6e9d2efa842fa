"""What fits in a wall, its plates' ties, shields and seals, and frost. Dressed sizes from "Type of Lumber"; IRC R602.6.1 as
read in "Plumbing - tie a top plate that is bored"; shields from "Nail plates" (UPC 312.9) and the P2603.2.1 threads."""

from __future__ import annotations

from typing import Any

import pytest
from msgspec.structs import replace

from engine.plan.records import Fixture, Riser, Supply
from engine.study import study
from engine.takeoff.shopping import shopping
from engine.takeoff.supports import supports
from tests.engine.checks.judged_plans import amended, broken, counts, findings, not_judged
from tests.engine.checks.walled_plans import X, riser_in, vent_along, wall


class TestRoom:
    # source of the answers: arithmetic on the sizes; "Vent pipes for toilet drain" has 3 in pipe want a 6 in wall
    @pytest.mark.parametrize(
        ("size", "lumber", "holds"), [("2", "2x4", True), ("3", "2x4", False), ("3", "2x6", True), ("4", "2x6", True)]
    )
    def test_which_pipe_goes_up_which_wall(self, size: str, lumber: Any, holds: bool) -> None:
        assert bool(findings("riser-out-of-wall", riser_in(wall(lumber=lumber), size))) is not holds

    def test_three_inch_has_nothing_to_spare_in_a_2x4_wall(self) -> None:
        found = broken("riser-out-of-wall", riser_in(wall(), "3"))
        assert found.weight == "stop" and "nothing to spare" in found.text and found.mend == "Frame partition of 2x6."

    # 2 in pipe, half outside 1.1875, half its hole 1.28125, half depth 1.75
    @pytest.mark.parametrize(
        ("off", "weight"),
        [(0.46875, None), (0.46875 + 1 / 16, "look"), (0.5625, "look"), (0.5625 + 1 / 16, "stop")],
    )
    def test_off_the_middle_to_the_sixteenth(self, off: float, weight: str | None) -> None:
        found = findings("riser-out-of-wall", riser_in(wall(off), "2"))
        assert [one.weight for one in found] == ([weight] if weight else [])

    # hub on 2 in pipe 2.683: half 1.3415
    @pytest.mark.parametrize(("off", "found"), [(0.4085, False), (0.4085 + 1 / 16, True)])
    def test_a_hub_proud_of_the_studs(self, off: float, found: bool) -> None:
        assert bool(findings("hub-proud-of-wall", riser_in(wall(off), "2"))) is found


class TestTies:
    @pytest.mark.parametrize(
        ("size", "lumber", "given", "wanted"),
        [
            # bits 2-1/8, 2-9/16, 3-5/8 against 1-3/4 and 2-3/4
            ("1-1/2", "2x4", {"bearing": True}, True),
            ("1-1/2", "2x4", {"exterior": True}, True),
            ("1-1/2", "2x4", {}, False),
            ("2", "2x6", {"bearing": True}, False),
            ("3", "2x6", {"bearing": True}, True),
        ],
    )
    def test_which_plate_wants_one(self, size: str, lumber: Any, given: dict[str, Any], wanted: bool) -> None:
        plan = riser_in(wall(lumber=lumber, **given), size)
        assert bool(findings("top-plate-wants-tie", plan)) is wanted
        lines = {line.kind: line.count for line in _lines(plan)}
        assert lines.get("plate_tie", 0) == int(wanted)

    def test_at_the_limit_and_a_sixteenth_past_it(self) -> None:
        plan = riser_in(wall(bearing=True))
        assert findings("top-plate-wants-tie", amended(plan, "plate.cut_most", 2.125 / 3.5)) == []
        assert findings("top-plate-wants-tie", amended(plan, "plate.cut_most", (2.125 - 1 / 16) / 3.5))

    def test_pipe_that_ends_below_the_plates_does_not_ask(self) -> None:
        plan = riser_in(wall(bearing=True))
        plan = replace(plan, risers=(Riser("r", (X, 112.0), wall="w", top="valve", above_floor=40.0),))
        assert counts("top-plate-wants-tie", plan) == (0, 0, 0, 1)


class TestShields:
    def test_both_faces_of_a_2x4_at_both_plates(self) -> None:
        # 1.75 - 0.95 = 0.8
        found = broken("nails-reach-pipe", riser_in(wall()))
        assert (found.weight, found.measured, found.limit) == ("note", pytest.approx(0.8), 1.25)
        assert "4 shields, to 2 in above the sole plate and from 2 in below the top plates" in found.mend
        assert {line.kind: line.count for line in _lines(riser_in(wall()))}["shield_plate"] == 4

    def test_a_tube_that_ends_below_the_top_plates_has_none_there(self) -> None:
        # 5/8 outside, 1 in off the middle of a 2x4: 1.75 - 1 - 0.3125 = 0.4375
        plan = replace(
            riser_in(wall()), risers=(), drains=(), supplies=(Supply("c", "cold", ((140.0, 112.0), (X + 1.0, 112.0))),)
        )
        found = broken("nails-reach-pipe", plan)
        assert found.measured == pytest.approx(0.4375)
        assert found.mend.endswith("1 shield, to 2 in above the sole plate.")

    def test_by_the_uniform_code(self) -> None:
        found = broken("nails-reach-pipe", replace(riser_in(wall()), rulebook="upc-2021"))
        assert found.limit == 1.0 and "1 1/2 in past the pipe each way" in found.mend

    # 2x6 and 1-1/2 in pipe: 2.75 - 0.95 = 1.8 in the middle, 1-1/4 at 0.55 off it
    @pytest.mark.parametrize(("off", "found"), [(0.55, False), (0.55 + 1 / 16, True)])
    def test_to_the_sixteenth(self, off: float, found: bool) -> None:
        assert bool(findings("nails-reach-pipe", riser_in(wall(off, lumber="2x6")))) is found

    def test_bored_studs_count_too(self) -> None:
        # two risers at the sole or top plates, and one stud: r 2 (sole), s 2 (top), v 2
        lines = {line.kind: line.count for line in _lines(vent_along(wall()))}
        assert lines["shield_plate"] == 6


class TestSeals:
    def test_told_once_with_their_number(self) -> None:
        found = broken("gaps-round-pipes", riser_in(wall()))
        assert found.weight == "note" and "2 holes, 1 of them in top plates" in found.text
        assert {line.kind for line in _lines(riser_in(wall()))} >= {"fireblock_sealant"}

    def test_tube_that_comes_up_through_the_floor_alone_counts_too(self) -> None:
        # a closet and its cold water, clear of every wall: its own hole and the tube's, beside the two of the riser
        plan = replace(
            riser_in(wall()),
            fixtures=(*riser_in(wall()).fixtures, Fixture("wc", "water_closet", (60.0, 60.0))),
            supplies=(Supply("c", "cold", ((200.0, 30.0), (60.0, 50.0))),),
        )
        (found,) = findings("gaps-round-pipes", plan)
        assert "4 holes, 1 of them in top plates" in found.text and "c" in found.elements

    def test_where_the_town_asks_for_none(self) -> None:
        plan = amended(riser_in(wall()), "fireblock.round_pipes", False)
        assert counts("gaps-round-pipes", plan) == (0, 0, 0, 1)
        assert "fireblock_sealant" not in {line.kind for line in _lines(plan)}


class TestFrost:
    @pytest.mark.parametrize(("cold", "found"), [(33.0, False), (32.0, True), (0.0, True)])
    def test_by_the_winter(self, cold: float, found: bool) -> None:
        plan = riser_in(wall(exterior=True), design_temp=cold)
        assert bool(findings("pipe-freezes-in-wall", plan)) is found

    def test_inside_walls_do_not_ask(self) -> None:
        assert counts("pipe-freezes-in-wall", riser_in(wall(), design_temp=0.0)) == (0, 0, 0, 1)

    def test_without_a_temperature(self) -> None:
        (case,) = not_judged("pipe-freezes-in-wall", riser_in(wall(exterior=True)))
        assert "design temperature" in case.missing

    def test_water_that_comes_up_there(self) -> None:
        plan = riser_in(wall(exterior=True), design_temp=10.0)
        plan = replace(plan, supplies=(Supply("c", "cold", ((120.0, 118.0), (X, 118.0))),))
        assert broken("pipe-freezes-in-wall", plan).elements == ("r", "c", "w")


def _lines(plan: Any) -> tuple[Any, ...]:
    model = study(plan).model
    return shopping(model, supports(model))
