"""Slope: enough fall for the size, never uphill, no belly."""

from __future__ import annotations

import math
from collections.abc import Iterator

from engine.checks.model import Model
from engine.checks.outcomes import COMMON, middle, place
from engine.checks.records import DoesNotApply, Finding, Holds, NotJudged, Outcome, Rule
from engine.crossings.limits import over, short
from engine.joinery.street import NEAR
from engine.lengths import down, feet_inches, inches, up
from engine.piping.records import Pipe
from engine.trade.pipe import label


def _level(model: Model) -> Iterator[Pipe]:
    return (pipe for pipe in model.network.pipes if pipe.system == "waste" and pipe.shape == "level")


def _told_once(pipes: list[Pipe]) -> Iterator[tuple[Pipe, float]]:
    """The longest stretch of each drawn run of one size and slope, and how long all of its stretches are, inches."""
    alike: dict[tuple[str, float, float], list[Pipe]] = {}
    for pipe in pipes:
        alike.setdefault((pipe.element, pipe.size, pipe.slope), []).append(pipe)
    for stretches in alike.values():
        yield max(stretches, key=lambda pipe: pipe.run), sum(pipe.run for pipe in stretches)


def slope_too_small(model: Model) -> Iterator[Outcome]:
    """The least fall of a horizontal drain, by size, told once of a run however many pipes join it on the way.

    Reads ``slope.least.<size>``. Holds: 2 in pipe at 1/4 in per ft. Broken: 2 in pipe at 3/16. Plumb pipes do
    not apply; a pipe that runs uphill is left to the rule on that. Source: IRC P3005.3.
    """
    broken: list[Pipe] = []
    for pipe in model.network.pipes:
        if pipe.system != "waste":
            continue
        if pipe.shape != "level" or pipe.slope < 0.0:
            yield DoesNotApply(pipe.element)
            continue
        key = f"slope.least.{label(pipe.size)}"
        if not model.book.has(key):
            yield NotJudged(
                middle(model, pipe), (pipe.element,), f"the book gives no least slope for {label(pipe.size)} in pipe"
            )
            continue
        if short(pipe.slope, model.book.number(key)):
            broken.append(pipe)
        else:
            yield Holds(pipe.element)
    for pipe, run in _told_once(broken):
        key = f"slope.least.{label(pipe.size)}"
        least = model.book.number(key)
        yield Finding(
            "slope-too-small",
            "stop",
            middle(model, pipe),
            (pipe.element,),
            pipe.slope,
            least,
            "in per ft",
            f"{pipe.element} falls {pipe.slope:.4g} in per foot; {label(pipe.size)} in pipe needs at least {least:g} in per foot: "
            f"over its {feet_inches(run)} that is {inches(up(run * least / 12.0))} in, not "
            f"{inches(run * pipe.slope / 12.0)} in.",
            model.book.cite(key),
            f"Give {pipe.element} a slope of {least:g} in per foot or more{_with_leave(model, pipe)}.",
        )


def _with_leave(model: Model, pipe: Pipe) -> str:
    """What the official may grant for a pipe that falls less than the book's least, where the book says so."""
    key = f"slope.least_with_leave.{label(pipe.size)}"
    if not model.book.has(key) or short(pipe.slope, model.book.number(key)):
        return ""
    leave, cites = model.book.number(key), model.book.cite(key)
    return f"; {leave:g} in per foot is for the official to allow ({cites}): if so, amend the least slope and say who allowed it"


def steep_drain(model: Model) -> Iterator[Outcome]:
    """A drain steeper than the codes' tables go, which is lawful and told as advice alone.

    Reads ``slope.steep.over``. No code names a greatest slope, so 3/8 or 1/2 in per foot is as good as 1/4; from 45
    degrees on a pipe counts as upright and does not apply, nor do arms of traps, which have a rule on their fall.
    Holds: 1/2 in per foot. Broken: more. Common practice, no source.
    """
    most, upright = model.book.number("slope.steep.over"), model.book.number("slope.vertical_from")
    arms = {name for trap in model.network.traps for name in trap.arm}
    broken: list[Pipe] = []
    for pipe in model.network.pipes:
        if pipe.system != "waste":
            continue
        angle = math.degrees(math.atan(pipe.slope / 12.0))
        if pipe.shape != "level" or pipe.id in arms or not short(angle, upright):
            yield DoesNotApply(pipe.element)
            continue
        if over(pipe.slope, most):
            broken.append(pipe)
        else:
            yield Holds(pipe.element)
    for pipe, run in _told_once(broken):
        yield Finding(
            "steep-drain",
            "look",
            middle(model, pipe),
            (pipe.element,),
            pipe.slope,
            most,
            "in per ft",
            f"{pipe.element} falls {pipe.slope:.4g} in per foot. That is lawful; it takes "
            f"{inches(run * (pipe.slope - most) / 12.0)} in more height than {most:g} in per foot, and some say that "
            "water then runs away from solids.",
            COMMON,
            "Leave it so, give the run a gentler slope, or let it fall where it joins the main: by a drop or a rolled fitting.",
        )


def runs_uphill(model: Model) -> Iterator[Outcome]:
    """A drain that rises in the direction of flow.

    Slope is counted along each pipe's own flow, never against the compass. Holds: it falls. Broken: any rise.
    Source: IRC P3005.3 (uniform grade).
    """
    for pipe in _level(model):
        if pipe.slope >= 0.0:
            yield Holds(pipe.element)
            continue
        yield Finding(
            "runs-uphill",
            "stop",
            middle(model, pipe),
            (pipe.element,),
            pipe.slope,
            0.0,
            "in per ft",
            f"{pipe.element} rises {-pipe.slope:.4g} in per foot the way the water goes.",
            model.book.cite(f"slope.least.{label(pipe.size)}"),
            "Turn its slope so that it falls toward the exit.",
        )


def holds_water(model: Model) -> Iterator[Outcome]:
    """A belly: a low place with a rise below it, where water and solids stay.

    Holds: every pipe that falls leads into one that falls. Broken: a run that falls, or a plumb drain, ends in a
    rising one, also where a dead level one lies between; a drop into a trap is
    none. Source: IRC P3005.3 (no bellies).
    """
    trapped = {trap.node for trap in model.network.traps}
    for pipe in model.network.pipes:
        if pipe.system != "waste" or pipe.shape == "inclined" or (pipe.shape == "plumb" and pipe.end in trapped):
            continue
        rising = _rise_below(model, pipe) if pipe.shape == "plumb" or pipe.slope > 0.0 else None
        if rising is None:
            if pipe.shape == "level":
                yield Holds(pipe.element)
            continue
        yield Finding(
            "holds-water",
            "stop",
            place(model, pipe.end),
            tuple(dict.fromkeys((pipe.element, rising.element))),
            rising.slope,
            0.0,
            "in per ft",
            f"Water stands where {pipe.element} comes down into {rising.element}, which rises from there.",
            model.book.cite(f"slope.least.{label(pipe.size)}"),
            f"Let {rising.element} fall toward the exit.",
        )


def _rise_below(model: Model, pipe: Pipe) -> Pipe | None:
    """The rising pipe that takes what comes down a pipe, at once or past level ones; None where it falls away."""
    graph, at = model.network.graph, pipe.end
    while True:
        onward = (graph.edges[at, node]["pipe"] for node in graph.successors(at))
        below: Pipe | None = next((p for p in onward if p.system == "waste" and p.shape == "level"), None)
        if below is None or below.slope > 0.0:
            return None
        if below.slope < 0.0:
            return below
        at = below.end


def exit_height(model: Model) -> Iterator[Outcome]:
    """Whether some height of the exit lets every bore, bend and weir above it be lawful.

    Holds: the chosen height lies in an open window, or is the one that a street bend makes. Broken: two limits
    exclude each other, or the pinned height lies outside. Not judged where nothing holds the window. Common
    practice: arithmetic of the falls; the limits that set its ends carry their own sections.
    """
    for window in model.windows:
        node = model.network.reaches[window.reach].foot
        at = (node.x, node.y, window.chosen)
        where = window.exit or model.network.reaches[window.reach].element or ""
        if window.low is None and window.high is None:
            yield NotJudged(at, (where,), "nothing drawn holds the height of this exit")
            continue
        street = any(abs(height - window.chosen) <= NEAR for height, _ in window.others)
        if window.low is not None and window.high is not None and window.low > window.high and not street:
            apart = window.low - window.high
            yield Finding(
                "no-height-fits",
                "stop",
                at,
                (where,),
                apart,
                0.0,
                "in",
                f"No height of {where} suits both: {window.low_set_by} wants it no deeper than "
                f"{_from_top(-down(-window.low))}, {window.high_set_by} no higher than "
                f"{_from_top(-up(-window.high))}. They exclude each other by {apart:.3f} in.",
                COMMON,
                "Shorten the run between them, move one of them, use deeper joists, or pass that joist another way.",
            )
            continue
        if street:
            yield Holds(where)
        elif window.low is not None and short(window.chosen, window.low):
            yield _outside(window.chosen, window.low, "low", at, where, window.low_set_by or "")
        elif window.high is not None and over(window.chosen, window.high):
            yield _outside(window.chosen, window.high, "high", at, where, window.high_set_by or "")
        else:
            yield Holds(where)


def _from_top(z: float) -> str:
    """A height as a tape hooked to the joists' top reads it."""
    return f"{inches(abs(z))} in {'over' if z > 0.0 else 'under'} the joists' top"


def _outside(chosen: float, limit: float, side: str, at: tuple[float, float, float], where: str, by: str) -> Finding:
    return Finding(
        "no-height-fits",
        "stop",
        at,
        (where,),
        chosen,
        limit,
        "in",
        f"{where} is pinned {abs(chosen - limit):.3f} in too {side}: {by}.",
        COMMON,
        f"Pin it {_from_top(-down(-limit) if side == 'low' else -up(-limit))} or {'higher' if side == 'low' else 'lower'}, "
        "or let the program choose.",
    )


RULES = (
    Rule(
        "slope-too-small",
        "Too little slope",
        "slope",
        "stop",
        ("slope.least",),
        slope_too_small,
        ("slope.least_with_leave",),
    ),
    Rule(
        "steep-drain",
        "A steep drain",
        "slope",
        "look",
        ("slope.steep", "slope.vertical_from"),
        steep_drain,
    ),
    Rule("runs-uphill", "A drain that runs uphill", "slope", "stop", ("slope.least",), runs_uphill),
    Rule("holds-water", "A belly that holds water", "slope", "stop", ("slope.least",), holds_water),
    Rule("no-height-fits", "No exit height fits", "slope", "stop", (), exit_height),
)
