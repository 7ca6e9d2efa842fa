"""Cleanouts as they are drawn: whether one gets at them, in a wall and under the floor."""

from __future__ import annotations

import math
from collections.abc import Iterator

from engine.checks.cleanout_places import drawn, opening
from engine.checks.cleanout_room import wall_of
from engine.checks.model import Model
from engine.checks.outcomes import place
from engine.checks.records import DoesNotApply, Finding, Holds, NotJudged, Outcome, Rule
from engine.checks.rodding import SUBJECT, WAYS_IN, WayIn
from engine.crossings.limits import over, short
from engine.drafting.bodies import face_of
from engine.lengths import feet_inches, inches
from engine.piping.flow import is_under
from engine.plan.records import Cleanout, Hatch, Wall
from engine.trade.fittings import takeoff


def concealed(model: Model) -> Iterator[Outcome]:
    """A cleanout in a wall that opens inside the wall, or too far behind its face.

    Holds: it opens to a side of its wall, its face as near to the wall's as the book says (where it says so). Broken:
    it opens along the wall; it lies 1/16 in deeper. Not judged where the tee's own length, as far as it is known, makes
    the difference. One under the floor or in no wall does not apply. Source: IRC
    P3005.2.10; UPC 707.9.
    """
    if model.book.says("cleanout.concealed_allowed"):
        yield from (DoesNotApply(cleanout.id) for cleanout in model.plan.cleanouts)
        return
    deepest = model.book.number("cleanout.wall_face_within") if model.book.has("cleanout.wall_face_within") else None
    for cleanout, found in opening(model):
        wall = wall_of(model, cleanout) if cleanout.above_floor is not None else None
        if found is None or wall is None:
            yield DoesNotApply(cleanout.id)
            continue
        way, pipe = found
        across = _across(wall.start, wall.end, cleanout.turn)
        branch = takeoff("test_tee", (pipe.size, pipe.size, pipe.size), "branch", model.plan.takeoffs)
        behind = face_of(wall) - _off_line(wall.start, wall.end, cleanout) - branch.length
        if not _faces_out(across):
            yield _in_wall(model, cleanout, way, wall.id, across)
        elif deepest is None or not over(behind + branch.tolerance, deepest):
            yield Holds(cleanout.id)
        elif over(behind - branch.tolerance, deepest):
            yield _too_deep(model, cleanout, way, wall, behind, deepest)
        else:
            unsure = f"the length of its tee, taken to {inches(branch.tolerance)} in while no one has measured it"
            yield NotJudged(place(model, way.node), (cleanout.id,), unsure)


def _too_deep(model: Model, cleanout: Cleanout, way: WayIn, wall: Wall, behind: float, deepest: float) -> Finding:
    return Finding(
        "cleanout-concealed",
        "stop",
        place(model, way.node),
        (cleanout.id, wall.id),
        behind,
        deepest,
        "in",
        f"Cleanout {cleanout.id} opens {inches(behind)} in behind the face of {wall.name or wall.id}; it may be "
        f"{inches(deepest)} in.",
        model.book.cite("cleanout.wall_face_within"),
        "Bring the opening out to the wall's face with a short pipe and an adapter, or move the riser nearer.",
    )


def _in_wall(model: Model, cleanout: Cleanout, way: WayIn, wall: str, across: float) -> Finding:
    return Finding(
        "cleanout-concealed",
        "stop",
        place(model, way.node),
        (cleanout.id, wall),
        across,
        90.0,
        "degrees",
        f"Cleanout {cleanout.id} opens along {wall}, inside it, where nobody gets at it.",
        model.book.cite("cleanout.concealed_allowed"),
        f"Turn {cleanout.id} to a side of the wall.",
    )


def _across(start: tuple[float, float], end: tuple[float, float], heading: float) -> float:
    """The angle between a wall's line and a heading, degrees 0 to 90."""
    line = math.degrees(math.atan2(end[1] - start[1], end[0] - start[0]))
    return abs((heading - line + 90.0) % 180.0 - 90.0)


def _faces_out(across: float) -> bool:
    """Whether an opening at such an angle to its wall looks rather out of it than along it."""
    return across > 90.0 / 2.0


def _off_line(start: tuple[float, float], end: tuple[float, float], cleanout: Cleanout) -> float:
    """How far a riser stands off its wall's centre line toward the side that its cleanout opens to, inches."""
    length = math.dist(start, end)
    normal = (-(end[1] - start[1]) / length, (end[0] - start[0]) / length)
    off = (cleanout.at[0] - start[0]) * normal[0] + (cleanout.at[1] - start[1]) * normal[1]
    heading = math.radians(cleanout.turn)
    toward = math.cos(heading) * normal[0] + math.sin(heading) * normal[1]
    return off if toward > 0.0 else -off


def low_crawl_space(model: Model) -> Iterator[Outcome]:
    """A cleanout under the floor where the crawl space is too low to get to it.

    Holds: just the height asked. Broken: 1/16 in less. Not judged while the clear height under the joists is not
    given; what hangs under them on the way is not looked at. Where the book also names a width of the way, a narrower
    way in is something to look at. Source: IRC P3005.2.10; UPC 707.9.
    """
    least, crawl = model.book.number("cleanout.crawl_space_least"), model.plan.floor.crawl
    for cleanout, way in drawn(model):
        if way is None or not is_under(way.node):
            yield DoesNotApply(cleanout.id)
        elif crawl is None:
            yield NotJudged(place(model, way.node), (cleanout.id,), "the clear height under the joists is not given")
        elif short(crawl, least):
            yield Finding(
                "cleanout-in-low-crawl-space",
                "stop",
                place(model, way.node),
                (cleanout.id,),
                crawl,
                least,
                "in",
                f"Cleanout {cleanout.id} lies in a crawl space {inches(crawl)} in high; one must be {inches(least)} in "
                "high to get to it.",
                model.book.cite("cleanout.crawl_space_least"),
                "Bring it up into a riser above the floor, or outdoors.",
            )
        else:
            yield _narrow_way(model, cleanout, way) or Holds(cleanout.id)


def _narrow_way(model: Model, cleanout: Cleanout, way: WayIn) -> Finding | None:
    if not model.book.has("cleanout.crawl_way_least"):
        return None
    least, hatch = model.book.number("cleanout.crawl_way_least"), _nearest(model, cleanout)
    if hatch is None or not short(hatch.clear, least):
        return None
    return Finding(
        "cleanout-in-low-crawl-space",
        "look",
        place(model, way.node),
        (cleanout.id, hatch.id),
        hatch.clear,
        least,
        "in",
        f"The way to cleanout {cleanout.id} must be {inches(least)} in wide; hatch {hatch.id} is {inches(hatch.clear)} in.",
        model.book.cite("cleanout.crawl_way_least"),
        "Make the hatch wider, or bring the cleanout up into a riser above the floor, or outdoors.",
    )


def far_from_hatch(model: Model) -> Iterator[Outcome]:
    """How far under the floor one must crawl to a cleanout, along the floor from the middle of the nearest way in.

    Holds: just so far as the book says. Broken: 1/16 in more. Not judged while no way in is drawn. One above the floor
    does not apply. Source: UPC 707.9.
    """
    most = model.book.number("cleanout.from_access_most")
    for cleanout, way in drawn(model):
        if way is None or not is_under(way.node):
            yield DoesNotApply(cleanout.id)
            continue
        hatch = _nearest(model, cleanout)
        if hatch is None:
            yield NotJudged(place(model, way.node), (cleanout.id,), "no way in to the space under the floor is drawn")
            continue
        far = math.dist(hatch.at, cleanout.at)
        if not over(far, most):
            yield Holds(cleanout.id)
            continue
        yield Finding(
            "cleanout-far-from-hatch",
            "stop",
            place(model, way.node),
            (cleanout.id, hatch.id),
            far,
            most,
            "in",
            f"Cleanout {cleanout.id} is {feet_inches(far)} from the nearest way in under the floor, {hatch.id}; it may "
            f"be {feet_inches(most)}.",
            model.book.cite("cleanout.from_access_most"),
            "Move the hatch, draw a second one nearer, or bring the cleanout up above the floor.",
        )


def _nearest(model: Model, cleanout: Cleanout) -> Hatch | None:
    return min(model.plan.hatches, key=lambda hatch: math.dist(hatch.at, cleanout.at), default=None)


RULES: tuple[Rule, ...] = (
    Rule(
        "cleanout-concealed",
        "A cleanout hidden in a wall",
        SUBJECT,
        "stop",
        ("cleanout.concealed_allowed",),
        concealed,
        ("cleanout.wall_face_within", *WAYS_IN),
    ),
    Rule(
        "cleanout-in-low-crawl-space",
        "A cleanout in a low crawl space",
        SUBJECT,
        "stop",
        ("cleanout.crawl_space_least",),
        low_crawl_space,
        ("cleanout.crawl_way_least", *WAYS_IN),
    ),
    Rule(
        "cleanout-far-from-hatch",
        "A cleanout far from the way in",
        SUBJECT,
        "stop",
        ("cleanout.from_access_most",),
        far_from_hatch,
        WAYS_IN,
    ),
)
