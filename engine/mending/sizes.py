"""Mends by size: a run, riser, vent or arm made the next size that is sold, with what follows it where it must."""

from __future__ import annotations

from collections.abc import Iterator
from functools import partial
from typing import Literal

from engine.checks.records import Finding
from engine.mending import costs
from engine.mending.ideas import Idea, Maker
from engine.piping.records import Pipe
from engine.plan import edits
from engine.plan.outline import listed
from engine.plan.records import Drain, Fixture, Plan, Riser, Vent
from engine.study import Study
from engine.trade.pipe import DRAIN_SIZES, label

Field = Literal["size", "vent"]


def larger(study: Study, finding: Finding) -> Iterator[Idea]:
    """Each drawn thing of a finding made larger, size by size, alone and with what it flows into."""
    for name in finding.elements:
        yield from sized_up(study, name)


def sized_up(study: Study, name: str, field: Field = "size") -> Iterator[Idea]:
    """One element's pipe made larger: its size left to the program, then the next sizes up."""
    plan = study.plan
    element = _drawn(plan, name)
    pipes = [pipe for pipe in study.model.network.pipes if pipe.element == name and _is(pipe, field)]
    if not isinstance(element, Drain | Vent | Riser) or not pipes:
        return
    what = f"the vent of {name}" if isinstance(element, Riser) and field == "vent" else name
    if getattr(element, field) is not None:
        make = partial(edits.set_field, plan, name, field, None)
        yield Idea(f"Leave the size of {what} to the program", costs.UNPIN, make)
    now = min(pipe.size for pipe in pipes)
    for steps, size in enumerate((size for size in DRAIN_SIZES if size > now), 1):
        cost = costs.SIZE * steps
        family = f"size of {what}"
        yield Idea(f"Make {what} {label(size)} in", cost, partial(_put, plan, ((name, field),), size), family=family)
        follow = _narrower_below(study, pipes, size) if field == "size" else ()
        if follow:
            words = f"Make {what} and, below it, {listed(follow)} {label(size)} in"
            things = ((name, field), *((one, field) for one in follow))
            more = costs.SIZE * len(follow)
            yield Idea(words, cost + more, partial(_put, plan, things, size), family=family)


def smaller(study: Study, name: str) -> Iterator[Idea]:
    """One run's pipe left to the program, or made smaller, size by size."""
    element = _drawn(study.plan, name)
    pipes = [pipe for pipe in study.model.network.pipes if pipe.element == name]
    if not isinstance(element, Drain | Vent) or not pipes:
        return
    if element.size is not None:
        make = partial(edits.set_field, study.plan, name, "size", None)
        yield Idea(f"Leave the size of {name} to the program", costs.UNPIN, make)
    now = max(pipe.size for pipe in pipes)
    for steps, size in enumerate((size for size in reversed(DRAIN_SIZES) if size < now), 1):
        make_it = partial(_put, study.plan, ((name, "size"),), size)
        yield Idea(f"Make {name} {label(size)} in", costs.SIZE * steps, make_it)


def vent_larger(study: Study, finding: Finding) -> Iterator[Idea]:
    """The vents among a finding's elements made larger."""
    for name in finding.elements:
        field: Field = "vent" if isinstance(_drawn(study.plan, name), Riser) else "size"
        yield from sized_up(study, name, field)


def trap_larger(study: Study, finding: Finding) -> Iterator[Idea]:
    """A fixture's trap left to the trade's usual, or made the size that is asked, with the arm where it is pinned."""
    for name in finding.elements:
        fixture = _drawn(study.plan, name)
        if not isinstance(fixture, Fixture):
            continue
        if fixture.trap is not None:
            make = partial(edits.set_field, study.plan, name, "trap", None)
            yield Idea(f"Leave the trap of {name} to the program", costs.UNPIN, make)
        yield from trap_sizes(study, fixture)


def trap_sizes(study: Study, fixture: Fixture) -> Iterator[Idea]:
    """Larger traps for a fixture, size by size, each with the pinned drains that it flows into as wide."""
    trap = next((one for one in study.model.network.traps if one.fixture == fixture.id), None)
    if trap is None or not trap.size:
        return
    pipes = [study.model.network.by_id[name] for name in trap.arm]
    for steps, size in enumerate((size for size in DRAIN_SIZES if size > trap.size), 1):
        follow = tuple(
            dict.fromkeys(
                (
                    *(p.element for p in pipes if p.size < size and p.element != fixture.id and p.pinned_size),
                    *_narrower_below(study, pipes, size),
                )
            )
        )
        words = f"Give {fixture.id} a {label(size)} in trap"
        words += f", and make {listed(follow)} {label(size)} in" if follow else ""
        things: tuple[tuple[str, Field], ...] = tuple((one, "size") for one in follow)
        make = partial(_with_trap, study.plan, fixture.id, size, things)
        yield Idea(words, costs.SIZE * (steps + len(follow)), make, family=f"trap of {fixture.id}")


def _with_trap(plan: Plan, fixture: str, size: float, things: tuple[tuple[str, Field], ...]) -> Plan:
    return _put(edits.set_field(plan, fixture, "trap", label(size)), things, size)


def _put(plan: Plan, things: tuple[tuple[str, Field], ...], size: float) -> Plan:
    for name, field in things:
        plan = edits.set_field(plan, name, field, label(size))
    return plan


def _narrower_below(study: Study, pipes: list[Pipe], size: float) -> tuple[str, ...]:
    """The drawn drains below these pipes whose pinned size is smaller: none may be where what flows in is larger."""
    mine = {pipe.element for pipe in pipes}
    found: dict[str, None] = {}
    node, seen = (pipes[-1].end if pipes else None), set()
    while node is not None and node not in seen:
        seen.add(node)
        pipe = study.model.network.waste_from(node)
        if pipe is None:
            break
        if pipe.pinned_size and pipe.size < size and pipe.element not in mine:
            found[pipe.element] = None
        node = pipe.end
    return tuple(found)


def _is(pipe: Pipe, field: Field) -> bool:
    return (pipe.system == "vent") == (field == "vent") or pipe.shape != "plumb"


def _drawn(plan: Plan, name: str) -> object:
    try:
        return edits.find(plan, name)
    except edits.EditError:
        return None


def as_large(study: Study, finding: Finding) -> Iterator[Idea]:
    """Each drawn thing of a finding made larger, and each fixture of it a larger trap."""
    yield from larger(study, finding)
    yield from trap_larger(study, finding)


def trap_smaller(study: Study, finding: Finding) -> Iterator[Idea]:
    """A fixture's trap left to the program, or made smaller, size by size; its drain may stay as it is."""
    for name in finding.elements:
        fixture = _drawn(study.plan, name)
        trap = next((one for one in study.model.network.traps if one.fixture == name), None)
        if not isinstance(fixture, Fixture) or trap is None:
            continue
        if fixture.trap is not None:
            make = partial(edits.set_field, study.plan, name, "trap", None)
            yield Idea(f"Leave the trap of {name} to the program", costs.UNPIN, make)
        for steps, size in enumerate((size for size in reversed(DRAIN_SIZES) if size < trap.size), 1):
            make_it = partial(edits.set_field, study.plan, name, "trap", label(size))
            yield Idea(f"Give {name} a {label(size)} in trap", costs.SIZE * steps, make_it)


def arm_as_trap(study: Study, finding: Finding) -> Iterator[Idea]:
    """An arm wider than its trap: its runs left to the program or as narrow as the trap, or the trap as wide as they."""
    for trap in study.model.network.traps:
        if trap.fixture not in finding.elements:
            continue
        for name in dict.fromkeys(study.model.network.by_id[one].element for one in trap.arm):
            yield from smaller(study, name)
    yield from trap_larger(study, finding)


def trap_fits(study: Study, finding: Finding) -> Iterator[Idea]:
    """A trap larger than its drain: a smaller trap, or the drain as large."""
    yield from trap_smaller(study, finding)
    yield from larger(study, finding)


MAKERS: dict[str, Maker] = {
    "arm-wider-than-trap": arm_as_trap,
    "circuit-branch-too-small": larger,
    "closet-drain-too-small": larger,
    "closet-vent-too-small": vent_larger,
    "closets-too-many-on-drain": larger,
    "combination-too-small": as_large,
    "common-vent-too-small": larger,
    "drain-gets-smaller": larger,
    "drain-takes-too-many-fixtures": as_large,
    "drain-too-small": as_large,
    "drain-too-small-past-arm": larger,
    "large-fixture-on-small-drain": larger,
    "sink-on-small-stack": larger,
    "stack-too-long": larger,
    "tailpiece-wider-than-trap": trap_larger,
    "trap-larger-than-drain": trap_fits,
    "trap-too-large": trap_smaller,
    "trap-too-small": trap_larger,
    "trap-under-the-usual": trap_larger,
    "main-vent-too-small": vent_larger,
    "vent-level-too-far": vent_larger,
    "vent-too-long-for-size": vent_larger,
    "vent-too-small-for-drain": vent_larger,
    "vent-too-small-for-load": vent_larger,
    "vents-too-small-together": vent_larger,
    "waste-stack-too-small": larger,
    "wet-vent-too-small": larger,
    "stack-vent-narrower": vent_larger,
    "island-vent-joins-small": vent_larger,
    "roof-end-may-freeze": vent_larger,
}
