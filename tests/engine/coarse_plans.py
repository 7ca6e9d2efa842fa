"""Random valid plans on a coarse grid, so that pipes weld, cross, ring and double, with a share of junk in them."""

from __future__ import annotations

from collections.abc import Callable
from itertools import pairwise
from typing import Any

from hypothesis import strategies as st
from msgspec.structs import replace

from engine.plan.records import (
    Amendment,
    Drain,
    Exit,
    Fixture,
    Floor,
    Inlet,
    JoistField,
    MeasuredTakeOff,
    PinnedFitting,
    Plan,
    Point,
    Riser,
    Supply,
    Vent,
    Wall,
)

STEP = 12.0
CELLS = 10
SIZES = ("1-1/4", "1-1/2", "2", "3", "4")
KINDS = (
    "water_closet",
    "lavatory",
    "shower",
    "bathtub",
    "kitchen_sink",
    "washer_standpipe",
    "water_heater",
    "refrigerator",
    "hose_bibb",
    "bar_sink",
    "laundry_tub",
    "dishwasher",
    "floor_drain",
    "bidet",
)
PATTERNS = (
    "quarter_bend",
    "long_sweep_quarter_bend",
    "closet_bend",
    "eighth_bend",
    "sixteenth_bend",
    "sixth_bend",
    "sanitary_tee",
    "wye",
    "combo_wye_eighth_bend",
)
PASSINGS = (None, "through", "notched", "under")
STEPS = ((1, 0), (0, 1), (-1, 0), (0, -1), (1, 1), (1, -1), (-1, 1), (-1, -1))

cells = st.tuples(st.integers(0, CELLS), st.integers(0, CELLS)).map(lambda c: (c[0] * STEP, c[1] * STEP))
"""Points of the coarse grid."""

odd = st.tuples(st.integers(0, 8 * CELLS), st.integers(0, 8 * CELLS)).map(lambda c: (c[0] * 1.5, c[1] * 1.5 + 0.125))
"""Points beside it, for odd angles and near misses."""

some_lengths = st.sampled_from((0.0, 0.25, 1.0, 6.0, 18.0, 42.0, 96.0))


def spots(pool: list[Point]) -> st.SearchStrategy[Point]:
    """A point that something else stands on, for the most part."""
    return st.one_of(st.sampled_from(pool), st.sampled_from(pool), st.sampled_from(pool), odd)


@st.composite
def paths(draw: st.DrawFn, pool: list[Point]) -> tuple[Point, ...]:
    """A run's axis: a walk in headings of 45 degrees from a point of the pool, or a jumble of points."""
    if draw(st.integers(0, 3)) == 0:
        jumble = draw(st.lists(spots(pool), min_size=2, max_size=5))
        path = [jumble[0], *(b for a, b in pairwise(jumble) if a != b)]
        return tuple(path) if len(path) > 1 else (path[0], (path[0][0] + STEP, path[0][1]))
    x, y = draw(st.sampled_from(pool))
    path = [(x, y)]
    for _ in range(draw(st.integers(1, 4))):
        (dx, dy), far = draw(st.sampled_from(STEPS)), draw(st.integers(1, 4))
        path.append((path[-1][0] + dx * far * STEP, path[-1][1] + dy * far * STEP))
    return tuple(path)


@st.composite
def plans(draw: st.DrawFn) -> Plan:
    """A valid plan of a few of everything."""
    pool: list[Point] = draw(st.lists(cells, min_size=1, max_size=6))

    def some(make: Callable[[str], Any], letter: str, most: int) -> tuple[Any, ...]:
        return tuple(make(f"{letter}{n + 1}") for n in range(draw(st.integers(0, most))))

    def pick(*values: Any) -> Any:
        return draw(st.sampled_from(values))

    def drain(name: str) -> Drain:
        join = pick("flat", "flat", "flat", "rolled", "drop")
        points = draw(paths(pool))
        pool.extend(points)
        return Drain(
            name,
            points,
            size=pick(None, None, *SIZES),
            slope=pick(None, None, None, 0.0, 0.125, 0.25, 0.5, 0.75, -0.25, 12.0, -12.0),
            passing=pick(*PASSINGS),
            join=join,
            roll=pick(45.0, 0.0, 22.5, 60.0, 90.0, 30.0),
            rise=pick(None, None, 0.0, 1.0, 6.0, 40.0),
        )

    def fixture(name: str) -> Fixture:
        kind = pick(*KINDS)
        return Fixture(
            name,
            kind,
            draw(spots(pool)),
            turn=pick(0.0, 90.0, 180.0, 270.0, 45.0, 33.0),
            trap=pick(None, None, None, *SIZES),
            trap_at=pick(None, draw(spots(pool))),
            outlet_above_floor=pick(None, None, 0.0, 18.0, 60.0),
            arm=pick(None, None, 0.0, 1.0, 6.0, 90.0),
            rim_above_floor=pick(None, None, 0.0, 60.0),
            name=pick("", "the <b> one"),
            bowls=pick(1, 1, 1, 2, 4),
            bowls_apart=pick(None, 16.0, 60.0),
            heads=pick(1, 1, 2, 12),
            gallons=pick(None, None, 1.6, 3.5),
            disposer=pick(False, False, True),
        )

    def riser(name: str) -> Riser:
        return Riser(
            name,
            draw(spots([one.at for one in fixtures] or pool)),
            size=pick(None, None, *SIZES),
            vent=pick(None, None, *SIZES),
            top=pick("roof", "roof", "roof", "valve", "capped", "none", "loop"),
            above_floor=pick(None, None, None, 0.0, 12.0, 60.0),
            returns=pick(None, draw(spots(pool))),
        )

    def vent(name: str) -> Vent:
        return Vent(
            name,
            draw(paths(pool)),
            above_floor=pick(None, None, 0.0, 18.0, 42.0),
            size=pick(None, *SIZES),
            slope=pick(None, 0.0, -0.25, 0.5),
            passing=pick(*PASSINGS),
        )

    def field(name: str) -> JoistField:
        return JoistField(
            name,
            draw(cells),
            pick((120.0, 120.0), (144.0, 96.0), (12.0, 12.0)),
            lumber=pick("2x4", "2x6", "2x8", "2x10", "2x12"),
            spacing=pick(12.0, 16.0, 24.0),
            direction=pick("north-south", "east-west"),
            member=pick("sawn", "sawn", "engineered"),
            depth=pick(None, None, 2.0, 30.0),
            end_bearing=pick(3.5, 0.0, 1.5),
            bearings=pick((), (60.0,), (0.0, 60.0)),
        )

    fixtures = some(fixture, "a", 4)
    if len(fixtures) > 1 and pick(True, False):
        fixtures = (*fixtures[:-1], replace(fixtures[-1], through=fixtures[0].id))
    pool.extend(one.at for one in fixtures)
    drains = some(drain, "d", 5)
    risers = some(riser, "r", 3)
    return Plan(
        floor=Floor(
            ((0.0, 0.0), (120.0, 0.0), (120.0, 120.0), (0.0, 120.0)),
            subfloor=pick(0.75, 0.0),
            finish=pick(0.25, 0.0, 6.0),
            snow=pick(0.0, 24.0),
        ),
        name=pick("", "a plan"),
        material=pick("PVC", "ABS"),
        slope=pick(0.25, 0.125, 0.0625, 12.0),
        drains=drains,
        fields=some(field, "f", 2),
        walls=some(lambda name: Wall(name, draw(cells), (draw(cells)[0] + 0.5, 130.0)), "w", 1),
        fixtures=fixtures,
        vents=some(vent, "v", 2),
        risers=risers,
        supplies=some(
            lambda name: Supply(
                name,
                pick("cold", "hot"),
                draw(paths(pool)),
                size=pick("1/2", "3/4", "1"),
                down=pick(None, 0.0, 6.0, 60.0),
                passing=pick(*PASSINGS),
            ),
            "s",
            2,
        ),
        exits=some(
            lambda name: Exit(
                name,
                draw(spots(pool)),
                how=pick("turn-down", "turn-down", "through-rim"),
                pinned_z=pick(None, None, 0.0, -7.0, -400.0),
                sewer_invert_z=pick(None, None, -6.0),
                tail_z=pick(-24.0, 0.0),
            ),
            "x",
            2,
        ),
        inlets=some(lambda name: Inlet(name, draw(spots(pool))), "i", 1),
        fittings=some(
            lambda name: PinnedFitting(name, draw(spots(pool)), pick(*PATTERNS), level=pick("under", "under", "wall")),
            "p",
            2,
        ),
        takeoffs=draw(st.sampled_from(((), (MeasuredTakeOff("wye", "3x3x2", "branch", 4.0),)))),
        amendments=draw(
            st.sampled_from(
                (
                    (),
                    (Amendment("trap_arm.length.2", 60.0), Amendment("trap_arm.closet_limited", True)),
                    (Amendment("closet.quarter_bend_under_flange", False), Amendment("vent.least", 2.0)),
                )
            )
        ),
    )


@st.composite
def bathrooms(draw: st.DrawFn) -> Plan:
    """A floor as somebody who knows the trade would draw it: one main in a bay, branches into it at 45 degrees.

    A closet stands at the main's upper end, sinks in walls with vents, showers and tubs at the branches'; some
    branches drop onto the main, or come in square and are rolled. Sizes, slopes, lumber, finish and the exit vary.
    Nothing promises that the plan is lawful, only that its pipes meet in fittings.
    """
    count = draw(st.integers(1, 4))
    west = 36.0
    joints = sorted(
        (40.0 + 24.0 * row for row in draw(st.lists(st.integers(0, 6), min_size=count, max_size=count, unique=True))),
        reverse=True,
    )
    top = joints[0] + 36.0
    drains, fixtures, risers = [], [], []
    fixtures.append(Fixture("a0", "water_closet", (west, top)))
    for number, y in enumerate(joints, 1):
        side = draw(st.sampled_from((1.0, -1.0)))
        lean = draw(st.integers(6, 14)) * 1.0
        far = lean + draw(st.integers(10, 40)) * 1.0
        kind = draw(st.sampled_from(("lavatory", "kitchen_sink", "washer_standpipe", "shower", "bathtub")))
        corner, end = (west + side * lean, y + lean), (west + side * far, y + lean)
        size = {"lavatory": "1-1/2", "bathtub": "1-1/2"}.get(kind, "2")
        join = draw(st.sampled_from(("flat", "flat", "flat", "drop", "rolled")))
        if join == "rolled":
            end = (west + side * far, y)
        points = (end, (west, y)) if join == "rolled" else (end, corner, (west, y))
        if draw(st.booleans()):
            points = points[::-1]
        drains.append(
            Drain(
                f"d{number}",
                points,
                size=draw(st.sampled_from((size, None))),
                slope=draw(st.sampled_from((None, 0.375))),
                join=join,  # type: ignore[arg-type]
            )
        )
        turn = 0.0 if side > 0 else 180.0
        fixtures.append(Fixture(f"a{number}", kind, end, turn=turn, trap_at=end if kind == "bathtub" else None))  # type: ignore[arg-type]
        if kind not in ("shower", "bathtub"):
            risers.append(Riser(f"r{number}", end, top=draw(st.sampled_from(("roof", "roof", "valve", "none")))))
    main = Drain(
        "d0", ((west, top), *((west, y) for y in joints), (west, 16.0)), size=draw(st.sampled_from(("3", None)))
    )
    wide, long = 120.0, top + 24.0
    return Plan(
        floor=Floor(((0.0, 0.0), (wide, 0.0), (wide, long), (0.0, long)), finish=draw(st.sampled_from((0.25, 0.75)))),
        fields=(JoistField("f1", (-4.0, 0.0), (wide, long), lumber=draw(st.sampled_from(("2x8", "2x10", "2x12")))),),
        fixtures=tuple(fixtures),
        drains=(main, *drains),
        risers=tuple(risers),
        exits=(
            Exit(
                "x1",
                (west, 16.0),
                how=draw(st.sampled_from(("turn-down", "through-rim"))),
                pinned_z=draw(st.sampled_from((None, None, -7.1875))),
            ),
        ),
    )
