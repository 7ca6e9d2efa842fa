"""The joints of a plan's joinery: what each glues to what, and which way it is pushed together."""

from __future__ import annotations

import math
from collections.abc import Iterable
from dataclasses import dataclass

from engine.joinery.records import Bond, Joinery, Part, Piece, Port, Space

SAME = 1.0 / 64.0
"""Places this near are one place, inches."""

Item = Part | Piece


@dataclass(slots=True, frozen=True)
class Joint:
    """One bond with both of its sides named. `guest` is a piece's mark, a part's id, or "" where nothing is found."""

    bond: Bond
    host: str
    port: int
    guest: str
    guest_port: int

    def other(self, item: str) -> str:
        """The item on the joint's other side."""
        return self.guest if item == self.host else self.host


GLUED = ("waste", "vent")
"""The systems whose pipe is rigid and glued; tube is bent, pulled through and ringed."""


class Joints:
    """All items and joints of one plan's drains and vents."""

    def __init__(self, joinery: Joinery) -> None:
        self.parts: dict[str, Part] = {part.id: part for part in joinery.parts if part.system in GLUED}
        self.pieces: dict[str, Piece] = {piece.mark: piece for piece in joinery.pieces if piece.system in GLUED}
        self.all = tuple(self._resolved(bond) for bond in joinery.bonds if bond.part in self.parts)
        self.of: dict[str, list[Joint]] = {}
        for joint in self.all:
            for item in (joint.host, joint.guest):
                if item:
                    self.of.setdefault(item, []).append(joint)

    def item(self, name: str) -> Item:
        """The part or piece of that name."""
        return self.parts[name] if name in self.parts else self.pieces[name]

    def _resolved(self, bond: Bond) -> Joint:
        guest, end = bond.other, bond.other_port
        if not guest:
            guest, end = self._free_end(self.parts[bond.part])
        return Joint(bond, bond.part, bond.port, guest, end)

    def _free_end(self, part: Part) -> tuple[str, int]:
        """The piece whose open end stands where a part goes on that names no pipe."""
        for piece in self.pieces.values():
            for end, (place, held) in enumerate(((piece.start, piece.from_part), (piece.end, piece.to_part))):
                if held is None and math.dist(place, part.centre) < SAME:
                    return piece.mark, end
        return "", -1

    def port(self, joint: Joint, item: str) -> Port | None:
        """The part's port in a joint; None for a piece, or a part that has no ports of its own."""
        part = self.parts.get(item)
        number = joint.port if item == joint.host else joint.guest_port
        return part.ports[number] if part is not None and 0 <= number < len(part.ports) else None

    def end(self, joint: Joint, piece: str) -> int:
        """Which end of a piece a joint holds: 0 its start, 1 its end."""
        return joint.guest_port if joint.guest == piece else joint.port

    def across(self, item: str, joint: Joint) -> list[Joint]:
        """The item's other joints."""
        return [other for other in self.of.get(item, ()) if other is not joint]

    def loose(self) -> Iterable[Part]:
        """The parts that no joint holds."""
        return (part for part in self.parts.values() if part.id not in self.of)


def joints_of(joints: Joints, items: Iterable[str]) -> tuple[Joint, ...]:
    """The joints that any of the items take part in, each once, in the joinery's order."""
    names = set(items)
    return tuple(joint for joint in joints.all if joint.host in names or joint.guest in names)


def dot(a: Space, b: Space) -> float:
    """The scalar product."""
    return a[0] * b[0] + a[1] * b[1] + a[2] * b[2]


def opposite(a: Space, b: Space) -> bool:
    """Whether two directions lie in one line, to a degree, and look away from each other."""
    sizes = math.sqrt(dot(a, a) * dot(b, b))
    return sizes > 0.0 and dot(a, b) < -math.cos(math.radians(1.0)) * sizes


def is_plumb(piece: Piece) -> bool:
    """Whether a piece stands plumb."""
    return math.dist(piece.start[:2], piece.end[:2]) < SAME


def low_end(piece: Piece) -> int:
    """The lower end of a piece: 0 its start, 1 its end."""
    return 0 if piece.start[2] < piece.end[2] else 1
