"""Whether a bearing wall that stands across the joists has a bearing near enough under it."""

from __future__ import annotations

from collections.abc import Iterator

from engine.checks.floor_framing import SUBJECT
from engine.checks.landing import floor_wood
from engine.checks.model import Model
from engine.checks.records import DoesNotApply, Finding, Holds, NotJudged, Outcome, Rule
from engine.checks.wall_sites import wall_words
from engine.crossings.limits import over
from engine.framing.records import Joist
from engine.framing.shadow import in_frame
from engine.lengths import down, inches, up
from engine.plan.records import Wall


def off_its_bearing(model: Model) -> Iterator[Outcome]:
    """How far a bearing wall across the joists stands from the nearest bearing of each joist that it crosses.

    Counted from the wall's centre line to the bearing's nearer edge, against the joist's depth. Holds: over a bearing, or a
    joist's depth beside it. Broken: 1/16 in farther. To look at: deeper or closer joists may carry it. Not judged where a
    joist under it has no bearing drawn. Outside walls and walls along the joists do not apply. Source: IRC R502.4, from memory.
    """
    share = model.book.number("joist.partition.off_bearing")
    for wall in model.plan.walls:
        crossed = list(_crossed(model, wall)) if wall.bearing and not wall.exterior and wall.start != wall.end else []
        if not crossed:
            yield DoesNotApply(wall.id)
            continue
        middle = ((wall.start[0] + wall.end[0]) / 2.0, (wall.start[1] + wall.end[1]) / 2.0, 0.0)
        loose = next((joist for joist, _ in crossed if not joist.supports), None)
        if loose is not None:
            yield NotJudged(middle, (wall.id,), f"the bearings of joist {loose.id}, which {wall_words(wall)} stands on")
            continue
        away, joist = max(((_away(joist, u), joist) for joist, u in crossed), key=lambda found: found[0])
        most = share * joist.depth
        if not over(away, most):
            yield Holds(wall.id)
            continue
        yield Finding(
            "partition-off-its-bearing",
            "look",
            middle,
            (wall.id,),
            away,
            most,
            "in",
            f"Bearing wall {wall_words(wall)} stands on joist {joist.id} {inches(up(away))} in from its nearest bearing; "
            f"{inches(down(most))} in, the joist's depth, is the farthest without an engineer's word.",
            model.book.cite("joist.partition.off_bearing"),
            "Draw a beam or bearing under it, move the wall over one, or have the joists sized for it.",
        )


def _crossed(model: Model, wall: Wall) -> Iterator[tuple[Joist, float]]:
    """Each joist that a wall's centre line crosses, with the place along it."""
    (x0, x1), (y0, y1) = (sorted(pair) for pair in zip(wall.start, wall.end, strict=True))
    for joist in floor_wood(model).near((x0, y0), (x1, y1)):
        (u0, v0), (u1, v1) = in_frame(joist, wall.start), in_frame(joist, wall.end)
        if not joist.runs or v0 * v1 > 0.0 or v0 == v1:
            continue
        u = u0 + (u1 - u0) * v0 / (v0 - v1)
        if 0.0 <= u <= joist.length:
            yield joist, u


def _away(joist: Joist, u: float) -> float:
    return min(max(low - u, u - high, 0.0) for low, high in joist.supports)


RULES = (
    Rule(
        "partition-off-its-bearing",
        "A bearing wall away from its bearing",
        SUBJECT,
        "look",
        ("joist.partition.off_bearing",),
        off_its_bearing,
    ),
)
