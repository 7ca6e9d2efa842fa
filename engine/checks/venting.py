"""Vents: whether air reaches each trap's arm, how far that is, and whether a wet vent is wide enough."""

from __future__ import annotations

from collections.abc import Iterator

from engine.checks.model import Model
from engine.checks.outcomes import name, place
from engine.checks.records import DoesNotApply, Finding, Holds, NotJudged, Outcome, Rule
from engine.crossings.limits import over
from engine.piping.records import Node, Pipe, Trap
from engine.trade.pipe import label


def limit_of(model: Model, trap: Trap) -> tuple[float | None, str | None]:
    """The most that this trap's arm may run to its vent, inches, and the book key; None where none is set.

    Goes by the trap's size, whatever the arm's pipe. A closet has no limit unless the book sets one; it then goes
    by its drain, since its trap has no size.
    """
    if trap.kind == "water_closet" and not model.book.flag("trap_arm.closet_limited"):
        return None, "trap_arm.closet_limited"
    key = f"trap_arm.length.{label(trap_size(model, trap))}"
    return (model.book.number(key), key) if model.book.has(key) else (None, None)


def trap_size(model: Model, trap: Trap) -> float:
    """The nominal size that a trap is judged by: its own, a closet's by the drain under it."""
    if trap.kind == "water_closet" and trap.arm:
        return model.network.by_id[trap.arm[0]].size
    return trap.size


def airless(trap: Trap) -> bool:
    """Whether nothing vents the trap, so that there is no vent to measure to: another rule says so."""
    return trap.recognised and trap.method is None


def unknown_vent(model: Model, trap: Trap) -> NotJudged:
    """The outcome of a rule on a trap in an arrangement that is not recognised yet."""
    words = name(model, trap.fixture)
    return NotJudged(place(model, trap.ends or trap.node), (trap.fixture,), f"{words}: what vents it is not known")


def cite_of(model: Model, trap: Trap) -> str:
    """The section that the trap's vent rests on."""
    key = {"horizontal wet vent": "wet_vent.groups_most", "individual vent": "individual_vent.traps_most"}.get(
        trap.method or ""
    )
    if key is not None and model.book.has(key):
        return model.book.cite(key)
    _, limit_key = limit_of(model, trap)
    return model.book.cite(limit_key or "trap.vented")


def trap_without_vent(model: Model) -> Iterator[Outcome]:
    """Every trap is vented by a method of the book.

    Individual vents and horizontal wet vents are recognised; an arrangement that may stand by another method is
    not judged, and says which. Holds: a lavatory's tee with a vent above it. Broken: a shower whose drain meets
    the main where no air comes. Source: IRC P3101.2.1.
    """
    for trap in model.network.traps:
        at = place(model, trap.ends or trap.node)
        words = name(model, trap.fixture)
        if not trap.arm:
            yield DoesNotApply(trap.fixture)
        elif trap.node not in model.network.exit_of:
            yield NotJudged(at, (trap.fixture,), f"{words}: its drain reaches no exit")
        elif not trap.recognised:
            yield NotJudged(at, (trap.fixture,), f"{words}: {trap.why}")
        elif trap.method is None:
            yield Finding(
                "trap-without-vent",
                "stop",
                at,
                (trap.fixture,),
                None,
                None,
                "",
                f"No vent serves {words}: {trap.why}.",
                model.book.cite("trap.vented"),
                "Take a vent off its drain within reach of the trap, or join its drain to one that is vented.",
            )
        else:
            yield Holds(trap.fixture)


def trap_too_far(model: Model) -> Iterator[Outcome]:
    """The developed length from a trap's weir to its vent, by the trap's size.

    Holds: a 1-1/2 in trap 72 in from its vent. Broken: 72 1/16 in. A closet's trap siphons itself and has no
    limit. Enlarging the arm's pipe does not lengthen it. Source: IRC Table P3105.1.
    """
    for trap in model.network.traps:
        limit, key = limit_of(model, trap)
        if not trap.arm or trap.ends is None or (limit is None and key is not None) or airless(trap):
            yield DoesNotApply(trap.fixture)
            continue
        at = place(model, trap.ends)
        if trap.length is None or limit is None or key is None:
            size = label(trap_size(model, trap))
            yield NotJudged(at, (trap.fixture,), f"the book gives no arm for a {size} in trap")
        elif not trap.recognised:
            yield unknown_vent(model, trap)
        elif not over(trap.length, limit):
            yield Holds(trap.fixture)
        else:
            yield Finding(
                "trap-too-far-from-vent",
                "stop",
                at,
                (trap.fixture,),
                trap.length,
                limit,
                "in",
                f"{name(model, trap.fixture)}: {trap.length:.2f} in from the trap's weir to the vent; a "
                f"{label(trap_size(model, trap))} in trap may have {limit:g} in.",
                model.book.cite(key),
                "Bring the vent nearer to the trap.",
            )


def wet_vent_too_small(model: Model) -> Iterator[Outcome]:
    """A wet vent's size by the fixture units that flow into it.

    Looked at is every run that brings air to a trap, from its connection up to the dry vent, once for each size
    and load. Counted is what the run carries, not the fixture that it vents. Holds: a lavatory through 1-1/2 in.
    Broken: lavatory and shower through 1-1/2 in. Source: IRC Table P3108.3 (memory but for 2 in).
    """
    judged: set[tuple[str, float, float]] = set()
    for trap in model.network.traps:
        if trap.method != "horizontal wet vent" or trap.ends is None:
            yield DoesNotApply(trap.fixture)
            continue
        for pipe in _wet_vent(model, trap.ends, trap.arm):
            if (pipe.element, pipe.size, pipe.load) in judged:
                continue
            judged.add((pipe.element, pipe.size, pipe.load))
            yield _wet_vent_size(model, trap, pipe)


def _wet_vent(model: Model, node: Node, arm: tuple[str, ...]) -> Iterator[Pipe]:
    """The waste pipes that bring air to a node, nearest first, up to where a dry vent connects."""
    graph, arms = model.network.graph, {pipe for trap in model.network.traps for pipe in trap.arm}
    waiting, seen = [node], {node}
    while waiting:
        foot = waiting.pop(0)
        for before in graph.predecessors(foot):
            pipe: Pipe = graph.edges[before, foot]["pipe"]
            if pipe.id in model.network.airways and pipe.id not in arms and before not in seen:
                seen.add(before)
                waiting.append(before)
                yield pipe


def _wet_vent_size(model: Model, trap: Trap, pipe: Pipe) -> Outcome:
    key, at = f"wet_vent.load.{label(pipe.size)}", place(model, pipe.end)
    if not model.book.has(key):
        return NotJudged(at, (pipe.element,), f"the book gives no load for a {label(pipe.size)} in wet vent")
    most = model.book.number(key)
    if not over(pipe.load, most):
        return Holds(pipe.element)
    return Finding(
        "wet-vent-too-small",
        "stop",
        at,
        (pipe.element, trap.fixture),
        pipe.load,
        most,
        "fixture units",
        f"{pipe.element} wet-vents {name(model, trap.fixture)} and carries {pipe.load:g} fixture units; a "
        f"{label(pipe.size)} in wet vent may carry {most:g}.",
        model.book.cite(key),
        "Make it a size larger.",
    )


RULES = (
    Rule("trap-without-vent", "A trap that no vent serves", "venting", "stop", ("trap.vented",), trap_without_vent),
    Rule(
        "trap-too-far-from-vent", "A trap too far from its vent", "venting", "stop", ("trap_arm.length",), trap_too_far
    ),
    Rule(
        "wet-vent-too-small",
        "A wet vent that carries too much",
        "venting",
        "stop",
        ("wet_vent.load",),
        wet_vent_too_small,
    ),
)
