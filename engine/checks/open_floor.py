"""Whether an opening lies on the floor, and the clear way of one whose floor is left out, for a ladder or stair, is kept clear."""

from __future__ import annotations

from collections.abc import Iterator
from typing import NamedTuple

from engine.checks.clearances import standing
from engine.checks.floor_framing import SUBJECT
from engine.checks.model import Model
from engine.checks.outcomes import COMMON, name
from engine.checks.records import DoesNotApply, Finding, Holds, Outcome, Rule
from engine.checks.wall_sites import wall_words
from engine.crossings.limits import over
from engine.drafting.room import corners_of
from engine.framing.outside import past_the_outline
from engine.framing.shadow import band, clipped
from engine.lengths import feet_inches, inches, up
from engine.plan.records import FloorOpening, Point
from engine.trade.lumber import actual

SQUARE = 1.0
"""Side of the square that a fixture without a body counts as, about its own point, inches."""


def past_the_floor(model: Model) -> Iterator[Outcome]:
    """An opening whose clear way reaches past the floor's edge, where nothing frames it.

    Measured is how far. Holds: an opening that ends at the outside of the framing. Broken: 1/16 in past it. Common practice, no source.
    """
    for opening in model.plan.floor_openings:
        (x0, x1), (y0, y1) = (sorted(pair) for pair in zip(opening.start, opening.end, strict=True))
        past = past_the_outline(((x0, y0), (x1, y0), (x1, y1), (x0, y1)), model.plan.floor.outline)
        if not over(past, 0.0):
            yield Holds(opening.id)
            continue
        yield Finding(
            "opening-past-the-floor",
            "stop",
            _middle(opening),
            (opening.id,),
            past,
            0.0,
            "in",
            f"{opening.name or opening.id} reaches {feet_inches(up(past))} past the floor's edge: a rim would be cut, and nothing frames it there.",
            COMMON,
            f"Make the opening {feet_inches(up(past))} shorter there, or move it onto the floor.",
        )


class _Thing(NamedTuple):
    """Something that may lie in a clear way: its element, what it does there in words, and its outline in plan."""

    element: str
    words: str
    outline: tuple[Point, ...]


def in_the_clear_way(model: Model) -> Iterator[Outcome]:
    """Pipe, a wall or a fixture in the clear way of an opening whose floor is left out.

    Measured is the least way that takes it out. Holds: pipe that touches the clear way's side. Broken: 1/16 in further
    in. An opening that floor goes on over, where joists are only headed off for pipe, does not apply. Common practice, no source.
    """
    openings = [one for one in model.plan.floor_openings if one.open]
    if not openings:
        yield DoesNotApply()
        return
    things = list(_things(model))
    for opening in openings:
        worst: dict[str, tuple[float, _Thing]] = {}
        for thing in things:
            into = _into(thing.outline, opening)
            if over(into, 0.0) and into > worst.get(thing.element, (0.0, thing))[0]:
                worst[thing.element] = (into, thing)
        if not worst:
            yield Holds(opening.id)
        for into, thing in worst.values():
            yield Finding(
                "in-an-open-floor",
                "stop",
                _middle(opening),
                (thing.element, opening.id),
                into,
                0.0,
                "in",
                f"{thing.words} the clear way of {opening.name or opening.id}, where the floor is left out: {inches(up(into))} in of it.",
                COMMON,
                f"Take it round the opening, or move the opening. Where the floor goes on over {opening.id}, untick that it is open.",
            )


def _things(model: Model) -> Iterator[_Thing]:
    for line in model.lines:
        yield _Thing(line.element, f"{line.element} runs through", band(line.start[:2], line.end[:2], line.width))
    for wall in model.plan.walls:
        if wall.start != wall.end:
            words = f"{wall_words(wall)} stands in"
            yield _Thing(wall.id, words, band(wall.start, wall.end, actual(wall.lumber).depth))
    about = standing(model)
    for fixture in model.plan.fixtures:
        (x, y), half = fixture.at, SQUARE / 2.0
        outline: tuple[Point, ...] = (
            (x - half, y - half),
            (x + half, y - half),
            (x + half, y + half),
            (x - half, y + half),
        )
        if about.has_body(fixture.id):
            outline = corners_of(fixture, about.bodies[fixture.id])
        yield _Thing(fixture.id, f"{name(model, fixture.id)} stands in", outline)


def _into(outline: tuple[Point, ...], opening: FloorOpening) -> float:
    """How far a convex outline lies in an opening's clear way: the least extent of what both share, inches."""
    (x0, x1), (y0, y1) = (sorted(pair) for pair in zip(opening.start, opening.end, strict=True))
    shared = clipped(clipped(list(outline), 0, x0, x1), 1, y0, y1)
    if not shared:
        return 0.0
    return min(max(one[axis] for one in shared) - min(one[axis] for one in shared) for axis in (0, 1))


def _middle(opening: FloorOpening) -> tuple[float, float, float]:
    return (opening.start[0] + opening.end[0]) / 2.0, (opening.start[1] + opening.end[1]) / 2.0, 0.0


RULES = (
    Rule("opening-past-the-floor", "An opening past the floor's edge", SUBJECT, "stop", (), past_the_floor),
    Rule("in-an-open-floor", "Something in an opening of the floor", SUBJECT, "stop", (), in_the_clear_way),
)
