"""The long section of a line: everything that lies along the way from an exit to one thing, by distance and height.

Distances are measured along the pipes in plan, inches from the exit (a water line's first point). Heights are
inches from the joists' top, negative below it.
"""

from __future__ import annotations

import math

from engine.checks.model import Model
from engine.crossings.windows import mid_depth, supply_axis
from engine.piping.records import Node
from engine.plan.outline import called
from engine.plan.records import KINDS as COLLECTIONS
from engine.plan.records import Element, Fixture, Inlet, PinnedFitting, Point, Record, Supply
from engine.takeoff.fall_path import FallPath, fall_path
from engine.takeoff.section_floor import Finished as Finished
from engine.takeoff.section_floor import finished_over
from engine.takeoff.section_legs import Leg as Leg
from engine.takeoff.section_legs import legs_of, tail_of, upright
from engine.takeoff.section_things import Thing, fittings_on
from engine.takeoff.section_wood import Bay, bays_of, woods_of
from engine.takeoff.section_wood import Wood as Wood
from engine.trade import pipe as trade


class LongSection(Record, frozen=True, gc=False):
    """A line from its exit up: `low_end` and `high_end` say what stands at its ends, `things` are its fittings.

    `stands` is the upright pipe through the floor at the upper end, `tail` the one that goes down from the exit.
    `floors` is the finished floor over it, stretch by stretch.
    """

    element: str
    exit: str | None
    low_end: str
    high_end: str
    length: float
    legs: tuple[Leg, ...]
    stands: Leg | None
    tail: Leg | None
    woods: tuple[Wood, ...]
    things: tuple[Thing, ...]
    bays: tuple[Bay, ...]
    subfloor: float
    floors: tuple[Finished, ...]

    @property
    def finished(self) -> float:
        """Height of the finished floor over the line, of the highest where there are several, inches."""
        return max(one.z for one in self.floors)

    @property
    def fall(self) -> float:
        """How far the axis falls from the upper end to the exit, upright and rolled drops included, inches."""
        return self.legs[-1].z1 - self.legs[0].z0

    def leg_at(self, station: float) -> Leg:
        """The leg that lies so far from the exit; the sloping one where an upright one stands there too."""
        sloping = [leg for leg in self.legs if leg.ends > leg.begins]
        return next((leg for leg in sloping or self.legs if station <= leg.ends), (sloping or self.legs)[-1])


def long_section(model: Model, element: Element) -> LongSection | None:
    """The long section from the exit up to a drain, fixture, riser, cleanout, exit or vent under the floor.

    A water line is shown by itself. None where nothing leads from the element to an exit, or no height is known.
    """
    if isinstance(element, Supply):
        return _of_supply(model, element)
    path = fall_path(model, element)
    return None if path is None else section_along(model, element, path)


def section_along(model: Model, element: Element, path: FallPath) -> LongSection | None:
    """The long section of one way up from an exit, for the element that it is told of; None where no height is known."""
    if any(node not in model.heights for step in path.steps for node in (step.lower, step.upper)):
        return None
    legs = legs_of(model, path)
    top = path.steps[-1].upper
    stands = upright(model, path.stands, legs[-1].ends) if path.stands is not None else None
    elements = _elements(model)
    high = path.stands.pipe.element if path.stands is not None else _closed_by(model, top)
    return LongSection(
        element=element.id,
        exit=path.exit,
        low_end=called(elements[path.exit]),
        high_end=called(elements[high]) if high in elements else _end_words(element, legs[-1]),
        length=path.length,
        legs=legs,
        stands=stands,
        tail=tail_of(model, path.exit, legs[0]),
        woods=woods_of(model, legs, path.steps),
        things=fittings_on(model, _places(legs, stands), {leg.pipe for leg in (*legs, *([stands] if stands else []))}),
        bays=bays_of(model, legs),
        subfloor=model.plan.floor.subfloor,
        floors=finished_over(model.plan, _places(legs, None)),
    )


def _of_supply(model: Model, supply: Supply) -> LongSection | None:
    size = trade.nominal(supply.size)
    od = trade.tube(size).od + 2.0 * supply.insulation
    if supply.down is None and not model.framing.joists:
        return None
    z = supply_axis(supply, mid_depth(model.framing))
    legs: list[Leg] = []
    for line in model.lines:
        if line.element == supply.id:
            start, end = (line.start.x, line.start.y), (line.end.x, line.end.y)
            begins = legs[-1].ends if legs else 0.0
            far = begins + math.dist(start, end)
            legs.append(
                Leg(line.id, supply.id, supply.water, "level", size, od, line.passing, begins, far, z, z, start, end)
            )
    if not legs:
        return None
    made = tuple(legs)
    things = fittings_on(model, _places(made, None), {supply.id})
    return LongSection(
        element=supply.id,
        exit=None,
        low_end=_water_end(model, things, 0.0, f"first point of {supply.id}"),
        high_end=_water_end(model, things, made[-1].ends, f"last point of {supply.id}"),
        length=made[-1].ends,
        legs=made,
        stands=None,
        tail=None,
        woods=woods_of(model, made, ()),
        things=things,
        bays=bays_of(model, made),
        subfloor=model.plan.floor.subfloor,
        floors=finished_over(model.plan, _places(made, None)),
    )


def _water_end(model: Model, things: tuple[Thing, ...], station: float, otherwise: str) -> str:
    """What a water line serves or comes from where it ends: the fixture or the inlet there."""
    ends: tuple[Fixture | Inlet, ...] = (*model.plan.fixtures, *model.plan.inlets)
    served = {one.id: one for one in ends}
    at = (name for thing in things if thing.station == station for name in thing.elements if name in served)
    return next((called(served[name]) for name in at), otherwise)


def _places(legs: tuple[Leg, ...], stands: Leg | None) -> list[tuple[Point, Point, float, float]]:
    """The legs as plan lines, with the distances at which they begin and end."""
    return [(leg.start, leg.end, leg.begins, leg.ends) for leg in (*legs, *([stands] if stands else []))]


def _end_words(element: Element, last: Leg) -> str:
    return called(element) if isinstance(element, PinnedFitting) else f"upper end of {last.element}"


def _closed_by(model: Model, node: Node) -> str:
    """The cleanout that closes a run's upper end, by its id."""
    at = (node.x, node.y)
    return next((one.id for one in model.plan.cleanouts if one.at == at and one.above_floor is None), "")


def _elements(model: Model) -> dict[str, Element]:
    return {element.id: element for kind in COLLECTIONS for element in getattr(model.plan, kind)}
