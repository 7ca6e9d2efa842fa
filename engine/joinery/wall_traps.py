"""Traps of what empties into a wall: with slip nuts under a bowl, glued under a standpipe or where they are wider."""

from __future__ import annotations

from engine.drafting.finished import under_fixture
from engine.joinery.pieces import Stub
from engine.joinery.records import Bond, Part, Port, Space, TakeOff
from engine.joinery.shop import Shop
from engine.piping.records import Node, Pipe, Trap
from engine.plan.records import Fixture
from engine.trade import fittings
from engine.trade import fixtures as trade
from engine.trade.habits import LARGEST_TUBULAR
from engine.trade.pipe import drain

UP: Space = (0.0, 0.0, 1.0)


def wall_trap(shop: Shop, fixture: Fixture, trap: Trap, stubs: list[Stub]) -> None:
    """Add a fixture's trap at the end of its arm, and a standpipe to `stubs` where its waste comes by one."""
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
    elif shop.tubular_arm(arm):
        _tubular_trap(shop, fixture, arm)
    else:
        _glued_trap(shop, fixture, trap, arm, stubs)


def _glued_trap(shop: Shop, fixture: Fixture, trap: Trap, arm: Pipe, stubs: list[Stub]) -> None:
    socket = drain(trap.size).socket
    toward: Space = (arm.heading[0], arm.heading[1], 0.0)
    below, reach = (
        shop.take_off("p_trap", (trap.size, trap.size), "run_in"),
        shop.take_off("p_trap", (trap.size, trap.size), "run_out"),
    )
    zero = TakeOff(0.0, reach.tolerance, reach.standing, "the arm is drawn from the trap's outlet stop")
    ports = (
        Port("inlet", None, UP, trap.size, "hub", below, socket),
        Port("outlet", arm.id, toward, trap.size, "hub", zero, socket),
    )
    index = shop.add("p_trap", (trap.size, trap.size), "waste", arm.start, ports, elements=(fixture.id,))
    shop.seat[(arm.id, True)] = (index, 1)
    spec = trade.fixture(fixture.kind)
    if spec.comes_by == "tailpiece":
        tube = min(spec.trap or LARGEST_TUBULAR, LARGEST_TUBULAR)
        into = (shop.parts[index].id, 0)
        filled = _adapter(shop, fixture, arm.start, into, trap.size, tube, "in the trap's inlet")
        test_plug(shop, fixture, arm.start, filled)
        return
    rim = trade.rim_of(fixture)
    if rim is None:
        return
    inlet_x = arm.start.x - toward[0] * reach.length
    inlet_y = arm.start.y - toward[1] * reach.length
    top: Space = (inlet_x, inlet_y, under_fixture(shop.plan, fixture) + rim)
    foot: Space = (inlet_x, inlet_y, arm.start.level)
    stubs.append(Stub("waste", trap.size, top, foot, None, (index, 0), f"{fixture.id}.standpipe"))


def _tubular_trap(shop: Shop, fixture: Fixture, arm: Pipe) -> None:
    """A trap with slip nuts: its adapter fills the hub that waits for the arm, by a bushing where no adapter is so wide."""
    shop.dead.add(arm.id)
    seated = shop.seat.get((arm.id, False))
    host = shop.parts[seated[0]] if seated is not None else None
    hub, into = arm.size, None
    if host is not None and seated is not None:
        hub = max(arm.size, host.size[-1] if host.ports[seated[1]].role.startswith("branch") else max(host.size[:2]))
        into = (host.id, seated[1])
    filled = _adapter(shop, fixture, arm.end, into, hub, arm.size, _hub_words(host, seated))
    shop.add("tubular_trap", (arm.size,), "waste", arm.start, (), elements=(fixture.id,), note="with nuts and washers")
    test_plug(shop, fixture, arm.end, filled)


def test_plug(shop: Shop, fixture: Fixture, node: Node, size: float) -> None:
    """The plug that closes a trap adapter for the test."""
    closes = "closes the trap adapter for the test"
    shop.add("test_plug", (size,), "waste", node, (), elements=(fixture.id,), note=closes)


def _adapter(
    shop: Shop, fixture: Fixture, node: Node, into: tuple[str, int] | None, hub: float, tube: float, words: str
) -> float:
    """Put a trap adapter for a tube into a hub, by a bushing where no adapter is so wide. Returns the hub that it fills."""
    filled = _adapter_hub(hub, tube)
    own = (fixture.id,)
    adapter = shop.add("trap_adapter_spigot", (filled, tube), "waste", node, (), elements=own, note=words)
    if into is None:
        return filled
    if filled < hub:
        bushing = shop.add("flush_bushing", (hub, filled), "waste", node, (), elements=own, note=words)
        shop.bonds.append(Bond(*into, shop.parts[bushing].id, 0, hub))
        into = (shop.parts[bushing].id, 1)
        shop.replace(adapter, note="in the bushing")
    shop.bonds.append(Bond(*into, shop.parts[adapter].id, 0, filled))
    return filled


def _adapter_hub(hub: float, tube: float) -> float:
    """The widest hub, up to the one that waits, that a trap adapter for this tube is sold for; that hub where none is."""
    fit = [size[0] for size in fittings.sizes("trap_adapter_spigot") if size[1] == tube and size[0] <= hub]
    return max(fit, default=hub)


def _hub_words(host: Part | None, seated: tuple[int, int] | None) -> str:
    """Which hub something small goes into, as the list says it."""
    if host is None or seated is None:
        return ""
    if host.ports[seated[1]].role.startswith("branch"):
        return f"in the {'tee' if 'tee' in host.kind else 'fitting'}'s branch hub"
    return f"in the {'bend' if 'bend' in host.kind else 'fitting'}'s hub"
