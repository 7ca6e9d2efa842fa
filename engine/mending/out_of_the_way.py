"""Mends of what lands on a joist by the joist: moved aside before it is nailed, or headed off round the pipe."""

from __future__ import annotations

import math
from collections.abc import Iterator
from functools import partial

from msgspec.structs import replace

from engine.checks.bodies import Body
from engine.drafting.heading_off import plies_for
from engine.framing.records import Joist
from engine.framing.shadow import in_frame
from engine.framing.wood import wood_of
from engine.lengths import up
from engine.mending import costs
from engine.mending.ideas import Idea
from engine.mending.naming import toward
from engine.plan import edits
from engine.plan.records import FloorOpening, JoistField, JoistShift, Plan
from engine.rulebooks import RuleBook
from engine.study import Study
from engine.trade.habits import WIDEST_BAY
from engine.trade.openings import framed_round


def joist_moved(study: Study, body: Body, joist: Joist) -> Iterator[Idea]:
    """A common joist shifted to either side by the least that clears what stands on it.

    No bay grows wider than floor panels carry.
    """
    field = edits.find(study.plan, joist.field)
    if joist.kind != "common" or joist.plies > 1 or not isinstance(field, JoistField):
        return
    axis = 0 if joist.along[1] else 1
    now, half = joist.start[axis], joist.thickness / 2.0
    places = (body.start[axis], body.end[axis])
    reach = max(body.pipe, body.room) + half
    before = next((shift.by for shift in field.shifts if shift.number == joist.number), 0.0)
    centres = sorted(one.start[axis] for one in study.model.framing.joists if one.field == joist.field and one.runs)
    for to in (max(places) + reach, min(places) - reach):
        by = math.copysign(up(abs(to - now)), to - now)
        others = [centre for centre in centres if centre != now]
        west = max((one for one in others if one < now + by), default=now + by)
        east = min((one for one in others if one > now + by), default=now + by)
        if not by or max(now + by - west, east - now - by) > WIDEST_BAY:
            continue
        shifts = tuple(shift for shift in field.shifts if shift.number != joist.number)
        made = tuple(sorted((*shifts, JoistShift(joist.number, before + by)), key=lambda shift: shift.number))
        words = f"Move joist {joist.id} {toward(by, axis)}"
        yield Idea(words, costs.JOIST + costs.moved(by), partial(edits.set_field, study.plan, field.id, "shifts", made))


def headed_off(study: Study, body: Body, joist: Joist) -> Iterator[Idea]:
    """The joist cut and carried by headers on its two neighbours, with room for the pipe between."""
    if joist.kind != "common" or study.model.framing.beams or joist.member != "sawn":
        return
    wood = wood_of(study.model.framing)
    axis = 0 if joist.along[1] else 1
    other = 1 - axis
    half = joist.thickness / 2.0 + 1.0 / 64.0
    at = body.start
    beside = []
    for side in (-half, half):
        place = (joist.start[0] + side, at[1]) if axis == 0 else (at[0], joist.start[1] + side)
        beside.append(wood.bay_at(place))
    west, east = beside
    if west is None or east is None:
        return
    clear, room = framed_round(study.plan, body.elements), max(body.pipe, body.room)
    low, high = min(body.start[other], body.end[other]), max(body.start[other], body.end[other])
    more = max(0.0, clear.least - (high - low + 2.0 * (room + clear.round)))
    first, last = low - room - clear.round - more / 2.0, high + room + clear.round + more / 2.0
    u = (in_frame(joist, body.start)[0], joist.length)
    if not 0.0 < u[0] < u[1]:
        return
    corners = (west.corner[axis], first), (east.opposite[axis], last)
    start, end = corners if axis == 0 else (corners[0][::-1], corners[1][::-1])
    make = partial(_framed, study.plan, study.model.book, start, end)
    yield Idea(f"Frame an opening round {body.elements[0]}, with joist {joist.id} headed off", costs.HEAD_OFF, make)


def _framed(plan: Plan, book: RuleBook, start: tuple[float, float], end: tuple[float, float]) -> Plan:
    made = edits.add_new(plan, FloorOpening, start=start, end=end)
    opening = made.floor_openings[-1]
    headers, trimmers = plies_for(made, opening, book)
    return edits.replace(made, replace(opening, headers=headers, trimmers=trimmers))
