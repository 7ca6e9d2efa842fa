"""Air admittance valves: whether they are taken, how high they stand, and that one vent is open to the outdoors."""

from __future__ import annotations

from collections.abc import Iterator

from engine.checks.model import Model, once_a_model
from engine.checks.outcomes import name
from engine.checks.records import DoesNotApply, Finding, Holds, NotJudged, Outcome, Rule
from engine.checks.served import dry_vents
from engine.checks.terminals import roof_ends
from engine.crossings.limits import short
from engine.drafting.finished import at_riser
from engine.lengths import inches
from engine.piping.records import Node, Pipe
from engine.plan.outline import called, describe
from engine.plan.records import Riser

STACKS = ("waste stack vent",)
"""The ways of venting whose valve is of the stack type."""


@once_a_model
def _valves(model: Model) -> list[tuple[Riser, Node | None]]:
    """Every riser that ends in a valve, with the node at its top; None where it joins nothing."""
    tops: dict[str, Node] = {}
    for pipe in model.network.pipes:
        if pipe.shape == "plumb" and pipe.system == "vent":
            top = max(pipe.start, pipe.end, key=lambda node: node.level)
            known = tops.get(pipe.element)
            tops[pipe.element] = top if known is None or top.level > known.level else known
    return [(riser, tops.get(riser.id)) for riser in model.plan.risers if riser.top == "valve"]


def _at(riser: Riser, top: Node | None) -> tuple[float, float, float]:
    return (*riser.at, top.level if top is not None else 0.0)


def not_accepted(model: Model) -> Iterator[Outcome]:
    """An admittance valve stands only where the book, or the official by an amendment, takes it.

    Reads ``valve.allowed``. Holds: any under the IRC. Broken: any under the UPC, whose body has none, until the value is
    amended to yes with who said so. Source: IRC P3114.1; UPC 301.3.
    """
    valves = _valves(model)
    if not valves:
        yield DoesNotApply()
    for riser, top in valves:
        if model.book.flag("valve.allowed"):
            yield Holds(riser.id)
            continue
        yield Finding(
            "valve-not-accepted",
            "stop",
            _at(riser, top),
            (riser.id,),
            None,
            None,
            "",
            f"{describe(riser)} ends in an admittance valve, which {model.book.short} does not take by itself.",
            model.book.cite("valve.allowed"),
            "Take it through the roof or into a vent that goes there; if the official accepts the valve, say so in an amendment.",
        )


def stands_too_low(model: Model) -> Iterator[Outcome]:
    """How high a valve stands over the drain that it vents, and what of its place the drawing cannot tell.

    Reads ``valve.above_branch``; one over a waste stack is of the stack type and goes by ``valve.stack_above_rim``. Holds: 4
    in over a lavatory's arm. Broken: 3 15/16 in; a stack's valve 5 15/16 in over the highest rim. Whether it can be
    reached, has moving air and stands clear of insulation is told once for each as not judged. It serves one floor, since
    a plan is one; its vent's length is judged with the vents' sizes. Source: IRC P3114 (which height is for which type:
    sources differ).
    """
    stacks = {way.source for way in model.network.ways if way.method in STACKS}
    valves = _valves(model)
    if not valves:
        yield DoesNotApply()
    for riser, top in valves:
        if top is None:
            yield DoesNotApply(riser.id)
            continue
        over_insulation = ""
        if model.book.has("valve.above_insulation"):
            over_insulation = (
                f", and {inches(model.book.number('valve.above_insulation'))} in over insulation if it is in the attic"
            )
        yield NotJudged(
            _at(riser, top),
            (riser.id,),
            f"the place of the valve on {called(riser)} is not drawn: see that a hand can reach it and room air moves "
            f"round it{over_insulation}",
        )
        yield _height(model, riser, top, stack=riser.id in stacks)


def _height(model: Model, riser: Riser, top: Node, stack: bool) -> Outcome:
    at = _at(riser, top)
    base, what, key = _base(model, riser, top, stack)
    if base is None:
        return NotJudged(at, (riser.id,), what)
    least, stands = model.book.number(key), top.level - base
    if not short(stands, least):
        return Holds(riser.id)
    return Finding(
        "valve-too-low",
        "stop",
        at,
        (riser.id,),
        stands,
        least,
        "in",
        f"The valve on {called(riser)} stands {inches(stands)} in over {what}; it must stand {inches(least)} in over it.",
        model.book.cite(key),
        f"Raise it to {inches(base + least - at_riser(model.plan, riser.at))} in above the floor or higher.",
    )


def _base(model: Model, riser: Riser, top: Node, stack: bool) -> tuple[float | None, str, str]:
    """What a valve's height is counted from: its height, its words (or what is missing), and the book's key."""
    if stack and model.book.has("valve.stack_above_rim"):
        service = dry_vents(model).of.get(top)
        if service is None or service.rim is None or service.unknown is not None:
            whose = name(model, (service.unknown if service is not None else None) or riser.id)
            return None, f"{called(riser)}: how high the rim of {whose} stands is not known", "valve.stack_above_rim"
        return service.rim, f"the rim of {name(model, service.fixture or '')}", "valve.stack_above_rim"
    drain = _drain_below(model, top)
    if drain is None:
        return None, f"{called(riser)}: the height of the drain that its valve vents is not known", "valve.above_branch"
    return drain, "the drain that it vents", "valve.above_branch"


def _drain_below(model: Model, top: Node) -> float | None:
    """The height of the highest drain from which air's way leads up to a node; None where it is not known."""
    graph, wet = model.network.graph, dry_vents(model).wet
    highest: float | None = None
    waiting, seen = [top], {top}
    for node in waiting:
        if node in wet:
            z = model.heights.get(node)
            if z is None:
                return None
            highest = z if highest is None else max(highest, z)
        for before in graph.predecessors(node):
            pipe: Pipe = graph.edges[before, node]["pipe"]
            if pipe.system == "vent" and before not in seen:
                seen.add(before)
                waiting.append(before)
    return highest


def no_open_vent(model: Model) -> Iterator[Outcome]:
    """A house with admittance valves has at least one vent that is open to the outdoors.

    Reads ``valve.one_vent_outdoors``. Holds: a valve at the island and a lavatory's vent through the roof. Broken: valves
    alone. Source: IRC P3114.7.
    """
    open_vent = bool(roof_ends(model)) or not model.book.flag("valve.one_vent_outdoors")
    valves = _valves(model)
    if not valves:
        yield DoesNotApply()
    for riser, top in valves:
        if open_vent:
            yield Holds(riser.id)
            continue
        yield Finding(
            "valve-without-open-vent",
            "stop",
            _at(riser, top),
            (riser.id,),
            0.0,
            1.0,
            "vents",
            f"{describe(riser)} ends in an admittance valve, and no vent of the house is open to the outdoors: valves let air "
            "in, and none lets it out.",
            model.book.cite("valve.one_vent_outdoors"),
            "Take at least one vent through the roof, or draw the one that the house has already.",
        )


RULES: tuple[Rule, ...] = (
    Rule(
        "valve-not-accepted",
        "An admittance valve that is not accepted",
        "vents",
        "stop",
        ("valve.allowed",),
        not_accepted,
    ),
    Rule(
        "valve-too-low",
        "An admittance valve that stands too low",
        "vents",
        "stop",
        ("valve.above_branch",),
        stands_too_low,
        ("valve.stack_above_rim", "valve.above_insulation"),
    ),
    Rule(
        "valve-without-open-vent",
        "Valves without an open vent",
        "vents",
        "stop",
        ("valve.one_vent_outdoors",),
        no_open_vent,
    ),
)
