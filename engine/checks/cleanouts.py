"""Cleanouts that the book wants: where the sewer begins, at upper ends, and often enough."""

from __future__ import annotations

import math
from collections.abc import Iterator

from engine.checks.cleanout_places import Place, upper_end
from engine.checks.model import Model
from engine.checks.outcomes import name, place
from engine.checks.records import DoesNotApply, Finding, Holds, Outcome, Rule
from engine.checks.rodding import SUBJECT, WAYS_IN, Line, Reached, Rodding, rodding
from engine.crossings.limits import over, short
from engine.lengths import feet_inches, inches
from engine.piping.records import Node, Pipe
from engine.plan.records import Exit

SINKS = frozenset({"kitchen_sink", "bar_sink", "laundry_tub"})
"""Fixtures that the codes call sinks; a lavatory is none."""


def at_the_sewer(model: Model) -> Iterator[Outcome]:
    """A cleanout where the building drain becomes the sewer, or a little way up the drain from there.

    Holds: the exit says that one will stand outside, or a drawn one lies no farther up than the book says. Broken: it
    lies farther, or there is none; a closet that can be pulled does not count. Where none is drawn, which may stand
    outside, or where the turn-down's tail alone makes the way too long, that is something to look at. Source: IRC P3005.2.3.
    """
    most = model.book.number("cleanout.sewer_junction_within")
    found = rodding(model)
    for exit_ in model.plan.exits:
        node = model.network.exits.get(exit_.id)
        if node is None:
            yield DoesNotApply(exit_.id)
            continue
        fit = (one for one in found.reached.get(node, ()) if one.way.kind == "cleanout")
        near = min(fit, key=lambda one: one.far, default=None)
        tail = max(0.0, place(model, node)[2] - exit_.tail_z) if exit_.how == "turn-down" else 0.0
        if exit_.cleanout_outside or (near is not None and not over(near.far + tail, most)):
            yield Holds(exit_.id)
        else:
            yield _far_from_sewer(model, exit_, node, near, tail, most)


def _far_from_sewer(model: Model, exit_: Exit, node: Node, near: Reached | None, tail: float, most: float) -> Finding:
    only_tail = near is not None and not over(near.far, most)
    if near is None:
        text = (
            f"No cleanout is drawn within {feet_inches(most)} of exit {exit_.id}, where the drain goes on to the sewer; "
            "a closet that can be pulled does not count. It may stand outside, which is not drawn."
        )
    elif only_tail:
        text = (
            f"The nearest cleanout, {near.way.element}, is {feet_inches(near.far)} up the drain from exit {exit_.id}; "
            f"with the {inches(tail)} in that the exit goes down it is more than {feet_inches(most)} from the sewer."
        )
    else:
        text = (
            f"The nearest cleanout, {near.way.element}, is {feet_inches(near.far)} up the drain from exit {exit_.id}; "
            f"it may be {feet_inches(most)}."
        )
    measured = None if near is None else near.far + (tail if only_tail else 0.0)
    return Finding(
        "no-cleanout-at-sewer",
        "look" if only_tail or near is None else "stop",
        place(model, node),
        (exit_.id,) if near is None else (exit_.id, near.way.element),
        measured,
        most,
        "in",
        text,
        model.book.cite("cleanout.sewer_junction_within"),
        f"Say at {exit_.id} that a cleanout will stand outside, where the sewer begins, or put one nearer to it.",
    )


def far_apart(model: Model) -> Iterator[Outcome]:
    """How far a drain may run with no cleanout on the way, measured along it from its upper end or the last one.

    Holds: just as far as the book says. Broken: 1/16 in more. Source: IRC P3005.2.1; UPC 707.4.
    """
    most = model.book.number("cleanout.spacing_most")
    found = rodding(model)
    since: dict[Node, float] = {}
    for pipe in downstream(found):
        far = 0.0 if found.cleanout_on(pipe.start) is not None else since.get(pipe.start, 0.0)
        end = far + pipe.run
        if over(end, most):
            yield _long_way(model, pipe, most - far, end, most)
            end -= most
        else:
            yield Holds(pipe.element)
        since[pipe.end] = max(end, since.get(pipe.end, 0.0))


def _long_way(model: Model, pipe: Pipe, on: float, end: float, most: float) -> Finding:
    x, y, z = place(model, pipe.start)
    at = (x + on * pipe.heading[0], y + on * pipe.heading[1], z - on * pipe.slope / 12.0)
    return Finding(
        "cleanouts-far-apart",
        "stop",
        at,
        (pipe.element,),
        end,
        most,
        "in",
        f"{pipe.element} is {feet_inches(end)} of drain past the last cleanout or upper end; one is needed every "
        f"{feet_inches(most)}.",
        model.book.cite("cleanout.spacing_most"),
        "Put a cleanout before this place: at a turn, an upper end or a riser.",
    )


def downstream(found: Rodding) -> Iterator[Pipe]:
    """Every pipe of the lines, each after all that flow into it."""
    waiting = {node: len(pipes) for node, pipes in found.into.items()}
    ready = [line.start for line in found.lines]
    for node in ready:
        pipe = found.onward.get(node)
        if pipe is None:
            continue
        yield pipe
        waiting[pipe.end] -= 1
        if not waiting[pipe.end]:
            ready.append(pipe.end)


def upper_ends(model: Model) -> Iterator[Outcome]:
    """A cleanout at the upper end of each horizontal drain under the floor, the lowest one being drawn.

    Excused: a run shorter than the book says, unless it takes a sink; one that leans no further from plumb than the
    book says; and the building drain where a two-way cleanout will stand outside. A cleanout a little way down the
    line counts where what is left above it is such a short run. Holds: one at the end or in the riser over it. Drains
    above the floor do not apply. Source: UPC 707.4.
    """
    book, found = model.book, rodding(model)
    least = book.number("cleanout.short_run")
    steep = book.number("cleanout.steep_within") if book.has("cleanout.steep_within") else 0.0
    outside = {exit_.id for exit_ in model.plan.exits if exit_.cleanout_outside}
    sinks = {fixture.id for fixture in model.plan.fixtures if fixture.kind in SINKS}
    for line in found.lines:
        sink = next((name for name in line.pipes[0].carries if name in sinks), None)
        steep_one = all(_leans(pipe) <= steep for pipe in line.pipes)
        if steep_one or (short(line.length, least) and sink is None):
            yield DoesNotApply(line.element)
        elif line.exit in outside or _opened(found, line, 0.0 if sink is not None else least):
            yield Holds(line.element)
        else:
            yield _closed_end(model, line, sink, least)


def _opened(found: Rodding, line: Line, least: float) -> bool:
    """Whether a cleanout opens a line at its upper end, or less than so far down it."""
    far = 0.0
    for pipe in line.pipes:
        if found.cleanout_on(pipe.start) is not None:
            return far == 0.0 or short(far, least)
        far += pipe.run
    return False


def _closed_end(model: Model, line: Line, sink: str | None, least: float) -> Finding:
    spot = upper_end(model, line.start)
    why = f"it takes {name(model, sink)}" if sink is not None else f"it is {feet_inches(line.length)} long"
    return Finding(
        "upper-end-without-cleanout",
        "stop",
        (*spot.at, spot.z),
        tuple(dict.fromkeys((line.element, spot.opens))),
        line.length,
        None if sink is not None and short(line.length, least) else least,
        "in",
        f"The upper end of {line.element} has no cleanout, and {why}.",
        model.book.cite("cleanout.short_run"),
        _open_it(line, spot),
    )


def _open_it(line: Line, spot: Place) -> str:
    outside = (
        f", or say at {line.exit} that an approved two-way cleanout will stand outside" if line.exit is not None else ""
    )
    return f"Put a cleanout {spot.words}{outside}."


def _leans(pipe: Pipe) -> float:
    """How far a pipe leans from plumb, degrees."""
    if pipe.shape == "level":
        return 90.0 - math.degrees(math.atan(pipe.slope / 12.0))
    return 0.0 if pipe.shape == "plumb" else 90.0 - pipe.climb


RULES: tuple[Rule, ...] = (
    Rule(
        "no-cleanout-at-sewer",
        "No cleanout where the sewer begins",
        SUBJECT,
        "stop",
        ("cleanout.sewer_junction_within",),
        at_the_sewer,
        WAYS_IN,
    ),
    Rule(
        "cleanouts-far-apart",
        "A long drain without a cleanout",
        SUBJECT,
        "stop",
        ("cleanout.spacing_most",),
        far_apart,
        WAYS_IN,
    ),
    Rule(
        "upper-end-without-cleanout",
        "An upper end without a cleanout",
        SUBJECT,
        "stop",
        ("cleanout.short_run",),
        upper_ends,
        ("cleanout.steep_within", "cleanout.upper_floors_excused", *WAYS_IN),
    ),
)
