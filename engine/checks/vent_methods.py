"""The limits of vents that two or more traps share: common vents and wet vents, lying and upright."""

from __future__ import annotations

from collections.abc import Iterator

from engine.checks.model import Model
from engine.checks.outcomes import place
from engine.checks.records import Finding, Holds, NotJudged, Outcome, Rule
from engine.checks.vent_tables import (
    beside,
    by_table,
    once,
    served,
    too_small,
    ways,
)
from engine.crossings.limits import over, short
from engine.lengths import inches
from engine.piping.records import Pipe, VentWay
from engine.piping.sizes import sizes_up, table


def common_vent_too_small(model: Model) -> Iterator[Outcome]:
    """The upright drain between two fixtures on one common vent, by what the upper one gives.

    Holds: a lavatory's 1 unit down 1-1/2 in. Broken: a kitchen sink's 2 units down 1-1/2 in, where 2 in takes 4. Two
    drains that meet at one level do not apply. Source: IRC Table P3107.3 (from memory).
    """
    for way, pipes in ways(model, "common vent at two levels"):
        for pipe in once(pipes):
            yield by_table(model, "common-vent-too-small", "common_vent.load", way, pipe, pipe.load, "common vent")
    yield from beside(model, "common vent at two levels")


def wet_vent_too_small(model: Model) -> Iterator[Outcome]:
    """A wet vent's size by the fixture units that flow into it, lying or upright.

    Counted is what a run carries, not the fixture that it vents last; looked at is each of its runs once for each size
    and load. Holds: a lavatory through 1-1/2 in. Broken: lavatory and shower through 1-1/2 in; by the UPC anything
    under 2 in. Source: IRC Table P3108.3 (memory but for 2 in); UPC 908.2.2 (memory), 908.1.
    """
    for way, pipes in ways(model, "horizontal wet vent"):
        for pipe in once(pipes):
            least = "wet_vent.least"
            if model.book.has(least) and short(pipe.size, model.book.number(least)):
                who = (pipe.element, *way.members[-1:])
                size = model.book.number(least)
                yield too_small(model, "wet-vent-too-small", least, who, pipe, size, "a wet vent")
            else:
                yield by_table(model, "wet-vent-too-small", "wet_vent.load", way, pipe, pipe.load, "wet vent")
    for way, pipes in ways(model, "vertical wet vent"):
        for pipe in once(pipes):
            yield _upright_size(model, way, pipe)
    yield from beside(model, "horizontal wet vent", "vertical wet vent")


def _upright_size(model: Model, way: VentWay, pipe: Pipe) -> Outcome:
    """An upright wet vent goes by its own least and enlargement where the book gives such, else by the wet vents' table."""
    rule, who = "wet-vent-too-small", (pipe.element, *way.members[-1:])
    least, up = "vertical_wet_vent.least", "vertical_wet_vent.sizes_up"
    if not model.book.has(least):
        return by_table(model, rule, "wet_vent.load", way, pipe, pipe.load, "wet vent")
    want = model.book.number(least)
    if model.book.has(up):
        needed = table(model.book, "load.stack").needed(pipe.load)
        if needed is None:
            return NotJudged(place(model, pipe.end), (pipe.element,), "the book gives no load for upright drains")
        want = max(want, sizes_up(needed, int(model.book.number(up))))
    if short(pipe.size, want):
        return too_small(model, rule, least, who, pipe, want, "a vertical wet vent")
    return Holds(pipe.element)


def wet_vent_too_long(model: Model) -> Iterator[Outcome]:
    """How long an upright wet vent may be, from the highest drain that it takes to the lowest that it vents.

    Holds: 72 in. Broken: 72 1/16 in. Source: UPC 908.1 (read: a training page and an older field guide); the IRC sets
    no length.
    """
    key = "vertical_wet_vent.length_most"
    most = model.book.number(key)
    for way, pipes in ways(model, "vertical wet vent"):
        heights = [model.heights.get(node) for pipe in pipes for node in (pipe.start, pipe.end)]
        known = [z for z in heights if z is not None]
        if len(known) < len(heights) or way.dry is None:
            yield NotJudged((0.0, 0.0, 0.0), way.members, "the heights of its drains are not known")
            continue
        tall = max(known) - min(known)
        if not over(tall, most):
            yield Holds(way.members[0])
            continue
        yield Finding(
            "vertical-wet-vent-too-long",
            "stop",
            (way.dry.x, way.dry.y, max(known)),
            (pipes[0].element, *way.members),
            tall,
            most,
            "in",
            f"{pipes[0].element} vents {served(model, way)} over {inches(tall)} in of upright drain; {most:g} in is "
            "the most.",
            model.book.cite(key),
            "Bring the lowest drain in higher up, or give it a vent of its own.",
        )
    yield from beside(model, "vertical wet vent")


def wet_vent_too_many(model: Model) -> Iterator[Outcome]:
    """How many fixtures one upright wet vent may vent.

    Holds: four. Broken: five. Source: UPC 908.1; the IRC counts none.
    """
    key = "vertical_wet_vent.fixtures_most"
    most = model.book.number(key)
    for way, pipes in ways(model, "vertical wet vent"):
        if not over(len(way.members), most):
            yield Holds(way.members[0])
            continue
        yield Finding(
            "vertical-wet-vent-takes-too-many",
            "stop",
            place(model, pipes[-1].end),
            (pipes[0].element, *way.members),
            float(len(way.members)),
            most,
            "fixtures",
            f"{pipes[0].element} vents {len(way.members)} fixtures by one upright drain; {most:g} is the most.",
            model.book.cite(key),
            "Give one of them a vent of its own.",
        )
    yield from beside(model, "vertical wet vent")


RULES = (
    Rule(
        "common-vent-too-small",
        "A drain between two levels too small to vent the lower",
        "venting",
        "stop",
        ("common_vent.load",),
        common_vent_too_small,
    ),
    Rule(
        "wet-vent-too-small",
        "A wet vent that carries too much",
        "venting",
        "stop",
        ("wet_vent.load",),
        wet_vent_too_small,
        ("wet_vent.least", "vertical_wet_vent.least", "vertical_wet_vent.sizes_up", "load.stack"),
    ),
    Rule(
        "vertical-wet-vent-too-long",
        "An upright wet vent that is too long",
        "venting",
        "stop",
        ("vertical_wet_vent.length_most",),
        wet_vent_too_long,
    ),
    Rule(
        "vertical-wet-vent-takes-too-many",
        "An upright wet vent with too many fixtures",
        "venting",
        "stop",
        ("vertical_wet_vent.fixtures_most",),
        wet_vent_too_many,
    ),
)
