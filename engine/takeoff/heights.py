"""Heights along every run: where each joist, fitting and end finds the pipe, measured down from the joists' top."""

from __future__ import annotations

import math

from engine.checks.model import Model
from engine.joinery.records import Part
from engine.plan.records import Point, Record
from engine.takeoff.cutlist import named
from engine.takeoff.naming import joist_words
from engine.takeoff.records import System
from engine.takeoff.runs import Run, runs
from engine.trade.fittings import KINDS
from engine.trade.pipe import tube
from engine.water.network import WATERS

_SAME = 1.0 / 64.0


class HeightRow(Record, frozen=True, gc=False):
    """One place on a run: `along` inches from its upper end (a supply's first point); what is there, and how high.

    `centre_down` and `bottom_down` count down from the joists' top to the pipe's axis and underside; None where
    the height is not known, negative above the joists.
    """

    element: str
    system: System
    size: float
    along: float
    what: str
    at: Point
    centre_down: float | None
    bottom_down: float | None


def height_table(model: Model) -> tuple[HeightRow, ...]:
    """Each run under the floor from its upper end down: its ends, fittings, corners and the joists it crosses."""
    overhead = {vent.id for vent in model.plan.vents if vent.above_floor is not None}
    fittings = _fittings(model)
    rows: list[HeightRow] = []
    for run in runs(model):
        if run.element not in overhead:
            rows.extend(_of_run(model, fittings, run))
    return tuple(rows)


def _of_run(model: Model, fittings: list[Part], run: Run) -> list[HeightRow]:
    places: list[tuple[float, int, str]] = [
        (along, 1, joist_words(model, model.joists[crossing.joist])) for along, crossing in run.crossings
    ]
    for along, point in _corners(run):
        found = [named(part) for part in fittings if _stands(part, run, point)]
        words = ", ".join(dict.fromkeys(found)) or _plain(run, along)
        places.append((along, 0, words))
    places += [(along, 0, named(part)) for part, along in _within(fittings, run)]
    od = tube(run.size).od if run.material == "PEX" else run.od
    rows = []
    for along, _, what in sorted(places):
        stretch = run.stretch(along)
        z = stretch.z(along)
        rows.append(
            HeightRow(
                run.element,
                run.system,
                run.size,
                along,
                what,
                stretch.at(along),
                None if z is None else -z,
                None if z is None else -z + od / 2.0,
            )
        )
    return rows


def _fittings(model: Model) -> list[Part]:
    """The fittings under the floor: drain fittings that have an axis there, and those of the water lines."""
    return [
        part
        for part in model.joinery.parts
        if (part.system in WATERS or (part.kind in KINDS and part.ports))
        and (part.node[2] <= 0.0 or math.isinf(part.node[2]))
    ]


def _stands(part: Part, run: Run, point: Point) -> bool:
    """Whether a fitting of this run's own kind of pipe stands at a point; water fittings are the run's own."""
    if (run.system in WATERS) != (part.system in WATERS) or math.dist(part.centre[:2], point) >= _SAME:
        return False
    return run.system not in WATERS or run.element in part.elements


def _corners(run: Run) -> list[tuple[float, Point]]:
    found = [(stretch.begins, stretch.start) for stretch in run.stretches]
    last = run.stretches[-1]
    return [*found, (run.length, last.end)]


def _within(fittings: list[Part], run: Run) -> list[tuple[Part, float]]:
    """Fittings in the middle of a stretch: couplings, and traps a little way down an arm."""
    found = []
    for part in fittings:
        if run.element not in part.elements or part.system in WATERS:
            continue
        point = (part.centre[0], part.centre[1])
        for stretch in run.stretches:
            along = math.dist(stretch.start, point)
            beyond = math.dist(stretch.end, point)
            if along > _SAME and beyond > _SAME and abs(along + beyond - stretch.length) < _SAME:
                found.append((part, stretch.begins + along))
    return found


def _plain(run: Run, along: float) -> str:
    """What a place with no fitting is called."""
    first, last = ("first end", "last end") if run.material == "PEX" else ("upper end", "lower end")
    return first if along <= _SAME else last if along >= run.length - _SAME else "corner"
