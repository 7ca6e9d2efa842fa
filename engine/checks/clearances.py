"""Room round closets, bidets, lavatories and showers, to finished walls and to each other, and a shower's own size."""

from __future__ import annotations

import math
from collections.abc import Iterator

from engine.checks.model import Model, once_a_model
from engine.checks.outcomes import name
from engine.checks.records import DoesNotApply, Finding, Holds, NotJudged, Outcome, Rule, Weight
from engine.crossings.limits import over, short
from engine.drafting.bodies import Body
from engine.drafting.room import best_opening, room_left, spaces
from engine.drafting.standing import Standing
from engine.lengths import inches
from engine.plan.records import Fixture
from engine.trade.fixtures import fixture as spec_of


@once_a_model
def standing(model: Model) -> Standing:
    """What stands on a model's floor."""
    return Standing(model.plan)


def _weight(model: Model, *names: str) -> Weight:
    """To stop for where every footprint that the measure rests on was typed in; to look at where one is a usual one."""
    typed_in = _typed_in(model)
    return "stop" if all(typed_in.get(one, True) for one in names) else "look"


@once_a_model
def _typed_in(model: Model) -> dict[str, bool]:
    """Of each fixture, whether its whole footprint was typed in."""
    return {one.id: one.width is not None and one.depth is not None for one in model.plan.fixtures}


def _wants(model: Model) -> Iterator[Fixture]:
    return (one for one in model.plan.fixtures if model.book.says(f"clearance.about.{one.kind}"))


def _rest(model: Model) -> Iterator[Outcome]:
    for fixture in model.plan.fixtures:
        if not model.book.says(f"clearance.about.{fixture.kind}"):
            yield DoesNotApply(fixture.id)


def _finding(
    model: Model,
    rule: str,
    weight: Weight,
    fixture: Fixture,
    other: str,
    measured: float,
    limit: float,
    text: str,
    key: str,
    mend: str,
) -> Finding:
    who = (fixture.id, other) if other else (fixture.id,)
    if weight == "look":
        text += " That goes by usual sizes: type in what the sheets of your own fixtures say."
    return Finding(rule, weight, (*fixture.at, 0.0), who, measured, limit, "in", text, model.book.cite(key), mend)


def beside(model: Model) -> Iterator[Outcome]:
    """From a fixture's middle to a finished wall, a tub or another body beside it.

    Neighbours of which both want room go by the way from middle to middle. Holds: a closet 15 in from the wall's board.
    Broken: 14 15/16. A cabinet is not drawn, and does not count. Source: IRC P2705.1; UPC 402.5.
    """
    limit = model.book.number("clearance.side")
    about, own = standing(model), {fixture.id: fixture for fixture in _wants(model)}
    for fixture in own.values():
        body = about.bodies[fixture.id]
        near = [one for one in about.near(fixture, limit) if one.element not in own]
        worst: tuple[float, str] | None = None
        for space in spaces(model.book, fixture, body):
            if space.side == "front":
                continue
            found = room_left(fixture, body, space, near)
            if found is not None and (worst is None or found < worst):
                worst = found
        if worst is None or not short(worst[0], limit):
            yield Holds(fixture.id)
            continue
        room, other = worst
        text = (
            f"{name(model, fixture.id)} stands {inches(room)} in from its middle to {name(model, other)}; {limit:g} in is "
            "the least, to the finished face."
        )
        mend = f"Move it {inches(limit - room)} in away from {name(model, other)}, or set that elsewhere."
        yield _finding(
            model,
            "too-little-room-beside",
            _weight(model, other),
            fixture,
            other,
            room,
            limit,
            text,
            "clearance.side",
            mend,
        )
    yield from _rest(model)


def in_front(model: Model) -> Iterator[Outcome]:
    """The clear room before a fixture's front edge, over its width.

    Holds: 21 in before a closet by the IRC, 24 by the UPC. Broken: 20 15/16; another fixture's body within it. Source:
    IRC P2705.1; UPC 402.5.
    """
    about = standing(model)
    for fixture in _wants(model):
        body = about.bodies[fixture.id]
        space = next(one for one in spaces(model.book, fixture, body) if one.side == "front")
        found = room_left(fixture, body, space, about.near(fixture, space.reach))
        if found is None or not short(found[0], space.reach):
            yield Holds(fixture.id)
            continue
        yield _before(model, "too-little-room-before", fixture, found, space.reach, space.key)
    yield from _rest(model)


def _before(model: Model, rule: str, fixture: Fixture, found: tuple[float, str], limit: float, key: str) -> Finding:
    room, other = max(0.0, found[0]), found[1]
    text = f"{name(model, fixture.id)} has {inches(room)} in clear before it, to {name(model, other)}; {limit:g} in is the least."
    mend = f"Move {name(model, other)} or {name(model, fixture.id)} {inches(limit - room)} in further off."
    return _finding(model, rule, _weight(model, fixture.id, other), fixture, other, room, limit, text, key, mend)


def between(model: Model) -> Iterator[Outcome]:
    """From middle to middle of neighbours that both want room beside them, where they look the same way.

    Holds: a closet and a lavatory 30 in apart. Broken: 29 15/16. Source: IRC P2705.1 (as the IPC has it); UPC 402.5.
    """
    key = "clearance.between"
    limit = model.book.number(key)
    about, fixtures = standing(model), list(_wants(model))
    wants = {fixture.id for fixture in fixtures}
    struck: set[str] = set()
    for first in fixtures:
        for second in about.fixtures_near(first.at):
            if second.id <= first.id or second.id not in wants:
                continue
            apart = _apart(first, about.bodies[first.id], second, about.bodies[second.id])
            if apart is None or not short(apart, limit):
                continue
            struck.update((first.id, second.id))
            text = (
                f"{name(model, first.id)} and {name(model, second.id)} stand {inches(apart)} in apart, middle to middle; "
                f"{limit:g} in is the least."
            )
            mend = f"Move one {inches(limit - apart)} in further off."
            yield _finding(model, "neighbours-too-close", "stop", first, second.id, apart, limit, text, key, mend)
    for fixture in fixtures:
        if fixture.id not in struck:
            yield Holds(fixture.id)
    yield from _rest(model)


def _apart(first: Fixture, a: Body, second: Fixture, b: Body) -> float | None:
    """The way sideways between two fixtures that stand beside each other, looking the same way; None for others."""
    if abs((first.turn - second.turn + 180.0) % 360.0 - 180.0) > 1.0:
        return None
    turn = math.radians(first.turn)
    dx, dy = second.at[0] - first.at[0], second.at[1] - first.at[1]
    forward = dx * math.cos(turn) + dy * math.sin(turn)
    overlap = min(a.front, forward + b.front) - max(-a.back, forward - b.back)
    if overlap <= 0.0:
        return None
    left = -dx * math.sin(turn) + dy * math.cos(turn)
    return abs(left + b.centre[1] - a.centre[1])


def shower_entry(model: Model) -> Iterator[Outcome]:
    """The clear room before a shower's entry: a stretch of its front, as wide as an entry must be; no door is drawn.

    Holds: 24 in before 22 in of the front. Broken: a wall 23 15/16 in before it; bodies that leave no such stretch. Source:
    IRC R307.1, P2708.1.1.
    """
    key, access, about = "clearance.shower.front", "clearance.shower.access", standing(model)
    for fixture in model.plan.fixtures:
        if fixture.kind != "shower":
            yield DoesNotApply(fixture.id)
            continue
        body = about.bodies[fixture.id]
        space = next(one for one in spaces(model.book, fixture, body) if one.key == key)
        wide = model.book.number(access) if model.book.has(access) else 0.0
        found = best_opening(fixture, body, space, wide, about.near(fixture, space.reach))
        if not short(found[0], space.reach):
            yield Holds(fixture.id)
        else:
            yield _before(model, "too-little-room-before-shower", fixture, found, space.reach, key)


def shower_size(model: Model) -> Iterator[Outcome]:
    """A shower's least inside measures, taken as its footprint.

    Holds: 30 by 30 in by the IRC; 32 by 32 by the UPC. Broken: 29 15/16 by 36; by the UPC 30 by 34, which is 1,020 sq in. Let
    off are 25 in with 1,300 sq in (IRC), and 30 by 60 in the place of a tub (UPC). Source: IRC P2708.1; UPC 408.6.
    """
    book = model.book
    for fixture in model.plan.fixtures:
        if fixture.kind != "shower":
            yield DoesNotApply(fixture.id)
            continue
        spec = spec_of("shower")
        width = spec.width if fixture.width is None else fixture.width
        depth = spec.depth if fixture.depth is None else fixture.depth
        least, area, words = min(width, depth), width * depth, name(model, fixture.id)
        side_key = "clearance.shower.side" if book.has("clearance.shower.side") else "clearance.shower.circle"
        if not book.has(side_key):
            yield NotJudged((*fixture.at, 0.0), (fixture.id,), f"{words}: the book gives no least side for a shower")
            continue
        if _let_off(model, width, depth):
            yield Holds(fixture.id)
        elif short(least, book.number(side_key)):
            limit = book.number(side_key)
            text = f"{words} is {inches(least)} in on its narrow side; {limit:g} in is the least inside."
            mend = "Take a wider pan."
            yield _finding(model, "shower-too-small", "stop", fixture, "", least, limit, text, side_key, mend)
        elif short(area, book.number("clearance.shower.area")):
            limit = book.number("clearance.shower.area")
            yield Finding(
                "shower-too-small",
                "stop",
                (*fixture.at, 0.0),
                (fixture.id,),
                area,
                limit,
                "sq in",
                f"{words} is {inches(width)} by {inches(depth)} in, {area:.0f} sq in; {limit:g} sq in is the least inside.",
                book.cite("clearance.shower.area"),
                "Take a larger pan.",
            )
        else:
            yield Holds(fixture.id)


def _let_off(model: Model, width: float, depth: float) -> bool:
    """Whether a book's exception lets a narrower shower stand."""
    book, narrow, wide = model.book, min(width, depth), max(width, depth)
    side, area = "clearance.shower.narrow_side", "clearance.shower.narrow_area"
    if book.has(side) and book.has(area):
        return not short(narrow, book.number(side)) and not short(width * depth, book.number(area))
    across, along = "clearance.shower.tub_place_width", "clearance.shower.tub_place_length"
    if book.has(across) and book.has(along):
        return not over(book.number(across), narrow) and not over(book.number(along), wide)
    return False


SUBJECT = "clearances"
ABOUT = ("clearance.about",)

RULES = (
    Rule(
        "too-little-room-beside", "Too little room beside", SUBJECT, "stop", ("clearance.side",), beside, ("clearance",)
    ),
    Rule(
        "too-little-room-before",
        "Too little room before",
        SUBJECT,
        "stop",
        ("clearance.front",),
        in_front,
        ("clearance",),
    ),
    Rule(
        "neighbours-too-close", "Fixtures too close together", SUBJECT, "stop", ("clearance.between",), between, ABOUT
    ),
    Rule(
        "too-little-room-before-shower",
        "Too little room before a shower",
        SUBJECT,
        "stop",
        ("clearance.shower.front",),
        shower_entry,
        ("clearance",),
    ),
    Rule(
        "shower-too-small",
        "A shower too small",
        SUBJECT,
        "stop",
        ("clearance.shower.area",),
        shower_size,
        ("clearance.shower",),
    ),
)
