"""Where the parts stand that have no axes of their own: bushings in their hubs, adapters, plugs, caps, flashings."""

from __future__ import annotations

import math

from engine.drawings.isometric.skeleton import Mount, Skeleton, same_plumb, spot_key
from engine.joinery.records import Part, Space
from engine.plan.flooring import finished_at
from engine.study import Study
from engine.trade.habits import CLOSET_EXTRAS

FLANGES = ("closet_flange_4x3", "closet_flange_hub")
ADAPTERS = ("trap_adapter_spigot", "trap_adapter_hub")
TRAPS = ("tubular_trap", "p_trap")

FOLLOWS: dict[str, tuple[str, ...]] = {
    "waste_and_overflow": ADAPTERS,
    "test_plug": ("waste_and_overflow", *ADAPTERS),
    "cleanout_plug": ("cleanout_adapter_spigot_fpt", "cleanout_adapter_hub_fpt", "test_tee"),
    "admittance_valve": ("aav_adapter",),
    "test_cap": FLANGES,
    "flush_bushing": ("p_trap",),
    "continuous_waste": TRAPS,
    "branch_tailpiece": TRAPS,
    "standpipe_tee": TRAPS,
    "air_gap_fitting": TRAPS,
    "hose_clamp": ("branch_tailpiece", "air_gap_fitting", *TRAPS),
}
"""Which part of the same fixture or riser each of these goes onto, where no joint tells."""

OUTLET_SIDE = ("flush_bushing",)
"""Those that go onto the side where the water leaves."""

LOWEST = -1.0e6
"""Below every pipe, inches."""


def mount(bones: Skeleton, parts: list[Part], study: Study) -> None:
    """Give every part without axes its joint, direction and rank, and put closet bolts and the like under the flange."""
    hosts = {bond.other: (bond.part, bond.port) for bond in study.model.joinery.bonds}
    waiting = sorted(parts, key=lambda part: (part.id not in hosts, part.kind in FOLLOWS, _depth(part.kind)))
    for part in waiting:
        if part.kind in CLOSET_EXTRAS:
            leader = _leader(bones, part, FLANGES)
            if leader is not None:
                bones.extras.setdefault(leader.id, []).append(part)
                continue
        made = _on_host(bones, part, hosts) or _behind(bones, part, study) or _at_end(bones, part, study)
        bones.mounts.append(made)


def _depth(kind: str) -> int:
    """How many parts a kind comes after in its row."""
    before = FOLLOWS.get(kind, ())
    return 1 + max((_depth(other) for other in before), default=0)


def _on_host(bones: Skeleton, part: Part, hosts: dict[str, tuple[str, int]]) -> Mount | None:
    """In the opening of the fitting that it is glued to."""
    name, number = hosts.get(part.id, ("", 0))
    joint = bones.joints.get(name)
    if joint is None:
        return None
    toward = joint.fittings[0].ports[number].toward
    return Mount(part, name, toward, _rank(bones, name, toward))


def _behind(bones: Skeleton, part: Part, study: Study) -> Mount | None:
    """Onto the part that it closes or completes."""
    leader = _leader(bones, part, FOLLOWS.get(part.kind, ()))
    if leader is None:
        return None
    for made in bones.mounts:
        if made.part is leader:
            return Mount(part, made.joint, made.toward, _rank(bones, made.joint, made.toward))
    toward = _open_side(leader, part, study)
    return Mount(part, leader.id, toward, _rank(bones, leader.id, toward))


def _leader(bones: Skeleton, part: Part, kinds: tuple[str, ...]) -> Part | None:
    """The shown part of one of these kinds, first named first, that serves the same element at the same point."""
    shown = [*(f for joint in bones.joints.values() for f in joint.fittings), *(m.part for m in bones.mounts)]
    for kind in kinds:
        for other in shown:
            if other.kind == kind and part.elements[:1] == other.elements[:1] and same_plumb(part.node, other.node):
                return other
    return None


def _open_side(leader: Part, part: Part, study: Study) -> Space:
    """The side of a fitting with no pipe on it; for what goes onto the outlet, that one."""
    if part.kind in OUTLET_SIDE:
        return leader.ports[-1].toward
    if leader.kind == "test_tee":
        return opening(leader, study)
    if leader.kind in FLANGES or len(leader.ports) != 1:
        return (0.0, 0.0, 1.0)
    a, b, c = leader.ports[0].toward
    return (-a, -b, -c)


def opening(tee: Part, study: Study) -> Space:
    """The side to which a cleanout's tee opens."""
    turns = {cleanout.id: math.radians(cleanout.turn) for cleanout in study.plan.cleanouts}
    turn = turns.get(tee.elements[0], 0.0)
    return (math.cos(turn), math.sin(turn), 0.0)


def _at_end(bones: Skeleton, part: Part, study: Study) -> Mount:
    """On the nearest pipe end over the same point, away from the pipe; on a place of its own where there is none."""
    ends = bones.at_joint()
    over = [
        key
        for key, joint in bones.joints.items()
        if same_plumb(joint.at, part.centre) and len(ends[key]) == 1 and not joint.fittings
    ]
    if not over:
        key = spot_key(part.centre)
        bones.joint(key, part.centre)
        return Mount(part, key, None, _rank(bones, key, None))
    key = min(over, key=lambda key: abs(bones.joints[key].at[2] - _wanted_height(part, study)))
    toward = bones.outward(key, ends[key][0])
    return Mount(part, key, toward, _rank(bones, key, toward))


def _wanted_height(part: Part, study: Study) -> float:
    """The height of the end that a part closes: a floor drain's stub is closed above, the building drain below."""
    if part.kind == "test_cap" and part.elements[0] in {exit_.id for exit_ in study.plan.exits}:
        return LOWEST
    if part.kind == "test_cap":
        return finished_at(study.plan, (part.centre[0], part.centre[1]))
    return part.centre[2]


def _rank(bones: Skeleton, joint: str, toward: Space | None) -> int:
    """How many parts stand there already."""
    return sum(1 for made in bones.mounts if made.joint == joint and made.toward == toward)
