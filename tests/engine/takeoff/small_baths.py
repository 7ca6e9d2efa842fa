"""Random small floors with a closet's main in a bay and branches across the joists, mostly sound."""

from __future__ import annotations

from hypothesis import strategies as st

from engine.plan.records import Drain, Exit, Fixture, FixtureKind, Floor, JoistField, Plan, Point, Riser, Vent, Wall

WALL_KINDS: tuple[FixtureKind, ...] = ("lavatory", "kitchen_sink", "washer_standpipe")


@st.composite
def small_baths(draw: st.DrawFn) -> Plan:
    """A closet, up to three branches to the east or west of its main, and sometimes a vent from riser to riser."""
    width, length = draw(st.integers(96, 200)) * 1.0, draw(st.integers(96, 168)) * 1.0
    spacing = draw(st.sampled_from((12.0, 16.0, 19.2, 24.0)))
    bay = draw(st.integers(1, int((width - 30.0) // spacing)))
    main_x = bay * spacing + spacing / 2.0
    top, foot = length - 16.0, draw(st.sampled_from((10.0, 14.0, 20.0)))
    places = sorted(draw(st.lists(st.integers(2, int((top - 22.0) // 12.0)), max_size=3, unique=True)), reverse=True)
    points: list[Point] = [(main_x, top)]
    drains: list[Drain] = []
    fixtures = [Fixture(id="wc1", kind="water_closet", at=(main_x, top))]
    risers: list[Riser] = []
    walls: list[Wall] = []
    for n, place in enumerate(places, 1):
        y = place * 12.0
        far = draw(st.integers(20, 400)) * 0.25 * draw(st.sampled_from((1, -1)))
        x = min(max(main_x + far, 6.0), width - 6.0)
        if abs(x - main_x) < 18.0:
            continue
        slant = draw(st.booleans())
        size = draw(st.sampled_from(("1-1/2", "2")))
        join = y - 8.0 if slant else y
        turn = (main_x + (8.0 if x > main_x else -8.0), y)
        path = ((x, y), turn, (main_x, join)) if slant else ((x, y), (main_x, y))
        points.append((main_x, join))
        drains.append(Drain(id=f"d{n}", points=path, size=size))
        if draw(st.integers(0, 4)) == 0:
            fixtures.append(Fixture(id=f"sh{n}", kind="shower", at=(x, y), turn=90.0))
            continue
        kind = draw(st.sampled_from(WALL_KINDS))
        fixtures.append(Fixture(id=f"fx{n}", kind=kind, at=(x, y), turn=180.0))
        risers.append(Riser(id=f"r{n}", at=(x, y), top=draw(st.sampled_from(("roof", "roof", "valve", "capped")))))
        walls.append(Wall(id=f"p{n}", start=(x, y - 20.0), end=(x, y + 20.0)))
    vents: list[Vent] = []
    if len(risers) >= 2 and draw(st.booleans()):
        (x0, y0), (x1, y1) = risers[0].at, risers[1].at
        bend: tuple[Point, ...] = ((x0, y1),) if x0 != x1 else ()
        vents.append(Vent(id="v1", points=((x0, y0), *bend, (x1, y1)), above_floor=draw(st.sampled_from((50.0, 60.0)))))
    points.append((main_x, foot))
    return Plan(
        floor=Floor(outline=((0.0, 0.0), (width, 0.0), (width, length), (0.0, length))),
        fields=(
            JoistField(
                id="f1",
                corner=(0.0, 0.0),
                size=(width, length),
                lumber=draw(st.sampled_from(("2x10", "2x12"))),
                spacing=spacing,
            ),
        ),
        walls=tuple(walls),
        fixtures=tuple(fixtures),
        drains=(Drain(id="d0", points=tuple(points), size="3"), *drains),
        vents=tuple(vents),
        risers=tuple(risers),
        exits=(Exit(id="x1", at=(main_x, foot)),),
    )
