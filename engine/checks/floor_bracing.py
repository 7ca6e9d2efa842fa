"""What keeps joists upright between their ends, and how far they may stand out past their bearing."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from itertools import pairwise

from engine.checks.floor_framing import SUBJECT, middle_of, running
from engine.checks.model import Model
from engine.checks.records import DoesNotApply, Finding, Holds, NotJudged, Outcome, Rule
from engine.crossings.limits import over, short
from engine.framing.records import Joist
from engine.lengths import feet_inches, inches, up
from engine.plan.records import JoistField
from engine.trade.lumber import actual


def unbraced_between(model: Model) -> Iterator[Outcome]:
    """Joists that run on over a bearing between their ends are held upright there too, where earthquakes ask for it.

    Rims and hangers hold the ends. Holds: a row of full-depth blocks over each such bearing. To look at: a bearing without.
    Not judged where the site's seismic design category is not told; does not apply in the milder ones, without such
    bearings, or to engineered members, whose maker tells. Source: IRC R502.7, exception for categories D0 to D2.
    """
    category = model.plan.floor.seismic
    key = f"joist.restraint.{category}"
    for field in model.plan.fields:
        between = bearings_between(running(model).get(field.id, ()), field)
        if field.member == "engineered" or not between or (category is not None and not model.book.says(key)):
            yield DoesNotApply(field.id)
        elif category is None:
            yield NotJudged(middle_of(field), (field.id,), "the site's seismic design category")
        elif bare := [(low, high) for low, high in between if not _blocked(field, low, high)]:
            places = " and ".join(feet_inches((low + high) / 2.0) for low, high in bare)
            side = "south" if field.direction == "north-south" else "west"
            yield Finding(
                "joists-unbraced-between",
                "look",
                middle_of(field),
                (field.id,),
                None,
                None,
                "",
                f"The joists of {field.id} run on over a bearing {places} from the {side} outside face, and no row of "
                f"blocks holds them upright there; in seismic design category {category} one does.",
                model.book.cite(key),
                "Put a row of full-depth blocks over each bearing between the joists' ends.",
            )
        else:
            yield Holds(field.id)


def bearings_between(joists: Iterable[Joist], field: JoistField) -> list[tuple[float, float]]:
    """Where a field's joists run on over a bearing, along them from its south or west outside face, each place once.

    The bearing that an overhang stands out past is one of them, and so is one that joists are joined over.
    """
    axis = 1 if field.direction == "north-south" else 0
    found = []
    for joist in joists:
        first = joist.start[axis] - field.corner[axis]
        for low, high in joist.supports:
            at_end = (not over(low, 0.0) and not joist.joined[0], not short(high, joist.length) and not joist.joined[1])
            if not any(at_end):
                found.append((first + low, first + high))
    merged: list[tuple[float, float]] = []
    for low, high in sorted(found):
        if merged and low <= merged[-1][1]:
            merged[-1] = (merged[-1][0], max(high, merged[-1][1]))
        else:
            merged.append((low, high))
    return merged


def _blocked(field: JoistField, low: float, high: float) -> bool:
    """Whether the wood of a row of blocks stands over a bearing."""
    half = actual(field.lumber).thickness / 2.0
    return any(not short(at + half, low) and not over(at - half, high) for at in field.blocking)


def unbridged(model: Model) -> Iterator[Outcome]:
    """Joists deeper than the book says are bridged or blocked between their ends.

    Measured is the longest part of a joist without a row of blocks. Holds: a row as often as the book says. To look at:
    1/16 in more between two. Shallower joists and engineered members do not apply. Source: IRC R502.7.1.
    """
    deep, every = model.book.number("joist.bridging.deeper_than"), model.book.number("joist.bridging.every")
    for field in model.plan.fields:
        joists = [one for one in running(model).get(field.id, ()) if over(one.depth, deep)]
        if field.member == "engineered" or not joists:
            yield DoesNotApply(field.id)
            continue
        longest = max(longest_bare(field, one) for one in joists)
        if not over(longest, every):
            yield Holds(field.id)
            continue
        yield Finding(
            "joists-unbridged",
            "look",
            middle_of(field),
            (field.id,),
            longest,
            every,
            "in",
            f"The joists of {field.id} are deeper than {inches(deep)} in and stand {feet_inches(up(longest))} without blocks or "
            f"bridging; {feet_inches(every)} is the most.",
            model.book.cite("joist.bridging.every"),
            f"Put rows of full-depth blocks, or diagonal bridging, no farther apart than {feet_inches(every)}.",
        )


def longest_bare(field: JoistField, joist: Joist) -> float:
    """The longest part of a joist between its ends and the rows of blocks."""
    axis = 1 if field.direction == "north-south" else 0
    first = joist.start[axis] - field.corner[axis]
    rows = [at - first for at in sorted(field.blocking) if 0.0 < at - first < joist.length]
    return max(b - a for a, b in pairwise((0.0, *rows, joist.length)))


def overhang_too_long(model: Model) -> Iterator[Outcome]:
    """How far joists stand out past their bearing where they carry the floor alone, against their nominal depth.

    Holds: an overhang as long as the lumber is deep by its name. To look at: 1/16 in more. Under a wall and roof, or a
    balcony, tables hold that were not read: not judged, nor where its load is not told. Fields without overhangs and
    engineered members do not apply. Source: IRC R502.3.3.
    """
    for field in model.plan.fields:
        longest, at = max(field.overhangs), middle_of(field)
        if field.member == "engineered" or not over(longest, 0.0):
            yield DoesNotApply(field.id)
        elif field.overhang_carries is None:
            yield NotJudged(at, (field.id,), f"what the overhang of {field.id} carries")
        elif field.overhang_carries != "floor":
            yield NotJudged(at, (field.id,), f"the table for overhangs that carry a {field.overhang_carries}")
        else:
            most = model.book.number("joist.overhang.most") * actual(field.lumber).nominal_depth
            if not over(longest, most):
                yield Holds(field.id)
                continue
            yield Finding(
                "overhang-too-long",
                "look",
                at,
                (field.id,),
                longest,
                most,
                "in",
                f"The joists of {field.id} stand out {inches(up(longest))} in past their bearing; {field.lumber} that carries "
                f"the floor alone may stand out {inches(most)} in.",
                model.book.cite("joist.overhang.most"),
                "Set the bearing farther out, or frame it with deeper lumber; an engineer may allow it.",
            )


RULES = (
    Rule(
        "joists-unbraced-between",
        "Joists not held upright at a bearing between",
        SUBJECT,
        "look",
        ("joist.restraint",),
        unbraced_between,
    ),
    Rule("joists-unbridged", "Deep joists without bridging", SUBJECT, "look", ("joist.bridging",), unbridged),
    Rule(
        "overhang-too-long",
        "Joists that overhang too far",
        SUBJECT,
        "look",
        ("joist.overhang.most",),
        overhang_too_long,
    ),
)
