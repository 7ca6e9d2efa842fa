"""The long section of a line: stations, heights, wood and fittings, against sums worked by hand and random plans."""

from __future__ import annotations

from collections.abc import Callable

import msgspec
import pytest
from hypothesis import HealthCheck, given, settings

from engine.checks.model import Model
from engine.framing.records import Joist
from engine.plan.records import Drain, Exit, Fixture, JoistField, Plan, Supply
from engine.study import work_out
from engine.takeoff.long_section import Leg, LongSection, Wood, long_section
from tests.engine import coarse_plans
from tests.engine.plan import drawn_plans

Floor = Callable[..., Plan]
PLACES = 24
HAIR = 0.01


def section_of(model: Model, element_id: str) -> LongSection:
    found = long_section(model, element(model.plan, element_id))
    assert found is not None
    return found


def element(plan: Plan, element_id: str):
    kinds = (plan.drains, plan.fixtures, plan.risers, plan.exits, plan.supplies, plan.vents, plan.walls)
    return next(one for kind in kinds for one in kind if one.id == element_id)


def dropping(plan: Plan, **fields) -> Plan:
    """The hand-worked floor whose lavatory branch drops or rolls onto the main."""
    drains = (plan.drains[0], msgspec.structs.replace(plan.drains[1], **fields))
    return msgspec.structs.replace(plan, drains=drains)


def test_the_branch_from_the_exit_with_its_joists(hand_floor: Floor) -> None:
    """Stations by hand: 42 in of main, 9.8995 in aslant, then 27.25 in to the riser; joists x 48 and 64 cut."""
    found = section_of(work_out(hand_floor()), "d2")
    assert (found.low_end, found.high_end, found.exit) == ("exit x1", "riser r1", "x1")
    assert found.length == pytest.approx(42.0 + 9.899495 + 27.25, abs=1e-5)
    assert found.fall == pytest.approx(found.length * 0.25 / 12.0, abs=1e-9)
    assert [leg.begins for leg in found.legs] == pytest.approx([0.0, 42.0, 51.899495], abs=1e-5)
    # the axis heights are those of the worked case: -7.1875, -6.3125, -6.1063, -5.5386
    assert [leg.z0 for leg in found.legs] == pytest.approx([-7.1875, -6.3125, -6.1063], abs=5e-5)
    assert found.legs[-1].z1 == pytest.approx(-5.5386, abs=5e-5)
    third, fourth = found.woods
    assert (third.words, fourth.words) == ("joist 3", "joist 4")
    assert (third.station, fourth.station) == (pytest.approx(56.899495, abs=1e-5), pytest.approx(72.899495, abs=1e-5))
    assert (third.z, fourth.z) == (pytest.approx(-6.0021, abs=5e-5), pytest.approx(-5.6688, abs=5e-5))
    # a joist crossed square is 1.5 in wide along the line
    assert (third.begins, third.ends) == (pytest.approx(third.station - 0.75), pytest.approx(third.station + 0.75))
    # a 2x10 is 9.25 deep and keeps 2 in above and below a bore (IRC 2021 R502.8.1)
    assert (third.top, third.bottom) == (0.0, -9.25)
    assert third.keeps == ((0.0, -2.0), (-7.25, -9.25))
    assert third.cut is not None
    assert third.cut.legal


def test_fittings_stand_where_they_are_glued(hand_floor: Floor) -> None:
    found = section_of(work_out(hand_floor()), "lav1")
    things = {thing.words: thing for thing in found.things}
    assert things["wye 3x3x1-1/2"].station == pytest.approx(42.0)
    assert things["eighth bend 1-1/2"].station == pytest.approx(51.899495, abs=1e-5)
    assert things["coupling 1-1/2"].station == pytest.approx(64.899495, abs=1e-5), "in the bay between x 48 and 64"
    # quarter bend 3 at the exit: 3.0625 up the main and as much down to the tail (from memory of ASTM D3311), and a
    # hub 1.5 deep beyond each stop (Modern Plumbing, DWV installation chapter)
    assert (things["quarter bend 3"].back, things["quarter bend 3"].ahead) == (0.0, 4.5625)
    assert (things["quarter bend 3"].down, things["quarter bend 3"].up) == (4.5625, 0.0)
    assert found.stands is not None
    assert found.stands.z1 > found.finished


def test_of_an_exit_it_is_the_longest_line(hand_floor: Floor) -> None:
    model = work_out(hand_floor())
    assert section_of(model, "x1").legs == section_of(model, "lav1").legs
    assert section_of(model, "wc1").length == 72.0


def test_a_closet_shows_its_drop_and_the_bay_it_lies_in(hand_floor: Floor) -> None:
    found = section_of(work_out(hand_floor()), "wc1")
    assert found.woods == (), "the main lies in its bay"
    (bay,) = found.bays
    assert (bay.begins, bay.ends, bay.depth) == (0.0, 72.0, 9.25)
    assert found.stands is not None
    assert (found.stands.begins, found.stands.z0) == (72.0, pytest.approx(-5.6875))
    assert found.high_end == "water closet wc1"


def test_a_joist_crossed_aslant_is_wider_along_the_line(hand_floor: Floor) -> None:
    plan = hand_floor(lavatory=False)
    across = msgspec.structs.replace(plan.drains[0], points=((36.0, 92.0), (56.0, 72.0)), size="1-1/2")
    exits = (msgspec.structs.replace(plan.exits[0], at=(56.0, 72.0)),)
    (wood,) = section_of(work_out(msgspec.structs.replace(plan, drains=(across,), exits=exits)), "d1").woods
    # 1.5 over the sine of 45 degrees; the centre is 8 in of x from the exit
    assert wood.ends - wood.begins == pytest.approx(1.5 * 2**0.5)
    assert wood.station == pytest.approx(8.0 * 2**0.5)


def test_a_pinned_drop_stands_plumb_on_the_main(hand_floor: Floor) -> None:
    found = section_of(work_out(dropping(hand_floor(), join="drop", rise=9.0)), "d2")
    main, drop, *branch = found.legs
    assert (drop.shape, drop.begins, drop.ends) == ("plumb", 42.0, 42.0)
    assert (drop.z0, drop.z1) == (pytest.approx(-6.3125), pytest.approx(2.6875))
    assert [leg.shape for leg in branch] == ["level", "level"]
    assert found.fall == pytest.approx(found.length / 48.0 + 9.0)
    assert main.z1 == drop.z0


def test_a_roll_takes_its_share_of_the_run(hand_floor: Floor) -> None:
    """Rolled by 45 degrees and 4 in up it takes 4 in of the run's length, over which the run does not fall itself."""
    plan = hand_floor()
    straight = ((70.25, 69.0), (36.0, 69.0))
    main = msgspec.structs.replace(plan.drains[0], points=((36.0, 92.0), (36.0, 69.0), (36.0, 20.0)))
    plan = dropping(
        msgspec.structs.replace(plan, drains=(main, plan.drains[1])), points=straight, join="rolled", rise=4.0
    )
    found = section_of(work_out(plan), "d2")
    _, roll, run = found.legs
    assert (roll.begins, roll.ends, roll.z1 - roll.z0) == (49.0, pytest.approx(53.0), pytest.approx(4.0))
    assert (run.begins, run.ends) == (pytest.approx(53.0), pytest.approx(49.0 + 34.25))
    assert run.z1 - run.z0 == pytest.approx((34.25 - 4.0) / 48.0)


@pytest.mark.parametrize(
    ("passing", "down", "keeps"),
    [
        ("through", 4.0, ((0.0, -2.0), (-7.25, -9.25))),
        # all of the joist must stay where the pipe hangs under it
        ("under", 10.0, ((0.0, -9.25),)),
        # a notch may be a sixth of the depth deep (IRC 2021 R502.8.1): 9.25 / 6
        ("notched", 8.9, ((0.0, -9.25 + 9.25 / 6.0),)),
    ],
)
def test_what_must_stay_of_a_joist(hand_floor: Floor, passing, down: float, keeps) -> None:
    tube = Supply(
        id="c1", water="cold", points=((50.0, 40.0), (76.0, 40.0)), down=down, insulation=0.0, passing=passing
    )
    found = section_of(work_out(msgspec.structs.replace(hand_floor(), supplies=(tube,))), "c1")
    (wood,) = found.woods
    assert wood.station == 14.0
    assert list(wood.keeps) == [pytest.approx(pair) for pair in keeps]
    assert (found.exit, found.fall, wood.z) == (None, 0.0, -down)


def test_engineered_wood_must_stay_whole(hand_floor: Floor) -> None:
    plan = hand_floor()
    fields = (msgspec.structs.replace(plan.fields[0], member="engineered"),)
    woods = section_of(work_out(msgspec.structs.replace(plan, fields=fields)), "d2").woods
    assert {wood.keeps for wood in woods} == {((0.0, -9.25),)}


def test_a_line_over_two_fields_tells_the_depth_of_each(hand_floor: Floor) -> None:
    plan = hand_floor()
    fields = (
        JoistField(id="f1", corner=(0.0, 0.0), size=(56.0, 108.0), lumber="2x10", first=16.0),
        JoistField(id="f2", corner=(56.0, 0.0), size=(64.0, 108.0), lumber="2x8", first=8.0),
    )
    found = section_of(work_out(msgspec.structs.replace(plan, fields=fields)), "d2")
    assert [bay.depth for bay in found.bays] == [9.25, 7.25]
    assert found.bays[0].ends == found.bays[1].begins == pytest.approx(42.0 + 9.899495 + 13.0, abs=1e-5)


def test_what_reaches_no_exit_has_no_section(hand_floor: Floor) -> None:
    plan = hand_floor(lavatory=False)
    lost = Drain(id="d9", points=((90.0, 60.0), (90.0, 20.0)), size="2")
    plan = msgspec.structs.replace(plan, drains=(*plan.drains, lost), exits=(*plan.exits, Exit(id="x9", at=(5.0, 5.0))))
    plan = msgspec.structs.replace(
        plan, fixtures=(*plan.fixtures, Fixture(id="wh1", kind="water_heater", at=(9.0, 9.0)))
    )
    model = work_out(plan)
    assert [long_section(model, element(plan, name)) for name in ("d9", "x9", "wh1", "w1")] == [None] * 4


def follows_from(wood: Wood, found: LongSection) -> bool:
    return any(leg.begins - 1e-6 <= wood.station <= leg.ends + 1e-6 for leg in found.legs)


def in_wood(leg: Leg, joist: Joist) -> list[float]:
    """The distances at which a leg's axis lies inside a joist, looked for place by place."""
    found = []
    for number in range(PLACES + 1):
        share = number / PLACES
        x, y = (a + share * (b - a) for a, b in zip(leg.start, leg.end, strict=True))
        dx, dy = x - joist.start[0], y - joist.start[1]
        u, v = dx * joist.along[0] + dy * joist.along[1], dx * joist.along[1] - dy * joist.along[0]
        if HAIR < u < joist.length - HAIR and abs(v) < joist.thickness / 2.0 - HAIR:
            found.append(leg.begins + share * (leg.ends - leg.begins))
    return found


def in_one_hole(model: Model, found: LongSection, extra: set[str]) -> bool:
    """Whether crossings of other pipes are of such as meet the line inside the wood."""
    ends = {line.id: {line.start[:2], line.end[:2]} for line in model.lines}
    own = {end for leg in found.legs for end in ends.get(leg.pipe, ())}
    return all(ends[name.partition("@")[0]] & own for name in extra)


def check_any(plan: Plan, apart: bool = True) -> int:
    """Everything that must hold of every section of a plan; how many there were. `apart`: no pipe lies in another."""
    model = work_out(plan)
    by_pipe: dict[str, list[str]] = {}
    for crossing in model.crossings:
        by_pipe.setdefault(crossing.pipe, []).append(crossing.id)
    made = 0
    for kind in (plan.drains, plan.fixtures, plan.risers, plan.exits, plan.supplies, plan.vents, plan.cleanouts):
        for one in kind:
            found = long_section(model, one)
            if found is None:
                continue
            made += 1
            ends = [place for leg in found.legs for place in (leg.begins, leg.ends)]
            assert ends == sorted(ends), "distances grow from the exit up"
            assert ends[0] == 0.0
            assert ends[-1] == pytest.approx(found.length)
            assert len({leg.pipe for leg in found.legs}) == len(found.legs)
            wanted = sorted(name for leg in found.legs for name in by_pipe.get(leg.pipe, ()))
            shown = [wood.crossing for wood in found.woods]
            assert len(set(shown)) == len(shown), "each crossing once"
            assert set(wanted) <= set(shown), "each crossing of the line"
            assert in_one_hole(model, found, set(shown) - set(wanted))
            assert all(follows_from(wood, found) for wood in found.woods)
            stations = [wood.station for wood in found.woods]
            assert stations == sorted(stations)
            for before, after in zip(found.legs, found.legs[1:], strict=False):
                assert before.ends == pytest.approx(after.begins)
                assert before.z1 == pytest.approx(after.z0)
            for leg in found.legs:
                for joist in model.framing.joists if apart else ():
                    for station in in_wood(leg, joist):
                        there = [wood for wood in found.woods if wood.joist == joist.id]
                        assert any(wood.begins - HAIR <= station <= wood.ends + HAIR for wood in there), (
                            "where the axis is in wood, wood is shown"
                        )
                assert leg.shape != "plumb" or leg.begins == leg.ends
    return made


def test_two_runs_that_meet_head_on_in_a_joist_have_one_hole(hand_floor: Floor) -> None:
    """The exit stands in joist 3 (x 48): the hole belongs to one run, and the lines of both show it."""
    plan = hand_floor(lavatory=False)
    west = Drain(id="d1", points=((20.0, 50.0), (48.0, 50.0)), size="2")
    east = Drain(id="d2", points=((60.0, 50.0), (48.0, 50.0)), size="2")
    exits = (msgspec.structs.replace(plan.exits[0], at=(48.0, 50.0), pinned_z=-5.0),)
    model = work_out(msgspec.structs.replace(plan, drains=(west, east), exits=exits, fixtures=()))
    (hole,) = [crossing.id for crossing in model.crossings if crossing.joist == "f1.3"]
    for name in ("d1", "d2"):
        wood = section_of(model, name).woods[0]
        assert (wood.crossing, wood.words) == (hole, "joist 3")
        assert wood.ends == pytest.approx(0.75)


@given(drawn_plans.plans())
@settings(deadline=None, max_examples=40, suppress_health_check=[HealthCheck.too_slow])
def test_any_plan_has_sound_sections(plan: Plan) -> None:
    check_any(msgspec.structs.replace(plan, amendments=()))


@given(coarse_plans.bathrooms())
@settings(deadline=None, max_examples=40, suppress_health_check=[HealthCheck.too_slow])
def test_any_bathroom_has_sound_sections(plan: Plan) -> None:
    assert check_any(plan) or not plan.exits or not plan.drains


@given(coarse_plans.plans())
@settings(deadline=None, max_examples=60, suppress_health_check=[HealthCheck.too_slow])
def test_any_coarse_plan_has_sound_sections(plan: Plan) -> None:
    check_any(plan, apart=False)
