"""The directed sticks by the nodes they meet at: who comes in, who goes out, which are dry."""

from __future__ import annotations

from dataclasses import dataclass, field

from engine.piping.records import Node
from engine.piping.sticks import Stick, Sticks


@dataclass(slots=True)
class Web:
    """Adjacency of the directed sticks, and the waste sticks in the order the water takes them."""

    inflow: dict[Node, list[Stick]] = field(default_factory=dict)
    outflow: dict[Node, Stick] = field(default_factory=dict)
    dry: dict[Node, list[Stick]] = field(default_factory=dict)
    dry_in: dict[Node, list[Stick]] = field(default_factory=dict)
    order: list[Stick] = field(default_factory=list)
    aired: set[Node] = field(default_factory=set)

    def meeting(self, node: Node) -> int:
        """How many sticks meet at a node."""
        return (
            len(self.inflow.get(node, ()))
            + (1 if node in self.outflow else 0)
            + len(self.dry.get(node, ()))
            + len(self.dry_in.get(node, ()))
        )


def weave(made: Sticks, aired: set[Node]) -> Web:
    """Index the sticks by node and put the waste in order of flow, upstream first."""
    web = Web(aired=aired)
    leaving: dict[Node, list[Stick]] = {}
    for stick in made.all:
        if stick.system == "waste":
            web.inflow.setdefault(stick.end, []).append(stick)
            leaving.setdefault(stick.start, []).append(stick)
        else:
            web.dry.setdefault(stick.start, []).append(stick)
            web.dry_in.setdefault(stick.end, []).append(stick)
    web.outflow = {node: sticks[0] for node, sticks in leaving.items()}
    web.order = _upstream_first(web.inflow, leaving)
    return web


def _upstream_first(inflow: dict[Node, list[Stick]], leaving: dict[Node, list[Stick]]) -> list[Stick]:
    """The waste sticks so that each comes after all that flow into it: a node is passed once its last inflow is."""
    waiting = {node: len(sticks) for node, sticks in inflow.items()}
    ready = [node for node in leaving if node not in waiting]
    order: list[Stick] = []
    for node in ready:
        for stick in leaving.get(node, ()):
            order.append(stick)
            waiting[stick.end] -= 1
            if not waiting[stick.end]:
                ready.append(stick.end)
    return order
