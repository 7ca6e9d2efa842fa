"""In which order the items of a joinery are put in place: from each exit upstream, mains before branches, vents last.

Every item is glued to exactly one that stands already, so that it can be pushed on along that joint. Where the
joints make a ring, the piece that closes it is left out and put in at the end.
"""

from __future__ import annotations

from collections import deque
from collections.abc import Iterator
from dataclasses import dataclass, field

from engine.checks.model import Model
from engine.joinery.records import Part, Piece, Role
from engine.piping.records import is_under
from engine.plan.records import Exit
from engine.takeoff.assembling.joints import Joint, Joints, is_plumb
from engine.trade.pipe import drain

MAKE_UP = 6.0
"""Bare pipe that a closing piece needs, in socket depths: a repair coupling (two depths) slid back on each half,
and a make-up length that fills both couplings to their middles (two more)."""


_DOWN = 0.99
"""From this vertical share on a leg looks straight down."""


@dataclass(slots=True, frozen=True)
class Placing:
    """One item put in place: by which joint onto which other; a root has neither. `begins` opens a new line."""

    item: str
    joint: Joint | None
    onto: str | None
    begins: bool


@dataclass(slots=True)
class Order:
    """The order of placing, and the items that close rings, ring by ring."""

    placings: list[Placing] = field(default_factory=list)
    closers: list[tuple[str, ...]] = field(default_factory=list)


def order(model: Model, joints: Joints, waiting: frozenset[str]) -> Order:
    """Every item but the waiting ones, each after the one it is pushed onto."""
    roots = list(_roots(model, joints))
    closers: list[tuple[str, ...]] = []
    while True:
        left_out = waiting.union(*closers)
        walk = _Walk(joints, left_out)
        for root in roots:
            if root not in left_out:
                walk.grow(root)
        if walk.ring is None:
            return Order(walk.placings, closers)
        closers.append(_closers(model, joints, walk.ring))


def _roots(model: Model, joints: Joints) -> Iterator[str]:
    """Where to start: at each exit, then at pipes whose lower end is open, then wherever something is left."""
    for exit_ in model.plan.exits:
        yield from (item for item in (*joints.pieces, *joints.of) if leaves_at(model, joints, exit_, item))
    yield from (mark for mark, piece in joints.pieces.items() if piece.system == "waste" and piece.to_part is None)
    yield from joints.pieces
    yield from joints.of


def leaves_at(model: Model, joints: Joints, exit_: Exit, item: str) -> bool:
    """Whether an item is the last of an exit: the piece that leaves the floor there, or the part that stands there."""
    piece = joints.pieces.get(item)
    if piece is None:
        return exit_.id in joints.parts[item].elements
    last = model.network.by_id.get(piece.pipes[-1])
    drawn = last is not None and piece.to_part is None and last.end == model.network.exits.get(exit_.id)
    return drawn or f"{exit_.id}.tail" in piece.pipes


_UPSTREAM_FIRST: tuple[Role, ...] = ("run_in", "inlet", "run_out", "outlet", "branch", "branch_2")
"""In which order a fitting's other hubs are gone on from: the main straight on, its branches later."""


class _Walk:
    """One try at placing everything; `ring` is the first ring of items met, if there is one."""

    def __init__(self, joints: Joints, left_out: frozenset[str]) -> None:
        self.joints = joints
        self.left_out = left_out
        self.placings: list[Placing] = []
        self.ring: tuple[str, ...] | None = None
        self._onto: dict[str, tuple[str, Joint] | None] = {}
        self._wet: deque[tuple[str, str, Joint]] = deque()
        self._dry: deque[tuple[str, str, Joint]] = deque()

    def grow(self, root: str) -> None:
        """Place a root and all that hangs on it."""
        if root in self._onto or self.ring is not None:
            return
        self._place(root, None, True)
        while (self._wet or self._dry) and self.ring is None:
            item, onto, joint = self._wet.popleft() if self._wet else self._dry.popleft()
            if item not in self._onto:
                self._place(item, (onto, joint), True)

    def _place(self, item: str, onto: tuple[str, Joint] | None, begins: bool) -> None:
        waiting: list[tuple[str, tuple[str, Joint] | None, bool]] = [(item, onto, begins)]
        while waiting:
            item, onto, begins = waiting.pop()
            self._onto[item] = onto
            self.placings.append(Placing(item, onto[1] if onto else None, onto[0] if onto else None, begins))
            follows: list[tuple[str, Joint]] = []
            for child, joint in self._children(item, onto):
                if child in self._onto:
                    self.ring = self.ring or self._path(item, child)
                elif self._small(child):
                    self._onto[child] = (item, joint)
                    self.placings.append(Placing(child, joint, item, False))
                else:
                    follows.append((child, joint))
            straight_on = next(
                (i for i, (child, _) in enumerate(follows) if not self._is_dry(child) or self._is_dry(item)), None
            )
            for i, (child, joint) in enumerate(follows):
                if i == straight_on:
                    waiting.append((child, (item, joint), False))
                else:
                    (self._dry if self._is_dry(child) else self._wet).append((child, item, joint))

    def _children(self, item: str, onto: tuple[str, Joint] | None) -> list[tuple[str, Joint]]:
        found = [
            (joint.other(item), joint)
            for joint in self.joints.of.get(item, ())
            if (onto is None or joint is not onto[1]) and joint.other(item) and joint.other(item) not in self.left_out
        ]

        def rank(child: tuple[str, Joint]) -> int:
            port = self.joints.port(child[1], item)
            return _UPSTREAM_FIRST.index(port.role) if port is not None else 0

        return sorted(found, key=rank)

    def _small(self, item: str) -> bool:
        """A part that only this joint holds (a bushing, an adapter, a cap): it goes in with its host."""
        return item in self.joints.parts and len(self.joints.of[item]) == 1

    def _is_dry(self, item: str) -> bool:
        return self.joints.item(item).system == "vent"

    def _path(self, item: str, other: str) -> tuple[str, ...]:
        """The ring that a joint between two placed items closes."""
        ways: list[list[str]] = []
        for end in (item, other):
            way = [end]
            while (onto := self._onto[way[-1]]) is not None:
                way.append(onto[0])
            ways.append(way)
        common = set(ways[0]) & set(ways[1])
        first = [i for i in ways[0] if i not in common]
        second = [i for i in ways[1] if i not in common]
        meet = next(i for i in ways[0] if i in common)
        return (*first, meet, *reversed(second))


def _closers(model: Model, joints: Joints, ring: tuple[str, ...]) -> tuple[str, ...]:
    """What is left out of a ring and put in last: its repair couplings, else the piece best fit to be cut."""
    made = [i for i in ring if isinstance(joints.item(i), Part) and joints.parts[i].kind == "repair_coupling"]
    if made:
        between = [
            mark for mark in ring if mark in joints.pieces and all(j.other(mark) in made for j in joints.of[mark])
        ]
        return (*made, *between)
    over = _loop_over(model, joints, ring)
    if over:
        return over
    pieces = [joints.pieces[i] for i in ring if i in joints.pieces]
    if not pieces:
        return (ring[0],)

    def fit(piece: Piece) -> tuple[bool, bool, bool, float]:
        return can_close(model, piece), piece.system == "vent", not is_plumb(piece), showing(piece)

    return (max(pieces, key=fit).mark,)


def _loop_over(model: Model, joints: Joints, ring: tuple[str, ...]) -> tuple[str, ...]:
    """The bends and pieces of an island's loop over its two uprights, in order; empty where they are no loop of their own.

    Both its legs look down, so that it is glued on the bench and pushed onto both uprights at once.
    """
    held = [item for item in ring if item in joints.pieces and _turns_over(model, joints.pieces[item])]
    ends = {joint.other(item) for item in held for joint in joints.of[item]}
    over = [item for item in ring if item in held or item in ends]
    while over and over[0] == ring[0] and over[-1] == ring[-1] and len(over) < len(ring):
        ring = (*ring[1:], ring[0])
        over = [item for item in ring if item in over]
    if not held or any(len(joints.of[item]) != 2 or item == "" for item in over):
        return ()
    if any(showing(joints.pieces[item]) < 0.0 for item in held):
        return ()
    legs = [joint for item in over for joint in joints.of[item] if joint.other(item) not in over]
    ports = [joints.port(joint, joint.host if joint.host in over else joint.guest) for joint in legs]
    down = [port for port in ports if port is not None and port.toward[2] < -_DOWN]
    return tuple(over) if len(legs) == len(down) == len(ports) == 2 else ()


def _turns_over(model: Model, piece: Piece) -> bool:
    """Whether a piece lies in an island's loop, over both of its uprights."""
    pipes = [model.network.by_id[pipe] for pipe in piece.pipes if pipe in model.network.by_id]
    return bool(pipes) and all(pipe.island and pipe.shape != "plumb" and not is_under(pipe.start) for pipe in pipes)


def showing(piece: Piece) -> float:
    """How much of a piece shows between its hubs, inches."""
    return piece.cut - piece.least


def can_close(model: Model, piece: Piece) -> bool:
    """Whether a piece can be cut and closed with two repair couplings and a make-up length.

    It must show enough pipe, and neither go through the floor nor belong to a pipe that is bored through joists.
    """
    through_floor = min(piece.start[2], piece.end[2]) < 0.0 < max(piece.start[2], piece.end[2])
    bored = any(crossing.passing == "through" and crossing.pipe in piece.pipes for crossing in model.crossings)
    return showing(piece) >= MAKE_UP * drain(piece.size).socket and not through_floor and not bored
