"""Where a fixture's hole lands as soon as it is held over the floor, before anything is drawn to it."""

from __future__ import annotations

from typing import NamedTuple

from engine.checks.bodies import bodies
from engine.checks.landing import lands_on_wood, least_move
from engine.checks.records import Finding
from engine.framing.telling import noun
from engine.mending.naming import way
from engine.plan.records import Plan
from engine.study import work_out


class Landing(NamedTuple):
    """A fixture's pipe over wood: the finding, and in few words what it lands on and the least move that clears it."""

    finding: Finding
    words: str


def landing_of(plan: Plan, name: str) -> Landing | None:
    """The wood that one fixture's pipe lands on; None where it is clear, and where the plan has no joists.

    Only the floor's wood and the fixture are looked at, so that it can be asked at every step of a drag.
    """
    bare = Plan(
        floor=plan.floor,
        rulebook=plan.rulebook,
        amendments=plan.amendments,
        fields=plan.fields,
        floor_openings=plan.floor_openings,
        beams=plan.beams,
        walls=plan.walls,
        fixtures=tuple(one for one in plan.fixtures if one.id == name),
    )
    model = work_out(bare)
    for finding in lands_on_wood(model):
        if isinstance(finding, Finding):
            joist = model.joists[finding.elements[-1]]
            body = next(one for one in bodies(model) if one.elements[0] == finding.elements[0])
            move = least_move(model, body)
            clears = f"{way(*move)} clears it" if move is not None else "no bay near takes it"
            return Landing(finding, f"over {noun(joist)} {joist.id}: {clears}")
    return None
