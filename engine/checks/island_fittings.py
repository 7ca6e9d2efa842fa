"""How an island's vent is put together: its bends, its fittings, its fall, its cleanout, its foot on the drain."""

from __future__ import annotations

from collections.abc import Iterator

from engine.checks.island_vents import SUBJECT, Island, beside, island_vents
from engine.checks.model import Model
from engine.checks.outcomes import place
from engine.checks.records import DoesNotApply, Finding, Holds, NotJudged, Outcome, Rule
from engine.crossings.limits import short
from engine.joinery.choose import allowed
from engine.joinery.records import Part
from engine.piping import islands
from engine.piping.records import UNDER, Node, Pipe, is_under
from engine.plan.records import Point
from engine.trade.fittings import KINDS
from engine.trade.pipe import label


def loop_bends(model: Model) -> Iterator[Outcome]:
    """Of what bends the loop over an island's sink is made: 45, 90 and 45 degrees, where the book asks for that.

    Holds: a leg that leans 45 degrees on either side. Broken: two quarter bends with a level piece between, as the user
    chose them. Source: UPC 909.1.
    """
    key = islands.IN_THREE
    for island in island_vents(model):
        flat = [pipe for pipe in island.pipes if pipe.shape == "level" and not is_under(pipe.start)]
        if not model.book.says(key):
            yield DoesNotApply(island.riser.id)
            continue
        if not flat:
            yield Holds(island.riser.id)
            continue
        yield Finding(
            "island-loop-bends",
            "stop",
            place(model, flat[0].start),
            (island.riser.id,),
            None,
            None,
            "",
            f"{island.riser.id} turns over in two quarter bends; the return bend is one piece, or 45, 90 and 45 degrees.",
            model.book.cite(key),
            "Choose an eighth bend where it turns, or no fitting at all.",
        )
    yield from beside(model)


def vent_fittings(model: Model) -> Iterator[Outcome]:
    """Under the rim an island's vent is made of drainage fittings, and its foot vent leaves by a wye where one is asked.

    Holds: long sweeps where it comes to lie, a combination for the foot vent. Broken: a sanitary tee for the foot vent under
    the UPC; a quarter bend chosen from plumb to level, where the book's table takes none. Source: IRC P3112.3; UPC 909.1.
    """
    for island in island_vents(model):
        pipes = {pipe.id for pipe in island.pipes}
        foot = Node(island.returns[0], island.returns[1], islands.FOOT)
        for part in model.joinery.parts:
            if part.system != "vent" or part.kind not in KINDS or not any(port.pipe in pipes for port in part.ports):
                continue
            key, why = _wrong(model, part, part.node == foot)
            if not key:
                yield Holds(island.riser.id)
                continue
            words = KINDS[part.kind].words
            yield Finding(
                "island-vent-in-vent-fittings",
                "stop",
                part.centre,
                tuple(dict.fromkeys((island.riser.id, *part.elements))),
                None,
                None,
                "",
                f"In the vent of {island.riser.id} a {words} {why}.",
                model.book.cite(key),
                "Choose a combination or a wye there."
                if len(part.ports) > 2
                else "Choose a long-sweep quarter bend there.",
            )
    yield from beside(model)


def _wrong(model: Model, part: Part, is_foot: bool) -> tuple[str, str]:
    """The key that a fitting goes against and why; empty where it may stand."""
    kind = KINDS[part.kind].street_of or KINDS[part.kind].double_of or part.kind
    if is_foot and kind == "sanitary_tee" and model.book.says(islands.BY_WYE):
        return islands.BY_WYE, "takes off the foot vent, which leaves by a wye"
    if kind.startswith("vent_"):
        return "island_vent.as_a_drain", "turns it, which is no drainage fitting"
    if not allowed(model.book, kind, part.change, max(part.size), fixture_drain=False):
        return f"fitting.{kind}.{part.change}", f"turns it {part.change.replace('_', ' ')}, which no drain may"
    return "", ""


def foot_falls(model: Model) -> Iterator[Outcome]:
    """The foot vent under the floor falls back to the drain as the book asks, or as a drain of its size.

    Holds: 1/4 in per ft. Broken: 3/16. Source: IRC P3112.3 with P3005.3; UPC 909.1.
    """
    own = "island_vent.slope_least"
    for island in island_vents(model):
        seen: set[tuple[str, float]] = set()
        for pipe in island.pipes:
            if pipe.shape != "level" or not is_under(pipe.start) or (pipe.element, pipe.size) in seen:
                continue
            seen.add((pipe.element, pipe.size))
            key = own if model.book.has(own) else f"slope.least.{label(pipe.size)}"
            if not model.book.has(key):
                at = place(model, pipe.start)
                yield NotJudged(at, (pipe.element,), f"the book gives no fall for {label(pipe.size)} in pipe")
                continue
            least = model.book.number(key)
            if not short(pipe.slope, least):
                yield Holds(pipe.element)
                continue
            yield Finding(
                "island-foot-falls-too-little",
                "stop",
                place(model, pipe.start),
                (pipe.element, island.riser.id),
                pipe.slope,
                least,
                "in per ft",
                f"{pipe.element}, the foot vent of {island.riser.id}, falls {pipe.slope:g} in per foot back to the drain; "
                f"it falls {least:g} at least.",
                model.book.cite(key),
                f"Let it fall {least:g} in per foot.",
            )
    yield from beside(model)


def no_cleanout(model: Model) -> Iterator[Outcome]:
    """A cleanout in an upright part of an island's vent, by which what lies under the rim can be rodded.

    Holds: a tee over the floor where the loop comes down, or in the wall where the foot vent goes up. Broken: none.
    Source: IRC P3112.3; UPC 909.1.
    """
    opened = {
        (part.node[0], part.node[1])
        for part in model.joinery.parts
        if part.kind == "test_tee" and part.system == "vent"
    }
    for island in island_vents(model):
        upright = {island.returns, *_walls(model, island)}
        if not model.book.says("island_vent.cleanout"):
            yield DoesNotApply(island.riser.id)
            continue
        if upright & opened:
            yield Holds(island.riser.id)
            continue
        yield Finding(
            "island-vent-no-cleanout",
            "stop",
            (island.returns[0], island.returns[1], 0.0),
            (island.riser.id,),
            0.0,
            1.0,
            "cleanouts",
            f"The vent of {island.riser.id} has no cleanout in an upright part, by which to rod it.",
            model.book.cite("island_vent.cleanout"),
            "Set a cleanout over the floor where it comes down, open to the cabinet's front.",
        )
    yield from beside(model)


def _walls(model: Model, island: Island) -> set[Point]:
    """Where the foot vent stands up in a wall."""
    ends = {node for pipe in island.pipes for node in (pipe.start, pipe.end) if node.level == UNDER}
    graph = model.network.graph
    return {
        (node.x, node.y)
        for node in ends
        for after in graph.successors(node)
        if graph.edges[node, after]["pipe"].shape == "plumb" and not is_under(after)
    }


def joins_small(model: Model) -> Iterator[Outcome]:
    """The lowest point of an island's vent meets the drain in the vent's full size.

    Holds: a 1-1/2 in loop that comes down 1-1/2. Broken: a 2 in loop whose foot on the drain is 1-1/2. Source: IRC P3112.3
    (from memory).
    """
    for island in island_vents(model):
        feet = [pipe for pipe in island.pipes if pipe.shape == "plumb" and is_under(pipe.start) and is_under(pipe.end)]
        over: Pipe = max(island.pipes, key=lambda pipe: pipe.size)
        if not feet or not model.book.says("island_vent.full_size"):
            yield DoesNotApply(island.riser.id)
            continue
        if not short(feet[0].size, over.size):
            yield Holds(island.riser.id)
            continue
        yield Finding(
            "island-vent-joins-small",
            "stop",
            (island.returns[0], island.returns[1], place(model, feet[0].start)[2]),
            (island.riser.id, over.element) if over.element != island.riser.id else (island.riser.id,),
            feet[0].size,
            over.size,
            "in",
            f"The vent of {island.riser.id} meets the drain in {label(feet[0].size)} in pipe and is {label(over.size)} in "
            "elsewhere; its lowest point joins in full size.",
            model.book.cite("island_vent.full_size"),
            f"Make it {label(over.size)} in down to the drain.",
        )
    yield from beside(model)


RULES = (
    Rule("island-loop-bends", "An island's return bend", SUBJECT, "stop", (islands.IN_THREE,), loop_bends),
    Rule(
        "island-vent-in-vent-fittings",
        "An island's vent in vent fittings",
        SUBJECT,
        "stop",
        ("island_vent.as_a_drain",),
        vent_fittings,
        (islands.BY_WYE, "fitting"),
    ),
    Rule(
        "island-foot-falls-too-little",
        "An island's foot vent that falls too little",
        SUBJECT,
        "stop",
        ("island_vent.as_a_drain",),
        foot_falls,
        ("island_vent.slope_least", "slope.least"),
    ),
    Rule(
        "island-vent-no-cleanout",
        "An island's vent without a cleanout",
        SUBJECT,
        "stop",
        ("island_vent.cleanout",),
        no_cleanout,
    ),
    Rule(
        "island-vent-joins-small",
        "An island's vent that narrows at the drain",
        SUBJECT,
        "stop",
        ("island_vent.full_size",),
        joins_small,
    ),
)
