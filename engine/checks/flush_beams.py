"""Beams at the joists' level: what joists hang on them by, and openings that they would cross."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator

from engine.checks.floor_framing import SUBJECT
from engine.checks.model import Model
from engine.checks.outcomes import COMMON
from engine.checks.records import DoesNotApply, Finding, Holds, Outcome, Rule
from engine.crossings.limits import over
from engine.framing.records import Joist
from engine.framing.shadow import band, clipped
from engine.lengths import inches, up
from engine.plan.records import FloorOpening


def hangers(model: Model) -> Iterator[Outcome]:
    """Joists that end against a beam's side hang on it by hangers or framing anchors, or lie on a ledger: to be noted.

    Counted are the ends, end joists too. A beam under the joists, and one that nothing hangs on, does not apply.
    Source: IRC R502.6.2.
    """
    cut = (joist for joist in model.framing.joists if joist.runs and any(joist.cut_at)) if model.framing.beams else ()
    hung = Counter(beam for joist in cut for beam in joist.hangers)
    ledger = inches(model.book.number("bearing.ledger"))
    for beam in model.framing.beams:
        count = hung[beam.id]
        if not count:
            yield DoesNotApply(beam.id)
            continue
        wood = beam.member == "sawn"
        other = f", or a ledger of {ledger}x{ledger} at least under them" if wood else ""
        yield Finding(
            "beam-wants-hangers",
            "note",
            _middle(beam),
            (beam.id,),
            None,
            None,
            "",
            f"{count} joist ends hang on beam {beam.id}: they want a hanger each{other}.",
            model.book.cite("bearing.ledger") if wood else COMMON,
            f"Buy {count} hangers for the joists' size and the nails that they are listed with.",
        )


def free_ends(model: Model) -> Iterator[Outcome]:
    """Joists cut off at a beam at their level that is said to carry nothing: what holds their ends is not drawn.

    Holds: a beam that the joists hang on. To look at: one that they only end at. Beams that cut no joist do not apply.
    Common practice, no source.
    """
    cut = (joist for joist in model.framing.joists if joist.runs) if model.framing.beams else ()
    ends = Counter(beam for joist in cut for beam in joist.cut_at if beam)
    bearing = {beam.id: beam.bearing for beam in model.plan.beams}
    for beam in model.framing.beams:
        count = ends[beam.id]
        if not count:
            yield DoesNotApply(beam.id)
        elif bearing[beam.id]:
            yield Holds(beam.id)
        else:
            yield Finding(
                "joist-end-hangs-free",
                "look",
                _middle(beam),
                (beam.id,),
                None,
                None,
                "",
                f"{count} joist ends stop at beam {beam.id}, which is said to carry nothing: what holds them is not drawn.",
                COMMON,
                "Say that joists rest on it, draw what carries their ends beside it, or lower it under them.",
            )


def crosses_opening(model: Model) -> Iterator[Outcome]:
    """A beam at the joists' level that stands in the clear way of an opening in the floor.

    Holds: an opening whose edge touches the beam. Broken: a beam that stands 1/16 in into it. Common practice, no source.
    """
    flush = [beam for beam in model.framing.beams if beam.flush]
    for opening in model.plan.floor_openings:
        if not flush:
            yield DoesNotApply(opening.id)
        for beam in flush:
            ways = ways_past(opening, beam)
            if ways is None:
                yield Holds(opening.id)
                continue
            into = min(ways)
            yield Finding(
                "beam-crosses-opening",
                "stop",
                _middle(beam),
                (opening.id, beam.id),
                into,
                0.0,
                "in",
                f"Beam {beam.id} stands in the clear way of floor opening {opening.id}, {inches(up(into))} in from its nearest edge.",
                COMMON,
                "Draw the opening on one side of the beam, which then does for its header there.",
            )


def ways_past(opening: FloorOpening, beam: Joist) -> tuple[float, float, float, float] | None:
    """How far each edge of an opening (west, east, south, north) would come in to clear a beam; None where it is clear."""
    (x0, y0), (x1, y1) = opening.start, opening.end
    inside = clipped(clipped(list(band(beam.start, beam.end, beam.thickness)), 0, x0, x1), 1, y0, y1)
    if not inside:
        return None
    xs, ys = [x for x, _ in inside], [y for _, y in inside]
    ways = max(xs) - x0, x1 - min(xs), max(ys) - y0, y1 - min(ys)
    return ways if over(min(ways), 0.0) else None


def _middle(beam: Joist) -> tuple[float, float, float]:
    (x0, y0), (x1, y1) = beam.start, beam.end
    return (x0 + x1) / 2.0, (y0 + y1) / 2.0, beam.top


RULES = (
    Rule("beam-wants-hangers", "Hangers at a beam", SUBJECT, "note", ("bearing.ledger",), hangers),
    Rule("joist-end-hangs-free", "Joist ends that nothing carries", SUBJECT, "look", (), free_ends),
    Rule("beam-crosses-opening", "A beam across an opening", SUBJECT, "stop", (), crosses_opening),
)
