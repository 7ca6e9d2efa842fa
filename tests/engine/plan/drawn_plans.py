"""Random valid plans and random edits, for properties that must hold for any of them."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

from hypothesis import strategies as st
from msgspec.structs import replace

from engine.plan import edits
from engine.plan.canonical import canonical
from engine.plan.records import (
    KINDS as COLLECTIONS,
)
from engine.plan.records import (
    Amendment,
    Beam,
    Cleanout,
    DoubledJoist,
    Drain,
    Exit,
    Fixture,
    Floor,
    FlooringArea,
    FloorLayer,
    FloorOpening,
    Inlet,
    JoistField,
    JoistShift,
    MeasuredJoist,
    MeasuredTakeOff,
    OnHand,
    PinnedFitting,
    Plan,
    Point,
    Riser,
    Ruling,
    StickForSale,
    Supply,
    Vent,
    Wall,
)

KINDS = ("water_closet", "lavatory", "shower", "bathtub", "kitchen_sink", "washer_standpipe", "water_heater")
SIZES = ("1-1/4", "1-1/2", "2", "3", "4")

SIDES = ("east or north", "west or south")
OUTLINES = (
    ((0.0, 0.0), (240.0, 0.0), (240.0, 180.0), (0.0, 180.0)),
    ((0.0, 0.0), (240.0, 0.0), (240.0, 90.5), (120.25, 90.5), (120.25, 180.0), (0.0, 180.0)),
    ((0.0, 0.0), (240.0, 0.0), (240.0, 100.0), (160.0, 180.0), (0.0, 180.0)),
)
LAYERS = (FloorLayer(0.71875, "plywood"), FloorLayer(0.25))

numbers = st.lists(st.integers(0, 12), max_size=2, unique=True).map(sorted)
coordinates = st.integers(-120 * 1024, 400 * 1024).map(lambda n: n / 1024.0)
points = st.tuples(coordinates, coordinates)
words = st.text(st.characters(exclude_categories=("Cs",)), max_size=12)


def near(pool: list[Point]) -> st.SearchStrategy[Point]:
    """Points of a small pool mostly, so that things weld."""
    return st.one_of(st.sampled_from(pool), st.sampled_from(pool), points)


def paths(pool: list[Point]) -> st.SearchStrategy[tuple[Point, ...]]:
    """Run axes without a point twice."""
    return st.lists(near(pool), min_size=2, max_size=5, unique=True).map(tuple)


@st.composite
def fields(draw: st.DrawFn) -> JoistField:
    """A joist field whose first joist stands no more than a spacing in."""
    spacing = draw(st.sampled_from((12.0, 16.0, 19.2, 24.0)))
    first = draw(st.none() | st.integers(2304, int(spacing * 1024)).map(lambda n: n / 1024.0))
    shifts = draw(st.lists(st.integers(0, 12), max_size=3, unique=True))
    return JoistField(
        "j1",
        draw(points),
        (draw(st.integers(24, 300)) + 0.5, draw(st.integers(24, 300)) + 0.25),
        lumber=draw(st.sampled_from(("2x6", "2x10"))),
        spacing=spacing,
        direction=draw(st.sampled_from(("north-south", "east-west"))),
        first=first,
        bearings=tuple(draw(st.lists(st.floats(0, 24).map(lambda x: round(x, 6)), max_size=2))),
        shifts=tuple(JoistShift(n, draw(st.sampled_from((-2.0, 0.5, 3.25)))) for n in sorted(shifts)),
        doubled=tuple(DoubledJoist(n, side=draw(st.sampled_from(SIDES))) for n in draw(numbers)),  # type: ignore[arg-type]
        measured=tuple(MeasuredJoist(n, 9.5) for n in draw(numbers)),
        overhangs=draw(st.sampled_from(((0.0, 0.0), (12.0, 0.0), (0.0, 18.5)))),
        blocking=tuple(draw(st.lists(st.floats(0, 24).map(lambda x: round(x, 6)), max_size=2))),
        to_outline=draw(st.booleans()),
        species=draw(st.sampled_from((None, "hem-fir"))),
        heavy_finish=draw(st.booleans()),
        graded=draw(st.booleans()),
        overhang_carries=draw(st.sampled_from((None, "floor", "wall and roof"))),
        laps=tuple(draw(st.lists(st.floats(0, 24).map(lambda x: round(x, 6)), max_size=2))),
        lap=draw(st.sampled_from((6.0, 3.5))),
        lap_moves=draw(st.sampled_from(("north or east", "south or west"))),  # type: ignore[arg-type]
        lap_side=draw(st.sampled_from(SIDES)),  # type: ignore[arg-type]
    )


@st.composite
def plans(draw: st.DrawFn) -> Plan:
    """A valid plan of a few of everything, welded here and there."""
    pool = draw(st.lists(points, min_size=3, max_size=8, unique=True))

    def some(make: Callable[[str], Any], letter: str, most: int = 3) -> tuple[Any, ...]:
        return tuple(make(f"{letter}{n + 1}") for n in range(draw(st.integers(0, most))))

    def wall(name: str) -> Wall:
        start, end = draw(st.lists(points, min_size=2, max_size=2, unique=True))
        doubled = tuple(draw(st.lists(st.integers(0, 9), max_size=2, unique=True)))
        return Wall(name, start, end, bearing=draw(st.booleans()), name=draw(words), doubled=doubled)

    def opening(name: str) -> FloorOpening:
        xs, ys = (draw(st.lists(coordinates, min_size=2, max_size=2, unique=True)) for _ in range(2))
        return FloorOpening(
            name, (xs[0], ys[0]), (xs[1], ys[1]), headers=draw(st.integers(1, 3)), open=draw(st.booleans())
        )

    def flooring(name: str) -> FlooringArea:
        xs, ys = (draw(st.lists(coordinates, min_size=2, max_size=2, unique=True)) for _ in range(2))
        layers = draw(st.sampled_from(((), LAYERS)))
        thick = sum(layer.thickness for layer in layers) if layers else draw(st.floats(0, 6))
        return FlooringArea(name, (xs[0], ys[0]), (xs[1], ys[1]), thick, layers, draw(words))

    def beam(name: str) -> Beam:
        start, end = draw(st.lists(points, min_size=2, max_size=2, unique=True))
        return Beam(name, start, end, top_z=draw(st.sampled_from((None, 0.0, -9.25))), bearing=draw(st.booleans()))

    def fixture(name: str) -> Fixture:
        kind = draw(st.sampled_from(KINDS))
        trap = draw(near(pool)) if kind == "bathtub" else None
        return Fixture(name, kind, draw(near(pool)), turn=draw(st.floats(-360, 360)), trap_at=trap)

    def drain(name: str) -> Drain:
        size, slope = draw(st.none() | st.sampled_from(SIZES)), draw(st.none() | st.floats(-12, 12))
        return Drain(name, draw(paths(pool)), size=size, slope=slope, join=draw(st.sampled_from(("flat", "drop"))))

    def vent(name: str) -> Vent:
        return Vent(name, draw(paths(pool)), above_floor=draw(st.sampled_from((None, 42.0, 60.0))))

    def cleanout(name: str) -> Cleanout:
        up, opens = draw(st.sampled_from((None, 14.5))), draw(st.floats(-360, 360))
        return Cleanout(
            name, draw(near(pool)), size=draw(st.none() | st.sampled_from(SIZES)), above_floor=up, turn=opens
        )

    walls = some(wall, "w", 2)
    lengths = st.floats(6, 480).map(lambda inches: round(inches, 4))
    wall_ids = st.none() if not walls else st.none() | st.sampled_from([one.id for one in walls])
    return _canonical(
        Plan(
            floor=Floor(
                draw(st.sampled_from(OUTLINES)), finish=draw(st.floats(0, 6)), subfloor=0.96875, subfloor_layers=LAYERS
            ),
            name=draw(words),
            slope=draw(st.sampled_from((0.125, 0.25, 0.1))),
            fields=(draw(fields()),) if draw(st.booleans()) else (),
            floor_openings=some(opening, "o", 2),
            beams=some(beam, "b", 2),
            flooring_areas=some(flooring, "c", 2),
            walls=walls,
            fixtures=some(fixture, "f"),
            drains=some(drain, "d"),
            vents=some(vent, "v", 2),
            risers=some(lambda name: Riser(name, draw(near(pool)), wall=draw(wall_ids)), "r", 2),
            supplies=some(lambda name: Supply(name, draw(st.sampled_from(("cold", "hot"))), draw(paths(pool))), "s", 2),
            exits=some(lambda name: Exit(name, draw(near(pool))), "x", 1),
            inlets=some(lambda name: Inlet(name, draw(near(pool))), "i", 1),
            fittings=some(lambda name: PinnedFitting(name, draw(near(pool)), "wye"), "p", 1),
            cleanouts=some(cleanout, "k", 2),
            sticks=tuple(StickForSale("3", x) for x in draw(st.lists(lengths, max_size=2, unique=True))),
            on_hand=(OnHand("wye", "2", draw(st.integers(0, 10000))),),
            spares=draw(st.sampled_from((0.1, 0.0, 2.0))),
            takeoffs=(MeasuredTakeOff("wye", "2", "branch", draw(st.floats(-24, 36))),),
            amendments=(Amendment("a.value", draw(st.booleans() | st.floats(-1e9, 1e9) | words)),),
            rulings=some(lambda name: Ruling(name, draw(words), said_by=draw(words)), "d", 1),
        )
    )


def _canonical(plan: Plan) -> Plan:
    things = {kind: tuple(map(canonical, getattr(plan, kind))) for kind in COLLECTIONS}
    return replace(plan, **things)


@st.composite
def edited(draw: st.DrawFn, plan: Plan) -> Plan:
    """The plan after one random edit; the very same when the edit is refused."""
    ids = [element.id for kind in COLLECTIONS for element in getattr(plan, kind)]
    runs = [run.id for run in (*plan.drains, *plan.vents, *plan.supplies)]
    step = st.integers(-5 * 1024, 5 * 1024).map(lambda n: n / 1024.0)
    which = draw(st.integers(0, 12))
    try:
        if which == 0 or not ids:
            return edits.add_new(plan, Drain, points=draw(paths([(0.0, 0.0), (5.0, 5.0)])))
        if which == 1:
            return edits.delete(plan, draw(st.sampled_from(ids)))
        if which in (2, 3, 4):
            chosen = draw(st.lists(st.sampled_from(ids), min_size=1, max_size=3, unique=True))
            return edits.move(plan, chosen, draw(step), draw(step))
        if which == 5:
            return edits.turn(plan, [draw(st.sampled_from(ids))], draw(points), draw(st.integers(0, 3)))
        if which == 6:
            return edits.rename(plan, draw(st.sampled_from(ids)), draw(st.sampled_from(("d7", "f1", "n"))))
        if which == 7:
            return edits.set_floor(plan, finish=draw(st.floats(-1, 7)))
        if not runs:
            return edits.shift(plan, draw(step), draw(step))
        run = draw(st.sampled_from(runs))
        if which == 8:
            return edits.move_point(plan, run, draw(st.integers(-3, 3)), draw(points))
        if which == 9:
            return edits.insert_point(plan, run, draw(st.integers(0, 3)), draw(points))
        if which == 10:
            return edits.split(plan, run, draw(st.integers(0, 3)))
        if which == 11:
            return edits.merge(plan, run, draw(st.sampled_from(runs)))
        return edits.join(plan, run, within=40.0)
    except edits.EditError:
        return plan
