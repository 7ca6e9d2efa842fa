"""A builder's hands in plan: whether each step of an assembly order can be done with rigid pipe.

Worked out again from the joinery, the crossings and shapely's intersections, so that it can judge the order.
"""

from __future__ import annotations

import math
import re

import shapely

from engine.checks.model import Model
from engine.joinery.records import Bond, Part, Piece, Port
from engine.takeoff.assembly import Step
from engine.trade.pipe import drain

HAIR = 1.0 / 64.0
MARKS = re.compile(r"\b[DV]\d+\b")
GLUED = ("waste", "vent")


class Site:
    """What stands, what is threaded, and the wood; `run` does every step and fails at the first that cannot be done."""

    def __init__(self, model: Model) -> None:
        self.model = model
        joinery = model.joinery
        self.parts: dict[str, Part] = {part.id: part for part in joinery.parts if part.system in GLUED}
        self.pieces: dict[str, Piece] = {piece.mark: piece for piece in joinery.pieces}
        self.bonds = [bond for bond in joinery.bonds if bond.part in self.parts]
        self.standing: list[str] = []
        self.glued: list[Bond] = []
        self.parked: dict[str, tuple[float, float, float]] = {}
        self.joist_boxes = {
            joist.id: shapely.LineString([joist.start, joist.end]).buffer(
                joist.thickness / 2.0 - HAIR, cap_style="flat"
            )
            for joist in model.framing.joists
        }

    def run(self, steps: tuple[Step, ...]) -> None:
        assert [step.number for step in steps] == list(range(1, len(steps) + 1))
        for step in steps:
            self.do(step)
        assert sorted(map(str, self.glued)) == sorted(map(str, self.bonds)), "each joint is made exactly once"
        assert sorted(self.standing) == sorted([*self.parts, *self.pieces]), "each thing is put in place exactly once"

    def do(self, step: Step) -> None:
        new = [*step.parts, *step.pieces]
        assert set(step.onto) <= set(self.standing), f"step {step.number} builds on what does not stand"
        assert not set(step.dry) & set(self.standing), f"step {step.number} tries what stands already"
        assert not step.dry or step.kind in ("thread", "dry fit")
        assert set(MARKS.findall(step.text)) <= {*self.standing, *new, *step.dry}, f"step {step.number}: {step.text}"
        if step.kind == "thread":
            (mark,) = step.dry
            self.thread(mark, step.slides[0].past)
        elif step.kind == "close":
            self.close(step)
        else:
            self.push_on(step)
        self.standing += new
        self.glued += step.bonds

    def push_on(self, step: Step) -> None:
        """One joint after the other, each between one thing that stands and one that does not."""
        new = {*step.parts, *step.pieces}
        here = set(self.standing)
        if not step.onto and step.kind in ("start", "stuck"):
            here |= {(*step.pieces, *step.parts)[0]}
        for bond in step.bonds:
            sides = self.sides(bond)
            if len(sides) == 1:
                assert sides[0] in here | new
                continue
            fresh = [item for item in sides if item not in here]
            assert len(fresh) == 1, f"step {step.number}: {sides} is captive or hangs on nothing"
            assert fresh[0] in new
            if fresh[0] in self.pieces and step.kind != "stuck":
                self.slide(fresh[0], bond, step)
            here.add(fresh[0])

    def close(self, step: Step) -> None:
        """Everything else stands; repair couplings have room to be slid back: six socket depths of bare pipe."""
        if step.parts:
            self.push_over(step)
            return
        (mark,) = step.pieces
        piece = self.pieces[mark]
        assert {item for bond in step.bonds for item in self.sides(bond)} - {mark} <= set(self.standing)
        assert len(step.bonds) == 2
        assert [(kind, count) for kind, _, count in step.needs] == [("repair_coupling", 2)]
        assert piece.cut - piece.least >= 6.0 * drain(piece.size).socket
        assert not self.passed(mark)

    def push_over(self, step: Step) -> None:
        """A loop glued on the bench goes onto two pipes at once: nothing else holds it, and both legs look one way."""
        new = {*step.parts, *step.pieces}
        outer = [bond for bond in step.bonds if set(self.sides(bond)) - new]
        assert {item for bond in outer for item in self.sides(bond)} - new <= set(self.standing)
        assert {item for bond in self.bonds for item in self.sides(bond) if set(self.sides(bond)) & new} == {
            item for bond in step.bonds for item in self.sides(bond)
        }
        ways = [self.port(bond, next(item for item in self.sides(bond) if item in step.parts)).toward for bond in outer]
        assert len(ways) == 2
        assert math.dist(*ways) < 1e-6
        assert not step.needs

    def sides(self, bond: Bond) -> list[str]:
        if bond.other:
            return [bond.part, bond.other]
        at = self.parts[bond.part].centre
        for piece in self.pieces.values():
            for place, held in ((piece.start, piece.from_part), (piece.end, piece.to_part)):
                if held is None and math.dist(place, at) < HAIR:
                    return [bond.part, piece.mark]
        return [bond.part]

    def port(self, bond: Bond, part: str) -> Port:
        return self.parts[part].ports[bond.port if part == bond.part else bond.other_port]

    def line(self, mark: str) -> tuple[tuple[float, float], tuple[float, float], float, float]:
        """A piece's line in plan (origin and heading, from its start) and its two sawn ends on it."""
        piece = self.pieces[mark]
        run = math.dist(piece.start[:2], piece.end[:2])
        whole = max(run, piece.axis)
        along = ((piece.end[0] - piece.start[0]) / run, (piece.end[1] - piece.start[1]) / run)
        off = next(
            (self.port(b, b.part).takeoff.length for b in self.bonds if b.other == mark and b.other_port == 0), 0.0
        )
        low = off * run / whole
        return piece.start[:2], along, low, low + piece.cut * run / whole

    def passed(self, mark: str) -> list[str]:
        """The bored joists that a piece in place stands in."""
        piece = self.pieces[mark]
        if math.dist(piece.start[:2], piece.end[:2]) < HAIR:
            return []
        origin, along, low, high = self.line(mark)
        if high - low < HAIR:
            return []
        body = _segment(origin, along, low, high)
        crossed = {c.joist for c in self.model.crossings if c.bore is not None and c.pipe in piece.pipes}
        return [joist for joist in crossed if body.intersects(self.joist_boxes[joist])]

    def judged(self, mark: str) -> bool:
        """Whether no pipe turns or ends in wood that a piece stands in."""
        body = _segment(*self.line(mark))
        bent = {crossing.joist for crossing in self.model.crossings if not crossing.straight}
        return not any(body.intersects(self.joist_boxes[joist]) for joist in bent)

    def wood_on(self, mark: str) -> tuple[list[tuple[float, float]], list[tuple[float, float]]]:
        """Stretches of a piece's endless line in wood: those that its line is bored through, and those that are shut."""
        origin, along, _, _ = self.line(mark)
        piece = self.pieces[mark]
        endless = _segment(origin, along, -2000.0, 2000.0)
        through: set[str] = set()
        open_: set[str] = set()
        for crossing in self.model.crossings:
            x, y = crossing.at[0] - origin[0], crossing.at[1] - origin[1]
            if crossing.system in GLUED and abs(x * along[1] - y * along[0]) < HAIR:
                (through if crossing.passing == "through" else open_).add(crossing.joist)
        climb = (piece.end[2] - piece.start[2]) / math.dist(piece.start[:2], piece.end[:2])
        bored, shut = [], []
        for joist in self.model.framing.joists:
            met = endless.intersection(self.joist_boxes[joist.id])
            if met.is_empty or joist.id in open_ - through:
                continue
            ends = sorted((x - origin[0]) * along[0] + (y - origin[1]) * along[1] for x, y in met.coords)
            z = piece.start[2] + climb * (ends[0] + ends[1]) / 2.0
            if joist.id in through:
                bored.append((ends[0], ends[1]))
            elif z - drain(piece.size).od / 2.0 < 0.0 and z + drain(piece.size).od / 2.0 > -joist.depth:
                shut.append((ends[0], ends[1]))
        return bored, shut

    def thread(self, mark: str, past: float) -> None:
        """Before anything is glued: out of a clear stretch, through bores, to `past` beyond its place."""
        assert not self.glued and not self.standing
        assert self.passed(mark)
        hub = self.near_hub(mark)
        low, high = self.from_hub(mark, hub)
        starts = self.starts(mark, hub, -math.inf)
        assert any(self.free(mark, hub, start, low + past, high - low) for start in starts), (
            f"{mark} cannot be threaded"
        )
        self.parked[mark] = (hub, low + past, high + past)

    def near_hub(self, mark: str) -> int:
        """Which end of a threaded piece is glued first: told by the steps' own order, so it is set before the run."""
        return self.first_end[mark]

    first_end: dict[str, int]

    def slide(self, mark: str, bond: Bond, step: Step) -> None:
        """Into the hub that stands: from a start at least a socket's depth off, through bores alone."""
        if not self.passed(mark) or not self.judged(mark):
            return
        assert not any(mark in self.sides(other) for other in self.glued), f"{mark} has a hub on it already"
        if bond.other != mark:
            return
        host = next(item for item in self.sides(bond) if item != mark)
        hub = bond.other_port
        low, high = self.from_hub(mark, hub)
        depth = self.port(bond, host).depth
        if mark in self.parked:
            assert self.parked.pop(mark)[1] - low >= self.needed(mark, host, depth) - HAIR
            return
        starts = self.starts(mark, hub, low + depth)
        assert any(self.free(mark, hub, low, start, high - low) for start in starts), (
            f"step {step.number}: {mark} cannot be slid in"
        )

    def needed(self, mark: str, host: str, depth: float) -> float:
        """How far off a threaded piece must lie while its hub's fitting was pushed on along the same line."""
        joined = next(bond for bond in self.glued if host in self.sides(bond) and mark not in self.sides(bond))
        own = self.port(joined, host)
        _, along, _, _ = self.line(mark)
        in_line = abs(own.toward[0] * along[0] + own.toward[1] * along[1]) > 0.5
        return depth + (own.depth if in_line else 0.0)

    def from_hub(self, mark: str, hub: int) -> tuple[float, float]:
        """A piece's sawn ends as distances along its line, counted up away from the hub."""
        _, _, low, high = self.line(mark)
        return (low, high) if hub == 0 else (-high, -low)

    def _turned(self, stretches: list[tuple[float, float]], hub: int) -> list[tuple[float, float]]:
        return stretches if hub == 0 else [(-b, -a) for a, b in stretches]

    def starts(self, mark: str, hub: int, least: float) -> list[float]:
        """Where the near end could lie at first: any free place can be pushed on until it meets wood or the hub."""
        bored, shut = (self._turned(stretches, hub) for stretches in self.wood_on(mark))
        low, high = self.from_hub(mark, hub)
        places = [least] if math.isfinite(least) else []
        places += [b for _, b in (*bored, *shut)] + [a - (high - low) for a, _ in (*bored, *shut)]
        length, filled = high - low - 2 * HAIR, (*bored, *shut, *self.beside(mark, hub))
        return [
            place
            for place in places
            if place >= least - HAIR and not any(a < place + length and b > place + 2 * HAIR for a, b in filled)
        ]

    def beside(self, mark: str, hub: int) -> list[tuple[float, float]]:
        """Where threaded pieces lie on the same line."""
        origin, along, _, _ = self.line(mark)
        found = []
        for other, (end, low, high) in self.parked.items():
            if other == mark:
                continue
            there, way, _, _ = self.line(other)
            cross = (there[0] - origin[0]) * along[1] - (there[1] - origin[1]) * along[0]
            if abs(cross) > HAIR or abs(way[0] * along[1] - way[1] * along[0]) > 1e-6:
                continue
            sign = 1.0 if end == 0 else -1.0
            base = (there[0] - origin[0]) * along[0] + (there[1] - origin[1]) * along[1]
            same = way[0] * along[0] + way[1] * along[1]
            ends = sorted(base + same * sign * t for t in (low, high))
            found.append((ends[0], ends[1]))
        return self._turned(found, hub)

    def free(self, mark: str, hub: int, a: float, b: float, length: float) -> bool:
        """Whether a piece can be moved between two places of its near end: no shut wood and no other pipe between."""
        _, shut = self.wood_on(mark)
        low, high = min(a, b), max(a, b) + length
        stretches = (*self._turned(shut, hub), *self.beside(mark, hub))
        return not any(c < high - 2 * HAIR and d > low + 2 * HAIR for c, d in stretches)


def _segment(origin: tuple[float, float], along: tuple[float, float], low: float, high: float) -> shapely.LineString:
    return shapely.LineString([(origin[0] + t * along[0], origin[1] + t * along[1]) for t in (low, high)])


def build(model: Model, steps: tuple[Step, ...]) -> Site:
    """Do every step of an order. AssertionError at the first that hands could not do."""
    site = Site(model)
    site.first_end = {}
    for step in steps:
        for bond in step.bonds:
            if bond.other in site.pieces:
                site.first_end.setdefault(bond.other, bond.other_port)
    site.run(steps)
    return site
