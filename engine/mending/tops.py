"""Mends at a vent's upper end: through the roof, higher over it, a valve raised, overhead vents raised together."""

from __future__ import annotations

from collections.abc import Iterator
from functools import partial

from msgspec.structs import replace

from engine.checks.records import Finding
from engine.drafting.finished import at_riser
from engine.lengths import feet_inches, inches, up
from engine.mending import costs
from engine.mending.ideas import Idea, Maker
from engine.mending.joints import through_roof
from engine.plan import edits
from engine.plan.outline import listed
from engine.plan.records import Plan, Riser, Vent
from engine.study import Study


def roofed(study: Study, finding: Finding) -> Iterator[Idea]:
    """The risers of a finding, else any of the plan's that have a vent, taken up through the roof."""
    plan = study.plan
    mine = [riser for riser in plan.risers if riser.id in finding.elements]
    for riser in mine or plan.risers:
        yield from through_roof(plan, riser)


def any_roofed(study: Study, finding: Finding) -> Iterator[Idea]:
    """One riser of the plan taken up through the roof; those of the finding first."""
    for riser in study.plan.risers:
        for idea in through_roof(study.plan, riser):
            yield idea if riser.id in finding.elements else idea._replace(cost=idea.cost + 1.0)


def higher(study: Study, finding: Finding) -> Iterator[Idea]:
    """A vent's end over the roof raised by what it lacks."""
    if finding.measured is None or finding.limit is None:
        return
    for riser in study.plan.risers:
        if riser.id in finding.elements:
            usual = study.plan.floor.roof_above_floor
            if riser.above_floor is not None:
                make = partial(edits.set_field, study.plan, riser.id, "above_floor", None)
                yield Idea(f"Leave the height of {riser.id} to the program", costs.UNPIN, make)
            now = usual if riser.above_floor is None else riser.above_floor
            for to in _heights(now, usual, finding.limit - finding.measured):
                yield _roof_at(study.plan, riser, to)


def _heights(now: float, usual: float, lacks: float) -> Iterator[float]:
    yield up(max(now, usual) + lacks)
    yield up(now + lacks)


def _roof_at(plan: Plan, riser: Riser, to: float) -> Idea:
    make = partial(edits.set_field, plan, riser.id, "above_floor", to)
    return Idea(f"Give {riser.id} {feet_inches(to)} as its own roof height", costs.HEIGHT, make)


def over_opening(study: Study, finding: Finding) -> Iterator[Idea]:
    """A vent's end near a window raised over its top, by as much as the rule asks over openings, or moved in its wall."""
    book, plan = study.model.book, study.plan
    key = "vent.opening_above"
    over = book.number(key) if book.has(key) else 0.0
    tops = [one.top_above_floor for one in plan.air_openings if one.id in finding.elements]
    for riser in plan.risers:
        if riser.id not in finding.elements or not tops:
            continue
        ends = study.plan.floor.snow + (book.number("vent.roof_above") if book.has("vent.roof_above") else 0.0)
        to = up(max(tops) + over - ends)
        if to > (riser.above_floor or 0.0):
            yield _roof_at(plan, riser, to)


def valve_higher(study: Study, finding: Finding) -> Iterator[Idea]:
    """A valve raised by what it lacks, left to the program, or taken through the roof."""
    plan = study.plan
    for riser in plan.risers:
        if riser.id not in finding.elements or finding.measured is None or finding.limit is None:
            continue
        top = finding.at[2] - at_riser(plan, riser.at)
        if riser.above_floor is not None:
            make = partial(edits.set_field, plan, riser.id, "above_floor", None)
            yield Idea(f"Leave the height of {riser.id} to the program", costs.UNPIN, make)
        to = up(top + finding.limit - finding.measured)
        raise_it = partial(edits.set_field, plan, riser.id, "above_floor", to)
        yield Idea(f"Raise the valve of {riser.id} to {inches(to)} in above the floor", costs.HEIGHT, raise_it)
        yield from through_roof(plan, riser)


def loop_higher(study: Study, finding: Finding) -> Iterator[Idea]:
    """An island's loop raised by what it lacks, or left to the program."""
    plan = study.plan
    for riser in plan.risers:
        if riser.id not in finding.elements or riser.top != "loop":
            continue
        if riser.above_floor is not None:
            make = partial(edits.set_field, plan, riser.id, "above_floor", None)
            yield Idea(f"Leave the height of {riser.id} to the program", costs.UNPIN, make)
        if finding.measured is not None and finding.limit is not None:
            now = riser.above_floor if riser.above_floor is not None else finding.at[2] - at_riser(plan, riser.at)
            to = up(now + abs(finding.limit - finding.measured))
            raise_it = partial(edits.set_field, plan, riser.id, "above_floor", to)
            yield Idea(f"Raise the loop of {riser.id} to {inches(to)} in above the floor", costs.HEIGHT, raise_it)


def overhead_higher(study: Study, finding: Finding) -> Iterator[Idea]:
    """Overhead vents raised by what they lack, with all that they meet at their height."""
    plan = study.plan
    if finding.measured is None or finding.limit is None or finding.unit != "in":
        return
    lacks = finding.limit - finding.measured
    seen: set[float] = set()
    for vent in plan.vents:
        height = vent.above_floor
        if vent.id not in finding.elements or height is None or height in seen:
            continue
        seen.add(height)
        to = up(height + lacks)
        alone = partial(edits.set_field, plan, vent.id, "above_floor", to)
        yield Idea(f"Raise {vent.id} to {inches(to)} in above the floor", costs.HEIGHT, alone)
        level = met(plan, vent)
        if len(level) > 1:
            words = f"Raise {listed(one.id for one in level)} to {inches(to)} in above the floor"
            yield Idea(words, costs.HEIGHT + 0.5 * len(level), partial(raised, plan, level, to))


def met(plan: Plan, vent: Vent) -> tuple[Vent, ...]:
    """A vent and all that are welded to it at its height, one through the other."""
    found = {vent.id: vent}
    waiting = [vent]
    for one in waiting:
        for other in plan.vents:
            if other.id not in found and other.above_floor == one.above_floor and set(other.points) & set(one.points):
                found[other.id] = other
                waiting.append(other)
    return tuple(found.values())


def raised(plan: Plan, vents: tuple[Vent, ...], to: float) -> Plan:
    """The plan with these vents at one height above the finished floor, inches."""
    return edits.replace(plan, *(replace(one, above_floor=to) for one in vents))


MAKERS: dict[str, Maker] = {
    "island-loop-too-low": loop_higher,
    "no-vent-outdoors": roofed,
    "roof-end-too-low": higher,
    "valve-not-accepted": roofed,
    "valve-too-low": valve_higher,
    "valve-without-open-vent": any_roofed,
    "vent-joins-too-low": overhead_higher,
    "vent-near-opening": over_opening,
}
