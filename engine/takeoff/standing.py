"""What stands along a run: its fittings, by how far along they stand and how much of the run their hubs take up."""

from __future__ import annotations

import math

from engine.checks.model import Model
from engine.joinery.records import Part
from engine.plan.records import Point
from engine.takeoff.cutlist import named
from engine.takeoff.runs import Run
from engine.trade.fittings import KINDS
from engine.water.joints import ABOVE
from engine.water.network import WATERS

SAME = 1.0 / 64.0


def fittings_under(model: Model) -> list[Part]:
    """The fittings under the floor: drain fittings that have an axis there, and those of the water lines."""
    return [
        part
        for part in model.joinery.parts
        if (part.system in WATERS or (part.kind in KINDS and part.ports))
        and (part.node[2] <= 0.0 or math.isinf(part.node[2]))
    ]


def corners(run: Run) -> list[tuple[float, Point]]:
    """The run's ends and inner vertices: how far along, and where."""
    last = run.stretches[-1]
    return [*((stretch.begins, stretch.start) for stretch in run.stretches), (run.length, last.end)]


def stands_at(fittings: list[Part], run: Run, point: Point) -> list[Part]:
    """The fittings of this run's own kind of pipe at a point; water fittings are the run's own."""
    return [part for part in fittings if _stands(part, run, point)]


def _stands(part: Part, run: Run, point: Point) -> bool:
    if (run.system in WATERS) != (part.system in WATERS) or math.dist(part.centre[:2], point) >= SAME:
        return False
    return run.system not in WATERS or run.element in part.elements


def within(fittings: list[Part], run: Run) -> list[tuple[Part, float]]:
    """Fittings in the middle of a stretch: couplings, and traps a little way down an arm."""
    found = []
    for part in fittings:
        if run.element not in part.elements or part.system in WATERS:
            continue
        point = (part.centre[0], part.centre[1])
        for stretch in run.stretches:
            along = math.dist(stretch.start, point)
            beyond = math.dist(stretch.end, point)
            if along > SAME and beyond > SAME and abs(along + beyond - stretch.length) < SAME:
                found.append((part, stretch.begins + along))
    return found


def hubs(fittings: list[Part], run: Run) -> list[tuple[float, float]]:
    """From where to where along a run each of its fittings takes it up, to the ends of its hubs."""
    if run.system in WATERS:
        return []
    placed = [(part, along) for along, point in corners(run) for part in stands_at(fittings, run, point)]
    placed += within(fittings, run)
    pipes = {stretch.pipe: stretch for stretch in run.stretches}
    found = []
    for part, along in placed:
        low = high = along
        for port in part.ports:
            stretch = pipes.get(port.pipe or "")
            if stretch is None:
                continue
            reach = port.takeoff.length + port.depth
            heading = (stretch.end[0] - stretch.start[0], stretch.end[1] - stretch.start[1])
            if heading[0] * port.toward[0] + heading[1] * port.toward[1] > 0.0:
                high = max(high, along + reach)
            else:
                low = min(low, along - reach)
        if high > low:
            found.append((max(low, 0.0), min(high, run.length)))
    return sorted(found)


def called(run: Run, along: float, parts: list[Part]) -> str:
    """What stands at an end or corner; what a place with no fitting is called.

    Where a tube turns up to its fixture, what stands over the floor at its end is named as what it turns up to.
    """
    words = ", ".join(dict.fromkeys(named(part) for part in parts if part.kind not in ABOVE))
    above = ", ".join(dict.fromkeys(named(part) for part in parts if part.kind in ABOVE))
    if above:
        return f"{words}{', ' if words else ''}turn up to the {above}"
    if words:
        return words
    first, last = ("first end", "last end") if run.material == "PEX" else ("upper end", "lower end")
    return first if along <= SAME else last if along >= run.length - SAME else "corner"
