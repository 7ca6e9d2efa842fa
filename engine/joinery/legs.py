"""The pipes that meet at a node, seen from it: which way each points, how big it is, whether water comes or goes."""

from __future__ import annotations

import math

import msgspec

from engine.joinery.records import Change, Space
from engine.piping.records import Network, Node, Pipe

UPRIGHT = 45.0
"""From this climb on a pipe counts as upright, degrees (IRC 2021 definitions: vertical pipe)."""
SQUARE = 1.0
"""A catalogue angle must be met within this many degrees, as drawn."""


class Leg(msgspec.Struct, frozen=True, gc=False):
    """One pipe's end at a node. `toward` points from the node along the pipe, grade left out."""

    pipe: Pipe
    at_start: bool
    toward: Space
    size: float
    flow: str

    @property
    def plumb(self) -> bool:
        """Whether the pipe counts as upright: plumb, or inclined by 45 degrees or more."""
        return self.pipe.shape == "plumb" or abs(self.pipe.climb) >= UPRIGHT

    @property
    def dry(self) -> bool:
        """Whether the pipe is a dry vent."""
        return self.pipe.system == "vent"

    @property
    def island(self) -> bool:
        """Whether the pipe belongs to an island's vent, which is put together as a drain is."""
        return bool(self.pipe.island)


def legs_by_node(network: Network) -> dict[Node, list[Leg]]:
    """The legs at every node of the graph."""
    found: dict[Node, list[Leg]] = {}
    for pipe in network.pipes:
        away = _heading(pipe)
        back = (-away[0], -away[1], -away[2])
        found.setdefault(pipe.start, []).append(
            Leg(pipe, True, away, pipe.size, "dry" if pipe.system == "vent" else "out")
        )
        found.setdefault(pipe.end, []).append(
            Leg(pipe, False, back, pipe.size, "dry" if pipe.system == "vent" else "in")
        )
    return found


def _heading(pipe: Pipe) -> Space:
    """Unit heading from a pipe's start to its end, as drawn."""
    if pipe.shape == "level":
        return (pipe.heading[0], pipe.heading[1], 0.0)
    if pipe.shape == "inclined":
        flat, fall = math.cos(math.radians(pipe.climb)), math.sin(math.radians(pipe.climb))
        return (pipe.heading[0] * flat, pipe.heading[1] * flat, -fall)
    return (0.0, 0.0, 1.0 if pipe.end.level > pipe.start.level else -1.0)


def between(a: Space, b: Space) -> float:
    """The angle between two directions, degrees 0 to 180."""
    dot = max(-1.0, min(1.0, a[0] * b[0] + a[1] * b[1] + a[2] * b[2]))
    return math.degrees(math.acos(dot))


def turned(a: Leg, b: Leg) -> float:
    """How far flow turns from one leg into the other, degrees: 0 is straight on."""
    return 180.0 - between(a.toward, b.toward)


def bend(a: Pipe, b: Pipe) -> float:
    """How far one pipe turns from the line of the one before it, as drawn, degrees."""
    return between(_heading(a), _heading(b))


def straight_on(a: Pipe, b: Pipe) -> bool:
    """Whether one pipe goes on in the line of the one before it, as drawn."""
    return met(between(_heading(a), _heading(b)), 0.0)


def met(angle: float, catalogue: float) -> bool:
    """Whether a drawn angle is a catalogue angle."""
    return abs(angle - catalogue) <= SQUARE


def change(upstream: Leg, downstream: Leg) -> Change:
    """The change of direction for the fittings table, from the way the water takes."""
    if upstream.plumb and not downstream.plumb:
        return "vertical_to_horizontal"
    if not upstream.plumb and downstream.plumb:
        return "horizontal_to_vertical"
    if not upstream.plumb and not downstream.plumb:
        return "horizontal_to_horizontal"
    return "none"


def clock(branch: Space, upstream: Space) -> float:
    """The branch's position on the barrel, degrees clockwise from the top, looking upstream.

    On a plumb barrel the dial is read from above, with north at its top.
    """
    if abs(upstream[2]) > 0.5:
        return math.degrees(math.atan2(branch[0], branch[1])) % 360.0
    right = (upstream[1], -upstream[0])
    across = branch[0] * right[0] + branch[1] * right[1]
    return math.degrees(math.atan2(across, branch[2])) % 360.0
