"""Random nodes of the ways of venting: columns with outlets at several heights and sides, islands, arms wider than traps."""

from __future__ import annotations

from typing import Any

from hypothesis import strategies as st

from engine.plan.records import Cleanout, Exit, Fixture, PinnedFitting, Plan, Point, Riser, Vent
from engine.trade.pipe import nominal
from tests.engine.checks.judged_plans import bare, drain

BASINS = ("lavatory", "kitchen_sink", "washer_standpipe")
SIDES = ((1.0, 0.0), (0.0, 1.0), (-1.0, 0.0), (0.0, -1.0))
AT = (240.0, 240.0)
BOOKS = st.sampled_from(("irc-2021", "upc-2021"))


@st.composite
def columns(draw: st.DrawFn) -> Plan:
    """One riser with one to three levels, each with an outlet on one side or with two on opposite sides."""
    fixtures: list[Fixture] = []
    height = draw(st.integers(12, 20)) * 1.0
    for _ in range(draw(st.integers(1, 3))):
        side = draw(st.sampled_from((0.0, 90.0, 180.0, 270.0)))
        for turn in (side, side + 180.0)[: draw(st.integers(1, 2))]:
            fixtures.append(
                Fixture(
                    f"f{len(fixtures) + 1}",
                    draw(st.sampled_from(BASINS)),
                    AT,
                    turn=turn,
                    outlet_above_floor=height,
                    trap=draw(st.sampled_from((None, None, "1-1/4", "1-1/2", "2"))),
                    arm=draw(st.integers(8, 30)) * 1.0,
                )
            )
        height += draw(st.integers(8, 16)) * 1.0
    cleanout = draw(st.booleans())
    return bare(
        rulebook=draw(BOOKS),
        fixtures=tuple(fixtures),
        risers=(
            Riser(
                "r1",
                AT,
                size=draw(st.sampled_from((None, "1-1/2", "2", "3", "4"))),
                vent=draw(st.sampled_from((None, None, "1-1/2", "2", "3"))),
                top=draw(st.sampled_from(("roof", "valve", "capped"))),
            ),
        ),
        drains=(drain(AT, (200.0, 240.0), size=draw(st.sampled_from((None, "2", "3")))),),
        exits=(Exit("x1", (200.0, 240.0), how="through-rim"),),
        cleanouts=(Cleanout("c1", AT, above_floor=3.0, turn=45.0),) if cleanout else (),
    )


def _on(at: Point, way: tuple[float, float], far: float) -> Point:
    return (at[0] + way[0] * far, at[1] + way[1] * far)


@st.composite
def island_vents(draw: st.DrawFn) -> Plan:
    """A sink whose vent turns over in any of four directions, with a foot vent that turns a corner or none."""
    way = draw(st.sampled_from(SIDES))
    side = draw(st.sampled_from(((way[1], -way[0]), (-way[1], way[0]))))
    back = _on(AT, way, draw(st.integers(8, 14)) * 1.0)
    corner = _on(back, side, draw(st.integers(16, 60)) * 1.0)
    wall = corner if draw(st.booleans()) else _on(corner, way, draw(st.integers(16, 60)) * 1.0)
    out = _on(back, way, 60.0)
    sizes: Any = st.sampled_from((None, "1-1/2", "2"))
    return bare(
        rulebook=draw(BOOKS),
        fixtures=(
            Fixture(
                "ks1", draw(st.sampled_from(("kitchen_sink", "lavatory"))), AT, turn=draw(st.sampled_from((0.0, 90.0)))
            ),
        ),
        risers=(
            Riser(
                "r1",
                AT,
                size=draw(sizes),
                vent=draw(sizes),
                top="loop",
                returns=back,
                above_floor=draw(st.sampled_from((None, None, 33.0, 40.0))),
            ),
            Riser("r2", wall, vent=draw(sizes), top=draw(st.sampled_from(("roof", "valve")))),
        ),
        drains=(drain(AT, back, out, size=draw(st.sampled_from((None, "2", "3")))),),
        vents=(Vent("v1", (back, wall) if wall == corner else (back, corner, wall), size=draw(sizes)),),
        exits=(Exit("x1", out, how="through-rim"),),
        cleanouts=(Cleanout("c1", back, above_floor=8.0, turn=90.0),) if draw(st.booleans()) else (),
        fittings=(PinnedFitting("p1", AT, "eighth_bend", level="wall"),) if draw(st.booleans()) else (),
    )


@st.composite
def wide_arms(draw: st.DrawFn) -> Plan:
    """A floor outlet on an arm of its trap's size or wider, with a dry riser of any size on its way."""
    size = draw(st.sampled_from(("1-1/2", "2", "3", "4")))
    trap = draw(st.sampled_from([one for one in ("1-1/2", "2", "3") if nominal(one) <= nominal(size)]))
    at, vent = (240.0, 100.0), (240.0 - draw(st.integers(24, 60)) * 1.0, 100.0)
    end = (vent[0] - 30.0, 100.0)
    return bare(
        rulebook=draw(BOOKS),
        fixtures=(Fixture("f1", draw(st.sampled_from(("shower", "bathtub"))), at, trap=trap, trap_at=at),),
        risers=(Riser("r1", vent, vent=draw(st.sampled_from((None, "1-1/2", "2", "3")))),),
        drains=(drain(at, vent, end, size=size),),
        exits=(Exit("x1", end, how="through-rim"),),
    )
