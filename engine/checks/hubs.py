"""Hubs of fittings that would sit in a bored joist."""

from __future__ import annotations

import math
from collections.abc import Iterator
from typing import NamedTuple

from engine.checks.model import Model
from engine.checks.outcomes import COMMON
from engine.checks.records import DoesNotApply, Finding, Holds, Outcome, Rule
from engine.checks.sites import SUBJECT, joist_words
from engine.crossings.limits import over
from engine.crossings.records import Crossing
from engine.framing.records import Joist
from engine.joinery.records import Part, Port
from engine.lengths import down, inches, up
from engine.trade.bits import bit_for
from engine.trade.fittings import KINDS
from engine.trade.openings import hub
from engine.trade.pipe import label


class Reach(NamedTuple):
    """How far one leg of a fitting reaches into a joist's wood, inches, and whether it is a hub or a spigot."""

    part: Part
    port: Port
    into: float


def hub_in_bore(model: Model) -> Iterator[Outcome]:
    """A fitting so near to a bored joist that its hub would sit in the hole.

    The hole is made for the pipe: a hub goes in only where a hole as wide as the hub may be bored. Measured is how far the hub
    reaches into the wood. Holds: a hub that touches the joist's face. Broken: 1/16 in further; a stop where no hole that wide
    may be bored, else a look. Where the pipe itself may not be bored through it does not apply. Couplings are set clear of
    the wood by the cut list. Common practice, no source.
    """
    legs = _legs(model)
    for crossing in model.crossings:
        if not _may_be_bored(crossing) or crossing.pipe not in legs:
            yield DoesNotApply(crossing.element)
            continue
        reach = max((_into(model, crossing, *leg) for leg in legs[crossing.pipe]), key=lambda one: one.into)
        if not over(reach.into, 0.0):
            yield Holds(crossing.element)
        else:
            yield _finding(model, crossing, reach)


def _may_be_bored(crossing: Crossing) -> bool:
    """Whether a joist takes the pipe's own hole: without it nothing is to be said of the hub's."""
    return crossing.bore is not None and crossing.straight and not over(crossing.bore, crossing.bore_limit)


def _legs(model: Model) -> dict[str, list[tuple[Part, Port]]]:
    """The legs of drain and vent fittings by the pipe that each takes."""
    found: dict[str, list[tuple[Part, Port]]] = {}
    for part in model.joinery.parts:
        if part.kind not in KINDS:
            continue
        for port in part.ports:
            if port.pipe is not None:
                found.setdefault(port.pipe, []).append((part, port))
    return found


def _into(model: Model, crossing: Crossing, part: Part, port: Port) -> Reach:
    """How far a leg reaches past the face of the joist that is nearest to its fitting; negative where it ends before."""
    pipe = model.network.by_id[crossing.pipe]
    at_start = math.dist(part.centre[:2], pipe.start[:2]) <= math.dist(part.centre[:2], pipe.end[:2])
    node = pipe.start if at_start else pipe.end
    off = (part.centre[0] - node.x) * pipe.heading[0] + (part.centre[1] - node.y) * pipe.heading[1]
    length = port.takeoff.length + (port.depth if port.end == "hub" else 0.0)
    if at_start:
        return Reach(part, port, off + length - crossing.enters)
    return Reach(part, port, crossing.leaves - (pipe.run + off - length))


def _finding(model: Model, crossing: Crossing, reach: Reach) -> Finding:
    joist = model.joists[crossing.joist]
    wide = hub(reach.port.size)
    bit = bit_for(wide)
    fits = bit is not None and not over(bit.diameter, crossing.bore_limit)
    name = KINDS[reach.part.kind].words
    aside = f"Set it {inches(up(reach.into))} in further from the joist"
    return Finding(
        "hub-in-bore",
        "look" if fits else "stop",
        (*crossing.at, model.heights.get(model.network.by_id[crossing.pipe].start, 0.0)),
        (crossing.element, joist.id),
        reach.into,
        0.0,
        "in",
        f"The hub of {crossing.element}'s {label(reach.port.size)} in {name} {_where(reach, joist)}. The hole there is for the pipe "
        f"alone: the hub is about {inches(up(wide))} in wide, {_may(fits, crossing)}.",
        COMMON,
        f"{aside}, or bore {bit.label} in there." if fits and bit is not None else f"{aside}.",
    )


def _where(reach: Reach, joist: Joist) -> str:
    """How a hub collides with a joist: it stands in its face, or all along the hole and beyond."""
    stick = joist_words(joist)
    if over(reach.into, joist.thickness):
        return f"would sit in the hole in {stick} from face to face, {inches(up(reach.into))} in too near to it"
    return f"would sit {inches(up(reach.into))} in deep in the hole in {stick}"


def _may(fits: bool, crossing: Crossing) -> str:
    most = f"{inches(down(crossing.bore_limit))} in"
    return f"and a hole of up to {most} may be bored for it" if fits else f"and no hole wider than {most} may be bored"


RULES = (Rule("hub-in-bore", "A hub in a joist's bore", SUBJECT, "stop", (), hub_in_bore),)
