"""Where vents join each other, and whether one of them is the building drain's own way to the open air."""

from __future__ import annotations

from collections.abc import Iterator

from engine.checks.model import Model
from engine.checks.outcomes import name, place
from engine.checks.records import DoesNotApply, Finding, Holds, NotJudged, Outcome
from engine.checks.served import dry_vents
from engine.checks.vent_words import over_floor
from engine.crossings.limits import short
from engine.lengths import inches
from engine.piping.flow import is_under
from engine.piping.records import Node, Pipe


def joins_too_low(model: Model) -> Iterator[Outcome]:
    """A vent joins another vent six inches or more over the flood rim of the highest fixture that either serves.

    Reads ``vent.join_above_rim``. A join is where three dry pipes meet, or two where waste comes in too. Holds: 42 in up
    over a 36 in rim. Broken: 41 15/16 in; a join under the floor. Not judged where a rim is not known; the vents of an
    island do not apply. Source: IRC P3104.5; UPC 905.3.
    """
    vents, least = dry_vents(model), model.book.number("vent.join_above_rim")
    met = {node: [pipe for pipe in pipes if pipe.system == "vent"] for node, pipes in vents.at.items()}
    joins = {node: pipes for node, pipes in met.items() if _is_join(pipes, node in vents.wet, node)}
    if not joins:
        yield DoesNotApply()
    for node, pipes in joins.items():
        elements = tuple(dict.fromkeys(pipe.element for pipe in pipes))
        service = vents.of.get(node)
        if service is None or any(pipe.id in vents.island for pipe in pipes):
            yield DoesNotApply(elements[0])
            continue
        at, z = place(model, node), model.heights.get(node)
        both = " and ".join(elements[:2])
        if z is None:
            yield NotJudged(at, elements, f"the height at which {both} meet is not known")
        elif service.rim is not None and short(z - service.rim, least):
            rim = service.rim - model.plan.floor.finished_z
            yield Finding(
                "vent-joins-too-low",
                "stop",
                at,
                elements,
                z - service.rim,
                least,
                "in",
                f"The vents {both} join {over_floor(model, z)}, and the rim of {name(model, service.fixture or '')} stands "
                f"{inches(rim)} in up: vents join {least:g} in over the highest rim, {inches(rim + least)} in above the floor.",
                model.book.cite("vent.join_above_rim"),
                f"Join them {inches(rim + least)} in above the floor or higher.",
            )
        elif service.unknown is not None:
            words = f"{both} join: how high the rim of {name(model, service.unknown)} stands is not known"
            yield NotJudged(at, (*elements, service.unknown), words)
        else:
            yield Holds(elements[0])


def _is_join(pipes: list[Pipe], wet: bool, node: Node) -> bool:
    """Whether so many dry pipes at a node make a join of vents: not where two of them leave a drain under the floor."""
    return len(pipes) >= (2 if wet else 3) and not (wet and is_under(node))


def no_main_vent(model: Model) -> Iterator[Outcome]:
    """Each building drain has at least one dry vent that is open to the outdoors.

    Reads ``vent.one_outdoors``; an island's vent is not that one where ``vent.main_by_island`` says no, nor is an admittance
    valve. Holds: a riser through the roof above a lavatory's tee. Broken: a bath on a valve alone. An exit that no fixture
    drains to does not apply. Source: IRC P3102.1, P3102.2; UPC 906.1.
    """
    network = model.network
    served = {network.exit_of.get(trap.node) for trap in network.traps}
    open_to = {network.exit_of.get(node) for node in opened(model)}
    for exit_, node in network.exits.items():
        if exit_ not in served:
            yield DoesNotApply(exit_)
        elif exit_ in open_to or not model.book.flag("vent.one_outdoors"):
            yield Holds(exit_)
        else:
            yield Finding(
                "no-vent-outdoors",
                "stop",
                place(model, node),
                (exit_,),
                None,
                None,
                "",
                f"No dry vent goes from the building drain of {exit_} to the open air; valves and an island's vent do not "
                "count as that one.",
                model.book.cite("vent.one_outdoors"),
                "Take one vent through the roof, or draw the one that this drain has already.",
            )


def opened(model: Model, least: float = 0.0) -> set[Node]:
    """The nodes from which a dry vent, nowhere smaller than `least`, leads to an end over the roof."""
    graph, floor, vents = model.network.graph, model.plan.floor.finished_z, dry_vents(model)
    roofs = {riser.at for riser in model.plan.risers if riser.top == "roof"}
    barred = model.book.has("vent.main_by_island") and not model.book.flag("vent.main_by_island")
    island = vents.island if barred else frozenset()
    loops = {riser.id for riser in model.plan.risers if riser.top == "loop"} if barred else set()
    waiting = [
        node for node in vents.at if (node.x, node.y) in roofs and node.level > floor and not graph.out_degree(node)
    ]
    seen = set(waiting)
    for node in waiting:
        for before in graph.predecessors(node):
            pipe: Pipe = graph.edges[before, node]["pipe"]
            if pipe.system != "vent" or short(pipe.size, least):
                continue
            if before not in seen and pipe.id not in island and pipe.element not in loops:
                seen.add(before)
                waiting.append(before)
    return seen
