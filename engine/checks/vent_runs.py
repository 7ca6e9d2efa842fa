"""Lengths of vents against their sizes: all along, and how much of it lies level."""

from __future__ import annotations

from collections.abc import Iterator

from engine.checks.model import Model, once_a_model
from engine.checks.outcomes import place
from engine.checks.records import Finding, Holds, NotJudged, Outcome, Rule
from engine.checks.vent_sizes import vents
from engine.checks.vent_words import called
from engine.crossings.limits import short
from engine.lengths import inches
from engine.piping.records import Node, Pipe
from engine.piping.sizes import Ask, VentSize
from engine.piping.vent_lengths import VentRuns, lengths
from engine.piping.vent_sizing import vent_length_asks
from engine.trade.pipe import label

OPENED = ("length", "level length", "stocked")
"""What asks for a vent's size besides what it serves."""


@once_a_model
def _runs(model: Model) -> dict[str, VentRuns | None]:
    """Every dry pipe's length by its id; None where a height that it needs is not known."""
    network = model.network
    dry: dict[Node, list[Pipe]] = {}
    for pipe in network.pipes:
        if pipe.system == "vent":
            dry.setdefault(pipe.start, []).append(pipe)
    waste = {node for pipe in network.pipes if pipe.system == "waste" for node in (pipe.start, pipe.end)}
    feet = [pipe for node, pipes in dry.items() if node in waste for pipe in pipes if pipe.end in network.aired]
    upright, to_stack = model.book.number("slope.vertical_from"), model.book.says("vent.measured_to_stack")
    return lengths(
        feet,
        dry,
        network.aired,
        upright,
        to_stack,
        model.heights.get,
    )


def _by_length(model: Model, kind: str) -> Iterator[tuple[str, Outcome | None, Pipe, VentSize, Ask, VentRuns]]:
    """Each vent with what its length asks, the heights now known."""
    runs = _runs(model)
    for element, found in vents(model).items():
        judged: list[tuple[Pipe, VentSize, Ask, VentRuns]] = []
        unknown: Pipe | None = None
        for pipe, sizing in found:
            run = runs.get(pipe.id, VentRuns(0.0, 0.0))
            if run is None:
                unknown = pipe
                continue
            serving = [ask for ask in sizing.asks if ask.by not in OPENED]
            asks = vent_length_asks(model.book, serving, run.length, run.level)
            judged += [(pipe, sizing, ask, run) for ask in asks if ask.by == kind]
        nothing = (found[0][0], found[0][1], found[0][1].asks[-1], VentRuns(0.0, 0.0))
        if judged:
            worst = max(judged, key=lambda one: (one[2].size - one[0].size, one[3].length))
            yield element, None if short(worst[0].size, worst[2].size) else Holds(element), *worst
        elif unknown is not None:
            at = place(model, unknown.end)
            words = f"{called(model, element)}: the height of the drain at its foot is not known"
            yield element, NotJudged(at, (element,), words), *nothing
        else:
            yield element, Holds(element), *nothing


def vent_too_long(model: Model) -> Iterator[Outcome]:
    """A vent's developed length against its size.

    By the IRC a vent of more than 40 ft is one size larger for its whole length, measured to where it meets a stack's vent
    or the open air. By the UPC each size has a length. Holds: 40 ft of 1-1/2 in for a sink. Broken: a sixteenth more (IRC,
    where 1-1/4 would do otherwise: 1-1/4); 60 ft 1/16 in of 1-1/2 in (UPC). Source: IRC P3113.1; UPC Table 703.2.
    """
    rule = "vent-too-long-for-size"
    if not any(map(model.book.speaks_of, ("vent.long_run", "vent.length"))):
        yield NotJudged((0.0, 0.0, 0.0), (), "the book gives no length for vents")
        return
    for element, outcome, pipe, sizing, ask, run in _by_length(model, "length"):
        if outcome is not None:
            yield outcome
            continue
        who = tuple(one for one in sizing.serves if one != element)
        larger = ask.key == "vent.long_run"
        key = (
            ask.key
            if larger or not model.book.has(f"vent.length.{label(pipe.size)}")
            else f"vent.length.{label(pipe.size)}"
        )
        most = model.book.number(key)
        text = f"{called(model, element)}: its vent is {inches(run.length)} in long; " + (
            f"over {most:g} in it is a size larger all along, {label(ask.size)} in and not {label(pipe.size)}."
            if larger
            else f"{label(pipe.size)} in vent may be {most:g} in long."
        )
        at, cites = place(model, pipe.start), model.book.cite(key)
        mend = f"Make the vent {label(ask.size)} in all along, or take it up nearer."
        yield Finding(rule, "stop", at, (element, *who), run.length, most, "in", text, cites, mend)


def vent_level_too_far(model: Model) -> Iterator[Outcome]:
    """How much of a vent may lie level.

    A third of the length that its size may have; a vent that is a size larger than it need be may lie level all the way.
    Holds: 40 ft level on 2 in that needs 2 in. Broken: a sixteenth more; with 2-1/2 (or 3) in it holds again. Source: UPC
    904.2; the IRC sets no such share.
    """
    rule, share = "vent-level-too-far", "vent.level_share"
    for element, outcome, pipe, sizing, ask, run in _by_length(model, "level length"):
        if outcome is not None:
            yield outcome
            continue
        rows = f"vent.length.{label(pipe.size)}"
        most = model.book.number(rows) * model.book.number(share) if model.book.has(rows) else 0.0
        text = (
            f"{called(model, element)}: its vent lies level for {inches(run.level)} in; {label(pipe.size)} in vent may for "
            f"{most:.4g} in, unless it is a size larger than it need be."
        )
        who = tuple(one for one in sizing.serves if one != element)
        at, cites = place(model, pipe.start), model.book.cite(share)
        mend = f"Make the vent {label(ask.size)} in all along, or take it up nearer."
        yield Finding(rule, "stop", at, (element, *who), run.level, most, "in", text, cites, mend)


RULES = (
    Rule(
        "vent-too-long-for-size",
        "A vent too long for its size",
        "venting",
        "stop",
        (),
        vent_too_long,
        ("vent.long_run", "vent.long_run_sizes_up", "vent.length", "vent.measured_to_stack", "slope.vertical_from"),
    ),
    Rule(
        "vent-level-too-far",
        "A vent that lies level too far",
        "venting",
        "stop",
        ("vent.level_share", "vent.length"),
        vent_level_too_far,
        ("vent.level_waived_sizes_up", "vent.long_run", "vent.measured_to_stack", "slope.vertical_from"),
    ),
)
