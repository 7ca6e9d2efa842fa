"""Vents: whether air reaches each trap's arm, how far that is, and whether a wet vent is wide enough."""

from __future__ import annotations

import math
from collections.abc import Iterator

from engine.checks.model import Model
from engine.checks.outcomes import name, place
from engine.checks.records import DoesNotApply, Finding, Holds, NotJudged, Outcome, Rule
from engine.crossings.limits import over, short
from engine.piping.records import Node, Pipe, Trap
from engine.trade.pipe import label

PLUMB = 90.0
"""How far a plumb pipe climbs from level, degrees."""


def limit_of(model: Model, trap: Trap) -> tuple[float | None, str | None]:
    """The most that this trap's arm may run to its vent, inches, and the book key; None where none is set.

    Goes by the trap's size, whatever the arm's pipe. A closet has no limit unless the book sets one; it then goes
    by its drain, since its trap has no size, and by the closets' own lengths where the book has such.
    """
    tables = ["trap_arm.length"]
    if trap.kind == "water_closet":
        if not model.book.flag("trap_arm.closet_limited"):
            return None, "trap_arm.closet_limited"
        tables.insert(0, "trap_arm.closet_length")
    keys = (f"{table}.{label(trap_size(model, trap))}" for table in tables)
    key = next((key for key in keys if model.book.has(key)), None)
    return (None if key is None else model.book.number(key)), key


def distance_of(model: Model, trap: Trap) -> float | None:
    """The developed length from a trap to its vent, inches; None where there is no vent or no height to count.

    From the weir, which in a closet stands at its bend; from the closet's flange where the book has it so.
    """
    if trap.length is None or trap.kind != "water_closet" or not model.book.says("trap_arm.closet_from_flange"):
        return trap.length
    length = trap.length
    for pipe in (model.network.by_id[arm] for arm in trap.arm):
        if pipe.shape == "level":
            continue
        top, foot = model.heights.get(pipe.start), model.heights.get(pipe.end)
        if top is None or foot is None:
            return None
        length += (top - foot) / math.sin(math.radians(pipe.climb if pipe.shape == "inclined" else PLUMB))
    return length


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
    the main where no air comes, or below a closet where the book has the closet join a wet vent last. Source: IRC
    P3101.2.1; UPC 901.2, 908.2.
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
                model.book.cite(trap.breaks or "trap.vented"),
                "Take a vent off its drain within reach of the trap, or join its drain to one that is vented.",
            )
        else:
            yield Holds(trap.fixture)


def trap_too_far(model: Model) -> Iterator[Outcome]:
    """The developed length from a trap's weir to its vent, by the trap's size.

    Holds: a 1-1/2 in trap 72 in from its vent. Broken: 72 1/16 in. A closet's trap siphons itself: by the IRC it
    has no limit, by the UPC 72 in from its flange. Enlarging the arm's pipe does not lengthen it. Source: IRC Table
    P3105.1; UPC Table 1002.2.
    """
    for trap in model.network.traps:
        limit, key = limit_of(model, trap)
        if not trap.arm or trap.ends is None or (limit is None and key is not None) or airless(trap):
            yield DoesNotApply(trap.fixture)
            continue
        at, size = place(model, trap.ends), label(trap_size(model, trap))
        closet, distance = trap.kind == "water_closet", distance_of(model, trap)
        what = f"{size} in closet drain" if closet else f"{size} in trap"
        from_flange = closet and model.book.says("trap_arm.closet_from_flange")
        start = "its flange" if from_flange else "its bend" if closet else "the trap's weir"
        if limit is None or key is None:
            yield NotJudged(at, (trap.fixture,), f"the book gives no arm for a {what}")
        elif not trap.recognised:
            yield unknown_vent(model, trap)
        elif distance is None:
            words = f"{name(model, trap.fixture)}: the height of its drain is not known"
            yield NotJudged(at, (trap.fixture,), words)
        elif not over(distance, limit):
            yield Holds(trap.fixture)
        else:
            yield Finding(
                "trap-too-far-from-vent",
                "stop",
                at,
                (trap.fixture,),
                distance,
                limit,
                "in",
                f"{name(model, trap.fixture)}: {distance:.2f} in from {start} to the vent; a "
                f"{what} may have {limit:g} in.",
                model.book.cite(key),
                "Bring the vent nearer to the trap.",
            )


def wet_vent_too_small(model: Model) -> Iterator[Outcome]:
    """A wet vent's size by the fixture units that flow into it.

    Looked at is every run that brings air to a trap, from its connection up to the dry vent, once for each size
    and load. Counted is what the run carries, not the fixture that it vents. Holds: a lavatory through 1-1/2 in.
    Broken: lavatory and shower through 1-1/2 in; by the UPC anything under 2 in. Source: IRC Table P3108.3 (memory
    but for 2 in); UPC 908.2.2 (memory).
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
    least = "wet_vent.least"
    if model.book.has(least) and short(pipe.size, model.book.number(least)):
        return Finding(
            "wet-vent-too-small",
            "stop",
            at,
            (pipe.element, trap.fixture),
            pipe.size,
            model.book.number(least),
            "in",
            f"{pipe.element} wet-vents {name(model, trap.fixture)} through {label(pipe.size)} in pipe; no wet vent may be "
            f"smaller than {label(model.book.number(least))} in.",
            model.book.cite(least),
            "Make it a size larger.",
        )
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
