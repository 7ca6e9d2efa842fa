"""Whether air reaches each trap, and whether a wet vent is wide enough: IRC 2021 P3101.2.1, P3108 and Table P3108.3."""

from __future__ import annotations

from collections.abc import Callable

import pytest
from msgspec.structs import replace

from engine.plan.records import Exit, Fixture, PinnedFitting, Plan, Riser, Vent
from engine.study import study
from tests.engine.checks.judged_plans import (
    amended,
    armed,
    bare,
    broken,
    common_vent,
    counts,
    drain,
    findings,
    model_of,
    not_judged,
)

Floor = Callable[..., Plan]


class TestAir:
    rule = "trap-without-vent"

    def test_a_vent_above_its_tee(self) -> None:
        assert counts(self.rule, armed("kitchen_sink", 12.0)) == (1, 0, 0, 0)
        (trap,) = model_of(armed("kitchen_sink", 12.0)).network.traps
        assert (trap.method, trap.vented_by) == ("individual vent", "r1")

    def test_a_lavatorys_drain_vents_the_closet(self, hand_floor: Floor) -> None:
        """IRC 2021 P3108.1; the lavatory's 1-1/2 in carries its one unit (Table P3108.3, from memory), 2 in as well."""
        for size in ("1-1/2", "2"):
            plan = hand_floor()
            plan = replace(plan, drains=(plan.drains[0], replace(plan.drains[1], size=size)))
            assert counts(self.rule, plan) == (2, 0, 0, 0)
            assert findings("wet-vent-too-small", plan) == []

    def test_a_closet_with_nothing_but_a_drain(self, hand_floor: Floor) -> None:
        found = broken(self.rule, hand_floor(lavatory=False))
        assert (found.weight, found.elements) == ("stop", ("wc1",))
        assert (found.measured, found.limit, found.unit) == (None, None, "")
        assert found.cites == "IRC 2021 P3101.2.1"

    def test_a_small_drain_into_a_large_pipe_is_no_vent(self, hand_floor: Floor) -> None:
        """ "If a small arm enters a larger pipe no vent is needed": no. A tub into 3 in pipe that serves a closet."""
        plan = hand_floor(lavatory=False)
        tub = Fixture("bt1", "bathtub", (60.0, 62.0), trap_at=(60.0, 62.0), name="the tub")
        main = replace(plan.drains[0], points=((36.0, 92.0), (36.0, 62.0), (36.0, 20.0)))
        joined = replace(
            plan,
            fixtures=(*plan.fixtures, tub),
            drains=(main, drain((60.0, 62.0), (36.0, 62.0), id="d3", size="1-1/2")),
        )
        assert [one.elements for one in findings(self.rule, joined)] == [("wc1",), ("bt1",)]
        assert "the tub" in findings(self.rule, joined)[1].text

    def test_a_tub_sink_that_drops_to_an_unvented_line(self, hand_floor: Floor) -> None:
        """A laundry tub's trap drops 40 in and joins a line from above: its arm turns down before any air."""
        plan = replace(
            hand_floor(lavatory=False),
            fixtures=(
                *hand_floor(lavatory=False).fixtures,
                Fixture("lt1", "kitchen_sink", (60.0, 62.0), name="laundry tub"),
            ),
            drains=(
                drain((36.0, 92.0), (36.0, 62.0), (36.0, 20.0), size="3"),
                drain((60.0, 62.0), (36.0, 62.0), id="d3", size="1-1/2"),
            ),
        )
        found = next(one for one in findings(self.rule, plan) if one.elements == ("lt1",))
        assert "drops before any air" in found.text

    def test_a_kitchens_drain_is_no_vent_for_a_closet(self, hand_floor: Floor) -> None:
        """IRC 2021 P3108.1: only fixtures of a bathroom group join a wet vent."""
        plan = hand_floor()
        kitchen = replace(plan, fixtures=(plan.fixtures[0], replace(plan.fixtures[1], kind="kitchen_sink")))
        found = broken(self.rule, kitchen)
        assert (found.elements, found.cites) == (("wc1",), "IRC 2021 P3108.1")
        assert "lav1 drains through the pipe" in found.text

    def test_not_judged_where_the_drain_reaches_no_exit(self, hand_floor: Floor) -> None:
        plan = replace(hand_floor(), exits=())
        assert counts(self.rule, plan) == (0, 0, 2, 0)

    def test_two_lavatories_on_one_tee(self, hand_floor: Floor) -> None:
        """IRC 2021 P3107.1, P3107.2."""
        assert counts(self.rule, common_vent(hand_floor())) == (3, 0, 0, 0)

    def test_a_fixture_without_drain_does_not_apply(self) -> None:
        plan = bare(fixtures=(Fixture("sh1", "shower", (100.0, 100.0)), Fixture("wh1", "water_heater", (10.0, 10.0))))
        assert counts(self.rule, plan) == (0, 0, 0, 1)

    def test_a_vent_that_reaches_no_air_vents_nothing(self, hand_floor: Floor) -> None:
        plan = hand_floor()
        capped = replace(plan, risers=(replace(plan.risers[0], top="capped", above_floor=60.0),))
        assert {one.elements for one in findings(self.rule, capped)} == {("wc1",), ("lav1",)}
        vent = Vent("v1", ((70.25, 69.0), (70.25, 100.0)), above_floor=42.0)
        assert {one.elements for one in findings(self.rule, replace(capped, vents=(vent,)))} == {("wc1",), ("lav1",)}
        # the same vent on to a riser through the roof is air
        onward = replace(capped, vents=(vent,), risers=(*capped.risers, Riser("r2", (70.25, 100.0))))
        assert findings(self.rule, onward) == []

    def test_an_admittance_valve_gives_air(self, hand_floor: Floor) -> None:
        """IRC 2021 P3114: valves serve individual vents."""
        plan = hand_floor()
        valve = replace(plan, risers=(replace(plan.risers[0], top="valve"),))
        assert counts(self.rule, valve) == (2, 0, 0, 0)


def wet_vent(size: str | None, *kinds: str) -> Plan:
    """A wet vent: a lavatory with its dry vent at the upper end, then fixtures that join one by one, then a closet.

    The lavatory stands at (440, 100), its drain runs west, every further fixture joins at 45 degrees 30 in on.
    """
    foot = (440.0, 100.0)
    fixtures = [Fixture("f0", "lavatory", foot, turn=0.0)]
    joints, branches = [], []
    for number, kind in enumerate((*kinds, "water_closet"), 1):
        x = 440.0 - 30.0 * number
        start = (x + 14.0, 114.0)
        fixtures.append(Fixture(f"f{number}", kind, start, trap_at=start))  # type: ignore[arg-type]
        branches.append(drain(start, (x, 100.0), id=f"b{number}", size="3" if kind == "water_closet" else "2"))
        joints.append((x, 100.0))
    wet = drain(foot, *joints, id="w", size=size)
    on = drain(joints[-1], (20.0, 100.0), id="on", size="4")
    plan = bare(
        fixtures=tuple(fixtures),
        drains=(wet, on, *branches),
        risers=(Riser("r1", foot, size="4"),),
        exits=(Exit("x1", (20.0, 100.0)),),
    )
    return amended(plan, "wet_vent.groups_most", 20) if len(kinds) > 3 else plan


class TestWetVent:
    """IRC 2021 Table P3108.3: 1-1/2 in one unit (from memory), 2 in four (read: "wet-vent Q&A"), 3 in twelve (from
    memory, one page prints 8), 4 in thirty-two (from memory). Units: lavatory 1, shower and tub 2, closet 3."""

    rule = "wet-vent-too-small"
    baths = ("bathtub", "shower", "water_closet", "water_closet")

    @pytest.mark.parametrize(
        ("size", "kinds", "load", "most", "standing"),
        [
            ("1-1/2", (), 1, 1, "memory"),
            ("1-1/2", ("shower",), 3, 1, "memory"),
            ("2", ("shower",), 3, 4, "read"),
            ("2", ("shower", "bathtub"), 5, 4, "read"),
            # lavatory, tub and one of the closets are a full-bath group of 5: 5 + 3 + 3 = 11; with another closet 14
            ("3", ("bathtub", *["water_closet"] * 3), 11, 12, "conflict"),
            ("3", ("bathtub", *["water_closet"] * 4), 14, 12, "conflict"),
            # 5 + 3 x 9 = 32; one more closet 35
            ("4", ("bathtub", *["water_closet"] * 10), 32, 32, "memory"),
            ("4", ("bathtub", *["water_closet"] * 11), 35, 32, "memory"),
        ],
    )
    def test_the_table(self, size: str, kinds: tuple[str, ...], load: float, most: float, standing: str) -> None:
        plan = wet_vent(size, *kinds)
        model = model_of(plan)
        assert {trap.method for trap in model.network.traps} == {"individual vent", "horizontal wet vent"}
        assert model.book.number(f"wet_vent.load.{size}") == most
        assert model.book.value(f"wet_vent.load.{size}").standing == standing
        found = [one for one in findings(self.rule, plan) if one.measured == load]
        if load <= most:
            assert findings(self.rule, plan) == []
            return
        (over,) = found
        assert (over.weight, over.limit, over.unit) == ("stop", most, "fixture units")
        assert over.elements == ("w", f"f{len(kinds) + 1}")
        assert over.cites == "IRC 2021 Table P3108.3"

    def test_what_it_vents_does_not_count(self) -> None:
        """The closet's three units join below: 1-1/2 in still carries the lavatory's one."""
        assert findings(self.rule, wet_vent("1-1/2")) == []

    def test_an_automatic_size_is_enough(self) -> None:
        for kinds in ((), ("shower",), ("shower", "bathtub"), self.baths):
            assert findings(self.rule, wet_vent(None, *kinds)) == []

    def test_a_smaller_stretch_further_up_is_found(self) -> None:
        plan = wet_vent("2", "shower")
        foot, first, last = plan.drains[0].points
        middle = (395.0, 100.0)
        parted = (
            drain(foot, first, id="w", size="2"),
            drain(first, middle, id="thin", size="1-1/2"),
            drain(middle, last, id="wide", size="2"),
        )
        found = broken(self.rule, replace(plan, drains=(*parted, *plan.drains[1:])))
        assert (found.elements[0], found.measured, found.limit) == ("thin", 3, 1)

    def test_each_run_is_looked_at_once_for_each_load(self) -> None:
        # the riser and w up to the shower with 1 unit, w from there with 3
        assert counts(self.rule, wet_vent("2", "shower")) == (3, 0, 0, 1)

    def test_without_a_wet_vent_it_does_not_apply(self, hand_floor: Floor) -> None:
        assert counts(self.rule, hand_floor(lavatory=False)) == (0, 0, 0, 1)
        assert counts(self.rule, armed("lavatory", 12.0)) == (0, 0, 0, 1)

    def test_smaller_than_the_table_begins(self) -> None:
        found = broken(self.rule, wet_vent("1-1/4"))
        assert (found.elements[0], found.measured, found.limit, found.unit) == ("w", 1.25, 1.5, "in")

    def test_not_judged_for_a_size_without_a_row(self) -> None:
        assert [one.elements for one in not_judged(self.rule, wet_vent("2"), lacking="wet_vent.load.2")] == [("w",)]

    def test_a_place_that_allows_more(self) -> None:
        plan = wet_vent("1-1/2", "shower")
        assert broken(self.rule, plan).limit == 1
        assert findings(self.rule, amended(plan, "wet_vent.load.1-1/2", 3)) == []

    def test_a_tee_on_its_side_at_the_join_is_found_by_its_own_rule(self, hand_floor: Floor) -> None:
        plan = hand_floor()
        square = replace(
            plan,
            drains=(plan.drains[0], replace(plan.drains[1], points=((70.25, 62.0), (36.0, 62.0)))),
            fixtures=(plan.fixtures[0], replace(plan.fixtures[1], at=(70.25, 62.0))),
            risers=(replace(plan.risers[0], at=(70.25, 62.0)),),
            fittings=(PinnedFitting("p1", (36.0, 62.0), "sanitary_tee"),),
        )
        found = study(square)
        assert [f.rule for f in found.findings if f.weight == "stop" and "cleanout" not in f.rule] == [
            "turn-in-wrong-fitting"
        ]
