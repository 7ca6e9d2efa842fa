"""Where a cleanout can be set: risers, the upper ends of drains under the floor, and their corners. Pure; no window is touched."""

from __future__ import annotations

from collections.abc import Iterator
from typing import NamedTuple

from app.tools.plane import heading_of
from engine.joinery.legs import straight_on
from engine.piping.records import UNDER, Network, Node
from engine.plan.outline import called
from engine.plan.points import Run
from engine.plan.records import Cleanout, Drain, Plan, Point, Riser


class Opening(NamedTuple):
    """A place for a cleanout: the riser or drain that it opens there, and its words."""

    at: Point
    opens: Riser | Drain
    words: str


def openings(plan: Plan, network: Network | None) -> tuple[Opening, ...]:
    """Every place for a cleanout, risers first. Without a worked-out network every end of a drain counts."""
    risers = (Opening(riser.at, riser, called(riser)) for riser in plan.risers)
    return (*risers, *_ends(plan, network), *_corners(plan, network))


def taken(plan: Plan, opening: Opening) -> Cleanout | None:
    """The cleanout that is there already, if any."""
    raised = isinstance(opening.opens, Riser)
    return next(
        (one for one in plan.cleanouts if one.at == opening.at and (one.above_floor is not None) == raised), None
    )


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


def _corners(plan: Plan, network: Network | None) -> Iterator[Opening]:
    """The places where one drain turns on the level with no other there: what leaves can be opened straight on."""
    if network is None:
        return
    drains = {drain.id: drain for drain in plan.drains}
    for pipe in network.pipes:
        node = pipe.start
        if pipe.system != "waste" or pipe.shape != "level" or node.level != UNDER:
            continue
        coming = [network.graph.edges[edge]["pipe"] for edge in network.graph.in_edges(node)]
        others = network.graph.out_degree(node) > 1 or len(coming) != 1
        if others or coming[0].shape != "level" or straight_on(coming[0], pipe):
            continue
        yield Opening((node.x, node.y), drains[pipe.element], f"corner of {called(drains[pipe.element])}")


def _is_upper(at: Point, run: Run, network: Network) -> bool:
    """Whether water runs from this end down the run, and from no other level pipe into it."""
    node = Node(at[0], at[1], UNDER)
    if node not in network.graph:
        return False
    coming = [network.graph.edges[edge]["pipe"] for edge in network.graph.in_edges(node)]
    going = [network.graph.edges[edge]["pipe"] for edge in network.graph.out_edges(node)]
    level = any(pipe.system == "waste" and pipe.shape == "level" for pipe in coming)
    return not level and any(pipe.system == "waste" and pipe.element == run.id for pipe in going)
