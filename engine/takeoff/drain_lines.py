"""The drains line by line, as they are drawn from the side: each run from its lower end up, with the height table's places."""

from __future__ import annotations

from typing import Literal

from engine.checks.model import Model
from engine.crossings.records import JoistCut
from engine.piping.records import Node, Pipe
from engine.plan.records import Drain, Record, Vent
from engine.takeoff.fall_path import way_down
from engine.takeoff.heights import HeightRow, run_heights
from engine.takeoff.long_section import LongSection, section_along
from engine.takeoff.naming import numbered_cuts
from engine.takeoff.records import Support
from engine.takeoff.runs import Run
from engine.takeoff.section_legs import Leg

_FINE = 6
"""Decimals to which two places along a run are one."""

_HAIR = 1e-6


class Place(Record, frozen=True, gc=False):
    """A row of the height table on a line, `station` inches from the exit; the cut with its number, and what is hung there."""

    station: float
    row: HeightRow
    cut: JoistCut | None = None
    number: int = 0
    support: Support | None = None


class DrainLine(Record, frozen=True, gc=False):
    """One drawn run: its part of the long section from `begins` to `ends`, inches from the exit, and the places on it.

    `joins` is the run that it comes into, empty at the exit; `comes` the run that comes into its upper end, if one does.
    `section` is the whole way from the exit. Places go up from the exit.
    """

    element: str
    system: Literal["waste", "vent"]
    size: float
    exit: str
    section: LongSection
    begins: float
    ends: float
    joins: str
    comes: str
    legs: tuple[Leg, ...]
    places: tuple[Place, ...]

    @property
    def fall(self) -> float:
        """How far its axis falls from its upper end to its lower one, a drop or roll included, inches."""
        return self.legs[-1].z1 - self.legs[0].z0


class Lines(Record, frozen=True, gc=False):
    """The lines of a plan, exit by exit and from each exit up; and the runs of the height table that have none."""

    drawn: tuple[DrainLine, ...]
    left_out: tuple[str, ...]


def drain_lines(model: Model, held: tuple[Support, ...] | None = None) -> Lines:
    """A line for each drain and each vent under the floor that the height table covers and that comes to an exit.

    `held` are the model's supports where they are known already.
    """
    plan = model.plan
    drawn_runs: tuple[Drain | Vent, ...] = (*plan.drains, *plan.vents)
    elements = {one.id: one for one in drawn_runs}
    cuts = {made.crossing: (number, made) for number, made in numbered_cuts(model)}
    hung = {(one.pipe, round(one.along, _FINE)): one for one in held or () if one.kind in ("block", "strap", "base")}
    drawn: list[DrainLine] = []
    left_out: list[str] = []
    for run, rows in run_heights(model, held):
        element = elements.get(run.element)
        if element is None:
            continue
        line = _line(model, element, run, rows, cuts, hung)
        if line is None:
            left_out.append(run.element)
        else:
            drawn.append(line)
    exits = {exit_.id: n for n, exit_ in enumerate(plan.exits)}
    drawn.sort(key=lambda line: (exits[line.exit], line.begins))
    return Lines(tuple(drawn), tuple(dict.fromkeys(left_out)))


def _line(
    model: Model,
    element: Drain | Vent,
    run: Run,
    rows: list[HeightRow],
    cuts: dict[str, tuple[int, JoistCut]],
    hung: dict[tuple[str, float], Support],
) -> DrainLine | None:
    """One run as a line; None where it comes to no exit, has no height, or runs in a ring."""
    pipes = [model.network.by_id[stretch.pipe] for stretch in run.stretches]
    wet = run.system == "waste"
    top = pipes[0].start if wet else pipes[-1].end
    path = way_down(model.network, top)
    section = None if path is None or not path.steps else section_along(model, element, path)
    legs = () if section is None else _own(section, pipes)
    if section is None or not legs:
        return None
    begins, ends = legs[0].begins, legs[-1].ends
    places = []
    for row in rows:
        station = ends - row.along if wet else begins + row.along
        number, cut = cuts.get(row.crossing, (0, None))
        support = hung.get((run.stretch(row.along).pipe, round(row.along, _FINE)))
        places.append(Place(max(begins, station), row, cut, number, support))
    return DrainLine(
        element=run.element,
        system="waste" if wet else "vent",
        size=run.size,
        exit=section.exit or "",
        section=section,
        begins=begins,
        ends=ends,
        joins=_joined(section, legs),
        comes=_coming(model, pipes, top),
        legs=legs,
        places=tuple(sorted(places, key=lambda place: place.station)),
    )


def _own(section: LongSection, pipes: list[Pipe]) -> tuple[Leg, ...]:
    """The legs at the section's upper end that are the run's, its drop or roll before them; none where not all are there."""
    wanted = {pipe.id for pipe in pipes}
    first = next((n for n, leg in enumerate(section.legs) if leg.pipe in wanted), len(section.legs))
    own = section.legs[first:]
    if {leg.pipe for leg in own} != wanted:
        return ()
    closes = section.legs[first - 1] if first else None
    if (
        closes is not None
        and closes.shape != "level"
        and closes.ends <= own[0].begins + _HAIR
        and closes.z1 > closes.z0
    ):
        return (closes, *own)
    return own


def _joined(section: LongSection, legs: tuple[Leg, ...]) -> str:
    """The run that a line's lower end comes into."""
    first = section.legs.index(legs[0])
    return section.legs[first - 1].element if first else ""


def _coming(model: Model, pipes: list[Pipe], top: Node) -> str:
    """Another run's pipe that comes into the upper end; empty where none does."""
    own = {pipe.element for pipe in pipes}
    into = (pipe for pipe in model.network.pipes if pipe.end == top and pipe.run > 0.0 and pipe.system == "waste")
    return next((pipe.element for pipe in into if pipe.element not in own), "")
