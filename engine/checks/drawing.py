"""Checks of the drawing itself: what is joined, what only looks joined, and where it all leads."""

from __future__ import annotations

from collections.abc import Iterator

from engine.checks.model import Model
from engine.checks.outcomes import COMMON, faults_as_findings, name
from engine.checks.records import Finding, Holds, NotJudged, Outcome, Rule
from engine.piping.records import Node, Pipe
from engine.water.routes import routes


def _runs(model: Model) -> tuple[str, ...]:
    return (*(drain.id for drain in model.plan.drains), *(vent.id for vent in model.plan.vents))


def drawn_twice(model: Model) -> Iterator[Outcome]:
    """Two stretches, or two risers, on the same place: the second would be bought and cut for nothing.

    Holds: each stretch is drawn once. Broken: a run retraced over another from end to end. Does not look at
    runs that only cross or overlap in part. Common practice, no source.
    """
    yield from faults_as_findings(model, "drawn-twice", "stop", _runs(model))


def end_not_joined(model: Model) -> Iterator[Outcome]:
    """An end within half an inch of a drain's axis that is not one of its points.

    Pipes are joined only where points are equal, so such an end looks joined and is not. Holds: the end is a
    point of the main. Broken: it stops 1/4 in short. Common practice, no source.
    """
    yield from faults_as_findings(model, "end-not-joined", "stop", _runs(model))


def drain_reaches_no_exit(model: Model) -> Iterator[Outcome]:
    """Drains whose water comes to no exit; their heights and what hangs on them cannot be judged.

    Holds: every drain leads to an exit. Broken: a run that ends in the bay. Common practice, no source.
    """
    yield from faults_as_findings(model, "drain-reaches-no-exit", "stop", tuple(d.id for d in model.plan.drains))


def exit_joins_nothing(model: Model) -> Iterator[Outcome]:
    """An exit at which no drain arrives. Holds: the main ends at it. Common practice, no source."""
    yield from faults_as_findings(model, "exit-joins-nothing", "stop", tuple(e.id for e in model.plan.exits))


def waste_ring(model: Model) -> Iterator[Outcome]:
    """Drains that part and meet again, or two exits on one drain: the water has two ways.

    Holds: the drains make a tree. Broken: a ring of runs. Common practice, no source.
    """
    yield from faults_as_findings(model, "waste-ring", "stop", tuple(d.id for d in model.plan.drains))


def vent_reaches_no_air(model: Model) -> Iterator[Outcome]:
    """A dry vent, drawn as a run or standing above a riser's drain, that leads to no roof, valve or open vent.

    Holds: it ends in the open. Broken: a vent run that stops in a wall. Source: IRC P3102.1.
    """
    cites = model.book.cite("vent.one_outdoors") if model.book.has("vent.one_outdoors") else COMMON
    elements = tuple(dict.fromkeys(pipe.element for pipe in model.network.pipes if pipe.system == "vent"))
    yield from faults_as_findings(model, "vent-reaches-no-air", "stop", elements, cites)


def riser_joins_nothing(model: Model) -> Iterator[Outcome]:
    """A riser that meets no pipe. Holds: something meets it. Common practice, no source."""
    yield from faults_as_findings(model, "riser-joins-nothing", "stop", tuple(r.id for r in model.plan.risers))


def riser_too_short(model: Model) -> Iterator[Outcome]:
    """A riser that ends below the pipe that meets it. Common practice, no source."""
    yield from faults_as_findings(model, "riser-too-short", "stop", tuple(r.id for r in model.plan.risers))


def fixture_not_drained(model: Model) -> Iterator[Outcome]:
    """A fixture from whose outlet no drain leaves.

    Holds: its water comes to a run or an exit. Broken: a shower whose run starts an inch beside it; a sink on a
    riser with nothing below. Water heaters and refrigerators have no outlet and do not count. Common practice, no
    source.
    """
    runs = {drain.id for drain in model.plan.drains}
    traps = {trap.fixture: trap for trap in model.network.traps}
    for fixture in model.plan.fixtures:
        trap = traps.get(fixture.id)
        if trap is None:
            continue
        way = list(_way_of_water(model, trap.node))
        drained = any(pipe.element in runs or pipe.end in model.network.exit_of for pipe in way)
        if drained:
            yield Holds(fixture.id)
        else:
            words = name(model, fixture.id)
            yield Finding(
                "fixture-not-drained",
                "stop",
                (fixture.at[0], fixture.at[1], 0.0),
                (fixture.id,),
                None,
                None,
                "",
                f"No drain leaves {words}.",
                COMMON,
                "Draw a drain run from its outlet.",
            )


def _way_of_water(model: Model, node: Node) -> Iterator[Pipe]:
    """The waste pipes from a node on, down to where they end."""
    seen = {node}
    pipe = model.network.waste_from(node)
    while pipe is not None and pipe.end not in seen:
        yield pipe
        seen.add(pipe.end)
        pipe = model.network.waste_from(pipe.end)


def no_water(model: Model) -> Iterator[Outcome]:
    """A fixture that takes water with no supply run at it, or with one that leads back to no source.

    Holds: a run comes up within the fixture's reach and leads back to an inlet (cold) or a water heater (hot).
    Where no supply is drawn at all, that is said once and nothing is judged. Common practice, no source.
    """
    found = routes(model.plan, model.water)
    at = {fixture.id: fixture.at for fixture in model.plan.fixtures}
    if not model.plan.supplies:
        if found:
            wanting = tuple(dict.fromkeys(route.fixture for route in found))
            yield NotJudged((*at[wanting[0]], 0.0), wanting, "no hot or cold runs are drawn")
        return
    for route in found:
        x, y = at[route.fixture]
        words = name(model, route.fixture)
        if route.stub is None:
            text, mend = f"No {route.water} run comes up at {words}.", f"Draw a {route.water} run to it."
        elif route.length is None:
            source = "an inlet" if route.water == "cold" else "a water heater"
            text = f"The {route.water} run at {words} leads back to no source."
            mend = f"Join it to {source}: pipes are joined only where their points are equal."
        else:
            yield Holds(route.fixture)
            continue
        yield Finding(
            "water-not-drawn",
            "look",
            (x, y, 0.0),
            (route.fixture,),
            None,
            route.reach if route.stub is None else None,
            "in" if route.stub is None else "",
            text,
            COMMON,
            mend,
        )


RULES = (
    Rule("drawn-twice", "Drawn twice", "drawing", "stop", (), drawn_twice),
    Rule("end-not-joined", "An end that looks joined", "drawing", "stop", (), end_not_joined),
    Rule("drain-reaches-no-exit", "A drain that reaches no exit", "drawing", "stop", (), drain_reaches_no_exit),
    Rule("exit-joins-nothing", "An exit without a drain", "drawing", "stop", (), exit_joins_nothing),
    Rule("waste-ring", "Drains in a ring", "drawing", "stop", (), waste_ring),
    Rule(
        "vent-reaches-no-air",
        "A vent that reaches no air",
        "drawing",
        "stop",
        ("vent.one_outdoors",),
        vent_reaches_no_air,
    ),
    Rule("riser-joins-nothing", "A riser that joins nothing", "drawing", "stop", (), riser_joins_nothing),
    Rule("riser-too-short", "A riser that ends too low", "drawing", "stop", (), riser_too_short),
    Rule("fixture-not-drained", "A fixture without a drain", "drawing", "stop", (), fixture_not_drained),
    Rule("water-not-drawn", "A fixture without water", "drawing", "look", (), no_water),
)
