"""Two drains opposite each other in one upright drain: what may meet so, and in which double fitting."""

from __future__ import annotations

from collections.abc import Iterator

from engine.checks.model import Model
from engine.checks.outcomes import fixtures, name
from engine.checks.records import DoesNotApply, Finding, Holds, Outcome, Rule
from engine.crossings.limits import short
from engine.joinery.records import Part, Port
from engine.lengths import inches
from engine.piping.records import Pipe
from engine.trade.fittings import KINDS
from engine.trade.pipe import label

SUBJECT = "double fittings"
ALIKE = (
    frozenset({"lavatory", "bar_sink", "kitchen_sink", "laundry_tub", "bidet"}),
    frozenset({"bathtub", "shower"}),
    frozenset({"floor_drain"}),
    frozenset({"water_closet"}),
    frozenset({"washer_standpipe", "dishwasher"}),
)
"""Fixtures that discharge alike: basins, baths, floor drains, closets, and what pumps."""
PUMPED = frozenset({"washer_standpipe", "dishwasher"})
"""Fixtures that take what an appliance pumps out."""


def _doubles(model: Model, *kinds: str) -> Iterator[tuple[Part, Port, Port]]:
    """The upright double fittings with waste from both sides, of some kinds or of any, with their two side inlets."""
    for part in model.joinery.parts:
        if part.system != "waste" or part.change != "horizontal_to_vertical" or KINDS[part.kind].double_of is None:
            continue
        sides = [port for port in part.ports if port.role.startswith("branch")]
        wet = all(_pipe(model, port) is not None and _carried(model, port) for port in sides)
        if len(sides) == 2 and wet and (not kinds or part.kind in kinds):
            yield part, sides[0], sides[1]


def _pipe(model: Model, port: Port) -> Pipe | None:
    return model.network.by_id.get(port.pipe or "")


def _carried(model: Model, port: Port) -> tuple[str, ...]:
    """The fixtures whose waste comes in at an opening."""
    pipe = _pipe(model, port)
    return () if pipe is None or pipe.system != "waste" else pipe.carries


def _kinds(model: Model, port: Port) -> list[str]:
    return sorted({fixtures(model)[fixture].kind for fixture in _carried(model, port)})


def _group(kinds: list[str]) -> set[int]:
    return {number for kind in kinds for number, alike in enumerate(ALIKE) if kind in alike}


def _who(model: Model, one: Port, two: Port) -> str:
    return " and ".join(" with ".join(name(model, f) for f in _carried(model, port)) for port in (one, two))


def _beside(found: bool) -> Iterator[Outcome]:
    """`does not apply` once where no double fitting stands."""
    if not found:
        yield DoesNotApply()


def unlike(model: Model) -> Iterator[Outcome]:
    """Two drains that meet opposite at one level of an upright drain are of one size and come from like fixtures.

    Holds: two lavatories, or a lavatory and a sink, both 1-1/2 in. Broken: a lavatory opposite a washer; 2 in opposite
    1-1/2. Source: IRC P3005.1.1.
    """
    key, found = "fitting.note_c.opposing_alike", False
    for part, one, two in _doubles(model):
        found = True
        if not model.book.says(key):
            yield DoesNotApply(part.elements[0])
            continue
        sizes = sorted((one.size, two.size))
        same = _hub(part, one) == _hub(part, two)
        alike = _group(_kinds(model, one)) == _group(_kinds(model, two))
        if alike and (same or sizes[0] == sizes[1]):
            yield Holds(part.elements[0])
            continue
        what = "are not alike" if not alike else f"come in {label(sizes[0])} and {label(sizes[1])} in pipe"
        yield Finding(
            "double-fitting-unlike",
            "stop",
            part.centre,
            part.elements,
            None if not alike else sizes[0],
            None if not alike else sizes[1],
            "" if not alike else "in",
            f"{_who(model, one, two)} drain into one {KINDS[part.kind].words}, opposite each other, and {what}; only equal "
            "drains of like fixtures may.",
            model.book.cite(key),
            "Set one of them higher, each on a tee of its own.",
        )
    yield from _beside(found)


def _hub(part: Part, port: Port) -> float:
    """The hub that a tubular trap's adapter fills is the branch's own; a glued pipe counts by its own size."""
    return part.size[-1] if (port.pipe or "").endswith(".arm") and port.size < part.size[-1] else port.size


def takes_closets(model: Model) -> Iterator[Outcome]:
    """Two closets back to back in one double sanitary tee: only where each level run to it is long enough.

    Holds: 18 in of level run from each closet's outlet. Broken: 17 15/16. A double fixture fitting takes them at any
    length. Source: IRC P3005.1.1 with its exception.
    """
    key, least_key, found = "fitting.note_c.double_takes_closets", "fitting.double_sanitary_tee.closet_run_least", False
    for part, one, two in _doubles(model, "double_sanitary_tee"):
        closets = [port for port in (one, two) if "water_closet" in _kinds(model, port)]
        if len(closets) < 2 or model.book.says(key):
            continue
        found = True
        least = model.book.number(least_key)
        run = min(_level_run(model, port) for port in closets)
        if not short(run, least):
            yield Holds(part.elements[0])
            continue
        yield Finding(
            "double-tee-takes-closets",
            "stop",
            part.centre,
            part.elements,
            run,
            least,
            "in",
            f"{_who(model, one, two)} drain into one double sanitary tee with {inches(run)} in of level run before it: one "
            f"throws its water into the other's drain; from {inches(least)} in on they may.",
            model.book.cite(least_key),
            "Use a double fixture fitting, or two tees one above the other.",
        )
    yield from _beside(found)


def _level_run(model: Model, port: Port) -> float:
    """The level pipe from the furthest upright upstream to an opening, inches."""
    pipe, total = _pipe(model, port), 0.0
    graph = model.network.graph
    while pipe is not None and pipe.shape == "level":
        total += pipe.run
        before = [graph.edges[node, pipe.start]["pipe"] for node in graph.predecessors(pipe.start)]
        pipe = next((one for one in before if one.system == "waste"), None)
    return total


def takes_pumped(model: Model) -> Iterator[Outcome]:
    """What an appliance pumps out does not go into a double sanitary tee.

    Holds: two lavatories. Broken: a washer's standpipe, or a sink through which a dishwasher drains, on either side. Source:
    IRC P3005.1.1.
    """
    key, found = "fitting.note_c.double_takes_pumped", False
    through = {one.through for one in model.plan.fixtures if one.kind in PUMPED and one.through is not None}
    for part, one, two in _doubles(model, "double_sanitary_tee"):
        found = True
        carried = [fixture for port in (one, two) for fixture in _carried(model, port)]
        pumped = [f for f in carried if fixtures(model)[f].kind in PUMPED or f in through]
        if model.book.says(key) or not pumped:
            yield Holds(part.elements[0])
            continue
        yield Finding(
            "double-tee-takes-pumped",
            "stop",
            part.centre,
            part.elements,
            None,
            None,
            "",
            f"{name(model, pumped[0])} takes what an appliance pumps out, and drains into a double sanitary tee: the stream "
            "shoots across into the other drain.",
            model.book.cite(key),
            "Use a double fixture fitting, or two tees one above the other.",
        )
    yield from _beside(found)


def back_to_back(model: Model) -> Iterator[Outcome]:
    """Two fixtures back to back on one drain: where the book asks for a double fixture fitting, a double tee is looked at.

    Holds: a double fixture fitting. Broken: a double sanitary tee, as wide as it may be. Source: UPC 704.2, beside 706.2.
    """
    key, found = "fitting.double_sanitary_tee.back_to_back", False
    for part, one, two in _doubles(model):
        found = True
        own = all(len(_carried(model, port)) == 1 for port in (one, two))
        if part.kind != "double_sanitary_tee" or not own or model.book.says(key):
            yield Holds(part.elements[0])
            continue
        yield Finding(
            "double-tee-back-to-back",
            "look",
            part.centre,
            part.elements,
            None,
            None,
            "",
            f"{_who(model, one, two)} stand back to back on one drain in a double sanitary tee; a double fixture fitting is "
            "what serves two fixtures so.",
            model.book.cite(key),
            "Use a double fixture fitting.",
        )
    yield from _beside(found)


RULES = (
    Rule(
        "double-fitting-unlike",
        "Unlike drains opposite each other",
        SUBJECT,
        "stop",
        ("fitting.note_c.opposing_alike",),
        unlike,
    ),
    Rule(
        "double-tee-takes-closets",
        "Closets back to back in a double tee",
        SUBJECT,
        "stop",
        ("fitting.note_c.double_takes_closets", "fitting.double_sanitary_tee.closet_run_least"),
        takes_closets,
    ),
    Rule(
        "double-tee-takes-pumped",
        "A pumped drain in a double tee",
        SUBJECT,
        "stop",
        ("fitting.note_c.double_takes_pumped",),
        takes_pumped,
    ),
    Rule(
        "double-tee-back-to-back",
        "A double tee for fixtures back to back",
        SUBJECT,
        "look",
        ("fitting.double_sanitary_tee.back_to_back",),
        back_to_back,
    ),
)
