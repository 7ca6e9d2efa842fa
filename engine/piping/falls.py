"""Heights above the exit: how far every node under the floor lies above the lower end of its reach.

A reach is everything whose heights hang together by flat joins and pinned rises. An open rise starts a reach
of its own, whose foot may stand anywhere above the main by at least the room that its fittings need.
"""

from __future__ import annotations

import math

from engine.piping.islands import foot_fitting
from engine.piping.records import Network, Node, Reach, is_under
from engine.piping.sticks import Sticks
from engine.piping.web import Web
from engine.plan.records import Drain, Plan
from engine.rulebooks import RuleBook
from engine.trade.fittings import takeoff
from engine.trade.pipe import drain as pipe


def settle(
    plan: Plan,
    book: RuleBook,
    made: Sticks,
    web: Web,
    network: Network,
    reached: dict[Node, str],
    ledges: dict[Node, tuple[str, Node]],
) -> None:
    """Fill in the network's reaches, and each node's rise above its reach's foot."""
    runs = {run.id: run for run in plan.drains}
    reaches: list[Reach] = []
    waiting: list[tuple[Node, int]] = []
    taken: dict[Node, float] = {}
    for exit_id, node in made.exits.items():
        if reached.get(node) != exit_id:
            continue
        reaches.append(Reach(len(reaches), node, exit_id, None, None, None, 0.0))
        network.reach[node] = reaches[-1].number
        network.rise[node] = 0.0
        waiting.append((node, reaches[-1].number))
    while waiting:
        node, number = waiting.pop()
        for stick in web.inflow.get(node, ()):
            above = stick.start
            if not is_under(above) or above in network.reach:
                continue
            if above in ledges:
                run = runs[ledges[above][0]]
                if run.rise is None:
                    main = web.outflow[node].final_size if node in web.outflow else stick.final_size
                    least = least_rise(plan, run, stick.final_size, main)
                    reaches.append(
                        Reach(
                            len(reaches),
                            above,
                            None,
                            number,
                            run.id,
                            None,
                            least,
                            over=node,
                            room_for=f"run {run.id}: room for the fittings of its drop",
                        )
                    )
                    network.reach[above], network.rise[above] = reaches[-1].number, 0.0
                    waiting.append((above, reaches[-1].number))
                    taken[above] = taken_by_roll(run, least)
                    continue
                network.rise[above] = network.rise[node] + run.rise
                taken[above] = taken_by_roll(run, run.rise)
            else:
                level = stick.run - taken.get(node, 0.0)
                network.rise[above] = network.rise[node] + stick.slope * max(0.0, level) / 12.0
            network.reach[above] = number
            waiting.append((above, number))
        for stick in (*web.dry.get(node, ()), *web.dry_in.get(node, ())):
            foot = stick.end if stick.start == node else stick.start
            if stick.shape == "plumb" and is_under(foot) and foot not in network.reach:
                main = max((s.final_size for s in web.inflow.get(node, ())), default=stick.final_size)
                reaches.append(
                    Reach(
                        len(reaches),
                        foot,
                        None,
                        number,
                        stick.element,
                        None,
                        foot_rise(plan, book, stick.final_size, main, _widest(web, foot)),
                        over=node,
                        room_for=f"riser {stick.element}: room under its foot vent for the fittings on the drain",
                        hung=True,
                    )
                )
                network.reach[foot], network.rise[foot] = reaches[-1].number, 0.0
                waiting.append((foot, reaches[-1].number))
        for stick in web.dry.get(node, ()):
            above = stick.end
            if is_under(above) and above not in network.reach:
                network.rise[above] = network.rise[node] + stick.slope * stick.run / 12.0
                network.reach[above] = number
                waiting.append((above, number))
        for stick in web.dry_in.get(node, ()):
            below = stick.start
            if is_under(below) and below not in network.reach:
                network.rise[below] = network.rise[node] - stick.slope * stick.run / 12.0
                network.reach[below] = number
                waiting.append((below, number))
    network.reaches = tuple(reaches)


def taken_by_roll(run: Drain, climb: float) -> float:
    """How much of its plan length a run's rolled lower end takes, over which it does not fall at its own slope, inches.

    An open climb is counted with its least: what it climbs besides takes so little that it is left out.
    """
    return climb / math.tan(math.radians(run.roll)) if run.join == "rolled" and run.roll else 0.0


def least_rise(plan: Plan, run: Drain, size: float, main: float) -> float:
    """The least climb of a drop or roll onto a main: a combination's branch below, a bend above, hubs touching, inches."""
    bend, climb = ("long_sweep_quarter_bend", 90.0) if run.join == "drop" else ("eighth_bend", run.roll)
    run_size = max(main, size)
    up = takeoff("combo_wye_eighth_bend", (run_size, run_size, size), "branch", plan.takeoffs).length
    along = up + takeoff(bend, (size, size), "run_out", plan.takeoffs).length + 2.0 * pipe(size).socket
    return along * math.sin(math.radians(climb))


def foot_rise(plan: Plan, book: RuleBook, size: float, main: float, wide: float) -> float:
    """The least height of a foot vent's take-off over its drain: a combination's branch, the fitting's foot, hubs touching.

    `size` is the pipe between them, `main` the drain's, `wide` the widest that meets at the take-off.
    """
    run = max(main, size)
    up = takeoff("combo_wye_eighth_bend", (run, run, size), "branch", plan.takeoffs).length
    foot = takeoff(foot_fitting(book), (wide, wide, wide), "run_out", plan.takeoffs).length
    return up + foot + bushing(plan, size, wide) + 2.0 * pipe(size).socket


def bushing(plan: Plan, size: float, hub: float) -> float:
    """What a flush bushing adds to a hub's take-off where its pipe is smaller; nothing where it is not."""
    return takeoff("flush_bushing_addon", (size, hub), "run_in", plan.takeoffs).length if size < hub else 0.0


def _widest(web: Web, node: Node) -> float:
    """The widest of the dry pipes that meet at a node."""
    sizes: list[float] = [stick.final_size for stick in (*web.dry.get(node, ()), *web.dry_in.get(node, ()))]
    return max(sizes)
