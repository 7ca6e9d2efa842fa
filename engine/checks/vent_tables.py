"""What the rules on shared vents have in common: an arrangement's pipes against a table of fixture units by size."""

from __future__ import annotations

from collections.abc import Iterator

from engine.checks.model import Model
from engine.checks.outcomes import name, place
from engine.checks.records import DoesNotApply, Finding, Holds, NotJudged, Outcome
from engine.crossings.limits import over
from engine.piping.records import Pipe, VentWay
from engine.plan.outline import listed
from engine.trade.pipe import label, nominal


def ways(model: Model, *methods: str) -> Iterator[tuple[VentWay, list[Pipe]]]:
    """The arrangements of some methods, each with the pipes that carry its air."""
    for way in model.network.ways:
        if way.method in methods:
            yield way, [model.network.by_id[pipe] for pipe in way.pipes]


def served(model: Model, way: VentWay) -> str:
    """Whom a wet part vents, as one says it: the members but the one that the dry vent meets."""
    return listed([name(model, fixture) for fixture in way.members if fixture != way.starter] or [way.starter])


def once(pipes: list[Pipe]) -> Iterator[Pipe]:
    """One pipe of each element, size and load."""
    seen: set[tuple[str, float, float]] = set()
    for pipe in pipes:
        key = (pipe.element, pipe.size, pipe.load)
        if key not in seen:
            seen.add(key)
            yield pipe


def by_table(model: Model, rule: str, table: str, way: VentWay, pipe: Pipe, load: float, what: str) -> Outcome:
    """One pipe against a table of fixture units by size: `load` is no more than its size's row takes."""
    key, at, who = f"{table}.{label(pipe.size)}", place(model, pipe.end), (pipe.element, *way.members[-1:])
    if model.book.has(key):
        most = model.book.number(key)
        if not over(load, most):
            return Holds(pipe.element)
        text = (
            f"{pipe.element} brings {served(model, way)} their air and carries {load:g} fixture units; a "
            f"{label(pipe.size)} in {what} may carry {most:g}."
        )
        mend = f"Make {pipe.element} a size larger."
        return Finding(rule, "stop", at, who, load, most, "fixture units", text, model.book.cite(key), mend)
    least = min(map(nominal, (row.rsplit(".", 1)[-1] for row in model.book.keys(table))), default=None)
    if least is not None and pipe.size < least:
        return too_small(model, rule, f"{table}.{label(least)}", who, pipe, least, f"a {what}")
    return NotJudged(at, (pipe.element,), f"the book gives no load for a {label(pipe.size)} in {what}")


def too_small(model: Model, rule: str, key: str, who: tuple[str, ...], pipe: Pipe, least: float, what: str) -> Finding:
    """The finding on a pipe under a least size, inches."""
    text = f"{pipe.element} is {label(pipe.size)} in pipe; {what} there is at least {label(least)} in."
    mend = f"Make {pipe.element} {label(least)} in or larger."
    at = place(model, pipe.end)
    return Finding(rule, "stop", at, who, pipe.size, least, "in", text, model.book.cite(key), mend)


def too_steep(model: Model, rule: str, key: str, method: str, what: str) -> Iterator[Outcome]:
    """The slope of a method's level pipes, over whose water the air must go along, against the book's most."""
    most = model.book.number(key)
    for _, pipes in ways(model, method):
        for pipe in once(pipes):
            if not over(pipe.slope, most):
                yield Holds(pipe.element)
                continue
            yield Finding(
                rule,
                "stop",
                place(model, pipe.end),
                (pipe.element,),
                pipe.slope,
                most,
                "in per ft",
                f"{pipe.element} falls {pipe.slope:g} in per foot; {what} may fall {most:g}.",
                model.book.cite(key),
                f"Give {pipe.element} {most:g} in per foot or less.",
            )
    yield from beside(model, method)


def beside(model: Model, *methods: str) -> Iterator[Outcome]:
    """`does not apply` for every trap that is vented in another way."""
    for trap in model.network.traps:
        if trap.method not in methods:
            yield DoesNotApply(trap.fixture)
