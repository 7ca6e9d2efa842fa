"""Mends by height: an exit pinned into its window or left to the program, a water line raised or lowered."""

from __future__ import annotations

import math
from collections.abc import Iterator
from functools import partial

from engine.checks.records import Finding
from engine.crossings.records import Window
from engine.lengths import down, up
from engine.mending import costs
from engine.mending.ideas import Idea
from engine.mending.naming import depth
from engine.plan import edits
from engine.plan.records import Supply
from engine.study import Study


def window_of(study: Study, name: str) -> Window | None:
    """The window of an exit, or of the reach that a run with an open rise starts."""
    reaches = study.model.network.reaches
    return next(
        (one for one in study.model.windows if name == (one.exit or reaches[one.reach].element)),
        None,
    )


def is_open(window: Window) -> bool:
    """Whether some height lies in a window, or is made by a street bend."""
    return window.low is None or window.high is None or window.low <= window.high or bool(window.others)


def exit_of(study: Study, names: tuple[str, ...]) -> str | None:
    """The exit that the first of these things drains to, or the exit among them."""
    network = study.model.network
    for name in names:
        if name in network.exits:
            return name
    for name in names:
        for pipe in network.pipes:
            if pipe.element == name and pipe.start in network.exit_of:
                return network.exit_of[pipe.start]
    return None


def inside(study: Study, name: str) -> Iterator[Idea]:
    """An exit's height left to the program, or pinned to the sixteenth inside either end of its window."""
    window = window_of(study, name)
    if window is None or window.exit is None:
        return
    if window.pinned:
        yield unpinned(study, name)
    spots = [up(window.low) if window.low is not None else None, down(window.high) if window.high is not None else None]
    spots += [z for z, _ in window.others]
    for z in dict.fromkeys(spots):
        if z is not None and (window.low is None or z >= window.low or any(z == one for one, _ in window.others)):
            yield pinned(study, name, z)


def unpinned(study: Study, name: str) -> Idea:
    """An exit's height left to the program."""
    make = partial(edits.set_field, study.plan, name, "pinned_z", None)
    return Idea(f"Leave the height of {name} to the program", costs.UNPIN, make)


def pinned(study: Study, name: str, z: float) -> Idea:
    """An exit's axis pinned at a height over the joists' top, inches."""
    make = partial(edits.set_field, study.plan, name, "pinned_z", z)
    return Idea(f"Pin {name} {depth(z)}", costs.HEIGHT, make)


def shifted(study: Study, finding: Finding) -> Iterator[Idea]:
    """The exit that a finding's drain comes to: into its window, or up and down by what the finding lacks."""
    name = exit_of(study, finding.elements)
    window = window_of(study, name) if name is not None else None
    if name is None or window is None or not is_open(window):
        return
    yield from inside(study, name)
    if finding.measured is None or finding.limit is None:
        return
    lacks = abs(finding.measured - finding.limit)
    for z in (up(window.chosen + lacks), down(window.chosen - lacks)):
        if z < 0.0:
            idea = pinned(study, name, z)
            yield idea._replace(cost=idea.cost + costs.INCH * lacks)


def other_depth(study: Study, finding: Finding) -> Iterator[Idea]:
    """A water line raised or lowered, by what a finding lacks, or a little more."""
    plan = study.plan
    if finding.measured is None or finding.limit is None:
        return
    lacks = abs(finding.measured - finding.limit)
    middle = min((joist.depth for joist in study.model.framing.joists), default=0.0) / 2.0
    for supply in plan.supplies:
        if supply.id not in finding.elements:
            continue
        now = middle if supply.down is None else supply.down
        shallow, deep = _bored_between(study, supply)
        for by in (lacks, lacks + supply.insulation, 2.0 * lacks, 3.0 * lacks):
            for to in (up(now + by), down(now - by)):
                if shallow <= to <= deep:
                    yield lowered(study, supply, to, abs(to - now))
        if supply.down is not None:
            make = partial(edits.set_field, plan, supply.id, "down", None)
            yield Idea(f"Leave the depth of {supply.id} to the program", costs.UNPIN, make)


def _bored_between(study: Study, supply: Supply) -> tuple[float, float]:
    """Between which depths a water line may lie that passes through joists: where each of its bores has its wood."""
    if supply.passing not in (None, "through"):
        return (1.0 / 16.0, math.inf)
    mine = [one for one in study.model.crossings if one.element == supply.id]
    shallow = max((-one.high for one in mine if one.high is not None), default=1.0 / 16.0)
    return shallow, min((-one.low for one in mine if one.low is not None), default=math.inf)


def lowered(study: Study, supply: Supply, to: float, by: float) -> Idea:
    """A water line's axis set so far below the joists' top, inches."""
    make = partial(edits.set_field, study.plan, supply.id, "down", to)
    return Idea(f"Hang {supply.id} {depth(-to)}", costs.HEIGHT + costs.INCH * by, make)
