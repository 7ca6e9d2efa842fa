"""Random floors with openings, blocks and beams: no wood is in two places, none is missing, a mirror shows the same."""

from __future__ import annotations

import itertools

from hypothesis import given, settings
from hypothesis import strategies as st
from msgspec.structs import replace
from shapely.geometry import Polygon
from shapely.ops import unary_union

from engine.framing.layout import lay_out
from engine.framing.shadow import band
from engine.plan import edits
from engine.plan.records import (
    Beam,
    Floor,
    FloorOpening,
    JoistField,
    Plan,
)
from tests.engine.framing.laid_floors import wood_of


@st.composite
def floors(draw: st.DrawFn) -> Plan:
    """Fields with openings that lie apart, doubled joists and blocks."""
    width, length = draw(st.integers(96, 240)), draw(st.integers(96, 240))
    openings = []
    for number in range(draw(st.integers(0, 2))):
        x, y = draw(st.integers(0, width // 2 - 40)) + number * width // 2, draw(st.integers(0, length - 40))
        size = draw(st.integers(6, 34)), draw(st.integers(6, 34))
        plies = draw(st.integers(1, 2)), draw(st.integers(1, 2))
        openings.append(FloorOpening(f"o{number}", (x, y), (x + size[0], y + size[1]), *plies))
    direction = draw(st.sampled_from(("north-south", "east-west")))
    field = JoistField(
        "F",
        (0.0, 0.0),
        (float(width), float(length)),
        spacing=draw(st.sampled_from((12.0, 16.0, 24.0))),
        direction=direction,  # type: ignore[arg-type]
        blocking=tuple(draw(st.lists(st.integers(20, 80).map(float), max_size=1))),
        laps=tuple(draw(st.lists(st.integers(20, 220).map(float), max_size=2, unique=True))),
        lap=draw(st.sampled_from((0.0, 3.5, 12.0))),
        lap_moves=draw(st.sampled_from(("north or east", "south or west"))),  # type: ignore[arg-type]
        lap_side=draw(st.sampled_from(("east or north", "west or south"))),  # type: ignore[arg-type]
    )
    outline = ((0.0, 0.0), (float(width), 0.0), (float(width), float(length)), (0.0, float(length)))
    beams = []
    for number in range(draw(st.integers(0, 2))):
        ends = [(draw(st.integers(-10, width + 10)), draw(st.integers(-10, length + 10))) for _ in range(2)]
        if draw(st.booleans()):
            ends[1] = (ends[0][0], ends[1][1]) if draw(st.booleans()) else (ends[1][0], ends[0][1])
        top = draw(st.sampled_from((0.0, 0.0, -3.0, None)))
        if ends[0] != ends[1]:
            wide = draw(st.sampled_from((1.5, 3.5, 6.0)))
            beams.append(Beam(f"b{number}", *((float(x), float(y)) for x, y in ends), width=wide, top_z=top))
    return Plan(floor=Floor(outline=outline), fields=(field,), floor_openings=tuple(openings), beams=tuple(beams))


@given(floors())
@settings(deadline=None, max_examples=150)
def test_no_two_sticks_stand_in_one_place_and_all_stand_on_the_floor(plan: Plan) -> None:
    joists = [joist for joist in lay_out(plan).joists if joist.kind != "trimmer"]
    shapes = wood_of(joists)
    floor = Polygon(plan.floor.outline).buffer(1e-6)
    assert all(floor.covers(shape) for shape in shapes)
    for (one, a), (two, b) in itertools.combinations(zip(joists, shapes, strict=True), 2):
        assert a.intersection(b).area < 1e-6, (one.id, two.id)
    flush = [beam for beam in lay_out(plan).beams if beam.flush]
    for beam, taken in zip(flush, wood_of(flush), strict=True):
        for stick, shape in zip(lay_out(plan).joists, wood_of(lay_out(plan).joists), strict=True):
            assert taken.intersection(shape).area < 1e-3, (beam.id, stick.id)


@given(floors())
@settings(deadline=None, max_examples=150)
def test_flush_beams_take_what_they_stand_in_and_no_more(plan: Plan) -> None:
    """Rims and joists, against shapely: each stick without the stretch of it that a beam stands in."""
    plan = replace(plan, floor_openings=(), fields=tuple(replace(field, blocking=()) for field in plan.fields))
    framing = lay_out(plan)
    bare = lay_out(replace(plan, beams=tuple(beam for beam in plan.beams if beam.top_z is None)))
    expected = []
    for stick in bare.joists:
        axis = 0 if stick.along[0] else 1
        left = [(stick.start[axis], stick.end[axis])]
        slim = Polygon(band(stick.start, stick.end, stick.thickness - 2e-6))
        for taken in wood_of([beam for beam in framing.beams if beam.flush]):
            met = slim.intersection(taken)
            if met.bounds and met.bounds[2 + axis] - met.bounds[axis] > 1e-6:
                low, high = met.bounds[axis], met.bounds[2 + axis]
                left = [part for a, b in left for part in ((a, min(b, low)), (max(a, high), b)) if part[0] < part[1]]
        whole = len(left) == 1 and left[0] == (stick.start[axis], stick.end[axis])
        expected += [(stick.start[1 - axis], a, b) for a, b in left if whole or b - a > stick.thickness]
    found = []
    for joist in framing.joists:
        axis = 0 if joist.along[0] else 1
        found.append((joist.start[1 - axis], joist.start[axis], joist.end[axis]))
    assert sorted(tuple(round(x, 3) for x in one) for one in found) == sorted(
        tuple(round(x, 3) for x in one) for one in expected
    )


@given(floors())
@settings(deadline=None, max_examples=100)
def test_a_piece_hangs_where_a_beam_cuts_it_and_every_name_is_given_once(plan: Plan) -> None:
    framing = lay_out(plan)
    assert len({one.id for one in framing.members}) == len(framing.members)
    for joist in framing.joists:
        if joist.runs:
            ends = ((0.0, 0.0), (joist.length, joist.length))
            for beam, end in zip(joist.cut_at, ends, strict=True):
                rests = any(a <= end[0] <= b and b - a > 0.0 for a, b in joist.supports)
                assert not beam or beam in joist.hangers or rests
            assert all(0.0 <= a <= b <= joist.length + 1e-9 for a, b in joist.supports)


@given(floors())
@settings(deadline=None, max_examples=150)
def test_nothing_stands_in_the_clear_way_of_an_opening(plan: Plan) -> None:
    framing = lay_out(plan)
    wood = unary_union(wood_of([joist for joist in framing.joists if joist.kind not in ("rim", "end")]))
    for opening in plan.floor_openings:
        (x0, y0), (x1, y1) = opening.start, opening.end
        way = Polygon(((x0, y0), (x1, y0), (x1, y1), (x0, y1)))
        others = [other for other in plan.floor_openings if other is not opening]
        trimmed = unary_union(
            wood_of([joist for joist in framing.joists if joist.opening in {other.id for other in others}])
        )
        assert wood.difference(trimmed).intersection(way).area < 1e-6


@given(floors())
@settings(deadline=None, max_examples=60)
def test_a_mirrored_floor_is_laid_as_its_mirror(plan: Plan) -> None:
    try:
        seen = edits.mirrored(plan)
    except edits.EditError:
        return
    here = sorted((round(-x, 6), round(y, 6)) for j in lay_out(plan).joists for x, y in (j.start, j.end))
    there = sorted((round(x, 6), round(y, 6)) for j in lay_out(seen).joists for x, y in (j.start, j.end))
    assert here == there
