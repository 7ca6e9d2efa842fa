"""Plumb pipe over joists and rims, and pipe whose side is in one. Floor: joists at x 16, 32, ..., rims y 0 to 1.5 and
106.5 to 108. Outsides 1.900, 2.375, 3.500 (Pipe Hole Saw Size Chart); a flange's hole 5 in (assumed)."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

import msgspec
import pytest

from engine.checks.landing import RULES
from engine.checks.records import Finding, Holds, NotJudged, Outcome
from engine.mending import mends_for
from engine.plan.records import Drain, Exit, Fixture, Floor, JoistField, Plan, Riser, Supply, Vent, Wall
from engine.study import study, work_out

JUDGES = {rule.id: rule.judge for rule in RULES}
FIELD = JoistField("f", (0.0, 0.0), (120.0, 108.0))


def plan_of(**given: Any) -> Plan:
    outline = ((0.0, 0.0), (120.0, 0.0), (120.0, 108.0), (0.0, 108.0))
    return Plan(**({"floor": Floor(outline=outline), "fields": (FIELD,)} | given))


def outcomes(rule: str, plan: Plan) -> list[Outcome]:
    return list(JUDGES[rule](work_out(plan)))


def findings(rule: str, plan: Plan) -> list[Finding]:
    return [one for one in outcomes(rule, plan) if isinstance(one, Finding)]


def closet_at(x: float, y: float = 92.0, **given: Any) -> Plan:
    """A closet whose drain runs south in its bay to an exit that turns down at y 20."""
    return plan_of(
        fixtures=(Fixture("wc", "water_closet", (x, y)),),
        drains=(Drain("d", ((x, y), (x, 20.0)), size="3"),),
        exits=(Exit("x", (x, 20.0), pinned_z=-7.25),),
        **given,
    )


def riser_at(x: float, y: float, size: Any = "1-1/2") -> Plan:
    """A riser over a drain that runs 12 in east from it to its exit in the same bay."""
    return plan_of(
        drains=(Drain("d", ((x, y), (40.0, 80.0)), size=size),),
        risers=(Riser("r", (x, y), size=size, vent=size),),
        exits=(Exit("x", (40.0, 80.0)),),
    )


class TestClosets:
    def test_a_flange_three_quarters_clear_of_a_joist_holds(self) -> None:
        # 36 - 2.5 - 32.75 = 0.75
        assert findings("lands-on-wood", closet_at(36.0)) == []

    @pytest.mark.parametrize(("x", "found"), [(35.25, False), (35.25 - 1 / 16, True)])
    def test_to_the_sixteenth(self, x: float, found: bool) -> None:
        # 32.75 + 2.5
        assert bool(findings("lands-on-wood", closet_at(x))) is found

    def test_the_flanges_hole_alone_is_a_stop(self) -> None:
        (found,) = [f for f in findings("lands-on-wood", closet_at(34.75)) if "wc" in f.elements]
        # 34.75 - 32.75 = 2 from the face: the pipe's 1.75 is clear, the hole's 2.5 is not
        assert (found.weight, found.measured, found.limit) == ("stop", pytest.approx(0.5), 0.0)
        assert "hole for the flange lands on joist f.2" in found.text
        assert found.mend.startswith("Move it 1/2 in east")

    def test_centred_on_a_joist(self) -> None:
        (found,) = [f for f in findings("lands-on-wood", closet_at(48.0)) if "wc" in f.elements]
        # half the pipe and half the joist: 1.75 + 0.75
        assert found.measured == pytest.approx(2.5)
        assert "3 in pipe lands on joist f.3" in found.text
        # half the hole and half the joist: 2.5 + 0.75, either way
        assert found.mend.startswith("Move it 3 1/4 in west")
        assert "f.3" in found.elements

    def test_over_an_engineered_member_too(self) -> None:
        plan = closet_at(48.0)
        plan = msgspec.structs.replace(plan, fields=(msgspec.structs.replace(FIELD, member="engineered", depth=11.25),))
        assert findings("lands-on-wood", plan)

    def test_12_1_2_from_the_wall_with_a_joist_where_the_flange_should_be(self) -> None:
        # joist centre x 15; the closet wants x 15: with a 5 in hole it is clear at 15.75 + 2.5 = 18.25 (or 11.75)
        field = msgspec.structs.replace(FIELD, first=15.0)
        (found,) = [
            f
            for f in findings("lands-on-wood", msgspec.structs.replace(closet_at(15.0), fields=(field,)))
            if "wc" in f.elements
        ]
        assert found.mend.startswith("Move it 3 1/4 in west")


class TestWhatIsHeadedOff:
    """A pair of headers takes a joist's load; a rim or an end joist, which lies on its bearing, is not cut for a pipe."""

    @pytest.mark.parametrize(("at", "off"), [((40.0, 1.0), "rim f.rim-south"), ((1.0, 60.0), "joist f.0")])
    def test_not_what_stands_at_the_floors_edge(self, at: tuple[float, float], off: str) -> None:
        (found,) = [f for f in findings("lands-on-wood", riser_at(*at)) if f.elements[-1] == off.split()[-1]]
        assert "headed off" in found.mend and "or head" not in found.mend

    def test_over_all_of_a_joist_it_is_told_how_far_aside_it_is_clear(self) -> None:
        # 1.900 / 2 + 0.75, more than the joist is wide
        (found,) = findings("lands-on-wood", riser_at(48.0, 60.0))
        assert (
            found.text
            == "r's 1-1/2 in pipe lands on joist f.3 with its middle over it: 1 3/4 in aside clears it alone."
        )
        assert found.mend.endswith("or head joist f.3 off round it.")


class TestRisers:
    def test_a_riser_in_an_outside_wall_lands_on_the_rim(self) -> None:
        # axis y 106.25, from 105.30 to 107.20; the rim begins at 106.50: 0.70 of the pipe lands on it
        (found,) = findings("lands-on-wood", riser_at(40.0, 106.25))
        assert (found.weight, found.measured, found.unit) == ("stop", pytest.approx(0.70), "in")
        assert found.elements == ("r", "f.rim-north")
        assert found.at[:2] == (40.0, 106.25)
        assert "rim f.rim-north" in found.text
        # pipe and hub: 0.95 + 0.145 - 0.25 = 0.845, to the next sixteenth
        assert found.mend.startswith("Move it 7/8 in south")

    @pytest.mark.parametrize(
        ("y", "weight"),
        [(106.5 - 1.095, None), (106.5 - 1.0, "look"), (106.5 - 0.95, "look"), (106.5 - 0.95 + 1 / 16, "stop")],
    )
    def test_only_a_look_is_asked_of_its_hub(self, y: float, weight: str | None) -> None:
        found = findings("lands-on-wood", riser_at(40.0, y))
        assert [one.weight for one in found] == ([weight] if weight else [])

    @pytest.mark.parametrize(
        ("lumber", "line", "told"),
        [
            # 2x4 from 104.5 to 108: moved 7/8 in the pipe reaches 104.425, past the inside face
            ("2x4", 106.25, "1/8 in out of the studs' inside face: fur north wall out so far, or frame it of 2x6"),
            # 2x6 from 102.5
            ("2x6", 105.25, "where north wall still holds it, or stand it in an inside wall."),
        ],
    )
    def test_in_an_outside_wall_the_wall_is_told_of(self, lumber: Any, line: float, told: str) -> None:
        wall = Wall("w", (0.0, line), (120.0, line), lumber=lumber, exterior=True, name="north wall")
        (found,) = findings("lands-on-wood", msgspec.structs.replace(riser_at(40.0, 106.25), walls=(wall,)))
        assert "stands in north wall, an outside wall" in found.text
        assert found.mend.startswith("Move it 7/8 in south")
        assert told in found.mend

    def test_in_an_outside_wall_the_wall_framed_deeper_mends_it(self) -> None:
        wall = Wall("w", (0.0, 106.25), (120.0, 106.25), exterior=True, name="north wall")
        before = study(msgspec.structs.replace(riser_at(40.0, 106.25), walls=(wall,)))
        (found,) = [one for one in before.findings if one.rule == "lands-on-wood"]
        words = [mend.words for mend in mends_for(before, found)]
        assert "Frame north wall of 2x6, and move r 7/8 in south" in words

    def test_a_riser_in_a_corner_moves_off_both(self) -> None:
        (found,) = findings("lands-on-wood", riser_at(33.0, 106.25))
        # from the joist: 32.75 + 1.095 - 33 = 0.845, from the rim the same
        assert found.mend.startswith("Move it 7/8 in east and 7/8 in south")

    def test_a_vent_above_the_floor_lands_on_nothing(self) -> None:
        plan = plan_of(
            risers=(Riser("r", (48.0, 50.0)), Riser("t", (60.0, 50.0))),
            vents=(Vent("v", ((48.0, 50.0), (60.0, 50.0)), above_floor=60.0),),
        )
        assert findings("lands-on-wood", plan) == []

    def test_where_a_basins_pipe_will_come_down_is_told_before_it_is_drawn(self) -> None:
        """A 1-1/4 in pipe, 1.660 outside, over the middle of a 1-1/2 in joist: 1-1/2 + 1.66 over 2 clears it."""
        plan = plan_of(fixtures=(Fixture("l", "lavatory", (48.0, 50.0)),))
        (found,) = findings("lands-on-wood", plan)
        assert (found.elements, found.measured) == (("l", "f.3"), pytest.approx(0.75 + 0.83))
        assert findings("lands-on-wood", plan_of(fixtures=(Fixture("l", "lavatory", (52.0, 50.0)),))) == []

    def test_an_exit_that_turns_down_into_a_joist(self) -> None:
        plan = plan_of(
            drains=(
                Drain("d", ((40.0, 80.0), (40.0, 60.0)), size="3"),
                Drain("e", ((40.0, 60.0), (48.0, 60.0)), size="3"),
            ),
            exits=(Exit("x", (48.0, 60.0), pinned_z=-5.0),),
            fixtures=(Fixture("wc", "water_closet", (40.0, 80.0)),),
        )
        (found,) = findings("lands-on-wood", plan)
        assert found.elements == ("x", "f.3")
        below = msgspec.structs.replace(plan, exits=(Exit("x", (48.0, 60.0), pinned_z=-12.0),))
        assert findings("lands-on-wood", below) == []


class TestTraps:
    def shower(self, x: float, toward: float) -> Plan:
        return plan_of(
            fixtures=(Fixture("s", "shower", (x, 40.0)),),
            drains=(Drain("d", ((x, 40.0), (x, 40.0 + toward)), size="2"),),
            exits=(Exit("x", (x, 40.0 + toward), pinned_z=-6.0),),
        )

    def test_a_trap_in_the_bay_holds(self) -> None:
        assert findings("lands-on-wood", self.shower(40.0, 30.0)) == []

    def test_a_trap_whose_hub_reaches_the_joist_is_a_stop(self) -> None:
        # 2 in pipe 2.375, wall 0.154: hub 2.683, half 1.3415; 34 - 32.75 = 1.25
        found = findings("lands-on-wood", self.shower(34.0, 30.0))
        assert ("s", "stop", pytest.approx(0.0915)) in [(f.elements[0], f.weight, f.measured) for f in found]

    def test_a_trap_is_looked_at_as_far_as_its_weir(self) -> None:
        # the arm runs east from x 41.5: the weir lies 6.9375 on, at 48.44, in joist f.3
        plan = plan_of(
            fixtures=(Fixture("s", "shower", (41.5, 40.0)),),
            drains=(Drain("d", ((41.5, 40.0), (56.0, 40.0)), size="2"),),
            exits=(Exit("x", (56.0, 40.0), pinned_z=-5.0),),
        )
        (found,) = findings("lands-on-wood", plan)
        assert found.elements == ("s", "f.3")
        assert "trap lands on joist f.3" in found.text


class TestSides:
    def supply(self, x: float, **given: Any) -> Plan:
        return plan_of(supplies=(Supply("c", "cold", ((x, 20.0), (x, 60.0)), "1", insulation=0.4375, **given),))

    # 1 in tube 1.125 with 7/16 of foam: 2 in wide; touching at 32.75 + 1
    @pytest.mark.parametrize(("x", "into"), [(33.75, None), (33.75 - 1 / 16, 1 / 16), (32.9, 0.85)])
    def test_to_the_sixteenth(self, x: float, into: float | None) -> None:
        found = findings("pipe-side-in-wood", self.supply(x))
        assert [(f.weight, f.measured) for f in found] == ([] if into is None else [("stop", pytest.approx(into))])

    def test_the_axis_in_the_wood_is_a_crossing_and_not_told_twice(self) -> None:
        assert findings("pipe-side-in-wood", self.supply(32.5)) == []

    def test_pipe_below_the_joists_rubs_on_none(self) -> None:
        assert findings("pipe-side-in-wood", self.supply(33.0, down=12.0)) == []

    def test_a_drain_beside_a_joist(self) -> None:
        found = findings("pipe-side-in-wood", closet_at(34.0))
        # 34 - 1.75 = 32.25, the face at 32.75
        assert [(f.elements, f.measured) for f in found] == [(("d", "f.2"), pytest.approx(0.5))]
        assert found[0].mend == "Move the run 1/2 in away from joist f.2."

    def test_one_outcome_a_pipe(self) -> None:
        plan = closet_at(36.0)
        assert [type(one) for one in outcomes("pipe-side-in-wood", plan)] == [Holds] * len(work_out(plan).lines)


def test_without_joists_nothing_is_judged() -> None:
    plan = msgspec.structs.replace(closet_at(36.0), fields=())
    assert {type(one) for one in outcomes("lands-on-wood", plan)} == {NotJudged}
    assert {type(one) for one in outcomes("pipe-side-in-wood", plan)} == {NotJudged}


def test_the_small_floor_worked_by_hand_lands_on_nothing(hand_floor: Callable[..., Plan]) -> None:
    found = study(hand_floor())
    assert [f for f in found.findings if f.rule in JUDGES] == []
    # closet, riser and turn-down
    assert found.looked_at["lands-on-wood"] == {"holds": 3, "broken": 0, "not_judged": 0, "does_not_apply": 0}


def test_mirroring_and_turning_the_floor_change_no_landing() -> None:
    def spun(plan: Plan, move: Callable[[float, float], tuple[float, float]], direction: str) -> list[tuple[Any, ...]]:
        moved = msgspec.structs.replace(
            plan,
            fields=(JoistField("f", _corner(move), _size(direction), first=12.0, direction=direction),),  # type: ignore[arg-type]
            fixtures=tuple(msgspec.structs.replace(f, at=move(*f.at)) for f in plan.fixtures),
            drains=tuple(msgspec.structs.replace(d, points=tuple(move(*p) for p in d.points)) for d in plan.drains),
            exits=tuple(msgspec.structs.replace(e, at=move(*e.at)) for e in plan.exits),
        )
        return sorted((f.rule, f.weight, round(f.measured or 0.0, 9)) for rule in JUDGES for f in findings(rule, moved))

    def _size(direction: str) -> tuple[float, float]:
        return (120.0, 108.0) if direction == "north-south" else (108.0, 120.0)

    def _corner(move: Callable[[float, float], tuple[float, float]]) -> tuple[float, float]:
        a, b = move(0.0, 0.0), move(120.0, 108.0)
        return (min(a[0], b[0]), min(a[1], b[1]))

    for x in (29.0, 30.5, 44.0, 46.25):
        plain = spun(closet_at(x), lambda a, b: (a, b), "north-south")
        assert plain
        assert spun(closet_at(x), lambda a, b: (120.0 - a, b), "north-south") == plain
        assert spun(closet_at(x), lambda a, b: (a, 108.0 - b), "north-south") == plain
        assert spun(closet_at(x), lambda a, b: (-b, a), "east-west") == plain
        assert spun(closet_at(x), lambda a, b: (a + 48.0, b - 13.0), "north-south") == plain
