"""Where a cleanout can be set: the upper ends of drains under the floor, and risers. Pure; no window is touched."""

from __future__ import annotations

import math
from collections.abc import Iterator
from typing import NamedTuple

from app.tools.plane import beside, heading_of
from engine.piping.records import UNDER, Network, Node
from engine.plan.outline import called
from engine.plan.points import Run
from engine.plan.records import Cleanout, Drain, Plan, Point, Riser
from engine.plan.walls import wall_at
from engine.plan.welds import WALL_OUTLETS
from engine.trade.habits import RISER_CLEANOUT, RISER_CLEANOUT_CLEAR


class Opening(NamedTuple):
    """A place for a cleanout: the riser or drain that it opens there, and its words."""

    at: Point
    opens: Riser | Drain
    words: str


def openings(plan: Plan, network: Network | None) -> tuple[Opening, ...]:
    """Every place for a cleanout, risers first. Without a worked-out network every end of a drain counts."""
    risers = (Opening(riser.at, riser, called(riser)) for riser in plan.risers)
    return (*risers, *_ends(plan, network))


def taken(plan: Plan, opening: Opening) -> Cleanout | None:
    """The cleanout that is there already, if any."""
    raised = isinstance(opening.opens, Riser)
    return next(
        (one for one in plan.cleanouts if one.at == opening.at and (one.above_floor is not None) == raised), None
    )


def height_in(riser: Riser, plan: Plan, network: Network | None) -> float:
    """How high above the floor a riser's cleanout stands: as usual, but clear below the lowest pipe that enters it."""
    floor = plan.floor.finished_z
    entering = [
        node.level - floor
        for pipe in (network.pipes if network is not None else ())
        for node in (pipe.start, pipe.end)
        if pipe.shape != "plumb" and (node.x, node.y) == riser.at and node.level > floor
    ]
    return max(0.0, min([RISER_CLEANOUT, *(height - RISER_CLEANOUT_CLEAR for height in entering)]))


def heading_at(at: Point, plan: Plan, toward: Point) -> float:
    """The heading to which a riser's cleanout opens: into the room, on the pointer's side where both sides have one.

    What empties into the wall there tells where the room is; else an outside wall opens over the floor, and any
    other wall on the side of `toward`. In no wall it is the nearest quarter heading to `toward`.
    """
    for fixture in plan.fixtures:
        if fixture.at == at and fixture.kind in WALL_OUTLETS:
            return fixture.turn
    wall = wall_at(plan, at)
    if wall is None:
        return _quarter(heading_of(at, toward)) if toward != at else 0.0
    corners = plan.floor.outline
    middle = (sum(x for x, _ in corners) / len(corners), sum(y for _, y in corners) / len(corners))
    _, off = beside(middle if wall.exterior else toward, wall.start, wall.end)
    return round((heading_of(wall.start, wall.end) + math.copysign(90.0, off)) % 360.0, 9) % 360.0


def away_from(plan: Plan, at: Point) -> float | None:
    """The heading in which the end of a drain run points out of the run; None where no drain ends."""
    for drain in plan.drains:
        for end, inner in ((drain.points[0], drain.points[1]), (drain.points[-1], drain.points[-2])):
            if end == at:
                return heading_of(inner, end)
    return None


def _ends(plan: Plan, network: Network | None) -> Iterator[Opening]:
    leaving = {exit_.at for exit_ in plan.exits}
    for drain in plan.drains:
        for at in dict.fromkeys((drain.points[0], drain.points[-1])):
            upper = _is_upper(at, drain, network) if network is not None else at not in leaving
            if upper:
                yield Opening(at, drain, f"end of {called(drain)}")


def _is_upper(at: Point, run: Run, network: Network) -> bool:
    """Whether water runs from this end down the run, and from no other level pipe into it."""
    node = Node(at[0], at[1], UNDER)
    if node not in network.graph:
        return False
    coming = [network.graph.edges[edge]["pipe"] for edge in network.graph.in_edges(node)]
    going = [network.graph.edges[edge]["pipe"] for edge in network.graph.out_edges(node)]
    level = any(pipe.system == "waste" and pipe.shape == "level" for pipe in coming)
    return not level and any(pipe.system == "waste" and pipe.element == run.id for pipe in going)


def _quarter(heading: float) -> float:
    return round(heading / 90.0) * 90.0 % 360.0
