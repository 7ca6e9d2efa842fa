"""No block, strip, packer or base reaches into another pipe, other wood or another support: on the samples and on any plan.

The wood is built anew from what a support tells (its joists, distances, lengths and heights), and each pipe is walked along
in small steps: nothing of the engine's own search is used.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Iterator
from itertools import combinations
from pathlib import Path

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st
from msgspec.structs import replace

from engine.checks.clashes import pipes_under_floor
from engine.checks.model import Model
from engine.framing.records import Joist
from engine.plan.file import read
from engine.plan.records import Beam, Plan, Supply
from engine.study import work_out
from engine.takeoff.records import Support
from engine.takeoff.supports import supports
from tests.engine import coarse_plans
from tests.engine.plan import drawn_plans

SAMPLES = sorted((Path(__file__).resolve().parents[3] / "samples").glob("*.jway"))
THICK, WIDE = 1.5, 3.5
"""A 2x4 laid flat."""
TOUCHES = 1 / 16 + 1e-6
STEP = 0.125

slow = settings(deadline=None, max_examples=40, suppress_health_check=[HealthCheck.too_slow])
Solid = tuple[tuple[float, float], tuple[float, float], tuple[float, float]]


@pytest.mark.parametrize("path", SAMPLES, ids=lambda path: path.stem)
def test_in_every_sample(path: Path) -> None:
    assert_clear(work_out(read(path)))


@slow
@given(coarse_plans.plans())
def test_in_any_plan_where_pipes_meet(plan: Plan) -> None:
    assert_clear(work_out(replace(plan, amendments=())))


@slow
@given(drawn_plans.plans())
def test_in_any_plan(plan: Plan) -> None:
    assert_clear(work_out(replace(plan, amendments=())))


quarters = st.integers(8, 380).map(lambda n: n / 4.0)
tubes = st.lists(
    st.builds(
        lambda x, y, way, length, down: (x, y, way, length, down),
        quarters,
        quarters,
        st.sampled_from(("north", "east")),
        st.integers(12, 60),
        st.integers(16, 200).map(lambda n: n / 16.0),
    ),
    min_size=3,
    max_size=10,
)


@settings(slow, suppress_health_check=[HealthCheck.too_slow, HealthCheck.function_scoped_fixture])
@given(tubes, st.floats(-14.0, -7.2), st.booleans())
def test_in_a_floor_crossed_by_tubes_at_any_height(
    hand_floor: Callable[..., Plan], drawn: list[tuple[float, float, str, int, float]], exit_z: float, girder: bool
) -> None:
    supplies = tuple(
        Supply(f"c{n}", "cold", ((x, y), (x, y + length) if way == "north" else (x + length, y)), down=down)
        for n, (x, y, way, length, down) in enumerate(drawn)
    )
    plan = hand_floor(pinned=exit_z)
    drains = tuple(replace(drain, passing="under") for drain in plan.drains) if exit_z < -9.0 else plan.drains
    beams = (Beam("b1", (0.0, 54.0), (120.0, 54.0)),) if girder else ()
    assert_clear(work_out(replace(plan, supplies=supplies, drains=drains, beams=beams)))


def assert_clear(model: Model) -> None:
    placed = [(one, solid) for one in supports(model) if (solid := wood(model, one)) is not None]
    for (one, a), (other, b) in combinations(placed, 2):
        assert not meet(a, b), (one.mark, other.mark)
    for one, solid in placed:
        joists = set(one.bay or ())
        for joist in model.framing.members:
            if joist.id not in joists and (upright := timber(joist)) is not None:
                assert not meet(solid, upright), (one.mark, joist.id)
        carried = feet(model, one) if one.kind == "base" else {one.pipe}
        for pipe in pipes_under_floor(model):
            if pipe.known and pipe.pipe not in carried:
                near = min(from_solid(point, solid) for point in walked(pipe.start, pipe.end))
                assert near >= pipe.covered - TOUCHES, (one.mark, pipe.pipe)


def wood(model: Model, one: Support) -> Solid | None:
    """The block, strip or packer of a support as a box: across x, y and height."""
    if one.block_top is None or one.bay is None or one.off is None:
        return None
    first, second = (model.joists[name] for name in one.bay)
    axis = 0 if first.along[1] else 1
    face = first.start[axis] + first.thickness / 2
    far = second.start[axis] - second.thickness / 2
    top = -one.block_top
    if one.packer is not None:
        across, high = (face + one.off - WIDE / 2, face + one.off + WIDE / 2), (top - one.packer, top)
    else:
        assert one.block is not None
        across = (far - one.block, far) if one.block_from == second.id else (face, face + one.block)
        high = (top - THICK, top)
    middle = one.at[1 - axis] + one.block_aside
    low, end = ends(model, one, axis)
    middle = min(max(middle, low + WIDE / 2), max(low + WIDE / 2, end - WIDE / 2))
    along = (middle - WIDE / 2, middle + WIDE / 2)
    return (across, along, high) if axis == 0 else (along, across, high)


def ends(model: Model, one: Support, axis: int) -> tuple[float, float]:
    """How far the bay reaches along its joists: to their ends, and to the blocks and headers nearest to the place."""
    first, second = (model.joists[name] for name in one.bay or ())
    other = 1 - axis
    low, high = max(first.start[other], second.start[other]), min(first.end[other], second.end[other])
    for joist in model.framing.joists:
        crosses = joist.kind in ("header", "block") and abs(joist.along[axis]) > 0.5
        start, end = sorted((joist.start[axis], joist.end[axis]))
        if crosses and start < second.start[axis] and end > first.start[axis]:
            if joist.start[other] < one.at[other]:
                low = max(low, joist.start[other] + joist.thickness / 2)
            else:
                high = min(high, joist.start[other] - joist.thickness / 2)
    return low, high


def timber(joist: Joist) -> Solid | None:
    """A piece of the floor's wood as a box; None for one that lies aslant."""
    if abs(joist.along[0]) > 1e-9 and abs(joist.along[1]) > 1e-9:
        return None
    half = joist.thickness / 2
    east, north = (0.0, half) if abs(joist.along[0]) > 0.5 else (half, 0.0)
    (x0, x1), (y0, y1) = (sorted(pair) for pair in zip(joist.start, joist.end, strict=True))
    return (x0 - east, x1 + east), (y0 - north, y1 + north), (joist.bottom, joist.top)


def feet(model: Model, one: Support) -> set[str]:
    """The pipes that meet in the fitting which a base carries, and the plumb ones over it."""
    return {
        pipe.id
        for pipe in model.network.pipes
        for node in (pipe.start, pipe.end)
        if (node.x, node.y) == one.at and node in model.heights
    }


def meet(a: Solid, b: Solid) -> bool:
    return all(min(p[1], q[1]) - max(p[0], q[0]) > TOUCHES for p, q in zip(a, b, strict=True))


def walked(start: tuple[float, ...], end: tuple[float, ...]) -> Iterator[tuple[float, ...]]:
    steps = max(1, math.ceil(math.dist(start, end) / STEP))
    for n in range(steps + 1):
        yield tuple(a + (b - a) * n / steps for a, b in zip(start, end, strict=True))


def from_solid(point: tuple[float, ...], solid: Solid) -> float:
    return math.hypot(*(max(low - p, p - high, 0.0) for p, (low, high) in zip(point, solid, strict=True)))
