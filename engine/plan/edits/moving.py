"""Moving and turning a selection, with what is welded to it.

What goes along:

- A fixture, riser, exit or inlet takes the run vertices welded to it at its level. A riser and the wall outlets at
  its point go together. A wall takes the risers that name it and the openings that stand in it. A riser that leaves
  its wall takes the name of the wall that it then stands in, or none.
- A run keeps its welds: vertices of other runs welded to it go along, while its own vertices at a fixture, riser,
  exit or inlet that isn't selected stay there, so that the run stretches. Nothing else is carried.
- Fittings pinned at a waste vertex that goes, go; so do the cleanouts at a run's end, and those in a riser with it.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator
from typing import TypeGuard

from msgspec.structs import replace

from engine.plan.canonical import heading
from engine.plan.edits.checking import rebuilt
from engine.plan.edits.elements import find
from engine.plan.edits.errors import EditError
from engine.plan.edits.pins import in_riser
from engine.plan.fields import turned as field_turned
from engine.plan.grid import shifted, spot
from engine.plan.points import Run, carried, runs
from engine.plan.records import Cleanout, Element, Fixture, JoistField, Plan, Point, Riser, Wall
from engine.plan.walls import holds, wall_at
from engine.plan.welds import UNDER, WALL_OUTLETS, Grips, System, comes_down, level_of, standing

To = Callable[[Point], Point]


def move(plan: Plan, ids: Iterable[str], dx: float, dy: float) -> Plan:
    """The plan with these elements moved by a displacement in inches, east and north."""
    return _carry(plan, ids, lambda point: shifted(point, dx, dy), lambda element, to: carried(element, to))


def turn(plan: Plan, ids: Iterable[str], about: Point, quarters: int = 1) -> Plan:
    """The plan with these elements turned by quarter turns counter-clockwise about a point."""
    centre, times = spot(*about), range(quarters % 4)

    def to(point: Point) -> Point:
        for _ in times:
            point = quarter(point, centre)
        return point

    def change(element: Element, _: To) -> Element:
        for _time in times:
            element = turned(element, centre)
        return element

    return _carry(plan, ids, to, change)


def quarter(point: Point, about: Point) -> Point:
    """A point after a quarter turn counter-clockwise; exact on the grid."""
    return (about[0] - (point[1] - about[1]) + 0.0, about[1] + (point[0] - about[0]) + 0.0)


def turned(element: Element, about: Point) -> Element:
    """One element after a quarter turn counter-clockwise about a point."""
    if isinstance(element, JoistField):
        try:
            return field_turned(element, about)
        except ValueError as fault:
            raise EditError(element.id, str(fault)) from None
    made = carried(element, lambda point: quarter(point, about))
    return replace(made, turn=heading(made.turn + 90.0)) if isinstance(made, Fixture | Cleanout) else made


def _carry(plan: Plan, ids: Iterable[str], to: To, change: Callable[[Element, To], Element]) -> Plan:
    chosen = {name: find(plan, name) for name in ids}
    _take_columns(plan, chosen)
    held = Grips(tuple(thing for thing in standing(plan) if thing.id in chosen))
    pulled = any(isinstance(element, Run) for element in chosen.values())
    staying = Grips(tuple(thing for thing in standing(plan) if thing.id not in chosen) if pulled else ())
    changed: dict[str, Element] = {
        name: change(element, to) for name, element in chosen.items() if not isinstance(element, Run)
    }
    welded = _welded(chosen, held, staying)
    if chosen and not changed and not welded:
        name = next(iter(chosen))
        raise EditError(name, "it is held at every point: move what it joins, or give it another point first")
    for run in runs(plan):
        system, level = level_of(run)
        points = tuple(
            to(point) if (system, point, level) in welded or held.hold(system, point, level) else point
            for point in run.points
        )
        if points != run.points:
            changed[run.id] = replace(run, points=points)
    changed.update(_pins(plan, chosen, welded, held, to))
    changed.update({one.id: change(one, to) for one in _cleanouts(plan, chosen, welded, held)})
    return _in_their_walls(plan, rebuilt(plan, changed), chosen)


def _take_columns(plan: Plan, chosen: dict[str, Element]) -> None:
    """Add the risers and openings of chosen walls, and what shares a point with a chosen riser or wall outlet."""
    walls = {element.id for element in chosen.values() if isinstance(element, Wall)}
    chosen.update({riser.id: riser for riser in plan.risers if riser.wall in walls})
    standing_in = [element for element in chosen.values() if isinstance(element, Wall)]
    for opening in plan.air_openings:
        if opening.id not in chosen and any(holds(w, opening.start) and holds(w, opening.end) for w in standing_in):
            chosen[opening.id] = opening
    columns = {element.at for element in chosen.values() if _in_wall(element)}
    things: tuple[Riser | Fixture, ...] = (*plan.risers, *plan.fixtures)
    for thing in things:
        if _in_wall(thing) and thing.at in columns:
            chosen.setdefault(thing.id, thing)


def _in_wall(element: object) -> TypeGuard[Riser | Fixture]:
    if isinstance(element, Fixture):
        return element.kind in WALL_OUTLETS and element.through is None
    return isinstance(element, Riser)


def _welded(chosen: dict[str, Element], held: Grips, staying: Grips) -> set[tuple[System, Point, float]]:
    """The places of the chosen runs' vertices that go: all that nothing outside the selection holds."""
    places: set[tuple[System, Point, float]] = set()
    for run in chosen.values():
        if isinstance(run, Run):
            system, level = level_of(run)
            places.update(
                (system, point, level)
                for point in run.points
                if held.hold(system, point, level) or not staying.hold(system, point, level)
            )
    return places


def _pins(
    plan: Plan, chosen: dict[str, Element], welded: set[tuple[System, Point, float]], held: Grips, to: To
) -> dict[str, Element]:
    going = {point for system, point, _ in welded if system == "waste"}
    return {
        pin.id: replace(pin, at=to(pin.at))
        for pin in plan.fittings
        if pin.id not in chosen and (pin.at in going or held.hold("waste", pin.at, UNDER))
    }


def _cleanouts(
    plan: Plan, chosen: dict[str, Element], welded: set[tuple[System, Point, float]], held: Grips
) -> Iterator[Cleanout]:
    """The cleanouts that go because the end of a run or the riser that they open goes."""
    standing_up = [element for element in chosen.values() if isinstance(element, Riser)]
    risers = {point for riser in standing_up for point in (riser.at, comes_down(riser)) if point is not None}
    for one in plan.cleanouts:
        ended = ("waste", one.at, UNDER) in welded or held.hold("waste", one.at, UNDER)
        if one.id not in chosen and (one.at in risers if in_riser(one) else ended):
            yield one


def _in_their_walls(before: Plan, after: Plan, chosen: dict[str, Element]) -> Plan:
    """The plan with each riser that moved without its wall named into the wall that it stands in now."""
    changed: dict[str, Element] = {}
    old = {riser.id: riser for riser in before.risers}
    for riser in after.risers:
        if riser.at == old[riser.id].at or riser.wall in chosen:
            continue
        wall = wall_at(after, riser.at, riser.wall)
        name = wall.id if wall is not None else None
        if name != riser.wall:
            changed[riser.id] = replace(riser, wall=name)
    return rebuilt(after, changed) if changed else after
