"""Corners, joints, chosen fittings and room between them: what stores carry and hands can build (common practice, no
source)."""

from __future__ import annotations

import math
from collections.abc import Callable

import pytest
from msgspec.structs import replace

from engine.plan.records import Exit, Fixture, JoistField, PinnedFitting, Plan, Riser, Vent
from tests.engine.checks.drawn_turns import corner, in_wall, onto_main, riser_foot, turning
from tests.engine.checks.judged_plans import bare, broken, counts, drain, findings, holds_for, model_of

Floor = Callable[..., Plan]
SIXTEENTH = 1.0 / 16.0
GRADE = math.hypot(1.0, 1.0 / 48.0)
"""Length along a slope of 1/4 in per ft for each inch of plan."""


class TestAngles:
    rule = "no-fitting-turns-so"

    @pytest.mark.parametrize("turn", [22.5, 45.0, 60.0, 90.0, 45.9, 44.1, 22.5 + 0.9])
    def test_catalogue_angles_hold_within_a_degree(self, turn: float) -> None:
        assert holds_for(self.rule, corner(turn, "3", None), "d1")

    @pytest.mark.parametrize(
        ("turn", "nearest"), [(30.0, 22.5), (46.1, 45.0), (43.9, 45.0), (75.1, 90.0), (120.0, 90.0)]
    )
    def test_others_are_a_stop_that_names_the_nearest(self, turn: float, nearest: float) -> None:
        found = broken(self.rule, corner(turn, "3", None))
        assert (found.weight, found.elements, found.unit) == ("stop", ("d1",), "degrees")
        assert found.measured == pytest.approx(turn, abs=0.01)
        assert found.limit == nearest
        assert found.at[:2] == (200.0, 60.0)
        assert found.cites == "common practice"
        assert f"{nearest:g}" in found.mend

    def test_a_branch_against_the_flow(self) -> None:
        plan = bare(
            drains=(
                drain((100.0, 100.0), (200.0, 100.0), (300.0, 100.0), size="3"),
                drain((240.0, 140.0), (200.0, 100.0), id="d2", size="3"),
            ),
            exits=(Exit("x1", (300.0, 100.0), how="through-rim"),),
        )
        found = broken(self.rule, plan)
        assert found.measured == pytest.approx(135.0)
        assert "against" in found.text

    def test_a_branch_at_an_odd_angle(self) -> None:
        plan = onto_main(None)
        slanting = replace(
            plan, drains=(plan.drains[0], replace(plan.drains[1], points=((165.0, 160.0), (200.0, 100.0))))
        )
        found = broken(self.rule, slanting)
        assert found.elements == ("d1", "d2")
        # atan(60 / 35)
        assert found.measured == pytest.approx(59.74, abs=0.01)
        assert found.limit == 45.0

    def test_runs_without_a_corner_hold(self, hand_floor: Floor) -> None:
        assert counts(self.rule, hand_floor()) == (3, 0, 0, 0)


class TestJoints:
    rule = "no-fitting-joins-these"

    def with_branches(self, *starts: tuple[float, float]) -> Plan:
        plan = onto_main(None)
        branches = tuple(drain(start, (200.0, 100.0), id=f"b{n}", size="2") for n, start in enumerate(starts))
        return replace(plan, drains=(plan.drains[0], *branches))

    def test_one_branch_and_two_mirrored_ones_hold(self) -> None:
        assert findings(self.rule, self.with_branches((140.0, 160.0))) == []
        mirrored = self.with_branches((140.0, 160.0), (140.0, 40.0))
        assert findings(self.rule, mirrored) == []
        assert turning(mirrored, "double_wye").size[:2] == (3.0, 3.0)

    def test_three_branches_are_one_too_many(self) -> None:
        found = broken(self.rule, self.with_branches((140.0, 160.0), (140.0, 40.0), (200.0, 160.0)))
        assert (found.weight, found.elements) == ("stop", ("d1", "b0", "b1", "b2"))
        assert found.at[:2] == (200.0, 100.0)
        assert (found.measured, found.limit, found.unit) == (None, None, "")
        assert found.cites == "common practice"

    def test_two_unlike_branches_are_no_double(self) -> None:
        assert broken(self.rule, self.with_branches((140.0, 160.0), (200.0, 40.0))).elements == ("d1", "b0", "b1")

    def test_a_joint_in_a_corner(self) -> None:
        plan = corner(90.0, "3", None)
        joined = replace(plan, drains=(*plan.drains, drain((150.0, 110.0), (200.0, 60.0), id="d2", size="2")))
        assert broken(self.rule, joined).elements == ("d1", "d2")

    def test_two_drains_or_a_vent_at_the_exit(self) -> None:
        plan = bare(
            drains=(
                drain((200.0, 140.0), (200.0, 60.0), size="3"),
                drain((140.0, 60.0), (200.0, 60.0), id="d2", size="3"),
            ),
            exits=(Exit("x1", (200.0, 60.0)),),
        )
        assert broken(self.rule, plan).elements == ("d1", "d2")
        vent = replace(plan, drains=plan.drains[:1], risers=(Riser("r1", (200.0, 60.0)),))
        assert broken(self.rule, vent).elements == ("d1", "r1")

    def test_a_pipe_at_a_trap(self) -> None:
        at = (200.0, 140.0)
        plan = bare(
            fixtures=(Fixture("sh1", "shower", at),),
            drains=(drain((200.0, 200.0), at, (200.0, 60.0), size="2"),),
            exits=(Exit("x1", (200.0, 60.0), how="through-rim"),),
        )
        assert broken(self.rule, plan).elements == ("d1", "sh1")

    def test_vents_that_meet_in_no_tee(self) -> None:
        plan = riser_foot(None)
        vents = (
            Vent("v1", ((200.0, 60.0), (230.0, 90.0)), above_floor=42.0),
            Vent("v2", ((200.0, 60.0), (230.0, 60.0)), above_floor=42.0),
        )
        found = findings(self.rule, replace(plan, vents=vents))
        assert [one.elements for one in found] == [("v1", "v2", "r1")]


class TestChosen:
    rule = "fitting-does-not-fit"

    def test_a_chosen_fitting_that_fits_holds(self) -> None:
        for plan in (
            corner(90.0, "3", "long_sweep_quarter_bend"),
            onto_main("wye", turn=45.0),
            in_wall("sanitary_tee"),
        ):
            assert counts(self.rule, plan) == (1, 0, 0, 0)

    @pytest.mark.parametrize(
        ("plan", "elements", "measured", "limit"),
        [
            # another angle
            (corner(90.0, "3", "eighth_bend"), ("p1", "d1"), 90.0, 45.0),
            (onto_main("combo_wye_eighth_bend", turn=45.0), ("p1", "d1", "d2"), 45.0, 90.0),
            # as many openings as pipes meet
            (corner(90.0, "3", "sanitary_tee"), ("p1", "d1"), None, None),
            (corner(45.0, "3", "wye"), ("p1", "d1"), None, None),
            (onto_main("quarter_bend"), ("p1", "d1", "d2"), None, None),
            (in_wall("long_sweep_quarter_bend"), ("p1", "f1", "r1"), None, None),
        ],
    )
    def test_others_are_a_stop(
        self, plan: Plan, elements: tuple[str, ...], measured: float | None, limit: float | None
    ) -> None:
        found = broken(self.rule, plan)
        assert found.weight == "stop"
        assert set(found.elements) == set(elements)
        assert found.elements[0] == "p1"
        assert (found.measured is None) == (measured is None)
        if measured is not None:
            assert found.measured == pytest.approx(measured)
        assert found.limit == limit
        assert found.cites == "common practice"

    def test_where_nothing_turns(self) -> None:
        plan = corner(90.0, "3", None)
        for at, level in (((200.0, 100.0), "under"), ((200.0, 60.0), "wall"), ((10.0, 10.0), "under")):
            pin = PinnedFitting("p1", at, "quarter_bend", level=level)  # type: ignore[arg-type]
            assert broken(self.rule, replace(plan, fittings=(pin,))).elements == ("p1",)

    def test_two_at_one_place(self) -> None:
        plan = corner(90.0, "2", "quarter_bend")
        twice = replace(plan, fittings=(*plan.fittings, PinnedFitting("p2", (200.0, 60.0), "long_sweep_quarter_bend")))
        assert broken(self.rule, twice).elements == ("p2",)
        assert turning(twice, "quarter_bend").pinned

    def test_on_a_drop_each_goes_where_it_fits(self) -> None:
        """A bend above and a combination below share the point: each choice finds its own."""
        plan = onto_main(None, join="drop", rise=12.0)
        pins = (
            PinnedFitting("p1", (200.0, 100.0), "long_sweep_quarter_bend"),
            PinnedFitting("p2", (200.0, 100.0), "combo_wye_eighth_bend"),
        )
        for order in (pins, pins[::-1]):
            chosen = replace(plan, fittings=order)
            assert counts(self.rule, chosen) == (2, 0, 0, 0)
            assert turning(chosen, "long_sweep_quarter_bend").pinned
            assert turning(chosen, "combo_wye_eighth_bend").pinned

    def test_at_a_turn_down_the_exits_bend_can_be_chosen(self) -> None:
        plan = bare(drains=(drain((200.0, 140.0), (200.0, 60.0), size="3"),), exits=(Exit("x1", (200.0, 60.0)),))
        for pattern, fits in (("long_sweep_quarter_bend", True), ("quarter_bend", True), ("wye", False)):
            chosen = replace(plan, fittings=(PinnedFitting("p1", (200.0, 60.0), pattern),))  # type: ignore[arg-type]
            assert counts(self.rule, chosen)[:2] == ((1, 0) if fits else (0, 1))
            if fits:
                assert turning(chosen, pattern).pinned


class TestRoom:
    """The hand floor's closet: stub from 0.5 down to a bend of 3.0625 that stands 1.5 above the exit, sockets 1.5."""

    def test_hubs_that_touch_hold(self, hand_floor: Floor) -> None:
        # 0.5 - (-7.0625 + 1.5) - 3.0625 = 3
        assert findings("no-room", hand_floor(lavatory=False, pinned=-7.0625)) == []

    def test_a_sixteenth_less_is_a_stop(self, hand_floor: Floor) -> None:
        found = broken("no-room", hand_floor(lavatory=False, pinned=-7.0))
        assert (found.weight, found.elements, found.unit) == ("stop", ("wc1",), "in")
        # flange ring stop 0.5 under the floor at 1: there are 1 + 5.5 to the bend, 0.5 + 3 + 3.0625 are needed
        assert (found.measured, found.limit) == pytest.approx((6.5, 6.5625))
        assert found.at[:2] == (36.0, 92.0)
        assert found.cites == "common practice"
        assert "street" in found.mend

    def test_the_one_height_of_a_street_bend_needs_no_pipe(self, hand_floor: Floor) -> None:
        plan = hand_floor(lavatory=False, pinned=-5.5625)
        assert findings("no-room", plan) == []
        assert "wc1.drop" not in {pipe for piece in model_of(plan).joinery.pieces for pipe in piece.pipes}

    def test_runs_hold_where_there_is_room(self, hand_floor: Floor) -> None:
        assert counts("no-room", hand_floor()) == (3, 0, 0, 0)

    def test_a_point_on_a_straight_run_takes_no_room(self) -> None:
        """A shower whose drain has a point 5 in from its trap, straight on: there is no corner there."""
        at = (200.0, 140.0)
        plan = bare(
            fixtures=(Fixture("sh1", "shower", at),),
            drains=(drain(at, (200.0, 135.0), (200.0, 60.0), size="2"),),
            exits=(Exit("x1", (200.0, 60.0), how="through-rim"),),
        )
        assert findings("no-room", plan) == []

    def test_a_corner_too_near_the_trap(self) -> None:
        # weir 6.9375, eighth bend 1.5, two sockets of 3/4: 9.9375 are needed
        at = (200.0, 140.0)
        for run, holds in ((9.9375, True), (9.9375 - SIXTEENTH, False)):
            corner_at = (200.0, 140.0 - run)
            plan = bare(
                fixtures=(Fixture("sh1", "shower", at),),
                drains=(drain(at, corner_at, (corner_at[0] - 40.0, corner_at[1] - 40.0), size="2"),),
                exits=(Exit("x1", (corner_at[0] - 40.0, corner_at[1] - 40.0), how="through-rim"),),
            )
            assert (findings("no-room", plan) == []) == holds


class TestLittlePipe:
    rule = "little-pipe-showing"

    def test_three_quarters_of_an_inch_hold(self, hand_floor: Floor) -> None:
        # exit -7.8125: stub 0.5 + 6.3125 - 3.0625 = 3.75, 0.75 of it between the hubs
        assert findings(self.rule, hand_floor(lavatory=False, pinned=-7.8125)) == []

    def test_a_sixteenth_less_is_to_look_at(self, hand_floor: Floor) -> None:
        found = broken(self.rule, hand_floor(lavatory=False, pinned=-7.75))
        assert (found.weight, found.elements, found.unit) == ("look", ("wc1",), "in")
        assert found.measured == pytest.approx(0.6875)
        assert found.limit == 0.75
        assert found.cites == "common practice"

    def test_pipe_with_a_free_end_is_not_between_hubs(self) -> None:
        plan = bare(
            drains=(drain((200.0, 65.0), (200.0, 60.0), size="3"),), exits=(Exit("x1", (200.0, 60.0), tail_z=-12.0),)
        )
        assert findings(self.rule, plan) == []


class TestThreading:
    rule = "cannot-be-threaded"

    def floor(self, spacing: float) -> Plan:
        """A 1-1/2 in run square through joists, between a riser and a main."""
        return bare(
            slope=0.25,
            fields=(JoistField("f1", (0.0, 0.0), (320.0, 200.0), spacing=spacing),),
            fixtures=(Fixture("f1", "lavatory", (260.0, 100.0), turn=90.0),),
            risers=(Riser("r1", (260.0, 100.0)),),
            drains=(drain((260.0, 100.0), (200.0, 100.0), size="1-1/2"),),
            exits=(Exit("x1", (200.0, 100.0), how="through-rim", pinned_z=-5.0),),
        )

    @pytest.mark.parametrize("spacing", [24.0, 16.0, 12.0])
    def test_a_bay_takes_pieces_of_its_own_width(self, spacing: float) -> None:
        plan = self.floor(spacing)
        assert findings(self.rule, plan) == []
        bored = [piece for piece in model_of(plan).joinery.pieces if piece.pipes == ("d1.0",)]
        # a quarter less than the clear bay, or it binds (common practice, no source)
        assert max(piece.cut for piece in bored) <= (spacing - 1.75) * GRADE + 1e-3

    def test_where_no_bay_is_wide_enough_it_is_a_stop(self) -> None:
        # joists 4 in apart leave 2.5, less a quarter of play; a piece between two couplings wants 2 x (0.0625 + 0.6875) and more
        found = broken(self.rule, self.floor(4.0))
        assert (found.weight, found.elements, found.unit) == ("stop", ("d1",), "in")
        assert found.limit == pytest.approx(2.25, abs=1e-3)
        assert found.measured is not None and found.measured > 50.0
        assert found.cites == "common practice"

    def test_runs_without_a_bore_hold(self, hand_floor: Floor) -> None:
        assert counts(self.rule, hand_floor(lavatory=False)) == (1, 0, 0, 0)
