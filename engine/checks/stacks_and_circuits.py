"""The limits of waste stacks and of level branches that are their own fixtures' vents."""

from __future__ import annotations

from collections.abc import Iterator

from engine.checks.model import Model
from engine.checks.outcomes import name, place
from engine.checks.records import DoesNotApply, Finding, Holds, NotJudged, Outcome, Rule
from engine.checks.vent_tables import (
    beside,
    by_table,
    once,
    too_steep,
    ways,
)
from engine.crossings.limits import over, short
from engine.piping.records import Pipe
from engine.trade.pipe import label


def stack_too_small(model: Model) -> Iterator[Outcome]:
    """A waste stack that vents its fixtures: one size throughout, by what joins at one place and by all of it.

    Holds: 2 in with 2 units at a place and 4 in all. Broken: 2 in with 5 units in all; 1-1/2 in with a sink of 2 units
    at one place. Source: IRC Table P3109.4 (from memory).
    """
    rule = "waste-stack-too-small"
    for way, pipes in ways(model, "waste stack vent"):
        foot = model.network.waste_from(pipes[-1].end)
        stack = [*pipes, *([foot] if foot is not None and foot.shape == "plumb" else [])]
        smallest = min(stack, key=lambda pipe: pipe.size)
        total = max(pipe.load for pipe in stack)
        yield by_table(model, rule, "stack_vent.total", way, smallest, total, "waste stack that is a vent")
        interval = f"stack_vent.interval.{label(smallest.size)}"
        if not model.book.has(interval):
            continue
        most = model.book.number(interval)
        for fixture in way.members:
            unit = model.network.loads.given_by(fixture)
            if unit is None:
                why = f"{name(model, fixture)}: the book gives it no fixture units"
                yield NotJudged(place(model, smallest.start), (fixture,), why)
                continue
            if not over(unit, most):
                yield Holds(fixture)
                continue
            text = (
                f"{name(model, fixture)} gives {unit:g} fixture units to {smallest.element}; {label(smallest.size)} in "
                f"waste stack that is a vent takes {most:g} at one place."
            )
            yield Finding(
                rule,
                "stop",
                place(model, smallest.start),
                (smallest.element, fixture),
                unit,
                most,
                "fixture units",
                text,
                model.book.cite(interval),
                f"Make {smallest.element} a size larger.",
            )
    yield from beside(model, "waste stack vent")


def stack_vent_narrower(model: Model) -> Iterator[Outcome]:
    """The vent above a waste stack that vents its own fixtures is as wide as the stack.

    Holds: 2 in over 2 in. Broken: 1-1/2 in over 2 in. Source: IRC P3109 (from memory).
    """
    key = "stack_vent.same_size"
    for way, pipes in ways(model, "waste stack vent"):
        if way.dry is None or not model.book.says(key):
            yield DoesNotApply(way.members[0])
            continue
        graph = model.network.graph
        above = [graph.edges[way.dry, node]["pipe"] for node in graph.successors(way.dry)]
        vent: Pipe = next(pipe for pipe in above if pipe.system == "vent")
        stack = max(pipe.size for pipe in pipes)
        if not short(vent.size, stack):
            yield Holds(vent.element)
            continue
        text = (
            f"The vent over {vent.element} is {label(vent.size)} in on a {label(stack)} in waste stack that vents its own "
            "fixtures; it is as wide as the stack."
        )
        yield Finding(
            "stack-vent-narrower",
            "stop",
            place(model, vent.start),
            (vent.element, *way.members),
            vent.size,
            stack,
            "in",
            text,
            model.book.cite(key),
            f"Make the vent {label(stack)} in.",
        )
    yield from beside(model, "waste stack vent")


def circuit_too_steep(model: Model) -> Iterator[Outcome]:
    """The slope of a circuit-vented branch from its vent to its last drain.

    Holds: 1 in per ft. Broken: 1 1/16. Source: IRC P3110 (from memory); UPC 911 (from memory).
    """
    yield from too_steep(
        model, "circuit-branch-too-steep", "circuit_vent.slope_most", "circuit vent", "a circuit-vented branch"
    )


def circuit_too_small(model: Model) -> Iterator[Outcome]:
    """A circuit-vented branch has over its whole length the size that all of its load asks for.

    Holds: 3 in throughout with 12 units. Broken: a 2 in stretch at its upper end, where all 8 units ask for 3 in.
    Source: IRC P3110 (from memory), Table P3005.4.1; UPC 911 (from memory), Table 703.2.
    """
    for way, pipes in ways(model, "circuit vent"):
        total = max(pipe.load for pipe in pipes)
        last = model.network.waste_from(pipes[-1].end)
        total = max(total, last.load if last is not None else 0.0)
        for pipe in once(pipes):
            yield by_table(
                model, "circuit-branch-too-small", "load.branch", way, pipe, total, "circuit-vented branch, all along,"
            )
    yield from beside(model, "circuit vent")


RULES = (
    Rule(
        "waste-stack-too-small",
        "A waste stack too small to be a vent",
        "venting",
        "stop",
        ("stack_vent.total",),
        stack_too_small,
        ("stack_vent.interval", "dfu"),
    ),
    Rule(
        "stack-vent-narrower",
        "A stack vent narrower than its stack",
        "venting",
        "stop",
        ("stack_vent.same_size",),
        stack_vent_narrower,
    ),
    Rule(
        "circuit-branch-too-steep",
        "A circuit-vented branch that falls too much",
        "venting",
        "stop",
        ("circuit_vent.slope_most",),
        circuit_too_steep,
    ),
    Rule(
        "circuit-branch-too-small",
        "A circuit-vented branch too small for all of its load",
        "venting",
        "stop",
        ("circuit_vent.fixtures_most", "load.branch"),
        circuit_too_small,
    ),
)
