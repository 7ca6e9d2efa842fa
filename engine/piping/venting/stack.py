"""A waste stack that vents its own fixtures: upright, straight, no closet on it, its vent as wide as itself."""

from __future__ import annotations

from engine.piping.venting.arms import Arm
from engine.piping.venting.scene import Attempt, Refused, Scene, Vented


def waste_stack(scene: Scene, arm: Arm) -> Attempt:
    """A drain that joins a waste stack by itself, below others, with the stack's vent going on above them all."""
    if arm.ends is None or arm.siphons:
        return None
    vented, airless = scene.others(arm)
    if not vented or not all(stick.id in scene.last for stick in airless):
        return None
    path = scene.airway(vented[0])
    if not all(stick.shape == "plumb" for stick in path) or scene.turns_level(arm.ends):
        return None
    unknown = scene.speaks("stack_vent", "waste stacks that are vents")
    if unknown is not None:
        return unknown
    if not scene.book.speaks_of("stack_vent"):
        return None
    through = {*path[-1].carries, arm.fixture.id}
    closets = sorted(f for f in through if scene.kinds[f] == "water_closet")
    if closets and not scene.book.says("stack_vent.closets"):
        return Refused(
            f"{', '.join(closets)} is on the stack, and no closet may be on a stack that is a vent",
            "stack_vent.closets",
        )
    for node in (stick.end for stick in path[:-1]):
        together = [s for s in scene.web.inflow.get(node, ()) if s not in path and s.id not in scene.last]
        if together:
            names = ", ".join(together[0].carries)
            return Refused(f"{names} join the stack by one drain, and each must join by its own", "stack_vent.total")
    starters = scene.starters(path[0].start)
    starter = starters[0].fixture.id if starters else ""
    return Vented("waste stack vent", scene.source(path), path[0].start, starter, arm.ends, len(arm.sticks), path)
