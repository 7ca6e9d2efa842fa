"""Every centre that a plan asks for on the floor: closets, floor outlets, risers, exits, water."""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import dataclass

from engine.checks.model import Model
from engine.lengths import inches
from engine.piping import islands
from engine.piping.records import Pipe, is_under
from engine.plan.dressed import WALL_DEPTH
from engine.plan.records import Exit, Fixture, Plan, Point, Wall
from engine.plan.walls import wall_at
from engine.takeoff.marks import holes
from engine.takeoff.marks.records import Hole, MarkKind
from engine.takeoff.way_down import way_words
from engine.trade import fixtures as trade
from engine.water.joints import Joint, joints

_HAIR = 1.0 / 64.0
_SQUARE = math.cos(math.radians(1.0))


@dataclass(slots=True, frozen=True)
class Centre:
    """One centre, before it is measured from anything."""

    element: str
    kind: MarkKind
    words: str
    at: Point
    holes: tuple[Hole, ...]
    walls: str


def centres(model: Model) -> Iterator[Centre]:
    """Closets, floor outlets and tubs, risers, exits, then water, each in file order."""
    plan = model.plan
    plumb: dict[Point, list[Pipe]] = {}
    for pipe in model.network.pipes:
        if pipe.shape == "plumb":
            plumb.setdefault((pipe.start.x, pipe.start.y), []).append(pipe)
    taken: set[Point] = set()
    for fixture in plan.fixtures:
        if fixture.id in model.network.outlets and trade.fixture(fixture.kind).outlet in ("closet", "floor", "tub"):
            yield _floor_fixture(plan, fixture, plumb)
    for riser in plan.risers:
        if riser.at in plumb and riser.at not in taken:
            taken.add(riser.at)
            yield _riser(
                plan, riser.id, f"riser {riser.id}", riser.at, riser.wall, plumb[riser.at], riser.top == "roof"
            )
    for riser in plan.risers:
        if islands.returns(riser) and riser.returns in plumb:
            words = f"riser {riser.id}, where it comes down"
            yield _riser(plan, riser.id, words, riser.returns, None, plumb[riser.returns], False)
    for fixture in plan.fixtures:
        if trade.fixture(fixture.kind).outlet == "wall" and fixture.at in plumb and fixture.at not in taken:
            taken.add(fixture.at)
            yield _riser(plan, fixture.id, f"drain of {_called(fixture)}", fixture.at, None, plumb[fixture.at], False)
    told = way_words(model)
    for exit_ in plan.exits:
        yield _exit(model, exit_, told[exit_.id])
    for inlet in plan.inlets:
        yield Centre(inlet.id, "water service", f"water service, {inlet.size} in", inlet.at, (), "")
    yield from _water(model)


def _floor_fixture(plan: Plan, fixture: Fixture, plumb: dict[Point, list[Pipe]]) -> Centre:
    outlet = trade.fixture(fixture.kind).outlet
    called, behind = _called(fixture), _from_wall(plan, fixture)
    if outlet == "closet":
        return Centre(
            fixture.id, "closet", f"centre of the flange of {called}", fixture.at, (holes.closet_hole(),), behind
        )
    if outlet == "tub":
        at = fixture.at if fixture.trap_at is None else fixture.trap_at
        hole = holes.unknown_hole("the tub's waste and overflow")
        return Centre(fixture.id, "tub", f"trap under the overflow of {called}", at, (hole,), behind)
    size = max((pipe.size for pipe in plumb.get(fixture.at, ())), default=None)
    made = holes.pipe_holes([("subfloor", size)]) if size is not None else ()
    return Centre(fixture.id, "floor outlet", f"outlet of {called}", fixture.at, made, behind)


def _riser(
    plan: Plan, element: str, words: str, at: Point, prefer: str | None, pipes: list[Pipe], to_roof: bool
) -> Centre:
    wall = wall_at(plan, at, prefer)
    low = [pipe for pipe in pipes if is_under(pipe.start) or is_under(pipe.end)]
    top = max(pipes, key=lambda pipe: max(pipe.start.level, pipe.end.level))
    through: list[tuple[str, float]] = []
    if low:
        size = max(pipe.size for pipe in low)
        through.append(("subfloor", size))
        if wall is not None:
            through.append(("sole plate", size))
    if to_roof:
        if wall is not None:
            through.append(("top plates", top.size))
        through.append(("roof", top.size))
    return Centre(element, "riser", words, at, holes.pipe_holes(through), _in_wall(wall, at))


def _exit(model: Model, exit_: Exit, told: str) -> Centre:
    node = model.network.exits.get(exit_.id)
    into = [pipe for pipe in model.network.pipes if node is not None and pipe.end == node]
    made: tuple[Hole, ...] = ()
    if exit_.how == "through-rim" and into:
        made = holes.pipe_holes([("rim", max(pipe.size for pipe in into))])
    words = "turns down in the bay, no hole in the floor" if exit_.how == "turn-down" else "leaves through the rim"
    return Centre(exit_.id, "exit", f"building drain's exit {exit_.id}: {words}", exit_.at, made, told)


def _water(model: Model) -> Iterator[Centre]:
    """The ends of tubes that come up to a fixture, each once for each water."""
    plan = model.plan
    fixtures = {fixture.id: fixture for fixture in plan.fixtures}
    made, _ = joints(plan, model.water)
    ends: dict[tuple[Point, str], Joint] = {}
    for joint in made:
        if joint.fixture is not None:
            ends.setdefault((joint.at, joint.water), joint)
    for (point, water), joint in ends.items():
        wall = wall_at(plan, point)
        through = ["subfloor"] if wall is None else ["subfloor", "sole plate"]
        words = f"{water} water for {_called(fixtures[joint.fixture or ''])}"
        stands = "comes up in no wall" if wall is None else _in_wall(wall, point)
        size = model.water.meetings[joint.water][point][0].size
        yield Centre(joint.elements[0], "water", words, point, holes.tube_holes(through, size), stands)


def _called(fixture: Fixture) -> str:
    return f"{fixture.name or trade.fixture(fixture.kind).words} ({fixture.id})"


def _from_wall(plan: Plan, fixture: Fixture) -> str:
    """How far a fixture's outlet stands from the wall behind it: from the finish, and from the studs."""
    angle = math.radians(fixture.turn)
    back = (-math.cos(angle), -math.sin(angle))
    found = [(clear, wall) for wall in plan.walls if (clear := _studs_behind(wall, fixture.at, back)) is not None]
    if not found:
        return "no wall is drawn behind it: no finish is allowed for"
    clear, wall = min(found, key=lambda pair: pair[0])
    name = wall.name or f"wall {wall.id}"
    return (
        f"{inches(clear - wall.finish)} in from the finished {name} behind it = {inches(clear)} in from its studs "
        f"({inches(wall.finish)} in of finish allowed for)"
    )


def _studs_behind(wall: Wall, at: Point, back: Point) -> float | None:
    """Distance to the stud face of a wall that stands square behind a point; None where it does not."""
    length = math.dist(wall.start, wall.end)
    if not length:
        return None
    along = ((wall.end[0] - wall.start[0]) / length, (wall.end[1] - wall.start[1]) / length)
    dx, dy = at[0] - wall.start[0], at[1] - wall.start[1]
    if not 0.0 <= dx * along[0] + dy * along[1] <= length or abs(back[0] * along[1] - back[1] * along[0]) < _SQUARE:
        return None
    off = dx * along[1] - dy * along[0]
    towards = back[0] * along[1] - back[1] * along[0]
    clear = abs(off) - WALL_DEPTH[wall.lumber] / 2.0
    return clear if off * towards < 0.0 and clear >= 0.0 else None


def _in_wall(wall: Wall | None, at: Point) -> str:
    """How a point stands in its wall."""
    if wall is None:
        return "stands in no wall"
    length = math.dist(wall.start, wall.end)
    along = ((wall.end[0] - wall.start[0]) / length, (wall.end[1] - wall.start[1]) / length)
    off = (at[0] - wall.start[0]) * along[1] - (at[1] - wall.start[1]) * along[0]
    name, half = wall.name or f"wall {wall.id}", WALL_DEPTH[wall.lumber] / 2.0
    if abs(off) < _HAIR:
        return f"on the centre line of {name}, {inches(half)} in from either stud face (finish not counted)"
    near = half - abs(off)
    return f"in {name}, {inches(near)} in from its nearer stud face (finish not counted)"
