"""The way from an exit up to one thing of the plan, pipe by pipe: what the long section of its fall is cut along."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator
from typing import NamedTuple

from engine.checks.model import Model
from engine.piping.records import UNDER, Network, Node, Pipe, is_under
from engine.plan.records import Cleanout, Drain, Element, Exit, Fixture, PinnedFitting, Point, Riser, Vent


class Step(NamedTuple):
    """One pipe of the way, with its end nearer to the exit and the other."""

    pipe: Pipe
    lower: Node
    upper: Node


class FallPath(NamedTuple):
    """The pipes under the floor from an exit up; `stands` is the upright pipe that comes down through the floor there."""

    exit: str
    steps: tuple[Step, ...]
    stands: Step | None

    @property
    def length(self) -> float:
        """Plan length, inches."""
        return sum(step.pipe.run for step in self.steps)


def fall_path(model: Model, element: Element) -> FallPath | None:
    """The way from the exit up to a drain's or under-floor vent's upper end, a fixture, riser, cleanout or pinned fitting.

    Of an exit it is the longest that ends there; where several serve it is the longest. None where nothing under
    the floor leads from the element to an exit.
    """
    network = model.network
    ways = (way for node in _ends(model, element) if (way := way_down(network, node)) is not None)
    best = max(ways, key=lambda way: (way.length, len(way.steps)), default=None)
    return best if best is not None and best.steps else None


def _ends(model: Model, element: Element) -> Iterator[Node]:
    """The nodes from which the way down to an exit is to be followed."""
    find = _FINDS.get(type(element))
    if find is not None:
        yield from find(model, element)


def _of_run(model: Model, run: Drain | Vent) -> Iterator[Node]:
    """Where a run begins, seen from the exit upward: the ends that none of its own pipes goes on from."""
    own = [pipe for pipe in model.network.pipes if pipe.element == run.id and is_under(pipe.start)]
    lower = {_lower(pipe) for pipe in own}
    yield from (upper for pipe in own if (upper := _upper(pipe)) not in lower and is_under(upper))


def _of_fixture(model: Model, fixture: Fixture) -> Iterator[Node]:
    served = fixture.through or fixture.id
    yield from (trap.node for trap in model.network.traps if trap.fixture == served)


def _of_riser(model: Model, riser: Riser) -> Iterator[Node]:
    """What a riser stands on: the lower end of its pipe through the floor, wet or dry."""
    for pipe in model.network.pipes:
        if pipe.element == riser.id and is_under(_lower(pipe)) and not is_under(_upper(pipe)):
            yield _lower(pipe)


def _of_cleanout(model: Model, cleanout: Cleanout) -> Iterator[Node]:
    if cleanout.above_floor is None:
        yield from _at(model.network, cleanout.at)
        return
    for riser in model.plan.risers:
        if riser.at == cleanout.at:
            yield from _of_riser(model, riser)


def _of_fitting(model: Model, fitting: PinnedFitting) -> Iterator[Node]:
    if fitting.level == "under":
        yield from _at(model.network, fitting.at)


def _of_exit(model: Model, exit_: Exit) -> Iterator[Node]:
    """Every node under the floor whose water comes to an exit: the longest way is looked for among them."""
    exit_of = model.network.exit_of
    yield from (node for node in model.network.rise if exit_of.get(node) == exit_.id)


_FINDS: dict[type, Callable[..., Iterator[Node]]] = {
    Drain: _of_run,
    Vent: _of_run,
    Fixture: _of_fixture,
    Riser: _of_riser,
    Cleanout: _of_cleanout,
    PinnedFitting: _of_fitting,
    Exit: _of_exit,
}


def _at(network: Network, point: Point) -> Iterable[Node]:
    node = Node(point[0], point[1], UNDER)
    return (node,) if node in network.rise else ()


def _lower(pipe: Pipe) -> Node:
    """A pipe's end nearer to the exit: waste runs to it, air away from it."""
    return pipe.end if pipe.system == "waste" else pipe.start


def _upper(pipe: Pipe) -> Node:
    return pipe.start if pipe.system == "waste" else pipe.end


def way_down(network: Network, node: Node) -> FallPath | None:
    """From a node down to its exit, told from the exit up; None where it reaches none."""
    exits = {at: name for name, at in network.exits.items()}
    steps: list[Step] = []
    seen: set[Node] = set()
    here = node
    while here not in exits:
        seen.add(here)
        pipe = network.waste_from(here) or _dry_to(network, here, seen)
        if pipe is None or _lower(pipe) in seen:
            return None
        steps.append(Step(pipe, _lower(pipe), here))
        here = _lower(pipe)
    steps.reverse()
    under = tuple(step for step in steps if is_under(step.upper) and is_under(step.lower))
    through = next((step for step in steps if is_under(step.lower) and not is_under(step.upper)), None)
    top = under[-1].upper if under else here
    return FallPath(exits[here], under, through or _standing(network, top))


def _dry_to(network: Network, node: Node, seen: set[Node]) -> Pipe | None:
    """The dry pipe under the floor that brings a node nearer to the drain that its vent leaves."""
    for before in network.graph.predecessors(node) if node in network.graph else ():
        pipe: Pipe = network.graph.edges[before, node]["pipe"]
        if pipe.system == "vent" and is_under(before) and before not in seen:
            return pipe
    return None


def _standing(network: Network, node: Node) -> Step | None:
    """The upright pipe that comes down through the floor to a node: waste before air."""
    if node not in network.graph:
        return None
    into = [network.graph.edges[before, node]["pipe"] for before in network.graph.predecessors(node)]
    out = [network.graph.edges[node, after]["pipe"] for after in network.graph.successors(node)]
    upright: list[Pipe] = [pipe for pipe in (*into, *out) if pipe.shape == "plumb"]
    upright.sort(key=lambda pipe: pipe.system != "waste")
    for pipe in upright:
        if _lower(pipe) == node and not is_under(_upper(pipe)):
            return Step(pipe, node, _upper(pipe))
    return None
