"""Plumb pipe over wood: closets, traps and risers that land on a joist or rim, and pipe whose side is in one."""

from __future__ import annotations

import math
from collections.abc import Iterator
from itertools import product

from engine.checks.bodies import Body, bodies
from engine.checks.mends import HEADED_OFF
from engine.checks.model import Model, once_a_model
from engine.checks.outcomes import COMMON, name
from engine.checks.records import Finding, Holds, NotJudged, Outcome, Rule
from engine.checks.wall_sites import wall_words, walls_by_place
from engine.crossings.in_walls import DEEPEST
from engine.crossings.limits import over
from engine.crossings.meeting import in_line
from engine.crossings.stretches import Line
from engine.framing import shadow
from engine.framing.records import Joist, Kind
from engine.framing.studs import WallWood, stand
from engine.framing.telling import noun
from engine.framing.wood import Wood, wood_of
from engine.lengths import inches, up
from engine.piping.records import Node
from engine.plan.dressed import WALL_DEPTH
from engine.plan.walls import holds
from engine.trade.lumber import actual, listed
from engine.trade.pipe import label


def lands_on_wood(model: Model) -> Iterator[Outcome]:
    """A closet's flange, a trap in the bay, a riser or a turn-down that stands on a joist or rim.

    Looked at are the pipe itself and what stands round it: the hole for a closet's flange, a trap from its inlet
    to its weir, the hub at a riser's foot (of which only a look is asked). Measured is the least move that takes
    it off the wood. Holds: a 3 in closet pipe 4 in from a joist's centre. Broken: a 1-1/2 in riser whose axis
    stands 1/4 in from a rim's face. Not judged where no joists are drawn. Common practice, no source.
    """
    wood = floor_wood(model)
    for body in bodies(model):
        if not model.framing.joists:
            yield NotJudged((*body.start, body.high), body.elements, "the joists: none are drawn")
            continue
        yield _landing(model, wood, body)


@once_a_model
def floor_wood(model: Model) -> Wood:
    """The floor's wood, sorted for questions about places."""
    return wood_of(model.framing)


def _landing(model: Model, wood: Wood, body: Body) -> Outcome:
    near = [joist for joist in _near(wood, body, body.room) if body.low < joist.top and body.high > joist.bottom]
    pipe = f"{label(body.size)} in pipe"
    for radius, end, weight, what in (
        (body.pipe, body.start, "stop", pipe),
        (body.room, body.end, body.weight, body.round_it),
    ):
        struck = [(shadow.overlap(joist, body.start, end, radius), joist) for joist in near]
        worst, joist = max(struck, key=lambda pair: pair[0], default=(0.0, None))
        if joist is None or not over(worst, 0.0):
            continue
        return Finding(
            rule="lands-on-wood",
            weight="look" if weight == "look" else "stop",
            at=(*body.start, min(body.high, 0.0)),
            elements=(*body.elements, joist.id),
            measured=worst,
            limit=0.0,
            unit="in",
            text=f"{_how_far(name(model, body.elements[0]), what, worst, radius, joist)}"
            f"{_engineered(joist)}{_outside(model, body)}",
            cites=COMMON,
            mend=_mend(model, body, _least_move(wood, body, max(radius, body.room)), joist),
        )
    return Holds(body.elements[0])


def _how_far(whose: str, what: str, worst: float, radius: float, joist: Joist) -> str:
    """How much of a body lies on wood, or how far aside it would be clear where it lies on all of the wood's width."""
    stick = f"{noun(joist)} {joist.id}"
    if over(worst, min(2.0 * radius, joist.thickness)):
        return (
            f"{whose}'s {what} lands on {stick} with its middle over it: {inches(up(worst))} in aside clears it alone."
        )
    begins = f"{whose[:1].upper()}{whose[1:]}" if " " in whose else whose
    return f"{begins}'s {what} lands on {stick} by {inches(up(worst))} in."


def _engineered(joist: Joist) -> str:
    """What holds for an engineered member, whose maker alone says where it may be cut."""
    if joist.member != "engineered":
        return ""
    return " It is engineered: its flanges are never cut, and a hole is for its maker's guide or an engineer to allow."


def _outside(model: Model, body: Body) -> str:
    """That plumb pipe stands in an outside wall, where it does: such a wall stands over the rim or the end joist."""
    wood = _outside_wall(model, body)
    return (
        "" if wood is None else f" It stands in {wall_words(wood.wall)}, an outside wall, right over the floor's edge."
    )


def _outside_wall(model: Model, body: Body) -> WallWood | None:
    if body.high < 0.0:
        return None
    near = walls_by_place(model).near(body.start, DEEPEST)
    wall = next((one for one in near if one.exterior and holds(one, body.start)), None)
    return None if wall is None else stand(wall, model.plan.floor.subfloor)


def _mend(model: Model, body: Body, move: tuple[float, float] | None, joist: Joist) -> str:
    """The least move off the wood, or the wood headed off; for pipe in an outside wall what the move asks of that wall."""
    wood = _outside_wall(model, body)
    if wood is None or move is None:
        stick = f"{noun(joist)} {joist.id}"
        if joist.kind == "beam":
            return f"{_move_words(move)}: nothing is cut out of a beam."
        if joist.kind not in HEADED_OFF:
            return f"{_move_words(move)}: a {noun(joist)}{AT_EDGE if joist.kind in EDGE else ''} is not headed off."
        if joist.member == "engineered":
            return f"{_move_words(move)}, or ask its maker how {stick} is headed off."
        return f"{_move_words(move)}, or head {stick} off round it."
    _, left = wood.where((body.start[0] + move[0], body.start[1] + move[1]))
    out = abs(left) + body.pipe - wood.depth / 2.0
    wall = wall_words(wood.wall)
    if not over(out, 0.0):
        return f"{_move_words(move)}, where {wall} still holds it, or stand it in an inside wall."
    deeper = next(
        (
            one
            for one in listed()
            if one.startswith("2x") and actual(one).depth - wood.depth >= out and one in WALL_DEPTH
        ),
        None,
    )
    framed = f", or frame it of {deeper} with its outside face where it is" if deeper is not None else ""
    return (
        f"{_move_words(move)}, {inches(up(out))} in out of the studs' inside face: fur {wall} out so far{framed}. Or stand it "
        "in an inside wall."
    )


EDGE: tuple[Kind, ...] = ("rim", "end")
"""What stands along the floor's edge, over its bearing."""
AT_EDGE = " at the floor's edge"


def _near(wood: Wood, body: Body, reach: float) -> list[Joist]:
    (x0, y0), (x1, y1) = body.start, body.end
    return wood.near((min(x0, x1) - reach, min(y0, y1) - reach), (max(x0, x1) + reach, max(y0, y1) + reach))


def least_move(model: Model, body: Body) -> tuple[float, float] | None:
    """The shortest way, inches east and north in sixteenths, to a place in a bay where a body is clear of all wood.

    None where there is none near.
    """
    return _least_move(floor_wood(model), body, max(body.pipe, body.room))


def _least_move(wood: Wood, body: Body, radius: float) -> tuple[float, float] | None:
    near = _near(wood, body, 2.0 * (2.0 * radius + math.dist(body.start, body.end)))
    moves = [way for joist in near for way in shadow.ways_clear(joist, body.start, body.end, radius)]
    easts = {0.0} | {math.copysign(up(abs(dx)), dx) for dx, _ in moves}
    norths = {0.0} | {math.copysign(up(abs(dy)), dy) for _, dy in moves}
    for dx, dy in sorted(product(easts, norths), key=lambda move: (math.hypot(*move), move)):
        start, end = (body.start[0] + dx, body.start[1] + dy), (body.end[0] + dx, body.end[1] + dy)
        if wood.bay_at(start) is None or wood.bay_at(end) is None:
            continue
        moved = body._replace(start=start, end=end)
        if not any(over(shadow.overlap(joist, start, end, radius), 0.0) for joist in _near(wood, moved, radius)):
            return (dx, dy)
    return None


def _move_words(move: tuple[float, float] | None) -> str:
    return "Move it to another bay" if move is None else f"Move it {_compass(*move)}"


def _compass(dx: float, dy: float) -> str:
    parts = []
    if dx:
        parts.append(f"{inches(abs(dx))} in {'east' if dx > 0 else 'west'}")
    if dy:
        parts.append(f"{inches(abs(dy))} in {'north' if dy > 0 else 'south'}")
    return " and ".join(parts)


def side_in_wood(model: Model) -> Iterator[Outcome]:
    """Level pipe in a bay so near a joist or rim that its side is in the wood, though its axis is not.

    Insulation counts as the pipe's. Holds: pipe that touches the wood. Broken: 1/16 in further over. Where the
    axis itself is in the wood there is a crossing, which other rules judge, also where it is only the next stretch
    of a straight run that crosses; pipe known to lie below the wood holds. Not judged where no joists are drawn.
    Common practice, no source.
    """
    wood, crossed = floor_wood(model), _crossed_further_on(model)
    crossed.update((crossing.pipe, crossing.joist) for crossing in model.crossings)
    supplies = {supply.id: supply.down for supply in model.plan.supplies}
    for line in model.lines:
        start, end, half = line.start[:2], line.end[:2], line.width / 2.0
        low = (min(start[0], end[0]) - half, min(start[1], end[1]) - half)
        high = (max(start[0], end[0]) + half, max(start[1], end[1]) + half)
        beside = [joist for joist in wood.near(low, high) if (line.id, joist.id) not in crossed]
        if model.framing.joists and not beside:
            yield Holds(line.element)
            continue
        heights = [z for z in _heights(model, line, supplies) if z is not None]
        at = ((start[0] + end[0]) / 2.0, (start[1] + end[1]) / 2.0, max(heights, default=0.0))
        if not model.framing.joists:
            yield NotJudged(at, (line.element,), "the joists: none are drawn")
            continue
        near = [
            (shadow.side_in_wood(joist, start, end, half), joist)
            for joist in beside
            if not heights or max(heights) + half > joist.bottom
        ]
        into, joist = max(near, key=lambda pair: pair[0], default=(0.0, None))
        if joist is None or not over(into, 0.0):
            yield Holds(line.element)
            continue
        kind = noun(joist)
        yield Finding(
            rule="pipe-side-in-wood",
            weight="stop",
            at=at,
            elements=(line.element, joist.id),
            measured=into,
            limit=0.0,
            unit="in",
            text=f"{inches(up(into))} in of {line.element}'s side is in the wood of {kind} {joist.id}.",
            cites=COMMON,
            mend=f"Move the run {inches(up(into))} in away from {kind} {joist.id}.",
        )


def _crossed_further_on(model: Model) -> set[tuple[str, str]]:
    """Each line with the joists that a stretch of the same run crosses, which goes straight on from its end."""
    at: dict[tuple[str, Node], list[Line]] = {}
    for line in model.lines:
        for node in (line.start, line.end):
            at.setdefault((line.element, node), []).append(line)
    joists: dict[str, list[str]] = {}
    for crossing in model.crossings:
        joists.setdefault(crossing.pipe, []).append(crossing.joist)
    return {
        (line.id, joist)
        for lines in at.values()
        for line in lines
        for other in lines
        if other is not line and in_line(line, other)
        for joist in joists.get(other.id, ())
    }


def _heights(model: Model, line: Line, supplies: dict[str, float | None]) -> Iterator[float | None]:
    """The axis's height at both ends of a line, as far as it is known; a water line without one lies mid-joist."""
    if line.element in supplies:
        down = supplies[line.element]
        yield None if down is None else -down
        return
    yield model.heights.get(line.start)
    yield model.heights.get(line.end)


RULES = (
    Rule("lands-on-wood", "Plumb pipe over a joist or rim", "joist cuts", "stop", (), lands_on_wood),
    Rule("pipe-side-in-wood", "Level pipe with its side in the wood", "joist cuts", "stop", (), side_in_wood),
)
