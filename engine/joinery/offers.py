"""What may be chosen by hand: where pipes turn or meet, what stands there now, and which fittings could instead."""

from __future__ import annotations

from collections.abc import Iterable
from typing import NamedTuple

from msgspec.structs import replace

from engine.crossings.records import Crossing
from engine.framing.records import Framing
from engine.joinery.build import build
from engine.joinery.choose import straight
from engine.joinery.legs import legs_by_node
from engine.joinery.records import Joinery, Part
from engine.piping.flow import is_under
from engine.piping.records import Network, Node
from engine.plan.outline import PATTERNS
from engine.plan.records import Level, Pattern, PinnedFitting, Plan, Point
from engine.rulebooks import RuleBook
from engine.trade import fixtures as trade

MISFIT = "fitting-does-not-fit"
"""The rule under which a choice that can't stand is told."""

TRIAL = "0"
"""What the fitting under trial is called; no other has to keep clear of it, for it stands in no plan."""


class Corner(NamedTuple):
    """A place where waste or vent pipes turn or meet, under the floor or in the wall."""

    at: Point
    level: Level


def corners(network: Network, joinery: Joinery) -> tuple[Corner, ...]:
    """Every place where a fitting turns or joins pipes, or would if one could stand there."""
    trapped = {trap.node for trap in network.traps if trap.weir}
    found = [_corner(Node(*part.node)) for part in joinery.parts if part.turn > 0.0]
    for node, legs in legs_by_node(network).items():
        if node not in trapped and (len(legs) > 2 or (len(legs) == 2 and not straight(*legs))):
            found.append(_corner(node))
    return tuple(dict.fromkeys(found))


def standing(joinery: Joinery, corner: Corner) -> tuple[Part, ...]:
    """The fittings that turn or join pipes there now; in the wall there may be several, one over the other."""
    return tuple(part for part in joinery.parts if part.turn > 0.0 and _corner(Node(*part.node)) == corner)


def pinned(plan: Plan, corner: Corner) -> PinnedFitting | None:
    """The fitting that is chosen by hand there, if one is."""
    return next((pin for pin in plan.fittings if (pin.at, pin.level) == corner), None)


def offers(
    plan: Plan,
    book: RuleBook,
    network: Network,
    heights: dict[Node, float],
    crossings: tuple[Crossing, ...],
    framing: Framing,
    corner: Corner,
) -> tuple[Pattern, ...]:
    """The fittings that can stand at a corner: each is tried, and the joinery of the plan with it has no objection.

    Whether the rule book lets one stand there is not asked. A closet bend is offered under a closet only.
    """
    bare = tuple(pin for pin in plan.fittings if (pin.at, pin.level) != corner)
    closet = corner in _closets(plan, network)

    def stands(pattern: Pattern) -> bool:
        tried = replace(plan, fittings=(PinnedFitting(TRIAL, corner.at, pattern, corner.level), *bare))
        made = build(tried, book, network, heights, crossings, framing)
        objected = any(fault.rule == MISFIT and TRIAL in fault.elements for fault in made.faults)
        return not objected and any(part.pinned for part in standing(made, corner))

    return tuple(pattern for pattern in PATTERNS if (closet or pattern != "closet_bend") and stands(pattern))


def _closets(plan: Plan, network: Network) -> Iterable[Corner]:
    """The places under closets."""
    for fixture in plan.fixtures:
        node = network.outlets.get(fixture.id)
        if node is not None and trade.fixture(fixture.kind).outlet == "closet":
            yield Corner((node.x, node.y), "under")


def _corner(node: Node) -> Corner:
    return Corner((node.x, node.y), "under" if is_under(node) else "wall")
