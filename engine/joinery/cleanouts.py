"""Cleanouts: the adapter and plug that close a drain's upper end, and the tee that opens a riser."""

from __future__ import annotations

from engine.drafting.finished import at_riser
from engine.joinery.legs import Leg
from engine.joinery.records import Bond, Port
from engine.joinery.shop import Shop
from engine.piping.records import UNDER, Node, Pipe
from engine.plan.records import Cleanout
from engine.trade.pipe import drain


def plug_id(cleanout: Cleanout) -> str:
    """The name of the end that a cleanout's adapter closes."""
    return f"{cleanout.id}.plug"


def add_legs(shop: Shop, legs_at: dict[Node, list[Leg]]) -> None:
    """Add to each node with a cleanout the leg that its adapter closes: straight on from the pipe that leaves.

    Where nothing but that pipe meets the node no leg is added: the adapter goes on the pipe's own end.
    """
    for cleanout in shop.plan.cleanouts:
        node = Node(cleanout.at[0], cleanout.at[1], UNDER)
        legs = legs_at.get(node, [])
        out = next((leg for leg in legs if leg.flow == "out"), None)
        if cleanout.above_floor is not None or out is None or len(legs) == 1 or out.plumb:
            continue
        back = (-out.toward[0], -out.toward[1], 0.0)
        stub = Pipe(
            id=plug_id(cleanout),
            element=cleanout.id,
            segment=0,
            system="waste",
            shape="level",
            start=node,
            end=node,
            run=0.0,
            heading=(out.toward[0], out.toward[1]),
            slope=0.0,
            size=out.size,
            pinned_size=False,
            passing="through",
            fixture=None,
            load=0.0,
            carries=(),
        )
        legs.append(Leg(stub, False, back, out.size, "in"))


def close(shop: Shop, legs_at: dict[Node, list[Leg]]) -> None:
    """Put the adapter, plug or tee of every cleanout on the bench."""
    for cleanout in shop.plan.cleanouts:
        if cleanout.above_floor is not None:
            _in_riser(shop, cleanout, legs_at)
        else:
            _at_end(shop, cleanout, legs_at)


def _at_end(shop: Shop, cleanout: Cleanout, legs_at: dict[Node, list[Leg]]) -> None:
    node = Node(cleanout.at[0], cleanout.at[1], UNDER)
    legs = legs_at.get(node, [])
    seated = shop.seat.get((plug_id(cleanout), False))
    elements = (cleanout.id,)
    if seated is not None:
        port = shop.parts[seated[0]].ports[seated[1]]
        size = (port.size, port.size)
        adapter = shop.add("cleanout_adapter_spigot_fpt", size, "waste", node, (), elements=elements)
        shop.bonds.append(Bond(shop.parts[seated[0]].id, seated[1], shop.parts[adapter].id, 0, port.size))
    elif len(legs) == 1 and legs[0].flow == "out":
        leg = legs[0]
        off = shop.take_off("cleanout_adapter_hub_fpt", (leg.size, leg.size), "run_in")
        hub = Port("run_in", leg.pipe.id, leg.toward, leg.size, "hub", off, drain(leg.size).socket)
        size = (leg.size, leg.size)
        adapter = shop.add("cleanout_adapter_hub_fpt", size, "waste", node, (hub,), elements=elements)
        shop.seat[(leg.pipe.id, leg.at_start)] = (adapter, 0)
    else:
        shop.fault(
            "no-fitting-joins-these",
            elements,
            shop.space(node),
            f"Cleanout {cleanout.id} stands where no drain's upper end can be opened.",
            mend="Move it to the upper end of a drain, or to a place where a drain comes down or turns.",
        )
        return
    shop.add("cleanout_plug", (size[0],), "waste", node, (), elements=elements)


def _in_riser(shop: Shop, cleanout: Cleanout, legs_at: dict[Node, list[Leg]]) -> None:
    z = at_riser(shop.plan, cleanout.at) + (cleanout.above_floor or 0.0)
    node = Node(cleanout.at[0], cleanout.at[1], z)
    legs = legs_at.get(node, [])
    upper = next((leg for leg in legs if leg.plumb and leg.toward[2] > 0.0), None)
    lower = next((leg for leg in legs if leg.plumb and leg.toward[2] < 0.0), None)
    if upper is None or lower is None or len(legs) != 2:
        shop.fault(
            "no-fitting-joins-these",
            (cleanout.id,),
            (cleanout.at[0], cleanout.at[1], z),
            f"Cleanout {cleanout.id} stands on no riser, or where another pipe meets it.",
            mend="Set it on a riser, a little above or below the other pipe.",
        )
        return
    size = max(upper.size, lower.size)
    ports = []
    for leg, role in ((upper, "run_in"), (lower, "run_out")):
        off = shop.take_off("test_tee", (size, size, size), "run_in" if role == "run_in" else "run_out")
        ports.append(
            Port(
                "run_in" if role == "run_in" else "run_out",
                leg.pipe.id,
                leg.toward,
                leg.size,
                "hub",
                off,
                drain(leg.size).socket,
            )
        )
    system = "vent" if upper.dry and lower.dry else "waste"
    tee = shop.add(
        "test_tee",
        (size, size, size),
        "vent" if system == "vent" else "waste",
        node,
        tuple(ports),
        dial=cleanout.turn,
        elements=(cleanout.id,),
    )
    shop.seat[(upper.pipe.id, upper.at_start)] = (tee, 0)
    shop.seat[(lower.pipe.id, lower.at_start)] = (tee, 1)
    shop.add("cleanout_plug", (size,), "waste", node, (), elements=(cleanout.id,))
