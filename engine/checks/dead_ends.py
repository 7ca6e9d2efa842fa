"""Dead ends: stretches of drain that take nothing."""

from __future__ import annotations

from collections.abc import Iterator

from engine.checks.model import Model
from engine.checks.outcomes import place
from engine.checks.records import DoesNotApply, Finding, Holds, Outcome, Rule
from engine.checks.rodding import SUBJECT, WAYS_IN, Line, rodding
from engine.crossings.limits import over
from engine.lengths import feet_inches, inches


def dead_end(model: Model) -> Iterator[Outcome]:
    """A drain's upper end that takes no fixture, and how far it is from there to the first pipe that brings water.

    Holds: just as far as the book says. Broken: 1/16 in more. One that ends in a cleanout is none, nor one that a
    vent stands on; a stub that was left for a later fixture is told all the same, and the official's word on it can
    be written beside it. Lines that take a fixture at their end do not apply. Source: IRC P3005.1.5; UPC, definitions.
    """
    most = model.book.number("dead_end.most")
    found = rodding(model)
    for line in found.lines:
        if line.pipes[0].carries:
            yield DoesNotApply(line.element)
            continue
        if found.cleanout_on(line.start) is not None or _vented(model, line):
            yield Holds(line.element)
            continue
        empty = _empty(line)
        if not over(empty, most):
            yield Holds(line.element)
            continue
        yield Finding(
            "dead-end",
            "stop",
            place(model, line.start),
            (line.element,),
            empty,
            most,
            "in",
            f"Nothing drains into the first {feet_inches(empty)} of {line.element}; a stub may be {inches(most)} in long, "
            "unless it ends in a cleanout.",
            model.book.cite("dead_end.most"),
            "Draw what drains into it, close it with a cleanout, or cut it shorter.",
        )


def _vented(model: Model, line: Line) -> bool:
    graph = model.network.graph
    return any(graph.edges[line.start, node]["pipe"].system == "vent" for node in graph.successors(line.start))


def _empty(line: Line) -> float:
    """How far down a line the first water comes in, inches."""
    length = 0.0
    for pipe in line.pipes:
        if pipe.carries:
            break
        length += pipe.run
    return length


RULES: tuple[Rule, ...] = (Rule("dead-end", "A dead end", SUBJECT, "stop", ("dead_end.most",), dead_end, WAYS_IN),)
