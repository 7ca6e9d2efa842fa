"""The heights that the exits may have, and the height chosen in each.

Every limit on a height under the floor is carried down to the foot of its reach. The exit's window is
[greatest low, least high]; a reach on an open rise has a window of its own, bounded from below by the main it
drops onto. Reaches are settled in one pass down (what the upper ones ask of the lower) and one pass up.
"""

from __future__ import annotations

import math
from collections.abc import Mapping
from typing import Literal

from engine.crossings.hookups import Street, bounds
from engine.crossings.records import Bound, Crossing, Window
from engine.framing.records import Framing, Joist
from engine.framing.telling import noun
from engine.lengths import down, up
from engine.piping.records import Network, Node, Reach
from engine.plan.records import Plan, Supply
from engine.rulebooks import RuleBook
from engine.trade.habits import SHOWING


def windows(
    plan: Plan, book: RuleBook, network: Network, framing: Framing, crossings: tuple[Crossing, ...]
) -> tuple[Window, ...]:
    """One window for each reach, exits first in file order, each with its chosen height."""
    held, streets = bounds(plan, book, network)
    members = {joist.id: joist for joist in framing.members}
    for crossing in crossings:
        _from_crossing(network, crossing, members[crossing.joist], held)
    pins = {exit_.id: exit_.pinned_z for exit_ in plan.exits}
    for reach in reversed(network.reaches):
        if reach.parent is None:
            continue
        high = _tightest(held.get(reach.number, ()), "high")
        if high is not None:
            main = reach.over or reach.foot
            held.setdefault(reach.parent, []).append(
                Bound("high", high.z - reach.least_rise - network.rise[main], high.by, high.element, high.at)
            )
    settled: dict[int, Window] = {}
    middle = mid_depth(framing)
    for reach in network.reaches:
        mine = list(held.get(reach.number, ()))
        if reach.parent is not None:
            main = reach.over or reach.foot
            foot = settled[reach.parent].chosen + network.rise[main] + reach.least_rise
            mine.append(
                Bound(
                    "low",
                    foot,
                    reach.room_for,
                    reach.element or "",
                    (main.x, main.y),
                )
            )
        settled[reach.number] = _window(reach, mine, streets, pins.get(reach.exit or ""), middle, members)
    return tuple(settled[reach.number] for reach in network.reaches)


def _from_crossing(network: Network, crossing: Crossing, wood: Joist, held: dict[int, list[Bound]]) -> None:
    """A bore holds the axis between two heights, pipe that passes under the joist below one; a notch holds nothing.

    A beam below the joists holds pipe that does not pass under it above its top.
    """
    pipe = network.by_id.get(crossing.pipe)
    if pipe is None or pipe.start not in network.reach:
        return
    rise = axis_above(network, pipe.start, pipe.slope, pipe.system, crossing.position)
    limits: list[tuple[Literal["low", "high"], float, str]] = []
    if crossing.passing == "under":
        limits.append(("high", wood.bottom - crossing.width / 2.0, "pipe clear below it"))
    elif wood.kind == "beam":
        if wood.top < 0.0:
            limits.append(("low", wood.top + crossing.width / 2.0, "pipe clear over it"))
    elif crossing.low is not None and crossing.high is not None:
        limits.append(("low", crossing.low, "wood below the bore"))
        limits.append(("high", crossing.high, "wood above the bore"))
    held.setdefault(network.reach[pipe.start], []).extend(
        Bound(side, z - rise, f"{noun(wood)} {wood.id}: {words}", wood.id, crossing.at) for side, z, words in limits
    )


def axis_above(network: Network, start: Node, slope: float, system: str, position: float) -> float:
    """Height above the reach's foot of a pipe's axis so far along it from its start."""
    fall = slope * position / 12.0
    return network.rise[start] - fall if system == "waste" else network.rise[start] + fall


def supply_axis(supply: Supply, middle: float) -> float:
    """How high a water line's axis lies, inches from the joists' top: as set, else at the joists' middle."""
    return middle if supply.down is None else -supply.down


def mid_depth(framing: Framing) -> float:
    """How high the middle of the shallowest joist lies, inches from the joists' top."""
    depth = min((joist.depth for joist in framing.joists), default=0.0)
    return -depth / 2.0


def _tightest(found: list[Bound] | tuple[Bound, ...], side: str) -> Bound | None:
    mine = [bound for bound in found if bound.side == side]
    if not mine:
        return None
    return max(mine, key=lambda b: b.z) if side == "low" else min(mine, key=lambda b: b.z)


def _window(
    reach: Reach,
    held: list[Bound],
    streets: list[Street],
    pinned: float | None,
    middle: float,
    wood: Mapping[str, Joist],
) -> Window:
    low, high = _tightest(held, "low"), _tightest(held, "high")
    mine = [street for street in streets if street.reach == reach.number]
    others: list[tuple[float, str]] = []
    for street in mine:
        rest = [b for b in held if not (b.side == "high" and b.element == street.closet)]
        top, bottom = _tightest(rest, "high"), _tightest(rest, "low")
        fits = (top is None or street.z <= top.z) and (bottom is None or street.z >= bottom.z)
        if fits:
            others.append((street.z, f"a street bend in the flange of {street.closet}"))
    low_z, high_z = (low.z if low else None), (high.z if high else None)
    low_by, high_by = (low.by if low else None), (high.by if high else None)
    empty = low_z is not None and high_z is not None and low_z > high_z
    if pinned is not None:
        chosen = pinned
    elif empty and others:
        chosen, low_by = others[0][0], others[0][1]
        low_z = high_z = chosen
        high_by = low_by
    else:
        near_top = reach.exit is not None and low is not None and low.element not in wood
        chosen = _choose(low_z, high_z, middle, reach.hung, near_top)
    return Window(
        reach=reach.number,
        exit=reach.exit,
        low=low_z,
        high=high_z,
        chosen=chosen,
        low_set_by=low_by,
        high_set_by=high_by,
        pinned=pinned is not None,
        others=tuple(others),
        bounds=tuple(held),
    )


def _choose(low: float | None, high: float | None, middle: float, hung: bool, near_top: bool) -> float:
    """The height taken where none is pinned: in the middle of what wood leaves, else near the top, so that pipe stays in the floor.

    `near_top` tells that it is no wood that bounds it from below, but how deep a trap may hang or a sewer lies.
    """
    if hung and high is not None and (low is None or low <= high):
        return high
    if low is not None and high is not None:
        half_way = (low + high) / 2.0
        return max(half_way, down(high - SHOWING)) if near_top and low <= high else half_way
    if high is not None:
        return down(high - SHOWING)
    if low is not None:
        return up(low)
    return middle


def heights(network: Network, settled: tuple[Window, ...]) -> dict[Node, float]:
    """The axis height of every node, inches from the joists' top; nodes under the floor that drain to no exit have none."""
    foot = {window.reach: window.chosen for window in settled}
    z = {node: foot[network.reach[node]] + rise for node, rise in network.rise.items()}
    for node in network.graph:
        if node.level > -1.0e8:
            z[node] = node.level
    return z


def crossing_heights(
    plan: Plan, network: Network, z: dict[Node, float], crossings: tuple[Crossing, ...], framing: Framing
) -> dict[str, float]:
    """The axis height at each crossing, inches; crossings of pipes whose height is not known are left out."""
    supplies = {supply.id: supply for supply in plan.supplies}
    middle = mid_depth(framing)
    found: dict[str, float] = {}
    for crossing in crossings:
        pipe = network.by_id.get(crossing.pipe)
        if pipe is None:
            supply = supplies.get(crossing.element)
            if supply is not None:
                found[crossing.id] = supply_axis(supply, middle)
            continue
        start = z.get(pipe.start)
        if start is None or math.isinf(start):
            continue
        fall = pipe.slope * crossing.position / 12.0
        found[crossing.id] = start - fall if pipe.system == "waste" else start + fall
    return found
