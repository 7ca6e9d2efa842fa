"""Mends of cuts in joists: bored instead of notched, hung below, smaller pipe, deeper lumber, another height or place."""

from __future__ import annotations

from collections.abc import Iterator
from functools import partial

from engine.checks.records import Finding
from engine.lengths import inches, up
from engine.mending import costs
from engine.mending.heights import exit_of, lowered, other_depth, pinned, shifted, window_of
from engine.mending.ideas import Idea, Maker, both
from engine.mending.lumber import framed
from engine.mending.moves import bores_apart, run_slid
from engine.mending.side_by_side import as_one, hole_of, into_one_hole, out_of_too_wide
from engine.mending.sizes import smaller
from engine.plan import edits
from engine.plan.points import Run
from engine.plan.records import Supply
from engine.study import Study
from engine.trade.pipe import SUPPLY_SIZES, drain, label, nominal


def run_in(study: Study, finding: Finding) -> Run | None:
    """The run that a cut is made for."""
    element = edits.find(study.plan, finding.elements[0])
    return element if isinstance(element, Run) else None


def through(study: Study, finding: Finding) -> Iterator[Idea]:
    """The runs of a finding taken through the joists."""
    for name in finding.elements[:-1]:
        element = edits.find(study.plan, name)
        if isinstance(element, Run) and element.passing not in (None, "through"):
            make = partial(edits.set_field, study.plan, name, "passing", None)
            yield Idea(f"Take {name} through the joists", costs.PASSING, make)


def under(study: Study, finding: Finding) -> Iterator[Idea]:
    """The run hung under the joists: a water line as it is, a drain with its exit as low as that takes."""
    run = run_in(study, finding)
    joist = study.model.joists.get(finding.elements[-1])
    if run is None or joist is None or run.passing == "under":
        return
    below = Idea(
        f"Take {run.id} under the joists",
        costs.BELOW,
        partial(edits.set_field, study.plan, run.id, "passing", "under"),
        family=f"{run.id} under",
    )
    if isinstance(run, Supply):
        width = max((c.width for c in study.model.crossings if c.element == run.id), default=0.0)
        depth = max((one.depth for one in study.model.framing.joists), default=joist.depth)
        to = up(depth + width / 2.0)
        yield both(below, lambda plan: edits.set_field(plan, run.id, "down", to), f"Hang it {inches(to)} in down", 0.0)
        return
    yield below
    name = exit_of(study, (run.id,))
    window = window_of(study, name) if name is not None else None
    if name is None or window is None:
        return
    lowest = max((joist_.depth for joist_ in study.model.framing.joists), default=joist.depth)
    into = _highest(study, run.id) + lowest
    if into > 0.0:
        z = window.chosen - up(into)
        low = pinned(study, name, z)
        yield both(below, lambda plan: edits.set_field(plan, name, "pinned_z", z), low.words, costs.HEIGHT)


def _highest(study: Study, name: str) -> float:
    """The highest top of a run's pipe where it passes wood, inches over the joists' top."""
    tops = [
        study.model.heights[pipe.start] + drain(pipe.size).od / 2.0
        for pipe in study.model.network.pipes
        if pipe.element == name and pipe.shape == "level" and pipe.start in study.model.heights
    ]
    return max(tops, default=0.0)


def deeper(study: Study, finding: Finding) -> Iterator[Idea]:
    """The joists' field framed with the next deeper lumber, and the one after it."""
    joist = study.model.joists.get(finding.elements[-1])
    if joist is not None:
        yield from framed(study.plan, joist.field)


def tube(study: Study, finding: Finding) -> Iterator[Idea]:
    """A water line's tube a size smaller, or its insulation thinner."""
    run = run_in(study, finding)
    if not isinstance(run, Supply):
        return
    now = nominal(run.size)
    for size in (size for size in reversed(SUPPLY_SIZES) if size < now):
        make = partial(edits.set_field, study.plan, run.id, "size", label(size))
        yield Idea(f"Make {run.id} {label(size)} in", costs.SIZE + 2.0, make)
    for thick in (0.5, 0.375, 0.25):
        if thick < run.insulation:
            make = partial(edits.set_field, study.plan, run.id, "insulation", thick)
            yield Idea(f"Give {run.id} {label(thick)} in of insulation", costs.SIZE, make)


def too_large(study: Study, finding: Finding) -> Iterator[Idea]:
    """A bore too wide for its joist: smaller pipe, below, or deeper lumber."""
    run = run_in(study, finding)
    if run is None:
        return
    hole = hole_of(study, finding)
    if hole is not None:
        yield from out_of_too_wide(study, hole)
    yield from tube(study, finding)
    if not isinstance(run, Supply):
        yield from smaller(study, run.id)
    yield from under(study, finding)
    yield from deeper(study, finding)


def near_edge(study: Study, finding: Finding) -> Iterator[Idea]:
    """A bore too near an edge: another height, or what opens the exit's window."""
    run, hole = run_in(study, finding), hole_of(study, finding)
    if hole is not None:
        yield from as_one(study, hole)
    if isinstance(run, Supply):
        yield from _into_range(study, run)
        yield from other_depth(study, finding)
        yield from tube(study, finding)
    elif run is not None:
        yield from shifted(study, finding)
    yield from deeper(study, finding)


def _into_range(study: Study, run: Supply) -> Iterator[Idea]:
    """A water line's depth set to where every bore of it holds: the middle of what they share, and its two ends."""
    crossings = [c for c in study.model.crossings if c.element == run.id and c.low is not None and c.high is not None]
    if not crossings:
        return
    low = max(c.low for c in crossings if c.low is not None)
    high = min(c.high for c in crossings if c.high is not None)
    middle = min((joist.depth for joist in study.model.framing.joists), default=0.0) / 2.0
    now = middle if run.down is None else run.down
    if run.down is not None:
        make = partial(edits.set_field, study.plan, run.id, "down", None)
        yield Idea(f"Leave the depth of {run.id} to the program", costs.UNPIN, make)
    if low <= high:
        for z in (high, low, (low + high) / 2.0):
            to = up(-z) if z == high else -up(z)
            yield lowered(study, run, to, abs(to - now))


def notched(study: Study, finding: Finding) -> Iterator[Idea]:
    """A notch that is not allowed: bored instead, as it lies or at a height that holds, below, smaller, elsewhere."""
    run = run_in(study, finding)
    if run is None:
        return
    for idea in through(study, finding):
        yield idea
        if isinstance(run, Supply) and run.down is not None:
            words = "Leave its depth to the program"
            yield both(idea, lambda plan: edits.set_field(plan, run.id, "down", None), words, costs.UNPIN)
    yield from tube(study, finding)
    yield from under(study, finding)
    yield from outward(study, finding)
    yield from deeper(study, finding)


def outward(study: Study, finding: Finding) -> Iterator[Idea]:
    """A cut in the middle of the span moved toward the nearer support, by as much as it reaches too far in."""
    if finding.measured is not None and finding.limit is not None and "middle" in finding.rule:
        lacks = up(finding.measured - finding.limit)
        if lacks > 0.0:
            yield from run_slid(study, finding.elements[0], finding.at[:2], (lacks,))


def bored_in_middle(study: Study, finding: Finding) -> Iterator[Idea]:
    """A bore where the official wants none: nearer to the support, or below."""
    yield from outward(study, finding)
    yield from under(study, finding)


def engineered(study: Study, finding: Finding) -> Iterator[Idea]:
    """An engineered member is not cut: the run goes below it."""
    yield from under(study, finding)


def clear_below(study: Study, finding: Finding) -> Iterator[Idea]:
    """Pipe that stands up into the wood it should pass under: through the joists, or lower."""
    run = run_in(study, finding)
    yield from through(study, finding)
    if isinstance(run, Supply):
        yield from other_depth(study, finding)
    elif run is not None:
        yield from shifted(study, finding)


def parted(study: Study, finding: Finding) -> Iterator[Idea]:
    """A bore and a notch, or two bores, set apart: bored both, another depth, or one run slid aside; two tubes into one hole."""
    yield from through(study, finding)
    yield from into_one_hole(study, finding)
    yield from other_depth(study, finding)
    yield from bores_apart(study, finding)


MAKERS: dict[str, Maker] = {
    "bore-close-to-notch": parted,
    "bore-in-middle-third": bored_in_middle,
    "bore-near-edge": near_edge,
    "bore-too-large": too_large,
    "bores-close-together": parted,
    "end-notch-too-deep": notched,
    "engineered-member-cut": engineered,
    "notch-in-middle-third": notched,
    "notch-too-deep": notched,
    "notch-too-long": notched,
    "notches-together": notched,
    "pipe-not-clear-below": clear_below,
    "pipes-in-one-place": other_depth,
}
