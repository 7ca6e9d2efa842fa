"""Frost in outside walls: water and waste pipe that stands in one."""

from __future__ import annotations

from collections.abc import Iterator

from engine.checks.model import Model
from engine.checks.records import DoesNotApply, Finding, Holds, NotJudged, Outcome, Rule
from engine.checks.wall_sites import SUBJECT, pipes_in_walls, wall_words, water_rises
from engine.crossings.limits import over
from engine.plan.outline import listed
from engine.plan.records import Point, Wall

FREEZES = "outside_wall.freezes_at"


def may_freeze(model: Model) -> Iterator[Outcome]:
    """Water tube, or a drain that comes down from a trap, in an outside wall where the winter freezes it.

    To look at, once for each wall: the codes let it stand there only where it is kept from freezing. Holds: a design
    temperature of 33 deg F. Broken: 32. Not judged, and told once, where the temperature is not given. Vents hold no water and
    do not apply. Reads ``outside_wall.freezes_at``. Source: IRC P2603.5; UPC 312.6 (the temperature from memory).
    """
    standing = _standing(model)
    cold = model.plan.floor.design_temp
    if not standing:
        yield DoesNotApply()
        return
    if cold is None:
        pipes, _, at = next(iter(standing.values()))
        words = "the winter design temperature is not given, so whether pipe in an outside wall freezes is not known"
        yield NotJudged((*at, 0.0), tuple(pipes), f"{words}: it stands in the plan's settings")
        return
    limit = model.book.number(FREEZES)
    for name, (pipes, wall, at) in standing.items():
        if over(cold, limit):
            yield Holds(name)
            continue
        yield Finding(
            "pipe-freezes-in-wall",
            "look",
            (*at, model.plan.floor.subfloor),
            (*pipes, name),
            cold,
            limit,
            "deg F",
            f"{listed(pipes)} {'stands' if len(pipes) == 1 else 'stand'} in {wall_words(wall)}, an outside wall, where winters "
            f"reach {cold:g} deg F: pipe there is kept from freezing.",
            model.book.cite(FREEZES),
            "Bring it up in an inside wall or through the floor. Else keep it at the wall's warm side, with all the insulation "
            "between it and the weather.",
        )


Standing = tuple[dict[str, None], Wall, Point]


def _standing(model: Model) -> dict[str, Standing]:
    """For each outside wall that pipe with water in it stands in: the pipes, and where the first of them stands."""
    found: dict[str, Standing] = {}
    uprights = [(one.elements[0], one.wood.wall, one.at) for one in pipes_in_walls(model).upright if one.waste]
    rises = [(rise.element, rise.wood.wall, rise.at) for rise in water_rises(model)]
    for element, wall, at in (*uprights, *rises):
        if wall.exterior:
            found.setdefault(wall.id, ({}, wall, at))[0][element] = None
    return found


RULES = (
    Rule(
        "pipe-freezes-in-wall",
        "Water or waste pipe in a cold outside wall",
        SUBJECT,
        "look",
        (FREEZES,),
        may_freeze,
    ),
)
