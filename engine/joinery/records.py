"""Real fittings at the graph's nodes: parts with their ports, glued bonds between them, and cut pieces."""

from __future__ import annotations

from typing import Literal

from engine.piping.records import Fault
from engine.plan.records import Record

Standing = Literal["measured", "read", "memory", "derived", "estimate", "assumed"]
Space = tuple[float, float, float]
System = Literal["waste", "vent", "cold", "hot"]
Change = Literal["horizontal_to_vertical", "vertical_to_horizontal", "horizontal_to_horizontal", "none"]
Role = Literal["run_in", "run_out", "branch", "branch_2", "inlet", "outlet"]


class TakeOff(Record, frozen=True, gc=False):
    """Centre to pipe stop (or to the tip of a spigot) of one leg, inches, with how it is known."""

    length: float
    tolerance: float
    standing: Standing
    source: str


class Port(Record, frozen=True, gc=False):
    """One opening of a part. `toward` is the unit direction outward, as drawn (grade left out)."""

    role: Role
    pipe: str | None
    toward: Space
    size: float
    end: Literal["hub", "spigot"]
    takeoff: TakeOff
    depth: float


class Part(Record, frozen=True, gc=False):
    """One thing to buy and glue. `centre` is where its axes cross; `clock` the branch's position in degrees
    (0 is up, clockwise looking upstream), None where it has none. `turn` is the change of direction in degrees
    and `change` its kind for the fittings table."""

    id: str
    kind: str
    size: tuple[float, ...]
    system: System
    node: tuple[float, float, float]
    centre: Space
    ports: tuple[Port, ...]
    turn: float
    change: Change
    clock: float | None
    pinned: bool
    elements: tuple[str, ...]
    note: str = ""


class Bond(Record, frozen=True, gc=False):
    """One glued joint: a part's port with another part's port, or with an end of a piece."""

    part: str
    port: int
    other: str
    other_port: int
    size: float


class Piece(Record, frozen=True, gc=False):
    """One cut length of pipe between two parts' ports (or a free end).

    `axis` is the distance between the two centres along the slope, `cut` the length to saw, both inches;
    `rests_on` is the weakest standing among its take-offs.
    """

    mark: str
    system: System
    size: float
    material: str
    pipes: tuple[str, ...]
    start: Space
    end: Space
    axis: float
    cut: float
    tolerance: float
    rests_on: Standing
    from_part: str | None
    to_part: str | None
    least: float
    note: str = ""


class Joinery(Record, frozen=True, gc=False):
    """The parts, bonds and pieces of one plan."""

    parts: tuple[Part, ...]
    bonds: tuple[Bond, ...]
    pieces: tuple[Piece, ...]
    faults: tuple[Fault, ...] = ()
