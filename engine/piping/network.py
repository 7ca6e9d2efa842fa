"""build(plan, book): the plan's pipe graph."""

from __future__ import annotations

import math

from engine.piping import falls, flow, loads, venting
from engine.piping.collecting import collect
from engine.piping.drain_sizing import size_waste
from engine.piping.near import near_misses
from engine.piping.records import Network, Pipe
from engine.piping.sticks import Stick
from engine.piping.vent_sizing import size_vents
from engine.piping.web import weave
from engine.plan.records import Plan
from engine.rulebooks import RuleBook


def build(plan: Plan, book: RuleBook) -> Network:
    """Weld, direct, load, vent and size everything drawn; heights come out relative to each exit."""
    network = Network()
    made = collect(plan, book)
    reached = flow.direct_waste(made, plan)
    aired = flow.direct_vents(made)
    ledges = flow.set_on_ledges(made, plan, reached, aired)
    web = weave(made, aired)
    network.loads = loads.spread_loads(plan, book, made, web)
    air = venting.air_through(web)
    network.traps, network.ways = venting.find_traps(plan, book, made, web, air, network.loads)
    vented = (network.traps, network.ways, network.loads)
    network.drain_sizes = size_waste(plan, book, made, web, *vented)
    network.vent_sizes = size_vents(plan, book, web, made, *vented, network.drain_sizes, reached)
    falls.settle(plan, book, made, web, network, reached, ledges)
    network.exits = {exit_id: node for exit_id, node in made.exits.items() if reached.get(node) == exit_id}
    network.exit_of = reached
    network.outlets = made.outlets
    network.aired = frozenset(aired)
    network.airways = frozenset(air)
    _publish(network, made.all)
    network.faults = (*made.faults, *near_misses(plan, network))
    return network


def _publish(network: Network, sticks: list[Stick]) -> None:
    pipes: list[Pipe] = []
    for stick in sticks:
        dx, dy = stick.end.x - stick.start.x, stick.end.y - stick.start.y
        run = math.hypot(dx, dy)
        pipe = Pipe(
            id=stick.id,
            element=stick.element,
            segment=stick.segment,
            system="waste" if stick.system == "waste" else "vent",
            shape="level" if stick.shape == "level" else "plumb" if stick.shape == "plumb" else "inclined",
            start=stick.start,
            end=stick.end,
            run=run,
            heading=(dx / run, dy / run) if run else stick.heading if stick.shape == "inclined" else (0.0, 0.0),
            climb=_climb(stick),
            slope=stick.slope,
            size=stick.final_size,
            pinned_size=stick.size is not None,
            passing=stick.passing,  # type: ignore[arg-type]
            fixture=stick.carries[0] if len(stick.carries) == 1 else None,
            load=stick.load,
            carries=stick.carries,
            island=stick.island,
        )
        pipes.append(pipe)
        network.by_id[pipe.id] = pipe
        network.graph.add_edge(pipe.start, pipe.end, pipe=pipe)
    network.pipes = tuple(pipes)


def _climb(stick: Stick) -> float:
    """How steeply an inclined stick rises against the flow, degrees: negative where air goes up through it."""
    if stick.shape != "inclined":
        return 0.0
    leaning_vent = stick.system == "vent" and stick.start.level == stick.end.level
    return -stick.climb if leaning_vent or stick.start.level < stick.end.level else stick.climb
