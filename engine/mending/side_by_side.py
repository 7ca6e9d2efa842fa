"""Mends of water tubes near each other in a joist: drawn together into one hole, parted, thinner, or moved up and down as one."""

from __future__ import annotations

import math
from collections.abc import Iterator
from functools import partial, reduce
from itertools import product

from engine.checks.records import Finding
from engine.checks.sites import runs_in
from engine.crossings.apart import axes_apart, between
from engine.crossings.records import JoistCut, SharedHole, Tube, by_crossing
from engine.crossings.sharing import lean
from engine.lengths import down, inches, up
from engine.mending import costs
from engine.mending.ideas import Idea, both
from engine.mending.moves import nearest_part, part_slid
from engine.plan import edits
from engine.plan.outline import listed
from engine.plan.points import Run
from engine.plan.records import Plan, Supply
from engine.study import Study


def hole_of(study: Study, finding: Finding) -> SharedHole | None:
    """The shared hole that a finding is about; None where it is about another cut."""
    here = finding.at[:2]
    shared = study.model.shared
    return next((one for one in shared if one.crossing.at == here and one.crossing.joist == finding.elements[-1]), None)


def out_of_too_wide(study: Study, hole: SharedHole) -> Iterator[Idea]:
    """A shared hole too wide for its joist: the tubes drawn together, parted, or insulated thinner."""
    yield from _closer(study, hole)
    yield from _apart(study, hole)
    yield from _thinner(study, hole)


def into_one_hole(study: Study, finding: Finding) -> Iterator[Idea]:
    """Two bores too close, both for water tube: one run slid to the other's side, so that one hole takes both."""
    joist, made = finding.elements[-1], by_crossing(study.model.cuts)
    for cut in study.model.cuts:
        if cut.joist == joist and cut.at == finding.at[:2] and cut.beside in made:
            yield from _beside(study, _tubes(study, cut), _tubes(study, made[cut.beside]))


def as_one(study: Study, hole: SharedHole) -> Iterator[Idea]:
    """All tubes of a hole raised or lowered by one measure, to where every hole that they share keeps its wood."""
    runs = runs_in(hole)
    ranges = [
        (one.crossing.low - one.z, one.crossing.high - one.z)
        for one in study.model.shared
        if one.crossing.low is not None and one.crossing.high is not None and set(runs) & set(runs_in(one))
    ]
    if not ranges:
        return
    low, high = max(lowest for lowest, _ in ranges), min(highest for _, highest in ranges)
    if low > high or low <= 0.0 <= high:
        return
    by = up(low) if low > 0.0 else -up(-high)
    depth = {tube.element: -tube.z for tube in hole.tubes}

    def lowered(plan: Plan) -> Plan:
        return reduce(lambda now, run: edits.set_field(now, run, "down", depth[run] - by), runs, plan)

    way = "Raise" if by > 0.0 else "Lower"
    cost = costs.HEIGHT + costs.INCH * abs(by)
    yield Idea(f"{way} {listed(runs)} {inches(abs(by))} in", cost, partial(lowered, study.plan))


def _closer(study: Study, hole: SharedHole) -> Iterator[Idea]:
    if len(hole.tubes) == 2:
        yield from _beside(study, hole.tubes[:1], hole.tubes[1:])


def _beside(study: Study, ones: tuple[Tube, ...], others: tuple[Tube, ...]) -> Iterator[Idea]:
    """Either of two tubes slid toward the other until their outsides touch, at the other's depth where theirs differ."""
    pairs = product(ones, others)
    near = min(pairs, key=lambda pair: between(*pair), default=None)
    if near is None or near[0].element == near[1].element:
        return
    for tube, other in (near, near[::-1]):
        room, apart, lift = (tube.width + other.width) / 2.0, between(tube, other), abs(tube.z - other.z)
        across = math.sqrt(max(0.0, apart * apart - lift * lift))
        into = f"into one hole with {other.element}"
        for idea in _slid(study, tube, other, down(across - math.sqrt(max(0.0, room * room - lift * lift))), into):
            yield idea._replace(family="one hole")
        if lift > 0.0:
            level = partial(_set_down, name=tube.element, to=-other.z)
            for idea in _slid(study, tube, other, down(across - room), into):
                deeper = both(idea, level, f"Hang {tube.element} {inches(-other.z)} in down", costs.HEIGHT)
                yield deeper._replace(family="one hole")


def _apart(study: Study, hole: SharedHole) -> Iterator[Idea]:
    """The first or last tube of a hole slid away from its neighbour until both have their own, with the wood between."""
    least = study.model.book.number("joist.bore.gap")
    for tube, other in (hole.tubes[:2], hole.tubes[:-3:-1]):
        wanted, _ = axes_apart(hole, least)
        more = up(wanted - between(tube, other))
        if tube.element != other.element:
            for by in (more, more + 1.0):
                for idea in _slid(study, tube, other, -by, "to a hole of its own"):
                    yield idea._replace(family=f"{tube.element} alone")


def _slid(study: Study, tube: Tube, other: Tube, by: float, words: str) -> Iterator[Idea]:
    """A tube's run slid toward another tube, or away from it where `by` is less than nothing."""
    model = study.model
    crossing = next(one for one in model.crossings if one.id == tube.crossing)
    run = edits.find(study.plan, tube.element)
    part = nearest_part(run, crossing.at) if isinstance(run, Run) else None
    if part is None or abs(by) < 1.0 / 16.0:
        return
    ahead = 1.0 if other.along >= tube.along else -1.0
    (east, north), left = model.joists[crossing.joist].along, part.left
    side = math.copysign(by, by * ahead * (left[0] * east + left[1] * north))
    for idea in part_slid(study, tube.element, part, side):
        yield idea._replace(words=f"{idea.words}, {words}")


def _thinner(study: Study, hole: SharedHole) -> Iterator[Idea]:
    """All tubes of a hole with less insulation."""
    runs = [run for run in study.plan.supplies if run.id in runs_in(hole)]
    for thick in (0.375, 0.25):
        wrapped = [run.id for run in runs if run.insulation > thick]
        if len(wrapped) > 1:
            make = partial(_insulated, study.plan, tuple(wrapped), thick)
            yield Idea(f"Give {listed(wrapped)} {inches(thick)} in of insulation", costs.SIZE * 2.0, make)


def _insulated(plan: Plan, names: tuple[str, ...], thick: float) -> Plan:
    return reduce(lambda now, name: edits.set_field(now, name, "insulation", thick), names, plan)


def _set_down(plan: Plan, name: str, to: float) -> Plan:
    return edits.set_field(plan, name, "down", to)


def _tubes(study: Study, cut: JoistCut) -> tuple[Tube, ...]:
    """The tubes that pass through a bore; none for a drain's or vent's."""
    if cut.tubes:
        return cut.tubes
    model = study.model
    if not isinstance(edits.find(study.plan, cut.element), Supply):
        return ()
    crossing = next(one for one in model.crossings if one.id == cut.crossing)
    line = next(one for one in model.lines if one.id == cut.pipe)
    if not crossing.straight:
        return ()
    leans, z = lean(line, model.joists[cut.joist]), -cut.down_from_top
    return (Tube(cut.crossing, cut.pipe, cut.element, crossing.system, crossing.along, z, crossing.width, leans),)
