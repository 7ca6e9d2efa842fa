"""Nothing gets smaller the way the water goes: no drain, no stack under a branch, no trap's drain."""

from __future__ import annotations

from collections.abc import Iterator

from engine.checks.drain_sizes import drained, drains
from engine.checks.model import Model
from engine.checks.outcomes import name, place
from engine.checks.records import DoesNotApply, Finding, Holds, Outcome, Rule
from engine.crossings.limits import short
from engine.piping.records import Pipe
from engine.trade.pipe import label

REDUCES, TRAP = "fitting.reduces_with_flow", "trap.larger_than_drain"


def drain_gets_smaller(model: Model) -> Iterator[Outcome]:
    """A pipe that is smaller than one that flows into it.

    Holds: 2 in into 3 in; a closet bend of 4 x 3, which counts as no reduction. Broken: 3 in into 2 in. Upright pipe under
    a branch is no exception (IRC P3005.4.1). A drain under a trap, or too small for what it carries, has a rule of its own.
    Source: IRC P3005.1.7; UPC 310.5.
    """
    for element, pipes in drains(model).items():
        if model.book.flag(REDUCES):
            yield DoesNotApply(element)
            continue
        found = next(((pipe, wide) for pipe in pipes if (wide := _widest_above(model, pipe)) is not None), None)
        if found is None:
            yield Holds(element)
            continue
        pipe, wide = found
        text = (
            f"{drained(model, element)} is {label(pipe.size)} in where {wide.element} comes into it with {label(wide.size)} "
            "in; no drain gets smaller the way the water goes."
        )
        yield Finding(
            "drain-gets-smaller",
            "stop",
            place(model, pipe.start),
            (element, wide.element) if wide.element != element else (element,),
            pipe.size,
            wide.size,
            "in",
            text,
            model.book.cite(REDUCES),
            f"Make {element} {label(wide.size)} in.",
        )


def trap_larger_than_drain(model: Model) -> Iterator[Outcome]:
    """A trap that is larger than the drain which takes its water.

    Holds: a 2 in trap on 2 in pipe. Broken: on 1-1/2 in. Source: IRC P3201.7; UPC 310.5 (derived). A closet has its trap
    inside it.
    """
    sizes = {trap.fixture: trap.size for trap in model.network.traps}
    for element, pipes in drains(model).items():
        found = next(
            ((pipe, who) for pipe in pipes for who in pipe.carries if short(pipe.size, sizes.get(who, 0.0))), None
        )
        if model.book.flag(TRAP) or not any(sizes.get(who, 0.0) for pipe in pipes for who in pipe.carries):
            yield DoesNotApply(element)
        elif found is None:
            yield Holds(element)
        else:
            pipe, who = found
            yield Finding(
                "trap-larger-than-drain",
                "stop",
                place(model, pipe.start),
                (element, who) if who != element else (element,),
                pipe.size,
                sizes[who],
                "in",
                f"{drained(model, element)} is {label(pipe.size)} in and takes {name(model, who)}, whose trap is "
                f"{label(sizes[who])} in; no trap is larger than its drain.",
                model.book.cite(TRAP),
                f"Make {element} {label(sizes[who])} in.",
            )


def _widest_above(model: Model, pipe: Pipe) -> Pipe | None:
    """The widest pipe that flows into another and is wider; None where none is, or where another rule tells of it."""
    graph, sizes = model.network.graph, model.network.drain_sizes
    above = [graph.edges[node, pipe.start]["pipe"] for node in graph.predecessors(pipe.start)]
    wider = [
        one
        for one in above
        if one.system == "waste" and short(pipe.size, one.size) and sizes[one.id].asks[0].by != "closet's bend"
    ]
    if not wider:
        return None
    wide: Pipe = max(wider, key=lambda one: one.size)
    told = [ask.size for ask in sizes[pipe.id].asks if ask.by not in ("upstream", "stocked") and not ask.doubtful]
    return None if told and not short(max(told), wide.size) else wide


RULES = (
    Rule("drain-gets-smaller", "A drain that gets smaller on its way", "sizes", "stop", (REDUCES,), drain_gets_smaller),
    Rule("trap-larger-than-drain", "A trap larger than its drain", "sizes", "stop", (TRAP,), trap_larger_than_drain),
)
