"""Plans and their assembly order, done by hands that refuse what cannot be done, for the tests of it."""

from __future__ import annotations

from pathlib import Path

from msgspec.structs import replace

from engine.plan.records import Drain, Exit, Fixture, Floor, JoistField, Plan, Riser, Vent, Wall
from engine.study import work_out
from engine.takeoff.assembly import Step, assembly
from tests.engine.takeoff.site_moves import build

SAMPLES = sorted((Path(__file__).parents[3] / "samples").glob("*.jway"))


def order_of(plan: Plan) -> tuple[Step, ...]:
    """The steps of a plan, each of them done by hands that refuse what cannot be done."""
    model = work_out(plan)
    steps = assembly(model)
    build(model, steps)
    return steps


def step_of(steps: tuple[Step, ...], item: str) -> Step:
    """The step that puts a piece in place."""
    return next(step for step in steps if item in step.pieces)


def mark_of(plan: Plan, pipe: str, which: int = 0) -> str:
    """The mark of a piece of one pipe."""
    return [piece.mark for piece in work_out(plan).joinery.pieces if pipe in piece.pipes][which]


def part_of(plan: Plan, kind: str) -> str:
    """The id of the first part of a kind."""
    return next(part.id for part in work_out(plan).joinery.parts if part.kind == kind)


def two_lavatories(vent_at: float = 44.0) -> Plan:
    """Lavatories at y 69 and y 40 on one partition, their vents tied by a level pipe 29 in long: a ring."""
    return Plan(
        floor=Floor(outline=((0.0, 0.0), (120.0, 0.0), (120.0, 108.0), (0.0, 108.0))),
        fields=(JoistField(id="f1", corner=(0.0, 0.0), size=(120.0, 108.0), lumber="2x10", first=16.0),),
        walls=(Wall(id="p1", start=(70.25, 0.0), end=(70.25, 108.0)),),
        fixtures=(
            Fixture(id="lav1", kind="lavatory", at=(70.25, 69.0), turn=180.0),
            Fixture(id="lav2", kind="lavatory", at=(70.25, 40.0), turn=180.0),
        ),
        drains=(
            Drain(id="d1", points=((36.0, 92.0), (36.0, 62.0), (36.0, 33.0), (36.0, 20.0)), size="3"),
            Drain(id="d2", points=((70.25, 69.0), (43.0, 69.0), (36.0, 62.0)), size="1-1/2"),
            Drain(id="d3", points=((70.25, 40.0), (43.0, 40.0), (36.0, 33.0)), size="1-1/2"),
        ),
        vents=(Vent(id="v1", points=((70.25, 40.0), (70.25, 69.0)), above_floor=vent_at),),
        risers=(Riser(id="r1", at=(70.25, 69.0)), Riser(id="r2", at=(70.25, 40.0), top="none")),
        exits=(Exit(id="x1", at=(36.0, 20.0), pinned_z=-7.1875),),
    )


def moved_riser(plan: Plan, x: float, top: str = "roof") -> Plan:
    """The lavatory of the floor worked by hand, with its riser and its wall further east or west."""
    return replace(
        plan,
        walls=(plan.walls[0], replace(plan.walls[1], start=(x, 0.0), end=(x, 108.0))),
        fixtures=(plan.fixtures[0], replace(plan.fixtures[1], at=(x, 69.0))),
        drains=(plan.drains[0], replace(plan.drains[1], points=((x, 69.0), (43.0, 69.0), (36.0, 62.0)))),
        risers=(replace(plan.risers[0], at=(x, 69.0), top=top),),
    )
