"""The limits of combination waste and vent: slope, drop, size, and where the official must agree first."""

from __future__ import annotations

from collections.abc import Iterator

from engine.checks.model import Model
from engine.checks.outcomes import name, place
from engine.checks.records import DoesNotApply, Finding, Holds, NotJudged, Outcome, Rule
from engine.checks.vent_tables import beside, by_table, once, too_small, ways
from engine.checks.vent_tables import too_steep as level_too_steep
from engine.crossings.limits import over, short
from engine.lengths import inches
from engine.piping.records import Pipe, VentWay
from engine.piping.sizes import sizes_up, table
from engine.trade.pipe import label

METHOD = "combination waste and vent"
LEAVE = "combination.needs_leave"


def _not_yet(model: Model) -> bool:
    """Whether the official has still to agree: until then there is one thing to say, and no size to judge."""
    return model.book.has(LEAVE) and model.book.flag(LEAVE)


def too_steep(model: Model) -> Iterator[Outcome]:
    """The slope of the level pipe, over whose water the air must go along.

    Holds: 1/2 in per ft. Broken: 9/16. Source: IRC P3111; the UPC sets none.
    """
    yield from level_too_steep(
        model, "combination-too-steep", "combination.slope_most", METHOD, "a drain that is its own vent"
    )


def drop_too_long(model: Model) -> Iterator[Outcome]:
    """The one upright pipe that is allowed, from a fixture's arm down to the level pipe.

    Holds: 96 in. Broken: 96 1/16 in; by the UPC 24 1/16 in. Does not apply until the official agrees, where that is
    asked. Source: IRC P3111; UPC 910.5.
    """
    key = "combination.vertical_most"
    most, waits = model.book.number(key), _not_yet(model)
    upright: dict[str | None, list[Pipe]] = {}
    for pipe in model.network.pipes:
        if pipe.shape == "plumb":
            upright.setdefault(pipe.fixture, []).append(pipe)
    for trap in model.network.traps:
        if trap.method != METHOD or waits:
            yield DoesNotApply(trap.fixture)
            continue
        outlet = model.network.outlets[trap.fixture]
        drops = [pipe for pipe in upright.get(trap.fixture, ()) if pipe.start != outlet]
        heights = [(model.heights.get(pipe.start), model.heights.get(pipe.end)) for pipe in drops]
        at, words = place(model, trap.ends or trap.node), name(model, trap.fixture)
        if any(top is None or foot is None for top, foot in heights):
            yield NotJudged(at, (trap.fixture,), f"{words}: the height of its drain is not known")
            continue
        tall = sum(top - foot for top, foot in heights if top is not None and foot is not None)
        if not over(tall, most):
            yield Holds(trap.fixture)
            continue
        text = f"{words} drops {inches(tall)} in to the level pipe that is its vent; {most:g} in is the most."
        mend = "Bring the level pipe up nearer, or give the fixture a vent in a wall."
        cites = model.book.cite(key)
        yield Finding("combination-drop-too-long", "stop", at, (trap.fixture,), tall, most, "in", text, cites, mend)


def combination_too_small(model: Model) -> Iterator[Outcome]:
    """The size of the level pipe, which runs part full so that air goes along with the water.

    Under the IRC by its own table of fixture units, in which the branch's column is used, the stricter one. Under the
    UPC trap and pipes are two sizes, half sizes counted, over what they would need otherwise. Holds: a sink's 2 units
    through 2 in (IRC), 1-1/2 in trap made 2-1/2 (UPC). Broken: 1-1/2 in pipe; 4 units through 2 in. Does not apply until
    the official agrees, where that is asked. Source: IRC Table P3111.3 (from memory); UPC 910.
    """
    rule, own, up = "combination-too-small", "combination.branch", "combination.sizes_up"
    if _not_yet(model):
        yield DoesNotApply()
        return
    for way, pipes in ways(model, METHOD):
        if model.book.speaks_of(own):
            for pipe in once(pipes):
                yield by_table(model, rule, own, way, pipe, pipe.load, "drain that is its own vent")
        elif model.book.has(up):
            yield from _enlarged(model, rule, up, way, pipes)
        else:
            yield NotJudged((0.0, 0.0, 0.0), way.members, "the book gives no size for combination waste and vent")
    yield from beside(model, METHOD)


def _enlarged(model: Model, rule: str, key: str, way: VentWay, pipes: list[Pipe]) -> Iterator[Outcome]:
    steps = int(model.book.number(key))
    what = f"combination waste and vent, {steps} sizes over the usual,"
    traps = {trap.fixture: trap for trap in model.network.traps if trap.fixture in way.members}
    for fixture, trap in traps.items():
        least = f"trap.least.{trap.kind}"
        if not model.book.has(least):
            yield NotJudged(place(model, trap.node), (fixture,), f"the book gives no trap for {name(model, fixture)}")
            continue
        want = sizes_up(model.book.number(least), steps)
        if not short(trap.size, want):
            yield Holds(fixture)
            continue
        yield Finding(
            rule,
            "stop",
            place(model, trap.node),
            (fixture,),
            trap.size,
            want,
            "in",
            f"{name(model, fixture)} has a {label(trap.size)} in trap; in {what} it is {label(want)} in.",
            model.book.cite(key),
            f"Take a {label(want)} in trap.",
        )
    for pipe in once(pipes):
        needed = table(model.book, "load.branch").needed(pipe.load)
        if needed is None:
            yield NotJudged(place(model, pipe.end), (pipe.element,), "the book gives no load for branches")
            continue
        want = sizes_up(needed, steps)
        who = (pipe.element, *way.members[-1:])
        yield too_small(model, rule, key, who, pipe, want, what) if short(pipe.size, want) else Holds(pipe.element)


def needs_leave(model: Model) -> Iterator[Outcome]:
    """Where combination waste and vent is built only on plans that the official has approved.

    Holds: an amendment says that the official agreed. Broken: no word of it. Source: UPC 910.2.
    """
    for way, pipes in ways(model, METHOD):
        if not model.book.flag(LEAVE):
            yield Holds(way.members[0])
            continue
        node = pipes[-1].end if pipes else model.network.outlets[way.members[0]]
        names = ", ".join(name(model, fixture) for fixture in way.members)
        yield Finding(
            "combination-without-leave",
            "stop",
            place(model, node),
            (*way.members,),
            None,
            None,
            "",
            f"{names}: no vent is drawn. A drain that is its own vent is built only where no wall can take a vent, on plans "
            "that the official has approved first.",
            model.book.cite(LEAVE),
            "Take a vent up in a wall. Or ask the official; when the answer is yes, write it down as an amendment, and the "
            "drain's sizes will be judged.",
        )
    yield from beside(model, METHOD)


RULES = (
    Rule(
        "combination-too-steep",
        "A drain that is its own vent falls too much",
        "venting",
        "stop",
        ("combination.slope_most",),
        too_steep,
    ),
    Rule(
        "combination-drop-too-long",
        "A drop too long into a drain that is its own vent",
        "venting",
        "stop",
        ("combination.vertical_most",),
        drop_too_long,
        (LEAVE,),
    ),
    Rule(
        "combination-too-small",
        "A drain too small to be its own vent",
        "venting",
        "stop",
        ("combination",),
        combination_too_small,
        (LEAVE, "combination.branch", "combination.sizes_up", "load.branch", "trap.least"),
    ),
    Rule(
        "combination-without-leave",
        "A drain that is its own vent, without the official's word",
        "venting",
        "stop",
        (LEAVE,),
        needs_leave,
    ),
)
