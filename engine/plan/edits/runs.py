"""Runs as wholes: splitting, merging, joining one to another, reversing."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Literal, TypeVar

from msgspec.structs import asdict, replace

from engine.plan.axis import distance, foot
from engine.plan.edits.checking import FIELD_OF, index_in, rebuilt, roomy
from engine.plan.edits.elements import LETTERS, find, fresh_id
from engine.plan.edits.errors import EditError
from engine.plan.edits.vertices import move_point, run_of
from engine.plan.grid import on_grid
from engine.plan.points import Run, runs
from engine.plan.records import Drain, Element, Plan, Point
from engine.plan.welds import Fixed, Grips, System, grips, level_of, standing

End = Literal["start", "end"]

REACH = 0.5
"""Inches from a pipe's axis within which an end counts as meant to join it."""

_LOWER_END = ("join", "roll", "rise")

R = TypeVar("R", bound=Run)


def split(plan: Plan, run_id: str, index: int, lower: End = "end") -> Plan:
    """The plan with a run cut in two at one of its inner vertices.

    The part from the run's start keeps its id and place; the rest follows it under a fresh id. How a drain joins at
    its lower end goes to the part that has that end: the `lower` one; the other joins flat.
    """
    run = run_of(plan, run_id)
    at = index_in(run, index)
    if at in (0, len(run.points) - 1):
        raise EditError(run_id, f"expected one of its inner points 1 to {len(run.points) - 2}, found {index}")
    name = fresh_id(plan, LETTERS[type(run)])
    first, rest = replace(run, points=run.points[: at + 1]), replace(run, id=name, points=run.points[at:])
    if isinstance(run, Drain):
        if lower == "end":
            first = _flat(first)
        else:
            rest = _flat(rest)
    plan = rebuilt(plan, {run_id: first})
    kind = FIELD_OF[type(run)]
    things = list(getattr(plan, kind))
    things.insert(next(i for i, one in enumerate(things) if one.id == run_id) + 1, rest)
    return roomy(replace(plan, **{kind: tuple(things)}))


def merge(plan: Plan, run_id: str, other_id: str) -> Plan:
    """The plan with two runs that share an end made one, under the first's id and direction.

    They must be of one kind and agree in all but how they join at their lower end; one of the two may do that in
    another way than flat, and the whole then does.
    """
    run, other = run_of(plan, run_id), run_of(plan, other_id)
    if run_id == other_id or type(run) is not type(other):
        raise EditError(other_id, f"expected another run of the same kind as {run_id}")
    points = _end_to_end(run, other)
    mine, theirs = asdict(run), asdict(other)
    for name, value in mine.items():
        if name not in ("id", "points", *_LOWER_END) and theirs[name] != value:
            raise EditError(other_id, f"its {name} is {theirs[name]}, and that of {run_id} {value}: make them the same")
    if isinstance(run, Drain) and isinstance(other, Drain) and other.join != "flat":
        if run.join != "flat":
            raise EditError(other_id, f"it and {run_id} both join {other.join} or {run.join}: one must join flat")
        run = replace(run, join=other.join, roll=other.roll, rise=other.rise)
    return rebuilt(plan, {run_id: replace(run, points=points)}, {other_id})


def reverse(plan: Plan, run_id: str) -> Plan:
    """The plan with a run's points in the other order. The order means nothing to the pipes, only to the lists."""
    run = run_of(plan, run_id)
    return rebuilt(plan, {run_id: replace(run, points=run.points[::-1])})


def join(plan: Plan, element_id: str, end: End = "end", main: str | None = None, within: float = REACH) -> Plan:
    """The plan with an end of a run, or a standing thing, welded to the run under it.

    The vertex goes into the main on its axis and the end comes to it, with what is welded to the end; a main's own
    vertex is taken where it is as near. A fixture, riser, exit or inlet, and an end that one of these holds, stays
    where it is, and the main comes to it. `main` names the run to be joined, which is otherwise the nearest of the
    same system and level. The same plan comes back when they are welded already. EditError when nothing lies
    `within` so many inches.
    """
    element = find(plan, element_id)
    at, system, level = _end_of(element, end)
    grip = Grips(standing(plan))
    held = not isinstance(element, Run) or (level is not None and grip.hold(system, at, level))
    mains = [
        run
        for run in runs(plan)
        if run.id != element_id and (run.id == main or main is None) and _meets(run, system, level)
    ]
    if any(at in run.points for run in mains):
        return plan
    found = min(_reached(mains, at, within), default=None, key=lambda one: (one[0], one[1].id, one[2]))
    if found is None:
        which = main or f"a {'pipe' if system == 'waste' else system + ' run'} at its level"
        raise EditError(
            element_id, f"expected {which} within {within:g} in of its {end if isinstance(element, Run) else 'point'}"
        )
    _, run, segment = found
    near = next((i for i in (segment, segment + 1) if distance(run.points[i], at) <= within), None)
    if held:
        there = at
        if near is None:
            plan = _with_vertex(plan, run, segment, at)
        elif grip.hold(system, run.points[near], level_of(run)[1]):
            raise EditError(element_id, f"a point of {run.id} is {within:g} in away or less and held where it is")
        else:
            plan = move_point(plan, run.id, near, at)
    elif near is not None:
        there = run.points[near]
    else:
        there = foot(run.points[segment], run.points[segment + 1], at)
        plan = _with_vertex(plan, run, segment, there)
    if there == at:
        return plan
    return move_point(plan, element_id, 0 if end == "start" else -1, there)


def join_ends(plan: Plan, run_id: str, within: float = REACH) -> Plan:
    """The plan with both ends of a run welded to what lies under them, where anything does."""
    for end in ("start", "end"):
        try:
            plan = join(plan, run_id, end, within=within)
        except EditError:
            continue
    return plan


def _flat(drain: R) -> R:
    return replace(drain, join="flat", roll=45.0, rise=None)


def _end_to_end(run: Run, other: Run) -> tuple[Point, ...]:
    """The points of the first run with the other's put on at the end that they share."""
    for theirs in (other.points, other.points[::-1]):
        if run.points[-1] == theirs[0]:
            return (*run.points, *theirs[1:])
        if run.points[0] == theirs[-1]:
            return (*theirs[:-1], *run.points)
    raise EditError(other.id, f"expected an end of it on an end of {run.id}")


def _end_of(element: Element, end: End) -> tuple[Point, System, float | None]:
    if isinstance(element, Run):
        system, level = level_of(element)
        return element.points[0 if end == "start" else -1], system, level
    if isinstance(element, Fixed):
        place = grips(element)[0]
        return place.point, place.system, place.level
    raise EditError(element.id, "it is nothing that joins a pipe")


def _meets(run: Run, system: System, level: float | None) -> bool:
    its_system, its_level = level_of(run)
    return its_system == system and level in (None, its_level)


def _reached(mains: list[Run], at: Point, within: float) -> Iterator[tuple[float, Run, int]]:
    for run in mains:
        for segment, (a, b) in enumerate(zip(run.points, run.points[1:], strict=False)):
            away = distance(foot(a, b, at), at)
            if away <= within:
                yield on_grid(away), run, segment


def _with_vertex(plan: Plan, run: Run, segment: int, at: Point) -> Plan:
    points = (*run.points[: segment + 1], at, *run.points[segment + 1 :])
    return rebuilt(plan, {run.id: replace(run, points=points)})
