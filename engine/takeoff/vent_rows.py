"""What vents each trap: by what, how, how far that is, how far it may be, and by which section."""

from __future__ import annotations

from collections.abc import Callable
from typing import Literal

from engine.checks.model import Model
from engine.checks.outcomes import name
from engine.checks.venting import cite_of, distance_of, limit_cite, limit_of
from engine.crossings.limits import over
from engine.piping.records import Pipe, Trap
from engine.piping.venting import tell
from engine.plan.records import Point, Record, Riser
from engine.trade.pipe import label

State = Literal["vented", "too far", "not vented", "not judged"]

_TOPS = {
    "roof": "out through the roof",
    "valve": "to an air admittance valve",
    "capped": "to a cap",
    "none": "to nothing",
    "loop": "over in a loop",
}


class VentRow(Record, frozen=True, gc=False):
    """One trap's vent. `how` says it in a sentence, `air` where the vent goes on to, empty where there is none.

    `distance` and `limit` are inches, None where there is none; `section` is the method's, `limit_section` that of the
    limit. `at` is where the air meets the drain, in plan.
    """

    fixture: str
    words: str
    trap: str
    state: State
    method: str
    how: str
    air: str
    distance: float | None
    limit: float | None
    section: str
    limit_section: str
    at: Point


def vent_rows(model: Model) -> tuple[VentRow, ...]:
    """A row for every trap that a drain leaves, in the plan's order."""
    called = _names(model)
    return tuple(_row(model, trap, called) for trap in model.network.traps if trap.arm)


def vent_row(model: Model, fixture: str) -> VentRow | None:
    """The row of one fixture's trap; None where it has none, or no drain."""
    trap = next((trap for trap in model.network.traps if trap.fixture == fixture and trap.arm), None)
    return None if trap is None else _row(model, trap, _names(model))


def _names(model: Model) -> Callable[[str], str]:
    """Each drawn thing as a sentence names it: fixtures by their names, risers and vents by kind and id."""
    risers, vents = {riser.id for riser in model.plan.risers}, {vent.id for vent in model.plan.vents}

    def called(element: str) -> str:
        kind = "riser " if element in risers else "vent " if element in vents else ""
        return f"{kind}{name(model, element)}"

    return called


def _sentence(words: str) -> str:
    """A sentence of words, which begins with a small letter where it begins with a thing's id."""
    first = words.split(" ", 1)[0].rstrip(",;:")
    return f"{words[:1].upper() if first.isalpha() else words[:1]}{words[1:]}."


def _row(model: Model, trap: Trap, called: Callable[[str], str]) -> VentRow:
    limit, _ = limit_of(model, trap)
    distance = distance_of(model, trap)
    way = None if trap.way is None else model.network.ways[trap.way]
    node = trap.ends or trap.node
    return VentRow(
        fixture=trap.fixture,
        words=name(model, trap.fixture),
        trap=f"{label(trap.size)} in" if trap.size else "its own",
        state=_state(trap, distance, limit),
        method=trap.method or "",
        how=_sentence(trap.why) if way is None else tell(trap.fixture, way, called),
        air="" if way is None else _air(model, way.source),
        distance=distance if trap.method is not None else None,
        limit=limit,
        section=cite_of(model, trap),
        limit_section=limit_cite(model, trap),
        at=(node.x, node.y),
    )


def _state(trap: Trap, distance: float | None, limit: float | None) -> State:
    if not trap.recognised:
        return "not judged"
    if trap.method is None:
        return "not vented"
    return "too far" if distance is not None and limit is not None and over(distance, limit) else "vented"


def _air(model: Model, source: str | None) -> str:
    """Where a dry element's air goes out: the riser at the far end of its way, and how that ends."""
    if source is None:
        return ""
    network = model.network
    pipe: Pipe | None = next(
        (one for one in network.pipes if one.element == source and one.system == "vent" and one.end in network.aired),
        None,
    )
    tops: dict[Point, Riser] = {riser.at: riser for riser in model.plan.risers}
    seen: set[object] = set()
    while pipe is not None and pipe.end not in seen:
        seen.add(pipe.end)
        onward = (network.graph.edges[pipe.end, node]["pipe"] for node in network.graph.successors(pipe.end))
        following = next((one for one in onward if one.system == "vent" and one.end in network.aired), None)
        if following is None:
            break
        pipe = following
    if pipe is None:
        return ""
    riser = tops.get((pipe.end.x, pipe.end.y))
    if riser is None:
        return ""
    where = "" if riser.id == source else f"by {riser.id} "
    return f"{where}{_TOPS[riser.top]}"
