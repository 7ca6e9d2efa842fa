"""From the bay to the wall: whether a vent that is drawn under the floor can rise into the wall it makes for."""

from __future__ import annotations

import heapq
from collections.abc import Iterator

from engine.checks.model import Model
from engine.checks.outcomes import place
from engine.checks.records import DoesNotApply, Finding, Holds, NotJudged, Outcome
from engine.checks.served import DryVents, dry_vents
from engine.checks.vent_words import called
from engine.crossings.limits import over
from engine.drafting.wall_reach import sideways_gain
from engine.lengths import inches
from engine.piping.flow import is_under
from engine.piping.records import Node


def too_far_from_wall(model: Model) -> Iterator[Outcome]:
    """A dry vent gains no more sideways under the floor than it can rise there, before it stands plumb in its wall.

    What it can rise is the way from the drain's axis up to the joists' top: subfloor and plate it passes plumb. Counted is
    the plan length from where it leaves the drain to its riser. Holds: 4 in aside with the drain's axis 4 in down. Broken:
    4 1/16 in; 12 in. Not judged where the drain's height is not known. A riser on the drain itself holds; an island's
    vent does not apply, nor any where the book's ``vent.low_allowed`` was amended to yes. Source: IRC P3104.4, UPC 905.3,
    with the definition of vertical pipe; the arithmetic is that of the axes.
    """
    vents = dry_vents(model)
    allowed = model.book.says("vent.low_allowed")
    aside = _aside(vents)
    leaving = [node for node in vents.wet if is_under(node)]
    if not leaving:
        yield DoesNotApply()
    for node in leaving:
        for element in _leaving(vents, node):
            found = aside.get(node)
            if found is None or allowed:
                yield DoesNotApply(element)
                continue
            yield _judge(model, node, element, *found)


def _judge(model: Model, node: Node, element: str, far: float, riser: str) -> Outcome:
    at, z = place(model, node), model.heights.get(node)
    if far == 0.0:
        return Holds(element)
    if z is None:
        return NotJudged(
            at, (element,), f"{called(model, element)}: the height of the drain that it leaves is not known"
        )
    most = sideways_gain(z, model.book.number("slope.vertical_from"))
    if not over(far, most):
        return Holds(element)
    return Finding(
        "vent-too-far-from-wall",
        "stop",
        at,
        tuple(dict.fromkeys((element, riser))),
        far,
        most,
        "in",
        f"{called(model, element)} goes {inches(far)} in sideways before it stands up in {riser}; from a drain {inches(-z)} in "
        f"below the joists' top a vent can rise, and so go sideways, {inches(most)} in at most before it meets the floor.",
        model.book.cite("vent.low_allowed"),
        "Take it off where the drain passes nearer to the wall, or lead the drain past under the wall.",
    )


def _leaving(vents: DryVents, node: Node) -> Iterator[str]:
    """The elements whose dry pipes leave the waste at a node under the floor, each once."""
    yield from dict.fromkeys(pipe.element for pipe in vents.at.get(node, ()))


def _aside(vents: DryVents) -> dict[Node, tuple[float, str]]:
    """For each node under the floor how far sideways along its dry pipes the nearest riser is, and which it is."""
    found: dict[Node, tuple[float, str]] = {}
    queue: list[tuple[float, str, Node]] = [
        (0.0, pipe.element, pipe.start)
        for pipe in vents.pipes
        if pipe.shape == "plumb" and is_under(pipe.start) and not is_under(pipe.end)
    ]
    heapq.heapify(queue)
    while queue:
        far, riser, node = heapq.heappop(queue)
        if node in found:
            continue
        found[node] = (far, riser)
        for pipe in vents.at.get(node, ()):
            other = pipe.end if pipe.start == node else pipe.start
            if is_under(other) and other not in found and pipe.id not in vents.island:
                heapq.heappush(queue, (far + pipe.run, riser, other))
    return found
