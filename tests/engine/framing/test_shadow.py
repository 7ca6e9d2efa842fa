"""Bodies over wood in plan: against shapely, and by hand. Joist: north-south, x 48, 1-1/2 thick, y 1.5 to 106.5."""

import math

import hypothesis.strategies as st
import pytest
import shapely
from hypothesis import given

from engine.framing import shadow
from engine.framing.layout import lay_out
from engine.framing.records import Joist
from engine.plan.records import Floor, JoistField, Plan


def joist_of(direction: str = "north-south") -> Joist:
    field = JoistField("F", (0.0, 0.0), (120.0, 108.0), direction=direction)  # type: ignore[arg-type]
    plan = Plan(floor=Floor(outline=((0.0, 0.0), (1.0, 0.0), (0.0, 1.0))), fields=(field,))
    return next(joist for joist in lay_out(plan).joists if joist.id == "F.3")


def box_of(joist: Joist) -> shapely.Polygon:
    half = joist.thickness / 2.0
    wide, high = abs(joist.along[1]) * half, abs(joist.along[0]) * half
    return shapely.box(joist.start[0] - wide, joist.start[1] - high, joist.end[0] + wide, joist.end[1] + high)


near = st.tuples(st.floats(35.0, 60.0), st.floats(-8.0, 116.0))
directions = st.sampled_from(["north-south", "east-west"])


@given(directions, near, near)
def test_gap_is_the_distance_in_plan(direction: str, a: tuple[float, float], b: tuple[float, float]) -> None:
    joist = joist_of(direction)
    if direction == "east-west":
        a, b = a[::-1], b[::-1]
    line = shapely.LineString([a, b]) if a != b else shapely.Point(a)
    assert shadow.gap(joist, a, b) == pytest.approx(line.distance(box_of(joist)), abs=1e-9)


@given(directions, near, near, st.floats(0.3, 3.0))
def test_every_way_clear_is_clear_and_the_least_is_the_overlap(
    direction: str, a: tuple[float, float], b: tuple[float, float], radius: float
) -> None:
    joist = joist_of(direction)
    over = shadow.overlap(joist, a, b, radius)
    for dx, dy in shadow.ways_clear(joist, a, b, radius):
        moved = ((a[0] + dx, a[1] + dy), (b[0] + dx, b[1] + dy))
        assert shadow.gap(joist, *moved) >= radius - 1e-9
        assert over <= math.hypot(dx, dy) + 1e-9 or over == 0.0
    assert (over > 0.0) is (shadow.gap(joist, a, b) < radius)


@pytest.mark.parametrize(
    ("point", "radius", "expected"),
    [
        ((50.0, 50.0), 0.95, 0.0),  # 1.25 from the face
        ((49.7, 50.0), 0.95, 0.0),  # 0.95: touches
        ((49.0, 50.0), 0.95, 0.7),  # 0.25 from the face
        ((48.0, 50.0), 1.75, 2.5),  # on the centre line: 1.75 + 0.75
        ((48.0, 107.0), 0.95, 0.45),  # 1/2 past the joist's north end
        ((49.5, 107.25), 1.0, 0.0),  # 1.06 from the corner
    ],
)
def test_overlap_by_hand(point: tuple[float, float], radius: float, expected: float) -> None:
    assert shadow.overlap(joist_of(), point, point, radius) == pytest.approx(expected, abs=1e-9)


@pytest.mark.parametrize(
    ("start", "end", "radius", "expected"),
    [
        ((50.0, 20.0), (50.0, 60.0), 1.75, 0.5),  # beside it, 1.25 from the face
        ((46.0, 20.0), (46.0, 60.0), 1.75, 0.5),
        ((50.5, 20.0), (50.5, 60.0), 1.75, 0.0),  # touches
        ((48.5, 20.0), (48.5, 60.0), 1.75, 0.0),  # the axis itself is in the wood
        ((60.0, 50.0), (49.0, 50.0), 0.95, 0.0),  # square to it and short of it: its end is a fitting's affair
        ((50.0, 110.0), (50.0, 130.0), 1.75, 0.0),  # past its end
        ((35.0, 0.75), (48.0, 0.75), 0.75, 0.0),  # along its end, which it touches
        ((35.0, 0.5), (55.0, 0.5), 1.25, 0.25),  # along its end, 1/4 in over it
    ],
)
def test_side_in_wood_by_hand(
    start: tuple[float, float], end: tuple[float, float], radius: float, expected: float
) -> None:
    assert shadow.side_in_wood(joist_of(), start, end, radius) == pytest.approx(expected, abs=1e-9)
    assert shadow.side_in_wood(joist_of(), end, start, radius) == pytest.approx(expected, abs=1e-9)


@given(near, near, st.floats(0.3, 3.0))
def test_side_in_wood_is_found_wherever_the_flat_ended_pipe_covers_wood(
    a: tuple[float, float], b: tuple[float, float], radius: float
) -> None:
    if math.dist(a, b) < 0.5:
        return
    joist = joist_of()
    body = shapely.LineString([a, b]).buffer(radius, cap_style="flat")
    covered = body.intersection(box_of(joist)).area
    crosses = shapely.LineString([a, b]).intersects(box_of(joist))
    found = shadow.side_in_wood(joist, a, b, radius)
    if crosses or covered == 0.0:
        assert found == pytest.approx(0.0, abs=1e-6)
    elif covered > 1e-6:
        assert found > 0.0
