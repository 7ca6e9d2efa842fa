"""The grade of dry vents: whatever wet air leaves in them runs back to a drain."""

from __future__ import annotations

from collections.abc import Iterator

from engine.checks.model import Model
from engine.checks.outcomes import place
from engine.checks.records import DoesNotApply, Finding, Holds, Outcome
from engine.checks.served import DryVents, dry_vents
from engine.checks.vent_words import called
from engine.crossings.stretches import EXACT
from engine.piping.records import Node, Pipe


def holds_water(model: Model) -> Iterator[Outcome]:
    """A dry vent is graded so that it drains back to a drain by gravity, with no level stretch and no belly.

    Reads ``vent.drains_back``; no book gives a number. Either way back will do, also down another riser that stands on a
    drain. Holds: 1/8 in per foot down to the drain. Broken: level; falling toward a riser that begins there; a vent that
    comes down again to where nothing drains it. A vent that joins no drain does not apply. Source: IRC P3104.2; UPC
    905.1 (from memory).
    """
    vents = dry_vents(model)
    pipes = [pipe for pipe in vents.pipes if pipe.system == "vent"]
    drained, joined = _drained(vents, pipes), _joined(vents, pipes)
    falling = {_upper(pipe) for pipe in pipes if _lower(pipe) is not None}
    told: set[Node] = set()
    if not pipes:
        yield DoesNotApply()
    for pipe in sorted(pipes, key=_blame):
        low = _lower(pipe)
        if pipe.start not in joined:
            yield DoesNotApply(pipe.element)
        elif low is None:
            yield _finding(
                model,
                pipe,
                0.0,
                f"{called(model, pipe.element)} lies dead level; a vent falls back to the drain, so that no water stands in it.",
                f"Give {pipe.element} a little fall, toward the drain.",
            )
        elif low in drained or low in told or low in falling:
            yield Holds(pipe.element)
        else:
            told.add(low)
            yield _standing(model, pipe)


def _blame(pipe: Pipe) -> int:
    """In which order pipes are asked whose low end holds water: those that come down toward the air first."""
    if pipe.shape != "level":
        return 0 if _lower(pipe) == pipe.end else 2
    return 0 if pipe.slope < 0.0 else 1


def _standing(model: Model, pipe: Pipe) -> Finding:
    """The finding on a pipe at whose low end water stands."""
    who = called(model, pipe.element)
    if pipe.shape == "level" and pipe.slope < 0.0:
        text = f"{who} falls toward the air and not back to the drain: water stands at its low end."
        return _finding(
            model, pipe, pipe.slope, text, f"Turn the slope of {pipe.element}, so that it falls back to the drain."
        )
    text = f"Water stands at the low end of {who}: no pipe leads on from there down to a drain."
    return _finding(model, pipe, None, text, "Lead its low end down to a drain, or bring the vents together higher up.")


def _upper(pipe: Pipe) -> Node:
    return pipe.end if _lower(pipe) == pipe.start else pipe.start


def _lower(pipe: Pipe) -> Node | None:
    """The lower end of a dry pipe; None where it lies level. Its slope is counted down from its end to its start."""
    if pipe.shape != "level":
        return pipe.end if pipe.end.level < pipe.start.level else pipe.start
    if abs(pipe.slope) <= EXACT:
        return None
    return pipe.end if pipe.slope < 0.0 else pipe.start


def _drained(vents: DryVents, pipes: list[Pipe]) -> set[Node]:
    """The nodes of the vents from which water finds its way down to a drain."""
    above: dict[Node, list[Node]] = {}
    for pipe in pipes:
        low = _lower(pipe)
        if low is not None:
            above.setdefault(low, []).append(pipe.end if low == pipe.start else pipe.start)
    return _spread(vents, above)


def _joined(vents: DryVents, pipes: list[Pipe]) -> set[Node]:
    """The nodes of the vents that hang together with some drain, whichever way they fall."""
    beside: dict[Node, list[Node]] = {}
    for pipe in pipes:
        beside.setdefault(pipe.start, []).append(pipe.end)
        beside.setdefault(pipe.end, []).append(pipe.start)
    return _spread(vents, beside)


def _spread(vents: DryVents, onward: dict[Node, list[Node]]) -> set[Node]:
    waiting = [*vents.wet]
    seen = set(waiting)
    for node in waiting:
        for other in onward.get(node, ()):
            if other not in seen:
                seen.add(other)
                waiting.append(other)
    return seen


def _finding(model: Model, pipe: Pipe, slope: float | None, text: str, mend: str) -> Finding:
    return Finding(
        "vent-holds-water",
        "stop",
        place(model, _lower(pipe) or pipe.start),
        (pipe.element,),
        slope,
        None if slope is None else 0.0,
        "" if slope is None else "in per ft",
        text,
        model.book.cite("vent.drains_back"),
        mend,
    )
