"""The water lines' fittings among the other parts: they are counted and shown, but no cut length hangs on them."""

from __future__ import annotations

from engine.joinery.shop import Shop
from engine.piping.records import Node
from engine.water.bends import NoRoom
from engine.water.joints import joints
from engine.water.network import WaterNetwork

HELD = ("tube_bend_support",)
"""Kinds that hold the tube in its bend: they are counted with what carries the pipes."""


def add_water(shop: Shop, network: WaterNetwork) -> None:
    """Put every fitting of the hot and cold runs on the bench, and report where none would do."""
    made, faults = joints(shop.plan, network)
    depth = min((field_depth for field_depth in shop.depths), default=0.0)
    downs = {supply.id: supply.down for supply in shop.plan.supplies}
    for joint in made:
        if joint.kind in HELD:
            continue
        down = downs.get(joint.elements[0])
        z = -(depth / 2.0) if down is None else -down
        node = Node(joint.at[0], joint.at[1], z)
        elements = joint.elements if joint.fixture is None else (*joint.elements, joint.fixture)
        shop.add(
            joint.kind,
            joint.size,
            joint.water,
            node,
            (),
            centre=(node.x, node.y, z),
            elements=elements,
            note=joint.note,
        )
    for fault in faults:
        if isinstance(fault, NoRoom):
            down = downs.get(fault.elements[0])
            z = -(depth / 2.0) if down is None else -down
            at = (fault.at[0], fault.at[1], z)
            mend = "Draw the two farther apart, or lay the tube lower."
            shop.fault("no-room", fault.elements, at, fault.text, fault.has, fault.wants, "in", mend)
            continue
        shop.fault(
            "no-fitting-joins-these",
            fault.elements,
            (fault.at[0], fault.at[1], 0.0),
            fault.text,
            mend="Move one of them.",
        )
