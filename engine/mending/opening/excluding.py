"""The two limits that exclude each other, and on which pipes the water comes down from each to the exit."""

from __future__ import annotations

from typing import NamedTuple

from engine.crossings.records import Bound, Window
from engine.piping.flow import is_under
from engine.piping.records import Node, Pipe
from engine.study import Study


class Way(NamedTuple):
    """How one limit hangs on the window's height: the pipes from it down to the foot, and how much of each, inches.

    `run` is the drawn run on which the limit lies, `joist` the joist whose wood it is, None where it is none.
    """

    bound: Bound
    run: str
    joist: str | None
    lengths: dict[str, float]
    pipes: tuple[Pipe, ...]


class Exclusion(NamedTuple):
    """Two limits of one window that exclude each other, by `apart` inches: `low` asks for more height than `high` grants."""

    window: Window
    low: Way
    high: Way
    apart: float


def exclusion(study: Study, window: Window) -> Exclusion | None:
    """The two limits that exclude each other in an empty window; None where it is not empty."""
    low = max((one for one in window.bounds if one.side == "low"), key=lambda one: one.z, default=None)
    high = min((one for one in window.bounds if one.side == "high"), key=lambda one: one.z, default=None)
    if low is None or high is None or low.z <= high.z:
        return None
    return Exclusion(window, way_of(study, window, low), way_of(study, window, high), low.z - high.z)


def way_of(study: Study, window: Window, bound: Bound) -> Way:
    """The pipes between a limit and the foot of its window's reach."""
    network = study.model.network
    joist = bound.element if bound.element in study.model.joists else None
    pipe: Pipe | None = None
    on = 0.0
    if joist is not None:
        crossing = next((one for one in study.model.crossings if one.joist == joist and one.at == bound.at), None)
        pipe = network.by_id.get(crossing.pipe) if crossing is not None else None
        on = crossing.position if crossing is not None else 0.0
    else:
        pipe = _leaving(study, window, bound)
    run = pipe.element if pipe is not None else ""
    lengths: dict[str, float] = {}
    pipes: list[Pipe] = []
    foot = network.reaches[window.reach].foot
    seen: set[Node] = set()
    onward: Pipe | None = pipe
    while onward is not None and onward.start != foot and onward.start not in seen:
        seen.add(onward.start)
        pipes.append(onward)
        if onward.shape == "level":
            lengths[onward.element] = lengths.get(onward.element, 0.0) + onward.run - on
        on = 0.0
        onward = study.model.network.waste_from(onward.end)
    return Way(bound, run, joist, lengths, tuple(pipes))


def _leaving(study: Study, window: Window, bound: Bound) -> Pipe | None:
    """The drain that leaves the point under the floor at which a limit is."""
    network = study.model.network
    for node in network.rise:
        if (node.x, node.y) == bound.at and is_under(node) and network.reach.get(node) == window.reach:
            return study.model.network.waste_from(node)
    return None
