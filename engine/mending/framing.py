"""Mends of how joists are joined, held upright and hung: laps, rows of blocks, overhangs, beams at the joists' level."""

from __future__ import annotations

import math
from collections.abc import Iterator
from functools import partial

from engine.checks.floor_bracing import bearings_between
from engine.checks.flush_beams import ways_past
from engine.checks.records import Finding
from engine.framing.layout import lay_out
from engine.lengths import down, feet_inches, inches, nearest, up
from engine.mending import costs
from engine.mending.ideas import Idea, Maker
from engine.mending.lumber import framed
from engine.plan import edits
from engine.plan.fields import along
from engine.plan.records import Beam, FloorOpening, JoistField, Plan
from engine.study import Study


def joined(study: Study, finding: Finding) -> Iterator[Idea]:
    """Joists lapped over a bearing between their ends; over a beam drawn in the middle; or hung on one at their level."""
    field = edits.find(study.plan, finding.elements[0])
    if not isinstance(field, JoistField):
        return
    for low, high in _bearings(study, field):
        at = (low + high) / 2.0
        make = partial(edits.set_field, study.plan, field.id, "laps", (*field.laps, at))
        middle = abs(at - along(field) / 2.0) / along(field)
        yield Idea(f"Let {field.id}'s joists lap over the bearing at {feet_inches(at)}", costs.SAY + middle, make)
    at = nearest(along(field) / 2.0)
    words = f"Put a beam under the middle of {field.id}, with the joists lapped over it"
    yield Idea(words, costs.LUMBER, partial(_on_beam, study.plan, field, at))
    words = f"Put a beam at the joists' level across the middle of {field.id}, with the joists hung on it"
    yield Idea(words, costs.LUMBER + 1.0, partial(_beam, study.plan, field, at, 0.0))


def _on_beam(plan: Plan, field: JoistField, at: float) -> Plan:
    return edits.set_field(_beam(plan, field, at, None), field.id, "laps", (*field.laps, at))


def _beam(plan: Plan, field: JoistField, at: float, top: float | None) -> Plan:
    (x, y), (wide, long) = field.corner, field.size
    if field.direction == "north-south":
        return edits.add_new(plan, Beam, start=(x, y + at), end=(x + wide, y + at), top_z=top)
    return edits.add_new(plan, Beam, start=(x + at, y), end=(x + at, y + long), top_z=top)


def lap(study: Study, finding: Finding) -> Iterator[Idea]:
    """A longer lap."""
    if finding.limit is not None:
        long = up(finding.limit)
        make = partial(edits.set_field, study.plan, finding.elements[0], "lap", long)
        yield Idea(f"Let {finding.elements[0]}'s joists lap {inches(long)} in", costs.SAY, make)


def onto_bearing(study: Study, finding: Finding) -> Iterator[Idea]:
    """Laps moved to the bearings nearest to them, or bearings drawn under them."""
    field = edits.find(study.plan, finding.elements[0])
    if not isinstance(field, JoistField):
        return
    middles = [(low + high) / 2.0 for low, high in _bearings(study, field)]
    if middles:
        moved = tuple(sorted({min(middles, key=lambda one: abs(one - at)) for at in field.laps}))
        far = max(min(abs(one - at) for one in middles) for at in field.laps)
        make = partial(edits.set_field, study.plan, field.id, "laps", moved)
        yield Idea(f"Move the laps of {field.id} onto its bearings", costs.MOVE + costs.INCH * far, make)
    bearings = tuple(sorted({*field.bearings, *field.laps}))
    make = partial(edits.set_field, study.plan, field.id, "bearings", bearings)
    yield Idea(f"Put bearings under the laps of {field.id}", costs.LUMBER, make)


def _bearings(study: Study, field: JoistField) -> list[tuple[float, float]]:
    """Where the field's joists bear between their ends, or would if they ran on over their laps."""
    whole = edits.set_field(study.plan, field.id, "laps", ())
    return bearings_between((one for one in lay_out(whole).joists if one.field == field.id and one.runs), field)


def blocked_between(study: Study, finding: Finding) -> Iterator[Idea]:
    """A row of blocks over each bearing between the joists' ends."""
    field = edits.find(study.plan, finding.elements[0])
    if isinstance(field, JoistField):
        rows = {(low + high) / 2.0 for low, high in _bearings(study, field)}
        make = partial(edits.set_field, study.plan, field.id, "blocking", tuple(sorted({*field.blocking, *rows})))
        yield Idea(f"Put rows of blocks over the bearings of {field.id}", costs.SIZE, make)


def bridged(study: Study, finding: Finding) -> Iterator[Idea]:
    """Rows of blocks, evenly spaced."""
    field = edits.find(study.plan, finding.elements[0])
    if isinstance(field, JoistField) and finding.limit is not None:
        bays = math.ceil(along(field) / finding.limit)
        rows = tuple(nearest(along(field) * row / bays) for row in range(1, bays))
        make = partial(edits.set_field, study.plan, field.id, "blocking", rows)
        yield Idea(f"Put {len(rows)} row{'s' * (len(rows) > 1)} of blocks in {field.id}", costs.SIZE, make)


def overhang(study: Study, finding: Finding) -> Iterator[Idea]:
    """The bearing set farther out, or deeper lumber."""
    field = edits.find(study.plan, finding.elements[0])
    if isinstance(field, JoistField) and finding.limit is not None:
        short = down(finding.limit)
        kept = (min(field.overhangs[0], short), min(field.overhangs[1], short))
        make = partial(edits.set_field, study.plan, field.id, "overhangs", kept)
        yield Idea(f"Let {field.id} overhang {inches(short)} in", costs.MOVE, make)
        yield from framed(study.plan, field.id)


def hung(study: Study, finding: Finding) -> Iterator[Idea]:
    """The joists hung on the beam that they end at."""
    name = finding.elements[0]
    yield Idea(f"Let joists hang on {name}", costs.SAY, partial(edits.set_field, study.plan, name, "bearing", True))


def beside_beam(study: Study, finding: Finding) -> Iterator[Idea]:
    """The opening drawn in to one side of the beam that crosses it."""
    name, beam = finding.elements
    opening = edits.find(study.plan, name)
    ways = ways_past(opening, study.model.joists[beam]) if isinstance(opening, FloorOpening) else None
    if ways is None or not isinstance(opening, FloorOpening):
        return
    (x0, y0), (x1, y1) = opening.start, opening.end
    west, east, south, north = (up(way) for way in ways)
    for side, start, end, way in (
        ("east", (x0 + west, y0), (x1, y1), west),
        ("west", (x0, y0), (x1 - east, y1), east),
        ("north", (x0, y0 + south), (x1, y1), south),
        ("south", (x0, y0), (x1, y1 - north), north),
    ):
        if start[0] < end[0] and start[1] < end[1]:
            make = partial(edits.set_fields, study.plan, name, start=start, end=end)
            yield Idea(f"Leave of {name} what lies {side} of {beam}", costs.MOVE + costs.INCH * way, make)


MAKERS: dict[str, Maker] = {
    "beam-crosses-opening": beside_beam,
    "joined-off-its-bearing": onto_bearing,
    "joist-end-hangs-free": hung,
    "joist-longer-than-sold": joined,
    "joists-unbraced-between": blocked_between,
    "joists-unbridged": bridged,
    "lap-too-short": lap,
    "overhang-too-long": overhang,
}
