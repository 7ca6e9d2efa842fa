"""What an isometric is hung on: the joints of the pipes, and the straight lengths between them.

Read off the joinery, and off the drawn runs for water, whose tube no fitting cuts to length. Nothing else is
drawn, so a sheet shows what is on the lists and no more.
"""

from __future__ import annotations

import math
from dataclasses import dataclass, field
from typing import Literal

from engine.joinery.records import Part, Space, System

Shape = Literal["level", "plumb", "inclined"]
Cover = Literal["drains", "water"]
"""What one isometric shows: waste and vents, or cold and hot water."""

SYSTEMS: dict[Cover, tuple[System, ...]] = {"drains": ("waste", "vent"), "water": ("cold", "hot")}
"""The systems of each."""

PLUMB = 0.01
"""Ends this near to each other in plan stand over one another, inches."""


@dataclass(slots=True)
class Joint:
    """A place where pipes end or meet. `fittings` are the parts whose axes cross there."""

    key: str
    at: Space
    fittings: list[Part] = field(default_factory=list)


@dataclass(slots=True, frozen=True)
class Length:
    """One straight length between two joints, from `start` to `end` with the flow (vents: toward the air).

    `name` is a piece's mark, a supply's id, the id of the part whose own tube it is, or empty between two parts
    that are glued straight together. `pipe` is the drawn stretch that it belongs to.
    """

    name: str
    what: Literal["piece", "tube", "part", "bond"]
    system: System
    size: float
    shape: Shape
    start: str
    end: str
    elements: tuple[str, ...]
    pipe: str = ""
    slope: float = 0.0


@dataclass(slots=True, frozen=True)
class Mount:
    """A part without axes of its own, and where it stands: from a joint so many places along a direction.

    No direction means on the joint itself.
    """

    part: Part
    joint: str
    toward: Space | None
    rank: int


@dataclass(slots=True)
class Skeleton:
    """All joints, lengths and mounted parts of one isometric.

    `extras` go with the part that they are named under; `facing` is the open side of an elbow at a pipe's end;
    `matches` are the joints at which a length goes on to another sheet, with the letter that both carry.
    """

    cover: Cover
    joints: dict[str, Joint] = field(default_factory=dict)
    lengths: list[Length] = field(default_factory=list)
    mounts: list[Mount] = field(default_factory=list)
    extras: dict[str, list[Part]] = field(default_factory=dict)
    facing: dict[str, Space] = field(default_factory=dict)
    matches: dict[str, str] = field(default_factory=dict)

    def joint(self, key: str, at: Space) -> Joint:
        """The joint of a key, made at this place if there is none yet."""
        if key not in self.joints:
            self.joints[key] = Joint(key, at)
        return self.joints[key]

    def parts(self) -> list[Part]:
        """Every part shown, whether as a fitting, mounted, or named under another one."""
        return [
            *(part for joint in self.joints.values() for part in joint.fittings),
            *(mount.part for mount in self.mounts),
            *(part for parts in self.extras.values() for part in parts),
        ]

    def outward(self, key: str, length: Length) -> Space:
        """The direction in which a length would go on past its end at a joint."""
        other = self.joints[length.start if length.end == key else length.end].at
        here = self.joints[key].at
        far = math.dist(here, other) or 1.0
        return ((here[0] - other[0]) / far, (here[1] - other[1]) / far, (here[2] - other[2]) / far)

    def at_joint(self) -> dict[str, list[Length]]:
        """The lengths that end at each joint."""
        found: dict[str, list[Length]] = {key: [] for key in self.joints}
        for length in self.lengths:
            found[length.start].append(length)
            found[length.end].append(length)
        return found


def spot_key(at: Space) -> str:
    """The key of a place where no part stands."""
    return f"@{at[0]:.2f},{at[1]:.2f},{at[2]:.2f}"


def same_plumb(a: Space, b: Space) -> bool:
    """Whether two places lie over one another."""
    return math.dist(a[:2], b[:2]) < PLUMB
