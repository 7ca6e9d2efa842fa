"""Single points: moving, inserting and deleting them, and turning one fixture about its outlet."""

from __future__ import annotations

import math

from msgspec.structs import replace

from engine.plan.canonical import heading
from engine.plan.edits.checking import index_in, rebuilt
from engine.plan.edits.elements import find
from engine.plan.edits.errors import EditError
from engine.plan.edits.pins import in_riser, without_loose_pins
from engine.plan.grid import spot
from engine.plan.points import Run, runs
from engine.plan.records import AirOpening, Beam, Element, Fixture, FlooringArea, FloorOpening, Plan, Point, Riser, Wall
from engine.plan.welds import UNDER, Grips, comes_down, grips, level_of, standing


def run_of(plan: Plan, run_id: str) -> Run:
    """The run of that id. EditError when there is none, or it is something else."""
    run = find(plan, run_id)
    if not isinstance(run, Run):
        raise EditError(run_id, "expected a drain, vent or supply run")
    return run


def move_point(plan: Plan, element_id: str, index: int, to: Point, alone: bool = False) -> Plan:
    """The plan with one point of a run, wall, opening, beam or bathtub somewhere else.

    A run's vertex takes every vertex welded to it at its level along, unless `alone`. It leaves a fixture, riser,
    exit or inlet behind, which is how an end is taken off one. A wall's points, an
    opening's and a beam's are its start (0) and end (1), a floor opening's and a flooring area's two opposite corners. A bathtub's are its outlet (0) and trap (1); the run ends welded there go along. The point
    where a riser that turned over comes down is its 1; what is welded to it there goes along, unless `alone`.
    """
    element, there = find(plan, element_id), spot(*to)
    if isinstance(element, Run):
        return _move_vertex(plan, element, index_in(element, index), there, alone)
    if isinstance(element, Wall | AirOpening | Beam | FloorOpening | FlooringArea) and index in (0, 1):
        return rebuilt(plan, {element_id: replace(element, **{("start", "end")[index]: there})})
    if isinstance(element, Fixture) and element.kind == "bathtub" and index in (0, 1):
        trap = element.at if element.trap_at is None else element.trap_at
        moved = replace(element, at=there, trap_at=trap) if index == 0 else replace(element, trap_at=there)
        return _regripped(plan, element, moved)
    if isinstance(element, Riser) and comes_down(element) is not None and index == 1:
        return _come_down_at(plan, element, there, alone)
    raise EditError(element_id, f"it has no point {index} that can be moved by itself")


def insert_point(plan: Plan, run_id: str, segment: int, at: Point) -> Plan:
    """The plan with a new vertex in a run's stretch number `segment`, between its points of that number and the next."""
    run = run_of(plan, run_id)
    if not 0 <= segment < len(run.points) - 1:
        raise EditError(run_id, f"expected one of its stretches 0 to {len(run.points) - 2}, found {segment}")
    points = (*run.points[: segment + 1], spot(*at), *run.points[segment + 1 :])
    return rebuilt(plan, {run_id: replace(run, points=points)})


def delete_point(plan: Plan, run_id: str, index: int) -> Plan:
    """The plan with one vertex of a run left out: its neighbours are joined straight."""
    run = run_of(plan, run_id)
    at = index_in(run, index)
    if len(run.points) == 2:
        raise EditError(run_id, "it has only two points: delete the run itself")
    points = run.points[:at] + run.points[at + 1 :]
    return without_loose_pins(plan, rebuilt(plan, {run_id: replace(run, points=points)}))


def rotate_fixture(plan: Plan, fixture_id: str, turn: float) -> Plan:
    """The plan with a fixture's front looking to heading `turn`, degrees counter-clockwise from east.

    It turns about its `at`; a bathtub's trap goes round with it and takes the run ends welded there along.
    """
    fixture = find(plan, fixture_id)
    if not isinstance(fixture, Fixture):
        raise EditError(fixture_id, "expected a fixture")
    if not math.isfinite(turn):
        raise EditError(fixture_id, f"turn: expected a finite number of degrees, found {turn}")
    by = heading(turn - fixture.turn)
    trap = fixture.trap_at
    made = replace(fixture, turn=heading(turn), trap_at=None if trap is None else _round_about(trap, fixture.at, by))
    return _regripped(plan, fixture, made)


def _round_about(point: Point, about: Point, degrees: float) -> Point:
    """A point after a turn about another, on the grid; quarter turns are exact."""
    quarters, rest = divmod(degrees, 90.0)
    x, y = point[0] - about[0], point[1] - about[1]
    for _ in range(int(quarters)):
        x, y = -y, x
    cos, sin = math.cos(math.radians(rest)), math.sin(math.radians(rest))
    return spot(about[0] + x * cos - y * sin, about[1] + x * sin + y * cos)


def _move_vertex(plan: Plan, run: Run, index: int, there: Point, alone: bool) -> Plan:
    here, level = run.points[index], level_of(run)
    if alone:
        return rebuilt(plan, {run.id: replace(run, points=(*run.points[:index], there, *run.points[index + 1 :]))})
    changed: dict[str, Element] = {}
    for other in runs(plan):
        if here in other.points and level_of(other) == level:
            changed[other.id] = replace(other, points=tuple(there if p == here else p for p in other.points))
    if level[0] == "waste":
        changed.update({pin.id: replace(pin, at=there) for pin in plan.fittings if pin.at == here})
    if level == ("waste", UNDER):
        ended = (one for one in plan.cleanouts if one.at == here and not in_riser(one))
        changed.update({one.id: replace(one, at=there) for one in ended})
    return rebuilt(plan, changed)


def _come_down_at(plan: Plan, riser: Riser, there: Point, alone: bool) -> Plan:
    """The plan with a riser's return elsewhere, and the runs under the floor, fittings and cleanouts that it alone held."""
    here = comes_down(riser)
    changed: dict[str, Element] = {riser.id: replace(riser, returns=there)}
    others = Grips(tuple(thing for thing in standing(plan) if thing.id != riser.id))
    if not alone and here is not None and not others.hold("waste", here, UNDER):
        for run in runs(plan):
            if level_of(run) == ("waste", UNDER) and here in run.points:
                changed[run.id] = replace(run, points=tuple(there if point == here else point for point in run.points))
        changed.update({pin.id: replace(pin, at=there) for pin in plan.fittings if pin.at == here})
        changed.update({one.id: replace(one, at=there) for one in plan.cleanouts if one.at == here})
    return rebuilt(plan, changed)


def _regripped(plan: Plan, old: Fixture, new: Fixture) -> Plan:
    """The plan with a fixture changed, and the run ends that it alone held put where it holds them now."""
    others = Grips(tuple(thing for thing in standing(plan) if thing.id != old.id))
    mine = Grips((old,))
    to = {(a.system, a.point): b.point for a, b in zip(grips(old), grips(new), strict=True)}
    changed: dict[str, Element] = {old.id: new}
    for run in runs(plan):
        system, level = level_of(run)
        points = tuple(
            to[system, point] if mine.hold(system, point, level) and not others.hold(system, point, level) else point
            for point in run.points
        )
        if points != run.points:
            changed[run.id] = replace(run, points=points)
    return rebuilt(plan, changed)
