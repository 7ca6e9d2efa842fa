"""No pipe goes unheld: the spacing of supports on any run and on any plan. Spacings: IRC 2021 Table P2605.1, UPC Table 313.3."""

from __future__ import annotations

from itertools import pairwise

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st
from msgspec.structs import replace

from engine.checks.holding import spacing_key
from engine.checks.model import Model
from engine.plan.records import Plan
from engine.study import work_out
from engine.takeoff.places import places
from engine.takeoff.runs import Run, runs
from engine.takeoff.standing import fittings_under, hubs
from engine.takeoff.supports import supports
from engine.trade.sundries import hanger_near_branch
from tests.engine import coarse_plans
from tests.engine.plan import drawn_plans

slow = settings(deadline=None, max_examples=60, suppress_health_check=[HealthCheck.too_slow])
HAIR = 1e-5
LIMIT, NEAR = 48.0, 6.0

distances = st.integers(1, 600 * 16).map(lambda sixteenths: sixteenths / 16.0)


@given(
    corners=st.lists(distances, min_size=1, max_size=5, unique=True).map(lambda found: [0.0, *sorted(found)]),
    held=st.lists(distances, max_size=8),
    hooks=st.lists(distances, max_size=20),
    both=st.booleans(),
)
def test_no_gap_is_over_the_limit_and_each_end_has_one_near(
    corners: list[float], held: list[float], hooks: list[float], both: bool
) -> None:
    length = corners[-1]
    held = sorted(place for place in held if place <= length)
    hooks = sorted({place for place in hooks if place <= length})
    every = sorted([*held, *places(held, hooks, corners, LIMIT, NEAR, both_sides=lambda _: both)])
    assert all(b - a <= LIMIT + HAIR for a, b in pairwise(every))
    assert every[0] <= NEAR + HAIR
    assert every[-1] >= length - NEAR - HAIR
    for corner in corners:
        assert min(abs(place - corner) for place in every) <= NEAR + HAIR
    if both:
        assert all(any(0.0 <= place - corner <= NEAR + HAIR for place in every) for corner in corners[:-1])
        assert all(any(0.0 <= corner - place <= NEAR + HAIR for place in every) for corner in corners[1:])


def test_at_the_limit_nothing_is_added_and_a_sixteenth_past_it_one_is() -> None:
    at, past = [0.0, LIMIT], [0.0, LIMIT + 1 / 16]
    assert places(at, [], at, LIMIT, NEAR) == []
    assert places(past, [], past, LIMIT, NEAR) == [pytest.approx(24.0 + 1 / 32)]


def test_a_joist_in_reach_is_taken_before_the_middle_of_a_bay() -> None:
    ends = [0.0, 90.0]
    assert places(ends, [10.0, 26.0, 42.0, 58.0], ends, LIMIT, NEAR) == [42.0]


def test_a_place_in_a_hub_moves_out_of_it() -> None:
    ends = [0.0, 90.0]
    assert places(ends, [], ends, LIMIT, NEAR) == [45.0]
    assert places(ends, [], ends, LIMIT, NEAR, hubs=[(44.0, 47.0)]) == [44.0]
    # a fitting of 8 in at the end pushes its support to its hub's end
    assert places([90.0], [], ends, LIMIT, NEAR, hubs=[(0.0, 8.0)])[0] == 8.0


@slow
@given(drawn_plans.plans(), st.sampled_from(("irc-2021", "upc-2021")))
def test_every_run_of_a_random_plan_is_held(plan: Plan, book: str) -> None:
    assert_held(work_out(replace(plan, rulebook=book, amendments=())))


@slow
@given(coarse_plans.plans())
def test_every_run_of_a_plan_where_pipes_meet_is_held(plan: Plan) -> None:
    assert_held(work_out(replace(plan, amendments=())))


def assert_held(model: Model) -> None:
    found = supports(model)
    bases = [one.at for one in found if one.kind == "base"]
    for run in runs(model):
        pipes = {stretch.pipe for stretch in run.stretches}
        others = ("bend support", "sway brace", "base", "nothing")
        kinds = [one.along for one in found if one.pipe in pipes and one.kind not in others]
        bare = [one.along for one in found if one.pipe in pipes and one.kind == "nothing"]
        assert all("held by nothing for" in one.remark for one in found if one.pipe in pipes and one.kind == "nothing")
        ends = [(0.0, run.stretches[0].start), *((s.begins + s.length, s.end) for s in run.stretches)]
        feet = [] if run.material == "PEX" else [along for along, point in ends if point in bases]
        every = sorted([*kinds, *feet])
        # a joist's face is near enough, so half of the thickest one counts: a doubled one is 3 in
        half = max((model.joists[crossing.joist].thickness for _, crossing in run.crossings), default=1.5) / 2.0
        reach = hanger_near_branch() + half + _widest(model, run) + HAIR
        limit = model.book.number(spacing_key(run.material, run.size, "horizontal"))
        # a gap is wider only where it is told that nothing has room in it
        gaps = [(0.0, every[0], reach), (run.length, every[-1], reach)] if every else [(0.0, run.length, 0.0)]
        gaps += [(a, b, limit) for a, b in pairwise(every)]
        for a, b, most in gaps:
            told = any(min(a, b) <= place <= max(a, b) for place in bare)
            assert abs(b - a) <= most + HAIR or told, run.element


def _widest(model: Model, run: Run) -> float:
    """How far the run's largest fitting reaches along it."""
    return max((high - low for low, high in hubs(fittings_under(model), run)), default=0.0)
