"""Mends of the floor's own wood: deeper or closer joists, a beam, a second ply, doubled headers, a deeper belly."""

from __future__ import annotations

from collections.abc import Iterator
from functools import partial

from engine.checks.flooring import reach_on_floor
from engine.checks.records import Finding
from engine.crossings.limits import spans
from engine.framing.records import Joist
from engine.framing.shadow import in_frame
from engine.lengths import inches, up
from engine.mending import costs
from engine.mending.heights import exit_of, pinned, shifted, window_of
from engine.mending.ideas import Idea, Maker, both
from engine.mending.joist_cuts import under
from engine.mending.lumber import framed
from engine.mending.moves import run_slid
from engine.plan import edits
from engine.plan.records import Beam, DoubledJoist, FlooringArea, FloorOpening, JoistField, Point, Supply, Wall
from engine.study import Study

CLOSER = (16.0, 12.0)
"""Spacings that joists are set to where they stand farther apart, inches: the span tables' own."""


def span(study: Study, finding: Finding) -> Iterator[Idea]:
    """A beam under the middle of the longest span, joists set closer, or deeper lumber."""
    field = edits.find(study.plan, finding.elements[0])
    if not isinstance(field, JoistField):
        return
    for spacing in CLOSER:
        if spacing < field.spacing:
            make = partial(edits.set_fields, study.plan, field.id, spacing=spacing, first=None)
            yield Idea(f"Make {field.id}'s joists {inches(spacing)} in apart", costs.LUMBER, make)
    yield from framed(study.plan, field.id)
    running = [one for one in study.model.framing.joists if one.field == field.id and one.runs]
    found = [(span.length, one, span) for one in running for span in spans(one)]
    if found:
        _, joist, longest = max(found, key=lambda one: one[0])
        yield _beam_under(study, field, joist, (longest.start + longest.end) / 2.0)


def _beam_under(study: Study, field: JoistField, joist: Joist, u: float) -> Idea:
    (x, y), (wide, long) = field.corner, field.size
    if joist.along[1]:
        start, end = (x, joist.start[1] + u), (x + wide, joist.start[1] + u)
    else:
        start, end = (joist.start[0] + u, y), (joist.start[0] + u, y + long)
    make = partial(edits.add_new, study.plan, Beam, start=start, end=end)
    return Idea(f"Put a beam under the middle of {field.id}", costs.LUMBER, make)


def bearing(study: Study, finding: Finding) -> Iterator[Idea]:
    """A wider bearing under the joists' ends."""
    field = edits.find(study.plan, finding.elements[0])
    if isinstance(field, JoistField) and finding.measured is not None and finding.limit is not None:
        wide = up(field.end_bearing + finding.limit - finding.measured)
        make = partial(edits.set_field, study.plan, field.id, "end_bearing", wide)
        yield Idea(f"Give {field.id} an end bearing of {inches(wide)} in", costs.SIZE, make)


def partition(study: Study, finding: Finding) -> Iterator[Idea]:
    """The joist under a bearing partition doubled; one beside it moved under the wall first where none is there."""
    wall = edits.find(study.plan, finding.elements[0])
    if not isinstance(wall, Wall):
        return
    near = [(abs(in_frame(one, wall.start)[1]), one) for one in study.model.framing.joists if one.kind == "common"]
    for _, joist in sorted(near, key=lambda found: (found[0], found[1].id))[:2]:
        field = edits.find(study.plan, joist.field)
        if not isinstance(field, JoistField):
            continue
        aside = wall.start[0] - joist.start[0] if joist.along[1] else wall.start[1] - joist.start[1]
        doubled = tuple(one for one in field.doubled if one.number != joist.number)
        side = "east or north" if aside >= 0.0 else "west or south"
        double = (*doubled, DoubledJoist(joist.number, side=side))  # type: ignore[arg-type]
        make = partial(edits.set_field, study.plan, field.id, "doubled", double)
        yield Idea(f"Make joist {joist.id} double", costs.LUMBER / 2.0 + abs(aside), make)


def headers_doubled(study: Study, finding: Finding) -> Iterator[Idea]:
    """An opening's headers made double."""
    make = partial(edits.set_field, study.plan, finding.elements[0], "headers", 2)
    yield Idea(f"Make the headers of {finding.elements[0]} double", costs.SIZE, make)


def trimmers_doubled(study: Study, finding: Finding) -> Iterator[Idea]:
    """An opening's trimmers made double, and its headers with them where they must be."""
    name = finding.elements[0]
    make = partial(edits.set_field, study.plan, name, "trimmers", 2)
    yield Idea(f"Make the trimmers of {name} double", costs.SIZE, make)
    both_made = partial(edits.set_fields, study.plan, name, headers=2, trimmers=2)
    yield Idea(f"Make the headers and trimmers of {name} double", costs.SIZE + 1.0, both_made)


def deleted(study: Study, finding: Finding) -> Iterator[Idea]:
    """An opening that frames nothing, or an area that covers nothing, taken away."""
    name = finding.elements[0]
    yield Idea(f"Delete {name}", costs.DELETE, partial(edits.delete, study.plan, name))


def cut_to_floor(study: Study, finding: Finding) -> Iterator[Idea]:
    """A flooring area's edges drawn in to the rectangle round what of it lies on the floor."""
    area = edits.find(study.plan, finding.elements[0])
    reaches = reach_on_floor(area, study.plan.floor) if isinstance(area, FlooringArea) else None
    if reaches is not None:
        make = partial(edits.set_fields, study.plan, area.id, start=reaches[0], end=reaches[1])
        yield Idea(f"Draw {area.id} in to the floor's edge", costs.SIZE, make)


def past_header(study: Study, finding: Finding) -> Iterator[Idea]:
    """The run slid beside the opening, or hung under the joists."""
    joist = study.model.joists.get(finding.elements[-1])
    opening = edits.find(study.plan, joist.opening) if joist is not None and joist.opening else None
    if isinstance(opening, FloorOpening):
        x, y = finding.at[:2]
        sides: tuple[Point, ...] = (opening.start, opening.end)
        aside = {up(abs(side[axis] - (x, y)[axis]) + costs.BESIDE) for side in sides for axis in (0, 1)}
        yield from run_slid(study, finding.elements[0], (x, y), tuple(sorted(aside)))
    yield from under(study, finding)


def past_beam(study: Study, finding: Finding) -> Iterator[Idea]:
    """The run over the beam or under it: its exit or its own depth raised or lowered, or the run hung under the joists."""
    wood = study.model.joists.get(finding.elements[-1])
    run = next((one for one in study.plan.supplies if one.id == finding.elements[0]), None)
    if wood is None:
        return
    width = max((one.width for one in study.model.crossings if one.element == finding.elements[0]), default=0.0)
    if isinstance(run, Supply):
        for z in (wood.top + width / 2.0, wood.bottom - width / 2.0):
            down = up(-z) if z < wood.top else -up(z)
            if down > 0.0:
                make = partial(edits.set_field, study.plan, run.id, "down", down)
                yield Idea(f"Hang {run.id} {inches(down)} in down", costs.HEIGHT, make)
        yield from under(study, finding)
        return
    yield from shifted(study, finding)
    yield from _below(study, finding, wood, width)
    yield from under(study, finding)


def _below(study: Study, finding: Finding, wood: Joist, width: float) -> Iterator[Idea]:
    """The drain under the joists with its exit low enough to pass under the beam as well."""
    name = exit_of(study, finding.elements)
    window = window_of(study, name) if name is not None else None
    if name is None or window is None:
        return
    z = window.chosen - up(finding.at[2] + width / 2.0 - wood.bottom)
    low = pinned(study, name, z)
    yield low
    for below in under(study, finding):
        yield both(below, lambda plan: edits.set_field(plan, name, "pinned_z", z), low.words, costs.HEIGHT)
        return


def belly(study: Study, finding: Finding) -> Iterator[Idea]:
    """A deeper belly, or the pipe higher."""
    now = study.plan.floor.belly
    if now is None or finding.measured is None:
        return
    deep = up(now + finding.measured)
    make = partial(edits.set_floor, study.plan, belly=deep)
    yield Idea(f"Make the floor's belly {inches(deep)} in deep", costs.HEIGHT, make)
    yield from shifted(study, finding)


MAKERS: dict[str, Maker] = {
    "beam-in-the-way": past_beam,
    "bearing-too-short": bearing,
    "header-cut": past_header,
    "header-too-light": headers_doubled,
    "joist-span-too-long": span,
    "opening-frames-nothing": deleted,
    "flooring-covers-nothing": deleted,
    "flooring-past-the-floor": cut_to_floor,
    "partition-on-one-joist": partition,
    "pipe-below-belly": belly,
    "trimmer-too-light": trimmers_doubled,
}
