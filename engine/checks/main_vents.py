"""The main vent: of the vents from a building drain to the open air one must be wide enough for that drain."""

from __future__ import annotations

from collections.abc import Iterator

from engine.checks.model import Model
from engine.checks.outcomes import place
from engine.checks.records import DoesNotApply, Finding, Holds, NotJudged, Outcome, Rule
from engine.checks.vent_joins import opened
from engine.crossings.limits import short
from engine.piping.records import Node, Pipe
from engine.piping.sizes import LADDER
from engine.trade.pipe import label


def main_vent_too_small(model: Model) -> Iterator[Outcome]:
    """One dry vent from each building drain to the open air is half as wide as that drain must be.

    Reads ``vent.main_fraction``. It goes by the drain's required size, not by what was bought. Holds: 1-1/2 in over a
    3 in building drain. Broken: 1-1/4 in, by itself or where a vent that begins wider is drawn narrower on the way.
    Not judged where the drain's required size is not known; a drain without any open vent is another rule's.
    Source: IRC P3102.3; the UPC measures all vents together (904.1).
    """
    network, share = model.network, model.book.number("vent.main_fraction")
    served = {network.exit_of.get(trap.node) for trap in network.traps}
    by_size = {size: {network.exit_of.get(node) for node in opened(model, size)} for size in (0.0, *LADDER)}
    for exit_, node in network.exits.items():
        if exit_ not in served or exit_ not in by_size[0.0]:
            yield DoesNotApply(exit_)
            continue
        required = required_of(model, node)
        if required is None:
            yield NotJudged(
                place(model, node), (exit_,), f"the size that the building drain of {exit_} must have is not known"
            )
            continue
        least, widest = required * share, max(size for size, exits in by_size.items() if exit_ in exits)
        if not short(widest, least):
            yield Holds(exit_)
            continue
        risers = tuple(riser.id for riser in model.plan.risers if riser.top == "roof")
        listed = next((size for size in LADDER if not short(size, least)), LADDER[-1])
        yield Finding(
            "main-vent-too-small",
            "stop",
            place(model, node),
            (exit_, *risers),
            widest,
            least,
            "in",
            f"The widest vent from the building drain of {exit_} to the open air is {label(widest)} in; for a drain that must be "
            f"{label(required)} in one of at least {label(listed)} in is asked for.",
            model.book.cite("vent.main_fraction"),
            f"Make one vent {label(listed)} in from its drain to the roof.",
        )


def required_of(model: Model, node: Node) -> float | None:
    """The size that the building drain must have where it leaves; None where no table tells."""
    graph = model.network.graph
    pipes: list[Pipe] = [graph.edges[before, node]["pipe"] for before in graph.predecessors(node)]
    sizes = [model.network.drain_sizes[pipe.id].required for pipe in pipes if pipe.id in model.network.drain_sizes]
    return max(sizes, default=None)


RULES = (
    Rule(
        "main-vent-too-small",
        "No vent wide enough for the building drain",
        "vents",
        "stop",
        ("vent.main_fraction",),
        main_vent_too_small,
        ("vent.main_by_island",),
    ),
)
