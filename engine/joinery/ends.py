"""Where pipes begin and end: closets, floor outlets, tubs, wall outlets, the exit, the roof."""

from __future__ import annotations

from engine.crossings.hookups import flange_of
from engine.joinery.pieces import Stub
from engine.joinery.records import Bond, Part, Port, Space, System, TakeOff
from engine.joinery.shop import Shop
from engine.piping.records import Node, Pipe, Trap
from engine.plan.records import Exit, Fixture, Riser
from engine.trade import fittings
from engine.trade import fixtures as trade
from engine.trade.fittings import KINDS
from engine.trade.habits import CLOSET_EXTRAS, LARGEST_TUBULAR
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
            _wall_trap(shop, fixture, trap, stubs)
    _sharing(shop, by_fixture)
    for exit_ in shop.plan.exits:
        _exit(shop, exit_, stubs)
    highest = _uppermost(shop)
    for riser in shop.plan.risers:
        _top(shop, riser, highest.get(riser.id))
    return stubs


def _sharing(shop: Shop, traps: dict[str, Trap]) -> None:
    """What brings further bowls, and what drains through another fixture, to the one trap."""
    for fixture in shop.plan.fixtures:
        trap = traps.get(fixture.id)
        if trap is not None and trade.fixture(fixture.kind).outlet == "wall":
            for bowl in range(1, fixture.bowls):
                note = f"brings bowl {bowl + 1} to the trap"
                shop.add("continuous_waste", (trap.size,), "waste", trap.node, (), elements=(fixture.id,), note=note)
        host = traps.get(fixture.through or "")
        if host is None or fixture.kind != "dishwasher":
            continue
        own = (fixture.id, host.fixture)
        sink = next(one for one in shop.plan.fixtures if one.id == host.fixture)
        if not sink.disposer:
            note = "over the sink's trap, for the dishwasher's hose"
            shop.add("branch_tailpiece", (host.size,), "waste", host.node, (), elements=own, note=note)
        shop.add("hose_clamp", (), "waste", host.node, (), elements=own, note="on the dishwasher's hose")
        if shop.book.says("dishwasher.air_gap"):
            note = "over the sink's rim, between dishwasher and drain"
            shop.add("air_gap_fitting", (), "waste", host.node, (), elements=own, note=note)


def _off(shop: Shop, kind: str, size: tuple[float, ...], leg: str) -> TakeOff:
    found = fittings.takeoff(kind, size, leg, shop.plan.takeoffs)  # type: ignore[arg-type]
    return TakeOff(found.length, found.tolerance, found.standing, found.source)


def _closet(shop: Shop, fixture: Fixture, pipe: Pipe) -> None:
    node = Node(pipe.start.x, pipe.start.y, shop.plan.floor.finished_z)
    kind, size = flange_of(pipe.size)
    off = _off(shop, kind, size, "run_out")
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
    inlet, reach = (_off(shop, "p_trap", (trap.size, trap.size), leg) for leg in ("run_in", "run_out"))
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
        shop.add(
            "test_plug",
            (trap.size,),
            "waste",
            node,
            (),
            elements=(fixture.id,),
            note="closes the trap adapter for the test",
        )
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


def _wall_trap(shop: Shop, fixture: Fixture, trap: Trap, stubs: list[Stub]) -> None:
    if not trap.arm:
        return
    arm = shop.network.by_id[trap.arm[0]]
    if not arm.id.endswith(".arm"):
        shop.fault(
            "no-room",
            tuple(dict.fromkeys((fixture.id, arm.element))),
            shop.space(trap.node),
            f"No room: the trap of {fixture.name or fixture.id} stands on the axis of its riser, with no arm between them.",
            mend="Give it the length of its arm, from the trap's weir to the riser's axis.",
        )
        return
    if arm.size <= LARGEST_TUBULAR:
        _tubular_trap(shop, fixture, arm)
        return
    socket = drain(trap.size).socket
    toward: Space = (arm.heading[0], arm.heading[1], 0.0)
    below, reach = (_off(shop, "p_trap", (trap.size, trap.size), leg) for leg in ("run_in", "run_out"))
    zero = TakeOff(0.0, reach.tolerance, reach.standing, "the arm is drawn from the trap's outlet stop")
    index = shop.add(
        "p_trap",
        (trap.size, trap.size),
        "waste",
        arm.start,
        (
            Port("inlet", None, UP, trap.size, "hub", below, socket),
            Port("outlet", arm.id, toward, trap.size, "hub", zero, socket),
        ),
        elements=(fixture.id,),
    )
    shop.seat[(arm.id, True)] = (index, 1)
    rim = (
        fixture.rim_above_floor if fixture.rim_above_floor is not None else trade.fixture(fixture.kind).rim_above_floor
    )
    if rim is not None:
        z = arm.start.level
        inlet_x = arm.start.x - toward[0] * reach.length
        inlet_y = arm.start.y - toward[1] * reach.length
        top = shop.plan.floor.finished_z + rim
        stubs.append(
            Stub(
                "waste",
                trap.size,
                (inlet_x, inlet_y, top),
                (inlet_x, inlet_y, z),
                None,
                (index, 0),
                f"{fixture.id}.standpipe",
            )
        )


def _tubular_trap(shop: Shop, fixture: Fixture, arm: Pipe) -> None:
    """A trap with slip nuts: its adapter fills the hub that waits for the arm, by a bushing where no adapter is so wide."""
    shop.dead.add(arm.id)
    seated = shop.seat.get((arm.id, False))
    host = shop.parts[seated[0]] if seated is not None else None
    hub = arm.size
    if host is not None and seated is not None:
        hub = max(arm.size, host.size[-1] if host.ports[seated[1]].role.startswith("branch") else max(host.size[:2]))
    filled = _adapter_hub(hub, arm.size)
    own = (fixture.id,)
    adapter = shop.add(
        "trap_adapter_spigot", (filled, arm.size), "waste", arm.end, (), elements=own, note=_hub_words(host, seated)
    )
    if host is not None and seated is not None:
        into, port = host.id, seated[1]
        if filled < hub:
            bushing = shop.add(
                "flush_bushing", (hub, filled), "waste", arm.end, (), elements=own, note=_hub_words(host, seated)
            )
            shop.bonds.append(Bond(into, port, shop.parts[bushing].id, 0, hub))
            into, port = shop.parts[bushing].id, 1
            shop.replace(adapter, note="in the bushing")
        shop.bonds.append(Bond(into, port, shop.parts[adapter].id, 0, filled))
    shop.add("tubular_trap", (arm.size,), "waste", arm.start, (), elements=own, note="with nuts and washers")
    closes = "closes the trap adapter for the test"
    shop.add("test_plug", (filled,), "waste", arm.end, (), elements=own, note=closes)


def _adapter_hub(hub: float, arm: float) -> float:
    """The widest hub, up to the one that waits, that a trap adapter for this arm is sold for; that hub where none is."""
    fit = [size[0] for size in fittings.sizes("trap_adapter_spigot") if size[1] == arm and size[0] <= hub]
    return max(fit, default=hub)


def _hub_words(host: Part | None, seated: tuple[int, int] | None) -> str:
    """Which hub something small goes into, as the list says it."""
    if host is None or seated is None:
        return ""
    if host.ports[seated[1]].role.startswith("branch"):
        return f"in the {'tee' if 'tee' in host.kind else 'fitting'}'s branch hub"
    return f"in the {'bend' if 'bend' in host.kind else 'fitting'}'s hub"


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
    legs = []
    for role, toward, owner in (
        ("run_in", (-pipe.heading[0], -pipe.heading[1], 0.0), pipe.id),
        ("run_out", DOWN, None),
    ):
        off = _off(shop, kind, (pipe.size, pipe.size), role)
        legs.append(Port(role, owner, toward, pipe.size, "hub", off, socket))  # type: ignore[arg-type]
    index = shop.add(
        kind,
        (pipe.size, pipe.size),
        "waste",
        node,
        tuple(legs),
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
        adapter = _on_top(shop, riser, uppermost, at, "aav_adapter", _off(shop, "aav_adapter", size, "run_in"))
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
