"""Whose trap takes a fixture's waste: another's within reach, or its own, with the riser that it then needs."""

from __future__ import annotations

import math
from typing import cast

from engine.plan.edits import add_new, delete, find, set_field
from engine.plan.records import Drain, Fixture, Plan, Riser, Vent
from engine.plan.walls import wall_at
from engine.trade.fixtures import fixture as known
from engine.trade.fixtures import may_take


def hosts_for(plan: Plan, guest: Fixture) -> tuple[Fixture, ...]:
    """The fixtures whose trap may take this one's waste, the nearest first; none while others drain through this one."""
    if any(other.through == guest.id for other in plan.fixtures):
        return ()
    found = [other for other in plan.fixtures if may_take(other, guest)]
    return tuple(sorted(found, key=lambda host: math.dist(host.at, guest.at)))


def host_in_reach(plan: Plan, guest: Fixture) -> Fixture | None:
    """The nearest fixture that a guest's hose brings its waste to; None where it reaches none."""
    reach = known(guest.kind).hose_reach
    host = next(iter(hosts_for(plan, guest)), None)
    return host if reach is not None and host is not None and math.dist(host.at, guest.at) <= reach else None


def drained_through(plan: Plan, fixture_id: str, host: str | None) -> Plan:
    """The plan with a fixture's waste taken by a host's trap, or by its own again where `host` is None.

    Its riser goes with its own drain where nothing else meets it, and comes with it. Raises EditError where no plan may
    say so.
    """
    plan = set_field(plan, fixture_id, "through", host)
    fixture = cast(Fixture, find(plan, fixture_id))
    return with_riser(plan, fixture) if host is None else _without_idle_riser(plan, fixture)


def with_riser(plan: Plan, fixture: Fixture) -> Plan:
    """The plan with a riser where this fixture empties into a wall, in the wall that stands there, unless there is one."""
    if known(fixture.kind).outlet != "wall" or any(riser.at == fixture.at for riser in plan.risers):
        return plan
    wall = wall_at(plan, fixture.at)
    return add_new(plan, Riser, at=fixture.at, wall=wall.id if wall is not None else None)


def _without_idle_riser(plan: Plan, fixture: Fixture) -> Plan:
    at = fixture.at
    others = any(one.at == at and one.id != fixture.id and one.through is None for one in plan.fixtures)
    runs: tuple[Drain | Vent, ...] = (*plan.drains, *plan.vents)
    met = others or any(at in run.points for run in runs) or any(one.at == at for one in plan.cleanouts)
    idle = [riser.id for riser in plan.risers if riser.at == at and riser.top != "loop"]
    return delete(plan, *idle) if idle and not met else plan
