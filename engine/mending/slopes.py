"""Mends by slope: a run's fall raised to the least, eased to the most, turned the right way or left to the plan's."""

from __future__ import annotations

import math
from collections.abc import Iterator
from functools import partial

from engine.checks.records import Finding
from engine.lengths import down, up
from engine.mending import costs
from engine.mending.ideas import Idea, Maker
from engine.mending.naming import per_foot
from engine.plan import edits
from engine.plan.records import Drain, Plan, Vent
from engine.study import Study
from engine.trade.pipe import label


def sloped(plan: Plan, name: str, slope: float) -> Idea:
    """One run given a slope of its own, or left to the plan's where that is the one."""
    if slope == plan.slope and edits.find(plan, name).slope is not None:  # type: ignore[union-attr]
        return unpinned(plan, name)
    make = partial(edits.set_field, plan, name, "slope", slope)
    return Idea(f"Give {name} a slope of {per_foot(slope)}", costs.SLOPE, make)


def unpinned(plan: Plan, name: str) -> Idea:
    """One run's slope left to the plan's."""
    make = partial(edits.set_field, plan, name, "slope", None)
    return Idea(f"Leave the slope of {name} to the plan's {per_foot(plan.slope)}", costs.UNPIN, make)


def everywhere(plan: Plan, slope: float) -> Idea:
    """The plan's own slope changed, for all runs that have none."""
    make = partial(edits.set_plan, plan, slope=slope)
    return Idea(f"Make the plan's slope {per_foot(slope)}", 2.0 * costs.SLOPE, make)


def raised(study: Study, finding: Finding) -> Iterator[Idea]:
    """A run's slope raised to the least that its size asks; a plan's slope too where the run goes by it."""
    if finding.limit is None:
        return
    yield from _each(study.plan, finding, up(finding.limit))


def eased(study: Study, finding: Finding) -> Iterator[Idea]:
    """A run's slope eased to the most."""
    if finding.limit is None:
        return
    yield from _each(study.plan, finding, down(finding.limit))


def _each(plan: Plan, finding: Finding, slope: float) -> Iterator[Idea]:
    for name in finding.elements:
        run = _run(plan, name)
        if run is None:
            if _has_arm(plan, name):
                yield everywhere(plan, slope)
            continue
        if run.slope is not None:
            yield unpinned(plan, name)
        else:
            yield everywhere(plan, slope)
        yield sloped(plan, name, slope)


def downhill(study: Study, finding: Finding) -> Iterator[Idea]:
    """Runs that rise the way the water goes, made to fall: by the plan's slope, or by as much as they rose."""
    plan = study.plan
    for name in reversed(finding.elements):
        pinned = list(_turned_over(plan, name))
        yield from pinned
        for least in _least(study, name) if pinned else ():
            yield sloped(plan, name, least)


def _turned_over(plan: Plan, name: str) -> Iterator[Idea]:
    """A run's own slope let go, or made to fall by as much as it rose; nothing where it has none."""
    run = _run(plan, name)
    if run is None or run.slope is None:
        return
    yield unpinned(plan, name)
    if run.slope:
        yield sloped(plan, name, -run.slope)


def _least(study: Study, name: str) -> Iterator[float]:
    """The least slope that a book asks for a run's size."""
    sizes = {pipe.size for pipe in study.model.network.pipes if pipe.element == name and pipe.system == "waste"}
    for size in sizes:
        key = f"slope.least.{label(size)}"
        if study.model.book.has(key):
            yield study.model.book.number(key)


def back(study: Study, finding: Finding) -> Iterator[Idea]:
    """A vent made to fall back to its drain."""
    for name in finding.elements:
        yield from _turned_over(study.plan, name)


def steeper_barrel(study: Study, finding: Finding) -> Iterator[Idea]:
    """The main made so steep that a branch in a flat wye falls enough by itself."""
    if len(finding.elements) < 2 or finding.measured is None or finding.limit is None or finding.measured <= 0.0:
        return
    main = _run(study.plan, finding.elements[1])
    if isinstance(main, Drain):
        now = study.plan.slope if main.slope is None else main.slope
        yield sloped(study.plan, main.id, up(now * finding.limit / finding.measured))


def arm_eased(study: Study, finding: Finding) -> Iterator[Idea]:
    """An arm that falls too far made to fall less: its runs' slope, no less than their size asks."""
    trap = next((one for one in study.model.network.traps if one.fixture == finding.elements[0]), None)
    if trap is None or finding.measured is None or finding.limit is None:
        return
    pipes = [study.model.network.by_id[name] for name in (*trap.arm, *trap.beyond)]
    level = [pipe for pipe in pipes if pipe.shape == "level"]
    length = sum(pipe.run for pipe in level) - trap.weir
    if length <= 0.0:
        return
    for name in dict.fromkeys(pipe.element for pipe in level):
        run = _run(study.plan, name)
        steepest = max(pipe.slope for pipe in level if pipe.element == name)
        slope = down(steepest - 12.0 * (finding.measured - finding.limit) / length)
        if run is not None and slope > 0.0:
            yield sloped(study.plan, name, slope)
            if run.slope is not None:
                yield unpinned(study.plan, name)
        elif run is None and slope > 0.0:
            yield everywhere(study.plan, slope)


def by_its_tangent(study: Study, finding: Finding) -> Iterator[Idea]:
    """A vent that leaves or lies too flat under the floor made to lean as steeply as the book asks."""
    if finding.limit is None or finding.unit != "degrees":
        yield from raised(study, finding)
        return
    for name in finding.elements:
        if isinstance(_run(study.plan, name), Vent):
            yield sloped(study.plan, name, up(12.0 * math.tan(math.radians(finding.limit))))


def _run(plan: Plan, name: str) -> Drain | Vent | None:
    try:
        found = edits.find(plan, name)
    except edits.EditError:
        return None
    return found if isinstance(found, Drain | Vent) else None


def _has_arm(plan: Plan, name: str) -> bool:
    return any(fixture.id == name for fixture in plan.fixtures)


MAKERS: dict[str, Maker] = {
    "circuit-branch-too-steep": eased,
    "combination-too-steep": eased,
    "holds-water": downhill,
    "island-foot-falls-too-little": raised,
    "runs-uphill": downhill,
    "slope-lost-in-flat-wye": steeper_barrel,
    "slope-too-small": raised,
    "steep-drain": eased,
}
