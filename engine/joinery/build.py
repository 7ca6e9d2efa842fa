"""build(...): the parts, bonds and pieces of a plan, read off its pipe graph and heights."""

from __future__ import annotations

import math
from collections.abc import Mapping
from itertools import combinations

from engine.crossings.hookups import closet_bend
from engine.crossings.records import Crossing
from engine.framing.records import Framing
from engine.joinery import cleanouts, ends, nipples, patterns, pieces, threading, tubing
from engine.joinery.choose import Choice, choose_bend, choose_branch, could_stand, straight
from engine.joinery.legs import Leg, legs_by_node
from engine.joinery.records import Joinery, Role
from engine.joinery.shop import Shop
from engine.piping.flow import is_under
from engine.piping.islands import foot_fitting
from engine.piping.records import Network, Node
from engine.plan.records import Fixture, Plan
from engine.rulebooks import RuleBook
from engine.trade import fittings
from engine.trade import fixtures as trade
from engine.trade.fittings import KINDS
from engine.water.network import WaterNetwork

DOUBLES = {
    "sanitary_tee": "double_sanitary_tee",
    "wye": "double_wye",
    "combo_wye_eighth_bend": "double_combo_wye_eighth_bend",
}
"""What takes two opposite branches where the single pattern takes one."""


def build(
    plan: Plan,
    book: RuleBook,
    network: Network,
    heights: dict[Node, float],
    crossings: tuple[Crossing, ...],
    framing: Framing,
    water: WaterNetwork,
) -> Joinery:
    """Choose a fitting for every node, hook up the fixtures, and cut the pipes between them."""
    shop = Shop(plan, book, network, heights)
    legs_at = legs_by_node(network)
    cleanouts.add_legs(shop, legs_at)
    trapped = {trap.node for trap in network.traps if trap.weir}
    _set_pins(shop, {node: legs for node, legs in legs_at.items() if node not in trapped})
    closets = {
        network.outlets[f.id]: f
        for f in plan.fixtures
        if f.id in network.outlets and trade.fixture(f.kind).outlet == "closet"
    }
    for node, legs in legs_at.items():
        if node in trapped:
            if len(legs) > 2:
                shop.no_fitting(node, legs, "a pipe meets the drain where the trap hangs", "Join it further down.")
            continue
        pin = shop.pins.get(node)
        _at_node(shop, node, legs, pin.pattern if pin is not None else None, closets)
    cleanouts.close(shop, legs_at)
    shop.depths = tuple(joist.depth for joist in framing.joists)
    tubing.add_water(shop, water)
    cut = pieces.cut(shop, ends.hook_up(shop))
    cut = threading.couple(shop, cut, crossings, framing)
    cut = nipples.fit(shop, cut)
    cut = pieces.mark_and_bond(shop, cut)
    return Joinery(tuple(shop.parts), tuple(shop.bonds), tuple(cut), tuple(shop.faults))


def _set_pins(shop: Shop, legs_at: Mapping[Node, list[Leg]]) -> None:
    """Give the fittings that the user chose to their nodes.

    Where several nodes lie over one point, as where a run drops onto a main, a choice goes to the first that it
    could fit. One that stands where nothing turns or meets is a fault, and so is a second one for a node.
    """
    there: dict[tuple[float, float, str], list[Node]] = {}
    for node, legs in legs_at.items():
        if len(legs) > 1 or node in shop.exit_nodes:
            there.setdefault((node.x, node.y, "under" if is_under(node) else "wall"), []).append(node)
    for pin in shop.plan.fittings:
        nodes = there.get((pin.at[0], pin.at[1], pin.level), [])
        free = [node for node in nodes if node not in shop.pins]
        if not free:
            what = "stands where no pipes turn or meet" if not nodes else f"is the second one at {shop.where(nodes[0])}"
            shop.fault(
                "fitting-does-not-fit",
                (pin.id,),
                (pin.at[0], pin.at[1], shop.heights.get(nodes[0], 0.0) if nodes else 0.0),
                f"The fitting chosen at {pin.id} {what}.",
                mend="Move it onto a corner or delete it.",
            )
            continue
        fit = [node for node in free if could_stand(legs_at[node], pin.pattern)]
        shop.pins[min(fit, key=lambda node: _on_its_back(legs_at[node], pin.pattern), default=free[0])] = pin


def _on_its_back(legs: list[Leg], pattern: str) -> bool:
    """Whether a sanitary tee would lie there, for want of an upright run."""
    upright = any(a.plumb and b.plumb and straight(a, b) for a, b in combinations(legs, 2))
    return pattern == "sanitary_tee" and not upright


def _at_node(shop: Shop, node: Node, legs: list[Leg], pinned: str | None, closets: Mapping[Node, Fixture]) -> None:
    ins = [leg for leg in legs if leg.flow == "in"]
    outs = [leg for leg in legs if leg.flow == "out"]
    dry = [leg for leg in legs if leg.flow == "dry"]
    if len(legs) == 1:
        return
    if len(outs) > 1:
        return
    if not outs and not ins:
        _vents_only(shop, node, dry, pinned)
        return
    if not outs and node in shop.exit_nodes:
        if len(legs) > 1:
            what = "two drains end" if len(ins) > 1 else "a vent stands"
            shop.no_fitting(node, legs, f"{what} at the exit", "Join them upstream of it.")
        return
    if not outs:
        return
    down = outs[0]
    feeders = [*ins, *dry]
    if len(feeders) == 1:
        up = feeders[0]
        _two(shop, node, up, down, pinned, closets)
        return
    run = next((leg for leg in feeders if straight(leg, down)), None)
    if run is None:
        shop.no_fitting(
            node,
            legs,
            "two pipes join where the main turns",
            "Move the joint a few inches along, so that one of them runs straight on.",
        )
        return
    sides = [leg for leg in feeders if leg is not run]
    if len(sides) == 1:
        _accept(shop, node, choose_branch(run, down, sides[0], pinned))
        return
    _double(shop, node, run, down, sides, pinned)


def _two(shop: Shop, node: Node, up: Leg, down: Leg, pinned: str | None, closets: Mapping[Node, Fixture]) -> None:
    if straight(up, down) and pinned is None:
        if up.size != down.size:
            shop.reducer(node, up, down)
        return
    closet = up.plumb and up.pipe.start in closets
    below = closet_bend(shop.plan, shop.book, (node.x, node.y), max(up.size, down.size)) if closet else ""
    _accept(shop, node, choose_bend(up, down, pinned, closet, below))


def _vents_only(shop: Shop, node: Node, dry: list[Leg], pinned: str | None) -> None:
    """Where only dry pipes meet: a bend, or a tee whose run is the plumb or the straight pair."""
    if len(dry) == 2:
        a, b = sorted(dry, key=lambda leg: leg.at_start)
        if straight(a, b) and pinned is None:
            if a.size != b.size:
                shop.reducer(node, a, b)
            return
        _accept(shop, node, choose_bend(a, b, pinned, False, ""))
        return
    pairs = [(a, b) for a, b in combinations(dry, 2) if straight(a, b)]
    if len(dry) == 4 and len(pairs) == 2:
        _dry_cross(shop, node, pairs, pinned)
        return
    if len(dry) != 3 or not pairs:
        shop.no_fitting(node, dry, "these vents meet in no tee", "Let one of them run straight on.")
        return
    first, second = pairs[0]
    upper, lower = (first, second) if first.toward[2] >= second.toward[2] else (second, first)
    side = next(leg for leg in dry if leg is not first and leg is not second)
    foot = foot_fitting(shop.book) if side.island and lower.island and lower.plumb else None
    _accept(shop, node, choose_branch(upper, lower, side, pinned, foot))


def _dry_cross(shop: Shop, node: Node, pairs: list[tuple[Leg, Leg]], pinned: str | None) -> None:
    """Four dry pipes in two straight lines: a double tee whose run is the upright one, or the one that air follows."""
    first, second = sorted(pairs, key=lambda pair: not pair[0].plumb)
    upper, lower = first if first[0].toward[2] >= first[1].toward[2] else first[::-1]
    _double(shop, node, upper, lower, list(second), pinned)


def _double(shop: Shop, node: Node, run: Leg, down: Leg, sides: list[Leg], pinned: str | None) -> None:
    opposite = len(sides) == 2 and straight(sides[0], sides[1])
    mirrored = len(sides) == 2 and _mirrored(sides[0], sides[1], down)
    first = choose_branch(run, down, sides[0], pinned)
    second = choose_branch(run, down, sides[1], pinned)
    if first.pinned and first.kind is None:
        _accept(shop, node, first)
        return
    double = DOUBLES.get(first.kind or "")
    if len(sides) != 2 or first.kind != second.kind or double is None or not (opposite or mirrored):
        shop.no_fitting(
            node,
            [run, down, *sides],
            "more pipes meet here than one fitting joins",
            "Move one of the branches along the main.",
        )
        return
    big = max(shop.adapter_hub(leg) for leg in sides)
    upright = run.plumb and down.plumb and down.flow == "out"
    if (
        upright
        and first.kind == "sanitary_tee"
        and not first.pinned
        and _sold("double_fixture_fitting", run, down, big)
    ):
        double = "double_fixture_fitting"
    roles: tuple[tuple[Role, Leg], ...] = (
        ("run_in", run),
        ("run_out", down),
        ("branch", sides[0]),
        ("branch_2", sides[1]),
    )
    if not _sold(double, run, down, big):
        words = KINDS[double].words
        shop.no_fitting(
            node, [run, down, *sides], f"no {words} is sold for these pipes", "Move one of the branches along."
        )
        return
    shop.place(node, double, first, roles, big)


def _sold(kind: str, run: Leg, down: Leg, side: float) -> bool:
    """Whether a double pattern is sold for these pipes, bushings counted in."""
    return fittings.sold(kind, patterns.branch(kind, run.size, down.size, side).size)


def _mirrored(a: Leg, b: Leg, down: Leg) -> bool:
    """Whether two branches lie as each other's mirror image about the run."""
    across = (a.toward[0] + b.toward[0], a.toward[1] + b.toward[1], a.toward[2] + b.toward[2])
    size = math.hypot(*across)
    if size == 0.0:
        return True
    along = sum(c * d for c, d in zip(across, down.toward, strict=True)) / size
    return abs(abs(along) - 1.0) < 1e-3


def _accept(shop: Shop, node: Node, choice: Choice) -> None:
    if choice.kind is None:
        elements = [leg.pipe.element for _, leg in choice.roles]
        shop.fault(
            "no-fitting-turns-so" if not choice.pinned else "fitting-does-not-fit",
            tuple(dict.fromkeys([shop.pins[node].id, *elements] if choice.pinned else elements)),
            shop.space(node),
            f"At {shop.where(node)} {choice.fault}.",
            measured=choice.measured,
            limit=choice.limit,
            unit="" if choice.measured is None else "degrees",
            mend=choice.mend,
        )
        return
    shop.place(node, choice.kind, choice, choice.roles, None)
