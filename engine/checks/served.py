"""Which pipes are dry vents, whom each of them serves, and how high the highest of their flood rims stands.

A vent serves the traps whose air comes through it. Two vents that join serve together what each served; what is
kept of them is the highest rim, since that is what decides how high vents may turn and join. A drain that carries
no fixture and brings air is a dry vent as well, whatever it was drawn as.
"""

from __future__ import annotations

import math
from typing import NamedTuple

from engine.checks.model import Model, once_a_model
from engine.drafting.finished import under_fixture
from engine.piping.records import Network, Node, Pipe
from engine.plan.records import Fixture
from engine.trade import fixtures as trade


class Service(NamedTuple):
    """The highest flood rim among the fixtures that a vent serves.

    `rim` is its height over the joists' top, inches, `fixture` whose it is; both are None where no rim is known.
    `unknown` is one served fixture whose rim is not known, None where all are.
    """

    rim: float | None
    fixture: str | None
    unknown: str | None


NOTHING = Service(None, None, None)

PLUMB = 90.0
"""How far a plumb pipe rises from level, degrees."""


class DryVents(NamedTuple):
    """A plan's dry vents.

    `pipes` are all dry pipes in file order, `at` those that meet at each node, `of` what each node's dry pipes serve
    (nodes that serve nothing are left out), `wet` the nodes, in order, at which dry pipes leave the waste, `island` the
    ids of the dry pipes that belong to an island's vent, which has rules of its own.
    """

    pipes: tuple[Pipe, ...]
    at: dict[Node, list[Pipe]]
    of: dict[Node, Service]
    wet: dict[Node, None]
    island: frozenset[str]


def drain_side(pipe: Pipe) -> Node:
    """The end of a dry pipe that is nearer to the drain: waste and air run opposite ways."""
    return pipe.start if pipe.system == "vent" else pipe.end


def air_side(pipe: Pipe) -> Node:
    """The end of a dry pipe that is nearer to the open air."""
    return pipe.end if pipe.system == "vent" else pipe.start


def is_dry(network: Network, pipe: Pipe) -> bool:
    """Whether a pipe carries air only: a vent, or a drain that carries no fixture and brings air."""
    return pipe.system == "vent" or (not pipe.carries and pipe.id in network.airways)


def rim_of(model: Model, fixture: str) -> float | None:
    """The height of a fixture's flood rim over the joists' top, inches; None where it is not known."""
    return _rims(model).get(fixture)


@once_a_model
def _rims(model: Model) -> dict[str, float | None]:
    return {one.id: _rim(model, one) for one in model.plan.fixtures}


def _rim(model: Model, fixture: Fixture) -> float | None:
    above = trade.rim_of(fixture)
    return None if above is None else under_fixture(model.plan, fixture) + above


def steepness(model: Model, pipe: Pipe) -> float:
    """How far a dry pipe rises from level on its way from the drain, degrees.

    A run that was drawn leaning rises as its slope says; a rolled branch looks up as far as it is rolled round the
    drain, which is how it is set and how inspectors read it, whatever its own climb.
    """
    if pipe.shape == "plumb":
        return PLUMB
    if pipe.shape == "level":
        return math.degrees(math.atan2(pipe.slope, 12.0))
    return max(_rolls(model).get(pipe.element, 0.0), abs(pipe.climb))


@once_a_model
def _rolls(model: Model) -> dict[str, float]:
    return {run.id: run.roll for run in model.plan.drains}


@once_a_model
def dry_vents(model: Model) -> DryVents:
    """The plan's dry vents."""
    network = model.network
    pipes = tuple(pipe for pipe in network.pipes if is_dry(network, pipe))
    carrying = {node for pipe in network.pipes if not is_dry(network, pipe) for node in (pipe.start, pipe.end)}
    at: dict[Node, list[Pipe]] = {}
    for pipe in pipes:
        at.setdefault(pipe.start, []).append(pipe)
        at.setdefault(pipe.end, []).append(pipe)
    wet = dict.fromkeys(node for node in at if node in carrying)
    return DryVents(pipes, at, _serve(model, pipes, wet), wet, frozenset(pipe.id for pipe in pipes if pipe.island))


def _serve(model: Model, pipes: tuple[Pipe, ...], wet: dict[Node, None]) -> dict[Node, Service]:
    """What is served at each node of the dry pipes: whom it vents itself, and all that comes in from below."""
    served: dict[Node, Service] = {}
    for way in model.network.ways:
        if way.dry is not None:
            for fixture in (*way.members, *((way.starter,) if way.starter else ())):
                served[way.dry] = joined(served.get(way.dry, NOTHING), _alone(model, fixture))
    graph = model.network.graph
    for node in [node for node in wet if node not in served]:
        for before in graph.predecessors(node):
            for fixture in graph.edges[before, node]["pipe"].carries:
                served[node] = joined(served.get(node, NOTHING), _alone(model, fixture))
    onward: dict[Node, list[Node]] = {}
    waiting: dict[Node, int] = {}
    for pipe in pipes:
        onward.setdefault(drain_side(pipe), []).append(air_side(pipe))
        waiting[air_side(pipe)] = waiting.get(air_side(pipe), 0) + 1
    ready = [node for node in onward if node not in waiting]
    for node in ready:
        for upper in onward.get(node, ()):
            if node in served:
                served[upper] = joined(served.get(upper, NOTHING), served[node])
            waiting[upper] -= 1
            if not waiting[upper]:
                ready.append(upper)
    return served


def _alone(model: Model, fixture: str) -> Service:
    rim = rim_of(model, fixture)
    return Service(None, None, fixture) if rim is None else Service(rim, fixture, None)


def joined(a: Service, b: Service) -> Service:
    """What two vents serve together."""
    rim, fixture = max(
        ((s.rim, s.fixture) for s in (a, b) if s.rim is not None), key=lambda s: s[0], default=(None, None)
    )
    return Service(rim, fixture, a.unknown or b.unknown)
