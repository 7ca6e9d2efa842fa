"""Every crossing is found: against shapely's intersections, pair by pair, and under turns and mirrors of the floor."""

import itertools
import math
import random
from collections.abc import Callable

import hypothesis.strategies as st
import pytest
import shapely
from hypothesis import given, settings
from msgspec.structs import replace

from engine.crossings.find import find, lines_under
from engine.crossings.stretches import stretches
from engine.framing.layout import lay_out
from engine.framing.records import Framing, Joist
from engine.framing.shadow import band
from engine.piping.records import Network, Pipe
from engine.plan.records import Beam, Floor, FloorOpening, JoistField, Plan, Supply
from engine.rulebooks import load

BOOK = load("irc-2021")
Run = Callable[..., list[Pipe]]
OUTLINE = ((0.0, 0.0), (1.0, 0.0), (0.0, 1.0))

place = st.integers(-20 * 16, 140 * 16).map(lambda n: n / 16)
spot = st.tuples(place, place)
coarse = st.tuples(st.integers(-2, 18).map(lambda n: 8.0 * n), st.integers(-2, 18).map(lambda n: 8.0 * n))
path = st.lists(spot | coarse, min_size=2, max_size=6).map(
    lambda points: tuple(p for n, p in enumerate(points) if n == 0 or p != points[n - 1])
)
paths = st.lists(path.filter(lambda points: len(points) > 1), min_size=1, max_size=12)
fields = st.lists(
    st.builds(
        JoistField,
        id=st.just("F"),
        corner=st.tuples(place, place),
        size=st.tuples(st.integers(12, 120).map(float), st.integers(12, 120).map(float)),
        spacing=st.sampled_from([12.0, 16.0, 19.2, 24.0]),
        direction=st.sampled_from(["north-south", "east-west"]),
    ),
    min_size=1,
    max_size=2,
)


def plan_of(laid: list[JoistField], drawn: list[tuple[tuple[float, float], ...]]) -> tuple[Plan, Framing]:
    named = tuple(
        JoistField(f"F{n}", f.corner, f.size, spacing=f.spacing, direction=f.direction) for n, f in enumerate(laid)
    )
    supplies = tuple(Supply(f"s{n}", "cold", points, insulation=0.0) for n, points in enumerate(drawn))
    plan = Plan(floor=Floor(outline=OUTLINE), fields=named, supplies=supplies)
    return plan, lay_out(plan)


def box_of(joist: Joist) -> shapely.Polygon:
    half = joist.thickness / 2.0
    wide, high = abs(joist.along[1]) * half, abs(joist.along[0]) * half
    return shapely.box(joist.start[0] - wide, joist.start[1] - high, joist.end[0] + wide, joist.end[1] + high)


@settings(max_examples=150, deadline=None)
@given(fields, paths)
def test_every_stretch_is_found_and_no_other(
    laid: list[JoistField], drawn: list[tuple[tuple[float, float], ...]]
) -> None:
    plan, framing = plan_of(laid, drawn)
    lines = lines_under(Network(), plan)
    expected: dict[tuple[int, int], float] = {}
    for i, line in enumerate(lines):
        axis = shapely.LineString([line.start[:2], line.end[:2]])
        for j, joist in enumerate(framing.joists):
            length = axis.intersection(box_of(joist)).length
            if length > 1e-6:
                expected[i, j] = length
    found = {(s.line, s.joist): s.leaves - s.enters for s in stretches(lines, framing.joists)}
    assert found.keys() == expected.keys()
    for pair, length in expected.items():
        assert found[pair] == pytest.approx(length, abs=1e-6)


beams = st.lists(
    st.builds(
        Beam,
        id=st.just("B"),
        start=spot | coarse,
        end=spot | coarse,
        width=st.sampled_from([1.5, 3.5, 6.0]),
        top_z=st.sampled_from([None, 0.0, -3.0]),
    ),
    max_size=2,
).map(lambda found: [beam for beam in found if beam.start != beam.end])
openings = st.lists(
    st.builds(
        FloorOpening,
        id=st.just("O"),
        start=spot,
        end=spot,
        headers=st.integers(1, 2),
        trimmers=st.integers(1, 2),
    ),
    max_size=2,
).map(lambda found: [one for one in found if one.start[0] != one.end[0] and one.start[1] != one.end[1]])


@settings(max_examples=150, deadline=None)
@given(fields, beams, openings, st.lists(st.integers(0, 100).map(float), max_size=2), paths)
def test_none_is_missed_among_headers_blocks_and_beams_under_and_among_joists(
    laid: list[JoistField],
    under: list[Beam],
    framed: list[FloorOpening],
    blocking: list[float],
    drawn: list[tuple[tuple[float, float], ...]],
) -> None:
    """All that is framed and lies under the floor, whichever way, against shapely pair by pair."""
    plan, _ = plan_of(laid, drawn)
    plan = replace(
        plan,
        fields=tuple(replace(field, blocking=tuple(blocking)) for field in plan.fields),
        beams=tuple(replace(beam, id=f"B{n}") for n, beam in enumerate(under)),
        floor_openings=tuple(replace(one, id=f"O{n}") for n, one in enumerate(framed)),
    )
    framing = lay_out(plan)
    lines = lines_under(Network(), plan)
    found = {(s.line, s.joist) for s in stretches(lines, framing.members)}
    for i, line in enumerate(lines):
        axis = shapely.LineString([line.start[:2], line.end[:2]])
        for j, member in enumerate(framing.members):
            length = axis.intersection(shapely.Polygon(band(member.start, member.end, member.thickness))).length
            if length > 1e-5:
                assert (i, j) in found, (line.id, member.id)
            elif length == 0.0:
                assert (i, j) not in found, (line.id, member.id)


@settings(max_examples=150, deadline=None)
@given(fields, paths)
def test_one_crossing_for_each_connected_stretch_of_a_run(
    laid: list[JoistField], drawn: list[tuple[tuple[float, float], ...]]
) -> None:
    plan, framing = plan_of(laid, drawn[:1])
    pairs = list(itertools.pairwise(drawn[0]))
    expected = 0
    for joist in framing.joists:
        box = box_of(joist)
        inside = [n for n, pair in enumerate(pairs) if shapely.LineString(pair).intersection(box).length > 1e-6]
        group = {n: n for n in inside}
        for point in {point for point in drawn[0] if box.intersects(shapely.Point(point))}:
            meeting = {group[n] for n in inside if point in pairs[n]}
            group = {n: min(meeting) if g in meeting else g for n, g in group.items()}
        expected += len(set(group.values()))
    assert len(find(Network(), plan, framing, BOOK)) == expected


OFF_THE_MARKS = math.pi * 1e-7
"""Added before rounding, since sums of sixteenths often stand halfway between two decimals."""


def summary(plan: Plan) -> list[tuple[object, ...]]:
    def told(value: float) -> float:
        return round(value + OFF_THE_MARKS, 6)

    found = find(Network(), plan, lay_out(plan), BOOK)
    return sorted(
        (c.element, told(c.skew), c.straight, told(c.leaves - c.enters), told(c.run_along), c.low or 0.0) for c in found
    )


Move = Callable[[tuple[float, float]], tuple[float, float]]
MOVES: dict[str, tuple[Move, bool]] = {
    "shifted": (lambda p: (p[0] + 37.0, p[1] - 11.5), False),
    "mirrored east to west": (lambda p: (120.0 - p[0], p[1]), False),
    "mirrored south to north": (lambda p: (p[0], 108.0 - p[1]), False),
    "turned a quarter": (lambda p: (-p[1], p[0]), True),
}


@pytest.mark.parametrize("how", MOVES)
@settings(max_examples=60, deadline=None)
@given(drawn=paths)
def test_moving_the_whole_floor_changes_no_crossing(how: str, drawn: list[tuple[tuple[float, float], ...]]) -> None:
    move, turned = MOVES[how]
    # joists symmetrical in the field, so that a mirror image is a field of the same kind
    first = 12.0
    plain = JoistField("F", (0.0, 0.0), (120.0, 108.0), first=first)
    a, b = move((0.0, 0.0)), move((120.0, 108.0))
    size = (108.0, 120.0) if turned else (120.0, 108.0)
    moved = JoistField(
        "F",
        (min(a[0], b[0]), min(a[1], b[1])),
        size,
        first=first,
        direction="east-west" if turned else "north-south",
    )
    supplies = tuple(Supply(f"s{n}", "cold", points, insulation=0.0) for n, points in enumerate(drawn))
    others = tuple(Supply(s.id, "cold", tuple(move(p) for p in s.points), insulation=0.0) for s in supplies)
    one = Plan(floor=Floor(outline=OUTLINE), fields=(plain,), supplies=supplies)
    two = Plan(floor=Floor(outline=OUTLINE), fields=(moved,), supplies=others)
    assert summary(one) == summary(two)


@pytest.mark.parametrize("seed", range(8))
def test_sixty_pipes_at_any_angle_over_thirty_joists(seed: int, run: Run) -> None:
    chance = random.Random(seed)
    field = JoistField("F", (0.0, 0.0), (360.0, 144.0), spacing=12.0)
    framing = lay_out(Plan(floor=Floor(outline=OUTLINE), fields=(field,)))
    network = Network()
    pipes: list[Pipe] = []
    for n in range(60):
        angle, length = chance.uniform(0.0, 2.0 * math.pi), chance.uniform(1.0, 200.0)
        x, y = chance.uniform(0.0, 360.0), chance.uniform(0.0, 144.0)
        pipes += run(f"d{n}", [(x, y), (x + length * math.cos(angle), y + length * math.sin(angle))])
    network.pipes = tuple(pipes)
    found = {(c.pipe, c.joist): c for c in find(network, Plan(floor=Floor(outline=OUTLINE)), framing, BOOK)}
    for pipe in pipes:
        axis = shapely.LineString([pipe.start[:2], pipe.end[:2]])
        for joist in framing.joists:
            inside = axis.intersection(box_of(joist))
            crossing = found.pop((pipe.id, joist.id), None)
            assert (crossing is not None) == (inside.length > 1e-6)
            if crossing is not None:
                assert crossing.leaves - crossing.enters == pytest.approx(inside.length, abs=1e-6)
                assert axis.interpolate(crossing.position).distance(shapely.Point(crossing.at)) < 1e-6
    assert not found
