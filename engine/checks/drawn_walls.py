"""Whether walls are drawn where they can stand: on the floor, at its edge where they are outside walls, and clear of fixtures."""

from __future__ import annotations

from collections.abc import Iterator

from engine.checks.clearances import standing
from engine.checks.model import Model
from engine.checks.outcomes import COMMON, name
from engine.checks.records import DoesNotApply, Finding, Holds, Outcome, Rule
from engine.checks.wall_sites import SUBJECT, wall_words
from engine.crossings.limits import over
from engine.drafting.room import stands_in
from engine.framing.outside import off_the_outline
from engine.framing.shadow import band
from engine.lengths import feet_inches, inches, up
from engine.plan.records import Wall
from engine.trade.lumber import actual
from engine.trade.walls import edge_give, edge_room


def off_the_floor(model: Model) -> Iterator[Outcome]:
    """A wall that stands past the floor's edge, or an outside wall that stands in from it.

    Measured is how far its studs stand over the edge, or how far an outside wall's outer face stands in from it, of
    which a little leaves room for sheathing. Holds: studs 1/4 in over the edge, as where a wall meets a slanting one. Broken: 1/16 in
    more. To look at: a porch's wall stands where it is drawn. Common practice, no source.
    """
    outline, room, give = model.plan.floor.outline, edge_room(), edge_give()
    for wall in model.plan.walls:
        if wall.start == wall.end:
            continue
        past, inward = off_the_outline(wall, outline)
        if over(past, give):
            said = f"stands {feet_inches(up(past))} past the floor's edge: nothing carries it there."
            yield _off_finding(
                wall, past, give, said, f"Move it {feet_inches(up(past))} onto the floor, or draw the floor out to it."
            )
        elif wall.exterior and over(inward, room):
            said = f"is an outside wall, and stands {feet_inches(up(inward))} in from the floor's edge."
            mend = "Move it out to the edge, draw the floor's outline as it is, or untick that it is an outside wall."
            yield _off_finding(wall, inward, room, said, mend)
        else:
            yield Holds(wall.id)


def _off_finding(wall: Wall, measured: float, limit: float, said: str, mend: str) -> Finding:
    at = ((wall.start[0] + wall.end[0]) / 2.0, (wall.start[1] + wall.end[1]) / 2.0, 0.0)
    text = f"{wall_words(wall)} {said}"
    return Finding("wall-off-the-floor", "look", at, (wall.id,), measured, limit, "in", text, COMMON, mend)


def in_a_wall(model: Model) -> Iterator[Outcome]:
    """A fixture's body that stands in the studs of a wall; what stands against bare studs, such as a tub, is clear.

    To stop for where the fixture's size was typed in, to look at where it is a usual one. Holds: a body against the studs.
    Broken: 1/16 in further. Fixtures without a body, and a tub whose trap is not set, do not apply. Common practice, no source.
    """
    about = standing(model)
    walls = {wall.id: wall for wall in model.plan.walls}
    for fixture in model.plan.fixtures:
        if not about.has_body(fixture.id):
            yield DoesNotApply(fixture.id)
            continue
        body = about.bodies[fixture.id]
        found = [
            (into, wall)
            for one in about.meeting(fixture.id)
            if one.what == "wall"
            and (wall := walls[one.element])
            and over(into := stands_in(fixture, body, band(wall.start, wall.end, actual(wall.lumber).depth)), 0.0)
        ]
        if not found:
            yield Holds(fixture.id)
            continue
        into, wall = max(found, key=lambda pair: pair[0])
        typed_in = fixture.width is not None and fixture.depth is not None
        text = f"{name(model, fixture.id)} stands {inches(up(into))} in in the studs of {wall_words(wall)}."
        if not typed_in:
            text += " That goes by a usual size: type in your own fixture's width and depth."
        yield Finding(
            "fixture-in-wall",
            "stop" if typed_in else "look",
            (*fixture.at, 0.0),
            (fixture.id, wall.id),
            into,
            0.0,
            "in",
            text,
            COMMON,
            f"Move it {inches(up(into))} in away from the wall, or move the wall.",
        )


RULES = (
    Rule("wall-off-the-floor", "A wall off the floor", SUBJECT, "look", (), off_the_floor),
    Rule("fixture-in-wall", "A fixture in a wall", SUBJECT, "stop", (), in_a_wall),
)
