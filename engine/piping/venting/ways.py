"""The arrangements that vent traps: who is vented together, from where, through which pipes."""

from __future__ import annotations

from engine.piping.records import Method, VentWay
from engine.piping.venting.scene import Scene, Vented

TAKES_ITS_STARTER: frozenset[Method] = frozenset(
    {"common vent at two levels", "vertical wet vent", "waste stack vent", "circuit vent"}
)
"""Methods in which the fixture that the dry vent meets is one of those vented together, not a case of its own."""
UPRIGHT: frozenset[Method] = frozenset({"vertical wet vent", "waste stack vent"})
"""Methods that take the upper two of three or more on one upright drain along."""
Group = tuple[object, ...]


def gather(scene: Scene, found: dict[str, Vented]) -> tuple[tuple[VentWay, ...], dict[str, int]]:
    """The arrangements by number, and each vented fixture's."""
    groups: dict[Group, list[str]] = {}
    of: dict[str, Group] = {}
    for name, vented in found.items():
        of[name] = _group(name, vented)
    for name, vented in found.items():
        if vented.method in TAKES_ITS_STARTER and vented.starter in of:
            of[vented.starter] = of[name]
    tall = {vented.dry: of[name] for name, vented in found.items() if vented.method in UPRIGHT}
    for name, vented in found.items():
        if vented.method == "common vent at two levels" and vented.dry in tall:
            of[name] = tall[vented.dry]
    for name, group in of.items():
        groups.setdefault(group, []).append(name)
    ways: list[VentWay] = []
    way_of: dict[str, int] = {}
    for members in groups.values():
        shared = [found[name] for name in members]
        lead = max(shared, key=_reach)
        ordered = sorted(members, key=lambda name: (name != lead.starter, len(found[name].path)))
        pipes = dict.fromkeys(stick.id for vented in sorted(shared, key=_reach) for stick in vented.path)
        ways.append(VentWay(len(ways), lead.method, lead.source, lead.dry, lead.starter, tuple(ordered), tuple(pipes)))
        way_of.update(dict.fromkeys(members, len(ways) - 1))
    return tuple(ways), way_of


def _reach(vented: Vented) -> tuple[bool, int]:
    """How far an arrangement goes: those that take their starter along before a vent of its own."""
    return vented.method in TAKES_ITS_STARTER, len(vented.path)


def _group(name: str, vented: Vented) -> Group:
    """What the members of one arrangement have in common."""
    match vented.method:
        case "individual vent" | "island vent":
            return (vented.method, name)
        case "combination waste and vent":
            return (vented.method, vented.system)
        case _:
            return (vented.method, vented.dry)
