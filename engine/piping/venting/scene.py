"""What the methods of venting read: every arm, and the way by which air comes to each pipe."""

from __future__ import annotations

import msgspec

from engine.piping.flow import is_under
from engine.piping.loads import Loads
from engine.piping.records import Method, Node
from engine.piping.sticks import Stick, Sticks
from engine.piping.venting.air import dry_at, dry_stick_at
from engine.piping.venting.arms import Arm, follow, steep
from engine.piping.web import Web
from engine.plan.records import FixtureKind, Plan
from engine.rulebooks import RuleBook
from engine.trade import fixtures as trade


class Vented(msgspec.Struct, gc=False):
    """A method that fits a trap.

    `ends` is where its air is, `own` how many pipes of its arm lead there, `beyond` those it shares with another arm.
    `path` are the waste pipes that bring the air, from `dry` down.
    """

    method: Method
    source: str | None
    dry: Node | None
    starter: str
    ends: Node
    own: int
    path: list[Stick] = msgspec.field(default_factory=list)
    beyond: list[Stick] = msgspec.field(default_factory=list)
    system: tuple[str, ...] = ()


class Refused(msgspec.Struct, gc=False):
    """A method that would fit but for one thing: what, and the book's key that it goes against."""

    why: str
    breaks: str = ""


class Unknown(msgspec.Struct, gc=False):
    """A method that the book gives nothing about, neither a rule nor the word that it has none."""

    why: str


Attempt = Vented | Refused | Unknown | None


GROUPS: dict[Method, str] = {
    "common vent at one level": "common_vent",
    "common vent at two levels": "common_vent",
    "horizontal wet vent": "wet_vent",
    "vertical wet vent": "vertical_wet_vent",
    "waste stack vent": "stack_vent",
    "circuit vent": "circuit_vent",
    "combination waste and vent": "combination",
    "island vent": "island_vent",
}
"""The book's group of values on each method that a place may refuse as a whole."""


class Scene:
    """One plan's traps and pipes as the methods of venting see them. Read-only once made."""

    def __init__(self, plan: Plan, book: RuleBook, made: Sticks, web: Web, air: dict[str, str], loads: Loads) -> None:
        self.book = book
        self.loads = loads
        self.web = web
        self.air = air
        self.upright = book.number("slope.vertical_from")
        self.kinds = {fixture.id: fixture.kind for fixture in plan.fixtures}
        starts = made.trap_starts
        self.start = starts.__getitem__
        self.arms = {f.id: follow(web, f, starts[f.id], self.upright) for f in plan.fixtures if f.id in starts}
        self.ending: dict[Node, list[Arm]] = {}
        self.last: dict[str, Arm] = {}
        for arm in self.arms.values():
            if arm.ends is not None:
                self.ending.setdefault(arm.ends, []).append(arm)
                self.last[arm.sticks[-1].id] = arm
        self._up = self._ways_up()

    def steep(self, stick: Stick) -> bool:
        """Whether a pipe counts as vertical."""
        return steep(stick, self.upright)

    def starters(self, dry: Node) -> list[Arm]:
        """The arms that end where a dry vent meets the waste."""
        return self.ending.get(dry, [])

    def may_start(self, dry: Node) -> bool:
        """Whether a wet vent's air may come in at `dry` by the fixture whose drain the dry vent meets there."""
        return any(self.book.says(f"wet_vent.dry_from.{arm.fixture.kind}") for arm in self.starters(dry))

    def turns_level(self, node: Node) -> bool:
        """Whether a node is the foot of an upright drain: what flows on from it lies level."""
        onward = self.web.outflow.get(node)
        return is_under(node) and onward is not None and not self.steep(onward)

    def drops_in(self, arm: Arm) -> bool:
        """Whether an arm comes down onto what it joins; a closet's own drop is the whole of its arm, and no such thing."""
        return len(arm.sticks) > 1 and self.steep(arm.sticks[-1])

    def others(self, arm: Arm) -> tuple[list[Stick], list[Stick]]:
        """The drains that come in where an arm ends, without its own: those that bring air, and those that don't."""
        if arm.ends is None:
            return [], []
        beside = [stick for stick in self.web.inflow.get(arm.ends, ()) if stick.id != arm.sticks[-1].id]
        return [s for s in beside if s.id in self.air], [s for s in beside if s.id not in self.air]

    def _ways_up(self) -> dict[str, tuple[tuple[bool, int], Stick | None]]:
        """For each pipe that carries air, the pipe above it on the best way to a dry vent (None: it is at its head).

        Best is one that starts at a fixture which may start a wet vent, then the one with the fewest pipes.
        """
        up: dict[str, tuple[tuple[bool, int], Stick | None]] = {}
        for stick in self.web.order:
            if stick.id not in self.air:
                continue
            if dry_stick_at(self.web, stick.start) is not None:
                up[stick.id] = ((not self.may_start(stick.start), 1), None)
                continue
            above = [(up[s.id][0], s) for s in self.web.inflow.get(stick.start, ()) if s.id in up]
            if above:
                (late, count), best = min(above, key=lambda found: found[0])
                up[stick.id] = ((late, count + 1), best)
        return up

    def airway(self, stick: Stick) -> list[Stick]:
        """The waste pipes by which air comes down to a pipe's lower end, from the dry vent's meeting on."""
        path = [stick]
        while True:
            above = self._up[path[-1].id][1]
            if above is None:
                return path[::-1]
            path.append(above)

    def source(self, path: list[Stick]) -> str | None:
        """The dry element from which the air of a way comes."""
        return dry_at(self.web, path[0].start)

    def rule(self, group: str) -> str:
        """The first key of a group of the book's values, to cite for the whole of it; empty where it has none."""
        return next(iter(self.book.keys(group)), "")

    def in_group(self, kind: FixtureKind) -> bool:
        """Whether a kind of fixture belongs to a bathroom group: as the book lists its members, else as the trade has it."""
        if self.book.speaks_of("wet_vent.members"):
            key = f"wet_vent.members.{kind}"
            return self.book.has(key) and self.book.number(key) > 0.0
        return trade.fixture(kind).group

    def barred(self, method: Method) -> Refused | None:
        """What the book has against a method as a whole, None where it is accepted."""
        key = f"{GROUPS[method]}.allowed" if method in GROUPS else ""
        if not key or not self.book.has(key) or self.book.flag(key):
            return None
        return Refused(f"it would be vented as {method}, which is not accepted", key)

    def speaks(self, key: str, what: str) -> Unknown | None:
        """None where the book has a word on `key`, be it that it has no such rule; else what it does not say."""
        if self.book.speaks_of(key) or self.book.silence(key) is not None:
            return None
        return Unknown(f"the book says nothing on {what}")
