"""The bench on which a plan's joinery is put together: parts so far, which pipe end sits in which port, faults."""

from __future__ import annotations

import math

import msgspec

from engine.joinery import patterns
from engine.joinery.choose import Choice
from engine.joinery.legs import Leg, clock
from engine.joinery.records import Bond, Change, Part, Port, Role, Space, System, TakeOff
from engine.lengths import feet_inches
from engine.piping.records import Fault, Network, Node, Pipe
from engine.plan.records import PinnedFitting, Plan
from engine.rulebooks import RuleBook
from engine.trade import fittings
from engine.trade import fixtures as trade
from engine.trade.fittings import LegName
from engine.trade.habits import LARGEST_TUBULAR
from engine.trade.pipe import drain

LEG_OF: dict[Role, LegName] = {
    "run_in": "run_in",
    "run_out": "run_out",
    "branch": "branch",
    "branch_2": "branch",
    "inlet": "run_in",
    "outlet": "run_out",
}
"""Which leg of the catalogue gives each port its take-off."""

End = tuple[str, bool]
"""One end of a pipe: its id, and whether it is the start."""

_HUB = {"run_in": "upper", "run_out": "lower", "branch_2": "second branch"}
"""What a fitting's hubs are called by who glues it: water comes in by the upper one."""


class Shop:
    """Collects parts, bonds and faults.

    `seat` tells which part and port each pipe end enters, `pins` which fittings the user chose at which node,
    `dead` which pipes of the graph are no pipe to buy, `glued` which arms lead from a standpipe's trap whatever their size.
    """

    def __init__(self, plan: Plan, book: RuleBook, network: Network, heights: dict[Node, float]) -> None:
        self.plan = plan
        self.depths: tuple[float, ...] = ()
        self.book = book
        self.network = network
        self.heights = heights
        self.parts: list[Part] = []
        self.bonds: list[Bond] = []
        self.faults: list[Fault] = []
        self.seat: dict[End, tuple[int, int]] = {}
        self.dead: set[str] = set()
        self.exit_nodes = set(network.exits.values())
        self.tails = {
            network.exits[exit_.id]: exit_.tail_z
            for exit_ in plan.exits
            if exit_.id in network.exits and exit_.how == "turn-down"
        }
        self.pins: dict[Node, PinnedFitting] = {}
        self.glued = {
            f"{fixture.id}.arm" for fixture in plan.fixtures if trade.fixture(fixture.kind).comes_by == "standpipe"
        }
        self._serial = 0
        self._index: dict[str, int] = {}

    def space(self, node: Node) -> Space:
        """A node's place; z is 0 where its height is not known."""
        return (node.x, node.y, self.heights.get(node, 0.0))

    def where(self, node: Node) -> str:
        """A node in words."""
        return f"{feet_inches(node.x)} east, {feet_inches(node.y)} north"

    def fault(
        self,
        rule: str,
        elements: tuple[str, ...],
        at: Space,
        text: str,
        measured: float | None = None,
        limit: float | None = None,
        unit: str = "",
        mend: str = "",
    ) -> None:
        """Note something that cannot be put together."""
        self.faults.append(Fault(rule, elements, (at[0], at[1]), text, measured, limit, mend, at[2], unit))

    def no_fitting(self, node: Node, legs: list[Leg], why: str, mend: str) -> None:
        """Note that no fitting joins these legs."""
        elements = tuple(dict.fromkeys(leg.pipe.element for leg in legs))
        self.fault("no-fitting-joins-these", elements, self.space(node), f"At {self.where(node)} {why}.", mend=mend)

    def add(
        self,
        kind: str,
        size: tuple[float, ...],
        system: System,
        node: Node,
        ports: tuple[Port, ...],
        *,
        centre: Space | None = None,
        turn: float = 0.0,
        change: Change = "none",
        dial: float | None = None,
        pinned: bool = False,
        elements: tuple[str, ...] = (),
        note: str = "",
    ) -> int:
        """Put one part on the bench. Returns its index."""
        self._serial += 1
        self.parts.append(
            Part(
                f"p{self._serial}",
                kind,
                size,
                system,
                (node.x, node.y, node.level),
                centre or self.space(node),
                ports,
                turn,
                change,
                dial,
                pinned,
                elements,
                note,
            )
        )
        self._index[self.parts[-1].id] = len(self.parts) - 1
        return len(self.parts) - 1

    def part(self, name: str | None) -> Part:
        """A part on the bench by its id; KeyError when there is none."""
        return self.parts[self._index[name or ""]]

    def replace(self, index: int, **changes: object) -> None:
        """Change fields of a part already on the bench."""
        self.parts[index] = msgspec.structs.replace(self.parts[index], **changes)

    def take_off(self, kind: str, size: tuple[float, ...], leg: LegName) -> TakeOff:
        """How far a leg's pipe stops short of a fitting's centre: measured, else of the catalogue, else assumed."""
        found = fittings.takeoff(kind, size, leg, self.plan.takeoffs)
        return TakeOff(found.length, found.tolerance, found.standing, found.source)

    def place(
        self, node: Node, kind: str, choice: Choice, roles: tuple[tuple[Role, Leg], ...], side: float | None
    ) -> None:
        """Put the chosen fitting at a node and seat the pipes that meet there in its ports."""
        if choice.by_hand:
            self._wye_and_eighth(node, choice, dict(roles))
            return
        sizes = {role: leg.size for role, leg in roles}
        if "branch" in sizes:
            hub = side if side is not None else sizes["branch"]
            if kind == "sanitary_tee":
                hub = max(hub, self.adapter_hub(dict(roles)["branch"]))
            pattern = patterns.branch(kind, sizes["run_in"], sizes["run_out"], hub)
        elif kind == "closet_bend":
            pattern = patterns.Pattern(kind, (4.0, 3.0))
        else:
            pattern = patterns.bend(kind, sizes["run_in"], sizes["run_out"])
        ports = tuple(self._port(pattern, role, leg) for role, leg in roles)
        by_role = dict(roles)
        dial = None
        if "branch" in by_role:
            dial = clock(by_role["branch"].toward, by_role["run_in"].toward)
        dry = all(leg.dry for _, leg in roles)
        index = self.add(
            pattern.kind,
            pattern.size,
            "vent" if dry else "waste",
            node,
            ports,
            turn=choice.turn,
            change=choice.change,
            dial=dial,
            pinned=choice.pinned,
            elements=(*dict.fromkeys(leg.pipe.element for _, leg in roles), *self._chosen(node, choice)),
        )
        for number, (role, leg) in enumerate(roles):
            self.seat[(leg.pipe.id, leg.at_start)] = (index, number)
            if leg.size < pattern.hub(role) and not self.tubular(leg):
                self.bushing(index, number, leg, pattern.hub(role))

    def _chosen(self, node: Node, choice: Choice) -> tuple[str, ...]:
        """The user's own choice of the fitting at a node, where there is one."""
        pin = self.pins.get(node)
        return (pin.id,) if choice.pinned and pin is not None else ()

    def _wye_and_eighth(self, node: Node, choice: Choice, legs: dict[Role, Leg]) -> None:
        """A combination made by hand: a wye with a street eighth bend in its branch, set back from the corner.

        With b the wye's branch, s the bend from centre to tip and h its hub, the wye's centre lies 0.7071 (b + s)
        downstream of the corner and the bend's stop 0.7071 (b + s) + h from the run's axis (by geometry).
        """
        up, down, side = legs["run_in"], legs["run_out"], legs["branch"]
        pattern = patterns.branch("wye", up.size, down.size, side.size)
        bend = patterns.Pattern("street_eighth_bend", (side.size, side.size))
        tip = patterns.leg(bend, "run_out", side.size, self.plan.takeoffs)
        hub = patterns.leg(bend, "run_in", side.size, self.plan.takeoffs)
        slant = patterns.leg(pattern, "branch", side.size, self.plan.takeoffs)
        back = math.sqrt(0.5) * (slant.length + tip.length)
        run_in = patterns.leg(pattern, "run_in", up.size, self.plan.takeoffs)
        run_out = patterns.leg(pattern, "run_out", down.size, self.plan.takeoffs)
        lean: Space = tuple(  # type: ignore[assignment]
            math.sqrt(0.5) * (a - b) for a, b in zip(side.toward, down.toward, strict=True)
        )
        elements = tuple(dict.fromkeys(leg.pipe.element for leg in (up, down, side)))
        x, y, z = self.space(node)
        centre = (x + back * down.toward[0], y + back * down.toward[1], z + back * down.toward[2])
        wye = self.add(
            "wye",
            pattern.size,
            "waste",
            node,
            (
                Port("run_in", up.pipe.id, up.toward, up.size, "hub", _moved(run_in, -back), drain(up.size).socket),
                Port(
                    "run_out",
                    down.pipe.id,
                    down.toward,
                    down.size,
                    "hub",
                    _moved(run_out, back),
                    drain(down.size).socket,
                ),
                Port("branch", None, lean, side.size, "hub", slant, drain(side.size).socket),
            ),
            centre=centre,
            turn=choice.turn,
            change=choice.change,
            dial=clock(side.toward, up.toward),
            pinned=True,
            elements=elements,
        )
        away: Space = (-lean[0], -lean[1], -lean[2])
        eighth = self.add(
            "street_eighth_bend",
            bend.size,
            "waste",
            node,
            (
                Port("run_out", None, away, side.size, "spigot", tip, drain(side.size).socket),
                Port("run_in", side.pipe.id, side.toward, side.size, "hub", _moved(hub, back), drain(side.size).socket),
            ),
            elements=elements,
            note="its spigot goes into the wye's branch",
        )
        self.bonds.append(Bond(self.parts[wye].id, 2, self.parts[eighth].id, 0, side.size))
        for leg, seat in ((up, (wye, 0)), (down, (wye, 1)), (side, (eighth, 1))):
            self.seat[(leg.pipe.id, leg.at_start)] = seat
        for number, leg, role in ((0, up, "run_in"), (1, down, "run_out"), (2, side, "branch")):
            if leg.size < pattern.hub(role):
                self.bushing(wye, number, leg, pattern.hub(role))

    def _port(self, pattern: patterns.Pattern, role: Role, leg: Leg) -> Port:
        sold_role = LEG_OF[role]
        size = pattern.hub(sold_role) if self.tubular(leg) else leg.size
        found = patterns.leg(pattern, sold_role, size, self.plan.takeoffs)
        return Port(role, leg.pipe.id, leg.toward, leg.size, "hub", found, drain(leg.size).socket)

    def adapter_hub(self, leg: Leg) -> float:
        """The least hub that a trap adapter for this arm fills: 1-1/2 in for the tubular traps of sinks."""
        return max(leg.size, 1.5) if self.tubular(leg) else leg.size

    def tubular(self, leg: Leg) -> bool:
        """Whether a leg is the arm of a tubular trap, which no glued pipe makes."""
        return self.tubular_arm(leg.pipe)

    def tubular_arm(self, pipe: Pipe) -> bool:
        """Whether a pipe of the graph stands for the outlet of a trap with slip nuts."""
        return pipe.id.endswith(".arm") and pipe.size <= LARGEST_TUBULAR and pipe.id not in self.glued

    def bushing(self, part: int, port: int, leg: Leg, hub: float) -> None:
        """Add the flush bushing that brings a hub down to its pipe, and its joint with the hub."""
        host = self.parts[part]
        index = self.add(
            "flush_bushing",
            (hub, leg.size),
            host.system,
            Node(*host.node),
            (),
            centre=host.centre,
            elements=host.elements,
            note=f"in the {_HUB.get(host.ports[port].role, host.ports[port].role.replace('_', ' '))} hub",
        )
        self.bonds.append(Bond(host.id, port, self.parts[index].id, 0, hub))

    def reducer(self, node: Node, up: Leg, down: Leg) -> None:
        """A reducer where a straight run changes size."""
        big, small = max(up.size, down.size), min(up.size, down.size)
        ports = []
        both: tuple[tuple[Role, Leg], ...] = (("run_in", up), ("run_out", down))
        for role, leg in both:
            off = self.take_off("reducer_coupling", (big, small), "run_in" if leg.size == big else "run_out")
            ports.append(Port(role, leg.pipe.id, leg.toward, leg.size, "hub", off, drain(leg.size).socket))
        index = self.add(
            "reducer_coupling",
            (big, small),
            "vent" if up.dry and down.dry else "waste",
            node,
            tuple(ports),
            elements=tuple(dict.fromkeys((up.pipe.element, down.pipe.element))),
        )
        self.seat[(up.pipe.id, up.at_start)] = (index, 0)
        self.seat[(down.pipe.id, down.at_start)] = (index, 1)


def _moved(takeoff: TakeOff, by: float) -> TakeOff:
    """A take-off counted from a corner that lies so far from the fitting's own centre."""
    return msgspec.structs.replace(takeoff, length=takeoff.length + by)
