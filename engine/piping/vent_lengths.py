"""How long each dry vent is, from the furthest drain that it leaves to where it is measured to.

Measured is along the pipe: to the open air or, where the book says so, to the place where a vent comes into another that
stands straight over its drain and goes up through the roof (a stack vent or vent stack). A dry pipe that several vents
share takes the longest of them, and the most that any of them lies level.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Collection, Iterable, Iterator, Mapping, Sequence
from typing import NamedTuple, Protocol, TypeVar

from engine.piping.records import Node, is_under
from engine.piping.web import Web
from engine.plan.records import Plan
from engine.rulebooks import RuleBook


class VentRuns(NamedTuple):
    """A vent's developed length, and how much of it lies level: inches."""

    length: float
    level: float


class Dry(Protocol):
    """What a stretch of dry pipe must tell to be followed to the open air: a stick or a pipe."""

    @property
    def id(self) -> str:
        """Its name."""

    @property
    def start(self) -> Node:
        """Its end nearer to the drain."""

    @property
    def end(self) -> Node:
        """Its end nearer to the open air."""


class Piece(Dry, Protocol):
    """What a stretch of dry pipe must tell to be measured."""

    @property
    def shape(self) -> str:
        """Level, plumb or inclined."""

    @property
    def run(self) -> float:
        """Its length in plan, inches."""

    @property
    def climb(self) -> float:
        """How steeply it rises where it is inclined, degrees."""


D = TypeVar("D", bound=Dry)
P = TypeVar("P", bound=Piece)


def measure(plan: Plan, book: RuleBook, web: Web) -> dict[str, VentRuns | None]:
    """Every aired dry stick's length by its id; what lies under the floor counts as deep as the deepest exit's tail."""
    deepest = min((exit_.tail_z for exit_ in plan.exits), default=0.0)
    feet = [
        stick
        for node, dry in web.dry.items()
        if node in web.inflow or node in web.outflow
        for stick in dry
        if stick.end in web.aired
    ]
    return lengths(
        feet,
        web.dry,
        web.aired,
        book.number("slope.vertical_from"),
        book.says("vent.measured_to_stack"),
        lambda node: deepest if is_under(node) else node.level,
    )


def lengths(
    feet: Iterable[P],
    dry: Mapping[Node, Sequence[P]],
    aired: Collection[Node],
    upright: float,
    to_stack: bool,
    height: Callable[[Node], float | None],
) -> dict[str, VentRuns | None]:
    """Every dry piece's length by its id, from the pieces that leave drains upward; `height` gives a node's, inches.

    None where a height that it needs is not known.
    """
    feet = list(feet)
    ways = [list(airway(foot, dry, aired)) for foot in feet]
    stacks = {piece.id: way[0].id for way in ways if _straight(way) for piece in way} if to_stack else {}
    found: dict[str, VentRuns | None] = {}
    for way in ways:
        measured = []
        for piece in way:
            into = stacks.get(piece.id)
            if into is not None and into != stacks.get(way[0].id):
                break
            measured.append(piece)
        run = _run(measured, upright, height)
        for piece in measured:
            before = found.get(piece.id, VentRuns(0.0, 0.0))
            if before is None or run is None:
                found[piece.id] = None
            else:
                found[piece.id] = VentRuns(max(before.length, run.length), max(before.level, run.level))
    return found


def _run(way: list[P], upright: float, height: Callable[[Node], float | None]) -> VentRuns | None:
    """The length of a way and how much of it lies level; None where a height is not known."""
    length = level = 0.0
    for piece in way:
        if piece.shape == "level":
            length += piece.run
            level += piece.run
            continue
        top, foot = height(piece.end), height(piece.start)
        if top is None or foot is None:
            return None
        length += math.hypot(piece.run, top - foot)
        if piece.shape == "inclined" and abs(piece.climb) < upright:
            level += piece.run
    return VentRuns(length, level)


def airway(foot: D, dry: Mapping[Node, Sequence[D]], aired: Collection[Node]) -> Iterator[D]:
    """The dry pieces from a vent's foot to the open air, in that order."""
    piece: D | None = foot
    seen: set[Node] = set()
    while piece is not None and piece.end not in seen:
        seen.add(piece.end)
        yield piece
        piece = next((onward for onward in dry.get(piece.end, ()) if onward.end in aired), None)


def _straight(way: list[P]) -> bool:
    """Whether a vent stands plumb over its foot all the way."""
    return all(piece.shape == "plumb" for piece in way)
