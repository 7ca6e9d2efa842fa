"""Where pipes begin and end: closets, floor outlets, tubs, wall outlets, the exit, the roof."""

from __future__ import annotations

from engine.crossings.hookups import flange_of
from engine.drafting.finished import under_fixture
from engine.joinery.pieces import Stub
from engine.joinery.records import Bond, Port, Space, System, TakeOff
from engine.joinery.shared_traps import share_traps
from engine.joinery.shop import Shop
from engine.joinery.wall_traps import test_plug, wall_trap
from engine.piping.records import Node, Pipe, Trap
from engine.plan.records import Exit, Fixture, Riser
from engine.trade import fixtures as trade
from engine.trade.fittings import KINDS
from engine.trade.habits import CLOSET_EXTRAS
from engine.trade.pipe import drain

UP: Space = (0.0, 0.0, 1.0)
DOWN: Space = (0.0, 0.0, -1.0)


def hook_up(shop: Shop) -> list[Stub]:
    """Add the parts at every fixture, exit and open top. Returns the pipes that the graph does not draw."""
    stubs: list[Stub] = []
    by_fixture = {trap.fixture: trap for trap in shop.network.traps}
    for fixture in shop.plan.fixtures:
        trap = by_fixture.get(fixture.id)
        if trap is None:
            continue
        outlet = trade.fixture(fixture.kind).outlet
        if outlet == "closet":
            _closet(shop, fixture, shop.network.by_id[f"{fixture.id}.drop"])
        elif outlet in ("floor", "tub"):
            _floor_trap(shop, fixture, trap, outlet)
        else:
            wall_trap(shop, fixture, trap, stubs)
    share_traps(shop, by_fixture)
    for exit_ in shop.plan.exits:
        _exit(shop, exit_, stubs)
    highest = _uppermost(shop)
    for riser in shop.plan.risers:
        _top(shop, riser, highest.get(riser.id))
    return stubs


def _closet(shop: Shop, fixture: Fixture, pipe: Pipe) -> None:
    node = Node(pipe.start.x, pipe.start.y, under_fixture(shop.plan, fixture))
    kind, size = flange_of(pipe.size)
    off = shop.take_off(kind, size, "run_out")
    port = Port("run_out", pipe.id, DOWN, pipe.size, "hub", off, drain(pipe.size).socket)
    flange = shop.add(kind, size, "waste", node, (port,), elements=(fixture.id,), centre=(node.x, node.y, node.level))
    shop.seat[(pipe.id, True)] = (flange, 0)
    for extra in CLOSET_EXTRAS:
        shop.add(extra, (), "waste", node, (), elements=(fixture.id,))
    shop.add(
        "test_cap", (pipe.size,), "waste", node, (), elements=(fixture.id,), note="closes the closet stub for the test"
    )


def _floor_trap(shop: Shop, fixture: Fixture, trap: Trap, outlet: str) -> None:
    drop = shop.network.by_id[f"{fixture.id}.drop"]
    node = drop.end
    if not trap.arm:
        return
    arm = shop.network.by_id[trap.arm[0]]
    toward: Space = (arm.heading[0], arm.heading[1], 0.0)
    z = shop.heights.get(node)
    inlet, reach = (shop.take_off("p_trap", (trap.size, trap.size), leg) for leg in ("run_in", "run_out"))
    fallen = arm.slope * trap.weir / 12.0
    wide = TakeOff(inlet.length - fallen, inlet.tolerance, inlet.standing, inlet.source)
    socket = drain(trap.size).socket
    ports = (
        Port("inlet", drop.id, UP, trap.size, "hub", wide, socket),
        Port("outlet", arm.id, toward, trap.size, "hub", reach, socket),
    )
    centre = None if z is None else (node.x, node.y, z - fallen)
    index = shop.add(
        "p_trap", (trap.size, trap.size), "waste", node, ports, elements=(fixture.id, arm.element), centre=centre
    )
    shop.seat[(drop.id, False)] = (index, 0)
    shop.seat[(arm.id, True)] = (index, 1)
    if outlet == "tub":
        shop.dead.add(drop.id)
        shop.add("waste_and_overflow", (1.5,), "waste", node, (), elements=(fixture.id,))
        adapter = shop.add(
            "trap_adapter_spigot",
            (trap.size, 1.5),
            "waste",
            node,
            (),
            elements=(fixture.id,),
            note="in the trap's inlet",
        )
        shop.bonds.append(Bond(shop.parts[index].id, 0, shop.parts[adapter].id, 0, trap.size))
        test_plug(shop, fixture, node, trap.size)
    else:
        shop.add(
            "test_cap",
            (trap.size,),
            "waste",
            node,
            (),
            elements=(fixture.id,),
            note="closes the drain's stub for the test",
        )


def _exit(shop: Shop, exit_: Exit, stubs: list[Stub]) -> None:
    node = shop.network.exits.get(exit_.id)
    if node is None or node not in shop.heights:
        return
    into = [shop.network.graph.edges[a, node]["pipe"] for a in shop.network.graph.predecessors(node)]
    if len(into) != 1:
        return
    pipe: Pipe = into[0]
    socket = drain(pipe.size).socket
    z = shop.heights[node]
    shop.add(
        "test_cap", (pipe.size,), "waste", node, (), elements=(exit_.id,), note="closes the building drain for the test"
    )
    if exit_.how != "turn-down" or pipe.shape == "plumb":
        return
    kind = _exit_bend(shop, exit_, node)
    back: Space = (-pipe.heading[0], -pipe.heading[1], 0.0)
    entering, leaving = (shop.take_off(kind, (pipe.size, pipe.size), leg) for leg in ("run_in", "run_out"))
    legs = (
        Port("run_in", pipe.id, back, pipe.size, "hub", entering, socket),
        Port("run_out", None, DOWN, pipe.size, "hub", leaving, socket),
    )
    index = shop.add(
        kind,
        (pipe.size, pipe.size),
        "waste",
        node,
        legs,
        turn=90.0,
        change="horizontal_to_vertical",
        pinned=node in shop.pins,
        elements=(pipe.element, exit_.id),
    )
    shop.seat[(pipe.id, False)] = (index, 0)
    stubs.append(
        Stub(
            "waste",
            pipe.size,
            (node.x, node.y, z),
            (node.x, node.y, exit_.tail_z),
            (index, 1),
            None,
            f"{exit_.id}.tail",
        )
    )


def _exit_bend(shop: Shop, exit_: Exit, node: Node) -> str:
    """The bend in which the building drain turns down: the user's where it is a quarter turn, else the short one."""
    pin = shop.pins.get(node)
    if pin is None:
        return "quarter_bend"
    if pin.pattern in ("quarter_bend", "long_sweep_quarter_bend"):
        return pin.pattern
    words = KINDS[pin.pattern].words
    shop.fault(
        "fitting-does-not-fit",
        (pin.id, exit_.id),
        shop.space(node),
        f"The {words} chosen at exit {exit_.id} does not turn one pipe down: a quarter bend or a long sweep does.",
        mend="Choose one of those or delete it.",
    )
    return "quarter_bend"


def _uppermost(shop: Shop) -> dict[str, Pipe]:
    """The highest pipe of every element."""
    found: dict[str, Pipe] = {}
    for pipe in shop.network.pipes:
        best = found.get(pipe.element)
        if best is None or _upper(pipe) > _upper(best):
            found[pipe.element] = pipe
    return found


def _top(shop: Shop, riser: Riser, uppermost: Pipe | None) -> None:
    if uppermost is None or riser.top in ("none", "loop"):
        return
    at = uppermost.end if uppermost.end.level > uppermost.start.level else uppermost.start
    if shop.network.graph.degree(at) > 1:
        return
    system: System = "vent"
    size = (uppermost.size, uppermost.size)
    if riser.top == "roof":
        shop.add("vent_flashing", (uppermost.size,), system, at, (), elements=(riser.id,))
    elif riser.top == "valve":
        adapter = _on_top(shop, riser, uppermost, at, "aav_adapter", shop.take_off("aav_adapter", size, "run_in"))
        shop.replace(adapter, note="the valve goes on after the test")
        shop.add("admittance_valve", (uppermost.size,), system, at, (), elements=(riser.id,), note="after the test")
    else:
        none = TakeOff(0.0, 0.0, "derived", "a cap closes the end of the pipe: nothing to take off")
        _on_top(shop, riser, uppermost, at, "end_cap", none)


def _on_top(shop: Shop, riser: Riser, pipe: Pipe, at: Node, kind: str, off: TakeOff) -> int:
    """Set a part on a riser's upper end. Returns its index."""
    socket = drain(pipe.size).socket
    port = Port("run_in", pipe.id, DOWN, pipe.size, "hub", off, socket)
    sizes = (pipe.size, pipe.size) if kind in KINDS else (pipe.size,)
    index = shop.add(kind, sizes, "vent", at, (port,), elements=(riser.id,))
    shop.seat[(pipe.id, at == pipe.start)] = (index, 0)
    return index


def _upper(pipe: Pipe) -> float:
    return max(pipe.start.level, pipe.end.level)
