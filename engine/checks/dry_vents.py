"""Dry vents on their way: how they leave the drain and stay upright; with the rules on walls, grade and joins."""

from __future__ import annotations

import math
from collections.abc import Iterator

from engine.checks.model import Model
from engine.checks.outcomes import middle, name, place
from engine.checks.records import DoesNotApply, Finding, Holds, NotJudged, Outcome, Rule
from engine.checks.served import PLUMB, DryVents, Service, air_side, drain_side, dry_vents, steepness
from engine.checks.vent_grades import holds_water
from engine.checks.vent_joins import joins_too_low, no_main_vent
from engine.checks.vent_walls import too_far_from_wall
from engine.checks.vent_words import called, over_floor
from engine.crossings.limits import over, short
from engine.lengths import inches
from engine.piping.flow import is_under
from engine.piping.records import Node, Pipe
from engine.trade.pipe import label


def leaves_drain_flat(model: Model) -> Iterator[Outcome]:
    """A dry vent leaves a horizontal drain above its centre line, at 45 degrees or steeper.

    Reads ``vent.takeoff_least`` and ``vent.above_centre``. A riser that stands on the drain leaves it plumb; a run
    under the floor leaves as steeply as its slope; a rolled branch as far as it is rolled. Holds: a riser on the
    drain, a branch rolled by 45 degrees. Broken: a vent run drawn level out of the drain's side, a branch that leans
    52.5 degrees off plumb. Vents that go on above a riser's drain, and an island's, do
    not apply. Source: IRC P3104.3 (the angle is
    common practice); UPC 905.2.
    """
    vents, least = dry_vents(model), model.book.number("vent.takeoff_least")
    if not vents.pipes:
        yield DoesNotApply()
    for pipe in vents.pipes:
        foot = _foot(vents, pipe)
        if foot is None or pipe.id in vents.island:
            yield DoesNotApply(pipe.element)
            continue
        rises = steepness(model, pipe) if foot == drain_side(pipe) else -steepness(model, pipe)
        if pipe.shape == "plumb" or not short(rises, least):
            yield Holds(pipe.element)
            continue
        at_side = not over(rises, 0.0)
        how = "out of its side, no higher than its middle" if at_side else f"only {rises:.4g} degrees above level"
        yield Finding(
            "vent-leaves-drain-flat",
            "stop",
            place(model, foot),
            (pipe.element,),
            max(0.0, rises),
            least,
            "degrees",
            f"{called(model, pipe.element)} leaves the drain {how} ({PLUMB - max(0.0, rises):.4g} degrees off plumb); a vent "
            f"leaves it {least:g} degrees above level or steeper, so that waste cannot lie in it.",
            model.book.cite("vent.above_centre" if at_side else "vent.takeoff_least"),
            "Take it off the drain's top: stand a riser on the drain where a wall is, or roll the branch up.",
        )


def _foot(vents: DryVents, pipe: Pipe) -> Node | None:
    """The node under the floor at which a dry pipe leaves the waste; None where it leaves none there."""
    return next(
        (node for node in (drain_side(pipe), pipe.start, pipe.end) if node in vents.wet and is_under(node)), None
    )


def lies_flat(model: Model) -> Iterator[Outcome]:
    """A dry vent stays upright until it is six inches over the flood rim of the highest fixture it serves.

    Reads ``vent.above_rim`` and ``slope.vertical_from``: from 45 degrees on pipe counts as vertical. Where the book's
    ``vent.low_allowed`` was amended to yes, on the official's word, a vent may lie low that falls back as a drain must.
    Holds: an overhead run 42 in up that serves a sink with a 36 in rim. Broken: the same at 41 15/16; any run under the
    floor that is flatter than 45 degrees. Not judged where a rim is not known. An island's vent does not apply.
    Source: IRC P3104.4; UPC 905.3.
    """
    vents = dry_vents(model)
    worst: dict[str, tuple[int, Outcome]] = {}
    rank = {Finding: 3, NotJudged: 2, Holds: 1, DoesNotApply: 0}
    for pipe in vents.pipes:
        outcome = _lies(model, vents, pipe)
        known = worst.get(pipe.element)
        if known is None or rank[type(outcome)] > known[0]:
            worst[pipe.element] = (rank[type(outcome)], outcome)
    if not worst:
        yield DoesNotApply()
    for _, outcome in worst.values():
        yield outcome


def _lies(model: Model, vents: DryVents, pipe: Pipe) -> Outcome:
    """What is to be said of one dry pipe's lie."""
    service = vents.of.get(drain_side(pipe)) or vents.of.get(air_side(pipe))
    if pipe.id in vents.island or service is None:
        return DoesNotApply(pipe.element)
    leans = abs(steepness(model, pipe))
    if not short(leans, model.book.number("slope.vertical_from")) or _all_leaning(model, pipe):
        return Holds(pipe.element)
    least = model.book.number("vent.above_rim")
    under = is_under(pipe.start)
    if not under:
        z = pipe.start.level
        if service.rim is not None and short(z - service.rim, least):
            return _too_low(model, pipe, service, z - service.rim, least)
        if service.unknown is not None:
            return _rim_unknown(model, pipe, service)
        return Holds(pipe.element)
    if model.book.says("vent.low_allowed"):
        return _as_drain(model, pipe)
    steep = model.book.number("slope.vertical_from")
    return Finding(
        "vent-lies-flat",
        "stop",
        middle(model, pipe),
        (pipe.element,),
        leans,
        steep,
        "degrees",
        f"{called(model, pipe.element)} lies {PLUMB - leans:.4g} degrees off plumb under the floor; a dry vent stays within "
        f"{PLUMB - steep:g} degrees of plumb until it is {least:g} in over the highest rim that it serves.",
        model.book.cite("vent.low_allowed"),
        _how_to_rise(model),
    )


def _too_low(model: Model, pipe: Pipe, service: Service, rises: float, least: float) -> Finding:
    whose = name(model, service.fixture or "")
    rim = (service.rim or 0.0) - model.plan.floor.finished_z
    return Finding(
        "vent-lies-flat",
        "stop",
        middle(model, pipe),
        (pipe.element,),
        rises,
        least,
        "in",
        f"{called(model, pipe.element)} runs level {over_floor(model, pipe.start.level)}, and the rim of {whose} stands "
        f"{inches(rim)} in up: a vent may turn level {least:g} in over that, {inches(rim + least)} in above the floor.",
        model.book.cite("vent.above_rim"),
        f"Raise {pipe.element} to {inches(rim + least)} in above the floor or higher.",
    )


def _how_to_rise(model: Model) -> str:
    text = "Take it off where a wall stands within reach, and let it rise there plumb or at 45 degrees."
    note = model.book.value("vent.low_allowed").note
    return f"{text} The official may allow it where the structure leaves no other way." if "official" in note else text


def _as_drain(model: Model, pipe: Pipe) -> Outcome:
    """A low vent that the official allows: it is laid as a drain, with a drain's fall."""
    key = f"slope.least.{label(pipe.size)}"
    if not model.book.has(key):
        return NotJudged(
            middle(model, pipe), (pipe.element,), f"the book gives no least slope for {label(pipe.size)} in pipe"
        )
    least = model.book.number(key)
    if not short(pipe.slope, least):
        return Holds(pipe.element)
    return Finding(
        "vent-lies-flat",
        "stop",
        middle(model, pipe),
        (pipe.element,),
        pipe.slope,
        least,
        "in per ft",
        f"{called(model, pipe.element)} may lie low only as a drain does, and it falls {pipe.slope:.4g} in per foot back to "
        f"the drain; {label(pipe.size)} in pipe needs {least:g}.",
        model.book.cite("vent.low_allowed"),
        f"Give {pipe.element} a slope of {least:g} in per foot or more.",
    )


def _all_leaning(model: Model, pipe: Pipe) -> bool:
    """Whether nothing of a level stretch is left, since the rolled branch below it takes its whole length.

    Such a branch climbs from the drain's axis to the stretch's height, and so far of the drawn length is its own.
    """
    branch = next(
        (
            found
            for after in model.network.graph.successors(pipe.end)
            if (found := model.network.graph.edges[pipe.end, after]["pipe"]).shape == "inclined"
            and found.element == pipe.element
        ),
        None,
    )
    if pipe.system == "vent" or pipe.shape != "level" or branch is None:
        return False
    top, foot = model.heights.get(branch.start), model.heights.get(branch.end)
    if top is None or foot is None:
        return False
    return not over(pipe.run, (top - foot) / math.tan(math.radians(branch.climb)))


def _rim_unknown(model: Model, pipe: Pipe, service: Service) -> NotJudged:
    missing = (
        f"{called(model, pipe.element)}: how high the rim of {name(model, service.unknown or '')} stands is not known"
    )
    return NotJudged(middle(model, pipe), (pipe.element, service.unknown or ""), missing)


RULES = (
    Rule(
        "vent-leaves-drain-flat",
        "A vent that leaves its drain too flat",
        "vents",
        "stop",
        ("vent.takeoff_least", "vent.above_centre"),
        leaves_drain_flat,
    ),
    Rule(
        "vent-lies-flat",
        "A vent that lies flat below the rims",
        "vents",
        "stop",
        ("vent.above_rim", "vent.low_allowed", "slope.vertical_from"),
        lies_flat,
    ),
    Rule(
        "vent-too-far-from-wall",
        "A vent that cannot rise into its wall",
        "vents",
        "stop",
        ("vent.low_allowed", "slope.vertical_from"),
        too_far_from_wall,
    ),
    Rule("vent-holds-water", "A vent that does not drain back", "vents", "stop", ("vent.drains_back",), holds_water),
    Rule("vent-joins-too-low", "Vents that join too low", "vents", "stop", ("vent.join_above_rim",), joins_too_low),
    Rule(
        "no-vent-outdoors",
        "A building drain without an open vent",
        "vents",
        "stop",
        ("vent.one_outdoors",),
        no_main_vent,
        ("vent.main_by_island",),
    ),
)
